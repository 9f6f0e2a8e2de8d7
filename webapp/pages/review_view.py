"""What the pages of a review show, in the reader's units: places with their states, measures with what is accepted."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from markupsafe import Markup

from engine.errors import BadInput
from engine.review import STAGES
from engine.units import System, parse, show, shown
from webapp.credentials import tokens
from webapp.models import ReviewItem
from webapp.permissions import ANYONE, allowed
from webapp.ruler import ruler_line
from webapp.services import log, review_items, reviews
from webapp.services.reviews import SLUGS, Measure, Place, Review, Says, Spot
from webapp.services.sign_in import Seen
from webapp.submission import document

MAY = "POST /jobs/{job_id}/review/{number}/items"
SLUG_OF = {stage: slug for slug, stage in SLUGS.items()}
UNDECIDED = ("begun", "open")
NOT_YET = Says("", "", "")


def may_review(seen: Seen) -> bool:
    """Whether whoever is here may find anything, or only look."""
    method, path = MAY.split(" ")
    return seen.role in (allowed(method, path) or ANYONE)


def address(review: Review, place: Place | None = None, stage: str = "") -> str:
    """A page of a review."""
    base = f"/jobs/{review.job.id}/review/{review.revision.number}"
    return f"{base}/{SLUG_OF[stage]}/{place.key}" if place else base


def common(review: Review, seen: Seen) -> dict[str, Any]:
    """What every page of a review is given."""
    return {
        "review": review, "row": review.revision, "base_path": address(review), "seen": seen, "may": may_review(seen),
        "who": review_items.who_key(seen), "short": document.short(review.revision.fingerprint), "slugs": SLUGS,
        "outsider": bool(seen.link_id), "utc": log.utc, "form_key": tokens.new_token(),
    }  # fmt: skip


@dataclass(frozen=True, slots=True)
class Field:
    """One measure as its field shows it."""

    measure: Measure
    value: str
    says: Says
    low: str
    high: str
    drawn: str
    ruler: Markup
    error: str = ""
    by: str = ""

    @property
    def name(self) -> str:
        """Of the input."""
        return f"measure-{self.measure.key}"


def fields_of(
    review: Review, place: Place, stage: str, system: System, typed: Mapping[str, str], errors: Mapping[str, str]
) -> list[Field]:
    """The measures of a place. Args: typed: what came back from a form, by input name."""
    spot = review.spot(place.key, stage)
    return [
        _field(measure, spot.measured.get(measure.key), system, typed, errors)
        for measure in review.measures(place, stage)
    ]


def _field(
    measure: Measure, item: ReviewItem | None, system: System, typed: Mapping[str, str], errors: Mapping[str, str]
) -> Field:
    name = f"measure-{measure.key}"
    value_in = float(item.value["in"]) if item else None
    kept = "" if value_in is None else reviews.length(value_in, system)
    value = typed.get(name, kept)
    drawable = measure.holds and not measure.signed
    return Field(
        measure, value, NOT_YET if value_in is None or value != kept else reviews.judge(measure, value_in, system),
        reviews.length(measure.low_in, system), reviews.length(measure.high_in, system), show(measure.drawn_in, "in", system),
        ruler_line(value_in, measure.low_in, measure.high_in, system) if drawable else Markup(""),
        errors.get(name, ""), f"{item.who}, {log.utc(item.at)}" if item else "",
    )  # fmt: skip


def station(place: Place, system: System) -> list[tuple[str, str]]:
    """Where along the wall a place begins, as figures and units; empty for a storey."""
    try:
        start_ft = parse(place.entry.get("start", ""), "ft")
    except BadInput:
        return []
    if system == "mm":
        found = shown(start_ft, "ft", "mm")
        return [(found.figure, found.unit)]
    feet, inches = divmod(round(start_ft * 12 * 16) / 16, 12)
    return [(f"{feet:.0f}", "ft"), (reviews.length(inches, "ft in"), "in")]


@dataclass(frozen=True, slots=True)
class Cell:
    """A place in one stage, as the overview shows it."""

    stage: str
    href: str
    verdict: str
    word: str


@dataclass(frozen=True, slots=True)
class Line:
    """A place with its three stages."""

    place: Place
    cells: tuple[Cell, ...] = field(default_factory=tuple)


def lines(review: Review) -> list[Line]:
    """Every place with how it stands in each stage."""
    return [
        Line(place, tuple(_cell(review, place, stage, review.spot(place.key, stage)) for stage in STAGES))
        for place in review.places
    ]


def _cell(review: Review, place: Place, stage: str, spot: Spot) -> Cell:
    word = spot.state or ("out of range" if spot.out else "begun" if spot.begun else "open")
    return Cell(stage, address(review, place, stage), spot.state or ("flag" if spot.out else ""), word)


def left(found: list[Line]) -> dict[str, int]:
    """How much is done: places times stages, by state."""
    words = [cell.word for line in found for cell in line.cells]
    return {word: words.count(word) for word in dict.fromkeys(words)} | {"all": len(words)}


def next_after(review: Review, place: Place, stage: str) -> str:
    """Where a reviewer goes on: the next place, after the last one the overview."""
    at = review.places.index(place)
    return address(review, review.places[at + 1], stage) if at + 1 < len(review.places) else address(review)
