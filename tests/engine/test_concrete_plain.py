"""Plain concrete, ACI 318-19 chapter 14, and the lip of a tapered top."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import concrete_lip as lip
from engine.clauses.us import concrete_plain as plain
from engine.clauses.us.concrete_material import phi_plain


def test_a_plain_footing_bends_and_shears_as_the_textbook_says() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 12.10: 12 x 22 in, f'c 3,000: S 968 in³, 159,058 in-lb, 11,568 lb."""
    S_m = plain.section_modulus_in3(12, 22)
    assert S_m == 968
    # the book multiplies by a square root rounded to four figures
    assert phi_plain() * plain.plain_moment_tension_lb_in(3000, S_m) == pytest.approx(159_058, rel=5e-5)
    assert phi_plain() * plain.plain_shear_lb(3000, 12, 22) == pytest.approx(11_568, abs=1)


def test_a_plain_wall_with_load_in_the_middle_third_uses_0_45() -> None:
    """ACI 318-19 14.5.4.2 by hand: 8 in wall, 9 ft, a foot of it, f'c 3,000: 0.45 x 3,000 x 96 x (1 - (108/256)²) = 106,534 lb."""
    assert plain.plain_wall_axial_simplified_lb(3000, 96, 108, 8) == pytest.approx(106_534, abs=0.5)
    assert plain.plain_axial_lb(3000, 96, 108, 8) == pytest.approx(106_534 * 0.60 / 0.45, abs=0.5)


def test_a_plain_wall_is_no_thinner_than_5_and_a_half_inches() -> None:
    assert plain.plain_wall_thickness_minimum_in(120) == 5.5
    assert plain.plain_wall_thickness_minimum_in(168) == 7
    assert plain.plain_foundation_wall_thickness_minimum_in() == 7.5
    assert plain.plain_minimum_eccentricity_in(8) == pytest.approx(0.8)


def test_axial_load_takes_tension_off_the_stretched_face() -> None:
    # 12 x 8 in: S 128 in³, A 96 in²; 6,400 lb-in is 50 psi, 2,400 lb takes 25 psi off
    assert plain.plain_tension_psi(6400, 128, 2400, 96) == pytest.approx(25)


def test_bending_and_axial_ratios_add_at_the_compressed_face() -> None:
    assert plain.plain_interaction(250, 1000, 500, 1000) == pytest.approx(0.75)


def test_a_bearing_within_the_core_loads_no_lip() -> None:
    assert lip.lip_share(3.0, 3.0) == 0
    assert lip.lip_lever_in(3.0, 3.5) == 0


def test_a_bearing_half_past_the_core_loads_the_lip_with_three_quarters() -> None:
    """By hand: triangle over 4 in, core's face at 2 in: share 1 - 1/4; centroid 2/3 (64 - 8) / (16 - 4) - 2 = 1.111 in."""
    assert lip.lip_share(4, 2) == 0.75
    assert lip.lip_lever_in(4, 2) == pytest.approx(28 / 9 - 2)


def test_a_bearing_wholly_past_the_core_acts_at_its_triangle() -> None:
    assert lip.lip_share(3, -0.5) == 1
    assert lip.lip_lever_in(3, -0.5) == pytest.approx(lip.triangle_centroid_in(3) + 0.5)


@given(L_b=st.floats(0.5, 8), u=st.floats(-3, 8))
def test_share_and_lever_agree_with_the_pressure_added_up(L_b: float, u: float) -> None:
    """The triangle cut into 2,000 slices."""
    n = 2000
    width = L_b / n
    slices = [((k + 0.5) * width, 2 * (k + 0.5) * width / L_b**2 * width) for k in range(n)]
    beyond = [(x, part) for x, part in slices if x > u]
    share = sum(part for _, part in beyond)
    assert lip.lip_share(L_b, u) == pytest.approx(share, abs=2e-3)
    if share > 0.05:
        lever = sum((x - u) * part for x, part in beyond) / share
        assert lip.lip_lever_in(L_b, u) == pytest.approx(lever, abs=0.02)


def test_the_lip_strip_is_the_joist_its_plate_and_its_levers_up_to_the_spacing() -> None:
    assert lip.lip_strip_width_in(1.5, 1.5, 1.0, 16) == 6.5
    assert lip.lip_strip_width_in(1.5, 1.5, 1.0, 5) == 5
    assert lip.lip_depth_minimum_in(2.5) == 5
