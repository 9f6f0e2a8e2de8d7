"""Setting out: stations along every wall of a job, moved by hand and held against the rules at once."""

import re

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine import VERSION
from engine.setting_out import SettingOut
from webapp.documents import csv_text
from webapp.forms import setting_out as forms
from webapp.models import Job
from webapp.pages.ask import Asked, Db, Form, Id, JobHere, Posted
from webapp.pages.setting_out_sheet import marks_of, said, spot_page, title_of, wall_page
from webapp.pages.view import lead_on, page, system, wants_part
from webapp.services import setting_out
from webapp.services.refusals import Missing, Refused, Stale
from webapp.services.setting_out import Layout, Spot, WallOut, counts, mark_of, movable, stations_of
from webapp.services.stations import packed, unpacked
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}", include_in_schema=False)
COLUMNS = ("wall", "level", "attachment", "what", "no.", "station ft-in", "station mm", "station in", "count", "note")
LONGEST_UNDO = 2500  # characters a cookie can carry along
MENDED = "Somebody moved these meanwhile. What you set is still here; keeping it again replaces what is kept now."


def _layout(db: Db, job_id: int) -> Layout:
    with reading(db) as session:
        return setting_out.of_job(session, job_id)


@router.get("/setting-out")
def all_walls(request: Request, db: Db, job: JobHere) -> Response:
    """Every wall: how many of what, and what stands against it."""
    units = system(request)
    walls = [
        (out, [(title_of(e), mark_of(e), counts(e), said(e.findings, False, units)) for e in out.entries])
        for out in _layout(db, job.id).walls()
    ]
    against = sum(out.against for out, _ in walls)
    return page(request, "pages/setting_out.html", job=job, walls=walls, against=against)


@router.get("/setting-out.csv")
def job_csv(db: Db, job: JobHere) -> Response:
    """Every station of the job."""
    return _csv(job, _layout(db, job.id).walls(), f"{job.name}-setting-out")


@router.get("/setting-out/walls/{wall_id}.csv")
def wall_csv(db: Db, job: JobHere, wall_id: Id) -> Response:
    """Every station of a wall."""
    out = _layout(db, job.id).wall(wall_id)
    return _csv(job, (out,), f"{job.name}-{out.row.name}-setting-out")


def _csv(job: Job, walls: tuple[WallOut, ...], name: str) -> Response:
    rows = (
        (
            out.row.name, entry.level, entry.tag or "wall", mark.what, mark.number, mark.text, mark.mm, f"{mark.at_in:.4f}",
            mark.count, mark.note,
        )
        for out in walls for entry in out.entries for what in dict.fromkeys(m.what for m in entry.marks)
        for mark in marks_of(entry, what)
    )  # fmt: skip
    text = csv_text.write(COLUMNS, rows, *_against(walls), f"{job.name}, {job.edition}, engine {VERSION}")
    plain = re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-").lower()[:80] or "setting-out"
    kind = {"Content-Disposition": f'attachment; filename="{plain}.csv"'}
    return Response(text, media_type="text/csv; charset=utf-8", headers=kind)


def _against(walls: tuple[WallOut, ...]) -> list[str]:
    """What stands against the stations, so that no list of them travels without it."""
    found = [f"Wall {out.row.name} can't be set out: {out.why}" for out in walls if out.built is None]
    for out in walls:
        for entry in out.entries:
            found += [
                f"Wall {out.row.name}, {title_of(entry)}: {words}" for words in said(entry.findings, False, "ft in")
            ]
    return found


@router.get("/setting-out/walls/{wall_id}")
def one_wall(request: Request, db: Db, job: JobHere, wall_id: Id) -> Response:
    """A wall with its elevation and a table of every kind of thing."""
    layout = _layout(db, job.id)
    return wall_page(request, job, layout, layout.wall(wall_id), system(request))


def _spot(out: WallOut, tag: str, what: str) -> Spot:
    """What of an entry is asked for; its first kind that can be moved where none is named. Raises: Missing."""
    kinds = movable(out.entry(tag))
    if not kinds or (what and what not in kinds):
        raise Missing
    return Spot(tag, what or kinds[0])


def _address(job: Job, wall_id: int, spot: Spot) -> str:
    return f"/jobs/{job.id}/setting-out/walls/{wall_id}/{spot.mark}?what={spot.what}"


@router.get("/setting-out/walls/{wall_id}/{tag}")
def one_spot(request: Request, db: Db, job: JobHere, wall_id: Id, tag: str, asked: Asked) -> Response:
    """One attachment, or the wall's own at a level, with its stations to move."""
    with reading(db) as session:
        layout = setting_out.of_job(session, job.id)
        out = layout.wall(wall_id)
        spot = _spot(out, tag, asked.get("what", ""))
        version = setting_out.version_of(session, job.id, wall_id, spot)
    units = system(request)
    draft = forms.draft_of(stations_of(out.entry(tag), spot.what), units)
    return spot_page(request, job, layout, out, spot, draft, units, version=version)


@router.post("/setting-out/walls/{wall_id}/{tag}")
def try_spot(request: Request, db: Db, job: JobHere, wall_id: Id, tag: str, form: Form) -> Response:
    """Hold stations against the rules, or keep them."""
    layout = _layout(db, job.id)
    before = layout.wall(wall_id)
    spot = _spot(before, tag, form.get("what", ""))
    draft, tried = _tried(layout, before, spot, form)
    if form.get("do") == "save" and not draft.errors:
        return _save(request, db, job, layout, tried, spot, draft, form)
    status = 422 if draft.errors and not wants_part(request) else 200
    return spot_page(
        request, job, layout, tried, spot, draft, form.system(), version=form.version(), status=status, changed=True
    )


def _tried(layout: Layout, before: WallOut, spot: Spot, form: Posted) -> tuple[forms.Draft, WallOut]:
    """What was typed with the row's button done to it, and the wall with those stations on it."""
    units, wall_id = form.system(), before.row.id
    typed = forms.typed(form, units)
    at_hand: SettingOut = layout.preview(wall_id, spot, typed.stations).entry(spot.mark)
    row = at_hand.rows.get(spot.what) or before.entry(spot.mark).rows[spot.what]
    grid = layout.asked.habits.grid_in
    done = forms.changed(typed, form.get("do", ""), row, grid, before.length_in, units)
    draft = forms.on_wall(done, before.row.name, before.length_in, units)
    return draft, layout.preview(wall_id, spot, draft.stations)


def _save(
    request: Request, db: Db, job: Job, layout: Layout, tried: WallOut, spot: Spot, draft: forms.Draft, form: Posted
) -> Response:
    wall_id = tried.row.id

    def again(status: int, errors: dict[str, str], version: int, heading: str = "") -> Response:
        return spot_page(
            request, job, layout, tried, spot, draft, form.system(), version=version, status=status, changed=True,
            errors=errors, heading=heading,
        )  # fmt: skip

    try:
        before = setting_out.move(db, job.id, wall_id, spot, draft.stations, form.version())
    except Refused as refused:
        return again(422, refused.errors, form.version())
    except Stale as stale:
        now = forms.draft_of(stations_of(_layout(db, job.id).wall(wall_id).entry(spot.mark), spot.what), form.system())
        return again(409, {"": f"Kept now: {', '.join(row.text for row in now.rows)}."}, stale.version, MENDED)
    return _moved(job, wall_id, spot, before, "These stations are kept.")


def _moved(job: Job, wall_id: int, spot: Spot, before: setting_out.Before, text: str) -> Response:
    own = f"/jobs/{job.id}/setting-out/walls/{wall_id}/{spot.mark}/{spot.what}"
    undo = f"{own}/put/{before.version}/{packed(before.stations)}"
    return lead_on(_address(job, wall_id, spot), text, undo if len(undo) <= LONGEST_UNDO else "")


@router.post("/setting-out/walls/{wall_id}/{tag}/{what}/reset")
def reset_spot(db: Db, job: JobHere, wall_id: Id, tag: str, what: str, form: Form) -> Response:
    """Back to the calculated stations."""
    spot = _spot(_layout(db, job.id).wall(wall_id), tag, what)
    try:
        before = setting_out.reset(db, job.id, wall_id, spot, form.version())
    except Stale:
        return lead_on(_address(job, wall_id, spot), "Somebody moved these meanwhile. Look again before you go back.")
    return _moved(job, wall_id, spot, before, "Back to the calculated stations.")


@router.post("/setting-out/walls/{wall_id}/{tag}/{what}/put/{version}/{word}")
def put_spot(db: Db, job: JobHere, wall_id: Id, tag: str, what: str, version: int, word: str) -> Response:
    """Take a move back: the stations from before it, unless somebody changed them since."""
    spot = _spot(_layout(db, job.id).wall(wall_id), tag, what)
    try:
        stations = unpacked(word)
        if stations is None:
            setting_out.reset(db, job.id, wall_id, spot, version)
        else:
            setting_out.move(db, job.id, wall_id, spot, stations, version)
    except (ValueError, Refused):
        return lead_on(_address(job, wall_id, spot), "That can't be taken back.")
    except Stale:
        return lead_on(_address(job, wall_id, spot), "These were moved again since; nothing was taken back.")
    return lead_on(_address(job, wall_id, spot), "Taken back.")
