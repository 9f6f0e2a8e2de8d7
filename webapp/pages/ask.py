"""What handlers ask of a request: the database, the fields of a form, the job in the address, a list's wishes.

What waits for nothing is `async`: anything else is handed to a thread, and a request would wait for one each time.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends, Path, Query, Request
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException

from engine.units import System
from webapp import permissions
from webapp.models import Job
from webapp.pages.view import session_cookie, system
from webapp.problem import about_api
from webapp.services import api_tokens, audit, jobs, sign_in
from webapp.services.listing import MOST, USUAL, Wanted
from webapp.services.refusals import Missing
from webapp.services.sign_in import Seen
from webapp.store import Database, reading

MOST_FILES = 20
MOST_FIELDS = 1000  # the stations of a long wall, a field each
LONGEST_FIELD = 900_000


async def database(request: Request) -> Database:
    """The one database of the application."""
    db: Database = request.app.state.db
    return db


Db = Annotated[Database, Depends(database)]


class NotSignedIn(Exception):
    """Nobody is signed in and the page asks for somebody."""


class NoSecond(Exception):
    """Whoever is signed in must set up a second factor before anything else."""


class NotForThem(Exception):
    """Whoever is signed in has not the role for this. Args: roles: which have."""

    def __init__(self, roles: Iterable[str]) -> None:
        super().__init__("not for this role")
        self.roles = sorted(roles)


def permitted(request: Request, db: Db) -> None:
    """Let a request pass that its route's row in `permissions` allows, and only to jobs of the person's own office.

    Puts whoever it is into `request.state.seen`, the job into `request.state.job`. Raises: NotSignedIn, NotForThem; Missing for a
    job of another office; NoSecond where one is demanded. What anybody may read without signing in, they may too, as nobody.
    """
    seen = _who(request, db)
    request.state.seen = seen
    roles = permissions.allowed(request.method, request.scope["route"].path)
    if roles is None:
        raise NotForThem(())
    if seen and seen.lacks_second and not _before_second(request):
        if roles is not permissions.ANYONE or request.url.path == "/":
            raise NoSecond
        request.state.seen = None
    if roles is permissions.ANYONE:
        return
    if seen is None:
        raise NotSignedIn
    if seen.role not in roles:
        _note_refusal(request, db, seen, f"as {seen.role}")
        raise Missing if seen.role == permissions.OUTSIDER else NotForThem(roles)
    if not _own_job(request, db, seen):
        _note_refusal(request, db, seen, "a job that is not theirs or not there")
        raise Missing


def _before_second(request: Request) -> bool:
    return f"{request.method} {request.scope['route'].path}" in permissions.WITHOUT_SECOND


def _note_refusal(request: Request, db: Database, seen: Seen, why: str) -> None:
    words = f"{request.method} {request.scope['route'].path}, {why}"
    audit.refused(db, seen.person_id, seen.office_id, words, request.client.host if request.client else "")


def _who(request: Request, db: Database) -> Seen | None:
    """By the token of a program, for the API and for what is only read; else by the session.

    A token that does not work is not made up for by a session, and none opens the account it was made on.
    """
    scheme, _, token = request.headers.get("authorization", "").partition(" ")
    path, reads = request.url.path, request.method in ("GET", "HEAD")
    if scheme.lower() == "bearer" and (about_api(path) or (reads and not path.startswith("/account"))):
        return api_tokens.who(db, token.strip())
    return sign_in.who(db, request.cookies.get(session_cookie(request), ""))


def _own_job(request: Request, db: Database, seen: Seen) -> bool:
    job_id = request.path_params.get("job_id")
    if job_id is None:
        return True
    number = int(job_id) if isinstance(job_id, (int, str)) and str(job_id).isdecimal() and len(str(job_id)) < 11 else 0
    with reading(db) as session:
        job = request.state.job = jobs.known(session, number)
    if job is None:
        return False
    return job.id == seen.job_id if seen.role == permissions.OUTSIDER else job.office_id == seen.office_id


async def seen_here(request: Request) -> Seen:
    """Whoever is signed in. Raises: NotSignedIn."""
    seen: Seen | None = getattr(request.state, "seen", None)
    if seen is None:
        raise NotSignedIn
    return seen


SeenHere = Annotated[Seen, Depends(seen_here)]


class Posted(dict[str, str]):
    """Fields of a form by name; of a name sent twice the last counts, all of them under `every`."""

    every: Mapping[str, list[str]]

    def version(self) -> int:
        """The state of the row the form was made from; 0 for a new one."""
        text = self.get("version", "0")
        return int(text) if text.isdecimal() and len(text) < 10 else 0

    def system(self) -> System:
        """The units a bare number was typed in."""
        return "mm" if self.get("units") == "mm" else "ft in"


def gathered(pairs: list[tuple[str, object]]) -> Posted:
    """The texts among a form's fields. Raises: HTTPException for one that can't be kept."""
    every: dict[str, list[str]] = {}
    for name, value in pairs:
        if isinstance(value, str):
            if "\x00" in value or len(value) > LONGEST_FIELD:
                raise HTTPException(400, "A field holds what can't be kept.")
            every.setdefault(name, []).append(value)
    fields = Posted({name: values[-1] for name, values in every.items()})
    fields.every = every
    return fields


async def posted(request: Request) -> Posted:
    """The form of a POST."""
    async with request.form(max_files=0, max_fields=MOST_FIELDS) as form:
        return gathered(list(form.multi_items()))


@dataclass(frozen=True, slots=True)
class File:
    """A file that came with a form, whole in memory; the body's limit bounds it."""

    name: str
    media: str
    data: bytes


class PostedFiles(Posted):
    """Fields of a form and its files, those without content left out."""

    files: list[File]


async def posted_files(request: Request) -> PostedFiles:
    """The form of a POST with files."""
    async with request.form(max_files=MOST_FILES, max_fields=MOST_FIELDS) as form:
        pairs = list(form.multi_items())
        fields = gathered([(name, value) for name, value in pairs if isinstance(value, str)])
        uploads = [value for _, value in pairs if isinstance(value, UploadFile)]
        files = [File(u.filename or "", u.content_type or "", await u.read()) for u in uploads]
    found = PostedFiles(fields)
    found.every, found.files = fields.every, [file for file in files if file.data]
    return found


async def queried(request: Request) -> Posted:
    """The same from an address."""
    fields = gathered(list(request.query_params.multi_items()))
    if fields and "units" not in fields:
        fields["units"] = system(request)
    return fields


Form = Annotated[Posted, Depends(posted)]
Uploaded = Annotated[PostedFiles, Depends(posted_files)]
Asked = Annotated[Posted, Depends(queried)]


# What a database can hold as an id; anything else is not there.
Id = Annotated[int, Path(ge=1, le=2**31 - 1)]


async def job_here(request: Request, job_id: Id) -> Job:
    """The job in the address, as `permitted` found it. Raises: Missing for one that is put away."""
    job: Job | None = getattr(request.state, "job", None)
    if job is None or job.deleted_at is not None:
        raise Missing
    return job


JobHere = Annotated[Job, Depends(job_here)]


async def wanted(
    q: Annotated[str, Query(max_length=100)] = "",
    verdict: Annotated[str, Query(max_length=20)] = "",
    sort: Annotated[str, Query(max_length=20)] = "",
    page: Annotated[int, Query(ge=1, le=100_000)] = 1,
    size: Annotated[int, Query(ge=10, le=MOST)] = USUAL,
) -> Wanted:
    """What a list is asked for."""
    return Wanted(q.strip().replace("\x00", ""), verdict, sort, page, size)


List = Annotated[Wanted, Depends(wanted)]
