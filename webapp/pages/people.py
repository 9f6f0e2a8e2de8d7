"""The people of the office: added with a code to hand over, changed, put away."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.documents import csv_text
from webapp.models import Person
from webapp.pages.ask import Db, Form, Id, SeenHere
from webapp.pages.view import lead_on, page
from webapp.permissions import ROLES
from webapp.services import people
from webapp.services.refusals import Refused, Stale
from webapp.services.sign_in import Seen
from webapp.store import Database, reading

router = APIRouter(prefix="/people", include_in_schema=False)
COLUMNS = ("name", "signs in as", "role", "state")


@router.get("")
def everybody(request: Request, db: Db, seen: SeenHere) -> Response:
    """Everybody of the office."""
    return _list(request, db, seen)


def _list(
    request: Request,
    db: Database,
    seen: Seen,
    values: Mapping[str, str] | None = None,
    errors: Mapping[str, str] | None = None,
    handed: tuple[str, str] | None = None,
) -> Response:
    with reading(db) as session:
        found = people.of_office(session, seen.office_id)
    return page(
        request, "pages/people.html", status=422 if errors else 200, seen=seen, people=found, state=state, roles=ROLES,
        values=values or {"role": "designer"}, errors=errors or {}, handed=handed,
    )  # fmt: skip


@router.get("/people.csv")
def people_csv(db: Db, seen: SeenHere) -> Response:
    """The same as a table."""
    with reading(db) as session:
        rows = [(p.name, p.sign_in, p.role, state(p)) for p in people.of_office(session, seen.office_id)]
    headers = {"Content-Disposition": 'attachment; filename="people.csv"'}
    return Response(csv_text.write(COLUMNS, rows, seen.office), media_type="text/csv; charset=utf-8", headers=headers)


def state(person: Person) -> str:
    """How somebody stands, in words."""
    if person.deleted_at:
        return "put away"
    if person.password:
        return "with a second factor" if person.second else "signs in"
    return "has a code to use" if person.code else "has no password yet"


@router.post("")
def add(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Add somebody; the code is shown once."""
    asked = {name: form.get(name, "") for name in ("name", "sign_in", "role")}
    try:
        _, code = people.add(db, seen, **asked)
    except Refused as refused:
        return _list(request, db, seen, asked, refused.errors)
    return _list(request, db, seen, handed=(asked["name"], code))


@router.get("/{person_id}")
def person(request: Request, db: Db, seen: SeenHere, person_id: Id) -> Response:
    """One of them."""
    return _person(request, db, seen, person_id)


def _person(
    request: Request, db: Database, seen: Seen, person_id: int, errors: Mapping[str, str] | None = None, code: str = ""
) -> Response:
    with reading(db) as session:
        found = people.find(session, seen, person_id)
    return page(
        request, "pages/person.html", status=422 if errors else 200, person=found, roles=ROLES, errors=errors or {}, code=code,
        state=state(found),
    )  # fmt: skip


@router.post("/{person_id}")
def change(request: Request, db: Db, seen: SeenHere, person_id: Id, form: Form) -> Response:
    """Change name and role."""
    try:
        people.change(db, seen, person_id, form.get("name", ""), form.get("role", ""), form.version())
    except Refused as refused:
        return _person(request, db, seen, person_id, refused.errors)
    except Stale:
        return _person(
            request, db, seen, person_id, {"name": "Somebody changed this meanwhile. It is shown as it is now."}
        )
    return lead_on("/people", "Saved.")


@router.post("/{person_id}/code")
def new_code(request: Request, db: Db, seen: SeenHere, person_id: Id) -> Response:
    """A code for a new password, shown once."""
    return _person(request, db, seen, person_id, code=people.new_code(db, seen, person_id))


@router.post("/{person_id}/delete")
def put_away(request: Request, db: Db, seen: SeenHere, person_id: Id) -> Response:
    """Somebody leaves."""
    try:
        name = people.put_away(db, seen, person_id)
    except Refused as refused:
        return _person(request, db, seen, person_id, {"role": refused.errors[""]})
    return lead_on("/people", f"{name} can no longer sign in.", f"/people/{person_id}/restore")


@router.post("/{person_id}/restore")
def bring_back(db: Db, seen: SeenHere, person_id: Id) -> Response:
    """Somebody comes back."""
    name = people.bring_back(db, seen, person_id)
    return lead_on("/people", f"{name} can sign in again.")
