"""The calculation package: of a revision, of the job as it stands, and the log on paper. Made beside the requests, then handed out."""

import re
from collections.abc import Sequence
from pathlib import Path

from fastapi import APIRouter, Request
from starlette.responses import FileResponse, Response

from webapp.models import Job, LogEntry
from webapp.package import orders
from webapp.package.builds import Building, Builds, Busy
from webapp.package.orders import Made
from webapp.pages.ask import Db, Id, JobHere, SeenHere
from webapp.pages.log import Asked
from webapp.pages.view import lead_on, page, wants_part
from webapp.services import log, log_search, revisions
from webapp.store import Database, reading

router = APIRouter(include_in_schema=False)
PATIENCE_S = 0.4  # a package that is ready sooner is offered at once, without a page of progress
LOG_PATIENCE_S = 60.0
TOO_MANY = "Several packages wait already. Start this one when they are done."


def _origin(request: Request) -> str:
    """Where a print's code leads: the address this program is known by."""
    return request.app.state.public_origin or str(request.base_url).rstrip("/")


def _builds(request: Request) -> Builds:
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
    builds, key = _builds(request), made[0].key
    building = builds.known(key)
    if building is not None:
        building.wait(PATIENCE_S)
    file = builds.ready(key)
    if file is not None and wants_part(request):  # whoever polls is sent to the whole page
        return Response(headers={"HX-Redirect": here})
    return page(
        request, "pages/package.html", part="pages/parts/package_state.html", job=job, letter=letter, here_again=here,
        stamp=made[0].stamp, building=building, before=builds.before(building) if building else 0, pdf=f"{here}.pdf",
        state="ready" if file else building.state if building else "none", size=file.stat().st_size if file else 0,
        said=said(building),
    )  # fmt: skip


def said(building: Building | None) -> str:
    """How far it is, in words."""
    if building is None or building.state == "waiting" or not building.total:
        return "Reading the job"
    return f"{building.done} of {building.total} parts set"


def _begin(request: Request, made: Made, here: str) -> Response:
    order, load = made
    if _builds(request).ready(order.key) is None:
        try:
            _builds(request).begin(order.key, load)
        except Busy:
            return lead_on(here, TOO_MANY)
    return lead_on(here)


def _cancel(request: Request, made: Made, here: str) -> Response:
    _builds(request).stop(made[0].key)
    return lead_on(here, "The package is stopped; nothing of it is kept.")


def _file(request: Request, made: Made, here: str, name: str) -> Response:
    """The finished file; where it isn't made yet, its page."""
    key = made[0].key
    file = _builds(request).ready(key)
    return lead_on(here) if file is None else _sent(request, file, key, name)


def _sent(request: Request, file: Path, key: str, name: str) -> Response:
    """A finished file; nothing but its mark to whoever has it already."""
    plain = re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()[:80] or "package"
    headers = {"ETag": f'"{key}"', "Cache-Control": "private, no-cache"}
    if f'"{key}"' in request.headers.get("if-none-match", ""):
        return Response(status_code=304, headers=headers)
    headers["Content-Disposition"] = f'attachment; filename="{plain}.pdf"'
    return FileResponse(file, media_type="application/pdf", headers=headers)


@router.get("/jobs/{job_id}/log.pdf")
def job_log_pdf(request: Request, db: Db, job: JobHere, seen: SeenHere) -> Response:
    """A job's rows of the log, with the head of the office's."""
    with reading(db) as session:
        entries = log.of_job(session, job.id)
        head = log.head(session, seen.office_id)
    return _log(request, entries, job.name, "Every row of this job, the latest first.", head, f"/jobs/{job.id}/log")


@router.get("/log.pdf")
def office_log_pdf(request: Request, db: Db, seen: SeenHere, asked: Asked) -> Response:
    """What is found in the office's log, with its head."""
    with reading(db) as session:
        wrong = bool(log_search.wrong(asked))
        entries = [] if wrong else list(log_search.everything(session, seen.office_id, asked))
        head = log.head(session, seen.office_id)
    words = ", ".join(
        f"{name} {value}"
        for name, value in (
            ("words", asked.q), ("kind", asked.what), ("since", asked.since), ("until", asked.until),
            ("authority", asked.authority), ("permit", asked.permit),
        )
        if value
    )  # fmt: skip
    found = f"Rows found for {words}." if words else "Every row of the office."
    return _log(request, entries, seen.office, found, head, "/log")


def _log(
    request: Request, entries: Sequence[LogEntry], title: str, found: str, head: tuple[int, str], back: str
) -> Response:
    order, builds = orders.of_log(entries, title, found, head), _builds(request)
    if builds.ready(order.key) is None:
        try:
            builds.begin(order.key, lambda: order).wait(LOG_PATIENCE_S)
        except Busy:
            return lead_on(back, TOO_MANY)
    file = builds.ready(order.key)
    if file is None:
        return lead_on(back, "The log could not be printed. Try again; the table has every row.")
    return _sent(request, file, order.key, f"log {title}")
