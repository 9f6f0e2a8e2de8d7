"""What fresh concrete does to the forms: ACI 347R, the liquid head of a lift, and CIRIA 108 as a second opinion."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isinf
from typing import cast

from engine.clauses.us.form_pressure import (
    Binder,
    Pressure,
    chemistry_factor,
    liquid_head_psf,
    liquid_reasons,
    unit_weight_factor,
    wall_pressure,
)
from engine.clauses.us.form_pressure_si import CIRIA_C_2, ciria_K, ciria_pressure_kPa
from engine.placing.filling import Filling
from engine.placing.inputs import Inputs
from engine.placing.rules import slump_on_arrival_in, surge_psf
from engine.placing.runs import Run
from engine.units import convert
from engine.worksheet import Worksheet

WALL_C_1 = 1.0
# CIRIA 108 names its groups of concrete otherwise: by ours, without and with an admixture that delays set.
CIRIA_GROUPS = {
    "types I to III": ("plain", "retarded or blended"),
    "blend": ("retarded or blended", "blended and retarded, or high slag or fly ash"),
    "high slag or fly ash": (
        "blended and retarded, or high slag or fly ash",
        "blended and retarded, or high slag or fly ash",
    ),
}


@dataclass(frozen=True, slots=True)
class Pressed:
    """What one lift does to one run of forms [psf].

    Args: run, filling. depth_ft: of concrete not yet set. aci: by ACI 347R. lift_psf: the lift alone as a liquid.
    """

    run: Run
    filling: Filling
    depth_ft: float
    aci: Pressure
    lift_psf: float

    @property
    def design_psf(self) -> float:
        """The larger of the two."""
        return max(self.aci.design_psf, self.lift_psf)


def form_psf(i: Inputs, run: Run) -> float | None:
    """What the forms of a run may carry [psf]: typed for the placement, else with the wall type; None where neither is."""
    return run.form_psf if i.form_pressure_psf is None else i.form_pressure_psf


def counted_slump_in(i: Inputs) -> float:
    """Slump that the pressure is judged by: as ordered where loads above the limit are turned away, else as it may arrive."""
    return i.slump_in if i.slump_gate else slump_on_arrival_in(i.slump_in, i.slump_tolerance_in)


def liquid_because(i: Inputs, R: float) -> tuple[str, ...]:
    """Why the placement counts as liquid at a rate [ft/h], each a phrase; empty where the equations may be used."""
    found = liquid_reasons(
        slump_in=counted_slump_in(i),
        vibration_ft=i.vibration_ft if i.vibration == "internal" else 0.0,
        R=R,
        flowing=i.self_consolidating or i.vibration == "external",
    )
    return (*found, "filled from the bottom") if i.from_base else found


def pressed(i: Inputs, run: Run, filling: Filling, sheet: Worksheet) -> Pressed | None:
    """What a lift does to a run; None where the run ends below it."""
    top = min(filling.to_ft, run.height_ft)
    if top <= filling.from_ft:
        return None
    depth = top - filling.soft_from_ft
    if i.from_base:
        head = sheet.use(liquid_head_psf, w_pcf=i.w_pcf, h_ft=depth)
        surge = sheet.use(surge_psf, w_pcf=i.w_pcf, h_ft=depth)
        aci = Pressure(surge, "a", None, head, unit_weight_factor(i.w_pcf))
    else:
        C_c = sheet.use(chemistry_factor, binder=cast(Binder, i.binder), retarder=i.retarder)
        aci = wall_pressure(
            sheet, w_pcf=i.w_pcf, h_ft=depth, R=filling.average_ft_per_h, T=i.temperature_F, C_c=C_c,
            slump_in=counted_slump_in(i), vibration_ft=i.vibration_ft if i.vibration == "internal" else 0.0,
            flowing=i.self_consolidating or i.vibration == "external",
        )  # fmt: skip
    lift = liquid_head_psf(w_pcf=i.w_pcf, h_ft=top - filling.from_ft)
    return Pressed(run, filling, depth, aci, lift)


def every(i: Inputs, runs: Sequence[Run], fillings: Sequence[Filling], sheet: Worksheet) -> tuple[Pressed, ...]:
    """Every lift on every run."""
    found = (pressed(i, run, filling, sheet) for run in runs for filling in fillings)
    return tuple(one for one in found if one is not None)


def ciria_psf(i: Inputs, one: Pressed, sheet: Worksheet) -> float | None:
    """The same by CIRIA 108 [psf]; None where the concrete counts as liquid, as nothing gives more then."""
    R = one.filling.average_ft_per_h
    if isinf(R) or liquid_because(i, R):
        return None
    K = sheet.use(ciria_K, T=convert(i.temperature_F, "°F", "°C"))
    p = sheet.use(
        ciria_pressure_kPa,
        D=convert(i.w_pcf, "pcf", "kN/m³"),
        C_1=WALL_C_1,
        C_2=CIRIA_C_2[CIRIA_GROUPS[i.binder][i.retarder]],
        K=K,
        R=convert(R, "ft", "m"),
        H=convert(one.run.height_ft, "ft", "m"),
        h=convert(one.depth_ft, "ft", "m"),
    )
    return convert(p, "kPa", "psf")
