"""Bolts and anchors found off their place in two directions, by hand and through the kinds' own checks."""

from contextlib import suppress
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import attachments
from engine.editions import US_2021
from engine.errors import BadInput
from engine.result import LimitState, Verdict
from engine.review import accepted, as_built
from engine.review.shifts import ACROSS, ALONG, MOVES, UP, shifted
from engine.solve import holds

PAIRS = [(kind, tuple(keys)) for kind, keys in MOVES.items() if len(keys) == 2]


def _start(kind: str, **changes: object) -> Any:
    return attachments.kind(kind).inputs(**changes)


def _line(kind: str, measured: dict[str, float], key: str, **changes: object) -> LimitState:
    result = as_built(kind, _start(kind, **changes), US_2021, measured).result
    assert result is not None
    return next(state for state in result.states if state.key == key)


def _range(kind: str, key: str, **changes: object) -> tuple[float | None, float | None]:
    return next((a.low, a.high) for a in accepted(kind, _start(kind, **changes), US_2021) if a.measure.key == key)


def test_a_ledge_bolt_may_go_back_only_to_the_middle_third_of_its_plate() -> None:
    # Plate 3 1/2 in, bolt 1 1/4 in from its back: the middle third begins at 3.5 / 3 = 1.1667 in (IRC R403.1.6), 0.0833 in away;
    # a tape reads 1/16 in.
    assert _range("ledge_seat", ACROSS)[0] == -1 / 16


def test_a_sill_bolt_keeps_four_diameters_to_the_plates_edge() -> None:
    # 2x6, 1/2 in bolt 2 3/4 in from the edge of 5 1/2 in: 4 D = 2 in (NDS 12.5.1C, loaded edge) leaves 3/4 in either way, less than
    # the middle third's 2.75 - 1.8333 = 0.9167 in.
    assert _range("sill_plate", ACROSS) == (-0.75, 0.75)


def test_a_ledger_bolt_found_higher_leaves_less_wood_between_it_and_the_loaded_edge() -> None:
    # NDS 3.4.3.3: V_r' = 2/3 F_v' b d_e (d_e / d)^2 beside an end, so by d_e alone it goes as d_e^3; d_e = 6.5 - 1/4 = 6.25 in.
    drawn, built = (_line("bolted_ledger", {UP: up}, "ledger-shear") for up in (0.0, 0.25))
    assert drawn.capacity
    assert built.capacity
    assert built.capacity / drawn.capacity == pytest.approx((6.25 / 6.5) ** 3, rel=1e-9)


def test_a_plate_found_off_to_the_right_has_its_beam_at_its_left_and_its_edge_nearer() -> None:
    inputs = _start("anchored_plate", left_in=20.0, right_in=12.0, next_in=40.0)
    (built,) = shifted("anchored_plate", inputs, ALONG, 0.75)
    assert (built.left_in, built.right_in, built.off_in, built.next_in) == (20.75, 11.25, -0.75, 39.25)
    # Leg's outer face 3.5 / 2 + 0.25 = 2 in from the middle, anchors 3.5 in: 1 1/2 in between for the nut.
    low, high = _range("anchored_plate", ALONG)
    assert (low, high) == (-0.875, 0.875)


def test_a_plate_found_off_to_one_side_turns_and_its_anchors_share_unevenly() -> None:
    # V = 1.2 x 500 + 1.6 x 1300 = 2,680 lb, 0.75 in beside the middle: T = 2,010 lb-in on anchors at 3.5 in both ways, r^2 summed
    # 4 x (3.5^2 + 3.5^2) = 98 in2; T x 3.5 / 98 = 71.79 lb up or down and sideways (elastic method) beside 2,680 / 4 = 670 lb down.
    turned = (1.2 * 500 + 1.6 * 1300) * 0.75 * 3.5 / 98
    by_hand = ((670 + turned) ** 2 + turned**2) ** 0.5
    assert by_hand == pytest.approx(745.25, abs=0.005)
    assert _line("anchored_plate", {ALONG: 0.75}, "anchor-steel-shear").demand == pytest.approx(by_hand, rel=1e-9)


def test_a_plate_found_higher_has_less_concrete_above_and_its_fasteners_nearer_the_members_top() -> None:
    inputs = _start("anchored_plate", top_of_wall=True, top_edge_in=9.0, over_opening=True, bottom_edge_in=14.0)
    (built,) = shifted("anchored_plate", inputs, UP, 0.5)
    assert (built.top_edge_in, built.bottom_edge_in, built.f_top_in) == (8.5, 14.5, 3.25)


def test_a_bolt_off_along_the_wall_is_tried_with_either_neighbour_and_ties_stay_on_their_bolts() -> None:
    wide, near, away = shifted(
        "bolted_ledger", _start("bolted_ledger"), ALONG, -0.5
    )  # 16 in apart, a tie at every third bolt
    assert (wide.spacing_in, near.spacing_in) == (16.5, 15.5)
    assert (wide.tie_spacing_in, near.tie_spacing_in) == (49.5, 46.5)
    assert (away.spacing_in, away.tie_spacing_in) == (15.5, 46.5)
    assert (wide.end_in, near.end_in, away.end_in) == (7.5, 7.5, 8.5)


def test_a_sill_bolt_found_away_from_the_end_of_its_piece_leaves_the_code_s_window() -> None:
    # IRC R403.1.6: the end bolts stand within 12 in of the piece's ends; 11 1/2 + 1 = 12 1/2 in flags, 11 + 1 = 12 in does not
    def ends(end_in: float, off_in: float) -> set[Verdict]:
        drawn = _start("sill_plate", end_in=end_in, spacing_in=16.0)
        checks = [attachments.check("sill_plate", one, US_2021) for one in shifted("sill_plate", drawn, ALONG, off_in)]
        return {state.verdict for check in checks for state in check.states if state.key == "bolt-ends"}

    assert ends(11.5, 0.0) == ends(11.0, 1.0) == {Verdict.PASS}
    assert Verdict.FLAG in ends(11.5, 1.0)


def test_a_shift_beyond_what_the_check_reaches_is_said() -> None:
    with pytest.raises(BadInput, match="farther off than the check reaches"):
        as_built("sill_plate", _start("sill_plate"), US_2021, {ACROSS: -3.0})


def test_what_was_measured_before_shifts_were_is_still_read() -> None:
    old = as_built("sill_plate", _start("sill_plate"), US_2021, {"across_in": 2.5})
    assert old.inputs == replace(_start("sill_plate"), across_in=2.5)


@pytest.mark.parametrize(("kind", "keys"), PAIRS)
def test_no_shift_is_as_drawn(kind: str, keys: tuple[str, str]) -> None:
    inputs = _start(kind)
    assert as_built(kind, inputs, US_2021, dict.fromkeys(keys, 0.0)).result == attachments.check(kind, inputs, US_2021)


@pytest.mark.parametrize(("kind", "keys"), PAIRS)
def test_a_survey_in_two_directions_is_the_check_of_both_changes_at_once(kind: str, keys: tuple[str, str]) -> None:
    inputs = _start(kind)
    one, other = (0.125, -0.125)
    every = [two for first in shifted(kind, inputs, keys[0], one) for two in shifted(kind, first, keys[1], other)]
    base = attachments.check(kind, inputs, US_2021, recording=False)
    found = as_built(kind, inputs, US_2021, {keys[0]: one, keys[1]: other})
    assert found.inputs in every
    each = [holds(attachments.check(kind, built, US_2021, recording=False), base) for built in every]
    assert (found.result is not None and holds(found.result, base)) == all(each)


@pytest.mark.parametrize("kind", MOVES)
@settings(max_examples=15, deadline=None)
@given(st.floats(-2, 2), st.floats(-2, 2))
def test_no_survey_within_reach_breaks_the_check(kind: str, along: float, other: float) -> None:
    measured = dict(zip(MOVES[kind], (along, other), strict=False))
    with suppress(BadInput):  # beyond an input's stated range
        assert as_built(kind, _start(kind), US_2021, measured).off


def test_a_sill_bolt_off_along_the_wall_flags_where_its_space_is_wider_than_the_row_it_was_read_in() -> None:
    # A piece of 12 ft with its end bolts at 8 in holds 6 spaces of 128 / 6 = 21 1/3 in where 24 in may be: 2 2/3 in of room.
    inputs = _start("sill_plate")
    assert [shifted("sill_plate", inputs, ALONG, off)[0].spacing_in for off in (2.5, -2.5)] == [24.0, 24.0]
    assert shifted("sill_plate", inputs, ALONG, 3.0)[0].spacing_in == pytest.approx(24 + 1 / 3)
    assert _range("sill_plate", ALONG) == (None, None)
    (tie,) = {s.verdict for s in attachments.check("sill_plate", shifted("sill_plate", inputs, ALONG, 3.0)[0], US_2021).states
              if s.title == "Prescriptive tie to the wall"}  # fmt: skip
    assert tie is not Verdict.PASS


def test_a_bolt_within_either_range_may_flag_when_it_is_off_both_ways() -> None:
    # A ledger's bolts near their limit in shear along the wall and in edge distance up it: neither holds with the other used up.
    inputs = _start("bolted_ledger")
    base = attachments.check("bolted_ledger", inputs, US_2021)
    ends = {ALONG: _range("bolted_ledger", ALONG)[1], UP: _range("bolted_ledger", UP)[1]}
    assert all(end is not None and end > 0 for end in ends.values())
    for alone in ({ALONG: ends[ALONG], UP: 0.0}, {ALONG: 0.0, UP: ends[UP]}):
        found = as_built("bolted_ledger", inputs, US_2021, alone).result  # type: ignore[arg-type]
        assert found
        assert holds(found, base)
    both = as_built("bolted_ledger", inputs, US_2021, ends).result  # type: ignore[arg-type]
    assert both
    assert not holds(both, base)
