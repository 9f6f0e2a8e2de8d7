"""Tables of an office and of oneself as files for a spreadsheet."""

from collections.abc import Iterable, Sequence

from fastapi import APIRouter
from starlette.responses import Response

from engine import VERSION
from webapp.documents import csv_text
from webapp.pages.ask import Db, List, SeenHere
from webapp.pages.floor_line_sheet import csv_file
from webapp.services import api_tokens, checklists, jobs, log, sign_in
from webapp.services.listing import Wanted
from webapp.store import reading

router = APIRouter(include_in_schema=False)
ALL = 100_000  # rows: more than an office has
JOBS = (
    "job", "client", "place", "editions", "walls", "attachments", "verdict", "flag", "refer", "how they stand",
    "changed",
)  # fmt: skip
TOKENS = ("program", "made", "last used")
SESSIONS = ("device", "since", "last used", "this one")
LISTS = ("of", "stage", "version", "whose", "line", "work waits for it")


def _file(columns: Sequence[str], rows: Iterable[Sequence[object]], name: str) -> Response:
    return csv_file(csv_text.write(columns, rows, f"Engine {VERSION}"), name)


@router.get("/jobs.csv")
def jobs_csv(db: Db, seen: SeenHere, wanted: List) -> Response:
    """Every job that was found, whatever the part shown."""
    with reading(db) as session:
        found = jobs.page(session, seen.office_id, Wanted(wanted.q, sort=wanted.sort, size=ALL))
    rows = [
        (
            row.name, row.client, row.place, row.edition, row.walls, row.attachments, row.verdict, row.flags, row.refers,
            row.stand, log.utc(row.updated_at),
        )
        for row in found.rows
    ]  # fmt: skip
    return _file(JOBS, rows, "jobs")


@router.get("/account/sessions.csv")
def sessions_csv(db: Db, seen: SeenHere) -> Response:
    """Where one is signed in."""
    with reading(db) as session:
        found = sign_in.own(session, seen)
    rows = [
        (one.device, log.utc(one.began_at), log.utc(one.seen_at), "yes" if one.id == seen.session_id else "")
        for one in found
    ]
    return _file(SESSIONS, rows, "sessions")


@router.get("/account/tokens.csv")
def tokens_csv(db: Db, seen: SeenHere) -> Response:
    """The programs that may act for one."""
    with reading(db) as session:
        found = api_tokens.own(session, seen)
    rows = [(one.name, log.utc(one.made_at), log.utc(one.used_at) if one.used_at else "never") for one in found]
    return _file(TOKENS, rows, "tokens")


@router.get("/office/checklists.csv")
def checklists_csv(db: Db, seen: SeenHere) -> Response:
    """Every line of every checklist."""
    with reading(db) as session:
        found = checklists.kept_all(session, seen.office_id).values()
    rows = [
        (
            checklists.words_of(kept.kind), kept.stage, kept.version, "the office's own" if kept.own else "published",
            row["words"], row.get("stop", ""),
        )
        for kept in found for row in kept.rows
    ]  # fmt: skip
    return _file(LISTS, rows, "checklists")
