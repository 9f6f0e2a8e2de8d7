"""The demo job: an invented two-storey house."""

from importlib.resources import files

from webapp.services import job_files, jobs
from webapp.store import Database


def text() -> str:
    """The demo job's file."""
    return files("webapp").joinpath("demo").joinpath("house.json").read_text(encoding="utf-8")


def load(db: Database) -> int:
    """Keep the demo job as a new job. Returns: its id."""
    return job_files.take_in(db, text())


def load_if_empty(db: Database) -> int | None:
    """The same where there has never been a job. Returns: its id, or None."""
    return None if jobs.any_yet(db) else load(db)
