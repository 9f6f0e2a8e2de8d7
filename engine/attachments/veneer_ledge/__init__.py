"""A ledge of the core, run out through the outer foam, that carries masonry veneer."""

from engine.attachments.veneer_ledge import corbel, corner, detailing, site, steel, strip, veneer
from engine.attachments.veneer_ledge.geometry import Ledge, geometry
from engine.attachments.veneer_ledge.inputs import Inputs
from engine.attachments.veneer_ledge.load import carried
from engine.editions import Edition
from engine.result import CheckResult
from engine.worksheet import Worksheet

__all__ = ["Inputs", "Ledge", "check", "geometry"]

OUTSIDE = (
    "the veneer itself: its strength, movement joints and lintels",
    "soil, wind and earthquake against the wall",
    "how a wall that runs on past its floors shares the ledge's moment",
    "cracking and deflection of the ledge",
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge a veneer ledge; it always goes to an engineer, with the lines' own verdict beside.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    i, sheet = inputs, Worksheet(recording)
    g = geometry(i, sheet)
    placed = sheet.take()
    load = carried(sheet, i, g, edition)
    how = sheet.take()
    bars, A_sc = steel.lines(sheet, i, g, load, placed, how)
    states = (
        *site.lines(sheet, i, g, load, how),
        *veneer.lines(sheet, i, g, load, edition, placed),
        *corbel.lines(sheet, i, g, load, placed, how),
        *bars,
        *detailing.lines(sheet, i, g, placed),
        *corner.lines(sheet, i, g, A_sc),
        *strip.lines(sheet, i, g, load, edition),
    )
    return CheckResult("veneer_ledge", edition, states, site.cautions(i), OUTSIDE)
