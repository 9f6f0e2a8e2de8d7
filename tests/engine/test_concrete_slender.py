"""Slenderness of braced walls, ACI 318-19 6.2.5 and 6.6.4."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import concrete_slender as slender
from engine.clauses.us.concrete_material import modulus_psi
from engine.errors import BadInput, OutOfScope


def test_the_textbook_column_is_magnified_as_printed() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 11.3: 12 x 15 in, 16 ft, k 0.83, 110 k, end moments 82 and 86 ft-k."""
    ratio = -82 / 86  # single curvature
    assert slender.slenderness(0.83, 192, 15) == pytest.approx(35.41, abs=0.005)
    assert slender.slenderness_limit(ratio) == pytest.approx(22.56, abs=0.005)
    P_c = slender.buckling_load_lb(modulus_psi(4000), 12, 15, 0.327, 0.83, 192)
    assert P_c == pytest.approx(1_426_000, abs=1000)  # the book carries EI on to three figures
    C_m = slender.moment_shape_factor(ratio)
    assert C_m == pytest.approx(0.981, abs=0.0005)
    delta = slender.magnification(C_m, 110_000, P_c)
    assert delta == pytest.approx(1.09, abs=0.005)
    least = slender.least_moment_lb_in(110_000, 15)
    assert least == pytest.approx(115_500)
    M_c = slender.magnified_moment_lb_in(delta, 86 * 12_000, least)
    assert M_c / 12_000 == pytest.approx(93.7, abs=0.5)  # delta carried on as 1.09


def test_a_wall_bent_both_ways_may_be_more_slender_to_a_limit() -> None:
    assert [slender.slenderness_limit(r) for r in (-1.0, 0.0, 0.5, 1.0)] == [22, 34, 40, 40]
    with pytest.raises(BadInput, match="from -1 to 1"):
        slender.slenderness_limit(1.2)


def test_the_moment_shape_is_one_for_equal_moments_the_same_way_round() -> None:
    assert slender.moment_shape_factor(-1.0) == pytest.approx(1.0)
    assert slender.moment_shape_factor(1.0) == pytest.approx(0.2)
    assert slender.moment_shape_factor_with_lateral_load() == 1.0


def test_a_wall_free_to_sway_goes_to_an_engineer() -> None:
    with pytest.raises(OutOfScope, match="not braced"):
        slender.slenderness(2.0, 108, 6)


def test_a_load_at_three_quarters_of_buckling_has_no_magnified_moment() -> None:
    with pytest.raises(OutOfScope, match="buckling"):
        slender.magnification(1.0, 75_000, 100_000)


@given(C_m=st.floats(0.2, 1), share=st.floats(0, 0.74), more=st.floats(0, 0.009))
def test_magnification_is_at_least_one_and_grows_with_load(C_m: float, share: float, more: float) -> None:
    one = slender.magnification(C_m, share * 1e5, 1e5)
    assert one >= 1
    assert slender.magnification(C_m, (share + more) * 1e5, 1e5) >= one
