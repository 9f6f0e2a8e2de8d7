"""What a search found: those that hold in non-dominated order, why the others do not, and what they would need of the wall."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import NamedTuple

from engine import fields
from engine.options.candidates import Candidate, Checked
from engine.options.prepare import Refused
from engine.options.rank import fronts, mean_places
from engine.options.search import Search
from engine.result import LimitState, Verdict
from engine.solve import Remedy, Slip, slip, solve


class Measure(NamedTuple):
    """One thing candidates are ranked by; less is better. Args: key, words, unit; of: its value."""

    key: str
    words: str
    unit: str
    of: Callable[[Candidate], float]


def _taken(key: str, words: str, unit: str) -> Measure:
    return Measure(key, words, unit, lambda c: getattr(c.quantities, key))


MEASURES = (
    _taken("hardware", "Pieces of hardware", ""),
    _taken("steel_lb", "Steel", "lb"),
    _taken("cut_ft", "Cuts in foam", "ft"),
    _taken("concrete_ft3", "Added concrete", "ft³"),
    Measure("ratio", "Governing line", "", lambda c: c.ratio),
    Measure("before", "Steps before placing", "", lambda c: len(c.quantities.before) if c.quantities else 0),
    Measure("after", "Steps after placing", "", lambda c: len(c.quantities.after) if c.quantities else 0),
)
RULE = (
    "First those that no other one matches or beats in every measure, then those that only they beat, and so on. Among equals the "
    "smaller mean of its places in the measures comes first, then fewer pieces of hardware and the measures after it."
)


class Ranked(NamedTuple):
    """A candidate that holds: its front, from 1, and its measures in the order of MEASURES."""

    candidate: Candidate
    front: int
    measures: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Failed:
    """Candidates of one way that fail for one reason. nearest: the one that fails by least."""

    way: str
    why: str
    count: int
    nearest: Candidate


@dataclass(frozen=True, slots=True)
class Comparison:
    """Candidates checked so far. ranked: best first. failed: most frequent reason first. complete: whether all were checked."""

    ranked: tuple[Ranked, ...]
    failed: tuple[Failed, ...]
    refused: tuple[Refused, ...]
    checked: int
    complete: bool

    def best(self) -> dict[str, Ranked]:
        """The first of every way that has one that holds, by the offer's key."""
        found: dict[str, Ranked] = {}
        for ranked in self.ranked:
            found.setdefault(ranked.candidate.way.offer.key, ranked)
        return found


def compare(search: Search) -> Comparison:
    """Rank what a search has checked."""
    failed = sorted((one for checked in search.checked for one in _failed(checked)), key=lambda one: -one.count)
    count = len(search.candidates)
    return Comparison(_ranked(search.checked), tuple(failed), search.refused, count, count == search.total)


def _ranked(all_checked: Iterable[Checked]) -> tuple[Ranked, ...]:
    holding = [checked.candidate(number) for checked in all_checked for number in checked.taken]
    points = [tuple([measure.of(c) for measure in MEASURES]) for c in holding]
    order = zip(fronts(points), mean_places(points), points, range(len(points)), strict=True)
    return tuple(Ranked(holding[n], front + 1, point) for front, _, point, n in sorted(order))


def why(candidate: Candidate) -> str:
    """Why a candidate fails, in a line: the governing line and by how much, or what clashes."""
    line = candidate.governing
    if line is None:
        return candidate.clash
    return line.title if line.ratio is None else f"{line.title}, {line.ratio:.2f} of what there is"


def _failed(checked: Checked) -> list[Failed]:
    """One way's, by reason."""
    reasons: dict[str, list[int]] = {}
    for number, judged in enumerate(checked.judged):
        if judged.verdict is not Verdict.PASS:
            line = judged.governing
            reasons.setdefault(line.title if isinstance(line, LimitState) else str(line), []).append(number)
    return [
        Failed(checked.way.offer.name, title, len(numbers), checked.candidate(min(numbers, key=checked.short)))
        for title, numbers in reasons.items()
    ]


class Chosen(NamedTuple):
    """A candidate as an attachment: its kind, and the texts of the inputs that differ from the kind's own."""

    kind: str
    inputs: dict[str, str]


def choose(candidate: Candidate) -> Chosen:
    """What makes the attachment in its place; inputs that follow wall and site are not among it."""
    inputs, way = candidate.inputs, candidate.way
    texts = {
        spec.name: fields.write_one(spec, value)
        for spec in fields.specs(type(inputs))
        if spec.name not in way.follows and (value := getattr(inputs, spec.name)) != spec.default
    }
    return Chosen(way.offer.kind, texts)


def demands(candidate: Candidate) -> tuple[Slip | Remedy, ...]:
    """What a candidate asks of the wall, one fact at a time.

    Returns: of one that holds, how far each number of the wall may move before a line flags; of another, each change of the wall
    that would make it hold.
    """
    inputs, kind, edition = candidate.inputs, candidate.way.offer.kind, candidate.way.line.edition
    asked = [s for s in fields.specs(type(inputs)) if s.wall and s.step > 0 and getattr(inputs, s.name) is not None]
    if candidate.verdict is Verdict.PASS:
        return tuple(slip(kind, inputs, edition, s.name) for s in asked if s.kind == "number")
    if candidate.verdict is None:
        return ()
    return tuple(remedy for remedy, _ in (solve(kind, inputs, edition, s.name) for s in asked) if remedy)
