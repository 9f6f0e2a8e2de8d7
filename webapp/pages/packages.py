"""The calculation package of a revision or of the job as it stands: made beside the requests, then handed out."""

import re
from pathlib import Path

from fastapi import APIRouter, Request
from starlette.responses import FileResponse, Response

from webapp.documents.marked import known
from webapp.models import Job
from webapp.package import orders
from webapp.package.builds import Building, Builds, Busy
from webapp.package.marks import Elsewhere
from webapp.package.orders import Made
from webapp.pages.ask import Db, Id, JobHere
from webapp.pages.view import lead_on, page, wants_part
from webapp.services import revisions
from webapp.store import Database, reading

router = APIRouter(include_in_schema=False)
PATIENCE_S = 0.4  # a package that is ready sooner is offered at once, without a page of progress
TOO_MANY = "Several packages wait already. Start this one when they are done."


def _origin(request: Request) -> str:
    """Where a print's code leads: the address this program is known by."""
    return request.app.state.public_origin or str(request.base_url).rstrip("/")


def builds_of(request: Request) -> Builds:
    """The packages of this process."""
    builds: Builds = request.app.state.builds
    return builds


def _revision(request: Request, db: Database, job: Job, number: int) -> tuple[Made, str, str]:
    """A revision's order, the address of its page, its letter. Raises: Missing."""
    with reading(db) as session:
        row = revisions.find(session, job.id, number)
    made = orders.of_revision(db, job, row, _origin(request))
    return made, f"/jobs/{job.id}/revisions/{row.number}/package", row.letter


def _draft(request: Request, db: Database, job: Job) -> tuple[Made, str, str]:
    return orders.of_draft(db, job, _origin(request)), f"/jobs/{job.id}/package", ""


@router.get("/jobs/{job_id}/revisions/{number}/package")
def revision_package(request: Request, db: Db, job: JobHere, number: Id) -> Response:
    """How a revision's package stands: to be made, on its way, ready."""
    return _page(request, job, *_revision(request, db, job, number))


@router.post("/jobs/{job_id}/revisions/{number}/package")
def make_revision_package(request: Request, db: Db, job: JobHere, number: Id) -> Response:
    """Begin it."""
    return _begin(request, *_revision(request, db, job, number)[:2])


@router.post("/jobs/{job_id}/revisions/{number}/package/cancel")
def stop_revision_package(request: Request, db: Db, job: JobHere, number: Id) -> Response:
    """Stop it."""
    return _cancel(request, *_revision(request, db, job, number)[:2])


@router.get("/jobs/{job_id}/revisions/{number}/package.pdf")
def revision_pdf(request: Request, db: Db, job: JobHere, number: Id) -> Response:
    """The package of a revision: always the same bytes."""
    made, here, letter = _revision(request, db, job, number)
    return _file(request, made, here, f"{job.name} revision {letter}")


@router.get("/jobs/{job_id}/package")
def draft_package(request: Request, db: Db, job: JobHere) -> Response:
    """How the package of the job as it stands is coming on."""
    return _page(request, job, *_draft(request, db, job))


@router.post("/jobs/{job_id}/package")
def make_draft_package(request: Request, db: Db, job: JobHere) -> Response:
    """Begin it."""
    return _begin(request, *_draft(request, db, job)[:2])


@router.post("/jobs/{job_id}/package/cancel")
def stop_draft_package(request: Request, db: Db, job: JobHere) -> Response:
    """Stop it."""
    return _cancel(request, *_draft(request, db, job)[:2])


@router.get("/jobs/{job_id}/package.pdf")
def draft_pdf(request: Request, db: Db, job: JobHere) -> Response:
    """The package of the job as it stands, marked a draft."""
    made, here, _ = _draft(request, db, job)
    return _file(request, made, here, f"{job.name} draft")


def _page(request: Request, job: Job, made: Made, here: str, letter: str) -> Response:
    builds, key = builds_of(request), made[0].key
    building = builds.known(key)
    if building is not None:
        building.wait(PATIENCE_S)
    file = builds.ready(key)
    if file is not None and wants_part(request):  # whoever polls is sent to the whole page
        return Response(headers={"HX-Redirect": here})
    return page(
        request, "pages/package.html", part="pages/parts/package_state.html", job=job, letter=letter, here_again=here,
        stamp=made[0].stamp, building=building, before=builds.before(building) if building else 0, pdf=f"{here}.pdf",
        state="ready" if file else building.state if building else "none", megabytes=_megabytes(file),
        said=said(building),
    )  # fmt: skip


def _megabytes(file: Path | None) -> str:
    """How large a package is, for a reader."""
    size = file.stat().st_size if file else 0
    return f"{size / 1_000_000:.1f}" if size >= 100_000 else "less than 0.1"


def said(building: Building | Elsewhere | None) -> str:
    """How far it is, in words."""
    if building is None or building.state == "waiting" or not building.total:
        return "Reading the job"
    return f"{building.done} of {building.total} parts set"


def _begin(request: Request, made: Made, here: str) -> Response:
    order, load = made
    if builds_of(request).ready(order.key) is None:
        try:
            builds_of(request).begin(order.key, load)
        except Busy:
            return lead_on(here, TOO_MANY)
    return lead_on(here)


def _cancel(request: Request, made: Made, here: str) -> Response:
    builds_of(request).stop(made[0].key)
    return lead_on(here, "The package is stopped; nothing of it is kept.")


def _file(request: Request, made: Made, here: str, name: str) -> Response:
    """The finished file; where it isn't made yet, its page."""
    key = made[0].key
    file = builds_of(request).ready(key)
    return lead_on(here) if file is None else sent(request, file, key, name)


def sent(request: Request, file: Path, key: str, name: str) -> Response:
    """A finished file; nothing but its mark to whoever has it already."""
    plain = re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()[:80] or "package"
    headers = {"ETag": f'"{key}"', "Cache-Control": "private, no-cache"}
    if known(request, key):
        return Response(status_code=304, headers=headers)
    headers["Content-Disposition"] = f'attachment; filename="{plain}.pdf"'
    return FileResponse(file, media_type="application/pdf", headers=headers)
