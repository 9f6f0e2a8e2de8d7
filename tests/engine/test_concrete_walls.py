"""Walls under gravity and their bars, ACI 318-19 chapter 11."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import concrete_wall_steel as steel
from engine.clauses.us import concrete_walls as walls
from engine.errors import BadInput


def test_a_beam_loads_its_bearing_and_four_thicknesses() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 18.1: 10 in bearing, 8 in wall, beams at 7 ft: 42 in."""
    assert walls.effective_length_in(10, 8, 84, 84, 84) == 42


def test_the_effective_length_stops_at_the_spacing_and_at_an_end() -> None:
    assert walls.effective_length_in(5.5, 6, 24, 100, 100) == 24
    assert walls.effective_length_in(10, 8, 84, 9, 84) == 9 + 21
    assert walls.effective_length_in(10, 8, 84, 9, 5) == 14


@given(
    bearing=st.floats(1, 20),
    h=st.floats(4, 16),
    s=st.floats(8, 120),
    left=st.floats(0, 120),
    right=st.floats(0, 120),
)
def test_the_effective_length_is_the_same_from_either_side(
    bearing: float, h: float, s: float, left: float, right: float
) -> None:
    one = walls.effective_length_in(bearing, h, s, left, right)
    assert one == pytest.approx(walls.effective_length_in(bearing, h, s, right, left))
    assert one <= min(s, bearing + 4 * h) + 1e-9


def test_the_textbook_wall_carries_what_the_textbook_says() -> None:
    """Design of Reinforced Concrete, 9th ed., Example 18.1: 230.6 kip; needs 7.68 in of thickness."""
    P_n = walls.wall_axial_simplified_lb(3000, 42 * 8, 0.8, 192, 8)
    assert 0.65 * P_n == pytest.approx(230_600, abs=50)
    assert walls.wall_thickness_minimum_in(192) == pytest.approx(7.68)
    assert walls.wall_thickness_minimum_in(60) == 4


def test_a_wall_at_its_slenderness_limit_carries_nothing() -> None:
    assert walls.wall_axial_simplified_lb(3000, 72, 1.0, 32 * 6, 6) == 0
    assert walls.wall_axial_simplified_lb(3000, 72, 2.0, 20 * 12, 6) == 0


def test_k_follows_bracing_and_end_restraint() -> None:
    """ACI 318-19 Table 11.5.3.2."""
    assert walls.effective_length_factor(braced=True, restrained=True) == 0.8
    assert walls.effective_length_factor(braced=True, restrained=False) == 1.0
    assert walls.effective_length_factor(braced=False, restrained=True) == 2.0


def test_loads_on_both_sides_of_the_middle_balance() -> None:
    assert walls.resultant_eccentricity_in((1000, 1000), (2.5, -2.5)) == 0
    # 4,000 lb in the middle and 1,000 lb at 2.25 in: 2,250 lb-in over 5,000 lb
    assert walls.resultant_eccentricity_in((4000, 1000), (0, 2.25)) == pytest.approx(0.45)
    with pytest.raises(BadInput, match="one eccentricity for each"):
        walls.resultant_eccentricity_in((1, 2), (0,))


def test_a_bearing_at_the_room_side_stands_off_the_middle() -> None:
    assert walls.offset_from_middle_in(7.0, 8.0) == 3.0


@given(M=st.floats(0, 1e5), L=st.floats(1, 40), share=st.floats(0, 1))
def test_what_goes_down_and_what_goes_up_make_the_whole_moment(M: float, L: float, share: float) -> None:
    a = share * L
    total = walls.moment_below_ledge_lb_in(M, a, L) + walls.moment_above_ledge_lb_in(M, a, L)
    assert total == pytest.approx(M)
    assert walls.ledge_reaction_lb(M, L) * a * 12 == pytest.approx(walls.moment_below_ledge_lb_in(M, a, L))


def test_a_ledge_outside_its_storey_is_refused() -> None:
    with pytest.raises(BadInput, match="between the two floors"):
        walls.moment_below_ledge_lb_in(1000, 10, 9)


def test_least_steel_follows_bar_size_and_grade() -> None:
    """ACI 318-19 Table 11.6.1."""
    assert (steel.vertical_steel_ratio(0.625, 60000), steel.horizontal_steel_ratio(0.625, 60000)) == (0.0012, 0.0020)
    assert (steel.vertical_steel_ratio(0.75, 60000), steel.horizontal_steel_ratio(0.5, 40000)) == (0.0015, 0.0025)
    assert steel.minimum_wall_steel_in2(0.0012, 12, 8) == pytest.approx(0.1152)


def test_bars_are_no_farther_apart_than_18_in() -> None:
    assert steel.largest_bar_spacing_in(4) == 12
    assert steel.largest_bar_spacing_in(8) == 18


def test_a_wall_over_10_in_needs_two_layers_unless_it_is_a_single_basement() -> None:
    assert steel.layers_needed(10, one_storey_basement=False) == 1
    assert steel.layers_needed(10.5, one_storey_basement=False) == 2
    assert steel.layers_needed(12, one_storey_basement=True) == 1


def test_cover_follows_exposure_and_bar() -> None:
    """ACI 318-19 Table 20.5.1.3.1."""
    cover = [
        steel.clear_cover_in("cast against ground", 0.5),
        steel.clear_cover_in("weather or ground", 0.625),
        steel.clear_cover_in("weather or ground", 0.75),
        steel.clear_cover_in("not exposed", 0.5),
        steel.clear_cover_in("not exposed", 1.693),
    ]
    assert cover == [3, 1.5, 2, 0.75, 1.5]
    with pytest.raises(BadInput, match="cast against ground"):
        steel.clear_cover_in("behind foam", 0.5)  # type: ignore[arg-type]


def test_an_opening_is_trimmed_by_as_many_bars_as_layers() -> None:
    assert (steel.bars_at_opening(1), steel.bars_at_opening(2)) == (1, 2)
    with pytest.raises(BadInput, match="1 or 2"):
        steel.bars_at_opening(3)


def test_walls_in_insulating_forms_stop_at_two_storeys() -> None:
    """ACI 318-19 11.1.6."""
    assert walls.insulating_form_storeys_limit() == 2
