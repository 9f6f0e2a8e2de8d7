"""What a drawing is made of, before any paper: shapes in model inches (x to the right, y up), with a pen or a material.

The same shapes feed every renderer. Sizes that belong to paper (slashes, gaps, letters) are not here; a view adds them.
"""

from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]


class Pen(StrEnum):
    """Line weights by what the line means; see `PENS` for widths."""

    CUT = "cut"
    CUT_LIGHT = "cut-light"
    SEEN = "seen"
    BAR = "bar"
    HIDDEN = "hidden"
    CENTRE = "centre"
    DIMENSION = "dimension"
    SLASH = "slash"
    HATCH = "hatch"
    GRAIN = "grain"
    GOVERNS = "governs"
    GOVERNS_SLASH = "governs-slash"
    NEEDED = "needed"
    TITLE = "title"
    CARRIES = "carries"
    CARRIES_FLAG = "carries-flag"
    CARRIES_REFER = "carries-refer"
    CARRIES_UNKNOWN = "carries-unknown"


# Pen -> width in px at any zoom, dash pattern.
PENS: dict[Pen, tuple[float, str]] = {
    Pen.CUT: (2.0, ""),
    Pen.CUT_LIGHT: (1.2, ""),
    Pen.SEEN: (0.75, ""),
    Pen.BAR: (0.9, ""),
    Pen.HIDDEN: (0.75, "5 3"),
    Pen.CENTRE: (0.6, "12 3 2 3"),
    Pen.DIMENSION: (0.6, ""),
    Pen.SLASH: (1.3, ""),
    Pen.HATCH: (0.7, ""),
    Pen.GRAIN: (0.7, ""),
    Pen.GOVERNS: (1.0, ""),
    Pen.GOVERNS_SLASH: (2.2, ""),
    Pen.NEEDED: (0.75, "4 3"),
    Pen.TITLE: (1.2, ""),
    Pen.CARRIES: (2.4, ""),
    Pen.CARRIES_FLAG: (5.0, ""),
    Pen.CARRIES_REFER: (3.0, "7 4"),
    Pen.CARRIES_UNKNOWN: (2.4, "2 4"),
}


class Material(StrEnum):
    """What an area is made of; each has one hatch in every drawing."""

    CONCRETE = "concrete"
    FOAM = "foam"
    WOOD_CUT = "wood-cut"
    WOOD_SEEN = "wood-seen"
    STEEL_CUT = "steel-cut"
    STEEL_SEEN = "steel-seen"
    BRICK = "brick"
    EARTH = "earth"
    AIR = "air"


KEY_WORDS: dict[Material, str] = {
    Material.CONCRETE: "Concrete",
    Material.FOAM: "Foam",
    Material.WOOD_CUT: "Wood, cut",
    Material.WOOD_SEEN: "Wood, seen",
    Material.STEEL_CUT: "Steel, cut",
    Material.STEEL_SEEN: "Steel, seen",
    Material.BRICK: "Brick",
    Material.EARTH: "Earth",
}


@dataclass(frozen=True, slots=True)
class Area:
    """A closed area of one material.

    Args: open_edges: edges without outline (0 runs from the first to the second corner). grained, upright: whether wood seen
    shows its grain, and whether that runs upward.
    """

    corners: tuple[Point, ...]
    material: Material
    pen: Pen | None = None
    open_edges: tuple[int, ...] = ()
    grained: bool = True
    upright: bool = False


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points."""

    points: tuple[Point, ...]
    pen: Pen
    closed: bool = False


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle; solid for steel cut across, else open on paper (a hidden one has no ground)."""

    centre: Point
    radius_in: float
    solid: bool = True
    pen: Pen = Pen.SEEN


@dataclass(frozen=True, slots=True)
class Break:
    """A drafted break: the object goes on beyond the line from a to b."""

    a: Point
    b: Point


Shape = Area | Stroke | Disc | Break


def rectangle(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, ...]:
    """Corners from the lower left, anticlockwise: edges are bottom, right, top, left."""
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)
