"""The demo job: an invented two-storey house, and an office that takes invented listings."""

import json
from importlib.resources import files

from sqlalchemy import select

from webapp.models import Job, Office
from webapp.services import checks, job_files, offices
from webapp.services.holding import hold
from webapp.store import Database, writing


def text(name: str = "house.json") -> str:
    """The demo job's file, or another of the demo's."""
    return files("webapp").joinpath("demo").joinpath(name).read_text(encoding="utf-8")


def load(db: Database) -> int:
    """Keep the demo job as a new job. Returns: its id."""
    return job_files.take_in(db, text())


def load_if_empty(db: Database) -> int | None:
    """The same where there has never been a job, with what its office takes. Returns: its id, or None."""
    found = job_files.read(text())
    with writing(db) as session:
        row = hold(session, Office, offices.FIRST)  # so that of two servers starting at once one loads it
        if row is None or session.scalar(select(Job.id).limit(1)) is not None:
            return None
        row.standards = row.standards or json.loads(text("office.json"))["standards"]
        job_id = job_files.keep(session, found, row.id)
    checks.refresh(db, job_id)
    return job_id
