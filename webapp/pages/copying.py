"""Copying an attachment to other walls."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.models import Job
from webapp.pages.ask import Db, Form, JobHere
from webapp.pages.view import lead_on, page
from webapp.services import attachments
from webapp.services.refusals import Refused
from webapp.services.standing import stand
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}/attachments/{tag}/copy", include_in_schema=False)


@router.get("")
def copy_form(request: Request, db: Db, job: JobHere, tag: str) -> Response:
    """The walls to copy to."""
    return _form(request, db, job, tag)


@router.post("")
def make_copies(request: Request, db: Db, job: JobHere, tag: str, form: Form) -> Response:
    """Copy to every wall ticked, or to none."""
    wall_ids = [int(text) for text in form.every.get("wall", []) if text.isdecimal() and len(text) < 10]
    try:
        tags = attachments.copy(db, job.id, tag, wall_ids)
    except Refused as refused:
        return _form(request, db, job, tag, wall_ids, refused.errors, 422)
    return lead_on(f"/jobs/{job.id}", f"{tag} is copied as {', '.join(tags)}.")


def _form(
    request: Request,
    db: Db,
    job: Job,
    tag: str,
    ticked: list[int] | None = None,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
) -> Response:
    with reading(db) as session:
        standing, row = stand(session, job.id), attachments.find(session, job.id, tag)
    own = standing.walls.get(row.wall_id)
    return page(
        request,
        "pages/attachment_copy.html",
        status=status,
        job=job,
        tag=tag,
        own=own,
        walls=list(standing.walls.values()),
        ticked=ticked or [],
        errors={name or "walls": message for name, message in (errors or {}).items()},
    )
