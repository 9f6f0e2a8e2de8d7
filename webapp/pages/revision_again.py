"""A revision checked again by the engine of today: what reads otherwise is shown, and nothing is kept."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.job_file import BadJobFile
from webapp.pages.ask import Db, Id, JobHere
from webapp.pages.view import page
from webapp.services import revisions
from webapp.store import reading
from webapp.submission.again import again

router = APIRouter(prefix="/jobs/{job_id}", include_in_schema=False)


@router.get("/revisions/{number}/again")
def checked_again(request: Request, db: Db, job: JobHere, number: Id) -> Response:
    """The frozen job, computed once more."""
    with reading(db) as session:
        row = revisions.find(session, job.id, number)
    template = "pages/revision_again.html"
    try:
        return page(request, template, job=job, row=row, found=again(revisions.document(row)), unread=())
    except BadJobFile as error:
        return page(request, template, job=job, row=row, found=None, unread=error.problems)
