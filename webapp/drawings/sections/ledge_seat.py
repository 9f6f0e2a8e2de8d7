"""Joists on a ledge: section across the stepped wall at a joist. Origin: outer core face of the lower wall, at the ledge."""

from collections.abc import Iterator
from dataclasses import dataclass

from engine import units
from engine.attachments.ledge_seat.geometry import Seat, face_at_depth_in, geometry
from engine.attachments.ledge_seat.inputs import Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Inner, Level, Note, Scene, ViewPlan
from webapp.drawings.sections import ledge_spots
from webapp.drawings.shapes import Area, Material, Pen, Point, Shape, Stroke, rectangle

ABOVE, LEAST_BELOW, MOST_BELOW, LEAST_REACH = 7.0, 14.0, 52.0, 12.0
SHOWN_COVER = 4.0  # more is no concern and is not noted
MEMBER_WORDS = {"sawn": "Joist", "i_joist": "I-joist", "truss": "Floor truss", "top_chord": "Top-chord truss"}


def plan(inputs: Inputs, system: System) -> tuple[ViewPlan, ...]:
    """One view: the section."""
    g = geometry(inputs)
    return (ViewPlan(lambda frame: _Section(inputs, g, frame, system).scene(), lens=True),)


@dataclass(slots=True)
class _Section:
    """The section while it is drawn: its inputs, the engine's geometry, and the extent that is shown."""

    i: Inputs
    g: Seat
    frame: Frame
    system: System
    left: float = 0.0
    right: float = 0.0
    low: float = 0.0
    top: float = 0.0

    def __post_init__(self) -> None:
        i, g = self.i, self.g
        self.left = min(-i.foam_outer_lower_in, g.x_U - i.foam_outer_upper_in)
        foot = i.bolt_embedment_in + 2.5 if self.plated else 0.0
        hang = self.member_top - i.joist_depth_in if i.member == "top_chord" else 0.0
        taper = min(g.lip_depth + 2.5, MOST_BELOW) if g.lip_depth else 0.0
        self.low = -max(LEAST_BELOW, foot, taper, 2.0 - hang)
        self.top = max(self.member_top + parts.DECK, g.plate_thickness) + ABOVE
        wall = max(self.face_low, self.face_up, g.x_E, g.bears_to) - self.left
        scale = self.frame.scale(wall + LEAST_REACH, self.top - self.low)
        self.right = self.left + max(wall + LEAST_REACH, self.frame.width / scale)

    @property
    def plated(self) -> bool:
        """Whether there is a sill plate."""
        return self.g.plate_width > 0

    @property
    def face_low(self) -> float:
        """Room-side foam face below."""
        return self.g.t_L + self.i.foam_lower_in

    @property
    def face_up(self) -> float:
        """Room-side foam face above."""
        return self.g.x_U + self.g.t_U + self.i.foam_upper_in

    @property
    def member_top(self) -> float:
        """Top of the joist above the ledge."""
        i = self.i
        if i.member == "top_chord":
            return self.g.plate_thickness + (i.seat_depth_in or parts.CHORD)
        return self.g.plate_thickness + i.joist_depth_in - (i.notch_in if i.member == "sawn" else 0.0)

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        shapes = (*self.wall(), *self.steel(), *self.floor(), *self.breaks())
        height = units.show(self.i.storey_height_ft, "ft", self.system)
        return Scene(
            "Section across the wall",
            ((self.left, self.low), (self.right, self.top)),
            shapes,
            chains=tuple(self.chains()),
            inners=tuple(self.inners()),
            fine=tuple(self.fine()),
            notes=tuple(self.notes()),
            levels=(Level(0.0, "Ledge", f"{height} below"),),
            spots=ledge_spots.spots(self.i, self.g, self.low, self.top, self.member_top),
            lengths=ledge_spots.lengths(self.i, self.g),
            clear=self.clear(),
            missing=tuple(self.missing()),
        )

    def wall(self) -> Iterator[Shape]:
        """Foam panels, the stepped core, course joints."""
        i, g = self.i, self.g
        up0, up1 = g.x_U, g.x_U + g.t_U
        if abs(up0) < 1e-9:
            yield from parts.panel(-i.foam_outer_lower_in, 0.0, self.low, self.top, (parts.BOTTOM, parts.TOP))
        else:
            yield from parts.panel(-i.foam_outer_lower_in, 0.0, self.low, 0.0, (parts.BOTTOM,))
            yield from parts.panel(up0 - i.foam_outer_upper_in, up0, 0.0, self.top, (parts.TOP,))
        yield from parts.panel(up1, self.face_up, self.foam_from, self.top, (parts.TOP,))
        yield self.lower_foam()
        corners = [(0.0, self.low), (g.t_L, self.low), *self.inner_face(), (up1, 0.0), (up1, self.top), (up0, self.top)]
        corners += [(up0, 0.0), (0.0, 0.0)] if abs(up0) > 1e-9 else []
        top_edge = next(n for n, corner in enumerate(corners) if corner == (up1, self.top))
        yield Area(tuple(corners), Material.CONCRETE, Pen.CUT, (0, top_edge))
        for level in parts.course_levels(i.course_in, self.low, self.top):
            outer = (-i.foam_outer_lower_in, 0.0) if level <= 0 else (up0 - i.foam_outer_upper_in, up0)
            yield from parts.joints(*outer, [level])
            if level > self.foam_from:
                yield from parts.joints(up1, self.face_up, [level])
            elif level < 0:
                yield from parts.joints(face_at_depth_in(g, -level), self.face_low, [level])

    @property
    def foam_from(self) -> float:
        """Where the upper inner panel starts: on the ledge, or above the deck where it is cut away."""
        return 0.0 if self.i.upper_foam == "whole" else self.member_top + parts.DECK

    def inner_face(self) -> list[Point]:
        """The lower core's room-side face from the bottom up to the ledge's edge."""
        g = self.g
        if not g.lip_depth:
            return [(g.x_E, 0.0)]
        if -g.lip_depth <= self.low:
            return [(face_at_depth_in(g, -self.low), self.low), (g.x_E, 0.0)]
        return [(g.t_L, -g.lip_depth), (g.x_E, 0.0)]

    def lower_foam(self) -> Area:
        """The lower inner panel, thinned where the ledge runs out under it."""
        face = self.inner_face() if self.g.lip_depth else [(self.g.t_L, 0.0)]
        if face[0][1] > self.low:
            face = [(self.g.t_L, self.low), *face]
        corners = ((self.face_low, self.low), (self.face_low, 0.0), *reversed(face))
        return Area(corners, Material.FOAM, Pen.CUT_LIGHT, (len(corners) - 1,))

    def steel(self) -> Iterator[Shape]:
        """Upright bars, lapped into the thinner wall, and the anchor bolt."""
        i, g = self.i, self.g
        size = parts.bar_diameter_in(i.vertical_bar)
        inside = (g.x_U + i.cover_in, g.x_U + g.t_U - i.cover_in)
        upper = [g.x_U + x for x in parts.bar_places(i.curtains, g.t_U, i.cover_in, size)]
        for x in upper:
            goes_on = (parts.BOTTOM, parts.TOP) if -i.lap_in < self.low else (parts.TOP,)
            yield parts.upright_bar(x, size, max(self.low, -i.lap_in), self.top, goes_on)
        for x in parts.bar_places(i.curtains, g.t_L, i.cover_in, size):
            passes = inside[0] <= x <= inside[1]
            beside = min((abs(x - other) for other in upper), default=99.0) < size
            end = min(i.lap_in, self.top) if passes else -i.cover_in
            goes_on = (parts.BOTTOM, parts.TOP) if end == self.top else (parts.BOTTOM,)
            yield parts.upright_bar(x + (size if beside else 0.0), size, self.low, end, goes_on)
        if self.plated:
            d = float(i.bolt)
            yield from parts.upright_bolt(g.x_bolt, d, 0.0, -i.bolt_embedment_in, i.bolt_head, i.hook_in)
            yield Stroke(((g.x_bolt - d / 2, 0), (g.x_bolt - d / 2, g.plate_thickness)), Pen.HIDDEN)
            yield Stroke(((g.x_bolt + d / 2, 0), (g.x_bolt + d / 2, g.plate_thickness)), Pen.HIDDEN)
            yield from parts.hidden_nut(g.x_bolt, d, g.plate_thickness)

    def floor(self) -> Iterator[Shape]:
        """Plate, joist and deck."""
        i, g = self.i, self.g
        y, top = g.plate_thickness, self.member_top
        if self.plated:
            yield Area(rectangle(g.x_P, 0.0, g.plate_edge, y), Material.WOOD_CUT, Pen.CUT_LIGHT)
        yield parts.deck(max(g.x_J - 0.25, g.x_B if self.foam_from == 0 else g.x_J - 0.25), self.right, top)
        if i.member == "top_chord":
            yield Area(rectangle(g.x_J, y, self.right, top), Material.WOOD_SEEN, Pen.CUT_LIGHT, (parts.RIGHT,))
            body = max(self.face_low + (i.clearance_in or 0.5), g.x_E + 0.5)
            bottom = top - i.joist_depth_in
            if bottom < y - parts.CHORD and body < self.right - 2:
                yield Area(
                    rectangle(body, bottom, self.right, bottom + parts.CHORD), Material.WOOD_SEEN, Pen.CUT_LIGHT, (1,)
                )
                yield Area(
                    rectangle(body, bottom + parts.CHORD, body + parts.CHORD, y),
                    Material.WOOD_SEEN,
                    Pen.SEEN,
                    (),
                    True,
                    True,
                )
                yield Stroke(
                    ((body + parts.CHORD, bottom + parts.CHORD), (min(self.right, body + i.joist_depth_in), y)),
                    Pen.SEEN,
                )
            return
        notch = i.notch_in if i.member == "sawn" else 0.0
        if 0 < notch < i.joist_depth_in:
            yield from self.dapped(y, top, notch)
        else:
            yield from parts.member(i.member, g.x_J, self.right, y, top)

    def dapped(self, y: float, top: float, notch: float) -> Iterator[Shape]:
        """A joist cut up at its end to sit lower."""
        g = self.g
        heel = min(max(g.bears_to, g.x_E, g.plate_edge, self.face_low) + 0.5, self.right)
        yield Area(rectangle(g.x_J, y, self.right, top), Material.WOOD_SEEN)
        if heel < self.right:
            yield Area(rectangle(heel, y - notch, self.right, y), Material.WOOD_SEEN, grained=False)
        outline = ((self.right, y - notch), (heel, y - notch), (heel, y), (g.x_J, y), (g.x_J, top), (self.right, top))
        yield Stroke(outline, Pen.CUT_LIGHT)

    def breaks(self) -> Iterator[Shape]:
        """Where wall and joist go on."""
        i, g = self.i, self.g
        under = self.member_top - i.joist_depth_in if i.member == "top_chord" else g.plate_thickness
        under -= i.notch_in if i.member == "sawn" else 0.0
        return parts.breaks(
            ((-i.foam_outer_lower_in, self.low), (self.face_low, self.low)),
            ((g.x_U - i.foam_outer_upper_in, self.top), (self.face_up, self.top)),
            ((self.right, under), (self.right, self.member_top + parts.DECK)),
        )

    def chains(self) -> Iterator[Chain]:
        """Wall build-up above and below, courses, plate and joist."""
        i, g = self.i, self.g
        up = g.x_U - i.foam_outer_upper_in, g.x_U, g.x_U + g.t_U, self.face_up
        yield Chain("top", up, ("outer foam above", "core above", "room-side foam above"), self.top, phone=(1, 2))
        down = -i.foam_outer_lower_in, 0.0, g.t_L, self.face_low
        yield Chain(
            "bottom", down, ("outer foam below", "core below", "room-side foam below"), self.low, "wall below", (1, 2)
        )
        courses = [y for y in (-i.course_in, 0.0, i.course_in) if self.low < y < self.top]
        if len(courses) > 1:
            yield Chain("left", tuple(courses), ("course",) * (len(courses) - 1), self.left)
        if i.member != "top_chord" and not (i.member == "sawn" and i.notch_in):
            stops: tuple[float, ...] = (g.plate_thickness, self.member_top)
            names: tuple[str, ...] = ("joist depth",)
            edges: tuple[float, ...] = (self.right, self.right)
            if self.plated:
                stops, names, edges = (0.0, *stops), ("plate thickness", *names), (g.x_E + 0.5, *edges)
            yield Chain("right", stops, names, edges, phone=(len(stops) - 2, len(stops) - 1))
        else:
            bottom = self.member_top - i.joist_depth_in
            yield Chain("right", (bottom, self.member_top), ("joist depth",), self.right, phone=(0, 1))

    def inners(self) -> Iterator[Inner]:
        """Bolt embedment."""
        i, g = self.i, self.g
        if self.plated:
            foot = -i.bolt_embedment_in
            at = max(g.x_bolt - max(4.0, i.hook_in + 1.0 if i.bolt_head == "hook" else 0.0), 0.8)
            yield Inner("y", (foot, 0.0), at, "anchor embedment", (g.x_bolt - float(i.bolt), g.x_bolt - float(i.bolt)))

    def fine(self) -> Iterator[Inner]:
        """End gap, gap behind the plate, lip."""
        i, g = self.i, self.g
        y = g.plate_thickness
        if i.end_gap_in > 0:
            yield Inner("x", (g.x_B, g.x_J), y + 0.3, "end gap", (0.0, y), "end gap")
        if i.top == "taper" and 0 < i.lip_in <= i.foam_lower_in:
            yield Inner("x", (g.x_E, self.face_low), 0.0, "foam left at the lip", (0.0, 0.0), "lip")

    def notes(self) -> Iterator[Note]:
        """What things are."""
        i, g = self.i, self.g
        depth = units.show(i.joist_depth_in, "in", self.system)
        spacing = units.show(i.joist_spacing_in, "in", self.system)
        low = g.plate_thickness if i.member != "top_chord" else self.member_top - parts.CHORD
        box = ((max(g.x_J, self.face_up) + 0.5, low), (self.right - 1.0, self.member_top))
        point = ((g.x_J + 2 * self.right) / 3, (low + self.member_top) / 2)
        words = f"{MEMBER_WORDS[i.member]} {depth}, at {spacing}"
        yield Note(point, words, f"span {units.show(i.span_ft, 'ft', self.system)}", box)
        yield Note((g.x_J + 0.25 * (self.right - g.x_J), self.member_top + parts.DECK / 2), "Deck")
        if self.plated:
            clear = face_at_depth_in(g, i.bolt_embedment_in) - g.x_bolt - float(i.bolt) / 2
            if g.lip_depth and 0 < clear <= SHOWN_COVER:
                foot = (g.x_bolt + float(i.bolt) / 2 + clear / 2, -i.bolt_embedment_in)
                yield Note(foot, units.show(clear, "in", self.system), "cover")

    def clear(self) -> tuple[Point, Point]:
        """Empty paper under the joist, right of the wall."""
        i = self.i
        under = min(self.g.plate_thickness, 0.0)
        if i.member == "top_chord":
            under = min(under, self.member_top - i.joist_depth_in)
        elif i.member == "sawn":
            under = min(under, self.g.plate_thickness - i.notch_in)
        return (max(self.face_low, self.g.x_E), self.low), (self.right, under)

    def missing(self) -> Iterator[str]:
        """What the geometry leaves nothing of."""
        g = self.g
        if g.seat <= 0:
            yield f"the seat: the wall above covers the ledge by {units.show(-g.seat, 'in', self.system)}"
        elif g.bearing <= 0:
            yield f"the bearing: the joist ends {units.show(-g.bearing, 'in', self.system)} short of it"
        if self.i.member == "top_chord" and self.i.seat_depth_in is None:
            yield "depth of the bearing seat: not given"
