"""What governs, shown where it occurs: the tint, the bold dimension with its mark, what would be needed, the lens."""

from dataclasses import dataclass
from math import hypot

from engine import units
from engine.result import LimitState, Verdict
from webapp.drawings import dimensions, notes, words
from webapp.drawings.dimensions import String, Style
from webapp.drawings.hand import Hand
from webapp.drawings.lettering import plain
from webapp.drawings.paper import Box, Circle, Fill, Line, Panel, Pixel, Sign, Words
from webapp.drawings.scene import Inner, Scene, Spot
from webapp.drawings.shapes import Pen, Point
from webapp.drawings.view import View, paint

LENS_LARGEST, LENS_LEAST = 112.0, 62.0
LENS_ABOVE, LENS_BELOW = 40.0, 66.0
FACTOR_LEAST, FACTOR_MOST = 1.4, 4.0
RING = 11.0
SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Judged:
    """The governing line as a drawn dimension: from and to [in] on one axis, what it does, and the length asked of it."""

    along: str
    stops: tuple[float, float]
    across: float
    says: str
    asked_in: float
    asks: str


def judged(state: LimitState, spot: Spot, system: units.System) -> Judged | None:
    """The governing line as a dimension, when it is a length and the spot's measure is that very length."""
    if state.unit != "in" or state.demand is None or state.capacity is None or spot.measure is None:
        return None
    (ax, ay), (bx, by) = spot.measure
    along, stops, across = ("x", (ax, bx), ay) if abs(bx - ax) >= abs(by - ay) else ("y", (ay, by), ax)
    length = stops[1] - stops[0]
    if length > 0 and abs(length - state.capacity) < SAME:
        asked, asks = state.demand, "needed"
    elif length > 0 and abs(length - state.demand) < SAME:
        asked, asks = state.capacity, "allowed"
    else:
        return None
    return Judged(along, stops, across, f"{units.show(length, 'in', system)} {spot.does}".strip(), asked, asks)


def tone(state: LimitState) -> str:
    """The verdict's name as a class of colour."""
    return state.verdict.value.replace(" ", "-")


def tint(panel: Panel, view: View, spot: Spot, colour: str) -> None:
    """A wash of the verdict's colour over the spot, its edge inked."""
    if len(spot.tint) >= 3:
        corners = view.pixels(spot.tint)
        panel.layers["tint"] += [Fill(corners, "tint", colour), Line(corners, Pen.GOVERNS, closed=True, tone=colour)]


def ring(hand: Hand, view: View, spot: Spot, colour: str) -> None:
    """The mark of a small comparison drawing: a ring round the spot."""
    x, y = view.px(spot.point)
    hand.sheet.dimensions.append(Circle(x, y, RING, Pen.GOVERNS_SLASH, tone=colour))


def note(hand: Hand, view: View, spot: Spot, state: LimitState) -> None:
    """The governing line as a note with a leader: its figure and what is asked, or its ratio."""
    measured = judged(state, spot, hand.system)
    if measured:
        said = measured.says, f"{units.show(measured.asked_in, 'in', hand.system)} {measured.asks}"
        _in_place(hand, view, measured, tone(state))
    else:
        said = words.governing(state, hand.system)
    ways = [notes.block(hand, *said, room_px=room_px, tone=tone(state)) for room_px in (230.0, 170.0, 120.0, 90.0)]
    notes.leader_note(hand, view.px(spot.point), *ways, sign=state.verdict)


def _in_place(hand: Hand, view: View, measured: Judged, colour: str) -> None:
    """The judged length inked where it is, in the verdict's colour; its figure stands in the note."""
    stops = tuple(view.px((s, 0))[0] if measured.along == "x" else view.px((0, s))[1] for s in measured.stops)
    line = view.px((0, measured.across))[1] if measured.along == "x" else view.px((measured.across, 0))[0]
    length = measured.stops[1] - measured.stops[0]
    string = String(measured.along, stops, (length,), line, None, view.scale)
    dimensions.ink(hand, string, Style(Pen.GOVERNS, Pen.GOVERNS_SLASH, colour))


@dataclass(frozen=True, slots=True)
class Lens:
    """A round window that enlarges a spot: where it stands, how far it reaches, what it shows how much larger."""

    x: float
    y: float
    r: float
    about: Point
    factor: float


def place_lens(view: View, spot: Spot, clear: Box) -> Lens | None:
    """The largest lens that fits the clear paper, or None when it would not help."""
    if len(spot.tint) < 3:
        return None
    xs, ys = [x for x, _ in spot.tint], [y for _, y in spot.tint]
    wide = max(max(xs) - min(xs), max(ys) - min(ys), 0.5)
    radius = min((clear[2] - clear[0]) / 2 - 2, (clear[3] - clear[1] - LENS_ABOVE - LENS_BELOW) / 2, LENS_LARGEST)
    factor = round(min(0.94 * radius / (wide * view.scale), FACTOR_MOST), 1)
    if radius < LENS_LEAST or factor < FACTOR_LEAST:
        return None
    about = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    return Lens(clear[2] - radius - 2, clear[1] + LENS_ABOVE + radius, radius, about, factor)


def lens(hand: Hand, view: View, scene: Scene, placed: Lens, spot: Spot, state: LimitState) -> Panel:
    """Draw the lens: the same shapes larger, the governing dimension below it, small dimensions above it."""
    panel = Panel(view.scale * placed.factor, lens=(placed.x, placed.y, placed.r))
    larger = view.enlarged(placed.about, (placed.x, placed.y), placed.factor)
    paint(panel, larger, scene.shapes)
    tint(panel, larger, spot, tone(state))
    _tether(hand, view.px(placed.about), placed)
    hand.room.busy.append(((placed.x - placed.r, placed.y - placed.r, placed.x + placed.r, placed.y + placed.r), 0.05))
    measured = judged(state, spot, hand.system)
    if measured and measured.along == "x":
        _below(hand, larger, placed, measured, state)
    else:
        note(hand, larger, spot, state)
    _above(hand, larger, placed, scene.fine)
    _factor(hand, placed)
    return panel


def _factor(hand: Hand, placed: Lens) -> None:
    said = plain(f"{placed.factor:.1f} times", hand.sizes.sub)
    aside, down = 0.72 * placed.r + 8, 0.78 * placed.r + 8
    right, left = placed.x + aside, placed.x - aside - said.width
    places = [(right, placed.y + down), (left, placed.y + down), (right, placed.y - down), (left, placed.y - down)]
    hand.somewhere(said, "sub", (placed.x, placed.y + placed.r), *places)


def _tether(hand: Hand, spot: Pixel, placed: Lens) -> None:
    """The circle round the spot and the dashed line that ties it to its lens."""
    small = placed.r / placed.factor
    away = hypot(placed.x - spot[0], placed.y - spot[1])
    ux, uy = (placed.x - spot[0]) / away, (placed.y - spot[1]) / away
    hand.sheet.dimensions += [
        Circle(*spot, small, Pen.HIDDEN),
        Line(
            ((spot[0] + ux * small, spot[1] + uy * small), (placed.x - ux * placed.r, placed.y - uy * placed.r)),
            Pen.HIDDEN,
        ),
        Circle(placed.x, placed.y, placed.r, Pen.SEEN),
    ]


def _below(hand: Hand, view: View, placed: Lens, measured: Judged, state: LimitState) -> None:
    colour, size = tone(state), hand.sizes.governs
    foot = placed.y + placed.r
    scale = view.scale
    a, b = (view.px((stop, measured.across))[0] for stop in measured.stops)
    edge = view.px((0, measured.across))[1] - dimensions.OFF_OBJECT
    style = Style(Pen.GOVERNS, Pen.GOVERNS_SLASH, colour, True, "governs")
    string = String("x", (a, b), (measured.stops[1] - measured.stops[0],), foot + 26, (edge, edge), scale)
    dimensions.ink(hand, string, style)
    says = plain(measured.says, size, bold=True)
    dimensions.figures(hand, string, style, [says])
    if state.verdict in (Verdict.PASS, Verdict.FLAG, Verdict.REFER):
        start = min(a, b - measured.asked_in * scale, (a + b - says.width) / 2) - 26
        hand.sheet.signs.append(Sign(start, foot + 12, 20, state.verdict))
        hand.room.take(hand.sheet.signs[-1].box)
    c = b - measured.asked_in * scale
    edges = (edge, foot + 34)
    needed = String("x", (c, b), (measured.asked_in,), foot + 54, edges if c < a - 3 else (foot + 34, foot + 34), scale)
    dashed = Style(Pen.NEEDED, Pen.SEEN, role="note")
    dimensions.ink(hand, needed, dashed)
    said = plain(f"{units.show(measured.asked_in, 'in', hand.system)} {measured.asks}", hand.sizes.note)
    middle, line = (c + b) / 2, foot + 54
    places = [(middle - said.width / 2, line + 1.3 * said.size), (b + 10, line + 4), (c - 10 - said.width, line + 4)]
    hand.somewhere(said, "note", (middle, line), *places)


def _above(hand: Hand, view: View, placed: Lens, fine: tuple[Inner, ...]) -> None:
    """Small dimensions over the lens, each with its few words outside."""
    line = placed.y - placed.r - 14
    for inner in fine:
        a, b = (view.px((stop, 0))[0] for stop in inner.stops)
        if inner.along != "x" or b - a < 2 or abs((a + b) / 2 - placed.x) > placed.r:
            continue
        edges = tuple(view.px((0, y))[1] for y in inner.edge_in or (inner.at_in, inner.at_in))
        string = String("x", (a, b), (inner.stops[1] - inner.stops[0],), line, edges, view.scale)
        dimensions.ink(hand, string)
        _outside(hand, string, inner, 1.0 if (a + b) / 2 > placed.x else -1.0)


def _outside(hand: Hand, string: String, inner: Inner, side: float) -> None:
    """Figure and its few words beside a string, away from the middle of the lens; above it where they would not fit."""
    size = hand.sizes.sub
    figure, label = hand.figure(string.inches[0]), plain(inner.words, size)
    end = max(string.stops) if side > 0 else min(string.stops)
    x = end + side * 11 - (0.0 if side > 0 else figure.width)
    beside = x + figure.width + 6 if side > 0 else x - 6 - label.width
    placed = Words(x, string.line + 0.36 * size, figure), Words(beside, string.line + 0.36 * size, label, "sub")
    if not all(hand.room.free(one.box) for one in placed):
        placed = Words(x, string.line - 8, figure), Words(beside, string.line - 8, label, "sub")
    if all(hand.room.free(one.box) for one in placed):
        hand.line((end, string.line), (end + side * 8, string.line))
        for one in placed:
            hand.put(one)
    else:
        dimensions.figures(hand, string, letters=[figure])
