"""The first administrator by the setup code, everybody else by the code an administrator hands over."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.pages.ask import Db, Form
from webapp.pages.sign_in import device, keep
from webapp.pages.view import lead_on, page
from webapp.services import people
from webapp.services.refusals import Refused
from webapp.store import reading

router = APIRouter(include_in_schema=False)


@router.get("/setup")
def ask_setup(request: Request, db: Db) -> Response:
    """The first office and its administrator; nothing once there is one."""
    with reading(db) as session:
        if people.any_yet(session):
            return lead_on("/sign-in")
    return page(request, "pages/setup.html", values={}, errors={})


@router.post("/setup")
def set_up(request: Request, db: Db, form: Form) -> Response:
    """Make them and sign in."""
    asked = {name: form.get(name, "") for name in ("code", "office", "name", "sign_in", "password")}
    try:
        token = people.set_up(db, **asked, device=device(request))
    except Refused as refused:
        values = asked | {"password": ""}
        return page(request, "pages/setup.html", status=422, values=values, errors=refused.errors)
    return keep(request, token, "/jobs", "The office is ready. Make a job, or add people.")


@router.get("/join")
def ask_join(request: Request) -> Response:
    """A first password, or a new one."""
    return page(request, "pages/join.html", values={}, errors={})


@router.post("/join")
def join(request: Request, db: Db, form: Form) -> Response:
    """Keep the password and sign in."""
    asked = {name: form.get(name, "") for name in ("sign_in", "code", "password")}
    try:
        token = people.join(db, **asked, device=device(request))
    except Refused as refused:
        return page(request, "pages/join.html", status=422, values=asked | {"password": ""}, errors=refused.errors)
    return keep(request, token, "/jobs", "Your password is kept.")
