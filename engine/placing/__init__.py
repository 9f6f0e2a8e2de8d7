"""Placing concrete in the walls of one circuit: lifts, rates, form pressure, weather, braces, hold points.

`placing_plan(inputs, runs, edition)` with `run(wall, level)` for a wall, `runs(walls, level)` for a job.
"""

from engine.placing.diagram import Diagram
from engine.placing.filling import Filling, parted
from engine.placing.hold_points import (
    HOLD_POINTS,
    KEYS,
    LONGEST_SOURCE,
    STAGES,
    HoldPoint,
    read_hold_point,
    read_hold_points,
    write_hold_points,
)
from engine.placing.inputs import Inputs
from engine.placing.largest import Largest, by_temperature
from engine.placing.lines import Bracing
from engine.placing.plan import KIND, LiftRow, PlacingPlan, placing_plan
from engine.placing.rate_line import governing_rule
from engine.placing.runs import Run, run, runs

__all__ = [
    "HOLD_POINTS",
    "KEYS",
    "KIND",
    "LONGEST_SOURCE",
    "STAGES",
    "Bracing",
    "Diagram",
    "Filling",
    "HoldPoint",
    "Inputs",
    "Largest",
    "LiftRow",
    "PlacingPlan",
    "Run",
    "by_temperature",
    "governing_rule",
    "parted",
    "placing_plan",
    "read_hold_point",
    "read_hold_points",
    "run",
    "runs",
    "write_hold_points",
]
