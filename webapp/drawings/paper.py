"""The paper: what is left when a view has been scaled and laid out. Pixels, x to the right, y down; no colours, only meanings.

A sheet keeps its ink in layers and paints them in one order: hatches, bars, wood seen, wood cut, steel, hidden lines, cut outlines,
tint, dimensions, groups, halo, text, marks.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from webapp.drawings.lettering import Lettering
from webapp.drawings.shapes import Pen

GEOMETRY_LAYERS = ("hatch", "bars", "wood-seen", "wood-cut", "steel", "hidden", "outline", "tint")
Box = tuple[float, float, float, float]
Pixel = tuple[float, float]

# How far letters reach above and below their line, in type sizes.
ASCENT, DESCENT = 0.78, 0.22


@dataclass(frozen=True, slots=True)
class Line:
    """Ink along points. `tone` is the verdict whose colour it takes, if any."""

    points: tuple[Pixel, ...]
    pen: Pen
    closed: bool = False
    tone: str = ""


@dataclass(frozen=True, slots=True)
class Fill:
    """A filled area: a material's ground and hatch, "tint", "solid" ink or "paper"."""

    points: tuple[Pixel, ...]
    what: str
    tone: str = ""
    zoom: float = 1.0


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle; `fill` as in `Fill`, or "" for none."""

    x: float
    y: float
    r: float
    pen: Pen | None = None
    fill: str = ""
    tone: str = ""


@dataclass(frozen=True, slots=True)
class Comb:
    """Many separate lines of one pen, inked as one."""

    lines: tuple[tuple[Pixel, ...], ...]
    pen: Pen
    tone: str = ""


@dataclass(frozen=True, slots=True)
class Words:
    """One line of letters; (x, y) is where the line starts. Turned words run upward."""

    x: float
    y: float
    letters: Lettering
    role: str = "figure"
    turned: bool = False
    halo: bool = False
    tone: str = ""

    @property
    def box(self) -> Box:
        """The letters' extent: left, top, right, bottom [px]."""
        up, down, width = ASCENT * self.letters.size, DESCENT * self.letters.size, self.letters.width
        if self.turned:
            return self.x - up, self.y - width, self.x + down, self.y
        return self.x, self.y - up, self.x + width, self.y + down


@dataclass(frozen=True, slots=True)
class Sign:
    """A verdict mark, (x, y) its upper left corner."""

    x: float
    y: float
    size: float
    verdict: str

    @property
    def box(self) -> Box:
        """Extent [px]."""
        return self.x, self.y, self.x + self.size, self.y + self.size


@dataclass(frozen=True, slots=True)
class Measured:
    """The ink of one dimension, with what it measures and at which scale, so that it can be measured again."""

    inches: float
    scale: float
    lines: tuple[Line, ...]


Ink = Line | Fill | Circle | Comb


@dataclass(frozen=True, slots=True)
class Group:
    """Ink and words that belong together.

    Args: data: what a script may read of them, by name (letters and hyphens). href: where pressing them leads; label: said of that.
    """

    ink: tuple[Ink, ...] = ()
    words: tuple[Words, ...] = ()
    signs: tuple[Sign, ...] = ()
    data: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    href: str = ""
    label: str = ""


@dataclass(slots=True)
class Panel:
    """The geometry of one view in its layers, perhaps seen through a round lens (x, y, r)."""

    scale: float
    lens: tuple[float, float, float] | None = None
    layers: dict[str, list[Ink]] = field(default_factory=lambda: {name: [] for name in GEOMETRY_LAYERS})


def overlap(a: Box, b: Box) -> float:
    """Area two boxes share [px²]."""
    width = min(a[2], b[2]) - max(a[0], b[0])
    if width <= 0:
        return 0.0
    height = min(a[3], b[3]) - max(a[1], b[1])
    return width * height if height > 0 else 0.0


def grown(box: Box, by: float) -> Box:
    """A box with a margin."""
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def around(boxes: Iterable[Box]) -> Box:
    """The least box around several."""
    left, top, right, bottom = zip(*boxes, strict=True)
    return min(left), min(top), max(right), max(bottom)


@dataclass(slots=True)
class Sheet:
    """One drawing, ready for a renderer."""

    width: float
    height: float = 0.0
    panels: list[Panel] = field(default_factory=list)
    dimensions: list[Measured | Ink] = field(default_factory=list)
    groups: list[Group] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    signs: list[Sign] = field(default_factory=list)
    finding: str = ""
    description: str = ""
