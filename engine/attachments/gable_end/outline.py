"""The outline of a piece of form within its course, and whether two fit one form. Lengths in inches.

A piece is convex and stands on its course's joint, so it is known by its left and right side as heights and places. Places are
counted from a line of the web grid: a piece keeps its webs over the wall's when it moves along a form by whole web spaces.
"""

from collections.abc import Iterator
from itertools import pairwise
from math import ceil, floor, hypot
from typing import NamedTuple

SLACK = 1e-9

Side = tuple[tuple[float, float], ...]  # (height, place), upward


class Turn(NamedTuple):
    """How a piece lies in its form. end: end for end. over: upside down. Both together are half a turn in the wall's plane."""

    end: bool
    over: bool


AS_IT_STANDS, END_FOR_END, UPSIDE_DOWN, HALF_TURN = (
    Turn(False, False),
    Turn(True, False),
    Turn(False, True),
    Turn(True, True),
)
TURN_WORDS = {
    AS_IT_STANDS: "as it lies",
    END_FOR_END: "end for end",
    UPSIDE_DOWN: "upside down",
    HALF_TURN: "half a turn",
}


class Outline(NamedTuple):
    """Left and right side; `lean`s: the longest a side is for an inch of height, 1 where it is plumb."""

    left: Side
    right: Side
    lean_left: float
    lean_right: float


class Fit(NamedTuple):
    """Two pieces in one form: how far each is moved from its own grid line to the form's left end [in], the second one's turn, and
    whether the first lies left."""

    first_in: float
    second_in: float
    turn: Turn
    first_left: bool


def outline(left: Side, right: Side) -> Outline:
    """An outline from its sides."""
    return Outline(left, right, _lean(left), _lean(right))


def _lean(side: Side) -> float:
    return max(
        (hypot(b[0] - a[0], b[1] - a[1]) / (b[0] - a[0]) for a, b in pairwise(side) if b[0] - a[0] > SLACK), default=1.0
    )


def turned(one: Outline, turn: Turn, h_in: float) -> Outline:
    """The same piece turned within a form h_in high."""
    left, right, lean_left, lean_right = one
    if turn.end:
        left, right = _negative(right), _negative(left)
        lean_left, lean_right = lean_right, lean_left
    if turn.over:
        left, right = _over(left, h_in), _over(right, h_in)
    return Outline(left, right, lean_left, lean_right)


def _negative(side: Side) -> Side:
    return tuple((y, -x) for y, x in side)


def _over(side: Side, h_in: float) -> Side:
    return tuple((h_in - y, x) for y, x in reversed(side))


def at(side: Side, y: float) -> float:
    """Place of a side at a height; beyond its ends, that of the end."""
    if y <= side[0][0]:
        return side[0][1]
    for (y0, x0), (y1, x1) in pairwise(side):
        if y <= y1:
            return x0 + (x1 - x0) * (y - y0) / (y1 - y0) if y1 > y0 else x1
    return side[-1][1]


def apart_in(one: Outline, other: Outline, kerf_in: float) -> float:
    """How far the second must be moved to stand right of the first with a cut between; minus infinity where they pass [in]."""
    right, left = one.right, other.left
    low = max(right[0][0], left[0][0]) - kerf_in
    high = min(right[-1][0], left[-1][0]) + kerf_in
    if low > high:
        return float("-inf")
    heights = {low, high, *(y for y, _ in right if low < y < high), *(y for y, _ in left if low < y < high)}
    # a level gap of kerf x lean leaves the kerf square to a leaning side
    return max(at(right, y) - at(left, y) for y in heights) + kerf_in * max(one.lean_right, other.lean_left)


def _least(one: Outline) -> float:
    return min(x for _, x in one.left)


def _most(one: Outline) -> float:
    return max(x for _, x in one.right)


def fits(
    first: Outline, second: Outline, form_in: float, h_in: float, s_in: float, kerf_in: float, turns: tuple[Turn, ...]
) -> Iterator[Fit]:
    """Ways in which two pieces come out of one form, the first as it stands.

    The first goes to an end of the form and the second, turned in each allowed way, to the other end, both moved by whole web
    spaces: moved farther toward each other they could only overlap more. Turning both alike gives nothing new, so this is complete.
    Args: turns: those allowed, a group, the liked ones first.
    """
    for turn in turns:
        other = turned(second, turn, h_in)
        for swap in (False, True):
            left, right = (other, first) if swap else (first, other)
            start = s_in * ceil(-_least(left) / s_in - SLACK)
            end = s_in * floor((form_in - _most(right)) / s_in + SLACK)
            if _most(left) + start > form_in + SLACK or _least(right) + end < -SLACK:
                continue
            if end - start >= apart_in(left, right, kerf_in) - SLACK:
                yield Fit(end, start, turn, False) if swap else Fit(start, end, turn, True)
