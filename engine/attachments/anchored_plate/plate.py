"""Lines about the plate on the wall: anchors within it and clear of its legs, bending for the anchors and under the toe."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot, inf, sqrt
from typing import NamedTuple

from engine.attachments.anchored_plate import steel
from engine.attachments.anchored_plate.demand import Effect, Shared, share
from engine.attachments.anchored_plate.geometry import Bracket
from engine.attachments.anchored_plate.inputs import Inputs
from engine.clauses.us.anchors_materials import head
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite

GEOMETRY, PRACTICE = Citation("geometry"), Citation("common practice")


class Case(NamedTuple):
    """One effect, how anchors and concrete share it, and the working of that."""

    effect: Effect
    shared: Shared
    steps: tuple[Step, ...]


def cases(
    sheet: Worksheet, i: Inputs, p: Bracket, effects: Sequence[Effect], how: tuple[Step, ...]
) -> tuple[Case, ...]:
    """Each effect shared out. Args: how: the steps that gave the loads."""
    return tuple(Case(e, share(sheet, i, p, e), how + sheet.take()) for e in effects)


def room(sheet: Worksheet, i: Inputs, p: Bracket, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Steel about the anchors, nuts clear of the legs and of the member."""
    return (_steel_beside(sheet, p, placed), _clear(p), *_nuts(i, p))


def bending(
    sheet: Worksheet, i: Inputs, p: Bracket, cases: Sequence[Case], used: Sequence[float]
) -> tuple[LimitState, ...]:
    """Steel at the anchors' holes, bending for the anchors. Args: cases: what may govern. used: by `used_by_a_pound`."""
    return _at_holes(sheet, i, p, cases), _for_anchors(sheet, i, p, cases, used)


def over_toe(sheet: Worksheet, i: Inputs, p: Bracket, pressing: Sequence[Case]) -> tuple[LimitState, ...]:
    """Bending over the pressed toe. Args: pressing: effects without the relief of a pull."""
    toe = [case for case in pressing if case.shared.p_toe > 0]
    return (_under_toe(sheet, i, p, toe),) if toe else ()


def _steel_beside(sheet: Worksheet, p: Bracket, placed: tuple[Step, ...]) -> LimitState:
    least = sheet.use(steel.least_steel_in, d_in=p.d_a)
    return LimitState(
        "plate-edges", "Anchors inside the plate", cite(steel.least_steel_in), least, min(p.side, p.above, p.below), "in",
        say="The outermost anchor has {capacity} of steel beside it; {demand} is needed.", spot="plate",
        steps=placed + sheet.take(),
    )  # fmt: skip


def _clear(p: Bracket) -> LimitState:
    """A nut must turn: from its centre to its corners nothing may stand."""
    nearest = min(hypot(x, y) for x, y in p.from_leg)
    return LimitState(
        "plate-clear", "Nuts clear of the legs", GEOMETRY, head("heavy hex", p.d_a).width_in / sqrt(3), nearest, "in",
        say="The nearest anchor stands {capacity} from a leg; its nut needs {demand} to its corners."
        if nearest > 0
        else "An anchor stands under a leg: its nut needs {demand} to its corners.",
        spot="plate",
    )  # fmt: skip


def _nuts(i: Inputs, p: Bracket) -> tuple[LimitState, ...]:
    """Nuts behind a member's end need room in front of the plate."""
    if p.member_z is None:
        return ()
    (left, right), (low, high) = p.member_z, p.member_y
    if not any(left < z < right and low < y < high for z, y in p.anchors):
        return ()
    need = p.x_front + head("heavy hex", p.d_a).thickness_in + p.d_a / 2
    return (
        LimitState(
            "nuts", "Nuts behind the member's end", PRACTICE, need, p.member_x[0], "in", advisory=True, spot="plate",
            say="The member's end stands {capacity} from the concrete; plate, nuts and thread behind it take about {demand}.",
        ),
    )  # fmt: skip


def _at_holes(sheet: Worksheet, i: Inputs, p: Bracket, cases: Sequence[Case]) -> LimitState:
    """The most sheared anchor bearing in the plate."""
    case = max(cases, key=lambda case: max(hypot(*v) for v in case.shared.V))
    hole, rows, columns = steel.hole_in(p.d_a), sorted(p.rows), p.columns
    clear = [
        min(p.side, p.above, p.below) - hole / 2,
        *(b - a - hole for at in (rows, columns) for a, b in pairwise(at)),
    ]
    capacity = 0.0
    if min(clear) > 0:
        capacity = sheet.use(
            steel.hole_bearing_lb, d_in=p.d_a, l_c_in=min(clear), t_in=p.thickness, F_u_psi=i.f_u_ksi * 1000
        )
    return LimitState(
        "plate-bearing", "Anchor bearing in the plate", cite(steel.hole_bearing_lb), max(hypot(*v) for v in case.shared.V),
        capacity, "lb", say="An anchor is sheared with {demand}; the plate takes {capacity} in bearing or tearing out.",
        combination=case.effect.label, spot="plate", steps=case.steps + sheet.take(),
    )  # fmt: skip


def _room(p: Bracket, number: int) -> tuple[float, float]:
    """On either side of an anchor, across the way its pull runs to the leg [in]."""
    row, column = divmod(number, len(p.columns))
    x, y = p.from_leg[number]

    def along(k: int, places: Sequence[float], first: float, last: float) -> tuple[float, float]:
        before = first if k == 0 else abs(places[k] - places[k - 1]) / 2
        return before, last if k == len(places) - 1 else abs(places[k + 1] - places[k]) / 2

    upright, level = along(row, p.rows, p.above, p.below), along(column, p.columns, p.side, p.side)
    if y == 0:
        return upright
    if x == 0:
        return level
    return min(upright), min(level)


def _pulled(sheet: Worksheet, i: Inputs, p: Bracket, number: int, T: float) -> tuple[float, float]:
    """Moment of one anchor's force in the plate and what the plate carries there [lb-in]."""
    x, y = p.from_leg[number]
    m = sheet.use(steel.to_leg_in, x_in=x, y_in=y)
    a_1, a_2 = _room(p, number)
    b = sheet.use(steel.bending_width_in, m_in=m, a_1_in=a_1, a_2_in=a_2)
    M = sheet.use(steel.anchor_moment_lb_in, T_lb=T, m_in=m)
    return M, sheet.use(steel.flat_bending_lb_in, F_y_psi=i.f_y_ksi * 1000, b_in=b, t_in=i.thickness_in)


def used_by_a_pound(i: Inputs, p: Bracket) -> tuple[float, ...]:
    """Of each anchor, how much of the plate's bending strength 1 lb of its force uses; 0 where there is none."""
    silent = Worksheet(recording=False)
    found = (_pulled(silent, i, p, k, 1.0) for k in range(len(p.anchors)))
    return tuple(M / capacity if capacity > 0 else 0.0 for M, capacity in found)


def _for_anchors(sheet: Worksheet, i: Inputs, p: Bracket, cases: Sequence[Case], used: Sequence[float]) -> LimitState:
    """At the legs, for the anchors' forces: pulls, and pushes where the plate stands over a gap."""
    case, k = max(
        ((case, k) for case in cases for k in range(len(p.anchors))),
        key=lambda found: abs(found[0].shared.N[found[1]]) * used[found[1]],
    )
    T = abs(case.shared.N[k])
    M, capacity = _pulled(sheet, i, p, k, T)
    m = hypot(*p.from_leg[k])
    return LimitState(
        "plate-bending", "Plate bending between anchors and legs", cite(steel.flat_bending_lb_in), M, capacity, "lb-in",
        holds=capacity > 0 or M == 0,
        say="An anchor's {T}, {m} from the leg, bends the plate with {demand}; {t} of steel carries {capacity}. "
        "A plate this stiff does not pry.",
        facts={"T": (T, "lb"), "m": (m, "in"), "t": (i.thickness_in, "in")},
        combination=case.effect.label, spot="plate", steps=case.steps + sheet.take(),
    )  # fmt: skip


def _strips(sheet: Worksheet, i: Inputs, p: Bracket, case: Case) -> tuple[float, str]:
    """The larger moment of a strip 1 in wide past the legs sideways, or past their ends, and where it is [lb-in]."""
    past = max(p.legs[0][0] + p.width / 2, p.width / 2 - p.legs[-1][1], 0.0)
    between = (p.legs[1][0] - p.legs[0][1]) / 2 if len(p.legs) == 2 else 0.0
    end, pressed = (p.height - p.leg_height) / 2, case.shared.pressed
    found = [(sheet.use(steel.side_moment_lb_in, p_psi=case.shared.p_toe, m_in=max(past, between)), "beside the legs")]
    if end > 0:
        M = (
            sheet.use(steel.end_moment_lb_in, p_psi=case.shared.p_toe, m_in=end, x_in=pressed)
            if pressed
            else sheet.use(steel.side_moment_lb_in, p_psi=case.shared.p_toe, m_in=end)
        )
        found.append((M, "past the legs' ends"))
    return max(found)


def _under_toe(sheet: Worksheet, i: Inputs, p: Bracket, cases: Sequence[Case]) -> LimitState:
    silent = Worksheet(recording=False)
    case = max(cases, key=lambda case: _strips(silent, i, p, case)[0])
    M, where = _strips(sheet, i, p, case)
    capacity = sheet.use(steel.flat_bending_lb_in, F_y_psi=i.f_y_ksi * 1000, b_in=1.0, t_in=i.thickness_in)
    return LimitState(
        "toe-bending", "Plate bending over its pressed toe", cite(steel.flat_bending_lb_in), M, capacity, "lb-in",
        say=f"Pressed with {{p}}, the plate {where} is bent by {{demand}} an inch; {{t}} of steel carries {{capacity}}.",
        facts={"p": (case.shared.p_toe, "psi"), "t": (i.thickness_in, "in")},
        combination=case.effect.label, spot="toe", steps=case.steps + sheet.take(),
    )  # fmt: skip


def heaviest(cases: Sequence[Case]) -> Case:
    """The case whose most pulled anchor pulls most; among equal ones the largest moment."""
    return max(cases, key=lambda case: (case.shared.most, abs(case.shared.M), -inf if case.effect.quakes else 0.0))
