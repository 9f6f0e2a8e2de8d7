"""A strip under axial load and bending, ACI 318-19 22.2 to 22.4, against printed examples and a general section library."""

from math import pi, sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon
from structuralcodes.geometry import SurfaceGeometry, add_reinforcement
from structuralcodes.materials.basic import GenericMaterial
from structuralcodes.materials.constitutive_laws import UserDefined
from structuralcodes.sections import BeamSection

from engine.clauses.us.concrete_material import beta_1
from engine.clauses.us.concrete_strip import (
    Strip,
    capacity_at,
    design_axial_limit_lb,
    neutral_axis_in,
    nominal_moment_lb_in,
    resultants,
    squash_load_lb,
)
from engine.errors import BadInput, OutOfScope
from tests import pace

COLUMN = Strip(14, 24, 4000, 60000, ((3, 2.5), (3, 21.5)), tied=True)
TWO_CURTAINS = Strip(12, 8, 4000, 60000, ((0.48, 1.6), (0.48, 6.4)))
ONE_CURTAIN = Strip(12, 6, 3000, 60000, ((0.15, 3.0),))


def central(f_c: float, h: float, rho: float, tied: bool = True) -> Strip:
    """A foot of wall with one curtain in the middle."""
    return Strip(12, h, f_c, 60000, ((rho * 12 * h, h / 2),), tied)


def by_library(strip: Strip, P_n: float) -> float:
    """Nominal moment by `structuralcodes`: its own equilibrium search and integration of the same stress block and bars."""
    block, f_y = 0.85 * strip.f_c_psi, strip.f_y_psi
    start, step, e_y = (1 - beta_1(strip.f_c_psi)) * 0.003, 1e-9, f_y / 29e6
    concrete = GenericMaterial(0, UserDefined([-0.003, -start - step, -start, 1.0], [-block, -block, 0, 0]))
    # a bar inside the block gives up the concrete it displaces
    strains = [-1, -e_y, -start - step, -start, e_y, 1.0]
    stresses = [-f_y + block, -f_y + block, 29e6 * (-start - step) + block, 29e6 * -start, f_y, f_y]
    steel = GenericMaterial(0, UserDefined(strains, stresses))
    b, h = strip.b_in / 2, strip.h_in / 2
    shape = SurfaceGeometry(Polygon([(-b, -h), (b, -h), (b, h), (-b, h)]), concrete)
    for area, depth in strip.bars:
        shape = add_reinforcement(shape, (0, h - depth), 2 * sqrt(area / pi), steel)
    section = BeamSection(shape, integrator="marin")
    return -float(section.section_calculator.calculate_bending_strength(n=-P_n).m_y)


@pytest.mark.parametrize("strip", [TWO_CURTAINS, ONE_CURTAIN, Strip(42, 8, 6000, 60000, ((0.93, 2.0), (0.6, 6.0)))])
@pytest.mark.parametrize("P_u", [0, 2000, 5000, 12000, 20000, 40000, 60000, 90000])
def test_the_moment_at_an_axial_load_is_that_of_a_general_section_library(strip: Strip, P_u: float) -> None:
    found = capacity_at(strip, P_u)
    assert found.M_n_lb_in == pytest.approx(by_library(strip, P_u / found.phi), rel=2e-6)


def test_the_textbook_column_at_a_chosen_strain() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 10.2: c 14.40 in gives 623.7 k and 6,261.3 in-k."""
    P_n, M_n = resultants(COLUMN, 14.40)
    assert P_n == pytest.approx(623_700, abs=50)
    # the book rounds the tension strain to 0.00148
    assert M_n == pytest.approx(6_261_300, abs=500)


def test_the_ends_of_the_textbook_curve() -> None:
    """The same book, section 10.3: 1,482 k without moment, 297 ft-k without axial load, 504.4 k and 559.7 ft-k balanced."""
    assert squash_load_lb(4000, 14 * 24, 60000, 6) == pytest.approx(1_482_000, abs=500)
    assert capacity_at(COLUMN, 0).M_n_lb_in / 12000 == pytest.approx(297, abs=0.5)
    # balanced at the yield strain as printed, 0.00207, and the block of 10.81 in that follows
    block = round(0.85 * 21.5 * 0.003 / (0.003 + 0.00207), 2)
    P_n, M_n = resultants(COLUMN, block / 0.85)
    assert (P_n / 1000, M_n / 12000) == (pytest.approx(504.4, abs=0.05), pytest.approx(559.7, abs=0.05))


def test_the_textbook_wall_is_just_enough_with_its_bars() -> None:
    """The same book, Example 18.2: 0.48 in²/ft in each face for 166,877 in-lb with 2,063 lb and 166,284 with 1,247 lb."""
    for P_u, M_u in ((2063, 166_877), (1247, 166_284)):
        assert 1.0 < capacity_at(TWO_CURTAINS, P_u).phiM_n_lb_in / M_u < 1.03


def test_one_curtain_without_axial_load_is_the_lever_times_the_bars() -> None:
    """By hand: 0.15 in² at 60 ksi, a = 9,000 / (0.85 x 3,000 x 12) = 0.294 in, M_n = 9,000 (3 - 0.147) = 25,676 lb-in."""
    found = capacity_at(ONE_CURTAIN, 0)
    assert (found.phi, found.M_n_lb_in) == (0.9, pytest.approx(25_676.5, abs=0.1))


loads = st.floats(0.0, 0.999)
central_strips = st.builds(
    central, st.floats(2500, 8000), st.floats(4, 14), st.floats(0.0012, 0.039), tied=st.booleans()
)


@st.composite
def double_strips(draw: st.DrawFn) -> Strip:
    h = draw(st.floats(6, 14))
    edge = draw(st.floats(1, 0.45 * h))
    area = draw(st.floats(0.0006, 0.019)) * 12 * h
    return Strip(12, h, draw(st.floats(2500, 8000)), 60000, ((area, edge), (area, h - edge)), draw(st.booleans()))


@given(strip=st.one_of(central_strips, double_strips()), share=loads)
def test_the_point_found_lies_on_the_design_curve(strip: Strip, share: float) -> None:
    P_u = share * design_axial_limit_lb(strip)
    found = capacity_at(strip, P_u)
    P_n, M_n = resultants(strip, found.c_in)
    assert found.phi * P_n == pytest.approx(P_u, abs=1e-6 * design_axial_limit_lb(strip))
    assert found.M_n_lb_in == pytest.approx(max(0.0, M_n))
    assert found.c_in == neutral_axis_in(strip, P_u)
    assert nominal_moment_lb_in(strip, found.c_in) == pytest.approx(M_n)


@given(f_c=st.floats(2500, 6000), more=st.floats(0, 2000), h=st.floats(4, 14), rho=st.floats(0.0012, 0.01), share=loads)
def test_stronger_concrete_never_lowers_the_moment(f_c: float, more: float, h: float, rho: float, share: float) -> None:
    weak, strong = central(f_c, h, rho), central(f_c + more, h, rho)
    P_u = share * design_axial_limit_lb(weak)
    assert capacity_at(strong, P_u).phiM_n_lb_in >= capacity_at(weak, P_u).phiM_n_lb_in * (1 - 1e-9)


@given(h=st.floats(4, 12), more=st.floats(0, 4), A_s=st.floats(0.1, 0.5), f_c=st.floats(2500, 6000), share=loads)
def test_a_thicker_wall_never_lowers_the_moment(h: float, more: float, A_s: float, f_c: float, share: float) -> None:
    thin, thick = (Strip(12, t, f_c, 60000, ((A_s, t / 2),), tied=True) for t in (h, h + more))
    P_u = share * design_axial_limit_lb(thin)
    assert capacity_at(thick, P_u).phiM_n_lb_in >= capacity_at(thin, P_u).phiM_n_lb_in * (1 - 1e-9)


@given(strip=double_strips(), more=st.floats(1, 2), share=st.floats(0, 0.3))
def test_more_bars_never_lower_the_moment(strip: Strip, more: float, share: float) -> None:
    """Up to 4 % of the wall, all tied, at the axial loads of house walls."""
    few = strip._replace(tied=True)
    many = few._replace(bars=tuple((area * more, depth) for area, depth in few.bars))
    assume(many.A_st_in2 <= 0.04 * 12 * strip.h_in)
    P_u = share * design_axial_limit_lb(few)
    assert capacity_at(many, P_u).phiM_n_lb_in >= capacity_at(few, P_u).phiM_n_lb_in * (1 - 1e-9)


@given(strip=double_strips(), share=loads)
def test_a_symmetric_strip_is_as_strong_either_way(strip: Strip, share: float) -> None:
    P_u = share * design_axial_limit_lb(strip)
    assert capacity_at(strip.turned(), P_u).phiM_n_lb_in == pytest.approx(
        capacity_at(strip, P_u).phiM_n_lb_in, rel=1e-6
    )


def test_bars_past_one_percent_without_ties_carry_no_compression() -> None:
    """ACI 318-19 11.7.4.1."""
    untied = Strip(12, 8, 4000, 60000, ((0.6, 1.6), (0.6, 6.4)))
    assert design_axial_limit_lb(untied) == pytest.approx(0.65 * 0.80 * 0.85 * 4000 * 96)
    assert capacity_at(untied, 40000).phiM_n_lb_in < capacity_at(untied._replace(tied=True), 40000).phiM_n_lb_in


def test_above_the_axial_limit_there_is_no_moment_left() -> None:
    limit = design_axial_limit_lb(ONE_CURTAIN)
    assert capacity_at(ONE_CURTAIN, limit * 0.999).phiM_n_lb_in > 0
    assert capacity_at(ONE_CURTAIN, limit * 1.001).phiM_n_lb_in == 0


@pytest.mark.parametrize(
    ("strip", "field"),
    [
        (ONE_CURTAIN._replace(bars=((3.0, 3.0),)), "bars"),  # 4.2 %
        (ONE_CURTAIN._replace(bars=((0.2, 6.5),)), "bars"),
        (ONE_CURTAIN._replace(bars=()), "bars"),
        (ONE_CURTAIN._replace(h_in=0.0), "h_in"),
        (ONE_CURTAIN._replace(f_y_psi=90000.0), "f_y_psi"),
    ],
)
def test_a_strip_that_cannot_be_meant_is_refused(strip: Strip, field: str) -> None:
    with pytest.raises(BadInput) as caught:
        capacity_at(strip, 1000)
    assert caught.value.field == field


def test_a_wall_pulled_upward_goes_to_an_engineer() -> None:
    with pytest.raises(OutOfScope, match="pulled upward"):
        capacity_at(ONE_CURTAIN, -1)


def test_a_strip_is_found_in_a_fraction_of_a_millisecond() -> None:
    assert pace.seconds(lambda: capacity_at(TWO_CURTAINS, 5000), rounds=7, number=50) < 0.15e-3
