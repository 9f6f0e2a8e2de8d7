"""A job: its attachments with their verdicts, as a page, as CSV, and the whole job as a file."""

import re
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from markupsafe import Markup
from starlette.responses import Response

from engine import VERSION
from webapp.documents import csv_text
from webapp.models import Job
from webapp.pages import plan_view
from webapp.pages.ask import Db, JobHere, List
from webapp.pages.view import fragment, page, system, wants_part, with_query
from webapp.services import attachments, checks, job_files, plans
from webapp.services.clock import today
from webapp.services.kept import PIECES, Kept
from webapp.services.listing import Part, Wanted
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}", include_in_schema=False)
SORTS = (("worst", "Worst first"), ("tag", "By tag"), ("wall", "By wall"), ("kind", "By kind"))
CHIPS = (
    ("All", "", ""),
    ("Flag", "flag", "flag"),
    ("Refer", "refer", "refer"),
    ("Pass", "pass", "pass"),
    ("Not checked", "not checked", "not checked"),
    ("To measure", attachments.TO_MEASURE, "advisory"),
)
LIST = "pages/parts/attachments_list.html"
_LISTED = Kept[Markup](100, PIECES)
COLUMNS = (
    "tag",
    "kind",
    "wall",
    "level",
    "from",
    "to",
    "verdict",
    "ratio",
    "governs",
    "lines",
    "to measure on site",
    "by engineer's design",
)


@router.get("")
def job_page(
    request: Request, db: Db, job: JobHere, wanted: List, level: Annotated[int, Query(ge=1, le=8)] = 1
) -> Response:
    """The attachments of a job, from their kept summaries, beside its plan; summaries that no longer hold are renewed first."""
    found = _found(db, job, wanted)
    pages = _pages(job, found, level)
    whole = not wants_part(request)
    return page(
        request,
        "pages/job.html",
        part=LIST,
        job=job,
        found=found,
        wanted=wanted,
        sorts=SORTS,
        chips=_chips(job, found, level),
        pages=pages,
        level=level,
        plan=_plan(request, db, job, found, level) if whole else None,
        listed=_listed(request, job, found, pages) if whole else None,
    )


def _listed(request: Request, job: Job, found: "Part[attachments.AttachmentRow]", pages: dict[str, str]) -> Markup:
    """The rows, filled in; kept by all that they show, so that no change can be missed."""
    on = (job.id, job.name, found.rows, found.total, found.wanted, tuple(pages.items()))
    return _LISTED.of(on, lambda: fragment(request, LIST, job=job, found=found, pages=pages))


def _found(db: Db, job: Job, wanted: Wanted) -> "Part[attachments.AttachmentRow]":
    with reading(db) as session:
        stale = checks.count_stale(session, job)
        if not stale:
            return attachments.page(session, job.id, wanted)
    checks.refresh(db, job.id)
    with reading(db) as session:
        return attachments.page(session, job.id, wanted)


def _plan(
    request: Request, db: Db, job: Job, found: "Part[attachments.AttachmentRow]", level: int
) -> dict[str, Any] | None:
    """The plan; None for a job without walls. Verdicts change with the job, or with the day that listings run out."""
    asks, units = _asks(found.wanted), system(request)

    def draw() -> plan_view.Drawn:
        with reading(db) as session:
            return plan_view.draw(job.id, plans.of_job(session, job.id, level), level, units)

    drawings: Kept[plan_view.Drawn] = request.app.state.plans
    drawn = drawings.of((job.id, job.changes, level, units, today()), draw)
    return plan_view.context(job.id, drawn, level, lambda n: with_query(f"/jobs/{job.id}", asks | {"level": n}))


def _asks(wanted: Wanted, level: int = 1) -> dict[str, object]:
    usual = Wanted()
    asks = {"q": wanted.q, "verdict": wanted.verdict, "sort": wanted.sort, "size": wanted.size, "page": wanted.page}
    changed = {name: value for name, value in asks.items() if value != getattr(usual, name)}
    return changed | ({"level": level} if level != 1 else {})


def _chips(job: Job, found: "Part[attachments.AttachmentRow]", level: int) -> list[dict[str, object]]:
    asks = _asks(found.wanted, level) | {"page": ""}
    return [
        {
            "label": label,
            "count": found.counts.get(verdict, 0),
            "href": with_query(f"/jobs/{job.id}", asks | {"verdict": verdict}),
            "current": found.wanted.verdict == verdict,
            "verdict": mark,
        }
        for label, verdict, mark in CHIPS
        if found.counts.get(verdict, 0) or verdict in ("", "flag", "pass", found.wanted.verdict)
    ]


def _pages(job: Job, found: "Part[attachments.AttachmentRow]", level: int) -> dict[str, str]:
    asks, number = _asks(found.wanted, level), found.wanted.page
    here = f"/jobs/{job.id}"
    return {
        "previous": with_query(here, asks | {"page": number - 1}) if number > 1 else "",
        "next": with_query(here, asks | {"page": number + 1}) if found.more else "",
        "csv": with_query(f"{here}/attachments.csv", asks | {"page": "", "size": "", "level": ""}),
    }


@router.get("/attachments.csv")
def attachments_csv(db: Db, job: JobHere, wanted: List) -> Response:
    """All attachments that were found, not only the page shown."""
    checks.refresh(db, job.id)
    with reading(db) as session:
        rows = attachments.everything(session, job.id, wanted)
    text = csv_text.write(
        COLUMNS,
        (
            (
                r.tag, r.kind_name, r.wall, r.level, r.start, r.end, r.verdict,
                "" if r.ratio is None else f"{r.ratio:.4g}", r.governs, r.lines, r.to_measure, r.designed,
            )
            for r in rows
        ),
        f"{job.name}, {job.edition}, engine {VERSION}",
    )  # fmt: skip
    return _file(text, "text/csv; charset=utf-8", f"{_plain(job.name)}-attachments.csv")


@router.get("/job.json")
def job_json(db: Db, job: JobHere) -> Response:
    """The whole job as its file."""
    return _file(job_files.text(db, job.id), "application/json", f"{_plain(job.name)}.json")


def _file(text: str, kind: str, name: str) -> Response:
    return Response(text, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{name}"'})


def _plain(name: str) -> str:
    return re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()[:60] or "job"
