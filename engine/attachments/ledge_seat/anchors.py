"""Lines about the plate's anchor bolts: where they stand always, chapter 17 and the wood where load is typed."""

from engine.attachments.ledge_seat.geometry import Seat, face_at_depth_in
from engine.attachments.ledge_seat.inputs import Inputs
from engine.clauses.us import sill_lines
from engine.clauses.us.anchors_line import Where
from engine.clauses.us.anchors_lines import anchor_lines
from engine.clauses.us.anchors_materials import Head, head, hook, steel
from engine.clauses.us.irc_loads import load_per_bolt_lb
from engine.clauses.us.loads import Loads
from engine.clauses.us.sill_lines import PlateBolts, Push
from engine.clauses.us.timber_materials import species
from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import Worksheet

WIND_C_D = 1.6  # NDS 2018 Table 2.3.2: the shortest load in the combination is wind


def placing(sheet: Worksheet, b: PlateBolts) -> tuple[LimitState, ...]:
    """Across the plate, and in the concrete."""
    return (sill_lines.middle_third(sheet, b, "the back of the plate"), sill_lines.cover(sheet, b))


def in_concrete(sheet: Worksheet, i: Inputs, b: PlateBolts, floor: Loads, edition: Edition) -> tuple[LimitState, ...]:
    """By chapter 17, where uplift or lateral load is typed. Args: floor: on the plate [plf]."""
    tension = sheet.use(sill_lines.net_pull_lb, k_W=1.0, W_plf=i.uplift_plf, k_D=0.9, D_plf=floor.D, l_in=b.spacing_in)
    shear = sheet.use(load_per_bolt_lb, w_plf=i.lateral_plf, s_in=b.spacing_in)
    if not (tension or shear):
        sheet.take()
        return ()
    where, toward = Where("anchor", "", "0.9D + W", "anchor"), shear * b.toward_near_face
    return sill_lines.in_concrete(
        b, lambda group: anchor_lines(sheet, edition, group, (tension,), ((0.0, toward),), where)
    )


def bolts(i: Inputs, seat: Seat) -> PlateBolts:
    """The plate's bolts, with the concrete beside their feet."""
    return PlateBolts(
        D_in=float(i.bolt),
        steel=steel(i.steel),
        foot=_head(i),
        embedment_in=i.bolt_embedment_in,
        spacing_in=i.bolt_spacing_in,
        end_in=i.bolt_end_in,
        piece_in=i.plate_piece_ft * 12,
        across_in=i.bolt_from_back_in,
        b_in=seat.plate_width,
        t_in=seat.plate_thickness,
        wood=species(i.plate_species),
        wet=i.plate_wet,
        outer_in=seat.x_bolt,
        room_in=face_at_depth_in(seat, i.bolt_embedment_in) - seat.x_bolt,
        f_c_psi=i.f_c_psi,
    )


def _head(i: Inputs) -> Head:
    D = float(i.bolt)
    if i.bolt_head == "hook":
        return hook(i.hook_in - D, D)
    return head("heavy hex" if i.bolt_head == "heavy_hex" else "hex", D)


def in_wood(sheet: Worksheet, i: Inputs, b: PlateBolts, floor: Loads) -> list[LimitState]:
    """The plate under the nuts and on the bolts, allowable stress: 0.6D + 0.6W. Args: floor: on the plate [plf]."""
    states = []
    pull = sheet.use(sill_lines.net_pull_lb, k_W=0.6, W_plf=i.uplift_plf, k_D=0.6, D_plf=floor.D, l_in=b.spacing_in)
    if pull:
        washer = sill_lines.cut_washer(b.D_in)
        states.append(sill_lines.washer_bearing(sheet, b, pull, washer, "0.6D + 0.6W"))
    across = sheet.use(load_per_bolt_lb, w_plf=0.6 * i.lateral_plf, s_in=b.spacing_in)
    if across:
        say = "Wind pushes {demand} on a bolt across the wall; plate and bolt take {capacity}"
        push = Push(0.0, across, WIND_C_D, "0.6W")
        states.append(sill_lines.dowel(sheet, b, push, "bolt-dowel", "Plate on the bolts, across the wall", say))
    return states
