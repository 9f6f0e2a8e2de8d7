"""Samples for the page of components: every material, every line weight, the ways dimensions and notes are drawn."""

from dataclasses import dataclass

from markupsafe import Markup

from engine.result import Verdict
from webapp.drawings import dimensions, notes, svg
from webapp.drawings.dimensions import String, Style
from webapp.drawings.hand import Hand, Sizes
from webapp.drawings.hatches import grain, rings
from webapp.drawings.lettering import plain
from webapp.drawings.paper import Fill, Line, Panel, Sheet, Sign
from webapp.drawings.room import Room
from webapp.drawings.shapes import KEY_WORDS, PENS, Material, Pen

PIECE = (124.0, 74.0)
WEIGHTS = (
    (Pen.CUT, "Cut: concrete"),
    (Pen.CUT_LIGHT, "Cut: foam, wood"),
    (Pen.SEEN, "Seen beyond"),
    (Pen.BAR, "Bars seen"),
    (Pen.DIMENSION, "Dimension, leader"),
    (Pen.HIDDEN, "Hidden"),
    (Pen.CENTRE, "Centre, level"),
    (Pen.GOVERNS_SLASH, "What governs"),
)
SCALE = 16.0  # pixels an inch of the dimension samples


@dataclass(frozen=True, slots=True)
class Sample:
    """A small drawing with its words and, for a line, its weight and dashes."""

    words: str
    drawing: Markup
    weight: str = ""


def drawings(theme: str) -> dict[str, object]:
    """The samples of one way of seeing: materials, weights, dimensions. Args: theme: keeps the ids of several sets apart."""
    return {
        "materials": [Sample(words, _piece(material, words, theme)) for material, words in KEY_WORDS.items()],
        "weights": [_weight(pen, words, theme) for pen, words in WEIGHTS],
        "dimensions": _dimension_styles(theme),
    }


def _drawn(sheet: Sheet, prefix: str) -> Markup:
    return Markup(svg.render(sheet, prefix))


def _piece(material: Material, words: str, theme: str) -> Markup:
    width, height = PIECE
    top, bottom = (22.0, 52.0) if material in (Material.STEEL_CUT, Material.STEEL_SEEN) else (1.0, height - 1)
    corners = ((1.0, top), (width - 1, top), (width - 1, bottom), (1.0, bottom))
    panel = Panel(1.0)
    ink = panel.layers["hatch"]
    ink.append(Fill(corners, material))
    if material is Material.WOOD_CUT:
        ink.extend(Line(ring, Pen.GRAIN) for ring in rings(corners))
    elif material is Material.WOOD_SEEN:
        ink.extend(Line(line, Pen.GRAIN) for line in grain(corners))
    if material is Material.EARTH:
        ink.append(Line(corners[:2], Pen.CUT_LIGHT))
    else:
        pen = Pen.SEEN if material in (Material.STEEL_SEEN, Material.FOAM) else Pen.CUT_LIGHT
        ink.append(Line(corners, pen, closed=True))
    sheet = Sheet(width, height, [panel], finding=f"{words}, as it is drawn.")
    return _drawn(sheet, f"{theme}-{material}")


def _weight(pen: Pen, words: str, theme: str) -> Sample:
    width, dash = PENS[pen]
    panel = Panel(1.0)
    tone = Verdict.FLAG.value if pen is Pen.GOVERNS_SLASH else ""
    panel.layers["outline"].append(Line(((1, 6), (149, 6)), pen, tone=tone))
    sheet = Sheet(150, 12, [panel], finding=f"{words}: a line {width} px wide.")
    return Sample(words, _drawn(sheet, f"{theme}-pen-{pen}"), f"{width:g} {dash}".strip())


def _dimension_styles(theme: str) -> Markup:
    """A chain, a narrow gap, an upright string, what governs with what is needed, a level mark, a leader."""
    sheet = Sheet(560, 210, finding="How dimensions, levels and leaders are drawn.")
    hand = Hand(sheet, Room((0, 0, 560, 210)), "ft in", Sizes())
    _strings(hand)
    _governing(hand)
    notes.level_mark(hand, 190, 20, 150, "9 ft 4 in", "")
    hand.write(160, 194, "level", hand.sizes.sub, "sub")
    notes.leader_note(hand, (330, 182), notes.block(hand, "Leader: note"))
    return _drawn(sheet, f"{theme}-dimensions")


def _strings(hand: Hand) -> None:
    chain = String("x", (30, 30 + 7 * SCALE, 30 + 10 * SCALE), (7, 3), 36, (62, 62, 62), SCALE)
    narrow = String("x", (250, 250 + 1.125 * SCALE), (1.125,), 36, (62, 62), SCALE)
    upright = String("y", (40, 40 + 5.875 * SCALE), (5.875,), 520, (480, 480), SCALE)
    for string in (chain, narrow, upright):
        dimensions.ink(hand, string)
        dimensions.figures(hand, string)
    hand.write(305, 40, "narrow: figure outside", hand.sizes.sub, "sub")


def _governing(hand: Hand) -> None:
    flag = Verdict.FLAG.value
    ends = (30.0, 30 + 10 * SCALE)
    judged = String("x", ends, (10,), 100, None, SCALE)
    needed = String("x", ends, (10,), 146, None, SCALE)
    governs, asked = (
        Style(Pen.GOVERNS, Pen.GOVERNS_SLASH, flag, role="governs"),
        Style(Pen.NEEDED, Pen.SEEN, role="note"),
    )
    for string, style, letters in (
        (judged, governs, plain("3 in bears", hand.sizes.governs, True)),
        (needed, asked, plain("3 1/2 in needed", hand.sizes.note)),
    ):
        dimensions.ink(hand, string, style)
        dimensions.figures(hand, string, style, [letters])
    hand.sheet.signs.append(Sign(2, 86, 20, flag))
    hand.write(210, 104, "what governs", hand.sizes.sub, "sub")
    hand.write(210, 150, "what is needed", hand.sizes.sub, "sub")
