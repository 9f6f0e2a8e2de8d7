"""What to relax, and by how much, where a piece has no places that hold its rule.

Every constraint is relaxed alone to the least sixteenth that gives places; where no single one is enough, two together. Relaxing
never takes a place away, so bisection finds the least.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from itertools import combinations, islice
from math import ceil, floor

from engine.setting_out.marks import READING_IN
from engine.setting_out.places import can_hold
from engine.setting_out.rules import Piece, Rule, barred

MOST_PAIRS = 3
DECIMALS = 9


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
    """The least changes that would give this piece places: each alone, or some pairs where none alone does."""
    return _remedies(*_at_origin(piece, rule))


def _at_origin(piece: Piece, rule: Rule) -> tuple[Piece, Rule]:
    """Piece and rule moved to the named end by whole steps of the grid, without what lies far away: like pieces become equal."""
    by = floor(piece.start_in / rule.grid_in) * rule.grid_in

    def near(places: tuple[float, ...], reach: float) -> tuple[float, ...]:
        low, high = bisect_left(places, piece.start_in - reach), bisect_right(places, piece.end_in + reach)
        return tuple(round(at - by, DECIMALS) for at in places[low:high])

    keeps = tuple(replace(kept, at_in=near(kept.at_in, kept.reach_in)) for kept in rule.keeps)
    only = None if rule.only_at is None else near(rule.only_at, 0.0)
    moved = Piece(round(piece.start_in - by, DECIMALS), round(piece.end_in - by, DECIMALS))
    return moved, replace(rule, keeps=tuple(k for k in keeps if k.at_in), only_at=only, serves=())


@lru_cache(maxsize=512)
def _remedies(piece: Piece, rule: Rule) -> tuple[Remedy, ...]:
    levers = [lever for lever in _levers(piece, rule) if lever.steps > 0]
    loosest = rule
    for lever in levers:
        loosest = lever.apply(loosest, lever.last)
    if not _holds(piece, loosest):
        return ()
    alone: list[Remedy] = []
    for lever in levers:
        step = _least(piece, rule, lever)
        if step is not None:
            alone.append((lever.change(step),))
    return tuple(alone) or tuple(islice(_pairs(piece, rule, levers), MOST_PAIRS))


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
    return can_hold(piece, rule, barred(rule.keeps))


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
