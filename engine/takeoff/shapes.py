"""How a bar is bent: its middle as a line with sharp corners, bends, hooks. Its cut length and its sketch are made of this."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import acos, degrees, hypot, radians, sqrt, tan

from engine.clauses.us.bars import bar, main_bend_in, main_tail_in, stirrup_bend_in, stirrup_turned_tail_in
from engine.clauses.us.bent_bars import Point, hook_90_in, path_length_in

CLOSING = 135  # degrees of the two hooks that close a stirrup or tie


@dataclass(frozen=True, slots=True)
class Leg:
    """One straight part. Args: start, end: its sharp corners. out_in: out to out; 0 for the tail of a hook."""

    start: Point
    end: Point
    out_in: float


@dataclass(frozen=True, slots=True)
class Shape:
    """A bent bar of one size.

    Args: words: what a bender calls it. number: of its size. corners: of its middle, ends among them [in]. bends_in: inside
    diameter at each inner corner. hooks: degrees of the hook at its start and at its end, 0 for none.
    """

    words: str
    number: str
    corners: tuple[Point, ...]
    bends_in: tuple[float, ...] = ()
    hooks: tuple[int, int] = (0, 0)

    @property
    def d_b_in(self) -> float:
        """Its diameter [in]."""
        return bar(self.number).d_b_in

    @property
    def cut_in(self) -> float:
        """Its cut length [in]."""
        return path_length_in(self.corners, self.bends_in, self.d_b_in)

    @property
    def turns_deg(self) -> tuple[float, ...]:
        """Angle turned at each inner corner."""
        ways = [_way(a, b) for a, b in pairwise(self.corners)]
        return tuple(degrees(acos(max(-1.0, min(1.0, a[0] * b[0] + a[1] * b[1])))) for a, b in pairwise(ways))

    @property
    def tangents_in(self) -> tuple[float, ...]:
        """How far from each inner corner the bar is straight again [in]."""
        return tuple(
            (D_b + self.d_b_in) / 2 * tan(radians(turn / 2))
            for D_b, turn in zip(self.bends_in, self.turns_deg, strict=True)
        )

    @property
    def tails_in(self) -> tuple[float, ...]:
        """Straight tail of each hook, from its bend to the end [in]."""
        ends = ((self.corners[:2], self.tangents_in[:1]), (self.corners[-2:], self.tangents_in[-1:]))
        return tuple(
            _apart(*corners) - tangent[0] for hook, (corners, tangent) in zip(self.hooks, ends, strict=True) if hook
        )

    @property
    def legs(self) -> tuple[Leg, ...]:
        """Its straight parts in order, each out to out as a bender measures it."""
        count = len(self.corners) - 1
        past = (0.0, *self._past(), 0.0)
        tails = {n for n, hook in ((0, self.hooks[0]), (count - 1, self.hooks[1])) if hook}
        return tuple(
            Leg(a, b, 0.0 if n in tails else _apart(a, b) + past[n] + past[n + 1])
            for n, (a, b) in enumerate(pairwise(self.corners))
        )

    def _past(self) -> Iterator[float]:
        """What the outside of the bar stands past each inner corner of its middle; a closing hook goes round a right angle."""
        half = self.d_b_in / 2
        for D_b, turn in zip(self.bends_in, self.turns_deg, strict=True):
            yield half * tan(radians(turn / 2)) if turn < CLOSING - 1 else half - sqrt(2) * (D_b / 2 + half)


def _apart(a: Point, b: Point) -> float:
    return hypot(b[0] - a[0], b[1] - a[1])


def _way(a: Point, b: Point) -> Point:
    length = _apart(a, b)
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def straight(number: str, length_in: float) -> Shape:
    """A straight bar. Args: length_in: cut [in]."""
    return Shape("straight", number, ((0.0, 0.0), (length_in, 0.0)))


HOOKED = ("straight", "90 degree hook at one end", "90 degree hooks at both ends")


def hooked(number: str, length_in: float, hooks: int) -> Shape:
    """A main bar with standard 90 degree hooks (ACI 318-19 Table 25.3.1). Args: length_in: cut [in]. hooks: 0, 1 or 2."""
    if not hooks:
        return straight(number, length_in)
    d_b = bar(number).d_b_in
    D_b, tail = main_bend_in(d_b), main_tail_in(d_b)
    middle = max(length_in - hooks * (hook_90_in(D_b, d_b, tail) + d_b / 2), D_b + d_b)  # never less than its bends
    up = (D_b + d_b) / 2 + tail
    corners = [(0.0, -up), (0.0, 0.0), (middle, 0.0), (middle, -up)]
    return Shape(HOOKED[hooks], number, tuple(corners[: hooks + 2]), (D_b,) * hooks, (90, 90 if hooks == 2 else 0))


def closed(words: str, number: str, loop: Sequence[Point]) -> Shape:
    """A stirrup or tie that closes with two hooks of 135 degrees (ACI 318-19 Table 25.3.2).

    Args: loop: corners of its middle [in]; it closes at the first, which must be a right angle.
    """
    d_b = bar(number).d_b_in
    D_b, tail = stirrup_bend_in(d_b), stirrup_turned_tail_in(d_b)
    radius = (D_b + d_b) / 2
    at, first, last = loop[0], _way(loop[0], loop[1]), _way(loop[0], loop[-1])
    # the bar runs on round the corner it shares with the other end: the sharp corner of its hook lies past that one
    reach = (1 + sqrt(2)) * radius + tail
    inward = ((first[0] + last[0]) / sqrt(2) * reach, (first[1] + last[1]) / sqrt(2) * reach)
    past = [(at[0] - sqrt(2) * radius * way[0], at[1] - sqrt(2) * radius * way[1]) for way in (first, last)]
    ends = [(x + inward[0], y + inward[1]) for x, y in past]
    corners = (ends[0], past[0], *loop[1:], past[1], ends[1])
    return Shape(words, number, corners, (D_b,) * (len(corners) - 2), (CLOSING, CLOSING))
