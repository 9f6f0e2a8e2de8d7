"""The office's own rates, off until typed, and what it always takes when ways of carrying a floor are compared."""

from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine import attachments as kinds
from engine import fields
from engine.options import Rates
from engine.units import System
from webapp.forms import standards
from webapp.forms.quantities import keep_all, shown_all
from webapp.pages.ask import Db, Form, Posted, SeenHere
from webapp.pages.saving import differing, save_or_show
from webapp.pages.view import lead_on, page, system
from webapp.services import offices
from webapp.services.refusals import Missing, Refused
from webapp.store import Database, reading

router = APIRouter(prefix="/office", include_in_schema=False)
RATES = fields.specs(Rates)
RATES_AT, STANDARDS_AT = "/office/rates", "/office/standards"


def _kept(db: Database, office_id: int) -> tuple[int, dict[str, str], dict[str, dict[str, str]]]:
    """The office's version, its rates, and what it takes by kind."""
    with reading(db) as session:
        row = offices.office(session, office_id)
        return row.version, dict(row.rates), {kind: dict(texts) for kind, texts in row.standards.items()}


@router.get("/rates")
def rates_page(request: Request, db: Db, seen: SeenHere) -> Response:
    """The rates in their form."""
    version, kept, _ = _kept(db, seen.office_id)
    units = system(request)
    return _form(request, "pages/office_rates.html", RATES, shown_all(RATES, kept, units), units, version)


@router.post("/rates")
def save_rates(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep them, or say which can't be used; those left empty stay off."""
    version, kept, _ = _kept(db, seen.office_id)
    units = form.system()

    def save() -> Response:
        texts = keep_all(RATES, _typed(form, RATES), units, kept)
        _, errors = fields.read(Rates, texts)
        if errors:
            raise Refused(errors)
        given = {name: text for name, text in texts.items() if text.strip()}
        offices.save(db, form.version(), {"rates": given}, seen.office_id)
        return lead_on(
            RATES_AT, "The rates are kept." if given else "No rate is kept: hours and prices are not counted."
        )

    shown = shown_all(RATES, kept, units)
    return _saved(request, "pages/office_rates.html", RATES, form, save, version, shown)


@router.get("/standards")
def standards_list(request: Request, db: Db, seen: SeenHere) -> Response:
    """Each kind with what the office takes for it."""
    _, _, kept = _kept(db, seen.office_id)
    units = system(request)
    rows = [(kinds.kind(key), _said(key, kept.get(key, {}), units)) for key in standards.KINDS]
    return page(request, "pages/office_standards.html", rows=rows)


def _said(kind_key: str, texts: Mapping[str, str], units: System) -> list[str]:
    known = {s.name: s for s in standards.known(kind_key, units)}
    return [
        f"{known[name].label}: {dict(known[name].options).get(text, text)}"
        for name, text in texts.items()
        if name in known
    ]


def _specs(kind_key: str, units: System) -> tuple[fields.Spec, ...]:
    if kind_key not in standards.KINDS:
        raise Missing
    return standards.known(kind_key, units)


@router.get("/standards/{kind_key}")
def standards_page(request: Request, db: Db, seen: SeenHere, kind_key: str) -> Response:
    """What the office takes for one kind, in its form."""
    units = system(request)
    known = _specs(kind_key, units)
    version, _, kept = _kept(db, seen.office_id)
    values = shown_all(known, kept.get(kind_key, {}), units)
    return _form(request, "pages/office_standard.html", known, values, units, version, kind=kinds.kind(kind_key))


@router.post("/standards/{kind_key}")
def save_standards(request: Request, db: Db, seen: SeenHere, kind_key: str, form: Form) -> Response:
    """Keep what was given, or say what can't be used."""
    units = form.system()
    known = _specs(kind_key, units)
    version, _, everything = _kept(db, seen.office_id)
    kept = everything.get(kind_key, {})

    def save() -> Response:
        given, errors = standards.read(kind_key, keep_all(known, _typed(form, known), units, kept))
        if errors:
            raise Refused(errors)
        offices.save(db, form.version(), {"standards": {**everything, kind_key: given}}, seen.office_id)
        return lead_on(STANDARDS_AT, f"{kinds.kind(kind_key).name}: what the office takes is kept.")

    shown = shown_all(known, kept, units)
    return _saved(request, "pages/office_standard.html", known, form, save, version, shown, kind=kinds.kind(kind_key))


def _typed(form: Posted, known: tuple[fields.Spec, ...]) -> dict[str, str]:
    return {s.name: form.get(s.name, "") for s in known}


def _saved(
    request: Request, template: str, known: tuple[fields.Spec, ...], form: Posted, save: Any, version: int,
    shown: Mapping[str, str], **context: Any,
) -> Response:  # fmt: skip
    typed, units = _typed(form, known), form.system()

    def again(version: int | None = None, **more: Any) -> Response:
        at = form.version() if version is None else version
        return _form(request, template, known, typed, units, at, **more, **context)

    return save_or_show(save, again, lambda: (version, differing(typed, shown)))


def _form(
    request: Request,
    template: str,
    known: tuple[fields.Spec, ...],
    values: Mapping[str, str],
    units: System,
    version: int,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    heading: str = "",
    **context: Any,
) -> Response:
    return page(
        request,
        template,
        status=status,
        specs=known,
        values=dict(values),
        units=units,
        version=version,
        errors=dict(errors or {}),
        labels={s.name: s.label for s in known},
        heading=heading,
        **context,
    )
