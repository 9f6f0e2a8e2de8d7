"""Which two cut pieces of a gable come out of one form, and the most such pairs."""

from collections.abc import Sequence
from itertools import combinations

from engine.attachments.gable_end.cells import Cell, Shape
from engine.attachments.gable_end.matching import most_pairs
from engine.attachments.gable_end.outline import SLACK, Fit, Outline, fits


def leftover(shape: Shape, one: Cell, found: Fit) -> float:
    """Longer edge of what a piece leaves of its form, on the second one's side [in]."""
    left, right, lean_left, lean_right = one.outline
    if found.first_left:
        return shape.form - found.first_in - min(right[0][1], right[-1][1]) - shape.kerf * lean_right
    return found.first_in + max(left[0][1], left[-1][1]) - shape.kerf * lean_left


class Pairing:
    """Pairs of pieces of one gable; what was once tried is not tried again."""

    def __init__(self, shape: Shape) -> None:
        self.shape = shape
        self.known: dict[tuple[Outline, Outline], Fit | None] = {}

    def pair(self, one: Cell, other: Cell) -> Fit | None:
        """How two pieces come out of one form; None where they can't or what the first leaves is too short to be kept."""
        key = one.outline, other.outline
        if key not in self.known:
            self.known[key] = self._pair(one, other)
        return self.known[key]

    def _pair(self, one: Cell, other: Cell) -> Fit | None:
        shape = self.shape
        if one.area_in2 + other.area_in2 > shape.form * shape.h + SLACK:
            return None
        ways = fits(one.outline, other.outline, shape.form, shape.h, shape.s, shape.kerf, shape.turns)
        return next((found for found in ways if leftover(shape, one, found) > shape.least - SLACK), None)

    def most(self, cut: Sequence[Cell]) -> dict[int, tuple[int, Fit]]:
        """The most pieces cut from offcuts: number of a piece -> number of the one cut from what it leaves, and how both lie.

        The larger of two is cut first. Args: cut: pieces that are no whole forms. An offcut serves once.
        """
        found: dict[tuple[int, int], Fit] = {}
        friends: list[list[int]] = [[] for _ in cut]
        for a, b in combinations(range(len(cut)), 2):
            first, second = (a, b) if cut[a].area_in2 >= cut[b].area_in2 - SLACK else (b, a)
            lies = self.pair(cut[first], cut[second])
            if lies:
                found[first, second] = lies
                friends[a].append(b)
                friends[b].append(a)
        mates = most_pairs([_nearest(cut, n, own) for n, own in enumerate(friends)])
        return {a: (b, found[a, b]) for a, b in enumerate(mates) if (a, b) in found}


def _nearest(cut: Sequence[Cell], one: int, others: Sequence[int]) -> list[int]:
    """Those of the same course first: an offcut is best used where it falls."""
    return sorted(others, key=lambda other: abs(cut[other].course - cut[one].course))
