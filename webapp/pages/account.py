"""One's own account: password, second factor, and where one is signed in."""

from collections.abc import Mapping

import segno
from fastapi import APIRouter, Request
from markupsafe import Markup
from starlette.responses import Response

from webapp.credentials import second
from webapp.pages.ask import Db, Form, Id, SeenHere
from webapp.pages.view import lead_on, page
from webapp.services import api_tokens, offices, people, sign_in
from webapp.services.refusals import Refused
from webapp.services.sign_in import Seen
from webapp.store import Database, reading

router = APIRouter(prefix="/account", include_in_schema=False)


@router.get("")
def account(request: Request, db: Db, seen: SeenHere) -> Response:
    """Name and role, sessions, and the ways to change what is one's own."""
    return _account(request, db, seen)


def _account(
    request: Request, db: Database, seen: Seen, errors: Mapping[str, str] | None = None, made: str = ""
) -> Response:
    with reading(db) as session:
        person, sessions = people.find(session, seen, seen.person_id), sign_in.own(session, seen)
        programs = api_tokens.own(session, seen)
        must = sign_in.must_have_second(offices.office(session, seen.office_id).second_for, person)
    return page(
        request, "pages/account.html", status=422 if errors else 200, seen=seen, person=person, sessions=sessions,
        errors=errors or {}, programs=programs, must=must, made=made, until=lambda token: token.made_at + api_tokens.LASTS,
    )  # fmt: skip


@router.post("/tokens")
def make_token(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """A token for a program, shown once."""
    try:
        token = api_tokens.make(db, seen, form.get("name", ""))
    except Refused as refused:
        return _account(request, db, seen, refused.errors)
    return _account(request, db, seen, made=token)


@router.post("/tokens/{token_id}/revoke")
def revoke_token(db: Db, seen: SeenHere, token_id: Id) -> Response:
    """Take one of one's own back."""
    return lead_on("/account", f"{api_tokens.revoke(db, seen, token_id)} can no longer do anything for you.")


@router.post("/password")
def change_password(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep a new password."""
    try:
        people.change_password(db, seen, form.get("old", ""), form.get("new", ""))
    except Refused as refused:
        return _account(request, db, seen, refused.errors)
    return lead_on("/account", "The password is changed; other sessions of yours have ended.")


@router.post("/sessions/{session_id}/end")
def end_session(db: Db, seen: SeenHere, session_id: Id) -> Response:
    """End one of one's sessions."""
    sign_in.end(db, seen, session_id)
    return lead_on("/account", "That session has ended.")


@router.get("/second")
def ask_second(request: Request, seen: SeenHere) -> Response:
    """A code to scan with a device."""
    return _second(request, seen, second.new_secret(), {})


def _second(request: Request, seen: Seen, secret: str, errors: Mapping[str, str]) -> Response:
    secret = secret if second.whole(secret) else second.new_secret()
    code = segno.make(second.address(secret, seen.sign_in), error="m")
    picture = Markup(code.svg_inline(scale=5, border=4, svgclass="scan", lineclass=None, title="Code to scan"))
    return page(
        request,
        "pages/account_second.html",
        status=422 if errors else 200,
        secret=secret,
        must=seen.lacks_second,
        picture=picture,
        errors=errors,
    )


@router.post("/second")
def set_second(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Ask for the device's code from now on; without a secret, stop asking."""
    secret = form.get("secret", "")
    try:
        people.set_second(db, seen, secret, form.get("code", ""))
    except Refused as refused:
        if "second" in refused.errors:
            return _account(request, db, seen, refused.errors)
        return _second(request, seen, secret, refused.errors)
    return lead_on(
        "/account", "A code is asked for at every sign-in now." if secret else "No code is asked for any more."
    )
