"""Cast-in anchors in shear: ACI 318-19 17.7, one function a strength or factor; and tension with shear, 17.8."""

from math import pow, sqrt
from typing import Literal

from engine.worksheet import clause

EdgeBars = Literal["none", "bar", "bar and stirrups"]


@clause("ACI 318", "17.7.1.2(b)", title="Steel in shear", symbol="V_sa", unit="lb", formula="0.6 * A_se * f_uta")
def steel_shear_lb(A_se_in2: float, f_uta_psi: float) -> float:
    """One cast-in headed or hooked bolt. Args: effective area [in²], tensile strength [psi]. Source: 17.7.1.2(b)."""
    return 0.6 * A_se_in2 * f_uta_psi


@clause("ACI 318", "17.7.1.2(a)", title="Stud steel in shear", symbol="V_sa", unit="lb", formula="A_se * f_uta")
def stud_steel_shear_lb(A_se_in2: float, f_uta_psi: float) -> float:
    """One cast-in headed stud. Args: shank area [in²], tensile strength [psi]. Source: ACI 318-19 17.7.1.2(a)."""
    return A_se_in2 * f_uta_psi


@clause(
    "ACI 318", "17.7.1.2.1", title="Steel in shear through a grout pad", symbol="V_sa", unit="lb", formula="0.8 * V_sa"
)
def grouted_shear_lb(V_sa_lb: float) -> float:
    """Anchors with a built-up grout pad. Args: V_sa_lb: without it [lb]. Source: ACI 318-19 17.7.1.2.1."""
    return 0.8 * V_sa_lb


@clause(
    "ACI 318",
    "17.7.2.1.2",
    title="Edge distance counted in a narrow, thin part",
    symbol="c'_a1",
    unit="in",
    formula="min(max(c_a2_max / 1.5, h_a / 1.5, s / 3), c_a1)",
    note="Used where both side edges and the thickness are below 1.5 c_a1; not more than the real distance is taken.",
)
def reduced_edge_distance_in(c_a2_max_in: float, h_a_in: float, s_in: float, c_a1_in: float) -> float:
    """Stands for c_a1 in every term of 17.7.2.

    Args: c_a2_max_in: farther side edge. h_a_in: thickness. s_in: largest spacing along the edge, 0 for one anchor. c_a1_in: [in].
    Source: ACI 318-19 17.7.2.1.2.
    """
    return min(max(c_a2_max_in / 1.5, h_a_in / 1.5, s_in / 3), c_a1_in)


@clause(
    "ACI 318",
    "17.7.2.1.3",
    title="Prism of one anchor in deep concrete",
    symbol="A_Vco",
    unit="in²",
    formula="4.5 * c_a1 ** 2",
)
def prism_area_in2(c_a1_in: float) -> float:
    """Args: c_a1_in: edge distance counted [in]. Source: ACI 318-19 17.7.2.1.3."""
    return 4.5 * c_a1_in**2


@clause(
    "ACI 318",
    "17.7.2.2.1",
    title="Length that bears in shear",
    symbol="l_e",
    unit="in",
    formula="min(h_ef, 8 * d_a)",
)
def bearing_length_in(h_ef_in: float, d_a_in: float) -> float:
    """Args: embedment and diameter [in]. Source: ACI 318-19 17.7.2.2.1."""
    return min(h_ef_in, 8 * d_a_in)


@clause(
    "ACI 318",
    "17.7.2.2.1(a)",
    title="Basic shear breakout by the anchor's stiffness",
    symbol="V_b",
    unit="lb",
    formula="7 * (l_e / d_a) ** 0.2 * sqrt(d_a) * lambda_a * sqrt(f_c) * c_a1 ** 1.5",
)
def basic_shear_by_anchor_lb(l_e_in: float, d_a_in: float, lambda_a: float, f_c_psi: float, c_a1_in: float) -> float:
    """Args: l_e_in: length in bearing. d_a_in, c_a1_in: [in]. f_c_psi: [psi]. Returns: [lb]. Source: 17.7.2.2.1(a)."""
    return 7 * pow(l_e_in / d_a_in, 0.2) * sqrt(d_a_in) * lambda_a * sqrt(f_c_psi) * pow(c_a1_in, 1.5)


@clause(
    "ACI 318",
    "17.7.2.2.2",
    title="Basic shear breakout of a welded stud",
    symbol="V_b",
    unit="lb",
    formula="8 * (l_e / d_a) ** 0.2 * sqrt(d_a) * lambda_a * sqrt(f_c) * c_a1 ** 1.5",
)
def basic_shear_by_stud_lb(l_e_in: float, d_a_in: float, lambda_a: float, f_c_psi: float, c_a1_in: float) -> float:
    """Studs welded to a steel plate under the conditions of 17.7.2.2.2. Args: as for (a). Returns: [lb]."""
    return 8 * pow(l_e_in / d_a_in, 0.2) * sqrt(d_a_in) * lambda_a * sqrt(f_c_psi) * pow(c_a1_in, 1.5)


@clause(
    "ACI 318",
    "17.7.2.2.1(b)",
    title="Basic shear breakout, upper limit",
    symbol="V_b",
    unit="lb",
    formula="9 * lambda_a * sqrt(f_c) * c_a1 ** 1.5",
)
def basic_shear_limit_lb(lambda_a: float, f_c_psi: float, c_a1_in: float) -> float:
    """Args: lightweight factor, strength [psi], edge distance counted [in]. Returns: [lb]. Source: 17.7.2.2.1(b)."""
    return 9 * lambda_a * sqrt(f_c_psi) * pow(c_a1_in, 1.5)


@clause(
    "ACI 318",
    "17.7.2.2.1",
    title="Basic shear breakout strength",
    symbol="V_b",
    unit="lb",
    formula="min(V_ba, V_bb)",
)
def basic_shear_lb(V_ba_lb: float, V_bb_lb: float) -> float:
    """The lesser of expressions (a) and (b) [lb]. Source: ACI 318-19 17.7.2.2.1."""
    return min(V_ba_lb, V_bb_lb)


@clause(
    "ACI 318",
    "17.7.2.3.1",
    title="Eccentric shear",
    symbol="psi_ec,V",
    formula="1 / (1 + e_V / (1.5 * c_a1))",
)
def eccentricity_factor_shear(e_V_in: float, c_a1_in: float) -> float:
    """Args: e_V_in: resultant from the centroid of the anchors loaded the same way. c_a1_in: [in]. Source: 17.7.2.3.1."""
    return 1 / (1 + e_V_in / (1.5 * c_a1_in))


@clause(
    "ACI 318",
    "17.7.2.4.1",
    title="Edge effect in shear",
    symbol="psi_ed,V",
    formula="min(0.7 + 0.3 * c_a2 / (1.5 * c_a1), 1)",
)
def edge_factor_shear(c_a2_in: float, c_a1_in: float) -> float:
    """Args: c_a2_in: nearer side edge. c_a1_in: edge distance counted [in]. Source: ACI 318-19 17.7.2.4.1."""
    return min(0.7 + 0.3 * c_a2_in / (1.5 * c_a1_in), 1.0)


@clause(
    "ACI 318",
    "17.7.2.5.1",
    title="Cracking and edge bars, breakout in shear",
    symbol="psi_c,V",
    rule="1.4 uncracked; cracked 1.0, or 1.2 with a No. 4 bar or larger between anchor and edge, or 1.4 with that bar held by "
    "stirrups 4 in apart or less",
)
def cracking_factor_shear(cracked: bool, edge_bars: EdgeBars) -> float:
    """Source: ACI 318-19 17.7.2.5.1."""
    if not cracked:
        return 1.4
    return {"none": 1.0, "bar": 1.2, "bar and stirrups": 1.4}[edge_bars]


@clause(
    "ACI 318",
    "17.7.2.6.1",
    title="Thin member",
    symbol="psi_h,V",
    formula="max(sqrt(1.5 * c_a1 / h_a), 1)",
)
def thickness_factor_shear(c_a1_in: float, h_a_in: float) -> float:
    """Args: edge distance counted and member thickness [in]. Source: ACI 318-19 17.7.2.6.1."""
    return max(sqrt(1.5 * c_a1_in / h_a_in), 1.0)


@clause(
    "ACI 318",
    "17.7.2.1",
    title="Shear breakout",
    symbol="V_cb",
    unit="lb",
    formula="A_Vc / A_Vco * psi_ec_V * psi_ed_V * psi_c_V * psi_h_V * V_b",
)
def shear_breakout_lb(
    A_Vc_in2: float,
    A_Vco_in2: float,
    psi_ec_V: float,
    psi_ed_V: float,
    psi_c_V: float,
    psi_h_V: float,
    V_b_lb: float,
) -> float:
    """Toward an edge, one anchor (psi_ec 1.0) or a group [lb]. Args: areas [in²], factors. Source: 17.7.2.1(a), (b)."""
    return A_Vc_in2 / A_Vco_in2 * psi_ec_V * psi_ed_V * psi_c_V * psi_h_V * V_b_lb


@clause("ACI 318", "17.7.2.1(c)", title="Shear breakout along an edge", symbol="V_cb", unit="lb", formula="2 * V_cb")
def parallel_shear_breakout_lb(V_cb_lb: float) -> float:
    """Args: V_cb_lb: toward that edge with psi_ed,V = 1.0 [lb]. Source: ACI 318-19 17.7.2.1(c)."""
    return 2 * V_cb_lb


@clause("ACI 318", "17.7.3.1", title="Pryout factor", symbol="k_cp", formula="1.0 if h_ef < 2.5 else 2.0")
def pryout_factor(h_ef_in: float) -> float:
    """Args: h_ef_in: embedment [in]. Source: ACI 318-19 17.7.3.1."""
    return 1.0 if h_ef_in < 2.5 else 2.0


@clause("ACI 318", "17.7.3.1", title="Pryout", symbol="V_cp", unit="lb", formula="k_cp * N_cp")
def pryout_lb(k_cp: float, N_cp_lb: float) -> float:
    """One anchor or a group. Args: N_cp_lb: tension breakout of the anchors in shear [lb]. Source: ACI 318-19 17.7.3.1."""
    return k_cp * N_cp_lb


@clause(
    "ACI 318",
    "17.8",
    title="Tension with shear",
    symbol="sum",
    formula="r_N if r_V <= 0.2 else (r_V if r_N <= 0.2 else r_N + r_V)",
    provenance="memory",
    note="Held against 1.0 where one of the two is at most 0.2, against 1.2 otherwise.",
)
def interaction(r_N: float, r_V: float) -> float:
    """Args: r_N, r_V: worst ratios in tension and in shear. Source: ACI 318-19 17.8 (used in ACI 349.2R-07 Example A3)."""
    if r_V <= 0.2:
        return r_N
    return r_V if r_N <= 0.2 else r_N + r_V


@clause(
    "ACI 318",
    "17.8",
    title="Limit of tension with shear",
    symbol="limit",
    formula="1.0 if r_N <= 0.2 or r_V <= 0.2 else 1.2",
    provenance="memory",
)
def interaction_limit(r_N: float, r_V: float) -> float:
    """What `interaction` is held against. Args: as there. Source: ACI 318-19 17.8."""
    return 1.0 if r_N <= 0.2 or r_V <= 0.2 else 1.2
