"""Joists on the ledge of a stepped wall, worked by hand and by property."""

from dataclasses import replace
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import attachments
from engine.attachments.ledge_seat import Inputs, geometry
from engine.attachments.ledge_seat.geometry import with_tolerances
from engine.editions import US_2021, US_2024
from engine.result import Verdict


def judged(edition=US_2021, **changes):
    return attachments.check("ledge_seat", Inputs(**changes), edition)


def test_an_ordinary_stepped_wall_passes() -> None:
    result = judged()
    assert result.verdict is Verdict.PASS
    assert result.lines_verdict == "every line holds"


def test_the_seat_is_the_ledge_less_the_wall_and_foam_above() -> None:
    """10 in core, foam left 1/2 in at the lip: x_E = 10 + 2 1/2 - 1/2; x_B = 6 + 2 1/2; the joist starts 1/2 in in front."""
    seat = geometry(Inputs())
    assert (seat.x_B, seat.x_E, seat.x_J) == (8.5, 12.0, 9.0)
    assert seat.bearing == min(8.5 + 3.5, 12.0) - 9.0


def test_flush_outer_foam_of_two_thicknesses_moves_the_upper_core() -> None:
    seat = geometry(Inputs(foam_outer_lower_in=2.5, foam_outer_upper_in=4.5))
    assert seat.x_U == 2.0
    assert seat.x_B == 2.0 + 6.0 + 2.5


@pytest.mark.parametrize(
    ("upper_foam", "x_B", "x_P"), [("whole", 8.5, 8.5), ("cut_joist", 6.0, 8.5), ("cut_line", 6.0, 6.0)]
)
def test_cutting_the_upper_foam_moves_the_back_of_the_seat(upper_foam: str, x_B: float, x_P: float) -> None:
    """A continuous plate still starts at the whole panel where foam is cut at each joist only."""
    seat = geometry(Inputs(upper_foam=upper_foam))
    assert (seat.x_B, seat.x_P) == (x_B, x_P)


def test_a_square_ledge_too_narrow_for_its_plate_is_flagged_with_both_numbers() -> None:
    result = judged(top="square")
    line = result["ledge"]
    assert line.verdict is Verdict.FLAG
    assert (line.demand, line.capacity) == (3.5, 1.5)


def test_a_joist_short_of_the_minimum_is_flagged() -> None:
    result = judged(top="square", end_gap_in=0.5)
    assert result["bearing-code"].capacity == 10 - 9.0
    assert result["bearing-code"].verdict is Verdict.FLAG


def test_a_seat_of_nothing_says_by_how_much() -> None:
    result = judged(top="square", lower_core_in=6.0, upper_core_in=6.0)
    assert result["ledge"].verdict is Verdict.FLAG
    assert result["ledge"].facts["over"] == (2.5, "in")


def test_a_joist_straight_on_concrete_needs_three_inches() -> None:
    """IRC 2021 R502.6: 3 in on concrete, 1 1/2 in on wood."""
    assert judged(plate="none")["bearing-code"].demand == 3.0
    assert judged()["bearing-code"].demand == 1.5


def test_a_plate_too_short_for_48_square_inches_counts_as_concrete() -> None:
    """IRC 2021 R502.6: nominal 4 in by 12 in is 48 sq in."""
    assert judged(plate_piece_ft=1.0)["bearing-code"].demand == 1.5
    assert judged(plate="2x4", plate_piece_ft=1.0)["plate-area"].capacity == 48.0


def test_an_engineered_joist_without_its_drawing_is_flagged() -> None:
    line = judged(member="i_joist")["bearing-drawing"]
    assert line.verdict is Verdict.FLAG
    assert "member drawing" in line.say


def test_the_worst_corner_of_the_tolerances_by_hand() -> None:
    """Lower core 1/2 in thin cuts the edge; upper core 1/4 thick, form 1/4 in and joist 1/4 short push the joist end in.

    Reading of R608 walls: -1/2, +1/4 in; places 1/4 in. The plate's edge may also come back: 1/4 in.
    """
    seat = geometry(Inputs(plate="none", end_gap_in=0.0))
    likely, worst = with_tolerances(seat, (-0.5, 0.25), 0.25)
    assert worst == pytest.approx(3.5 - 0.5 - 0.25 - 0.25 - 0.25)
    assert likely == pytest.approx(3.5 - sqrt(0.5**2 + 3 * 0.25**2))


def test_tolerances_never_turn_a_pass_into_a_flag() -> None:
    result = judged(lower_core_in=10.0, place_tolerance_in=2.0)
    assert result["tolerances"].ratio > 1
    assert result.verdict is Verdict.PASS


def test_crushing_of_joist_and_plate_by_hand() -> None:
    """SPF 425 psi (NDS 2018 Supplement Table 4A), C_b 1.0 at the end: 425 x 1.5 x 3; D + L = 50 psf x 16/12 ft x 7 ft."""
    result = judged()
    for key in ("joist-crushing", "plate-crushing"):
        assert result[key].demand == pytest.approx(50 * 16 / 12 * 7)
        assert result[key].capacity == pytest.approx(425 * 1.5 * 3.0)


def test_a_plate_clear_of_its_joints_may_use_the_bearing_area_factor() -> None:
    """NDS 2018 3.10.4: (l_b + 3/8) / l_b at 3 in or more from an end, l_b = joist width along the plate's grain."""
    ratio = (
        judged(joint_clear_in=3.0)["plate-crushing"].capacity / judged(joint_clear_in=2.9)["plate-crushing"].capacity
    )
    assert ratio == pytest.approx((1.5 + 0.375) / 1.5)


def test_concrete_bearing_by_hand() -> None:
    """ACI 318-19 22.8.3.2 with a ratio of 1.0: 0.65 x 0.85 x 3000 x 1.5 x 3; 1.2D + 1.6L on 9 1/3 sq ft."""
    line = judged()["concrete-bearing"]
    assert line.demand == pytest.approx((1.2 * 10 + 1.6 * 40) * 16 / 12 * 7)
    assert line.capacity == pytest.approx(0.65 * 0.85 * 3000 * 1.5 * 3.0)


def test_a_shallow_lip_that_carries_load_goes_to_an_engineer() -> None:
    result = judged(taper_depth_in=3.0, bolt_head="hook")
    assert result["lip-haunch"].verdict is Verdict.REFER
    assert result.verdict is Verdict.REFER
    assert "lip-bending" not in {s.key for s in result.states}


def test_the_share_of_the_lip_by_hand() -> None:
    """Bears from 9 to 12, the core ends at 10: 1 - (1/3)^2 of the reaction lies beyond; the lip is 16 in deep."""
    line = judged()["lip-shear"]
    reaction = (1.2 * 10 + 1.6 * 40) * 16 / 12 * 7
    assert line.demand == pytest.approx(reaction * (1 - (1 / 3) ** 2))


def test_the_wall_strip_takes_the_joists_at_two_thirds_of_their_bearing() -> None:
    """Unfactored wall 1000 plf at 3 - 5 = -2 in from the middle of the lower core; joists at 9 + 2 - 5 = +6 in."""
    line = judged(wall_dead_plf=1000.0)["wall-axial"]
    joists_D, joists_L = (psf * 7 for psf in (10, 40))
    P = 1.2 * 1000 + 1.2 * joists_D + 1.6 * joists_L
    M = -2 * 1.2 * 1000 + 6 * (1.2 * joists_D + 1.6 * joists_L)
    assert line.facts["e"][0] == pytest.approx(abs(M / P))
    assert line.demand == pytest.approx(P)


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"span_ft": 33.0}, "scope"),
        ({"dead_psf": 12.0}, "scope"),
        ({"seismic": "D0"}, "scope"),
        ({"seismic": "C-town"}, "scope"),
        ({"f_c_psi": 2400.0}, "strength"),
        ({"lower_core_in": 24.0, "upper_core_in": 6.0, "top": "square"}, "lap-offset"),
    ],
)
def test_what_is_outside_the_rules_goes_to_an_engineer(changes: dict, key: str) -> None:
    result = judged(**changes)
    assert result[key].verdict is Verdict.REFER
    assert "licensed engineer" in result[key].refer
    assert result.verdict is Verdict.REFER


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"bolt_embedment_in": 6.5}, "bolt-embedment"),
        ({"bolt_spacing_in": 80.0}, "bolt-spacing"),
        ({"bolt_end_in": 3.0}, "bolt-ends"),
        ({"bolt_end_in": 13.0}, "bolt-ends"),
        ({"bolt_from_back_in": 2.5}, "bolt-third"),
        ({"bolt_from_back_in": 1.75}, "bolt-cover"),
        ({"end_held": "none"}, "rotation"),
        ({"lap_in": 28.0}, "lap"),
        ({"notch_in": 2.5}, "notch-depth"),
        ({"plate_gap_in": 0.25}, "ledge"),
        ({"foundation": True, "wall_above_in": 8.0, "storey_height_ft": 9.0}, "shelf-thickness"),
        ({"foundation": True, "bars_by": "thick"}, "shelf-bars"),
        ({"member": "top_chord", "required_bearing_in": 3.0}, "clearance"),
    ],
)
def test_each_line_can_flag(changes: dict, key: str) -> None:
    assert judged(**changes)[key].verdict is Verdict.FLAG


def test_typed_uplift_brings_in_chapter_17_and_dead_load_counts_at_nine_tenths() -> None:
    result = judged(uplift_plf=400.0, lateral_plf=50.0, lower_core_in=12.0, bolt_from_back_in=1.75)
    tension = result["anchor-steel-tension"]
    assert tension.demand == pytest.approx((400 - 0.9 * 10 * 7) * 4)
    assert result["anchor-interaction"].demand > 0
    assert result["bolt-washer"].demand == pytest.approx((0.6 * 400 - 0.6 * 10 * 7) * 4)


def test_labels_follow_the_edition() -> None:
    assert judged()["concrete-bearing"].source.label(US_2021) == "ACI 318-19 22.8.3.2"
    assert judged(edition=US_2024)["concrete-bearing"].source.label(US_2024) == "ACI 318-19(22) 22.8.3.2"


def test_every_judged_line_shows_its_working() -> None:
    for state in judged(uplift_plf=300.0).states:
        if state.demand is not None and not state.advisory:
            assert state.steps, state.key


def test_joists_that_run_on_bring_less_and_may_lift() -> None:
    """Two spans of 14 ft: dead 3/8, live 7/16 of the span's load at the end; live on the next span lifts a sixteenth."""
    load = 16 / 12 * 14
    result = judged(reaction="continuous", second_span_ft=14.0)
    assert result["joist-crushing"].demand == pytest.approx((10 * 3 / 8 + 40 * 7 / 16) * load)
    assert result["lift"].demand == pytest.approx(40 / 16 * load)
    assert result["lift"].capacity == pytest.approx(0.6 * 10 * 3 / 8 * load)
    assert result["lift"].verdict is Verdict.FLAG


LOADS = ("dead_psf", "live_psf", "snow_psf", "own_weight_plf")


@given(st.sampled_from(LOADS), st.floats(1.0, 3.0), st.floats(0, 60), st.booleans())
@settings(max_examples=60, deadline=None)
def test_more_load_never_turns_a_flag_into_a_pass(name: str, more: float, base: float, square: bool) -> None:
    first = Inputs(top="square" if square else "taper", **{name: base})
    low, high = (attachments.check("ledge_seat", i, US_2021) for i in (first, replace(first, **{name: base * more})))
    for line in low.states:
        if line.verdict is Verdict.FLAG:
            assert high[line.key].verdict is not Verdict.PASS, line.key


def test_a_wall_above_with_its_snow_leans_outward_most_while_the_floor_stands_empty() -> None:
    """8 in core under a 4 in one: what stands above is 2 in outward of the middle, the joists' 1 in of bearing
    4 - 1/3 = 3.667 in inward, so their live load would help. 1.2D + 1.6S with dead load alone on the joists (100 plf):
    P_u = 1.2 x 2500 + 1.6 x 900 + 1.2 x 100 = 4,560 lb; M_u = 4,440 x 2 - 120 x 3.667 = 8,440 lb-in. No. 4 at 16 in midway:
    C = 4560 / 0.9 + 0.15 x 60000 = 14,066.7 lb, a = C / (0.85 x 2500 x 12) = 0.5516 in, phi M_n = 0.9 C (4 - a / 2) = 47,148 lb-in
    (ACI 318-19 22.2, 11.5.2).
    """
    line = judged(
        lower_core_in=8, upper_core_in=4, top="square", joist_width_in=2.5, plate="none", span_ft=20, joist_spacing_in=19.2,
        live_psf=60, snow_psf=30, wall_dead_plf=2500, wall_snow_plf=900, f_c_psi=2500,
    )["wall-moment"]  # fmt: skip
    C = 4560 / 0.9 + 0.15 * 60000
    a = C / (0.85 * 2500 * 12)
    assert line.demand == pytest.approx(4440 * 2 - 120 * (4 - 1 / 3))
    assert line.capacity == pytest.approx(0.9 * C * (4 - a / 2))
