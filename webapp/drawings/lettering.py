"""Words on a drawing: how wide they run, how fractions are stacked, how lines are broken.

Widths are the advance widths of the common narrow grotesque (thousandths of the type size), regular and bold. A renderer is told
the width so that a reader whose machine has no narrow face gets the same extent.
"""

import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

from engine import units
from engine.setting_out import station
from engine.units import System

# fmt: off
REGULAR = (
    228, 228, 291, 456, 456, 729, 547, 157, 273, 273, 319, 479, 228, 273, 228, 228, 456, 456, 456, 456, 456, 456, 456, 456, 456,
    456, 228, 228, 479, 479, 479, 456, 832, 547, 547, 592, 592, 547, 501, 638, 592, 228, 410, 547, 456, 683, 592, 638, 547, 638,
    592, 547, 501, 592, 547, 774, 547, 547, 501, 228, 228, 228, 385, 456, 273, 456, 456, 410, 456, 456, 228, 456, 456, 182, 182,
    410, 182, 683, 456, 456, 456, 456, 273, 410, 228, 456, 410, 592, 410, 410, 410, 274, 213, 274, 479,
)
BOLD = (
    228, 273, 389, 456, 456, 729, 592, 195, 273, 273, 319, 479, 228, 273, 228, 228, 456, 456, 456, 456, 456, 456, 456, 456, 456,
    456, 273, 273, 479, 479, 479, 501, 800, 592, 592, 592, 592, 547, 501, 638, 592, 228, 456, 592, 501, 683, 592, 638, 547, 638,
    592, 547, 501, 592, 547, 774, 547, 547, 501, 273, 228, 273, 479, 456, 273, 456, 501, 456, 501, 456, 273, 501, 501, 228, 228,
    456, 228, 729, 501, 501, 501, 501, 319, 456, 273, 501, 456, 638, 456, 456, 410, 319, 230, 319, 479,
)
# fmt: on
OTHER = {
    "⁄": 137,
    "½": 684,
    "×": 479,
    "–": 456,
    "—": 820,
    "’": 228,
    "“": 410,
    "”": 410,
    "°": 400,
    "²": 273,
    "·": 273,
    "−": 479,
}
# Lines are not broken within a mixed fraction, nor between a figure and its unit.
UNBROKEN = re.compile(r"\s+(?!\d+/\d|(?:in|ft|mm|m|lb|plf|psf|psi|kN|MPa)\b)")
NUMERATOR, RISE = 0.68, 0.30


@dataclass(frozen=True, slots=True)
class Run:
    """Letters of one size; `rise` px above the line, `x` px from the start of the words."""

    text: str
    size: float
    x: float = 0.0
    rise: float = 0.0


@dataclass(frozen=True, slots=True)
class Lettering:
    """One line of words: its runs and its whole width [px]."""

    runs: tuple[Run, ...]
    width: float
    size: float
    bold: bool = False

    @property
    def text(self) -> str:
        """The words without their setting."""
        return "".join(run.text for run in self.runs)


def _thousandths(letter: str, table: tuple[int, ...]) -> int:
    code = ord(letter) - 32
    if 0 <= code < len(table):
        return table[code]
    if letter in OTHER:
        return OTHER[letter]
    if unicodedata.combining(letter):
        return 0
    return 1000 if unicodedata.east_asian_width(letter) in "WF" else 640


@lru_cache(8192)
def width_px(text: str, size: float, bold: bool = False) -> float:
    """How far a text runs [px]."""
    table = BOLD if bold else REGULAR
    return sum(_thousandths(letter, table) for letter in text) * size / 1000


def plain(text: str, size: float, bold: bool = False) -> Lettering:
    """A text in one size."""
    return Lettering((Run(text, size),), width_px(text, size, bold), size, bold)


def figure(inches: float, size: float, system: System = "ft in", bold: bool = False) -> Lettering:
    """A length as a draughtsman letters it: whole inches and a stacked fraction, or whole millimetres."""
    return stacked(units.shown(inches, "in", system).figure, size, bold)


def feet(inches: float, size: float, system: System = "ft in", bold: bool = False) -> Lettering:
    """A length along a building: feet, inches and a stacked fraction ("12-6 1/2"), or whole millimetres."""
    return stacked(station(inches, system).removesuffix(" mm"), size, bold)


def stacked(words: str, size: float, bold: bool = False) -> Lettering:
    """A figure in words, its fraction stacked."""
    whole, _, rest = words.rpartition(" ") if "/" in words else (words, "", "")
    if not rest:
        return plain(words, size, bold)
    top, _, bottom = rest.partition("/")
    x = width_px(whole, size, bold) + (0.06 * size if whole else 0.0)
    small = NUMERATOR * size
    runs = [Run(whole, size)] if whole else []
    for text, of_size, rise in ((top, small, RISE * size), ("⁄", size, 0.0), (bottom, small, 0.0)):
        runs.append(Run(text, of_size, x, rise))
        x += width_px(text, of_size, bold)
    return Lettering(tuple(runs), x, size, bold)


def with_words(letters: Lettering, words: str) -> Lettering:
    """A figure followed by a few words in its size."""
    x = letters.width + 0.28 * letters.size
    run = Run(words, letters.size, x)
    width = x + width_px(words, letters.size, letters.bold)
    return Lettering((*letters.runs, run), width, letters.size, letters.bold)


def fitted(text: str, size: float, room_px: float, bold: bool = False) -> str:
    """The text, or as many of its first letters as fit with a dash for the rest."""
    if width_px(text, size, bold) <= room_px:
        return text
    kept = text
    while kept and width_px(kept + " –", size, bold) > room_px:
        kept = kept[:-1]
    return kept.rstrip() + " –"


def lines(text: str, size: float, room_px: float, bold: bool = False, most: int = 3) -> list[str]:
    """The text broken at spaces into lines no wider than the room; what is too long even so is cut."""
    broken: list[str] = []
    line = ""
    for word in UNBROKEN.split(text.strip()):
        longer = f"{line} {word}".strip()
        if line and width_px(longer, size, bold) > room_px:
            broken.append(line)
            line = word
        else:
            line = longer
    broken.append(line)
    if len(broken) > most:
        broken = [*broken[: most - 1], " ".join(broken[most - 1 :])]
    return [fitted(line, size, room_px, bold) for line in broken]
