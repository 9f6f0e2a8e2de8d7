"""What a result page needs beside the result: drawings, what would make it pass, which working is open."""

import logging
from collections.abc import Callable
from typing import Any

from fastapi import Request
from markupsafe import Markup

from engine.job import Checked
from engine.result import CheckResult, Verdict
from engine.solve import Remedy
from engine.units import System, show
from webapp.drawings import section_svg
from webapp.forms.attachment import Sheet
from webapp.pages.view import fragment, wants_part
from webapp.services import checks, cut_lists
from webapp.services.kept import PIECES, Kept, bytes_of

MOST_REMEDIES = 6
SLIPS = "slips"
RESULT, REMEDIES = "partials/result.html", "partials/result_remedies.html"
WORKING, FIELDS = "partials/result_working.html", "partials/attachment_fields.html"
NO_TAG = "S1"
UNDRAWN = Markup("<p>These numbers could not be drawn. The verdict and its working hold without the drawing.</p>")
# a result is its inputs' and edition's, and so is all that shows it
_DRAWN = Kept[dict[str, Markup]](200, PIECES, bytes_of)
_WORKED, _FIELDS = Kept[Markup](200, PIECES), Kept[Markup](400, PIECES)
log = logging.getLogger("wallseat")


def part(request: Request) -> str:
    """The template a script asks for: the result, or what would make it pass."""
    return REMEDIES if request.query_params.get("part") == "remedies" else RESULT


def context(
    request: Request,
    kind_key: str,
    checked: Checked,
    system: System,
    use: Callable[[Remedy], str],
    *,
    open_key: str = "",
    tag: str = NO_TAG,
    title: str = "",
    csv: str = "",
) -> dict[str, Any]:
    """Context of `partials/result.html` and of its parts.

    What would make it pass takes a search: a live answer leaves it out and asks for it once the typing rests.
    Args: use: address that opens the form with a remedy filled in ("" for none). tag, title: of the drawing. csv:
    address of the cut list as kept, "" for none.
    """
    result = checked.result
    later = wants_part(request) and part(request) == RESULT and result is not None
    asked_key = open_key if result and any(s.key == open_key for s in result.states) else ""
    asked = part(request) == REMEDIES or SLIPS in request.query_params
    return {
        "result": result,
        "refused": checked.refused,
        "cut_list": None if result is None else cut_lists.table(kind_key, checked.inputs, system),
        "cut_list_csv": csv,
        "drawing": {} if result is None else drawings(kind_key, checked.inputs, result, system, tag, title),
        "remedies": [] if later else remedies(kind_key, checked, system, use),
        "later_href": f"{request.url.path}?part=remedies" if later else "",
        "slips": slips(kind_key, checked, system) if asked and not later else [],
        "slips_href": _with(request, SLIPS, "1") if _holds(checked) and not asked and not later else "",
        "slips_part": _with(request, "part", "remedies"),
        "compare_href": "",
        "open_key": asked_key,
        "working": None if result is None else _working(request, kind_key, checked.inputs, result, system, asked_key),
    }


def _with(request: Request, name: str, value: str) -> str:
    url = request.url.include_query_params(**{name: value})
    return f"{url.path}?{url.query}"


def _holds(checked: Checked) -> bool:
    return checked.result is not None and not _flags(checked)


def _flags(checked: Checked) -> bool:
    return checked.result is not None and any(s.verdict is Verdict.FLAG for s in checked.result.states)


def drawings(
    kind_key: str, inputs: Any, result: CheckResult, system: System, tag: str, title: str
) -> dict[str, Markup]:
    """The section for each width of sheet; a width class has a drawing of its own."""

    def draw() -> dict[str, Markup]:
        return {
            width: Markup(section_svg(kind_key, inputs, result, system, width_class, tag, title))
            for width, width_class in (("wide", "desk"), ("tablet", "tablet"), ("phone", "phone"))
        }

    try:
        return _DRAWN.of((kind_key, inputs, result.edition, system, tag, title), draw)
    except Exception:  # a verdict without its drawing is worth more than neither
        log.exception("no drawing of %s from %r", kind_key, inputs)
        return {"wide": UNDRAWN}


def _working(
    request: Request, kind_key: str, inputs: Any, result: CheckResult, system: System, open_key: str
) -> Markup:
    """The working of every line, one of them open: the line asked for, else the one that governs."""

    def fill() -> Markup:
        return fragment(request, WORKING, result=result, units=system, open_key=open_key)

    return _WORKED.of((kind_key, inputs, result.edition, system, open_key), fill)


def fields(request: Request, form: Sheet, system: System) -> Markup:
    """The fields of a form, for a whole page."""
    texts = (form.values, form.errors, form.inherited, form.summaries)
    on = (system, form.specs, *(tuple(named.items()) for named in texts))
    return _FIELDS.of(on, lambda: fragment(request, FIELDS, form=form, units=system))


def remedies(kind_key: str, checked: Checked, system: System, use: Callable[[Remedy], str]) -> list[dict[str, Any]]:
    """The first few changes that make a flagged attachment pass."""
    if checked.result is None or not _flags(checked):
        return []
    found = checks.remedies(kind_key, checked.inputs, checked.result.edition)
    return [
        {
            "text": remedy.words(system),
            "note": f"then {remedy.governs[:1].lower()}{remedy.governs[1:]} governs" if remedy.governs else "",
            "ratio": remedy.ratio,
            "href": use(remedy),
        }
        for remedy in found[:MOST_REMEDIES]
    ]


def slips(kind_key: str, checked: Checked, system: System) -> list[dict[str, str]]:
    """How far each number of an attachment that holds may move before a line flags: what an inspector measures against."""
    if checked.result is None or _flags(checked):
        return []
    found = checks.slips(kind_key, checked.inputs, checked.result.edition)
    bound = [s for s in found if s.low is not None or s.high is not None]
    return [
        {
            "label": slip.spec.label,
            "drawn": show(getattr(checked.inputs, slip.spec.name), slip.spec.unit, system),
            "low": "" if slip.low is None else show(slip.low, slip.spec.unit, system),
            "high": "" if slip.high is None else show(slip.high, slip.spec.unit, system),
            "breaks": "; ".join(dict.fromkeys(b for b in (slip.low_breaks, slip.high_breaks) if b)),
        }
        for slip in bound
    ]
