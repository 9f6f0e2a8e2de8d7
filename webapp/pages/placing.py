"""The placing plan of a job and of a wall: how fast to pump and why, from what is typed; kept when asked."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter, Request
from markupsafe import Markup
from starlette.responses import Response

from engine import VERSION
from engine.placing import STAGES, PlacingPlan, governing_rule
from engine.units import System
from webapp.documents import csv_text
from webapp.drawings.pressure import clock, pressure_svg
from webapp.forms import placing as forms
from webapp.forms.attachment import Sheet
from webapp.models import Job, Wall
from webapp.pages.ask import Asked, Db, Form, Id, JobHere, Posted
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page, system, wants_part, with_query
from webapp.services import placing
from webapp.services.refusals import Missing

router = APIRouter(prefix="/jobs/{job_id}", include_in_schema=False)
COLUMNS = (
    "lift", "from ft", "to ft", "concrete yd3", "starts h:min", "minutes", "rise ft/h", "wall", "ACI 347R psf", "CIRIA 108 psf",
    "lift as liquid psf", "ratio to the forms",
)  # fmt: skip

FORMS = ("form-pressure", "web-force", "pump-rate")  # lines that rise and fall together


@dataclass(frozen=True, slots=True)
class Ask:
    """What a request is about.

    Args: base: what is kept for it. wall: the one wall of a wall's plan; None for a job's circuit. ticked: walls of the circuit,
    whether they have that storey or not.
    """

    site: placing.Site
    wall: Wall | None
    base: Mapping[str, str]
    draft: forms.Draft
    level: int
    ticked: list[int]
    version: int

    @property
    def address(self) -> str:
        """Of its page."""
        own = f"/jobs/{self.site.standing.job.id}/placing"
        return f"{own}/walls/{self.wall.id}" if self.wall else own

    @property
    def walls(self) -> dict[int, Wall]:
        """All that can be built, by id."""
        return self.site.at(1)

    @property
    def wall_ids(self) -> list[int]:
        """Of the walls to be placed: those of the circuit that have this storey, or the one wall."""
        return [self.wall.id] if self.wall else [i for i in self.site.at(self.level) if i in self.ticked]

    @property
    def names(self) -> list[str]:
        """Of the walls asked for."""
        return [self.site.standing.walls[wall_id].name for wall_id in self.wall_ids]

    @property
    def placed(self) -> dict[str, Any]:
        """What an address says of storey and walls, beyond the usual."""
        asked: dict[str, Any] = {"level": self.level if self.level > 1 else ""}
        if self.wall is None and set(self.ticked) != set(self.walls):
            asked["walls"] = "some"
        return asked


def read_ask(db: Db, job: Job, texts: Posted, units: System, wall_id: int = 0) -> Ask:
    """What is asked for: what is kept, with what is typed over it. Args: wall_id: 0 for a circuit. Raises: Missing."""
    site = placing.site(db, job.id)
    wall = site.standing.walls.get(wall_id)
    if wall_id and wall is None:
        raise Missing
    base = {**job.placing, **(wall.placing if wall else {})}
    if texts.get("do") == "follow":
        draft = forms.draft(job.placing, {}, units)
    else:
        draft = forms.draft(base, texts, texts.system() if texts else units)
    level = forms.level_of(texts, max(site.storeys, 1))
    said = forms.wall_ids(texts.every) if texts else None
    ticked = [i for i in site.at(1) if said is None or i in said]
    return Ask(site, wall, base, draft, level, ticked, wall.version if wall else job.version)


@router.get("/placing.csv")
def job_csv(db: Db, job: JobHere, asked: Asked) -> Response:
    """The lifts of a circuit, as kept or as typed in the address."""
    return _csv(job, read_ask(db, job, asked, "ft in"))


@router.get("/placing/walls/{wall_id}.csv")  # before the page, whose address would take it
def wall_csv(db: Db, job: JobHere, wall_id: Id, asked: Asked) -> Response:
    """The lifts of one wall."""
    return _csv(job, read_ask(db, job, asked, "ft in", wall_id))


@router.get("/placing")
def job_plan(request: Request, db: Db, job: JobHere, asked: Asked) -> Response:
    """The plan of a circuit; what is typed is in the address and is not kept."""
    return _answer(request, read_ask(db, job, asked, system(request)), typed=bool(asked))


@router.get("/placing/walls/{wall_id}")
def wall_plan(request: Request, db: Db, job: JobHere, wall_id: Id, asked: Asked) -> Response:
    """The plan of one wall, with its own answers over the job's."""
    return _answer(request, read_ask(db, job, asked, system(request), wall_id), typed=bool(asked))


@router.post("/placing")
def keep_job_plan(request: Request, db: Db, job: JobHere, form: Form) -> Response:
    """Keep the job's answers."""
    return _save(request, db, job, read_ask(db, job, form, form.system()), form)


@router.post("/placing/walls/{wall_id}")
def keep_wall_plan(request: Request, db: Db, job: JobHere, wall_id: Id, form: Form) -> Response:
    """Keep a wall's own answers, or show the job's in their place."""
    return _save(request, db, job, read_ask(db, job, form, form.system(), wall_id), form)


def _save(request: Request, db: Db, job: Job, ask: Ask, form: Posted) -> Response:
    if form.get("do") == "follow":
        return _answer(request, ask, typed=True)

    def save() -> Response:
        if ask.wall is None:
            placing.save_job(db, job.id, ask.draft.kept, form.version())
            said = "The placing plan is kept."
        else:
            own = placing.save_wall(db, job.id, ask.wall.id, ask.draft.kept, form.version())
            said = (
                f"Kept: {own} of {ask.wall.name}'s answers are its own." if own else f"{ask.wall.name} follows the job."
            )
        return lead_on(_with_walls(ask.address, ask), said)

    def kept_now() -> tuple[int, dict[str, str]]:
        now = read_ask(
            db, placing.site(db, job.id).standing.job, Posted(), ask.draft.units, ask.wall.id if ask.wall else 0
        )
        return now.version, differing(ask.draft.raw, now.draft.shown)

    return save_or_show(save, lambda **again: _answer(request, ask, typed=True, **again), kept_now)


def _with_walls(address: str, ask: Ask, texts: Mapping[str, str] | None = None) -> str:
    """An address with the storey and the walls asked for, and what is typed."""
    path = with_query(address, {**ask.placed, **(texts or {})})
    if "walls" not in ask.placed:
        return path
    return path + "".join(f"&wall={wall_id}" for wall_id in ask.ticked)


def _answer(
    request: Request,
    ask: Ask,
    typed: bool = False,
    errors: Mapping[str, str] | None = None,
    status: int = 0,
    version: int | None = None,
    heading: str = "",
) -> Response:
    """The page, or for a script the result alone."""
    job = ask.site.standing.job
    if not ask.site.storeys:
        return page(request, "pages/placing.html", job=job, ask=ask, heading="", unfit=ask.site.unfit(), form=None)
    found = placing.plan(ask.site, ask.draft.kept, ask.level, ask.wall_ids)
    wrong = dict(errors or {}) or (dict(found.refused) if typed else {})
    sheet = _sheet(ask, wrong, ask.version if version is None else version)
    return page(
        request,
        "pages/placing.html",
        part="pages/placing_result.html",
        status=status or (422 if wrong and not wants_part(request) else 200),
        job=job,
        ask=ask,
        form=sheet,
        labels=sheet.labels | {"walls": "Walls"},
        heading=heading,
        unfit=ask.site.unfit(),
        own=_own(ask),
        typed=typed and ask.draft.kept != {**forms.USUAL, **ask.base},
        **_result(ask, found, typed),
        units=ask.draft.units,
    )


def _sheet(ask: Ask, wrong: Mapping[str, str], version: int) -> Sheet:
    hidden = {"units": ask.draft.units, "version": str(version)}
    if ask.wall is None:
        hidden["walls"] = "some"  # so that no wall ticked is told from nothing said
    return forms.sheet(ask.draft, ask.address, hidden, wrong)


def _own(ask: Ask) -> list[str]:
    """Labels of the answers that are the wall's own."""
    kept = ask.wall.placing if ask.wall else {}
    return [s.label for s in placing.SPECS if s.name in kept]


def _result(ask: Ask, found: placing.Placement, typed: bool) -> dict[str, Any]:
    plan = found.plan
    texts = {"units": ask.draft.units, **ask.draft.raw} if typed and ask.draft.raw else {}
    shared = {
        "plan": plan,
        "refused": found.refused,
        "csv": _with_walls(f"{ask.address}.csv", ask, texts),
        "files": f"{ask.address}/pressure",
        "files_query": _with_walls("", ask, texts),
        "open_key": _open(plan),
    }
    if plan is None:
        return shared | {"result": None}
    return shared | {
        "result": plan.result,
        "rule": governing_rule(plan.largest),
        "drawing": {
            name: Markup(pressure_svg(plan, ask.draft.units, width))
            for name, width in (("wide", "desk"), ("tablet", "tablet"), ("phone", "phone"))
        },
        "rates": found.rates,
        "stages": [(stage, [p for p in plan.hold_points if p.stage == stage]) for stage in STAGES],
        "clock": clock,
        "lasts": clock(plan.hours * 60),
    }


def _open(plan: PlacingPlan | None) -> str:
    """The working to show first: that of the pressure, unless something else than the forms governs."""
    first = plan.result.governing if plan else None
    return FORMS[0] if first and first.key in FORMS else ""


def _csv(job: Job, ask: Ask) -> Response:
    found = placing.plan(ask.site, ask.draft.kept, ask.level, ask.wall_ids)
    rows = _rows(found.plan) if found.plan else []
    said = [s.sentence() for s in found.plan.result.states] if found.plan else [f"{m}" for m in found.refused.values()]
    placed = ", ".join(ask.names)
    text = csv_text.write(
        COLUMNS, rows, *said, f"{job.name}, storey {ask.level}, {placed}; {job.edition}, engine {VERSION}"
    )
    name = (
        re.sub(r"[^A-Za-z0-9]+", "-", f"{job.name} {ask.wall.name if ask.wall else ''} placing").strip("-").lower()[:80]
    )
    return Response(
        text,
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}.csv"'},
    )


def _rows(plan: PlacingPlan) -> list[tuple[object, ...]]:
    return [
        (
            row.filling.number, f"{row.filling.from_ft:.4g}", f"{row.filling.to_ft:.4g}", f"{row.filling.volume_yd3:.2f}",
            clock(row.filling.starts_min), f"{row.filling.minutes:.0f}", f"{row.filling.average_ft_per_h:.2f}", row.wall,
            f"{row.aci_psf:.0f}", "" if row.ciria_psf is None else f"{row.ciria_psf:.0f}", f"{row.lift_psf:.0f}",
            "" if row.ratio is None else f"{row.ratio:.3f}",
        )
        for row in plan.lifts
    ]  # fmt: skip
