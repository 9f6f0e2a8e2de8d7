"""Where things are on a veneer ledge. x runs outward from the outer face of the core, y down from the ledge's top [in]."""

from dataclasses import dataclass
from math import sqrt

from engine.attachments.veneer_ledge.inputs import Inputs
from engine.clauses.us.bars import bar, main_bend_in, main_return_tail_in, main_tail_in, stirrup_bend_in
from engine.clauses.us.ledge_geometry import depth_at_in, depth_to_bars_in, shear_span_in, straight_end_from_lip_in
from engine.errors import BadInput
from engine.units import show
from engine.worksheet import Worksheet, clause


@dataclass(frozen=True, slots=True)
class Ledge:
    """The ledge, its bars and the wythe on it [in].

    t: core; f_out, f_in: foam. h, h_lip: depth at the core and at the lip. p: projection. x_back, x_cg, x_out: inner face, middle
    and outer face of the wythe. x_edge: outer edge of the bearing. h_edge: depth there. a_v: shear span. d: depth to the stirrup's
    top leg. d_b: stirrup. bend: inside diameter of its bend at the lip. x_straight: where its top leg ends being straight.
    x_tip: outside of the stirrup at the lip. y_top, y_corner: outside of its top leg, and of its lower corner at the lip. leg,
    leg_needed: height there is and height the bends need. hook_back: outside of the hook from the core's outer face, into the
    wall. hook_bend, hook_tail: of the hook, 0 for a closed loop. tip_bar: diameter of the bar along the lip, 0 without one, its
    centre at x_bar, y_bar. ties: y of each layer of closed ties; tie_d: their size; tie_reach: least x they reach. spacing: of
    stirrups and ties. corner_strips: foam lengths past the wall's foam corner that close an outside corner, () elsewhere.
    inside_stop: how far short of the other core's face one ledge stops at an inside corner, 0 elsewhere.
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


@clause("geometry", "", title="Inner face of the wythe from the core", symbol="x_back", unit="in", formula="t_f + air",
        provenance="geometry")  # fmt: skip
def wythe_back_in(t_f_in: float, air_in: float) -> float:
    """From the core's face to the back of the veneer [in]; foam counts."""
    return t_f_in + air_in


@clause("geometry", "", title="Outer edge of the bearing", symbol="x_edge", unit="in", formula="min(x_back + t_w, p)",
        provenance="geometry")  # fmt: skip
def bearing_edge_in(x_back_in: float, t_w_in: float, p_in: float) -> float:
    """Outer face of the wythe, or the lip where the wythe overhangs it [in]."""
    return min(x_back_in + t_w_in, p_in)


@clause(
    "geometry", "", title="Height for the stirrup's leg at the lip", symbol="y_leg", unit="in",
    formula="h_lip + c_lip * r / p - c_s * sqrt(p ** 2 + r ** 2) / p - c_c", provenance="geometry",
    note="The soffit rises r over p toward the lip; its cover is measured square to it.",
)  # fmt: skip
def tip_leg_in(h_lip_in: float, c_lip_in: float, c_s_in: float, c_c_in: float, r_in: float, p_in: float) -> float:
    """Out to out height the covers leave for a stirrup bent down at the lip [in]."""
    return h_lip_in + c_lip_in * r_in / p_in - c_s_in * sqrt(p_in**2 + r_in**2) / p_in - c_c_in


@clause(
    "geometry", "", title="Height the stirrup's two bends take at the lip", symbol="y_bends", unit="in",
    formula="(d_b + D_b / 2) * (1 + (sqrt(p ** 2 + r ** 2) - r) / p)", provenance="geometry",
    note="The upper bend turns 90 degrees, the lower one 90 less the soffit's slope.",
)  # fmt: skip
def tip_bends_in(d_b_in: float, D_b_in: float, r_in: float, p_in: float) -> float:
    """Sum of the outside tangent lengths of both bends [in]; D_b: inside diameter."""
    return (d_b_in + D_b_in / 2) * (1 + (sqrt(p_in**2 + r_in**2) - r_in) / p_in)


@clause(
    "geometry", "", title="Reach of a closed tie into the ledge", symbol="x_tie", unit="in",
    formula="min(p - c_lip, (h - y - (c_s + d_t / 2) * sqrt(p ** 2 + r ** 2) / p) * p / max(r, 0.001))",
    provenance="geometry",
)  # fmt: skip
def tie_reach_in(
    p_in: float, c_lip_in: float, c_s_in: float, h_in: float, r_in: float, y_in: float, d_t_in: float
) -> float:
    """How far out a level tie at depth y goes before the soffit's cover stops it [in]; below zero where it can't leave the core."""
    cover = (c_s_in + d_t_in / 2) * sqrt(p_in**2 + r_in**2) / p_in
    return min(p_in - c_lip_in, (h_in - y_in - cover) * p_in / max(r_in, 0.001))


@clause("geometry", "", title="Spacing of the stirrups", symbol="s", unit="in", formula="n * m", provenance="geometry")
def stirrup_place_spacing_in(n: int, m_in: float) -> float:
    """One stirrup to every n web spaces of m [in]."""
    return n * m_in


@clause("geometry", "", title="Room for the hook in the core", symbol="l_core", unit="in", formula="t - c_c",
        provenance="geometry", note="From the face of the core to the outside of the hook.")  # fmt: skip
def hook_room_in(t_in: float, c_c_in: float) -> float:
    """Core less the cover behind the hook [in]."""
    return t_in - c_c_in


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
    room = sheet.use(hook_room_in, t_in=i.core_in, c_c_in=i.hook_cover_in)
    leg = tip_leg_in(i.lip_depth_in, i.lip_cover_in, i.soffit_cover_in, i.top_cover_in, r, p)
    tip_d = bar(i.tip_bar).d_b_in if i.tip in ("bar", "welded") else 0.0
    x_bar, y_bar = _tip_bar(i, one.d_b_in, bend, tip_d)
    ties, tie_d, reach = _ties(i, one.d_b_in, r)
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
        x_straight=_straight_end(i, one.d_b_in, bend, tip_d),
        x_tip=p - i.lip_cover_in,
        y_top=i.top_cover_in,
        y_corner=i.top_cover_in + leg,
        leg=leg,
        leg_needed=tip_bends_in(one.d_b_in, bend, r, p) if i.tip in ("bar", "bend") else max(one.d_b_in, tip_d),
        hook_back=room,
        hook_bend=0.0 if i.hook == "closed" else main_bend_in(one.d_b_in),
        hook_tail=_hook_tail(i.hook, one.d_b_in),
        tip_bar=tip_d,
        x_bar=x_bar,
        y_bar=y_bar,
        ties=ties,
        tie_d=tie_d,
        tie_reach=reach,
        spacing=spacing,
        corner_strips=_corner_strips(i),
        inside_stop=x_back + i.wythe_in if i.corner == "inside" else 0.0,
    )


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


def _straight_end(i: Inputs, d_b: float, bend: float, tip_d: float) -> float:
    """From the core: end of the straight part of the top leg, or inner face of a welded cross bar [in]."""
    back = i.lip_cover_in + tip_d if i.tip == "welded" else straight_end_from_lip_in(i.lip_cover_in, d_b, bend)
    return i.projection_in - back


def _tip_bar(i: Inputs, d_b: float, bend: float, tip_d: float) -> tuple[float, float]:
    """Centre of the bar along the lip: nested in the bend, or in line with the stirrup it is welded to [in]."""
    if i.tip == "welded":
        return i.projection_in - i.lip_cover_in - tip_d / 2, i.top_cover_in + d_b / 2
    nest = d_b + bend / 2 - max(bend - tip_d, 0.0) / 2 / sqrt(2)
    return i.projection_in - i.lip_cover_in - nest, i.top_cover_in + nest


def _ties(i: Inputs, d_b: float, r: float) -> tuple[tuple[float, ...], float, float]:
    """Depth of each layer of closed ties, their size, and the least reach [in]."""
    if i.tie_bar == "none":
        return (), 0.0, 0.0
    d_t, top = bar(i.tie_bar).d_b_in, i.top_cover_in + d_b / 2
    layers = tuple(top + i.tie_drop_in * n / i.tie_layers for n in range(1, i.tie_layers + 1))
    reach = tie_reach_in(i.projection_in, i.lip_cover_in, i.soffit_cover_in, i.depth_in, r, layers[-1], d_t)
    return layers, d_t, reach


def _corner_strips(i: Inputs) -> tuple[float, ...]:
    """Foam strips before the lip, from the wall's foam corner on: both to the mitre, or one past the other [in]."""
    if i.corner != "outside":
        return ()
    concrete = max(i.projection_in - i.foam_outer_in, 0.0)
    if i.corner_way == "mitre":
        return concrete + i.lip_foam_in, concrete + i.lip_foam_in
    return concrete + i.lip_foam_in, concrete
