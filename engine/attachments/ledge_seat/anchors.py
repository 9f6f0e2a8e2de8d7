"""Lines about the plate's anchor bolts: the prescriptive rules always, chapter 17 and the wood where load is typed."""

from math import ceil

from engine.attachments.ledge_seat.geometry import Seat, face_at_depth_in
from engine.attachments.ledge_seat.inputs import Inputs
from engine.clauses.us.anchors_line import Where
from engine.clauses.us.anchors_lines import anchor_lines
from engine.clauses.us.anchors_materials import Head, head, hook, steel
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.concrete_wall_steel import clear_cover_in
from engine.clauses.us.irc_sills import end_distance_window_in, middle_third_in, sill_bolt, sill_bolt_count
from engine.clauses.us.loads import Loads
from engine.clauses.us.timber_bearing import C_b, washer_bearing_lb
from engine.clauses.us.timber_bearing_strength import fe_concrete_psi, fe_wood
from engine.clauses.us.timber_factors import C_M_stress
from engine.clauses.us.timber_materials import species
from engine.clauses.us.timber_yield import yield_modes
from engine.editions import Edition
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

WIND_C_D = 1.6  # NDS 2018 Table 2.3.2: the shortest load in the combination is wind
BOLT_F_YB_PSI = 45000.0  # NDS 2018 Table 12E: bolts. provenance: read second-hand
WASHER_SIDE_IN = 2.0  # a round cut washer is taken as the bolt's nut on a 2 in square; common practice
HOLE_OVER_IN = 1 / 16  # NDS 2018 12.1.3.2: holes at most 1/16 in over the bolt


def lines(sheet: Worksheet, i: Inputs, seat: Seat, floor: Loads, edition: Edition) -> tuple[LimitState, ...]:
    """Every line about the bolts. Args: floor: the joists' load on the plate [plf]."""
    states = [*_prescriptive(sheet, i), _across(sheet, i, seat), _foot(sheet, i, seat)]
    tension = max(i.uplift_plf - 0.9 * floor.D, 0.0) * i.bolt_spacing_in / 12
    shear = i.lateral_plf * i.bolt_spacing_in / 12
    if tension or shear:
        states += _concrete(sheet, i, seat, tension, shear, edition)
        states += _wood(sheet, i, seat, floor)
    return tuple(states)


def _prescriptive(sheet: Worksheet, i: Inputs) -> list[LimitState]:
    least = sheet.use(sill_bolt)
    taken = sheet.take()
    D = float(i.bolt)
    window = sheet.use(end_distance_window_in, D_in=D)
    ends = sheet.take()
    in_window = window.low_in <= i.bolt_end_in <= window.high_in
    count = sheet.use(sill_bolt_count, L_in=i.plate_piece_ft * 12, s_in=least.spacing_in)
    between = max(i.plate_piece_ft * 12 - 2 * i.bolt_end_in, 0.0)
    placed = max(ceil(between / i.bolt_spacing_in - 1e-9) + 1, 2)
    return [
        LimitState(
            "bolt-size", "Anchor diameter", cite(sill_bolt), least.diameter_in, D, "in",
            say="The bolts are {capacity}; the code asks for {demand}.", spot="anchor", steps=taken,
        ),
        LimitState(
            "bolt-embedment", "Anchor embedment", cite(sill_bolt), least.embedment_in, i.bolt_embedment_in, "in",
            say="The bolts go {capacity} into the concrete; the code asks for {demand}.", spot="anchor", steps=taken,
        ),
        LimitState(
            "bolt-spacing", "Anchor spacing", cite(sill_bolt), i.bolt_spacing_in, least.spacing_in, "in",
            say="The bolts stand {demand} apart; {capacity} is the most.", spot="anchor", steps=taken,
        ),
        LimitState(
            "bolt-ends", "Anchors near the ends of a piece", cite(end_distance_window_in), holds=in_window,
            say="The end bolt stands {end} from the end of its piece; the code asks for {low} to {high}.",
            facts={"end": (i.bolt_end_in, "in"), "low": (window.low_in, "in"), "high": (window.high_in, "in")},
            spot="anchor", steps=ends,
        ),
        LimitState(
            "bolt-count", "Anchors in a piece", cite(sill_bolt_count), float(count), float(placed), "",
            say="A piece {piece} long has {capacity} bolts at this spacing; the code asks for {demand}.",
            facts={"piece": (i.plate_piece_ft, "ft")}, spot="anchor", steps=sheet.take(),
        ),
    ]  # fmt: skip


def _across(sheet: Worksheet, i: Inputs, seat: Seat) -> LimitState:
    third = sheet.use(middle_third_in, b_in=seat.plate_width)
    place = i.bolt_from_back_in
    return LimitState(
        "bolt-third", "Anchors in the middle third of the plate", cite(middle_third_in),
        holds=third.low_in - 1e-9 <= place <= third.high_in + 1e-9,
        say="The bolts stand {place} from the back of the plate; the middle third runs from {low} to {high}.",
        facts={"place": (place, "in"), "low": (third.low_in, "in"), "high": (third.high_in, "in")},
        spot="anchor", steps=sheet.take(),
    )  # fmt: skip


def foot_cover_in(i: Inputs, seat: Seat) -> float:
    """Least concrete beside a bolt's steel down to its foot, toward the room and toward the outer face [in]."""
    D = float(i.bolt)
    room = face_at_depth_in(seat, i.bolt_embedment_in) - seat.x_bolt
    steel_half = D / 2 if i.bolt_head == "hook" else _head(i).width_in / 2
    return min(room, seat.x_bolt) - steel_half


def _foot(sheet: Worksheet, i: Inputs, seat: Seat) -> LimitState:
    need = sheet.use(clear_cover_in, exposure="not exposed", d_b_in=float(i.bolt))
    return LimitState(
        "bolt-cover", "Anchor cover at its foot", cite(clear_cover_in), need, foot_cover_in(i, seat), "in",
        say="At its foot the bolt has {capacity} of concrete beside it; {demand} is needed. Foam is not cover.",
        spot="anchor", steps=sheet.take(),
    )  # fmt: skip


def _head(i: Inputs) -> Head:
    D = float(i.bolt)
    if i.bolt_head == "hook":
        return hook(i.hook_in - D, D)
    return head("heavy hex" if i.bolt_head == "heavy_hex" else "hex", D)


def _concrete(
    sheet: Worksheet, i: Inputs, seat: Seat, tension: float, shear: float, edition: Edition
) -> tuple[LimitState, ...]:
    room = face_at_depth_in(seat, i.bolt_embedment_in) - seat.x_bolt
    outer = seat.x_bolt
    try:
        group = AnchorGroup(
            positions_in=((0.0, 0.0),),
            d_a_in=float(i.bolt),
            steel=steel(i.steel),
            head=_head(i),
            h_ef_in=i.bolt_embedment_in,
            f_c_psi=i.f_c_psi,
            c_y1_in=outer,
            c_y2_in=room,
            next_x1_in=i.bolt_spacing_in,
            next_x2_in=i.bolt_spacing_in,
        )
        toward = shear if room <= outer else -shear
        where = Where("anchor", "", "0.9D + W", "anchor")
        return anchor_lines(sheet, edition, group, (tension,), ((0.0, toward),), where)
    except OutOfScope as limit:
        return (
            _blocked(refer=f"{limit.rule}: {limit.why}", say="The bolts' strength is outside what is checked here."),
        )
    except BadInput as clash:
        return (_blocked(holds=False, say=clash.message),)


def _blocked(**verdict: object) -> LimitState:
    return LimitState("bolt-fit", "Anchors in the concrete", cite(clear_cover_in), spot="anchor", **verdict)  # type: ignore[arg-type]


def _wood(sheet: Worksheet, i: Inputs, seat: Seat, floor: Loads) -> list[LimitState]:
    """The plate under the nuts and on the bolts, allowable stress: 0.6D + 0.6W."""
    states = []
    wood, D, feet = species(i.plate_species), float(i.bolt), i.bolt_spacing_in / 12
    pull = max(0.6 * i.uplift_plf - 0.6 * floor.D, 0.0) * feet
    if pull:
        wet = sheet.use(C_M_stress, stress="F_c_perp", material="sawn", wet=i.plate_wet)
        factor = sheet.use(C_b, l_b_in=WASHER_SIDE_IN, a_end_in=i.bolt_end_in)
        capacity = sheet.use(
            washer_bearing_lb, F_c_perp_psi=wood.F_c_perp_psi, C_M=wet, C_t=1.0, C_b=factor,
            A_w_in2=WASHER_SIDE_IN**2, d_h_in=D + HOLE_OVER_IN,
        )  # fmt: skip
        states.append(
            LimitState(
                "bolt-washer",
                "Plate under the washer",
                cite(washer_bearing_lb),
                pull,
                capacity,
                "lb",
                say="Uplift presses {demand} on a 2 in washer; the plate bears {capacity}.",
                combination="0.6D + 0.6W",
                spot="anchor",
                steps=sheet.take(),
            )
        )
    push = 0.6 * i.lateral_plf * feet
    if push:
        states.append(_dowel(sheet, i, seat, push))
    return states


def _dowel(sheet: Worksheet, i: Inputs, seat: Seat, push: float) -> LimitState:
    D, wood = float(i.bolt), species(i.plate_species)
    try:
        F_em = sheet.use(fe_concrete_psi, f_c_psi=i.f_c_psi)
    except OutOfScope as limit:
        return LimitState(
            "bolt-dowel", "Plate on the bolts, across the wall", cite(fe_concrete_psi), refer=f"{limit.rule}: {limit.why}",
            say="The bolts' bearing on this concrete is not covered.", spot="anchor",
        )  # fmt: skip
    found = yield_modes(
        sheet, D_in=D, l_m_in=i.bolt_embedment_in, l_s_in=seat.plate_thickness, F_em_psi=F_em,
        F_es_psi=fe_wood(sheet, G=wood.G, D_in=D, theta_deg=90.0), F_yb_psi=BOLT_F_YB_PSI, theta_deg=90.0,
    )  # fmt: skip
    return LimitState(
        "bolt-dowel", "Plate on the bolts, across the wall", cite(fe_concrete_psi), push, found.Z_lb * WIND_C_D, "lb",
        say=f"Wind pushes {{demand}} on a bolt across the wall; plate and bolt take {{capacity}} in mode {found.mode}.",
        combination="0.6W, C_D 1.6", spot="anchor", steps=sheet.take(),
    )  # fmt: skip
