"""Corbels, veneer ledges and shear friction, ACI 318-19 16.5 and 22.9."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import concrete_corbels as corbels
from engine.clauses.us import ledge_geometry as shape
from engine.clauses.us import shear_friction as friction
from engine.errors import BadInput, OutOfScope

psi = st.floats(2500, 6000)


def test_a_ledge_for_20_ft_of_brick_by_hand() -> None:
    """40 psf x 20 ft, foam 2 1/2, air 1, wythe 3 5/8 in; 12 in deep, 6 in at a 7 1/8 in lip, No. 4 with 1 1/2 in cover."""
    a_v, d = shape.shear_span_in(2.5, 1, 3.625), shape.depth_to_bars_in(12, 1.5, 0.5)
    assert (a_v, d) == (5.3125, 10.25)
    assert shape.own_weight_lb(150, 12, 7.125, 12, 6) == pytest.approx(66.797, abs=0.001)
    assert shape.own_centroid_in(7.125, 12, 6) == pytest.approx(3.1667, abs=1e-4)
    # 1.4 x 800 = 1,120 lb at 5.3125 in, 224 lb at 1.75 in, 93.5 lb at 3.167 in
    M_u = corbels.corbel_moment_lb_in(1120, a_v, 224, 12, d, 1.4 * 66.797, 3.16667)
    assert M_u == pytest.approx(5950 + 392 + 296.1, abs=0.1)
    A_f = corbels.moment_steel_in2(M_u, 0.75, 3000, 60000, 12, d)
    assert A_f == pytest.approx(0.0144, abs=5e-5)
    assert corbels.least_main_steel_in2(3000, 60000, 12, d) == pytest.approx(0.246)


@given(M=st.floats(100, 60_000), f_c=psi, d=st.floats(6, 20))
def test_the_closed_form_gives_back_its_moment(M: float, f_c: float, d: float) -> None:
    A_f = corbels.moment_steel_in2(M, 0.75, f_c, 60000, 12, d)
    a = A_f * 60000 / (0.85 * f_c * 12)
    assert 0.75 * A_f * 60000 * (d - a / 2) == pytest.approx(M, rel=1e-7)
    assert A_f <= corbels.moment_steel_by_lever_in2(M, 0.75, 60000, d) or a > 0.2 * d


@given(f_c=psi, more=st.floats(0, 3000), d=st.floats(4, 20), deeper=st.floats(0, 10))
def test_a_deeper_or_stronger_ledge_needs_more_least_steel(f_c: float, more: float, d: float, deeper: float) -> None:
    least = corbels.least_main_steel_in2(f_c, 60000, 12, d)
    assert corbels.least_main_steel_in2(f_c + more, 60000, 12, d + deeper) >= least


@given(A_f=st.floats(0, 1), A_n=st.floats(0, 1), A_vf=st.floats(0, 1), least=st.floats(0, 1))
def test_main_steel_covers_every_rule_and_ties_follow_it(A_f: float, A_n: float, A_vf: float, least: float) -> None:
    A_sc = corbels.main_steel_in2(corbels.strength_steel_in2(A_f, A_n, A_vf), least)
    assert A_sc >= max(A_f + A_n, 2 * A_vf / 3 + A_n, least) - 1e-12
    assert corbels.tie_steel_in2(A_sc, A_n) == pytest.approx((A_sc - A_n) / 2)


def test_the_size_limit_is_the_least_of_three() -> None:
    """0.2 f'c governs to 4,000 psi, 480 + 0.08 f'c to 14,000."""
    assert [corbels.shear_limit_lb(f, 1, 1) for f in (3000, 5000, 20000)] == [600, 880, 1600]
    assert corbels.shear_stress_limit_MPa(35) == pytest.approx(6.1)
    # lightweight at a_v = d / 2: the lesser of 0.165 f'c and 660 psi
    assert corbels.shear_limit_lightweight_lb(3000, 1, 10, 5) == pytest.approx(4950)
    assert corbels.shear_limit_lightweight_lb(6000, 1, 10, 5) == pytest.approx(6600)


def test_the_restraint_force_is_a_fifth_of_the_sustained_load_factored() -> None:
    assert corbels.restraint_force_lb(800) == pytest.approx(256)


def test_a_taper_loses_depth_evenly_and_may_miss_half_the_depth() -> None:
    assert shape.depth_at_in(12, 6, 7.125, 7.125) == 6
    assert shape.depth_at_in(12, 3, 7.125, 7.125) < corbels.edge_depth_minimum_in(10.25)
    assert shape.depth_at_in(12, 12, 8, 3) == 12


def test_a_bent_stirrup_is_straight_only_to_3_in_from_the_lip() -> None:
    """No. 4, 1 1/2 in cover, bend of 4 diameters inside."""
    assert shape.straight_end_from_lip_in(1.5, 0.5, 2.0) == 3.0


def test_stirrups_keep_to_the_web_module() -> None:
    s_max = corbels.stirrup_spacing_in(0.2, 0.246, 12)
    assert s_max == pytest.approx(9.756, abs=0.001)
    assert corbels.module_spacing_in(s_max, 8) == 8
    assert corbels.module_spacing_in(5.26, 8) == 0
    assert corbels.tie_zone_in(10.25) == pytest.approx(6.833, abs=0.001)


def test_a_ledge_too_shallow_for_its_moment_goes_to_an_engineer() -> None:
    with pytest.raises(OutOfScope, match="Deepen"):
        corbels.moment_steel_in2(1e6, 0.75, 3000, 60000, 12, 4)


def test_cover_that_leaves_no_depth_is_refused() -> None:
    with pytest.raises(BadInput, match="no depth"):
        shape.depth_to_bars_in(1.5, 1.5, 0.5)
    with pytest.raises(BadInput, match="less than the depth"):
        corbels.corbel_moment_lb_in(100, 5, 0, 6, 6)


def test_shear_friction_of_the_textbook_dowels() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 12.9: 65 k across an unroughened joint, 2.41 in², cap 88.2 k."""
    mu = friction.friction_coefficient("not roughened")
    assert friction.shear_friction_steel_in2(65_000, 0.75, mu, 60000) == pytest.approx(2.41, abs=0.005)
    assert 0.75 * friction.shear_friction_cap_other_lb(3000, 196) == pytest.approx(88_200)
    assert friction.shear_friction_cap_other_lb(6000, 196) == 800 * 196
    assert friction.shear_friction_cap_lb(6000, 196) == pytest.approx(960 * 196)


def test_friction_follows_the_surface_and_yield_stops_at_60_ksi() -> None:
    """ACI 318-19 Table 22.9.4.2, 22.9.1.3."""
    assert [friction.friction_coefficient(s) for s in ("monolithic", "roughened", "not roughened", "steel")] == [
        1.4,
        1.0,
        0.6,
        0.7,
    ]
    assert friction.friction_coefficient("monolithic", 0.75) == pytest.approx(1.05)
    assert friction.shear_friction_lb(1.4, 0.2, 80000) == friction.shear_friction_lb(1.4, 0.2, 60000)
    with pytest.raises(BadInput, match="Choose one of"):
        friction.friction_coefficient("smooth")  # type: ignore[arg-type]


@given(V=st.floats(1, 1e5), mu=st.sampled_from([0.6, 0.7, 1.0, 1.4]), f_y=st.floats(40000, 80000))
def test_the_bars_found_carry_the_shear(V: float, mu: float, f_y: float) -> None:
    A_vf = friction.shear_friction_steel_in2(V, 0.75, mu, f_y)
    assert 0.75 * friction.shear_friction_lb(mu, A_vf, f_y) == pytest.approx(V)


def test_the_si_form_counts_yield_to_420_mpa() -> None:
    assert friction.shear_friction_steel_mm2(650_000, 0.75, 1.4, 415) == pytest.approx(1491.68, abs=0.005)
    assert friction.shear_friction_steel_mm2(1000, 0.75, 1.4, 500) == friction.shear_friction_steel_mm2(
        1000, 0.75, 1.4, 420
    )
