"""A review link: what it opens is shown first; only its button opens it, since mail programs look at links by themselves."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.pages.ask import Db
from webapp.pages.sign_in import address, device, keep
from webapp.pages.view import page
from webapp.services import revisions
from webapp.services.refusals import Refused
from webapp.store import reading

router = APIRouter(prefix="/r", include_in_schema=False)


@router.get("/{token}")
def look(request: Request, db: Db, token: str) -> Response:
    """Which job and revision it opens, for whom, until when."""
    try:
        with reading(db) as session:
            opened = revisions.look_at_link(session, token)
    except Refused as refused:
        return page(request, "pages/review_link.html", status=410, opened=None, token="", why=refused.errors[""])
    return page(request, "pages/review_link.html", opened=opened, token=token, why="")


@router.post("/{token}")
def open_link(request: Request, db: Db, token: str) -> Response:
    """Open it, once."""
    try:
        held, job_id, number = revisions.open_link(db, token, address(request), device(request))
    except Refused as refused:
        return page(request, "pages/review_link.html", status=410, opened=None, token="", why=refused.errors[""])
    return keep(request, held, f"/jobs/{job_id}/review/{number}")
