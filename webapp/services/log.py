"""The approvals log: a chain of rows for each office, written in the transaction of what it records, verified link by link."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from hashlib import sha256
from typing import Any

from sqlalchemy import Row, select
from sqlalchemy.exc import DatabaseError
from sqlalchemy.orm import Session

from webapp.models import Job, LogEntry, Office, Revision
from webapp.models.base import now
from webapp.services.holding import hold
from webapp.services.sign_in import Seen
from webapp.store import Database, reading

# What a row records, and its words on the page.
KINDS: Mapping[str, str] = {
    "submitted": "submitted for review",
    "opened": "review link opened",
    "returned": "sent back",
    "accepted": "accepted",
    "approved": "approval logged",
    "permit": "permit logged",
    "designed": "covered by an engineer's design",
    "go-ahead": "go-ahead to place",
    "note": "note",
    "correction": "correction of an earlier row",
}
FIRST = "0" * 64  # what the first row of a chain has before it
CHAINED = (
    "office_id", "seq", "device_at", "what", "who", "role", "person_id", "authority", "permit", "words", "conditions",
    "job_id", "job_name", "revision_id", "revision", "fingerprint", "places", "files", "corrects", "before",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Said:
    """What somebody records. Args: as the columns of `LogEntry`."""

    what: str
    words: str = ""
    authority: str = ""
    permit: str = ""
    conditions: str = ""
    places: Sequence[str] = ()
    files: Sequence[Mapping[str, str]] = ()
    device_at: str = ""
    corrects: int | None = None


def append(session: Session, seen: Seen, said: Said, job: Job, revision: Revision | None = None) -> LogEntry:
    """Add a row to the log of the job's office, inside the caller's transaction, who holds the job.

    The office is held meanwhile, so that two rows never follow the same one.
    """
    session.flush()
    hold(session, Office, job.office_id)
    last = session.execute(
        select(LogEntry.seq, LogEntry.hash, LogEntry.at)
        .where(LogEntry.office_id == job.office_id)
        .order_by(LogEntry.seq.desc())
        .limit(1)
    ).first()
    seq, before = (last.seq + 1, last.hash) if last else (1, FIRST)
    moment = max(now(), last.at) if last else now()  # never before the row it follows, whatever the clock was set to
    entry = LogEntry(
        office_id=job.office_id, seq=seq, at=moment, device_at=said.device_at[:40], what=said.what, who=seen.name, role=seen.role,
        person_id=seen.person_id or None, authority=said.authority, permit=said.permit, words=said.words,
        conditions=said.conditions, job_id=job.id, job_name=job.name, revision_id=revision.id if revision else None,
        revision=revision.letter if revision else "", fingerprint=revision.fingerprint if revision else "",
        places=list(said.places), files=[dict(f) for f in said.files], corrects=said.corrects, before=before,
    )  # fmt: skip
    entry.hash = chained(entry)
    session.add(entry)
    session.flush()
    return entry


def chained(entry: LogEntry | Row[Any]) -> str:
    """The hash of a row: of everything it says and the hash of the row before."""
    row: dict[str, Any] = {name: getattr(entry, name) for name in CHAINED}
    row["at"] = entry.at.isoformat()
    return sha256(json.dumps(row, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()).hexdigest()


def head(session: Session, office_id: int) -> tuple[int, str]:
    """The last row's number and hash; 0 and `FIRST` of an empty log."""
    last = session.execute(
        select(LogEntry.seq, LogEntry.hash)
        .where(LogEntry.office_id == office_id)
        .order_by(LogEntry.seq.desc())
        .limit(1)
    ).first()
    return (last.seq, last.hash) if last else (0, FIRST)


@dataclass(frozen=True, slots=True)
class Verified:
    """How a chain stands. problems: empty where every row is as it was written; anchor: the head it was held against."""

    rows: int
    head: str
    problems: tuple[str, ...] = field(default_factory=tuple)


def verify(session: Session, office_id: int, anchor: str = "", rows: int | None = None) -> Verified:
    """Walk a chain from its first row.

    Args: anchor: a head hash printed or kept elsewhere, which must be a row of this chain. rows: how many there were then.
    Tells apart a row that was altered, rows missing from the end, and an anchor of another chain.
    """
    problems: list[str] = []
    before, count, met = FIRST, 0, anchor in ("", FIRST)
    for entry in _rows(session, office_id):
        count += 1
        if entry.seq != count:
            problems.append(f"Row {count} is missing: row {entry.seq} follows row {count - 1}.")
            count = entry.seq
        if entry.before != before:
            problems.append(f"Row {entry.seq} does not follow the row before it.")
        if chained(entry) != entry.hash:
            problems.append(f"Row {entry.seq} was altered after it was written.")
        before = entry.hash
        met = met or before == anchor
    if rows is not None and count < rows:
        problems.append(f"The end is missing: there were {rows} rows, there are {count}.")
    elif not met:
        problems.append(
            "The head that was kept is no row of this log: it belongs to another one, or rows were replaced."
        )
    return Verified(count, before, tuple(problems))


class Unreadable(Exception):
    """The database has no log, or can't be read."""


def verify_all(
    db: Database, office: int | None = None, anchor: str = "", rows: int | None = None
) -> dict[int, Verified]:
    """`verify` for one office or all, by its id. Raises: Unreadable."""
    try:
        with reading(db) as session:
            numbers = [office] if office else list(session.scalars(select(Office.id).order_by(Office.id)))
            return {number: verify(session, number, anchor, rows) for number in numbers}
    except DatabaseError as error:
        raise Unreadable from error


def _rows(session: Session, office_id: int, step: int = 1000) -> Iterator[Row[Any]]:
    """What the chain is made of, of all rows in order, some at a time."""
    query = select(*(getattr(LogEntry, name) for name in (*CHAINED, "at", "hash")))
    query = query.where(LogEntry.office_id == office_id).order_by(LogEntry.seq)
    after = 0
    while True:
        found = session.execute(query.where(LogEntry.seq > after).limit(step)).all()
        yield from found
        if len(found) < step:
            return
        after = found[-1].seq


def of_job(session: Session, job_id: int) -> list[LogEntry]:
    """A job's rows, the latest first."""
    return list(session.scalars(select(LogEntry).where(LogEntry.job_id == job_id).order_by(LogEntry.seq.desc())))


def utc(moment: datetime) -> str:
    """A moment for a table: "2026-05-27 14:05 UTC"."""
    return f"{moment:%Y-%m-%d %H:%M} UTC"
