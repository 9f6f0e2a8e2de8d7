"""A sill plate's bolts under load: wood and bolt, washers, chapter 17 along the row, the exception under earthquake.

The ordinary case: 2x6 DF-L in the middle of a 6 in core of 3,000 psi, 1/2 in F1554 Gr 36 bolts 7 in deep at 24 in, end bolts 8 in
from the ends of a piece; 200 plf up against 150 plf dead, 120 plf along and 120 plf across, all wind.
"""

from dataclasses import replace
from math import atan2, cos, degrees, hypot, pi, radians, sin, sqrt

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine import fields
from engine.attachments.sill_plate import Inputs, check
from engine.editions import US_2021, US_2024
from engine.result import CheckResult, Verdict
from tests import pace

D, H_EF, F_C = 0.5, 7.0, 3000.0
C_A1 = 3.0  # a bolt in the middle of a 6 in core


def judged(**changes) -> CheckResult:
    inputs = replace(Inputs(), **changes)
    fields.validate(inputs)
    return check(inputs, US_2021)


def keys(**changes) -> set[str]:
    return {s.key for s in judged(**changes).states}


# --- wood and bolt -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("species", "bolt", "along", "across"),
    [  # NDS 2018 Table 12E, side member 1 1/2 in, lb: DF-L read second-hand; Southern Pine and Hem-Fir recalled
        ("DF-L", "1/2", 650, 380),
        ("DF-L", "5/8", 930, 530),
        ("SP", "1/2", 680, 410),
        ("SP", "5/8", 970, 580),
        ("HF", "1/2", 590, 340),
    ],
)
def test_a_bolt_in_contact_has_the_printed_values(species: str, bolt: str, along: int, across: int) -> None:
    """C_D 1.6 for wind (NDS 2018 Table 2.3.2); the table is rounded to 10 lb."""
    result = judged(species=species, bolt=bolt, barrier=False, end_in=8.0, embedment_in=7.0)
    for key, printed in (("bolt-dowel-along", along), ("bolt-dowel", across)):
        Z = result[key].capacity / 1.6
        assert abs(Z - printed) <= 5.0 + 1e-9, key


def test_a_bolt_takes_the_load_of_its_length_of_plate() -> None:
    """0.6W; a spacing, or half of one and the end, whichever is longer."""
    assert judged()["bolt-dowel"].demand == pytest.approx(0.6 * 120 * 24 / 12)
    assert judged(spacing_in=12.0, end_in=12.0)["bolt-dowel"].demand == pytest.approx(0.6 * 120 * (6 + 12) / 12)


def test_along_and_across_together_act_at_an_angle_to_the_grain() -> None:
    """Hankinson between the two bearing strengths (NDS 2018 Eq. 12.3-11), mode III_s by hand, no gap."""
    line = judged(barrier=False, shear_wind_plf=240.0)["bolt-dowel-both"]
    V, H = 0.6 * 120 * 2, 0.6 * 240 * 2
    theta = degrees(atan2(V, H))
    par, perp, F_em = 5600.0, 3150.0, 7500.0  # DF-L at 1/2 in: NDS 2018 Table 12.3.3; concrete Table 12E
    F_es = par * perp / (par * sin(radians(theta)) ** 2 + perp * cos(radians(theta)) ** 2)
    R_e, l_s = F_em / F_es, 1.5
    k_3 = -1 + sqrt(2 * (1 + R_e) / R_e + 2 * 45000 * (2 + R_e) * D**2 / (3 * F_em * l_s**2))
    III_s = k_3 * D * l_s * F_em / ((2 + R_e) * 3.2 * (1 + 0.25 * theta / 90))
    assert line.demand == pytest.approx(hypot(V, H))
    assert line.capacity == pytest.approx(1.6 * III_s)


def test_a_gasket_is_a_gap_the_bolt_bridges() -> None:
    """AWC TR12, mode III_s over a gap of 1/4 in, across the grain."""
    found = judged(barrier=True, barrier_in=0.25)["bolt-dowel"]
    q_s, q_m, M = 3150 * D, 7500 * D, 45000 * D**3 / 6
    A, B, C = 1 / (4 * q_s) + 1 / (2 * q_m), 1.5 / 2 + 0.25, -q_s * 1.5**2 / 4 - M
    assert found.capacity == pytest.approx(1.6 * (-B + sqrt(B * B - 4 * A * C)) / (2 * A) / (3.2 * 1.25))
    assert found.capacity < judged(barrier=False)["bolt-dowel"].capacity


def test_wet_wood_keeps_seven_tenths() -> None:
    """NDS 2018 Table 11.3.3."""
    assert judged(wet=True)["bolt-dowel"].capacity == pytest.approx(0.7 * judged()["bolt-dowel"].capacity)


def test_a_near_end_reduces_the_bolt_along_the_grain() -> None:
    """7 D toward an end in softwood (NDS 2018 Table 12.5.1A): at 4 in, 5/8 in bolts keep 4 / 4.375."""
    near, far = (
        judged(code="IBC", bolt="5/8", connection="designed", end_in=end)["bolt-dowel-along"].capacity
        for end in (4.0, 4.375)
    )
    assert near == pytest.approx(far * 4 / 4.375)


def test_a_push_across_asks_four_diameters_of_wood_on_both_sides() -> None:
    """NDS 2018 Table 12.5.1C: 4 D at the loaded edge, 1 1/2 D along the grain."""
    narrow = {"plate": "2x4", "plate_edge_in": 1.25, "across_in": 1.75}
    line = judged(**narrow)["bolt-wood-edge"]
    assert (line.demand, line.capacity, line.verdict) == (2.0, 1.75, Verdict.FLAG)
    along = judged(across_plf=0.0, **narrow)["bolt-wood-edge"]
    assert (along.demand, along.verdict) == (0.75, Verdict.PASS)
    assert "bolt-wood-edge" not in keys(across_plf=0.0, shear_wind_plf=0.0, **narrow)


def test_uplift_presses_a_round_washer_of_its_own_size() -> None:
    """0.6W - 0.6D; DF-L 625 psi (NDS 2018 Supplement Table 4A); 1 3/8 in washer (ASME B18.21.1, recalled), 9/16 in hole."""
    line = judged(uplift_plf=500.0)["bolt-washer"]
    assert line.demand == pytest.approx((0.6 * 500 - 0.6 * 150) * 2)
    C_b = (1.375 + 0.375) / 1.375
    assert line.capacity == pytest.approx(625 * C_b * pi / 4 * (1.375**2 - 0.5625**2))


def test_the_slot_of_a_plate_washer_presses_nothing() -> None:
    whole, slotted = (
        judged(uplift_plf=500.0, washer="plate", slotted=slot)["bolt-washer"].capacity for slot in (False, True)
    )
    C_b = 3.375 / 3
    assert whole == pytest.approx(625 * C_b * (9 - pi / 4 * 0.5625**2))
    assert slotted == pytest.approx(625 * C_b * (9 - (0.5 + 0.1875) * 1.75))


# --- chapter 17 along the row ------------------------------------------------------------------------------------------------


def test_breakout_toward_a_face_and_along_it_by_hand() -> None:
    """ACI 318-19 17.7.2: l_e = 8 d_a; V_b the lesser of two; whole prism 3 c_a1 by 1.5 c_a1; along the face twice (17.7.2.1c)."""
    l_e = min(H_EF, 8 * D)
    V_b = min(
        7 * (l_e / D) ** 0.2 * sqrt(D) * sqrt(F_C) * C_A1**1.5,
        9 * sqrt(F_C) * C_A1**1.5,
    )
    result = judged()
    assert result["anchor-shear-y2"].capacity == pytest.approx(0.70 * V_b)
    assert result["anchor-shear-y2"].demand == pytest.approx(120 * 24 / 12)
    assert "room-side face" in result["anchor-shear-y2"].title
    for key in ("anchor-shear-along-y1", "anchor-shear-along-y2"):
        assert result[key].capacity == pytest.approx(0.70 * 2 * V_b)
        assert result[key].combination == "0.9D + W"


def test_the_push_across_goes_toward_the_nearer_face() -> None:
    toward_outer = keys(plate_edge_in=-0.5)
    assert "anchor-shear-y1" in toward_outer
    assert "anchor-shear-y2" not in toward_outer


def test_breakout_of_a_row_in_tension_by_hand() -> None:
    """ACI 318-19 17.6.2: two faces 3 in away cut the cone to 6 in; along the row 21 in of the 24 in between bolts count."""
    line = judged()["anchor-breakout"]
    N_b = 24 * sqrt(F_C) * H_EF**1.5
    psi_ed = 0.7 + 0.3 * C_A1 / (1.5 * H_EF)
    assert line.demand == pytest.approx((200 - 0.9 * 150) * 24 / 12)
    assert line.capacity == pytest.approx(0.70 * 6 * 21 / (9 * H_EF**2) * psi_ed * N_b)


def test_at_a_joint_the_end_bolts_of_two_pieces_share_the_concrete() -> None:
    """Ends at 12 in, bolts at 12 in: the end bolt holds 18 in of plate; its cone reaches 6 in one way and 10 1/2 the other."""
    line = judged(spacing_in=12.0, end_in=12.0)["anchor-breakout"]
    middle, end = 12 / 12, 18 / (6 + 10.5)
    assert end > middle
    assert line.demand == pytest.approx((200 - 0.9 * 150) * 18 / 12)


def test_the_end_of_the_concrete_brings_a_breakout_of_its_own() -> None:
    result = judged(left_in=0.0, right_in=60.0, end_in=4.0)
    toward_end = result["anchor-shear-x2"]
    assert toward_end.demand == pytest.approx(120 * (12 + 4) / 12)
    assert "end of the concrete" in toward_end.title
    assert "anchor-shear-x2" not in keys()


def test_tension_and_shear_are_held_together() -> None:
    """ACI 318-19 17.8: the sum of the worst ratios against 1.2 where both are above a fifth."""
    result = judged(uplift_plf=1000.0, across_plf=400.0)
    ratios = {s.key: s.ratio for s in result.states if s.key.startswith("anchor") and s.ratio is not None}
    shear = max(r for key, r in ratios.items() if "shear" in key or "pryout" in key)
    tension = max(ratios[key] for key in ("anchor-steel-tension", "anchor-breakout", "anchor-pullout"))
    assert min(shear, tension) > 0.2
    assert result["anchor-interaction"].demand == pytest.approx(shear + tension)
    assert result["anchor-interaction"].capacity == 1.2


def test_dead_load_holds_down_at_nine_tenths_and_unloaded_bolts_have_no_such_lines() -> None:
    assert "anchor-breakout" not in keys(uplift_plf=135.0, dead_plf=150.0)
    assert "anchor-breakout" in keys(uplift_plf=136.0, dead_plf=150.0)
    still = keys(uplift_plf=0.0, shear_wind_plf=0.0, across_plf=0.0)
    assert not any(key.startswith(("anchor", "bolt-dowel")) for key in still)


def test_a_bolt_beside_the_core_says_how_far() -> None:
    line = judged(plate_edge_in=-4.0)["bolt-fit"]
    assert line.verdict is Verdict.FLAG
    assert line.facts["out"] == (1.25, "in")


def test_a_hook_pulls_out_first() -> None:
    """ACI 318-19 17.6.3.2.2: 0.9 f'c e_h d_a with e_h = 2 1/2 - 1/2 in; phi 0.70 (17.5.3)."""
    line = judged(head="hook", hook_in=2.5, uplift_plf=900.0)["anchor-pullout"]
    assert line.capacity == pytest.approx(0.70 * 0.9 * F_C * 2.0 * D)


def test_torqued_nuts_ask_six_diameters_to_the_face() -> None:
    """ACI 318-19 Table 17.9.2(a)."""
    assert judged(torqued=True, bolt="5/8")["anchor-edge"].demand == 3.75
    assert judged(torqued=True, bolt="5/8")["anchor-edge"].verdict is Verdict.FLAG


# --- earthquake and the sill plate exception ---------------------------------------------------------------------------------

QUAKE = {"seismic": "D0", "foundation": True, "carries": "wall", "washer": "plate", "shear_seismic_plf": 200.0}


def test_earthquake_shear_from_category_c_needs_a_way() -> None:
    """ACI 318-19 17.10.6: above a fifth of the shear one of its ways."""
    assert judged(**QUAKE)["anchor-seismic-shear"].verdict is Verdict.FLAG
    assert judged(shear_route="overstrength", **QUAKE)["anchor-seismic-shear"].verdict is Verdict.PASS
    assert "anchor-seismic-shear" not in keys(**{**QUAKE, "seismic": "B"})


def test_under_the_exception_only_the_wood_and_the_steel_judge_earthquake_shear() -> None:
    """IBC 2021 1905.1.8 [recalled]: breakout and pryout in the plane need not be computed; the wood value governs."""
    calm = {"uplift_plf": 0.0, "shear_wind_plf": 0.0, "across_plf": 0.0}
    with_it = keys(exception=True, **QUAKE, **calm)
    without = keys(shear_route="overstrength", **QUAKE, **calm)
    dropped = {"anchor-shear-along-y1", "anchor-shear-along-y2", "anchor-pryout", "anchor-seismic-shear"}
    assert dropped <= without
    assert not dropped & with_it
    assert {"anchor-steel-shear", "bolt-dowel-along", "exception-edge"} <= with_it
    assert judged(exception=True, **QUAKE).verdict is Verdict.PASS


def test_wind_stays_with_chapter_17_under_the_exception() -> None:
    line = judged(exception=True, **QUAKE)["anchor-shear-along-y1"]
    assert line.combination == "0.9D + W"
    assert line.demand == pytest.approx(120 * 2)


def test_below_category_c_there_is_no_exception_to_use() -> None:
    below = keys(exception=True, **{**QUAKE, "seismic": "B"})
    assert not any(key.startswith("exception") for key in below)
    assert "anchor-shear-along-y1" in below


@pytest.mark.parametrize(
    ("changes", "key", "demand", "capacity"),
    [
        ({"bolt": "3/4"}, "exception-bolt", 0.75, 0.625),
        ({"embedment_in": 6.5}, "exception-embedment", 7.0, 6.5),
        ({"plate_edge_in": -1.25}, "exception-edge", 1.75, 1.5),
        ({"left_in": 0.0, "end_in": 7.0}, "exception-end", 7.5, 7.0),
    ],
)
def test_each_condition_of_the_exception_can_flag(changes: dict, key: str, demand: float, capacity: float) -> None:
    """5/8 in at most, 7 in deep, 1 3/4 in from the edge, 15 diameters from the end."""
    line = judged(exception=True, **QUAKE, **changes)[key]
    assert (line.demand, line.capacity, line.verdict) == (demand, capacity, Verdict.FLAG)
    assert judged(exception=True, **QUAKE)[key].verdict is Verdict.PASS
    assert line.source.label(US_2021) == "IBC 2021 1905.1.8"


@pytest.mark.parametrize(("plate", "held"), [("2x6", True), ("3x6", True), ("2-2x6", False)])
def test_the_exception_takes_one_plate_of_two_or_three_inches(plate: str, held: bool) -> None:
    line = judged(exception=True, plate=plate, **QUAKE)["exception-plate"]
    assert line.verdict is (Verdict.PASS if held else Verdict.FLAG)


@pytest.mark.parametrize(
    "changes",
    [{"carries": "floor"}, {"foundation": False}, {"stands_on": "ledge", "core_in": 14.0, "plate_edge_in": 8.5}],
)
def test_a_floor_or_a_ledge_is_for_the_engineer_to_confirm(changes: dict) -> None:
    line = judged(exception=True, **{**QUAKE, **changes})["exception-use"]
    assert line.verdict is Verdict.REFER
    assert judged(exception=True, **QUAKE)["exception-use"].verdict is Verdict.PASS


def test_the_least_tie_of_a_design_acts_as_earthquake_across_the_wall() -> None:
    """0.2 x 1.4 x 75 psf x 9 ft on 2 ft of plate; 0.7 of it in the wood, as ASCE 7-16 2.4.5."""
    least = 0.2 * 1.4 * 75 * 9
    result = judged(connection="designed", across_plf=1.0)
    assert result["anchor-shear-y2"].demand == pytest.approx(least * 2)
    assert result["anchor-shear-y2"].combination == "0.9D + E"
    assert result["bolt-dowel"].demand == pytest.approx(0.7 * least * 2)


# --- properties --------------------------------------------------------------------------------------------------------------

LOADS = ("uplift_plf", "shear_wind_plf", "shear_seismic_plf", "across_plf")


@given(
    st.sampled_from(LOADS), st.floats(0, 1200), st.floats(1.0, 4.0), st.sampled_from(["A", "C", "D0"]), st.booleans()
)
@settings(max_examples=120, deadline=None)
def test_more_load_never_turns_a_flag_into_a_pass(
    name: str, load: float, more: float, seismic: str, near_end: bool
) -> None:
    base = Inputs(seismic=seismic, left_in=0.0 if near_end else None, shear_route="overstrength", **{name: load})
    low, high = check(base, US_2021), check(replace(base, **{name: load * more}), US_2021)
    for line in low.states:
        if line.verdict is Verdict.FLAG:
            assert high[line.key].verdict is not Verdict.PASS, line.key


@given(st.floats(0, 2000), st.floats(0, 2000), st.floats(0, 2000))
@settings(max_examples=60, deadline=None)
def test_more_dead_load_never_loads_a_bolt_more(uplift: float, dead: float, more: float) -> None:
    light, heavy = (
        {s.key: s for s in check(Inputs(uplift_plf=uplift, dead_plf=D_plf), US_2021).states}
        for D_plf in (dead, dead + more)
    )
    for key in light.keys() & heavy.keys():
        if key in ("bolt-washer", "anchor-steel-tension", "anchor-breakout", "anchor-pullout", "anchor-side-face"):
            assume(light[key].demand is not None)
            assert heavy[key].demand <= light[key].demand + 1e-9


def test_every_judged_line_with_a_load_shows_its_working() -> None:
    for state in judged(exception=True, left_in=12.0, **QUAKE).states:
        if state.demand is not None and not state.advisory:
            assert state.steps, state.key


def test_both_editions_judge_the_bolts_alike() -> None:
    """ACI 318-19 and its 2022 reprint; NDS 2018 and 2024: no change in what is used here."""
    for ours, theirs in zip(check(Inputs(), US_2021).states, check(Inputs(), US_2024).states, strict=True):
        assert (ours.key, ours.demand, ours.capacity) == (theirs.key, theirs.demand, theirs.capacity)


def test_a_check_takes_about_a_millisecond() -> None:
    assert pace.seconds(lambda: check(Inputs(), US_2021, recording=False)) < 0.001
