"""Ways of carrying a floor line: searched beside the request, compared side by side, ranked in full, one chosen.

Every page here is an address that can be shared or loaded again: where the search is not known any more it simply runs again.
"""

from collections.abc import Callable

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine import VERSION
from engine.errors import BadInput
from engine.units import System
from webapp.documents import csv_text
from webapp.models import Job
from webapp.pages import options_ranking as ranks
from webapp.pages import options_sheet as sheet
from webapp.pages.ask import Asked as Query
from webapp.pages.ask import Db, Form, Id, JobHere, List
from webapp.pages.floor_line_sheet import csv_file, joists_words
from webapp.pages.view import lead_on, page, system, wants_part
from webapp.services import options
from webapp.services.options import Asked, Found, Made
from webapp.services.refusals import Refused
from webapp.services.searches import Running, Searches
from webapp.store import Database

router = APIRouter(prefix="/jobs/{job_id}/floor-lines/{line_id}/options", include_in_schema=False)
PATIENCE_S = 0.9  # a search that ends sooner is answered at once, without a page of progress
POLL_S = 0.25  # whoever polls waits no longer for it
REPLACE, ADD = "replace", "add"
Rows = Callable[[Asked, Found, System], tuple[list[str], list[list[object]]]]


def _line(job_id: int, line_id: int) -> str:
    return f"/jobs/{job_id}/floor-lines/{line_id}"


def _running(request: Request, asked: Asked) -> Running:
    """The search of a line. Raises: Refused where its own numbers can't be used."""
    searches: Searches = request.app.state.searches
    try:
        return searches.of(asked.key, asked.line)
    except BadInput as error:
        raise Refused({error.field: error.message}) from None


def _searched(request: Request, db: Database, job: Job, line_id: int) -> tuple[Asked, Found] | Response:
    """What the search found; while it runs, and where it can't, the answer instead."""
    try:
        asked = options.beside(db, job.id, line_id)
        running = _running(request, asked)
    except Refused:
        return lead_on(_line(job.id, line_id))  # its own page says why
    found = running.wait(min(POLL_S, PATIENCE_S) if wants_part(request) else PATIENCE_S)
    if running.failed:
        raise RuntimeError("the search failed")
    if found is None:
        return _progress(request, job, asked, running)
    if wants_part(request):  # whoever polls is sent to the whole page
        return Response(
            headers={"HX-Redirect": request.url.path + (f"?{request.url.query}" if request.url.query else "")}
        )
    return asked, found


def _progress(request: Request, job: Job, asked: Asked, running: Running) -> Response:
    return page(
        request,
        "pages/options_search.html",
        part="pages/parts/options_progress.html",
        job=job,
        line=asked.found,
        joists=joists_words(asked.found, system(request)),
        running=running,
        here_again=request.url.path + (f"?{request.url.query}" if request.url.query else ""),
        stop_url=f"{_line(job.id, asked.found.row.id)}/options/cancel",
    )


@router.get("")
def compare_ways(request: Request, db: Db, job: JobHere, line_id: Id) -> Response:
    """The best of each kind, side by side."""
    searched = _searched(request, db, job, line_id)
    if isinstance(searched, Response):
        return searched
    asked, found = searched
    context = sheet.comparison(asked, found, system(request))
    return page(request, "pages/options.html", job=job, line=asked.found, found=found, **context)


@router.get("/all")
def all_ways(request: Request, db: Db, job: JobHere, line_id: Id, wanted: List, asked_for: Query) -> Response:
    """Everything that holds, ranked; why the others do not."""
    searched = _searched(request, db, job, line_id)
    if isinstance(searched, Response):
        return searched
    asked, found = searched
    context = ranks.ranking(asked, found, wanted, asked_for.get("way", ""), system(request))
    return page(request, "pages/options_all.html", job=job, line=asked.found, found=found, **context)


@router.get("/all.csv")
def ways_csv(request: Request, db: Db, job: JobHere, line_id: Id) -> Response:
    """Everything that holds, as a table."""
    return _table(request, db, job, line_id, ranks.csv_rows, "ways")


@router.get("/failed.csv")
def failed_csv(request: Request, db: Db, job: JobHere, line_id: Id) -> Response:
    """Why the others do not hold, as a table."""
    return _table(request, db, job, line_id, ranks.failed_rows, "ways that do not hold")


def _table(request: Request, db: Database, job: Job, line_id: int, rows_of: Rows, name: str) -> Response:
    """A table as a file; it waits for the search."""
    try:
        asked = options.beside(db, job.id, line_id)
        found = _running(request, asked).wait()
    except Refused:
        return lead_on(_line(job.id, line_id))
    if found is None:
        return lead_on(_line(job.id, line_id), "The search was stopped before it came to its end.")
    columns, rows = rows_of(asked, found, system(request))
    said = f"{job.name}, floor line {asked.found.row.name}, {job.edition}, engine {VERSION}, {found.tried} tried"
    return csv_file(csv_text.write(columns, rows, said), f"{job.name} {asked.found.row.name} {name}")


@router.post("/cancel")
def stop_search(request: Request, db: Db, job: JobHere, line_id: Id) -> Response:
    """Stop the search; nothing of it is kept."""
    try:
        request.app.state.searches.stop(options.beside(db, job.id, line_id).key)
    except Refused:
        return lead_on(_line(job.id, line_id))
    return lead_on(_line(job.id, line_id), "The search is stopped.")


@router.post("")
def choose_way(request: Request, db: Db, job: JobHere, line_id: Id, form: Form) -> Response:
    """Make what carries the line; where something carries it already, ask first what is to become of that."""
    here = f"{_line(job.id, line_id)}/options"
    try:
        asked = options.beside(db, job.id, line_id)
        found = _running(request, asked).wait()
        if found is None or form.get("key") != asked.key:
            return lead_on(here, "The line, its wall or what the office takes has changed. Compare again, then choose.")
        rank = form.get("rank", "")
        candidate = found.ranked(int(rank) if rank.isdecimal() and len(rank) < 8 else 0).candidate
        then = form.get("then", "")
        if asked.found.carriers and then not in (REPLACE, ADD):
            return page(
                request, "pages/options_confirm.html", job=job, **sheet.confirm(asked, candidate, rank, system(request))
            )
        gone = [row.tag for row in asked.found.carriers] if then == REPLACE else []
        made = options.make(db, asked, candidate, gone)
    except Refused as refused:
        return lead_on(here, f"Nothing was made. {refused}")
    return lead_on(_line(job.id, line_id), _said(made, candidate.way.offer.name), _undo(job.id, line_id, made))


def _said(made: Made, way: str) -> str:
    gone = f" {_tags(made.gone)} {'is' if len(made.gone) == 1 else 'are'} put away." if made.gone else ""
    return (
        f"{_tags(made.tags)} {'carries' if len(made.tags) == 1 else 'carry'} it now: {way[:1].lower()}{way[1:]}.{gone}"
    )


def _tags(tags: tuple[str, ...]) -> str:
    return ", ".join(tags) if len(tags) < 4 else f"{tags[0]} to {tags[-1]}"


def _undo(job_id: int, line_id: int, made: Made) -> str:
    return f"{_line(job_id, line_id)}/options/undo/{made.change}"


@router.post("/undo/{change}")
def take_back(db: Db, job: JobHere, line_id: Id, change: Id) -> Response:
    """Take a choice back."""
    try:
        made = options.turn_back(db, job.id, line_id, change)
    except Refused as refused:
        return lead_on(_line(job.id, line_id), str(refused))
    parts = [
        f"{_tags(made.gone)} put away" if made.gone else "",
        f"{_tags(made.tags)} brought back" if made.tags else "",
    ]
    said = "; ".join(part for part in parts if part)
    return lead_on(_line(job.id, line_id), f"Taken back: {said}.", _undo(job.id, line_id, made))
