"""A job as the engine sees it, read from the database in three queries."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from hashlib import sha256
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine import attachments, fields
from engine import job as typed
from webapp.models import Attachment, FloorLine, Job, Wall, WallType
from webapp.models.base import Kept, now
from webapp.services.clock import today
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused, Stale

# what of an attachment was typed; its kept summary is as long again
ENTRY = (
    Attachment.number, Attachment.kind, Attachment.wall_id, Attachment.level, Attachment.start, Attachment.end,
    Attachment.inputs, Attachment.moved,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Standing:
    """A job with its walls built. Args: walls: by id, in the job's order."""

    job: Job
    types: tuple[WallType, ...]
    walls: Mapping[int, Wall]
    plan: typed.Plan

    def entry(self, row: Any) -> typed.AttachmentEntry:
        """An attachment as the engine's job knows it. Args: row: an `Attachment`, or its columns `ENTRY` alone."""
        wall = self.walls.get(row.wall_id)
        name = wall.name if wall else ""
        moved = {what: tuple(stations) for what, stations in row.moved.items()}
        tag = f"A{row.number}"
        return typed.AttachmentEntry(tag, row.kind, name, row.level, row.start, row.end, row.inputs, moved)

    def line_entry(self, row: FloorLine) -> typed.FloorLineEntry:
        """A floor line as the engine's job knows it."""
        wall = self.walls.get(row.wall_id)
        return typed.FloorLineEntry(row.name, wall.name if wall else "", row.level, row.start, row.end, row.inputs)

    def check(self, row: Attachment) -> typed.Checked:
        """One attachment, checked where it is."""
        return self.plan.check(self.entry(row))


def live_job(session: Session, job_id: int) -> Job:
    """A job that is not put away. Raises: Missing."""
    job = session.get(Job, job_id)
    if job is None or job.deleted_at is not None:
        raise Missing
    return job


def stand(session: Session, job_id: int) -> Standing:
    """A job, its wall types and its walls. Raises: Missing."""
    job = live_job(session, job_id)
    types = session.scalars(
        select(WallType).where(WallType.job_id == job_id, WallType.deleted_at.is_(None)).order_by(WallType.id)
    ).all()
    walls = session.scalars(
        select(Wall).where(Wall.job_id == job_id, Wall.deleted_at.is_(None)).order_by(Wall.sort, Wall.id)
    ).all()
    return Standing(
        job, tuple(types), {wall.id: wall for wall in walls}, typed.plan(as_typed(job, types, walls), today=today())
    )


def as_typed(job: Job, types: Iterable[WallType], walls: Iterable[Wall]) -> typed.Job:
    """Rows as the engine's job, without floor lines and attachments."""
    return typed.Job(
        job.name,
        job.edition,
        job.client,
        job.place,
        job.notes,
        job.site,
        {row.name: row.inputs for row in types},
        tuple(wall_entry(row) for row in walls),
        placing=job.placing,
    )


def wall_entry(row: Wall) -> typed.WallEntry:
    """A wall as the engine's job knows it."""
    brackets = {level: tuple(stations) for level, stations in row.brackets.items()}
    return typed.WallEntry(row.name, row.line, tuple(row.storeys), tuple(row.openings), brackets, row.placing)


def whole(session: Session, standing: Standing, wall_id: int | None = None) -> typed.Job:
    """A job with everything in it, in two queries more. Rows on a wall that is put away stay out.

    Args: wall_id: the only wall whose attachments are asked for; None for all.
    """
    lines = session.scalars(
        select(FloorLine)
        .where(FloorLine.job_id == standing.job.id, FloorLine.deleted_at.is_(None))
        .order_by(FloorLine.id)
    )
    wanted = () if wall_id is None else (Attachment.wall_id == wall_id,)
    rows = session.execute(
        select(*ENTRY)
        .where(Attachment.job_id == standing.job.id, Attachment.deleted_at.is_(None), *wanted)
        .order_by(Attachment.number)
    )
    return replace(
        as_typed(standing.job, standing.types, standing.walls.values()),
        floor_lines=tuple(standing.line_entry(row) for row in lines if row.wall_id in standing.walls),
        attachments=tuple(standing.entry(row) for row in rows),
    )


def attachment_hash(entry: typed.AttachmentEntry, inputs: Any | None) -> str:
    """What an attachment is, in a hash: its kind and place, everything it was checked with, what was moved by hand."""
    texts = fields.write(inputs) if inputs is not None else dict(entry.inputs)
    kind = attachments.KINDS.get(entry.kind)
    days = {spec.name for spec in fields.specs(kind.inputs) if spec.wall == "job.today"} if kind else set()
    own = {name: text for name, text in texts.items() if name not in days}
    what = [entry.kind, entry.wall, entry.place_texts, own, {name: list(at) for name, at in entry.moved.items()}]
    return sha256(json.dumps(what, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()).hexdigest()


def held(session: Session, job_id: int) -> Job:
    """A job with everything in it, held until the transaction ends. Raises: Missing for one that is put away."""
    job = hold(session, Job, job_id)
    if job is None or job.deleted_at is not None:
        raise Missing
    return job


def touch(session: Session, job_id: int) -> Job:
    """`held`, and one change counted. Raises: Missing."""
    job = held(session, job_id)
    job.changes += 1
    return job


def on_wall(session: Session, job_id: int, wall_id: int) -> None:
    """Whether a wall something was found to fit is still there, now that its job is held. Raises: Refused."""
    wall = session.get(Wall, wall_id)
    if wall is None or wall.job_id != job_id or wall.deleted_at is not None:
        raise Refused({"wall": "This wall was deleted meanwhile. Choose a wall of this job."})


def same(row: Kept, version: int | None) -> None:
    """Whether a row is as the form knew it; None for whoever need not know. Raises: Stale."""
    if version is not None and row.version != version:
        raise Stale(row.version)


def stamp(row: Kept, job: Job) -> None:
    """Mark a row as changed now, by the job's count."""
    row.version = job.changes
    row.updated_at = now()
