"""Try a check: no job, nothing stored. What is typed lives in the address, so a check can be shared."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.editions import EDITIONS, US_2021
from engine.fields import Spec, specs
from engine.solve import Remedy
from webapp.forms import attachment as forms
from webapp.forms.quantities import keep_all, shown
from webapp.pages import results
from webapp.pages.ask import Asked, Form, Posted
from webapp.pages.attachment_sheet import known_kind
from webapp.pages.view import page, system, with_query
from webapp.services import checks
from webapp.services.clock import today

router = APIRouter(prefix="/try", include_in_schema=False)
EDITION = Spec(
    name="edition",
    label="Code editions",
    group="Judged by",
    kind="choice",
    options=tuple((key, key) for key in EDITIONS),
    default=US_2021.key,
)


@router.get("")
def choose(request: Request) -> Response:
    """Which kind of attachment."""
    return page(request, "pages/try.html", kinds=checks.offered())


@router.get("/{kind_key}")
def try_kind(request: Request, kind_key: str, asked: Asked) -> Response:
    """The form with the verdict beside it, from the address."""
    return _answer(request, kind_key, asked)


@router.post("/{kind_key}")
def try_live(request: Request, kind_key: str, form: Form) -> Response:
    """The same from a form, as a script sends it while numbers are typed; the address follows."""
    response = _answer(request, kind_key, form)
    response.headers["HX-Replace-Url"] = with_query(f"/try/{kind_key}", {n: t for n, t in form.items() if n != "open"})
    return response


def _answer(request: Request, kind_key: str, texts: Posted) -> Response:
    chosen = known_kind(kind_key)
    known = (*specs(chosen.inputs), EDITION)
    typed_in, units = texts.system(), texts.system() if request.method == "POST" else system(request)
    raw = {s.name: texts[s.name] for s in known if s.name in texts}
    kept = forms.defaults(chosen, today()) | {EDITION.name: US_2021.key} | keep_all(known, raw, typed_in)
    edition_key = kept[EDITION.name] if kept[EDITION.name] in EDITIONS else US_2021.key
    checked = checks.judge(kind_key, {s.name: kept[s.name] for s in known[:-1]}, edition_key)
    values = {
        s.name: raw[s.name] if s.name in raw and typed_in == units else shown(s, kept[s.name], units) for s in known
    }

    def use(remedy: Remedy) -> str:
        changes = {s.name: shown(s, remedy.changes[s.name], units) for s in remedy.specs}
        return with_query(f"/try/{kind_key}", {"units": units, **forms.overridden(values, changes)})

    sheet = forms.Sheet(
        "attachment",
        f"/try/{kind_key}",
        "get",
        known,
        values,
        f"/try/{kind_key}",
        {"units": units},
        checked.refused if raw else {},
        summaries=forms.summaries(known, kept, units),
    )
    return page(
        request,
        "pages/try_kind.html",
        part=results.part(request),
        status=422 if checked.refused and raw else 200,
        edition_key=edition_key,
        kind=chosen,
        kinds=checks.offered(),
        form=sheet,
        labels=sheet.labels,
        **results.context(request, kind_key, checked, units, use, open_key=texts.get("open", "")) | {"units": units},
    )
