"""Lines about the beam's end: bearing, air, its seat, and the wood or plate that is pressed."""

from math import sqrt

from engine.attachments.beam_pocket.geometry import Pocket
from engine.attachments.beam_pocket.inputs import STEEL_SEATS, WOOD, Inputs
from engine.clauses.us.concrete_bearing import bearing_strength_lb, support_area_in2, support_offset_in
from engine.clauses.us.concrete_material import design_strength_lb, phi_bearing
from engine.clauses.us.irc_bearing import minimum_bearing_in, plate_area_ok
from engine.clauses.us.irc_moisture import beam_air_space_in, girder_end_needs_treatment
from engine.clauses.us.loads import Loads, governing_allowable, governing_strength
from engine.clauses.us.timber_bearing import C_b, bearing_perpendicular_lb
from engine.clauses.us.timber_factors import C_M_stress
from engine.clauses.us.timber_materials import species
from engine.editions import Citation, Edition
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite, clause

DRAWING = Citation("member drawing")


@clause(
    "AISC 360-22", "F11, J8", title="Thickness of a bearing plate", symbol="t_req", unit="in",
    formula="n * sqrt(2 * P_u / (0.9 * F_y * A_p))", provenance="memory",
    note="The plate cantilevers past the beam under uniform pressure and yields plastically, as a column base plate does.",
)  # fmt: skip
def plate_thickness_in(n_in: float, P_u_lb: float, F_y_psi: float, A_p_in2: float) -> float:
    """Thickness at which a plate's overhang yields.

    Args: n_in: overhang past the beam's side [in]. P_u_lb: factored load [lb]. F_y_psi: [psi]. A_p_in2: plate area [in²].
    Returns: [in]. Source: AISC 360-22 F11 with φ 0.90, J8.
    """
    return n_in * sqrt(2 * P_u_lb / (0.9 * F_y_psi * A_p_in2))


def lines(
    sheet: Worksheet, i: Inputs, p: Pocket, reaction: Loads, edition: Edition, placed: tuple[Step, ...]
) -> tuple[LimitState, ...]:
    """Bearing length, air space, crushing, concrete and plate. Args: placed: the steps that placed everything."""
    states = [_code(sheet, i, p, placed)]
    if i.required_bearing_in is not None or i.beam == "scl":
        states.append(_drawing(i, p, placed))
    if i.beam in WOOD:
        states += [_air(sheet, i, p), _crushing(sheet, i, p, reaction, edition)]
    else:
        states.append(
            LimitState(
                "steel-web", "Steel beam's web at its seat", Citation("AISC 360-22", "J10"), spot="beam",
                say="Web yielding and crippling of a steel beam are not judged here, nor its flange bending over the plate.",
                # the line on the plate takes the flange as stiff; AISC Manual Part 14 counts the overhang from the web's fillet
                refer="AISC 360 J10: bring the beam's web yielding and crippling, its bearing length, and its flange and plate "
                "bent together past the web's fillet, from its engineer.",
            )
        )  # fmt: skip
    states.append(_concrete(sheet, i, p, reaction, edition))
    if i.seat in STEEL_SEATS:
        states.append(_plate(sheet, i, p, reaction, edition))
    return tuple(states)


def _code(sheet: Worksheet, i: Inputs, p: Pocket, placed: tuple[Step, ...]) -> LimitState:
    """A loose steel plate does not turn the 3 in rule into 1 1/2 in; an anchored seat or a wood plate does (reading 12)."""
    support = "concrete"
    if i.seat == "anchored_plate":
        support = "metal"
    elif i.seat == "wood_plate":
        nominal = i.plate_width_in + 0.5  # a dressed plate is half an inch under its nominal width
        enough = sheet.use(plate_area_ok, b_nom_in=nominal, t_nom_in=i.plate_thickness_in + 0.5, l_in=i.plate_length_in)
        support = "wood" if enough else "concrete"
    need = sheet.use(minimum_bearing_in, support=support)
    say = "The beam bears {capacity} in its pocket; the code asks for {demand}."
    if p.bearing <= 0:
        say = "The beam does not reach its seat; the code asks for {demand} of bearing."
    return LimitState(
        "bearing-code", "Bearing, code minimum", cite(minimum_bearing_in), need, p.bearing, "in", say=say, spot="bearing",
        steps=placed + sheet.take(),
    )  # fmt: skip


def _drawing(i: Inputs, p: Pocket, placed: tuple[Step, ...]) -> LimitState:
    title = "Bearing the beam asks for"
    if i.required_bearing_in is None:
        return LimitState(
            "bearing-drawing", title, DRAWING, holds=False, spot="bearing",
            say="Enter the bearing that the member drawing asks for; composite lumber has no other source.",
        )  # fmt: skip
    return LimitState(
        "bearing-drawing", title, DRAWING, i.required_bearing_in, p.bearing, "in",
        say="The beam bears {capacity}; its drawing asks for {demand}.", spot="bearing", steps=placed,
    )  # fmt: skip


def _air(sheet: Worksheet, i: Inputs, p: Pocket) -> LimitState:
    need = sheet.use(beam_air_space_in)
    least = min(p.top_gap, p.side_gap, p.end_gap)
    sheet.use(girder_end_needs_treatment, clear_in=max(least, 0.0))
    where = {p.top_gap: "above", p.side_gap: "beside", p.end_gap: "at the end of"}[least]
    if i.treated:
        say = "The beam's end is treated or durable; it may do without air, and has {capacity}."
    elif i.filled:
        say = "The gaps about the beam are filled with foam: nothing of the {demand} of air is left."
    else:
        say = f"There is {{capacity}} of air {where} the beam; {{demand}} is needed on top, sides and end, or treated wood."
    return LimitState(
        "air", "Air about the beam's end", cite(beam_air_space_in), 0.0 if i.treated else need, 0.0 if i.filled else least, "in",
        holds=least >= 0, say=say if least >= 0 else "The beam does not fit: it is {over} too big for its pocket.",
        facts={"over": (max(-least, 0.0), "in")}, spot="pocket", steps=sheet.take(),
    )  # fmt: skip


def _crushing(sheet: Worksheet, i: Inputs, p: Pocket, reaction: Loads, edition: Edition) -> LimitState:
    load = governing_allowable(edition, reaction, duration=False)
    if i.beam == "scl" and i.F_c_perp_psi is None:
        return LimitState(
            "crushing", "Beam crushing", cite(bearing_perpendicular_lb), holds=False, spot="bearing",
            say="Enter the member's bearing value across the grain, from its evaluation report.",
        )  # fmt: skip
    capacity = 0.0
    if p.bearing > 0:
        wood = species(i.species)
        value = wood.F_c_perp_psi if i.beam != "scl" else i.F_c_perp_psi or 0.0
        wet = sheet.use(C_M_stress, stress="F_c_perp", material=wood.material if i.beam != "scl" else "sawn", wet=i.wet)
        factor = sheet.use(C_b, l_b_in=p.bearing, a_end_in=0.0)
        width = min(i.width_in, p.loaded_width)
        capacity = sheet.use(
            bearing_perpendicular_lb, F_c_perp_psi=value, C_M=wet, C_t=1.0, C_b=factor, b_in=width, l_b_in=p.bearing
        )
    return LimitState(
        "crushing", "Beam crushing", cite(bearing_perpendicular_lb), load.demand, capacity, "lb",
        say="The beam's end brings {demand}; across the grain it bears {capacity}.",
        combination=load.label, spot="bearing", steps=sheet.take(),
    )  # fmt: skip


def _concrete(sheet: Worksheet, i: Inputs, p: Pocket, reaction: Loads, edition: Edition) -> LimitState:
    load = governing_strength(edition, reaction)
    capacity = 0.0
    length = min(p.loaded_length, i.core_in - p.seat_from)
    if length > 0:
        A_1 = length * p.loaded_width
        c = sheet.use(
            support_offset_in,
            left_in=i.left_in,
            right_in=i.right_in,
            front_in=p.seat_from,
            back_in=max(i.core_in - p.seat_from - length, 0.0),
            depth_in=i.seat_height_ft * 12,
        )
        A_2 = sheet.use(support_area_in2, a_in=length, b_in=p.loaded_width, c_in=c)
        B_n = sheet.use(bearing_strength_lb, f_c_psi=i.f_c_psi, A_1_in2=A_1, A_2_in2=A_2)
        capacity = sheet.use(design_strength_lb, phi=sheet.use(phi_bearing), S_n_lb=B_n)
    return LimitState(
        "concrete-bearing", "Concrete bearing", cite(bearing_strength_lb), load.demand, capacity, "lb",
        say="The factored end reaction is {demand}; the concrete under it bears {capacity}.",
        combination=load.label, spot="bearing", steps=sheet.take(),
    )  # fmt: skip


def _plate(sheet: Worksheet, i: Inputs, p: Pocket, reaction: Loads, edition: Edition) -> LimitState:
    load = governing_strength(edition, reaction)
    over = max(p.loaded_width - i.width_in, 0.0) / 2
    need = sheet.use(
        plate_thickness_in,
        n_in=over,
        P_u_lb=load.demand,
        F_y_psi=i.plate_f_y_ksi * 1000,
        A_p_in2=p.loaded_width * p.loaded_length,
    )
    fits = p.loaded_width <= i.pocket_width_in + 1e-9 and p.seat_from + p.loaded_length <= i.pocket_length_in + 1e-9
    say = "The plate is {capacity} thick; its overhang of {over} asks for {demand}."
    return LimitState(
        "plate", "Bearing plate", cite(plate_thickness_in), need, i.plate_thickness_in, "in", holds=fits,
        say=say if fits else "The plate, {width} by {length}, does not fit the pocket.",
        facts={"over": (over, "in"), "width": (p.loaded_width, "in"), "length": (p.loaded_length, "in")},
        combination=load.label, spot="plate", steps=sheet.take(),
    )  # fmt: skip
