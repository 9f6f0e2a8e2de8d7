"""Walls of a job. A wall is kept only when its storeys and openings fit together."""

from dataclasses import dataclass

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from engine import fields
from engine.job import Unfit, WallEntry, build_wall
from engine.wall import WallType as Shape
from webapp.models import Attachment, FloorLine, Wall, WallType
from webapp.models.base import now
from webapp.services import checks
from webapp.services.refusals import Missing, Refused
from webapp.services.standing import same, stamp, touch, wall_entry
from webapp.services.wall_types import check_name, taken
from webapp.store import Database, writing


@dataclass(frozen=True, slots=True)
class WallRow:
    """A wall in a list."""

    wall: Wall
    attachments: int


def page(session: Session, job_id: int) -> list[WallRow]:
    """The walls of a job with how many attachments stand on each."""
    standing = (Attachment.wall_id == Wall.id) & Attachment.deleted_at.is_(None)
    query = (
        select(Wall, func.count(Attachment.id))
        .outerjoin(Attachment, standing)
        .where(Wall.job_id == job_id, Wall.deleted_at.is_(None))
        .group_by(Wall.id)
        .order_by(Wall.sort, Wall.id)
    )
    return [WallRow(wall, count) for wall, count in session.execute(query)]


def find(session: Session, job_id: int, wall_id: int) -> Wall:
    """A wall in use. Raises: Missing."""
    row = session.get(Wall, wall_id)
    if row is None or row.job_id != job_id or row.deleted_at is not None:
        raise Missing
    return row


def shapes(session: Session, job_id: int) -> dict[str, Shape]:
    """The wall types in use, as the engine computes with them."""
    rows = session.scalars(select(WallType).where(WallType.job_id == job_id, WallType.deleted_at.is_(None)))
    read = {row.name: fields.read(Shape, row.inputs)[0] for row in rows}
    return {name: shape for name, shape in read.items() if shape is not None}


def messages(entry: WallEntry, types: dict[str, Shape]) -> dict[str, str]:
    """What does not fit, by field as the form names it ("openings-0-start_ft")."""
    errors = check_name(entry.name, "wall")
    try:
        build_wall(entry, types)
    except Unfit as unfit:
        for path, message in unfit.messages.items():
            errors["-".join(str(part) for part in path if part != "line")] = message
    return errors


def save(db: Database, job_id: int, entry: WallEntry, wall_id: int = 0, version: int = 0) -> int:
    """Make a wall (wall_id 0) or change one. Returns: its id. Raises: Refused, Missing, Stale."""
    name = entry.name.strip()
    with writing(db) as session:
        job = touch(session, job_id)
        errors = messages(entry, shapes(session, job_id))
        if taken(session, Wall, job_id, name, wall_id):
            errors["name"] = f"There is a wall {name} already. Choose another name."
        if errors:
            raise Refused(errors)
        if wall_id:
            row = find(session, job_id, wall_id)
            same(row, version)
            checks.forget(session, Attachment.wall_id == wall_id)
        else:
            last = session.scalar(select(func.max(Wall.sort)).where(Wall.job_id == job_id))
            row = Wall(job_id=job_id, sort=(last or 0) + 1)
            session.add(row)
        row.name, row.line = name, dict(entry.line)
        row.storeys, row.openings = [dict(s) for s in entry.storeys], [dict(o) for o in entry.openings]
        stamp(row, job)
        session.flush()
        wall_id = row.id
    checks.refresh(db, job_id)
    return wall_id


def put_away(db: Database, job_id: int, wall_id: int, version: int | None = None) -> str:
    """Delete a wall that carries nothing and along which no floor lies. Returns: its name. Raises: Refused, Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = find(session, job_id, wall_id)
        same(row, version)
        carried = session.scalars(
            select(Attachment.number)
            .where(Attachment.wall_id == wall_id, Attachment.deleted_at.is_(None))
            .order_by(Attachment.number)
        ).all()
        if carried:
            tags = ", ".join(f"A{number}" for number in carried)
            raise Refused({"": f"{row.name} carries {tags}. Move or delete what it carries first."})
        lines = session.scalars(
            select(FloorLine.name).where(FloorLine.wall_id == wall_id, FloorLine.deleted_at.is_(None))
        ).all()
        if lines:
            raise Refused({"": f"{', '.join(lines)} lies along {row.name}. Move or delete that floor line first."})
        row.deleted_at = now()
        stamp(row, job)
        return row.name


def bring_back(db: Database, job_id: int, wall_id: int) -> str:
    """Undo that. Returns: its name. Raises: Refused when its name is taken or it no longer fits; Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = session.get(Wall, wall_id)
        if row is None or row.job_id != job_id:
            raise Missing
        if taken(session, Wall, job_id, row.name, row.id):
            raise Refused({"": f"There is another wall {row.name} by now. Rename that one first."})
        unfit = messages(wall_entry(row), shapes(session, job_id))
        if unfit:
            raise Refused({"": f"{row.name} no longer fits: {next(iter(unfit.values()))}"})
        row.deleted_at = None
        stamp(row, job)
        return row.name
