"""Projected areas by exact geometry: each anchor gives a rectangle, cut off at the concrete; overlaps count once.

An outline is (x low, x high, y low, y high) in the plane of the concrete's face [in]; None is concrete without end.
"""

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from math import inf

from engine.worksheet import clause

Point = tuple[float, float]
Rect = tuple[float, float, float, float]
Outline = tuple[float | None, float | None, float | None, float | None]


def covered_length(intervals: Iterable[Point]) -> float:
    """Length of a union of intervals; empty ones count nothing."""
    total, end = 0.0, -inf
    for low, high in sorted(intervals):
        if high > end:
            total += max(high - max(low, end), 0.0)
            end = high
    return total


def union_area(rects: Sequence[Rect]) -> float:
    """Area of a union of rectangles (x low, x high, y low, y high), by strips between neighbouring x."""
    xs = sorted({x for rect in rects for x in rect[:2]})
    area = 0.0
    for left, right in pairwise(xs):
        area += (right - left) * covered_length((r[2], r[3]) for r in rects if r[0] <= left and r[1] >= right)
    return area


def _within(low: float, high: float, start: float | None, end: float | None) -> Point:
    return low if start is None or start < low else start, high if end is None or end > high else end


def clusters(count: int, linked: Callable[[int, int], bool]) -> tuple[tuple[int, ...], ...]:
    """Chains of members each linked to another of its chain, as sorted numbers below `count`."""
    left, found = set(range(count)), []
    while left:
        chain = [left.pop()]
        for member in chain:
            near = [other for other in left if linked(member, other)]
            chain += near
            left.difference_update(near)
        found.append(tuple(sorted(chain)))
    return tuple(sorted(found))


def chains(members: Sequence[int], place: Sequence[float], reach: float) -> tuple[tuple[int, ...], ...]:
    """Members in order of place, parted where the gap to the next is `reach` or more."""
    found: list[list[int]] = []
    for i in sorted(members, key=lambda i: place[i]):
        if found and place[i] - place[found[-1][-1]] < reach:
            found[-1].append(i)
        else:
            found.append([i])
    return tuple(tuple(chain) for chain in found)


@clause(
    "ACI 318",
    "17.6.2.1.1",
    title="Projected cone on the face",
    symbol="A_Nc",
    unit="in²",
    rule="the area within 1.5 h_ef of the anchors both ways, cut off at the edges, overlaps counted once",
)
def projected_tension_area_in2(
    x_in: Sequence[float],
    y_in: Sequence[float],
    h_ef_in: float,
    x_from_in: float | None,
    x_to_in: float | None,
    y_from_in: float | None,
    y_to_in: float | None,
) -> float:
    """Args: x_in, y_in: anchors in tension. h_ef_in: embedment counted. x_from_in .. y_to_in: the concrete, None without end [in].

    Source: ACI 318-19 17.6.2.1.1; a union of squares never exceeds n A_Nco.
    """
    reach = 1.5 * h_ef_in
    rects = [
        (*_within(x - reach, x + reach, x_from_in, x_to_in), *_within(y - reach, y + reach, y_from_in, y_to_in))
        for x, y in zip(x_in, y_in, strict=True)
    ]
    return union_area(rects)


@clause(
    "ACI 318",
    "17.7.2.1.1",
    title="Projected prism on the edge face",
    symbol="A_Vc",
    unit="in²",
    rule="the length within 1.5 c_a1 of the anchors along the edge, cut off at side edges, by the lesser of 1.5 c_a1 and h_a",
)
def projected_shear_area_in2(
    u_in: Sequence[float], c_a1_in: float, u_from_in: float | None, u_to_in: float | None, h_a_in: float | None
) -> float:
    """Args: u_in: anchors along the edge. c_a1_in: edge distance counted. u_from_in, u_to_in: side edges. h_a_in: thickness.

    Source: ACI 318-19 17.7.2.1.1; overlaps count once, so n A_Vco is never exceeded.
    """
    reach = 1.5 * c_a1_in
    length = covered_length(_within(u - reach, u + reach, u_from_in, u_to_in) for u in u_in)
    return length * (reach if h_a_in is None else min(reach, h_a_in))
