"""The key of a plan: what its lines mean."""

from collections.abc import Mapping, Sequence

from engine.result import Verdict
from webapp.drawings.hand import Hand
from webapp.drawings.lettering import width_px
from webapp.drawings.paper import Circle, Comb, Fill, Ink, Line, Panel, Pixel
from webapp.drawings.plan_words import Carried
from webapp.drawings.shapes import Pen
from webapp.drawings.words import VERDICT_WORDS

KEY_ROW = 20.0
PENS: Mapping[Verdict, Pen] = {
    Verdict.FLAG: Pen.CARRIES_FLAG,
    Verdict.REFER: Pen.CARRIES_REFER,
    Verdict.UNCHECKED: Pen.CARRIES_UNKNOWN,
}


def pen_of(verdict: Verdict) -> tuple[Pen, str]:
    """Pen and colour of what carries with that verdict."""
    return PENS.get(verdict, Pen.CARRIES), verdict.value.replace(" ", "-")


def key(hand: Hand, panel: Panel, rows: Sequence[Carried], left: float, y: float, right: float) -> float:
    """What the lines mean. Returns: the lower edge [px]."""
    size, x = hand.sizes.note, left
    for words, ink in _key_items(rows):
        width = 40 + width_px(words, size)
        if x > left and x + width > right:
            x, y = left, y + KEY_ROW
        panel.layers["outline"] += [_shifted(one, x, y) for one in ink]
        hand.write(x + 36, y + 0.36 * size, words, size)
        x += width + 18
    return y + KEY_ROW / 2


def _key_items(rows: Sequence[Carried]) -> list[tuple[str, tuple[Ink, ...]]]:
    core = Fill(((0, -3), (30, -3), (30, 3), (0, 3)), "solid")
    items: list[tuple[str, tuple[Ink, ...]]] = [
        ("core between foam", (core, Comb((((0, -5.5), (30, -5.5)), ((0, 5.5), (30, 5.5))), Pen.SEEN)))
    ]
    for verdict in (Verdict.PASS, Verdict.FLAG, Verdict.REFER, Verdict.UNCHECKED):
        if any(row.verdict == verdict for row in rows):
            pen, tone = pen_of(verdict)
            items.append((f"carries, {VERDICT_WORDS[verdict].lower()}", (Line(((0, 0), (30, 0)), pen, tone=tone),)))
    if any(row.end_ft is None for row in rows):
        box = ((11, -4), (19, -4), (19, 4), (11, 4))
        items.append(("pocket or plate", (Fill(box, "paper"), Line(box, Pen.CUT_LIGHT, True))))
    if any(row.joists for row in rows):
        ends = tuple(((x, -6), (x, 6)) for x in (3, 11, 19, 27))
        items.append(("joist ends", (Comb(ends, Pen.HATCH),)))
    return items


def _shifted(ink: Ink, x: float, y: float) -> Ink:
    def moved(points: tuple[Pixel, ...]) -> tuple[Pixel, ...]:
        return tuple((px + x, py + y) for px, py in points)

    if isinstance(ink, Comb):
        return Comb(tuple(moved(line) for line in ink.lines), ink.pen, ink.tone)
    if isinstance(ink, Line):
        return Line(moved(ink.points), ink.pen, ink.closed, ink.tone)
    if isinstance(ink, Circle):
        return Circle(ink.x + x, ink.y + y, ink.r, ink.pen, ink.fill, ink.tone)
    return Fill(moved(ink.points), ink.what, ink.tone)
