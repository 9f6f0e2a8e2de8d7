"""Slender strips of wall: moment magnification of braced members, ACI 318-19 sections 6.2.5 and 6.6.4."""

from math import pi

from engine.clauses.us.concrete_material import above_zero, not_negative
from engine.errors import BadInput, OutOfScope
from engine.worksheet import clause

# Share of the buckling load the magnifier may use, and the most that second-order effects may add: ACI 318-19 6.6.4.5.2, 6.2.5.3.
PHI_K = 0.75
LARGEST_MAGNIFICATION = 1.4


@clause("ACI 318", "6.2.5.1", title="Slenderness", symbol="k l_u / r", formula="k * l_c / (0.3 * h)")
def slenderness(k: float, l_c_in: float, h_in: float) -> float:
    """Effective height over the radius of gyration of a solid wall, r = 0.3 h by 6.2.5.2.

    Args: k: effective length factor, 1.0 or less where braced. l_c_in: between supports [in]. h_in: thickness [in].
    Raises: BadInput; OutOfScope for a wall that can sway. Source: ACI 318-19 6.2.5.1, 6.2.5.2.
    """
    above_zero(k=k, l_c_in=l_c_in, h_in=h_in)
    if k > 1:
        raise OutOfScope(
            "ACI 318 6.6.4.6",
            "The wall is not braced sideways at its top. Bring its height, loads and bracing to a licensed engineer.",
        )
    return k * l_c_in / (0.3 * h_in)


@clause(
    "ACI 318",
    "6.2.5.1(b)",
    title="Slenderness below which it may be left out",
    symbol="limit",
    formula="min(40, 34 + 12 * M_ratio)",
    note="The ratio of end moments is negative in single curvature; with load across the wall it is taken as -1.",
)
def slenderness_limit(M_ratio: float) -> float:
    """Largest slenderness at which a braced wall counts as short.

    Args: M_ratio: smaller over larger end moment, -1 to 1, negative in single curvature. Raises: BadInput.
    Source: ACI 318-19 6.2.5.1(b), (c).
    """
    if not -1 <= M_ratio <= 1:
        raise BadInput("M_ratio", "Enter the smaller end moment over the larger, from -1 to 1.")
    return min(40.0, 34 + 12 * M_ratio)


@clause(
    "ACI 318",
    "6.6.4.4.2",
    title="Buckling load",
    symbol="P_c",
    unit="lb",
    formula="pi ** 2 * 0.4 * E_c * b * h ** 3 / 12 / (1 + beta_dns) / (k * l_c) ** 2",
    note="Stiffness 0.4 E_c I_g / (1 + beta_dns), the first of the three in 6.6.4.4.4.",
)
def buckling_load_lb(E_c_psi: float, b_in: float, h_in: float, beta_dns: float, k: float, l_c_in: float) -> float:
    """Critical load of the strip.

    Args: E_c_psi [psi]. b_in: strip width [in]. h_in: thickness [in]. beta_dns: sustained part of the factored axial load,
        0 to 1. k, l_c_in: effective length factor and height [in].
    Returns: [lb]. Raises: BadInput. Source: ACI 318-19 6.6.4.4.2, 6.6.4.4.4(a).
    """
    above_zero(E_c_psi=E_c_psi, b_in=b_in, h_in=h_in, k=k, l_c_in=l_c_in)
    not_negative(beta_dns=beta_dns)
    return pi**2 * 0.4 * E_c_psi * b_in * h_in**3 / 12 / (1 + beta_dns) / (k * l_c_in) ** 2


@clause(
    "ACI 318",
    "6.6.4.5.3(a)",
    title="Factor for the shape of the moment diagram",
    symbol="C_m",
    formula="0.6 - 0.4 * M_ratio",
    note="1.0 for equal end moments the same way round; 6.6.4.5.3(b) takes 1.0 with load across the wall.",
)
def moment_shape_factor(M_ratio: float) -> float:
    """C_m of a wall without load between its supports.

    Args: M_ratio: smaller over larger end moment, negative in single curvature. Source: ACI 318-19 6.6.4.5.3(a).
    """
    return 0.6 - 0.4 * M_ratio


@clause("ACI 318", "6.6.4.5.3(b)", title="Factor for the shape of the moment diagram", symbol="C_m", formula="1.0")
def moment_shape_factor_with_lateral_load() -> float:
    """C_m with load across the wall between its supports. Source: ACI 318-19 6.6.4.5.3(b)."""
    return 1.0


@clause(
    "ACI 318",
    "6.6.4.5.2",
    title="Magnification of the moment",
    symbol="delta",
    formula="max(1, C_m / (1 - P_u / (0.75 * P_c)))",
)
def magnification(C_m: float, P_u_lb: float, P_c_lb: float) -> float:
    """Moment magnifier of a braced member.

    Args: C_m: shape factor. P_u_lb: factored axial load [lb]. P_c_lb: buckling load [lb].
    Returns: at least 1. Raises: OutOfScope when the load reaches 0.75 P_c. Source: ACI 318-19 6.6.4.5.2.
    """
    above_zero(P_c_lb=P_c_lb)
    if P_u_lb >= PHI_K * P_c_lb:
        raise OutOfScope(
            "ACI 318 6.6.4.5.2", "The axial load reaches 0.75 of the buckling load: a thicker or lower wall."
        )
    return max(1.0, C_m / (1 - P_u_lb / (PHI_K * P_c_lb)))


@clause(
    "ACI 318",
    "6.6.4.5.4",
    title="Least moment of a slender wall",
    symbol="M_2min",
    unit="lb-in",
    formula="P_u * (0.6 + 0.03 * h)",
)
def least_moment_lb_in(P_u_lb: float, h_in: float) -> float:
    """Least first-order moment, only where the wall is slender.

    Args: P_u_lb [lb]. h_in: thickness [in]. Returns: [lb-in]. Source: ACI 318-19 6.6.4.5.4.
    """
    return P_u_lb * (0.6 + 0.03 * h_in)


@clause(
    "ACI 318",
    "6.6.4.5.1",
    title="Magnified moment",
    symbol="M_c",
    unit="lb-in",
    formula="delta * max(M_2, M_2min)",
)
def magnified_moment_lb_in(delta: float, M_2_lb_in: float, M_2min_lb_in: float) -> float:
    """Moment the section is designed for.

    Args: delta: `magnification`. M_2_lb_in: larger first-order moment [lb-in]. M_2min_lb_in: `least_moment_lb_in`.
    Returns: [lb-in]. Source: ACI 318-19 6.6.4.5.1.
    """
    return delta * max(M_2_lb_in, M_2min_lb_in)
