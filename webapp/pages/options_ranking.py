"""Everything that holds in its order, searched, sorted and in parts; why the rest does not; both as tables of their own."""

from collections.abc import Iterable
from typing import Any

from engine.options import MEASURES, OFFERS, RULE, Ranked, Total, total, why
from engine.units import System
from webapp.documents.option_words import sizes
from webapp.pages.floor_line_sheet import joists_words
from webapp.pages.options_sheet import LABELS, figure, label, refused
from webapp.pages.view import with_query
from webapp.services.listing import Wanted
from webapp.services.options import Asked, Found

NAMES = {offer.key: offer.name for offer in OFFERS}
PAGE = 50
SORTS = (("", "As ranked"), *((m.key, LABELS[m.key]) for m in MEASURES))


def ranking(asked: Asked, found: Found, wanted: Wanted, way: str, system: System) -> dict[str, Any]:
    """Context of `pages/options_all.html`. Args: way: an offer's key, "" for all."""
    everything = list(enumerate(found.comparison.ranked, 1))
    searched = [(rank, one) for rank, one in everything if _holds(one, wanted.q, system)]
    here = [(rank, one) for rank, one in searched if way in ("", one.candidate.way.offer.key)]
    by = {m.key: n for n, m in enumerate(MEASURES)}.get(wanted.sort)
    if by is not None:
        here.sort(key=lambda pair: (pair[1].measures[by], pair[0]))
    first = (wanted.page - 1) * PAGE
    part = here[first : first + PAGE]
    base = f"/jobs/{asked.standing.job.id}/floor-lines/{asked.found.row.id}/options/all"
    asks = {"q": wanted.q, "sort": wanted.sort, "way": way}
    return {
        "rows": [_row(asked, rank, one, system) for rank, one in part],
        "columns": [(label(m, system), m.key) for m in MEASURES],
        "chips": _chips(searched, way, base, asks), "sorts": SORTS, "wanted": wanted, "way": way, "key": asked.key, "rule": RULE,
        "first": first + 1, "last": first + len(part), "total": len(here),
        "previous": with_query(base, asks | {"page": wanted.page - 1}) if wanted.page > 1 else "",
        "next": with_query(base, asks | {"page": wanted.page + 1}) if first + PAGE < len(here) else "",
        "csv": f"{base}.csv", "failed": _failed(found), "refused": refused(found), "joists": joists_words(asked.found, system),
        "fronts": max((one.front for _, one in everything), default=0),
    }  # fmt: skip


def _holds(one: Ranked, q: str, system: System) -> bool:
    if not q:
        return True
    candidate = one.candidate
    text = f"{candidate.way.offer.name} {sizes(candidate.way.offer.kind, candidate.inputs, system)}".lower()
    return all(word in text for word in q.lower().split())


def _row(asked: Asked, rank: int, one: Ranked, system: System) -> dict[str, Any]:
    candidate = one.candidate
    return {
        "rank": rank, "front": one.front, "name": candidate.way.offer.name,
        "sizes": sizes(candidate.way.offer.kind, candidate.inputs, system),
        "governs": candidate.governing.title if candidate.governing else "",
        "figures": {m.key: figure(m, value, system) for m, value in zip(MEASURES, one.measures, strict=True)},
    }  # fmt: skip


def _chips(searched: Iterable[tuple[int, Ranked]], way: str, base: str, asks: dict[str, str]) -> list[dict[str, Any]]:
    counts: dict[str, int] = {}
    for _, one in searched:
        counts[one.candidate.way.offer.key] = counts.get(one.candidate.way.offer.key, 0) + 1
    items = [("", "All", sum(counts.values())), *((key, NAMES[key], n) for key, n in counts.items())]
    return [
        {"label": name, "count": n, "href": with_query(base, asks | {"way": key}), "current": key == way, "verdict": ""}
        for key, name, n in items
    ]


def _failed(found: Found) -> list[dict[str, Any]]:
    return [
        {"way": one.way, "why": one.why, "count": one.count, "nearest": why(one.nearest)}
        for one in found.comparison.failed
    ]


def csv_rows(asked: Asked, found: Found, system: System) -> tuple[list[str], list[list[object]]]:
    """Everything that holds, as a table: its columns and rows."""
    columns = [
        "rank",
        "front",
        "way",
        "sizes",
        "governs",
        *(label(m, system).lower() for m in MEASURES),
        "hours",
        "price",
    ]
    rows: list[list[object]] = []
    for rank, one in enumerate(found.comparison.ranked, 1):
        row, taken = _row(asked, rank, one, system), one.candidate.quantities
        cost = total(taken, asked.rates) if taken else Total(None, None)
        money = [None if value is None else f"{value:.2f}" for value in (cost.hours, cost.price)]
        rows.append([rank, one.front, row["name"], row["sizes"], row["governs"], *row["figures"].values(), *money])
    return columns, rows


def failed_rows(asked: Asked, found: Found, system: System) -> tuple[list[str], list[list[object]]]:
    """Why the others do not hold, as a table: its columns and rows."""
    rows: list[list[object]] = [
        [
            one.way,
            one.why,
            one.count,
            why(one.nearest),
            sizes(one.nearest.way.offer.kind, one.nearest.inputs, system),
        ]
        for one in found.comparison.failed
    ]
    return ["way", "what governs", "candidates", "the nearest of them", "its sizes"], rows
