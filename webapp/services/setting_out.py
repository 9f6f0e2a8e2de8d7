"""A job set out: what goes where along its walls, as calculated or as moved by hand, held against the same rules either way."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from sqlalchemy.orm import Session

from engine.job import AttachmentEntry, stations_in
from engine.set_job import Asked, asked, set_wall
from engine.setting_out import WALL, WORDS, Finding, SettingOut
from engine.setting_out.rules import EPS
from engine.wall import Wall as Built
from webapp.models import Attachment, Wall
from webapp.services import attachments, offices, walls
from webapp.services.kept import Kept, resting_on
from webapp.services.refusals import Missing, Refused
from webapp.services.standing import Standing, same, stamp, stand, touch, whole
from webapp.services.stations import text_of, wrong, wrong_count
from webapp.store import Database, reading, writing

# What can be moved by hand, in the order a crew cares for it. Extra bars follow their openings and pockets.
MOVABLE = ("anchor", "plate", "anchored", "pocket", "stirrup", "tie", "joist")
BRACKET = "bracket"
DIFFERS = (
    "spacing differs",
    "end checked",
    "bars cut",
    "place differs",
    "gable width",
)  # findings that what is set out is not what was checked
Moved = Mapping[str, tuple[float, ...]]
_SET = Kept[tuple[SettingOut, ...]](64)


@dataclass(frozen=True, slots=True)
class Spot:
    """One kind of thing to set: of an attachment, or of the wall itself at a floor level.

    Args: mark: the attachment's tag, or "L1" for the wall's own at floor level 1. what: a key of `WORDS`.
    """

    mark: str
    what: str

    @property
    def level(self) -> int:
        """The floor level of the wall's own; 0 for an attachment's."""
        number = self.mark.removeprefix("L")
        return int(number) if self.mark.startswith("L") and number.isdecimal() and len(number) < 3 else 0


def mark_of(entry: SettingOut) -> str:
    """Its tag, or the floor level of what belongs to the wall itself."""
    return f"L{entry.level}" if entry.kind == WALL else entry.tag


def movable(entry: SettingOut) -> tuple[str, ...]:
    """What of it can be moved by hand."""
    known = (BRACKET,) if entry.kind == WALL else MOVABLE
    return tuple(what for what in known if what in entry.rows)


def stations_of(entry: SettingOut, what: str) -> tuple[float, ...]:
    """Everything a hand can move of one kind, ascending [in]; joists headed off at an opening are among them."""
    return tuple(sorted((*entry.stations(what), *(entry.headered if what == "joist" else ()))))


@dataclass(frozen=True, slots=True)
class WallOut:
    """A wall with everything set out on it; `why` says why it can't be."""

    row: Wall
    built: Built | None
    entries: tuple[SettingOut, ...]
    why: str = ""

    @property
    def against(self) -> int:
        """How much stands against it."""
        return sum(not finding.note for entry in self.entries for finding in entry.findings)

    @property
    def length_in(self) -> float:
        """Its length; 0 while it can't be built."""
        return self.built.line.length_ft * 12 if self.built else 0.0

    @property
    def length_ft(self) -> float:
        """The same [ft]."""
        return self.length_in / 12

    def entry(self, mark: str) -> SettingOut:
        """One attachment, or the wall's own at a level. Raises: Missing."""
        for entry in self.entries:
            if mark_of(entry) == mark:
                return entry
        raise Missing


def _beside_its_check(entry: SettingOut) -> SettingOut:
    """An attachment at a point with a note where it is set elsewhere than it was checked."""
    points = [mark for mark in entry.marks if mark.what in MOVABLE]
    if entry.kind == WALL or entry.end_in > entry.start_in or len(points) != 1:
        return entry
    by = abs(points[0].at_in - entry.start_in)
    if by < EPS:
        return entry
    say = (
        "It is set at {at}, {amount} from {own} where it was checked. Move it there on its own page to check it there."
    )
    facts = {"own": (entry.start_in, "station")}
    finding = Finding("place differs", points[0].what, points[0].at_in, by, say, facts, note=True)
    return replace(entry, findings=(*entry.findings, finding))


@dataclass(frozen=True, slots=True)
class Layout:
    """A job ready to be set out. Args: entries: its attachments as typed. asked: what is moved, and how the office sets out."""

    standing: Standing
    entries: tuple[AttachmentEntry, ...]
    asked: Asked

    def wall(self, wall_id: int) -> WallOut:
        """One wall. Raises: Missing."""
        row = self.standing.walls.get(wall_id)
        if row is None:
            raise Missing
        built = self.standing.plan.walls.get(row.name)
        if built is None:
            return WallOut(row, None, (), self.standing.plan.unfit.get(row.name, ""))
        here = [entry for entry in self.entries if entry.wall == row.name]
        key = resting_on(row.name, self.standing.plan, here, self.asked)
        return WallOut(row, built, _SET.of(key, lambda: self._set(row.name)))

    def _set(self, name: str) -> tuple[SettingOut, ...]:
        entries = set_wall(self.standing.plan, name, self.entries, self.asked)
        return tuple(_beside_its_check(entry) for entry in entries)

    def walls(self) -> tuple[WallOut, ...]:
        """Every wall, in the job's order."""
        return tuple(self.wall(wall_id) for wall_id in self.standing.walls)

    def moved(self, wall_id: int, spot: Spot) -> tuple[float, ...] | None:
        """Stations moved by hand as kept; None where they are the calculated ones."""
        return self._moved(self.standing.walls[wall_id].name, spot).get(spot.what)

    def _moved(self, wall: str, spot: Spot) -> Moved:
        return self.asked.brackets.get((wall, spot.level), {}) if spot.level else self.asked.moved.get(spot.mark, {})

    def preview(self, wall_id: int, spot: Spot, stations: Sequence[float]) -> WallOut:
        """A wall with other stations at one spot, checked and not kept. Raises: Missing."""
        row = self.standing.walls.get(wall_id)
        if row is None:
            raise Missing
        moved = {**self._moved(row.name, spot), spot.what: tuple(sorted(stations))}
        if spot.level:
            tried = replace(self.asked, brackets={**self.asked.brackets, (row.name, spot.level): moved})
        else:
            tried = replace(self.asked, moved={**self.asked.moved, spot.mark: moved})
        return replace(self, asked=tried).wall(wall_id)


def of_job(session: Session, job_id: int) -> Layout:
    """A job as it is to be set out. Raises: Missing."""
    return of_standing(session, stand(session, job_id))


def of_standing(session: Session, standing: Standing, wall_id: int | None = None) -> Layout:
    """The same of a job already read. Args: wall_id: the only wall it is asked for; None for all."""
    job = whole(session, standing, wall_id)
    habits = offices.habits(offices.office(session, standing.job.office_id))
    return Layout(standing, job.attachments, asked(job, standing.plan, habits))


def of_wall(session: Session, job_id: int, wall_id: int) -> WallOut:
    """One wall of a job set out. Raises: Missing."""
    return of_standing(session, stand(session, job_id), wall_id).wall(wall_id)


def of_attachment(session: Session, standing: Standing, row: Attachment) -> SettingOut | None:
    """One attachment set out among all on its wall; None where its wall can't be built."""
    if row.wall_id not in standing.walls:
        return None
    entries = of_standing(session, standing, row.wall_id).wall(row.wall_id).entries
    return next((entry for entry in entries if entry.tag == row.tag), None)


def counts(entry: SettingOut) -> str:
    """How many of what it sets: "30 joists, 14 anchor bolts"."""
    kinds = dict.fromkeys(mark.what for mark in entry.marks)
    return ", ".join(f"{entry.count(what)} {WORDS[what][entry.count(what) != 1]}" for what in kinds)


@dataclass(frozen=True, slots=True)
class Before:
    """How a spot stood before a change, and the version that change made: enough to take it back."""

    version: int
    stations: tuple[float, ...] | None


def version_of(session: Session, job_id: int, wall_id: int, spot: Spot) -> int:
    """The state of the row that keeps a spot's stations. Raises: Missing."""
    return _row(session, job_id, wall_id, spot).version


def move(db: Database, job_id: int, wall_id: int, spot: Spot, stations: Sequence[float], version: int) -> Before:
    """Keep stations moved by hand; what stands against them is said, not refused.

    Args: stations [in], in any order. Raises: Refused (by field "at-<place in the list>"), Missing, Stale.
    """
    with reading(db) as session:
        out = of_wall(session, job_id, wall_id)
    if spot.what not in movable(out.entry(spot.mark)):
        raise Missing
    if count := wrong_count(spot.what, len(stations)):
        raise Refused({"": count})
    if found := wrong(stations, out.row.name, out.length_in):
        raise Refused({f"at-{n}": message for n, message in found.items()})
    return _put(db, job_id, wall_id, spot, [text_of(at) for at in sorted(stations)], version)


def reset(db: Database, job_id: int, wall_id: int, spot: Spot, version: int) -> Before:
    """Go back to the calculated stations. Raises: Missing, Stale."""
    return _put(db, job_id, wall_id, spot, None, version)


def _row(session: Session, job_id: int, wall_id: int, spot: Spot) -> Attachment | Wall:
    if spot.level:
        return walls.find(session, job_id, wall_id)
    row = attachments.find(session, job_id, spot.mark)
    if row.wall_id != wall_id:
        raise Missing
    return row


def _put(db: Database, job_id: int, wall_id: int, spot: Spot, texts: list[str] | None, version: int) -> Before:
    with writing(db) as session:
        job = touch(session, job_id)
        row = _row(session, job_id, wall_id, spot)
        same(row, version)
        key = str(spot.level) if spot.level else spot.what
        kept = row.brackets if isinstance(row, Wall) else row.moved
        before = kept.get(key)
        others = {name: stations for name, stations in kept.items() if name != key}
        changed = others if texts is None else {**others, key: texts}
        if isinstance(row, Wall):
            row.brackets = changed
        else:
            row.moved = changed
        stamp(row, job)
        return Before(row.version, None if before is None else stations_in(before))
