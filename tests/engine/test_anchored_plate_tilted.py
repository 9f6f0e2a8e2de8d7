"""A plate bent both ways: against the same plate bent one way, against a fine grid of springs, and by balance."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.attachments.anchored_plate.tilted import tilted_forces
from engine.clauses.us.anchors_group import plate_forces

A_SE, N = 0.226, 9.29  # a 5/8 in rod; E_s over E_c at 3,000 psi
SQUARE = ((-3.5, 3.5), (3.5, 3.5), (-3.5, -3.5), (3.5, -3.5))


def forces(b, d, anchors, P, M, M_z):
    return tilted_forces(b, d, anchors, A_SE, N, P, M, M_z)


def grid(b, d, anchors, P, M, M_z, parts=160):
    """Tension and largest pressure with the plate as parts x parts springs, by Newton's steps on the force balance."""
    z, y = ((np.arange(parts) + 0.5) / parts * side - side / 2 for side in (b, d))
    Z, Y = np.meshgrid(z, y)
    one = b * d / parts**2
    az, ay = np.array(anchors).T
    rows_c, rows_a = np.stack([np.ones(Z.size), Z.ravel(), Y.ravel()]), np.stack([np.ones(len(az)), az, ay])
    wanted = np.array([P, M_z, M])
    u = np.zeros(3)
    for step in range(100):
        pressed = np.ones(Z.size, bool) if not step else u @ rows_c < 0
        pulled = np.ones(len(az), bool) if not step else u @ rows_a > 0
        K = one * rows_c[:, pressed] @ rows_c[:, pressed].T + N * A_SE * rows_a[:, pulled] @ rows_a[:, pulled].T
        aim = np.linalg.solve(K + 1e-9 * np.trace(K) * np.eye(3), wanted)
        if step and np.allclose(aim, u, rtol=1e-9):
            break
        u = aim if not step else u + 0.7 * (aim - u)
    corner = u[0] - abs(u[1]) * b / 2 - abs(u[2]) * d / 2
    return N * A_SE * np.maximum(u @ rows_a, 0), max(-corner, 0.0)


@pytest.mark.parametrize(
    ("b", "d", "anchors", "load"),
    [
        (10.0, 10.0, SQUARE, (0.0, 16000.0, 4000.0)),
        (10.0, 10.0, SQUARE, (1500.0, 12000.0, -9000.0)),
        (8.0, 12.0, ((0.0, 4.0), (0.0, -4.0)), (0.0, 9000.0, 3000.0)),
        (14.0, 6.0, ((-5.0, 1.0), (0.0, 1.0), (5.0, 1.0)), (600.0, -5000.0, 7000.0)),
        (9.0, 16.0, tuple((z, y) for y in (6.0, 2.0, -2.0, -6.0) for z in (-3.0, 3.0)), (2500.0, 20000.0, 8000.0)),
    ],
)
def test_it_agrees_with_a_fine_grid_of_springs(b, d, anchors, load) -> None:
    found = forces(b, d, anchors, *load)
    T, p = grid(b, d, anchors, *load)
    assert found.T_lb == pytest.approx(tuple(T), abs=2e-3 * max(T))
    assert found.p_max_psi == pytest.approx(p, rel=1e-2)


@pytest.mark.parametrize(("P", "M"), [(0.0, 16080.0), (900.0, 12000.0), (0.0, -9000.0), (4000.0, 3000.0)])
def test_bent_one_way_it_is_the_plate_of_one_axis(P: float, M: float) -> None:
    level = plate_forces(10, 12, (8.5, 3.0), 2 * A_SE, N, P, M)
    anchors = ((-3.0, 2.5), (3.0, 2.5), (-3.0, -3.0), (3.0, -3.0))
    both = forces(10, 12, anchors, P, M, 0.0)
    assert both.T_lb == pytest.approx([T / 2 for T in level.T_lb for _ in range(2)], abs=1e-6 * max(level.T_lb))
    assert both.C_lb == pytest.approx(level.C_lb, abs=1e-6 * max(level.T_lb))
    assert both.p_max_psi == pytest.approx(level.p_max_psi, rel=1e-6)
    assert both.pressed_in2 == pytest.approx(10 * level.pressed_in, rel=1e-6)


def test_a_square_plate_bent_about_its_diagonal_is_the_same_from_both_sides() -> None:
    T = forces(10, 10, SQUARE, 0.0, 9000.0, 9000.0).T_lb
    assert T[0] == pytest.approx(T[3])
    assert T[1] == max(T)
    assert T[2] == 0


def test_a_pull_in_the_middle_is_shared_evenly_and_nothing_pulls_nothing() -> None:
    assert forces(10, 10, SQUARE, 4000.0, 0.0, 0.0).T_lb == pytest.approx((1000.0,) * 4)
    assert forces(10, 10, SQUARE, 0.0, 0.0, 0.0).T_lb == (0.0,) * 4


MOMENT = st.floats(-30000, 30000).map(lambda x: round(x, 3))


@given(st.floats(5, 24), st.floats(5, 24), st.integers(1, 4), st.integers(1, 4), st.floats(0.1, 0.9), MOMENT, MOMENT)
@settings(max_examples=150, deadline=None)
def test_loads_without_pull_are_balanced(b, d, across, up, part, M, M_z) -> None:
    """Pull of the anchors equals the concrete's force, and together they leave no more moment than the pressed area can hold."""
    places = [(k + 0.5) / n - 0.5 for n in (across, up) for k in range(n)]
    anchors = tuple((z * b * part, y * d * part) for y in places[across:] for z in places[:across])
    found = forces(b, d, anchors, 0.0, M, M_z)
    assert found.C_lb == pytest.approx(sum(found.T_lb))
    assert min(found.T_lb) >= 0
    if found.C_lb > 1e-6:
        # the concrete's resultant, from the balance of moments, lies on the plate
        z_C = (sum(T * z for T, (z, _) in zip(found.T_lb, anchors, strict=True)) - M_z) / found.C_lb
        y_C = (sum(T * y for T, (_, y) in zip(found.T_lb, anchors, strict=True)) - M) / found.C_lb
        assert abs(z_C) <= b / 2 * (1 + 1e-6)
        assert abs(y_C) <= d / 2 * (1 + 1e-6)
        assert found.p_max_psi * found.pressed_in2 >= found.C_lb * (1 - 1e-6)
        assert 0 < found.pressed_in2 < b * d


@given(MOMENT.filter(lambda M: abs(M) > 1), MOMENT, st.floats(0, 5000), st.floats(0.01, 100))
@settings(max_examples=60, deadline=None)
def test_twice_the_load_is_twice_the_force(M, M_z, P, k) -> None:
    one, more = forces(10, 12, SQUARE, P, M, M_z), forces(10, 12, SQUARE, k * P, k * M, k * M_z)
    most = max(one.T_lb)
    assert more.T_lb == pytest.approx([k * T for T in one.T_lb], rel=1e-6, abs=1e-6 * k * most)
