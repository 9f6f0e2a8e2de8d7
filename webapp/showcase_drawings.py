"""Samples of the drawings for the component page: materials, line weights, dimensions; inked by the drawings' own code."""

from dataclasses import dataclass

from markupsafe import Markup

from webapp.drawings import svg
from webapp.drawings.dimensions import String, Style, figures, ink
from webapp.drawings.hand import Hand, Sizes
from webapp.drawings.hatches import grain, rings
from webapp.drawings.paper import Fill, Line, Panel, Sheet
from webapp.drawings.room import Room
from webapp.drawings.shapes import KEY_WORDS, PENS, Material, Pen

SWATCH = (124.0, 74.0)
WEIGHT = (150.0, 12.0)
PEN_WORDS = (
    (Pen.CUT, "Cut: concrete"), (Pen.CUT_LIGHT, "Cut: foam, wood"), (Pen.SEEN, "Seen beyond"), (Pen.BAR, "Bars seen"),
    (Pen.HIDDEN, "Hidden"), (Pen.CENTRE, "Centre, level"), (Pen.DIMENSION, "Dimension, leader"),
    (Pen.GOVERNS_SLASH, "What governs"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Sample:
    """A small drawing with its words and, for a line, its weight and dash."""

    words: str
    drawing: Markup
    weight: str = ""


def _drawn(sheet: Sheet, prefix: str) -> Markup:
    return Markup(svg.render(sheet, prefix))


def _sheet(size: tuple[float, float], words: str) -> tuple[Sheet, Panel]:
    panel = Panel(scale=1.0)
    return Sheet(*size, panels=[panel], finding=words, description="A sample."), panel


def _material(material: Material, theme: str) -> Sample:
    words = KEY_WORDS[material]
    sheet, panel = _sheet(SWATCH, words)
    steel = material in (Material.STEEL_CUT, Material.STEEL_SEEN)
    top, bottom = (22.0, 52.0) if steel else (1.0, SWATCH[1] - 1)
    corners = ((1.0, top), (SWATCH[0] - 1, top), (SWATCH[0] - 1, bottom), (1.0, bottom))
    ink_of = panel.layers["steel"]
    ink_of.append(Fill(corners, material))
    if material is Material.WOOD_CUT:
        ink_of += [Line(ring, Pen.GRAIN) for ring in rings(corners)]
    elif material is Material.WOOD_SEEN:
        ink_of += [Line(line, Pen.GRAIN) for line in grain(corners)]
    ink_of.append(Line(corners, Pen.SEEN if material is Material.STEEL_SEEN else Pen.CUT_LIGHT, closed=True))
    return Sample(words, _drawn(sheet, f"{theme}-{material}"))


def _weight(pen: Pen, words: str, theme: str) -> Sample:
    sheet, panel = _sheet(WEIGHT, words)
    tone = "flag" if pen is Pen.GOVERNS_SLASH else ""
    panel.layers["outline"].append(Line(((0.0, 6.0), (WEIGHT[0], 6.0)), pen, tone=tone))
    width, dash = PENS[pen]
    return Sample(words, _drawn(sheet, f"{theme}-pen-{pen}"), f"{width:g} {dash}".strip())


def _dimensions(theme: str) -> Markup:
    """A chain with a narrow gap, what governs, and dashed beneath it what is needed; 40 px an inch."""
    sheet, _ = _sheet((300.0, 150.0), "Dimensions: a chain, what governs, what is needed")
    hand = Hand(sheet, Room((0, 0, sheet.width, sheet.height)), "ft in", Sizes())
    strings = (
        (String("x", (40, 140, 160), (2.5, 0.5), 30, (50, 50, 50), 40), Style()),
        (String("x", (40, 160), (3.0,), 85, None, 40), Style(Pen.GOVERNS, Pen.GOVERNS_SLASH, "flag", role="governs")),
        (String("x", (40, 180), (3.5,), 125, None, 40), Style(Pen.NEEDED, Pen.SEEN)),
    )
    for string, style in strings:
        ink(hand, string, style)
    for string, style in strings:
        figures(hand, string, style)
    return _drawn(sheet, f"{theme}-dimensions")


def drawings(theme: str) -> dict[str, object]:
    """The samples of one way of seeing: materials, weights, dimensions. Args: theme: keeps the ids apart."""
    return {
        "materials": [_material(material, theme) for material in KEY_WORDS],
        "weights": [_weight(pen, words, theme) for pen, words in PEN_WORDS],
        "dimensions": _dimensions(theme),
    }
