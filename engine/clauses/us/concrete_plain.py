"""Plain concrete: ACI 318-19 chapter 14, for walls without counted steel and for lips."""

from math import sqrt

from engine.clauses.us.concrete_material import above_zero
from engine.worksheet import clause


@clause(
    "ACI 318",
    "14.3.1.1",
    title="Least thickness of a plain bearing wall",
    symbol="h",
    unit="in",
    formula="max(5.5, l / 24)",
)
def plain_wall_thickness_minimum_in(l_in: float) -> float:
    """Least thickness of a plain concrete bearing wall.

    Args: l_in: lesser of unsupported length and height [in]. Returns: [in]. Source: ACI 318-19 Table 14.3.1.1.
    """
    above_zero(l_in=l_in)
    return max(5.5, l_in / 24)


@clause(
    "ACI 318",
    "14.3.1.1",
    title="Least thickness of a plain exterior basement or foundation wall",
    symbol="h",
    unit="in",
    formula="7.5",
)
def plain_foundation_wall_thickness_minimum_in() -> float:
    """Least thickness of a plain foundation wall [in]. Source: ACI 318-19 Table 14.3.1.1."""
    return 7.5


@clause(
    "ACI 318",
    "14.4.2.1",
    title="Least eccentricity of a plain wall",
    symbol="e_min",
    unit="in",
    formula="0.10 * h",
)
def plain_minimum_eccentricity_in(h_in: float) -> float:
    """Eccentricity a plain wall is designed for at least.

    Args: h_in: thickness [in]. Returns: [in]. Source: ACI 318-19 14.4.2.1.
    """
    above_zero(h_in=h_in)
    return 0.10 * h_in


@clause(
    "ACI 318",
    "14.5.3.1",
    title="Nominal axial strength of plain concrete",
    symbol="P_n",
    unit="lb",
    formula="0.60 * f_c * A_g * max(0, 1 - (l_c / (32 * h)) ** 2)",
    note="For the combined check of 14.5.4.1; loads in the middle third alone use 0.45 in place of 0.60.",
)
def plain_axial_lb(f_c_psi: float, A_g_in2: float, l_c_in: float, h_in: float) -> float:
    """Axial strength that stands beside bending in the combined check.

    Args: f_c_psi [psi]. A_g_in2: gross area [in²]. l_c_in: between supports [in]. h_in: thickness [in].
    Returns: [lb]. Raises: BadInput. Source: ACI 318-19 14.5.3.1.
    """
    above_zero(f_c_psi=f_c_psi, A_g_in2=A_g_in2, l_c_in=l_c_in, h_in=h_in)
    return 0.60 * f_c_psi * A_g_in2 * max(0.0, 1 - (l_c_in / (32 * h_in)) ** 2)


@clause(
    "ACI 318",
    "14.5.4.2",
    title="Nominal axial strength of a plain wall, loads in the middle third",
    symbol="P_n",
    unit="lb",
    formula="0.45 * f_c * A_g * max(0, 1 - (l_c / (32 * h)) ** 2)",
)
def plain_wall_axial_simplified_lb(f_c_psi: float, A_g_in2: float, l_c_in: float, h_in: float) -> float:
    """Axial strength of a solid plain wall whose moment may be left out, M_u being at most P_u h / 6.

    Args: as for `plain_axial_lb`. Returns: [lb]. Raises: BadInput. Source: ACI 318-19 14.5.4.2.
    """
    above_zero(f_c_psi=f_c_psi, A_g_in2=A_g_in2, l_c_in=l_c_in, h_in=h_in)
    return 0.45 * f_c_psi * A_g_in2 * max(0.0, 1 - (l_c_in / (32 * h_in)) ** 2)


@clause(
    "mechanics", "", title="Section modulus", symbol="S_m", unit="in³", formula="b * h ** 2 / 6", provenance="derived"
)
def section_modulus_in3(b_in: float, h_in: float) -> float:
    """Elastic section modulus of a rectangle. Args: b_in: width [in]. h_in: depth in bending [in]. Returns: [in³]."""
    above_zero(b_in=b_in, h_in=h_in)
    return b_in * h_in**2 / 6


@clause(
    "ACI 318",
    "14.5.2.1(a)",
    title="Nominal moment of plain concrete at its tension face",
    symbol="M_n",
    unit="lb-in",
    formula="5 * lambda_c * sqrt(f_c) * S_m",
)
def plain_moment_tension_lb_in(f_c_psi: float, S_m_in3: float, lambda_c: float = 1.0) -> float:
    """Moment at which the tension face cracks.

    Args: f_c_psi [psi]. S_m_in3: section modulus [in³]. lambda_c: lightweight factor. Returns: [lb-in].
    Source: ACI 318-19 14.5.2.1(a).
    """
    above_zero(f_c_psi=f_c_psi, S_m_in3=S_m_in3, lambda_c=lambda_c)
    return 5 * lambda_c * sqrt(f_c_psi) * S_m_in3


@clause(
    "ACI 318",
    "14.5.2.1(b)",
    title="Nominal moment of plain concrete at its compression face",
    symbol="M_n",
    unit="lb-in",
    formula="0.85 * f_c * S_m",
)
def plain_moment_compression_lb_in(f_c_psi: float, S_m_in3: float) -> float:
    """Moment at which the compression face crushes.

    Args: f_c_psi [psi]. S_m_in3 [in³]. Returns: [lb-in]. Source: ACI 318-19 14.5.2.1(b).
    """
    above_zero(f_c_psi=f_c_psi, S_m_in3=S_m_in3)
    return 0.85 * f_c_psi * S_m_in3


@clause(
    "ACI 318",
    "14.5.4.1(a)",
    title="Stress at the tension face",
    symbol="f_t",
    unit="psi",
    formula="M_u / S_m - P_u / A_g",
    note="The design strength beside it is phi 5 sqrt(f'c): the moment of 14.5.2.1(a) over the section modulus.",
)
def plain_tension_psi(M_u_lb_in: float, S_m_in3: float, P_u_lb: float, A_g_in2: float) -> float:
    """Net tension of moment against axial load, tension positive.

    Args: M_u_lb_in [lb-in]. S_m_in3 [in³]. P_u_lb: compression [lb]. A_g_in2 [in²]. Returns: [psi].
    Source: ACI 318-19 Table 14.5.4.1.
    """
    return M_u_lb_in / S_m_in3 - P_u_lb / A_g_in2


@clause(
    "ACI 318",
    "14.5.2.1(a)",
    title="Nominal tension of plain concrete in bending",
    symbol="f_r",
    unit="psi",
    formula="5 * lambda_c * sqrt(f_c)",
)
def plain_tension_strength_psi(f_c_psi: float, lambda_c: float = 1.0) -> float:
    """Tension that the face of a plain section may reach. Args: f_c_psi [psi]. lambda_c. Returns: [psi]."""
    above_zero(f_c_psi=f_c_psi, lambda_c=lambda_c)
    return 5 * lambda_c * sqrt(f_c_psi)


@clause(
    "ACI 318",
    "14.5.4.1(b)",
    title="Bending and axial load together at the compression face",
    symbol="sum",
    formula="P_u / phiP_n + M_u / phiM_n",
    note="The moment strength is that of the compression face, 0.60 x 0.85 f'c S_m; the tension face has its own line.",
)
def plain_interaction(P_u_lb: float, phiP_n_lb: float, M_u_lb_in: float, phiM_n_lb_in: float) -> float:
    """Sum of the two ratios, 1.0 at the limit.

    Args: demands and design strengths [lb], [lb-in]. Returns: plain number. Source: ACI 318-19 Table 14.5.4.1.
    """
    above_zero(phiP_n_lb=phiP_n_lb, phiM_n_lb_in=phiM_n_lb_in)
    return P_u_lb / phiP_n_lb + M_u_lb_in / phiM_n_lb_in


@clause(
    "ACI 318",
    "14.5.5.1",
    title="Nominal one-way shear of plain concrete",
    symbol="V_n",
    unit="lb",
    formula="4 / 3 * lambda_c * sqrt(f_c) * b * h",
)
def plain_shear_lb(f_c_psi: float, b_in: float, h_in: float, lambda_c: float = 1.0) -> float:
    """Beam shear strength of a plain section.

    Args: f_c_psi [psi]. b_in: width [in]. h_in: depth [in]. lambda_c. Returns: [lb]. Source: ACI 318-19 Table 14.5.5.1.
    """
    above_zero(f_c_psi=f_c_psi, b_in=b_in, h_in=h_in, lambda_c=lambda_c)
    return 4 / 3 * lambda_c * sqrt(f_c_psi) * b_in * h_in


@clause(
    "ACI 318",
    "14.6.1",
    title="No. 5 bars around an opening in a plain wall",
    symbol="n",
    formula="2",
    note="They run 24 in past the corners or are developed there.",
)
def plain_bars_at_opening() -> int:
    """How many No. 5 bars frame a window, a door or an opening of that size. Source: ACI 318-19 14.6.1."""
    return 2
