"""Rows held while they are worked on, always in one order, so that no two transactions ever wait for each other.

The order: a job, which stands for everything in it, its revisions and reviews too; a review link; an office, which stands for its
people, its lists and the end of its log; counts of failed tries; a person. SQLite has one lock for all of it, taken as a writing
transaction begins.
"""

from typing import Any, TypeVar

from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session

from webapp.models.base import Base

# FOR NO KEY UPDATE: others may point at a held row meanwhile, or two transactions would wait for each other.
HELD = {"key_share": True}
Row = TypeVar("Row", bound=Base)


def hold(session: Session, model: type[Row], row_id: int) -> Row | None:
    """A row as its last holder left it, held until the transaction ends; None where there is none."""
    return session.get(model, row_id, with_for_update=HELD, populate_existing=True)


def insert(session: Session, model: type[Base]) -> Any:
    """An INSERT that can say what happens where a row is there already, in the words of the database at hand."""
    return (postgresql if session.get_bind().dialect.name == "postgresql" else sqlite).insert(model)
