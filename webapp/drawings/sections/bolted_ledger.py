"""Bolted ledger: section at a bolt, and an elevation of the piece from the room.

Section: x from the inner face of the core toward the room, y up from the ledger's top edge. Elevation: u along the piece.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from engine import units
from engine.attachments.bolted_ledger.geometry import Ledger, geometry
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Inner, Length, Note, Scene, Spot, ViewPlan
from webapp.drawings.sections import ledger_elevation
from webapp.drawings.shapes import Area, Material, Pen, Point, Shape, Stroke, rectangle

ABOVE, BELOW, LEAST_REACH, STUB = 6.0, 5.0, 12.0, 1.5
HANGER = 0.12  # drawn at a usual size, without a figure


def plan(inputs: Inputs, system: System) -> tuple[ViewPlan, ...]:
    """Section above, elevation below. Raises: BadInput where the engine's geometry does."""
    g = geometry(inputs)
    return (
        ViewPlan(lambda frame: _Section(inputs, g, frame, system).scene(), row=0, tall=0.68, lens=True),
        ViewPlan(partial(ledger_elevation.elevation, inputs, g, system), row=1, tall=0.3),
    )


@dataclass(slots=True)
class _Section:
    """The section while it is drawn."""

    i: Inputs
    g: Ledger
    frame: Frame
    system: System
    left: float = 0.0
    right: float = 0.0
    low: float = 0.0
    top: float = 0.0

    def __post_init__(self) -> None:
        g = self.g
        self.left = -g.t - STUB
        self.low = -max(g.d, self.hangs, g.rows[-1] + g.hole / 2) - BELOW
        self.top = max(parts.DECK, g.hole / 2 - g.rows[0]) + ABOVE
        if g.top is not None:
            self.top = max(min(self.top, g.top - g.rows[0]), 1.0)
        if g.below is not None:
            self.low = min(max(self.low, -g.rows[-1] - g.below), -g.d)
        wall = max(g.x_face, g.x_R) - self.left
        scale = self.frame.scale(wall + LEAST_REACH, self.top - self.low)
        self.right = self.left + max(wall + LEAST_REACH, self.frame.width / scale)

    @property
    def hangs(self) -> float:
        """How far the joist reaches below the ledger's top."""
        return self.g.joist_depth if self.i.direction == "perpendicular" else 0.0

    @property
    def shown_rows(self) -> tuple[float, ...]:
        """Rows the section cuts: of staggered bolts only the upper one."""
        return self.g.rows[:1] if self.g.staggered else self.g.rows

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        shapes = (*self.wall(), *self.bolts(), *self.floor(), *self.breaks())
        return Scene(
            "Section at a bolt",
            ((self.left, self.low), (self.right, self.top)),
            shapes,
            chains=tuple(self.chains()),
            inners=tuple(self.inners()),
            notes=tuple(self.notes()),
            spots=self.spots(),
            lengths=self.lengths(),
            clear=self.clear(),
        )

    def openings(self) -> list[tuple[float, float]]:
        """Spans of height where the inner foam is away."""
        g = self.g
        if self.i.contact == "strip":
            return [(-g.d, 0.0)]
        if self.i.contact == "gap":
            return []
        return parts.merged([(-y - g.hole / 2, -y + g.hole / 2) for y in self.shown_rows])

    def wall(self) -> Iterator[Shape]:
        """Core with its pads, inner foam, a strip of the outer foam."""
        g, open_spans = self.g, self.openings()
        yield from parts.outer_stub(-g.t, self.low, self.top)
        corners: list[Point] = [(-g.t, self.low), (0.0, self.low)]
        for low, high in open_spans if g.pad else []:
            low, high = max(low, self.low), min(high, self.top)
            corners += [(0.0, low), (g.pad, low), (g.pad, high), (0.0, high)]
        corners += [(0.0, self.top), (-g.t, self.top)]
        ends: tuple[int, ...] = () if g.below is not None and self.low == -g.rows[-1] - g.below else (0,)
        ends += () if g.top is not None else (len(corners) - 2,)
        yield Area(tuple(corners), Material.CONCRETE, Pen.CUT, ends)
        for low, high in parts.gaps(self.low, self.top, open_spans):
            broken = [edge for edge, at, end in ((0, low, self.low), (2, high, self.top)) if at == end]
            yield from parts.panel(0.0, g.foam, low, high, broken)

    def bolts(self) -> Iterator[Shape]:
        """Bolts with head or hook, washer and nut; a row that the section does not cut is hidden."""
        g = self.g
        for y in g.rows:
            if y not in self.shown_rows:
                yield Stroke(rectangle(g.x_foot, -y - g.D / 2, g.x_face, -y + g.D / 2), Pen.HIDDEN, closed=True)
                continue
            yield from parts.level_bolt(-y, g.D, g.x_foot, g.x_face + 1.4 * g.D, head_in=False)
            half = g.head_width / 2
            if g.hook:
                yield Area(rectangle(g.x_foot, -y + g.D / 2 - g.hook, g.x_foot + g.D, -y), Material.STEEL_CUT)
            else:
                yield Area(rectangle(g.x_foot, -y - half, -g.h_ef, -y + half), Material.STEEL_CUT)
            yield from parts.nut(-y, g.D, g.x_face)

    def floor(self) -> Iterator[Shape]:
        """Ledger, separator, joist on its hanger, deck."""
        g, i = self.g, self.i
        ply = g.b / i.plies
        for n in range(i.plies):
            yield Area(
                rectangle(g.x_back + n * ply, -g.d, g.x_back + (n + 1) * ply, 0.0), Material.WOOD_CUT, Pen.CUT_LIGHT
            )
        if g.separator:
            yield Area(rectangle(g.x_back - g.separator, -g.d, g.x_back, 0.0), Material.STEEL_SEEN, Pen.SEEN)
        yield parts.deck(g.x_back, self.right, 0.0)
        if i.direction == "perpendicular":
            yield from parts.member("sawn", g.x_face + HANGER, self.right, -g.joist_depth, 0.0)
            seat = g.x_face + i.hanger_seat_in
            up = -min(2.0, 0.3 * g.joist_depth)
            corners = (
                (g.x_face, up), (g.x_face, -g.joist_depth - HANGER), (seat, -g.joist_depth - HANGER), (seat, -g.joist_depth),
                (g.x_face + HANGER, -g.joist_depth), (g.x_face + HANGER, up),
            )  # fmt: skip
            yield Area(corners, Material.STEEL_CUT)

    def breaks(self) -> Iterator[Shape]:
        """Where wall and floor go on."""
        g = self.g
        low_end, top_end = (self.left, self.low), (self.left, self.top)
        if not (g.below is not None and self.low == -g.rows[-1] - g.below):
            yield from parts.breaks((low_end, (g.foam, self.low)))
        if g.top is None:
            yield from parts.breaks((top_end, (g.foam, self.top)))
        yield from parts.breaks(((self.right, -self.hangs), (self.right, parts.DECK)))

    def chains(self) -> Iterator[Chain]:
        """Core and foam above; embedment and what lies between core and ledger below; joist depth."""
        g = self.g
        yield Chain("top", (-g.t, 0.0, g.foam), ("core", "room-side foam"), self.top, phone=(0, 1))
        stops, names = [-g.h_ef, 0.0], ["embedment in the core"]
        if g.x_back > 0:
            stops, names = [*stops, g.x_back], [*names, "core face to ledger"]
        stops, names = [*stops, g.x_face], [*names, "ledger thickness"]
        edges = (-g.rows[-1] - g.head_width / 2, self.low, *([-g.d] * (len(stops) - 2)))
        yield Chain("bottom", tuple(stops), tuple(names), edges, phone=(0, 1))
        if self.hangs:
            yield Chain("right", (-g.joist_depth, 0.0), ("joist depth",), self.right, phone=(0, 1))

    def inners(self) -> Iterator[Inner]:
        """Where the reaction stands off the core."""
        g = self.g
        y = -max(g.d, self.hangs) - 2.4
        if g.x_R > 0:
            edges = (y + 0.8, -max(self.hangs, 0.0) - 0.4)
            yield Inner("x", (0.0, g.x_R), y, "reaction from the core face", edges, "to the reaction")

    def notes(self) -> Iterator[Note]:
        """What things are."""
        g, i = self.g, self.i
        if i.direction == "perpendicular":
            box = ((g.x_face + 2.5 * g.D, -g.joist_depth), (self.right - 1, 0.0))
            words = f"Joist {units.show(g.joist_depth, 'in', self.system)}, at {units.show(i.joist_spacing_in, 'in', self.system)}"
            point = ((g.x_face + 2 * self.right) / 3, -g.joist_depth / 2)
            yield Note(point, words, f"span {units.show(i.span_ft, 'ft', self.system)}", box)
            yield Note((g.x_face + 0.8 * i.hanger_seat_in, -g.joist_depth), "Hanger")
        else:
            yield Note((self.right - 3, parts.DECK / 2), "Deck; joists run along the ledger")
        plies = f"{i.plies} plies " if i.plies > 1 else ""
        yield Note((g.x_back + g.b / 2, -0.9 * g.d), f"Ledger {plies}{i.size}", i.species)
        yield Note((g.x_foot / 2, -self.shown_rows[-1]), f"Bolt {i.bolt} in", i.steel)

    def clear(self) -> tuple[Point, Point]:
        """Empty paper under the joist."""
        return (max(self.g.x_face, self.g.foam), self.low), (self.right, -max(self.hangs, self.g.d) - 0.5)

    def spots(self) -> dict[str, Spot]:
        """Places where limit states occur."""
        g, row = self.g, -self.shown_rows[0]
        last = -self.shown_rows[-1]
        core = rectangle(-g.h_ef, last - g.D, 0.0, row + g.D)
        wood = rectangle(g.x_back, -g.d, g.x_face, 0.0)
        bolt_in_wood = rectangle(g.x_back, row - 1.2 * g.D, g.x_face, row + 1.2 * g.D)
        anchor = Spot((-0.6 * g.h_ef, row), core)
        bolt = Spot((g.x_back + g.b / 2, row), bolt_in_wood)
        pad = rectangle(0.0, row - g.hole / 2, g.pad, row + g.hole / 2) if g.hole else core
        contact = Spot((g.pad / 2, row - g.hole / 3), pad)
        ledger = Spot((g.x_back + g.b / 2, -0.75 * g.d), wood)
        deep = max(self.hangs, 2.0)
        hanger = Spot(
            (g.x_face + 0.6, -deep), rectangle(g.x_face, -deep - 0.3, g.x_face + self.i.hanger_seat_in, -deep + 1.2)
        )
        tie = Spot((g.x_face + 3.0, 0.2), rectangle(g.x_face, -0.6, g.x_face + 6, parts.DECK))
        below = Spot((-g.t / 2, last - 1.5), rectangle(-g.h_ef, self.low, 0.0, last))
        return {
            "": ledger, "ledger": ledger, "bolt": bolt, "core": anchor, "contact": contact, "hanger": hanger, "tie": tie,
            "wall": below, "edge-top": bolt, "edge-bottom": bolt, "end": bolt, "rows": bolt, "spacing": bolt,
        }  # fmt: skip

    def lengths(self) -> dict[str, Length]:
        """By the keys of the lines that judge them."""
        g, row = self.g, -self.shown_rows[0]
        return {"hole": Length((g.pad, row - g.hole / 2), (g.pad, row + g.hole / 2), "cut out")} if g.hole else {}
