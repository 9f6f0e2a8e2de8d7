"""Walls of a job: their lines, storeys and openings."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.job import WallEntry
from engine.units import System
from webapp.forms import wall as wall_form
from webapp.forms.quantities import shown_all
from webapp.models import Job, Wall
from webapp.pages.ask import Db, Form, Id, JobHere, Posted
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page, system
from webapp.services import walls
from webapp.services.refusals import Refused
from webapp.services.standing import stand, wall_entry
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}/walls", include_in_schema=False)


@router.get("")
def wall_list(request: Request, db: Db, job: JobHere) -> Response:
    """The walls of a job."""
    return _list(request, db, job)


def _list(request: Request, db: Db, job: Job, status: int = 200, refusal: str = "") -> Response:
    with reading(db) as session:
        found, types = walls.page(session, job.id), walls.shapes(session, job.id)
    rows = [(row, shown_all(wall_form.LINE, row.wall.line, system(request))) for row in found]
    return page(request, "pages/walls.html", status=status, job=job, rows=rows, types=types, refusal=refusal)


def _types(db: Db, job: Job) -> list[str]:
    with reading(db) as session:
        return [row.name for row in stand(session, job.id).types]


def _form(
    request: Request,
    job: Job,
    types: list[str],
    row: Wall | None,
    entry: WallEntry,
    units: System,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    version: int | None = None,
    heading: str = "",
) -> Response:
    storeys, openings = (wall_form.rows(entry, group, types) for group in wall_form.GROUPS)
    known = [*wall_form.LINE, *(s for part in (*storeys, *openings) for s in part.specs)]
    return page(
        request,
        "pages/wall_form.html",
        status=status,
        job=job,
        units=units,
        row=row,
        values={s.name: "" for s in known} | wall_form.flat(entry),
        line=wall_form.LINE,
        storeys=storeys,
        openings=openings,
        errors={field or "name": message for field, message in (errors or {}).items()},
        heading=heading,
        labels={"name": "Name"} | {s.name: s.label for s in known},
        version=version if version is not None else (row.version if row else 0),
    )


@router.get("/new")
def new_wall(request: Request, db: Db, job: JobHere) -> Response:
    """A form with one storey."""
    types, units = _types(db, job), system(request)
    with reading(db) as session:
        number = len(walls.page(session, job.id)) + 1
    return _form(request, job, types, None, wall_form.new_wall(f"W{number}", types, units), units)


@router.post("/new")
def make_wall(request: Request, db: Db, job: JobHere, form: Form) -> Response:
    """Keep a new wall, or add or take away a row."""
    return _save(request, db, job, form, None)


@router.get("/{wall_id}")
def edit_wall(request: Request, db: Db, job: JobHere, wall_id: Id) -> Response:
    """A wall in its form."""
    row, types, units = _row(db, job, wall_id), _types(db, job), system(request)
    return _form(request, job, types, row, wall_form.shown(wall_entry(row), types, units), units)


@router.post("/{wall_id}")
def change_wall(request: Request, db: Db, job: JobHere, wall_id: Id, form: Form) -> Response:
    """Keep a wall, or add or take away a row; what it carries is checked again."""
    return _save(request, db, job, form, _row(db, job, wall_id))


def _row(db: Db, job: Job, wall_id: int) -> Wall:
    with reading(db) as session:
        return walls.find(session, job.id, wall_id)


def _save(request: Request, db: Db, job: Job, form: Posted, row: Wall | None) -> Response:
    types, units = _types(db, job), form.system()
    entry = wall_form.typed(form)
    changed = wall_form.changed_rows(entry, form.get("do", ""), types, units)
    if changed is not None:
        return _form(request, job, types, row, changed, units, version=form.version())

    def save() -> Response:
        kept = wall_form.kept(entry, types, units, wall_entry(row) if row else None)
        walls.save(db, job.id, kept, row.id if row else 0, form.version())
        return lead_on(f"/jobs/{job.id}/walls", f"{kept.name} is kept.")

    def kept_now() -> tuple[int, dict[str, str]]:
        current = _row(db, job, row.id if row else 0)
        now = wall_form.shown(wall_entry(current), types, units)
        return current.version, differing(wall_form.flat(entry), wall_form.flat(now))

    return save_or_show(save, lambda **again: _form(request, job, types, row, entry, units, **again), kept_now)


@router.post("/{wall_id}/delete")
def delete_wall(request: Request, db: Db, job: JobHere, wall_id: Id) -> Response:
    """Put a wall away, if it carries nothing."""
    try:
        name = walls.put_away(db, job.id, wall_id)
    except Refused as refused:
        return _list(request, db, job, 409, str(refused))
    return lead_on(f"/jobs/{job.id}/walls", f"{name} is deleted.", f"/jobs/{job.id}/walls/{wall_id}/restore")


@router.post("/{wall_id}/restore")
def restore_wall(request: Request, db: Db, job: JobHere, wall_id: Id) -> Response:
    """Bring it back."""
    try:
        name = walls.bring_back(db, job.id, wall_id)
    except Refused as refused:
        return _list(request, db, job, 409, str(refused))
    return lead_on(f"/jobs/{job.id}/walls", f"{name} is back.")
