"""Jobs over JSON: found, read whole, made from a job file."""

import json
from datetime import datetime
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request
from pydantic import BaseModel, Field
from starlette.responses import Response

from engine.job_file import BadJobFile, Problem
from webapp.api.answers import READ, Answer, Number, refusals
from webapp.api.ask import SIGNED, Db, JobHere, JobId, PartHere, Who, next_part
from webapp.documents.result_json import number
from webapp.services import attachments, checks, job_files, jobs
from webapp.store import reading

router = APIRouter(prefix="/api/jobs", tags=["jobs"], dependencies=SIGNED)
FILE = {
    "requestBody": {
        "required": True,
        "description": "A job file as GET /api/jobs/{job_id} and a job's page give it.",
        "content": {"application/json": {"schema": {"type": "object", "required": ["wallseat_job", "name"]}}},
    }
}


class JobRow(BaseModel):
    """A job in the list."""

    id: int = Field(description="Its number.")
    name: str = Field(description="Its name.")
    client: str = Field(description="For whom.")
    place: str = Field(description="Where it is built.")
    edition: str = Field(description='Edition set it is judged by: "US 2021".')
    updated_at: datetime = Field(description="When its own details were last changed, UTC.")
    walls: int = Field(description="How many walls it has.")
    attachments: int = Field(description="How many attachments it has.")
    flags: int = Field(description="How many of them flag.")
    refers: int = Field(description="How many an engineer must decide.")
    verdict: str = Field(description='The first thing to know of it: "refer", "flag", "pass" or "not checked".')
    href: str = Field(description="Where to read it whole.")


class Jobs(Answer):
    """A part of the office's jobs, the last changed first."""

    jobs: list[JobRow] = Field(description="The jobs of this part.")
    total: int = Field(description="How many were found in all parts.")
    page: int = Field(description="Which part this is, from 1.")
    size: int = Field(description="Rows in a part.")
    next: str | None = Field(description="Address of the next part; null after the last one.")


class Verdict(BaseModel):
    """How an attachment stands."""

    tag: str = Field(description='Its tag: "A1".')
    verdict: str = Field(description='"pass", "flag", "refer" or "not checked".')
    ratio: Number = Field(description="Demand over capacity of the line that governs.")
    governs: str = Field(description="Title of that line, or why it could not be checked.")
    lines: str = Field(description="What the lines alone say, where the verdict is refer.")
    to_measure: int = Field(description="How many lines are to be measured on site.")
    designed_by: str = Field(description='The engineer whose design covers it; "" for none.')


class JobWhole(Answer):
    """A job as its file holds it, and how everything in it stands."""

    id: int = Field(description="Its number.")
    version: int = Field(description="State of its own details.")
    job: dict[str, Any] = Field(description="The job file: POST it to /api/jobs to have it again.")
    verdicts: list[Verdict] = Field(description="Every attachment, by tag.")
    links: dict[str, str] = Field(description="Its parts, and files of it.")


class Made(Answer):
    """A job that was made."""

    id: int = Field(description="Its number.")
    href: str = Field(description="Where to read it whole.")


async def sent_text(request: Request) -> str:
    """The body as it was sent, so that a problem can be told by its line. Raises: BadJobFile for what is no UTF-8."""
    try:
        return (await request.body()).decode()
    except UnicodeDecodeError:
        raise BadJobFile((Problem(1, "(whole file)", "Send the file as UTF-8."),)) from None


@router.get("", summary="The jobs of your office", responses=refusals(401, 403, 422))
def job_list(db: Db, who: Who, wanted: PartHere) -> Jobs:
    """One part of the jobs that hold the words, in name, client or place; the last changed first."""
    with reading(db) as session:
        found = jobs.page(session, who.office_id, wanted)
    rows = [
        JobRow(
            id=row.id, name=row.name, client=row.client, place=row.place, edition=row.edition, updated_at=row.updated_at,
            walls=row.walls, attachments=row.attachments, flags=row.flags, refers=row.refers, verdict=row.verdict,
            href=f"/api/jobs/{row.id}",
        )
        for row in found.rows
    ]  # fmt: skip
    following = next_part("/api/jobs", q=wanted.q, page=wanted.page + 1, size=wanted.size) if found.more else None
    return Jobs(jobs=rows, total=found.total, page=wanted.page, size=wanted.size, next=following)


@router.post(
    "", status_code=201, summary="Make a job from a job file", responses=refusals(401, 403, 422), openapi_extra=FILE
)
def make_job(db: Db, who: Who, answer: Response, text: Annotated[str, Depends(sent_text)]) -> Made:
    """Keep the job of a file as a new one. Nothing is kept of a file with a problem; every problem is told by line and path."""
    job_id = job_files.take_in(db, text, who.office_id)
    answer.headers["Location"] = f"/api/jobs/{job_id}"
    return Made(id=job_id, href=f"/api/jobs/{job_id}")


@router.get("/{job_id}", summary="A job whole", responses=refusals(*READ))
def job(db: Db, job_id: JobId, kept: JobHere) -> JobWhole:
    """A job as its file holds it, with the verdict of every attachment."""
    checks.refresh(db, job_id)
    with reading(db) as session:
        text, rows = job_files.write(session, job_id), attachments.everything(session, job_id)
    verdicts = [
        Verdict(
            tag=row.tag, verdict=row.verdict, ratio=number(row.ratio), governs=row.governs, lines=row.lines,
            to_measure=row.to_measure, designed_by=row.designed,
        )
        for row in rows
    ]  # fmt: skip
    return JobWhole(id=job_id, version=kept.version, job=json.loads(text), verdicts=verdicts, links=_links(job_id))


def _links(job_id: int) -> dict[str, str]:
    own, pages = f"/api/jobs/{job_id}", f"/jobs/{job_id}"
    parts = ("wall-types", "walls", "floor-lines", "attachments", "setting-out", "placing", "takeoff", "revisions")
    files = {
        "file": "job.json", "plan": "plan.svg", "plan_dxf": "plan.dxf", "pressure": "placing/pressure.svg",
        "pressure_dxf": "placing/pressure.dxf", "package": "package",
    }  # fmt: skip
    return {name: f"{own}/{name}" for name in parts} | {name: f"{pages}/{file}" for name, file in files.items()}
