"""What the rakes leave of a course of forms that stand on the web grid: its pieces and their outlines [in]."""

from collections.abc import Callable
from math import ceil
from typing import NamedTuple

from engine.attachments.gable_end.outline import (
    AS_IT_STANDS,
    END_FOR_END,
    HALF_TURN,
    SLACK,
    UPSIDE_DOWN,
    Outline,
    Side,
    Turn,
    at,
    outline,
)


class Shape(NamedTuple):
    """All that the cut list of a gable turns on [in].

    W, x_r, H, h: base, ridge, rise, course. s: web spacing. spaces: of a form. grid: a place midway between two webs. kerf: lost at
    a cut. least: shortest offcut worth using. turns: ways a piece may be turned.
    """

    W: float
    x_r: float
    H: float
    h: float
    s: float
    spaces: int
    grid: float
    kerf: float
    least: float
    turns: tuple[Turn, ...]

    @property
    def form(self) -> float:
        """Length of a form."""
        return self.spaces * self.s

    @property
    def courses(self) -> int:
        """How many."""
        return ceil(self.H / self.h - SLACK)


def turns(reversible: bool, faces_alike: bool) -> tuple[Turn, ...]:
    """How a piece may be turned, the liked ways first.

    Upside down needs upper and lower edges alike. End for end or rolled over, the room-side panel comes outside: both panels must
    be alike. Half a turn in the wall's plane keeps the faces.
    """
    found = [AS_IT_STANDS]
    if faces_alike:
        found.append(END_FOR_END)
    if reversible:
        found.append(HALF_TURN)
    if reversible and faces_alike:
        found.append(UPSIDE_DOWN)
    return tuple(found)


class Cell(NamedTuple):
    """A piece in its place. x_in: the line of the grid its outline is counted from. course: from 1. whole: an uncut form."""

    course: int
    x_in: float
    outline: Outline
    whole: bool

    @property
    def lower(self) -> tuple[float, float]:
        """Its lower edge, from and to."""
        return self.x_in + self.outline.left[0][1], self.x_in + self.outline.right[0][1]

    @property
    def upper(self) -> tuple[float, float]:
        """Its upper edge, from and to; one point where it ends in a tip."""
        return self.x_in + self.outline.left[-1][1], self.x_in + self.outline.right[-1][1]

    @property
    def height_in(self) -> float:
        """Of the piece."""
        return self.outline.left[-1][0]

    @property
    def area_in2(self) -> float:
        """Its face."""
        left, right = self.outline.left, self.outline.right
        heights = sorted({y for y, _ in left} | {y for y, _ in right})
        widths = [at(right, y) - at(left, y) for y in heights]
        return sum(
            (a + b) / 2 * (y1 - y0) for a, b, y0, y1 in zip(widths, widths[1:], heights, heights[1:], strict=False)
        )


def cells(shape: Shape, course: int, offset: int) -> list[Cell]:
    """Pieces of a course, left to right. Args: course: from 1. offset: web spaces from the grid's line to the first joint."""
    y0 = (course - 1) * shape.h
    a, b = _left(shape, y0), _right(shape, y0)
    start = shape.grid + offset * shape.s
    first = start + shape.form * ceil((a - start) / shape.form - SLACK) - shape.form
    found = []
    while first < b - SLACK:
        if first + shape.form > a + SLACK:
            found.append(_cell(shape, course, y0, first))
        first += shape.form
    return found


def _left(shape: Shape, y: float) -> float:
    return shape.x_r * y / shape.H


def _right(shape: Shape, y: float) -> float:
    return shape.W - (shape.W - shape.x_r) * y / shape.H


def _cell(shape: Shape, course: int, y0: float, x0: float) -> Cell:
    """What the rakes leave of a form that stands from x0; places count from there."""
    x1, up, down = x0 + shape.form, shape.H / shape.x_r, shape.H / (shape.W - shape.x_r)
    top = min(y0 + shape.h, shape.H, x1 * up, (shape.W - x0) * down)
    left = _side(y0, top, x0 * up, lambda y: max(_left(shape, y) - x0, 0.0))
    right = _side(y0, top, (shape.W - x1) * down, lambda y: min(_right(shape, y) - x0, shape.form))
    whole = top - y0 > shape.h - SLACK and left[-1][1] < SLACK and right[-1][1] > shape.form - SLACK
    return Cell(course, x0, outline(left, right), whole)


def _side(y0: float, top: float, knee: float, place: Callable[[float], float]) -> Side:
    """A side that is plumb to its knee and follows the rake above it; heights from y0."""
    heights = (y0, knee, top) if y0 + SLACK < knee < top - SLACK else (y0, top)
    return tuple((y - y0, place(y)) for y in heights)


def webs(shape: Shape, cell: Cell) -> int:
    """Webs somewhere within a piece; they stand midway between lines of the grid."""
    low, high = min(x for _, x in cell.outline.left), max(x for _, x in cell.outline.right)
    return sum(low + SLACK < (k + 0.5) * shape.s < high - SLACK for k in range(shape.spaces))
