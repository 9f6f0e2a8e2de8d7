"""Bars of a veneer ledge: stirrups as bent, closed ties, bars along the ledge. Cut lengths [in]."""

from collections import Counter

from engine.attachments.veneer_ledge.geometry import Ledge, geometry
from engine.attachments.veneer_ledge.inputs import BENT_DOWN, Inputs
from engine.clauses.us.bars import bar, main_bend_in, stirrup_bend_in
from engine.clauses.us.bent_bars import Point, standard_tie_in
from engine.clauses.us.development import lap_b_in, straight_psi_g, straight_psi_t, tension_development_in
from engine.setting_out import Piece, SettingOut
from engine.takeoff.rows import Office
from engine.takeoff.shapes import Shape, closed
from engine.takeoff.wall_bars import FRESH_IN, Cut, cut_to_sixteenth, lapped


def veneer_bars(i: Inputs, found: SettingOut, office: Office) -> Counter[Cut]:
    """Every bar of a ledge as set out."""
    g, cuts = geometry(i), Counter[Cut]()
    stirrup = stirrup_shape(i, g)
    cuts[i.stirrup, stirrup, cut_to_sixteenth(stirrup.cut_in)] += found.count("stirrup")
    if g.ties and g.tie_reach > 0:
        across = max(g.tie_reach + g.hook_back, stirrup_bend_in(g.tie_d) + 2 * g.tie_d)
        along = max(office.tie_width_in, stirrup_bend_in(g.tie_d) + 2 * g.tie_d)
        a, b = across - g.tie_d, along - g.tie_d
        tie = closed("closed tie", i.tie_bar, [(0.0, 0.0), (a, 0.0), (a, b), (0.0, b)])
        cuts[i.tie_bar, tie, cut_to_sixteenth(standard_tie_in(across, along, g.tie_d))] += len(
            found.of("stirrup")
        ) * len(g.ties)
    for number in _along(i, g):
        for piece in found.rows["stirrup"].pieces:
            for cut in _run(number, i, piece, office):
                cuts[cut] += 1
    return cuts


def _words(i: Inputs) -> str:
    return {"90": "90 degree hook", "180": "180 degree hook", "closed": "closed"}[i.hook]


def _along(i: Inputs, g: Ledge) -> list[str]:
    """Sizes of the bars along the ledge: at the lip, in the hooks."""
    return [*([i.tip_bar] if g.tip_bar else []), *([i.holder] if g.holder else [])]


def _run(number: str, i: Inputs, piece: Piece, office: Office) -> list[Cut]:
    f_y, d_b = i.f_y_ksi * 1000, bar(number).d_b_in
    psi_t, psi_g = straight_psi_t(FRESH_IN + 1), straight_psi_g(f_y)
    lap = float(-(-lap_b_in(tension_development_in(f_y, i.f_c_psi, d_b, psi_t, psi_g=psi_g)) // 1))
    return list(lapped(number, max(piece.length_in - 2 * i.lip_cover_in, 0.0), lap, office))


def corner_bar(i: Inputs) -> Shape:
    """The L bar that turns a corner, its legs out to out."""
    d_b = bar(i.tip_bar).d_b_in
    leg = i.corner_leg_in - d_b / 2
    return Shape("L", i.tip_bar, ((0.0, 0.0), (leg, 0.0), (leg, leg)), (main_bend_in(d_b),))


Bent = tuple[list[Point], list[float]]  # corners of the middle of a bar, and the inside diameter of its bends


def stirrup_path(i: Inputs, g: Ledge) -> Bent:
    """Middle of a stirrup with sharp corners, from the core: x into the wall, y down [in].

    The tail of its hook, the top leg out to the lip and, where it is bent down there, the lip's leg and the way back along the
    soffit to the hook; a level loop comes back beside its top leg and is drawn turned up into this plane.
    """
    top, back, lip = _lines(g)
    to_middle = (g.hook_bend + g.d_b) / 2
    if i.hook == "180":
        turned = top + 2 * to_middle
        corners = [(back - to_middle - g.hook_tail, turned), (back, turned), (back, top), (lip, top)]
        bends = [g.hook_bend, g.hook_bend]
    else:
        corners, bends = [(back, top + to_middle + g.hook_tail), (back, top), (lip, top)], [g.hook_bend]
    if i.tip == "loop":
        beside = top - g.bend - g.d_b
        return [*corners, (lip, beside), (back, beside)], [*bends, g.bend, g.bend]
    if i.tip not in BENT_DOWN or g.leg <= g.d_b:
        return corners, bends
    return [*corners, (lip, _corner(g)), (back - g.d_b, _soffit(g, back - g.d_b))], [*bends, g.bend, g.bend]


def _lines(g: Ledge) -> tuple[float, float, float]:
    """Middle of the top leg, of the leg in the core, of the leg at the lip."""
    half = g.d_b / 2
    return g.y_top + half, g.hook_back - half, -(g.x_tip - half)


def _corner(g: Ledge) -> float:
    return g.y_corner - g.d_b / 2


def _soffit(g: Ledge, x: float) -> float:
    """Middle of the leg along the soffit, straight on into the core."""
    _, _, lip = _lines(g)
    return _corner(g) + (g.h - g.h_lip) / g.p * (x - lip)


def stirrup_shape(i: Inputs, g: Ledge) -> Shape:
    """How a stirrup is bent. A closed one ends in two hooks of 135 degrees round the upper bar in the core."""
    words = f"stirrup, {_words(i)}"
    if i.hook != "closed":
        corners, bends = stirrup_path(i, g)
        return Shape(words, i.stirrup, tuple(corners), tuple(bends), (int(i.hook), 0))
    top, back, lip = _lines(g)
    low = max(_corner(g), top + g.d_b)
    at_back = low + max(_soffit(g, back) - _corner(g), 0.0)
    return closed(words, i.stirrup, [(back, top), (lip, top), (lip, low), (back, at_back)])


def stirrup_in(i: Inputs, g: Ledge) -> float:
    """Cut length of a stirrup [in]."""
    return stirrup_shape(i, g).cut_in
