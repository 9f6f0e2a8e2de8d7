"""Jobs: listed, made, changed, put away and brought back."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import case, func, or_, select
from sqlalchemy.orm import Session

from engine import fields
from engine.editions import EDITIONS
from engine.placed import Site
from webapp.models import Attachment, Job, Wall
from webapp.models.base import now
from webapp.services import checks
from webapp.services.holding import hold
from webapp.services.listing import Part, Wanted, holds
from webapp.services.refusals import Missing, Refused
from webapp.services.standing import live_job, same, stamp, touch
from webapp.store import Database, reading, writing

LONGEST = {"name": 120, "client": 120, "place": 200, "notes": 5000}


@dataclass(frozen=True, slots=True)
class JobRow:
    """A job in a list, with how its attachments stand."""

    id: int
    name: str
    client: str
    place: str
    edition: str
    updated_at: datetime
    walls: int
    attachments: int
    flags: int
    refers: int

    @property
    def verdict(self) -> str:
        """The first thing to know of it."""
        if self.refers:
            return "refer"
        if self.flags:
            return "flag"
        return "pass" if self.attachments else "not checked"

    @property
    def stand(self) -> str:
        """How its attachments stand, in words."""
        if not self.attachments:
            return "nothing attached yet"
        parts = [f"{self.flags} flag" if self.flags else "", f"{self.refers} refer" if self.refers else ""]
        return ", ".join(part for part in parts if part) or "all pass"


def known(session: Session, job_id: int) -> Job | None:
    """A job, put away or not; None where there is no such job."""
    return session.get(Job, job_id)


def page(session: Session, office_id: int, wanted: Wanted) -> Part[JobRow]:
    """One page of an office's jobs, last changed first."""
    found: list[Any] = [Job.deleted_at.is_(None), Job.office_id == office_id]
    if wanted.q:
        found.append(or_(*(holds(column, wanted.q) for column in (Job.name, Job.client, Job.place))))
    total = session.scalar(select(func.count()).select_from(Job).where(*found)) or 0
    mine = (Attachment.job_id == Job.id) & Attachment.deleted_at.is_(None)
    walls = (
        select(func.count()).select_from(Wall).where(Wall.job_id == Job.id, Wall.deleted_at.is_(None)).scalar_subquery()
    )
    query = (
        select(
            Job.id, Job.name, Job.client, Job.place, Job.edition, Job.updated_at, walls,
            func.count(Attachment.id),
            func.count(case((Attachment.verdict == "flag", 1))),
            func.count(case((Attachment.verdict == "refer", 1))),
        )
        .outerjoin(Attachment, mine)
        .where(*found)
        .group_by(Job.id)
        .order_by(Job.name if wanted.sort == "name" else Job.updated_at.desc(), Job.id.desc())
        .limit(wanted.size)
        .offset(wanted.offset)
    )  # fmt: skip
    return Part(tuple(JobRow(*row) for row in session.execute(query)), total, wanted, {})


def get(session: Session, job_id: int) -> Job:
    """A job. Raises: Missing."""
    return live_job(session, job_id)


def _checked(texts: Mapping[str, str], site: Mapping[str, str]) -> dict[str, str]:
    errors = {}
    if not texts.get("name", "").strip():
        errors["name"] = "Enter a name, such as the house and the lot."
    for name, longest in LONGEST.items():
        if len(texts.get(name, "")) > longest:
            errors[name] = f"Use at most {longest} characters."
    if texts.get("edition") not in EDITIONS:
        errors["edition"] = f"Choose one of: {', '.join(EDITIONS)}."
    return errors | fields.read(Site, site)[1]


def save(
    db: Database, office_id: int, texts: Mapping[str, str], site: Mapping[str, str], job_id: int = 0, version: int = 0
) -> int:
    """Make a job (job_id 0) of an office, or change one.

    Args: texts: name, client, place, notes, edition. site: texts of `Site`. version: what the form was made from.
    Returns: its id. Raises: Refused, Missing, Stale.
    """
    errors = _checked(texts, site)
    if errors:
        raise Refused(errors)
    with writing(db) as session:
        if job_id:
            job = touch(session, job_id)
            same(job, version)
        else:
            job = Job(changes=1, office_id=office_id)
            session.add(job)
        if job_id and job.site != dict(site):
            checks.forget(session, Attachment.job_id == job_id)
        for name in (*LONGEST, "edition"):
            setattr(job, name, texts.get(name, "").strip())
        job.site = dict(site)
        stamp(job, job)
        session.flush()
        job_id = job.id
    checks.refresh(db, job_id)
    return job_id


def put_away(db: Database, job_id: int) -> str:
    """Delete a job so that it can be brought back. Returns: its name. Raises: Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        job.deleted_at = now()
        return job.name


def bring_back(db: Database, job_id: int) -> str:
    """Undo that. Returns: its name. Raises: Missing."""
    with writing(db) as session:
        job = hold(session, Job, job_id)
        if job is None:
            raise Missing
        job.deleted_at = None
        return job.name


def any_yet(db: Database) -> bool:
    """Whether there is any job, put away or not."""
    with reading(db) as session:
        return session.scalar(select(Job.id).limit(1)) is not None


def first_id(session: Session, office_id: int) -> int | None:
    """The office's oldest job still there: on a new installation, the demo."""
    mine = (Job.office_id == office_id) & Job.deleted_at.is_(None)
    return session.scalar(select(Job.id).where(mine).order_by(Job.id).limit(1))
