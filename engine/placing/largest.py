"""The fastest the pump may go: the same functions turned round for its rate."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import floor

from engine import fields
from engine.placing.filling import SILENT, Ring, fill, parted, rings
from engine.placing.inputs import Inputs
from engine.placing.pressure import Pressed, every, form_psf
from engine.placing.runs import Run

PUMP = fields.spec(Inputs, "pump_yd3_per_h")
HALVINGS = 40  # of the pump's whole range: to 1e-10 of it
BEYOND = 1 + 1e-6
TEMPERATURES_F = (40.0, 50.0, 60.0, 70.0, 80.0, 90.0)


@dataclass(frozen=True, slots=True)
class Largest:
    """Largest pump rate at which every form carries its concrete.

    Args: limit_yd3_per_h: the rate itself; 0 where no rate of the pump's range holds, the top of that range where all do. beyond:
    the lift and forms that fail first a hair faster; the lift and forms asked most where none or all hold.
    """

    limit_yd3_per_h: float
    beyond: Pressed

    @property
    def yd3_per_h(self) -> float:
        """The limit as a pump is set: tenths, downward."""
        return floor(self.limit_yd3_per_h * 10 + 1e-6) / 10

    @property
    def any_rate(self) -> bool:
        """Whether the forms carry the concrete at every rate of the pump's range."""
        return self.limit_yd3_per_h >= PUMP.high


def ratio(i: Inputs, run: Run, p_psf: float) -> float:
    """A pressure over what the forms may carry; the bare pressure where that is not known, so that those forms lead."""
    capacity = form_psf(i, run)
    return p_psf / capacity if capacity else p_psf


def load_ratio(i: Inputs, one: Pressed) -> float:
    """Of the design pressure; equal ones tell apart by nothing, so that the first lift leads."""
    return round(ratio(i, one.run, one.design_psf), 9)


def largest(i: Inputs, runs: Sequence[Run]) -> Largest | None:
    """Largest rate of the pump's range; None where a form's pressure is not known.

    Pressure never falls as the rate grows (both equations rise with R, and beyond them stands the head), so the range is halved.
    """
    if any(form_psf(i, run) is None for run in runs):
        return None
    passed, hardest = rings(i, runs), _alike(i, runs)

    def worst(rate: float) -> Pressed:
        return _worst(i, passed, hardest, rate)

    low, high = PUMP.low, PUMP.high
    for end, limit in ((low, 0.0), (high, high)):
        holds = load_ratio(i, worst(end)) <= 1
        if holds is (end == high):
            return Largest(limit, worst(end))
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if load_ratio(i, worst(middle)) <= 1 else (low, middle)
    return Largest(low, worst(low * BEYOND))


def by_temperature(i: Inputs, runs: Sequence[Run]) -> tuple[tuple[float, Largest], ...]:
    """The largest rate in colder and warmer concrete, all else equal. Empty where a form's pressure is not known, or where lifts
    set before the next one: the typed time of setting holds at one temperature only."""
    if parted(i.wait_h, i.set_h):
        return ()
    found = ((T, largest(replace(i, temperature_F=T), runs)) for T in TEMPERATURES_F)
    return tuple((T, most) for T, most in found if most is not None)


def _alike(i: Inputs, runs: Iterable[Run]) -> tuple[Run, ...]:
    """One of each height and form: pressure turns on nothing else of a run."""
    found: dict[tuple[float, float | None], Run] = {}
    for run in runs:
        found.setdefault((run.height_ft, form_psf(i, run)), run)
    return tuple(found.values())


def _worst(i: Inputs, passed: Sequence[Ring], runs: Sequence[Run], rate: float) -> Pressed:
    return max(every(i, runs, fill(i, passed, rate), SILENT), key=lambda one: load_ratio(i, one))
