"""Sill plate: section across the wall at a bolt, and a piece of the plate from above.

Section: x from the outer core face toward the room, y up from the concrete. Plan: u along the piece from its left end.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from engine import units
from engine.attachments.sill_plate.geometry import Sill, geometry
from engine.attachments.sill_plate.inputs import Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Inner, Length, Note, Scene, Spot, ViewPlan
from webapp.drawings.sections import sill_piece
from webapp.drawings.shapes import Area, Material, Pen, Point, Shape, rectangle

BELOW, ABOVE_TOP, ABOVE_LEDGE, LEAST_REACH = 4.0, 7.0, 12.0, 9.0
JOIST_SHOWN = 6.0  # what stands on the plate is cut off there: its height is not asked for
THREAD = 1.2  # bolt past its nut, in diameters


def plan(inputs: Inputs, system: System) -> tuple[ViewPlan, ...]:
    """Section above, a piece from above below it."""
    g = geometry(inputs)
    return (
        ViewPlan(lambda frame: _Section(inputs, g, frame, system).scene(), row=0, tall=0.74, lens=True),
        ViewPlan(partial(sill_piece.piece, inputs, g), row=1, tall=0.26),
    )


@dataclass(slots=True)
class _Section:
    """The section while it is drawn."""

    i: Inputs
    g: Sill
    frame: Frame
    system: System
    left: float = 0.0
    right: float = 0.0
    low: float = 0.0
    top: float = 0.0

    def __post_init__(self) -> None:
        g = self.g
        up = g.x_U - self.i.upper_foam_outer_in if g.x_U is not None else 0.0
        self.left = min(-g.foam_outer, up, g.x_0)
        self.low = -(g.h_ef + g.head_thickness + BELOW)
        self.top = self.plate_top + (ABOVE_TOP if g.x_U is None else ABOVE_LEDGE)
        wall = max(g.t + g.foam_inner, g.x_1, g.x_B) - self.left
        scale = self.frame.scale(wall + LEAST_REACH, self.top - self.low)
        self.right = self.left + max(wall + LEAST_REACH, self.frame.width / scale)

    @property
    def plate_top(self) -> float:
        """Top of the plate above the concrete."""
        return self.g.layer + self.g.thickness

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        g = self.g
        shapes = (*self.wall(), *self.plate(), *self.bolt(), *self.above(), *self.breaks())
        room = max(g.t + g.foam_inner, g.x_1)
        return Scene(
            "Section at a bolt",
            ((self.left, self.low), (self.right, self.top)),
            shapes,
            chains=tuple(self.chains()),
            inners=tuple(self.inners()),
            fine=tuple(self.fine()),
            notes=tuple(self.notes()),
            spots=self.spots(),
            lengths=self.lengths(),
            clear=((room, self.low), (self.right, min(0.0, g.layer))),
            missing=tuple(self.missing()),
        )

    def wall(self) -> Iterator[Shape]:
        """Foam and core below, and the wall above a ledge."""
        i, g = self.i, self.g
        yield from parts.panel(-g.foam_outer, 0.0, self.low, 0.0, (parts.BOTTOM,))
        yield from parts.panel(g.t, g.t + g.foam_inner, self.low, 0.0, (parts.BOTTOM,))
        if g.x_U is None or g.t_U is None:
            yield Area(rectangle(0.0, self.low, g.t, 0.0), Material.CONCRETE, Pen.CUT, (parts.BOTTOM,))
            return
        up0, up1 = g.x_U, g.x_U + g.t_U
        yield from parts.panel(up0 - i.upper_foam_outer_in, up0, 0.0, self.top, (parts.TOP,))
        yield from parts.panel(up1, g.x_B, 0.0, self.top, (parts.TOP,))
        corners: list[Point] = [
            (0.0, self.low),
            (g.t, self.low),
            (g.t, 0.0),
            (up1, 0.0),
            (up1, self.top),
            (up0, self.top),
        ]
        corners += [(up0, 0.0), (0.0, 0.0)] if abs(up0) > 1e-9 else []
        yield Area(tuple(corners), Material.CONCRETE, Pen.CUT, (0, 4))

    def plate(self) -> Iterator[Shape]:
        """The plate's plies and what lies under them."""
        g = self.g
        if g.layer:
            yield Area(rectangle(g.x_0, 0.0, g.x_1, g.layer), Material.STEEL_SEEN, Pen.SEEN)
        ply = g.thickness / g.plies
        for n in range(g.plies):
            low = g.layer + n * ply
            yield Area(rectangle(g.x_0, low, g.x_1, low + ply), Material.WOOD_CUT, Pen.CUT_LIGHT)

    def bolt(self) -> Iterator[Shape]:
        """Bolt with its foot, washer and nut."""
        g, top = self.g, self.plate_top
        x, half = g.x_bolt, g.D / 2
        over = g.washer_thickness + (0.875 + THREAD) * g.D
        yield Area(rectangle(x - half, -g.h_ef, x + half, top + over), Material.STEEL_CUT)
        if g.hook:
            yield Area(rectangle(x + half - g.hook, -g.h_ef - g.D, x + half, -g.h_ef), Material.STEEL_CUT)
        else:
            wide = g.head_width / 2
            yield Area(rectangle(x - wide, -g.h_ef - g.head_thickness, x + wide, -g.h_ef), Material.STEEL_CUT)
        if g.washer:
            yield Area(rectangle(x - g.washer / 2, top, x + g.washer / 2, top + g.washer_thickness), Material.STEEL_CUT)
        seat = top + g.washer_thickness
        yield Area(rectangle(x - 0.85 * g.D, seat, x + 0.85 * g.D, seat + 0.875 * g.D), Material.STEEL_CUT)

    def above(self) -> Iterator[Shape]:
        """What the plate carries, cut off above: its height is not asked for."""
        i, g, y = self.i, self.g, self.plate_top
        high = min(y + JOIST_SHOWN, self.top)
        if i.carries == "wall":
            x0 = g.x_1 - i.stud_in
            yield Area(rectangle(x0, y, g.x_1, high), Material.WOOD_SEEN, Pen.SEEN, (parts.TOP,), True, True)
            yield from parts.breaks(((x0, high), (g.x_1, high)))
            return
        x0 = max(g.x_0, g.x_B if g.x_U is not None else g.x_0) + 0.5
        if i.direction == "perpendicular" and x0 < self.right:
            yield Area(rectangle(x0, y, self.right, high), Material.WOOD_SEEN, Pen.SEEN, (parts.TOP, parts.RIGHT))
            yield from parts.breaks(((x0, high), (self.right, high)))

    def breaks(self) -> Iterator[Shape]:
        """Where the wall goes on."""
        i, g = self.i, self.g
        yield from parts.breaks(((-g.foam_outer, self.low), (g.t + g.foam_inner, self.low)))
        if g.x_U is not None:
            yield from parts.breaks(((g.x_U - i.upper_foam_outer_in, self.top), (g.x_B, self.top)))

    def chains(self) -> Iterator[Chain]:
        """Wall below, the plate and its bolt above, embedment beside."""
        g = self.g
        wall = (-g.foam_outer, 0.0, g.t, g.t + g.foam_inner)
        yield Chain("bottom", wall, ("outer foam", "core", "room-side foam"), self.low, "wall", (1, 2))
        high = self.plate_top if g.x_U is None else self.top
        names = ("plate's outer edge to the bolt", "bolt to the room-side edge")
        yield Chain("top", (g.x_0, g.x_bolt, g.x_1), names, high, "plate width", (0, 1, 2))

    def inners(self) -> Iterator[Inner]:
        """Embedment, and the plate from the core's face."""
        g = self.g
        away = max(3.0, g.hook + 0.8)
        at = g.x_bolt - away if g.x_bolt - away > 0.8 else g.x_bolt + 3.0
        near = g.x_bolt + (-g.D if at < g.x_bolt else g.D)
        yield Inner("y", (-g.h_ef, 0.0), at, "bolt embedment", (near, near), major=True)

    def fine(self) -> Iterator[Inner]:
        """Plate's edge against the core's face."""
        g = self.g
        if g.x_0 and g.x_U is None:
            stops = (min(0.0, g.x_0), max(0.0, g.x_0))
            yield Inner(
                "x", stops, 0.3 * self.plate_top, "plate's edge from the core's face", (0.0, g.layer), "edge to core"
            )

    def notes(self) -> Iterator[Note]:
        """What things are."""
        i, g = self.i, self.g
        yield Note((g.x_1 - 0.4, g.layer + 0.3 * g.thickness), f"Plate {i.plate.removeprefix('2-')}", i.species)
        yield Note((g.x_bolt, -0.75 * g.h_ef), f"Bolt {i.bolt} in", f"at {units.show(g.spacing, 'in', self.system)}")
        what = {"floor": "Floor joists", "roof": "Rafters", "wall": "Framed wall"}[i.carries]
        words = what if i.carries == "wall" or i.direction == "perpendicular" else f"{what} run along the wall"
        yield Note(
            (max(g.x_1, g.x_B) + 1.5 if i.carries != "wall" else g.x_1 - 0.5, self.plate_top + 2.5),
            words,
            "height not given",
        )

    def spots(self) -> dict[str, Spot]:
        """Places where limit states occur."""
        g, y = self.g, self.plate_top
        plate = Spot(((g.x_0 + g.x_1) / 2, y - 0.2), rectangle(g.x_0, g.layer, g.x_1, y))
        bears = rectangle(g.x_from, -0.8, max(g.x_to, g.x_from + 0.25), 0.0)
        return {
            "": plate,
            "plate": plate,
            "anchor": Spot((g.x_bolt, -0.6 * g.h_ef), rectangle(g.x_bolt - g.D, -g.h_ef, g.x_bolt + g.D, 0.0)),
            "concrete": Spot(((g.x_from + g.x_to) / 2, 0.0), bears),
            "tie": Spot((g.x_1, y + 1.0), rectangle(g.x_0, y, g.x_1, y + 2.0)),
            "wall": Spot((g.t / 2, 0.7 * self.low), rectangle(0.0, self.low, g.t, -0.3)),
        }

    def lengths(self) -> dict[str, Length]:
        """By the keys of the lines that judge them."""
        g = self.g
        deep = Length((g.x_bolt, -g.h_ef), (g.x_bolt, 0.0), "embedded")
        face = 0.0 if g.x_bolt < g.t / 2 else g.t
        near = Length((min(g.x_bolt, face), -1.5), (max(g.x_bolt, face), -1.5), "to the face")
        return {"bolt-embedment": deep, "exception-embedment": deep, "exception-edge": near}

    def missing(self) -> Iterator[str]:
        """What the geometry leaves nothing of."""
        g = self.g
        if g.on_concrete <= 0:
            yield "concrete under the plate: it misses the core"
        if g.nearest_face < 0:
            yield f"concrete round the bolt: it stands {units.show(-g.nearest_face, 'in', self.system)} outside the core"
