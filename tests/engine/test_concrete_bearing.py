"""Bearing on concrete, ACI 318-19 22.8."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us.concrete_bearing import bearing_strength_lb, support_area_in2, support_offset_in
from engine.clauses.us.concrete_material import (
    beta_1,
    design_strength_lb,
    lightweight_factor,
    modulus_psi,
    phi_bearing,
    phi_by_strain,
)
from engine.errors import BadInput

sizes = st.floats(0.5, 60)


def test_a_plate_on_a_wider_pedestal_spreads_by_equal_offsets() -> None:
    """Design Guide 1, 3rd ed., Example 4.7-2: 20 x 18 in on 24 x 24 in spreads to 24 x 22 in, 723 kip at f'c 3,000."""
    c = support_offset_in(2, 2, 3, 3, depth_in=24)
    assert (20 + 2 * c, 18 + 2 * c) == (24, 22)
    B_n = bearing_strength_lb(3000, 360, support_area_in2(20, 18, c))
    assert design_strength_lb(phi_bearing(), B_n) == pytest.approx(723_000, abs=500)


def test_a_seat_flush_with_a_face_gains_nothing() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 18.1: a beam across an 8 in wall, 132.6 kip."""
    assert support_offset_in(0, 10, 10, 10, depth_in=96) == 0
    assert support_area_in2(10, 8, 0) == 80
    assert 0.65 * bearing_strength_lb(3000, 80, 80) == pytest.approx(132_600, abs=50)


def test_a_shallow_support_limits_the_spread_to_twice_its_depth() -> None:
    assert support_offset_in(20, 20, 20, 20, depth_in=3) == 6


@given(f_c=st.floats(2000, 10000), a=sizes, b=sizes, c=st.floats(0, 60))
def test_confinement_never_more_than_doubles_the_strength(f_c: float, a: float, b: float, c: float) -> None:
    plain = bearing_strength_lb(f_c, a * b, a * b)
    confined = bearing_strength_lb(f_c, a * b, support_area_in2(a, b, c))
    assert plain * (1 - 1e-12) <= confined <= 2 * plain * (1 + 1e-12)


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_an_area_that_cannot_be_is_refused(bad: float) -> None:
    with pytest.raises(BadInput, match="A_1_in2"):
        bearing_strength_lb(3000, bad, 10)


def test_the_stress_block_is_shallower_in_strong_concrete() -> None:
    """ACI 318-19 Table 22.2.2.4.3."""
    assert [round(beta_1(f), 3) for f in (2500, 4000, 5000, 8000, 10000)] == [0.85, 0.85, 0.8, 0.65, 0.65]


def test_the_modulus_of_4000_psi_concrete_is_that_of_the_textbook() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 11.3: 3,605 ksi."""
    assert modulus_psi(4000) == pytest.approx(3_605_000, abs=500)


def test_the_lightweight_factor_falls_to_three_quarters() -> None:
    assert [lightweight_factor(w) for w in (90, 100, 120, 145)] == [0.75, 0.75, pytest.approx(0.9), 1.0]


def test_phi_rises_from_compression_to_tension_control() -> None:
    """ACI 318-19 Table 21.2.2: 0.65 to the yield strain, 0.90 from 0.003 beyond it."""
    e_y = 60000 / 29e6
    assert [phi_by_strain(e, 60000) for e in (-0.001, e_y, e_y + 0.0015, e_y + 0.003, 0.02)] == [
        0.65,
        0.65,
        pytest.approx(0.775),
        pytest.approx(0.9),
        0.9,
    ]
