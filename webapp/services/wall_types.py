"""Wall types of a job. A change reaches every wall that names the type, and every attachment on those walls."""

from collections.abc import Mapping

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine import fields
from engine.wall import WallType as Shape
from webapp.models import Attachment, Job, Wall, WallType
from webapp.models.base import now
from webapp.services import checks
from webapp.services.refusals import Missing, Refused
from webapp.services.standing import same, stamp, touch
from webapp.store import Database, writing

LONGEST_NAME = 80


def find(session: Session, job_id: int, type_id: int) -> WallType:
    """A wall type in use. Raises: Missing."""
    row = session.get(WallType, type_id)
    if row is None or row.job_id != job_id or row.deleted_at is not None:
        raise Missing
    return row


def naming(session: Session, job_id: int, name: str) -> list[Wall]:
    """The walls, put away or not, with a storey of that type."""
    walls = session.scalars(select(Wall).where(Wall.job_id == job_id)).all()
    return [wall for wall in walls if any(storey.get("type") == name for storey in wall.storeys)]


def check_name(name: str, what: str) -> dict[str, str]:
    """Messages about a name, if any."""
    if not name.strip():
        return {"name": f"Enter a name for the {what}."}
    if len(name.strip()) > LONGEST_NAME:
        return {"name": f"Use at most {LONGEST_NAME} characters."}
    return {}


def taken(session: Session, model: type[Wall] | type[WallType], job_id: int, name: str, own_id: int) -> bool:
    """Whether another one in use has that name."""
    query = select(model.id).where(
        model.job_id == job_id, model.name == name, model.deleted_at.is_(None), model.id != own_id
    )
    return session.scalar(query) is not None


def save(db: Database, job_id: int, name: str, inputs: Mapping[str, str], type_id: int = 0, version: int = 0) -> int:
    """Make a wall type (type_id 0) or change one. Returns: its id. Raises: Refused, Missing, Stale."""
    name = name.strip()
    errors = check_name(name, "wall type") | fields.read(Shape, inputs)[1]
    if errors:
        raise Refused(errors)
    with writing(db) as session:
        job = touch(session, job_id)
        if taken(session, WallType, job_id, name, type_id):
            raise Refused({"name": f"There is a wall type {name} already. Choose another name."})
        row = find(session, job_id, type_id) if type_id else WallType(job_id=job_id, name=name)
        if type_id:
            same(row, version)
            _carry(session, job, row.name, name)
        session.add(row)
        row.name, row.inputs = name, dict(inputs)
        stamp(row, job)
        session.flush()
        type_id = row.id
    checks.refresh(db, job_id)
    return type_id


def _carry(session: Session, job: Job, old: str, new: str) -> None:
    """Take a new name to the storeys, and forget the checks of what stands on them."""
    walls = naming(session, job.id, old)
    if old != new:
        for wall in walls:
            wall.storeys = [{**s, "type": new} if s.get("type") == old else s for s in wall.storeys]
    checks.forget(session, Attachment.wall_id.in_([wall.id for wall in walls]))


def put_away(db: Database, job_id: int, type_id: int, version: int | None = None) -> str:
    """Delete a type no wall in use names. Returns: its name. Raises: Refused, Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = find(session, job_id, type_id)
        same(row, version)
        users = [wall.name for wall in naming(session, job_id, row.name) if wall.deleted_at is None]
        if users:
            raise Refused({"": f"{row.name} is used by {', '.join(users)}. Give those walls another type first."})
        row.deleted_at = now()
        stamp(row, job)
        return row.name


def bring_back(db: Database, job_id: int, type_id: int) -> str:
    """Undo that. Returns: its name. Raises: Refused when its name has been taken since; Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = session.get(WallType, type_id)
        if row is None or row.job_id != job_id:
            raise Missing
        if taken(session, WallType, job_id, row.name, row.id):
            raise Refused({"": f"There is another wall type {row.name} by now. Rename that one first."})
        row.deleted_at = None
        stamp(row, job)
        return row.name
