"""Dimension strings: 45 degree slashes, extension lines that keep off the object, figures that are never lost."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from webapp.drawings.hand import Hand, rounds
from webapp.drawings.lettering import Lettering
from webapp.drawings.paper import Box, Line, Measured, Pixel, Words
from webapp.drawings.shapes import Pen

SLASH = 4.0  # half of its width and height
OFF_OBJECT, PAST_LINE = 4.0, 6.0
NARROW = 22.0
LIFT = 4.0  # figure above its line
APART = 3.0  # a whole number and a neighbour's fraction must not read as one figure

Place = tuple[float, Box, tuple[Words, tuple[Pixel, ...]]]


@dataclass(frozen=True, slots=True)
class Style:
    """How a string is inked: pens, colour, halo under its figures."""

    pen: Pen = Pen.DIMENSION
    slash: Pen = Pen.SLASH
    tone: str = ""
    halo: bool = False
    role: str = "figure"


PLAIN = Style()
OVER_HATCH = Style(halo=True)


@dataclass(frozen=True, slots=True)
class String:
    """One dimension string on paper.

    Args: along: "x" or "y". stops: pixels along that axis. inches: what each gap measures. line: pixel of the dimension line on the
    other axis. edges: pixel where the object ends at each stop, or None for no extension lines. scale: pixels an inch.
    """

    along: str
    stops: tuple[float, ...]
    inches: tuple[float, ...]
    line: float
    edges: tuple[float, ...] | None
    scale: float

    @property
    def outward(self) -> int:
        """Which way the string lies from its object: 1 toward larger pixels."""
        return 1 if self.edges is not None and self.line > self.edges[0] else -1

    def at(self, along: float, across: float) -> Pixel:
        """A pixel from its place along and across the string."""
        return (along, across) if self.along == "x" else (across, along)


def ink(hand: Hand, string: String, style: Style = PLAIN) -> None:
    """Draw the lines of a string; figures are written by `figures`, which then keeps other words off these lines."""
    for number, inches in enumerate(string.inches):
        ends = string.stops[number], string.stops[number + 1]
        lines = [Line((string.at(ends[0], string.line), string.at(ends[1], string.line)), style.pen, tone=style.tone)]
        for stop in (number, number + 1) if number == 0 else (number + 1,):
            lines.extend(_end(string, stop, style))
        hand.sheet.dimensions.append(Measured(inches, string.scale, tuple(lines)))


def _end(string: String, stop: int, style: Style) -> Iterator[Line]:
    where = string.stops[stop]
    if string.edges is not None:
        edge = string.edges[stop]
        away = 1.0 if string.line > edge else -1.0
        if abs(string.line - edge) > OFF_OBJECT + 1:
            ends = string.at(where, edge + away * OFF_OBJECT), string.at(where, string.line + away * PAST_LINE)
            yield Line(ends, Pen.NEEDED if style.pen is Pen.NEEDED else Pen.DIMENSION, tone=style.tone)
    x, y = string.at(where, string.line)
    yield Line(((x - SLASH, y + SLASH), (x + SLASH, y - SLASH)), style.slash, tone=style.tone)


def figures(hand: Hand, string: String, style: Style = PLAIN, letters: Sequence[Lettering] = ()) -> None:
    """Write the figures of a string, each where there is room: in the gap, beside the string, or off it with a leader."""
    last = len(string.inches) - 1
    options_of = _level if string.along == "x" else _upright
    order = sorted(range(last + 1), key=lambda n: -abs(string.stops[n + 1] - string.stops[n]))
    for n in order:
        text = letters[n] if letters else hand.figure(string.inches[n])
        ends = sorted((string.stops[n], string.stops[n + 1]))
        outer = _outer_ends(string, n)
        options = options_of(ends, string.line, text, outer, string.outward)
        place = hand.room.choose(_styled(options, style))
        if place is None:
            place = hand.room.choose(_styled(_anywhere(string, ends, text), style))
        if place is not None:
            words, leader = place
            hand.sheet.words.append(words)
            if leader:
                hand.line(*leader, tone=style.tone)
    hand.mind(tuple(string.at(stop, string.line) for stop in string.stops))


def _outer_ends(string: String, n: int) -> tuple[bool, bool]:
    """Whether the gap's lower and upper pixel end are an end of the whole string."""
    ends = sorted((string.stops[n], string.stops[n + 1]))
    return ends[0] == min(string.stops), ends[1] == max(string.stops)


def _styled(options: Iterator[tuple[float, Words, tuple[Pixel, ...]]], style: Style) -> Iterator[Place]:
    for cost, words, leader in options:
        styled = Words(words.x, words.y, words.letters, style.role, words.turned, style.halo, style.tone)
        left, top, right, bottom = styled.box
        clear = (
            (left, top - APART, right, bottom + APART) if styled.turned else (left - APART, top, right + APART, bottom)
        )
        yield cost, clear, (styled, leader)


def _level(
    ends: list[float], line: float, text: Lettering, outer: tuple[bool, bool], away: int
) -> Iterator[tuple[float, Words, tuple[Pixel, ...]]]:
    low, high = ends
    middle, width, base = (low + high) / 2, text.width, line + 0.36 * text.size
    if high - low >= max(NARROW, width + 6):
        yield 0.0, Words(middle - width / 2, line - LIFT, text), ()
    if outer[1]:
        yield 0.5, Words(high + 11, base, text), ((high, line), (high + 9, line))
    if outer[0]:
        yield 0.6, Words(low - 11 - width, base, text), ((low, line), (low - 9, line))
    for tier in range(1, 4):
        for aside in (0.0, 0.7 * width, -0.7 * width, 1.4 * width, -1.4 * width):
            for up in (-1, 1):
                y = line - LIFT - tier * (text.size + 2) if up < 0 else line + text.size + tier * (text.size + 2) - 8
                end = y + 2 if up < 0 else y - text.size + 1
                leader = ((middle, line), (middle + aside, end))
                yield (
                    2.0 * tier + abs(aside) / 20 + (0 if up == away else 3),
                    Words(middle + aside - width / 2, y, text),
                    leader,
                )


def _upright(
    ends: list[float], line: float, text: Lettering, outer: tuple[bool, bool], away: int
) -> Iterator[tuple[float, Words, tuple[Pixel, ...]]]:
    low, high = ends
    middle, width, base = (low + high) / 2, text.width, 0.36 * text.size
    if high - low >= max(NARROW, width + 6):
        yield 0.0, Words(line - LIFT, middle + width / 2, text, turned=True), ()
    tight = high - low < text.size  # extension lines would strike the figure through
    x_away, x_near = (line + 8, line - 8 - width) if away > 0 else (line - 8 - width, line + 8)
    yield 5.0 if tight else 0.5, Words(x_away, middle + base, text), ()
    yield 6.0 if tight else 0.8, Words(x_near, middle + base, text), ()
    if outer[0]:
        yield 1.2, Words(line + 6, low - 5, text), ()
    if outer[1]:
        yield 1.2, Words(line + 6, high + 5 + text.size * 0.75, text), ()
    for tier in range(1, 5):
        for up in (-1, 1):
            y = middle + up * tier * (text.size + 1)
            for x, cost in ((line + 15, 0.0), (line - 15 - width, 0.5)):
                near = x - 2 if x > line else x + width + 2
                yield 1.5 * tier + cost, Words(x, y + base, text), ((line, middle), (near, y))


def _anywhere(string: String, ends: list[float], text: Lettering) -> Iterator[tuple[float, Words, tuple[Pixel, ...]]]:
    """Further off, with a leader: a figure is never left out."""
    foot = string.at((ends[0] + ends[1]) / 2, string.line)
    for distance, (x, y) in rounds(foot, 30, 420):
        start = x if x >= foot[0] else x - text.width
        yield distance / 4, Words(start, y + 0.36 * text.size, text), (foot, (x - 2 if x >= foot[0] else x + 2, y))
