"""Solving backwards: the answer can be bought, holds, and is the nearest that does."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import attachments, fields, solve
from engine.attachments import KINDS
from engine.attachments.beam_pocket import Inputs as Pocket
from engine.attachments.ledge_seat import Inputs as Seat
from engine.editions import US_2021
from engine.errors import BadInput
from engine.result import Verdict


def check(key: str, inputs):
    return attachments.check(key, inputs, US_2021, recording=False)


def test_a_short_bearing_is_cured_by_the_wall_or_the_ledge() -> None:
    """10 in core under a 6 in one with foam whole leaves 1 1/2 in; a 12 in core leaves the plate's 3 1/2 in."""
    found = solve.remedies("ledge_seat", Seat(top="square"), US_2021)
    words = [r.words() for r in found]
    assert "Have the upper foam cut away along the line" in words
    assert "Make the lower core 12 in" in words
    assert [r.wall for r in found] == sorted(r.wall for r in found)


def test_a_pocket_too_short_is_made_just_long_enough() -> None:
    """3 in of bearing and a 1/2 in end gap: 3 1/2 in."""
    remedy, blocked = solve.solve("beam_pocket", Pocket(pocket_length_in=2.5), US_2021, "pocket_length_in")
    assert blocked is None
    assert remedy is not None
    assert remedy.changes == {"pocket_length_in": "3 1/2"}


def test_where_no_value_does_it_the_blocking_line_is_named() -> None:
    remedy, blocked = solve.solve("beam_pocket", Pocket(filled=True), US_2021, "pocket_width_in")
    assert remedy is None
    assert blocked is not None
    assert blocked.key == "air"


def test_an_attachment_that_holds_has_nothing_to_remedy_and_room_to_slip() -> None:
    assert solve.remedies("ledge_seat", Seat(), US_2021) == ()
    slips = {s.spec.name: s for s in solve.slips("ledge_seat", Seat(), US_2021)}
    assert slips["end_gap_in"].high == 2.0  # 3 1/2 less 1 1/2 in of bearing
    assert slips["end_gap_in"].high_breaks == "Bearing, code minimum"
    assert slips["bolt_embedment_in"].low == 7.0


def test_an_attachment_that_flags_has_no_room_to_slip() -> None:
    assert solve.slips("ledge_seat", Seat(top="square"), US_2021) == ()


def test_an_unknown_input_names_the_known_ones() -> None:
    with pytest.raises(BadInput, match="lower_core_in"):
        solve.solve("ledge_seat", Seat(), US_2021, "width")


@given(
    st.integers(0, 47).map(lambda n: n / 8),
    st.sampled_from(["whole", "cut_joist", "cut_line"]),
    st.integers(48, 160).map(lambda n: n / 8),
)
@settings(max_examples=25, deadline=None)
def test_every_remedy_holds_and_can_be_bought(gap: float, upper_foam: str, core: float) -> None:
    inputs = Seat(end_gap_in=gap, upper_foam=upper_foam, lower_core_in=core)
    base = check("ledge_seat", inputs)
    for remedy in solve.remedies("ledge_seat", inputs, US_2021):
        changed, errors = fields.read(Seat, {**fields.write(inputs), **remedy.changes})
        assert not errors
        assert solve.holds(check("ledge_seat", changed), base)
        for spec, value in zip(remedy.specs, remedy.values, strict=True):
            if spec.kind == "number":
                assert value / spec.step == pytest.approx(round(value / spec.step)) or value in (spec.low, spec.high)


@given(st.integers(16, 48).map(lambda n: n / 8))
@settings(max_examples=25, deadline=None)
def test_a_hair_short_of_the_answer_still_flags(length: float) -> None:
    inputs = Pocket(pocket_length_in=length)
    if check("beam_pocket", inputs).verdict is not Verdict.FLAG:
        return
    remedy, _ = solve.solve("beam_pocket", inputs, US_2021, "pocket_length_in")
    assert remedy is not None
    (value,) = remedy.values
    nearer = replace(inputs, pocket_length_in=value - 0.25 if value > length else value + 0.25)
    assert check("beam_pocket", nearer).verdict is Verdict.FLAG or abs(value - length) <= 0.25


@pytest.mark.parametrize("key", list(KINDS))
def test_slips_are_the_last_values_that_hold(key: str) -> None:
    inputs = KINDS[key].inputs()
    base = check(key, inputs)
    for slip in solve.slips(key, inputs, US_2021):
        for value in (slip.low, slip.high):
            if value is not None:
                assert solve.holds(check(key, replace(inputs, **{slip.spec.name: value})), base), slip.spec.name
