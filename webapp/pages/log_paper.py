"""The approvals log on paper, with the head of its chain: a job's rows, or what is found in the office's."""

from collections.abc import Sequence

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.models import LogEntry
from webapp.package import orders
from webapp.package.builds import Busy
from webapp.pages.ask import Db, JobHere, SeenHere
from webapp.pages.log import Asked
from webapp.pages.packages import TOO_MANY, builds_of, sent
from webapp.pages.view import lead_on
from webapp.services import log, log_search
from webapp.store import reading

router = APIRouter(include_in_schema=False)
PATIENCE_S = 60.0


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
    order, builds = orders.of_log(entries, title, found, head), builds_of(request)
    if builds.ready(order.key) is None:
        try:
            builds.begin(order.key, lambda: order).wait(PATIENCE_S)
        except Busy:
            return lead_on(back, TOO_MANY)
    file = builds.ready(order.key)
    if file is None:
        return lead_on(back, "The log could not be printed. Try again; the table has every row.")
    return sent(request, file, order.key, f"log {title}")
