"""How the walls of one circuit fill: lifts, their volume and time, what is still soft, and how fast it rises."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

from engine.clauses.us.placing_rates import pass_minutes, passes, rate_of_rise_ft_per_h, wall_volume_yd3
from engine.placing.inputs import Inputs
from engine.placing.rules import average_rate_ft_per_h
from engine.placing.runs import Run
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
    """What one pass fills: length of wall that is there [ft], its mean core [in], and the concrete of these walls [yd³]."""

    length_ft: float
    core_in: float
    volume_yd3: float


def bands(top_ft: float, lift_ft: float) -> Iterator[tuple[float, float]]:
    """Lifts from the floor up, the last one what is left [ft]."""
    for n in range(passes(top_ft, lift_ft)):
        yield n * lift_ft, min((n + 1) * lift_ft, top_ft)


def parted(wait_h: float, set_h: float | None) -> bool:
    """Whether the wait lets each lift set before the next: only a typed time of setting can tell (reading 16)."""
    return set_h is not None and wait_h > set_h


def ring(i: Inputs, runs: Sequence[Run], low_ft: float, high_ft: float) -> Ring:
    """One pass between two heights. A longer circuit adds solid wall of the mean core, a shorter one takes its share."""
    areas = [r.net_area_ft2(low_ft, high_ft) for r in runs]
    volume = sum(wall_volume_yd3(a, r.core_in) for a, r in zip(areas, runs, strict=True))
    walls_ft = sum(r.length_ft for r in runs)
    mean = sum(r.length_ft * r.core_in for r in runs) / walls_ft
    length, plan = sum(areas) / (high_ft - low_ft), sum(a * r.core_in for a, r in zip(areas, runs, strict=True))
    plan /= high_ft - low_ft
    circuit = i.circuit_ft or walls_ft
    if circuit < walls_ft:
        length, plan = length * circuit / walls_ft, plan * circuit / walls_ft
    else:
        length, plan = length + circuit - walls_ft, plan + (circuit - walls_ft) * mean
    return Ring(length, plan / length if length else mean, volume)


def fill(
    i: Inputs, runs: Sequence[Run], pump_yd3_per_h: float, sheet: Worksheet = SILENT, show: int = 0
) -> tuple[Filling, ...]:
    """Every lift. Args: sheet keeps the steps of the lift numbered `show`."""
    found: list[Filling] = []
    clock, soft_from, began = 0.0, 0.0, 0.0
    top = max(r.height_ft for r in runs)
    for number, (low, high) in enumerate(bands(top, i.lift_ft), 1):
        if number > 1:
            clock += i.wait_h * 60
            if parted(i.wait_h, i.set_h):
                soft_from, began = low, clock
        use = sheet if number == show else SILENT
        one, started = ring(i, runs, low, high), clock
        minutes, standing, circuit = _pass(use, i, one, pump_yd3_per_h, high - low)
        clock += minutes
        average = circuit
        if soft_from < low:
            soft_h = (clock - began) / 60
            average = use.use(average_rate_ft_per_h, h_ft=high - soft_from, t=soft_h) if soft_h else inf
        found.append(
            Filling(number, low, high, one.volume_yd3, minutes, soft_from, standing, circuit, average, started)
        )
    return tuple(found)


def _pass(sheet: Worksheet, i: Inputs, one: Ring, Q: float, lift_ft: float) -> tuple[float, float, float]:
    """Minutes of a pass, and rates where the hose stands and round the circuit [ft/h]; a lift all opening takes no time."""
    if one.length_ft <= 0:
        return 0.0, inf, inf
    minutes = sheet.use(pass_minutes, Q=Q, L_ft=one.length_ft, t_in=one.core_in, lift_ft=lift_ft)
    standing = rate_of_rise_ft_per_h(Q, min(i.stretch_ft, one.length_ft), one.core_in)
    circuit = sheet.use(rate_of_rise_ft_per_h, Q=Q, L_ft=one.length_ft, t_in=one.core_in)
    return minutes, standing, circuit
