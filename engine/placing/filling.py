"""How the walls of one circuit fill: lifts, their volume and time, what is still soft, and how fast it rises."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, inf

from engine.clauses.us.placing_rates import pass_minutes, passes, rate_of_rise_ft_per_h, wall_volume_yd3
from engine.placing.inputs import Inputs
from engine.placing.rules import average_rate_ft_per_h
from engine.placing.runs import Run
from engine.tables.reading import SLACK
from engine.worksheet import Worksheet

SILENT = Worksheet(recording=False)


@dataclass(frozen=True, slots=True)
class Filling:
    """One lift as it goes in.

    Args: number, from_ft, to_ft: counted and measured from the floor. volume_yd3: in these walls, less openings. minutes: of its
    circuit. soft_from_ft: where concrete not yet set begins once this lift is in. standing_ft_per_h: where the hose stands.
    circuit_ft_per_h: of this lift round the circuit. average_ft_per_h: over all concrete not yet set. starts_min: since the first.
    """

    number: int
    from_ft: float
    to_ft: float
    volume_yd3: float
    minutes: float
    soft_from_ft: float
    standing_ft_per_h: float
    circuit_ft_per_h: float
    average_ft_per_h: float
    starts_min: float

    @property
    def lift_ft(self) -> float:
        """Height of the lift."""
        return self.to_ft - self.from_ft


@dataclass(frozen=True, slots=True)
class Ring:
    """One pass between two heights: wall that is there along the circuit [ft], its mean core, the concrete of these walls [yd³]."""

    low_ft: float
    high_ft: float
    length_ft: float
    core_in: float
    volume_yd3: float

    @property
    def lift_ft(self) -> float:
        """Height of the lift."""
        return self.high_ft - self.low_ft


def parted(wait_h: float, set_h: float | None) -> bool:
    """Whether the wait lets each lift set before the next: only a typed time of setting can tell."""
    return set_h is not None and wait_h > set_h


def circuits(i: Inputs, runs: Sequence[Run]) -> int:
    """How many circuits these walls take, each filled to its top before the next is begun."""
    walls_ft = sum(r.length_ft for r in runs)
    return max(1, ceil(walls_ft / (i.circuit_ft or walls_ft) - SLACK))


def rings(i: Inputs, runs: Sequence[Run]) -> tuple[Ring, ...]:
    """The passes from the floor up, the last one what is left; none depends on the pump."""
    top = max(r.height_ft for r in runs)
    return tuple(_ring(i, runs, low, high) for low, high in _bands(top, i.lift_ft))


def _bands(top_ft: float, lift_ft: float) -> Iterator[tuple[float, float]]:
    for n in range(passes(top_ft, lift_ft)):
        yield n * lift_ft, min((n + 1) * lift_ft, top_ft)


def _ring(i: Inputs, runs: Sequence[Run], low: float, high: float) -> Ring:
    """A longer circuit adds solid wall of the mean core, a shorter one takes its share."""
    areas = [r.net_area_ft2(low, high) for r in runs]
    volume = sum(wall_volume_yd3(a, r.core_in) for a, r in zip(areas, runs, strict=True))
    walls_ft = sum(r.length_ft for r in runs)
    mean_in = sum(r.length_ft * r.core_in for r in runs) / walls_ft
    length = sum(areas) / (high - low)
    plan = sum(a * r.core_in for a, r in zip(areas, runs, strict=True)) / (high - low)
    further = (i.circuit_ft or walls_ft) - walls_ft
    if further < 0:
        length, plan = (part * (1 + further / walls_ft) for part in (length, plan))
    else:
        length, plan = length + further, plan + further * mean_in
    return Ring(low, high, length, plan / length if length else mean_in, volume)


def fill(
    i: Inputs, passed: Sequence[Ring], pump_yd3_per_h: float, sheet: Worksheet = SILENT, show: int = 0
) -> tuple[Filling, ...]:
    """Every lift. Args: passed: from `rings`. sheet keeps the steps of the lift numbered `show`."""
    found: list[Filling] = []
    clock, soft_from, began = 0.0, 0.0, 0.0
    for number, one in enumerate(passed, 1):
        if number > 1:
            clock += i.wait_h * 60
            if parted(i.wait_h, i.set_h):
                soft_from, began = one.low_ft, clock
        use, started = sheet if number == show else SILENT, clock
        minutes, standing, circuit = _pass(use, i, one, pump_yd3_per_h)
        clock += minutes
        average = circuit
        if soft_from < one.low_ft:
            soft_h = (clock - began) / 60
            average = use.use(average_rate_ft_per_h, h_ft=one.high_ft - soft_from, t=soft_h) if soft_h else inf
        found.append(
            Filling(number, one.low_ft, one.high_ft, one.volume_yd3, minutes, soft_from, standing, circuit, average, started)
        )  # fmt: skip
    return tuple(found)


def _pass(sheet: Worksheet, i: Inputs, one: Ring, Q: float) -> tuple[float, float, float]:
    """Minutes of a pass, and rates where the hose stands and round the circuit [ft/h]; a lift all opening takes no time."""
    if one.length_ft <= 0:
        return 0.0, inf, inf
    minutes = sheet.use(pass_minutes, Q=Q, L_ft=one.length_ft, t_in=one.core_in, lift_ft=one.lift_ft)
    standing = rate_of_rise_ft_per_h(Q, min(i.stretch_ft, one.length_ft), one.core_in)
    circuit = sheet.use(rate_of_rise_ft_per_h, Q=Q, L_ft=one.length_ft, t_in=one.core_in)
    return minutes, standing, circuit
