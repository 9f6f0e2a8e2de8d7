"""What presses on forms as they are filled, as a drawing in a file: DXF and SVG."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.placing import PlacingPlan
from webapp.drawings.pressure import pressure_sheet, pressure_svg
from webapp.drawings.svg_alone import alone
from webapp.pages.ask import Asked, Db, Id, JobHere
from webapp.pages.drawing_files import DXF, SVG, dxf_of, file_of, said, title_of
from webapp.pages.placing import Ask, read_ask
from webapp.pages.view import system
from webapp.services import placing
from webapp.services.refusals import Missing

router = APIRouter(prefix="/jobs/{job_id}/placing", include_in_schema=False)


@router.get("/pressure.dxf")
def pressure_dxf(request: Request, db: Db, job: JobHere, asked: Asked) -> Response:
    """What presses on the forms as a circuit is placed, as kept or as typed in the address."""
    return _pressure_dxf(db, read_ask(db, job, asked, system(request)))


@router.get("/pressure.svg")
def pressure_file(request: Request, db: Db, job: JobHere, asked: Asked) -> Response:
    """The same as SVG."""
    return _pressure_svg(db, read_ask(db, job, asked, system(request)))


@router.get("/walls/{wall_id}/pressure.dxf")
def wall_pressure_dxf(request: Request, db: Db, job: JobHere, wall_id: Id, asked: Asked) -> Response:
    """The same of one wall placed alone."""
    return _pressure_dxf(db, read_ask(db, job, asked, system(request), wall_id))


@router.get("/walls/{wall_id}/pressure.svg")
def wall_pressure_file(request: Request, db: Db, job: JobHere, wall_id: Id, asked: Asked) -> Response:
    """The same as SVG."""
    return _pressure_svg(db, read_ask(db, job, asked, system(request), wall_id))


def _pressure_dxf(db: Db, ask: Ask) -> Response:
    plan, job, units = _placed(ask), ask.site.standing.job, ask.draft.units
    drawing = f"pressure on the forms, storey {ask.level}; heights and core to scale, pressures by their axis"
    block = title_of(db, job, plan.diagram.run, drawing, units)
    return file_of(dxf_of([pressure_sheet(plan, units)], job, units, block), DXF, *_pressure_name(ask))


def _pressure_svg(db: Db, ask: Ask) -> Response:
    job = ask.site.standing.job
    return file_of(alone(pressure_svg(_placed(ask), ask.draft.units), said(db, job)), SVG, *_pressure_name(ask))


def _pressure_name(ask: Ask) -> tuple[str, ...]:
    wall = ask.wall.name if ask.wall else ""
    return ask.site.standing.job.name, wall, "pressure", str(ask.level)


def _placed(ask: Ask) -> PlacingPlan:
    """The plan of what is asked for. Raises: Missing where it can't be planned."""
    found = placing.plan(ask.site, ask.draft.kept, ask.level, ask.wall_ids).plan
    if found is None:
        raise Missing
    return found
