"""Ready to place? One page for each placing: what must be so, what blocks, who can clear it; the go-ahead into the log."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.documents import csv_text
from webapp.models import Job
from webapp.pages.ask import Db, Form, Id, JobHere, SeenHere
from webapp.pages.view import lead_on, page
from webapp.permissions import ANYONE, allowed
from webapp.services import ready
from webapp.services.refusals import Refused
from webapp.services.sign_in import Seen
from webapp.store import Database

router = APIRouter(prefix="/jobs/{job_id}/ready", include_in_schema=False)
COLUMNS = ("wall", "storey", "what must be so", "met", "how it stands", "who can clear it")


@router.get("")
def placings(request: Request, db: Db, job: JobHere) -> Response:
    """Every placing of the job and what still blocks it."""
    return page(request, "pages/ready_list.html", job=job, found=ready.of_job(db, job.id))


@router.get("/ready.csv")
def placings_csv(db: Db, job: JobHere) -> Response:
    """The same as a table."""
    rows = [
        (one.wall.name, one.level, need.words, "yes" if need.met else "no", need.says, ", ".join(need.who))
        for one in ready.of_job(db, job.id)
        for need in one.needs
    ]
    headers = {"Content-Disposition": 'attachment; filename="ready.csv"'}
    return Response(csv_text.write(COLUMNS, rows, job.name), media_type="text/csv; charset=utf-8", headers=headers)


@router.get("/{wall_id}/{level}")
def placing(request: Request, db: Db, job: JobHere, seen: SeenHere, wall_id: Id, level: Id) -> Response:
    """One placing."""
    return _placing(request, db, job, seen, wall_id, level)


def _placing(
    request: Request, db: Database, job: Job, seen: Seen, wall_id: int, level: int, errors: Mapping[str, str] | None = None,
    values: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    found = ready.of_wall(db, job.id, wall_id, level)
    go, let = ["POST", "/jobs/{job_id}/ready/{wall_id}/{level}/go"], "/jobs/{job_id}/ready/{wall_id}/{level}/points"
    return page(
        request, "pages/ready.html", status=422 if errors else 200, job=job, found=found, plan=found.plan.plan, errors=errors or {},
        values=values or {}, may_release=seen.role in (allowed("POST", let) or ANYONE),
        may_go=seen.role in (allowed(*go) or ANYONE), may_clear=lambda need: ready.may_clear(seen.role, need),
    )  # fmt: skip


@router.post("/{wall_id}/{level}/points")
def release(request: Request, db: Db, job: JobHere, seen: SeenHere, wall_id: Id, level: Id, form: Form) -> Response:
    """Release a hold point, write the weather down, or take that back."""
    found, held = ready.of_wall(db, job.id, wall_id, level), form.get("held") == "yes"
    try:
        ready.release(db, seen, found, form.get("point", ""), form.get("words", ""), held)
    except Refused as refused:
        errors = {name or "words": message for name, message in refused.errors.items()}
        return _placing(request, db, job, seen, wall_id, level, errors, form)
    return lead_on(f"/jobs/{job.id}/ready/{wall_id}/{level}", "Held again." if held else "Written down.")


@router.post("/{wall_id}/{level}/go")
def go_ahead(request: Request, db: Db, job: JobHere, seen: SeenHere, wall_id: Id, level: Id, form: Form) -> Response:
    """Give the go-ahead, where nothing blocks."""
    try:
        row = ready.go_ahead(db, seen, job.id, wall_id, level, form.get("words", ""), form.get("conditions", ""))
    except Refused as refused:
        errors = {name or "words": message for name, message in refused.errors.items()}
        return _placing(request, db, job, seen, wall_id, level, errors, form)
    return lead_on(f"/jobs/{job.id}/ready/{wall_id}/{level}", f"The go-ahead is in the log, row {row}.")
