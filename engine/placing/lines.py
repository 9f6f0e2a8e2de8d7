"""Lines about the forms while they fill: pressure, the lift as a liquid, webs, a second opinion, braces."""

from collections.abc import Sequence
from dataclasses import dataclass

from engine.clauses.us.form_pressure import FASTEST_FT_PER_H, design_pressure_psf, liquid_head_psf
from engine.clauses.us.form_pressure_si import ciria_pressure_kPa
from engine.clauses.us.placing_rates import (
    brace_axial_lb,
    brace_reaction_plf,
    brace_vertical_lb,
    bracing_load_plf,
    web_force_lb,
)
from engine.errors import BadInput
from engine.placing.inputs import Inputs
from engine.placing.largest import ratio
from engine.placing.pressure import Pressed, ciria_psf, form_psf, liquid_because
from engine.placing.rules import METHODS_APART, methods_apart, tie_strength_lb
from engine.placing.runs import Run
from engine.result import LimitState
from engine.units import show
from engine.worksheet import Worksheet, cite

TYPE_IN = "enter what they may carry, from the forms' own data"
UNKNOWN = "judged once what the forms may carry is entered"
USUAL_BRACE_FT = 7.0  # common practice: within reach from the deck of a storey's braces


@dataclass(frozen=True, slots=True)
class Bracing:
    """Loads of the braces of the tallest forms: along the wall at its top and at the brace [plf], and in one brace [lb]."""

    run: str
    top_plf: float
    reaction_plf: float
    axial_lb: float
    vertical_lb: float


def hardest(i: Inputs, found: Sequence[Pressed]) -> Pressed:
    """The first lift, and the forms, that ask most by ACI 347R; the lift alone as a liquid is another line."""
    return max(found, key=lambda one: round(ratio(i, one.run, one.aci.design_psf), 9))


def pressure(sheet: Worksheet, i: Inputs, one: Pressed) -> LimitState:
    """Design pressure against the forms. The sheet already holds the steps of the lift that governs."""
    reasons = liquid_because(i, one.filling.average_ft_per_h)
    capacity = form_psf(i, one.run)
    by = "that rises {R} at {T} presses"
    if reasons:
        by = f"counts as liquid ({', '.join(reasons)}) and presses"
    say = f"Wall {one.run.name}: {{depth}} of soft concrete {by} {{demand}}; the forms may carry {{capacity}}."
    if capacity is None:
        say = (
            f"Wall {one.run.name}: {{depth}} of soft concrete {by} {{demand}} on forms of unknown strength: {TYPE_IN}."
        )
    return LimitState(
        "form-pressure", "Pressure on the forms", cite(design_pressure_psf), one.aci.design_psf, capacity, "psf",
        holds=False if capacity is None else None, say=say, spot="form",
        facts={
            "depth": (one.depth_ft, "ft"), "T": (i.temperature_F, "°F"),
            "R": (min(one.filling.average_ft_per_h, FASTEST_FT_PER_H), "ft/h"),
        },
        steps=sheet.take(),
    )  # fmt: skip


def lift_head(sheet: Worksheet, i: Inputs, found: Sequence[Pressed]) -> LimitState:
    """One lift as a liquid, since a stretch goes in almost at once: the second check."""
    one = max(found, key=lambda p: round(ratio(i, p.run, p.lift_psf), 9))
    capacity = form_psf(i, one.run)
    head = sheet.use(liquid_head_psf, w_pcf=i.w_pcf, h_ft=one.lift_psf / i.w_pcf)
    return LimitState(
        "lift-head", "One lift as a liquid", cite(liquid_head_psf), head, capacity, "psf",
        unchecked=UNKNOWN if capacity is None else "",
        say="A lift of {lift} goes in almost at once and presses {demand}; the forms may carry {capacity}.",
        facts={"lift": (one.lift_psf / i.w_pcf, "ft")}, spot="lift", steps=sheet.take(),
    )  # fmt: skip


def _area_in(i: Inputs, run: Run) -> tuple[float, float]:
    """Form that one web holds, across and up: as typed, else of the wall type."""
    across = run.web_across_in if i.web_across_in is None else i.web_across_in
    return across, run.web_up_in if i.web_up_in is None else i.web_up_in


def _web_capacity_lb(sheet: Worksheet, i: Inputs, run: Run) -> float | None:
    """What one web may carry: the forms' pressure on the area that pressure was given for, and half its tested strength."""
    own = (run.web_across_in, run.web_up_in) if i.form_pressure_psf is None else _area_in(i, run)
    form = form_psf(i, run)
    found = [] if form is None else [web_force_lb(form, *own)]
    if i.web_tested_lb is not None:
        found.append(sheet.use(tie_strength_lb, F_u_lb=i.web_tested_lb))
    return min(found, default=None)


def web_force(sheet: Worksheet, i: Inputs, found: Sequence[Pressed]) -> LimitState:
    """Force on the web that is asked most, against what one web may carry."""
    silent = Worksheet(recording=False)

    def asked(p: Pressed) -> float:
        force = web_force_lb(p.design_psf, *_area_in(i, p.run))
        return round(force / (_web_capacity_lb(silent, i, p.run) or 1.0), 9)

    one = max(found, key=asked)
    s_h, s_v = _area_in(i, one.run)
    force = sheet.use(web_force_lb, p_psf=one.design_psf, s_h_in=s_h, s_v_in=s_v)
    capacity = _web_capacity_lb(sheet, i, one.run)
    return LimitState(
        "web-force", "Force on one web", cite(web_force_lb), force, capacity, "lb",
        unchecked=UNKNOWN if capacity is None else "",
        say="A web holds {across} by {up} of form against {demand}; it may carry {capacity}.",
        facts={"across": (s_h, "in"), "up": (s_v, "in")}, spot="web", steps=sheet.take(),
    )  # fmt: skip


def second_method(sheet: Worksheet, i: Inputs, one: Pressed) -> LimitState:
    """CIRIA 108 beside ACI 347R, for the lift and forms that govern."""
    source = cite(ciria_pressure_kPa)
    second = ciria_psf(i, one, sheet)
    if second is None:
        return LimitState(
            "second-method", "A second method", source, spot="form",
            unchecked="The concrete counts as liquid; no method gives more.",
        )  # fmt: skip
    apart = sheet.use(methods_apart, p_1_psf=second, p_2_psf=one.aci.design_psf)
    words = "more than a quarter apart: choose forms and rate by the larger" if apart > METHODS_APART else "near it"
    return LimitState(
        "second-method", "A second method", source, second, form_psf(i, one.run), "psf",
        say=f"By CIRIA 108 the same concrete presses {{demand}}, by ACI 347R {{aci}}; {words}.",
        facts={"aci": (one.aci.design_psf, "psf"), "apart": (apart, "")}, advisory=True, spot="form", steps=sheet.take(),
    )  # fmt: skip


def bracing(sheet: Worksheet, i: Inputs, runs: Sequence[Run]) -> tuple[Bracing, LimitState]:
    """Braces of the tallest forms. Raises: BadInput where they would meet the wall above its top."""
    run = max(runs, key=lambda r: r.height_ft)
    at_ft = min(USUAL_BRACE_FT, run.height_ft) if i.brace_ft is None else i.brace_ft
    if at_ft > run.height_ft + 1e-9:
        raise BadInput("brace_ft", f"The tallest wall is {show(run.height_ft, 'ft')}; braces meet it there or lower.")
    q = sheet.use(bracing_load_plf, w_psf=i.wind_psf, H_ft=run.height_ft)
    R = sheet.use(brace_reaction_plf, q_plf=q, H_ft=run.height_ft, a_ft=at_ft)
    N = sheet.use(brace_axial_lb, R_b_plf=R, s_ft=i.brace_spacing_ft, theta_deg=i.brace_deg)
    N_v = sheet.use(brace_vertical_lb, N_lb=N, theta_deg=i.brace_deg)
    say = "Each brace, {spacing} apart and met {at} up, takes {demand} along itself, {up} of it upright; "
    say += "it may carry {capacity}." if i.brace_capacity_lb else "hold that against the brace's own data."
    line = LimitState(
        "brace", "Braces", cite(bracing_load_plf), N, i.brace_capacity_lb, "lb", say=say,
        facts={"up": (N_v, "lb"), "spacing": (i.brace_spacing_ft, "ft"), "at": (at_ft, "ft")},
        advisory=i.brace_capacity_lb is None, spot="brace", steps=sheet.take(),
    )  # fmt: skip
    return Bracing(run.name, q, R, N, N_v), line
