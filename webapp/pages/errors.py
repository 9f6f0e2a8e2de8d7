"""Pages for what went wrong; they say what to do and reveal nothing of the inside."""

import logging
import re
from collections.abc import Mapping, Sequence
from typing import Any

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect
from starlette.responses import JSONResponse, PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from webapp.observed.requests import route
from webapp.pages.ask import MOST_FIELDS, MOST_FILES, NoSecond, NotForThem, NotSignedIn
from webapp.pages.view import here, lead_on, page, wants_part, with_query
from webapp.problem import about_api, problem
from webapp.services.outages import TROUBLES, Outage, outage
from webapp.services.refusals import Missing

log = logging.getLogger("wallseat")

WORDS: Mapping[int, tuple[str, str]] = {
    400: ("That could not be read", "The address or the form holds something this page can't take. Go back and try again."),
    401: ("Sign in first", "Nobody is signed in here, or the session has ended. What you typed is still in the form: sign in in "
          "another tab, come back to this one and send it again."),
    403: ("This is not yours to do", "Your role has no part in this. Ask an administrator of your office, or go back."),
    404: ("There is nothing here", "The address is wrong, or what was here has been deleted. Deleted things can be brought back "
          "from the page that deleted them."),
    405: ("That can't be done here", "This address does not take what was sent. Go back and use the page's own buttons."),
    500: ("Something went wrong here", "The program met an error it did not expect. Nothing of this request was kept. Try again; "
          "if it happens twice, tell whoever looks after this installation the number below."),
}  # fmt: skip


# What is the matter with the database: heading, what to do, seconds after which trying again makes sense.
UNKEPT = "Nothing of this request was kept."
OUTAGES: Mapping[Outage, tuple[str, str, int]] = {
    "busy": ("Too much at once", f"Others were writing at this moment. {UNKEPT} Try again.", 2),
    "away": ("The database can't be reached", "Whether something that was sent at this very moment was kept can't be known: look "
             "before you send it again. Try in a minute; if it stays so, tell whoever looks after this installation.", 10),
    "full": ("No room to write", f"The disk of this installation is full. {UNKEPT} What was stored before is there and can be "
             "read. Tell whoever looks after this installation to make room; then try again.", 60),
    "read only": ("Only reading is possible", f"The database can't be written to. {UNKEPT} What was stored before is there and can "
                  "be read. Tell whoever looks after this installation to look at the rights of its files; then try again.", 60),
    "damaged": ("The database is damaged", f"{UNKEPT} Tell whoever looks after this installation: `wallseat doctor` says what is "
                "wrong, and a backup brings back what was there.", 300),
}  # fmt: skip
SECOND = "/account/second"
NO_SECOND = (
    "Set up a second factor first",
    "Your office asks for one. Nothing of this request was kept: set it up on your account's page, come back to the form and "
    "send it again.",
)
MOST_KEPT = 200_000
SECRET = re.compile("password|code|token", re.IGNORECASE)


def answer(request: Request, status: int) -> Response:
    """The page, or the JSON, for a status."""
    heading, text = WORDS.get(status, WORDS[400 if status < 500 else 500])
    if about_api(request.url.path):
        return JSONResponse(problem(status), status, {"WWW-Authenticate": "Bearer"} if status == 401 else None)
    return _page(request, status, heading, text)


def _page(
    request: Request, status: int, heading: str, text: str, again: Sequence[tuple[str, str]] | None = None
) -> Response:
    """Args: again: the fields of a form, which can be sent once more from the page."""
    # "div#result": the element and the id of what the answer is to replace
    target = re.search(r"#([A-Za-z][\w-]{0,40})$", request.headers.get("hx-target", ""))
    return page(
        request,
        "pages/error.html",
        part="pages/parts/error.html",
        status=status,
        heading=heading,
        text=text,
        target=target[1] if target else "",
        request_id=request_id(request),
        again=again,
        back=status == 503 and request.method == "POST",
        to=with_query(request.url.path, dict(request.query_params)),
    )


def request_id(request: Request) -> str:
    """The id the log knows a request by."""
    return str(getattr(request.state, "request_id", ""))


async def _out(request: Request, error: Exception) -> Response:
    """The database can't just now: 503, with what was typed to be sent again. Other faults of a statement pass on."""
    found = outage(error)
    if found is None:
        raise error
    heading, text, wait = OUTAGES[found]
    log.error("database " + found, extra={"said": {"request": request_id(request), "route": route(request.scope)}})
    if about_api(request.url.path):
        response: Response = JSONResponse(problem(503, text, outage=found), 503)
    else:
        response = _page(request, 503, heading, text, await _typed(request))
    response.headers["Retry-After"] = str(wait)
    return response


async def _typed(request: Request) -> list[tuple[str, str]] | None:
    """The fields of a form post; None where it holds secrets or files, is too long, or is no form."""
    if request.method != "POST":
        return None
    try:
        pairs = list((await request.form(max_files=MOST_FILES, max_fields=MOST_FIELDS)).multi_items())
    except (HTTPException, RuntimeError):  # what was sent is no form, or was read before
        return None
    texts = [(name, value) for name, value in pairs if isinstance(value, str)]
    files = any(not isinstance(value, str) and value.filename for _, value in pairs)
    secret = any(SECRET.search(name) for name, _ in texts)
    return None if files or secret or sum(len(value) for _, value in texts) > MOST_KEPT else texts


def _missing(request: Request, error: Exception) -> Response:
    return answer(request, 404)


def _not_signed_in(request: Request, error: Exception) -> Response:
    if request.method in ("GET", "HEAD") and not wants_part(request) and not about_api(request.url.path):
        return lead_on(with_query("/sign-in", {"next": here(request)}))
    return answer(request, 401)


def _no_second(request: Request, error: Exception) -> Response:
    if about_api(request.url.path):
        return JSONResponse(problem(403, " ".join(NO_SECOND), error="no_second_factor"), 403)
    if request.method in ("GET", "HEAD") and not wants_part(request):
        return lead_on(SECOND)
    return _page(request, 403, *NO_SECOND)


def _not_for_them(request: Request, error: Exception) -> Response:
    return answer(request, 403)


def _http(request: Request, error: Exception) -> Response:
    response = answer(request, error.status_code if isinstance(error, HTTPException) else 500)
    if isinstance(error, HTTPException) and error.headers:
        response.headers.update(error.headers)
    return response


def _unfit(request: Request, error: Exception) -> Response:
    found = error.errors() if isinstance(error, RequestValidationError) else []
    if "path" in {e["loc"][0] for e in found}:
        return answer(request, 404)
    if about_api(request.url.path):
        return JSONResponse(problem(422, fields={_field(e): e["msg"] for e in found}), 422)
    return answer(request, 400)


def _field(error: Mapping[str, Any]) -> str:
    """Which part of a request is meant: "inputs.span_ft"; "" for a body that is no JSON."""
    return "" if error["type"] == "json_invalid" else ".".join(map(str, error["loc"][1:]))


class CatchAll:
    """The outermost net: an error nobody foresaw is logged and answered with a page that keeps it to itself."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on, or answer 500."""
        begun = False

        async def watched(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            await self.app(scope, receive, watched)
        except ClientDisconnect:
            return  # whoever asked has gone: nothing was read to its end, nothing kept, nobody to answer
        except Exception as error:
            if scope["type"] != "http" or begun:
                raise
            request = Request(scope)
            log.error("failed", exc_info=error, extra={"said": {"request": request_id(request), "route": route(scope)}})
            await _last_words(request)(scope, receive, send)


def _last_words(request: Request) -> Response:
    try:
        return answer(request, 500)
    except Exception:  # the page itself is what fails
        return PlainTextResponse("\n".join(WORDS[500]), 500)


def register(app: FastAPI) -> None:
    """Answer every failure with a page."""
    for kind in TROUBLES:
        app.add_exception_handler(kind, _out)
    app.add_exception_handler(Missing, _missing)
    app.add_exception_handler(NotSignedIn, _not_signed_in)
    app.add_exception_handler(NoSecond, _no_second)
    app.add_exception_handler(NotForThem, _not_for_them)
    app.add_exception_handler(HTTPException, _http)
    app.add_exception_handler(RequestValidationError, _unfit)
