"""The lens: the governing spot enlarged beside its view, with the judged dimension below it and small dimensions above it."""

from dataclasses import dataclass
from math import hypot

from engine import units
from engine.result import LimitState, Verdict
from webapp.drawings import dimensions, governing
from webapp.drawings.dimensions import String, Style
from webapp.drawings.governing import Judged, judged, tint, tone
from webapp.drawings.hand import Block, Hand
from webapp.drawings.lettering import plain
from webapp.drawings.paper import Box, Circle, Line, Panel, Pixel, Sign, Words
from webapp.drawings.scene import Inner, Scene, Spot
from webapp.drawings.shapes import Pen, Point
from webapp.drawings.view import View, paint

LARGEST, LEAST = 112.0, 70.0
ABOVE, BELOW = 40.0, 66.0
FACTOR_LEAST, FACTOR_MOST = 1.4, 4.0


@dataclass(frozen=True, slots=True)
class Lens:
    """A round window that enlarges a spot: where it stands, how far it reaches, what it shows how much larger."""

    x: float
    y: float
    r: float
    about: Point
    factor: float

    def view(self, of: View) -> View:
        """What is seen through it of a view."""
        return of.enlarged(self.about, (self.x, self.y), self.factor)


def place(view: View, spot: Spot, clear: Box) -> Lens | None:
    """The largest lens that fits the clear paper, or None when it would not help."""
    if len(spot.tint) < 3:
        return None
    xs, ys = [x for x, _ in spot.tint], [y for _, y in spot.tint]
    wide = max(max(xs) - min(xs), max(ys) - min(ys), 0.5)
    radius = min((clear[2] - clear[0]) / 2 - 2, (clear[3] - clear[1] - ABOVE - BELOW) / 2, LARGEST)
    factor = round(min(0.94 * radius / (wide * view.scale), FACTOR_MOST), 1)
    if radius < LEAST or factor < FACTOR_LEAST:
        return None
    about = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    return Lens(clear[2] - radius - 2, clear[1] + ABOVE + radius, radius, about, factor)


def draw(hand: Hand, view: View, scene: Scene, placed: Lens, spot: Spot, state: LimitState) -> bool:
    """Draw the lens: the same shapes larger. Returns: whether the governing line stands below it as a dimension."""
    panel = Panel(view.scale * placed.factor, lens=(placed.x, placed.y, placed.r))
    hand.sheet.panels.append(panel)
    larger = placed.view(view)
    paint(panel, larger, scene.shapes)
    tint(panel, larger, spot, tone(state))
    _tether(hand, view.px(placed.about), placed)
    hand.room.busy.append(((placed.x - placed.r, placed.y - placed.r, placed.x + placed.r, placed.y + placed.r), 0.05))
    measured = judged(state, scene, hand.system)
    if measured is not None and measured.along == "x":
        _judged_below(hand, larger, placed, measured, state)
        below = True
    else:
        below = _said_below(
            hand, larger.px(spot.point), placed, governing.ways(hand, state, scene, 2 * placed.r), state
        )
    _above(hand, larger, placed, scene.fine)
    _factor(hand, placed)
    return below


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


def _said_below(hand: Hand, target: Pixel, placed: Lens, ways: list[Block], state: LimitState) -> bool:
    """The governing line in words under the lens, a leader straight down to it. Returns: whether there was room."""
    foot = placed.y + placed.r
    mark = 24.0
    options = []
    for said in ways:
        _, up, width, down = said.box(0, 0)
        for n, x in enumerate((placed.x - (width + mark) / 2, placed.x - placed.r, placed.x + placed.r - width - mark)):
            y = foot + 12 - up
            options.append((float(n), (x, y + up, x + mark + width, y + down), (said, x, y)))
    chosen = hand.room.choose(options)
    if chosen is None:
        return False
    said, x, y = chosen
    hand.sheet.words.extend(said.words(x + mark, y, halo=True))
    hand.sheet.signs.append(Sign(x, y - 0.36 * said.lines[0][0].size - 10, 20, state.verdict))
    end = min(max(target[0], x + 8), x + mark + said.width)
    hand.sheet.dimensions += [
        Line((target, (end, foot + 9)), Pen.GOVERNS, tone=said.tone),
        Circle(*target, 2.4, fill="solid", tone=said.tone),
    ]
    return True


def _judged_below(hand: Hand, view: View, placed: Lens, measured: Judged, state: LimitState) -> None:
    """The judged length under the lens, bold and with its mark; what is asked of it, dashed, under that."""
    foot = placed.y + placed.r
    a, b = (view.px((stop, measured.across))[0] for stop in measured.stops)
    c = b - measured.asked_in * view.scale
    edge = view.px((0, measured.across))[1] - dimensions.OFF_OBJECT
    style = Style(Pen.GOVERNS, Pen.GOVERNS_SLASH, tone(state), True, "governs")
    string = String("x", (a, b), (measured.stops[1] - measured.stops[0],), foot + 26, (edge, edge), view.scale)
    dimensions.ink(hand, string, style)
    dimensions.figures(hand, string, style, [plain(measured.says, hand.sizes.governs, bold=True)])
    if state.verdict in (Verdict.PASS, Verdict.FLAG, Verdict.REFER):
        left = min(a, hand.sheet.words[-1].box[0], max(c, placed.x - placed.r)) - 27
        sign = Sign(left, foot + 12, 20, state.verdict)
        hand.sheet.signs.append(sign)
        hand.room.take(sign.box)
    asked = f"{units.show(measured.asked_in, 'in', hand.system)} {measured.asks}"
    _needed(hand, view.scale, (a, c, b), (edge, foot), measured.asked_in, asked)


def _needed(
    hand: Hand, scale: float, at: tuple[float, float, float], levels: tuple[float, float], asked_in: float, words: str
) -> None:
    """The dashed dimension of what would be needed. Args: at: start of the judged length, start of this one, their common end."""
    a, c, b = at
    edge, foot = levels
    line = foot + 54
    said = plain(words, hand.sizes.note)
    if c > hand.room.bounds[0] + 12:  # longer than the sheet: the words alone
        edges = (edge if c < a - 3 else foot + 34, foot + 34)
        dimensions.ink(
            hand, String("x", (c, b), (asked_in,), line, edges, scale), Style(Pen.NEEDED, Pen.SEEN, role="note")
        )
    middle = (max(c, a - 40) + b) / 2
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
