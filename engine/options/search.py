"""Candidates of every way of carrying one floor line, each checked in full, some hundred at a time."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import chain, islice
from math import inf
from typing import Any, NamedTuple

from engine import attachments
from engine.basis import Basis, Group
from engine.errors import EngineError
from engine.options.memo import Known, Memo, Remembering, Row
from engine.options.prepare import Line, Way, prepare
from engine.options.quantities import QUANTITIES, Quantities
from engine.result import LimitState, Verdict

Begun = tuple[Row, dict[str, Known]]  # a row, and what is found of its parts
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
        self.way, self._memo = way, Memo(module.Standing, way.base, way.varied, way.line.edition)
        line = way.line.place.length_in, way.line.floor.spacing_in
        self._groups = tuple(self._memo.function(partial(_judge, group)) for group in module.GROUPS)
        self._quantities = self._memo.function(partial(_count, QUANTITIES[way.offer.kind], *line))

    def candidates(self, chunk: int = CHUNK) -> Iterator[list[Candidate]]:
        """Some at a time, in the order of the way's rows."""
        rows = self.way.rows()
        while some := [(row, dict[str, Known]()) for row in islice(rows, chunk)]:
            best = [self._clash(row, found) or Judged() for row, found in some]
            for group in self._groups:  # one group for all rows, then the next: the same code stays at hand
                self._take(group, some, best)
            yield [self._candidate(row, found, one) for (row, found), one in zip(some, best, strict=True)]

    def _clash(self, row: Row, found: dict[str, Known]) -> EngineError | None:
        self._memo.begin(row, found)
        return self._memo.clash()

    def _take(self, group: Remembering, rows: Sequence[Begun], best: list[Judged | EngineError]) -> None:
        """What a group says of every row, where it is to be read before what the groups before it say."""
        begin, find = self._memo.begin, group.find
        for n, (row, found) in enumerate(rows):
            before = best[n]
            if isinstance(before, EngineError):
                continue
            begin(row, found)
            known = find()
            if known.error is not None:
                best[n] = known.error
            elif known.value[:2] > before[:2]:
                best[n] = known.value

    def _candidate(self, row: Row, found: dict[str, Known], best: Judged | EngineError) -> Candidate:
        if isinstance(best, EngineError):
            return Candidate(self.way, row, None, None, None, str(best))
        verdict = VERDICTS[max(best.order, 0)]
        if verdict is not Verdict.PASS:
            return Candidate(self.way, row, verdict, best.governing, None)
        self._memo.begin(row, found)
        return Candidate(self.way, row, verdict, best.governing, self._quantities.find().get())


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

    def run(self) -> Iterator[int]:
        """Check on, and give word after some hundred how many are done; whoever asks no further has cancelled."""
        for found in self._rest:
            self.candidates += found
            yield len(self.candidates)
