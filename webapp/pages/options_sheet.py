"""The comparison put together: columns side by side, what a choice would make and replace."""

import logging
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from engine import attachments as kinds
from engine.errors import BadInput
from engine.options import MEASURES, Candidate, Measure, Rates, Total, choose, total
from engine.result import ratio_words
from engine.solve import Remedy, Slip
from engine.units import System, grouped, show
from webapp.documents.option_words import sizes
from webapp.drawings import section_svg
from webapp.forms.attachment import PLACE
from webapp.pages.floor_line_sheet import joists_words
from webapp.pages.results import UNDRAWN
from webapp.pages.view import with_query
from webapp.services.options import Asked, Column, Found, refused_for_listing, typed

# Amounts of material in the other system: exact by definition, NIST SP 811 (2008), appendix B.8.
METRIC = {"lb": ("kg", 0.45359237), "ft": ("m", 0.3048), "ft³": ("m³", 0.028316846592)}
COUNTS = ("hardware", "before", "after")
LABELS = {
    "hardware": "Pieces of hardware", "steel_lb": "Steel", "cut_ft": "Cuts in foam", "concrete_ft3": "Concrete added",
    "ratio": "Ratio", "before": "Steps before concrete", "after": "Steps after",
}  # fmt: skip
log = logging.getLogger("wallseat")


def label(measure: Measure, system: System) -> str:
    """What a row or column is called, with the reader's unit."""
    unit = METRIC[measure.unit][0] if system == "mm" and measure.unit in METRIC else measure.unit
    unit = {"ft³": "cu\u00a0ft"}.get(unit, unit)
    return LABELS[measure.key] + (f", {unit}" if unit else "")


def figure(measure: Measure, value: float, system: System) -> str:
    """A measure as a figure in the reader's unit."""
    if measure.key in COUNTS:
        return f"{value:.0f}"
    if measure.key == "ratio":
        return ratio_words(value)
    if system == "mm":
        value *= METRIC[measure.unit][1]
    return grouped(value, 0 if value >= 100 else 1) if value else "0"


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps of a way on one side of placing. Args: least: whether no other column has fewer."""

    words: tuple[str, ...]
    least: bool = False


def comparison(asked: Asked, found: Found, system: System) -> dict[str, Any]:
    """Context of `pages/options.html`."""
    totals = [_total(column, asked.rates) for column in found.columns]
    rows = _rows(asked, system, totals)
    least = _least(found.columns, totals)
    columns = [
        {
            "column": column,
            "name": column.name,
            "drawings": _drawings(asked, column, number, system),
            "values": _values(asked, column, total_, system),
            "least": {key for key, of in least.items() if number in of},
            "steps": _steps(column),
            "asks": _asks(column, system),
            "missing": total_.missing if total_ else (),
            **_ways_on(asked, column, system),
        }
        for number, (column, total_) in enumerate(zip(found.columns, totals, strict=True))
    ]
    return {
        "rows": rows, "columns": columns, "joists": joists_words(asked.found, system), "key": asked.key,
        "refused": refused(found), "passed": len(found.comparison.ranked),
    }  # fmt: skip


def _total(column: Column, rates: Rates) -> Total | None:
    return total(column.candidate.quantities, rates) if column.candidate and column.candidate.quantities else None


def _rows(asked: Asked, system: System, totals: Sequence[Total | None]) -> list[tuple[str, str, str]]:
    """What is compared: label, key, how it is shown."""
    run = show(asked.line.place.length_in / 12, "ft", system)
    by_key = {m.key: m for m in MEASURES}
    rows = [
        ("Verdict", "verdict", "verdict"),
        ("Governs", "governs", ""),
        ("Ratio", "ratio", "ratio"),
        ("Sizes", "sizes", ""),
    ]
    rows.append((f"Pieces, {run}", "hardware", "figure"))
    rows += [(label(by_key[key], system), key, "figure") for key in ("steel_lb", "cut_ft", "concrete_ft3")]
    rows += [(LABELS[key], key, "steps") for key in ("before", "after")]
    if any(t and t.hours is not None for t in totals):
        rows.append(("Hours, office's rates", "hours", "figure"))
    if any(t and t.price is not None for t in totals):
        rows.append(("Price, office's rates", "price", "figure"))
    return [*rows, ("Asks of the wall", "asks", "asks")]


def _least(columns: Sequence[Column], totals: Sequence[Total | None]) -> dict[str, set[int]]:
    """For every row of figures the columns that have the least; where all have the same, none is marked."""
    holding = [
        (n, c.candidate, t) for n, (c, t) in enumerate(zip(columns, totals, strict=True)) if c.rank and c.candidate
    ]
    found: dict[str, set[int]] = {}
    for measure in MEASURES:
        found[measure.key] = _smallest([(n, measure.of(c)) for n, c, _ in holding])
    for key in ("hours", "price"):
        found[key] = _smallest([(n, value) for n, _, t in holding if (value := getattr(t, key, None)) is not None])
    return found


def _smallest(values: Sequence[tuple[int, float]]) -> set[int]:
    if len({value for _, value in values}) < 2:
        return set()
    least = min(value for _, value in values)
    return {number for number, value in values if value <= least * (1 + 1e-9)}


def _values(asked: Asked, column: Column, cost: Total | None, system: System) -> dict[str, Any]:
    candidate = column.candidate
    if candidate is None:
        return {"verdict": "not checked", "governs": column.why.partition(":")[0], "ratio": None, "sizes": "none tried"}
    found: dict[str, Any] = {
        "verdict": candidate.verdict.value if candidate.verdict else "not checked",
        "governs": candidate.governing.title if candidate.governing else candidate.clash,
        "ratio": candidate.governing.ratio if candidate.governing else None,
        "sizes": sizes(column.kind, candidate.inputs, system),
    }
    if candidate.quantities:
        found |= {m.key: figure(m, m.of(candidate), system) for m in MEASURES if m.key != "ratio"}
    if cost and cost.hours is not None:
        found["hours"] = grouped(cost.hours, 1)
    if cost and cost.price is not None:
        found["price"] = grouped(cost.price, 2)
    return found


def _steps(column: Column) -> dict[str, tuple[str, ...]]:
    taken = column.candidate.quantities if column.candidate else None
    return {"before": taken.before, "after": taken.after} if taken else {}


def _asks(column: Column, system: System) -> list[str]:
    """What it asks of the wall, a sentence each."""
    said = [_slip(ask, system) if isinstance(ask, Slip) else _remedy(ask, system) for ask in column.asks]
    return [words for words in said if words]


def _slip(slip: Slip, system: System) -> str:
    if slip.low is not None and slip.low == slip.high:
        return f"{slip.spec.label} {show(slip.low, slip.spec.unit, system)} and no other"
    bounds = [
        f"{words} {show(value, slip.spec.unit, system)}"
        for words, value in (("at least", slip.low), ("at most", slip.high))
        if value is not None
    ]
    return f"{slip.spec.label} {', '.join(bounds)}" if bounds else ""


def _remedy(remedy: Remedy, system: System) -> str:
    return f"{remedy.words(system)}: then {ratio_words(remedy.ratio)}"


def _drawings(asked: Asked, column: Column, number: int, system: System) -> list[tuple[str, Markup]]:
    """The section twice: for a column of four, and for one of two or alone."""
    if column.candidate is None:
        return []
    kind, inputs = column.kind, column.candidate.inputs
    try:
        result = kinds.check(kind, inputs, asked.line.edition, recording=False)
    except BadInput:
        result = None
    try:
        return [
            (
                width,
                Markup(
                    section_svg(
                        kind, inputs, result, system, width, f"W{number + 1}", column.name, f"way{number}-{width}"
                    )
                ),
            )
            for width in ("small", "half")
        ]
    except Exception:  # numbers without their drawing are worth more than neither
        log.exception("no drawing of %s from %r", kind, inputs)
        return [("small", UNDRAWN), ("half", UNDRAWN)]


def _ways_on(asked: Asked, column: Column, system: System) -> dict[str, Any]:
    """Where a column leads: choosing it, seeing what it needs, typing what it lacks."""
    if column.candidate is None:
        return {"rank": 0, "makes": "", "needs": "", "lacks": f"/office/standards/{column.kind}"}
    if column.rank:
        return {"rank": column.rank, "makes": makes(asked, column.candidate), "needs": "", "lacks": ""}
    return {"rank": 0, "makes": "", "needs": _form_of(asked, column.candidate), "lacks": ""}


def makes(asked: Asked, candidate: Candidate) -> str:
    """What choosing it makes, in words."""
    count = len(typed(asked, candidate))
    return "One attachment along the line." if count == 1 else f"{count} attachments, one at each joist."


def _form_of(asked: Asked, candidate: Candidate) -> str:
    """The form of an attachment with the candidate's numbers filled in, where the page says what would make it pass."""
    chosen, (first, *_) = choose(candidate), typed(asked, candidate)
    place = {"wall": str(first.wall_id), "level": first.level, "start_ft": first.start, "end_ft": first.end}
    texts = {PLACE + name: text for name, text in place.items()} | chosen.inputs
    return with_query(
        f"/jobs/{asked.standing.job.id}/attachments/new", {"kind": chosen.kind, "units": "ft in", **texts}
    )


def refused(found: Found) -> list[dict[str, str]]:
    """Ways that could not be tried, and where the office can mend that."""
    return [
        {
            "name": one.offer.name,
            "why": one.why,
            "href": f"/office/standards/{one.offer.kind}" if refused_for_listing(one) else "",
        }
        for one in found.comparison.refused
    ]


def confirm(asked: Asked, candidate: Candidate, rank: str, system: System) -> dict[str, Any]:
    """Context of `pages/options_confirm.html`."""
    start, end = asked.line.place.start_ft, asked.line.place.end_ft or 0.0
    carriers = [
        (row, kinds.kind(row.kind).name, f"{row.start} to {row.end}" if row.end else f"at {row.start}")
        for row in asked.found.carriers
    ]
    return {
        "line": asked.found, "name": candidate.way.offer.name, "sizes": sizes(candidate.way.offer.kind, candidate.inputs, system),
        "rank": rank, "key": asked.key, "carriers": carriers, "makes": makes(asked, candidate),
        "run": f"{show(start, 'ft', system)} to {show(end, 'ft', system)}",
    }  # fmt: skip
