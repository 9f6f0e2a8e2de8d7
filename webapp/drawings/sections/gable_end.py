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
MOST_LED = 6  # pieces too small for their numbers that get a leader instead
BESIDE_PX, ABOVE_PX, NARROW_PX = 96.0, 60.0, 330.0  # paper for words; a phone has none to spare beside


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
    beside: float = 0.0
    top: float = 0.0

    def __post_init__(self) -> None:
        """Paper for words right of the gable, beside the lifts, and a little above it."""
        g, side = self.g, self.side
        peak = g.H + g.plate / cos(radians(max(g.theta_L, g.theta_R))) + PAST_PLATE_IN
        beside = BESIDE_PX if self.frame.width > NARROW_PX else 0.0
        scale = min(
            (self.frame.width - beside) / (g.W + 2 * side),
            (self.frame.height - ABOVE_PX) / (peak - self.low),
            self.frame.most,
        )
        self.beside, self.top = beside / scale, peak + ABOVE_PX / scale

    @property
    def side(self) -> float:
        """Past the eaves, for the plate and its bolts."""
        return self.g.plate + PAST_PLATE_IN

    @property
    def low(self) -> float:
        """Lower edge of what is shown."""
        return -BELOW * self.g.h

    def scene(self) -> Scene:
        """Everything, in the order it is painted within its layers."""
        return Scene(
            "Elevation from outside",
            ((-self.side, self.low), (self.g.W + self.side + self.beside, self.top)),
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
        """The number of every piece where it fits, with the letter of the offcut that it leaves."""
        led = {piece.number for piece in self.from_offcuts()}
        for piece in self.cut.pieces:
            if piece.number not in led:
                yield Note(_middle(piece), _name(piece), within=_room(piece))

        yield from self.volumes()

    def volumes(self) -> Iterator[Note]:
        """Concrete of each lift, right of it."""
        if not self.beside:
            return
        for number, lift in enumerate(self.g.lifts, 1):
            left = self.g.edges_at(lift.low_in)[1] + self.side
            box = ((left, lift.low_in), (left + self.beside, lift.high_in))
            yield Note(box[0], f"Lift {number}: {_volume(lift.volume_yd3, self.system)}", within=box)

    def from_offcuts(self) -> tuple[Piece, ...]:
        """Pieces cut from offcuts, those whose number is written with a leader where they are too small for it."""
        return tuple(piece for piece in self.cut.pieces if piece.of)[:MOST_LED]

    def notes(self) -> Iterator[Note]:
        """Pieces from offcuts, the boards on the cut edges, the plate."""
        led = self.from_offcuts()
        for piece in led:
            yield Note(_middle(piece), _name(piece), within=_room(piece))
        yield self.boards()
        if self.g.pieces:
            yield self.plate_note()
        if led:
            leaves = next(piece for piece in self.cut.pieces if piece.leaves == led[0].of)
            yield Note(
                _middle(led[0]), "Hatched: cut from an offcut", f"{_name(led[0])} from what {_name(leaves)} leaves"
            )

    def boards(self) -> Note:
        """What holds the cut edges."""
        ties = units.show(self.i.tie_spacing_in, "in", self.system)
        length = units.show(self.g.cut_ft, "ft", self.system)
        y = 0.55 * self.g.H
        return Note((self.g.edges_at(y)[0], y), f"Boards on both faces, tied at {ties}", f"{length} in all")

    def plate_note(self) -> Note:
        """The rake plate and its bolts."""
        piece = next(p for p in self.g.pieces if p.rake == "right")
        at = self.on_rake(piece, piece.start_in + 0.9 * piece.length_in)
        point = _moved(at, self.outward(piece), self.g.plate)
        return Note(point, f"Rake plate {self.i.plate}", f"bolts {self.i.bolt} in, {self.g.bolts} in all")

    def spots(self) -> dict[str, Spot]:
        """Places where limit states occur."""
        g = self.g
        y = min(g.lifts[0].high_in, g.H)
        left, right = g.edges_at(y)
        lift = Spot(((left + g.x_r) / 2, y / 2), ((0.0, 0.0), (g.W, 0.0), (right, y), (left, y)))
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


def _volume(yd3: float, system: System) -> str:
    """Concrete of a lift; the last one is small, so to a hundredth."""
    return f"{yd3:.2f} yd³" if system == "ft in" else units.show(yd3, "yd³", system)


def _name(piece: Piece) -> str:
    """Its number, with the letter of the offcut that it leaves or is cut from."""
    return f"{piece.number} {piece.leaves or piece.of}".strip()


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
