"""What a row of anchors, or of other things set along a wall, has to hold: spacing, ends, and what to keep clear of."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import inf, isfinite

from engine.errors import BadInput
from engine.units import show

EPS = 1e-6  # inches: sums of sixteenths and metric text differ in the last bits of a float


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch from one station to another that nothing interrupts: a piece of plate or ledger, a pier [in]."""

    start_in: float
    end_in: float

    @property
    def length_in(self) -> float:
        """How long it is [in]."""
        return self.end_in - self.start_in


@dataclass(frozen=True, slots=True)
class Kept:
    """Things of one kind to keep clear of.

    Args: what: their name in a sentence ("a web"). at_in: their middles, ascending. half_in: half their width. clear_in: from
    their side to the middle of what is set [in].
    """

    what: str
    at_in: tuple[float, ...]
    half_in: float = 0.0
    clear_in: float = 0.0

    @property
    def reach_in(self) -> float:
        """From a middle to the nearest place allowed [in]."""
        return self.half_in + self.clear_in

    def for_width(self, half_in: float) -> "Kept":
        """The same, for something that wide: its side keeps clear rather than its middle."""
        return replace(self, clear_in=self.clear_in + half_in)


@dataclass(frozen=True, slots=True)
class Rule:
    """What one kind of thing has to hold along its pieces [in].

    Args:
        what: a key of WORDS. spacing_in: the most between neighbours of a piece. end_min_in, end_max_in: how near the ends of
            its piece any may stand, how far the outermost may. apart_in: the least between any two. least: the fewest in a
            piece; with 0 a piece may be found without any.
        grid_in: places are multiples of this from the named end; only_at: these places instead, ascending.
        keeps: what to keep clear of.
        serves, serve_in: places each of which needs one within that distance.
    """

    what: str
    spacing_in: float = inf
    end_min_in: float = 0.0
    end_max_in: float = inf
    apart_in: float = 0.5
    least: int = 1
    grid_in: float = 0.5
    keeps: tuple[Kept, ...] = ()
    only_at: tuple[float, ...] | None = None
    serves: tuple[float, ...] = ()
    serve_in: float = 0.0

    def check(self) -> None:
        """Raises: BadInput for values that contradict each other, naming by how much."""
        for name, value in self._lengths():
            if value < 0 or (value != value) or (name not in ("spacing_in", "end_max_in") and not isfinite(value)):
                raise BadInput(name, "Enter a length, 0 or more.")
        for name in ("grid_in", "apart_in", "spacing_in"):
            if getattr(self, name) <= 0:
                raise BadInput(name, "Enter a length above 0.")
        if self.least < 0:
            raise BadInput("least", "Enter 0 or more.")
        if self.end_max_in < self.end_min_in:
            short = show(self.end_min_in - self.end_max_in, "in")
            raise BadInput("end_max_in", f"The farthest end distance is {short} less than the nearest. Enter more.")
        if self.spacing_in < self.apart_in:
            short = show(self.apart_in - self.spacing_in, "in")
            raise BadInput("spacing_in", f"The spacing is {short} less than the least distance of two. Enter more.")

    def _lengths(self) -> Iterator[tuple[str, float]]:
        for name in ("spacing_in", "end_min_in", "end_max_in", "apart_in", "grid_in"):
            yield name, getattr(self, name)
        for kept in self.keeps:
            yield "clear_in", kept.clear_in
            yield "half_in", kept.half_in


def within(places: Sequence[float], low: float, high: float) -> Sequence[float]:
    """Those of ascending places that lie inside an interval, its ends not counted."""
    return places[bisect_right(places, low + EPS) : bisect_left(places, high - EPS)]


def barred(keeps: tuple[Kept, ...]) -> list[tuple[float, float]]:
    """Where nothing may stand: open intervals, merged, ascending [in]."""
    spans = sorted((at - k.reach_in + EPS, at + k.reach_in - EPS) for k in keeps if k.reach_in > EPS for at in k.at_in)
    merged: list[tuple[float, float]] = []
    for low, high in spans:
        if merged and low <= merged[-1][1]:
            if high > merged[-1][1]:
                merged[-1] = (merged[-1][0], high)
        else:
            merged.append((low, high))
    return merged
