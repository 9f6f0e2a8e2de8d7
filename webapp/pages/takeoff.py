"""Takeoff of a job: what to buy, cut and place."""

import re
from collections.abc import Iterable, Sequence

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine import VERSION, attachments
from engine.takeoff import (
    BAR_HEADINGS,
    HEADINGS,
    OUTSIDE,
    TOTAL_HEADINGS,
    bar_records,
    records,
    total_records,
)
from webapp.documents import csv_text
from webapp.models import Job
from webapp.pages import takeoff_sheet as sheet
from webapp.pages.ask import Asked, Db, JobHere, Posted
from webapp.pages.view import page, system, with_query
from webapp.services import takeoff
from webapp.services.takeoff import WALL_ITSELF, JobTakeoff, Of
from webapp.store import Database, reading

router = APIRouter(prefix="/jobs/{job_id}/takeoff", include_in_schema=False)


def _found(db: Database, job: Job, asked: Posted) -> JobTakeoff:
    of = Of(asked.get("wall", ""), asked.get("kind", ""), asked.get("attachment", ""))
    with reading(db) as session:
        return takeoff.of_job(session, job.id, of)


@router.get("")
def takeoff_page(request: Request, db: Db, job: JobHere, asked: Asked) -> Response:
    """Totals with where they go, the bar list, concrete by lift, and what is not counted."""
    found, units = _found(db, job, asked), system(request)
    return page(
        request,
        "pages/takeoff.html",
        job=job,
        found=found,
        choices=_choices(found),
        csv={name: with_query(f"/jobs/{job.id}/takeoff/{name}.csv", _query(found.of)) for name in ("totals", "bars", "rows")},
        groups=sheet.groups(found, units),
        concrete=sheet.concrete_line(found, units),
        bars=sheet.bar_rows(found, units),
        weights=sheet.weight_rows(found, units),
        pours=sheet.pours(found, units),
        outside=OUTSIDE,
    )  # fmt: skip


def _query(of: Of) -> dict[str, str]:
    return {"wall": of.wall, "kind": of.kind, "attachment": of.tag}


def _choices(found: JobTakeoff) -> list[tuple[str, str, list[tuple[str, str]], str]]:
    """Selects of the filter: name, label, options, chosen."""
    kinds = dict.fromkeys(found.tags.values())
    walls = [("", "All"), *((name, name) for name in found.walls)]
    of_kind = [
        ("", "All"),
        (WALL_ITSELF, "the walls themselves"),
        *((kind, attachments.kind(kind).name) for kind in kinds),
    ]
    tags = [("", "All"), *((tag, f"{tag}, {attachments.kind(kind).name}") for tag, kind in found.tags.items())]
    return [
        ("wall", "Wall", walls, found.of.wall),
        ("kind", "Kind", of_kind, found.of.kind),
        ("attachment", "Attachment", tags, found.of.tag),
    ]


@router.get("/rows.csv")
def rows_csv(db: Db, job: JobHere, asked: Asked) -> Response:
    """Every row: what, how much, where to, where from."""
    found = _found(db, job, asked)
    return _csv(found, "rows", HEADINGS, records(found.rows, found.waste))


@router.get("/totals.csv")
def totals_csv(db: Db, job: JobHere, asked: Asked) -> Response:
    """What to buy."""
    found = _found(db, job, asked)
    return _csv(found, "totals", TOTAL_HEADINGS, total_records(found.totals))


@router.get("/bars.csv")
def bars_csv(db: Db, job: JobHere, asked: Asked) -> Response:
    """The bar list."""
    found = _found(db, job, asked)
    return _csv(found, "bars", BAR_HEADINGS, bar_records(found.bars))


def _csv(found: JobTakeoff, name: str, columns: Sequence[str], rows: Iterable[Sequence[str]]) -> Response:
    job = found.job
    left = [f"Not counted: {' '.join(filter(None, (one.wall, one.tag)))}: {one.why}" for one in found.left_out]
    part = [f"Part of the job: {', '.join(text for text in _query(found.of).values() if text)}."] if found.of else []
    outside = f"Not counted at all: {'; '.join(OUTSIDE)}."
    text = csv_text.write(columns, rows, *part, *left, outside, f"{job.name}, {job.edition}, engine {VERSION}")
    plain = re.sub(r"[^A-Za-z0-9]+", "-", f"{job.name}-takeoff-{name}").strip("-").lower()[:80]
    kind = {"Content-Disposition": f'attachment; filename="{plain}.csv"'}
    return Response(text, media_type="text/csv; charset=utf-8", headers=kind)
