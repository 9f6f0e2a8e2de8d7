"""Try a check: no job, nothing stored. What is typed lives in the address, so a check can be shared."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.forms.draft import known_kind
from webapp.forms.trial import Trial
from webapp.pages import results
from webapp.pages.ask import Asked, Form, Posted
from webapp.pages.view import page, system, wants_part, with_query
from webapp.services import checks
from webapp.services.clock import today

router = APIRouter(prefix="/try", include_in_schema=False)


@router.get("")
def choose(request: Request) -> Response:
    """Which kind of attachment."""
    return page(request, "pages/try.html", kinds=checks.offered())


@router.get("/{kind_key}")
def try_kind(request: Request, kind_key: str, asked: Asked) -> Response:
    """The form with the verdict beside it, from the address."""
    return _answer(request, asked, Trial(known_kind(kind_key), asked, asked.system(), system(request), today()))


@router.post("/{kind_key}")
def try_live(request: Request, kind_key: str, form: Form) -> Response:
    """The same from a form, as a script sends it while numbers are typed; the address follows."""
    response = _answer(request, form, Trial(known_kind(kind_key), form, form.system(), form.system(), today()))
    response.headers["HX-Replace-Url"] = with_query(f"/try/{kind_key}", {n: t for n, t in form.items() if n != "open"})
    return response


def _answer(request: Request, texts: Posted, trial: Trial) -> Response:
    key, address = trial.kind.key, f"/try/{trial.kind.key}"
    checked = checks.judge(key, trial.inputs, trial.edition)
    sheet = trial.sheet(address, checked)
    result = results.context(
        request,
        key,
        checked,
        trial.units,
        lambda remedy: with_query(address, trial.with_remedy(remedy)),
        open_key=texts.get("open", ""),
    )
    return page(
        request,
        "pages/try_kind.html",
        part=results.part(request),
        status=422 if sheet.errors else 200,
        edition_key=trial.edition,
        kind=trial.kind,
        kinds=checks.offered(),
        form=sheet,
        labels=sheet.labels,
        fields=None if wants_part(request) else results.fields(request, sheet, trial.units),
        **result | {"units": trial.units},
    )
