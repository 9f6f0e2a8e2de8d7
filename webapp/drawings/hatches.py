"""Hatches as plain geometry: the tiles that repeat, the rings and grain that are drawn for each piece. All sizes in px on paper."""

import random
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from math import atan2, ceil, cos, hypot, pi, sin

from webapp.drawings.paper import Pixel

TILE = 72.0
DOTS, APART = 46, 6.4
TRIANGLES = 5
FOAM_STEP, FOAM_STEP_LENS = 7.0, 10.0
BRICK = (18.0, 9.0)
EARTH = 22.0
RING_STEP = 4.6


@dataclass(frozen=True, slots=True)
class Stipple:
    """One tile of concrete: dots (x, y, radius) and open triangles (three corners each)."""

    dots: tuple[tuple[float, float, float], ...]
    triangles: tuple[tuple[Pixel, Pixel, Pixel], ...]


def _round_tile(ax: float, ay: float, bx: float, by: float) -> float:
    """Distance on a tile whose opposite edges meet."""
    dx, dy = abs(ax - bx), abs(ay - by)
    return hypot(min(dx, TILE - dx), min(dy, TILE - dy))


@cache
def stipple() -> Stipple:
    """The concrete tile, the same on every machine: dots at least `APART` from each other and clear of the triangles."""
    chance = random.Random(3)
    spots: list[tuple[float, float]] = []
    triangles: list[tuple[Pixel, Pixel, Pixel]] = []
    while len(triangles) < TRIANGLES:
        x, y = chance.uniform(6, TILE - 6), chance.uniform(6, TILE - 6)
        if all(_round_tile(x, y, *other) >= 22 for other in spots):
            spots.append((x, y))
            size, turn = chance.uniform(2.4, 3.8), chance.uniform(0, 2 * pi)
            corners = [(x + size * cos(turn + k * 2.1), y + size * sin(turn + k * 2.1)) for k in range(3)]
            triangles.append((corners[0], corners[1], corners[2]))
    dots: list[tuple[float, float, float]] = []
    for _ in range(4000):
        x, y = chance.uniform(1, TILE - 1), chance.uniform(1, TILE - 1)
        near = APART if len(dots) < DOTS else TILE
        if all(_round_tile(x, y, *other) >= 6 for other in spots) and all(
            _round_tile(x, y, dx, dy) >= near for dx, dy, _ in dots
        ):
            dots.append((x, y, chance.choice((0.45, 0.55, 0.7))))
    return Stipple(tuple(dots), tuple(triangles))


def _bounds(corners: tuple[Pixel, ...]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def rings(corners: tuple[Pixel, ...], step: float = RING_STEP) -> list[tuple[Pixel, ...]]:
    """Year rings of a piece cut across, off one pith below and beside its middle, trimmed to the piece's bounding box."""
    left, top, right, bottom = _bounds(corners)
    width, height = right - left, bottom - top
    if min(width, height) < 3:
        return []
    px, py = left + 0.56 * width, bottom + 0.18 * height + 3
    reach = max(hypot(px - x, py - y) for x in (left, right) for y in (top, bottom))
    found: list[tuple[Pixel, ...]] = []
    radius = step
    while radius < reach:
        found.extend(_arc_inside(px, py, radius, (left, top, right, bottom)))
        radius += step
    return found


def _arc_inside(cx: float, cy: float, radius: float, box: tuple[float, float, float, float]) -> list[tuple[Pixel, ...]]:
    """The parts of a circle inside a box, as runs of points."""
    left, top, right, bottom = box
    cuts = {0.0, 2 * pi}
    for edge, along in ((left, "x"), (right, "x"), (top, "y"), (bottom, "y")):
        d = edge - (cx if along == "x" else cy)
        if abs(d) >= radius:
            continue
        other = (radius * radius - d * d) ** 0.5
        for side in (other, -other):
            angle = atan2(side, d) if along == "x" else atan2(d, side)
            cuts.add(angle % (2 * pi))
    ordered = sorted(cuts)
    arcs = []
    for start, end in pairwise(ordered):
        middle = (start + end) / 2
        x, y = cx + radius * cos(middle), cy + radius * sin(middle)
        if left < x < right and top < y < bottom and (end - start) * radius > 0.5:
            count = max(2, ceil((end - start) * radius / 7) + 1)
            turns = [start + (end - start) * k / (count - 1) for k in range(count)]
            arcs.append(tuple((cx + radius * cos(a), cy + radius * sin(a)) for a in turns))
    return arcs


def grain(corners: tuple[Pixel, ...], upright: bool = False) -> list[tuple[Pixel, ...]]:
    """Three to six long grain lines of wood seen from the side; none touches an end."""
    left, top, right, bottom = _bounds(corners)
    length, depth = (bottom - top, right - left) if upright else (right - left, bottom - top)
    if length < 14 or depth < 5:
        return []
    count = max(2 if depth < 14 else 3, min(6, round(depth / 22)))
    lines = []
    for n in range(count):
        across = depth * (n + 0.5) / count
        start, end = 5 + (n * 5) % 11, length - 6 - (n * 7) % 17
        if end - start < 6:
            continue
        swing = min(2.4, depth / count * 0.14)
        points = max(4, ceil((end - start) / 24))
        along = [start + (end - start) * k / points for k in range(points + 1)]
        wave = [across + swing * sin(6.0 * s / max(length, 90.0) + 1.1 * n) for s in along]
        lines.append(
            tuple((left + w, top + s) if upright else (left + s, top + w) for s, w in zip(along, wave, strict=True))
        )
    return lines
