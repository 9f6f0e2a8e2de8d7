"""Whether a print is the one to build from: where the code on a sheet leads."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.pages.ask import Db
from webapp.pages.view import page
from webapp.services import revisions
from webapp.store import reading
from webapp.submission.document import short

router = APIRouter(prefix="/print", include_in_schema=False)


@router.get("/{fingerprint}")
def print_page(request: Request, db: Db, fingerprint: str) -> Response:
    """Current, superseded or unknown; nothing else of the job is shown to whoever is not signed in."""
    with reading(db) as session:
        found = revisions.currency(session, fingerprint[:64])
    status = 404 if found.state == "unknown" else 200
    return page(
        request, "pages/currency.html", status=status, found=found, short=short(fingerprint.replace(" ", "").lower())
    )
