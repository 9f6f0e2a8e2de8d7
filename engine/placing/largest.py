"""The fastest the pump may go: the same functions solved for its rate, on what can be set."""

from collections.abc import Sequence
from dataclasses import dataclass

from engine import fields
from engine.placing.filling import SILENT, fill
from engine.placing.inputs import Inputs
from engine.placing.pressure import Pressed, every, form_psf, liquid_because
from engine.placing.runs import Run

PUMP = fields.spec(Inputs, "pump_yd3_per_h")


@dataclass(frozen=True, slots=True)
class Largest:
    """Largest pump rate at which every form carries its concrete.

    Args: yd3_per_h: 0 where none does. ft_per_h: rise over the soft concrete of the lift that governs. any_rate: whether the
    forms carry all that can be set. why: in words, where no rate does or any rate does.
    """

    yd3_per_h: float
    ft_per_h: float = 0.0
    any_rate: bool = False
    why: str = ""


def load_ratio(i: Inputs, one: Pressed) -> float:
    """Pressure over what the form may carry; its bare pressure where no form's is known, so that the largest still leads."""
    capacity = form_psf(i, one.run)
    return one.design_psf / capacity if capacity else one.design_psf


def worst(i: Inputs, runs: Sequence[Run], pump_yd3_per_h: float) -> Pressed:
    """The lift and the run of forms that ask most of the form's pressure, at a pump rate."""
    return max(every(i, runs, fill(i, runs, pump_yd3_per_h), SILENT), key=lambda one: load_ratio(i, one))


def largest(i: Inputs, runs: Sequence[Run]) -> Largest | None:
    """Largest rate on the pump's own steps, checked again as set; None where a form's pressure is not known.

    Pressure never falls as the rate grows (both equations rise with R, and beyond them stands the head), so the steps are halved.
    """
    if any(form_psf(i, run) is None for run in runs):
        return None

    def holds(steps: int) -> bool:
        return load_ratio(i, worst(i, runs, steps * PUMP.step)) <= 1 + 1e-9

    low, high = round(PUMP.low / PUMP.step), round(PUMP.high / PUMP.step)
    if not holds(low):
        return Largest(0.0, why=_blocked(i, runs))
    if holds(high):
        return Largest(PUMP.high, _rise(i, runs, PUMP.high), True, "the forms carry it at any rate")
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    rate = low * PUMP.step
    return Largest(rate, _rise(i, runs, rate))


def _rise(i: Inputs, runs: Sequence[Run], rate: float) -> float:
    return worst(i, runs, rate).filling.average_ft_per_h


def _blocked(i: Inputs, runs: Sequence[Run]) -> str:
    slow = worst(i, runs, PUMP.low)
    capacity = form_psf(i, slow.run) or 0.0
    if slow.lift_psf > capacity:
        return "one lift alone presses more as a liquid: lower the lift"
    reasons = liquid_because(i, 0.0)
    if reasons:
        return f"it counts as liquid at any rate ({', '.join(reasons)})"
    return "even the slowest rate presses more: warmer concrete, or waits in which each lift sets"
