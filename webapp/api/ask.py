"""What handlers of the API ask of a request. Who may ask is settled before any of them: see `pages.ask.permitted`."""

from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import Depends, Path, Query, Request, Security
from fastapi.security import APIKeyCookie, HTTPBearer

from webapp.models import Job
from webapp.services.listing import MOST, USUAL, Wanted
from webapp.services.refusals import Missing
from webapp.services.sign_in import Seen
from webapp.store import Database

LARGEST = 2**31 - 1
# For the description only: who may ask is settled in `pages.ask.permitted`.
SIGNED = (
    Security(HTTPBearer(auto_error=False, description="A token made on your account's page.")),
    Security(APIKeyCookie(name="wallseat_session", auto_error=False, description="The session of a browser.")),
)


async def database(request: Request) -> Database:
    """The one database of the application."""
    db: Database = request.app.state.db
    return db


async def who(request: Request) -> Seen:
    """Whoever asks; the route's row in `permissions` lets nobody else this far."""
    seen: Seen = request.state.seen
    return seen


Db = Annotated[Database, Depends(database)]
Who = Annotated[Seen, Depends(who)]
JobId = Annotated[int, Path(ge=1, le=LARGEST, description="Number of the job.")]
Id = Annotated[int, Path(ge=1, le=LARGEST, description="Its number, as the list gives it.")]
Tag = Annotated[str, Path(max_length=12, description='Tag of the attachment: "A1".')]
Version = Annotated[int, Query(ge=0, le=LARGEST, description="The version you read.")]


async def job_here(request: Request, job_id: JobId) -> Job:
    """The job in the address, as `pages.ask.permitted` found it. Raises: Missing for one that is put away."""
    job: Job | None = getattr(request.state, "job", None)
    if job is None or job.deleted_at is not None:
        raise Missing
    return job


JobHere = Annotated[Job, Depends(job_here)]


async def part(
    q: Annotated[str, Query(max_length=100, description="Words to find.")] = "",
    page: Annotated[int, Query(ge=1, le=100_000, description="Part of the list, from 1.")] = 1,
    size: Annotated[int, Query(ge=1, le=MOST, description="Rows in a part.")] = USUAL,
) -> Wanted:
    """Which part of a list is asked for."""
    return Wanted(q.strip().replace("\x00", ""), page=page, size=size)


PartHere = Annotated[Wanted, Depends(part)]


def next_part(path: str, **values: Any) -> str:
    """The address of another part of a list; what is empty stays out."""
    return f"{path}?{urlencode({name: value for name, value in values.items() if value not in ('', 0)})}"
