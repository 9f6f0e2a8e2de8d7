"""The approvals log over JSON: in parts that never shift while rows are added."""

from datetime import datetime
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query
from pydantic import BaseModel, Field

from webapp.api.answers import Answer, refusals
from webapp.api.ask import LARGEST, SIGNED, Db, Who, next_part
from webapp.models import LogEntry
from webapp.services import log_search
from webapp.services.listing import MOST
from webapp.services.log_search import SIZE, Sought
from webapp.services.refusals import Refused
from webapp.store import reading

router = APIRouter(prefix="/api/log", tags=["log"], dependencies=SIGNED)
Text = Annotated[str, Query(max_length=120)]


class LogRow(BaseModel):
    """A row of the log; it is never changed, and names the row before by its hash."""

    seq: int = Field(description="Its number in the office's log, from 1.")
    at: datetime = Field(description="When it was written, UTC.")
    what: str = Field(description='What it records: "submitted", "approved", "correction" and so on.')
    who: str = Field(description="Who did it.")
    role: str = Field(description="As what.")
    authority: str = Field(description="Authority that decided.")
    permit: str = Field(description="Permit number.")
    words: str = Field(description="What was said.")
    conditions: str = Field(description="Conditions of an approval.")
    job_id: int | None = Field(description="Number of the job.")
    job: str = Field(description="Its name then.")
    revision: str = Field(description='Letter of the revision; "" for none.')
    fingerprint: str = Field(description='Its fingerprint; "" for none.')
    places: list[str] = Field(description="Places it is about; empty for all.")
    files: list[dict[str, Any]] = Field(description="Files with their SHA-256; read them under /log/files/.")
    corrects: int | None = Field(description="Number of the row it corrects.")
    before: str = Field(description="Hash of the row before.")
    hash: str = Field(description="Hash of this row.")


class Log(Answer):
    """A part of the log, the latest first."""

    rows: list[LogRow] = Field(description="The rows of this part.")
    next: str | None = Field(description="Address of the next part; null after the last one.")


def _sought(
    q: Annotated[Text, Query(description="Words, each the beginning of one.")] = "",
    what: Annotated[Text, Query(description="What was recorded.")] = "",
    since: Annotated[Text, Query(description="First day, year-month-day.")] = "",
    until: Annotated[Text, Query(description="Last day, year-month-day.")] = "",
    authority: Annotated[Text, Query(description="As it begins.")] = "",
    permit: Annotated[Text, Query(description="Exactly.")] = "",
    job: Annotated[int, Query(ge=0, le=LARGEST, description="Number of a job; 0 for all.")] = 0,
    before: Annotated[int, Query(ge=0, le=LARGEST, description="Rows before this number; 0 from the latest.")] = 0,
) -> Sought:
    """What is looked for. Raises: Refused."""
    found = Sought(
        q.replace("\x00", ""),
        what,
        since,
        until,
        authority.replace("\x00", ""),
        permit.replace("\x00", ""),
        job,
        before,
    )
    if errors := log_search.wrong(found):
        raise Refused(errors)
    return found


def _row(row: LogEntry) -> LogRow:
    return LogRow(
        seq=row.seq, at=row.at, what=row.what, who=row.who, role=row.role, authority=row.authority, permit=row.permit,
        words=row.words, conditions=row.conditions, job_id=row.job_id, job=row.job_name, revision=row.revision,
        fingerprint=row.fingerprint, places=list(row.places), files=list(row.files), corrects=row.corrects,
        before=row.before, hash=row.hash,
    )  # fmt: skip


@router.get("", summary="The log of your office", responses=refusals(401, 403, 422))
def log_rows(
    db: Db,
    who: Who,
    sought: Annotated[Sought, Depends(_sought)],
    size: Annotated[int, Query(ge=1, le=MOST, description="Rows in a part.")] = SIZE,
) -> Log:
    """One part of what is found, the latest first; `next` goes on from its last row, whatever was added meanwhile."""
    with reading(db) as session:
        found = log_search.search(session, who.office_id, sought, size)
    asked = {name: getattr(sought, name) for name in ("q", "what", "since", "until", "authority", "permit")}
    following = (
        next_part("/api/log", **asked, job=sought.job_id, before=found.before, size=size) if found.before else None
    )
    return Log(rows=[_row(row) for row in found.rows], next=following)
