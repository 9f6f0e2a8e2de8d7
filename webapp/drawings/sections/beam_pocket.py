"""Beam pocket: section along the beam, the pocket from the room, plan at the beam.

Section: x from the room-side face of the core toward the room, y up from the seat. The engine counts x into the wall.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from engine import units
from engine.attachments.beam_pocket.geometry import Pocket, geometry
from engine.attachments.beam_pocket.inputs import STEEL_SEATS, Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Length, Level, Note, Scene, Spot, ViewPlan
from webapp.drawings.sections import pocket_faces
from webapp.drawings.shapes import Area, Material, Pen, Point, Shape, Stroke, rectangle

ABOVE, BELOW, LEAST_REACH = 7.0, 11.0, 12.0
FLANGE_STEEL = 0.6  # drawn at a usual size, without a figure
BEAM_WORDS = {
    "sawn": "Wood beam",
    "glulam": "Glued laminated beam",
    "scl": "Composite lumber beam",
    "steel": "Steel beam",
}


def plan(inputs: Inputs, system: System) -> tuple[ViewPlan, ...]:
    """Section above; the pocket from the room and in plan below."""
    g = geometry(inputs)
    return (
        ViewPlan(lambda frame: _Section(inputs, g, frame, system).scene(), row=0, tall=0.72, lens=True),
        ViewPlan(lambda frame: pocket_faces.elevation(inputs, g, frame), row=1, tall=0.44),
        ViewPlan(lambda frame: pocket_faces.level_plan(inputs, g, frame), row=1, tall=0.44, phone=False),
    )


@dataclass(slots=True)
class _Section:
    """The section while it is drawn."""

    i: Inputs
    g: Pocket
    frame: Frame
    system: System
    left: float = 0.0
    right: float = 0.0
    low: float = -BELOW
    top: float = 0.0

    def __post_init__(self) -> None:
        i = self.i
        self.left = -i.core_in - i.foam_outer_in
        self.top = max(i.pocket_height_in, self.beam_top) + ABOVE
        wall = i.foam_inner_in - self.left
        scale = self.frame.scale(wall + LEAST_REACH, self.top - self.low)
        self.right = self.left + max(wall + LEAST_REACH, self.frame.width / scale)

    @property
    def beam_low(self) -> float:
        """Underside of the beam above the seat."""
        return self.g.plate_thickness

    @property
    def beam_top(self) -> float:
        """Top of the beam above the seat."""
        return self.g.plate_thickness + self.i.depth_in

    @property
    def back(self) -> float:
        """End of the pocket; a pocket that runs through ends at the outer face of the core."""
        return -min(self.i.pocket_length_in, self.i.core_in)

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        shapes = (*self.wall(), *self.beam(), *self.breaks())
        height = units.show(self.i.seat_height_ft, "ft", self.system)
        return Scene(
            "Section along the beam",
            ((self.left, self.low), (self.right, self.top)),
            shapes,
            chains=tuple(self.chains()),
            notes=tuple(self.notes()),
            levels=(Level(0.0, height, "seat"),),
            spots=self.spots(),
            lengths=self.lengths(),
            clear=self.clear(),
            missing=tuple(self.missing()),
        )

    def wall(self) -> Iterator[Shape]:
        """Foam, the core with its pocket, a bar that passes behind it."""
        i = self.i
        high = i.pocket_height_in
        yield from parts.panel(self.left, -i.core_in, self.low, self.top, (parts.BOTTOM, parts.TOP))
        yield from parts.panel(0.0, i.foam_inner_in, self.low, 0.0, (parts.BOTTOM,))
        yield from parts.panel(0.0, i.foam_inner_in, high, self.top, (parts.TOP,))
        if self.g.behind > 0:
            corners: tuple[Point, ...] = (
                (-i.core_in, self.low), (0, self.low), (0, 0), (self.back, 0), (self.back, high), (0, high), (0, self.top),
                (-i.core_in, self.top),
            )  # fmt: skip
            yield Area(corners, Material.CONCRETE, Pen.CUT, (0, 6))
        else:
            yield Area(rectangle(-i.core_in, self.low, 0.0, 0.0), Material.CONCRETE, Pen.CUT, (parts.BOTTOM,))
            yield Area(rectangle(-i.core_in, high, 0.0, self.top), Material.CONCRETE, Pen.CUT, (parts.TOP,))
        size = parts.bar_diameter_in(i.vertical_bar)
        for x in parts.bar_places(i.curtains, i.core_in, i.cover_in, size):
            if x + size / 2 < i.core_in + self.back:
                yield parts.upright_bar(x - i.core_in, size, self.low, self.top)

    def beam(self) -> Iterator[Shape]:
        """What lies under the beam, and the beam."""
        i, g = self.i, self.g
        if g.plate_thickness:
            steel = i.seat in STEEL_SEATS
            material, pen = (Material.STEEL_CUT, None) if steel else (Material.WOOD_CUT, Pen.CUT_LIGHT)
            yield Area(rectangle(-g.seat_from - i.plate_length_in, 0.0, -g.seat_from, g.plate_thickness), material, pen)
        x0, y0, y1 = -g.beam_end, self.beam_low, self.beam_top
        if i.beam == "steel":
            yield Area(rectangle(x0, y0, self.right, y1), Material.STEEL_SEEN, Pen.CUT_LIGHT, (parts.RIGHT,))
            thick = min(FLANGE_STEEL, i.depth_in / 6)
            for y in (y0 + thick, y1 - thick):
                yield Stroke(((x0, y), (self.right, y)), Pen.SEEN)
        else:
            yield Area(rectangle(x0, y0, self.right, y1), Material.WOOD_SEEN, Pen.CUT_LIGHT, (parts.RIGHT,))

    def breaks(self) -> Iterator[Shape]:
        """Where wall and beam go on."""
        inner = self.i.foam_inner_in
        return parts.breaks(
            ((self.left, self.low), (inner, self.low)), ((self.left, self.top), (inner, self.top)),
            ((self.right, self.beam_low), (self.right, self.beam_top)),
        )  # fmt: skip

    def chains(self) -> Iterator[Chain]:
        """Wall build-up; what lies behind, the end gap, the bearing; the beam's depth."""
        i, g = self.i, self.g
        wall = (self.left, -i.core_in, 0.0, i.foam_inner_in)
        yield Chain("top", wall, ("outer foam", "core", "room-side foam"), self.top, "wall", (1, 2))
        stops, names = [0.0], []
        into = (
            (g.seat_from, "seat held back"),
            (g.seat_from + g.bearing, "bearing"),
            (g.beam_end, "beam past its plate"),
            (i.pocket_length_in, "end gap"),
            (i.core_in, "core left behind"),
        )
        for to, name in into:
            if -to < stops[-1] - 1e-9:
                stops.append(-to)
                names.append(name)
        yield Chain("bottom", tuple(reversed(stops)), tuple(reversed(names)), self.low, "core", (0, len(stops) - 1))
        yield Chain("right", (self.beam_low, self.beam_top), ("beam depth",), self.right, phone=(0, 1))

    def notes(self) -> Iterator[Note]:
        """What things are."""
        i, g = self.i, self.g
        size = f"{units.show(i.width_in, 'in', self.system)} x {units.show(i.depth_in, 'in', self.system)}"
        box = ((max(i.foam_inner_in, -g.beam_end) + 0.5, self.beam_low), (self.right - 1, self.beam_top))
        point = (0.6 * self.right, (self.beam_low + self.beam_top) / 2)
        yield Note(point, f"{BEAM_WORDS[i.beam]} {size}", i.species if i.beam in ("sawn", "glulam") else "", box)
        if g.top_gap > 0:
            gap = units.show(g.top_gap, "in", self.system)
            yield Note((self.back / 2, i.pocket_height_in - g.top_gap / 2), f"{gap} air above")
        if g.plate_thickness:
            words = "Wood plate" if i.seat == "wood_plate" else "Steel plate"
            thick = units.show(g.plate_thickness, "in", self.system)
            yield Note((-g.seat_from - 0.3, g.plate_thickness / 2), f"{words} {thick}")

    def clear(self) -> tuple[Point, Point]:
        """Empty paper under the beam."""
        return (self.i.foam_inner_in, self.low), (self.right, min(self.beam_low, 0.0))

    def spots(self) -> dict[str, Spot]:
        """Places where limit states occur."""
        i, g = self.i, self.g
        a, b = -g.seat_from - max(g.bearing, 0.25), -g.seat_from
        y = g.plate_thickness
        under = rectangle(a, 0.0, b, y) if y else rectangle(a, -0.8, b, 0.0)
        whole = rectangle(-g.beam_end, self.beam_low, i.foam_inner_in, self.beam_top)
        plate = rectangle(-g.seat_from - i.plate_length_in, 0.0, b, y) if y else under
        behind = rectangle(-i.core_in, 0.0, self.back, i.pocket_height_in)
        hollow = rectangle(self.back, 0.0, 0.0, i.pocket_height_in)
        beam = Spot((i.foam_inner_in / 2, self.beam_low + 0.3 * i.depth_in), whole)
        return {
            "": beam,
            "beam": beam,
            "bearing": Spot(((a + b) / 2, y), under),
            "plate": Spot(((a + b) / 2, y / 2), plate),
            "concrete": Spot(((a + b) / 2, -1.0), rectangle(a, -2.5, b, 0.0)),
            "pocket": Spot((self.back / 2, i.pocket_height_in - 0.1), hollow),
            "behind": Spot(((self.back - i.core_in) / 2, i.pocket_height_in / 2), behind),
            "wall": Spot((-i.core_in / 2, 0.6 * self.low), rectangle(-i.core_in, self.low, 0.0, -0.2)),
        }

    def lengths(self) -> dict[str, Length]:
        """By the keys of the lines that judge them."""
        i, g, y = self.i, self.g, self.g.plate_thickness
        bears = Length((-g.seat_from - g.bearing, y), (-g.seat_from, y), "bears")
        middle = i.pocket_height_in / 2
        behind = Length((-i.core_in, middle), (-i.pocket_length_in, middle), "behind")
        return {"bearing-code": bears, "bearing-drawing": bears, "core-behind": behind}

    def missing(self) -> Iterator[str]:
        """What the geometry leaves nothing of."""
        g = self.g
        if g.behind <= 0:
            yield "core behind the pocket: it runs through"
        if g.bearing <= 0:
            yield f"the bearing: the beam ends {units.show(-g.bearing, 'in', self.system)} short of its seat"
        if g.top_gap < 0:
            yield f"air above: the beam is {units.show(-g.top_gap, 'in', self.system)} higher than the pocket"
        if g.side_gap < 0:
            yield f"air beside: the beam is {units.show(-2 * g.side_gap, 'in', self.system)} wider than the pocket"
