"""A beam pocket along the wall: the core cut, seen from the room, and in plan. u runs along the wall from the beam's middle."""

from collections.abc import Iterator
from itertools import pairwise

from engine.attachments.beam_pocket.geometry import Pocket
from engine.attachments.beam_pocket.inputs import STEEL_SEATS, Inputs
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Note, Scene, Spot
from webapp.drawings.shapes import Area, Material, Pen, Shape, Stroke, rectangle

BESIDE, BELOW, ABOVE, ROOM = 9.0, 6.0, 5.0, 7.0
BAR_OFF, BAR_APART = 2.0, 2.0  # bars beside are drawn at a usual place, without a figure


def _half(i: Inputs, g: Pocket) -> float:
    return max(i.pocket_width_in, i.width_in, g.loaded_width) / 2 + BESIDE


def _rising(stops: tuple[float, ...], names: tuple[str, ...]) -> tuple[tuple[float, ...], tuple[str, ...]]:
    """Stops and names without gaps of nothing; the outer two alone where the order is not upward."""
    if any(b < a - 1e-9 for a, b in pairwise(stops)):
        return (stops[0], stops[-1]), ("",)
    kept, kept_names = [stops[0]], []
    for (_, stop), name in zip(pairwise(stops), names, strict=True):
        if stop > kept[-1] + 1e-9:
            kept.append(stop)
            kept_names.append(name)
    return tuple(kept), tuple(kept_names)


def _bars(i: Inputs, half: float) -> Iterator[tuple[float, bool]]:
    """Stations of upright bars and whether the pocket cuts them: the wall's own at their spacing, then those added beside."""
    if i.curtains != "none":
        u = 0.0 if i.bars_cut % 2 else i.vertical_spacing_in / 2
        number = 0
        while u < half - 1:
            for side in (u, -u) if u else (u,):
                yield side, number < i.bars_cut
                number += 1
            u += i.vertical_spacing_in
    for n in range(i.bars_added):
        u = i.pocket_width_in / 2 + BAR_OFF + (n // 2) * BAR_APART
        if u < half - 0.5:
            yield (-u if n % 2 else u), False


def _cross_chain(i: Inputs, g: Pocket, edge: float) -> Chain:
    """Side gaps and beam width across the pocket."""
    w, b = i.pocket_width_in / 2, i.width_in / 2
    if g.side_gap < 0:
        return Chain("bottom", (-w, w), ("pocket width",), edge, phone=(0, 1))
    stops, names = _rising((-w, -b, b, w), ("side gap", "beam width", "side gap"))
    return Chain("bottom", stops, names, edge, "pocket width", tuple(range(len(stops))))


def elevation(i: Inputs, g: Pocket, frame: Frame) -> Scene:
    """The core cut along the wall through the seat: pocket, beam, plate, bars behind."""
    top = max(i.pocket_height_in, g.plate_thickness + i.depth_in) + ABOVE
    half = _wide(i, g, frame, top + BELOW)
    w = i.pocket_width_in / 2
    bars = Spot((w + BAR_OFF, i.pocket_height_in / 2), rectangle(w + 0.5, -BELOW, half, top))
    return Scene(
        "The core cut along the wall", ((-half, -BELOW), (half, top)), tuple(_cut_core(i, g, half, top)),
        (_upright_chain(i, g, -half), _cross_chain(i, g, -BELOW)), spots={"bars": bars},
    )  # fmt: skip


def _wide(i: Inputs, g: Pocket, frame: Frame, high: float) -> float:
    """Half the length of wall shown: at least what stands beside the pocket, at most a little more where paper is left."""
    half = _half(i, g)
    return max(half, min(frame.width / frame.scale(2 * half, high) / 2, half + 8))


def _cut_core(i: Inputs, g: Pocket, half: float, top: float) -> Iterator[Shape]:
    w, high = i.pocket_width_in / 2, i.pocket_height_in
    yield Area(rectangle(-half, -BELOW, half, top), Material.CONCRETE)
    yield Area(rectangle(-w, 0.0, w, high), Material.AIR, Pen.CUT)
    size = parts.bar_diameter_in(i.vertical_bar)
    for u, cut in _bars(i, half):
        for y0, y1 in ((-BELOW, -1.0), (high + 1.0, top)) if cut else ((-BELOW, top),):
            for side in (-size / 2, size / 2):
                yield Stroke(((u + side, y0), (u + side, y1)), Pen.HIDDEN)
    yield from _seat_and_beam(i, g)
    yield from parts.breaks(((-half, -BELOW), (half, -BELOW)), ((-half, top), (half, top)))


def _upright_chain(i: Inputs, g: Pocket, edge: float) -> Chain:
    """Plate, beam and air above it, in the pocket's height."""
    if g.top_gap < 0:
        return Chain("left", (0.0, i.pocket_height_in), ("pocket height",), edge, phone=(0, 1))
    high = g.plate_thickness + i.depth_in
    stops, names = _rising(
        (0.0, g.plate_thickness, high, i.pocket_height_in), ("plate under the beam", "beam depth", "air above")
    )
    return Chain("left", stops, names, edge, "pocket height", tuple(range(len(stops))))


def _seat_and_beam(i: Inputs, g: Pocket) -> Iterator[Shape]:
    b, y = i.width_in / 2, g.plate_thickness
    if y:
        steel = i.seat in STEEL_SEATS
        material, pen = (Material.STEEL_CUT, None) if steel else (Material.WOOD_CUT, Pen.CUT_LIGHT)
        yield Area(rectangle(-i.plate_width_in / 2, 0.0, i.plate_width_in / 2, y), material, pen)
    if i.beam != "steel":
        yield Area(rectangle(-b, y, b, y + i.depth_in), Material.WOOD_CUT, Pen.CUT_LIGHT)
        return
    flange, web = min(0.6, i.depth_in / 6), min(0.4, i.width_in / 4)
    yield Area(rectangle(-b, y, b, y + flange), Material.STEEL_CUT)
    yield Area(rectangle(-b, y + i.depth_in - flange, b, y + i.depth_in), Material.STEEL_CUT)
    yield Area(rectangle(-web / 2, y + flange, web / 2, y + i.depth_in - flange), Material.STEEL_CUT)


def level_plan(i: Inputs, g: Pocket, frame: Frame) -> Scene:
    """Plan at the beam: foam, core with its pocket, beam, bars cut across. Depth runs down the sheet from the outer foam."""
    outer, inner = i.core_in + i.foam_outer_in, -i.foam_inner_in
    room = inner - ROOM
    half = _wide(i, g, frame, outer - room)
    stops: tuple[float, ...] = (inner, 0.0, i.core_in)
    names: tuple[str, ...] = ("room-side foam", "core, cut through")
    if g.behind > 0:
        stops = (inner, 0.0, i.pocket_length_in, i.core_in)
        names = ("room-side foam", "pocket length", "core left behind")
    b = i.width_in / 2
    beam = Area(
        rectangle(-b, room, b, g.beam_end),
        Material.STEEL_SEEN if i.beam == "steel" else Material.WOOD_SEEN,
        Pen.CUT_LIGHT,
        (parts.BOTTOM,),
        upright=True,
    )
    breaks = parts.breaks(((-half, inner), (-half, outer)), ((half, inner), (half, outer)), ((-b, room), (b, room)))
    added = Note((i.pocket_width_in / 2 + BAR_OFF, i.core_in / 2), f"{i.bars_added} bars added", "beside the pocket")
    return Scene(
        "Plan at the beam", ((-half, room), (half, outer)), (*_plan_wall(i, g, half), *_plan_bars(i, half), beam, *breaks),
        (Chain("left", stops, names, -half),), notes=(added,) if i.bars_added else (),
    )  # fmt: skip


def _plan_wall(i: Inputs, g: Pocket, half: float) -> Iterator[Shape]:
    w, deep, inner = i.pocket_width_in / 2, i.pocket_length_in, -i.foam_inner_in
    yield from parts.panel(-half, half, i.core_in, i.core_in + i.foam_outer_in, (parts.LEFT, parts.RIGHT))
    yield from parts.panel(-half, -w, inner, 0.0, (parts.LEFT,))
    yield from parts.panel(w, half, inner, 0.0, (parts.RIGHT,))
    if g.behind > 0:
        corners = (
            (-half, 0.0), (-w, 0.0), (-w, deep), (w, deep), (w, 0.0), (half, 0.0), (half, i.core_in), (-half, i.core_in),
        )  # fmt: skip
        yield Area(corners, Material.CONCRETE, Pen.CUT, (5, 7))
        return
    yield Area(rectangle(-half, 0.0, -w, i.core_in), Material.CONCRETE, Pen.CUT, (parts.LEFT,))
    yield Area(rectangle(w, 0.0, half, i.core_in), Material.CONCRETE, Pen.CUT, (parts.RIGHT,))


def _plan_bars(i: Inputs, half: float) -> Iterator[Shape]:
    size = parts.bar_diameter_in(i.vertical_bar)
    curtains = i.curtains if i.curtains != "none" else "centre"  # bars added beside stand in the middle
    for u in (u for u, cut in _bars(i, half) if not cut):
        for x in parts.bar_places(curtains, i.core_in, i.cover_in, size):
            yield parts.dot(u, i.core_in - x, size)
