"""Rows of a spreadsheet kept in a job: all of them in one transaction, or none."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from engine.job import AttachmentEntry, FloorLineEntry, WallEntry
from engine.placed import Texts
from webapp.models import Attachment, FloorLine, Job, Wall
from webapp.models.base import now
from webapp.services import checks
from webapp.services.attachments import MOST
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused
from webapp.services.standing import Standing, stamp, stand, touch, wall_entry
from webapp.services.wall_types import taken
from webapp.services.walls import messages, shapes
from webapp.store import Database, reading, writing

TRIES = 5
Made = Wall | FloorLine | Attachment
MODELS: Mapping[str, type[Wall] | type[FloorLine] | type[Attachment]] = {
    "walls": Wall, "floor_lines": FloorLine, "attachments": Attachment,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class State:
    """A job as an import finds it. Args: lines: names of its floor lines. attachments: how many it holds."""

    standing: Standing
    lines: frozenset[str]
    attachments: int


@dataclass(frozen=True, slots=True)
class Batch:
    """What a sheet makes. Args: openings: texts of openings to add, by the wall's name."""

    walls: tuple[WallEntry, ...] = ()
    openings: Mapping[str, Sequence[Texts]] = field(default_factory=dict)
    floor_lines: tuple[FloorLineEntry, ...] = ()
    attachments: tuple[AttachmentEntry, ...] = ()

    @property
    def count(self) -> int:
        """How many things it makes."""
        openings = sum(len(rows) for rows in self.openings.values())
        return len(self.walls) + openings + len(self.floor_lines) + len(self.attachments)


def state(db: Database, job_id: int) -> State:
    """The job as it is now. Raises: Missing."""
    with reading(db) as session:
        standing = stand(session, job_id)
        lines = select(FloorLine.name).where(FloorLine.job_id == job_id, FloorLine.deleted_at.is_(None))
        attached = select(func.count()).where(Attachment.job_id == job_id, Attachment.deleted_at.is_(None))
        return State(standing, frozenset(session.scalars(lines)), session.scalar(attached) or 0)


def keep(db: Database, job_id: int, read: Callable[[State], Batch]) -> tuple[int, int]:
    """Keep a sheet's rows, read once more as the job is now: the lock is held only while nothing has changed since.

    Args: read: raises Refused when a row does not hold. Returns: how many were made, and the job's count of changes that marks
    them. Raises: Refused, Missing; nothing is kept then.
    """
    for _ in range(TRIES):
        found = state(db, job_id)
        batch = read(found)
        with writing(db) as session:
            job = hold(session, Job, job_id)
            if job is None or job.changes != found.standing.job.changes:
                continue
            job = touch(session, job_id)
            _write(session, job, found, batch)
            change = job.changes
        checks.refresh(db, job_id)
        return batch.count, change
    raise Refused({"": "The job is being changed by others just now. Import again in a moment; nothing was kept."})


def _write(session: Session, job: Job, found: State, batch: Batch) -> None:
    if found.attachments + len(batch.attachments) > MOST:
        raise Refused({"": f"A job holds at most {MOST:,} attachments; this one has {found.attachments:,}."})
    ids = {wall.name: wall_id for wall_id, wall in found.standing.walls.items()}
    made: list[Made] = [*_walls(session, job.id, batch.walls)]
    made += [_floor_line(job.id, ids[entry.wall], entry) for entry in batch.floor_lines]
    first = (session.scalar(select(func.max(Attachment.number)).where(Attachment.job_id == job.id)) or 0) + 1
    made += [_attachment(job.id, ids[e.wall], number, e) for number, e in enumerate(batch.attachments, first)]
    for row in made:
        stamp(row, job)
        row.created_at = row.updated_at
    session.add_all(made)
    for name, openings in batch.openings.items():
        wall = session.get_one(Wall, ids[name])
        wall.openings = [*wall.openings, *(dict(texts) for texts in openings)]
        checks.forget(session, Attachment.wall_id == wall.id)
        stamp(wall, job)


def _walls(session: Session, job_id: int, entries: Sequence[WallEntry]) -> list[Wall]:
    last = session.scalar(select(func.max(Wall.sort)).where(Wall.job_id == job_id)) or 0
    return [
        Wall(
            job_id=job_id, name=e.name, sort=sort, line=dict(e.line), storeys=[dict(s) for s in e.storeys], openings=[]
        )
        for sort, e in enumerate(entries, last + 1)
    ]


def _floor_line(job_id: int, wall_id: int, entry: FloorLineEntry) -> FloorLine:
    return FloorLine(
        job_id=job_id, wall_id=wall_id, name=entry.name, level=entry.level, start=entry.start, end=entry.end,
        inputs=dict(entry.inputs),
    )  # fmt: skip


def _attachment(job_id: int, wall_id: int, number: int, entry: AttachmentEntry) -> Attachment:
    return Attachment(
        job_id=job_id, wall_id=wall_id, number=number, kind=entry.kind, level=entry.level, start=entry.start,
        end=entry.end, inputs=dict(entry.inputs),
    )  # fmt: skip


def _marked(what: str, job_id: int, change: int) -> Any:
    """The rows a change left as they are. Raises: Missing for what no import can take back."""
    model = MODELS.get(what)
    if model is None:
        raise Missing
    return select(model).where(model.job_id == job_id, model.version == change)


def put_away(db: Database, job_id: int, what: str, change: int) -> tuple[int, int]:
    """Take an import back: put away what it made and nobody has changed since.

    Returns: how many, and the change that marks them now. Raises: Refused while a wall of it carries something; Missing.
    """
    query = _marked(what, job_id, change)
    with writing(db) as session:
        job = touch(session, job_id)
        rows = [r for r in session.scalars(query) if r.deleted_at is None and r.created_at == r.updated_at]
        if not rows:
            raise Refused({"": "Nothing is left of that import to put away."})
        if what == "walls":
            _carry_nothing(session, rows)
        for row in rows:
            row.deleted_at = now()
            stamp(row, job)
        return len(rows), job.changes


def _carry_nothing(session: Session, walls: Sequence[Wall]) -> None:
    names = {wall.id: wall.name for wall in walls}
    for model in (Attachment, FloorLine):
        carrying = session.scalars(select(model.wall_id).where(model.wall_id.in_(names), model.deleted_at.is_(None)))
        if carried := sorted({names[wall_id] for wall_id in carrying}):
            raise Refused({"": f"{', '.join(carried[:5])} carry something by now. Move or delete that first."})


def bring_back(db: Database, job_id: int, what: str, change: int) -> int:
    """Undo that. Returns: how many. Raises: Refused when one of them no longer fits, and none is back then; Missing."""
    query = _marked(what, job_id, change)
    with writing(db) as session:
        job = touch(session, job_id)
        rows = [row for row in session.scalars(query) if row.deleted_at is not None]
        for row in rows:
            _fits_again(session, row)
            row.deleted_at = None
            if isinstance(row, Attachment):
                row.checked_engine = ""
            stamp(row, job)
    checks.refresh(db, job_id)
    return len(rows)


def _fits_again(session: Session, row: Made) -> None:
    if not isinstance(row, Wall):
        wall = session.get_one(Wall, row.wall_id)
        if wall.deleted_at is not None:
            raise Refused({"": f"Wall {wall.name} is deleted. Bring that wall back first."})
        return
    if taken(session, Wall, row.job_id, row.name, row.id):
        raise Refused({"": f"There is another wall {row.name} by now. Rename that one first."})
    unfit = messages(wall_entry(row), shapes(session, row.job_id))
    if unfit:
        raise Refused({"": f"{row.name} no longer fits: {next(iter(unfit.values()))}"})
