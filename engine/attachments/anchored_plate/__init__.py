"""An anchored steel plate or angle that carries a joist, a beam or a ledger off the wall's face."""

from collections.abc import Sequence

from engine.attachments.anchored_plate import concrete, distances, fasteners, leg, plate, site, wood
from engine.attachments.anchored_plate.demand import (
    Effect,
    allowable_effects,
    carried,
    share,
    strength_effects,
    unrelieved,
)
from engine.attachments.anchored_plate.geometry import Bracket, geometry
from engine.attachments.anchored_plate.inputs import Inputs
from engine.attachments.anchored_plate.plate import Case
from engine.clauses.us.loads import Loads
from engine.editions import Edition
from engine.result import CheckResult
from engine.worksheet import Step, Worksheet

__all__ = ["Bracket", "Inputs", "check", "geometry"]

OUTSIDE = (
    "the welds between plate and legs",
    "the member itself between its supports",
    "the wall's own bending from the couple of the offset",
    "a push of the member against the wall",
    "bars and foam webs in the anchors' way",
    "fire rating and the thermal barrier over foam",
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge an anchored plate.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    i, sheet = inputs, Worksheet(recording)
    p = geometry(i, sheet)
    placed = sheet.take()
    load = carried(sheet, i)
    how = sheet.take()
    strong, allowable = strength_effects(p, load, edition), allowable_effects(load, edition)
    cases = _cases(sheet, i, p, strong, how)
    pressing = cases if load.pull == Loads() else _cases(sheet, i, p, unrelieved(strong), how)
    lifts, along = any(e.V < 0 for e in allowable), any(fasteners.along_grain(i, e) for e in allowable)
    states = (
        *site.scope(sheet, i),
        *wood.lines(sheet, i, p, load, allowable, placed),
        *fasteners.lines(sheet, i, p, allowable),
        *distances.lines(sheet, i, p, lifts, along),
        *leg.lines(sheet, i, p, strong),
        *plate.lines(sheet, i, p, cases, pressing, placed),
        *concrete.lines(sheet, i, p, cases, pressing, edition),
    )
    return CheckResult("anchored_plate", edition, states, site.cautions(i), OUTSIDE)


def _cases(
    sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect], how: tuple[Step, ...]
) -> tuple[Case, ...]:
    return tuple(Case(e, share(sheet, i, p, e), how + sheet.take()) for e in effects)
