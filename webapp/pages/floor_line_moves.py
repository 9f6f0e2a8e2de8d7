"""Floor lines copied to other walls, put away and brought back."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.models import Job
from webapp.pages.ask import Db, Form, Id, JobHere
from webapp.pages.floor_lines import line_at, listing
from webapp.pages.view import lead_on, page
from webapp.services import floor_lines
from webapp.services.refusals import Refused

router = APIRouter(prefix="/jobs/{job_id}/floor-lines", include_in_schema=False)


@router.get("/{line_id}/copy")
def copy_form(request: Request, db: Db, job: JobHere, line_id: Id) -> Response:
    """The walls to copy to."""
    return _copy_form(request, db, job, line_id)


def _copy_form(
    request: Request,
    db: Db,
    job: Job,
    line_id: int,
    ticked: list[int] | None = None,
    errors: Mapping[str, str] | None = None,
) -> Response:
    standing, line = line_at(db, job, line_id)
    found = {name or "walls": message for name, message in (errors or {}).items()}
    walls = list(standing.walls.values())
    return page(
        request, "pages/floor_line_copy.html", status=422 if found else 200, job=job, line=line, walls=walls,
        ticked=ticked or [], errors=found,
    )  # fmt: skip


@router.post("/{line_id}/copy")
def make_copies(request: Request, db: Db, job: JobHere, line_id: Id, form: Form) -> Response:
    """Copy to every wall ticked, or to none."""
    wall_ids = [int(text) for text in form.every.get("wall", []) if text.isdecimal() and len(text) < 10]
    try:
        names = floor_lines.copy(db, job.id, line_id, wall_ids)
    except Refused as refused:
        return _copy_form(request, db, job, line_id, wall_ids, refused.errors)
    return lead_on(f"/jobs/{job.id}/floor-lines", f"Copied as {'; '.join(names)}.")


@router.post("/{line_id}/delete")
def delete_line(db: Db, job: JobHere, line_id: Id) -> Response:
    """Put a line away; what carries it stays."""
    name = floor_lines.put_away(db, job.id, line_id)
    undo = f"/jobs/{job.id}/floor-lines/{line_id}/restore"
    return lead_on(f"/jobs/{job.id}/floor-lines", f"{name} is deleted. What carries it stays.", undo)


@router.post("/{line_id}/restore")
def restore_line(request: Request, db: Db, job: JobHere, line_id: Id) -> Response:
    """Bring it back."""
    try:
        name = floor_lines.bring_back(db, job.id, line_id)
    except Refused as refused:
        return listing(request, db, job, 409, str(refused))
    return lead_on(f"/jobs/{job.id}/floor-lines", f"{name} is back.")
