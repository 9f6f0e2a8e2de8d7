"""Pressure against depth, for the drawing."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from engine.placing.filling import SILENT
from engine.placing.inputs import Inputs
from engine.placing.pressure import Pressed, ciria_psf, form_psf
from engine.placing.runs import Run

Curve = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Diagram:
    """Curves of (depth below the top [ft], pressure [psf]) down one run of forms; heights that set apart start again at 0.

    Args: aci: by ACI 347R. head: all soft concrete as liquid. ciria: the second opinion, empty where the concrete counts as
    liquid. lifts: depth of each lift's foot. form_psf: what the forms may carry.
    """

    run: str
    height_ft: float
    aci: Curve
    head: Curve
    ciria: Curve
    lifts_ft: tuple[float, ...]
    form_psf: float | None


def diagram(i: Inputs, run: Run, found: Sequence[Pressed]) -> Diagram:
    """Of one run. Args: found: what each lift does to it."""
    own = [one for one in found if one.run is run]
    aci: list[tuple[float, float]] = []
    head: list[tuple[float, float]] = []
    ciria: list[tuple[float, float]] = []
    for _, group in groupby(reversed(own), key=lambda one: one.filling.soft_from_ft):
        soft = list(group)
        whole = soft[0]  # the topmost lift of it: all of the concrete that is soft together
        start, depth, liquid = run.height_ft - whole.filling.soft_from_ft - whole.depth_ft, whole.depth_ft, i.w_pcf
        aci += _rising(start, depth, max(one.aci.design_psf for one in soft), liquid * (1.25 if i.from_base else 1.0))
        head += _rising(start, depth, liquid * depth, liquid)
        second = [ciria_psf(i, one, SILENT) for one in soft]
        known = [p for p in second if p is not None]
        if len(known) == len(second):
            ciria += _rising(start, depth, max(known), liquid)
    feet = tuple(run.height_ft - one.filling.from_ft for one in own)
    return Diagram(run.name, run.height_ft, tuple(aci), tuple(head), tuple(ciria), feet, form_psf(i, run))


def _rising(start_ft: float, depth_ft: float, most_psf: float, w_pcf: float) -> Curve:
    """Up with depth as a liquid to the largest pressure, and on at it."""
    reach = most_psf / w_pcf
    if reach >= depth_ft - 1e-9:
        return ((start_ft, 0.0), (start_ft + depth_ft, w_pcf * depth_ft))
    return ((start_ft, 0.0), (start_ft + reach, most_psf), (start_ft + depth_ft, most_psf))
