"""What is set along a wall, as small plain symbols, and the key to them."""

from collections.abc import Mapping

from engine.setting_out import WORDS
from webapp.drawings.hand import Hand
from webapp.drawings.lettering import width_px
from webapp.drawings.paper import Circle, Comb, Fill, Group, Ink, Line, Pixel
from webapp.drawings.shapes import Pen

HALF = 4.5  # half the height of a symbol
KEY_ROW, KEY_GAP = 20.0, 22.0
HEADERED = "joist on a header"


def _square(x: float, y: float, half_x: float, half_y: float) -> tuple[Pixel, ...]:
    return (x - half_x, y - half_y), (x + half_x, y - half_y), (x + half_x, y + half_y), (x - half_x, y + half_y)


def symbol(what: str, x: float, y: float, quiet: bool = False, headered: bool = False) -> tuple[Ink, ...]:
    """The symbol of one thing, its middle at (x, y). Args: quiet: beside what is in focus. headered: an opening takes it."""
    thin = Pen.DIMENSION if quiet else Pen.SEEN
    bold = Pen.DIMENSION if quiet else Pen.SLASH
    if what == "joist":
        corners = _square(x, y, 1.8, HALF)
        return (Line(corners, Pen.HIDDEN, True),) if headered else (Fill(corners, "paper"), Line(corners, thin, True))
    if what == "anchor":
        return (Circle(x, y, 2.6, thin, "paper" if quiet else "solid"),)
    if what == "plate":
        corners = _square(x, y, 1.3, HALF)
        return (Fill(corners, "paper"), Line(corners, thin, True)) if quiet else (Fill(corners, "solid"),)
    if what == "anchored":
        corners = _square(x, y, HALF, HALF)
        return Fill(corners, "paper"), Line(corners, thin, True), Circle(x, y, 1.3, fill="solid")
    if what == "pocket":
        corners = _square(x, y, HALF, HALF)
        cross = Comb(((corners[0], corners[2]), (corners[1], corners[3])), thin)
        return Fill(corners, "paper"), Line(corners, thin, True), cross
    return (Comb(_strokes(what, x, y), bold),)


def _strokes(what: str, x: float, y: float) -> tuple[tuple[Pixel, ...], ...]:
    if what == "tie":
        return ((x - 3, y - HALF), (x + 3, y - HALF)), ((x, y - HALF), (x, y + HALF))
    if what == "bracket":
        return (((x - 2, y - HALF), (x - 2, y + HALF), (x + 3, y + HALF)),)
    if what == "stirrup":
        return (((x - 2.5, y - HALF), (x - 2.5, y + 3), (x + 2.5, y + 3), (x + 2.5, y - HALF)),)
    return (((x, y - HALF), (x, y + HALF)),)  # a bar


def key(hand: Hand, counts: Mapping[str, int], left: float, top: float, right: float) -> float:
    """The symbols used with their words and numbers, in lines. Returns: the lower edge of the last line [px]."""
    size, x, y = hand.sizes.note, left, top
    ink: list[Ink] = []
    for what, count in counts.items():
        one, several = WORDS.get(what, (what, what))
        said = f"{count} {one if count == 1 else several}" if what in WORDS else what
        width = 14 + width_px(said, size)
        if x > left and x + width > right:
            x, y = left, y + KEY_ROW
        ink += symbol("joist" if what == HEADERED else what, x + 5, y, headered=what == HEADERED)
        hand.write(x + 14, y + 0.36 * size, said, size)
        x += width + KEY_GAP
    hand.sheet.groups.append(Group(tuple(ink)))
    return y + KEY_ROW / 2
