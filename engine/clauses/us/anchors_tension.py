"""Cast-in anchors in tension: ACI 318-19 17.6, one function a strength or factor."""

from math import pow, sqrt

from engine.errors import OutOfScope
from engine.worksheet import clause


@clause("ACI 318", "17.6.1.2", title="Steel in tension", symbol="N_sa", unit="lb", formula="A_se * f_uta")
def steel_tension_lb(A_se_in2: float, f_uta_psi: float) -> float:
    """Nominal strength of one anchor's steel. Args: effective area [in²], tensile strength [psi]. Source: 17.6.1.2."""
    return A_se_in2 * f_uta_psi


@clause(
    "ACI 318",
    "17.6.2.1.2",
    title="Embedment counted near three or more edges",
    symbol="h'_ef",
    unit="in",
    formula="min(max(c_a_max / 1.5, s / 3), h_ef)",
    note="Not more than the real embedment is taken.",
)
def reduced_depth_in(c_a_max_in: float, s_in: float, h_ef_in: float) -> float:
    """Stands for h_ef in every breakout term when three or four edges are nearer than 1.5 h_ef.

    Args: c_a_max_in: farthest of those edges. s_in: largest spacing within the group, 0 for one anchor. h_ef_in: embedment [in].
    Source: ACI 318-19 17.6.2.1.2.
    """
    return min(max(c_a_max_in / 1.5, s_in / 3), h_ef_in)


@clause(
    "ACI 318",
    "17.6.2.1.4",
    title="Cone of one anchor far from edges",
    symbol="A_Nco",
    unit="in²",
    formula="9 * h_ef ** 2",
)
def cone_area_in2(h_ef_in: float) -> float:
    """Args: h_ef_in: embedment counted [in]. Source: ACI 318-19 17.6.2.1.4."""
    return 9 * h_ef_in**2


@clause(
    "ACI 318",
    "17.6.2.2.1",
    title="Basic breakout strength",
    symbol="N_b",
    unit="lb",
    formula="24 * lambda_a * sqrt(f_c) * h_ef ** 1.5",
)
def basic_breakout_lb(lambda_a: float, f_c_psi: float, h_ef_in: float) -> float:
    """One cast-in anchor in cracked concrete, k_c = 24.

    Args: lambda_a: lightweight factor. f_c_psi: [psi]. h_ef_in: embedment counted [in]. Source: ACI 318-19 17.6.2.2.1.
    """
    return 24 * lambda_a * sqrt(f_c_psi) * pow(h_ef_in, 1.5)


@clause(
    "ACI 318",
    "17.6.2.2.3",
    title="Basic breakout strength, 11 to 25 in deep",
    symbol="N_b",
    unit="lb",
    formula="16 * lambda_a * sqrt(f_c) * h_ef ** (5 / 3)",
)
def basic_breakout_deep_lb(lambda_a: float, f_c_psi: float, h_ef_in: float) -> float:
    """One headed anchor, 11 in to 25 in deep. Args: as in `basic_breakout_lb`. Source: ACI 318-19 17.6.2.2.3."""
    return 16 * lambda_a * sqrt(f_c_psi) * pow(h_ef_in, 5 / 3)


@clause(
    "ACI 318",
    "17.6.2.3.1",
    title="Eccentric tension",
    symbol="psi_ec,N",
    formula="1 / (1 + e_Nx / (1.5 * h_ef)) / (1 + e_Ny / (1.5 * h_ef))",
    note="About two axes the two factors multiply.",
)
def eccentricity_factor_tension(e_Nx_in: float, e_Ny_in: float, h_ef_in: float) -> float:
    """Args: e_Nx_in, e_Ny_in: resultant from the centroid of the anchors in tension, not below 0 [in]. Source: 17.6.2.3."""
    return 1 / (1 + e_Nx_in / (1.5 * h_ef_in)) / (1 + e_Ny_in / (1.5 * h_ef_in))


@clause(
    "ACI 318",
    "17.6.2.4.1",
    title="Edge effect in tension",
    symbol="psi_ed,N",
    formula="min(0.7 + 0.3 * c_a_min / (1.5 * h_ef), 1)",
)
def edge_factor_tension(c_a_min_in: float, h_ef_in: float) -> float:
    """Args: c_a_min_in: nearest edge. h_ef_in: embedment counted [in]. Source: ACI 318-19 17.6.2.4.1."""
    return min(0.7 + 0.3 * c_a_min_in / (1.5 * h_ef_in), 1.0)


@clause(
    "ACI 318",
    "17.6.2.5.1",
    title="Cracking, breakout in tension",
    symbol="psi_c,N",
    rule="1.0 where the concrete may crack at service loads, 1.25 where analysis shows it does not",
)
def cracking_factor_tension(cracked: bool) -> float:
    """Cast-in anchors. Source: ACI 318-19 17.6.2.5.1."""
    return 1.0 if cracked else 1.25


@clause("ACI 318", "17.6.2.6.2", title="Splitting", symbol="psi_cp,N", rule="1.0 for cast-in anchors")
def splitting_factor() -> float:
    """Source: ACI 318-19 17.6.2.6."""
    return 1.0


@clause(
    "ACI 318",
    "17.6.2.1(a)",
    title="Breakout of one anchor",
    symbol="N_cb",
    unit="lb",
    formula="A_Nc / A_Nco * psi_ed_N * psi_c_N * psi_cp_N * N_b",
)
def breakout_lb(
    A_Nc_in2: float, A_Nco_in2: float, psi_ed_N: float, psi_c_N: float, psi_cp_N: float, N_b_lb: float
) -> float:
    """Nominal breakout of a single anchor [lb]. Args: areas [in²], factors, basic strength [lb]. Source: 17.6.2.1(a)."""
    return A_Nc_in2 / A_Nco_in2 * psi_ed_N * psi_c_N * psi_cp_N * N_b_lb


@clause(
    "ACI 318",
    "17.6.2.1(b)",
    title="Breakout of the group",
    symbol="N_cbg",
    unit="lb",
    formula="A_Nc / A_Nco * psi_ec_N * psi_ed_N * psi_c_N * psi_cp_N * N_b",
)
def group_breakout_lb(
    A_Nc_in2: float,
    A_Nco_in2: float,
    psi_ec_N: float,
    psi_ed_N: float,
    psi_c_N: float,
    psi_cp_N: float,
    N_b_lb: float,
) -> float:
    """Nominal breakout of a group [lb]. Args: areas [in²], factors, basic strength [lb]. Source: ACI 318-19 17.6.2.1(b)."""
    return A_Nc_in2 / A_Nco_in2 * psi_ec_N * psi_ed_N * psi_c_N * psi_cp_N * N_b_lb


@clause(
    "ACI 318",
    "17.6.3.2.2(a)",
    title="Pullout of a headed anchor",
    symbol="N_p",
    unit="lb",
    formula="8 * A_brg * f_c",
)
def headed_pullout_lb(A_brg_in2: float, f_c_psi: float) -> float:
    """Crushing under the head, cracked concrete [lb]. Args: net head area [in²], strength [psi]. Source: 17.6.3.2.2(a)."""
    return 8 * A_brg_in2 * f_c_psi


@clause("ACI 318", "17.6.3.2.2", title="Hook length counted", symbol="e_h", unit="in", formula="min(e_h, 4.5 * d_a)")
def hook_length_used_in(e_h_in: float, d_a_in: float) -> float:
    """Args: e_h_in: inner face of the shank to the tip. d_a_in: diameter [in].

    Raises: OutOfScope for a hook shorter than 3 d_a, for which no pullout strength is given. Source: ACI 318-19 17.6.3.2.2.
    """
    if e_h_in < 3 * d_a_in:
        raise OutOfScope(
            "ACI 318-19 17.6.3.2.2",
            f"the hook reaches {e_h_in:.3g} in past the shank and at least 3 diameters ({3 * d_a_in:.3g} in) are needed; "
            "use a longer hook or a headed bolt.",
        )
    return min(e_h_in, 4.5 * d_a_in)


@clause(
    "ACI 318",
    "17.6.3.2.2(b)",
    title="Pullout of a hooked bolt",
    symbol="N_p",
    unit="lb",
    formula="0.9 * f_c * e_h * d_a",
)
def hooked_pullout_lb(f_c_psi: float, e_h_in: float, d_a_in: float) -> float:
    """Args: f_c_psi: [psi]. e_h_in: hook length counted, 3 to 4.5 d_a. d_a_in: diameter [in]. Source: 17.6.3.2.2(b)."""
    return 0.9 * f_c_psi * e_h_in * d_a_in


@clause(
    "ACI 318",
    "17.6.3.3.1",
    title="Cracking, pullout",
    symbol="psi_c,P",
    rule="1.0 where the concrete may crack at service loads, 1.4 where analysis shows it does not",
)
def cracking_factor_pullout(cracked: bool) -> float:
    """Source: ACI 318-19 17.6.3.3."""
    return 1.0 if cracked else 1.4


@clause("ACI 318", "17.6.3.1", title="Pullout", symbol="N_pn", unit="lb", formula="psi_c_P * N_p")
def pullout_lb(psi_c_P: float, N_p_lb: float) -> float:
    """Nominal pullout of one anchor [lb]. Source: ACI 318-19 17.6.3.1."""
    return psi_c_P * N_p_lb


@clause(
    "ACI 318",
    "17.6.4.1",
    title="Side-face blowout of one anchor",
    symbol="N_sb",
    unit="lb",
    formula="160 * c_a1 * sqrt(A_brg) * lambda_a * sqrt(f_c)",
)
def side_face_lb(c_a1_in: float, A_brg_in2: float, lambda_a: float, f_c_psi: float) -> float:
    """One headed anchor with h_ef > 2.5 c_a1. Args: as named [in, in², psi]. Returns: [lb]. Source: ACI 318-19 17.6.4.1."""
    return 160 * c_a1_in * sqrt(A_brg_in2) * lambda_a * sqrt(f_c_psi)


@clause(
    "ACI 318",
    "17.6.4.1.1",
    title="Side-face blowout at a corner",
    symbol="N_sb",
    unit="lb",
    formula="(1 + min(max(c_a2 / c_a1, 1), 3)) / 4 * N_sb",
)
def corner_side_face_lb(c_a2_in: float, c_a1_in: float, N_sb_lb: float) -> float:
    """One anchor with c_a2 < 3 c_a1. Args: edge distances [in]. N_sb_lb: away from corners [lb]. Source: 17.6.4.1.1."""
    return (1 + min(max(c_a2_in / c_a1_in, 1.0), 3.0)) / 4 * N_sb_lb


@clause(
    "ACI 318",
    "17.6.4.2",
    title="Side-face blowout of a row",
    symbol="N_sbg",
    unit="lb",
    formula="(1 + s / (6 * c_a1)) * N_sb",
)
def row_side_face_lb(s_in: float, c_a1_in: float, N_sb_lb: float) -> float:
    """Headed anchors along an edge nearer together than 6 c_a1; N_sb without the corner factor.

    Args: s_in: between the outer anchors. c_a1_in: [in]. N_sb_lb: of one anchor [lb]. Source: ACI 318-19 17.6.4.2.
    """
    return (1 + s_in / (6 * c_a1_in)) * N_sb_lb


@clause(
    "ACI 318",
    "17.6.4.2",
    title="Side-face blowout of a part of a long row",
    symbol="N_sbg",
    unit="lb",
    formula="(s + s_1 / 2 + s_2 / 2) / (6 * c_a1) * N_sb",
    provenance="derived",
    note="The row's strength per inch along the edge, times what belongs to these anchors; a free end counts as 6 c_a1.",
)
def row_part_side_face_lb(s_in: float, s_1_in: float, s_2_in: float, c_a1_in: float, N_sb_lb: float) -> float:
    """The share of (1 + s / 6 c_a1) N_sb that belongs to some anchors of a long row.

    Args: s_in: between the outer anchors. s_1_in, s_2_in: to the next anchor either side, not above 6 c_a1. c_a1_in: [in].
    """
    return (s_in + s_1_in / 2 + s_2_in / 2) / (6 * c_a1_in) * N_sb_lb
