"""Lines about the pocket in its wall: room for it, the bars it cuts, where it stands, how its seat is made, what holds the beam."""

from engine.attachments.beam_pocket.geometry import Pocket
from engine.attachments.beam_pocket.inputs import Inputs
from engine.clauses.us.irc_scope import lintel_prescriptive
from engine.clauses.us.irc_walls import opening_in_segment_allowed
from engine.editions import Citation
from engine.result import LimitState
from engine.tables import load as table
from engine.worksheet import Step, Worksheet, cite

PRACTICE = Citation("common practice")
GEOMETRY = Citation("geometry")
SCHEDULE = Citation("the wall's own bar schedule")
DAM_GAUGE = "20"  # common practice: the dam that closes a pocket is at least 20 gauge, by base metal thickness


def lines(sheet: Worksheet, i: Inputs, p: Pocket, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Core behind, bars, opening, segment, seat and hold-down. Args: placed: the steps that placed everything."""
    states = [_behind(i, p, placed), _spacing(i), _bars(i), *_opening(sheet, i), *_segment(sheet, i), *_seat(i)]
    if i.uplift_lb or i.lateral_lb:
        states.append(_held(i))
    return tuple(states)


def _behind(i: Inputs, p: Pocket, placed: tuple[Step, ...]) -> LimitState:
    through = p.behind <= 0
    say = "The pocket leaves {capacity} of core behind it; {demand} holds cover, bar and cover."
    return LimitState(
        "core-behind", "Core left behind the pocket", GEOMETRY, i.behind_min_in, p.behind, "in",
        say="The pocket runs through the core." if through else say,
        refer="A pocket through the core is outside what is checked here: bring the wall, the pocket and the reaction to a "
        "licensed engineer." if through else "",
        spot="pocket", steps=placed,
    )  # fmt: skip


def _spacing(i: Inputs) -> LimitState:
    return LimitState(
        "pockets-apart", "Clear of the next pocket", GEOMETRY, i.pocket_width_in, i.next_pocket_in, "in",
        say="The next pocket is {capacity} away, centre to centre; this one is {demand} wide.", spot="wall",
    )  # fmt: skip


def _bars(i: Inputs) -> LimitState:
    return LimitState(
        "bars-cut", "Bars the pocket cuts, replaced beside it", SCHEDULE, float(i.bars_cut), float(i.bars_added), "",
        holds=i.bars_added >= i.bars_cut,
        say="The pocket cuts {demand} vertical bars and {capacity} stand beside it in their place.", spot="bars",
    )  # fmt: skip


def _opening(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    if not i.over_opening:
        return ()
    sheet.use(lintel_prescriptive, concentrated=True)
    designed = i.lintel_designed
    return (
        LimitState(
            "over-opening", "Over an opening", cite(lintel_prescriptive), holds=designed, spot="wall",
            say="The pocket stands over an opening; its lintel is designed for the beam."
            if designed
            else "The pocket stands over an opening.",
            refer="" if designed else "A lintel that carries a beam is designed to ACI 318: bring the opening, the lintel and "
            "the reaction to a licensed engineer.",
            steps=sheet.take(),
        ),
    )  # fmt: skip


def _segment(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    if not i.shear_segment:
        return ()
    edge = min(i.left_in, i.right_in)
    fits = sheet.use(opening_in_segment_allowed, a_in=i.pocket_width_in, b_in=i.pocket_height_in, edge_in=edge)
    small = "The pocket is small enough for a solid segment."
    say = small if fits else "The pocket is too large for a solid segment: count this one as open."
    return (
        LimitState(
            "segment", "In a solid wall segment", cite(opening_in_segment_allowed), holds=fits, say=say, advisory=True,
            spot="wall", steps=sheet.take(),
        ),
    )  # fmt: skip


def _dam_least_in() -> float:
    return next(float(r["uncoated_in"]) for r in table("sheet_steel").rows if r["gauge"] == DAM_GAUGE)


def _seat(i: Inputs) -> tuple[LimitState, ...]:
    level = LimitState(
        "seat-level", "Seat level", PRACTICE, holds=i.screed_access, advisory=True, spot="bearing",
        say="Strike the seat level, +0 and -1/4 in; list the shims that bring the beam up."
        if i.screed_access
        else "The seat can't be reached to strike it level: plan how, or list the shims.",
    )  # fmt: skip
    if i.dam_thickness_in is None:
        return (level,)
    dam = LimitState(
        "dam", "Pocket's dam", PRACTICE, _dam_least_in(), i.dam_thickness_in, "in", advisory=True, spot="pocket",
        say="The dam's base metal is {thick} in; 20 gauge is {least} in.",
        facts={"thick": (i.dam_thickness_in, ""), "least": (_dam_least_in(), "")},
    )  # fmt: skip
    return level, dam


def _held(i: Inputs) -> LimitState:
    holder = i.held_by.strip().replace("{", "(").replace("}", ")")
    return LimitState(
        "held", "Held down and sideways", GEOMETRY, holds=bool(holder), spot="beam",
        say=f"Uplift {{up}} and lateral {{side}} are taken by: {holder}. Its strength is not judged here."
        if holder
        else "Name what holds the beam against {up} of uplift and {side} sideways.",
        facts={"up": (i.uplift_lb, "lb"), "side": (i.lateral_lb, "lb")},
    )  # fmt: skip
