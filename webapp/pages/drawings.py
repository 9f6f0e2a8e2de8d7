"""Drawings as files: an attachment's section, a wall's elevation, a floor's plan, what presses on forms; each as DXF and as SVG."""

import re
from collections.abc import Sequence
from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from engine import VERSION
from engine.job import Checked
from engine.placing import PlacingPlan
from engine.result import LOCAL_CODE
from engine.setting_out import SettingOut
from engine.units import System
from engine.wall import Wall
from webapp.drawings import section_svg, single_sheets
from webapp.drawings.dxf_title import TitleBlock
from webapp.drawings.elevation import elevation_sheet, elevation_svg
from webapp.drawings.paper import Sheet
from webapp.drawings.plan import plan_sheet, plan_svg
from webapp.drawings.pressure import pressure_sheet, pressure_svg
from webapp.drawings.svg_alone import alone
from webapp.models import Job
from webapp.pages import plan_view
from webapp.pages.ask import Asked, Db, Id, JobHere
from webapp.pages.attachment_sheet import SECTION, VIEWS
from webapp.pages.drafted import checked_by, drafted
from webapp.pages.placing import Ask, read_ask
from webapp.pages.view import system
from webapp.services import attachments, placing, plans, setting_out
from webapp.services.refusals import Missing
from webapp.services.standing import stand
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}", include_in_schema=False)
Level = Annotated[int, Query(ge=1, le=8)]
DXF, SVG = "image/vnd.dxf", "image/svg+xml"


def _file(content: bytes | str, kind: str, *named: str) -> Response:
    ending = "dxf" if kind == DXF else "svg"
    plain = re.sub(r"[^A-Za-z0-9]+", "-", " ".join(named)).strip("-").lower()[:80] or "drawing"
    return Response(
        content, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{plain}.{ending}"'}
    )


def _notes(job: Job) -> tuple[str, ...]:
    return f"{job.name}. {job.edition}, engine {VERSION}.", LOCAL_CODE


def _said(db: Db, job: Job) -> str:
    """The same in an SVG file, which has no title block: whoever opens the file reads it among its properties."""
    return f"{job.name}. {drafted(db, job)}. {checked_by(job)}. {LOCAL_CODE}"


def _title(db: Db, job: Job, wall: str, drawing: str, units: System) -> TitleBlock:
    """The title block of a drawing of the job as it stands, which is always a draft. Args: wall: "" for more than one."""
    rows = (
        ("Job", job.name),
        ("Wall", wall or "all"),
        ("Drawing", drawing),
        ("Scale", f"1 to 1, drawn in {'millimetres' if units == 'mm' else 'inches'}"),
        ("Revision", drafted(db, job)),
        ("Checked by", checked_by(job)),
    )
    return TitleBlock(rows, LOCAL_CODE)


def _dxf(sheets: Sequence[Sheet], job: Job, units: System, block: TitleBlock) -> bytes:
    from webapp.drawings import dxf  # here, so that a server starts without what writes such files

    return dxf.render(sheets, _notes(job), units, block)


@router.get("/attachments/{tag}/drawing.dxf")
def attachment_dxf(request: Request, db: Db, job: JobHere, tag: str) -> Response:
    """An attachment's views, each true to scale."""
    kind, checked, wall, title = _attachment(db, job.id, tag)
    sheets = single_sheets(kind, checked.inputs, checked.result, system(request), tag, title)
    block = _title(db, job, wall, f"{tag}, {title[0].lower()}{title[1:]}", system(request))
    return _file(_dxf(sheets, job, system(request), block), DXF, job.name, tag)


@router.get("/attachments/{tag}/drawing.svg")
def attachment_svg(request: Request, db: Db, job: JobHere, tag: str) -> Response:
    """An attachment's drawing as its page shows it."""
    kind, checked, _, title = _attachment(db, job.id, tag)
    return _file(
        alone(section_svg(kind, checked.inputs, checked.result, system(request), "desk", tag, title), _said(db, job)),
        SVG,
        job.name,
        tag,
    )


def _attachment(db: Db, job_id: int, tag: str) -> tuple[str, Checked, str, str]:
    """Kind, check, wall and title of an attachment. Raises: Missing, also where its numbers can't be drawn."""
    with reading(db) as session:
        standing, row = stand(session, job_id), attachments.find(session, job_id, tag)
    checked = standing.check(row)
    if checked.inputs is None:
        raise Missing
    wall, view = standing.walls[row.wall_id].name, VIEWS.get(row.kind, SECTION)
    return row.kind, checked, wall, f"{view} wall {wall}, floor level {row.level}"


@router.get("/walls/{wall_id}/elevation.dxf")
def elevation_dxf(request: Request, db: Db, job: JobHere, wall_id: Id, focus: str = "") -> Response:
    """A wall's elevation with everything set out on it."""
    (built, entries), units = _wall(db, job.id, wall_id), system(request)
    sheet = elevation_sheet(built, entries, units, focus=focus)
    block = _title(db, job, built.name, "elevation from the room, everything set out on it", units)
    return _file(_dxf([sheet], job, units, block), DXF, job.name, built.name, focus)


@router.get("/walls/{wall_id}/elevation.svg")
def elevation_file(request: Request, db: Db, job: JobHere, wall_id: Id, focus: str = "") -> Response:
    """The same as SVG."""
    built, entries = _wall(db, job.id, wall_id)
    markup = elevation_svg(built, entries, system(request), focus=focus)
    return _file(alone(markup, _said(db, job)), SVG, job.name, built.name, focus)


def _wall(db: Db, job_id: int, wall_id: int) -> tuple[Wall, tuple[SettingOut, ...]]:
    """A wall set out. Raises: Missing, also for one that can't be built."""
    with reading(db) as session:
        out = setting_out.of_wall(session, job_id, wall_id)
    if out.built is None:
        raise Missing
    return out.built, out.entries


@router.get("/plan.dxf")
def plan_dxf(request: Request, db: Db, job: JobHere, level: Level = 1) -> Response:
    """A floor level in plan."""
    plan, units = _plan(db, job.id, level), system(request)
    rows = [plan_view.carried(hung) for hung in plan.hung]
    sheet = plan_sheet(plan.walls, rows, {}, units, level=min(level, plan.levels))
    block = _title(db, job, "", f"plan, floor level {min(level, plan.levels)}", units)
    return _file(_dxf([sheet], job, units, block), DXF, job.name, "plan", str(level))


@router.get("/plan.svg")
def plan_file(request: Request, db: Db, job: JobHere, level: Level = 1) -> Response:
    """The same as SVG."""
    plan = _plan(db, job.id, level)
    rows = [plan_view.carried(hung) for hung in plan.hung]
    markup = plan_svg(plan.walls, rows, {}, system(request), level=min(level, plan.levels))
    return _file(alone(markup, _said(db, job)), SVG, job.name, "plan", str(level))


def _plan(db: Db, job_id: int, level: int) -> plans.JobPlan:
    """A floor level of a job. Raises: Missing for a job without walls."""
    with reading(db) as session:
        plan = plans.of_job(session, job_id, level)
    if not plan.walls:
        raise Missing
    return plan


@router.get("/placing/pressure.dxf")
def pressure_dxf(request: Request, db: Db, job: JobHere, asked: Asked) -> Response:
    """What presses on the forms as a circuit is placed, as kept or as typed in the address."""
    return _pressure_dxf(db, read_ask(db, job, asked, system(request)))


@router.get("/placing/pressure.svg")
def pressure_file(request: Request, db: Db, job: JobHere, asked: Asked) -> Response:
    """The same as SVG."""
    return _pressure_svg(db, read_ask(db, job, asked, system(request)))


@router.get("/placing/walls/{wall_id}/pressure.dxf")
def wall_pressure_dxf(request: Request, db: Db, job: JobHere, wall_id: Id, asked: Asked) -> Response:
    """The same of one wall placed alone."""
    return _pressure_dxf(db, read_ask(db, job, asked, system(request), wall_id))


@router.get("/placing/walls/{wall_id}/pressure.svg")
def wall_pressure_file(request: Request, db: Db, job: JobHere, wall_id: Id, asked: Asked) -> Response:
    """The same as SVG."""
    return _pressure_svg(db, read_ask(db, job, asked, system(request), wall_id))


def _pressure_dxf(db: Db, ask: Ask) -> Response:
    plan, job, units = _placed(ask), ask.site.standing.job, ask.draft.units
    drawing = f"pressure on the forms, storey {ask.level}; heights and core to scale, pressures by their axis"
    block = _title(db, job, plan.diagram.run, drawing, units)
    return _file(_dxf([pressure_sheet(plan, units)], job, units, block), DXF, *_pressure_name(ask))


def _pressure_svg(db: Db, ask: Ask) -> Response:
    job = ask.site.standing.job
    return _file(alone(pressure_svg(_placed(ask), ask.draft.units), _said(db, job)), SVG, *_pressure_name(ask))


def _pressure_name(ask: Ask) -> tuple[str, ...]:
    wall = ask.wall.name if ask.wall else ""
    return ask.site.standing.job.name, wall, "pressure", str(ask.level)


def _placed(ask: Ask) -> PlacingPlan:
    """The plan of what is asked for. Raises: Missing where it can't be planned."""
    found = placing.plan(ask.site, ask.draft.kept, ask.level, ask.wall_ids).plan
    if found is None:
        raise Missing
    return found
