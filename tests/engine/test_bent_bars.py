"""Cut lengths of bent bars, worked by hand: straight parts and arcs along the middle of the bar."""

from math import hypot, pi, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us.bars import bar, bars, bend_length_in, main_bend_in, main_tail_in, stirrup_bend_in
from engine.clauses.us.bent_bars import (
    bend_saving_in,
    closed_tie_in,
    hook_90_in,
    hook_180_in,
    hooked_bar_in,
    lap_of_two_sizes_in,
    path_length_in,
    round_steel_lb,
    standard_tie_in,
    steel_weight_lb,
)
from engine.errors import BadInput


def test_a_bend_of_45_degrees_saves_its_tangents_less_its_arc() -> None:
    """No. 4 bent to 2 in inside: R = 1.25. 2 x 1.25 x tan 22.5 = 1.0355; arc 1.25 x pi / 4 = 0.9817."""
    assert bend_saving_in(45.0, 2.0, 0.5) == pytest.approx(1.0355 - 0.9817, abs=1e-4)


def test_an_open_stirrup_is_the_sum_of_its_legs_less_its_bends() -> None:
    """Legs 10, 20 and 10 in out to out, No. 4: 40 - 2 x (2 x 1.5 - 1.9635) = 37.927; 4 d_b inside, ACI 318-19 Table 25.3.2."""
    half = 0.25
    corners = [(half, 10.0), (half, half), (20 - half, half), (20 - half, 10.0)]
    length = path_length_in(corners, [stirrup_bend_in(0.5)] * 2, 0.5)
    assert length == pytest.approx(40 - 2 * (3 - pi / 2 * 1.25)) == pytest.approx(37.927, abs=1e-3)


def test_a_straight_bar_is_as_long_as_it_is() -> None:
    assert path_length_in([(0.0, 0.0), (3.0, 4.0)], [], 0.5) == 5.0


def test_a_standard_hook_of_90_degrees_on_a_number_five() -> None:
    """6 d_b inside: D = 3.75, R = 2.1875, arc 3.4361; tail 12 d_b = 7.5; less D/2 + d_b = 2.5 (ACI 318-19 Table 25.3.1)."""
    assert hooked_bar_in(100.0, 0.625, 1) == pytest.approx(100 + 3.4361 + 7.5 - 2.5, abs=1e-4)
    assert hooked_bar_in(100.0, 0.625, 2) == pytest.approx(100 + 2 * 8.4361, abs=1e-4)
    assert hooked_bar_in(100.0, 0.625, 0) == 100.0


def test_a_standard_hook_of_180_degrees_on_a_number_five() -> None:
    """Arc 2.1875 pi = 6.8722; tail 4 d_b = 2.5; less 2.5."""
    assert hooked_bar_in(100.0, 0.625, 1, 180) == pytest.approx(106.8722, abs=1e-4)


@given(st.sampled_from(["3", "4", "5", "6", "7", "8"]), st.floats(20, 200))
def test_a_hook_is_the_same_by_its_addition_and_by_its_path(number: str, out: float) -> None:
    """The path turns once by 90 degrees, or twice for a full turn, its middle 2 R over."""
    d_b = bar(number).d_b_in
    D_b, tail = main_bend_in(d_b), main_tail_in(d_b)
    R, x = (D_b + d_b) / 2, out - d_b / 2
    assert path_length_in([(0, 0), (x, 0), (x, R + tail)], [D_b], d_b) == pytest.approx(
        out + hook_90_in(D_b, d_b, tail)
    )
    turn = [(0, 0), (x, 0), (x, 2 * R), (x - R - tail, 2 * R)]
    assert path_length_in(turn, [D_b, D_b], d_b) == pytest.approx(out + hook_180_in(D_b, d_b, tail))


@given(st.floats(1, 170), st.floats(0.5, 12), st.floats(0.25, 2))
def test_a_bend_saves_nothing_on_a_straight_line_and_more_the_more_it_turns(
    turn: float, D_b: float, d_b: float
) -> None:
    R, theta = (D_b + d_b) / 2, turn * pi / 180
    assert bend_saving_in(0.0, D_b, d_b) == 0.0
    assert 0 < bend_saving_in(turn, D_b, d_b) < bend_saving_in(turn + 5, D_b, d_b)
    assert bend_saving_in(turn, D_b, d_b) == pytest.approx(2 * R * tan(theta / 2) - bend_length_in(turn, D_b, d_b))


def test_a_closed_tie_has_three_bends_and_two_hooks() -> None:
    """No. 3, 8 by 6 in: 28 in of sides; 8 tangents of 1.125; arcs 3 x 1.4726 + 2 x 2.2089 (R = 0.9375); tails 2 x 3."""
    by_hand = 28 - 8 * 1.125 + 3 * pi / 2 * 0.9375 + 2 * 3 * pi / 4 * 0.9375 + 6
    assert standard_tie_in(8.0, 6.0, 0.375) == pytest.approx(by_hand) == pytest.approx(33.836, abs=1e-3)


def test_a_tie_narrower_than_its_bends_says_by_how_much() -> None:
    """No. 3 bent to 1 1/2 in is 2 1/4 in wide at the least."""
    with pytest.raises(BadInput, match=r"0\.25 in too short"):
        closed_tie_in(8.0, 2.0, 1.5, 0.375, 3.0)


@pytest.mark.parametrize(
    ("corners", "bends"), [([(0, 0)], []), ([(0, 0), (1, 0)], [2.0]), ([(0, 0), (0, 0), (1, 0)], [2.0])]
)
def test_a_path_that_is_none_is_refused(corners: list, bends: list) -> None:
    with pytest.raises(BadInput):
        path_length_in(corners, bends, 0.5)


def test_a_full_turn_is_made_of_two_bends() -> None:
    with pytest.raises(BadInput, match="two bends of 90"):
        bend_saving_in(180.0, 2.0, 0.5)


def test_the_weights_of_the_bar_table_are_those_of_round_steel() -> None:
    """490 pcf and the exact circle: 0.376 to 2.670 lb/ft for Nos. 3 to 8 (Appendix Table A.2), the table rounding its own way."""
    assert steel_weight_lb(1728.0) == 490.0
    for number in ("3", "4", "5", "6", "7", "8"):
        one = bars()[number]
        assert round_steel_lb(one.d_b_in, 12.0) == pytest.approx(one.weight_plf, abs=0.004)


def test_two_sizes_lap_by_the_longer_of_development_and_lap() -> None:
    """ACI 318-19 25.5.2.2 [recalled]. No. 5 and No. 4 in 3,000 psi: l_d 27.39 of the larger, class B 28.48 of the smaller."""
    assert lap_of_two_sizes_in(27.39, 28.48) == 28.48
    assert lap_of_two_sizes_in(38.3, 28.48) == 38.3


def test_a_slanted_leg_is_measured_along_itself() -> None:
    corners = [(0.0, 0.0), (0.0, 10.0), (8.0, 16.0)]
    turn = 53.13010235415598  # from straight up to 6 in 8
    assert path_length_in(corners, [3.0], 0.5) == pytest.approx(10 + hypot(8, 6) - bend_saving_in(turn, 3.0, 0.5))
