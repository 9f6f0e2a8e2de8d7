"""A veneer ledge, line by line, worked by hand."""

from math import pi, sqrt

import pytest

from engine import fields
from engine.attachments.veneer_ledge import Inputs, check, geometry
from engine.attachments.veneer_ledge.inputs import Inputs as Declared
from engine.editions import US_2021, US_2024
from engine.errors import BadInput
from engine.result import Verdict
from engine.units import show


def judged(edition=US_2021, **changes):
    inputs = Inputs(**changes)
    fields.validate(inputs)
    return check(inputs, edition)


def flagged(result) -> set[str]:
    return {s.key for s in result.states if s.verdict is Verdict.FLAG}


def told(state) -> str:
    """A line's sentence as read."""
    values = {name: show(*fact) for name, fact in state.facts.items()}
    if state.demand is not None:
        values |= {"demand": show(state.demand, state.unit), "capacity": show(state.capacity, state.unit)}
    return state.say.format(**values)


# The whole


def test_a_ledge_is_never_passed_and_says_that_every_line_holds() -> None:
    """IRC 2021 R404.1.5.2: projections for veneer are outside the tables, so they are designed."""
    result = judged()
    assert result.verdict is Verdict.REFER
    assert result.lines_verdict == "every line holds"
    assert [s.key for s in result.states if s.verdict is Verdict.REFER] == ["design"]
    assert result.governing.key == "design"


def test_twenty_feet_of_brick_is_understood_from_the_result_alone() -> None:
    """40 psf x 20 ft; lever 2 1/2 + 1 + 3 5/8 / 2."""
    result = judged()
    first = told(result["design"])
    for words in ("20 ft", "40 psf", "800 plf", "5 5/16 in"):
        assert words in first
    assert "licensed engineer" in result["design"].refer


def test_one_line_that_flags_is_counted_beside_the_refer() -> None:
    result = judged(tip="bend", projection_in=11.0, lip_depth_in=9.0)
    assert flagged(result) == {"tip"}
    assert (result.verdict, result.lines_verdict) == (Verdict.REFER, "1 line flags")


def test_an_alternative_with_small_stirrups_holds_even_at_a_wall_end() -> None:
    """No. 3 at 8 in give 0.165; 0.04 x 3000/60000 x 12 x 6.3125 = 0.1515; l_dh is the least 6 in with psi_o 1.25 too."""
    result = judged(stirrup="3", depth_in=8.0, lip_depth_in=4.5, tie_drop_in=3.0, beside_end=True)
    assert result.lines_verdict == "every line holds"
    assert result["hook"].demand == 6.0
    assert result["steel-least"].demand == pytest.approx(0.1515)
    assert result["steel-least"].capacity == pytest.approx(0.165)


def test_labels_follow_the_edition() -> None:
    assert judged()["ties"].source.label(US_2021) == "ACI 318-19 16.5.5.2"
    assert judged(edition=US_2024)["ties"].source.label(US_2024) == "ACI 318-19(22) 16.5.5.2"


# Load


def test_weight_may_come_from_thickness_and_density() -> None:
    """120 pcf x 3.625 / 12 = 36.25 psf."""
    result = judged(weight_by="density")
    assert result["veneer-weight"].demand == pytest.approx(36.25)
    assert result["design"].facts["line"][0] == pytest.approx(36.25 * 20)


def test_a_gable_loads_the_ledge_to_its_peak() -> None:
    """30 ft and 8 ft of gable at 40 psf: 1,520 plf under the peak."""
    result = judged(height_ft=30.0, gable_ft=8.0)
    assert result["design"].facts["line"][0] == pytest.approx(1520)


@pytest.mark.parametrize(("over", "line"), [(None, 800 * 12 / 6), (0.0, 800.0), (5.0, 40 * (15 + 5 * 12 / 6))])
def test_piers_take_what_stands_over_the_opening(over: float | None, line: float) -> None:
    """q H (b + L_p) / L_p on the part above the head: 6 ft of opening between piers of 6 ft together."""
    result = judged(openings=True, opening_ft=6.0, pier_ft=6.0, over_opening_ft=over)
    assert result["design"].facts["line"][0] == pytest.approx(line)
    assert "under the piers" in result["design"].say


def test_dead_load_alone_is_factored_by_1_4() -> None:
    """ASCE 7-16 2.3.1: 1.4D. Ledge: 150 x 7.125 x (12 + 6) / 2 / 144 = 66.8 plf."""
    line = judged()["size"]
    assert line.combination == "1.4D"
    assert line.demand == pytest.approx(1.4 * (800 + 150 * 7.125 * 9 / 144))


@pytest.mark.parametrize(("restraint", "pull"), [("code", 1.6 * 0.2 * 800), ("typed", 100.0), ("slip", 0.0)])
def test_the_pull_of_the_veneer(restraint: str, pull: float) -> None:
    """ACI 318-19 16.2.2.3(b): 1.6 x 0.2 of the unfactored load through the bearing."""
    result = judged(restraint=restraint, N_uc_plf=100.0)
    assert result["restraint"].demand == pytest.approx(pull)


def test_the_moment_at_the_core_holds_load_pull_and_own_weight() -> None:
    x_W = 7.125 / 3 * (12 + 2 * 6) / (12 + 6)
    own = 150 * 7.125 * 9 / 144
    M_u = 1.4 * 800 * 5.3125 + 256 * (12 - 10.25) + 1.4 * own * x_W
    assert judged()["steel-strength"].facts["moment"][0] == pytest.approx(M_u)


# Corbel


def test_the_corbel_rules_end_where_the_lever_passes_the_depth() -> None:
    assert "span-ratio" in flagged(judged(depth_in=7.0, lip_depth_in=6.0))
    assert judged(depth_in=7.0625, lip_depth_in=6.0)["span-ratio"].ratio == 1.0


def test_a_pull_beyond_the_load_ends_the_corbel_rules() -> None:
    assert "restraint" in flagged(judged(restraint="typed", N_uc_plf=1300.0))
    assert "restraint" not in flagged(judged(restraint="typed", N_uc_plf=1200.0))


def test_depth_under_the_outer_edge_follows_the_taper() -> None:
    """A lip 2 in past the wythe: 12 - (12 - 4) x 7.125 / 9.125."""
    line = judged(projection_in=9.125, lip_depth_in=4.0)["edge-depth"]
    assert line.capacity == pytest.approx(12 - 8 * 7.125 / 9.125)
    assert line.demand == 10.25 / 2


def test_the_least_of_three_size_limits_counts() -> None:
    """ACI 318-19 16.5.2.4 at 10,000 psi: 2,000, 1,280 and 1,600 psi."""
    line = judged(f_c_psi=10000.0)["size"]
    assert line.capacity == pytest.approx(0.75 * 1280 * 12 * 10.25)


@pytest.mark.parametrize(("joint", "mu"), [("monolithic", 1.4), ("roughened", 1.0), ("not roughened", 0.6)])
def test_a_ledge_cast_later_needs_more_shear_friction(joint: str, mu: float) -> None:
    """ACI 318-19 Table 22.9.4.2. A heavy short lever makes 2/3 A_vf + A_n govern strength."""
    result = judged(
        joint=joint, foam_outer_in=0.5, wythe_in=2.125, projection_in=4.0, lip_depth_in=10.0, height_ft=30.0
    )
    V_u = result["size"].demand
    A_n = 1.6 * 0.2 * 1200 / (0.75 * 60000)
    assert result["steel-strength"].demand == pytest.approx(2 / 3 * V_u / (0.75 * mu * 60000) + A_n)
    assert (joint != "monolithic") == any("cast later" in c.text for c in result.cautions)


def test_a_joint_left_smooth_carries_less_shear() -> None:
    """ACI 318-19 Table 22.9.4.4: min(0.2 f'c, 800) at 6,000 psi, against 960."""
    rough, smooth = (judged(joint=j, f_c_psi=6000.0)["size"].capacity for j in ("roughened", "not roughened"))
    assert (rough, smooth) == (pytest.approx(0.75 * 960 * 12 * 10.25), pytest.approx(0.75 * 800 * 12 * 10.25))


def test_stronger_concrete_asks_for_more_of_the_least_steel() -> None:
    """0.04 x 4000 / 60000 x 12 x 10.25 = 0.328 against 0.300 of No. 4 at 8 in."""
    result = judged(f_c_psi=4000.0)
    assert flagged(result) == {"steel-least", "stirrup-spacing"}
    assert result["steel-least"].demand == pytest.approx(0.328)
    assert result["steel-strength"].ratio < 0.1


def test_stirrups_stand_on_the_webs() -> None:
    """s_max = 12 x 0.20 / 0.246 = 9.76 in: one 8 in web space; on 6 in webs one space too, on 4 in webs two."""
    assert judged()["stirrup-spacing"].capacity == 8.0
    assert judged(web_spacing_in=6.0)["stirrup-spacing"].capacity == 6.0
    assert judged(web_spacing_in=4.0, web_spaces=2)["stirrup-spacing"].capacity == 8.0
    assert "stirrup-spacing" in flagged(judged(web_spaces=2))


def test_webs_too_far_apart_ask_for_a_larger_bar() -> None:
    line = judged(web_spacing_in=12.0)["stirrup-spacing"]
    assert (line.capacity, line.verdict) == (0.0, Verdict.FLAG)
    assert "larger bar" in line.say


def test_both_legs_of_a_closed_tie_count() -> None:
    """0.5 (0.246 - 256 / 45,000); two legs of No. 3 at 8 in."""
    line = judged()["ties"]
    assert line.demand == pytest.approx(0.5 * (0.246 - 256 / 45000))
    assert line.capacity == pytest.approx(2 * 0.11 * 12 / 8)
    assert judged(tie_layers=2)["ties"].capacity == pytest.approx(4 * 0.11 * 12 / 8)


def test_no_closed_ties_is_flagged() -> None:
    result = judged(tie_bar="none")
    assert flagged(result) == {"ties"}
    assert "tie-zone" not in {s.key for s in result.states}


def test_closed_ties_stay_in_the_upper_two_thirds() -> None:
    assert judged(tie_drop_in=6.5)["tie-zone"].ratio < 1
    assert "tie-zone" in flagged(judged(tie_drop_in=7.0))


def test_a_closed_tie_too_low_does_not_leave_the_core() -> None:
    """Tie at y = 1.75 + 6.5 = 8.25; the soffit's cover, square to a slope of 6 in 7.125, ends it."""
    g = geometry(Inputs(tie_drop_in=6.5, depth_in=12.0))
    cover = (1.5 + 0.1875) * sqrt(7.125**2 + 6**2) / 7.125
    assert g.tie_reach == pytest.approx((12 - 8.25 - cover) * 7.125 / 6)
    assert "tie-reach" in flagged(judged(tie_drop_in=8.0))


def test_a_moment_no_steel_can_carry_goes_to_an_engineer() -> None:
    result = judged(
        depth_in=3.0, lip_depth_in=1.0, stirrup="3", height_ft=60.0, gable_ft=40.0, veneer_psf=200.0, projection_in=20.0,
        wythe_in=12.0, foam_outer_in=8.0, air_in=8.0, f_c_psi=2000.0,
    )  # fmt: skip
    assert result["steel-strength"].verdict is Verdict.REFER
    assert result["steel-least"].demand > 0


# Bending and holding the stirrups


@pytest.mark.parametrize(("size", "d_b"), [("3", 0.375), ("4", 0.5), ("5", 0.625)])
@pytest.mark.parametrize(("beside", "psi_o"), [(False, 1.0), (True, 1.25)])
def test_hook_lengths_at_3000_psi(size: str, d_b: float, beside: bool, psi_o: float) -> None:
    """ACI 318-19 25.4.3.1: psi_c = 3000/15000 + 0.6; psi_o 1.25 next to an end; at least 8 d_b and 6 in."""
    l_dh = max(60000 * psi_o * 0.8 / (55 * sqrt(3000)) * d_b**1.5, 8 * d_b, 6.0)
    assert judged(stirrup=size, beside_end=beside, side_cover_in=1.5)["hook"].demand == pytest.approx(l_dh)


def test_an_8_in_core_holds_no_4_away_from_ends_only() -> None:
    """8 - 1 1/2 = 6 1/2 in against 6 and 7.04."""
    result = judged()
    assert result["hook"].capacity == 6.5
    assert result["hook"].verdict is Verdict.PASS
    assert result["hook-end"].verdict is Verdict.ADVISORY
    assert result["hook-end"].ratio > 1
    assert flagged(judged(beside_end=True)) == {"hook"}
    assert not flagged(judged(beside_end=True, side_cover_in=3.0))
    assert not flagged(judged(beside_end=True, hook_cover_in=0.75))


def test_a_6_in_core_holds_no_hook() -> None:
    for bar in ("3", "4"):
        assert "hook" in flagged(judged(core_in=6.0, stirrup=bar))


def test_a_closed_loop_is_for_the_engineer() -> None:
    result = judged(core_in=6.0, hook="closed")
    assert result["hook"].verdict is Verdict.REFER
    assert "strut-and-tie" in result["hook"].refer
    assert not flagged(result)


def test_stirrups_close_together_lose_their_confinement() -> None:
    """psi_r 1.6 under 6 d_b: No. 6 on 4 in webs; and psi_o 1.25, the next stirrup being nearer than 6 d_b."""
    line = judged(stirrup="6", web_spacing_in=4.0)["hook"]
    assert line.demand == pytest.approx(60000 * 1.6 * 1.25 * 0.8 / (55 * sqrt(3000)) * 0.75**1.5)


def test_coated_bars_need_more() -> None:
    plain, coated = (judged(stirrup="5", coated=c)["hook"].demand for c in (False, True))
    assert coated == pytest.approx(1.2 * plain)


def test_the_bearing_clashes_with_the_bend_unless_a_bar_stands_in_the_corner() -> None:
    """ACI 318-19 16.5.2.3: 1 1/2 + 1/2 + 1 in back from the lip a No. 4 is straight, at 4 1/8 in; the wythe bears to 7 1/8."""
    assert judged(tip="bend")["tip-bearing"].ratio == pytest.approx(7.125 / 4.125)
    result = judged(tip="bar")
    assert result["tip-bearing"].verdict is Verdict.PASS
    assert any("engineer signs" in c.text for c in result.cautions)
    assert "tip-bearing" in flagged(judged(tip="bar", tip_bar="3"))
    assert "tip-bearing" not in flagged(judged(tip="bend", projection_in=10.125))


def test_a_cross_bar_ends_the_bearing_at_its_inner_face() -> None:
    assert judged(tip="welded", tip_bar="4")["tip-bearing"].capacity == 7.125 - 1.5 - 0.5


def test_a_bar_thinner_than_the_stirrup_does_not_hold_it() -> None:
    for tip in ("bar", "welded"):
        assert "tip" in flagged(judged(tip=tip, tip_bar="3"))
        assert "tip" not in flagged(judged(tip=tip, tip_bar="5"))
    assert "tip" not in flagged(judged(tip="loop"))


def test_the_stirrups_bends_fit_the_lip_or_clash_by_an_amount() -> None:
    """No. 3, 8 in deep to a 4 in lip over 7.125 in; covers 1 1/2 in, the lower square to the soffit."""
    result = judged(stirrup="3", depth_in=8.0, lip_depth_in=4.0)
    slope = sqrt(7.125**2 + 4**2)
    leg = 4 + 1.5 * 4 / 7.125 - 1.5 * slope / 7.125 - 1.5
    bends = (0.375 + 0.75) * (1 + (slope - 4) / 7.125)
    line = result["tip-fit"]
    assert (line.demand, line.capacity) == (pytest.approx(bends), pytest.approx(leg))
    assert line.facts["over"][0] == pytest.approx(bends - leg)
    assert "clashes by" in told(line)
    assert line.facts["over"][0] == pytest.approx(0.162, abs=5e-4)


def test_a_level_soffit_leaves_the_lip_less_two_covers() -> None:
    g = geometry(Inputs(lip_depth_in=12.0))
    assert g.leg == 12 - 1.5 - 1.5
    assert g.leg_needed == 2 * (0.5 + 1.0)


def test_a_bend_sharper_than_standard_is_flagged() -> None:
    """ACI 318-19 Table 25.3.2: 4 d_b for No. 4."""
    assert flagged(judged(bend_in=1.75)) == {"bend"}
    assert not flagged(judged(bend_in=2.0))


@pytest.mark.parametrize(
    ("changes", "flags"),
    [
        ({"top_cover_in": 1.25}, {"cover"}),
        ({"lip_cover_in": 1.25}, {"cover"}),
        ({"soffit_cover_in": 1.25}, {"cover"}),
        ({"soffit_cover_in": 1.25, "exposed": False}, set()),
        ({"hook_cover_in": 0.5}, {"hook-cover"}),
        ({"stirrup": "6", "tip_bar": "6", "core_in": 16.0, "lip_depth_in": 9.0}, {"cover"}),
    ],
)
def test_covers(changes: dict, flags: set[str]) -> None:
    """ACI 318-19 Table 20.5.1.3.1: exposed 1 1/2 in to No. 5 and 2 in above; not exposed 3/4 in."""
    assert flagged(judged(**changes)) == flags


# Wall


def test_a_ledge_at_the_floor_above_sends_all_its_moment_down() -> None:
    result = judged(ledge_height_ft=9.0)
    own = 150 * 7.125 * 9 / 144
    M_0 = 800 * (5.3125 + 4) + own * (7.125 / 3 * 24 / 18 + 4)
    assert result["wall-below-moment"].demand == pytest.approx(1.4 * M_0)
    assert not [s for s in result.states if s.key.startswith("wall-above")]


def test_the_wall_above_takes_its_share_without_the_veneers_weight() -> None:
    result = judged(ledge_height_ft=4.5, wall_dead_plf=500.0)
    above, below = result["wall-above-moment"], result["wall-below-moment"]
    assert above.demand == pytest.approx(below.demand)
    assert above.facts["P_u"][0] == pytest.approx(1.4 * 500)
    assert below.facts["P_u"][0] == pytest.approx(1.4 * (500 + 800 + 150 * 7.125 * 9 / 144))


def test_a_slender_wall_creeps_under_a_load_that_stays() -> None:
    """ACI 318-19 6.6.4.4.2: EI = 0.4 E_c I_g / (1 + 1.0), pinned over 9 ft; three quarters of pi^2 EI / l^2."""
    EI = 0.4 * 57000 * sqrt(3000) * 12 * 8**3 / 12 / 2
    assert judged()["wall-below-stability"].capacity == pytest.approx(0.75 * pi**2 * EI / 108**2)


def test_a_plain_wall_too_thin_for_the_moment_is_flagged() -> None:
    """1.4 x (1200 x 8.3125 + 66.8 x 6.17) / 72 less the axial stress, against 0.60 x 5 sqrt(3000) = 164 psi."""
    assert "wall-below-plain-tension" in flagged(
        judged(curtains="none", height_ft=30.0, core_in=6.0, wall_dead_plf=0.0, ledge_height_ft=9.0)
    )


def test_a_plain_wall_32_times_as_high_as_thick_carries_nothing() -> None:
    """ACI 318-19 14.5.3.1: 1 - (l_c / (32 h))^2."""
    tall = judged(curtains="none", core_in=4.0, storey_height_ft=32 * 4 / 12)
    assert tall["wall-below-plain-height"].verdict is Verdict.FLAG
    assert "wall-below-plain-height" not in {s.key for s in judged(curtains="none", core_in=4.0).states}


def test_a_wall_free_at_its_top_goes_to_an_engineer() -> None:
    line = judged(free_top=True)["wall-below"]
    assert line.verdict is Verdict.REFER
    assert "footing" in line.refer


def test_soil_against_the_wall_is_said_aloud() -> None:
    assert any("Soil bends the wall" in c.text for c in judged(backfill=True).cautions)


# Veneer


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"projection_in": 5.75}, "veneer-bearing"),
        ({"projection_in": 5.75}, "veneer-overhang"),
        ({"projection_in": 3.0}, "veneer-bearing"),
        ({"height_ft": 31.0}, "veneer-height"),
        ({"height_ft": 30.0, "gable_ft": 9.0}, "veneer-gable"),
        ({"seismic": "D1", "backed": False, "height_ft": 21.0}, "veneer-height"),
        ({"seismic": "D2"}, "veneer-thickness"),
        ({"veneer_psf": 51.0}, "veneer-weight"),
        ({"air_in": 0.875}, "air"),
        ({"wythe_in": 2.0}, "tie-mortar"),
        ({"air_in": 2.25, "projection_in": 8.375}, "backing"),
        ({"veneer_tie": "corrugated"}, "backing"),
        ({"veneer_tie": "engineered"}, "backing"),
        ({"veneer_tie_h_in": 24.0, "veneer_tie_v_in": 24.0}, "tie-area"),
        ({"veneer_tie_v_in": 24.0, "wind_psf": 31.0}, "tie-area"),
        ({"veneer_tie_v_in": 24.0, "seismic": "C-town"}, "tie-area"),
        ({"veneer_tie_h_in": 40.0, "veneer_tie_v_in": 8.0}, "tie-level"),
        ({"veneer_tie_h_in": 8.0, "veneer_tie_v_in": 32.0}, "tie-upright"),
        ({"flashing": False}, "flashing"),
        ({"weeps_in": 34.0}, "weeps"),
        ({"f_c_psi": 2750.0}, "strength"),
    ],
)
def test_each_rule_of_use_can_flag(changes: dict, key: str) -> None:
    """IRC 2021 R703.8, Tables R703.8(1) and (2), R703.8.4, R703.8.5, R703.8.6; concrete by R608.5.1.5."""
    assert key in flagged(judged(**changes))


def test_two_thirds_of_the_wythe_is_enough() -> None:
    """3 1/2 + 2/3 x 3 = 5.5 in."""
    result = judged(wythe_in=3.0, projection_in=5.5)
    assert (result["veneer-bearing"].ratio, result["veneer-overhang"].ratio) == (pytest.approx(1), pytest.approx(1))
    assert not {"veneer-bearing", "veneer-overhang"} & flagged(result)


def test_the_heavier_wire_spans_farther_through_foam() -> None:
    """IRC 2021 Table R703.8.4(1): 4 5/8 in W1.7, 6 5/8 in W2.8, from the core."""
    wide = {"air_in": 2.25, "projection_in": 8.375}
    assert judged(**wide)["backing"].demand == 4.75
    assert "backing" not in flagged(judged(**wide, veneer_tie="W2.8"))


def test_ties_by_their_own_design_are_named_not_judged() -> None:
    result = judged(veneer_tie="engineered", veneer_tie_report="ER-1")
    assert result["backing"].verdict is Verdict.UNCHECKED


def test_openings_bring_further_ties() -> None:
    assert any("further ties" in c.text for c in judged(openings=True).cautions)


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"seismic": "D0"}, "scope"),
        ({"seismic": "C-town"}, "scope"),
        ({"seismic": "D0", "stories": 3}, "veneer-limits"),
        ({"f_c_psi": 2400.0}, "strength"),
        ({"sloped": True}, "sloped"),
    ],
)
def test_what_is_outside_the_rules_goes_to_an_engineer(changes: dict, key: str) -> None:
    assert judged(**changes)[key].verdict is Verdict.REFER


# Corner


def test_an_outside_corner_carries_what_stands_past_it() -> None:
    """0.246 a foot on 7.125 in; one No. 4 more each side."""
    result = judged(corner="outside")
    assert result["corner-stirrups"].demand == pytest.approx(0.246 * 7.125 / 12)
    assert result["corner-stirrups"].capacity == 0.20
    assert not flagged(result)
    assert flagged(judged(corner="outside", corner_stirrups=0)) == {"corner-stirrups"}


def test_l_bars_lap_as_top_bars() -> None:
    """ACI 318-19 25.4.2.3, 25.5.2.1: 1.3 x 60000 x 1.3 / (25 sqrt(3000)) x 1/2; coated 1.7 instead of 1.3."""
    lap = 1.3 * 60000 * 1.3 / (25 * sqrt(3000)) * 0.5
    assert judged(corner="outside")["corner-bars"].demand == pytest.approx(lap)
    assert judged(corner="outside", coated=True)["corner-bars"].demand == pytest.approx(lap * 1.7 / 1.3)
    assert flagged(judged(corner="outside", corner_leg_in=37.0)) == {"corner-bars"}


@pytest.mark.parametrize(("way", "strips"), [("mitre", (7.125, 7.125)), ("pieces", (7.125, 4.625))])
def test_foam_strips_close_an_outside_corner(way: str, strips: tuple[float, float]) -> None:
    """The concrete reaches 7.125 - 2.5 past the wall's foam corner; 2 1/2 in of foam stands before the lip."""
    assert geometry(Inputs(corner="outside", corner_way=way)).corner_strips == strips


def test_few_fasteners_at_a_corner_are_advice() -> None:
    result = judged(corner="inside", rib_fasteners=1)
    assert result["corner-fasteners"].verdict is Verdict.ADVISORY
    assert result["corner-stop"].facts["stop"] == (7.125, "in")
    assert not flagged(result)


# Shape


def test_geometry_in_section() -> None:
    g = geometry(Inputs())
    assert (g.x_back, g.x_cg, g.x_out) == (3.5, 5.3125, 7.125)
    assert (g.d, g.bend, g.x_straight, g.hook_back) == (10.25, 2.0, 4.125, 6.5)
    assert (g.hook_bend, g.hook_tail) == (3.0, 6.0)
    assert geometry(Inputs(hook="180")).hook_tail == 2.5


def test_a_bar_in_the_corner_touches_the_bend() -> None:
    """No. 4 in a bend of 2 in inside: from the bend's middle 1 - 1/4 in at 45 degrees."""
    g = geometry(Inputs())
    centre = 7.125 - 1.5 - 0.5 - 1.0
    assert g.x_bar == pytest.approx(centre + 0.75 / sqrt(2))
    assert g.y_bar == pytest.approx(1.5 + 0.5 + 1.0 - 0.75 / sqrt(2))


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"lip_depth_in": 13.0}, "lip_depth_in", "1 in deeper"),
        ({"depth_in": 3.0, "lip_depth_in": 2.0, "top_cover_in": 3.0}, "depth_in", "no depth"),
        ({"lip_cover_in": 6.0, "projection_in": 6.0}, "lip_cover_in", "less"),
        ({"curtains": "two", "core_in": 4.0, "cover_in": 2.0}, "cover_in", "two curtains"),
        ({"vertical_bar": "8", "vertical_spacing_in": 4.0, "core_in": 4.0}, "vertical_spacing_in", "4 %"),
        ({"ledge_height_ft": 10.0}, "ledge_height_ft", "1 ft above"),
        ({"openings": True, "over_opening_ft": 21.0}, "over_opening_ft", "20 ft"),
    ],
)
def test_contradictions_are_refused_by_name(changes: dict, field: str, words: str) -> None:
    with pytest.raises(BadInput, match=words) as refused:
        judged(**changes)
    assert refused.value.field == field


def test_inputs_follow_the_wall() -> None:
    follow = {s.name: s.wall for s in fields.specs(Declared) if s.wall}
    assert follow["core_in"] == "lower.core_in"
    assert follow["foam_outer_in"] == "lower.foam_outer_in"
    assert follow["web_spacing_in"] == "lower.web_spacing_in"
    assert follow["storey_height_ft"] == "storey.height_ft"
