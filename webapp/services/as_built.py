"""A revision as it was built: what was measured put through the same checks, beside what was drawn, and what must be put right."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engine import attachments, fields
from engine.editions import edition
from engine.errors import BadInput
from engine.result import CheckResult, LimitState, Verdict
from engine.review import STAGES, as_built
from engine.review.measures import FRAMING
from webapp.services import reviews
from webapp.services.reviews import ACCEPT, Measure, Place, Review

BEFORE_FRAMING = tuple(stage for stage in STAGES if stage != FRAMING)


@dataclass(frozen=True, slots=True)
class Off:
    """One measure: drawn, measured, and what that means by itself."""

    words: str
    stage: str
    drawn_in: float
    built_in: float
    verdict: str


@dataclass(frozen=True, slots=True)
class Row:
    """A place with something measured. Args: built: None where the numbers contradict each other, and `why` says how."""

    place: Place
    drawn: str
    drawn_ratio: float | None
    offs: tuple[Off, ...]
    built: CheckResult | None
    why: str = ""

    @property
    def verdict(self) -> str:
        """Of what was built."""
        return self.built.verdict.value if self.built else "flag"

    @property
    def governs(self) -> LimitState | None:
        """The line that governs what was built."""
        return self.built.governing if self.built else None

    @property
    def turned(self) -> list[LimitState]:
        """Lines that flag or refer as built and did not as drawn."""
        drawn = {line["key"]: line["verdict"] for line in self.place.entry["result"].get("lines", ())}
        wrong = (Verdict.FLAG, Verdict.REFER)
        states = self.built.states if self.built else ()
        return [s for s in states if s.verdict in wrong and drawn.get(s.key) not in wrong]


@dataclass(frozen=True, slots=True)
class Wrong:
    """Something to put right. Args: state: a mark's name."""

    place: Place
    stage: str
    state: str
    words: str


def rows(review: Review) -> list[Row]:
    """Every attachment of which something was measured, in order of the walk."""
    return [row for place in review.places if place.entry and (row := _row(review, place))]


def _row(review: Review, place: Place) -> Row | None:
    known = {measure.key: measure for measure in reviews.measures(place, review.frozen["edition"])}
    measured = {
        key: float(item.value["in"])
        for stage in STAGES
        for key, item in review.spot(place.key, stage).measured.items()
        if key in known
    }
    if not measured:
        return None
    offs = tuple(_off(known[key], value) for key, value in measured.items())
    built, why = _checked(review.frozen, place, measured)
    drawn = place.entry["result"]
    ratio = drawn.get("ratio")
    return Row(place, drawn["verdict"], ratio if isinstance(ratio, (int, float)) else None, offs, built, why)


def _off(measure: Measure, value_in: float) -> Off:
    verdict = reviews.judge(measure, value_in).verdict
    return Off(measure.words, measure.stage, measure.drawn_in, value_in, verdict)


def _checked(frozen: Mapping[str, Any], place: Place, measured: Mapping[str, float]) -> tuple[CheckResult | None, str]:
    inputs, errors = fields.read(attachments.kind(place.kind).inputs, place.entry["inputs"])
    if inputs is None:
        return None, " ".join(errors.values())
    if any(key.startswith("shift_") for key in measured):
        inputs = reviews.as_surveyed(inputs)
    try:
        found = as_built(place.kind, inputs, edition(frozen["edition"]), measured)
    except BadInput as error:
        return None, error.message
    return found.result, found.why


def to_put_right(review: Review, found: list[Row]) -> list[Wrong]:
    """What must be put right before framing: what flags as built and did not as drawn, what is out of range and not accepted,
    what was sent back or waits for the engineer."""
    wrong = [_flags(row) for row in found if row.turned or row.built is None]
    for place in review.places:
        for stage in BEFORE_FRAMING:
            spot = review.spot(place.key, stage)
            if spot.last and spot.last.item != ACCEPT:
                wrong.append(Wrong(place, stage, spot.state, spot.last.value.get("words", "")))
            elif spot.out and not spot.last:
                names = "; ".join(spot.measured[key].value["words"] for key in spot.out)
                wrong.append(Wrong(place, stage, "flag", f"Out of range and not decided: {names}."))
    order = {place.key: n for n, place in enumerate(review.places)}
    return sorted(wrong, key=lambda one: order[one.place.key])


def _flags(row: Row) -> Wrong:
    words = row.why or " ".join(f"{line.title} as measured: {line.sentence()}" for line in row.turned)
    return Wrong(row.place, "", row.verdict, words)


def not_seen(review: Review) -> list[tuple[Place, str, list[str]]]:
    """Lines that work waits for and nobody ticked, at stages before framing."""
    return [
        (place, stage, missing)
        for place in review.places
        for stage in BEFORE_FRAMING
        if (missing := review.unticked_stops(place, stage))
    ]
