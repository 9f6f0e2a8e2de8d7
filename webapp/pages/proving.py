"""How it was checked: what the engine computes beside what was published."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.proving import Outcome
from webapp.documents import csv_text
from webapp.documents.values import short
from webapp.pages.ask import List
from webapp.pages.view import page, with_query
from webapp.services import cases
from webapp.services.listing import MOST, Part, Wanted

router = APIRouter(prefix="/proving", include_in_schema=False)
CHIPS = (
    ("All", "", ""),
    ("Agree", "agree", "pass"),
    ("Disagree", "disagree", "flag"),
    ("Disputed", "disputed", "refer"),
    ("Not run", "not_run", "not checked"),
)
MARKS = {verdict: mark for _, verdict, mark in CHIPS}
WORDS = {verdict: label for label, verdict, _ in CHIPS}
COLUMNS = ("case", "topic", "verdict", "provenance", "source", "value", "computed", "published", "tolerance", "reason")


@router.get("")
def proving_page(request: Request, wanted: List) -> Response:
    """The cases, found and paged."""
    found = cases.page(wanted)
    asks: dict[str, object] = {"q": wanted.q, "verdict": wanted.verdict}
    return page(
        request,
        "pages/proving.html",
        part="pages/parts/proving_list.html",
        found=found,
        wanted=wanted,
        chips=_chips(found),
        marks=MARKS,
        words=WORDS,
        short=short,
        previous=with_query("/proving", asks | {"page": wanted.page - 1}) if wanted.page > 1 else "",
        next=with_query("/proving", asks | {"page": wanted.page + 1}) if found.more else "",
        csv=with_query("/proving/cases.csv", asks),
    )


def _chips(found: Part[Outcome]) -> list[dict[str, object]]:
    return [
        {
            "label": label,
            "count": found.counts[verdict],
            "href": with_query("/proving", {"q": found.wanted.q, "verdict": verdict}),
            "current": found.wanted.verdict == verdict,
            "verdict": mark,
        }
        for label, verdict, mark in CHIPS
    ]


@router.get("/cases.csv")
def proving_csv(wanted: List) -> Response:
    """One line a value, of all cases that were found."""
    rows: list[tuple[object, ...]] = []
    number = 1
    while True:
        found = cases.page(Wanted(wanted.q, wanted.verdict, "", number, MOST))
        for outcome in found.rows:
            record = outcome.to_json()
            source = ", ".join(str(text) for text in outcome.case.source.values())
            head = (outcome.case.id, outcome.case.topic, WORDS[outcome.verdict], outcome.case.provenance, source)
            for name, published in outcome.case.expected.items():
                computed = short(outcome.computed[name]) if name in outcome.computed else ""
                rows.append((*head, name, computed, short(published), record["tolerance"], outcome.reason))
        if not found.more:
            break
        number += 1
    headers = {"Content-Disposition": 'attachment; filename="proving-cases.csv"'}
    return Response(csv_text.write(COLUMNS, rows), media_type="text/csv; charset=utf-8", headers=headers)
