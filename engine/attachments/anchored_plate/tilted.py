"""Anchors and concrete under a rigid plate bent about both axes: the plane of strain that balances pull and both moments.

As in `plate_forces`: plane strain, concrete without tension, anchors without compression. The plane is found by solving with what
is pressed and pulled in the last plane, until nothing changes; each step lowers the strain energy, which has one lowest point.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from engine.worksheet import clause

Point = tuple[float, float]
STEPS = 80
ENOUGH = 1e-12
RIDGE = 1e-12  # keeps anchors in one line, lifted off the concrete, from leaving the plane free to turn


@dataclass(frozen=True, slots=True)
class Tilted:
    """Args: T_lb: tension on each anchor. C_lb: force of the concrete. pressed_in2: area in contact. p_max_psi: at its corner."""

    T_lb: tuple[float, ...]
    C_lb: float
    pressed_in2: float
    p_max_psi: float


class _Plane(NamedTuple):
    """Gap between plate and concrete: a + b z + c y."""

    a: float
    b: float
    c: float


class _Moments(NamedTuple):
    """Of an area and of anchors: 0, z, y, zz, zy, yy."""

    o: float
    z: float
    y: float
    zz: float
    zy: float
    yy: float


@clause(
    "statics",
    "",
    title="Anchors and concrete under a rigid plate, both ways",
    rule="plane strain, concrete without tension, anchors without compression; the plane balances force and both moments",
    provenance="derived",
)
def tilted_forces(
    b_in: float, d_in: float, anchors_in: Sequence[Point], A_se_in2: float, n: float, P_lb: float, M_lb_in: float,
    M_z_lb_in: float,
) -> Tilted:  # fmt: skip
    """Tension of the anchors and pressure of the concrete under a rigid plate bent about both axes.

    Args: b_in, d_in: plate along z and y. anchors_in: (z, y) from its middle, inside it. A_se_in2: area of one. n: modular ratio.
    P_lb: pull, 0 or more, at the middle. M_lb_in: above zero pulls high y. M_z_lb_in: above zero pulls high z.
    """
    size = max(b_in, d_in) / 2
    most = max(abs(P_lb), abs(M_lb_in) / size, abs(M_z_lb_in) / size)
    if not most:
        return Tilted((0.0,) * len(anchors_in), 0.0, 0.0, 0.0)
    half = (b_in / 2 / size, d_in / 2 / size)
    places = [(z / size, y / size) for z, y in anchors_in]
    stiff = n * A_se_in2 / size**2
    load = (P_lb / most, M_z_lb_in / size / most, M_lb_in / size / most)
    a, b, c = plane = _balanced(half, places, stiff, load)
    T = tuple(most * stiff * max(a + b * z + c * y, 0.0) for z, y in places)
    pressed = _moments(_pressed(half, plane), (), 0.0)
    p_max = max(abs(b) * half[0] + abs(c) * half[1] - a, 0.0)
    return Tilted(T, sum(T) - P_lb, pressed.o * size**2, most * p_max / size**2)


def _balanced(half: Point, places: Sequence[Point], stiff: float, load: tuple[float, float, float]) -> _Plane:
    """Newton's steps on the energy, shortened where they would raise it."""
    plane = _solved(_moments(_corners(half), places, stiff), load)
    moments = _active(half, places, stiff, plane)
    energy = _energy(moments, plane, load)
    for _ in range(STEPS):
        aim, part = _solved(moments, load), 1.0
        while True:
            tried = _Plane(*[u + part * (v - u) for u, v in zip(plane, aim, strict=True)])
            moments = _active(half, places, stiff, tried)
            found = _energy(moments, tried, load)
            if found <= energy + ENOUGH * abs(energy) or part < ENOUGH:
                break
            part /= 2
        still = max([abs(u - v) for u, v in zip(plane, tried, strict=True)]) <= ENOUGH * max(map(abs, tried))
        plane, energy = tried, found
        if still:
            break
    return plane


def _active(half: Point, places: Sequence[Point], stiff: float, plane: _Plane) -> _Moments:
    """Of what is pressed and of what is pulled in a plane."""
    a, b, c = plane
    return _moments(_pressed(half, plane), [(z, y) for z, y in places if a + b * z + c * y > 0], stiff)


def _energy(m: _Moments, u: _Plane, load: tuple[float, float, float]) -> float:
    """Strain energy less the work of the loads."""
    a, b, c = u
    inner = m.o * a * a + m.zz * b * b + m.yy * c * c + 2 * (m.z * a * b + m.y * a * c + m.zy * b * c)
    return inner / 2 - (load[0] * a + load[1] * b + load[2] * c)


def _solved(m: _Moments, load: tuple[float, float, float]) -> _Plane:
    """The plane that balances the load on that stiffness, by the inverse of a symmetric matrix of three."""
    ridge = RIDGE * (m.o + m.zz + m.yy + 1.0)
    o, zz, yy, (z, y, zy), (P, M_z, M) = m.o + ridge, m.zz + ridge, m.yy + ridge, (m.z, m.y, m.zy), load
    k_00, k_01, k_02 = zz * yy - zy * zy, y * zy - z * yy, z * zy - y * zz
    k_11, k_12, k_22 = o * yy - y * y, z * y - o * zy, o * zz - z * z
    whole = o * k_00 + z * k_01 + y * k_02
    return _Plane(
        (k_00 * P + k_01 * M_z + k_02 * M) / whole,
        (k_01 * P + k_11 * M_z + k_12 * M) / whole,
        (k_02 * P + k_12 * M_z + k_22 * M) / whole,
    )


def _corners(half: Point) -> list[Point]:
    z, y = half
    return [(-z, -y), (z, -y), (z, y), (-z, y)]


def _pressed(half: Point, plane: _Plane) -> list[Point]:
    """Corners of the part of the plate that touches."""
    a, b, c = plane
    found: list[Point] = []
    corners = _corners(half)
    z_1, y_1 = corners[3]
    g_1 = a + b * z_1 + c * y_1
    for z_2, y_2 in corners:
        g_2 = a + b * z_2 + c * y_2
        if (g_1 < 0) != (g_2 < 0):
            part = g_1 / (g_1 - g_2)
            found.append((z_1 + part * (z_2 - z_1), y_1 + part * (y_2 - y_1)))
        if g_2 < 0:
            found.append((z_2, y_2))
        z_1, y_1, g_1 = z_2, y_2, g_2
    return found


def _moments(corners: Sequence[Point], anchors: Sequence[Point], stiff: float) -> _Moments:
    """Of a polygon, triangle by triangle, the middles of whose sides stand for it exactly; and of anchors."""
    o = z = y = zz = zy = yy = 0.0
    parts = [(u, v, stiff) for u, v in anchors]
    for k in range(2, len(corners)):
        (z_0, y_0), (z_1, y_1), (z_2, y_2) = corners[0], corners[k - 1], corners[k]
        third = ((z_1 - z_0) * (y_2 - y_0) - (z_2 - z_0) * (y_1 - y_0)) / 6
        parts.append(((z_0 + z_1) / 2, (y_0 + y_1) / 2, third))
        parts.append(((z_1 + z_2) / 2, (y_1 + y_2) / 2, third))
        parts.append(((z_2 + z_0) / 2, (y_2 + y_0) / 2, third))
    for u, v, w in parts:
        wu, wv = w * u, w * v
        o, z, y, zz, zy, yy = o + w, z + wu, y + wv, zz + wu * u, zy + wu * v, yy + wv * v
    return _Moments(o, z, y, zz, zy, yy)
