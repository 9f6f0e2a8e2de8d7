"""Anchored plate: section across the wall through the anchors, and the plate's face from the room.

Section: x from the room-side core face toward the room, y up from the plate's middle. Face: z to the right, seen from the room.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from engine import units
from engine.attachments.anchored_plate.geometry import Bracket, geometry
from engine.attachments.anchored_plate.inputs import Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Inner, Length, Note, Scene, Spot, ViewPlan
from webapp.drawings.sections import anchored_face
from webapp.drawings.shapes import Area, Disc, Material, Pen, Point, Shape, Stroke, rectangle

ABOVE, BELOW, LEAST_REACH, STUB = 6.0, 5.0, 10.0, 1.5
WOOD_WORDS = {"sawn": "Wood", "glulam": "Glued laminated", "scl": "Composite"}


def plan(inputs: Inputs, system: System) -> tuple[ViewPlan, ...]:
    """Section and face beside each other."""
    g = geometry(inputs)
    return (
        ViewPlan(lambda frame: _Section(inputs, g, frame, system).scene(), row=0, tall=0.62, lens=True),
        ViewPlan(partial(anchored_face.face, inputs, g), row=1, tall=0.42),
    )


@dataclass(slots=True)
class _Section:
    """The section while it is drawn."""

    i: Inputs
    g: Bracket
    frame: Frame
    system: System
    left: float = 0.0
    right: float = 0.0
    low: float = 0.0
    top: float = 0.0

    def __post_init__(self) -> None:
        g = self.g
        self.left = -g.core - STUB
        half = g.height / 2
        self.low = min(-half, g.member_y[0]) - BELOW
        self.top = max(half, g.member_y[1] + parts.DECK) + ABOVE
        if g.up is not None:
            self.top = max(min(self.top, g.rows[0] + g.up), half + 0.5)
        if g.down is not None:
            self.low = min(max(self.low, g.rows[-1] - g.down), -half - 0.5)
        wall = max(g.x_leg, g.member_x[0], g.member_x[1] or 0.0, g.reaction, g.foam) - self.left
        scale = self.frame.scale(wall + LEAST_REACH, self.top - self.low)
        self.right = self.left + max(wall + LEAST_REACH, self.frame.width / scale)

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        g = self.g
        shapes = (*self.wall(), *self.member(), *self.steel(), *self.fasteners(), *self.breaks())
        under = min(g.member_y[0], -g.height / 2)
        return Scene(
            "Section through the anchors",
            ((self.left, self.low), (self.right, self.top)),
            shapes,
            chains=tuple(self.chains()),
            inners=tuple(self.inners()),
            notes=tuple(self.notes()),
            spots=self.spots(),
            lengths=self.lengths(),
            clear=((max(g.foam, g.x_front), self.low), (self.right, under)),
        )

    @property
    def ends_above(self) -> bool:
        """Whether the concrete's top is within the window."""
        return self.g.up is not None and self.g.rows[0] + self.g.up <= self.top + 1e-9

    @property
    def ends_below(self) -> bool:
        """Whether the concrete's soffit is within the window."""
        return self.g.down is not None and self.g.rows[-1] - self.g.down >= self.low - 1e-9

    def wall(self) -> Iterator[Shape]:
        """Core, foam cut away at the plate, grout."""
        g, half = self.g, self.g.height / 2
        yield from parts.outer_stub(-g.core, self.low, self.top)
        ends: tuple[int, ...] = () if self.ends_below else (parts.BOTTOM,)
        ends += () if self.ends_above else (parts.TOP,)
        yield Area(rectangle(-g.core, self.low, 0.0, self.top), Material.CONCRETE, Pen.CUT, ends)
        if self.i.contact == "gap":
            yield from parts.panel(0.0, g.foam, self.low, self.top, (parts.BOTTOM, parts.TOP))
            return
        yield from parts.panel(0.0, g.foam, self.low, -half, (parts.BOTTOM,))
        yield from parts.panel(0.0, g.foam, half, self.top, (parts.TOP,))
        if g.gap:
            yield Area(rectangle(0.0, -half, g.gap, half), Material.CONCRETE, Pen.SEEN)

    def member(self) -> Iterator[Shape]:
        """The joist, beam or ledger."""
        g = self.g
        low, high = g.member_y
        start, end = g.member_x
        if end is not None:
            yield Area(rectangle(start, low, end, high), Material.WOOD_CUT, Pen.CUT_LIGHT)
        elif start < self.right:
            yield Area(rectangle(start, low, self.right, high), Material.WOOD_SEEN, Pen.CUT_LIGHT, (parts.RIGHT,))

    def steel(self) -> Iterator[Shape]:
        """Anchors with their feet and nuts, the plate, its leg, a ledger's front plate."""
        g, half = self.g, self.g.height / 2
        for y in g.rows:
            yield from parts.level_bolt(y, g.d_a, -g.h_ef, g.x_front + 1.4 * g.d_a, head_in=False)
            if self.i.head == "hook":
                yield Area(
                    rectangle(-g.h_ef - g.d_a, y - self.i.hook_in + g.d_a / 2, -g.h_ef, y + g.d_a / 2),
                    Material.STEEL_CUT,
                )
            else:
                wide = g.foot_width / 2
                yield Area(rectangle(-g.h_ef - g.foot, y - wide, -g.h_ef, y + wide), Material.STEEL_CUT)
            yield from parts.nut(y, g.d_a, g.x_front)
        yield Area(rectangle(g.gap, -half, g.x_front, half), Material.STEEL_CUT)
        leg = rectangle(g.x_front, -g.leg_height / 2, max(g.x_leg, g.x_front), g.leg_height / 2)
        if self.i.form == "slot":
            yield Stroke(leg, Pen.HIDDEN, closed=True)
        else:
            yield Area(leg, Material.STEEL_SEEN, Pen.CUT_LIGHT)
        if g.front_plate is not None:
            yield Area(
                rectangle(g.front_plate[0], -g.leg_height / 2, g.front_plate[1], g.leg_height / 2), Material.STEEL_CUT
            )

    def fasteners(self) -> Iterator[Shape]:
        """Bolts or screws seen from their ends in a joist or beam, lengthwise in a ledger."""
        g = self.g
        if g.front_plate is None:
            for x, y in g.fasteners:
                yield Disc((x, y), max(g.D, 0.16) / 2)
            return
        for y in sorted({y for _, y in g.fasteners}):
            yield from parts.level_bolt(
                y, g.D, g.front_plate[0] - g.D, (g.member_x[1] or g.reaction) + g.D, head_in=True
            )

    def breaks(self) -> Iterator[Shape]:
        """Where wall and member go on."""
        g = self.g
        if not self.ends_below:
            yield from parts.breaks(((self.left, self.low), (g.foam, self.low)))
        if not self.ends_above:
            yield from parts.breaks(((self.left, self.top), (g.foam, self.top)))
        if g.member_x[1] is None and g.member_x[0] < self.right:
            yield from parts.breaks(((self.right, g.member_y[0]), (self.right, g.member_y[1])))

    def chains(self) -> Iterator[Chain]:
        """Core and foam above; embedment, plate and leg below; the member beside."""
        g = self.g
        yield Chain("top", (-g.core, 0.0, g.foam), ("core", "room-side foam"), self.top, phone=(0, 1))
        stops, names = [-g.h_ef, 0.0], ["embedment"]
        for to, name in (
            (g.gap, "core face to plate"),
            (g.x_front, "plate thickness"),
            (g.x_leg, "leg past the plate"),
        ):
            if to > stops[-1] + 1e-9:
                stops, names = [*stops, to], [*names, name]
        edge = (g.rows[-1] - g.foot_width / 2, self.low, *([-g.height / 2] * (len(stops) - 2)))
        yield Chain("bottom", tuple(stops), tuple(names), edge, phone=(0, 1))
        at = self.right if g.member_x[1] is None else g.member_x[1]
        yield Chain("right", g.member_y, ("member depth",), at, phone=(0, 1))

    def inners(self) -> Iterator[Inner]:
        """Where the member's reaction stands off the concrete."""
        g = self.g
        y = min(g.member_y[0], -g.height / 2) - 2.4
        yield Inner(
            "x", (0.0, g.reaction), y, "reaction from the concrete", (y + 0.8, g.member_y[0]), "to the reaction"
        )

    def notes(self) -> Iterator[Note]:
        """What things are."""
        g, i = self.g, self.i
        size = f"{units.show(i.b_in, 'in', self.system)} x {units.show(i.d_in, 'in', self.system)}"
        words = f"{WOOD_WORDS[i.wood]} {i.carried} {size}"
        sub = i.species if i.wood != "scl" else ""
        if g.member_x[1] is None:
            box: tuple[Point, Point] = (
                (max(g.x_leg, g.member_x[0]) + 0.5, g.member_y[0]),
                (self.right - 1.0, g.member_y[1]),
            )
            yield Note(((g.x_leg + self.right) / 2, sum(g.member_y) / 2), words, sub, box)
        else:
            yield Note((g.member_x[1] - 0.2, g.member_y[0] + 0.8), words, sub)
        plate = f"Plate {units.show(i.thickness_in, 'in', self.system)}"
        yield Note((g.x_front, 0.42 * g.height), plate, f"leg {units.show(i.leg_thickness_in, 'in', self.system)}")
        yield Note((-0.7 * g.h_ef, g.rows[-1]), f"Anchor {i.anchor} in", i.steel)

    def spots(self) -> dict[str, Spot]:
        """Places where limit states occur."""
        g = self.g
        row, half, leg = g.rows[0], g.height / 2, g.leg_height / 2
        plate = Spot((g.x_front, 0.0), rectangle(g.gap, -half, g.x_front, half))
        anchor = Spot((-0.5 * g.h_ef, row), rectangle(-g.h_ef, g.rows[-1] - g.d_a, 0.0, row + g.d_a))
        toe = Spot((g.gap / 2, -half + 0.5), rectangle(-0.8, -half, max(g.x_front, 0.2), -half + g.height / 5))
        shown = rectangle(g.x_front, -leg, max(g.x_leg, g.x_front + 0.25), leg)
        wall = Spot((-g.core / 2, self.low + 1.5), rectangle(-g.core, self.low, 0.0, g.rows[-1]))
        return self.wood_spots() | {
            "": plate, "plate": plate, "core": anchor, "anchors": anchor, "concrete": anchor, "toe": toe, "wall": wall,
            "leg": Spot(((g.x_front + g.x_leg) / 2, -0.4 * g.leg_height), shown),
        }  # fmt: skip

    def wood_spots(self) -> dict[str, Spot]:
        """Places in the member."""
        g, by = self.g, max(self.g.D, 0.3)
        ledger = g.member_x[1] is not None
        xs = [g.member_x[0], g.member_x[1] or 0.0] if ledger else [x for x, _ in g.fasteners]
        ys = [y for _, y in g.fasteners]
        low, high = g.member_y
        far = g.member_x[1] or min(g.x_leg + 2.0, self.right)
        start, first = g.member_x[0], max(xs) if ledger else min(xs)
        return {
            "fasteners": Spot((max(xs), min(ys)), rectangle(min(xs) - by, min(ys) - by, max(xs) + by, max(ys) + by)),
            "member": Spot((far - 0.5, low + 0.5), rectangle(start, low, far, high)),
            "end": Spot((start, 0.0), rectangle(start, low, first, high)),
            "edge-top": Spot((first, max(ys)), rectangle(min(xs) - by, max(ys), max(xs) + by, high)),
            "edge-bottom": Spot((first, min(ys)), rectangle(min(xs) - by, low, max(xs) + by, min(ys))),
        }

    def lengths(self) -> dict[str, Length]:
        """By the keys of the lines that judge them; a ledger's fasteners stand along it and are not drawn here."""
        g = self.g
        if g.member_x[1] is not None:
            return {}
        xs, ys = sorted({x for x, _ in g.fasteners}), sorted({y for _, y in g.fasteners})
        x, y = xs[0], ys[0]
        found = {
            "end-distance": Length((g.member_x[0], y), (x, y), "to the end"),
            "edge-top": Length((x, ys[-1]), (x, g.member_y[1]), "to the top edge"),
            "edge-bottom": Length((x, g.member_y[0]), (x, y), "to the lower edge"),
        }
        if len(xs) > 1:
            found["columns-apart"] = Length((x, y), (xs[1], y), "apart")
        if len(ys) > 1:
            found["rows-apart"] = Length((x, y), (x, ys[1]), "apart")
        return found
