"""The screws of a cast-in plate in the joist's end, enlarged; and the part from above, beside its joist."""

from collections.abc import Iterator
from itertools import pairwise

from engine import units
from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Inner, Note, Scene, Spot
from webapp.drawings.shapes import Area, Disc, Material, Pen, Shape, Stroke, rectangle

REACH, STRIP, ROOM = 2.5, 1.2, 2.0
FACE_MOST = 28.0  # pixels an inch: the screws are drawn larger than the section


def _levels(g: Plate) -> list[float]:
    return sorted({-y for _, y in g.screws})


def _columns(g: Plate) -> list[float]:
    return sorted({x for x, _ in g.screws})


def _chain(side: str, stops: list[float], names: list[str], edge: float, phone: bool = True) -> Chain | None:
    """A string through the stops that rise; None with fewer than two."""
    kept, kept_names = stops[:1], []
    for (_, stop), name in zip(pairwise(stops), names, strict=True):
        if stop > kept[-1] + 1e-6:
            kept.append(stop)
            kept_names.append(name)
    if len(kept) < 2:
        return None
    return Chain(side, tuple(kept), tuple(kept_names), edge, phone=tuple(range(len(kept))) if phone else ())


def face(i: Inputs, g: Plate, frame: Frame) -> Scene:
    """The joist's end with the part on its side: every screw with its distances along and across the grain."""
    right = max(g.x_right, max(_columns(g))) + REACH
    low = min(-g.depth, -g.y_bottom, min(_levels(g))) - 0.3
    top = max(0.0, -g.y_top) + 0.3
    left = g.foam - STRIP
    shapes: list[Shape] = [Area(rectangle(left, low, g.foam, top), Material.FOAM, Pen.CUT_LIGHT, (0, 2, 3))]
    if i.joist == "i_joist" and g.depth > 2 * i.flange_in:
        shapes += parts.i_joist(g.x_joist, right, -g.depth, 0.0, i.flange_in)
        if i.filler != "none" and g.wood_bottom > g.wood_top:
            shapes.append(
                Area(rectangle(g.x_joist, -g.wood_bottom, right - 0.8, -g.wood_top), Material.WOOD_SEEN, Pen.SEEN)
            )
    else:
        shapes += parts.member("sawn", g.x_joist, right, -g.depth, 0.0)
    shapes.append(Area(rectangle(g.foam, -g.y_bottom, g.x_right, -g.y_top), Material.STEEL_SEEN, Pen.CUT_LIGHT))
    shapes.append(Stroke(((g.x_joist, -g.depth), (g.x_joist, 0.0)), Pen.HIDDEN))
    shapes += [Disc((x, -y), g.D / 2) for x, y in g.screws]
    if g.shift_up:
        shapes += [Disc((x, -y), g.D / 2, False, Pen.HIDDEN) for x, y in g.screws_built]
    shapes += parts.breaks(((right, -g.depth), (right, 0.0)))
    return Scene(
        "The screws in the joist's end", ((left, low), (right, top)), tuple(shapes), tuple(_face_chains(g, low, right)),
        spots=face_spots(g),
    )  # fmt: skip


def _face_chains(g: Plate, low: float, right: float) -> Iterator[Chain]:
    columns, levels = _columns(g), _levels(g)
    stops = [g.x_joist, *columns, g.x_right]
    names = [
        "joist's end to the first column",
        *["along the grain"] * (len(columns) - 1),
        "steel beyond the last column",
    ]
    along = _chain("bottom", stops, names, low)
    rows = _chain(
        "right",
        [-g.wood_bottom, *levels, -g.wood_top],
        ["lowest row to the edge", *["across the grain"] * (len(levels) - 1), "top to the upper row"],
        right,
    )
    yield from (chain for chain in (along, rows) if chain)


def face_spots(g: Plate) -> dict[str, Spot]:
    """Places at the screws, in the coordinates of section and face alike."""
    columns, levels = _columns(g), _levels(g)
    by = 0.6
    group = rectangle(columns[0] - by, levels[0] - by, columns[-1] + by, levels[-1] + by)
    screws = Spot((columns[-1], levels[0]), group)
    first, upper, lowest = columns[0], levels[-1], levels[0]
    found = {
        "screws": screws,
        "end": Spot((first, lowest), rectangle(g.x_joist, lowest - by, first + by, upper + by),
                    ((g.x_joist, lowest), (first, lowest)), "to the end"),
        "edge-bottom": Spot((first, lowest), rectangle(first - by, -g.wood_bottom, columns[-1] + by, lowest),
                            ((first, -g.wood_bottom), (first, lowest)), "to the edge"),
        "edge-top": Spot((first, upper), rectangle(first - by, upper, columns[-1] + by, -g.wood_top),
                         ((first, upper), (first, -g.wood_top)), "to the edge"),
    }  # fmt: skip
    if len(columns) > 1:
        found["along"] = Spot((first, upper), group, ((columns[0], upper), (columns[1], upper)), "along the grain")
    if len(levels) > 1:
        found["across"] = Spot((first, lowest), group, ((first, levels[0]), (first, levels[1])), "across the grain")
    return found


def from_above(i: Inputs, g: Plate, frame: Frame, system: System) -> Scene:
    """Plan at a row of screws: the part beside the joist, what the screws bite, the place the survey found."""
    right = max(g.x_right, max(_columns(g))) + REACH
    left = -g.embedment - 1.5
    wood = max(g.wood, 0.25)
    low, top = -wood - ROOM, g.gap + g.thickness + ROOM + max(g.shift_along, 0.0)
    thick = max(g.thickness, 0.06)  # a thinner sheet would vanish; it is not dimensioned
    y0 = g.gap
    shapes: list[Shape] = [
        Area(rectangle(left, low, 0.0, top), Material.CONCRETE, Pen.CUT, (0, 2, 3)),
        Area(rectangle(0.0, low, g.foam, top), Material.FOAM, Pen.CUT_LIGHT, (0, 2)),
        Area(rectangle(g.x_joist, -wood, right, 0.0), Material.WOOD_SEEN, Pen.CUT_LIGHT, (parts.RIGHT,)),
        Area(rectangle(-g.embedment, y0, g.x_right, y0 + thick), Material.STEEL_CUT),
    ]
    half = g.D / 2
    for x in _columns(g):
        point = y0 + thick - i.length_in
        shapes.append(Area(rectangle(x - half, point, x + half, y0 + thick), Material.STEEL_CUT))
        shapes.append(Area(rectangle(x - 2 * half, y0 + thick, x + 2 * half, y0 + thick + 0.1), Material.STEEL_CUT))
    if g.shift_along:
        moved = y0 + g.shift_along
        shapes.append(Stroke(rectangle(-g.embedment, moved, g.x_right, moved + thick), Pen.HIDDEN, closed=True))
    shapes += parts.breaks(((right, -wood), (right, 0.0)))
    chains = [Chain("right", (-wood, 0.0), ("wood the screws bite",), right)]
    notes = [
        Note(
            (_columns(g)[-1], y0 + thick + 0.05),
            f"No. {i.gauge} x {units.show(i.length_in, 'in', system)}",
            f"{i.screws} screws",
        )
    ]
    if g.shift_along:
        shift = units.show(abs(g.shift_along), "in", system)
        notes.append(
            Note(
                (g.x_right - 0.5, y0 + g.shift_along),
                "as surveyed",
                f"{shift} {'off' if g.shift_along > 0 else 'into'} the joist",
            )
        )
    at = max(right - 1.0, _columns(g)[-1] + 0.8)
    inners = [Inner("y", (-g.penetration, 0.0), at, "screw in the wood")] if g.penetration > 0 else []
    edge = _columns(g)[0] - 0.7
    thick_enough = Spot(
        (edge, -wood / 2), rectangle(g.x_joist, -wood, right, 0.0), ((edge, -wood), (edge, 0.0)), "of wood"
    )
    bite = Spot(
        (_columns(g)[0], -g.penetration / 2),
        rectangle(_columns(g)[0] - 0.5, -g.penetration, _columns(g)[-1] + 0.5, 0.0),
    )
    return Scene(
        "From above",
        ((left, low), (right, top)),
        tuple(shapes),
        tuple(chains),
        inners=tuple(inners),
        notes=tuple(notes),
        spots={"penetration": bite, "joist": thick_enough},
    )
