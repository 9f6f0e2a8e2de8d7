"""What to relax, and by how much, where a piece has no places that hold its rule.

Every constraint is relaxed alone to the least sixteenth that gives places; where no single one is enough, two together. Relaxing
never takes a place away, so bisection finds the least.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from itertools import combinations
from math import ceil

from engine.setting_out.marks import READING_IN
from engine.setting_out.places import allowed, layers_of
from engine.setting_out.rules import Kept, Piece, Rule, barred


@dataclass(frozen=True, slots=True)
class Change:
    """One constraint relaxed.

    Args: constraint: "spacing", "end least", "end most", "apart" or "clear". what: what it keeps clear of, for "clear".
    now_in, to_in: as asked and as it would have to be [in].
    """

    constraint: str
    what: str
    now_in: float
    to_in: float

    @property
    def by_in(self) -> float:
        """How much it gives way [in]."""
        return abs(self.to_in - self.now_in)


Remedy = tuple[Change, ...]  # changes made together


@dataclass(frozen=True, slots=True)
class _Lever:
    """A constraint that can give way: its value now, its last resort, and the rule with another value."""

    constraint: str
    what: str
    now: float
    last: float
    apply: Callable[[Rule, float], Rule]

    @property
    def steps(self) -> int:
        """Sixteenths to the last resort."""
        return ceil(abs(self.last - self.now) / READING_IN - 1e-9)

    def at(self, step: int) -> float:
        """The value so many sixteenths away."""
        if step >= self.steps:
            return self.last
        return self.now + step * READING_IN * (1 if self.last > self.now else -1)

    def change(self, step: int) -> Change:
        """As a change."""
        return Change(self.constraint, self.what, self.now, self.at(step))


def remedies(piece: Piece, rule: Rule) -> tuple[Remedy, ...]:
    """The least changes that would give this piece places: each alone, or in pairs where none alone does."""
    rule = _near(piece, rule)
    levers = [lever for lever in _levers(piece, rule) if lever.steps > 0]
    alone: list[Remedy] = []
    for lever in levers:
        step = _least(piece, rule, lever)
        if step is not None:
            alone.append((lever.change(step),))
    return tuple(alone) or tuple(_pairs(piece, rule, levers))


def _near(piece: Piece, rule: Rule) -> Rule:
    """The rule without what lies far from the piece."""

    def beside(kept: Kept) -> Kept:
        low, high = piece.start_in - kept.reach_in, piece.end_in + kept.reach_in
        return replace(kept, at_in=kept.at_in[bisect_left(kept.at_in, low) : bisect_right(kept.at_in, high)])

    return replace(rule, keeps=tuple(k for k in map(beside, rule.keeps) if k.at_in))


def _levers(piece: Piece, rule: Rule) -> Iterator[_Lever]:
    longest = piece.length_in
    if rule.spacing_in < longest:
        yield _Lever("spacing", "", rule.spacing_in, longest, lambda r, v: replace(r, spacing_in=v))
    if rule.end_max_in < longest:
        yield _Lever("end most", "", rule.end_max_in, longest, lambda r, v: replace(r, end_max_in=v))
    yield _Lever("end least", "", rule.end_min_in, 0.0, lambda r, v: replace(r, end_min_in=v))
    if rule.apart_in > rule.grid_in:
        yield _Lever("apart", "", rule.apart_in, rule.grid_in, lambda r, v: replace(r, apart_in=v))
    for n, kept in enumerate(rule.keeps):
        yield _Lever("clear", kept.what, kept.clear_in, 0.0, partial(_cleared, n))


def _cleared(n: int, rule: Rule, clear_in: float) -> Rule:
    keeps = list(rule.keeps)
    keeps[n] = replace(keeps[n], clear_in=clear_in)
    return replace(rule, keeps=tuple(keeps))


def _holds(piece: Piece, rule: Rule) -> bool:
    return layers_of(piece, rule, allowed(piece, rule, barred(rule.keeps))) is not None


def _least(piece: Piece, rule: Rule, lever: _Lever) -> int | None:
    """Fewest sixteenths of this lever that give places; None where even its last resort does not."""
    if not _holds(piece, lever.apply(rule, lever.last)):
        return None
    low, high = 0, lever.steps
    while high - low > 1:
        middle = (low + high) // 2
        if _holds(piece, lever.apply(rule, lever.at(middle))):
            high = middle
        else:
            low = middle
    return high


def _pairs(piece: Piece, rule: Rule, levers: list[_Lever]) -> Iterator[Remedy]:
    """Two constraints together: the second as little as it may with the first let go, then the first as little as it may."""
    for first, second in combinations(levers, 2):
        step = _least(piece, first.apply(rule, first.last), second)
        if step is None:
            continue
        other = _least(piece, second.apply(rule, second.at(step)), first)
        if other is not None:
            yield first.change(other), second.change(step)
