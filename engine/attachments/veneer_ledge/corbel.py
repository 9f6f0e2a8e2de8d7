"""Lines of the ledge's concrete as a corbel, on a foot of it: ACI 318-19 section 16.5. Its bars are in `steel`."""

from engine.attachments.veneer_ledge.geometry import Ledge, kept
from engine.attachments.veneer_ledge.inputs import Inputs
from engine.attachments.veneer_ledge.load import FOOT_IN, Load
from engine.clauses.us import concrete_corbels as corbels
from engine.clauses.us.concrete_bearing import bearing_strength_lb
from engine.clauses.us.concrete_material import design_strength_lb, phi_bearing, phi_corbel
from engine.clauses.us.ledge_geometry import depth_at_in, depth_to_bars_in, shear_span_in
from engine.clauses.us.shear_friction import shear_friction_cap_other_lb
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite


def lines(
    sheet: Worksheet, i: Inputs, g: Ledge, load: Load, placed: tuple[Step, ...], how: tuple[Step, ...]
) -> tuple[LimitState, ...]:
    """Conditions of the method, then size and bearing. Args: placed, how: the steps of geometry and of the load."""
    return (
        _span(sheet, g, placed),
        _pull(load, how),
        _edge(sheet, g, placed),
        _size(sheet, i, g, load, how),
        _pressed(sheet, i, g, load, how),
    )


def _span(sheet: Worksheet, g: Ledge, placed: tuple[Step, ...]) -> LimitState:
    """A flag here is met by a deeper ledge; beyond it strut-and-tie begins."""
    ratio = sheet.use(corbels.span_ratio, a_v_in=g.a_v, d_in=g.d)
    return LimitState(
        "span-ratio", "Lever over depth", cite(corbels.span_ratio), ratio, corbels.LARGEST_SPAN_RATIO, "",
        say="The middle of the wythe stands {lever} from the core and the stirrups lie {depth} deep there: {demand} to one. The "
        "corbel rules hold to {capacity}.",
        facts={"lever": (g.a_v, "in"), "depth": (g.d, "in")}, spot="ledge",
        steps=kept(placed, shear_span_in, depth_to_bars_in) + sheet.take(),
    )  # fmt: skip


def _pull(load: Load, how: tuple[Step, ...]) -> LimitState:
    return LimitState(
        "restraint", "Pull of the veneer against its load", cite(corbels.span_ratio), load.N_uc_plf, load.V_u_plf, "plf",
        say="The veneer may pull the ledge outward with {demand}; the corbel rules hold while that is no more than the factored "
        "load, {capacity}.",
        combination=load.label, spot="ledge", steps=how,
    )  # fmt: skip


def _edge(sheet: Worksheet, g: Ledge, placed: tuple[Step, ...]) -> LimitState:
    need = sheet.use(corbels.edge_depth_minimum_in, d_in=g.d)
    return LimitState(
        "edge-depth", "Depth under the outer edge of the bearing", cite(corbels.edge_depth_minimum_in), need, g.h_edge, "in",
        say="Under the outer edge of the bearing the ledge is {capacity} deep; {demand} is needed, half the depth to the stirrups.",
        spot="lip", steps=kept(placed, depth_at_in) + sheet.take(),
    )  # fmt: skip


def _size(sheet: Worksheet, i: Inputs, g: Ledge, load: Load, how: tuple[Step, ...]) -> LimitState:
    phi = sheet.use(phi_corbel)
    V_n = sheet.use(corbels.shear_limit_lb, f_c_psi=i.f_c_psi, b_in=FOOT_IN, d_in=g.d)
    if i.joint == "not roughened":
        V_n = min(V_n, sheet.use(shear_friction_cap_other_lb, f_c_psi=i.f_c_psi, A_c_in2=FOOT_IN * g.d))
    capacity = sheet.use(design_strength_lb, phi=phi, S_n_lb=V_n)
    return LimitState(
        "size", "Size of the ledge for its shear", cite(corbels.shear_limit_lb), load.V_u_plf, capacity, "plf",
        say="Veneer and ledge bring {demand}, factored; a ledge of this depth may carry {capacity} in shear.",
        combination=load.label, spot="ledge", steps=how + sheet.take(),
    )  # fmt: skip


def _pressed(sheet: Worksheet, i: Inputs, g: Ledge, load: Load, how: tuple[Step, ...]) -> LimitState:
    capacity = 0.0
    if g.bearing > 0:
        A_1 = FOOT_IN * g.bearing
        B_n = sheet.use(bearing_strength_lb, f_c_psi=i.f_c_psi, A_1_in2=A_1, A_2_in2=A_1)
        capacity = sheet.use(design_strength_lb, phi=sheet.use(phi_bearing), S_n_lb=B_n)
    return LimitState(
        "concrete-bearing", "Concrete under the veneer", cite(bearing_strength_lb), load.V_v_plf, capacity, "plf",
        say="The veneer brings {demand}, factored; the concrete under it bears {capacity}.",
        combination=load.label, spot="bearing", steps=how + sheet.take(),
    )  # fmt: skip
