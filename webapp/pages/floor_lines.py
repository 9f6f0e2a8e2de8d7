"""Floor lines of a job: typed and changed, each with what it brings and what carries it."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine import VERSION
from engine.fields import Spec
from engine.units import System
from webapp.documents import csv_text
from webapp.forms import floor_line as forms
from webapp.forms.floor_line import Draft
from webapp.models import Job
from webapp.pages import floor_line_sheet as sheet
from webapp.pages.ask import Asked, Db, Form, Id, JobHere, Posted
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page, system
from webapp.services import checks, floor_lines
from webapp.services.floor_lines import Line
from webapp.services.standing import Standing, stand
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}/floor-lines", include_in_schema=False)
COLUMNS = (
    "floor line", "wall", "level", "from", "to", "joists", "spacing", "span", "dead at a joist's end, lb",
    "live at a joist's end, lb", "snow at a joist's end, lb", "carried by", "joists carried", "not carried",
)  # fmt: skip


def _lines(db: Db, job: Job) -> tuple[Standing, list[Line]]:
    checks.refresh(db, job.id)
    with reading(db) as session:
        standing = stand(session, job.id)
        return standing, floor_lines.page(session, standing)


def line_at(db: Db, job: Job, line_id: int) -> tuple[Standing, Line]:
    """A line with what carries it, their checks up to date. Raises: Missing."""
    checks.refresh(db, job.id)
    with reading(db) as session:
        standing, row = stand(session, job.id), floor_lines.find(session, job.id, line_id)
        return standing, floor_lines.in_place(standing, row, floor_lines.carriers(session, job.id))


@router.get("")
def line_list(request: Request, db: Db, job: JobHere) -> Response:
    """The floor lines of a job."""
    return listing(request, db, job)


def listing(request: Request, db: Db, job: Job, status: int = 200, refusal: str = "") -> Response:
    """The list, with what was refused said first."""
    standing, lines = _lines(db, job)
    units = system(request)
    rows = [(line, sheet.joists_words(line, units), sheet.bare_words(line, units)) for line in lines]
    walls = list(standing.walls.values())
    return page(request, "pages/floor_lines.html", status=status, job=job, rows=rows, walls=walls, refusal=refusal)


@router.get(".csv")
def lines_csv(request: Request, db: Db, job: JobHere) -> Response:
    """The same as a table."""
    units = system(request)
    rows = [sheet.csv_row(line, units) for line in _lines(db, job)[1]]
    text = csv_text.write(COLUMNS, rows, f"{job.name}, {job.edition}, engine {VERSION}")
    return sheet.csv_file(text, f"{job.name} floor lines")


@router.get("/new")
def new_line(request: Request, db: Db, job: JobHere, asked: Asked) -> Response:
    """A form at the usual values, along the whole of the first wall or the one asked for."""
    with reading(db) as session:
        standing, name = stand(session, job.id), floor_lines.new_name(session, job.id)
    first = next(iter(standing.walls), 0)
    wall = asked.get("wall", "")
    chosen = int(wall) if wall.isdecimal() and len(wall) < 10 and int(wall) in standing.walls else first
    return _form(request, standing, forms.new_draft(name, chosen), system(request))


@router.post("/new")
def make_line(request: Request, db: Db, job: JobHere, form: Form) -> Response:
    """Keep a new line."""
    with reading(db) as session:
        standing, name = stand(session, job.id), floor_lines.new_name(session, job.id)
    return _save(request, db, standing, form, forms.new_draft(name, next(iter(standing.walls), 0)), 0)


@router.get("/{line_id}")
def show_line(request: Request, db: Db, job: JobHere, line_id: Id) -> Response:
    """What a line brings to its wall, and what carries it."""
    standing, line = line_at(db, job, line_id)
    return page(request, "pages/floor_line.html", job=job, line=line, **sheet.facts(standing, line, system(request)))


@router.get("/{line_id}/edit")
def edit_line(request: Request, db: Db, job: JobHere, line_id: Id) -> Response:
    """A line in its form."""
    standing, line = line_at(db, job, line_id)
    return _form(request, standing, forms.draft_of(line.row), system(request), line_id)


@router.post("/{line_id}/edit")
def change_line(request: Request, db: Db, job: JobHere, line_id: Id, form: Form) -> Response:
    """Keep it."""
    standing, line = line_at(db, job, line_id)
    return _save(request, db, standing, form, forms.draft_of(line.row), line_id)


def _form(
    request: Request,
    standing: Standing,
    draft: Draft,
    units: System,
    line_id: int = 0,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    version: int | None = None,
    heading: str = "",
) -> Response:
    known = _known(standing)
    return page(
        request,
        "pages/floor_line_form.html",
        status=status,
        job=standing.job,
        units=units,
        line_id=line_id,
        walls=list(standing.walls.values()),
        draft=draft,
        specs=known,
        values=draft.shown(known, units),
        errors=forms.errors(errors or {}),
        labels={"name": "Name"} | {s.name: s.label for s in known},
        version=draft.version if version is None else version,
        heading=heading,
    )


def _known(standing: Standing) -> tuple[Spec, ...]:
    return (*forms.place_specs((row.id, row.name) for row in standing.walls.values()), *forms.OWN)


def _save(request: Request, db: Db, standing: Standing, form: Posted, before: Draft, line_id: int) -> Response:
    known, units, job_id = _known(standing), form.system(), standing.job.id
    draft = forms.overlaid(before, form, known, units)

    def save() -> Response:
        kept = floor_lines.save(db, job_id, draft.typed(), line_id, form.version())
        return lead_on(f"/jobs/{job_id}/floor-lines/{kept}", f"{draft.name.strip()} is kept.")

    def again(version: int | None = None, **shown: object) -> Response:
        version = form.version() if version is None else version
        return _form(request, standing, draft, units, line_id, version=version, **shown)  # type: ignore[arg-type]

    def kept_now() -> tuple[int, dict[str, str]]:
        now = before.shown(known, units) | {"name": before.name}
        return before.version, differing(draft.shown(known, units) | {"name": draft.name}, now)

    return save_or_show(save, again, kept_now)
