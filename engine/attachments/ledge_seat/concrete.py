"""Lines about the concrete right under the joists: bearing, and the tapered lip."""

from engine.attachments.ledge_seat.geometry import Seat
from engine.attachments.ledge_seat.inputs import Inputs
from engine.clauses.us.concrete_bearing import bearing_strength_lb
from engine.clauses.us.concrete_lip import lip_depth_minimum_in, lip_lever_in, lip_share, lip_strip_width_in
from engine.clauses.us.concrete_material import design_strength_lb, phi_bearing, phi_plain
from engine.clauses.us.concrete_plain import plain_moment_tension_lb_in, plain_shear_lb, section_modulus_in3
from engine.clauses.us.loads import Governing
from engine.result import LimitState
from engine.worksheet import Worksheet, cite


def bearing(sheet: Worksheet, i: Inputs, seat: Seat, load: Governing) -> LimitState:
    """Concrete under the joist or its plate; nothing is spread through the plate (reading 5), the seat is at a face: ratio 1.0."""
    capacity = 0.0
    if seat.bearing > 0:
        A_1 = i.joist_width_in * seat.bearing
        B_n = sheet.use(bearing_strength_lb, f_c_psi=i.f_c_psi, A_1_in2=A_1, A_2_in2=A_1)
        capacity = sheet.use(design_strength_lb, phi=sheet.use(phi_bearing), S_n_lb=B_n)
    return LimitState(
        "concrete-bearing", "Concrete bearing", cite(bearing_strength_lb), load.demand, capacity, "lb",
        say="The factored end reaction is {demand}; the concrete bears {capacity}.",
        combination=load.label, spot="bearing", steps=sheet.take(),
    )  # fmt: skip


def lip(sheet: Worksheet, i: Inputs, seat: Seat, load: Governing) -> tuple[LimitState, ...]:
    """The share of the reaction beyond the core's face, on a plain strip of lip (reading 4). Empty where nothing reaches it."""
    if seat.lip_projection <= 0 or seat.bearing <= 0:
        return ()
    inner = seat.t_L - seat.bears_from
    share = sheet.use(lip_share, L_b_in=seat.bearing, u_in=inner)
    if share <= 0:
        return ()
    z = sheet.use(lip_lever_in, L_b_in=seat.bearing, u_in=inner)
    least = sheet.use(lip_depth_minimum_in, p_in=seat.lip_projection)
    haunch = seat.lip_depth >= least
    depth = LimitState(
        "lip-haunch", "Lip deep enough to be a haunch", cite(lip_depth_minimum_in), least, seat.lip_depth, "in",
        say="The lip is {capacity} deep at the core and needs {demand}, twice its projection. ACI 318 14.1.3 lists no plain "
        "cantilevers.",
        refer="" if haunch else "A shallower lip that carries load is reinforced like a veneer ledge: bring its depth, its "
        "projection and the reaction to a licensed engineer.",
        spot="lip", steps=sheet.take(),
    )  # fmt: skip
    if not haunch:
        return (depth,)
    b = sheet.use(
        lip_strip_width_in, b_j_in=i.joist_width_in, t_p_in=seat.plate_thickness, z_in=z, s_in=i.joist_spacing_in
    )
    S_m = sheet.use(section_modulus_in3, b_in=b, h_in=seat.lip_depth)
    M_n = sheet.use(plain_moment_tension_lb_in, f_c_psi=i.f_c_psi, S_m_in3=S_m)
    phi = sheet.use(phi_plain)
    bending = LimitState(
        "lip-bending", "Lip beyond the core, bending", cite(plain_moment_tension_lb_in), share * load.demand * z, phi * M_n,
        "lb-in", say="The lip takes {demand}; as plain concrete it resists {capacity}.",
        combination=load.label, spot="lip", steps=sheet.take(),
    )  # fmt: skip
    V_n = sheet.use(plain_shear_lb, f_c_psi=i.f_c_psi, b_in=b, h_in=seat.lip_depth)
    shear = LimitState(
        "lip-shear", "Lip beyond the core, shear", cite(plain_shear_lb), share * load.demand, phi * V_n, "lb",
        say="The lip takes {demand}; as plain concrete it resists {capacity}.",
        combination=load.label, spot="lip", steps=sheet.take(),
    )  # fmt: skip
    return depth, bending, shear
