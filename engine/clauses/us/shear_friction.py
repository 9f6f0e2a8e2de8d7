"""Shear friction across a crack or a joint: ACI 318-19 section 22.9."""

from typing import Literal

from engine.clauses.us.concrete_material import above_zero, not_negative
from engine.errors import BadInput
from engine.worksheet import clause

Surface = Literal["monolithic", "roughened", "not roughened", "steel"]
FRICTION: dict[str, float] = {"monolithic": 1.4, "roughened": 1.0, "not roughened": 0.6, "steel": 0.7}


@clause(
    "ACI 318",
    "22.9.4.2",
    title="Coefficient of friction",
    symbol="mu",
    rule="1.4 cast in one, 1.0 on hardened concrete roughened to 1/4 in, 0.6 not roughened, 0.7 on steel; each times lambda.",
)
def friction_coefficient(surface: Surface, lambda_c: float = 1.0) -> float:
    """μ of the shear plane.

    Args: surface: how the concretes meet. lambda_c: lightweight factor. Raises: BadInput for an unknown surface.
    Source: ACI 318-19 Table 22.9.4.2.
    """
    if surface not in FRICTION:
        raise BadInput("surface", f"Choose one of: {', '.join(FRICTION)}.")
    return FRICTION[surface] * lambda_c


@clause(
    "ACI 318",
    "22.9.4.2",
    title="Nominal shear friction strength, bars square to the plane",
    symbol="V_n",
    unit="lb",
    formula="mu * A_vf * min(f_y, 60000)",
)
def shear_friction_lb(mu: float, A_vf_in2: float, f_y_psi: float) -> float:
    """Strength of bars that cross the plane at a right angle.

    Args: mu: `friction_coefficient`. A_vf_in2: bar area developed on both sides [in²]. f_y_psi: counts to 60 ksi [psi].
    Returns: [lb]. Raises: BadInput. Source: ACI 318-19 22.9.4.2, 22.9.1.3.
    """
    above_zero(mu=mu, f_y_psi=f_y_psi)
    not_negative(A_vf_in2=A_vf_in2)
    return mu * A_vf_in2 * min(f_y_psi, 60000.0)


@clause(
    "ACI 318",
    "22.9.4.2",
    title="Shear friction bars needed",
    symbol="A_vf",
    unit="in²",
    formula="V_u / (phi * mu * min(f_y, 60000))",
)
def shear_friction_steel_in2(V_u_lb: float, phi: float, mu: float, f_y_psi: float) -> float:
    """Bars square to the plane for a factored shear.

    Args: V_u_lb [lb]. phi: 0.75. mu. f_y_psi: counts to 60 ksi [psi]. Returns: [in²]. Raises: BadInput.
    Source: ACI 318-19 22.9.4.2 solved for A_vf.
    """
    not_negative(V_u_lb=V_u_lb)
    above_zero(phi=phi, mu=mu, f_y_psi=f_y_psi)
    return V_u_lb / (phi * mu * min(f_y_psi, 60000.0))


@clause(
    "ACI 318M",
    "22.9.4.2",
    title="Shear friction bars needed, SI",
    symbol="A_vf",
    unit="mm²",
    formula="V_u_N / (phi * mu * min(f_y_MPa, 420))",
    note="The SI edition counts f_y to 420 MPa, a little more than 60 ksi.",
)
def shear_friction_steel_mm2(V_u_N: float, phi: float, mu: float, f_y_MPa: float) -> float:
    """Bars square to the plane by the SI edition.

    Args: V_u_N [N]. phi. mu. f_y_MPa [MPa]. Returns: [mm²]. Raises: BadInput. Source: ACI 318M-19 22.9.4.2, 20.2.2.4.
    """
    not_negative(V_u_N=V_u_N)
    above_zero(phi=phi, mu=mu, f_y_MPa=f_y_MPa)
    return V_u_N / (phi * mu * min(f_y_MPa, 420.0))


@clause(
    "ACI 318",
    "22.9.4.4",
    title="Most a shear plane may carry, cast in one or roughened, normal weight",
    symbol="V_n",
    unit="lb",
    formula="min(0.2 * f_c, 480 + 0.08 * f_c, 1600) * A_c",
)
def shear_friction_cap_lb(f_c_psi: float, A_c_in2: float) -> float:
    """Upper limit of V_n for monolithic or roughened normal-weight concrete.

    Args: f_c_psi: the weaker of the two concretes [psi]. A_c_in2: area of the plane [in²]. Returns: [lb].
    Source: ACI 318-19 Table 22.9.4.4; read in a university textbook for 318-11.
    """
    above_zero(f_c_psi=f_c_psi, A_c_in2=A_c_in2)
    return min(0.2 * f_c_psi, 480 + 0.08 * f_c_psi, 1600.0) * A_c_in2


@clause(
    "ACI 318",
    "22.9.4.4",
    title="Most a shear plane may carry, other cases",
    symbol="V_n",
    unit="lb",
    formula="min(0.2 * f_c, 800) * A_c",
)
def shear_friction_cap_other_lb(f_c_psi: float, A_c_in2: float) -> float:
    """Upper limit of V_n for planes not roughened, on steel, or of lightweight concrete; arguments as above."""
    above_zero(f_c_psi=f_c_psi, A_c_in2=A_c_in2)
    return min(0.2 * f_c_psi, 800.0) * A_c_in2
