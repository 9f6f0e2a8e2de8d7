"""The placing plan of the walls of one circuit, with every line that judges it."""

from collections.abc import Sequence
from dataclasses import dataclass

from engine import fields
from engine.editions import Edition
from engine.errors import BadInput
from engine.placing import lines, mix
from engine.placing.diagram import Diagram, diagram
from engine.placing.filling import SILENT, Filling, Ring, circuits, fill, rings
from engine.placing.hold_points import HOLD_POINTS, HoldPoint
from engine.placing.inputs import Inputs
from engine.placing.largest import Largest, largest, load_ratio
from engine.placing.pressure import Pressed, ciria_psf, every, form_psf, pressed
from engine.placing.rate_line import pump_rate
from engine.placing.rules import order_yd3, trucks
from engine.placing.runs import Run
from engine.result import CheckResult, LimitState
from engine.worksheet import Worksheet

KIND = "placing_plan"
OUTSIDE = (
    "the forms, their connections and braces themselves",
    "the pump, the hose and how far concrete falls free",
    "the mix, its strength, and when loads may be hung on the wall",
    "gables: their lifts have a check of their own",
)


@dataclass(frozen=True, slots=True)
class LiftRow:
    """A row of the lifts table.

    Args: wall: whose forms are asked most. aci_psf: there, by ACI 347R. lift_psf: there, of the lift alone as a liquid. ciria_psf:
    None where it counts as liquid. ratio: of the larger of the first two to what the forms may carry, None where that is not known.
    """

    filling: Filling
    wall: str
    aci_psf: float
    lift_psf: float
    ciria_psf: float | None
    ratio: float | None


@dataclass(frozen=True, slots=True)
class PlacingPlan:
    """What a crew and an inspector need of one placement.

    Args: lifts: from the floor up, of one circuit. circuits: filled one after another. largest: fastest pump rate, None where a
    form's pressure is not known. hours: pumping and waits, all circuits. volume_yd3: in these walls, a corner counted in both;
    order_yd3 with what is ordered beyond it. truck_every_min: between trucks at this rate.
    """

    inputs: Inputs
    runs: tuple[Run, ...]
    lifts: tuple[LiftRow, ...]
    circuits: int
    largest: Largest | None
    hours: float
    volume_yd3: float
    order_yd3: float
    trucks: int
    truck_every_min: float
    bracing: lines.Bracing
    diagram: Diagram
    hold_points: tuple[HoldPoint, ...]
    result: CheckResult


def placing_plan(
    inputs: Inputs,
    runs: Sequence[Run],
    edition: Edition,
    hold_points: Sequence[HoldPoint] = HOLD_POINTS,
    recording: bool = True,
) -> PlacingPlan:
    """Plan the placement of the walls of one circuit.

    Args: runs: from `engine.placing.run` for a wall or `engine.placing.runs` for a job. hold_points: the office's own list.
    Raises: BadInput for a value outside its range, or braces above the walls.
    """
    fields.validate(inputs)
    if not runs:
        raise BadInput("walls", "Choose at least one wall.")
    i, sheet = inputs, Worksheet(recording)
    passed = rings(i, runs)
    fillings = fill(i, passed, i.pump_yd3_per_h)
    found = every(i, runs, fillings, SILENT)
    worst, most, times = lines.hardest(i, found), largest(i, runs), circuits(i, runs)
    braces, braced = lines.bracing(sheet, i, runs)
    states = (*_forms(sheet, i, passed, found, worst, most), braced, *_concrete(sheet, i, runs, fillings, found))
    volume = sum(f.volume_yd3 for f in fillings)
    order = order_yd3(volume, i.extra_percent)
    return PlacingPlan(
        inputs=i,
        runs=tuple(runs),
        lifts=tuple(_row(i, filling, found) for filling in fillings),
        circuits=times,
        largest=most,
        hours=_hours(i, runs, fillings, times),
        volume_yd3=volume,
        order_yd3=order,
        trucks=trucks(order, i.truck_yd3),
        truck_every_min=60 * i.truck_yd3 / i.pump_yd3_per_h,
        bracing=braces,
        diagram=diagram(i, worst.run, found),
        hold_points=tuple(hold_points),
        result=CheckResult(KIND, edition, states, mix.cautions(i), OUTSIDE),
    )


def _forms(
    sheet: Worksheet, i: Inputs, passed: Sequence[Ring], found: Sequence[Pressed], worst: Pressed, most: Largest | None
) -> tuple[LimitState, ...]:
    """Lines about the forms. The lift that governs is worked out again, its steps kept."""
    shown = fill(i, passed, i.pump_yd3_per_h, sheet, worst.filling.number)
    pressed(i, worst.run, shown[worst.filling.number - 1], sheet)
    return (
        lines.pressure(sheet, i, worst),
        lines.lift_head(sheet, i, found),
        lines.web_force(sheet, i, found),
        lines.second_method(sheet, i, worst),
        pump_rate(sheet, i, most),
    )


def _concrete(
    sheet: Worksheet, i: Inputs, runs: Sequence[Run], fillings: Sequence[Filling], found: Sequence[Pressed]
) -> tuple[LimitState, ...]:
    joint = mix.cold_joint(i, fillings)
    return (
        *mix.slump(sheet, i, max(one.aci.head_psf for one in found)),
        *mix.consolidation(sheet, i),
        *mix.temperature(sheet, i, runs),
        *(() if joint is None else (joint,)),
    )


def _row(i: Inputs, filling: Filling, found: Sequence[Pressed]) -> LiftRow:
    own = [one for one in found if one.filling is filling]
    one = max(own, key=lambda p: load_ratio(i, p))
    known = form_psf(i, one.run) is not None
    return LiftRow(
        filling, one.run.name, one.aci.design_psf, one.lift_psf, ciria_psf(i, one, SILENT), load_ratio(i, one) if known else None
    )  # fmt: skip


def _hours(i: Inputs, runs: Sequence[Run], fillings: Sequence[Filling], times: int) -> float:
    """Pumping, each circuit's share of the walls after the other, and the waits of each."""
    walls_ft = sum(r.length_ft for r in runs)
    pumped = sum(f.minutes for f in fillings) / 60 * max(1.0, walls_ft / (i.circuit_ft or walls_ft))
    return pumped + i.wait_h * (len(fillings) - 1) * times
