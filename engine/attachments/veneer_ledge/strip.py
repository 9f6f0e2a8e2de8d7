"""The wall below and above the ledge: a foot of it under its own loads and its share of the ledge's moment."""

from dataclasses import replace

from engine.attachments.veneer_ledge.geometry import Ledge
from engine.attachments.veneer_ledge.inputs import Inputs
from engine.attachments.veneer_ledge.load import FOOT_IN, Load
from engine.clauses.us.bars import bar, bars_on_width_in2
from engine.clauses.us.concrete_strip_check import Action, WallStrip
from engine.clauses.us.concrete_walls import (
    ledge_moment_lb_in,
    moment_above_ledge_lb_in,
    moment_below_ledge_lb_in,
)
from engine.clauses.us.eccentric_strip import judged_strip, worst_action
from engine.clauses.us.loads import Loads, strength_combinations
from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import Worksheet, cite


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
    wall, shown, where = _strip(i), f"wall-{side}", f"{side} the ledge"
    worst = worst_action(wall, _actions(i, edition, M_D, P_D))
    if worst is None:
        sheet.take()
        return ()
    found = judged_strip(sheet, wall, worst, key=shown, spot=shown, where=where)
    return tuple(s if where in s.title else replace(s, title=f"{s.title}, {where}") for s in found)


def _actions(i: Inputs, edition: Edition, M_D: float, P_D: float) -> list[Action]:
    """Each combination once; the moment vanishes at the floor, so the smaller end moment is nothing."""
    above = Loads(D=i.wall_dead_plf + P_D, L=i.wall_live_plf, S=i.wall_snow_plf)
    found: dict[tuple[float, float], Action] = {}
    for c in strength_combinations(edition):
        P, M = c.total(above), c.D * M_D
        found.setdefault((round(P, 6), round(M, 6)), Action(P, M, combination=c.label))
    return list(found.values())


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
