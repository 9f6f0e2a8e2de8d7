"""What each kind of attachment takes, from its inputs and where it was set out."""

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import ceil, pi
from typing import Any

from engine.attachments.anchored_plate.inputs import Inputs as Anchored
from engine.attachments.beam_pocket.inputs import Inputs as BeamPocket
from engine.attachments.bolted_ledger.inputs import Inputs as Ledger
from engine.attachments.cast_in_plate.inputs import Inputs as CastIn
from engine.attachments.gable_end.cutting import cut_list
from engine.attachments.gable_end.geometry import geometry as gable_of
from engine.attachments.gable_end.inputs import Inputs as GableEnd
from engine.attachments.ledge_seat.geometry import geometry as seat_of
from engine.attachments.ledge_seat.inputs import Inputs as LedgeSeat
from engine.attachments.sill_plate.inputs import PLATES
from engine.attachments.sill_plate.inputs import Inputs as Sill
from engine.attachments.veneer_ledge.inputs import Inputs as Veneer
from engine.clauses.us.bars import bar
from engine.clauses.us.bent_bars import round_steel_lb, steel_weight_lb
from engine.clauses.us.timber_materials import bolt, lumber
from engine.setting_out import SettingOut
from engine.takeoff.rows import Maker, Office
from engine.takeoff.veneer_bars import corner_bar, veneer_bars
from engine.takeoff.wall_bars import add_bars, cut_to_sixteenth, straight_cut
from engine.units import show
from engine.wall import Wall

FROM = "set out"
PAST_NUT_IN = 0.25  # a bolt past its nut, a cut washer's thickness in it; common practice
AT_END_IN = 24.0  # a run that ends so near a corner turns it: another wall's thickness and its foam; common practice
IN3_IN_YD3 = 46656
HALF_IN = 0.5  # bolts come in half inches; common practice
LEGS = {
    "two": "two legs", "one": "one leg", "slot": "one leg in a slot", "angle": "angle", "front": "two legs and a front plate"
}  # fmt: skip
RODS = ("nut", "washer")  # embedded ends that are a nut on a threaded rod
HEADS = {"nut": "rod and nut", "washer": "rod, nut and plate washer"}


@dataclass(frozen=True, slots=True)
class Here:
    """Where an attachment is: what was set out, on which wall, the office's own values."""

    set: SettingOut
    wall: Wall
    office: Office

    @property
    def pieces_ft(self) -> float:
        """Length of plate or ledger in all its pieces [ft]."""
        return sum(piece.length_in for piece in self.set.pieces) / 12

    def along_ft(self, what: str) -> float:
        """Length of the run that openings leave to one kind of mark [ft]."""
        return sum(piece.length_in for piece in self.set.rows[what].pieces) / 12

    @property
    def storey_in(self) -> float:
        """Height of the storey below [in]."""
        return self.wall.storeys[self.set.level - 1].height_ft * 12

    @property
    def corners(self) -> int:
        """Ends of the run at a corner of the wall."""
        line = self.wall.line
        near = line.near_end == "corner" and self.set.start_in <= AT_END_IN
        return near + (line.far_end == "corner" and self.set.end_in >= line.length_ft * 12 - AT_END_IN)

    def special_forms(self, along_ft: float) -> int:
        """Taper or ledge forms along a length."""
        return ceil(along_ft * 12 / self.office.special_length_in - 1e-9)

    @property
    def special_words(self) -> str:
        """Their length in words."""
        return f"{show(self.office.special_length_in, 'in')} long"


def bolt_length_in(embedment_in: float, clamped_in: float, D_in: float) -> float:
    """Straight length of a cast-in bolt [in]: embedment, what it clamps with its washer, a nut of one diameter, a little past it.

    Common practice, up to the half inch.
    """
    return ceil((embedment_in + clamped_in + D_in + PAST_NUT_IN) / HALF_IN - 1e-9) * HALF_IN


def _bolts(
    maker: Maker, count: int, D: float, embedment: float, clamped: float, head: str, washer: str, hook: float = 0.0
) -> None:
    """Bolts with their nuts and washers; a rod has a nut at its foot as well.

    Args: hook: outside length of a hooked bolt's hook, of no account for others [in].
    """
    length, rod = bolt_length_in(embedment, clamped, D), head in RODS
    bent = head == "hook"
    foot = f"hook {show(hook, 'in')}" if bent else HEADS.get(head, head.replace("_", " "))
    # along the middle a hook adds its outside length less a bolt's diameter, its corner taken sharp
    pounds = count * round_steel_lb(D, length + (hook - D if bent else 0.0))
    maker.add("anchor", f"{show(D, 'in')} by {show(length, 'in')}, {foot}", count, FROM, pounds=pounds)
    maker.add("nut", show(D, "in"), count * (2 if rod else 1), "one a bolt, two a rod" if rod else "one a bolt")
    if washer:
        maker.add("washer", washer, count, "one a bolt")


def _pieces(maker: Maker, item: str, size: str, here: Here, plies: int = 1) -> None:
    """Running length and every piece to cut."""
    maker.add(item, size, here.pieces_ft * plies, FROM)
    cuts = Counter(cut_to_sixteenth(piece.length_in) for piece in here.set.pieces)
    for length, count in sorted(cuts.items(), reverse=True):
        maker.add(f"{item} piece", size, count * plies, FROM, each_in=length)


def _ledge_seat(maker: Maker, i: LedgeSeat, here: Here) -> None:
    seat = seat_of(i)
    if i.plate != "none":
        D = float(i.bolt)
        _pieces(maker, "sill", i.plate, here)
        _bolts(
            maker,
            here.set.count("anchor"),
            D,
            i.bolt_embedment_in,
            seat.plate_thickness,
            i.bolt_head,
            f"cut, {show(D, 'in')}",
            i.hook_in,
        )
    along = here.along_ft("joist")
    if i.top == "taper":
        maker.add("form", f"taper, {here.special_words}", here.special_forms(along), "along the run, one course")
        lip = seat.lip_projection * seat.lip_depth / 2 * along * 12 / IN3_IN_YD3
        maker.add("concrete", "taper of the ledge", lip, "triangle of the taper along the run")
    if i.upper_foam == "cut_joist":
        maker.add("foam cut", "notch at a joist", here.set.count("joist"), FROM)
    if i.upper_foam == "cut_line":
        maker.add("foam strip", "upper panel along the ledge", along, "along the run")


def _sill_plate(maker: Maker, i: Sill, here: Here) -> None:
    size, D = PLATES[i.plate], bolt(i.bolt).D_in
    _pieces(maker, "sill", i.plate.removeprefix("2-"), here, size.plies)
    layer = i.barrier_in if i.barrier else 0.0
    plate_washer = i.washer_thickness_in if i.washer == "plate" else 0.0
    washer = {"none": "", "cut": f"cut, {show(D, 'in')}", "plate": f"{show(i.washer_in, 'in')} square"}[i.washer]
    clamped = size.t_in + layer + plate_washer
    _bolts(maker, here.set.count("anchor"), D, i.embedment_in, clamped, i.head, washer, i.hook_in)
    if i.washer == "plate" and i.slotted and i.cut_on_slot:
        maker.add("washer", f"cut, {show(D, 'in')}", here.set.count("anchor"), "on the slot, one a bolt")
    if i.barrier:
        maker.add("sealant", "gasket under the plate", here.pieces_ft, FROM)


def _bolted_ledger(maker: Maker, i: Ledger, here: Here) -> None:
    size, D, count = lumber(i.size), bolt(i.bolt).D_in, here.set.count("anchor")
    _pieces(maker, "ledger", i.size, here, i.plies)
    gap = 0.0 if i.contact == "strip" else i.foam_in
    clamped = size.b_in * i.plies + i.separator_in + gap
    _bolts(maker, count, D, i.embedment_in, clamped, i.head, f"{show(i.washer_in, 'in')} square", i.hook_in)
    if i.direction == "perpendicular":
        hangers = here.set.count("joist")
        maker.add("hanger", i.hanger_report or "as listed", hangers, FROM)
        maker.add("hanger fastener", "into the ledger", hangers * i.hanger_fasteners, "fasteners a hanger")
    maker.add("tie", i.tie_report or "as listed", here.set.count("tie"), FROM)
    if i.contact == "pads":
        holes = len(here.set.of("anchor"))
        maker.add("foam cut", f"hole, {show(i.hole_in, 'in')} across", count, "one a bolt")
        pads = pi / 4 * i.hole_in**2 * i.foam_in * count / IN3_IN_YD3
        maker.add("concrete", "pads at ledger bolts", pads, f"{holes} places")
    if i.contact == "strip":
        maker.add("foam strip", f"behind the ledger, {show(size.d_in, 'in')} high", here.pieces_ft, FROM)
    maker.add("sealant", "along the ledger's top", here.pieces_ft, FROM)


def _cast_in_plate(maker: Maker, i: CastIn, here: Here) -> None:
    count = here.set.count("plate")
    words = {"plate": "plate", "bracket": "bracket", "hanger": "hanger"}[i.kind]
    if i.kind == "plate":
        reach = i.embedment_in + i.foam_in + i.leg_in
        size = f"plate {show(i.plate_height_in, 'in')} by {show(reach, 'in')}, {i.t_in:g} in thick"
        one = steel_weight_lb(i.plate_height_in * reach * i.t_in)
        maker.add("plate", size, count, FROM, pounds=count * one)
        maker.add("foam cut", f"slit, {show(i.plate_height_in, 'in')} high", count, "one a plate")
        maker.add("sealant", "both sides of a plate's slit", 2 * i.plate_height_in * count / 12, "twice its height")
    else:
        maker.add("plate", f"{words}, {i.report or 'as listed'}", count, FROM)
    screws = f"No. {i.gauge} by {show(i.length_in, 'in')}, {i.screw_coating}"
    maker.add("screw", screws, count * i.screws, f"{i.screws} a joist's end")


def _anchored_plate(maker: Maker, i: Anchored, here: Here) -> None:
    plates, D = here.set.count("anchored"), bolt(i.anchor).D_in
    size = f"{show(i.width_in, 'in')} by {show(i.height_in, 'in')} by {show(i.thickness_in, 'in')}"
    one = steel_weight_lb(i.width_in * i.height_in * i.thickness_in)
    maker.add(
        "anchored plate",
        f"{size}, {LEGS[i.form]}",
        plates,
        f"{FROM}; weight of the plate on the wall alone",
        pounds=plates * one,
    )
    behind = {"tight": 0.0, "grout": i.pad_in, "gap": i.foam_in}[i.contact]
    anchors = plates * i.rows * i.columns
    clamped = i.thickness_in + behind
    _bolts(maker, anchors, D, i.embedment_in, clamped, i.head, f"cut, {show(D, 'in')}", i.hook_in)
    if i.head == "washer":
        size = f"{show(i.washer_in, 'in')} square, {show(i.washer_thickness_in, 'in')} thick"
        maker.add("washer", size, anchors, "embedded, one a rod")
    if i.contact == "gap":
        maker.add("nut", show(D, "in"), anchors, "a second one behind the plate")
    else:
        maker.add("foam cut", f"hole {show(i.width_in, 'in')} by {show(i.height_in, 'in')}", plates, "one a plate")
    fasteners = plates * i.f_rows * i.f_columns
    if i.fastener == "bolt":
        maker.add("member bolt", show(bolt(i.bolt).D_in, "in"), fasteners, "fasteners a plate")
    else:
        sides = 2 if i.form == "two" else 1
        maker.add("screw", f"No. {i.gauge} by {show(i.screw_length_in, 'in')}", fasteners * sides, "fasteners a leg")


def _beam_pocket(maker: Maker, i: BeamPocket, here: Here) -> None:
    pockets = here.set.count("pocket")
    maker.add("foam cut", f"pocket {show(i.pocket_width_in, 'in')} by {show(i.pocket_height_in, 'in')}", pockets, FROM)
    maker.add("sealant", "round a pocket", 2 * (i.pocket_width_in + i.pocket_height_in) / 12 * pockets, "its perimeter")
    if i.seat != "concrete":
        size = (
            f"{show(i.plate_width_in, 'in')} by {show(i.plate_length_in, 'in')} by {show(i.plate_thickness_in, 'in')}"
        )
        volume = i.plate_width_in * i.plate_length_in * i.plate_thickness_in * pockets
        steel = i.seat != "wood_plate"
        maker.add(
            "bearing plate", f"{size}, {'steel' if steel else 'wood'}", pockets, FROM,
            pounds=steel_weight_lb(volume) if steel else None,
        )  # fmt: skip
    cut = straight_cut(i.vertical_bar, here.storey_in - 2 * i.cover_in)
    add_bars(maker, Counter({cut: here.set.count("bar")}), "set out, the storey's height")


def _veneer_ledge(maker: Maker, i: Veneer, here: Here) -> None:
    along = here.along_ft("stirrup")
    maker.add("form", f"veneer ledge, {here.special_words}", here.special_forms(along), "along the run, one course")
    volume = i.projection_in * (i.depth_in + i.lip_depth_in) / 2 * along * 12 / IN3_IN_YD3
    maker.add("concrete", "veneer ledge", volume, "trapezoid of the ledge along the run")
    add_bars(maker, veneer_bars(i, here.set, here.office), "stirrups and ties as set out, bars along the ledge")
    if i.corner == "outside" and i.corner_leg_in:
        shape = corner_bar(i)
        number, length, count = shape.number, cut_to_sixteenth(shape.cut_in), here.corners / 2
        pounds = count * length / 12 * bar(number).weight_plf
        maker.add(
            "bar", f"No. {number}, L", count, "one at a corner, half with each ledge", length, pounds, shape
        )  # fmt: skip


def _gable_end(maker: Maker, i: GableEnd, here: Here) -> None:
    g, cut = gable_of(i), cut_list(i)
    named = here.wall.storeys[here.set.level - 1].type
    source = f"cut list, {len(cut.offcuts)} offcuts used again; {cut.without} forms without"
    maker.add("form", f"straight, {named}, {show(cut.form, 'in')} long", cut.with_reuse, source)
    for number, lift in enumerate(g.lifts, 1):
        rise = f"{show(lift.low_in / 12, 'ft')} to {show(lift.high_in / 12, 'ft')} above the eaves"
        maker.add("concrete", f"gable, lift {number}", lift.volume_yd3, rise)
    maker.add("strapping", "boards on cut edges", g.cut_ft, "both faces of both rakes")
    refitted = sum(2 * piece.height for piece in cut.pieces if piece.of) / 12
    maker.add("sealant", "joints of pieces from offcuts", refitted, "both faces of each")
    _rake_plate(maker, i)


def _rake_plate(maker: Maker, i: GableEnd) -> None:
    g = gable_of(i)
    if not g.pieces:
        return
    length, D = (g.rake_L + g.rake_R) / 12, bolt(i.bolt).D_in
    maker.add("sill", f"{i.plate}, rake plate", length, "both rakes")
    cuts = Counter(cut_to_sixteenth(piece.length_in) for piece in g.pieces)
    for each, count in sorted(cuts.items(), reverse=True):
        maker.add("sill piece", f"{i.plate}, rake plate", count, "both rakes", each_in=each)
    _bolts(maker, g.bolts, D, i.embedment_in, g.plate, "hex", f"cut, {show(D, 'in')}")
    maker.add("sealant", "under the rake plate", length, "both rakes")


KINDS: Mapping[str, Callable[[Maker, Any, Here], None]] = {
    "ledge_seat": _ledge_seat,
    "sill_plate": _sill_plate,
    "bolted_ledger": _bolted_ledger,
    "cast_in_plate": _cast_in_plate,
    "anchored_plate": _anchored_plate,
    "beam_pocket": _beam_pocket,
    "veneer_ledge": _veneer_ledge,
    "gable_end": _gable_end,
}


def special_ft(kind: str, i: Any, here: Here) -> float:
    """Length of one course that taper or ledge forms take from the straight ones [ft]."""
    if kind == "ledge_seat" and i.top == "taper":
        return here.along_ft("joist")
    return here.along_ft("stirrup") if kind == "veneer_ledge" else 0.0
