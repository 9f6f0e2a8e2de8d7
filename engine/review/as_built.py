"""An attachment as it was built: what was measured goes through the same check as what was drawn."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from engine import attachments
from engine.editions import Edition
from engine.errors import BadInput
from engine.fields import spec
from engine.result import CheckResult
from engine.review.measures import Measure, drawn_in, measures


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
    known = {measure.key: measure for measure in measures(kind, inputs)}
    changes, off = {}, []
    for key, value in measured_in.items():
        if key not in known:
            raise BadInput(key, f"Nothing of that name is measured here. Known: {', '.join(known) or 'nothing'}.")
        measure = known[key]
        drawn = drawn_in(kind, inputs, measure)
        changes[measure.field] = getattr(inputs, measure.field) + (value - drawn)
        off.append((measure, drawn, value))
        asked = spec(type(inputs), measure.field)
        if not asked.low - 1e-9 <= changes[measure.field] <= asked.high + 1e-9:
            raise BadInput(
                key, f"{measure.words}: this is farther off than the check reaches. Bring it to the designer."
            )
    built = replace(inputs, **changes)
    try:
        result = attachments.check(kind, built, edition)
    except BadInput as error:
        return AsBuilt(built, None, error.message, tuple(off))
    return AsBuilt(built, result, "", tuple(off))
