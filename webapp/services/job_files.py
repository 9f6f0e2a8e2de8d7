"""Jobs in and out as one document."""

from collections.abc import Mapping

from sqlalchemy.orm import Session

from engine import job as typed
from engine import job_file
from webapp.models import Attachment, FloorLine, Job, Wall, WallType
from webapp.services import checks
from webapp.services.offices import FIRST
from webapp.services.standing import stand, whole
from webapp.store import Database, reading, writing


def write(session: Session, job_id: int) -> str:
    """A job as the text of its file. Raises: Missing."""
    return job_file.write(whole(session, stand(session, job_id)))


def text(db: Database, job_id: int) -> str:
    """The same in a transaction of its own."""
    with reading(db) as session:
        return write(session, job_id)


def take_in(db: Database, text: str, office_id: int = FIRST) -> int:
    """Keep the job of a file as a new job of an office. Returns: its id. Raises: BadJobFile; nothing is kept then."""
    found = job_file.read(text)
    with writing(db) as session:
        job = Job(
            name=found.name, edition=found.edition, client=found.client, place=found.place, notes=found.notes,
            site=dict(found.site), placing=dict(found.placing), office_id=office_id, changes=1, version=1,
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
    session.add_all(_floor_line(job_id, walls, entry) for entry in found.floor_lines)
    session.add_all(_attachment(job_id, walls, entry) for entry in found.attachments)


def _wall(job_id: int, sort: int, entry: typed.WallEntry) -> Wall:
    return Wall(
        job_id=job_id, name=entry.name, sort=sort, line=dict(entry.line),
        storeys=[dict(s) for s in entry.storeys], openings=[dict(o) for o in entry.openings],
        brackets=_lists(entry.brackets), placing=dict(entry.placing),
    )  # fmt: skip


def _attachment(job_id: int, walls: Mapping[str, Wall], entry: typed.AttachmentEntry) -> Attachment:
    return Attachment(
        job_id=job_id, wall_id=walls[entry.wall].id, number=int(entry.tag.removeprefix("A")), kind=entry.kind,
        level=entry.level, start=entry.start, end=entry.end, inputs=dict(entry.inputs), moved=_lists(entry.moved),
    )  # fmt: skip


def _floor_line(job_id: int, walls: Mapping[str, Wall], entry: typed.FloorLineEntry) -> FloorLine:
    return FloorLine(
        job_id=job_id, wall_id=walls[entry.wall].id, name=entry.name, level=entry.level, start=entry.start, end=entry.end,
        inputs=dict(entry.inputs),
    )  # fmt: skip


def _lists(moved: typed.Stations) -> dict[str, list[str]]:
    return {what: list(stations) for what, stations in moved.items()}
