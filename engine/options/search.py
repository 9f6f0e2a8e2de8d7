"""Candidates of every way of carrying one floor line, each checked in full, some hundred at a time."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import chain, islice
from math import inf
from typing import Any, NamedTuple

from engine import attachments
from engine.errors import EngineError
from engine.options.memo import Memo, Pick, Traced
from engine.options.prepare import Line, Way, prepare
from engine.options.quantities import QUANTITIES, Quantities
from engine.result import LimitState, Verdict

CHUNK = 500
ORDER = {Verdict.PASS: 0, Verdict.FLAG: 1, Verdict.REFER: 2}
VERDICTS = tuple(ORDER)
CLASH = 3


class Judged(NamedTuple):
    """Of a group's lines the one to read first: the order of its verdict, its weight, the group's place, itself.

    CLASH stands for the order where inputs contradict each other, with the error in the line's place. The largest one governs.
    """

    order: int
    weight: float
    place: int
    governing: LimitState | EngineError | None = None


def judged(states: Iterable[LimitState], place: int) -> Judged:
    """The line to read first, by the rule of `CheckResult.governing`. Args: place: below zero, the later the group the lower."""
    order, weight, governing = -1, 0.0, None
    for state in states:
        this, ratio = ORDER.get(state.verdict, -1), state.ratio
        if ratio is None:
            ratio = inf if this > 0 else 0.0
        if this > order or (this == order >= 0 and ratio > weight):
            order, weight, governing = this, ratio, state
    return Judged(order, weight, place, governing)


@dataclass(frozen=True, slots=True, eq=False)
class Candidate:
    """One way with its sizes, checked.

    pick: which of the way's choices. verdict: of the whole check, None where its inputs clash and `clash` says how. governing: the
    line to read first. quantities: over the run, of one that holds.
    """

    way: Way
    pick: Pick
    verdict: Verdict | None
    governing: LimitState | None
    quantities: Quantities | None
    clash: str = ""

    @property
    def ratio(self) -> float:
        """Of the governing line; 0 where it has none."""
        return (self.governing.ratio if self.governing else None) or 0.0

    @property
    def sizes(self) -> dict[str, Any]:
        """What it varies."""
        return self.way.sizes(self.pick)

    @property
    def inputs(self) -> Any:
        """All inputs of the attachment."""
        return self.way.inputs(self.pick)


class Checking:
    """All candidates of one way. What they have in common is worked out once."""

    def __init__(self, way: Way) -> None:
        module = attachments.kind(way.offer.kind).module
        self.way, self._memo = way, Memo(module.Standing, way.base, way.choices, way.line.edition)
        line = way.line.place.length_in, way.line.floor.spacing_in
        works: list[Callable[[Any], Iterable[LimitState]]] = [partial(_sound, piece) for piece in self._memo.pieced]
        works += module.GROUPS
        self.functions = tuple(self._memo.function(partial(_judge, work, -n)) for n, work in enumerate(works))
        self._quantities = self._memo.function(partial(_count, QUANTITIES[way.offer.kind], *line))

    def candidates(self, chunk: int = CHUNK) -> Iterator[list[Candidate]]:
        """Some at a time: one group for all of them, then the next, so that the same code stays at hand."""
        picks = self.way.picks()
        while some := list(islice(picks, chunk)):
            columns = [function.column(some) for function in self.functions]
            yield [self._candidate(pick, best) for pick, best in zip(some, map(max, *columns), strict=True)]
            self._memo.forget()

    def _candidate(self, pick: Pick, best: Judged) -> Candidate:
        line = best.governing
        if isinstance(line, EngineError):
            return Candidate(self.way, pick, None, None, None, str(line))
        verdict = VERDICTS[max(best.order, 0)]
        if verdict is not Verdict.PASS:
            return Candidate(self.way, pick, verdict, line, None)
        self._memo.begin(pick)
        return Candidate(self.way, pick, verdict, line, self._quantities.find().get())


def _judge(work: Callable[[Any], Iterable[LimitState]], place: int, basis: Any) -> Judged:
    try:
        return judged(work(basis), place)
    except EngineError as error:
        return Judged(CLASH, 0.0, place, error)


def _sound(piece: str, basis: Traced) -> tuple[LimitState, ...]:
    """No lines; a geometry's own errors come before all others."""
    basis.piece(piece)
    return ()


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
