"""Everything on one wall set out together: joists, plates, pockets, then bolts that keep clear of them all."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any, TypeVar

from engine.errors import BadInput
from engine.setting_out import bars, parts
from engine.setting_out.bolts import bolted
from engine.setting_out.floor_line import Joists, joists
from engine.setting_out.marks import Finding, Mark, numbered, plain
from engine.setting_out.rows import Row
from engine.setting_out.rules import EPS, Kept, Piece, within
from engine.setting_out.runs import at_on_wall, on_wall
from engine.setting_out.tasks import Habits, Moved, Task
from engine.wall import Wall

T = TypeVar("T")
WALL = "wall"  # kind of what belongs to the wall itself


@dataclass(frozen=True, slots=True)
class SettingOut:
    """One attachment, or a storey of the wall itself (kind "wall"), set out on a wall.

    Args: marks: what to set where. pieces: of plate or ledger. rows: pieces and rule of each kind of mark, for re-checking.
    headered: joists that an opening takes [in].
    """

    tag: str
    kind: str
    wall: str
    level: int
    start_in: float
    end_in: float
    marks: tuple[Mark, ...] = ()
    findings: tuple[Finding, ...] = ()
    pieces: tuple[Piece, ...] = ()
    headered: tuple[float, ...] = ()
    rows: Mapping[str, Row] = field(default_factory=dict)

    @property
    def holds(self) -> bool:
        """Whether nothing stands against it; notes do not."""
        return all(finding.note for finding in self.findings)

    def of(self, what: str) -> tuple[Mark, ...]:
        """Marks of one kind."""
        return tuple(mark for mark in self.marks if mark.what == what)

    def count(self, what: str) -> int:
        """How many of one kind are set."""
        return sum(mark.count for mark in self.marks if mark.what == what)

    def stations(self, what: str) -> tuple[float, ...]:
        """Places of one kind, ascending [in]."""
        return tuple(sorted({mark.at_in for mark in self.marks if mark.what == what}))

    def chain(self, what: str) -> tuple[float, ...]:
        """Dimension string: from the run's start to each place and to its end [in]."""
        places = (self.start_in, *self.stations(what), self.end_in)
        return tuple(b - a for a, b in pairwise(places))

    def into_pieces(self, what: str) -> tuple[float | None, ...]:
        """Of every piece, how far from its start the first of a kind stands [in]; None where none does."""
        places = self.stations(what)
        firsts = (within(places, piece.start_in - 2 * EPS, piece.end_in + 2 * EPS)[:1] for piece in self.pieces)
        return tuple(
            first[0] - piece.start_in if first else None for piece, first in zip(self.pieces, firsts, strict=True)
        )

    def review(self, what: str, stations: Sequence[float], reading_in: float = 0.0) -> tuple[Finding, ...]:
        """Stations of one kind moved by hand, or surveyed, against the rule they were set by; see `Row.review`.

        Raises: BadInput for a kind that is not set here.
        """
        if what not in self.rows:
            raise BadInput("what", f"Nothing of that kind is set here. Known: {', '.join(self.rows)}.")
        return self.rows[what].review(stations, reading_in)


Begun = tuple[SettingOut, Joists | None]  # with its joists, where it has any


def set_out(
    wall: Wall, tasks: Sequence[Task], habits: Habits | None = None, brackets: Mapping[int, Moved] | None = None
) -> tuple[SettingOut, ...]:
    """Every task in order, then what belongs to the wall itself, a storey at a time.

    Args: brackets: those of the wall itself moved by hand, by level.
    A task that can't be set has a finding "refused" that says why, with place and amount; the others are set without it.
    """
    habits = habits or Habits()
    levels = {level: _Level(wall, level, habits) for level in range(1, len(wall.storeys) + 1)}
    begun = [_tried(wall, task, _begin, wall, levels) for task in tasks]
    done = [
        first if isinstance(first, SettingOut) else _tried(wall, task, levels[task.level].then, *first)
        for task, first in zip(tasks, begun, strict=True)
    ]
    for (_, task), (n, other) in pairwise(_carrying(tasks, done)):
        done[n] = _overlap(task, other, done[n])
    own = [at.own((brackets or {}).get(level, {})) for level, at in levels.items()]
    return (*done, *(entry for entry in own if entry.rows))


def _tried(wall: Wall, task: Task, step: Callable[..., T], *given: Any) -> T | SettingOut:
    """One step of setting out a task; where its values can't be used, the task with the reason as its finding."""
    try:
        return step(task, *given)
    except BadInput as error:
        return _refused(wall, task, error)


def _begin(task: Task, wall: Wall, levels: Mapping[int, "_Level"]) -> Begun:
    """Raises: BadInput for a place that is not on the wall."""
    if task.end_in is None:
        at_on_wall(wall, task.start_in)
    else:
        on_wall(wall, task.start_in, task.end_in)
    wall.at_level(task.level)
    return levels[task.level].first(task)


def _refused(wall: Wall, task: Task, error: BadInput) -> SettingOut:
    finding = Finding("refused", error.field, task.start_in, 0.0, plain(error.message))
    end = task.start_in if task.end_in is None else task.end_in
    return SettingOut(task.tag, task.kind, wall.name, task.level, task.start_in, end, findings=(finding,))


def _carrying(tasks: Sequence[Task], found: Sequence[SettingOut]) -> list[tuple[int, Task]]:
    """Runs of joists, along each level."""
    runs = [(n, t) for n, t in enumerate(tasks) if t.line is not None and t.end_in is not None and found[n].rows]
    return sorted(runs, key=lambda entry: (entry[1].level, entry[1].start_in))


def _overlap(task: Task, other: Task, entry: SettingOut) -> SettingOut:
    """Two runs of joists on one stretch of wall."""
    over = min(task.end_in or 0.0, other.end_in or 0.0) - other.start_in
    if task.level != other.level or over <= EPS:
        return entry
    say = f"{plain(other.tag)} and {plain(task.tag)} both carry joists from {{at}}, over {{amount}} of wall."
    return replace(entry, findings=(*entry.findings, Finding("overlap", "joist", other.start_in, over, say)))


class _Level:
    """One floor level of a wall while it is set out: what later things must keep clear of gathers here."""

    def __init__(self, wall: Wall, level: int, habits: Habits) -> None:
        self.wall, self.level, self.habits = wall, level, habits
        self.pockets: list[Kept] = []
        self.plates: list[Kept] = []

    def first(self, task: Task) -> Begun:
        """Joists, pockets and anchored plates: what has its place before bolts are chosen."""
        end = task.start_in if task.end_in is None else task.end_in
        entry = SettingOut(task.tag, task.kind, self.wall.name, self.level, task.start_in, end, findings=task.notes)
        own: Joists | None = None
        if task.line is not None:
            own = found = joists(task.line, self.wall, task.moved.get("joist"))
            marks, rows = numbered("joist", found.stations), {"joist": found.row}
            entry = replace(
                entry, marks=marks, findings=task.notes + found.findings, rows=rows, headered=found.headered
            )
        if task.pocket is not None:
            beside, clear = tuple(self.pockets), self.habits.pocket_clear_in
            placed = bars.pocket(self.wall, self.level, task.start_in, task.pocket, beside, self.habits, task.moved)
            half = task.pocket.width_in / 2
            self.pockets.append(Kept(f"pocket {task.tag}", (placed[0][0].at_in,), half, clear))
            entry = _with(entry, "pocket", placed)
        return entry, own

    def then(self, task: Task, entry: SettingOut, own: Joists | None) -> SettingOut:
        """What keeps clear of pockets and of each other, bolts last."""
        wall, level, habits, moved = self.wall, self.level, self.habits, task.moved
        run, beside = Piece(entry.start_in, entry.end_in), tuple(self.pockets)
        if own is not None:
            entry = replace(entry, findings=entry.findings + self._joists_in_pockets(own))
        if task.plates is not None and own is not None:
            placed = parts.plates(wall, level, task.plates, own, beside, habits, moved)
            self._keep("a plate", placed, task.plates.half_in)
            entry = _with(entry, "plate", placed)
        if task.anchored is not None:
            placed = parts.anchored(wall, level, run, task.anchored, beside, moved)
            self._keep("a plate", placed, task.anchored.width_in / 2)
            entry = _with(entry, "anchored", placed)
        if task.stirrups is not None:
            entry = _with(entry, "stirrup", parts.stirrups(wall, level, run, task.stirrups, moved))
        if task.bolts is not None:
            beside += tuple(self.plates)
            found = bolted(wall, level, run, task.bolts, own, beside, habits, moved)
            entry = replace(
                entry, marks=entry.marks + found.marks, findings=entry.findings + found.findings,
                rows={**entry.rows, **found.rows}, pieces=found.pieces,
            )  # fmt: skip
        return entry

    def _keep(self, what: str, placed: parts.Placed, half: float) -> None:
        places = tuple(sorted(mark.at_in for mark in placed[0]))
        self.plates.append(Kept(what, places, half, self.habits.pocket_clear_in))

    def _joists_in_pockets(self, own: Joists) -> tuple[Finding, ...]:
        bare = tuple(replace(pocket, clear_in=own.row.rule.end_min_in) for pocket in self.pockets)
        row = Row(own.row.pieces, replace(own.row.rule, keeps=bare))
        return tuple(finding for finding in row.review(own.stations) if finding.key == "clear")

    def own(self, moved: Moved) -> SettingOut:
        """What belongs to the wall: brackets where it steps at this level, bars beside the openings of the storey below."""
        length = self.wall.line.length_ft * 12
        entry = SettingOut("", WALL, self.wall.name, self.level, 0.0, length)
        placed = parts.brackets(self.wall, self.level, self.habits, moved)
        if placed is not None:
            entry = _with(entry, "bracket", placed)
        trim = bars.trim_bars(self.wall, self.level, self.habits)
        return _with(entry, "bar", trim) if trim[0] else entry


def _with(entry: SettingOut, what: str, placed: parts.Placed) -> SettingOut:
    marks, findings, row = placed
    return replace(
        entry, marks=entry.marks + marks, findings=entry.findings + findings, rows={**entry.rows, what: row}
    )  # fmt: skip
