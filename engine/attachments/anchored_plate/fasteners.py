"""Lines about the fasteners to the member, at allowable stress: each combination with its own duration and angle to grain."""

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from engine.attachments.anchored_plate import distances, steel
from engine.attachments.anchored_plate.demand import Effect, along_grain
from engine.attachments.anchored_plate.geometry import Bracket
from engine.attachments.anchored_plate.inputs import Inputs
from engine.clauses.us import timber_factors as factors
from engine.clauses.us.ledger_rules import stiffness_across_lb
from engine.clauses.us.timber_bearing_strength import (
    FE_LIGHT_SHEET_PSI,
    FE_PLATE_PSI,
    SMALL_IN,
    fe_side_plate_psi,
    fe_steel_hot_rolled_psi,
    fe_steel_sheet_psi,
    fe_wood,
)
from engine.clauses.us.timber_geometry import load_to_grain_deg, resultant_lb
from engine.clauses.us.timber_materials import bolt, species
from engine.clauses.us.timber_screws import least_penetration_in, screw_capacity
from engine.clauses.us.timber_yield import Joint, double_shear, single_shear
from engine.result import LimitState
from engine.tables.reading import SLACK
from engine.worksheet import Worksheet, cite, clause

# NDS 2018 Tables 12K, 12M: the steels their figures stand for, by tensile strength
TABLE_F_U_PSI = {FE_LIGHT_SHEET_PSI: 45000.0, FE_PLATE_PSI: 58000.0}


class Taken(NamedTuple):
    """An effect with the fasteners' answer: load on one, its adjusted value [lb], the yield mode."""

    effect: Effect
    R: float
    Z: float
    mode: str

    @property
    def ratio(self) -> float:
        """Demand over capacity."""
        return self.R / self.Z if self.Z > 0 else inf if self.R > 0 else 0.0


@clause(
    "geometry", "", title="Screw in the wood", symbol="p", unit="in", formula="min(l - t, b)", provenance="geometry"
)
def penetration_in(l_in: float, t_in: float, b_in: float) -> float:
    """Of a screw of length l through a leg t thick into a member b thick, tip counted [in]."""
    return min(l_in - t_in, b_in)


@clause("statics", "", title="Stiffness along a member", symbol="EA", unit="lb", formula="E * A", provenance="derived")
def stiffness_lb(E_psi: float, A_in2: float) -> float:
    """For group action. Args: E_psi: modulus [psi]. A_in2: area square to the load [in²]."""
    return E_psi * A_in2


def gravity(i: Inputs) -> float | None:
    """Specific gravity for fasteners; None where composite lumber's is not typed."""
    return i.G if i.wood == "scl" else species(i.species).G


def number(i: Inputs, p: Bracket) -> int:
    """How many fasteners share the load: screws stand in each leg, bolts go through both."""
    both = i.fastener == "screw" and i.form == "two"
    return len(p.fasteners) * (2 if both else 1)


def lines(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> tuple[LimitState, ...]:
    """Strength, and of screws their penetration. Args: effects: at allowable stress, each with its C_D."""
    strength = _strength(sheet, i, p, effects)
    return (strength,) if i.fastener == "bolt" else (strength, *_penetration(sheet, i, p))


def _strength(sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect]) -> LimitState:
    title, source, G = "Fasteners, yield limit", cite(factors.adjusted_Z_lb), gravity(i)
    if G is None:
        return LimitState(
            "fasteners", title, source, holds=False, spot="fasteners",
            say="Enter the equivalent specific gravity for these fasteners, from the member's evaluation report.",
        )  # fmt: skip
    if not effects:
        return LimitState("fasteners", title, source, spot="fasteners", holds=True, say="No load is entered.")
    silent = Worksheet(recording=False)
    worst = max((_taken(silent, i, p, e, G) for e in _candidates(i, effects)), key=lambda found: found.ratio)
    taken = _taken(sheet, i, p, worst.effect, G) if sheet.recording else worst
    say = f"Each of {number(i, p)} fasteners takes {{demand}}; wood, steel and fastener yield at {{capacity}}, mode {taken.mode}."
    if not taken.mode:
        say = "Each fastener takes {demand}; here it counts for nothing: see its length and its distances."
    return LimitState(
        "fasteners", title, source, taken.R, taken.Z, "lb", say=say,
        combination=f"{worst.effect.label}, C_D {worst.effect.C_D:g}", spot="fasteners", steps=sheet.take(),
    )  # fmt: skip


def _candidates(i: Inputs, effects: Sequence[Effect]) -> Sequence[Effect]:
    """Across the grain alone the effect that asks most for its duration; along it too, every one that differs."""
    across = [e for e in effects if not along_grain(i, e)]
    found = [max(across, key=lambda e: abs(e.V) / e.C_D)] if across else []
    both = {(abs(e.V), along_grain(i, e), e.C_D): e for e in effects if along_grain(i, e)}
    return [*found, *both.values()]


def _taken(sheet: Worksheet, i: Inputs, p: Bracket, e: Effect, G: float) -> Taken:
    n, A = number(i, p), along_grain(i, e)
    R = sheet.use(resultant_lb, V_lb=abs(e.V) / n, H_lb=A / n)
    theta = sheet.use(load_to_grain_deg, V_lb=e.V, H_lb=A) if R else 90.0
    Z, mode = _one(sheet, i, p, G, theta)
    if not mode:
        return Taken(e, R, 0.0, "")
    wet = sheet.use(
        factors.C_M_connection, made_wet=i.moisture == "green", wet_in_service=i.moisture == "wet", D_in=p.D,
        free_to_shrink=i.f_rows == 1,
    )  # fmt: skip
    C_Delta = distances.factor(sheet, i, p, bool(A)) if i.fastener == "bolt" else 1.0
    Z_adjusted = sheet.use(
        factors.adjusted_Z_lb, Z_lb=Z, C_D=e.C_D, C_M=wet, C_t=1.0, C_g=_group(sheet, i, p, bool(e.V), bool(A)),
        C_Delta=C_Delta, C_eg=1.0,
    )  # fmt: skip
    return Taken(e, R, Z_adjusted, mode if C_Delta else "")


def _steel_psi(sheet: Worksheet, i: Inputs, p: Bracket) -> float:
    """Dowel bearing of the leg: the tables' figure for the tables' steels (reading 11), else by its tensile strength."""
    t, F_u = p.leg_thickness, i.f_u_ksi * 1000
    if TABLE_F_U_PSI[fe_side_plate_psi(t)] == F_u:
        return sheet.use(fe_side_plate_psi, t_in=t)
    return sheet.use(fe_steel_sheet_psi if t < SMALL_IN else fe_steel_hot_rolled_psi, F_u_psi=F_u)


def _one(sheet: Worksheet, i: Inputs, p: Bracket, G: float, theta: float) -> tuple[float, str]:
    """Reference value of one fastener [lb] and its mode; a screw less than 6 D in the wood counts for nothing."""
    F_steel = _steel_psi(sheet, i, p)
    if i.fastener == "screw":
        reach = sheet.use(penetration_in, l_in=i.screw_length_in, t_in=p.leg_thickness, b_in=i.b_in)
        if reach < 6 * p.D - SLACK:
            return 0.0, ""
        screw = screw_capacity(sheet, i.gauge, G, p.leg_thickness, reach, F_es_psi=F_steel, theta_deg=theta)
        return screw.Z_lb, screw.mode
    fastener, F_wood = bolt(i.bolt), fe_wood(sheet, G=G, D_in=p.D, theta_deg=theta)
    D = fastener.D_in if i.threads == "body" else fastener.D_r_in
    wood, plate = (i.b_in, F_wood), (p.leg_thickness, F_steel)
    if i.form == "slot":
        cheek = (i.b_in - p.slot) / 2
        if cheek <= 0:
            return 0.0, ""
        plate, wood = (
            (cheek, F_wood),
            (p.leg_thickness, F_steel),
        )  # the leg is the main member, the cheeks are the sides
    joint = Joint(D, p.D, wood[0], plate[0], wood[1], plate[1], fastener.F_yb_psi, theta)
    found = (double_shear if i.form in ("two", "slot") else single_shear)(sheet, joint)
    return found.Z_lb, found.mode


def _group(sheet: Worksheet, i: Inputs, p: Bracket, across: bool, along: bool) -> float:
    """C_g: fasteners one above the other are a row for the load across the grain, those side by side for that along it."""
    found, t = [1.0], _parts_thickness(i, p)
    if across and i.f_rows > 1:
        # NDS 2018 11.3.6.3: one row across the grain takes the least spacing along the grain, 4 D, for its width
        wide = max((i.f_columns - 1) * i.f_column_spacing_in, 4 * p.D)
        EA_m = sheet.use(stiffness_across_lb, E_psi=i.E_psi, b_in=i.b_in, w_in=wide)
        EA_s = sheet.use(stiffness_lb, E_psi=steel.E_PSI, A_in2=t * _leg_length(i, p))
        found.append(_row(sheet, i.f_rows, p.D, i.f_row_spacing_in, EA_m, EA_s))
    if along and i.f_columns > 1:
        EA_m = sheet.use(stiffness_lb, E_psi=i.E_psi, A_in2=i.b_in * i.d_in)
        EA_s = sheet.use(stiffness_lb, E_psi=steel.E_PSI, A_in2=t * p.leg_height)
        found.append(_row(sheet, i.f_columns, p.D, i.f_column_spacing_in, EA_m, EA_s))
    return min(found)


def _row(sheet: Worksheet, n: int, D: float, s: float, EA_m: float, EA_s: float) -> float:
    return factors.group_action(sheet, n=n, D_in=D, s_in=s, EA_m_lb=EA_m, EA_s_lb=EA_s, metal=True)


def _parts_thickness(i: Inputs, p: Bracket) -> float:
    """Steel the fasteners go through in all [in]."""
    return p.leg_thickness * (2 if i.form == "two" else 1)


def _leg_length(i: Inputs, p: Bracket) -> float:
    """Of the steel the fasteners stand in, along the grain [in]."""
    if i.form == "front":
        return p.legs[-1][1] - p.legs[0][0]
    return max(p.x_leg - p.x_front, p.leg_thickness)


def _penetration(sheet: Worksheet, i: Inputs, p: Bracket) -> tuple[LimitState, ...]:
    """Least 6 D; the screws of two legs must not meet in the wood."""
    need = sheet.use(least_penetration_in, D_in=p.D)
    reach = sheet.use(penetration_in, l_in=i.screw_length_in, t_in=p.leg_thickness, b_in=i.b_in)
    least = LimitState(
        "penetration", "Screw in the wood", cite(least_penetration_in), need, max(reach, 0.0), "in",
        say="The screws reach {capacity} into the wood; {demand} is the least.", spot="fasteners", steps=sheet.take(),
    )  # fmt: skip
    past = max(i.screw_length_in - p.leg_thickness, 0.0) * (2 if i.form == "two" else 1)
    room = LimitState(
        "screws-meet", "Wood thick enough for the screws", cite(penetration_in), past, i.b_in, "in",
        say="The screws take {demand} of the member's thickness; it is {capacity}.", spot="fasteners",
    )  # fmt: skip
    return least, room
