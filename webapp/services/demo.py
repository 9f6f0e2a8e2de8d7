"""The demo job: an invented two-storey house, and an office that takes invented listings."""

import json
from importlib.resources import files

from webapp.services import job_files, jobs, offices
from webapp.store import Database, writing


def text(name: str = "house.json") -> str:
    """The demo job's file, or another of the demo's."""
    return files("webapp").joinpath("demo").joinpath(name).read_text(encoding="utf-8")


def load(db: Database) -> int:
    """Keep the demo job as a new job. Returns: its id."""
    return job_files.take_in(db, text())


def load_if_empty(db: Database) -> int | None:
    """The same where there has never been a job, with what its office takes. Returns: its id, or None."""
    if jobs.any_yet(db):
        return None
    with writing(db) as session:
        row = offices.office(session)
        row.standards = row.standards or json.loads(text("office.json"))["standards"]
    return load(db)
