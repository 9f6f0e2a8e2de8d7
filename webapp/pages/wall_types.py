"""Wall types of a job."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.fields import specs
from engine.units import System
from engine.wall import WallType as Shape
from webapp.forms.quantities import keep_all, shown_all
from webapp.models import Job, WallType
from webapp.pages.ask import Asked, Db, Form, Id, JobHere, Posted
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page, system
from webapp.services import wall_types
from webapp.services.refusals import Refused
from webapp.services.standing import stand
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}/types", include_in_schema=False)
SPECS = specs(Shape)
COLUMNS = ("core_in", "foam_inner_in", "f_c_psi")


@router.get("")
def type_list(request: Request, db: Db, job: JobHere) -> Response:
    """The wall types of a job and the walls that use them."""
    return _list(request, db, job)


def _list(request: Request, db: Db, job: Job, status: int = 200, refusal: str = "") -> Response:
    with reading(db) as session:
        standing = stand(session, job.id)
    users = {
        row.id: [w.name for w in standing.walls.values() if any(s.get("type") == row.name for s in w.storeys)]
        for row in standing.types
    }
    columns = [s for s in SPECS if s.name in COLUMNS]
    rows = [(row, shown_all(SPECS, row.inputs, system(request)), users[row.id]) for row in standing.types]
    return page(request, "pages/types.html", status=status, job=job, rows=rows, columns=columns, refusal=refusal)


def _form(
    request: Request,
    job: Job,
    row: WallType | None,
    name: str,
    values: Mapping[str, str],
    units: System,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    version: int | None = None,
    heading: str = "",
) -> Response:
    return page(
        request,
        "pages/type_form.html",
        status=status,
        job=job,
        units=units,
        row=row,
        name=name,
        values=values,
        errors={field or "name": message for field, message in (errors or {}).items()},
        heading=heading,
        labels={"name": "Name"} | {s.name: s.label for s in SPECS},
        specs=SPECS,
        version=version if version is not None else (row.version if row else 0),
    )


@router.get("/new")
def new_type(request: Request, job: JobHere) -> Response:
    """A form at the usual values."""
    units = system(request)
    return _form(request, job, None, "", shown_all(SPECS, {}, units), units)


@router.post("/new")
def make_type(request: Request, db: Db, job: JobHere, form: Form) -> Response:
    """Keep a new wall type."""
    return _save(request, db, job, form, None)


@router.get("/{type_id}")
def edit_type(request: Request, db: Db, job: JobHere, type_id: Id, asked: Asked) -> Response:
    """A wall type in its form; values in the address are filled in, not kept."""
    row, units = _row(db, job, type_id), system(request)
    kept = row.inputs | keep_all(SPECS, asked, asked.system(), row.inputs)
    return _form(request, job, row, row.name, shown_all(SPECS, kept, units), units)


@router.post("/{type_id}")
def change_type(request: Request, db: Db, job: JobHere, type_id: Id, form: Form) -> Response:
    """Keep a wall type; every attachment that stands on it is checked again."""
    return _save(request, db, job, form, _row(db, job, type_id))


def _row(db: Db, job: Job, type_id: int) -> WallType:
    with reading(db) as session:
        return wall_types.find(session, job.id, type_id)


def _save(request: Request, db: Db, job: Job, form: Posted, row: WallType | None) -> Response:
    name, units = form.get("name", ""), form.system()
    kept = keep_all(SPECS, form, units, row.inputs if row else None)
    typed = {s.name: form.get(s.name, "") for s in SPECS}

    def save() -> Response:
        wall_types.save(db, job.id, name, kept, row.id if row else 0, form.version())
        return lead_on(f"/jobs/{job.id}/types", f"{name.strip()} is kept.")

    def kept_now() -> tuple[int, dict[str, str]]:
        current = _row(db, job, row.id if row else 0)
        shown = shown_all(SPECS, current.inputs, units) | {"name": current.name}
        return current.version, differing(typed | {"name": name}, shown)

    return save_or_show(save, lambda **again: _form(request, job, row, name, typed, units, **again), kept_now)


@router.post("/{type_id}/delete")
def delete_type(request: Request, db: Db, job: JobHere, type_id: Id) -> Response:
    """Put a wall type away, if no wall uses it."""
    try:
        name = wall_types.put_away(db, job.id, type_id)
    except Refused as refused:
        return _list(request, db, job, 409, str(refused))
    return lead_on(f"/jobs/{job.id}/types", f"{name} is deleted.", f"/jobs/{job.id}/types/{type_id}/restore")


@router.post("/{type_id}/restore")
def restore_type(request: Request, db: Db, job: JobHere, type_id: Id) -> Response:
    """Bring it back."""
    try:
        name = wall_types.bring_back(db, job.id, type_id)
    except Refused as refused:
        return _list(request, db, job, 409, str(refused))
    return lead_on(f"/jobs/{job.id}/types", f"{name} is back.")
