"""Lines about the joist: wood thick enough for the screws, an I-joist's filler, its own capacity, shear at the screws."""

from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.clauses.us.irc_bearing import Restraint, rotation_held
from engine.clauses.us.loads import Loads, governing_allowable
from engine.clauses.us.timber_factors import C_M_stress, adjusted_stress_psi
from engine.clauses.us.timber_materials import species
from engine.clauses.us.timber_members import shear_at_connection_lb
from engine.editions import Citation, Edition
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

DRAWING = Citation("member drawing")
GEOMETRY = Citation("geometry")
HELD: dict[str, Restraint] = {
    "blocking": "full-depth blocking",
    "rim": "full-depth rim",
    "other": "other approved",
    "none": "none",
}
FILLER_OPEN_IN = 0.25  # common practice: a filler that leaves no more open bears over the whole web


def lines(sheet: Worksheet, i: Inputs, p: Plate, reaction: Loads, edition: Edition) -> tuple[LimitState, ...]:
    """Thickness, filler, the member's own capacity, shear at the screws, restraint."""
    states = [_thickness(p)]
    if i.joist == "i_joist":
        states += _filler(i)
    if i.joist == "sawn":
        states.append(_shear(sheet, i, p, reaction, edition))
    else:
        states.append(_member(i, reaction, edition))
    states.append(_rotation(sheet, i))
    return tuple(states)


def _thickness(p: Plate) -> LimitState:
    return LimitState(
        "wood", "Wood thick enough for the screws", GEOMETRY, max(p.reach, 0.0), p.wood, "in",
        say="The screws reach {demand} past the part; the wood they bite is {capacity} thick.", spot="joist",
    )  # fmt: skip


def _filler(i: Inputs) -> list[LimitState]:
    none = i.filler == "none"
    filled = LimitState(
        "filler", "Filler at the web", DRAWING, holds=not none, spot="joist",
        say="Screws bite a bare web: fill it to full bearing before the part is screwed on."
        if none
        else "The web is filled where the screws bite.",
    )  # fmt: skip
    if none:
        return [filled]
    height = LimitState(
        "filler-height", "Filler over the web's height", Citation("common practice"), i.filler_gap_in, FILLER_OPEN_IN, "in",
        advisory=True, say="The filler leaves {demand} of the web open; {capacity} is the usual most.", spot="joist",
    )  # fmt: skip
    return [filled, height]


def _member(i: Inputs, reaction: Loads, edition: Edition) -> LimitState:
    if i.member_capacity_lb is None:
        return LimitState(
            "member", "End reaction the joist allows", DRAWING, holds=False, spot="joist",
            say="Enter the end reaction that the member drawing allows at this support; it has no other source.",
        )  # fmt: skip
    load = governing_allowable(edition, reaction, duration=False)
    return LimitState(
        "member", "End reaction the joist allows", DRAWING, load.demand, i.member_capacity_lb, "lb",
        say="The joist's end brings {demand}; its drawing allows {capacity}.", combination=load.label, spot="joist",
    )  # fmt: skip


def _shear(sheet: Worksheet, i: Inputs, p: Plate, reaction: Loads, edition: Edition) -> LimitState:
    """The screws push the joist up, so its top edge is loaded; depth counts from there to the lowest row."""
    load = governing_allowable(edition, reaction)
    d_e = min(p.depth - p.bottom, p.depth)
    wet = sheet.use(C_M_stress, stress="F_v", material="sawn", wet=i.moisture == "wet")
    F_v = sheet.use(adjusted_stress_psi, F_psi=species(i.species).F_v_psi, C_D=load.C_D, C_M=wet, C_t=1.0, C_i=1.0)
    capacity = sheet.use(shear_at_connection_lb, F_v_psi=F_v, b_in=i.wood_in, d_e_in=d_e, d_in=p.depth, a_end_in=p.end)
    return LimitState(
        "joist-shear", "Joist's shear at the screws", cite(shear_at_connection_lb), load.demand, capacity, "lb", advisory=True,
        say="The joist's end brings {demand}; above its lowest screws it carries {capacity}. "
        "The rule names bolts and lag screws; it is shown here for wood screws too.",
        combination=f"{load.label}, C_D {load.C_D:g}", spot="joist", steps=sheet.take(),
    )  # fmt: skip


def _rotation(sheet: Worksheet, i: Inputs) -> LimitState:
    held = sheet.use(rotation_held, restraint=HELD[i.end_held], sdc=i.seismic.split("-")[0])
    return LimitState(
        "rotation", "Ends held against rotation", cite(rotation_held), holds=held, spot="joist",
        say="The joist ends are held against rotation." if held else "Say what holds the joist ends against rotation.",
        steps=sheet.take(),
    )  # fmt: skip
