"""Sharing loads among anchors: equilibrium, plane strain, and what a hand calculation gives."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us.anchors_group import (
    end_anchor,
    interior_anchor,
    modular_ratio_of,
    plate_forces,
    share_shear,
)
from engine.errors import BadInput
from tests.engine.anchor_examples import group

AREA = 0.226
places = st.lists(st.floats(0.05, 0.95), min_size=1, max_size=5)
force = st.floats(-20000, 20000)


@given(places, st.floats(2, 20), st.floats(4, 30), force, st.floats(-200000, 200000))
def test_anchors_and_concrete_balance_the_loads_in_plane_strain(shares, b, d, P, M) -> None:
    y = [round(s * d, 3) for s in shares]
    n = modular_ratio_of(3000)
    found = plate_forces(b, d, y, AREA, n, P, M)
    assert min(found.T_lb) >= -1e-6 * (abs(P) + 1)
    assert found.C_lb >= 0
    scale = abs(P) * d + abs(M) + 1
    assert sum(found.T_lb) - found.C_lb == pytest.approx(P, abs=1e-7 * scale)
    x = found.pressed_in
    if 0 < x < d:
        # seen from the pressed edge: moments about mid-depth, then tension over strain the same for every anchor
        seen = y if found.lower_edge else [d - v for v in y]
        about = sum(T * (v - d / 2) for T, v in zip(found.T_lb, seen, strict=True)) + found.C_lb * (d / 2 - x / 3)
        assert about == pytest.approx(M if found.lower_edge else -M, abs=1e-6 * scale)
        for T, v in zip(found.T_lb, seen, strict=True):
            assert T * x == pytest.approx(n * AREA * found.p_max_psi * max(v - x, 0.0), abs=1e-6 * scale)
    elif x == 0:
        about = sum(T * (v - d / 2) for T, v in zip(found.T_lb, y, strict=True))
        if len({round(v, 6) for v in y}) > 1:
            assert about == pytest.approx(M, abs=1e-6 * scale)


def test_one_row_in_pure_bending_follows_the_quadratic_of_a_cracked_section() -> None:
    b, d, y, n = 6.0, 8.0, 6.5, 9.29
    # b x² / 2 = n A (y - x)
    A = 2 * AREA
    x = (-n * A + math.sqrt((n * A) ** 2 + 2 * b * n * A * y)) / b
    found = plate_forces(b, d, (y, y), AREA, n, 0.0, 10000.0)
    assert found.pressed_in == pytest.approx(x)
    assert sum(found.T_lb) == pytest.approx(10000 / (y - x / 3))
    assert found.p_max_psi == pytest.approx(2 * found.C_lb / (b * x))


def test_a_press_within_the_middle_third_leaves_the_anchors_idle() -> None:
    found = plate_forces(6, 9, (1.5, 7.5), AREA, 9.0, -5000.0, 5000.0 * 1.4)
    assert found.T_lb == (0.0, 0.0)
    assert found.p_max_psi == pytest.approx(5000 / 54 * (1 + 6 * 1.4 / 9))


def test_a_pull_at_the_centre_is_shared_equally_and_a_small_offset_tilts_it() -> None:
    assert plate_forces(6, 9, (1.5, 7.5), AREA, 9.0, 4000.0, 0.0).T_lb == pytest.approx((2000, 2000))
    assert plate_forces(6, 9, (1.5, 7.5), AREA, 9.0, 4000.0, 600.0).T_lb == pytest.approx((1900, 2100))


def test_the_moment_the_other_way_presses_the_other_edge() -> None:
    up, down = (plate_forces(6, 9, (1.5, 7.5), AREA, 9.0, 0.0, M) for M in (8000.0, -8000.0))
    assert (up.lower_edge, down.lower_edge) == (True, False)
    assert up.T_lb == pytest.approx(down.T_lb[::-1])


def test_an_anchor_off_its_plate_is_nonsense() -> None:
    with pytest.raises(BadInput, match="within the plate"):
        plate_forces(6, 9, (10.0,), AREA, 9.0, 0.0, 1.0)
    with pytest.raises(BadInput, match="above zero"):
        plate_forces(0, 9, (1.0,), AREA, 9.0, 0.0, 1.0)


def test_a_load_that_is_no_number_is_refused() -> None:
    with pytest.raises(BadInput, match="as a number"):
        plate_forces(6, 9, (1.5,), AREA, 9.0, math.nan, 1.0)
    with pytest.raises(BadInput, match="as a number"):
        share_shear(((0.0, 0.0),), math.inf, 0.0)


def test_no_load_asks_nothing_of_anchors_or_concrete() -> None:
    found = plate_forces(6, 9, (1.5, 7.5), AREA, 9.0, 0.0, 0.0)
    assert (found.T_lb, found.C_lb) == ((0.0, 0.0), 0.0)


@given(
    st.lists(st.tuples(st.integers(-5, 5), st.integers(-5, 5)), min_size=2, max_size=8, unique=True),
    force, force, st.floats(-90000, 90000),
)  # fmt: skip
def test_shears_of_the_anchors_add_up_to_the_load_and_its_turning(positions, V_x, V_y, T) -> None:
    found = share_shear(positions, V_x, V_y, T)
    n = len(positions)
    mid_x, mid_y = sum(x for x, _ in positions) / n, sum(y for _, y in positions) / n
    assert sum(x for x, _ in found) == pytest.approx(V_x, abs=1e-6)
    assert sum(y for _, y in found) == pytest.approx(V_y, abs=1e-6)
    turning = sum((p[0] - mid_x) * f[1] - (p[1] - mid_y) * f[0] for p, f in zip(positions, found, strict=True))
    assert turning == pytest.approx(T, abs=1e-5)


def test_one_anchor_cannot_hold_a_plate_against_turning() -> None:
    with pytest.raises(BadInput, match="turning"):
        share_shear(((0.0, 0.0),), 0.0, 0.0, 5.0)
    assert share_shear(((0.0, 0.0),), 3.0, 4.0) == ((3.0, 4.0),)


def test_the_modular_ratio_of_3000_psi_concrete_is_a_little_above_nine() -> None:
    assert modular_ratio_of(3000) == pytest.approx(29e6 / (57000 * math.sqrt(3000)))


def test_anchors_of_a_row_know_their_neighbours_and_the_end_one_its_end() -> None:
    inner, end = interior_anchor(group(), 16.0), end_anchor(group(), 16.0, 6.0)
    assert (inner.next_x1_in, inner.next_x2_in, inner.c_x1_in) == (16.0, 16.0, None)
    assert (end.next_x1_in, end.next_x2_in, end.c_x1_in) == (None, 16.0, 6.0)
