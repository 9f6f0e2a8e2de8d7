"""Where things are on a veneer ledge. x runs outward from the outer face of the core, y down from the ledge's top [in]."""

from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt
from typing import Any

from engine.attachments.veneer_ledge.inputs import BENT_DOWN, Inputs
from engine.attachments.veneer_ledge.shape import (
    bearing_edge_in,
    hook_room_in,
    stirrup_place_spacing_in,
    tie_reach_in,
    tip_bends_in,
    tip_leg_in,
    wythe_back_in,
)
from engine.clauses.us.bars import bar, main_bend_in, main_return_tail_in, main_tail_in, stirrup_bend_in
from engine.clauses.us.ledge_geometry import depth_at_in, depth_to_bars_in, shear_span_in, straight_end_from_lip_in
from engine.errors import BadInput
from engine.units import show
from engine.worksheet import Step, Worksheet


@dataclass(frozen=True, slots=True)
class Ledge:
    """The ledge, its bars and the wythe on it [in].

    t: core; f_out, f_in: foam. h, h_lip: depth at the core and at the lip. p: projection. x_back, x_cg, x_out: inner face, middle
    and outer face of the wythe. x_edge: outer edge of the bearing. h_edge: depth there. a_v: shear span. d: depth to the stirrup's
    top leg. d_b: stirrup. bend: inside diameter of its bend at the lip. x_straight: where its top leg ends being straight.
    x_tip: outside of the stirrup at the lip. y_top, y_corner: outside of its top leg, and of its lower corner at the lip. leg,
    leg_needed: height there is and height the bends need. hook_back: outside of the hook from the core's outer face, into the
    wall. hook_bend, hook_tail: of the hook, 0 for a closed loop. tip_bar: diameter of the bar along the lip, 0 without one, its
    centre at x_bar, y_bar. holder, x_holder, y_holder: the same of the bar in the hook's bend. ties: y of each layer of closed
    ties; tie_d: their size; tie_reach: least x they reach. spacing: of stirrups and ties. corner_strips: foam lengths past the
    wall's foam corner that close an outside corner, () elsewhere. inside_stop: how far short of the other core's face one
    ledge stops at an inside corner, 0 elsewhere.
    """

    t: float
    f_out: float
    f_in: float
    h: float
    h_lip: float
    p: float
    x_back: float
    x_cg: float
    x_out: float
    x_edge: float
    h_edge: float
    a_v: float
    d: float
    d_b: float
    bend: float
    x_straight: float
    x_tip: float
    y_top: float
    y_corner: float
    leg: float
    leg_needed: float
    hook_back: float
    hook_bend: float
    hook_tail: float
    tip_bar: float
    x_bar: float
    y_bar: float
    holder: float
    x_holder: float
    y_holder: float
    ties: tuple[float, ...]
    tie_d: float
    tie_reach: float
    spacing: float
    corner_strips: tuple[float, ...]
    inside_stop: float

    @property
    def bearing(self) -> float:
        """Wythe on the ledge; below zero where it misses."""
        return self.x_edge - self.x_back

    @property
    def overhang(self) -> float:
        """Wythe beyond the lip, 0 where the ledge reaches past it."""
        return max(self.x_out - self.p, 0.0)


def geometry(inputs: Inputs, sheet: Worksheet | None = None) -> Ledge:
    """The ledge as drawn. Args: sheet keeps the steps where given. Raises: BadInput for a shape that can't be meant."""
    sheet, i = sheet or Worksheet(recording=False), inputs
    _meant(i)
    one, p, r = bar(i.stirrup), i.projection_in, i.depth_in - i.lip_depth_in
    bend = _bend(i, one.d_b_in)
    x_back = sheet.use(wythe_back_in, t_f_in=i.foam_outer_in, air_in=i.air_in)
    a_v = sheet.use(shear_span_in, t_f_in=i.foam_outer_in, air_in=i.air_in, t_w_in=i.wythe_in)
    x_edge = sheet.use(bearing_edge_in, x_back_in=x_back, t_w_in=i.wythe_in, p_in=p)
    h_edge = sheet.use(depth_at_in, h_in=i.depth_in, h_lip_in=i.lip_depth_in, p_in=p, x_in=x_edge)
    d = sheet.use(depth_to_bars_in, h_in=i.depth_in, c_c_in=i.top_cover_in, d_b_in=one.d_b_in)
    spacing = sheet.use(stirrup_place_spacing_in, n=i.web_spaces, m_in=i.web_spacing_in)
    hook_back = sheet.use(hook_room_in, t_in=i.core_in, c_c_in=i.hook_cover_in)
    tip_d = bar(i.tip_bar).d_b_in if i.tip in ("bar", "welded") else 0.0
    x_bar, y_bar = _tip_bar(i, one.d_b_in, bend, tip_d)
    holder = 0.0 if i.holder == "none" else bar(i.holder).d_b_in
    back = _nest(one.d_b_in, stirrup_bend_in(one.d_b_in) if i.hook == "closed" else main_bend_in(one.d_b_in), holder)
    leg, needed = _tip_heights(sheet, i, one.d_b_in, bend, tip_d)
    ties, tie_d, reach = _ties(sheet, i, one.d_b_in, r)
    return Ledge(
        t=i.core_in,
        f_out=i.foam_outer_in,
        f_in=i.foam_inner_in,
        h=i.depth_in,
        h_lip=i.lip_depth_in,
        p=p,
        x_back=x_back,
        x_cg=a_v,
        x_out=x_back + i.wythe_in,
        x_edge=x_edge,
        h_edge=h_edge,
        a_v=a_v,
        d=d,
        d_b=one.d_b_in,
        bend=bend,
        x_straight=_straight_end(sheet, i, one.d_b_in, bend, tip_d),
        x_tip=p - i.lip_cover_in,
        y_top=i.top_cover_in,
        y_corner=i.top_cover_in + leg,
        leg=leg,
        leg_needed=needed,
        hook_back=hook_back,
        hook_bend=0.0 if i.hook == "closed" else main_bend_in(one.d_b_in),
        hook_tail=_hook_tail(i.hook, one.d_b_in),
        tip_bar=tip_d,
        x_bar=x_bar,
        y_bar=y_bar,
        holder=holder,
        x_holder=back - hook_back,
        y_holder=i.top_cover_in + back,
        ties=ties,
        tie_d=tie_d,
        tie_reach=reach,
        spacing=spacing,
        corner_strips=_corner_strips(i),
        inside_stop=x_back + i.wythe_in if i.corner == "inside" else 0.0,
    )


def kept(placed: tuple[Step, ...], *functions: Callable[..., Any]) -> tuple[Step, ...]:
    """The steps of these clauses out of those that placed everything."""
    return tuple(step for step in placed if step.function in functions)


def _meant(i: Inputs) -> None:
    """Raises: BadInput where the shape contradicts itself, by how much."""
    if i.lip_depth_in > i.depth_in:
        over = show(i.lip_depth_in - i.depth_in, "in")
        raise BadInput(
            "lip_depth_in", f"The lip is {over} deeper than the ledge at the core. Enter at most its depth there."
        )
    if i.top_cover_in + bar(i.stirrup).d_b_in / 2 >= i.depth_in:
        raise BadInput("depth_in", "The cover leaves no depth. Enter a deeper ledge or less cover above the stirrup.")
    if i.lip_cover_in >= i.projection_in:
        raise BadInput("lip_cover_in", "The cover at the lip is more than the ledge projects. Enter less.")
    if i.curtains == "two" and i.cover_in + bar(i.vertical_bar).d_b_in / 2 >= i.core_in / 2:
        raise BadInput(
            "cover_in", "The cover leaves no room for two curtains of bars. Enter less cover or one curtain."
        )
    if i.ledge_height_ft > i.storey_height_ft:
        over = show(i.ledge_height_ft - i.storey_height_ft, "ft")
        raise BadInput(
            "ledge_height_ft", f"The ledge stands {over} above the floor over it. Enter its height in this storey."
        )


def _bend(i: Inputs, d_b: float) -> float:
    """Inside diameter of the bend at the lip: as typed, else standard, a level loop being a bend of main bars [in]."""
    if i.bend_in is not None:
        return i.bend_in
    return main_bend_in(d_b) if i.tip == "loop" else stirrup_bend_in(d_b)


def _hook_tail(hook: str, d_b: float) -> float:
    """Straight tail of the hook in the core [in]."""
    if hook == "closed":
        return 0.0
    return main_tail_in(d_b) if hook == "90" else main_return_tail_in(d_b)


def _straight_end(sheet: Worksheet, i: Inputs, d_b: float, bend: float, tip_d: float) -> float:
    """From the core: end of the straight part of the top leg, or inner face of a welded cross bar [in]."""
    if i.tip == "welded":
        return i.projection_in - i.lip_cover_in - tip_d
    return i.projection_in - sheet.use(straight_end_from_lip_in, c_c_in=i.lip_cover_in, d_b_in=d_b, D_b_in=bend)


def _nest(d_b: float, bend: float, d: float) -> float:
    """From the outside of a bent bar, either way, to the centre of a bar d thick that lies in its bend [in]."""
    return d_b + bend / 2 - max(bend - d, 0.0) / 2 / sqrt(2)


def _tip_bar(i: Inputs, d_b: float, bend: float, tip_d: float) -> tuple[float, float]:
    """Centre of the bar along the lip: nested in the bend, or in line with the stirrup it is welded to [in]."""
    if i.tip == "welded":
        return i.projection_in - i.lip_cover_in - tip_d / 2, i.top_cover_in + d_b / 2
    nest = _nest(d_b, bend, tip_d)
    return i.projection_in - i.lip_cover_in - nest, i.top_cover_in + nest


def _tip_heights(sheet: Worksheet, i: Inputs, d_b: float, bend: float, tip_d: float) -> tuple[float, float]:
    """Height there is for the stirrup at the lip and height it takes; straight bars take only their own size [in]."""
    p, r = i.projection_in, i.depth_in - i.lip_depth_in
    leg = sheet.use(
        tip_leg_in,
        h_lip_in=i.lip_depth_in,
        c_lip_in=i.lip_cover_in,
        c_s_in=i.soffit_cover_in,
        c_c_in=i.top_cover_in,
        r_in=r,
        p_in=p,
    )
    if i.tip not in BENT_DOWN:
        return leg, max(d_b, tip_d)
    return leg, sheet.use(tip_bends_in, d_b_in=d_b, D_b_in=bend, r_in=r, p_in=p)


def _ties(sheet: Worksheet, i: Inputs, d_b: float, r: float) -> tuple[tuple[float, ...], float, float]:
    """Depth of each layer of closed ties, their size, and the least reach [in]."""
    if i.tie_bar == "none":
        return (), 0.0, 0.0
    d_t, top = bar(i.tie_bar).d_b_in, i.top_cover_in + d_b / 2
    layers = tuple(top + i.tie_drop_in * n / i.tie_layers for n in range(1, i.tie_layers + 1))
    reach = sheet.use(
        tie_reach_in,
        p_in=i.projection_in,
        c_lip_in=i.lip_cover_in,
        c_s_in=i.soffit_cover_in,
        h_in=i.depth_in,
        r_in=r,
        y_in=layers[-1],
        d_t_in=d_t,
    )
    return layers, d_t, reach


def _corner_strips(i: Inputs) -> tuple[float, ...]:
    """Foam strips before the lip, from the wall's foam corner on: both to the mitre, or one past the other [in]."""
    if i.corner != "outside":
        return ()
    concrete = max(i.projection_in - i.foam_outer_in, 0.0)
    if i.corner_way == "mitre":
        return concrete + i.lip_foam_in, concrete + i.lip_foam_in
    return concrete + i.lip_foam_in, concrete
