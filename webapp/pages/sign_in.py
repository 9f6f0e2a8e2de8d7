"""Signing in and out; in the demo, as anyone by pressing a button."""

from ipaddress import ip_address

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.pages.ask import Db, Form, Posted, SeenHere
from webapp.pages.view import lead_on, own_path, page, session_cookie
from webapp.permissions import ROLES
from webapp.services import people, sign_in
from webapp.services.refusals import Missing, Refused
from webapp.store import reading

router = APIRouter(include_in_schema=False)
UNKNOWN_DEVICE = "an unnamed browser"


def keep(request: Request, token: str, path: str, text: str = "") -> Response:
    """Go on with a session just begun."""
    response = lead_on(path, text)
    response.set_cookie(
        session_cookie(request), token, max_age=int(sign_in.LONGEST.total_seconds()), httponly=True, samesite="lax",
        secure=request.app.state.https, path="/",
    )  # fmt: skip
    return response


def device(request: Request) -> str:
    """What the browser says it is."""
    return request.headers.get("user-agent", "")[:200] or UNKNOWN_DEVICE


def address(request: Request) -> str:
    """Where a request comes from; a proxy's word counts only where the server was told to trust it."""
    return request.client.host if request.client else ""


@router.get("/sign-in")
def ask(request: Request, db: Db, next: str = "/") -> Response:
    """Name and password; before anybody is here, the way to set up."""
    with reading(db) as session:
        if not people.any_yet(session):
            return lead_on("/setup")
    return _ask(request, {"next": own_path(next)})


def _ask(request: Request, values: dict[str, str], errors: dict[str, str] | None = None, status: int = 200) -> Response:
    return page(
        request, "pages/sign_in.html", status=status, values=values, errors=errors or {}, roles=_demo_roles(request)
    )


def _demo_roles(request: Request) -> tuple[str, ...]:
    return ROLES if request.app.state.demo and _here(request) else ()


def _here(request: Request) -> bool:
    try:
        return ip_address(address(request)).is_loopback
    except ValueError:
        return address(request) == "testclient"


@router.post("/sign-in")
def enter(request: Request, db: Db, form: Form) -> Response:
    """Begin a session, or say in the same words whatever was wrong."""
    path = own_path(form.get("next", "/"))
    try:
        token = sign_in.enter(
            db,
            form.get("sign_in", ""),
            form.get("password", ""),
            form.get("code", ""),
            address(request),
            device(request),
        )
    except Refused as refused:
        kept = {"next": path, "sign_in": form.get("sign_in", "")}
        return _ask(request, kept, {"sign_in": refused.errors[""]}, 401)
    return keep(request, token, path)


@router.post("/sign-in/demo")
def enter_demo(request: Request, db: Db, form: Form) -> Response:
    """Begin a session as one of the demo's people. Raises: Missing outside the demo, or from another machine."""
    role = form.get("role", "")
    if role not in _demo_roles(request):
        raise Missing
    return keep(
        request, sign_in.as_role(db, role, device(request)), own_path(form.get("next", "/")), f"You are in as {role}."
    )


@router.post("/sign-out")
def leave(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """End this session."""
    return out(request, db, seen, form)


def out(request: Request, db: Db, seen: sign_in.Seen, form: Posted) -> Response:
    """End a session and go to the first page."""
    sign_in.leave(db, seen)
    response = lead_on("/sign-in", "You are signed out.")
    response.delete_cookie(
        session_cookie(request), path="/", secure=request.app.state.https, httponly=True, samesite="lax"
    )
    return response
