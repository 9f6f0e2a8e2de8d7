"""What is measured on site, and between which values the attachment still holds: found by the check itself, before anyone goes."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from engine import attachments, fields
from engine.editions import Edition
from engine.errors import BadInput
from engine.result import CheckResult, LimitState, Verdict
from engine.review.shifts import ACROSS, ALONG, MOVES, UP, moving, shifted
from engine.solve import holds

TAPE_IN = 1 / 16  # a tape is read to the nearest sixteenth
WITHIN_IN = 2.0  # how far from the drawn value it is looked; farther off something else was built
# Distances tried: every sixteenth for half an inch, then every eighth.
TRIED_IN = (*(n / 16 for n in range(1, 9)), *(n / 8 for n in range(5, int(WITHIN_IN * 8) + 1)))
BEFORE, AFTER, FRAMING = "before placing", "after placing", "at framing"


@dataclass(frozen=True, slots=True)
class Measure:
    """One thing measured.

    Args: field: the input it changes, or a shift of `engine.review.shifts`. stage: when. words: what is measured, from where to
    where. shown: its drawn value from the kind's geometry where that is not the input itself; what is measured more of it,
    the input is more of.
    """

    field: str
    stage: str
    words: str
    shown: Callable[[Any], float] | None = None

    @property
    def key(self) -> str:
        """Its short name."""
        return self.field


def _seat(geometry: Any) -> float:
    return float(geometry.seat)


MEASURES: Mapping[str, tuple[Measure, ...]] = {
    "ledge_seat": (
        Measure("bolt_embedment_in", BEFORE, "Bolt below the top of the ledge"),
        Measure("bolt_spacing_in", BEFORE, "Widest space between bolts"),
        Measure("bolt_end_in", BEFORE, "End of a plate to its first bolt"),
        Measure(ALONG, AFTER, "Bolt off its place along the wall, to the right"),
        Measure(ACROSS, AFTER, "Bolt off its place across the wall, to the room"),
        Measure("lower_core_in", AFTER, "Ledge width, back of the seat to its edge", _seat),
        Measure("end_gap_in", FRAMING, "Back of the seat to the joist's end"),
        Measure("plate_gap_in", FRAMING, "Back of the seat to the plate"),
    ),
    "bolted_ledger": (
        Measure("embedment_in", BEFORE, "Bolt into the core"),
        Measure("spacing_in", BEFORE, "Widest space between bolts"),
        Measure("hole_in", BEFORE, "Foam cut away round a bolt"),
        Measure(ALONG, AFTER, "Bolt off its place along the wall, to the right"),
        Measure(UP, AFTER, "Bolt off its place up the wall"),
        Measure("separator_in", FRAMING, "Gap between ledger and concrete"),
    ),
    "anchored_plate": (
        Measure("embedment_in", BEFORE, "Anchor into the core"),
        Measure("column_spacing_in", BEFORE, "Anchor to anchor along the wall"),
        Measure("row_spacing_in", BEFORE, "Anchor to anchor up the wall"),
        Measure(ALONG, AFTER, "Plate off its place along the wall, to the right"),
        Measure(UP, AFTER, "Plate off its place up the wall"),
        Measure("offset_in", FRAMING, "Load to the face of the plate"),
    ),
    "cast_in_plate": (
        Measure("embedment_in", BEFORE, "Plate into the core"),
        Measure("shift_along_in", AFTER, "Plate off its place along the wall"),
        Measure("shift_up_in", AFTER, "Plate off its place up the wall"),
        Measure("end_gap_in", FRAMING, "Joist's end to the foam"),
        Measure("end_in", FRAMING, "Joist's end to the nearest screw"),
    ),
    "beam_pocket": (
        Measure("pocket_width_in", BEFORE, "Pocket width"),
        Measure("pocket_length_in", AFTER, "Pocket into the core"),
        Measure("left_in", AFTER, "Pocket to the end or opening at its left"),
        Measure("right_in", AFTER, "Pocket to the end or opening at its right"),
        Measure("end_gap_in", FRAMING, "Back of the pocket to the beam's end"),
    ),
    "sill_plate": (
        Measure("embedment_in", BEFORE, "Bolt into the concrete"),
        Measure("spacing_in", BEFORE, "Widest space between bolts"),
        Measure(ALONG, AFTER, "Bolt off its place along the wall, to the right"),
        Measure(ACROSS, AFTER, "Bolt off its place across the wall, to the room"),
        Measure("washer_in", FRAMING, "Plate washer, each way"),
    ),
    "veneer_ledge": (
        Measure("top_cover_in", BEFORE, "Cover over the stirrups"),
        Measure("lip_cover_in", BEFORE, "Cover at the lip"),
        Measure("lip_depth_in", AFTER, "Depth at the lip"),
        Measure("projection_in", AFTER, "Ledge out from the core"),
        Measure("air_in", FRAMING, "Air space behind the veneer"),
    ),
    "gable_end": (
        Measure("tie_spacing_in", BEFORE, "Widest space between edge ties"),
        Measure("embedment_in", BEFORE, "Bolt into the rake"),
        Measure("bolt_spacing_in", BEFORE, "Widest space between bolts along the rake"),
        Measure(ALONG, AFTER, "Bolt off its place along the rake"),
    ),
}

# Measured of bolts before their shift was; revisions submitted then are still read by these.
FORMER: Mapping[str, tuple[Measure, ...]] = {
    "bolted_ledger": (
        Measure("top_edge_in", AFTER, "Top of the ledger to the upper bolt"),
        Measure("end_in", AFTER, "End of a ledger to its first bolt"),
    ),
    "anchored_plate": (
        Measure("left_in", AFTER, "Plate to the end or opening at its left"),
        Measure("right_in", AFTER, "Plate to the end or opening at its right"),
    ),
    "sill_plate": (
        Measure("end_in", AFTER, "End of a plate to its first bolt"),
        Measure("across_in", AFTER, "Edge of the plate to the bolt"),
    ),
    "gable_end": (Measure("bolt_end_in", AFTER, "End of a rake plate to its first bolt"),),
}


@dataclass(frozen=True, slots=True)
class Accepted:
    """A measure with the values at which the attachment still holds [in].

    Args: drawn: as submitted. low, high: the last values that hold, None where nothing flags within `WITHIN_IN` of the drawn
    one. low_breaks, high_breaks: the line that flags beyond. holds: False where the attachment flags as drawn; no value is
    accepted then.
    """

    measure: Measure
    drawn: float
    low: float | None
    high: float | None
    low_breaks: str = ""
    high_breaks: str = ""
    holds: bool = True


def measures(kind: str, inputs: Any) -> tuple[Measure, ...]:
    """What is measured of an attachment: those of its inputs that are asked for and lengths."""
    return tuple(measure for measure in MEASURES.get(kind, ()) if _asked(kind, inputs, measure))


def known(kind: str, inputs: Any) -> dict[str, Measure]:
    """All that can be read of an attachment by its key: what is measured, and what was before."""
    every = (*MEASURES.get(kind, ()), *FORMER.get(kind, ()))
    return {measure.key: measure for measure in every if _asked(kind, inputs, measure)}


def is_shift(kind: str, key: str) -> bool:
    """Whether a key means steel off its place rather than an input."""
    return key in MOVES.get(kind, ())


def _asked(kind: str, inputs: Any, measure: Measure) -> bool:
    if is_shift(kind, measure.key):
        return bool(moving(kind, inputs, measure.key))
    values = {spec.name: getattr(inputs, spec.name) for spec in fields.specs(type(inputs))}
    return values.get(measure.field) is not None and fields.applies(fields.spec(type(inputs), measure.field), values)


def drawn_in(kind: str, inputs: Any, measure: Measure) -> float:
    """What the tape should show [in]. Raises: BadInput where the inputs contradict each other."""
    if is_shift(kind, measure.key):
        return 0.0
    if measure.shown is None:
        return float(getattr(inputs, measure.field))
    return measure.shown(attachments.kind(kind).module.geometry(inputs))


def accepted(kind: str, inputs: Any, edition: Edition) -> tuple[Accepted, ...]:
    """Every measure of an attachment with what is accepted.

    The value is moved away from the drawn one, a sixteenth, farther off an eighth at a time, until a line flags: codes jump, so
    nothing between is taken on trust. Raises: BadInput where the inputs contradict each other.
    """
    base = attachments.check(kind, inputs, edition, recording=False)
    return tuple(_accepted(kind, inputs, edition, measure, base) for measure in measures(kind, inputs))


def _accepted(kind: str, inputs: Any, edition: Edition, measure: Measure, base: CheckResult) -> Accepted:
    drawn = drawn_in(kind, inputs, measure)
    if not holds(base, base):
        return Accepted(measure, drawn, None, None, holds=False)
    value = 0.0 if is_shift(kind, measure.key) else float(getattr(inputs, measure.field))
    (low, low_breaks), (high, high_breaks) = (_end(kind, inputs, edition, measure, value, base, way) for way in (-1, 1))
    off = drawn - value
    return Accepted(
        measure,
        drawn,
        None if low is None else low + off,
        None if high is None else high + off,
        low_breaks,
        high_breaks,
    )


def _end(
    kind: str, inputs: Any, edition: Edition, measure: Measure, value: float, base: CheckResult, way: int
) -> tuple[float | None, str]:
    """The last value that holds one way, and what flags beyond; None where nothing does within reach."""
    last = value
    for off_in in TRIED_IN:
        at = value + way * off_in
        try:
            built = _built(kind, inputs, measure, at)
        except BadInput:
            return last, f"{measure.words} cannot be that"
        for one in built:
            result = _tried(kind, one, edition)
            if result is None or not holds(result, base):
                return last, _what_flags(result)
        last = at
    return None, ""


def _built(kind: str, inputs: Any, measure: Measure, at: float) -> tuple[Any, ...]:
    """The inputs with one measure at a value. Raises: BadInput beyond a stated range."""
    if is_shift(kind, measure.key):
        return shifted(kind, inputs, measure.key, at)
    spec = fields.spec(type(inputs), measure.field)
    if not spec.low - 1e-9 <= at <= spec.high + 1e-9:
        raise BadInput(measure.key, f"{spec.label} cannot be that")
    return (replace(inputs, **{measure.field: at}),)


def _tried(kind: str, inputs: Any, edition: Edition) -> CheckResult | None:
    try:
        return attachments.check(kind, inputs, edition, recording=False)
    except BadInput:
        return None


def _what_flags(result: CheckResult | None) -> str:
    if result is None:
        return "it does not fit together"
    wrong: list[LimitState] = [s for s in result.states if s.verdict in (Verdict.FLAG, Verdict.REFER)]
    worst = max(wrong, key=lambda s: float("inf") if s.ratio is None else s.ratio, default=None)
    return worst.title if worst else "outside what is checked"
