"""The wall strip judged line by line."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us.concrete_strip_check import Action, WallStrip, judge_wall, simplified_applies
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState, Verdict
from engine.worksheet import Worksheet

WALL = WallStrip(12, 6, 3000, 60000, 108, ((0.15, 3.0),))
TWO = replace(WALL, h_in=8, bars=((0.15, 2.0), (0.15, 6.0)))
PLAIN = replace(WALL, bars=())


def judge(wall: WallStrip, action: Action) -> dict[str, LimitState]:
    return {state.key: state for state in judge_wall(Worksheet(), wall, action)}


def test_a_load_in_the_middle_third_is_judged_by_the_simplified_method() -> None:
    """By hand: 0.65 x 0.55 x 3,000 x 72 x (1 - (108 / 192)²) = 52,787 lb."""
    line = judge(WALL, Action(3000, 3000))["wall-axial"]
    assert (line.demand, line.capacity) == (3000, pytest.approx(52_787, abs=0.5))
    assert line.verdict is Verdict.PASS
    assert {step.clause.citation.section for step in line.steps} >= {"11.5.3.1", "21.2.2"}


def test_a_load_just_past_the_middle_third_is_judged_with_bending() -> None:
    assert set(judge(WALL, Action(3000, 3000 * 1.001))) == {
        "wall-axial-limit",
        "wall-stability",
        "wall-second-order",
        "wall-moment",
    }


def test_a_thin_or_foundation_wall_is_judged_with_bending() -> None:
    """ACI 318-19 Table 11.3.1.1: 1/25 of the height, 7.5 in below ground."""
    assert not simplified_applies(replace(WALL, l_c_in=151), Action(3000, 0))
    assert not simplified_applies(replace(WALL, foundation=True), Action(3000, 0))
    assert simplified_applies(replace(TWO, foundation=True), Action(3000, 0))


def test_a_stocky_wall_has_no_second_order_lines() -> None:
    """kl/r = 60 / 1.8 = 33.3, under 34."""
    assert set(judge(replace(WALL, l_c_in=60), Action(3000, 9000))) == {"wall-axial-limit", "wall-moment"}


def test_a_slender_wall_by_hand() -> None:
    """E_c 3.122e6, I_g 216: P_c = π² 0.4 E_c I_g / 108² = 228,245 lb. 3,000 lb with lateral load: δ = 1 / (1 - 3,000/171,184)."""
    lines = judge(WALL, Action(3000, 6000, lateral=True))
    assert lines["wall-stability"].capacity == pytest.approx(171_184, abs=1)
    assert lines["wall-second-order"].demand == pytest.approx(1.01784, abs=1e-5)
    assert lines["wall-moment"].demand == pytest.approx(6107.0, abs=0.1)


def test_the_least_moment_counts_only_where_the_wall_is_slender() -> None:
    """0.6 + 0.03 x 6 = 0.78 in; beyond the middle third of a 4 in wall the first-order moment is smaller."""
    thin = replace(WALL, h_in=4, bars=((0.1, 2.0),), l_c_in=96)
    assert judge(thin, Action(1000, 680))["wall-moment"].demand == pytest.approx(1000 * 0.72, rel=0.02)
    stocky = replace(thin, l_c_in=40)
    assert judge(stocky, Action(1000, 680))["wall-moment"].demand == 680


def test_a_wall_that_buckles_is_flagged_and_its_moment_not_judged() -> None:
    lines = judge(replace(WALL, l_c_in=240), Action(60_000, 90_000))
    assert lines["wall-stability"].verdict is Verdict.FLAG
    assert lines["wall-moment"].verdict is Verdict.UNCHECKED


def test_a_load_right_at_three_quarters_of_buckling_never_passes_unjudged() -> None:
    wall = replace(WALL, l_c_in=240)
    most = judge(wall, Action(1000, 3000))["wall-stability"].capacity
    assert most is not None
    lines = judge(wall, Action(most, 3 * most))
    assert lines["wall-stability"].verdict is Verdict.FLAG


def test_a_load_right_at_the_axial_limit_still_has_its_moment_judged() -> None:
    most = judge(WALL, Action(1000, 3000))["wall-axial-limit"].capacity
    assert most is not None
    assert judge(WALL, Action(most * (1 + 1e-10), 1.5 * most))["wall-moment"].verdict is Verdict.FLAG


@pytest.mark.parametrize("wall", [WALL, PLAIN])
def test_a_strip_pulled_upward_goes_to_an_engineer(wall: WallStrip) -> None:
    with pytest.raises(OutOfScope, match="pulled upward"):
        judge(wall, Action(-100, 0))


def test_more_axial_load_than_the_strip_carries_is_flagged() -> None:
    lines = judge(WALL, Action(110_000, 150_000))
    assert lines["wall-axial-limit"].verdict is Verdict.FLAG
    assert lines["wall-moment"].verdict is Verdict.UNCHECKED


def test_a_wall_magnified_past_1_4_is_flagged() -> None:
    lines = judge(replace(WALL, beta_dns=1.0), Action(60_000, 90_000, M_ratio=-1.0))
    assert lines["wall-second-order"].verdict is Verdict.FLAG


def test_a_plain_wall_in_the_middle_third_by_hand() -> None:
    """0.60 x 0.45 x 3,000 x 72 x (1 - (108/192)²) = 39,867 lb."""
    lines = judge(PLAIN, Action(3000, 0))
    assert lines["wall-plain-axial"].capacity == pytest.approx(39_867, abs=0.5)
    assert lines["wall-plain-thickness"].demand == 5.5


def test_a_plain_wall_beyond_the_middle_third_is_judged_at_both_faces() -> None:
    """S 72 in³, A 72 in²: 6,000 lb-in and 3,000 lb give 83.3 - 41.7 psi against 0.60 x 5 x sqrt(3,000) = 164 psi."""
    lines = judge(PLAIN, Action(3000, 6000))
    assert lines["wall-plain-tension"].demand == pytest.approx(41.667, abs=0.001)
    assert lines["wall-plain-tension"].capacity == pytest.approx(164.32, abs=0.01)
    # 3,000 / 53,156 + 6,000 / (0.60 x 0.85 x 3,000 x 72)
    assert lines["wall-plain-compression"].demand == pytest.approx(0.05644 + 0.05447, abs=1e-5)


def test_a_moment_the_other_way_meets_the_same_symmetric_wall() -> None:
    one, other = judge(TWO, Action(2000, 9000)), judge(TWO, Action(2000, -9000))
    assert one["wall-moment"].ratio == pytest.approx(other["wall-moment"].ratio)


def test_a_curtain_near_one_face_is_stronger_one_way() -> None:
    one_sided = replace(TWO, bars=((0.3, 6.0),))
    inward, outward = (judge(one_sided, Action(2000, M))["wall-moment"].capacity for M in (9000.0, -9000.0))
    assert inward is not None
    assert outward is not None
    assert inward > outward


def test_an_unbraced_wall_in_bending_goes_to_an_engineer() -> None:
    with pytest.raises(OutOfScope, match="not braced"):
        judge(replace(WALL, k=2.0), Action(2000, 9000))


def test_too_many_bars_are_refused() -> None:
    with pytest.raises(BadInput, match="4 %"):
        judge(replace(WALL, bars=((3.0, 3.0),)), Action(2000, 9000))


def test_without_recording_the_numbers_are_the_same_and_no_working_is_kept() -> None:
    silent = judge_wall(Worksheet(recording=False), WALL, Action(2000, 9000))
    loud = judge_wall(Worksheet(), WALL, Action(2000, 9000))
    assert [s.ratio for s in silent] == [s.ratio for s in loud]
    assert all(not s.steps for s in silent)
    assert all(s.steps for s in loud)


@given(P=st.floats(100, 60_000), e=st.floats(0, 8), more=st.floats(1, 3))
def test_the_same_load_heavier_never_turns_a_flag_into_a_pass(P: float, e: float, more: float) -> None:
    """Axial load and moment grow together, at one eccentricity beyond the middle third or within it."""

    def passes(factor: float) -> bool:
        states = judge_wall(Worksheet(recording=False), WALL, Action(P * factor, P * factor * e))
        return all(s.verdict is Verdict.PASS for s in states)

    assert passes(1.0) or not passes(more)
