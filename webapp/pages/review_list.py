"""Revisions that wait for a reviewer of the office."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.documents import csv_text
from webapp.pages.ask import Db, SeenHere
from webapp.pages.view import page
from webapp.services import log, revisions
from webapp.store import reading
from webapp.submission import document

router = APIRouter(prefix="/reviews", include_in_schema=False)


@router.get("")
def waiting(request: Request, db: Db, seen: SeenHere) -> Response:
    """The oldest first."""
    with reading(db) as session:
        found = revisions.waiting(session, seen.office_id)
    return page(request, "pages/review_list.html", found=found, short=document.short)


@router.get(".csv")
def waiting_csv(db: Db, seen: SeenHere) -> Response:
    """The same as a table."""
    with reading(db) as session:
        found = revisions.waiting(session, seen.office_id)
    rows = [
        (name, row.letter, row.state, log.utc(row.made_at), row.by_name, row.fingerprint, row.note)
        for row, name in found
    ]
    text = csv_text.write(("job", "revision", "state", "submitted", "by", "fingerprint", "note"), rows)
    headers = {"Content-Disposition": 'attachment; filename="reviews.csv"'}
    return Response(text, media_type="text/csv; charset=utf-8", headers=headers)
