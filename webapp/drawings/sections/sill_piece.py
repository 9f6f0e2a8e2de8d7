"""A piece of a sill plate from above: bolts, ends, washers. u along the piece from its left end, the outer side up."""

from collections.abc import Iterator

from engine.attachments.sill_plate.geometry import Sill
from engine.attachments.sill_plate.inputs import Inputs
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Scene, Spot
from webapp.drawings.shapes import Area, Disc, Material, Pen, Shape, Stroke, rectangle

BESIDE = 0.5


def piece(i: Inputs, g: Sill, frame: Frame) -> Scene:
    """The piece, broken off where it is too long to show."""
    scale = frame.scale(min(g.piece, 30.0) + 4, g.width + 1)
    reach = min(g.piece, frame.width / scale - 3)
    across = g.width - i.across_in
    places = [u for u in g.places if u <= reach - g.D]
    cut = reach < g.piece - 1e-9
    return Scene(
        "A piece from above, outer side up", ((-BESIDE, 0.0), (reach + (1.5 if cut else BESIDE), g.width)),
        tuple(_shapes(i, g, reach, across, places)), tuple(_chains(g, across, places, not cut)), spots=_spots(g, across, places),
    )  # fmt: skip


def _shapes(i: Inputs, g: Sill, reach: float, across: float, places: list[float]) -> Iterator[Shape]:
    cut = reach < g.piece - 1e-9
    yield Area(rectangle(0.0, 0.0, reach, g.width), Material.WOOD_SEEN, Pen.CUT_LIGHT, (parts.RIGHT,) if cut else ())
    for u in places:
        if g.washer and i.washer == "plate":
            yield Area(parts.box_around([(u, across)], g.washer / 2), Material.STEEL_SEEN, Pen.SEEN)
        elif g.washer:
            yield Disc((u, across), g.washer / 2, False, Pen.SEEN)
        yield Disc((u, across), g.D / 2)
    yield Stroke(((-1.0, across), (reach + 1.0, across)), Pen.CENTRE)
    if cut:
        yield from parts.breaks(((reach, 0.0), (reach, g.width)))


def _chains(g: Sill, across: float, places: list[float], ended: bool) -> Iterator[Chain]:
    yield Chain("left", (0.0, across, g.width), ("bolt to the room-side edge", "outer edge to the bolt"), -BESIDE)
    stops = (0.0, *places, *([g.piece] if ended else []))
    names = ("end of the piece to the first bolt", *["bolt spacing"] * (len(places) - 1), "last bolt to the end")
    if len(stops) > 1:
        yield Chain("bottom", stops, names[: len(stops) - 1], 0.0, phone=(0, 1, 2)[: len(stops)])


def _spots(g: Sill, across: float, places: list[float]) -> dict[str, Spot]:
    found = {}
    if places:
        a = places[0]
        found["end"] = Spot((a / 2, across), rectangle(0.0, 0.0, a, g.width))
    if len(places) > 1:
        a, b = places[:2]
        found["spacing"] = Spot(((a + b) / 2, across), rectangle(a, 0.0, b, g.width))
    return found
