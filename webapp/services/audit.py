"""Events of signing in, of refusals and of credentials, kept in the transaction of what they are about where there is one."""

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import timedelta

from sqlalchemy import delete, or_, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from webapp.credentials import tokens
from webapp.models import Person
from webapp.models.audit import Audit
from webapp.models.base import now
from webapp.store import Database, writing

KEPT = timedelta(days=400)
PAGE = 50
KINDS: Mapping[str, str] = {
    "in": "signed in",
    "failed": "sign-in failed",
    "out": "signed out",
    "refused": "refused",
    "password": "password",
    "second": "second factor",
    "person": "person",
    "link": "review link",
    "token": "token",
}


def note(
    session: Session,
    what: str,
    words: str = "",
    *,
    person_id: int | None = None,
    office_id: int | None = None,
    address: str = "",
) -> None:
    """Add an event. Args: address: where it came from; only the beginning of its hash is kept."""
    mark = tokens.digest(f"address {address}")[:12] if address else ""
    session.add(
        Audit(what=what, words=words[:200], person_id=person_id or None, office_id=office_id or None, address=mark)
    )


def refused(db: Database, person_id: int, office_id: int, words: str, address: str) -> None:
    """Somebody was turned away from what is not theirs."""
    with writing(db) as session:
        note(session, "refused", words, person_id=person_id, office_id=office_id, address=address)


def forget(db: Database) -> None:
    """Drop what is older than is kept; triggers refuse it for what is younger by the database's own clock, and any change.

    Where the two clocks are more than a day apart nothing is dropped until they agree.
    """
    with suppress(IntegrityError), writing(db) as session:
        session.execute(delete(Audit).where(Audit.at < now() - KEPT))


@dataclass(frozen=True, slots=True)
class Event:
    """An event with the name of whose it is, "" where nobody is known."""

    row: Audit
    name: str


def events(session: Session, office_id: int, before: int = 0, most: int | None = PAGE) -> Sequence[Event]:
    """Events of an office and those nobody's office is known of, the latest first. Args: before: only of smaller ids; 0 for all."""
    query = select(Audit, Person.name).outerjoin(Person, Person.id == Audit.person_id)
    query = query.where(or_(Audit.office_id == office_id, Audit.office_id.is_(None)))
    if before:
        query = query.where(Audit.id < before)
    found = session.execute(query.order_by(Audit.id.desc()).limit(most))
    return [Event(row, name or "") for row, name in found]
