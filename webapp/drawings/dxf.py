"""A drawing as DXF: true to scale, one unit an inch (or a millimetre), a layer for every meaning of a line.

Dimensions are their lines and their figure as text: what is drawn measures what it says.
"""

import io
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from engine.units import System
from webapp.drawings import marks
from webapp.drawings.dxf_title import ARIAL_NARROW, CAP, STYLE, TITLE, WIDTH, TitleBlock, safe
from webapp.drawings.dxf_title import write as write_title
from webapp.drawings.lettering import Run
from webapp.drawings.paper import GEOMETRY_LAYERS, Circle, Comb, Fill, Ink, Line, Measured, Pixel, Sheet, Sign, Words
from webapp.drawings.shapes import PENS, Material, Pen

MM_IN_INCH = 25.4  # exact, by the definition of the inch
INCHES, MILLIMETRES = 1, 4  # $INSUNITS
PX_IN_INCH = 96.0  # of paper, as a browser counts
LINEWEIGHTS = (5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140)  # hundredths of a mm
LINETYPES = {
    Pen.HIDDEN: "DASHED", Pen.NEEDED: "DASHED", Pen.CARRIES_REFER: "DASHED", Pen.CENTRE: "CENTER", Pen.CARRIES_UNKNOWN: "DOT",
}  # fmt: skip
# Pattern and its size against the paper's inch; None fills solid.
PATTERNS: dict[str, tuple[str, float] | None] = {
    Material.CONCRETE: ("AR-CONC", 0.09),
    Material.FOAM: ("ANSI31", 0.6),
    Material.BRICK: ("ANSI31", 1.2),
    Material.EARTH: ("EARTH", 0.6),
    Material.STEEL_CUT: None,
    "solid": None,
}
# The nearest of the 255 colours every reader knows.
TONES = {"pass": 94, "flag": 30, "refer": 200, "advisory": 8, "not-checked": 8}
BLANK = ("paper", Material.AIR)  # paper that hides what lies under it
LEAST_BLANK_PX2 = 150.0  # smaller symbols hide nothing that matters
TEXT, HATCHES, MARKS, NOTES, BLANKS = "TEXT", "HATCHES", "VERDICTS", "NOTES", "BLANKS"
TINT = 0.8  # how much of what lies under the governing spot is seen through it
NOTE_PX = 12.5
BETWEEN_PX, UNDER_TITLE_PX = 60.0, 18.0


@dataclass(frozen=True, slots=True)
class Page:
    """One sheet with the scale its geometry is drawn at [px an inch]."""

    sheet: Sheet

    @property
    def scale(self) -> float:
        """Pixels an inch of the first view; every view of a page has the same."""
        return next((panel.scale for panel in self.sheet.panels if panel.scale > 0), 1.0)


def layer_of(pen: Pen) -> str:
    """The layer of a pen."""
    return pen.value.upper()


def render(
    sheets: Sequence[Sheet], notes: Sequence[str], system: System = "ft in", title: TitleBlock | None = None
) -> bytes:
    """Sheets one below the other as a DXF file.

    Args: sheets: each drawn at one scale. notes: a block of text below them. system: "ft in" draws in inches, "mm" in millimetres.
    title: a title block between them.
    """
    unit = MM_IN_INCH if system == "mm" else 1.0
    pages = [Page(sheet) for sheet in sheets]
    doc = _document(pages, system, unit)
    low = 0.0
    for page in pages:
        writer = _Writer(doc.modelspace(), page, unit, low)
        writer.write()
        low = writer.bottom - BETWEEN_PX * writer.factor
    factor = unit / pages[0].scale if pages else unit
    if title is not None:
        low = write_title(doc.modelspace(), title, low, factor) - UNDER_TITLE_PX * factor
    said = [line for sheet in sheets for line in (sheet.finding, sheet.description) if line]
    _notes(doc.modelspace(), [*said, *notes], low, factor)
    stream = io.StringIO()
    doc.write(stream)
    return stream.getvalue().encode("utf-8", "replace")


def _document(pages: Sequence[Page], system: System, unit: float) -> Drawing:
    doc = new("R2010", setup=["linetypes"])
    doc.header["$INSUNITS"] = MILLIMETRES if system == "mm" else INCHES
    doc.header["$MEASUREMENT"] = 1 if system == "mm" else 0
    doc.header["$LUNITS"] = 2 if system == "mm" else 4  # decimal, or feet and inches with fractions
    doc.header["$LTSCALE"] = 0.4 * unit * PX_IN_INCH / pages[0].scale if pages else 1.0
    doc.styles.add(STYLE, font="ARIALN.TTF")
    for pen in Pen:
        width, _ = PENS[pen]
        weight = min(LINEWEIGHTS, key=lambda known: abs(known - width * 25.4 / PX_IN_INCH * 100))
        doc.layers.add(layer_of(pen), linetype=LINETYPES.get(pen, "Continuous"), lineweight=weight)
    for name in (TEXT, HATCHES, MARKS, NOTES, BLANKS, TITLE):
        doc.layers.add(name)
    doc.set_wipeout_variables(frame=0)  # type: ignore[no-untyped-call]
    return doc


def _area(points: Sequence[Pixel]) -> float:
    """Of a closed outline [px²]."""
    return abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise((*points, points[0])))) / 2


def _notes(msp: Modelspace, notes: Sequence[str], top: float, factor: float) -> None:
    text = "\\P".join(_paragraph(note) for note in notes)
    mtext = msp.add_mtext(text, dxfattribs={"layer": NOTES, "style": STYLE, "char_height": NOTE_PX * CAP * factor})
    mtext.dxf.insert = (0.0, top)
    mtext.dxf.width = WIDTH * factor


def _paragraph(text: str) -> str:
    """Words inside an MTEXT, whose own codes begin with a backslash or a brace."""
    return safe(text).replace("\\", "\\\\").replace("{", "\\{").replace("}", "\\}")


class _Writer:
    """Writes one sheet into model space, its top at a level."""

    def __init__(self, msp: Modelspace, page: Page, unit: float, top: float) -> None:
        self.msp, self.sheet, self.top = msp, page.sheet, top
        self.scale, self.factor = page.scale, unit / page.scale
        self.bottom = top - page.sheet.height * self.factor

    def at(self, pixel: Pixel) -> tuple[float, float]:
        """A point of the sheet in model space."""
        return pixel[0] * self.factor, self.top - pixel[1] * self.factor

    def write(self) -> None:
        """Everything, in the order it is painted."""
        for panel in self.sheet.panels:
            if panel.lens is None:
                for name in GEOMETRY_LAYERS:
                    self._all(panel.layers[name])
        for one in self.sheet.dimensions:
            self._all(one.lines if isinstance(one, Measured) else (one,))
        for group in self.sheet.groups:
            self._all(group.ink)
            self._lettered(group.words, MARKS)
            for sign in group.signs:
                self._sign(sign)
        self._lettered(self.sheet.words, layer_of(Pen.GOVERNS))
        for sign in self.sheet.signs:
            self._sign(sign)

    def _all(self, ink: Sequence[Ink]) -> None:
        for one in ink:
            if isinstance(one, Line):
                self._line(one.points, one.closed, self._attributes(one.pen, one.tone))
            elif isinstance(one, Comb):
                for line in one.lines:
                    self._line(line, False, self._attributes(one.pen, one.tone))
            elif isinstance(one, Circle):
                self._circle(one)
            else:
                self._fill(one)

    @staticmethod
    def _attributes(pen: Pen, tone: str) -> dict[str, object]:
        found: dict[str, object] = {"layer": layer_of(pen)}
        return found | ({"color": TONES[tone]} if tone in TONES else {})

    def _line(self, points: Sequence[Pixel], closed: bool, attributes: dict[str, object]) -> None:
        placed = [self.at(point) for point in points]
        if len(placed) == 2:
            self.msp.add_line(placed[0], placed[1], dxfattribs=attributes)
        else:
            self.msp.add_lwpolyline(placed, close=closed, dxfattribs=attributes)

    def _circle(self, ink: Circle) -> None:
        attributes = self._attributes(ink.pen or Pen.SEEN, ink.tone)
        centre, radius = self.at((ink.x, ink.y)), ink.r * self.factor
        self.msp.add_circle(centre, radius, dxfattribs=attributes)
        if ink.fill in ("solid", Material.STEEL_CUT):
            hatch = self.msp.add_hatch(color=TONES.get(ink.tone, 7), dxfattribs={"layer": HATCHES})
            hatch.paths.add_edge_path().add_ellipse(centre, (radius, 0.0), 1.0)

    def _fill(self, ink: Fill) -> None:
        if ink.what in BLANK:
            if _area(ink.points) > LEAST_BLANK_PX2:
                self.msp.add_wipeout([self.at(point) for point in ink.points]).dxf.layer = BLANKS
            return
        if ink.what == "tint":
            self._tint(ink)
        if ink.what not in PATTERNS:
            return
        pattern = PATTERNS[ink.what]
        hatch = self.msp.add_hatch(
            color=TONES.get(ink.tone, 7 if pattern is None else 8), dxfattribs={"layer": HATCHES}
        )
        hatch.paths.add_polyline_path([self.at(point) for point in ink.points], is_closed=True)
        if pattern is not None:
            hatch.set_pattern_fill(
                pattern[0], scale=pattern[1] * PX_IN_INCH / self.scale
            )  # metric patterns are metric themselves

    def _tint(self, ink: Fill) -> None:
        """The governing spot, filled so that what lies under it is seen."""
        hatch = self.msp.add_hatch(color=TONES.get(ink.tone, 7), dxfattribs={"layer": layer_of(Pen.GOVERNS)})
        hatch.paths.add_polyline_path([self.at(point) for point in ink.points], is_closed=True)
        hatch.transparency = TINT

    def _lettered(self, words: Sequence[Words], judged: str) -> None:
        """Words. Args: judged: the layer of those in a verdict's colour."""
        for one in words:
            text = _spoken(one.letters.runs)
            if not text:
                continue
            attributes: dict[str, object] = {"layer": TEXT, "style": STYLE, "width": ARIAL_NARROW}
            if one.tone in TONES:
                attributes |= {"color": TONES[one.tone], "layer": judged}
            entity = self.msp.add_text(
                safe(text),
                height=one.letters.size * CAP * self.factor,
                rotation=90.0 if one.turned else 0.0,
                dxfattribs=attributes,
            )
            entity.set_placement(self.at((one.x, one.y)), align=TextEntityAlignment.LEFT)

    def _sign(self, sign: Sign) -> None:
        attributes: dict[str, object] = {"layer": MARKS, "color": TONES.get(sign.verdict.replace(" ", "-"), 7)}
        for part in marks.MARKS[sign.verdict]:
            points = [self.at((sign.x + x * sign.size / 20, sign.y + y * sign.size / 20)) for x, y in part.points]
            if part.radius:
                self.msp.add_circle(points[0], part.radius * sign.size / 20 * self.factor, dxfattribs=attributes)
            else:
                self.msp.add_lwpolyline(points, close=not part.width, dxfattribs=attributes)


def _spoken(runs: Sequence[Run]) -> str:
    """The letters of a line, a stacked fraction parted from its whole number."""
    text = ""
    for number, run in enumerate(runs):
        if number and run.rise and runs[number - 1].text:
            text += " "
        text += run.text.replace("⁄", "/")
    return text
