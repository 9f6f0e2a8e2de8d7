"""An attachment as it was built: what was measured goes through the same check as what was drawn."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from engine import attachments
from engine.editions import Edition
from engine.errors import BadInput
from engine.fields import spec
from engine.result import CheckResult, Verdict
from engine.review.measures import Measure, drawn_in, is_shift, known
from engine.review.shifts import shifted


@dataclass(frozen=True, slots=True)
class AsBuilt:
    """The check of what was built. Args: inputs: as built. result: None where they contradict each other, and `why` says how."""

    inputs: Any
    result: CheckResult | None
    why: str = ""
    off: tuple[tuple[Measure, float, float], ...] = ()


def as_built(kind: str, inputs: Any, edition: Edition, measured_in: Mapping[str, float]) -> AsBuilt:
    """Check an attachment with what was measured of it.

    Args: measured_in: by a measure's key [in]. Returns: with `off`: each measure, its drawn and its measured value.
    Raises: BadInput for a measure the kind has not, or a value outside the input's stated range.
    """
    of = known(kind, inputs)
    changes, off, shifts = {}, [], []
    for key, value in measured_in.items():
        if key not in of:
            raise BadInput(key, f"Nothing of that name is measured here. Known: {', '.join(of) or 'nothing'}.")
        measure = of[key]
        drawn = drawn_in(kind, inputs, measure)
        off.append((measure, drawn, value))
        if is_shift(kind, key):
            shifts.append((key, value))
            continue
        changes[measure.field] = getattr(inputs, measure.field) + (value - drawn)
        asked = spec(type(inputs), measure.field)
        if not asked.low - 1e-9 <= changes[measure.field] <= asked.high + 1e-9:
            raise BadInput(
                key, f"{measure.words}: this is farther off than the check reaches. Bring it to the designer."
            )
    every = (replace(inputs, **changes),)
    for key, by_in in shifts:
        every = tuple(one for built in every for one in shifted(kind, built, key, by_in))
    return max((_checked(kind, built, edition, tuple(off)) for built in every), key=_severity)


def _checked(kind: str, built: Any, edition: Edition, off: tuple[tuple[Measure, float, float], ...]) -> AsBuilt:
    try:
        return AsBuilt(built, attachments.check(kind, built, edition), "", off)
    except BadInput as error:
        return AsBuilt(built, None, error.message, off)


def _severity(built: AsBuilt) -> tuple[int, int, float]:
    """How far what was built is from holding: what does not fit together, what flags, what is referred, then by its ratio."""
    if built.result is None:
        return 3, 0, 0.0
    wrong = [state for state in built.result.states if state.verdict in (Verdict.FLAG, Verdict.REFER)]
    flags = sum(state.verdict is Verdict.FLAG for state in wrong)
    governing = built.result.governing
    ratio = governing.ratio if governing and governing.ratio is not None else 0.0
    return (2 if flags else 1 if wrong else 0), flags, ratio
