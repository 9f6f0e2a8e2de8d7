"""What the office types once for all its jobs: its name, where every setting is, and what its takeoffs are counted by."""

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.units import System
from webapp.forms import office as forms
from webapp.models import Office
from webapp.pages.ask import Db, Form, SeenHere
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page, system
from webapp.permissions import allowed
from webapp.services import offices
from webapp.services.sign_in import Seen
from webapp.services.takeoff import own_values
from webapp.store import Database, reading

router = APIRouter(prefix="/office", include_in_schema=False)
TAKEOFF = "/office/takeoff"
# Address -> title, what it is for, the column it is kept in.
SETTINGS = {
    TAKEOFF: ("Takeoff and waste", "Forms, lifts, stock bars, boxes, and the waste of every item a buyer orders.", "takeoff"),
    "/office/habits": ("Setting-out habits", "Clearances, brackets, first bars: how crews set things along a wall.", "habits"),
    "/office/rates": ("Rates", "What hours and goods cost, for comparing the ways to carry a floor.", "rates"),
    "/office/standards": ("Standards", "What it always takes for a kind of attachment; new ones start from it.", "standards"),
    "/office/hold-points": ("Hold points", "Where work waits for somebody's look before concrete is placed.", "hold_points"),
    "/office/checklists": ("Checklists", "What reviewers tick on site, by kind of attachment and stage.", ""),
    "/office/second": ("Second factor", "Who must show a code from a device at every sign-in.", "second_for"),
}  # fmt: skip


def _office(db: Database, seen: Seen) -> Office:
    with reading(db) as session:
        return offices.office(session, seen.office_id)


def _may(seen: Seen, path: str) -> bool:
    return seen.role in (allowed("POST", path) or ())


def settings_of(row: Office, seen: Seen) -> list[tuple[str, str, str, str]]:
    """Every setting there is a page for that somebody may read: address, title, what it is for, what is set."""
    return [
        (path, title, about, _set_so_far(row, column))
        for path, (title, about, column) in SETTINGS.items()
        if seen.role in (allowed("GET", path) or ())
    ]


def _set_so_far(row: Office, column: str) -> str:
    if not column:  # kept in rows of its own, a version each
        return "a list for each kind and stage"
    kept = getattr(row, column)
    if column == "second_for":
        return f"asked of {offices.DEMANDS.get(kept, kept)}"
    if column == "takeoff":
        wastes = len(own_values(row)[1])
        words = "no waste typed" if not wastes else f"waste typed for {wastes} item{'s' * (wastes != 1)}"
        return f"{'own values' if kept else 'usual values'}, {words}"
    if column == "hold_points":
        return f"{len(kept)} of the office's own" if kept else "the published list"
    if column == "standards":
        return f"typed for {len(kept)} kind{'s' * (len(kept) != 1)}" if kept else "none yet"
    return "own values" if kept else "usual values"


@router.get("")
def office_page(request: Request, db: Db, seen: SeenHere) -> Response:
    """All settings."""
    return _index(request, _office(db, seen), seen)


def _index(
    request: Request,
    row: Office,
    seen: Seen,
    name: str | None = None,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    version: int | None = None,
    heading: str = "",
) -> Response:
    return page(
        request,
        "pages/office.html",
        status=status,
        office=row,
        settings=settings_of(row, seen),
        may=_may(seen, "/office"),
        name=row.name if name is None else name,
        errors=dict(errors or {}),
        version=row.version if version is None else version,
        heading=heading,
    )


@router.post("")
def rename_office(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep the office's name."""
    typed = form.get("name", "")

    def save() -> Response:
        offices.save(db, form.version(), {"name": forms.name(typed)}, seen.office_id)
        return lead_on("/office", "The office's name is kept.")

    def again(version: int | None = None, **shown: Any) -> Response:
        return _index(request, _office(db, seen), seen, typed, version=version or form.version(), **shown)

    def kept_now() -> tuple[int, dict[str, str]]:
        row = _office(db, seen)
        return row.version, differing({"name": typed}, {"name": row.name})

    return save_or_show(save, again, kept_now)


@router.get("/takeoff")
def takeoff_values(request: Request, db: Db, seen: SeenHere) -> Response:
    """Values and wastes in their form."""
    row, units = _office(db, seen), system(request)
    return _form(request, seen, forms.shown(row.takeoff, row.waste, units), units, row.version)


def _form(
    request: Request,
    seen: Seen,
    values: Mapping[str, str],
    units: System,
    version: int,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    heading: str = "",
) -> Response:
    return page(
        request,
        "pages/office_takeoff.html",
        status=status,
        specs=forms.VALUES,
        waste=forms.WASTE,
        values=values,
        units=units,
        version=version,
        may=_may(seen, TAKEOFF),
        errors=dict(errors or {}),
        labels={s.name: s.label for s in forms.SPECS},
        heading=heading,
    )


@router.post("/takeoff")
def save_takeoff_values(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep them, or say which can't be used."""
    units, typed, before = form.system(), forms.typed(form), _office(db, seen)

    def save() -> Response:
        values, waste = forms.kept(typed, units, before.takeoff)
        offices.save(db, form.version(), {"takeoff": values, "waste": waste}, seen.office_id)
        return lead_on(TAKEOFF, "These are kept. Every takeoff is counted by them from now on.")

    def again(version: int | None = None, **shown: Any) -> Response:
        return _form(request, seen, typed, units, form.version() if version is None else version, **shown)

    def kept_now() -> tuple[int, dict[str, str]]:
        row = _office(db, seen)
        return row.version, differing(typed, forms.shown(row.takeoff, row.waste, units))

    return save_or_show(save, again, kept_now)
