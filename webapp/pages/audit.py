"""What happened at the doors: sign-ins, refusals, changed credentials; for administrators."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.documents import csv_text
from webapp.pages.ask import Db, SeenHere
from webapp.pages.view import page
from webapp.services import audit
from webapp.services.log import utc
from webapp.store import reading

router = APIRouter(prefix="/people", include_in_schema=False)
COLUMNS = ("at (UTC)", "what", "who", "words", "place")


@router.get("/audit")
def events(request: Request, db: Db, seen: SeenHere, before: str = "") -> Response:
    """A page of them, the latest first."""
    number = int(before) if before.isdecimal() and len(before) < 12 else 0
    with reading(db) as session:
        found = audit.events(session, seen.office_id, number, audit.PAGE + 1)
    shown = found[: audit.PAGE]
    earlier = f"/people/audit?before={shown[-1].row.id}" if len(found) > audit.PAGE else ""
    return page(request, "pages/audit.html", found=shown, kinds=audit.KINDS, earlier=earlier, utc=utc)


@router.get("/audit.csv")
def events_csv(db: Db, seen: SeenHere) -> Response:
    """All that is kept."""
    with reading(db) as session:
        found = audit.events(session, seen.office_id, most=None)
    rows = [(utc(e.row.at), audit.KINDS.get(e.row.what, e.row.what), e.name, e.row.words, e.row.address) for e in found]
    headers = {"Content-Disposition": 'attachment; filename="audit.csv"'}
    return Response(csv_text.write(COLUMNS, rows, seen.office), media_type="text/csv; charset=utf-8", headers=headers)
