"""A piece of a bolted ledger from the room: bolts, cut-outs behind it, joists where they may fall. u along the piece, y up from
its top edge."""

from collections.abc import Iterator

from engine import units
from engine.attachments.bolted_ledger.geometry import Ledger
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Length, Note, Scene, Spot
from webapp.drawings.shapes import Area, Disc, Material, Pen, Point, Shape, rectangle

JOIST_WIDTH = 1.5  # drawn at a usual size, without a figure
ABOVE, BELOW, BESIDE = 2.5, 1.5, 2.0


def elevation(i: Inputs, g: Ledger, system: System, frame: Frame) -> Scene:
    """The piece from the room, broken off where it is too long to show."""
    below = max(g.d, g.rows[-1] + g.hole / 2, _hangs(i, g)) + BELOW
    scale = frame.scale(min(g.piece, 30.0) + 3 * BESIDE, ABOVE + below)
    reach = min(g.piece, frame.width / scale - 2 * BESIDE)
    bolts = [(u, y) for u, y in g.bolts if u <= reach - g.D]
    places = sorted({u for u, _ in bolts})
    joists = _joists(g, reach)
    notes = []
    if g.joist_spacing is not None and joists:
        words = f"Joists at {units.show(g.joist_spacing, 'in', system)}"
        notes = [Note((joists[0], -0.3 * g.joist_depth), words, "place not set out")]
    return Scene(
        "The piece from the room",
        ((-BESIDE, -below), (reach + BESIDE, ABOVE)),
        tuple(_shapes(g, reach, bolts, joists)),
        tuple(_chains(g, reach, places, -below)),
        notes=tuple(notes),
        spots=_spots(g, places),
        lengths=_lengths(g, places),
    )


def _shapes(g: Ledger, reach: float, bolts: list[Point], joists: list[float]) -> Iterator[Shape]:
    cut = reach < g.piece - 1e-9
    yield Area(rectangle(0.0, -g.d, reach, 0.0), Material.WOOD_SEEN, Pen.CUT_LIGHT, (parts.RIGHT,) if cut else ())
    for u, y in bolts:
        if g.hole:
            yield Disc((u, -y), g.hole / 2, False, Pen.HIDDEN)
        yield Disc((u, -y), 1.4 * g.D, False, Pen.SEEN)
        yield Disc((u, -y), 0.8 * g.D)
    for u in joists:
        low, high = u - JOIST_WIDTH / 2, u + JOIST_WIDTH / 2
        yield Area(rectangle(low, -g.joist_depth, high, 0.0), Material.WOOD_CUT, Pen.CUT_LIGHT)
    if cut:
        yield from parts.breaks(((reach, -g.d), (reach, 0.0)))


def _chains(g: Ledger, reach: float, places: list[float], low: float) -> Iterator[Chain]:
    rows = (-g.d, *(-y for y in reversed(g.rows)), 0.0)
    names = ("lower bolts to the lower edge", *["between rows"] * (len(g.rows) - 1), "top edge to the upper bolts")
    yield Chain("left", rows, names, -BESIDE, "ledger depth", tuple(range(len(rows))))
    stops = (0.0, *places, *([g.piece] if reach >= g.piece - 1e-9 else []))
    if len(stops) > 1:
        along = ("end of the piece to the first bolt", *["bolt spacing"] * (len(places) - 1), "last bolt to the end")
        yield Chain("bottom", stops, along[: len(stops) - 1], low, phone=tuple(range(min(3, len(stops)))))


def _hangs(i: Inputs, g: Ledger) -> float:
    return g.joist_depth if i.direction == "perpendicular" else 0.0


def _joists(g: Ledger, reach: float) -> list[float]:
    """Stations drawn for joists: midway between bolts where the spacings agree."""
    if g.joist_spacing is None:
        return []
    first = g.end + g.spacing / 2
    while first - g.joist_spacing > JOIST_WIDTH:
        first -= g.joist_spacing
    found = []
    while first < reach - JOIST_WIDTH:
        found.append(first)
        first += g.joist_spacing
    return found


def _spots(g: Ledger, places: list[float]) -> dict[str, Spot]:
    """Places that the elevation shows best."""
    if not places:
        return {}
    a = places[0]
    upper, lower, near = -g.rows[0], -g.rows[-1], min(a, 2.0)

    def band(low: float, high: float) -> Spot:
        return Spot((a, (low + high) / 2), rectangle(a - near, min(low, high), a + near, max(low, high)))

    found = {
        "edge-top": band(upper, 0.0),
        "edge-bottom": band(-g.d, lower),
        "end": Spot((a / 2, lower), rectangle(0.0, -g.d, a, 0.0)),
    }
    if len(g.rows) > 1:
        found["rows"] = band(lower, upper)
    if len(places) > 1:
        found["spacing"] = Spot(((a + places[1]) / 2, lower), rectangle(a, -g.d, places[1], 0.0))
    return found


def _lengths(g: Ledger, places: list[float]) -> dict[str, Length]:
    """By the keys of the lines that judge them."""
    if not places:
        return {}
    a, upper, lower = places[0], -g.rows[0], -g.rows[-1]
    found = {
        "edge-top": Length((a, upper), (a, 0.0), "to the top edge"),
        "edge-bottom": Length((a, -g.d), (a, lower), "to the lower edge"),
        "end-distance": Length((0.0, lower), (a, lower), "to the end"),
        "rows-apart": Length((a, lower), (a, upper), "between rows"),
        "rows-spread": Length((a, lower), (a, upper), "between rows"),
    }
    if len(places) > 1:
        found["spacing"] = Length((a, lower), (places[1], lower), "apart")
    return found
