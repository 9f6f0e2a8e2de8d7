"""Opening a job file: chosen or pasted, checked in full, kept as a new job or refused with every reason."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.job_file import BadJobFile
from webapp.pages.ask import Db, Form, SeenHere
from webapp.pages.view import lead_on, page
from webapp.services import job_files

router = APIRouter(prefix="/jobs/open", include_in_schema=False)
MOST_SHOWN = 30


@router.get("")
def open_form(request: Request) -> Response:
    """Where a job file is pasted."""
    return page(request, "pages/job_open.html", text="", problems=())


@router.post("")
def open_file(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep the job of the file, or say by line and path why not."""
    text = form.get("text", "")
    try:
        job_id = job_files.take_in(db, text, seen.office_id)
    except BadJobFile as error:
        return page(request, "pages/job_open.html", status=422, text=text, problems=error.problems[:MOST_SHOWN])
    return lead_on(f"/jobs/{job_id}", "The job file is kept as a new job.")
