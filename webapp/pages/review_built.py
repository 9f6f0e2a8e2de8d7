"""What was built beside what was drawn, and what must be put right before framing; on a page and as a table."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.result import ratio_words
from engine.units import show
from webapp.documents import csv_text
from webapp.pages import review_view
from webapp.pages.ask import Db, Id, JobHere, SeenHere
from webapp.pages.view import page, system
from webapp.services import as_built, reviews
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}/review/{number}", include_in_schema=False)
COLUMNS = (
    "place", "kind", "wall", "storey", "stage", "measured", "drawn", "built", "of the measure", "verdict as drawn",
    "ratio as drawn", "verdict as built", "ratio as built", "governs as built",
)  # fmt: skip


@router.get("/as-built")
def built(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id) -> Response:
    """Every place of which something was measured."""
    with reading(db) as session:
        review = reviews.look(session, seen, job.id, number)
    found = as_built.rows(review)
    return page(
        request, "pages/review_built.html", job=job, rows=found, wrong=as_built.to_put_right(review, found),
        not_seen=as_built.not_seen(review), address=review_view.address, ratio=ratio_words, **review_view.common(review, seen),
    )  # fmt: skip


@router.get("/as-built.csv")
def built_csv(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id) -> Response:
    """A row for each measure, in the reader's units."""
    with reading(db) as session:
        review = reviews.look(session, seen, job.id, number)
    units = system(request)
    rows = [
        (
            row.place.key, row.place.name, row.place.wall, row.place.level, off.stage, off.words, show(off.drawn_in, "in", units),
            show(off.built_in, "in", units), off.verdict, row.drawn, ratio_words(row.drawn_ratio), row.verdict,
            ratio_words(row.governs.ratio) if row.governs else "", row.governs.title if row.governs else row.why,
        )
        for row in as_built.rows(review)
        for off in row.offs
    ]  # fmt: skip
    revision = review.revision
    text = csv_text.write(COLUMNS, rows, f"{job.name}, revision {revision.letter}, {revision.fingerprint}")
    name = f"revision-{revision.letter}-as-built.csv"
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(text, media_type="text/csv; charset=utf-8", headers=headers)
