"""The wall below the ledge: its own strip under the wall above and the joists, one foot long."""

from engine.attachments.ledge_seat.geometry import Seat
from engine.attachments.ledge_seat.inputs import Inputs
from engine.clauses.us.bars import bar, bars_on_width_in2
from engine.clauses.us.concrete_lip import triangle_centroid_in
from engine.clauses.us.concrete_strip_check import Action, WallStrip, judge_wall
from engine.clauses.us.concrete_walls import offset_from_middle_in, resultant_eccentricity_in
from engine.clauses.us.loads import Loads, strength_combinations
from engine.editions import Edition
from engine.errors import OutOfScope
from engine.result import LimitState, Verdict
from engine.worksheet import Worksheet, cite

FOOT_IN = 12.0


def lines(sheet: Worksheet, i: Inputs, seat: Seat, reaction: Loads, edition: Edition) -> tuple[LimitState, ...]:
    """The strip in the combination that asks most. Args: reaction: of one joist [lb]."""
    if seat.bearing <= 0:
        return ()
    above = Loads(D=i.wall_dead_plf, L=i.wall_live_plf, S=i.wall_snow_plf)
    joists = reaction.times(FOOT_IN / i.joist_spacing_in)
    e_above = seat.x_U + seat.t_U / 2 - seat.t_L / 2
    x_R = seat.bears_from + triangle_centroid_in(seat.bearing)
    e_joists = offset_from_middle_in(x_R, seat.t_L)
    wall = _strip(i)
    silent = Worksheet(recording=False)
    worst, most = None, -1.0
    for action in _actions(edition, above, joists, e_above, e_joists):
        ratio = _ratio(silent, wall, action)
        if ratio > most:
            worst, most = action, ratio
    if worst is None:
        return ()
    sheet.use(triangle_centroid_in, L_b_in=seat.bearing)
    sheet.use(offset_from_middle_in, x_in=x_R, t_in=seat.t_L)
    below = next(c for c in strength_combinations(edition) if c.label == worst.combination).total(joists)
    sheet.use(resultant_eccentricity_in, P_lb=(worst.P_u_lb - below, below), e_in=(e_above, e_joists))
    try:
        return judge_wall(sheet, wall, worst, key="wall", spot="wall")
    except OutOfScope as limit:
        return (_outside(limit),)


def _strip(i: Inputs) -> WallStrip:
    bars: tuple[tuple[float, float], ...] = ()
    if i.curtains != "none":
        number = int(i.vertical_bar)
        A_s = bars_on_width_in2(bar(number).area_in2, i.vertical_spacing_in, FOOT_IN)
        edge = i.cover_in + bar(number).diameter_in / 2
        bars = ((A_s, i.lower_core_in / 2),) if i.curtains == "centre" else ((A_s, edge), (A_s, i.lower_core_in - edge))
    return WallStrip(
        b_in=FOOT_IN,
        h_in=i.lower_core_in,
        f_c_psi=i.f_c_psi,
        f_y_psi=i.f_y_ksi * 1000,
        l_c_in=i.storey_height_ft * 12,
        bars=bars,
        foundation=i.foundation,
    )


def _actions(edition: Edition, above: Loads, joists: Loads, e_above: float, e_joists: float) -> list[Action]:
    """One action for each combination whose loads are present; dead load alone above, with live load on the joists, is a
    pattern of its own."""
    found: dict[tuple[float, float], Action] = {}
    for combination in strength_combinations(edition):
        for upper in (above, Loads(D=above.D)):
            P = combination.total(upper) + combination.total(joists)
            M = combination.total(upper) * e_above + combination.total(joists) * e_joists
            if P > 0:
                found.setdefault((round(P, 6), round(M, 6)), Action(P, M, combination=combination.label))
    return list(found.values())


def _ratio(sheet: Worksheet, wall: WallStrip, action: Action) -> float:
    try:
        states = judge_wall(sheet, wall, action)
    except OutOfScope:
        return float("inf")
    judged = [s.ratio for s in states if s.ratio is not None and s.verdict is not Verdict.UNCHECKED]
    return max(judged, default=0.0)


def _outside(limit: OutOfScope) -> LimitState:
    return LimitState(
        "wall-strip", "Wall below", cite(resultant_eccentricity_in), refer=f"{limit.rule}: {limit.why}", spot="wall",
        say="The wall below is outside what is checked here.",
    )  # fmt: skip
