"""The office: what it types once for all its jobs."""

from collections.abc import Mapping
from typing import Any

from sqlalchemy.orm import Session

from engine import fields
from engine.errors import BadInput
from engine.setting_out import Habits
from webapp.models import Office
from webapp.models.base import now
from webapp.services import audit
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused, Stale
from webapp.services.sign_in import Seen
from webapp.store import Database, writing

FIRST = 1
# Of whom a second factor can be demanded, by the keys of `permissions.SECOND_FOR`.
DEMANDS: Mapping[str, str] = {
    "": "nobody",
    "approvers": "whoever may approve or administer",
    "everybody": "everybody",
}


def office(session: Session, office_id: int = FIRST) -> Office:
    """An office."""
    return session.get_one(Office, office_id)


def habits(row: Office) -> Habits:
    """How it sets out; a text that can no longer be used takes its default."""
    return usable(Habits, row.habits)


def usable(kind: type[fields.T], texts: Mapping[str, str]) -> fields.T:
    """Texts as inputs, each that can't be used at its default. Args: kind: every field of which has one."""
    _, errors = fields.read(kind, texts)
    found, _ = fields.read(kind, {name: text for name, text in texts.items() if name not in errors})
    if found is None:
        raise BadInput("", f"{kind.__name__} can't be read.")
    return found


def save(db: Database, version: int, changes: Mapping[str, Any], office_id: int = FIRST) -> None:
    """Keep columns of an office, each checked by its own page before. Raises: Stale, Missing, Refused for an unknown column."""
    with writing(db) as session:
        row = _held(session, version, office_id)
        for name, value in changes.items():
            if name not in ("name", "habits", "takeoff", "waste", "rates", "standards", "hold_points"):
                raise Refused({"": f"No such setting as {name}."})
            setattr(row, name, value)


def _held(session: Session, version: int, office_id: int) -> Office:
    """An office about to be changed by whoever read that version of it. Raises: Stale, Missing."""
    row = hold(session, Office, office_id)
    if row is None:
        raise Missing
    if row.version != version:
        raise Stale(row.version)
    row.version += 1
    row.updated_at = now()
    return row


def demand_second(db: Database, seen: Seen, version: int, asked_of: str) -> None:
    """Demand a second factor. Args: asked_of: a key of `DEMANDS`. Raises: Refused, Stale, Missing."""
    if asked_of not in DEMANDS:
        raise Refused({"second_for": "Choose one of the list."})
    with writing(db) as session:
        _held(session, version, seen.office_id).second_for = asked_of
        audit.note(
            session, "second", f"asked of {DEMANDS[asked_of]}", person_id=seen.person_id, office_id=seen.office_id
        )
