"""Jobs in and out as one document."""

from collections.abc import Mapping
from dataclasses import replace

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine import job as typed
from engine import job_file
from webapp.models import Attachment, Job, Wall, WallType
from webapp.services import checks
from webapp.services.standing import as_typed, stand
from webapp.store import Database, reading, writing


def write(session: Session, job_id: int) -> str:
    """A job as the text of its file. Raises: Missing."""
    standing = stand(session, job_id)
    rows = session.scalars(
        select(Attachment)
        .where(Attachment.job_id == job_id, Attachment.deleted_at.is_(None))
        .order_by(Attachment.number)
    )
    bare = as_typed(standing.job, standing.types, standing.walls.values())
    entries = tuple(standing.entry(row) for row in rows)
    return job_file.write(replace(bare, attachments=entries))


def text(db: Database, job_id: int) -> str:
    """The same in a transaction of its own."""
    with reading(db) as session:
        return write(session, job_id)


def take_in(db: Database, text: str) -> int:
    """Keep the job of a file as a new job. Returns: its id. Raises: BadJobFile; nothing is kept then."""
    found = job_file.read(text)
    with writing(db) as session:
        job = Job(
            name=found.name, edition=found.edition, client=found.client, place=found.place, notes=found.notes,
            site=dict(found.site), changes=1, version=1,
        )  # fmt: skip
        session.add(job)
        session.flush()
        _keep_parts(session, job.id, found)
        job_id = job.id
    checks.refresh(db, job_id)
    return job_id


def _keep_parts(session: Session, job_id: int, found: typed.Job) -> None:
    session.add_all(WallType(job_id=job_id, name=n, inputs=dict(texts)) for n, texts in found.wall_types.items())
    walls = {entry.name: _wall(job_id, number, entry) for number, entry in enumerate(found.walls, 1)}
    session.add_all(walls.values())
    session.flush()
    session.add_all(_attachment(job_id, walls, entry) for entry in found.attachments)


def _wall(job_id: int, sort: int, entry: typed.WallEntry) -> Wall:
    return Wall(
        job_id=job_id, name=entry.name, sort=sort, line=dict(entry.line),
        storeys=[dict(s) for s in entry.storeys], openings=[dict(o) for o in entry.openings],
    )  # fmt: skip


def _attachment(job_id: int, walls: Mapping[str, Wall], entry: typed.AttachmentEntry) -> Attachment:
    return Attachment(
        job_id=job_id, wall_id=walls[entry.wall].id, number=int(entry.tag.removeprefix("A")), kind=entry.kind,
        level=entry.level, start=entry.start, end=entry.end, inputs=dict(entry.inputs),
    )  # fmt: skip
