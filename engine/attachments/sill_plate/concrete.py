"""Lines of chapter 17 about the bolts, and of the exception that may stand for some of them under earthquake."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from engine.attachments.sill_plate.bolts import excepted
from engine.attachments.sill_plate.demand import Acting, gravest
from engine.attachments.sill_plate.geometry import Sill
from engine.attachments.sill_plate.inputs import PLATES, QUAKE, Inputs
from engine.clauses.us import sill_rules as rules
from engine.clauses.us.anchors_line import Where
from engine.clauses.us.anchors_lines import (
    anchor_lines,
    geometry_lines,
    interaction_line,
    shear_lines,
    tension_lines,
)
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.anchors_seismic import Route, shear_route_line
from engine.clauses.us.irc_loads import load_per_bolt_lb
from engine.clauses.us.sill_lines import PlateBolts, in_concrete, net_pull_lb
from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

STEEL_SHEAR = "anchor-steel-shear"


class Place(NamedTuple):
    """One bolt of the row: the plate it holds, the next bolt on the right, or the end of the concrete there [in]."""

    holds_in: float
    next_in: float | None = None
    end_in: float | None = None


def concrete_end_in(i: Inputs) -> float | None:
    """From the end bolt to the nearer end of the concrete [in]; None where it goes on."""
    ends = [end for end in (i.left_in, i.right_in) if end is not None]
    return min(ends) + i.end_in if ends else None


def places(i: Inputs) -> tuple[Place, ...]:
    """A bolt among others, and one at the end of a piece: beside the next piece, or at the end of the concrete."""
    end, share = concrete_end_in(i), i.spacing_in / 2 + i.end_in
    last = Place(share, next_in=2 * i.end_in) if end is None else Place(share, end_in=end)
    return Place(i.spacing_in), last


def lines(
    sheet: Worksheet, i: Inputs, b: PlateBolts, edition: Edition, acts: tuple[Acting, ...]
) -> tuple[LimitState, ...]:
    """Of every mode the gravest, over combinations and places in the row. Args: acts: strength combinations."""
    return gravest(line for act in acts for place in places(i) for line in _at(sheet, i, b, edition, act, place))


def _at(
    sheet: Worksheet, i: Inputs, b: PlateBolts, edition: Edition, act: Acting, place: Place
) -> tuple[LimitState, ...]:
    where = Where("anchor", "", act.c.label, "anchor")
    pull = sheet.use(
        net_pull_lb, k_W=act.c.W, W_plf=act.plate.up.W, k_D=act.c.D, D_plf=act.plate.down.D, l_in=place.holds_in
    )
    along = sheet.use(load_per_bolt_lb, w_plf=act.along_plf, s_in=place.holds_in)
    across = sheet.use(load_per_bolt_lb, w_plf=act.across_plf, s_in=place.holds_in) * b.toward_near_face
    quake = act.c.E > 0

    def judge(group: AnchorGroup) -> tuple[LimitState, ...]:
        if quake and excepted(i):
            return tuple(_under_exception(sheet, group, pull, (along, across), where))
        found = anchor_lines(sheet, edition, group, (pull,), ((along, across),), where)
        return (*found, *_route(sheet, i, abs(along), where)) if quake else found

    found = in_concrete(b, judge, next_in=place.next_in, end_in=place.end_in)
    sheet.take()
    return found


def _under_exception(
    sheet: Worksheet, group: AnchorGroup, pull: float, push: tuple[float, float], where: Where
) -> Iterator[LimitState]:
    """Breakout and pryout of the part across the wall only; the steel carries both parts."""
    tension = tension_lines(sheet, group, (pull,), where)
    across = shear_lines(sheet, group, ((0.0, push[1]),), where)
    both = [line for line in shear_lines(sheet, group, (push,), where) if line.key == STEEL_SHEAR]
    shear = [*both, *(line for line in across if line.key != STEEL_SHEAR)]
    together = interaction_line(sheet, tension, shear, where)
    yield from (*tension, *shear, *((together,) if together else ()), *geometry_lines(sheet, group, where))


def _route(sheet: Worksheet, i: Inputs, along: float, where: Where) -> tuple[LimitState, ...]:
    """How earthquake shear is designed for (17.10.6), from category C."""
    if i.seismic not in QUAKE[1]:
        return ()
    route: Route = i.shear_route  # type: ignore[assignment]
    line = shear_route_line(sheet, along, along, route, where)
    return (line,) if line else ()


def exception(sheet: Worksheet, i: Inputs, p: Sill) -> tuple[LimitState, ...]:
    """The conditions of the sill plate exception, each as a line; none where it is not used."""
    if not excepted(i):
        return ()
    most, size = sheet.use(rules.sill_exception, D_in=p.D), PLATES[i.plate]
    source, steps, end = cite(rules.sill_exception), sheet.take(), concrete_end_in(i)
    plate = sheet.use(rules.exception_plate_ok, t_nom_in=size.t_nom_in, plies=size.plies)
    return (
        _covers(sheet, i),
        LimitState(
            "exception-bolt", "Exception: bolt", source, p.D, most.diameter_in, "in", spot="anchor", steps=steps,
            say="The bolts are {demand}; the sill plate exception holds up to {capacity}.",
        ),
        LimitState(
            "exception-embedment", "Exception: embedment", source, most.embedment_in, p.h_ef, "in", spot="anchor",
            steps=steps, say="The bolts go {capacity} into the concrete; the exception asks for {demand}.",
        ),
        LimitState(
            "exception-edge", "Exception: edge along the plate", source, most.edge_in, p.nearest_face, "in", spot="anchor",
            steps=steps, say="The bolts' centres are {capacity} from the nearer face of the core; the exception asks for {demand}.",
        ),
        LimitState(
            "exception-end", "Exception: end of the concrete", source, spot="anchor", steps=steps, **_end(most.end_in, end),
        ),
        LimitState(
            "exception-plate", "Exception: plate", cite(rules.exception_plate_ok), holds=plate, spot="plate",
            steps=sheet.take(), say="The plate is a single one of 2 or 3 in nominal."
            if plate
            else "Use one plate of 2 or 3 in nominal: the exception does not hold for two, one on the other.",
        ),
    )  # fmt: skip


def _end(need: float, end: float | None) -> dict[str, Any]:
    if end is None:
        return {"holds": True, "say": "The concrete goes on past the plate's ends."}
    say = "The end bolt is {capacity} from the end of the concrete; the exception asks for {demand}."
    return {"demand": need, "capacity": end, "unit": "in", "say": say}


def _covers(sheet: Worksheet, i: Inputs) -> LimitState:
    framed = sheet.use(
        rules.exception_covers, light_frame_wall=i.carries == "wall",
        foundation=i.foundation and i.stands_on == "top",
    )  # fmt: skip
    return LimitState(
        "exception-use", "Exception: where it holds", cite(rules.exception_covers), holds=framed, spot="plate",
        say="The plate carries a light-frame wall on a foundation wall, as the exception says."
        if framed
        else "The exception is written for light-frame walls on foundations.",
        refer="" if framed else "IBC 1905.1.8: its words do not plainly cover a floor, a roof or a ledge of an upper wall. "
        "Bring plate, bolts and earthquake shear to a licensed engineer to confirm.",
        steps=sheet.take(),
    )  # fmt: skip
