"""A beam end in a pocket, worked by hand and by property."""

from dataclasses import replace
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import attachments
from engine.attachments.beam_pocket import Inputs, geometry
from engine.editions import US_2021, US_2024
from engine.errors import BadInput
from engine.result import Verdict


def judged(edition=US_2021, **changes):
    return attachments.check("beam_pocket", Inputs(**changes), edition)


def test_the_beam_bears_what_the_pocket_leaves_it() -> None:
    """4 in pocket less the 1/2 in end gap; 5 1/2 in wide for a 4 1/2 in beam; 9 3/4 in high for 9 1/4 in."""
    pocket = geometry(Inputs())
    assert (pocket.bearing, pocket.side_gap, pocket.top_gap, pocket.behind) == (3.5, 0.5, 0.5, 4.0)


@pytest.mark.parametrize(
    ("seat", "need"), [("concrete", 3.0), ("loose_plate", 3.0), ("anchored_plate", 1.5), ("wood_plate", 3.0)]
)
def test_what_is_beneath_sets_the_least_bearing(seat: str, need: float) -> None:
    """IRC 2021 R502.6. A loose plate leaves 3 in; a wood plate counts only with 2 in nominal and 48 sq in (here 6 x 3 1/2)."""
    assert judged(seat=seat, plate_thickness_in=1.5)["bearing-code"].demand == need


def test_a_wood_plate_of_48_square_inches_counts_as_wood() -> None:
    assert judged(seat="wood_plate", plate_thickness_in=1.5, plate_width_in=13.5)["bearing-code"].demand == 1.5


@pytest.mark.parametrize(
    "changes", [{"pocket_width_in": 5.25}, {"pocket_height_in": 9.5}, {"end_gap_in": 0.25}, {"filled": True}]
)
def test_a_wood_beam_without_air_is_flagged(changes: dict) -> None:
    """IRC 2021 R317.1 item 4: 1/2 in on top, sides and end."""
    assert judged(**changes)["air"].verdict is Verdict.FLAG


def test_a_treated_end_may_do_without_air() -> None:
    assert judged(pocket_width_in=4.5, treated=True)["air"].verdict is Verdict.PASS


def test_a_beam_too_large_for_its_pocket_says_by_how_much() -> None:
    line = judged(pocket_width_in=4.0)["air"]
    assert line.verdict is Verdict.FLAG
    assert line.facts["over"] == (0.25, "in")


def test_the_air_rule_moved_in_the_2024_code() -> None:
    assert judged()["air"].source.label(US_2021) == "IRC 2021 R317.1"
    assert judged(edition=US_2024)["air"].source.label(US_2024) == "IRC 2024 R304.1"


def test_beam_crushing_by_hand() -> None:
    """Douglas fir-larch 625 psi (NDS 2018 Supplement Table 4A), no increase at an end: 625 x 4.5 x 3.5."""
    line = judged()["crushing"]
    assert line.demand == 5500.0
    assert line.capacity == pytest.approx(625 * 4.5 * 3.5)


def test_concrete_bearing_at_a_flush_seat_has_no_increase() -> None:
    """ACI 318-19 22.8.3.2: 0.65 x 0.85 x 3000 x 4.5 x 3.5; 1.2 x 1500 + 1.6 x 4000."""
    line = judged()["concrete-bearing"]
    assert line.demand == pytest.approx(1.2 * 1500 + 1.6 * 4000)
    assert line.capacity == pytest.approx(0.65 * 0.85 * 3000 * 4.5 * 3.5)


def test_a_seat_held_back_gains_by_equal_offsets() -> None:
    """Held back 1 in: A1 = 4.5 x 2.5, the base 6.5 x 4.5, ratio sqrt(A2/A1)."""
    line = judged(setback_in=1.0)["concrete-bearing"]
    A_1, A_2 = 4.5 * 2.5, 6.5 * 4.5
    assert line.capacity == pytest.approx(0.65 * 0.85 * 3000 * A_1 * sqrt(A_2 / A_1))


def test_the_plate_thickness_by_hand() -> None:
    """Overhang (6 - 4.5)/2; AISC 360 F11: t = n sqrt(2 P_u / (0.9 F_y A))."""
    line = judged(seat="loose_plate", pocket_width_in=6.5)["plate"]
    assert line.demand == pytest.approx(0.75 * sqrt(2 * 8200 / (0.9 * 36000 * 6 * 3.5)))


def test_a_plate_larger_than_the_pocket_is_flagged() -> None:
    assert judged(seat="loose_plate", plate_width_in=7.0)["plate"].verdict is Verdict.FLAG


def test_the_wall_strip_is_the_bearing_and_four_thicknesses() -> None:
    """L_e = 4.5 + 4 x 8 = 36.5 in: 1.2 x 800 plf x 36.5/12 beside the beam's factored 8,200 lb, at 4 - 3.5/3 from the middle."""
    line = judged()["wall-moment"]
    assert line.facts["P_u"][0] == pytest.approx(1.2 * 800 * 36.5 / 12 + 8200)
    assert line.demand == pytest.approx(8200 * (4 - 3.5 / 3), rel=0.02)


def test_a_wall_end_shortens_the_strip() -> None:
    """With the end 2 in beyond the jamb: 2 + 2.75 on that side, 18.25 on the other."""
    line = judged(left_in=2.0)["wall-moment"]
    assert line.facts["P_u"][0] == pytest.approx(1.2 * 800 * (4.75 + 18.25) / 12 + 8200)


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"core_in": 4.0}, "core-behind"),
        ({"over_opening": True}, "over-opening"),
        ({"beam": "steel"}, "steel-web"),
        ({"seismic": "D1"}, "scope"),
        ({"f_c_psi": 2400.0}, "strength"),
    ],
)
def test_what_is_outside_the_rules_goes_to_an_engineer(changes: dict, key: str) -> None:
    result = judged(**changes)
    assert result[key].verdict is Verdict.REFER
    assert result.verdict is Verdict.REFER
    assert result.lines_verdict


def test_over_an_opening_with_a_designed_lintel_holds() -> None:
    assert judged(over_opening=True, lintel_designed=True).verdict is Verdict.PASS


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"pocket_length_in": 3.0}, "bearing-code"),
        ({"required_bearing_in": 4.0}, "bearing-drawing"),
        ({"beam": "scl", "F_c_perp_psi": 750.0}, "bearing-drawing"),
        ({"beam": "scl", "required_bearing_in": 3.0}, "crushing"),
        ({"reaction_live_lb": 12000.0}, "crushing"),
        ({"reaction_live_lb": 40000.0}, "concrete-bearing"),
        ({"core_in": 5.5}, "core-behind"),
        ({"bars_cut": 1}, "bars-cut"),
        ({"next_pocket_in": 6.0, "pocket_width_in": 8.0}, "pockets-apart"),
        ({"uplift_lb": 500.0}, "held"),
    ],
)
def test_each_line_can_flag(changes: dict, key: str) -> None:
    assert judged(**changes)[key].verdict is Verdict.FLAG


def test_a_named_hold_down_is_shown_as_typed() -> None:
    line = judged(uplift_lb=500.0, held_by="strap {two} each side")["held"]
    assert line.verdict is Verdict.PASS
    assert "strap (two) each side" in line.say


def test_a_lumber_species_is_no_glulam() -> None:
    with pytest.raises(BadInput, match="glulam class"):
        judged(beam="glulam", species="DF-L")


def test_a_segment_too_open_is_said_but_does_not_flag() -> None:
    result = judged(shear_segment=True)
    assert result["segment"].verdict is Verdict.ADVISORY
    assert result["segment"].holds is False
    assert result.verdict is Verdict.PASS


@given(st.floats(500, 8000), st.floats(1.0, 4.0), st.floats(2.0, 6.0))
@settings(max_examples=60, deadline=None)
def test_more_reaction_never_turns_a_flag_into_a_pass(live: float, more: float, length: float) -> None:
    first = Inputs(reaction_live_lb=live, pocket_length_in=length)
    low, high = (
        attachments.check("beam_pocket", i, US_2021) for i in (first, replace(first, reaction_live_lb=live * more))
    )
    for line in low.states:
        if line.verdict is Verdict.FLAG:
            assert high[line.key].verdict is not Verdict.PASS, line.key
