"""The screws of a cast-in plate in the joist's end, enlarged; and the part from above, beside its joist."""

from collections.abc import Iterator
from itertools import pairwise

from engine import units
from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Inner, Length, Note, Scene, Spot
from webapp.drawings.shapes import Area, Disc, Material, Pen, Shape, Stroke, rectangle

REACH, STRIP, ROOM = 2.5, 1.2, 2.0
SEEN_SHEET = 0.06  # a thinner sheet would vanish on paper; it carries no dimension
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
    foam = Area(rectangle(left, low, g.foam, top), Material.FOAM, Pen.CUT_LIGHT, (0, 2, 3))
    part = Area(rectangle(g.foam, -g.y_bottom, g.x_right, -g.y_top), Material.STEEL_SEEN, Pen.CUT_LIGHT)
    end = Stroke(((g.x_joist, -g.depth), (g.x_joist, 0.0)), Pen.HIDDEN)
    breaks = parts.breaks(((right, -g.depth), (right, 0.0)))
    return Scene(
        "The screws in the joist's end",
        ((left, low), (right, top)),
        (foam, *_joist(i, g, right), part, end, *_screws(g), *breaks),
        tuple(_face_chains(g, low, right)),
        spots=face_spots(g),
        lengths=face_lengths(g),
    )


def _joist(i: Inputs, g: Plate, right: float) -> Iterator[Shape]:
    if i.joist != "i_joist" or g.depth <= 2 * i.flange_in:
        yield from parts.member("sawn", g.x_joist, right, -g.depth, 0.0)
        return
    yield from parts.i_joist(g.x_joist, right, -g.depth, 0.0, i.flange_in)
    if i.filler != "none" and g.wood_bottom > g.wood_top:
        filler = rectangle(g.x_joist, -g.wood_bottom, right - 0.8, -g.wood_top)
        yield Area(filler, Material.WOOD_SEEN, Pen.SEEN)


def _screws(g: Plate) -> Iterator[Shape]:
    """As drawn, and open where the survey found them."""
    for x, y in g.screws:
        yield Disc((x, -y), g.D / 2)
    if g.shift_up:
        for x, y in g.screws_built:
            yield Disc((x, -y), g.D / 2, False, Pen.HIDDEN)


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
        "end": Spot((first, lowest), rectangle(g.x_joist, lowest - by, first + by, upper + by)),
        "edge-bottom": Spot(
            (first, lowest), rectangle(first - by, min(-g.wood_bottom, lowest), columns[-1] + by, lowest)
        ),
        "edge-top": Spot((first, upper), rectangle(first - by, upper, columns[-1] + by, max(-g.wood_top, upper))),
    }
    if len(columns) > 1:
        found["along"] = Spot((first, upper), group)
    if len(levels) > 1:
        found["across"] = Spot((first, lowest), group)
    return found


def face_lengths(g: Plate) -> dict[str, Length]:
    """By the keys of the lines that judge them."""
    columns, levels = _columns(g), _levels(g)
    first, upper, lowest = columns[0], levels[-1], levels[0]
    found = {
        "end-distance": Length((g.x_joist, lowest), (first, lowest), "to the end"),
        "bottom-edge": Length((first, -g.wood_bottom), (first, lowest), "to the edge"),
        "top-edge": Length((first, upper), (first, -g.wood_top), "to the edge"),
    }
    if len(columns) > 1:
        found["along"] = Length((columns[0], upper), (columns[1], upper), "along the grain")
    if len(levels) > 1:
        found["across"] = Length((first, levels[0]), (first, levels[1]), "across the grain")
    return found


def from_above(i: Inputs, g: Plate, frame: Frame, system: System) -> Scene:
    """Plan at a row of screws: the part beside the joist, what the screws bite, the place the survey found."""
    columns = _columns(g)
    right = max(g.x_right, columns[-1]) + REACH
    wood, left = max(g.wood, 0.25), -g.embedment - 1.5
    low, top = -wood - ROOM, g.gap + g.thickness + ROOM + max(g.shift_along, 0.0)
    at = max(right - 1.0, columns[-1] + 0.8)
    inners = [Inner("y", (-g.penetration, 0.0), at, "screw in the wood")] if g.penetration > 0 else []
    edge = columns[0] - 0.7
    bitten = rectangle(columns[0] - 0.5, -g.penetration, columns[-1] + 0.5, 0.0)
    spots = {
        "joist": Spot((edge, -wood / 2), rectangle(g.x_joist, -wood, right, 0.0)),
        "penetration": Spot((columns[0], -g.penetration / 2), bitten),
    }
    return Scene(
        "From above",
        ((left, low), (right, top)),
        tuple(_above_shapes(i, g, (left, low, right, top), wood)),
        (Chain("right", (-wood, 0.0), ("wood the screws bite",), right),),
        tuple(inners),
        notes=tuple(_above_notes(i, g, system)),
        spots=spots,
        lengths={
            "wood": Length((edge, -wood), (edge, 0.0), "of wood"),
            "penetration": Length((columns[0], -g.penetration), (columns[0], 0.0), "in the wood"),
        },
    )


def _above_shapes(i: Inputs, g: Plate, box: tuple[float, float, float, float], wood: float) -> Iterator[Shape]:
    left, low, right, top = box
    thick, y, half = max(g.thickness, SEEN_SHEET), g.gap, g.D / 2
    yield Area(rectangle(left, low, 0.0, top), Material.CONCRETE, Pen.CUT, (0, 2, 3))
    yield Area(rectangle(0.0, low, g.foam, top), Material.FOAM, Pen.CUT_LIGHT, (0, 2))
    yield Area(rectangle(g.x_joist, -wood, right, 0.0), Material.WOOD_SEEN, Pen.CUT_LIGHT, (parts.RIGHT,))
    yield Area(rectangle(-g.embedment, y, g.x_right, y + thick), Material.STEEL_CUT)
    for x in _columns(g):
        yield Area(rectangle(x - half, y + thick - i.length_in, x + half, y + thick), Material.STEEL_CUT)
        yield Area(rectangle(x - 2 * half, y + thick, x + 2 * half, y + thick + 0.1), Material.STEEL_CUT)
    if g.shift_along:
        moved = rectangle(-g.embedment, y + g.shift_along, g.x_right, y + g.shift_along + thick)
        yield Stroke(moved, Pen.HIDDEN, closed=True)
    yield from parts.breaks(((right, -wood), (right, 0.0)))


def _above_notes(i: Inputs, g: Plate, system: System) -> Iterator[Note]:
    head = (_columns(g)[-1], g.gap + max(g.thickness, SEEN_SHEET) + 0.05)
    yield Note(head, f"No. {i.gauge} x {units.show(i.length_in, 'in', system)}", f"{i.screws} screws")
    if g.shift_along:
        shift = units.show(abs(g.shift_along), "in", system)
        way = "off" if g.shift_along > 0 else "into"
        yield Note((g.x_right - 0.5, g.gap + g.shift_along), "as surveyed", f"{shift} {way} the joist")
