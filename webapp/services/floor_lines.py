"""Floor lines of a job: kept, copied, put away and brought back; and what carries them, read off the attachments beside them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine import attachments as kinds
from engine import fields
from engine.errors import BadInput
from engine.floor import Floor
from engine.job import FloorLineEntry, Laid
from engine.placed import Place
from engine.setting_out import Joists, joists
from webapp.models import Attachment, FloorLine, Wall
from webapp.models.base import now
from webapp.services.refusals import Missing, Refused
from webapp.services.standing import Standing, on_wall, same, stamp, stand, touch
from webapp.services.wall_types import check_name
from webapp.store import Database, reading, writing

CARRIERS = ("ledge_seat", "sill_plate", "bolted_ledger", "cast_in_plate", "anchored_plate")
EPS = 1e-6
MOST = 500
Run = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Typed:
    """What a form says of a floor line."""

    name: str
    wall_id: int
    level: str
    start: str
    end: str
    inputs: Mapping[str, str]

    def entry(self, standing: Standing) -> FloorLineEntry:
        """As the engine's job knows it. Raises: Refused for a wall that is not there or a level that is no number."""
        wall = standing.walls.get(self.wall_id)
        if wall is None:
            raise Refused({"wall": "Choose a wall of this job."})
        try:
            level = int(self.level)
        except ValueError:
            raise Refused({"level": "Enter a floor level: 1 at the top of the first storey."}) from None
        return FloorLineEntry(self.name.strip(), wall.name, level, self.start, self.end, self.inputs)


@dataclass(frozen=True, slots=True)
class Stretch:
    """Joists beside each other that nothing carries: from the middle of the first to that of the last [in], and how many."""

    start_in: float
    end_in: float
    joists: int


@dataclass(frozen=True, slots=True)
class Line:
    """A floor line in its place.

    Args: laid: its floor and place, or why not. joists: where they bear; None where it can't be used. carriers: the attachments
    beside it. bare: what of it nothing carries.
    """

    row: FloorLine
    wall: str
    laid: Laid
    joists: Joists | None = None
    carriers: tuple[Attachment, ...] = ()
    bare: tuple[Stretch, ...] = ()

    @property
    def count(self) -> int:
        """Joists that bear on the wall."""
        return len(self.joists.stations) if self.joists else 0

    @property
    def carried(self) -> int:
        """How many of them something carries."""
        return self.count - sum(stretch.joists for stretch in self.bare)

    @property
    def why(self) -> str:
        """Why it can't be used; "" where it can."""
        return " ".join(self.laid.refused.values())


def page(session: Session, standing: Standing) -> list[Line]:
    """Every floor line of a job with what carries it: two queries. A line whose wall is put away stays out."""
    rows = session.scalars(
        select(FloorLine)
        .where(FloorLine.job_id == standing.job.id, FloorLine.deleted_at.is_(None))
        .order_by(FloorLine.id)
    ).all()
    beside = carriers(session, standing.job.id) if rows else ()
    found = [in_place(standing, row, beside) for row in rows if row.wall_id in standing.walls]
    order = {wall_id: number for number, wall_id in enumerate(standing.walls)}
    return sorted(found, key=lambda line: (order[line.row.wall_id], line.row.level, line.row.id))


def find(session: Session, job_id: int, line_id: int) -> FloorLine:
    """A floor line in use. Raises: Missing."""
    row = session.get(FloorLine, line_id)
    if row is None or row.job_id != job_id or row.deleted_at is not None:
        raise Missing
    return row


def carriers(session: Session, job_id: int) -> Sequence[Attachment]:
    """A job's attachments of the kinds that can carry joists."""
    return session.scalars(
        select(Attachment)
        .where(Attachment.job_id == job_id, Attachment.deleted_at.is_(None), Attachment.kind.in_(CARRIERS))
        .order_by(Attachment.number)
    ).all()


def in_place(standing: Standing, row: FloorLine, beside: Iterable[Attachment]) -> Line:
    """A floor line, its joists, and which of the attachments carry them."""
    entry = standing.line_entry(row)
    laid = standing.plan.floor_line(entry)
    if laid.floor is None or laid.place is None:
        return Line(row, entry.wall, laid)
    at, wall = laid.place, standing.plan.walls[entry.wall]
    set_out = joists(laid.floor.laid_out(entry.wall, at.level, at.start_ft, at.end_ft), wall)
    end = wall.line.length_ft if at.end_ft is None else at.end_ft
    here = [(a, _run_in(a)) for a in beside if (a.wall_id, a.level) == (row.wall_id, row.level)]
    runs = {a: run for a, run in here if run and run[0] < end * 12 - EPS and run[1] > at.start_ft * 12 + EPS}
    half = laid.floor.width_in / 2
    return Line(row, entry.wall, laid, set_out, tuple(runs), _bare(set_out.stations, list(runs.values()), half))


def _run_in(row: Attachment) -> Run | None:
    """From where to where an attachment carries joists [in]; None where it carries none, or its place can't be read."""
    place, _ = fields.read(Place, {"level": str(row.level), "start_ft": row.start, "end_ft": row.end})
    if place is None or (row.kind == "anchored_plate" and row.inputs.get("carried", "beam") == "beam"):
        return None
    if place.end_ft is not None:
        return place.start_ft * 12, place.end_ft * 12
    half = _width_in(row) / 2
    return place.start_ft * 12 - half, place.start_ft * 12 + half


def _width_in(row: Attachment) -> float:
    kind = kinds.kind(row.kind)
    if not kind.width:
        return 0.0
    spec = fields.spec(kind.inputs, kind.width)
    try:
        width = fields.read_one(spec, row.inputs.get(spec.name, fields.write_one(spec, spec.default)))
    except BadInput:
        return 0.0
    return float(width or 0.0)


def _bare(stations: Sequence[float], runs: Sequence[Run], half_in: float) -> tuple[Stretch, ...]:
    """Joists that stand on none of the runs, those beside each other together. Args: half_in: of a joist's width."""
    found: list[list[float]] = [[]]
    for at in stations:
        if any(start - half_in - EPS <= at <= end + half_in + EPS for start, end in runs):
            found.append([])
        else:
            found[-1].append(at)
    return tuple(Stretch(group[0], group[-1], len(group)) for group in found if group)


def save(db: Database, job_id: int, typed: Typed, line_id: int = 0, version: int = 0) -> int:
    """Make a floor line (line_id 0) or change one. Returns: its id. Raises: Refused, Missing, Stale."""
    with reading(db) as session:
        standing = stand(session, job_id)
    entry = usable(standing, typed)
    with writing(db) as session:
        job = touch(session, job_id)
        on_wall(session, job_id, typed.wall_id)
        _free_name(session, job_id, entry.name, line_id)
        if line_id:
            row = find(session, job_id, line_id)
            same(row, version)
        else:
            row = FloorLine(job_id=job_id)
            session.add(row)
        row.name, row.wall_id, row.level = entry.name, typed.wall_id, entry.level
        row.start, row.end, row.inputs = entry.start, entry.end, dict(entry.inputs)
        stamp(row, job)
        session.flush()
        return row.id


def usable(standing: Standing, typed: Typed) -> FloorLineEntry:
    """What was typed, as the engine's job takes it. Raises: Refused with every message."""
    errors = check_name(typed.name, "floor line")
    try:
        entry = typed.entry(standing)
        errors |= standing.plan.floor_line(entry).refused
    except Refused as refused:
        raise Refused(errors | refused.errors | fields.read(Floor, typed.inputs)[1]) from None
    if errors:
        raise Refused(errors)
    return entry


def _free_name(session: Session, job_id: int, name: str, own_id: int) -> None:
    """Raises: Refused for a name another line has, or where there are too many lines."""
    names = _names(session, job_id, own_id)
    if name in names:
        raise Refused({"name": f"There is a floor line {name} already. Choose another name."})
    if not own_id and len(names) >= MOST:
        raise Refused({"": f"A job holds at most {MOST} floor lines."})


def _names(session: Session, job_id: int, without: int = 0) -> set[str]:
    query = select(FloorLine.name).where(
        FloorLine.job_id == job_id, FloorLine.deleted_at.is_(None), FloorLine.id != without
    )
    return set(session.scalars(query))


def new_name(session: Session, job_id: int) -> str:
    """A name no line has yet: F1, F2 and so on."""
    names = _names(session, job_id)
    return next(name for n in range(1, len(names) + 2) if (name := f"F{n}") not in names)


def copy(db: Database, job_id: int, line_id: int, wall_ids: Iterable[int]) -> list[str]:
    """Put the same line on other walls; a run is cut to the length of its wall.

    Returns: the new names. Raises: Refused naming the walls it can't stand on (nothing is copied then); Missing.
    """
    with reading(db) as session:
        standing, source = stand(session, job_id), find(session, job_id, line_id)
        names = _names(session, job_id)
    copies = _copies(standing, source, wall_ids, names)
    with writing(db) as session:
        job = touch(session, job_id)
        for typed in copies:
            on_wall(session, job_id, typed.wall_id)
            _free_name(session, job_id, typed.name, 0)
            row = FloorLine(
                job_id=job_id, name=typed.name, wall_id=typed.wall_id, level=source.level, start=typed.start,
                end=typed.end, inputs=dict(typed.inputs),
            )  # fmt: skip
            session.add(row)
            stamp(row, job)
            session.flush()
    return [typed.name for typed in copies]


def _copies(standing: Standing, source: FloorLine, wall_ids: Iterable[int], names: set[str]) -> list[Typed]:
    copies: list[Typed] = []
    errors: dict[str, str] = {}
    for wall_id in wall_ids:
        wall = standing.walls.get(wall_id)
        base = f"{source.name}, {wall.name}" if wall else source.name
        taken = names | {typed.name for typed in copies}
        name = next(text for n in range(1, len(taken) + 2) if (text := base if n == 1 else f"{base} {n}") not in taken)
        typed = Typed(name, wall_id, str(source.level), source.start, source.end, source.inputs)
        try:
            usable(standing, _cut(standing, typed))
            copies.append(_cut(standing, typed))
        except Refused as refused:
            errors[f"wall-{wall_id}"] = f"{wall.name if wall else ''}: {next(iter(refused.errors.values()))}"
    if errors or not copies:
        raise Refused(errors or {"": "Choose at least one wall."})
    return copies


def _cut(standing: Standing, typed: Typed) -> Typed:
    """To the length of its wall, where it runs past the end."""
    wall = standing.walls.get(typed.wall_id)
    if wall is None:
        return typed
    refused = standing.plan.floor_line(typed.entry(standing)).refused
    if "end_ft" in refused and "start_ft" not in refused:
        return replace(typed, end=wall.line["length_ft"])
    return typed


def put_away(db: Database, job_id: int, line_id: int, version: int | None = None) -> str:
    """Delete a floor line so that it can be brought back; what carries it stays. Returns: its name. Raises: Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = find(session, job_id, line_id)
        same(row, version)
        row.deleted_at = now()
        stamp(row, job)
        return row.name


def bring_back(db: Database, job_id: int, line_id: int) -> str:
    """Undo that. Returns: its name. Raises: Refused while its wall is put away or its name is taken; Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = session.get(FloorLine, line_id)
        if row is None or row.job_id != job_id:
            raise Missing
        wall = session.get_one(Wall, row.wall_id)
        if wall.deleted_at is not None:
            raise Refused({"": f"{row.name} lay along wall {wall.name}, which is deleted. Bring that wall back first."})
        if row.name in _names(session, job_id, row.id):
            raise Refused({"": f"There is another floor line {row.name} by now. Rename that one first."})
        row.deleted_at = None
        stamp(row, job)
        return row.name
