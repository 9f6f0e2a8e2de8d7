"""Jobs over JSON."""

import json
from typing import Annotated

from fastapi import APIRouter, Path, Request
from starlette.responses import JSONResponse

from engine import VERSION
from engine.result import LOCAL_CODE
from webapp.documents.result_json import number
from webapp.services import attachments, checks, job_files
from webapp.store import Database, reading

router = APIRouter(prefix="/api/jobs", tags=["jobs"])


@router.get("/{job_id}", responses={404: {"description": "No such job."}})
def job(request: Request, job_id: Annotated[int, Path(ge=1, le=2**31)]) -> JSONResponse:
    """A job as its file holds it, with the verdict of every attachment."""
    db: Database = request.app.state.db
    checks.refresh(db, job_id)
    text = job_files.text(db, job_id)
    with reading(db) as session:
        verdicts = [
            {
                "tag": row.tag,
                "verdict": row.verdict,
                "ratio": number(row.ratio),
                "governs": row.governs,
                "lines": row.lines,
                "to_measure": row.to_measure,
            }
            for row in attachments.everything(session, job_id)
        ]
    return JSONResponse({"job": json.loads(text), "verdicts": verdicts, "engine": VERSION, "local_code": LOCAL_CODE})
