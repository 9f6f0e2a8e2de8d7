"""How fast the pump may go and what stops it from going faster, in one sentence."""

from engine.clauses.us.form_pressure import (
    FASTEST_FT_PER_H,
    FLOOR_PSF,
    chemistry_factor,
    depth_of_pressure_ft,
    fast_wall_psf,
    largest_rate_ft_per_h,
    slow_wall_psf,
    unit_weight_factor,
)
from engine.clauses.us.placing_rates import rate_of_rise_ft_per_h
from engine.placing.inputs import Inputs
from engine.placing.largest import PUMP, Largest
from engine.placing.pressure import Pressed, form_psf, liquid_because
from engine.result import Facts, LimitState
from engine.worksheet import CLAUSES, Clause, Worksheet, cite

EQUATIONS = {"b": CLAUSES[slow_wall_psf], "c": CLAUSES[fast_wall_psf]}
APART = "Place the lifts so far apart that each sets before the next, or take forms that carry more."


def governing_rule(most: Largest | None) -> Clause | None:
    """The equation that stops the pump from going faster; None where it is no equation."""
    if most is None or most.any_rate or not most.limit_yd3_per_h:
        return None
    return EQUATIONS.get(most.beyond.aci.equation)


def pump_rate(sheet: Worksheet, i: Inputs, most: Largest | None) -> LimitState:
    """The pump's rate against the largest that the forms allow."""
    title, source = "Pump rate", cite(rate_of_rise_ft_per_h)
    if most is None:
        why = "how fast the pump may go turns on what the forms may carry: enter it, from the forms' own data"
        return LimitState("pump-rate", title, source, unchecked=why, spot="form")
    if most.any_rate:
        say = "Pump as fast as the pump goes: at {most} the concrete presses {psf}; the forms may carry {may}."
    else:
        say = _limited(i, most) if most.limit_yd3_per_h else _blocked(i, most.beyond)
    _turned_round(sheet, i, most)
    return LimitState(
        "pump-rate", title, source, i.pump_yd3_per_h, most.limit_yd3_per_h, "yd³/h", say=say, facts=_facts(i, most),
        spot="form", steps=sheet.take(),
    )  # fmt: skip


def _turned_round(sheet: Worksheet, i: Inputs, most: Largest) -> None:
    """The rise at which the slow equation reaches what the form may carry, as its working."""
    capacity = form_psf(i, most.beyond.run)
    if capacity is not None and governing_rule(most) is EQUATIONS["b"]:
        C_c = sheet.use(chemistry_factor, binder=i.binder, retarder=i.retarder)
        C_w = sheet.use(unit_weight_factor, w_pcf=i.w_pcf)
        sheet.use(largest_rate_ft_per_h, p_psf=capacity, C_c=C_c, C_w=C_w, T=i.temperature_F)


def _facts(i: Inputs, most: Largest) -> Facts:
    one = most.beyond
    capacity = form_psf(i, one.run) or 0.0
    return {
        "most": (most.yd3_per_h, "yd³/h"),
        "least": (PUMP.low, "yd³/h"),
        "T": (i.temperature_F, "°F"),
        "fastest": (FASTEST_FT_PER_H, "ft/h"),
        "psf": (one.design_psf, "psf"),
        "lift_psf": (one.lift_psf, "psf"),
        "floor": (FLOOR_PSF * one.aci.C_w, "psf"),
        "may": (capacity, "psf"),
        "depth": (one.depth_ft, "ft"),
        "lift": (depth_of_pressure_ft(capacity, i.w_pcf) if capacity else 0.0, "ft"),
    }


def _limited(i: Inputs, most: Largest) -> str:
    one = most.beyond
    head = "Pump at most {most}" if i.pump_yd3_per_h <= most.limit_yd3_per_h else "Pump at most {most}, not {demand}"
    lift, forms = f"lift {one.filling.number}", f"more than the {{may}} that the forms of wall {one.run.name} may carry"
    if one.aci.equation == "a":
        return f"{head}: faster, {lift} rises more than {{fastest}}, counts as liquid and presses {{psf}}, {forms}."
    return f"{head}: faster, at {{T}}, the concrete of {lift} presses {forms}."


def _blocked(i: Inputs, one: Pressed) -> str:
    may = f"the forms of wall {one.run.name} may carry {{may}}"
    if one.lift_psf > (form_psf(i, one.run) or 0.0):
        said, mend = "one lift alone presses {lift_psf} as a liquid", "Place lifts of {lift} or less."
        return f"No pump rate holds: {said}; {may}. {mend}"
    reasons = liquid_because(i, one.filling.average_ft_per_h)
    if reasons:
        said = f"the concrete counts as liquid ({', '.join(reasons)}), {{depth}} of it presses {{psf}}"
    elif (one.aci.equation_psf or 0.0) <= FLOOR_PSF * one.aci.C_w:
        said = "ACI 347R takes no less than {floor} for {depth} of soft concrete, or its head"
    else:
        said = "even at {least} and {T} the concrete presses {psf}"
    return f"No pump rate holds: {said}; {may}. {APART}"
