"""Lines about the bolts: the code's rules, their place across plate and core, their washers."""

from math import pi

from engine.attachments.sill_plate.geometry import Sill, foot_of
from engine.attachments.sill_plate.inputs import QUAKE, Inputs
from engine.clauses.us import irc_sills as sills
from engine.clauses.us import sill_lines, sill_rules
from engine.clauses.us.anchors_materials import steel
from engine.clauses.us.concrete_wall_steel import Exposure, clear_cover_in
from engine.clauses.us.irc import Category, Code
from engine.clauses.us.sill_lines import IBC_SILL, PlateBolts, Rule, Washer
from engine.clauses.us.timber_materials import species
from engine.result import LimitState
from engine.worksheet import Worksheet, cite


def category(i: Inputs) -> Category:
    """Seismic design category without the kind of building."""
    letter: Category = "C" if i.seismic == "C-town" else i.seismic  # type: ignore[assignment]
    return letter


def rule(i: Inputs) -> Rule:
    """What the rules for bolts turn on. Only the IRC tells townhouses apart."""
    code: Code = "IBC" if i.code == "IBC" else "IRC"
    town = i.seismic == "C-town" and code == "IRC"
    return Rule(code, category(i), i.stories, "townhouse" if town else "detached", i.braced_line)


def excepted(i: Inputs) -> bool:
    """Whether earthquake shear rests on the sill plate exception, which only exists from category C."""
    return i.exception and i.seismic in QUAKE[1]


def plate_bolts(i: Inputs, p: Sill) -> PlateBolts:
    """The bolts as the shared lines ask about them."""
    exposure: Exposure = "weather or ground" if i.exposure == "weather or ground" else "not exposed"
    return PlateBolts(
        D_in=p.D, steel=steel(i.steel), foot=foot_of(i), embedment_in=p.h_ef, spacing_in=i.spacing_in, end_in=i.end_in,
        piece_in=p.piece, across_in=i.across_in, b_in=p.width, t_in=p.thickness, wood=species(i.species), wet=i.wet,
        outer_in=p.x_bolt, room_in=p.t - p.x_bolt, f_c_psi=i.f_c_psi, layer_in=p.layer, exposure=exposure, torqued=i.torqued,
    )  # fmt: skip


def lines(sheet: Worksheet, i: Inputs, p: Sill, b: PlateBolts) -> tuple[LimitState, ...]:
    """Size to count, middle third, cover, both together, washers."""
    r = rule(i)
    return (
        *sill_lines.prescriptive(sheet, b, r),
        sill_lines.middle_third(sheet, b, "the plate's outer edge", r),
        sill_lines.cover(sheet, b),
        _room(sheet, i, p, b),
        *_washers(sheet, i, r),
    )


def _room(sheet: Worksheet, i: Inputs, p: Sill, b: PlateBolts) -> LimitState:
    """Whether any place satisfies plate and core at once; where none does, how far the plate must move."""
    cover = sheet.use(clear_cover_in, exposure=b.exposure, d_b_in=b.D_in)
    least = sheet.use(sill_rules.least_from_face_in, c_in=cover, w_in=2 * b.steel_half_in, excepted=excepted(i))
    core = sheet.use(sill_rules.core_window_in, t_in=p.t, m_in=least)
    low, high = p.third
    if core.low_in > core.high_in:
        say, facts, fits = (
            "No bolt clears both faces of this core: it must be {core} thick.",
            {"core": 2 * least},
            False,
        )
    else:
        shift = sheet.use(
            sill_rules.plate_shift_in, p_low_in=low, p_high_in=high, c_low_in=core.low_in, c_high_in=core.high_in
        )
        fits = abs(shift) <= 1e-9
        side = "the room" if shift > 0 else "the outer side"
        say = f"Move the plate {{move}} toward {side}: its middle third misses the part of the core that covers a bolt."
        facts = {"move": abs(shift)}
        if fits:
            say = "Bolts {from} to {to} from the plate's outer edge are in its middle third and covered by the core."
            facts = {"from": max(low, core.low_in) - p.x_0, "to": min(high, core.high_in) - p.x_0}
    return LimitState(
        "bolt-room", "Room for bolts in plate and core", cite(sill_rules.plate_shift_in), holds=fits, say=say,
        facts={name: (value, "in") for name, value in facts.items()}, spot="anchor", steps=sheet.take(),
    )  # fmt: skip


def washer(i: Inputs, p: Sill) -> Washer | None:
    """What presses on the wood; the slot of a plate washer presses nothing. None without one."""
    if i.washer == "cut":
        return sill_lines.cut_washer(p.D)
    if i.washer == "none":
        return None
    slot = 0.0
    if i.slotted:
        hole = p.D + sill_lines.HOLE_OVER_IN
        slot = max((p.D + i.slot_over_in) * i.slot_length_in - pi * hole**2 / 4, 0.0)
    return Washer("plate washer", i.washer_in**2 - slot, i.washer_in)


def _washers(sheet: Worksheet, i: Inputs, r: Rule) -> tuple[LimitState, ...]:
    by_ibc = r.code == "IBC"
    needed = sheet.use(
        sills.plate_washer_required, sdc=r.category, building=r.building, braced_line=by_ibc or r.braced_line
    )
    source = IBC_SILL if by_ibc else cite(sills.plate_washer_required if needed else sills.sill_bolt)
    holds = i.washer == "plate" or (i.washer == "cut" and not needed)
    if needed:
        say = (
            "Every bolt here has a plate washer."
            if holds
            else "Use plate washers on every bolt: this category asks for them."
        )
    else:
        say = "Each bolt has a washer under its nut." if holds else "Put a washer under each nut."
    kind = LimitState(
        "washer", "Washers", source, holds=holds, say=say, spot="anchor", steps=sheet.take()
    )  # fmt: skip
    return (kind, *_plate_washer(sheet, i)) if needed and i.washer == "plate" else (kind,)


def _plate_washer(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    least = sheet.use(sills.plate_washer)
    source, steps = cite(sills.plate_washer), sheet.take()
    size = LimitState(
        "washer-size", "Plate washer, side", source, least.width_in, i.washer_in, "in",
        say="The plate washers are {capacity} square; {demand} is the least.", spot="anchor", steps=steps,
    )  # fmt: skip
    thickness = LimitState(
        "washer-thickness", "Plate washer, thickness", source, least.thickness_in, i.washer_thickness_in, "in",
        say="The plate washers are {thick} in thick; {least} in is the least.", spot="anchor", steps=steps,
        facts={"thick": (i.washer_thickness_in, ""), "least": (least.thickness_in, "")},
    )  # fmt: skip
    if not i.slotted:
        return size, thickness
    fits = i.slot_over_in <= least.slot_over_bolt_in + 1e-9 and i.slot_length_in <= least.slot_length_in + 1e-9
    slot = LimitState(
        "washer-slot", "Plate washer, slot", source, holds=fits and i.cut_on_slot,
        say="The slot is {over} wider than the bolt and {long} long; {most_over} and {most_long} are the most, with a cut "
        f"washer on top{'.' if i.cut_on_slot else ', which is missing.'}",
        facts={
            "over": (i.slot_over_in, "in"),
            "long": (i.slot_length_in, "in"),
            "most_over": (least.slot_over_bolt_in, "in"),
            "most_long": (least.slot_length_in, "in"),
        },
        spot="anchor", steps=steps,
    )  # fmt: skip
    return size, thickness, slot
