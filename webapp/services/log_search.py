"""Finding in the log: by words, days, authority, permit, job and what was recorded; in parts, the latest first."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any

from sqlalchemy import String, column, func, select, table, text
from sqlalchemy.orm import Session

from webapp.models import LogEntry
from webapp.services.log import KINDS

SIZE = 50
WORD = re.compile(r"\w+")
INDEXED = table("log_search", column("rowid"), column("log_search", String))
# As migration 0005 indexes them.
SAID = " || ' ' || ".join(
    ("words", "conditions", "authority", "permit", "who", "job_name", "what", "revision", "fingerprint")
)


@dataclass(frozen=True, slots=True)
class Sought:
    """What is looked for. Args: q: words, each the beginning of one. what: a key of KINDS. since, until: days, both included.

    authority: as it begins. permit: exact. before: rows before this number.
    """

    q: str = ""
    what: str = ""
    since: str = ""
    until: str = ""
    authority: str = ""
    permit: str = ""
    job_id: int = 0
    before: int = 0


@dataclass(frozen=True, slots=True)
class Found:
    """One part of what was found. before: where the next part begins; 0 after the last one."""

    rows: tuple[LogEntry, ...]
    before: int = 0


def wrong(sought: Sought) -> dict[str, str]:
    """What can't be looked for, by field."""
    errors = {}
    for name in ("since", "until"):
        if _day(getattr(sought, name)) is None and getattr(sought, name):
            errors[name] = "Enter a day as year-month-day, such as 2026-05-27."
    if sought.what and sought.what not in KINDS:
        errors["what"] = "Choose one of the list."
    return errors


def _day(typed: str) -> date | None:
    try:
        return date.fromisoformat(typed)
    except ValueError:
        return None


def search(session: Session, office_id: int, sought: Sought, size: int = SIZE) -> Found:
    """One part. The next is asked for by the number of the last row, so that parts never shift while rows are added."""
    conditions = _conditions(session, office_id, sought)
    if sought.before:
        conditions.append(LogEntry.seq < sought.before)
    query = select(LogEntry).where(*conditions)
    words = WORD.findall(sought.q)[:8]
    if words:
        query = _with_words(session, query, words)
    # an id grows with the number, and the index of words knows ids only
    order = LogEntry.id if words else LogEntry.seq
    rows = tuple(session.scalars(query.order_by(order.desc()).limit(size + 1)))
    return Found(rows[:size], rows[size - 1].seq if len(rows) > size else 0)


def _conditions(session: Session, office_id: int, sought: Sought) -> list[Any]:
    found: list[Any] = [LogEntry.office_id == office_id]
    since, until = _day(sought.since), _day(sought.until)
    if since:
        found.append(LogEntry.at >= datetime(since.year, since.month, since.day, tzinfo=UTC))
    if until:
        found.append(LogEntry.at < datetime(until.year, until.month, until.day, tzinfo=UTC) + timedelta(days=1))
    if sought.what:
        found.append(LogEntry.what == sought.what)
    if sought.authority.strip():
        found.append(LogEntry.authority.istartswith(sought.authority.strip(), autoescape=True))
    if sought.permit.strip():
        found.append(LogEntry.permit == sought.permit.strip())
    if sought.job_id:
        found.append(LogEntry.job_id == sought.job_id)
    return found


def _with_words(session: Session, query: Any, words: list[str]) -> Any:
    if session.get_bind().dialect.name == "sqlite":
        match = " AND ".join(f'"{word}"*' for word in words)
        joined = query.join(INDEXED, INDEXED.c.rowid == LogEntry.id)
        return joined.where(text("log_search MATCH :match").bindparams(match=match))
    asked = " & ".join(f"{word}:*" for word in words)
    return query.where(
        func.to_tsvector(text("'simple'"), text(SAID)).op("@@")(func.to_tsquery(text("'simple'"), asked))
    )


def everything(session: Session, office_id: int, sought: Sought, step: int = 1000) -> Iterator[LogEntry]:
    """All that is found, some at a time."""
    before = sought.before
    while True:
        part = search(session, office_id, _from(sought, before), step)
        yield from part.rows
        if not part.before:
            return
        before = part.before


def _from(sought: Sought, before: int) -> Sought:
    return Sought(
        sought.q, sought.what, sought.since, sought.until, sought.authority, sought.permit, sought.job_id, before
    )
