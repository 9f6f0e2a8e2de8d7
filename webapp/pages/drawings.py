"""Drawings as files: an attachment's section, a wall's elevation, a floor's plan; each as DXF and as SVG."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from engine.job import Checked
from engine.setting_out import SettingOut
from engine.wall import Wall
from webapp.drawings import section_svg, single_sheets
from webapp.drawings.elevation import elevation_sheet, elevation_svg
from webapp.drawings.plan import plan_sheet, plan_svg
from webapp.drawings.svg_alone import alone
from webapp.pages import plan_view
from webapp.pages.ask import Db, Id, JobHere
from webapp.pages.attachment_sheet import SECTION, VIEWS
from webapp.pages.drawing_files import DXF, SVG, dxf_of, file_of, said, title_of
from webapp.pages.view import system
from webapp.services import attachments, plans, setting_out
from webapp.services.refusals import Missing
from webapp.services.standing import stand
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}", include_in_schema=False)
Level = Annotated[int, Query(ge=1, le=8)]


@router.get("/attachments/{tag}/drawing.dxf")
def attachment_dxf(request: Request, db: Db, job: JobHere, tag: str) -> Response:
    """An attachment's views, each true to scale."""
    kind, checked, wall, title = _attachment(db, job.id, tag)
    sheets = single_sheets(kind, checked.inputs, checked.result, system(request), tag, title)
    block = title_of(db, job, wall, f"{tag}, {title[0].lower()}{title[1:]}", system(request))
    return file_of(dxf_of(sheets, job, system(request), block), DXF, job.name, tag)


@router.get("/attachments/{tag}/drawing.svg")
def attachment_svg(request: Request, db: Db, job: JobHere, tag: str) -> Response:
    """An attachment's drawing as its page shows it."""
    kind, checked, _, title = _attachment(db, job.id, tag)
    return file_of(
        alone(section_svg(kind, checked.inputs, checked.result, system(request), "desk", tag, title), said(db, job)),
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
    block = title_of(db, job, built.name, "elevation from the room, everything set out on it", units)
    return file_of(dxf_of([sheet], job, units, block), DXF, job.name, built.name, focus)


@router.get("/walls/{wall_id}/elevation.svg")
def elevation_file(request: Request, db: Db, job: JobHere, wall_id: Id, focus: str = "") -> Response:
    """The same as SVG."""
    built, entries = _wall(db, job.id, wall_id)
    markup = elevation_svg(built, entries, system(request), focus=focus)
    return file_of(alone(markup, said(db, job)), SVG, job.name, built.name, focus)


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
    block = title_of(db, job, "", f"plan, floor level {min(level, plan.levels)}", units)
    return file_of(dxf_of([sheet], job, units, block), DXF, job.name, "plan", str(level))


@router.get("/plan.svg")
def plan_file(request: Request, db: Db, job: JobHere, level: Level = 1) -> Response:
    """The same as SVG."""
    plan = _plan(db, job.id, level)
    rows = [plan_view.carried(hung) for hung in plan.hung]
    markup = plan_svg(plan.walls, rows, {}, system(request), level=min(level, plan.levels))
    return file_of(alone(markup, said(db, job)), SVG, job.name, "plan", str(level))


def _plan(db: Db, job_id: int, level: int) -> plans.JobPlan:
    """A floor level of a job. Raises: Missing for a job without walls."""
    with reading(db) as session:
        plan = plans.of_job(session, job_id, level)
    if not plan.walls:
        raise Missing
    return plan
