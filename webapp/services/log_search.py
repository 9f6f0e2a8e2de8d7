"""Finding in the log: by words, days, authority, permit, job and what was recorded; in parts, the latest first."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from typing import Any

from sqlalchemy import String, cast, column, func, select, table, text
from sqlalchemy.dialects.postgresql import TSQUERY, TSVECTOR
from sqlalchemy.orm import Session

from webapp.models import LogEntry
from webapp.models.said import closed, words
from webapp.services.log import KINDS

SIZE = 50
BEYOND = 2**31 - 1
MOST_WORDS = 12
NEAR = 5000
WORK = "64MB"  # with the server's usual 4, a beginning that many of a million rows have is noted by pages, and each row read again
INDEXED = table("log_search", column("rowid"), column("log_search", String))


@dataclass(frozen=True, slots=True)
class Sought:
    """What is looked for. Args: q: words, the last also as a beginning. what: a key of KINDS. since, until: days, both included.

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
    query, by_words = _asked(session, office_id, sought)
    rows: Sequence[LogEntry] = ()
    if by_words and not _sqlite(session):
        rows = _near(session, office_id, query, sought, size)
    if len(rows) <= size:
        rows = session.scalars(query.order_by(_order(session, sought, by_words)).limit(size + 1)).all()
    return Found(tuple(rows[:size]), rows[size - 1].seq if len(rows) > size else 0)


def _asked(session: Session, office_id: int, sought: Sought) -> tuple[Any, bool]:
    """The rows that are looked for, and whether the index of words finds them."""
    query = select(LogEntry).where(*_conditions(session, office_id, sought))
    # what was recorded is among what a row says
    said, authority = words(f"{sought.q} {sought.what}")[:MOST_WORDS], closed(sought.authority)
    if said or authority:
        return _with_words(session, query, said, authority), True
    return query, False


def _sqlite(session: Session) -> bool:
    return session.get_bind().dialect.name == "sqlite"


def _near(session: Session, office_id: int, query: Any, sought: Sought, size: int) -> Sequence[LogEntry]:
    """What is found among the last rows, without the index of words.

    PostgreSQL's index knows no order: of a word that half of the rows have it would fetch and sort half of the log.
    """
    last = select(func.max(LogEntry.seq)).where(LogEntry.office_id == office_id)
    end = sought.before or (session.scalar(last) or 0) + 1
    found: Sequence[LogEntry] = session.scalars(
        query.where(LogEntry.seq >= end - NEAR).order_by(LogEntry.seq.desc()).limit(size + 1)
    ).all()
    return found


def _order(session: Session, sought: Sought, by_words: bool) -> Any:
    """The latest first, by what the index that finds the rows is ordered by; where it has no order, sorted as they come."""
    if sought.permit.strip() or (by_words and not _sqlite(session)):
        return (LogEntry.seq + 0).desc()
    return LogEntry.id.desc() if by_words else LogEntry.seq.desc()


def _conditions(session: Session, office_id: int, sought: Sought) -> list[Any]:
    found: list[Any] = [LogEntry.office_id == office_id]
    since, until = _day(sought.since), _day(sought.until)
    # rows never go back in time, so days are numbers of rows
    if since:
        found.append(LogEntry.seq >= _first_at(session, office_id, since))
    if until:
        found.append(LogEntry.seq < _first_at(session, office_id, until + timedelta(days=1)))
    if sought.what:
        found.append(LogEntry.what == sought.what)
    if sought.permit.strip():
        found.append(LogEntry.permit == sought.permit.strip())
    if sought.job_id:
        found.append(LogEntry.job_id == sought.job_id)
    if sought.before:
        found.append(LogEntry.seq < sought.before)
    return found


def _first_at(session: Session, office_id: int, day: date) -> int:
    """The number of the first row of a day or after it; beyond the last where there is none."""
    moment = datetime(day.year, day.month, day.day, tzinfo=UTC)
    query = select(LogEntry.seq).where(LogEntry.office_id == office_id, LogEntry.at >= moment)
    return session.scalar(query.order_by(LogEntry.at, LogEntry.seq).limit(1)) or BEYOND


def _with_words(session: Session, query: Any, said: list[str], authority: str) -> Any:
    """Rows that have all of the words, the last also as a beginning, and the authority as it begins.

    Beginnings are looked up far more slowly than words, so only the word still being typed is one.
    """
    asked = [(word, number == len(said)) for number, word in enumerate(said, 1)]
    if authority:
        asked.append((authority, True))
    if _sqlite(session):
        match = " AND ".join(f'"{word}"{"*" if begins else ""}' for word, begins in asked)
        joined = query.join(INDEXED, INDEXED.c.rowid == LogEntry.id)
        return joined.where(text("log_search MATCH :match").bindparams(match=match))
    session.execute(text(f"SET LOCAL work_mem = '{WORK}'"))
    match = " & ".join(f"'{word}'{':*' if begins else ''}" for word, begins in asked)
    return query.where(cast(LogEntry.said, TSVECTOR).op("@@")(cast(match, TSQUERY)))


def everything(session: Session, office_id: int, sought: Sought, step: int = 1000) -> Iterator[LogEntry]:
    """All that is found, the latest first, some at a time out of one query: nothing is found twice, and little is held at once."""
    query, by_words = _asked(session, office_id, sought)
    yield from session.scalars(query.order_by(_order(session, sought, by_words)).execution_options(yield_per=step))
