"""Veneer ledge: section across the wall at a stirrup, outside to the left.

x from the outer core face toward the room, y up from the ledge's top. The engine counts x outward and y down.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from engine import units
from engine.attachments.veneer_ledge.geometry import Ledge, geometry
from engine.attachments.veneer_ledge.inputs import BENT_DOWN, Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Inner, Level, Note, Scene, ViewPlan
from webapp.drawings.sections import veneer_spots
from webapp.drawings.shapes import Area, Material, Pen, Point, Shape, Stroke, rectangle

ABOVE, BELOW, LEAST_REACH = 14.0, 8.0, 8.0


def plan(inputs: Inputs, system: System) -> tuple[ViewPlan, ...]:
    """One view: the section."""
    g = geometry(inputs)
    return (ViewPlan(lambda frame: _Section(inputs, g, frame, system).scene(), lens=True),)


def soffit_at(g: Ledge, x_out: float) -> float:
    """Level of the ledge's underside at a distance outward from the core."""
    return -g.h + (g.h - g.h_lip) * min(max(x_out, 0.0), g.p) / g.p


@dataclass(slots=True)
class _Section:
    """The section while it is drawn."""

    i: Inputs
    g: Ledge
    frame: Frame
    system: System
    left: float = 0.0
    right: float = 0.0
    low: float = 0.0
    top: float = ABOVE

    def __post_init__(self) -> None:
        g = self.g
        self.left = -max(g.x_out, g.p + self.lip_foam, g.f_out) - 0.5
        self.low = -max(g.h, g.h_lip) - BELOW
        wall = g.t + g.f_in - self.left
        scale = self.frame.scale(wall + LEAST_REACH, self.top - self.low)
        self.right = self.left + max(wall + LEAST_REACH, self.frame.width / scale)

    @property
    def lip_foam(self) -> float:
        """Foam before the lip; none where forms are stripped."""
        return self.i.lip_foam_in if self.i.forms == "stay" else 0.0

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        g, i = self.g, self.i
        height = units.show(i.ledge_height_ft, "ft", self.system)
        shapes = (*self.wall(), *self.veneer(), *self.steel(), *self.breaks())
        return Scene(
            "Section at a stirrup",
            ((self.left, self.low), (self.right, self.top)),
            shapes,
            chains=tuple(self.chains()),
            fine=tuple(self.fine()),
            notes=tuple(self.notes()),
            levels=(Level(0.0, height, "ledge"),),
            spots=veneer_spots.spots(i, g, self.low, self.top),
            lengths=veneer_spots.lengths(g),
            clear=((g.t + g.f_in, self.low), (self.right, self.top - 6.0)),
            missing=tuple(self.missing()),
        )

    def wall(self) -> Iterator[Shape]:
        """Core with its ledge, foam above, below and before the lip."""
        g = self.g
        corners: tuple[Point, ...] = (
            (0.0, self.low), (g.t, self.low), (g.t, self.top), (0.0, self.top), (0.0, 0.0), (-g.p, 0.0), (-g.p, -g.h_lip),
            (0.0, -g.h),
        )  # fmt: skip
        yield Area(corners, Material.CONCRETE, Pen.CUT, (0, 2))
        yield from parts.panel(g.t, g.t + g.f_in, self.low, self.top, (parts.BOTTOM, parts.TOP))
        yield from parts.panel(-g.f_out, 0.0, 0.0, self.top, (parts.TOP,))
        yield self.lower_foam()

    def lower_foam(self) -> Area:
        """The outer panel under the ledge, with what stands before its lip and under its soffit."""
        g, out = self.g, self.lip_foam
        if not out:
            outer = min(g.f_out, g.p)
            corners: tuple[Point, ...] = (
                (-g.f_out, self.low),
                (0.0, self.low),
                (0.0, -g.h),
                (-outer, soffit_at(g, outer)),
            )
            if g.f_out > g.p:
                corners = (*corners, (-g.p, 0.0), (-g.f_out, 0.0))
            return Area(corners, Material.FOAM, Pen.CUT_LIGHT, (0,))
        face = max(g.p + out, g.f_out)
        corners = (
            (-g.f_out, self.low), (0.0, self.low), (0.0, -g.h), (-g.p, -g.h_lip), (-g.p, 0.0), (-face, 0.0), (-face, -g.h_lip),
            (-g.f_out, -g.h),
        )  # fmt: skip
        return Area(corners, Material.FOAM, Pen.CUT_LIGHT, (0,))

    def veneer(self) -> Iterator[Shape]:
        """The wythe on its flashing, tied to the wall."""
        g, i = self.g, self.i
        yield Area(rectangle(-g.x_out, 0.0, -g.x_back, self.top), Material.BRICK, Pen.CUT_LIGHT, (parts.TOP,))
        if i.flashing:
            yield Stroke(((-g.x_out - 0.3, 0.08), (-g.x_back, 0.08), (-g.f_out, 6.0)), Pen.CUT_LIGHT)
        tie = min(i.veneer_tie_v_in, ABOVE - 2.0)
        yield Stroke(((0.0, tie), (-(g.x_back + g.x_out) / 2, tie)), Pen.SEEN)

    def steel(self) -> Iterator[Shape]:
        """Upright bars, the stirrup with the bars in its bends, closed ties."""
        g, i = self.g, self.i
        size = parts.bar_diameter_in(i.vertical_bar)
        for x in parts.bar_places(i.curtains, g.t, i.cover_in, size):
            yield parts.upright_bar(x, size, self.low, self.top)
        for y in g.ties:
            if g.tie_reach > 0:
                yield parts.level_bar(-y, g.tie_d, -g.tie_reach, g.hook_back)
        yield Area(parts.ribbon(self.stirrup(), g.d_b), Material.STEEL_SEEN, Pen.BAR)
        if g.tip_bar:
            yield parts.dot(-g.x_bar, -g.y_bar, g.tip_bar)
        if g.holder:
            yield parts.dot(-g.x_holder, -g.y_holder, g.holder)

    def stirrup(self) -> list[Point]:
        """The middle of the stirrup's bar: hook in the core, top leg, leg at the lip, back along the soffit."""
        g, half = self.g, self.g.d_b / 2
        top, back = -g.y_top - half, g.hook_back - half
        foot = max(self.low + 0.5, top - max(g.hook_tail + g.hook_bend / 2 + half, 1.0))
        start = (
            [(back, foot)]
            if self.i.hook != "180"
            else [(back - g.hook_tail, top - g.hook_bend - g.d_b), (back, top - g.hook_bend - g.d_b)]
        )
        lip = -g.x_tip + half
        path = [*start, (back, top), (lip, top)]
        if self.i.tip in BENT_DOWN and g.leg > g.d_b:
            corner = -g.y_corner + half
            path += (
                [(lip, corner), (back - g.d_b, corner - (g.h - g.h_lip) / g.p * (back - g.d_b - lip))]
                if self.inside(corner)
                else [(lip, corner)]
            )
        return path

    def inside(self, corner: float) -> bool:
        """Whether the lower leg comes back into the core within what is shown."""
        g = self.g
        return corner - (g.h - g.h_lip) / g.p * (g.hook_back + g.x_tip) > self.low + 0.5

    def breaks(self) -> Iterator[Shape]:
        """Where wall and veneer go on."""
        g = self.g
        return parts.breaks(
            ((-g.f_out, self.low), (g.t + g.f_in, self.low)), ((-g.x_out, self.top), (g.t + g.f_in, self.top)),
        )  # fmt: skip

    def chains(self) -> Iterator[Chain]:
        """Wythe, air, foam and core above; the projection below; depths at lip and core beside."""
        g = self.g
        stops, names = [-g.x_out, -g.x_back], ["wythe"]
        for to, name in ((-g.f_out, "air space"), (0.0, "outer foam"), (g.t, "core"), (g.t + g.f_in, "room-side foam")):
            if to > stops[-1] + 1e-9:
                stops, names = [*stops, to], [*names, name]
        core = len(stops) - 3
        yield Chain("top", tuple(stops), tuple(names), self.top, phone=(core, core + 1))
        yield Chain(
            "bottom",
            (-g.p, 0.0, g.t),
            ("ledge beyond the core", "core below"),
            (-g.h_lip, self.low, self.low),
            phone=(0, 1, 2),
        )
        depths = (-g.h, -g.h_lip, 0.0) if g.h > g.h_lip else (-g.h, 0.0)
        taper = ("drop of the soffit", "depth at the lip") if g.h > g.h_lip else ("depth",)
        yield Chain("left", depths, taper, self.left, "depth at the core", tuple(range(len(depths))))

    def fine(self) -> Iterator[Inner]:
        """Wythe past the lip."""
        g = self.g
        if g.overhang > 0:
            yield Inner("x", (-g.x_out, -g.p), 0.3, "wythe past the lip", (0.0, 0.0), "past the lip")

    def notes(self) -> Iterator[Note]:
        """What things are."""
        g, i = self.g, self.i
        spacing = units.show(g.spacing, "in", self.system)
        half = g.d_b / 2
        yield Note((g.hook_back - half, -g.y_top - half - 1.0), f"No. {i.stirrup} at {spacing}", "stirrup")
        if g.ties:
            yield Note(
                (g.t * 0.3, -g.ties[0]),
                f"No. {i.tie_bar} closed ties",
                f"{len(g.ties)} in depth" if len(g.ties) > 1 else "",
            )
        if g.tip_bar:
            yield Note((-g.x_bar, -g.y_bar), f"No. {i.tip_bar} along the lip")

    def missing(self) -> Iterator[str]:
        """What the geometry leaves nothing of."""
        g = self.g
        if g.bearing <= 0:
            yield f"the bearing: the wythe stands {units.show(-g.bearing, 'in', self.system)} past the lip"
        if g.leg < g.leg_needed:
            yield "bends at the lip to their radius: the lip is too shallow"
        if g.hook_back <= 0:
            yield "the hook: its cover leaves no room in the core"
