"""Every candidate of every way of carrying one floor line, checked in full."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from typing import Any

from engine import attachments
from engine.errors import EngineError
from engine.options.candidates import CLASH, Candidate, Candidates, Checked, Judged, judged
from engine.options.grid import Table
from engine.options.memo import Memo, Traced
from engine.options.prepare import Line, Way, prepare
from engine.options.quantities import QUANTITIES, Quantities
from engine.result import LimitState, Verdict


class Checking:
    """All candidates of one way. What they have in common is worked out once."""

    def __init__(self, way: Way) -> None:
        module = attachments.kind(way.offer.kind).module
        self.way, self._memo = way, Memo(module.Standing, way.base, way.choices, way.line.edition)
        works: list[Callable[[Any], Iterable[LimitState]]] = [partial(_sound, piece) for piece in self._memo.places]
        works += module.GROUPS
        self._groups = [self._memo.function(partial(_judge, work, -n)) for n, work in enumerate(works)]

    def run(self) -> Iterator[tuple[float, Checked | None]]:
        """One group of lines for all candidates, then the next: after each the share that is done, at last all of them."""
        tables = []
        for group in self._groups:
            table = group.table()
            tables.append(Table(table.axes, [known.get() for known in table.cells]))
            yield len(tables) / len(self._groups), None
        governing = self._memo.grid.merge(max, tables)
        yield 1.0, Checked(self.way, governing, self._taken(governing))

    def _taken(self, governing: Sequence[Judged]) -> dict[int, Quantities]:
        holding = [number for number, one in enumerate(governing) if one.verdict is Verdict.PASS]
        line = self.way.line.place.length_in, self.way.line.floor.spacing_in
        count = self._memo.function(partial(_count, QUANTITIES[self.way.offer.kind], *line))
        return dict(zip(holding, count.of(holding), strict=True))


def _judge(work: Callable[[Any], Iterable[LimitState]], place: int, basis: Traced) -> Judged:
    try:
        return judged(work(basis), place)
    except EngineError as error:
        return Judged(CLASH, 0.0, place, error.with_traceback(None))


def _sound(piece: str, basis: Traced) -> tuple[LimitState, ...]:
    """No lines; a geometry's own errors come before all others."""
    basis.whole(piece)
    return ()


def _count(of: Callable[[Any, float, float], Quantities], run_in: float, joists_in: float, basis: Traced) -> Quantities:
    return of(basis, run_in, joists_in)


class Search:
    """Every candidate for a floor line. Run it as far as you like; what has been checked is in `candidates`.

    refused: offers that can't be compared here, and why. Raises: BadInput where the floor's own values can't be used.
    """

    def __init__(self, line: Line) -> None:
        self.line = line
        self.ways, self.refused = prepare(line)
        self.total = sum(way.count for way in self.ways)
        self.checked: list[Checked] = []
        self._rest = self._run()

    @property
    def candidates(self) -> Sequence[Candidate]:
        """Of all ways that have been checked."""
        return Candidates(self.checked)

    def run(self) -> Iterator[int]:
        """Check on, and give word every few milliseconds how many are done; whoever asks no further has cancelled."""
        return self._rest

    def _run(self) -> Iterator[int]:
        for way in self.ways:
            before, count = len(self.candidates), way.count
            for share, checked in Checking(way).run():
                if checked:
                    self.checked.append(checked)
                yield before + int(share * count)
