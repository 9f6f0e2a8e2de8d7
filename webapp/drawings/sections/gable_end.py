"""Gable end: elevation course by course from outside, every piece of form outlined and numbered, lifts, rake plate.

x from the left eave along the base, y up from it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, radians, sin

from engine import units
from engine.attachments.gable_end.cutting import WHOLE, CutList, Piece, cut_list
from engine.attachments.gable_end.geometry import Gable, geometry
from engine.attachments.gable_end.inputs import Inputs
from engine.attachments.gable_end.rakes import RakePiece
from engine.units import System
from webapp.drawings import parts
from webapp.drawings.scene import Chain, Frame, Inner, Note, Scene, Spot, ViewPlan
from webapp.drawings.shapes import Area, Disc, Material, Pen, Point, Shape, Stroke, rectangle

BELOW = 0.5  # of a course: the wall under the eaves, broken off
PAST_PLATE_IN = 3.0  # a bolt past the rake plate, drawn without a figure
MOST_VOLUMES = 6  # lifts that a drawing names one by one


def plan(inputs: Inputs, system: System) -> tuple[ViewPlan, ...]:
    """One view: the elevation."""
    g, cut = geometry(inputs), cut_list(inputs)
    return (ViewPlan(lambda frame: _Elevation(inputs, g, cut, frame, system).scene()),)


@dataclass(slots=True)
class _Elevation:
    """The elevation while it is drawn."""

    i: Inputs
    g: Gable
    cut: CutList
    frame: Frame
    system: System

    @property
    def low(self) -> float:
        """Lower edge of what is shown."""
        return -BELOW * self.g.h

    @property
    def top(self) -> float:
        """Upper edge of what is shown."""
        g = self.g
        return g.H + max(g.plate / cos(radians(max(g.theta_L, g.theta_R))), 1.0) + PAST_PLATE_IN

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        g = self.g
        side = g.plate + PAST_PLATE_IN
        return Scene(
            "Elevation from outside",
            ((-side, self.low), (g.W + side, self.top)),
            (*self.pieces(), *self.opening(), *self.plate(), *self.lifts(), *self.wall()),
            chains=tuple(self.chains()),
            inners=tuple(self.inners()),
            tags=tuple(self.tags()),
            notes=tuple(self.notes()),
            spots=self.spots(),
        )

    def pieces(self) -> Iterator[Shape]:
        """Outlines; hatched where a piece is cut from an offcut."""
        for piece in self.cut.pieces:
            if piece.of:
                yield Area(piece.corners, Material.FOAM, Pen.SEEN)
            else:
                yield Stroke(piece.corners, Pen.SEEN, closed=True)
        g = self.g
        yield Stroke(((0.0, 0.0), (g.x_r, g.H), (g.W, 0.0)), Pen.CUT_LIGHT)

    def opening(self) -> Iterator[Shape]:
        """The opening, with its diagonals."""
        if self.g.opening is None:
            return
        left, right, sill, head = self.g.opening
        yield Stroke(rectangle(left, sill, right, head), Pen.CUT_LIGHT, closed=True)
        yield Stroke(((left, sill), (right, head)), Pen.SEEN)
        yield Stroke(((left, head), (right, sill)), Pen.SEEN)

    def plate(self) -> Iterator[Shape]:
        """The rake plate piece by piece, and its bolts down into the core."""
        for piece in self.g.pieces:
            a, b = self.on_rake(piece, piece.start_in), self.on_rake(piece, piece.end_in)
            out = self.outward(piece)
            corners = (a, b, _moved(b, out, self.g.plate), _moved(a, out, self.g.plate))
            yield Area(corners, Material.WOOD_SEEN, Pen.CUT_LIGHT, grained=False)
            down = (0.0, 1.0) if self.i.bolts_stand == "plumb" else out
            for at in piece.bolts_in:
                head = _moved(self.on_rake(piece, at), down, self.g.plate + 1.5)
                foot = _moved(self.on_rake(piece, at), down, -self.i.embedment_in)
                yield Stroke((foot, head), Pen.HIDDEN)
                yield Disc(_moved(self.on_rake(piece, at), out, self.g.plate / 2), 0.7)

    def on_rake(self, piece: RakePiece, along: float) -> Point:
        """A place on a rake, so far from its eave."""
        g = self.g
        share = along / (g.rake_L if piece.rake == "left" else g.rake_R)
        return (g.x_r * share if piece.rake == "left" else g.W - (g.W - g.x_r) * share), g.H * share

    def outward(self, piece: RakePiece) -> Point:
        """Square to a rake, away from the gable."""
        slope = radians(self.g.theta_L if piece.rake == "left" else self.g.theta_R)
        return (-sin(slope) if piece.rake == "left" else sin(slope)), cos(slope)

    def lifts(self) -> Iterator[Shape]:
        """Where each lift ends."""
        for lift in self.g.lifts[:-1]:
            left, right = self.g.edges_at(lift.high_in)
            yield Stroke(((left, lift.high_in), (right, lift.high_in)), Pen.CENTRE)

    def wall(self) -> Iterator[Shape]:
        """The wall below, broken off."""
        g = self.g
        yield Stroke(((0.0, self.low), (0.0, 0.0)), Pen.CUT_LIGHT)
        yield Stroke(((g.W, self.low), (g.W, 0.0)), Pen.CUT_LIGHT)
        yield from parts.breaks(((0.0, self.low), (g.W, self.low)))

    def chains(self) -> Iterator[Chain]:
        """Both sides of the ridge below; a course and the rise beside."""
        g = self.g
        yield Chain(
            "bottom", (0.0, g.x_r, g.W), ("left eave to the ridge", "ridge to the right eave"), self.low, "width at the eaves",
            (0, 2),
        )  # fmt: skip
        if g.h < g.H - 1e-9:
            edges = (-g.plate, -g.plate, g.x_r)
            yield Chain("left", (0.0, g.h, g.H), ("course", "courses above the first"), edges, "rise", (0, 2))
        else:
            yield Chain("left", (0.0, g.H), ("rise",), (-g.plate, g.x_r), phone=(0, 1))

    def inners(self) -> Iterator[Inner]:
        """How far the second course steps back."""
        g = self.g
        if g.N > 1:
            yield Inner("x", (0.0, g.c_L), g.h + 0.25 * g.h, "setback of a course at the left rake", (0.0, g.h))

    def tags(self) -> Iterator[Note]:
        """The number of every piece where it fits, with the letter of the offcut it leaves or is cut from."""
        for piece in self.cut.pieces:
            words = str(piece.number)
            if piece.leaves:
                words += f" {piece.leaves}"
            if piece.of:
                words += f" of {piece.of}"
            yield Note(_middle(piece), words, within=_room(piece))

    def notes(self) -> Iterator[Note]:
        """Where offcuts go, the boards on the cut edges, the plate, the lifts."""
        i, g = self.i, self.g
        for offcut in self.cut.offcuts[:1]:
            goal = self.cut.pieces[offcut.goes_to - 1]
            words = f"{offcut.source} {offcut.letter} leaves offcut {offcut.letter}"
            yield Note(_middle(goal), f"{goal.number} of {offcut.letter}: hatched, from an offcut", words)
        if g.pieces:
            piece = g.pieces[-1]
            at = self.on_rake(piece, 0.6 * piece.length_in + piece.start_in)
            words = f"bolts {i.bolt} in, {g.bolts} in all"
            yield Note(_moved(at, self.outward(piece), g.plate), f"Rake plate {i.plate}", words)
        ties = units.show(i.tie_spacing_in, "in", self.system)
        length = units.show(g.cut_ft, "ft", self.system)
        left, _ = g.edges_at(0.55 * g.H)
        yield Note((left, 0.55 * g.H), f"Boards on both faces, tied at {ties}", f"{length} in all")
        for number, lift in enumerate(g.lifts[:MOST_VOLUMES], 1):
            y = (lift.low_in + lift.high_in) / 2
            yield Note((g.edges_at(y)[1], y), f"Lift {number}: {lift.volume_yd3:.2f} yd³")

    def spots(self) -> dict[str, Spot]:
        """Places where limit states occur."""
        g = self.g
        y = min(g.lifts[0].high_in, g.H)
        left, right = g.edges_at(y)
        lift = Spot(((g.x_r + right) / 2, y / 2), ((0.0, 0.0), (g.W, 0.0), (right, y), (left, y)))
        whole = Spot((g.x_r, 0.6 * g.H), ((0.0, 0.0), (g.W, 0.0), (g.x_r, g.H)))
        found = {
            "": whole,
            "gable": whole,
            "lift": lift,
            "course": self.course(),
            "edge": self.edge(),
            "wall": Spot((g.x_r, self.low / 2), rectangle(0.0, self.low, g.W, 0.0)),
        }
        found |= self.bolted()
        if g.opening:
            left, right, sill, head = g.opening
            found["opening"] = Spot(((left + right) / 2, head), rectangle(left, sill, right, head))
        return found

    def course(self) -> Spot:
        """The first cut piece."""
        piece = next((p for p in self.cut.pieces if p.cuts != WHOLE), self.cut.pieces[0])
        return Spot(_middle(piece), piece.corners)

    def edge(self) -> Spot:
        """The strip of foam between the last web and the cut."""
        g = self.g
        x = min(g.s, 0.4 * g.x_r)
        return Spot((g.x_r / 2, g.H / 2), ((0.0, 0.0), (x, 0.0), (g.x_r, g.H * (1 - x / g.x_r)), (g.x_r, g.H)))

    def bolted(self) -> dict[str, Spot]:
        """Plate and bolt, where there is a plate."""
        if not self.g.pieces:
            return {}
        piece = self.g.pieces[0]
        at, out = self.on_rake(piece, piece.bolts_in[0]), self.outward(piece)
        a, b = self.on_rake(piece, piece.start_in), self.on_rake(piece, piece.end_in)
        plate = (a, b, _moved(b, out, self.g.plate), _moved(a, out, self.g.plate))
        foot = _moved(at, out, -self.i.embedment_in)
        return {"plate": Spot(at, plate), "bolt": Spot(foot, parts.box_around((at, foot), 1.0))}


def _moved(point: Point, way: Point, by: float) -> Point:
    return point[0] + way[0] * by, point[1] + way[1] * by


def _middle(piece: Piece) -> Point:
    """A place well inside a piece."""
    count = len(piece.corners)
    return sum(x for x, _ in piece.corners) / count, sum(y for _, y in piece.corners) / count


def _room(piece: Piece) -> tuple[Point, Point]:
    """The box within a piece for its number: between its edges, in the lower part where it narrows."""
    high = piece.height if piece.upper_in > 0.4 * piece.lower_in else 0.7 * piece.height
    share = 0.5 * high / piece.height
    left = piece.lower[0] + (piece.upper[0] - piece.lower[0]) * share
    right = piece.lower[1] + (piece.upper[1] - piece.lower[1]) * share
    return (left, piece.low), (right, piece.low + high)
