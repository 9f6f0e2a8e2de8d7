"""A gable end of cut courses: the forms and their offcuts, the concrete by lifts, the plate along the rakes."""

from engine.attachments.gable_end import edges, placing, site
from engine.attachments.gable_end.cutting import CutList, Offcut, Piece, cut_list
from engine.attachments.gable_end.geometry import Gable, geometry
from engine.attachments.gable_end.inputs import Inputs
from engine.editions import Edition
from engine.result import CheckResult
from engine.worksheet import Worksheet

__all__ = ["CutList", "Gable", "Inputs", "Offcut", "Piece", "check", "cut_list", "geometry"]

OUTSIDE = (
    "the gable as a wall: wind on it, its bars and how the roof holds it",
    "uplift and shear of the rake plate, ridge beam and lookouts",
    "braces while it stands free, and the boards' own bending",
    "joints in boards and plate beyond what bolts and ties ask",
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge a gable end.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order of the work. Raises: BadInput where inputs contradict each other.
    """
    i, sheet = inputs, Worksheet(recording)
    g = geometry(i, sheet)
    placed = sheet.take()
    cut = cut_list(i)
    states = (
        *site.lines(sheet, i, g, cut, placed),
        *edges.lines(sheet, i, g, placed),
        *placing.lines(sheet, i, g, placed),
    )
    return CheckResult("gable_end", edition, states, site.cautions(i, g, cut), OUTSIDE)
