"""Jobs in and out as one document."""

import re
from collections.abc import Mapping

from sqlalchemy.orm import Session

from engine import job as typed
from engine import job_file
from engine.job_file import BadJobFile, Problem
from engine.json_lines import Path, line_of
from engine.json_lines import words as words_of
from webapp.models import Attachment, FloorLine, Job, Wall, WallType
from webapp.services import checks
from webapp.services.jobs import LONGEST
from webapp.services.offices import FIRST
from webapp.services.standing import stand, whole
from webapp.services.wall_types import LONGEST_NAME
from webapp.store import Database, reading, writing

NUL = re.compile(r"(?<!\\)(?:\\\\)*\\u0000")  # as JSON writes it; a backslash before it makes it six letters


def write(session: Session, job_id: int) -> str:
    """A job as the text of its file. Raises: Missing."""
    return job_file.write(whole(session, stand(session, job_id)))


def text(db: Database, job_id: int) -> str:
    """The same in a transaction of its own."""
    with reading(db) as session:
        return write(session, job_id)


def take_in(db: Database, text: str, office_id: int = FIRST) -> int:
    """Keep the job of a file as a new job of an office. Returns: its id. Raises: BadJobFile; nothing is kept then."""
    found = read(text)
    with writing(db) as session:
        job_id = keep(session, found, office_id)
    checks.refresh(db, job_id)
    return job_id


def read(text: str) -> typed.Job:
    """The job of a file, all of which can be kept. Raises: BadJobFile."""
    found = job_file.read(text)
    if unkept := (*_unwritable(text), *_too_long(text, found)):
        raise BadJobFile(unkept)
    return found


def keep(session: Session, found: typed.Job, office_id: int) -> int:
    """Make a job of what was read, in the caller's transaction. Returns: its id."""
    job = Job(
        name=found.name, edition=found.edition, client=found.client, place=found.place, notes=found.notes,
        site=dict(found.site), placing=dict(found.placing), office_id=office_id, changes=1, version=1,
    )  # fmt: skip
    session.add(job)
    session.flush()
    _keep_parts(session, job.id, found)
    return job.id


def _unwritable(text: str) -> tuple[Problem, ...]:
    """The one character that no text of a database holds, with where it stands."""
    found = NUL.search(text)
    if found is None:
        return ()
    line = text.count("\n", 0, found.start()) + 1
    return (Problem(line, "(whole file)", "Take out the character \\u0000; it can't be kept."),)


def _too_long(text: str, found: typed.Job) -> tuple[Problem, ...]:
    """Words longer than are kept, with where they stand."""
    words: list[tuple[Path, str, int]] = [((name,), getattr(found, name), most) for name, most in LONGEST.items()]
    words += [(("wall_types", name), name, LONGEST_NAME) for name in found.wall_types]
    words += [(("walls", n, "name"), entry.name, LONGEST_NAME) for n, entry in enumerate(found.walls)]
    words += [(("floor_lines", n, "name"), entry.name, LONGEST_NAME) for n, entry in enumerate(found.floor_lines)]
    return tuple(
        Problem(line_of(text, path), words_of(path), f"Use at most {most} characters.")
        for path, said, most in words
        if len(said) > most
    )


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
