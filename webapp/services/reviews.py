"""A review: a revision walked place by place in three stages, and what was found there so far."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine import attachments, fields
from engine.editions import edition
from engine.errors import BadInput
from engine.review import STAGES, WALL, accepted
from engine.review.measures import WITHIN_IN
from engine.units import System, fraction, show
from webapp.models import Job, Photo, ReviewItem, Revision
from webapp.services import checklists, revisions
from webapp.services.refusals import Missing
from webapp.services.sign_in import Seen

ACCEPT, SEND_BACK, ASK = "accept", "send back", "ask the engineer"
# A decision about a place, the state it leaves the place in (a mark's name), its words on a button.
DECISIONS: Mapping[str, str] = {SEND_BACK: "returned", ASK: "engineer asked", ACCEPT: "accepted"}
SLUGS = {stage.replace(" ", "-"): stage for stage in STAGES}
CLOCK_MAY_LEAD = timedelta(minutes=10)
HAIR_IN = 1e-6


@dataclass(frozen=True, slots=True)
class Place:
    """Where a reviewer stops. key: an attachment's tag, or "wall-1-2" for the second storey of the first wall."""

    key: str
    kind: str
    name: str
    wall: str
    level: int
    entry: Mapping[str, Any] = field(default_factory=dict)

    @property
    def title(self) -> str:
        """What stands over the page."""
        return f"Wall {self.wall}, storey {self.level}" if self.kind == WALL else f"{self.name}, wall {self.wall}"

    @property
    def sub(self) -> str:
        """The line under it."""
        if self.kind == WALL:
            return "Forms, bars and concrete of the storey"
        return f"{self.key}, storey {self.level}"

    @property
    def said(self) -> str:
        """The place in a log row: a tag or a wall."""
        return f"wall {self.wall} storey {self.level}" if self.kind == WALL else self.key


def places(frozen: Mapping[str, Any]) -> tuple[Place, ...]:
    """Every place of a revision: wall by wall, storey by storey, the storey itself and then what it carries."""
    found: list[Place] = []
    left = list(frozen["attachments"])
    for number, wall in enumerate(frozen["job"]["walls"], 1):
        for level in range(1, len(wall["storeys"]) + 1):
            found.append(Place(f"wall-{number}-{level}", WALL, "Wall", wall["name"], level))
            here = [one for one in left if one["wall"] == wall["name"] and one["level"] == level]
            found += [_attachment(one) for one in here]
            left = [one for one in left if one not in here]
    return (*found, *(_attachment(one) for one in left))


def _attachment(one: Mapping[str, Any]) -> Place:
    return Place(one["tag"], one["kind"], one["name"], one["wall"], one["level"], one)


@dataclass(frozen=True, slots=True)
class Measure:
    """One thing measured at a place. low_in, high_in: what is accepted; holds: False where it flags as drawn already.

    low_says, high_says: what happens beyond; "" where nothing within reach flags, and it was looked no farther.
    """

    key: str
    stage: str
    words: str
    drawn_in: float
    low_in: float
    high_in: float
    low_says: str
    high_says: str
    holds: bool

    @property
    def signed(self) -> bool:
        """Whether less than nothing can be measured: a shift has two ways."""
        return self.key.startswith("shift_")


def measures(place: Place, edition_key: str) -> tuple[Measure, ...]:
    """What is measured at a place in all stages."""
    found = [_measure(one) for one in place.entry.get("measures", ())]
    texts = place.entry.get("inputs", {})
    if texts.get("surveyed") == "no":  # drawn before the pour, surveyed after it: two more
        asked = _surveyed(place.kind, tuple(sorted(texts.items())), edition_key)
        known = {measure.key for measure in found}
        found += [measure for measure in asked if measure.key not in known]
    return tuple(found)


def as_surveyed(inputs: Any) -> Any:
    """Inputs with the survey after the pour asked for, where the kind knows one; in place until something is measured."""
    from dataclasses import replace

    return replace(inputs, surveyed=True) if getattr(inputs, "surveyed", None) is False else inputs


@lru_cache(maxsize=256)
def _surveyed(kind: str, texts: tuple[tuple[str, str], ...], edition_key: str) -> tuple[Measure, ...]:
    inputs, _ = fields.read(attachments.kind(kind).inputs, dict(texts))
    if inputs is None:
        return ()
    try:
        found = accepted(kind, as_surveyed(inputs), edition(edition_key))
    except BadInput:
        return ()
    return tuple(
        _measure(
            {
                "key": one.measure.key, "stage": one.measure.stage, "words": one.measure.words, "drawn_in": one.drawn,
                "low_in": one.low, "high_in": one.high, "low_breaks": one.low_breaks, "high_breaks": one.high_breaks,
                "holds": one.holds,
            }
        )
        for one in found
        if one.measure.key.startswith("shift_")
    )  # fmt: skip


def _measure(one: Mapping[str, Any]) -> Measure:
    drawn, low, high = one["drawn_in"], one["low_in"], one["high_in"]
    least = drawn - WITHIN_IN if one["key"].startswith("shift_") else max(drawn - WITHIN_IN, 0.0)
    return Measure(
        one["key"], one["stage"], one["words"], drawn, least if low is None else low, drawn + WITHIN_IN if high is None else high,
        "" if low is None else _beyond(one["low_breaks"], "less"), "" if high is None else _beyond(one["high_breaks"], "more"),
        one["holds"],
    )  # fmt: skip


def _beyond(breaks: str, way: str) -> str:
    if breaks.endswith("cannot be that"):
        return f"It cannot be {way}: look at what was measured again."
    return f"With {way}, this flags: {breaks}."


@dataclass(frozen=True, slots=True)
class Says:
    """What a measured length means: a verdict's name, the words that stand out, the rest."""

    verdict: str
    bold: str
    words: str


AS_DRAWN = Says("refer", "Flagged as drawn.", "Nothing is accepted here by itself; write down what is there.")
FARTHER = "Farther off than was looked at; bring it to the designer."


def judge(measure: Measure, value_in: float, system: System = "ft in") -> Says:
    """Hold a measured length against what is accepted."""
    if not measure.holds:
        return AS_DRAWN
    if value_in < measure.low_in - HAIR_IN:
        off = show(measure.low_in - value_in, "in", system)
        return Says("flag", f"Short by {off}.", measure.low_says or FARTHER)
    if value_in > measure.high_in + HAIR_IN:
        off = show(value_in - measure.high_in, "in", system)
        return Says("flag", f"Over by {off}.", measure.high_says or FARTHER)
    return Says("pass", "Within.", "")


def length(inches: float, system: System) -> str:
    """A length without its unit, as it is typed into a field."""
    return f"{inches * 25.4:.0f}" if system == "mm" else fraction(inches)


@dataclass(frozen=True, slots=True)
class Spot:
    """What was found at a place in one stage: the last tick of each line, the last value of each measure, everything else."""

    ticks: Mapping[str, ReviewItem] = field(default_factory=dict)
    measured: Mapping[str, ReviewItem] = field(default_factory=dict)
    notes: tuple[ReviewItem, ...] = ()
    photos: tuple[tuple[ReviewItem, int], ...] = ()
    decisions: tuple[ReviewItem, ...] = ()

    @property
    def last(self) -> ReviewItem | None:
        """The decision that stands."""
        return self.decisions[-1] if self.decisions else None

    @property
    def state(self) -> str:
        """A mark's name; "" where nothing is decided."""
        return DECISIONS[self.last.item] if self.last else ""

    @property
    def begun(self) -> bool:
        """Whether anything was found."""
        return bool(self.ticks or self.measured or self.notes or self.photos or self.decisions)

    @property
    def out(self) -> tuple[str, ...]:
        """Measures that are out of range."""
        return tuple(key for key, item in self.measured.items() if item.value.get("verdict") == "flag")


NOTHING = Spot()


def spots(items: Iterable[ReviewItem], photos: Mapping[int, int]) -> dict[tuple[str, str], Spot]:
    """Items under their places and stages. Args: items: in the order they came. photos: a photograph's id by its item's."""
    heaps: dict[tuple[str, str], list[ReviewItem]] = {}
    for item in items:
        heaps.setdefault((item.place, item.stage), []).append(item)
    return {where: _spot(heap, photos) for where, heap in heaps.items()}


def _spot(heap: list[ReviewItem], photos: Mapping[int, int]) -> Spot:
    return Spot(
        {item.item: item for item in heap if item.kind == "tick"},
        {item.item: item for item in heap if item.kind == "measure"},
        tuple(item for item in heap if item.kind == "note"),
        tuple((item, photos[item.id]) for item in heap if item.kind == "photo" and item.id in photos),
        tuple(item for item in heap if item.kind == "decision"),
    )


@dataclass(frozen=True, slots=True)
class Review:
    """A revision, its places, its lists as they stood when it was submitted, what was found, and the last item's id."""

    job: Job
    revision: Revision
    frozen: Mapping[str, Any]
    places: tuple[Place, ...]
    lists: Mapping[tuple[str, str], checklists.Kept]
    spots: Mapping[tuple[str, str], Spot]
    last_id: int

    @property
    def open(self) -> bool:
        """Whether anything can still be decided about it."""
        return self.revision.state in revisions.OPEN

    def place(self, key: str) -> Place:
        """A place. Raises: Missing."""
        found = next((place for place in self.places if place.key == key), None)
        if found is None:
            raise Missing
        return found

    def spot(self, key: str, stage: str) -> Spot:
        """What was found there."""
        return self.spots.get((key, stage), NOTHING)

    def measures(self, place: Place, stage: str) -> tuple[Measure, ...]:
        """What is measured there."""
        return tuple(one for one in measures(place, self.frozen["edition"]) if one.stage == stage)

    def lines(self, place: Place, stage: str) -> checklists.Rows:
        """What is ticked there."""
        return self.lists[place.kind, stage].rows

    def unticked_stops(self, place: Place, stage: str) -> list[str]:
        """Lines that work waits for and nobody ticked."""
        ticks = self.spot(place.key, stage).ticks
        done = {key for key, item in ticks.items() if item.value.get("on")}
        return [row["words"] for row in self.lines(place, stage) if row["stop"] == "yes" and row["key"] not in done]


def here(session: Session, seen: Seen, job_id: int, number: int) -> Revision:
    """A revision somebody may see. Raises: Missing for any other than an outsider's own."""
    row = revisions.find(session, job_id, number)
    if seen.revision_id and row.id != seen.revision_id:
        raise Missing
    return row


def look(session: Session, seen: Seen, job_id: int, number: int) -> Review:
    """A review as it stands. Raises: Missing."""
    row = here(session, seen, job_id, number)
    job = session.get_one(Job, job_id)
    frozen = revisions.document(row)
    items = session.scalars(select(ReviewItem).where(ReviewItem.revision_id == row.id).order_by(ReviewItem.id)).all()
    query = select(Photo.item_id, Photo.id).join(ReviewItem, ReviewItem.id == Photo.item_id)
    photos = {found.item_id: found.id for found in session.execute(query.where(ReviewItem.revision_id == row.id))}
    lists = checklists.kept_all(session, job.office_id, row.made_at)
    last = items[-1].id if items else 0
    return Review(job, row, frozen, places(frozen), lists, spots(items, photos), last)


def clock_says(item: ReviewItem, made_at: datetime) -> str:
    """What is odd about the device's clock, in words; "" where nothing is. Args: made_at: when the revision was submitted."""
    if not item.device_at:
        return ""
    try:
        moment = datetime.fromisoformat(item.device_at.replace("Z", "+00:00"))
    except ValueError:
        return "The device gave no readable time."
    moment = moment if moment.tzinfo else moment.replace(tzinfo=UTC)
    said = f"The device's clock said {moment.day} {moment:%B %Y %H:%M}"
    if moment > item.at + CLOCK_MAY_LEAD:
        return f"{said}, later than this was received: its clock is wrong."
    if moment < made_at - timedelta(days=1):
        return f"{said}, before this revision was submitted: its clock is wrong."
    return ""
