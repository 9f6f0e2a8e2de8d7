"""Candidates that have been checked. What governs each is kept for all; a candidate itself is made when someone asks for it."""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate
from math import inf
from typing import Any, NamedTuple, overload

from engine.errors import EngineError
from engine.options.grid import Pick
from engine.options.prepare import Way
from engine.options.quantities import Quantities
from engine.result import LimitState, Verdict

ORDER = {Verdict.PASS: 0, Verdict.FLAG: 1, Verdict.REFER: 2}
VERDICTS = (*ORDER, None)
CLASH = 3


class Judged(NamedTuple):
    """Of a group's lines the one to read first: the order of its verdict, its weight, the group's place, itself.

    CLASH stands for the order where inputs contradict each other, with the error in the line's place. The largest one governs.
    """

    order: int
    weight: float
    place: int
    governing: LimitState | EngineError | None = None

    @property
    def verdict(self) -> Verdict | None:
        """Of the lines; None where inputs clash."""
        return VERDICTS[max(self.order, 0)]


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

    number: among the way's own. judged: what governs it. quantities: over the run, of one that holds.
    """

    way: Way
    number: int
    judged: Judged
    quantities: Quantities | None

    @property
    def verdict(self) -> Verdict | None:
        """Of the whole check; None where its inputs clash and `clash` says how."""
        return self.judged.verdict

    @property
    def governing(self) -> LimitState | None:
        """The line to read first."""
        line = self.judged.governing
        return line if isinstance(line, LimitState) else None

    @property
    def clash(self) -> str:
        """How its inputs contradict each other; blank where they don't."""
        return str(self.judged.governing) if self.verdict is None else ""

    @property
    def ratio(self) -> float:
        """Of the governing line; 0 where it has none."""
        return (self.governing.ratio if self.governing else None) or 0.0

    @property
    def pick(self) -> Pick:
        """Which of the way's choices: the number of a row in each."""
        return self.way.pick(self.number)

    @property
    def sizes(self) -> dict[str, Any]:
        """What it varies."""
        return self.way.sizes(self.pick)

    @property
    def inputs(self) -> Any:
        """All inputs of the attachment."""
        return self.way.inputs(self.pick)


class Checked:
    """All candidates of one way. Args: judged: what governs each. taken: by number, quantities of those that hold."""

    def __init__(self, way: Way, judged: Sequence[Judged], taken: dict[int, Quantities]) -> None:
        self.way, self.judged, self.taken = way, judged, taken

    def candidate(self, number: int) -> Candidate:
        """One of them."""
        return Candidate(self.way, number, self.judged[number], self.taken.get(number))

    def short(self, number: int) -> float:
        """How far one is from holding; what has no ratio is farthest."""
        line = self.judged[number].governing
        ratio = line.ratio if isinstance(line, LimitState) else None
        return inf if ratio is None else ratio


class Candidates(Sequence[Candidate]):
    """Those of several ways in a row. Each time one is asked for it is made anew."""

    def __init__(self, checked: Sequence[Checked]) -> None:
        self._checked = checked
        self._starts = list(accumulate((len(one.judged) for one in checked), initial=0))

    def __len__(self) -> int:
        return self._starts[-1]

    @overload
    def __getitem__(self, at: int) -> Candidate: ...
    @overload
    def __getitem__(self, at: slice) -> list[Candidate]: ...
    def __getitem__(self, at: int | slice) -> Candidate | list[Candidate]:
        numbers = range(len(self))[at]
        if isinstance(numbers, range):
            return [self[number] for number in numbers]
        way = bisect_right(self._starts, numbers) - 1
        return self._checked[way].candidate(numbers - self._starts[way])
