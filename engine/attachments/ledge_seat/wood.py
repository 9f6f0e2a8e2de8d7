"""Lines about wood at the joist's end: its own crushing, the plate's, and shear where it is cut up."""

from engine.attachments.ledge_seat.geometry import Seat
from engine.attachments.ledge_seat.inputs import Inputs
from engine.clauses.us.irc_bearing import end_notch_limit_in
from engine.clauses.us.loads import Loads, governing_allowable
from engine.clauses.us.timber_bearing import C_b, bearing_perpendicular_lb
from engine.clauses.us.timber_factors import C_M_stress
from engine.clauses.us.timber_materials import species
from engine.clauses.us.timber_members import notched_shear_lb
from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite


def lines(
    sheet: Worksheet, i: Inputs, seat: Seat, reaction: Loads, edition: Edition, how: tuple[Step, ...]
) -> tuple[LimitState, ...]:
    """Crushing of joist and plate, notch depth and notched shear. Args: how: the steps that gave the reaction."""
    states: list[LimitState] = []
    if i.member == "sawn":
        states.append(_joist(sheet, i, seat, reaction, edition, how))
    if i.plate != "none":
        states.append(_plate(sheet, i, seat, reaction, edition, how))
    if i.member == "sawn" and i.notch_in > 0:
        states += _notch(sheet, i, reaction, edition, how)
    return tuple(states)


def _joist(
    sheet: Worksheet, i: Inputs, seat: Seat, reaction: Loads, edition: Edition, how: tuple[Step, ...]
) -> LimitState:
    load = governing_allowable(edition, reaction, duration=False)
    capacity = 0.0
    if seat.bearing > 0:
        factor = sheet.use(C_b, l_b_in=seat.bearing, a_end_in=0.0)
        capacity = sheet.use(
            bearing_perpendicular_lb,
            F_c_perp_psi=species(i.joist_species).F_c_perp_psi,
            C_M=1.0,
            C_t=1.0,
            C_b=factor,
            b_in=i.joist_width_in,
            l_b_in=seat.bearing,
        )
    return LimitState(
        "joist-crushing", "Joist crushing", cite(bearing_perpendicular_lb), load.demand, capacity, "lb",
        say="The joist's end brings {demand}; across the grain it bears {capacity}.",
        combination=load.label, spot="bearing", steps=how + sheet.take(),
    )  # fmt: skip


def _plate(
    sheet: Worksheet, i: Inputs, seat: Seat, reaction: Loads, edition: Edition, how: tuple[Step, ...]
) -> LimitState:
    load = governing_allowable(edition, reaction, duration=False)
    capacity = 0.0
    if seat.bearing > 0:
        wet = sheet.use(C_M_stress, stress="F_c_perp", material="sawn", wet=i.plate_wet)
        factor = sheet.use(C_b, l_b_in=i.joist_width_in, a_end_in=i.joint_clear_in)
        capacity = sheet.use(
            bearing_perpendicular_lb,
            F_c_perp_psi=species(i.plate_species).F_c_perp_psi,
            C_M=wet,
            C_t=1.0,
            C_b=factor,
            b_in=seat.bearing,
            l_b_in=i.joist_width_in,
        )
    return LimitState(
        "plate-crushing", "Plate crushing", cite(bearing_perpendicular_lb), load.demand, capacity, "lb",
        say="The joist's end brings {demand}; the plate bears {capacity} across its grain.",
        combination=load.label, spot="plate", steps=how + sheet.take(),
    )  # fmt: skip


def _notch(
    sheet: Worksheet, i: Inputs, reaction: Loads, edition: Edition, how: tuple[Step, ...]
) -> tuple[LimitState, ...]:
    limit = sheet.use(end_notch_limit_in, d_in=i.joist_depth_in)
    depth = LimitState(
        "notch-depth", "Cut at the joist's end", cite(end_notch_limit_in), i.notch_in, limit, "in",
        say="The joist is cut up {demand} at its end; a quarter of its depth, {capacity}, is the most.",
        spot="joist", steps=sheet.take(),
    )  # fmt: skip
    load = governing_allowable(edition, reaction)
    left = i.joist_depth_in - i.notch_in
    capacity = 0.0
    if left > 0:
        F_v = species(i.joist_species).F_v_psi * load.C_D
        capacity = sheet.use(notched_shear_lb, F_v_psi=F_v, b_in=i.joist_width_in, d_n_in=left, d_in=i.joist_depth_in)
    shear = LimitState(
        "notch-shear", "Shear at the cut end", cite(notched_shear_lb), load.demand, capacity, "lb",
        say="The joist's end brings {demand}; cut up, it carries {capacity} in shear.",
        combination=f"{load.label}, C_D {load.C_D:g}", spot="joist", steps=how + sheet.take(),
    )  # fmt: skip
    return depth, shear
