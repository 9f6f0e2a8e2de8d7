"""Revisions of a job over JSON: what was submitted, as it was frozen."""

from datetime import datetime
from typing import Any

from fastapi import APIRouter, Request
from pydantic import BaseModel, Field
from starlette.responses import Response

from engine import VERSION
from engine.result import LOCAL_CODE
from webapp.api.answers import READ, Answer, refusals
from webapp.api.ask import SIGNED, Db, Id, JobHere
from webapp.documents.marked import marked
from webapp.models import Revision
from webapp.services import revisions
from webapp.store import reading

router = APIRouter(prefix="/api/jobs/{job_id}/revisions", tags=["revisions"], dependencies=SIGNED)
FROZEN: dict[int | str, dict[str, Any]] = {
    200: {
        "content": {"application/json": {"schema": {"type": "object"}}},
        "description": "Inputs, results, geometry, drawings and setting out; it names engine and local code itself.",
    }
}


class RevisionRow(BaseModel):
    """One submission."""

    number: int = Field(description="Its number, from 1.")
    letter: str = Field(description='As drawings are lettered: "A".')
    state: str = Field(description='"submitted", "under review", "returned", "accepted" or "superseded".')
    fingerprint: str = Field(description="SHA-256 of the frozen document.")
    edition: str = Field(description="Edition set it was judged by.")
    engine_then: str = Field(description="Version of the engine it was judged by.")
    note: str = Field(description="What was said with it.")
    by: str = Field(description="Who submitted it.")
    made_at: datetime = Field(description="When, UTC.")
    links: dict[str, str] = Field(description="The frozen document, its page and its package.")


class Revisions(Answer):
    """The revisions of a job."""

    revisions: list[RevisionRow] = Field(description="The latest first.")


def _row(row: Revision) -> RevisionRow:
    own = f"/jobs/{row.job_id}/revisions/{row.number}"
    return RevisionRow(
        number=row.number, letter=row.letter, state=row.state, fingerprint=row.fingerprint, edition=row.edition,
        engine_then=row.engine, note=row.note, by=row.by_name, made_at=row.made_at,
        links={"document": f"/api{own}", "page": own, "package": f"{own}/package.pdf"},
    )  # fmt: skip


@router.get("", summary="Revisions", responses=refusals(*READ))
def revision_list(db: Db, job: JobHere) -> Revisions:
    """What was submitted of the job, the latest first."""
    with reading(db) as session:
        return Revisions(revisions=[_row(row) for row in revisions.of_job(session, job.id)])


@router.get("/{number}", summary="A revision's document", responses=FROZEN | refusals(*READ), response_class=Response)
def revision(request: Request, db: Db, job: JobHere, number: Id) -> Response:
    """The frozen document, byte for byte: its SHA-256 is the fingerprint, and stands in the ETag; 304 to whoever names that."""
    with reading(db) as session:
        row = revisions.find(session, job.id, number, whole=False)
        headers = {"X-Wallseat-State": row.state, "X-Wallseat-Engine": VERSION, "X-Wallseat-Caution": LOCAL_CODE}
        return marked(request, row.fingerprint, lambda: row.document, headers)
