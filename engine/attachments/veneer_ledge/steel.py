"""Lines of the ledge's stirrups and closed ties, on a foot of it: ACI 318-19 16.5.4 to 16.5.6, shear friction of 22.9.

What strength asks for and the least that the code wants for a ledge of this size are two lines: the least governs an ordinary
ledge, so more depth or stronger concrete asks for more steel.
"""

from dataclasses import dataclass

from engine.attachments.veneer_ledge.geometry import Ledge, kept
from engine.attachments.veneer_ledge.inputs import STIRRUPS, Inputs
from engine.attachments.veneer_ledge.load import FOOT_IN, Load
from engine.attachments.veneer_ledge.shape import (
    closed_tie_area_in2,
    stirrup_place_spacing_in,
    tie_reach_in,
    tie_turn_in,
)
from engine.clauses.us import concrete_corbels as corbels
from engine.clauses.us.bars import bar, bars_on_width_in2, stirrup_bend_in
from engine.clauses.us.concrete_material import phi_corbel
from engine.clauses.us.shear_friction import friction_coefficient, shear_friction_steel_in2
from engine.errors import OutOfScope
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite

NAMES = dict(STIRRUPS)


@dataclass(frozen=True, slots=True)
class Steel:
    """Main steel on a foot [in²]: what N_uc asks, what strength asks, what size asks, the larger of both, and what there is."""

    A_n: float
    strength: float
    least: float
    needed: float
    provided: float


def lines(
    sheet: Worksheet, i: Inputs, g: Ledge, load: Load, placed: tuple[Step, ...], how: tuple[Step, ...]
) -> tuple[tuple[LimitState, ...], float]:
    """Stirrups for strength and by size, their spacing, closed ties; and the main steel needed on a foot [in²].

    Args: placed, how: the steps of geometry and of the load.
    """
    provided = sheet.use(bars_on_width_in2, A_b_in2=bar(i.stirrup).A_b_in2, s_in=g.spacing, b_in=FOOT_IN)
    given = kept(placed, stirrup_place_spacing_in) + sheet.take()
    f_y = i.f_y_ksi * 1000
    least = sheet.use(corbels.least_main_steel_in2, f_c_psi=i.f_c_psi, f_y_psi=f_y, b_in=FOOT_IN, d_in=g.d)
    size = given + sheet.take()
    try:
        A_n, strength = _strength(sheet, i, g, load)
    except OutOfScope as limit:
        return (_hopeless(sheet, limit), _least(i, g, Steel(0.0, 0.0, least, least, provided), size)), least
    steel = Steel(A_n, strength, least, corbels.main_steel_in2(strength, least), provided)
    states = (
        _for_strength(i, g, load, steel, how + sheet.take() + given),
        _least(i, g, steel, size),
        _spacing(sheet, i, g, steel),
        *_ties(sheet, i, g, steel, placed),
    )
    return states, steel.needed


def _strength(sheet: Worksheet, i: Inputs, g: Ledge, load: Load) -> tuple[float, float]:
    """Steel for N_uc, and for strength in all [in²]. Raises: OutOfScope where no steel carries the moment."""
    phi, f_y = sheet.use(phi_corbel), i.f_y_ksi * 1000
    mu = sheet.use(friction_coefficient, surface=i.joint)
    A_vf = sheet.use(shear_friction_steel_in2, V_u_lb=load.V_u_plf, phi=phi, mu=mu, f_y_psi=f_y)
    A_n = sheet.use(corbels.restraint_steel_in2, N_uc_lb=load.N_uc_plf, phi=phi, f_y_psi=f_y)
    M_u, f_c = load.M_u_lb_in, i.f_c_psi
    A_f = sheet.use(corbels.moment_steel_in2, M_u_lb_in=M_u, phi=phi, f_c_psi=f_c, f_y_psi=f_y, b_in=FOOT_IN, d_in=g.d)
    return A_n, sheet.use(corbels.strength_steel_in2, A_f_in2=A_f, A_n_in2=A_n, A_vf_in2=A_vf)


def _hopeless(sheet: Worksheet, limit: OutOfScope) -> LimitState:
    return LimitState(
        "steel-strength", "Stirrups for strength", cite(corbels.strength_steel_in2), spot="stirrup",
        say="No amount of steel carries this moment at this depth.", refer=f"{limit.rule}: {limit.why}", steps=sheet.take(),
    )  # fmt: skip


def _placed_words(i: Inputs) -> str:
    return f"{NAMES[i.stirrup]} stirrups {{apart}} apart"


def _for_strength(i: Inputs, g: Ledge, load: Load, steel: Steel, steps: tuple[Step, ...]) -> LimitState:
    return LimitState(
        "steel-strength", "Stirrups for strength", cite(corbels.strength_steel_in2), steel.strength, steel.provided, "in²/ft",
        say=f"The moment at the core is {{moment}}; load, moment and pull ask for {{demand}} of stirrups. {_placed_words(i)} give "
        "{capacity}.",
        facts={"moment": (load.M_u_lb_in, "lb-in/ft"), "apart": (g.spacing, "in")},
        combination=load.label, spot="stirrup", steps=steps,
    )  # fmt: skip


def _least(i: Inputs, g: Ledge, steel: Steel, steps: tuple[Step, ...]) -> LimitState:
    return LimitState(
        "steel-least", "Least stirrups whatever the load", cite(corbels.least_main_steel_in2), steel.least, steel.provided,
        "in²/ft", say="A ledge of this depth and concrete holds at least {demand} of stirrups whatever it carries. "
        f"{_placed_words(i)} give {{capacity}}.",
        facts={"apart": (g.spacing, "in")}, spot="stirrup", steps=steps,
    )  # fmt: skip


def _spacing(sheet: Worksheet, i: Inputs, g: Ledge, steel: Steel) -> LimitState:
    sheet.use(corbels.main_steel_in2, A_strength_in2=steel.strength, A_least_in2=steel.least)
    s_max = sheet.use(corbels.stirrup_spacing_in, A_b_in2=bar(i.stirrup).A_b_in2, A_sc_in2=steel.needed, b_in=FOOT_IN)
    # areas and spacings in metric text miss a whole number of webs by the last bits of a float
    most = sheet.use(corbels.module_spacing_in, s_max_in=s_max * (1 + 1e-9), m_in=i.web_spacing_in)
    say = f"The stirrups stand {{demand}} apart; on the webs, {{web}} apart, {NAMES[i.stirrup]} may stand {{capacity}} apart."
    if not most:
        say = (
            f"{NAMES[i.stirrup]} would have to stand {{most}} apart, closer than the webs at {{web}}: use a larger bar."
        )
    return LimitState(
        "stirrup-spacing", "Stirrups on the web module", cite(corbels.module_spacing_in), g.spacing, most, "in", say=say,
        facts={"web": (i.web_spacing_in, "in"), "most": (s_max, "in")}, spot="stirrup", steps=sheet.take(),
    )  # fmt: skip


def _ties(sheet: Worksheet, i: Inputs, g: Ledge, steel: Steel, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    need, have = sheet.use(corbels.tie_steel_in2, A_sc_in2=steel.needed, A_n_in2=steel.A_n), 0.0
    if g.ties:
        A_b = bar(i.tie_bar).A_b_in2
        have = sheet.use(closed_tie_area_in2, n=i.tie_layers, A_b_in2=A_b, b_in=FOOT_IN, s_in=g.spacing)
    area = LimitState(
        "ties", "Closed ties below the stirrups", cite(corbels.tie_steel_in2), need, have, "in²/ft",
        say="Closed ties give {capacity}; {demand} is needed, half of what the stirrups need beyond the pull."
        if g.ties
        else "No closed ties are placed; {demand} is needed.",
        spot="ties", steps=sheet.take(),
    )  # fmt: skip
    return (area, *_tie_places(sheet, i, g, placed)) if g.ties else (area,)


def _tie_places(sheet: Worksheet, i: Inputs, g: Ledge, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    zone = sheet.use(corbels.tie_zone_in, d_in=g.d)
    within = LimitState(
        "tie-zone", "Closed ties near the stirrups", cite(corbels.tie_zone_in), i.tie_drop_in, zone, "in",
        say="The lowest closed tie lies {demand} below the stirrups; they are spread over {capacity} at most.",
        spot="ties", steps=sheet.take(),
    )  # fmt: skip
    turn = sheet.use(tie_turn_in, d_t_in=g.tie_d, D_b_in=stirrup_bend_in(g.tie_d))
    reach = LimitState(
        "tie-reach", "Closed ties reach into the ledge", cite(tie_reach_in), turn, g.tie_reach, "in",
        say="The lowest closed tie reaches {capacity} beyond the core before the soffit's cover stops it; to turn there it needs "
        "{demand}.",
        spot="ties", steps=kept(placed, tie_reach_in) + sheet.take(),
    )  # fmt: skip
    return within, reach
