"""Candidates of every way of carrying one floor line, each checked in full, some hundred at a time."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import chain, islice
from math import inf
from typing import Any, NamedTuple

from engine import attachments
from engine.basis import Basis, Group
from engine.options.memo import Memo, Remembering, Row
from engine.options.prepare import Line, Way, prepare
from engine.options.quantities import QUANTITIES, Quantities
from engine.result import LimitState, Verdict

CHUNK = 500
ORDER = {Verdict.PASS: 0, Verdict.FLAG: 1, Verdict.REFER: 2}
VERDICTS = tuple(ORDER)


class Judged(NamedTuple):
    """Of a group's lines the one to read first: the order of its verdict, its weight, itself; none where no line is judged."""

    order: int = -1
    weight: float = 0.0
    governing: LimitState | None = None


def judged(states: Iterable[LimitState]) -> Judged:
    """The line to read first, by the rule of `CheckResult.governing`."""
    best = Judged()
    for state in states:
        order, weight = ORDER.get(state.verdict, -1), state.ratio
        if weight is None:
            weight = inf if order > 0 else 0.0
        if order > best.order or (order == best.order >= 0 and weight > best.weight):
            best = Judged(order, weight, state)
    return best


@dataclass(frozen=True, slots=True, eq=False)
class Candidate:
    """One way with its sizes, checked.

    row: values of what the way varies. verdict: of the whole check, None where its inputs clash and `clash` says how. governing:
    the line to read first. quantities: over the run, of one that holds.
    """

    way: Way
    row: Row
    verdict: Verdict | None
    governing: LimitState | None
    quantities: Quantities | None
    clash: str = ""

    @property
    def ratio(self) -> float:
        """Of the governing line; 0 where it has none."""
        return (self.governing.ratio if self.governing else None) or 0.0

    @property
    def inputs(self) -> Any:
        """All inputs of the attachment."""
        return self.way.inputs(self.row)


class Checking:
    """All candidates of one way. What they have in common is worked out once."""

    def __init__(self, way: Way) -> None:
        module = attachments.kind(way.offer.kind).module
        memo = self._memo = Memo(module.Standing, way.base, way.varied, way.line.edition)
        line = way.line.place.length_in, way.line.floor.spacing_in
        self.way = way
        self.groups = tuple(memo.function(partial(_judge, group)) for group in module.GROUPS)
        self._quantities = memo.function(partial(_count, QUANTITIES[way.offer.kind], *line))
        self._varying: tuple[tuple[int, Remembering], ...] = ()
        self._same = 0, Judged()

    def candidates(self) -> Iterator[Candidate]:
        """One after the other, in the order of the way's rows."""
        for number, row in enumerate(self.way.rows()):
            if not number:
                self._settle(row)
            yield self._candidate(row)

    def _settle(self, row: Row) -> None:
        """Groups that read nothing that varies say the same of every candidate."""
        self._memo.begin(row)
        found = [(n, group, group.find(row)) for n, group in enumerate(self.groups)]
        same = [(n, known.value) for n, group, known in found if not group.varies and known.error is None]
        self._varying = tuple((n, group) for n, group, known in found if group.varies or known.error)
        self._same = max(same, key=lambda one: (one[1].order, one[1].weight, -one[0]), default=(0, Judged()))

    def _candidate(self, row: Row) -> Candidate:
        self._memo.begin(row)
        place, best = self._same
        for n, group in self._varying:
            known = group.find(row)
            if known.error is not None:
                return Candidate(self.way, row, None, None, None, str(known.error))
            found = known.value
            if found.order < best.order or (found.order == best.order and found.weight < best.weight):
                continue
            if found.order > best.order or found.weight > best.weight or n < place:
                place, best = n, found
        verdict = VERDICTS[max(best.order, 0)]
        quantities = self._quantities.find(row).get() if verdict is Verdict.PASS else None
        return Candidate(self.way, row, verdict, best.governing, quantities)


def _judge(group: Group[Any], basis: Basis[Any]) -> Judged:
    return judged(group(basis))


def _count(of: Callable[[Any, float, float], Quantities], run_in: float, joists_in: float, basis: Any) -> Quantities:
    return of(basis, run_in, joists_in)


class Search:
    """Every candidate for a floor line. Run it as far as you like; what has been checked is in `candidates`.

    refused: offers that can't be compared here, and why. Raises: BadInput where the floor's own values can't be used.
    """

    def __init__(self, line: Line) -> None:
        self.line = line
        self.ways, self.refused = prepare(line)
        self.total = sum(way.count for way in self.ways)
        self.candidates: list[Candidate] = []
        self._rest = chain.from_iterable(Checking(way).candidates() for way in self.ways)

    def run(self, chunk: int = CHUNK) -> Iterator[int]:
        """Check on, and give word after every chunk of how many are done; whoever asks no further has cancelled."""
        while found := list(islice(self._rest, chunk)):
            self.candidates += found
            yield len(self.candidates)
