"""Cast-in plate and screws: section at a joist; below it the screws in the joist's end, and the part from above.

Section and face: x from the room-side face of the core toward the room, y up from the joist's top edge.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from engine import units
from engine.attachments.cast_in_plate.geometry import Plate, geometry
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Length, Note, Scene, Spot, ViewPlan
from webapp.drawings.sections import plate_faces
from webapp.drawings.shapes import Area, Disc, Material, Pen, Point, Shape, Stroke, rectangle

ABOVE, BELOW, LEAST_REACH = 6.0, 5.0, 10.0
JOIST_WORDS = {"sawn": "Joist", "i_joist": "I-joist", "scl": "Composite joist"}
PART_WORDS = {"plate": "Cast-in plate", "bracket": "Bracket", "hanger": "Hanger"}


def plan(inputs: Inputs, system: System) -> tuple[ViewPlan, ...]:
    """Section above; the screws enlarged and the plan below."""
    g = geometry(inputs)
    return (
        ViewPlan(lambda frame: _Section(inputs, g, frame, system).scene(), row=0, tall=0.66, lens=True),
        ViewPlan(
            lambda frame: plate_faces.face(inputs, g, frame), row=1, tall=0.5, share=1.1, most=plate_faces.FACE_MOST
        ),
        ViewPlan(
            lambda frame: plate_faces.from_above(inputs, g, frame, system), row=1, tall=0.5, share=0.9, phone=False
        ),
    )


def part(g: Plate, up: float = 0.0) -> tuple[Point, ...]:
    """The part past the foam's face; what is behind it is hidden."""
    return rectangle(g.foam, -g.y_bottom + up, g.x_right, -g.y_top + up)


@dataclass(slots=True)
class _Section:
    """The section while it is drawn."""

    i: Inputs
    g: Plate
    frame: Frame
    system: System
    left: float = 0.0
    right: float = 0.0
    low: float = 0.0
    top: float = 0.0

    def __post_init__(self) -> None:
        g = self.g
        self.left = -g.core - 1.5
        up = max(g.shift_up, 0.0)
        self.low = min(-g.depth, -g.y_bottom + min(g.shift_up, 0.0)) - BELOW
        self.top = max(parts.DECK, -g.y_top + up) + ABOVE
        wall = max(g.x_right, g.x_joist + g.end) - self.left
        scale = self.frame.scale(wall + LEAST_REACH, self.top - self.low)
        self.right = self.left + max(wall + LEAST_REACH, self.frame.width / scale)

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        shapes = (*self.wall(), *self.joist(), *self.steel())
        return Scene(
            "Section at a joist",
            ((self.left, self.low), (self.right, self.top)),
            shapes,
            chains=tuple(self.chains()),
            notes=tuple(self.notes()),
            spots=self.spots(),
            lengths=self.lengths(),
            clear=self.clear(),
            missing=tuple(missing(self.i, self.g, self.system)),
        )

    def wall(self) -> Iterator[Shape]:
        """Core, inner foam, a strip of the outer foam."""
        g = self.g
        ends = (parts.BOTTOM, parts.TOP)
        yield from parts.outer_stub(-g.core, self.low, self.top)
        yield Area(rectangle(-g.core, self.low, 0.0, self.top), Material.CONCRETE, Pen.CUT, ends)
        yield from parts.panel(0.0, g.foam, self.low, self.top, ends)
        yield from parts.breaks(
            ((self.left, self.low), (g.foam, self.low)), ((self.left, self.top), (g.foam, self.top))
        )

    def joist(self) -> Iterator[Shape]:
        """Joist with its filler, deck."""
        g, i = self.g, self.i
        yield parts.deck(g.foam, self.right, 0.0)
        if i.joist == "i_joist" and g.depth > 2 * i.flange_in:
            yield from parts.i_joist(g.x_joist, self.right, -g.depth, 0.0, i.flange_in)
            if i.filler != "none" and g.wood_bottom > g.wood_top:
                far = min(max(x for x, _ in g.screws) + 6.0, self.right)
                yield Area(rectangle(g.x_joist, -g.wood_bottom, far, -g.wood_top), Material.WOOD_SEEN, Pen.SEEN)
        else:
            yield from parts.member("sawn", g.x_joist, self.right, -g.depth, 0.0)
        yield from parts.breaks(((self.right, -g.depth), (self.right, parts.DECK)))

    def steel(self) -> Iterator[Shape]:
        """The part, seen past the foam and hidden within the wall; screws; where the survey found it."""
        g = self.g
        yield Area(part(g), Material.STEEL_SEEN, Pen.CUT_LIGHT)
        hidden = ((g.foam, -g.y_top), (-g.embedment, -g.y_top), (-g.embedment, -g.y_bottom), (g.foam, -g.y_bottom))
        yield Stroke(hidden, Pen.HIDDEN)
        for x, y in g.screws:
            yield Disc((x, -y), max(g.D, 0.16) / 2)
        if g.shift_up:
            yield Stroke(part(g, g.shift_up), Pen.HIDDEN, closed=True)

    def chains(self) -> Iterator[Chain]:
        """Core and foam above; embedment and what stands out below; joist and part beside."""
        g = self.g
        yield Chain("top", (-g.core, 0.0, g.foam), ("core", "room-side foam"), self.top, phone=(0, 1))
        stops, names = [-g.embedment, 0.0, g.foam], ["embedment in the core", "foam"]
        if g.x_right > g.foam:
            stops, names = [*stops, g.x_right], [*names, "past the foam"]
        edges = (-g.y_bottom, self.low, self.low, -g.y_bottom)[: len(stops)]
        yield Chain("bottom", tuple(stops), tuple(names), edges, phone=(0, 1))
        yield Chain("right", (-g.depth, 0.0), ("joist depth",), self.right, phone=(0, 1))

    def notes(self) -> Iterator[Note]:
        """What things are."""
        g, i = self.g, self.i
        words = f"{JOIST_WORDS[i.joist]} {units.show(g.depth, 'in', self.system)}, at {units.show(g.spacing, 'in', self.system)}"
        box = ((max(g.x_right, g.x_joist) + 0.5, -g.depth), (self.right - 1.0, 0.0))
        yield Note((0.75 * self.right, -g.depth / 2), words, f"span {units.show(i.span_ft, 'ft', self.system)}", box)
        yield Note((g.foam + 0.7 * i.leg_in, -g.y_top - 0.05), PART_WORDS[i.kind], f"{i.t_in:.4g} in base metal")
        if g.shift_up:
            shift = units.show(abs(g.shift_up), "in", self.system)
            point = (g.x_right, -g.y_bottom + g.shift_up + 0.5)
            yield Note(point, "as surveyed", f"{shift} {'above' if g.shift_up > 0 else 'below'} its place")

    def clear(self) -> tuple[Point, Point]:
        """Empty paper under the joist."""
        under = min(-self.g.depth, -self.g.y_bottom + min(self.g.shift_up, 0.0))
        return (self.g.foam, self.low), (self.right, under)

    def spots(self) -> dict[str, Spot]:
        """Places where limit states occur."""
        g = self.g
        steel = Spot((g.x_right - 0.5, -g.y_bottom + 0.5), part(g))
        held = rectangle(-g.embedment, -g.y_bottom, 0.0, -g.y_top)
        concrete = Spot((-g.embedment / 2, -g.y_bottom + 0.5), held)
        joist = Spot((g.x_joist + 1.0, -0.85 * g.depth), rectangle(g.x_joist, -g.depth, g.x_right + 2, 0.0))
        foam = Spot((g.foam / 2, -g.y_top + 0.8), rectangle(0.0, -g.y_bottom, g.foam, -g.y_top))
        return plate_faces.face_spots(g) | {
            "": joist,
            "joist": joist,
            "plate": steel,
            "part": steel,
            "concrete": concrete,
            "embedment": concrete,
            "foam": foam,
        }

    def lengths(self) -> dict[str, Length]:
        """By the keys of the lines that judge them."""
        g, y = self.g, -self.g.y_bottom
        return {
            "listing-embedment": Length((-g.embedment, y), (0.0, y), "embedded"),
            "behind": Length((-g.core, y), (-g.embedment, y), "behind it"),
        }


def missing(i: Inputs, g: Plate, system: System) -> Iterator[str]:
    """What the geometry leaves nothing of."""
    if g.behind < 0:
        yield f"concrete behind the part: it sticks out {units.show(-g.behind, 'in', system)}"
    if g.bottom < 0:
        yield f"wood under the lowest row: it is {units.show(-g.bottom, 'in', system)} past the edge"
    if g.beyond < 0:
        yield "steel beyond the last column: the part is too short for its screws"
    if i.joist == "i_joist" and g.wood_bottom <= g.wood_top:
        yield "the filler: flanges and gap leave nothing"
