"""Hooks, straight bars, laps and bends, ACI 318-19 25.3 to 25.5."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import bars
from engine.clauses.us import development as bond
from engine.errors import BadInput, OutOfScope


def test_a_no_6_hook_of_the_2019_edition() -> None:
    """Design Guide 1, 3rd ed., Example 4.7-15: f'c 4,000, spacing and side cover met: psi_c 0.867, 9.71 in."""
    psi_c = bond.hook_psi_c(4000)
    assert psi_c == pytest.approx(0.867, abs=0.0005)
    assert bond.hook_development_in(60000, 4000, 0.75, psi_c=psi_c) == pytest.approx(9.71, abs=0.005)


def test_an_epoxy_coated_no_9_hook_of_the_older_form() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 7.6(b): 25.68 in."""
    assert bond.hook_development_2014_in(60000, 4000, 1.128, psi_e=1.2) == pytest.approx(25.68, abs=0.005)


def test_hook_factors_by_spacing_ties_place_and_coat() -> None:
    assert [bond.hook_psi_r(8, 0.5), bond.hook_psi_r(2.9, 0.5), bond.hook_psi_r(2.9, 0.5, 0.4, 1.0)] == [1.0, 1.6, 1.0]
    assert [bond.hook_psi_o(3.0, 0.5), bond.hook_psi_o(2.9, 0.5)] == [1.0, 1.25]
    assert [bond.hook_psi_e(coated=True), bond.hook_psi_e(coated=False)] == [1.2, 1.0]
    assert [bond.hook_psi_c(f) for f in (3000, 6000, 8000)] == [pytest.approx(0.8), 1.0, 1.0]


@given(d_b=st.floats(0.375, 1.41), f_c=st.floats(2500, 10000))
def test_a_hook_is_never_shorter_than_8_bars_or_6_in(d_b: float, f_c: float) -> None:
    for l_dh in (bond.hook_development_in(60000, f_c, d_b), bond.hook_development_2014_in(60000, f_c, d_b)):
        assert l_dh >= max(8 * d_b, 6)


def test_a_no_6_bar_with_its_cover_counted() -> None:
    """Design Guide 1, 3rd ed., Example 4.7-15: 17.1 in."""
    confined = bond.confinement(4.0, 0.0, 0.75)
    l_d = bond.tension_development_full_in(60000, 4000, 0.75, confined, psi_s=bond.straight_psi_s(0.75))
    assert (confined, l_d) == (2.5, pytest.approx(17.1, abs=0.05))


def test_dowels_with_more_steel_than_needed() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 12.9: No. 6, f'c 3,000, 2.41 of 2.65 in²: 17.93 in."""
    l_d = bond.tension_development_full_in(60000, 3000, 0.75, 2.5, psi_s=0.8)
    assert bond.reduced_development_in(l_d, 2.41, 2.65) == pytest.approx(17.93, abs=0.005)
    assert bond.reduced_development_in(l_d, 0.5, 2.65) == 12


def test_factors_of_straight_bars() -> None:
    assert [bond.straight_psi_s(0.75), bond.straight_psi_s(0.875)] == [0.8, 1.0]
    assert [bond.straight_psi_t(0), bond.straight_psi_t(13)] == [1.0, 1.3]
    assert [bond.straight_psi_g(f) for f in (60000, 80000, 100000)] == [1.0, 1.15, 1.3]


def test_a_class_b_lap_of_no_4_in_3000_psi() -> None:
    """By hand: 60,000 / (25 sqrt(3,000)) x 0.5 = 21.9 in, x 1.3 = 28.5 in; No. 7 by 20: 47.9 and 62.3 in."""
    assert bond.lap_b_in(bond.tension_development_in(60000, 3000, 0.5)) == pytest.approx(28.48, abs=0.005)
    assert bond.lap_b_in(bond.tension_development_in(60000, 3000, 0.875)) == pytest.approx(62.3, abs=0.05)
    assert bond.lap_a_in(10.0) == 12
    assert bond.lap_b_in(8.0) == 12


def test_a_lap_is_class_a_only_with_twice_the_steel_and_half_the_bars() -> None:
    assert [bond.lap_class(2.0, 0.5), bond.lap_class(2.0, 0.6), bond.lap_class(1.9, 0.5)] == ["A", "B", "B"]


def test_bars_in_compression() -> None:
    """By hand: No. 5, f'c 3,000: 0.02 x 60,000 / 54.77 x 0.625 = 13.7 in; lap 0.0005 x 60,000 x 0.625 = 18.75 in."""
    assert bond.compression_development_in(60000, 3000, 0.625) == pytest.approx(13.69, abs=0.005)
    assert bond.compression_lap_in(60000, 3000, 0.625) == pytest.approx(18.75)
    assert bond.compression_lap_in(60000, 2500, 0.625) == pytest.approx(25.0)
    with pytest.raises(OutOfScope, match="not read"):
        bond.compression_lap_in(75000, 3000, 0.625)


def test_very_strong_concrete_stops_helping() -> None:
    assert bond.tension_development_in(60000, 12000, 1.0) == bond.tension_development_in(60000, 10000, 1.0)


def test_bends_and_tails() -> None:
    """ACI 318-19 Tables 25.3.1, 25.3.2."""
    assert [bars.main_bend_in(d) for d in (0.5, 1.0, 1.128, 1.693)] == [
        3,
        6,
        pytest.approx(9.024),
        pytest.approx(16.93),
    ]
    assert [bars.stirrup_bend_in(d) for d in (0.5, 0.625, 0.75)] == [2, 2.5, 4.5]
    assert [bars.stirrup_tail_in(d) for d in (0.375, 0.625, 0.75)] == [3, 3.75, 9]
    assert [bars.stirrup_turned_tail_in(d) for d in (0.375, 0.75)] == [3, 4.5]
    assert [bars.main_tail_in(0.5), bars.main_return_tail_in(0.5), bars.main_return_tail_in(1.0)] == [6, 2.5, 4]
    with pytest.raises(OutOfScope, match=r"No\. 8"):
        bars.stirrup_bend_in(1.128)


def test_a_quarter_turn_follows_the_middle_of_the_bar() -> None:
    """No. 4 on a 2 in bend: a quarter of a circle of radius 1.25 in."""
    assert bars.bend_length_in(90, 2.0, 0.5) == pytest.approx(1.9635, abs=1e-4)


def test_bars_are_found_by_number_in_any_dress() -> None:
    assert bars.bar(4) == bars.bar("4") == bars.bar("No. 4") == bars.bar("#4")
    assert bars.bars_on_width_in2(bars.bar(4).A_b_in2, 16, 12) == pytest.approx(0.15)
    with pytest.raises(BadInput, match="Enter a bar size"):
        bars.bar(12)
