"""Dimensions of an outline in plan: corners in chains above and to the right of it, the whole below and to the left."""

from collections.abc import Sequence
from itertools import pairwise

from webapp.drawings import dimensions
from webapp.drawings.dimensions import String
from webapp.drawings.hand import Hand
from webapp.drawings.lettering import feet
from webapp.drawings.plan_layout import EXACT_IN, Standing
from webapp.drawings.shapes import Point
from webapp.drawings.view import View

AWAY = 34.0


def dimension_outline(hand: Hand, view: View, walls: Sequence[Standing], beyond: float) -> bool:
    """Chains through every corner of an outline of level and upright walls.

    Args: beyond: paper that lines outside the walls take [px]. Returns: whether it was dimensioned; slanting walls are not.
    """
    if not walls or any(min(abs(one.along[0]), abs(one.along[1])) > 1e-9 for one in walls):
        return False
    points = [point for one in walls for point in (one.start, one.end)]
    away = AWAY + beyond
    for axis, sides in ((0, ("top", "bottom")), (1, ("right", "left"))):
        stops = _distinct(sorted(point[axis] for point in points))
        if len(stops) < 2:
            continue
        near, far = sorted(sides, key=lambda side: _reach(points, stops, side))
        _chain(hand, view, points, stops, near, away)
        if len(stops) > 2:
            _chain(hand, view, points, [stops[0], stops[-1]], far, away)
    return True


def _edges(points: Sequence[Point], stops: Sequence[float], side: str) -> list[float]:
    """The outermost corner at each stop, on the other axis."""
    axis = 0 if side in ("top", "bottom") else 1
    outermost = max if side in ("top", "right") else min
    return [outermost(p[1 - axis] for p in points if abs(p[axis] - stop) <= EXACT_IN) for stop in stops]


def _reach(points: Sequence[Point], stops: Sequence[float], side: str) -> float:
    """How far extension lines run over the plan on one side [in]."""
    edges = _edges(points, stops, side)
    limit = max(edges) if side in ("top", "right") else min(edges)
    return sum(abs(limit - edge) for edge in edges)


def _distinct(values: Sequence[float]) -> list[float]:
    found = list(values[:1])
    for value in values:
        if value - found[-1] > EXACT_IN:
            found.append(value)
    return found


def _chain(hand: Hand, view: View, points: Sequence[Point], stops: Sequence[float], side: str, away: float) -> None:
    """One string; every extension line starts at the outermost corner it belongs to."""
    axis = 0 if side in ("top", "bottom") else 1
    edges_in = _edges(points, stops, side)
    limit = max(edges_in) if side in ("top", "right") else min(edges_in)
    if axis == 0:
        pixels = [view.px((stop, 0.0))[0] for stop in stops]
        edges = [view.px((0.0, edge))[1] for edge in edges_in]
        line = view.px((0.0, limit))[1] + (-away if side == "top" else away)
    else:
        pixels = [view.px((0.0, stop))[1] for stop in stops]
        edges = [view.px((edge, 0.0))[0] for edge in edges_in]
        line = view.px((limit, 0.0))[0] + (away if side == "right" else -away)
    inches = tuple(b - a for a, b in pairwise(stops))
    string = String("x" if axis == 0 else "y", tuple(pixels), inches, line, tuple(edges), view.scale)
    dimensions.ink(hand, string)
    dimensions.figures(hand, string, letters=[feet(gap, hand.sizes.figure, hand.system) for gap in inches])
