"""The first page, and the switch of units."""

from typing import Annotated

from fastapi import APIRouter, Form, Request
from starlette.responses import Response

from webapp.pages.ask import Db
from webapp.pages.view import UNITS, lead_on, own_path, page, seen
from webapp.permissions import ROLES
from webapp.services import checks, jobs, people
from webapp.services.listing import Wanted
from webapp.store import reading

router = APIRouter(include_in_schema=False)
ON_FIRST_PAGE = 10
YEAR_S = 365 * 24 * 3600


@router.get("/")
def home(request: Request, db: Db) -> Response:
    """What this is, the way to a first verdict, and the jobs last changed."""
    reader = seen(request)
    with reading(db) as session:
        if not people.any_yet(session) and not request.app.state.demo:
            return lead_on("/setup")
        found = jobs.page(session, reader.office_id, Wanted(size=ON_FIRST_PAGE)) if reader else None
        first = jobs.first_id(session, reader.office_id) if reader else None
    return page(
        request, "pages/home.html", found=found, first=first, kinds=checks.offered(), roles=ROLES if not reader else ()
    )


@router.post("/units")
def switch_units(units: Annotated[str, Form()] = "", back: Annotated[str, Form()] = "/") -> Response:
    """Remember the reader's units and go back to the page."""
    response = lead_on(own_path(back))
    response.set_cookie(UNITS, "mm" if units == "mm" else "ft in", max_age=YEAR_S, httponly=True, samesite="lax")
    return response
