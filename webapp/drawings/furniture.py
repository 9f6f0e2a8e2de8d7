"""What stands on every sheet: key to materials, scale bar, title with its numbered circle."""

from collections.abc import Mapping, Sequence

from engine.units import System
from webapp.drawings.hand import Hand
from webapp.drawings.hatches import grain, rings
from webapp.drawings.lettering import fitted, lines, plain, width_px
from webapp.drawings.paper import Box, Circle, Fill, Line, Panel, Words
from webapp.drawings.shapes import KEY_WORDS, Material, Pen

SWATCH = (31.0, 13.0)
KEY_ROW = 22.0
CIRCLE = 14.0

# Length of the whole bar and of one field, in the reader's unit.
BARS_IN = ((96, 24), (48, 12), (24, 6), (12, 3), (8, 4), (6, 2), (4, 2), (2, 1), (1, 0.5))
BARS_MM = ((2400, 600), (1200, 300), (600, 200), (300, 100), (200, 100), (100, 50), (50, 25))
BARS_FT = ((200, 50), (100, 25), (48, 12), (24, 6), (12, 3), (8, 2), (4, 1), (2, 1))
BARS_M = ((60, 20), (30, 10), (12, 3), (8, 2), (4, 1), (2, 1), (1, 0.5))
LONGEST_BAR = 200.0
CELL_BAR, LEAST_BAR = 110.0, 44.0


def key_size(hand: Hand, count: int, columns: int) -> tuple[float, float]:
    """Width and height of a key of so many materials [px]."""
    rows = -(-count // columns)
    column = SWATCH[0] + 9 + max(width_px(words, hand.sizes.note) for words in KEY_WORDS.values()) + 14
    return columns * column, rows * KEY_ROW


def key(hand: Hand, panel: Panel, right: float, top: float, materials: list[Material], columns: int) -> float:
    """The key to the hatches used, its right end at `right`. Returns: its lower edge [px]."""
    width, height = key_size(hand, len(materials), columns)
    column, rows = width / columns, -(-len(materials) // columns)
    for number, material in enumerate(materials):
        x = right - width + (number // rows) * column
        y = top + (number % rows) * KEY_ROW
        _swatch(panel, x, y, material)
        hand.write(x + SWATCH[0] + 9, y + 11, KEY_WORDS[material], hand.sizes.note)
    return top + height


def _swatch(panel: Panel, x: float, y: float, material: Material) -> None:
    width, height = SWATCH
    if material is Material.STEEL_SEEN:
        y, height = y + 3, 7.0
    corners = ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
    ink = panel.layers["steel"]
    ink.append(Fill(corners, material))
    if material is Material.WOOD_CUT:
        ink.extend(Line(ring, Pen.GRAIN) for ring in rings(corners, 3.2))
    elif material is Material.WOOD_SEEN:
        ink.extend(Line(line, Pen.GRAIN) for line in grain(corners))
    pen = Pen.CUT_LIGHT if material is not Material.STEEL_SEEN else Pen.SEEN
    ink.append(Line(corners, pen, closed=True))


# By whether a building is measured, and by the reader's units: the bars, their unit, inches in it.
BARS: Mapping[tuple[bool, System], tuple[Sequence[tuple[float, float]], str, float]] = {
    (False, "ft in"): (BARS_IN, "in", 1.0),
    (False, "mm"): (BARS_MM, "mm", 1 / 25.4),
    (True, "ft in"): (BARS_FT, "ft", 12.0),
    (True, "mm"): (BARS_M, "m", 1000 / 25.4),
}


def scale_bar(
    hand: Hand, panel: Panel, scale: float, right: float, y: float, longest: float = LONGEST_BAR, building: bool = False
) -> float:
    """A scale bar ending near `right`, its upper edge at y; of a building in feet or metres. Returns: its left end [px]."""
    bars, unit, inches = BARS[building, hand.system]
    per = scale * inches
    whole, field = next((bar for bar in bars if bar[0] * per <= longest), bars[-1])
    last = f"{whole:g} {unit}"
    size = hand.sizes.scale
    right -= width_px(last, size) - width_px(f"{whole:g}", size) / 2
    left = right - whole * per
    ink = panel.layers["steel"]
    for number in range(round(whole / field)):
        x0, x1 = left + number * field * per, left + (number + 1) * field * per
        corners = ((x0, y), (x1, y), (x1, y + 4.5), (x0, y + 4.5))
        ink.append(Fill(corners, "solid" if number % 2 == 0 else "paper"))
        ink.append(Line(corners, Pen.SEEN, closed=True))
    hand.room.take((left, y, right, y + 5))
    _bar_figures(hand, left, y + 5 + size, whole, field, per, last)
    return left


def _bar_figures(hand: Hand, left: float, y: float, whole: float, field: float, per: float, last: str) -> None:
    size = hand.sizes.scale
    for number in range(round(whole / field) + 1):
        at = number * field
        end = at >= whole
        if not end and number > 0 and field * per < 20:
            continue
        text = last if end else f"{at:g}"
        x = left + at * per - width_px(f"{at:g}", size) / 2
        hand.put(Words(x, y, plain(text, size), "sub"))


def title(hand: Hand, panel: Panel, tag: str, words: str, left: float, y: float, right: float) -> None:
    """The view's title on its rule, after its number in a circle; y is the circle's centre."""
    size = hand.sizes.title
    tag = fitted(tag, size, 2 * CIRCLE + 30, bold=True)
    half = max(CIRCLE, width_px(tag, size - 1, True) / 2 + 5)
    panel.layers["outline"].append(Circle(left + half, y, half, Pen.TITLE, "paper"))
    hand.room.take((left, y - CIRCLE, left + 2 * half, y - 6), (left, y + 6, left + 2 * half, y + CIRCLE))
    hand.write(left + half, y + 0.36 * size, tag, size - 1, "title", bold=True, align="middle")
    start = left + 2 * half + 10
    said = lines(words, size, right - start - 8, bold=True, most=2)
    for number, text in enumerate(reversed(said)):
        hand.write(start, y - 6 - number * size * 1.25, text, size, "title", bold=True)
    end = min(right, max(start + max(width_px(t, size, True) for t in said) + 20, start + 150))
    panel.layers["outline"].append(Line(((left + 2 * half, y), (end, y)), Pen.TITLE))


def plain_title(hand: Hand, words: str, left: float, y: float, right: float) -> None:
    """The title of a narrow sheet, without circle or rule; its last line stands at y."""
    size = hand.sizes.title
    for number, text in enumerate(reversed(lines(words, size, right - left, bold=True, most=3))):
        hand.write(left, y - number * size * 1.2, text, size, "title", bold=True)


def caption(hand: Hand, panel: Panel, words: str, cell: Box, scale: float) -> None:
    """The name of one view among several, below it, with its own scale bar where scales differ (else scale is 0)."""
    y = cell[3] - 10
    right = cell[2] - 16
    if scale:
        spare = right - cell[0] - 16 - width_px(words, hand.sizes.note, True) - 50
        right = scale_bar(hand, panel, scale, right, y - 13, max(LEAST_BAR, min(CELL_BAR, spare))) - 14
    text = fitted(words, hand.sizes.note, right - cell[0] - 16, bold=True)
    hand.write(cell[0] + 16, y, text, hand.sizes.note, "title", bold=True)
