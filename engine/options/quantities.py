"""What each way of carrying a floor line takes, over its run: pure functions of inputs and geometry.

Counts are those of an even spacing without openings; setting-out has the true ones. Steel is that of bolts, plates and screws as
plain rods and sheets; nuts, washers and parts known by their listing have no weight here.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import ceil, pi
from typing import Any

from engine.attachments.anchored_plate.geometry import Bracket
from engine.attachments.anchored_plate.inputs import Inputs as Anchored
from engine.attachments.bolted_ledger.geometry import Ledger
from engine.attachments.bolted_ledger.inputs import Inputs as Bolted
from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs as CastIn
from engine.attachments.ledge_seat.geometry import Seat
from engine.attachments.ledge_seat.inputs import Inputs as OnLedge
from engine.clauses.us.bent_bars import round_steel_lb, steel_weight_lb
from engine.clauses.us.timber_materials import bolt
from engine.options.steps import steps
from engine.takeoff.kinds import bolt_length_in

IN3_IN_FT3 = 1728.0


@dataclass(frozen=True, slots=True)
class Quantities:
    """Of one floor line over its run.

    anchors: cast-in bolts. plates: steel parts, cast in or anchored. hangers, ties: listed parts. fasteners: screws, nails and
    bolts into wood. steel_lb: of anchors, plates and screws. cuts: places where foam is cut. cut_ft: length of those cuts.
    concrete_ft3: what is cast beside the wall itself. before, after: steps, before placing and after.
    """

    anchors: int = 0
    plates: int = 0
    hangers: int = 0
    ties: int = 0
    fasteners: int = 0
    steel_lb: float = 0.0
    cuts: int = 0
    cut_ft: float = 0.0
    concrete_ft3: float = 0.0
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()

    @property
    def hardware(self) -> int:
        """Pieces set by hand."""
        return self.anchors + self.plates + self.hangers + self.ties + self.fasteners


def along(run_in: float, spacing_in: float) -> int:
    """Things at a spacing over a run, one at each end."""
    return ceil(run_in / spacing_in - 1e-9) + 1


def in_pieces(run_in: float, piece_in: float, end_in: float, spacing_in: float) -> int:
    """Bolts of a run laid in pieces: in each one at both ends, and between them none farther apart than the spacing."""
    whole, rest = divmod(run_in, piece_in)
    pieces = [(piece_in, int(whole))] + ([(rest, 1)] if rest > 2 * end_in else [])
    return sum(count * (max(ceil((length - 2 * end_in) / spacing_in - 1e-9), 1) + 1) for length, count in pieces)


def _bolts_lb(count: int, D_in: float, embedment_in: float, clamped_in: float) -> float:
    return count * round_steel_lb(D_in, bolt_length_in(embedment_in, clamped_in, D_in))


def on_ledge(i: OnLedge, seat: Seat, run_in: float) -> Quantities:
    """Joists on a ledge. Args: seat: its geometry. run_in: length of the line [in]."""
    joists, anchors = along(run_in, i.joist_spacing_in), 0
    if i.plate != "none":
        anchors = in_pieces(run_in, i.plate_piece_ft * 12, i.bolt_end_in, i.bolt_spacing_in)
    taper = i.top == "taper"
    upper = {
        "whole": (0, 0.0),
        "cut_joist": (joists, joists * (2 * i.joist_depth_in + i.joist_width_in)),
        "cut_line": (1, 2 * run_in),
    }
    cuts, cut_in = upper[i.upper_foam]
    before, after = steps("ledge_seat", i)
    return Quantities(
        anchors=anchors,
        steel_lb=_bolts_lb(anchors, float(i.bolt), i.bolt_embedment_in, seat.plate_thickness),
        cuts=cuts + taper,
        cut_ft=(cut_in + taper * run_in) / 12,
        concrete_ft3=seat.lip_projection * seat.lip_depth / 2 * run_in / IN3_IN_FT3,
        before=before,
        after=after,
    )


def bolted_ledger(i: Bolted, place: Ledger, run_in: float) -> Quantities:
    """A bolted ledger. Args: place: its geometry. run_in: length of the line [in]."""
    anchors = in_pieces(run_in, place.piece, i.end_in, i.spacing_in) * place.at_a_place
    hangers = along(run_in, i.joist_spacing_in) if i.direction == "perpendicular" else 0
    pads = i.contact == "pads"
    cut_in = {"pads": anchors * pi * i.hole_in, "strip": 2 * run_in, "gap": 0.0}[i.contact]
    before, after = steps("bolted_ledger", i)
    return Quantities(
        anchors=anchors,
        hangers=hangers,
        ties=along(run_in, i.tie_spacing_in) if i.ties == "listed" else 0,
        fasteners=hangers * i.hanger_fasteners,
        steel_lb=_bolts_lb(anchors, place.D, place.h_ef, place.x_face),
        cuts={"pads": anchors, "strip": 1, "gap": 0}[i.contact],
        cut_ft=cut_in / 12,
        concrete_ft3=pads * anchors * pi / 4 * i.hole_in**2 * i.foam_in / IN3_IN_FT3,
        before=before,
        after=after,
    )


def anchored_plate(i: Anchored, p: Bracket, run_in: float, joists_in: float) -> Quantities:
    """Anchored plates, one a joist or along a ledger.

    Args: p: geometry of one. run_in: length of the line. joists_in: spacing of the joists [in].
    """
    ledger = i.carried == "ledger"
    apart = i.spacing_in if ledger else i.next_in or run_in
    plates = along(run_in, apart)
    anchors, fasteners = plates * len(p.anchors), plates * len(p.fasteners)
    legs = len(p.legs) * max(p.x_leg - p.x_front, 0.0) * p.leg_height
    front = (p.legs[-1][1] - p.legs[0][0]) * p.leg_height if p.front_plate else 0.0
    steel = steel_weight_lb(p.width * p.height * p.thickness + (legs + front) * p.leg_thickness) * plates
    cut = i.contact != "gap"
    before, after = steps("anchored_plate", i)
    return Quantities(
        anchors=anchors,
        plates=plates,
        hangers=along(run_in, joists_in) if ledger else 0,
        fasteners=fasteners * (2 if i.fastener == "screw" and i.form == "two" else 1),
        steel_lb=steel + _bolts_lb(anchors, p.d_a, p.h_ef, p.gap + p.thickness) + _fasteners_lb(i, p, fasteners),
        cuts=plates * cut,
        cut_ft=cut * plates * 2 * (p.width + p.height) / 12,
        concrete_ft3=plates * p.width * p.height * p.gap / IN3_IN_FT3 if i.contact == "grout" else 0.0,
        before=before,
        after=after,
    )


def _fasteners_lb(i: Anchored, p: Bracket, count: int) -> float:
    if i.fastener == "bolt":
        return _bolts_lb(count, bolt(i.bolt).D_in, 0.0, i.b_in - p.slot + len(p.legs) * p.leg_thickness)
    return count * (2 if i.form == "two" else 1) * round_steel_lb(p.D, i.screw_length_in)


def cast_in_plate(i: CastIn, p: Plate, run_in: float) -> Quantities:
    """Cast-in parts, one a joist. Args: p: geometry of one. run_in: length of the line [in]."""
    plates, own = along(run_in, i.spacing_in), i.kind == "plate"
    height, screws = p.y_bottom - p.y_top, plates * len(p.screws)
    steel = steel_weight_lb(height * (p.embedment + p.x_right) * p.thickness) * plates if own else 0.0
    before, after = steps("cast_in_plate", i)
    return Quantities(
        plates=plates,
        fasteners=screws,
        steel_lb=steel + screws * round_steel_lb(p.D, i.length_in),
        cuts=plates * own,
        cut_ft=own * plates * height / 12,
        before=before,
        after=after,
    )


# of a basis, the run and the joists' spacing [in]
QUANTITIES: Mapping[str, Callable[[Any, float, float], Quantities]] = {
    "ledge_seat": lambda b, run_in, _: on_ledge(b.inputs, b.seat, run_in),
    "bolted_ledger": lambda b, run_in, _: bolted_ledger(b.inputs, b.place, run_in),
    "anchored_plate": lambda b, run_in, joists_in: anchored_plate(b.inputs, b.bracket, run_in, joists_in),
    "cast_in_plate": lambda b, run_in, _: cast_in_plate(b.inputs, b.plate, run_in),
}
