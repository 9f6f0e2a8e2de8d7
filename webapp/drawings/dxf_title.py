"""The title block of a DXF file: whose drawing it is, its scale, what it rests on, and the caution that no sheet goes without."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from webapp.drawings.lettering import fitted, lines

if TYPE_CHECKING:
    from ezdxf.layouts.layout import Modelspace

TITLE, STYLE = "TITLE-BLOCK", "LETTERS"
WIDTH, LABELS, ROW, INSET = 640.0, 96.0, 22.0, 8.0  # px, like the rest of a sheet
SIZE, SMALL = 12.5, 11.0
CAP = 0.716  # height of capitals in type sizes, which is what DXF calls the height of a text
ARIAL_NARROW = 0.82  # width of the narrow face against the usual one
CAUTION_LINES = 3


@dataclass(frozen=True, slots=True)
class TitleBlock:
    """What stands in it. Args: rows: label and value. caution: in words, across the foot."""

    rows: tuple[tuple[str, str], ...]
    caution: str = ""


def safe(text: str) -> str:
    """Words as a DXF text that shows them letter for letter: no control codes, no half characters."""
    whole = text.encode("utf-8", "replace").decode("utf-8")
    plain = "".join(
        letter if letter.isprintable() or letter == "\u202e" or ord(letter) > 127 else " " for letter in whole
    )
    for code in ("%%", "\\U+", "\\M+"):  # a joiner of no width keeps them from being read as codes
        plain = plain.replace(code, f"{code[0]}\u2060{code[1:]}")
    return plain.replace("^", "^ ")


def write(msp: "Modelspace", block: TitleBlock, top: float, factor: float) -> float:
    """Draw the block below a level. Args: top: the level. factor: units a pixel. Returns: its lower edge."""
    from ezdxf.enums import TextEntityAlignment  # here, so that a server starts without it

    said = lines(block.caution, SMALL, WIDTH - 2 * INSET, most=CAUTION_LINES) if block.caution else []
    caution = ROW * len(said)
    high = ROW * len(block.rows) + caution

    def rule(x0: float, y0: float, x1: float, y1: float) -> None:
        ends = (x0 * factor, top - y0 * factor), (x1 * factor, top - y1 * factor)
        msp.add_line(*ends, dxfattribs={"layer": TITLE})

    def letter(x: float, row: int, text: str, size: float) -> None:
        entity = msp.add_text(
            safe(text),
            height=size * CAP * factor,
            dxfattribs={"layer": TITLE, "style": STYLE, "width": ARIAL_NARROW},
        )
        entity.set_placement((x * factor, top - (ROW * row + 0.68 * ROW) * factor), align=TextEntityAlignment.LEFT)

    for number, (label, value) in enumerate(block.rows):
        rule(0, ROW * number, WIDTH, ROW * number)
        letter(INSET, number, label, SMALL)
        letter(LABELS + INSET, number, fitted(value, SIZE, WIDTH - LABELS - 2 * INSET), SIZE)
    for number, line in enumerate(said, len(block.rows)):
        letter(INSET, number, line, SMALL)
    for y in (high - caution, high):
        rule(0, y, WIDTH, y)
    rule(0, 0, 0, high)
    rule(WIDTH, 0, WIDTH, high)
    rule(LABELS, 0, LABELS, high - caution)
    return top - high * factor
