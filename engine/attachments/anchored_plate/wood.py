"""Lines about the member itself, at allowable stress: room at its end, shear, a ledger's bending and couple, sideways hold."""

from collections.abc import Sequence
from math import pi

from engine.attachments.anchored_plate.demand import SHEAR_MOST, Carried, Effect
from engine.attachments.anchored_plate.geometry import Bracket
from engine.attachments.anchored_plate.inputs import Inputs
from engine.attachments.anchored_plate.leg import couple_lever_in
from engine.clauses.us.ledger_rules import couple_pull_lb, cross_grain_barred
from engine.clauses.us.timber_bearing import C_b, washer_bearing_lb
from engine.clauses.us.timber_factors import C_i, C_M_stress, Stress, adjusted_stress_psi
from engine.clauses.us.timber_materials import species
from engine.clauses.us.timber_members import bending_lb_in, shear_at_connection_lb
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite, clause

GEOMETRY = Citation("geometry")
HOLE_OVER_IN = 1 / 16  # NDS 2018 12.1.3.2: holes at most 1/16 in over the bolt


@clause(
    "statics", "", title="Ledger bent between or over its plates", symbol="M", unit="lb-in", formula="w * s ** 2 / 96",
    provenance="derived", note="w s² / 8 with the line load in pounds a foot: one span, or over the middle of two.",
)  # fmt: skip
def ledger_moment_lb_in(w_plf: float, s_in: float) -> float:
    """Args: w_plf: line load. s_in: spacing of the plates [in]. Returns: [lb-in]. Source: statics."""
    return w_plf * s_in**2 / 96


def lines(
    sheet: Worksheet, i: Inputs, p: Bracket, load: Carried, effects: Sequence[Effect], placed: tuple[Step, ...]
) -> tuple[LimitState, ...]:
    """Room, shear, bending, couple and hold. Args: effects: at allowable stress, each with its C_D."""
    states = [_room(i, p, placed)]
    if effects:
        states.append(_shear(sheet, i, p, load, effects))
        states += _sideways(sheet, i, p, effects)
    if i.form == "front":
        states.append(_ledger_bending(sheet, i, load, effects))
        if effects:
            states.append(_couple(sheet, i, p, effects))
        states += _across_grain(sheet, i, effects)
    return tuple(states)


def _room(i: Inputs, p: Bracket, placed: tuple[Step, ...]) -> LimitState:
    """A joist's end clear of the plate; a ledger's load beyond the middle of its thickness, its bracket in front of the plate."""
    if p.front_plate is None:
        return LimitState(
            "room", "Member's end clear of the plate", GEOMETRY, p.x_front, p.member_x[0], "in",
            say="The member ends {capacity} from the concrete; the plate's face is at {demand}."
            if p.member_x[0] > 0
            else "The member would end in the concrete; the plate's face is at {demand}.",
            spot="end", steps=placed,
        )  # fmt: skip
    least, fits = p.member_x[0] + i.b_in / 2, p.front_plate[0] >= p.x_front
    return LimitState(
        "room", "Load in front of the ledger's middle", GEOMETRY, least, p.reaction, "in", holds=fits,
        say="The load acts {capacity} from the concrete; the ledger's middle is at {demand}."
        if fits
        else "The ledger's bracket leaves no room for the plate on the wall: move the ledger out.",
        spot="end", steps=placed,
    )  # fmt: skip


def _stress(sheet: Worksheet, i: Inputs, stress: Stress, F_psi: float, C_D: float) -> float:
    material = "glulam" if i.wood == "glulam" else "sawn"
    wet = sheet.use(C_M_stress, stress=stress, material=material, wet=i.moisture == "wet")
    cut = sheet.use(C_i, stress=stress, incised=i.incised and i.wood == "sawn")
    return sheet.use(adjusted_stress_psi, F_psi=F_psi, C_D=C_D, C_M=wet, C_t=1.0, C_i=cut)


def _shear_share(i: Inputs, load: Carried) -> float:
    """Part of the plate's load that shears the member beside it: all of a joist's, one side's of a ledger."""
    if i.form != "front":
        return 1.0
    return SHEAR_MOST / load.share if i.runs == "continuous" else 0.5


def _shear(sheet: Worksheet, i: Inputs, p: Bracket, load: Carried, effects: Sequence[Effect]) -> LimitState:
    """Up to the fastener farthest from the loaded edge: the lowest one, or where the member lifts the upper one."""
    title, source = "Member's shear at the fasteners", cite(shear_at_connection_lb)
    F_v = i.F_v_psi if i.wood == "scl" else species(i.species).F_v_psi
    if F_v is None:
        return LimitState(
            "member-shear", title, source, holds=False, spot="member",
            say="Enter the member's shear value, from its evaluation report.",
        )  # fmt: skip
    part, silent = _shear_share(i, load), Worksheet(recording=False)
    worst = [
        max(some, key=lambda e: abs(e.V) / e.C_D)
        for up in (False, True)
        if (some := [e for e in effects if (e.V < 0) is up])
    ]
    effect = max(worst, key=lambda e: abs(e.V) / max(_sheared(silent, i, p, F_v, e), 1e-9))
    capacity, small = _sheared(sheet, i, p, F_v, effect), i.fastener == "screw"
    return LimitState(
        "member-shear", title, source, abs(effect.V) * part, capacity, "lb", advisory=small,
        say="At its fasteners the member is sheared by {demand}; with {d_e} of wood to its loaded edge it carries {capacity}."
        + (" The rule names bolts; it is shown here for screws too." if small else ""),
        facts={"d_e": (_deep(p, effect), "in")}, combination=f"{effect.label}, C_D {effect.C_D:g}", spot="member",
        steps=sheet.take(),
    )  # fmt: skip


def _sheared(sheet: Worksheet, i: Inputs, p: Bracket, F_v: float, e: Effect) -> float:
    """What the member carries in shear beside its fasteners [lb]."""
    d_e, thick = _deep(p, e), i.b_in - p.slot
    if d_e <= 0 or thick <= 0:
        return 0.0
    value = _stress(sheet, i, "F_v", F_v, e.C_D)
    return sheet.use(shear_at_connection_lb, F_v_psi=value, b_in=thick, d_e_in=d_e, d_in=i.d_in, a_end_in=p.end)


def _deep(p: Bracket, e: Effect) -> float:
    """Depth from the loaded edge to the fastener farthest from it [in]."""
    whole = p.member_y[1] - p.member_y[0]
    return min(whole - (p.top if e.V < 0 else p.bottom), whole)


def _washer(sheet: Worksheet, i: Inputs, p: Bracket) -> float | None:
    """What the wood bears under one washer [lb]; None where composite lumber's value is not typed."""
    F = i.F_c_perp_psi if i.wood == "scl" else species(i.species).F_c_perp_psi
    if F is None:
        return None
    hole = p.D + HOLE_OVER_IN
    if i.bolt_washer_in**2 <= pi * hole**2 / 4:
        return 0.0
    material = "glulam" if i.wood == "glulam" else "sawn"
    wet = sheet.use(C_M_stress, stress="F_c_perp", material=material, wet=i.moisture == "wet")
    factor = sheet.use(C_b, l_b_in=i.bolt_washer_in, a_end_in=max(p.end - i.bolt_washer_in / 2, 0.0))
    return sheet.use(
        washer_bearing_lb, F_c_perp_psi=F, C_M=wet, C_t=1.0, C_b=factor, A_w_in2=i.bolt_washer_in**2, d_h_in=hole
    )


def _pulled(
    sheet: Worksheet, i: Inputs, p: Bracket, key: str, title: str, demand: float, label: str, what: str
) -> LimitState:
    """Fasteners pulled along their length: bolts by their washers; screws are not counted with withdrawal."""
    source = cite(washer_bearing_lb)
    if i.fastener == "screw":
        return LimitState(
            key, title, source, holds=False, combination=label, spot="fasteners", facts={"T": (demand, "lb")},
            say=f"{what} {{T}}: screws would be drawn out of the wood. Use bolts.", steps=sheet.take(),
        )  # fmt: skip
    capacity = _washer(sheet, i, p)
    if capacity is None:
        return LimitState(
            key, title, source, holds=False, spot="fasteners",
            say="Enter the member's bearing value across the grain, from its evaluation report.",
        )  # fmt: skip
    return LimitState(
        key, title, source, demand, capacity, "lb", say=f"{what} {{demand}}; under its washer the wood bears {{capacity}}.",
        combination=label, spot="fasteners", steps=sheet.take(),
    )  # fmt: skip


def _sideways(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> tuple[LimitState, ...]:
    """A load along the wall on a joist or beam: between two legs or about one it bears; beside one leg it pulls the fasteners."""
    effect = max(effects, key=lambda e: abs(e.H))
    if i.form == "front" or not effect.H:
        return ()
    title = "Member held along the wall"
    if i.form in ("two", "slot"):
        say = "The legs hold the member both ways along the wall."
        return (LimitState("sideways", title, GEOMETRY, holds=True, say=say, spot="member"),)
    each = abs(effect.H) / len(p.fasteners)
    return (
        _pulled(
            sheet, i, p, "sideways", title, each, effect.label, "Away from its leg the member pulls each fastener with"
        ),
    )


def _couple(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    """The load beyond the front plate's face pulls the upper fasteners and presses the ledger's lower part on."""
    effect, z = max(effects, key=lambda e: abs(e.V)), couple_lever_in(i, p)
    title = "Ledger's couple on its upper fasteners"
    if z <= 0:
        return LimitState(
            "ledger-couple", title, GEOMETRY, holds=False, spot="fasteners",
            say="Nothing below the upper fasteners presses the ledger on: make the front plate reach lower.",
        )  # fmt: skip
    T = sheet.use(couple_pull_lb, V_lb=abs(effect.V), e_in=p.reaction - p.member_x[0], z_in=z) / i.f_columns
    return _pulled(sheet, i, p, "ledger-couple", title, T, effect.label, "The couple pulls each upper fastener with")


def _across_grain(sheet: Worksheet, i: Inputs, effects: Sequence[Effect]) -> tuple[LimitState, ...]:
    if not any(e.P for e in effects):
        return ()
    by_code = sheet.use(cross_grain_barred, category=i.seismic.split("-")[0])
    rule = "the code bars it here" if by_code else "this is a rule of the trade here, of the code from category C up"
    return (
        LimitState(
            "across-grain", "Ledger pulled off the wall", cite(cross_grain_barred), holds=False, spot="member",
            say=f"A pull off the wall bends the ledger across its grain; {rule}. Tie the joists to the concrete instead.",
            steps=sheet.take(),
        ),
    )  # fmt: skip


def _ledger_bending(sheet: Worksheet, i: Inputs, load: Carried, effects: Sequence[Effect]) -> LimitState:
    title, source = "Ledger bending between plates", cite(bending_lb_in)
    if i.F_b_psi is None or not effects:
        why = "Enter the grade's bending value and the loads to check bending between plates."
        return LimitState("ledger-bending", title, source, say=why, unchecked=why, spot="member")
    effect = max(effects, key=lambda e: abs(e.V) / e.C_D)
    w = abs(effect.V) / load.share / i.spacing_in * 12
    M = sheet.use(ledger_moment_lb_in, w_plf=w, s_in=i.spacing_in)
    F_b = _stress(sheet, i, "F_b", i.F_b_psi, effect.C_D)
    capacity = sheet.use(bending_lb_in, F_b_psi=F_b, b_in=i.b_in, d_in=i.d_in)
    return LimitState(
        "ledger-bending", title, source, M, capacity, "lb-in",
        say="Between plates the ledger is bent by {demand}; it carries {capacity}.",
        combination=f"{effect.label}, C_D {effect.C_D:g}", spot="member", steps=sheet.take(),
    )  # fmt: skip
