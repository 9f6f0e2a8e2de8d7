"""A bolted ledger, line by line, by hand.

The ordinary case: 2x10 DF-L, 5/8 in bolts at 16 in, joists of 14 ft at 16 in, 10 psf dead and 40 psf live.
"""

from dataclasses import replace
from itertools import pairwise
from math import atan2, cos, degrees, hypot, pi, radians, sin, sqrt

import pytest

from engine import attachments
from engine.attachments.bolted_ledger import Inputs, geometry
from engine.editions import US_2021, US_2024
from engine.errors import BadInput
from engine.result import CheckResult, Verdict
from engine.solve import solve

D = 0.625
P_D, P_L = 10 * 16 / 12 * 14 / 2, 40 * 16 / 12 * 14 / 2  # one joist's end reaction, lb
FACTORED = 1.2 * P_D + 1.6 * P_L
# 2x10 DF-L: G 0.50 (NDS 2018 Table 12.3.3A), F_v 180 psi, F_c,perp 625 psi (NDS Supplement Table 4A)
FE_PERP, FE_PAR, F_EM = 2800.0, 5600.0, 7500.0  # NDS 2018 Table 12.3.3 at 5/8 in; Table 12E footnote


def check(**changes) -> CheckResult:
    return attachments.check("bolted_ledger", replace(Inputs(), **changes), US_2021)


def line(key: str, **changes):
    return check(**changes)[key]


TWO_ROWS = {"rows": 2, "top_edge_in": 3.0, "gauge_in": 4.5}


# --- what the joists bring, and the wood -----------------------------------------------------------------------------------


def test_a_newcomer_sees_a_ledger_that_holds_with_wood_and_bolt_nearest_their_limit() -> None:
    result = check()
    assert result.verdict is Verdict.PASS
    assert result.governing.key == "yield"


def test_wood_and_bolt_yield_by_the_side_member_as_the_table_prints() -> None:
    """NDS 2018 Table 12E: DF-L 1 1/2 in, 5/8 in bolt across the grain 530 lb, rounded from D l_s F_es / (4 K_theta)."""
    found = line("yield")
    assert found.capacity == pytest.approx(D * 1.5 * FE_PERP / (4 * 1.25))
    assert round(found.capacity / 10 + 1e-9) * 10 in (520, 530)
    assert found.demand == pytest.approx((P_D + P_L) * 12 / 16 * 16 / 12)
    assert found.combination == "D + L, C_D 1"


def test_foam_left_behind_costs_more_than_half_the_strength_and_says_what_tight_would_give() -> None:
    """AWC TR12, mode III_s over a gap: one positive root, by hand."""
    gap, found = 2.5, line("yield", contact="gap")
    q_s, q_m, M = FE_PERP * D, F_EM * D, 45000 * D**3 / 6
    A, B, C = 1 / (4 * q_s) + 1 / (2 * q_m), 1.5 / 2 + gap, -q_s * 1.5**2 / 4 - M
    by_hand = (-B + sqrt(B * B - 4 * A * C)) / (2 * A) / (3.2 * 1.25)
    assert found.capacity == pytest.approx(by_hand)
    assert found.capacity == pytest.approx(204, abs=0.5)
    assert found.facts["tight"] == (pytest.approx(525.0), "lb")
    assert "Tight to the concrete" in found.say
    assert found.verdict is Verdict.FLAG


@pytest.mark.parametrize("foam", [0.5, 1.0, 1.5, 2.5, 4.0])
def test_the_thicker_the_foam_left_the_weaker_the_ledger(foam: float) -> None:
    tight, thin, thick = (
        line("yield", contact=c, foam_in=f).ratio for c, f in (("strip", foam), ("gap", foam), ("gap", foam + 1))
    )
    assert tight < thin < thick


def test_a_ledger_over_foam_is_referred_and_its_lines_flag() -> None:
    result = check(contact="gap")
    assert result.verdict is Verdict.REFER
    assert result["couple"].verdict is Verdict.REFER
    assert result["hole"].verdict is Verdict.FLAG
    assert result["anchor-bending"].verdict is Verdict.FLAG
    assert "washer" not in [s.key for s in result.states]


def test_shear_along_the_wall_turns_the_load_toward_the_grain_and_shortens_its_duration() -> None:
    wind = 2000.0  # plf
    found = line("yield", shear_wind_plf=wind)
    V, H = P_D + 0.75 * P_L, 0.45 * wind * 16 / 12  # D + 0.75L + 0.45W, C_D 1.6
    V_only, H_most = P_D, 0.6 * wind * 16 / 12  # D + 0.6W
    taken = []
    for v, h in ((V, H), (V_only, H_most), (0.6 * P_D, H_most)):
        theta = degrees(atan2(v, h))
        F = FE_PAR * FE_PERP / (FE_PAR * sin(radians(theta)) ** 2 + FE_PERP * cos(radians(theta)) ** 2)
        Z = _least_mode(F, theta) * 1.6
        taken.append((hypot(v, h) / Z, hypot(v, h), Z))
    plain = (P_D + P_L) / (_least_mode(FE_PERP, 90) * 1.0)
    ratio, R, Z = max(taken)
    assert ratio > plain
    assert (found.demand, found.capacity) == (pytest.approx(R), pytest.approx(Z))
    assert "C_D 1.6" in found.combination


def _least_mode(F_es: float, theta: float, D: float = D) -> float:
    """The six modes of NDS 2018 Table 12.3.1A, concrete behind: l_m is the pad and the embedment."""
    l_m, l_s, F_yb, K = 6.5, 1.5, 45000.0, 1 + 0.25 * theta / 90
    Re, Rt = F_EM / F_es, l_m / l_s
    k1 = (sqrt(Re + 2 * Re**2 * (1 + Rt + Rt**2) + Rt**2 * Re**3) - Re * (1 + Rt)) / (1 + Re)
    k2 = -1 + sqrt(2 * (1 + Re) + 2 * F_yb * (1 + 2 * Re) * D**2 / (3 * F_EM * l_m**2))
    k3 = -1 + sqrt(2 * (1 + Re) / Re + 2 * F_yb * (2 + Re) * D**2 / (3 * F_EM * l_s**2))
    return min(
        D * l_m * F_EM / (4 * K),
        D * l_s * F_es / (4 * K),
        k1 * D * l_s * F_es / (3.6 * K),
        k2 * D * l_m * F_EM / ((1 + 2 * Re) * 3.2 * K),
        k3 * D * l_s * F_EM / ((2 + Re) * 3.2 * K),
        D**2 / (3.2 * K) * sqrt(2 * F_EM * F_yb / (3 * (1 + Re))),
    )


def test_a_small_live_load_does_not_hide_the_dead_load_at_nine_tenths() -> None:
    found = line("yield", dead_psf=10.0, live_psf=0.4)
    assert found.combination == "D, C_D 0.9"
    assert found.demand == pytest.approx(P_D)
    assert found.capacity == pytest.approx(525 * 0.9)


def test_two_rows_bolted_green_keep_four_tenths_and_one_row_keeps_all() -> None:
    """NDS 2018 Table 11.3.3 (recalled): made wet, used dry 0.4, but 1.0 for one row along the grain; wet in service 0.7."""
    dry, green = (line("yield", moisture=m, **TWO_ROWS).capacity for m in ("dry", "green"))
    assert green == pytest.approx(0.4 * dry)
    assert line("yield", moisture="green").capacity == pytest.approx(525.0)
    assert line("yield", moisture="wet").capacity == pytest.approx(0.7 * 525)


def test_two_bolts_a_place_share_with_a_little_group_action_and_staggered_ones_stand_alone() -> None:
    both, apart = line("yield", **TWO_ROWS), line("yield", staggered=True, **TWO_ROWS)
    assert both.demand == pytest.approx(apart.demand / 2)
    gamma, EA_s, EA_m = 270000 * D**1.5, 1.2e6 / 20 * 1.5 * 16, 57000 * sqrt(3000) * 6 * 16
    u = 1 + gamma * 4.5 / 2 * (1 / EA_m + 1 / EA_s)
    m, R = u - sqrt(u * u - 1), EA_s / EA_m
    C_g = m * (1 - m**4) / (2 * ((1 + R * m**2) * (1 + m) - 1 + m**4)) * (1 + R) / (1 - m)
    assert both.capacity == pytest.approx(525 * C_g)
    assert apart.capacity == pytest.approx(525.0)


def test_thread_through_the_wood_counts_with_its_root() -> None:
    """NDS 2018 12.3.7: D_r of a 5/8 in bolt 0.514 in (recalled)."""
    assert line("yield", threads="thread").capacity == pytest.approx(_least_mode(FE_PERP, 90, 0.514))
    assert _least_mode(FE_PERP, 90) == pytest.approx(525.0)


def test_a_short_end_distance_lowers_the_value_and_half_of_it_ends_it() -> None:
    """NDS 2018 12.5.1: 4 D full, 2 D least, in proportion between."""
    assert line("yield", end_in=2.0).capacity == pytest.approx(525 * 2.0 / 2.5)
    short = check(end_in=1.0)
    assert short["end-distance"].verdict is Verdict.FLAG
    assert short["yield"].capacity == 0
    assert short["yield"].verdict is Verdict.FLAG


def test_the_top_is_the_loaded_edge() -> None:
    top, bottom = line("edge-top"), line("edge-bottom")
    assert (top.demand, top.capacity) == (4 * D, 6.5)
    assert (bottom.demand, bottom.capacity) == (1.5 * D, 9.25 - 6.5)
    assert line("edge-top", top_edge_in=2.25).verdict is Verdict.FLAG
    assert line("edge-bottom", top_edge_in=8.5).verdict is Verdict.FLAG


def test_rows_more_than_five_inches_apart_are_flagged() -> None:
    assert line("rows-spread", rows=2, top_edge_in=3.0, gauge_in=5.0).verdict is Verdict.PASS
    assert line("rows-spread", rows=2, top_edge_in=2.5, gauge_in=5.25).verdict is Verdict.FLAG


def test_shear_near_an_end_keeps_the_square_of_the_wood_above_the_bolt() -> None:
    """NDS 2018 3.4.3.3 (recalled): 2/3 F_v b d_e (d_e/d)² within 5 d of an end; a joist beside a bolt brings all of itself."""
    found = line("ledger-shear")
    assert found.capacity == pytest.approx(2 / 3 * 180 * 1.5 * 6.5 * (6.5 / 9.25) ** 2)
    assert found.demand == pytest.approx(P_D + P_L)
    lower = line("ledger-shear", **TWO_ROWS)
    assert lower.capacity == pytest.approx(2 / 3 * 180 * 1.5 * 7.5 * (7.5 / 9.25) ** 2)
    upper_alone = line("ledger-shear", staggered=True, **TWO_ROWS)
    assert upper_alone.capacity == pytest.approx(2 / 3 * 180 * 1.5 * 3.0 * (3.0 / 9.25) ** 2)


def test_bending_between_bolts_waits_for_the_grade_and_then_bears_the_joist_over_the_end() -> None:
    assert line("ledger-bending", F_b_psi=None).verdict is Verdict.UNCHECKED
    found = line("ledger-bending", F_b_psi=900.0)
    assert found.capacity == pytest.approx(900 * 1.5 * 9.25**2 / 6)
    assert found.demand == pytest.approx((P_D + P_L) * (8 - 0.75))  # a joist as near the piece's end as it can hang
    wet = line("ledger-bending", F_b_psi=900.0, moisture="wet")
    assert wet.capacity == pytest.approx(0.85 * found.capacity)


def test_the_washer_bears_the_couples_pull_without_load_duration() -> None:
    found = line("washer")
    share = check()["couple"].facts["V"][0] / FACTORED  # joist reactions on the heaviest bolt place
    assert found.demand == pytest.approx(share * (P_D + P_L) * 6.0 / (0.75 * 2.75))
    net = 9 - pi * (D + 1 / 16) ** 2 / 4
    assert found.capacity == pytest.approx(625 * 3.375 / 3 * net)
    assert line("washer", washer_in=1.0).verdict is Verdict.FLAG


# --- the concrete ----------------------------------------------------------------------------------------------------------


def test_the_couple_turns_about_the_lower_edge_of_the_contact() -> None:
    """Lever 3/4 of the way from the bolt to the ledger's lower edge; the cast-out pad adds to the load's lever."""
    facts = check()["couple"].facts
    assert facts["e"][0] == pytest.approx(2.5 + 1.5 + 2.0)
    assert facts["z"][0] == pytest.approx(0.75 * (9.25 - 6.5))
    assert facts["T"][0] == pytest.approx(facts["V"][0] * 6.0 / 2.0625)
    small = geometry(replace(Inputs(), top_edge_in=3.0, hole_in=5.0))
    assert small.y_contact == pytest.approx(5.5)  # the cut-out's edge is highest
    soffit = geometry(replace(Inputs(), over_opening=True, below_in=2.0))
    assert soffit.y_contact == pytest.approx(8.5)  # the opening's head is highest
    strip = geometry(replace(Inputs(), contact="strip"))
    assert (strip.x_R, strip.pad) == (pytest.approx(3.5), 0.0)
    rows = geometry(replace(Inputs(), **TWO_ROWS))
    assert rows.lever == pytest.approx(0.75 * (9.25 - 3.0))  # the upper row pulls
    alone = geometry(replace(Inputs(), staggered=True, **TWO_ROWS))
    assert alone.lever == pytest.approx(0.75 * (9.25 - 7.5))  # a lower bolt standing alone


def test_concrete_lines_take_the_largest_share_and_never_less_than_an_even_one() -> None:
    worst, set_out = (check(tie_anchor="own", first_joist_in=u)["couple"].facts["V"][0] for u in (None, 8.0))
    assert worst == pytest.approx(1.871 * FACTORED, rel=1e-3)
    assert set_out == pytest.approx(FACTORED)  # a joist at every bolt
    wide = check(tie_anchor="own", joist_spacing_in=32.0, spacing_in=32.0, end_in=8.0, first_joist_in=24.0)
    assert wide["couple"].facts["V"][0] >= 2 * FACTORED * 32 / 32  # w s of the same floor


def test_breakout_of_a_row_counts_each_bolts_share_of_the_cone() -> None:
    """ACI 318-19 17.6.2.1: h_ef 4 in, N_b = 24 sqrt(3000) 4^1.5; at 8 in the cones overlap: 8 x 12 of 12 x 12 in."""
    whole = 0.7 * 24 * sqrt(3000) * 4**1.5
    assert line("anchor-breakout").capacity == pytest.approx(whole)
    near = line("anchor-breakout", spacing_in=8.0, piece_ft=12.0, end_in=4.0, tie_spacing_in=48.0)
    assert near.capacity == pytest.approx(whole * 8 / 12)


def test_steel_and_pullout_are_those_of_one_bolt() -> None:
    """ACI 318-19 17.6.1.2, 17.6.3.2.2, 17.7.1.2: A_se 0.226 in² (5/8-11), Grade 36 f_uta 58 ksi, hex head 0.454 in²."""
    result = check()
    A_se = pi / 4 * (D - 0.9743 / 11) ** 2
    assert result["anchor-steel-tension"].capacity == pytest.approx(0.75 * A_se * 58000)
    assert result["anchor-steel-shear"].capacity == pytest.approx(0.65 * 0.6 * A_se * 58000)
    A_brg = sqrt(3) / 2 * 0.9375**2 - pi / 4 * D**2
    assert result["anchor-pullout"].capacity == pytest.approx(0.7 * 8 * A_brg * 3000)
    assert result["anchor-pryout"].capacity == pytest.approx(2 * result["anchor-breakout"].capacity)
    r_N = result["anchor-breakout"].ratio
    r_V = result["anchor-steel-shear"].ratio
    both = result["anchor-interaction"]
    assert (both.demand, both.capacity) == (pytest.approx(r_N + r_V), 1.2)


def test_above_an_opening_the_bolts_push_the_concrete_out_below() -> None:
    """ACI 318-19 17.7.2: c_a1 8 in, core 6 in, bolts at 16 in; the prism is cut half way to its neighbours."""
    found = line("anchor-shear-y1", over_opening=True, below_in=8.0)
    V_b = min(7 * (4 / D) ** 0.2 * sqrt(D) * sqrt(3000) * 8**1.5, 9 * sqrt(3000) * 8**1.5)
    V_cb = 16 * 6 / (4.5 * 64) * sqrt(1.5 * 8 / 6) * V_b
    assert found.capacity == pytest.approx(0.7 * V_cb)
    assert found.demand == pytest.approx(check()["couple"].facts["V"][0])


def test_shallow_anchors_lose_half_their_pryout() -> None:
    deep, shallow = (line("anchor-pryout", embedment_in=h).capacity for h in (2.5, 2.49))
    assert shallow < 0.51 * deep


def test_near_the_top_of_the_concrete_the_head_may_burst_its_face() -> None:
    """ACI 318-19 17.6.4.1: h_ef 4 > 2.5 x 1.5 in; 160 c_a1 sqrt(A_brg) sqrt(f'c), bolts farther apart than 6 c_a1."""
    found = line("anchor-side-face", top_of_wall=True, top_in=1.5)
    A_brg = sqrt(3) / 2 * 0.9375**2 - pi / 4 * D**2
    assert found.capacity == pytest.approx(0.7 * 160 * 1.5 * sqrt(A_brg) * sqrt(3000))


def test_a_bolt_at_the_end_of_the_concrete_has_less_cone_and_an_edge_to_push_out() -> None:
    ends = check(left_in=0.0, end_in=4.0, shear_wind_plf=100.0)
    A = (4 + 6) * 12 / 144
    assert ends["anchor-breakout"].capacity == pytest.approx(
        A * (0.7 + 0.3 * 4 / 6) * 0.7 * 24 * sqrt(3000) * 8, rel=1e-9
    )
    assert "at an end" in ends["anchor-shear-x1"].title
    assert "anchor-shear-x1" not in [s.key for s in check(shear_wind_plf=100.0).states]


def test_bolts_across_foam_bend() -> None:
    """AISC 360-22 J3.8, plastic modulus d³/6, lever to the middle of the ledger; V is the heaviest bolt's."""
    found = line("anchor-bending", contact="gap", tie_anchor="own")
    V = 1.871 * FACTORED
    assert found.demand == pytest.approx(V * (2.5 + 0.75) / (D**3 / 6), rel=1e-3)
    assert found.capacity == pytest.approx(0.75 * 0.75 * 58000)
    assert found.facts["lever"][0] == pytest.approx(3.25)


def test_a_tie_on_a_ledger_bolt_adds_to_its_pull_and_its_own_anchor_takes_that_off() -> None:
    out = {"out_wind_plf": 2000.0}
    held, own = (line("anchor-steel-tension", tie_anchor=a, **out) for a in ("ledger bolt", "own"))
    assert held.combination == "1.2D + W + L + 0.5Lr"
    couple = 1.871 * (1.2 * P_D + P_L) * 6 / 2.0625
    assert held.demand == pytest.approx(couple + 2000 * 4, rel=1e-3)
    assert own.demand == pytest.approx(check()["couple"].facts["T"][0])


def test_the_bolts_foot_must_stay_in_the_core_with_its_cover() -> None:
    """IRC R608.5.4.1: 3/4 in in stay-in-place forms; hex head of a 5/8 in bolt 25/64 in (ASME B18.2.1)."""
    found = line("fit")
    assert (found.demand, found.capacity) == (4 + 25 / 64 + 0.75, 6.0)
    deep = check(embedment_in=5.0)
    assert deep["fit"].verdict is Verdict.FLAG
    assert deep["anchor"].verdict is Verdict.UNCHECKED


def test_edges_that_the_wall_has_and_nobody_measured_are_asked_for() -> None:
    assert "below the top of the concrete" in line("edges", top_of_wall=True).say
    assert "opening's head" in line("edges", over_opening=True).say
    assert line("edges", over_opening=True).verdict is Verdict.FLAG


def test_weak_concrete_is_referred_for_wood_and_for_anchors() -> None:
    weak = check(f_c_psi=2400.0)
    assert weak["yield"].verdict is Verdict.REFER
    assert weak["anchor"].verdict is Verdict.REFER


def test_hooked_bolts_are_barred_and_pull_out_first() -> None:
    """ACI 318-19 17.6.3.2.2(b): 0.9 f'c e_h d_a; IRC R608.9.1.1 bars hooks in the floor details."""
    hooked = check(head="hook", hook_in=2.75)
    assert hooked["bolt-kind"].verdict is Verdict.FLAG
    assert hooked["anchor-pullout"].capacity == pytest.approx(0.7 * 0.9 * 3000 * 2.125 * D)
    assert hooked["anchor-pullout"].capacity < hooked["anchor-breakout"].capacity
    assert (
        check(head="hook", hook_in=2.0)["anchor-pullout"].verdict is Verdict.REFER
    )  # shorter than 3 diameters past the shank


def test_a_threaded_rod_needs_its_own_grade() -> None:
    assert line("bolt-kind", head="nut").verdict is Verdict.PASS
    assert line("bolt-kind", head="nut", steel="F1554-105").verdict is Verdict.FLAG


# --- across the wall -------------------------------------------------------------------------------------------------------


def test_ties_are_asked_for_everywhere_by_the_code_or_by_the_project() -> None:
    low, high = line("cross-grain", ties="none"), line("cross-grain", ties="none", seismic="D0", out_seismic_plf=300.0)
    assert low.verdict is high.verdict is Verdict.FLAG
    assert low.source.family == "project rule"
    assert "project rule" in low.say
    assert high.source.label(US_2021) == "ASCE 7-16 12.11.2.2.3"
    assert "The code bars it" in high.say


def test_a_tie_takes_at_least_a_fifth_of_the_wall() -> None:
    """ASCE 7-16 1.4.4: 0.2 x 75 psf x 9 ft = 135 plf; past category A the floor of 12.11.2.1, k_a = 1 + 40/100."""
    assert line("tie", seismic="A", out_wind_plf=1.0).demand == pytest.approx(0.7 * 135 * 4)
    assert line("tie", out_wind_plf=1.0).demand == pytest.approx(0.7 * 135 * 1.4 * 4)
    assert line("tie", out_wind_plf=1000.0).demand == pytest.approx(0.6 * 1000 * 4)
    steel = line("tie", seismic="C", out_seismic_plf=300.0)
    assert steel.demand == pytest.approx(0.7 * 1.4 * 300 * 4)  # 12.11.2.2.2, steel parts


def test_a_bolt_is_asked_for_at_each_tie_that_falls_between_bolts() -> None:
    off, on = line("tie-bolts", tie_spacing_in=40.0), line("tie-bolts", tie_spacing_in=32.0)
    assert off.verdict is on.verdict is Verdict.ADVISORY
    assert (off.holds, on.holds) == (False, True)
    assert "set a bolt at each tie" in off.say
    assert "tie-bolts" not in [s.key for s in check(tie_anchor="own", tie_spacing_in=40.0).states]


def test_earthquake_on_the_bolts_asks_how_it_is_taken_from_category_c_up() -> None:
    """ACI 318-19 17.10.5, 17.10.6: above a fifth; concrete in tension keeps three quarters."""
    shaken = {"seismic": "C", "out_seismic_plf": 300.0, "shear_seismic_plf": 200.0}
    asked, chosen = check(**shaken), check(anchor_route="wall force", **shaken)
    assert asked["anchor-seismic-tension"].verdict is Verdict.FLAG
    assert chosen["anchor-seismic-tension"].verdict is Verdict.PASS
    assert chosen["anchor-seismic-shear"].verdict is Verdict.FLAG  # the wall force is worded for tension
    assert check(anchor_route="overstrength", **shaken)["anchor-seismic-shear"].verdict is Verdict.PASS
    calm = check(seismic="B", out_seismic_plf=300.0, shear_seismic_plf=200.0)
    assert "anchor-seismic-tension" not in [s.key for s in calm.states]


def test_a_mild_shake_is_weighed_against_the_lightest_dead_load() -> None:
    """60 plf of shear is a twelfth of 1.2D + E + L on a bolt, but nearly half of 0.9D + E."""
    found = line("anchor-seismic-shear", seismic="C", out_seismic_plf=300.0, shear_seismic_plf=60.0)
    assert found.combination == "0.9D + E"
    E, V = 60 * 16 / 12, P_D * 0.9 * 1.0
    assert 0.2 < found.facts["share"][0] <= E / hypot(E, V) + 1e-9
    assert found.verdict is Verdict.FLAG


def test_earthquake_force_is_asked_for_where_the_code_needs_it() -> None:
    assert line("tie-force", seismic="C").verdict is Verdict.FLAG
    assert line("tie-force", out_wind_plf=0.0).verdict is Verdict.FLAG


def test_the_prescriptive_table_stands_beside_as_a_wind_tie_and_never_decides() -> None:
    """IRC 2021 Table R608.9(1): bolts 16 and ties 48 in are permitted to 120 mph, prohibited from 130 mph."""
    calm, windy = line("wind-tie-table"), line("wind-tie-table", wind_mph=130.0)
    assert calm.verdict is windy.verdict is Verdict.ADVISORY
    assert (calm.holds, windy.holds) == (True, False)
    assert "nothing of the weight" in calm.say
    assert check(wind_mph=130.0).verdict is Verdict.PASS
    assert line("wind-tie-table", spacing_in=17.0).verdict is Verdict.UNCHECKED
    assert line("wind-tie-table", wind_mph=None).verdict is Verdict.UNCHECKED


def test_parallel_joists_read_the_second_table_and_bring_a_strip_of_floor() -> None:
    along = check(direction="parallel", strip_ft=2.0)
    assert along["wind-tie-table"].source.section == "Table R608.9(2)"
    assert along["yield"].demand == pytest.approx(50 * 2.0 * 16 / 12)
    assert "hanger" not in [s.key for s in along.states]
    assert along.verdict is Verdict.PASS


# --- listings, contact, moisture -------------------------------------------------------------------------------------------


def test_a_hanger_counts_with_its_listing_its_report_and_its_fasteners() -> None:
    assert line("hanger").demand == pytest.approx(P_D + P_L)
    assert line("hanger", hanger_capacity_lb=466.0).verdict is Verdict.FLAG
    assert line("hanger", hanger_capacity_lb=None).verdict is Verdict.FLAG
    assert line("hanger-report", hanger_report="").verdict is Verdict.FLAG
    assert line("hanger-report", hanger_expires="2026-01-31", today="2026-02-01").verdict is Verdict.FLAG
    assert line("hanger-report", hanger_expires="2026-01-31", today="2026-01-31").verdict is Verdict.PASS
    assert line("hanger-fasteners", hanger_fasteners=7).verdict is Verdict.FLAG
    assert line("hanger-fasteners", hanger_listed=None).verdict is Verdict.FLAG
    assert line("tie", tie_capacity_lb=None).verdict is Verdict.FLAG
    assert line("tie-report", tie_expires="").verdict is Verdict.FLAG


@pytest.mark.parametrize(("foam", "least"), [(1.5, 4.0), (2.0, 5.0), (2.5, 6.0), (2.625, 7.0)])
def test_the_cut_out_grows_with_the_foam(foam: float, least: float) -> None:
    """IRC R608.9.1.2: 4 in to 1 1/2 in of foam, 1 in more for each 1/2 in begun."""
    assert line("hole", foam_in=foam).demand == least


def test_only_a_thin_sheet_may_lie_behind_the_ledger() -> None:
    assert line("separator", separator_in=1 / 16).verdict is Verdict.PASS
    assert line("separator", separator_in=3 / 32).verdict is Verdict.FLAG


def test_a_basement_ledger_is_treated_or_parted_from_the_wall() -> None:
    """IRC R317.1 item 7 (R304.1 in 2024), item 2 for framing under 8 in above ground."""
    plain = {"treatment": "plain", "below_grade": True}
    assert line("decay", **plain).verdict is Verdict.FLAG
    assert line("decay", retarder=True, **plain).verdict is Verdict.PASS
    assert line("decay", treatment="plain", ground_in=7.0).verdict is Verdict.FLAG
    later = attachments.check("bolted_ledger", Inputs(), US_2024)
    assert later["decay"].source.label(US_2024) == "IRC 2024 R304.1"


def test_plain_bolts_below_half_an_inch_only_are_barred_from_treated_wood() -> None:
    """IRC R317.3.1 exception 1: steel bolts of 1/2 in and more."""
    assert line("coating", coating="plain").verdict is Verdict.PASS
    assert any("IBC" in c.text for c in check().cautions)


def test_light_wood_is_not_that_of_the_details() -> None:
    """IRC R608.9.2: specific gravity 0.42."""
    assert line("wood-density", species="SPF-S").verdict is Verdict.FLAG
    assert line("wood-density", species="SPF").verdict is Verdict.PASS


def test_beyond_the_prescriptive_limits_the_ledger_is_referred_with_its_lines() -> None:
    beyond = check(span_ft=33.0, joist_spacing_in=12.0)
    assert beyond.verdict is Verdict.REFER
    assert "floor span > 32 ft" in beyond["scope"].say
    assert beyond["wind-tie-table"].verdict is Verdict.UNCHECKED
    assert check(seismic="D1", out_seismic_plf=200.0)["scope"].verdict is Verdict.REFER


# --- whole ledgers ---------------------------------------------------------------------------------------------------------


def test_bolts_too_far_apart_are_brought_nearer_until_everything_holds() -> None:
    wide = replace(Inputs(), spacing_in=24.0)
    assert attachments.check("bolted_ledger", wide, US_2021)["yield"].verdict is Verdict.FLAG
    remedy, _ = solve("bolted_ledger", wide, US_2021, "spacing_in")
    assert remedy is not None
    solved = replace(wide, spacing_in=remedy.values[0])
    assert attachments.check("bolted_ledger", solved, US_2021).lines_verdict == "every line holds"


def test_bolts_off_the_ledger_and_pieces_too_short_are_refused_in_inches() -> None:
    with pytest.raises(BadInput, match="3/4 in past the lower edge"):
        check(top_edge_in=10.0)
    with pytest.raises(BadInput, match="leave no piece"):
        check(piece_ft=2.0, end_in=12.0)


def test_bolts_of_a_piece_stand_at_the_spacing_and_evened_at_its_end() -> None:
    found = geometry(replace(Inputs(), piece_ft=11.5, end_in=6.0)).places
    gaps = [b - a for a, b in pairwise(found)]
    assert found[0] == 6.0
    assert found[-1] == 11.5 * 12 - 6.0
    assert max(gaps) <= 16.0
    assert min(gaps) >= 8.0


def test_joists_that_run_on_bring_less_and_may_lift() -> None:
    """Two equal spans: 3/8 w L dead, 7/16 w L with live on the end span alone; -1/16 w L with live on the other."""
    run_on = check(reaction="continuous", second_span_ft=14.0)
    w_D, w_L = 10 * 16 / 12, 40 * 16 / 12
    assert run_on["hanger"].demand == pytest.approx((3 / 8 * w_D + 7 / 16 * w_L) * 14)
    assert run_on["lift"].demand == pytest.approx(w_L * 14 / 16)
    assert run_on["lift"].capacity == pytest.approx(0.6 * 3 / 8 * w_D * 14)
