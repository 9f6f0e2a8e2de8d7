"""Corbels and veneer ledges: ACI 318-19 section 16.5. Areas and forces are for a width b, 12 in for a foot of ledge."""

from math import floor, sqrt

from engine.clauses.us.concrete_material import above_zero, not_negative
from engine.errors import BadInput, OutOfScope
from engine.worksheet import clause

# ACI 318-19 16.5.1.1: largest shear span over depth of the method. read in a digest of ACI 318M-19.
LARGEST_SPAN_RATIO = 1.0


@clause(
    "ACI 318",
    "16.5.1.1",
    title="Shear span over depth",
    symbol="a_v / d",
    formula="a_v / d",
    note="Above 1.0 the method ends: strut-and-tie or a cantilever slab. N_uc may not pass V_u either.",
)
def span_ratio(a_v_in: float, d_in: float) -> float:
    """Shear span over depth, 1.0 at most for this method.

    Args: a_v_in: from the face of the core to the load [in]. d_in: depth to the main bars at that face [in]. Raises: BadInput.
    """
    not_negative(a_v_in=a_v_in)
    above_zero(d_in=d_in)
    return a_v_in / d_in


@clause(
    "ACI 318",
    "16.5.2.2",
    title="Least depth at the outer edge of the bearing",
    symbol="h_edge",
    unit="in",
    formula="0.5 * d",
)
def edge_depth_minimum_in(d_in: float) -> float:
    """Least overall depth under the outer edge of the bearing. Args: d_in [in]. Returns: [in]. Source: ACI 318-19 16.5.2.2."""
    above_zero(d_in=d_in)
    return 0.5 * d_in


@clause(
    "ACI 318",
    "16.5.2.4",
    title="Largest nominal shear of a corbel, normal weight",
    symbol="V_n",
    unit="lb",
    formula="min(0.2 * f_c, 480 + 0.08 * f_c, 1600) * b * d",
)
def shear_limit_lb(f_c_psi: float, b_in: float, d_in: float) -> float:
    """Size limit: V_u / phi may not pass this.

    Args: f_c_psi [psi]. b_in: width [in]. d_in [in]. Returns: [lb]. Raises: BadInput. Source: ACI 318-19 16.5.2.4.
    """
    above_zero(f_c_psi=f_c_psi, b_in=b_in, d_in=d_in)
    return min(0.2 * f_c_psi, 480 + 0.08 * f_c_psi, 1600.0) * b_in * d_in


@clause(
    "ACI 318M",
    "16.5.2.4",
    title="Largest nominal shear stress of a corbel, normal weight, SI",
    symbol="V_n / (b d)",
    unit="MPa",
    formula="min(0.2 * f_c_MPa, 3.3 + 0.08 * f_c_MPa, 11)",
    note="The SI edition rounds its constants apart, so SI work keeps to this form.",
)
def shear_stress_limit_MPa(f_c_MPa: float) -> float:
    """Size limit of the SI edition as a stress. Args: f_c_MPa [MPa]. Returns: [MPa]. Source: ACI 318M-19 16.5.2.4."""
    above_zero(f_c_MPa=f_c_MPa)
    return min(0.2 * f_c_MPa, 3.3 + 0.08 * f_c_MPa, 11.0)


@clause(
    "ACI 318",
    "16.5.2.5",
    title="Largest nominal shear of a corbel, lightweight",
    symbol="V_n",
    unit="lb",
    formula="min((0.2 - 0.07 * a_v / d) * f_c, 800 - 280 * a_v / d) * b * d",
    provenance="memory",
)
def shear_limit_lightweight_lb(f_c_psi: float, b_in: float, d_in: float, a_v_in: float) -> float:
    """Size limit of lightweight corbels.

    Args: as for `shear_limit_lb`, and a_v_in: shear span [in]. Returns: [lb]. Raises: BadInput. Source: ACI 318-19 16.5.2.5.
    """
    above_zero(f_c_psi=f_c_psi, b_in=b_in, d_in=d_in)
    not_negative(a_v_in=a_v_in)
    return min((0.2 - 0.07 * a_v_in / d_in) * f_c_psi, 800 - 280 * a_v_in / d_in) * b_in * d_in


@clause(
    "ACI 318",
    "16.2.2.3(b)",
    title="Restraint force at the bearing",
    symbol="N_uc",
    unit="lb",
    formula="1.6 * 0.2 * R",
    note="A fifth of the sustained unfactored reaction with the load factor of live load; never more than V_u for 16.5.",
)
def restraint_force_lb(R_lb: float) -> float:
    """Horizontal force to design the ledge for.

    Args: R_lb: sustained, unfactored load through the bearing [lb]. Returns: [lb]. Source: ACI 318-19 16.2.2.3(b).
    """
    not_negative(R_lb=R_lb)
    return 1.6 * 0.2 * R_lb


@clause(
    "ACI 318",
    "16.5.3.1",
    title="Moment at the face of the core",
    symbol="M_u",
    unit="lb-in",
    formula="V_u * a_v + N_uc * (h - d) + W_u * x_W",
    note="The last term is the ledge's own weight at its centroid.",
)
def corbel_moment_lb_in(
    V_u_lb: float, a_v_in: float, N_uc_lb: float, h_in: float, d_in: float, W_u_lb: float = 0.0, x_W_in: float = 0.0
) -> float:
    """Factored moment of the load, the restraint force and the ledge itself.

    Args: V_u_lb: load through the bearing [lb]. a_v_in: its lever [in]. N_uc_lb: restraint force [lb]. h_in, d_in: depth and
        effective depth at the core [in]. W_u_lb, x_W_in: factored own weight [lb] and its lever [in].
    Returns: [lb-in]. Raises: BadInput. Source: ACI 318-19 16.5.3.1.
    """
    not_negative(V_u_lb=V_u_lb, a_v_in=a_v_in, N_uc_lb=N_uc_lb, W_u_lb=W_u_lb, x_W_in=x_W_in)
    if not 0 < d_in < h_in:
        raise BadInput("d_in", "Enter a depth to the bars less than the depth of the ledge.")
    return V_u_lb * a_v_in + N_uc_lb * (h_in - d_in) + W_u_lb * x_W_in


@clause(
    "ACI 318", "16.5.4.3", title="Steel for the restraint force", symbol="A_n", unit="in²", formula="N_uc / (phi * f_y)"
)
def restraint_steel_in2(N_uc_lb: float, phi: float, f_y_psi: float) -> float:
    """Bars for N_uc. Args: N_uc_lb [lb]. phi: 0.75. f_y_psi [psi]. Returns: [in²]. Source: ACI 318-19 16.5.4.3."""
    not_negative(N_uc_lb=N_uc_lb)
    above_zero(phi=phi, f_y_psi=f_y_psi)
    return N_uc_lb / (phi * f_y_psi)


@clause(
    "ACI 318",
    "16.5.4.5",
    title="Steel for the moment",
    symbol="A_f",
    unit="in²",
    formula="0.85 * f_c * b * d / f_y * (1 - sqrt(1 - 2 * M_u / (phi * 0.85 * f_c * b * d ** 2)))",
    note="The stress block of 22.2 solved for the area: M_u = phi A_f f_y (d - a / 2).",
)
def moment_steel_in2(M_u_lb_in: float, phi: float, f_c_psi: float, f_y_psi: float, b_in: float, d_in: float) -> float:
    """Bars for M_u in closed form.

    Args: M_u_lb_in [lb-in]. phi: 0.75. f_c_psi, f_y_psi [psi]. b_in, d_in [in]. Returns: [in²].
    Raises: BadInput; OutOfScope when no amount of steel carries the moment at this depth. Source: ACI 318-19 16.5.4.5, 22.2.
    """
    not_negative(M_u_lb_in=M_u_lb_in)
    above_zero(phi=phi, f_c_psi=f_c_psi, f_y_psi=f_y_psi, b_in=b_in, d_in=d_in)
    rest = 1 - 2 * M_u_lb_in / (phi * 0.85 * f_c_psi * b_in * d_in**2)
    if rest < 0:
        raise OutOfScope(
            "ACI 318 22.2", "No steel carries this moment in a ledge so shallow. Deepen the ledge at the core."
        )
    return 0.85 * f_c_psi * b_in * d_in / f_y_psi * (1 - sqrt(rest))


@clause(
    "ACI 318",
    "16.5.4.5",
    title="Steel for the moment, lever taken as a share of d",
    symbol="A_f",
    unit="in²",
    formula="M_u / (phi * f_y * j * d)",
    provenance="common practice",
    note="Printed examples of corbels take a lever of 0.9 d; it asks for slightly more steel.",
)
def moment_steel_by_lever_in2(M_u_lb_in: float, phi: float, f_y_psi: float, d_in: float, j: float = 0.9) -> float:
    """Bars for M_u with the lever of printed examples. Args: j: lever over d; others as for `moment_steel_in2`."""
    not_negative(M_u_lb_in=M_u_lb_in)
    above_zero(phi=phi, f_y_psi=f_y_psi, d_in=d_in, j=j)
    return M_u_lb_in / (phi * f_y_psi * j * d_in)


@clause(
    "ACI 318",
    "16.5.5.1(c)",
    title="Least main steel whatever the load",
    symbol="A_sc,min",
    unit="in²",
    formula="0.04 * f_c / f_y * b * d",
)
def least_main_steel_in2(f_c_psi: float, f_y_psi: float, b_in: float, d_in: float) -> float:
    """Least main steel by size and strength of concrete. Args: [psi], [in]. Returns: [in²]. Source: ACI 318-19 16.5.5.1(c)."""
    above_zero(f_c_psi=f_c_psi, f_y_psi=f_y_psi, b_in=b_in, d_in=d_in)
    return 0.04 * f_c_psi / f_y_psi * b_in * d_in


@clause(
    "ACI 318",
    "16.5.5.1",
    title="Main steel needed for strength",
    symbol="A_sc",
    unit="in²",
    formula="max(A_f + A_n, 2 / 3 * A_vf + A_n)",
)
def strength_steel_in2(A_f_in2: float, A_n_in2: float, A_vf_in2: float) -> float:
    """Main steel by strength alone, to be told apart from the least steel. Args: [in²]. Source: ACI 318-19 16.5.5.1(a), (b)."""
    not_negative(A_f_in2=A_f_in2, A_n_in2=A_n_in2, A_vf_in2=A_vf_in2)
    return max(A_f_in2 + A_n_in2, 2 / 3 * A_vf_in2 + A_n_in2)


@clause(
    "ACI 318",
    "16.5.5.1",
    title="Main steel needed",
    symbol="A_sc",
    unit="in²",
    formula="max(A_strength, A_least)",
)
def main_steel_in2(A_strength_in2: float, A_least_in2: float) -> float:
    """Larger of `strength_steel_in2` and `least_main_steel_in2` [in²]. Source: ACI 318-19 16.5.5.1."""
    return max(A_strength_in2, A_least_in2)


@clause(
    "ACI 318",
    "16.5.5.2",
    title="Closed ties needed beside the main steel",
    symbol="A_h",
    unit="in²",
    formula="0.5 * (A_sc - A_n)",
    note="Spread over the two thirds of d next to the main steel (16.5.6.6).",
)
def tie_steel_in2(A_sc_in2: float, A_n_in2: float) -> float:
    """Closed ties parallel to the main steel. Args: [in²]. Returns: [in²]. Source: ACI 318-19 16.5.5.2."""
    return 0.5 * (A_sc_in2 - A_n_in2)


@clause("ACI 318", "16.5.6.6", title="Depth over which the ties are spread", symbol="y", unit="in", formula="2 / 3 * d")
def tie_zone_in(d_in: float) -> float:
    """Depth from the main steel that holds the ties. Args: d_in [in]. Returns: [in]. Source: ACI 318-19 16.5.6.6."""
    return 2 / 3 * d_in


@clause(
    "mechanics",
    "",
    title="Largest spacing of the stirrups",
    symbol="s_max",
    unit="in",
    formula="b * A_b / A_sc",
    provenance="derived",
)
def stirrup_spacing_in(A_b_in2: float, A_sc_in2: float, b_in: float) -> float:
    """Spacing that gives the area on the width. Args: A_b_in2: one stirrup [in²]. A_sc_in2: on b_in [in²]. Returns: [in]."""
    above_zero(A_b_in2=A_b_in2, A_sc_in2=A_sc_in2, b_in=b_in)
    return b_in * A_b_in2 / A_sc_in2


@clause(
    "geometry",
    "",
    title="Spacing on the web module",
    symbol="s",
    unit="in",
    formula="m * floor(s_max / m)",
    provenance="geometry",
    note="0 where one stirrup a web space is not enough: a larger bar.",
)
def module_spacing_in(s_max_in: float, m_in: float) -> float:
    """Largest whole number of web spaces. Args: s_max_in [in]. m_in: web spacing [in]. Returns: [in], 0 if none fits."""
    above_zero(m_in=m_in)
    not_negative(s_max_in=s_max_in)
    return m_in * floor(s_max_in / m_in)
