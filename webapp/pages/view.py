"""From a handler's context to an answer: what every page is given, and how an answer leads on to the next page."""

import base64
import json
import re
from collections.abc import Mapping
from functools import cache
from typing import Any, cast
from urllib.parse import quote, urlencode

from fastapi import Request
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup
from starlette.responses import HTMLResponse, RedirectResponse, Response

from engine import VERSION
from engine.editions import US_2021, edition
from engine.result import LOCAL_CODE
from engine.units import System
from webapp import filters
from webapp.folders import TEMPLATES
from webapp.models import Job
from webapp.permissions import ANYONE, OUTSIDER, allowed
from webapp.services.sign_in import Seen

NOTICE = "wallseat_notice"
UNITS = "wallseat_units"
SESSION, SESSION_HTTPS = "wallseat_session", "__Host-wallseat"
OWN_PATH = re.compile(r"/(?![/\\])[\x21-\x7e]*")


@cache
def environment() -> Environment:
    """The templates, with the filters and functions they use; compiled once a process, whatever the application."""
    env = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    filters.register(env)
    env.filters["day"] = lambda moment: f"{moment.day} {moment:%B %Y}"
    return env


def system(request: Request) -> System:
    """The reader's units: from the page's own address when it names them (a shared link), else from the cookie."""
    named = request.cookies.get(UNITS, "")
    return "mm" if named == "mm" else "ft in"


def session_cookie(request: Request) -> str:
    """The session's cookie: bound to this very host where the program is served over https."""
    return SESSION_HTTPS if request.app.state.https else SESSION


def seen(request: Request) -> Seen | None:
    """Whoever is signed in, None for nobody."""
    found: Seen | None = getattr(request.state, "seen", None)
    return found


def wants_part(request: Request) -> bool:
    """Whether a script asks for the changed part of a page only."""
    return "hx-request" in request.headers


def here(request: Request) -> str:
    """Where a reader comes back to after switching units."""
    if request.method != "GET":
        return request.url.path
    return f"{request.url.path}?{request.url.query}" if request.url.query else request.url.path


def navigation(request: Request) -> list[tuple[str, str, bool]]:
    """The office's places: (label, address, whether the reader is in it)."""
    path, reader = request.url.path, seen(request)
    if reader and reader.lacks_second:
        return []
    links = [("Jobs", "/jobs", path.startswith("/jobs"))]
    for label, place in (("Reviews", "/reviews"), ("Log", "/log"), ("Office", "/office"), ("People", "/people")):
        if reader and reader.role in (allowed("GET", place) or ANYONE):
            links.append((label, place, path.startswith(place)))
    return [
        *links,
        ("Try a check", "/try", path.startswith("/try")),
        ("How it was checked", "/proving", path.startswith("/proving")),
    ]


# A job's places in the order of its work: label, address below the job, and what else lies in it.
JOB_PLACES = (
    ("Attachments", "", ("/attachments", "/import")),
    ("Walls", "/walls", ()),
    ("Wall types", "/types", ()),
    ("Floor lines", "/floor-lines", ()),
    ("Setting out", "/setting-out", ()),
    ("Placing", "/placing", ()),
    ("Takeoff", "/takeoff", ()),
    ("Designs", "/designs", ()),
    ("Revisions", "/revisions", ("/review", "/package")),
    ("Ready to place?", "/ready", ()),
    ("Job log", "/log", ()),
)


def job_navigation(request: Request, job: Job | None) -> list[tuple[str, str, bool]]:
    """The places of the job a page is about; none for whoever sees one review only."""
    reader = seen(request)
    if job is None or reader is None or reader.role == OUTSIDER:
        return []
    own = f"/jobs/{job.id}"
    inner = request.url.path.removeprefix(own)
    return [
        (label, own + place, inner == place or inner.startswith(((place + "/",) if place else ()) + others))
        for label, place, others in JOB_PLACES
        if allowed("GET", "/jobs/{job_id}" + place) is not None
    ]


def account(request: Request) -> tuple[str, str]:
    """The way to one's own account, or to signing in."""
    reader = seen(request)
    return (reader.name, "/account") if reader else ("Sign in", with_query("/sign-in", {"next": here(request)}))


def foot(edition_key: str) -> str:
    """The editions a page was judged by, and the engine."""
    titles = list(dict.fromkeys(edition(edition_key).titles.values()))
    return f"{', '.join(titles)}. Engine {VERSION}"


def page(
    request: Request,
    template: str,
    *,
    status: int = 200,
    job: Job | None = None,
    edition_key: str = US_2021.key,
    part: str = "",
    **context: Any,
) -> Response:
    """Fill a template.

    Args: part: the template of the changed part, sent instead when a script asks for it. job: puts the job's own places in reach.
    """
    partial = bool(part) and wants_part(request)
    values = {
        "units": system(request),
        "nav": navigation(request),
        "job_nav": job_navigation(request, job),
        "here": here(request),
        "local_code": LOCAL_CODE,
        "footer_right": foot(job.edition if job else edition_key),
        "notice": None if partial else take_notice(request),
        "account": account(request),
        "demo": request.app.state.demo,
        "job": job,
        **context,
    }
    text = cast(Environment, request.app.state.templates).get_template(part if partial else template).render(values)
    response = HTMLResponse(text, status_code=status)
    if part:
        response.headers["Vary"] = "HX-Request"
    if values["notice"]:
        response.delete_cookie(NOTICE)
    return response


def fragment(request: Request, template: str, **context: Any) -> Markup:
    """A piece of a page filled in, to be kept: nothing of the reader is in it but what `context` says."""
    return Markup(cast(Environment, request.app.state.templates).get_template(template).render(context))


def take_notice(request: Request) -> dict[str, str] | None:
    """What was just done, from the cookie that led here; anything not of our making is dropped."""
    try:
        found = json.loads(base64.urlsafe_b64decode(request.cookies.get(NOTICE, "")))
        text, undo = str(found["text"])[:300], str(found["undo"])
    except (ValueError, KeyError, TypeError):
        return None
    return {"text": text, "undo": undo if re.fullmatch(r"/jobs/[\w/-]+", undo) else "", "undo_label": "Undo"}


def lead_on(path: str, text: str = "", undo: str = "") -> Response:
    """Go to a page after a change. Args: text: what was done, said there once. undo: where to post to take it back."""
    response = RedirectResponse(path, status_code=303)
    if text:
        packed = base64.urlsafe_b64encode(json.dumps({"text": text, "undo": undo}).encode()).decode()
        response.set_cookie(NOTICE, packed, max_age=60, httponly=True, samesite="lax")
    return response


def own_path(text: str, otherwise: str = "/") -> str:
    """A path of this program, never an address elsewhere."""
    return text if OWN_PATH.fullmatch(text) else otherwise


def with_query(path: str, values: Mapping[str, Any]) -> str:
    """A path with those values that are not empty."""
    query = urlencode({k: v for k, v in values.items() if v not in ("", None)}, quote_via=quote)
    return f"{path}?{query}" if query else path
