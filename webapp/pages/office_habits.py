"""How the office sets out: clearances, brackets and extra bars, typed once for all its jobs."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine import fields
from engine.setting_out import Habits
from engine.units import System
from webapp.forms.quantities import keep_all, shown_all
from webapp.pages.ask import Db, Form, Posted, SeenHere
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page, system
from webapp.services import offices
from webapp.services.refusals import Refused
from webapp.store import Database, reading

router = APIRouter(prefix="/office/habits", include_in_schema=False)
SPECS = fields.specs(Habits)
ADDRESS = "/office/habits"


def _kept(db: Database, office_id: int) -> tuple[int, dict[str, str]]:
    """The office's version, and every habit as text; one that can no longer be used at its default."""
    with reading(db) as session:
        row = offices.office(session, office_id)
        return row.version, fields.write(offices.habits(row)) | _usable(row.habits)


def _usable(texts: Mapping[str, str]) -> dict[str, str]:
    _, errors = fields.read(Habits, texts)
    return {name: text for name, text in texts.items() if name not in errors}


@router.get("")
def habits_page(request: Request, db: Db, seen: SeenHere) -> Response:
    """The habits in their form."""
    version, kept = _kept(db, seen.office_id)
    units = system(request)
    return _form(request, shown_all(SPECS, kept, units), units, version)


def _form(
    request: Request,
    values: Mapping[str, str],
    units: System,
    version: int,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    heading: str = "",
) -> Response:
    return page(
        request,
        "pages/office_habits.html",
        status=status,
        specs=SPECS,
        values=dict(values),
        units=units,
        version=version,
        errors=dict(errors or {}),
        labels={s.name: s.label for s in SPECS},
        heading=heading,
    )


@router.post("")
def save_habits(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep them, or say which can't be used."""
    units = form.system()
    version, kept = _kept(db, seen.office_id)
    typed = {s.name: form.get(s.name, "") for s in SPECS}

    def save() -> Response:
        offices.save(db, form.version(), {"habits": _checked(form, units, kept)}, seen.office_id)
        return lead_on(ADDRESS, "The habits are kept. Everything calculated is set out by them from now on.")

    def again(version: int | None = None, **shown: object) -> Response:
        return _form(request, typed, units, form.version() if version is None else version, **shown)  # type: ignore[arg-type]

    def kept_now() -> tuple[int, dict[str, str]]:
        return version, differing(typed, shown_all(SPECS, kept, units))

    return save_or_show(save, again, kept_now)


def _checked(form: Posted, units: System, kept: Mapping[str, str]) -> dict[str, str]:
    """The texts to keep. Raises: Refused."""
    texts = keep_all(SPECS, {s.name: form.get(s.name, "") for s in SPECS}, units, kept)
    _, errors = fields.read(Habits, texts)
    if errors:
        raise Refused(errors)
    return texts
