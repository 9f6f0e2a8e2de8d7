"""The wall below and above the ledge: a foot of it under its own loads and its share of the ledge's moment."""

from dataclasses import replace

from engine.attachments.veneer_ledge.geometry import Ledge
from engine.attachments.veneer_ledge.inputs import Inputs
from engine.attachments.veneer_ledge.load import FOOT_IN, Load
from engine.clauses.us.bars import bar, bars_on_width_in2
from engine.clauses.us.concrete_plain import plain_axial_lb
from engine.clauses.us.concrete_strip_check import Action, WallStrip, judge_wall
from engine.clauses.us.concrete_walls import (
    ledge_moment_lb_in,
    moment_above_ledge_lb_in,
    moment_below_ledge_lb_in,
)
from engine.clauses.us.loads import Loads, strength_combinations
from engine.editions import Edition
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

PLAIN_SLENDERNESS = (
    32  # ACI 318-19 14.5.3.1: the strength of a plain wall ends where its height is 32 times its thickness
)


def lines(sheet: Worksheet, i: Inputs, g: Ledge, load: Load, edition: Edition) -> tuple[LimitState, ...]:
    """Below the ledge the outer face is compressed; above it the sense turns. Wall pinned at the floors below and above."""
    M_0 = sheet.use(ledge_moment_lb_in, P_lb=load.veneer_plf, e_in=g.a_v + g.t / 2)
    M_0 += sheet.use(ledge_moment_lb_in, P_lb=load.own_plf, e_in=load.x_W_in + g.t / 2)
    if i.free_top:
        return (_free(sheet, M_0),)
    a, L = i.ledge_height_ft, i.storey_height_ft
    below = sheet.use(moment_below_ledge_lb_in, M_0_lb_in=M_0, a_ft=a, L_ft=L)
    states = _judged(sheet, i, edition, "below", below, load.veneer_plf + load.own_plf)
    above = sheet.use(moment_above_ledge_lb_in, M_0_lb_in=M_0, a_ft=a, L_ft=L)
    return states + _judged(sheet, i, edition, "above", above, 0.0)


def _free(sheet: Worksheet, M_0: float) -> LimitState:
    return LimitState(
        "wall-below", "Wall below the ledge", cite(ledge_moment_lb_in), spot="wall-below", steps=sheet.take(),
        say="The ledge brings {moment} to the middle of the core, and all of it goes down.",
        facts={"moment": (M_0, "lb-in/ft")},
        refer="ACI 318 6.6.4.6: no floor holds the wall above the ledge, so it stands by its foot: bring the moment, the wall "
        "and its footing to a licensed engineer.",
    )  # fmt: skip


def _judged(sheet: Worksheet, i: Inputs, edition: Edition, side: str, M_D: float, P_D: float) -> tuple[LimitState, ...]:
    """The strip on one side of the ledge in the combination that asks most.

    Args: M_D: unfactored moment, dead [lb-in]. P_D: unfactored veneer and ledge on it [lb]. Empty where no moment goes there.
    """
    if not M_D:
        sheet.take()
        return ()
    wall, shown = _strip(i), f"wall-{side}"
    if not wall.bars and wall.l_c_in >= PLAIN_SLENDERNESS * wall.h_in:
        return (_too_slender(sheet, wall, side),)
    try:
        worst = max(_actions(i, edition, M_D, P_D), key=lambda action: _asks(wall, action))
        found = judge_wall(sheet, wall, worst, key=shown, spot=shown)
    except BadInput as clash:  # the strip knows its bars as areas; what was typed is their spacing
        raise BadInput("vertical_spacing_in" if clash.field == "bars" else clash.field, clash.message) from None
    except OutOfScope as limit:
        say = f"The wall {side} the ledge is outside what is checked here."
        refer = f"{limit.rule}: {limit.why}"
        source = cite(moment_below_ledge_lb_in)
        return (
            LimitState(shown, f"Wall {side} the ledge", source, say=say, refer=refer, spot=shown, steps=sheet.take()),
        )
    return tuple(replace(s, title=f"{s.title}, {side} the ledge") for s in found)


def _too_slender(sheet: Worksheet, wall: WallStrip, side: str) -> LimitState:
    return LimitState(
        f"wall-{side}-plain-height", f"Height of a plain wall, {side} the ledge", cite(plain_axial_lb), wall.l_c_in / 12,
        PLAIN_SLENDERNESS * wall.h_in / 12, "ft", spot=f"wall-{side}", steps=sheet.take(),
        say="The wall is {demand} between floors; without bars it carries nothing from {capacity} on.", holds=False,
    )  # fmt: skip


def _actions(i: Inputs, edition: Edition, M_D: float, P_D: float) -> list[Action]:
    """Each combination once; the moment vanishes at the floor, so the smaller end moment is nothing."""
    above = Loads(D=i.wall_dead_plf + P_D, L=i.wall_live_plf, S=i.wall_snow_plf)
    found: dict[tuple[float, float], Action] = {}
    for c in strength_combinations(edition):
        P, M = c.total(above), c.D * M_D
        found.setdefault((round(P, 6), round(M, 6)), Action(P, M, combination=c.label))
    return list(found.values())


def _asks(wall: WallStrip, action: Action) -> float:
    """Largest ratio that the load decides; a thickness or a magnifier of 1.0 would hide which action asks most."""
    try:
        states = judge_wall(Worksheet(recording=False), wall, action)
    except OutOfScope:
        return float("inf")
    ratios = (s.ratio for s in states if s.unit != "in" and not (s.unit == "" and s.demand == 1.0) and not s.unchecked)
    return max((ratio for ratio in ratios if ratio is not None), default=0.0)


def _strip(i: Inputs) -> WallStrip:
    bars: tuple[tuple[float, float], ...] = ()
    if i.curtains != "none":
        one = bar(i.vertical_bar)
        A_s = bars_on_width_in2(one.A_b_in2, i.vertical_spacing_in, FOOT_IN)
        edge = i.cover_in + one.d_b_in / 2
        bars = ((A_s, i.core_in / 2),) if i.curtains == "centre" else ((A_s, edge), (A_s, i.core_in - edge))
    return WallStrip(
        b_in=FOOT_IN,
        h_in=i.core_in,
        f_c_psi=i.f_c_psi,
        f_y_psi=i.f_y_ksi * 1000,
        l_c_in=i.storey_height_ft * 12,
        bars=bars,
        beta_dns=1.0,  # veneer, ledge and wall weigh on it for good; a live load beside them is taken so too
        foundation=i.foundation,
    )
