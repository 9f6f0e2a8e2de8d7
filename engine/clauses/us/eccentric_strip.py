"""A strip of wall under what stands above it and one load beside its middle, in the combination that asks most.

ACI 318-19 chapters 11, 14 and 22 by `concrete_strip_check`; combinations by `loads`. Dead load alone above, with live load on the
eccentric side, is a pattern of its own: it moves the resultant farthest from the middle.
"""

from engine.clauses.us.concrete_strip_check import Action, WallStrip, judge_wall
from engine.clauses.us.concrete_walls import resultant_eccentricity_in
from engine.clauses.us.loads import Loads, strength_combinations
from engine.editions import Edition
from engine.errors import OutOfScope
from engine.result import LimitState, Verdict
from engine.worksheet import Worksheet, cite


def eccentric_strip(
    sheet: Worksheet, wall: WallStrip, edition: Edition, above: Loads, e_above_in: float, load: Loads, e_load_in: float
) -> tuple[LimitState, ...]:
    """Lines of the strip.

    Args: wall: the strip. above, load: effects on the whole strip by type [lb]. e_above_in, e_load_in: from the middle of the wall,
    one sign toward each face [in]. Returns: () where nothing loads it; a referring line where the clauses end.
    """
    worst, below, most = None, 0.0, -1.0
    silent = Worksheet(recording=False)
    for action, share in _actions(edition, above, e_above_in, load, e_load_in):
        ratio = _ratio(silent, wall, action)
        if ratio > most:
            worst, below, most = action, share, ratio
    if worst is None:
        return ()
    sheet.use(resultant_eccentricity_in, P_lb=(worst.P_u_lb - below, below), e_in=(e_above_in, e_load_in))
    try:
        return judge_wall(sheet, wall, worst, key="wall", spot="wall")
    except OutOfScope as limit:
        say = "The wall below is outside what is checked here."
        refer = f"{limit.rule}: {limit.why}"
        return (
            LimitState("wall-strip", "Wall below", cite(resultant_eccentricity_in), say=say, refer=refer, spot="wall"),
        )


def _actions(
    edition: Edition, above: Loads, e_above_in: float, load: Loads, e_load_in: float
) -> list[tuple[Action, float]]:
    """Each different action with the part of it that is the eccentric load."""
    found: dict[tuple[float, float], tuple[Action, float]] = {}
    for combination in strength_combinations(edition):
        beside = combination.total(load)
        for upper in (combination.total(above), combination.D * above.D):
            P = upper + beside
            M = upper * e_above_in + beside * e_load_in
            if P > 0:
                action = Action(P, M, combination=combination.label)
                found.setdefault((round(P, 6), round(M, 6)), (action, beside))
    return list(found.values())


def _ratio(sheet: Worksheet, wall: WallStrip, action: Action) -> float:
    try:
        states = judge_wall(sheet, wall, action)
    except OutOfScope:
        return float("inf")
    judged = [s for s in states if s.ratio is not None and s.verdict is not Verdict.UNCHECKED]
    # what does not depend on the load, a thickness or a magnifier of 1.0, must not hide which action asks most
    by_load = [s.ratio or 0.0 for s in judged if s.unit != "in" and not (s.unit == "" and s.demand == 1.0)]
    return max(by_load, default=0.0)
