"""A strip of wall in the combination that asks most, and a strip under what stands above it with one load beside its middle.

ACI 318-19 chapters 11, 14 and 22 by `concrete_strip_check`; combinations by `loads`. Dead load alone above, with live load on the
eccentric side, is a pattern of its own, and so is the other way about: what stands above a step leans the one way, joists on the
step the other, and the resultant is farthest from the middle where only one of the two has its live load.
"""

from collections.abc import Iterable
from dataclasses import replace

from engine.clauses.us.concrete_plain import plain_axial_lb
from engine.clauses.us.concrete_strip_check import Action, WallStrip, judge_wall
from engine.clauses.us.concrete_walls import resultant_eccentricity_in
from engine.clauses.us.loads import Loads, strength_combinations
from engine.editions import Edition
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState, Verdict
from engine.worksheet import Worksheet, cite

PLAIN_SLENDERNESS = 32  # ACI 318-19 14.5.3.1: a plain wall's strength ends where its height is 32 times its thickness
SILENT = Worksheet(recording=False)


def worst_action(wall: WallStrip, actions: Iterable[Action]) -> Action | None:
    """The action with the largest ratio that the load decides; None where there is no action."""
    return max(actions, key=lambda action: _asks(wall, action), default=None)


def _asks(wall: WallStrip, action: Action) -> float:
    if _plain_too_high(wall):
        return action.P_u_lb
    try:
        states = _judge(SILENT, wall, action)
    except OutOfScope:
        return float("inf")
    judged = [s for s in states if s.ratio is not None and s.verdict is not Verdict.UNCHECKED]
    # what does not depend on the load, a thickness or a magnifier of 1.0, must not hide which action asks most
    by_load = [s.ratio or 0.0 for s in judged if s.unit != "in" and not (s.unit == "" and s.demand == 1.0)]
    return max(by_load, default=0.0)


def _judge(
    sheet: Worksheet, wall: WallStrip, action: Action, key: str = "wall", spot: str = "wall"
) -> tuple[LimitState, ...]:
    if action.sustained is not None:
        wall = replace(wall, beta_dns=action.sustained)
    try:
        return judge_wall(sheet, wall, action, key=key, spot=spot)
    except BadInput as clash:  # the strip knows its bars as areas; what is typed is their spacing
        raise BadInput("vertical_spacing_in" if clash.field == "bars" else clash.field, clash.message) from None


def _plain_too_high(wall: WallStrip) -> bool:
    return not wall.bars and wall.l_c_in >= PLAIN_SLENDERNESS * wall.h_in


def judged_strip(
    sheet: Worksheet, wall: WallStrip, action: Action, *, key: str = "wall", spot: str = "wall", where: str = "below"
) -> tuple[LimitState, ...]:
    """The strip's lines under one action; a referring line where the clauses end.

    Args: where: which wall, for titles ("below", "above the ledge"). Raises: BadInput naming the input people type.
    """
    if _plain_too_high(wall):
        return (_too_high(sheet, wall, key, spot, where),)
    try:
        return _judge(sheet, wall, action, key, spot)
    except OutOfScope as limit:
        say = f"The wall {where} is outside what is checked here."
        refer = f"{limit.rule}: {limit.why}"
        source = cite(resultant_eccentricity_in)
        title = f"Wall {where}"
        return (LimitState(f"{key}-strip", title, source, say=say, refer=refer, spot=spot, steps=sheet.take()),)


def _too_high(sheet: Worksheet, wall: WallStrip, key: str, spot: str, where: str) -> LimitState:
    return LimitState(
        f"{key}-plain-height",
        f"Height of a plain wall, {where}",
        cite(plain_axial_lb),
        wall.l_c_in / 12,
        PLAIN_SLENDERNESS * wall.h_in / 12,
        "ft",
        holds=False,
        say="The wall is {demand} between floors; without bars it carries nothing from {capacity} on.",
        spot=spot,
        steps=sheet.take(),
    )


def eccentric_strip(
    sheet: Worksheet, wall: WallStrip, edition: Edition, above: Loads, e_above_in: float, load: Loads, e_load_in: float
) -> tuple[LimitState, ...]:
    """Lines of the strip.

    Args: wall: the strip. above, load: effects on the whole strip by type [lb]. e_above_in, e_load_in: from the middle of the wall,
    one sign toward each face [in]. Returns: () where nothing loads it.
    """
    shares = _actions(edition, above, e_above_in, load, e_load_in)
    worst = worst_action(wall, shares)
    if worst is None:
        return ()
    below = shares[worst]
    sheet.use(resultant_eccentricity_in, P_lb=(worst.P_u_lb - below, below), e_in=(e_above_in, e_load_in))
    return judged_strip(sheet, wall, worst)


def _actions(edition: Edition, above: Loads, e_above_in: float, load: Loads, e_load_in: float) -> dict[Action, float]:
    """Each different action with the part of it that is the eccentric load."""
    found: dict[tuple[float, float], tuple[Action, float]] = {}
    for combination in strength_combinations(edition):
        dead = combination.D * (above.D + load.D)
        both = combination.total(above), combination.total(load)
        for upper, beside in (both, (combination.D * above.D, both[1]), (both[0], combination.D * load.D)):
            P = upper + beside
            if P <= 0:
                continue
            M = upper * e_above_in + beside * e_load_in
            action = Action(P, M, combination=combination.label, sustained=min(dead / P, 1.0))
            found.setdefault((round(P, 6), round(M, 6)), (action, beside))
    return dict(found.values())
