"""Of whom the office demands a second factor: an administrator's to say."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.pages.ask import Db, Form, SeenHere
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page
from webapp.services import offices, people
from webapp.services.sign_in import Seen
from webapp.store import Database, reading

ADDRESS = "/office/second"
router = APIRouter(prefix=ADDRESS, include_in_schema=False)


@router.get("")
def demand(request: Request, db: Db, seen: SeenHere) -> Response:
    """The demand, and who has no second factor yet."""
    return _form(request, db, seen)


def _form(
    request: Request,
    db: Database,
    seen: Seen,
    typed: str | None = None,
    version: int | None = None,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    heading: str = "",
) -> Response:
    with reading(db) as session:
        row, without = offices.office(session, seen.office_id), people.without_second(session, seen.office_id)
    return page(
        request,
        "pages/office_second.html",
        status=status,
        value=row.second_for if typed is None else typed,
        choices=list(offices.DEMANDS.items()),
        without=without,
        version=row.version if version is None else version,
        errors=dict(errors or {}),
        heading=heading,
    )


@router.post("")
def keep(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep it; whoever it is demanded of and has none is led to set it up by the next request."""
    typed = form.get("second_for", "")

    def save() -> Response:
        offices.demand_second(db, seen, form.version(), typed)
        return lead_on(ADDRESS, f"A second factor is asked of {offices.DEMANDS[typed]} from now on.")

    def again(version: int | None = None, **shown: object) -> Response:
        return _form(request, db, seen, typed, form.version() if version is None else version, **shown)  # type: ignore[arg-type]

    def kept_now() -> tuple[int, dict[str, str]]:
        with reading(db) as session:
            row = offices.office(session, seen.office_id)
        return row.version, differing({"second_for": typed}, {"second_for": row.second_for})

    return save_or_show(save, again, kept_now)
