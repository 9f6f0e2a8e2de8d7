"""Dowel bearing strength and the yield limit equations of bolts, lag screws, wood screws and nails. NDS 12.3, AWC TR12.

m is the main member (concrete, or the wood that holds the point), s the side member (ledger, plate). Z is at allowable-stress
level for normal duration: R_d already brings it there.
"""

from math import sqrt

from engine.clauses.us.timber_bearing_strength import SMALL_IN
from engine.errors import OutOfScope
from engine.tables.reading import above_zero
from engine.worksheet import clause

LARGEST_IN = 1.0  # Table 12.3.1B stops at 1 in
CONFIRMED = (
    "Recalled; with it 71 of 72 lag screw cells of a textbook's copy of the NDS table come out, and 93 of 93 legible cells of "
    "the steel plate table."
)


@clause(
    "NDS",
    "Table 12.3.1B",
    title="Angle factor of the reduction term",
    symbol="K_θ",
    formula="1 + 0.25 * theta / 90",
    note="θ is the largest angle between load and grain in any wood member.",
)
def K_theta(theta_deg: float) -> float:
    """Args: theta_deg: largest load-to-grain angle, 0 to 90 [°]. Returns: factor. Source: NDS 2018 Table 12.3.1B."""
    return 1 + 0.25 * theta_deg / 90


@clause(
    "NDS",
    "Table 12.3.1B",
    title="Reduction term of a small dowel",
    symbol="K_D",
    formula="2.2 if D <= 0.17 else 10 * D + 0.5",
    provenance="memory",
    note="Read elsewhere as 10 D - 0.5 in one note on an erratum; that would break at 0.17 in and contradict printed table cells.",
)
def K_D(D_in: float) -> float:
    """Args: D_in: the diameter used in the yield equations (D_r of threaded screws) [in]. Source: NDS 2018 Table 12.3.1B."""
    return 2.2 if D_in <= 0.17 else 10 * D_in + 0.5


@clause(
    "NDS",
    "Table 12.3.1B",
    title="Reduction term",
    symbol="R_d",
    formula="c * K_theta",
    note="c is 4 for I_m and I_s, 3.6 for II, 3.2 for III_m, III_s and IV.",
)
def R_d(c: float, K_theta: float) -> float:
    """Reduction term of a dowel of 1/4 in or more. Args: c: 4, 3.6 or 3.2. K_theta. Source: NDS 2018 Table 12.3.1B."""
    return c * K_theta


@clause(
    "NDS",
    "Table 12.3.1B",
    title="Reduction term, root below 1/4 in",
    symbol="R_d",
    formula="K_D * K_theta",
    provenance="memory",
    note=CONFIRMED,
)
def R_d_thin_root(K_D: float, K_theta: float) -> float:
    """Threaded fastener of 1/4 in or more whose root is thinner, all modes. Source: NDS 2018 Table 12.3.1B footnote."""
    return K_D * K_theta


@clause(
    "NDS",
    "12.3.7",
    title="Diameter for the yield equations",
    symbol="D",
    unit="in",
    formula="D if l_thread <= l / 4 else D_r",
)
def yield_diameter_in(D_in: float, D_r_in: float, l_thread_in: float, l_in: float) -> float:
    """Full diameter only where threads take up a quarter or less of the bearing length in the member that holds them.

    Args: D_in, D_r_in: nominal and root diameter [in]. l_thread_in: thread in bearing [in]. l_in: bearing length there [in].
    Returns: diameter [in]. Source: NDS 2018 12.3.7.2.
    """
    above_zero(D_in=D_in, D_r_in=D_r_in, l_in=l_in)
    return D_in if l_thread_in <= l_in / 4 else D_r_in


def refuse_thick(D_in: float) -> None:
    """Raises: OutOfScope above 1 in, where the reduction terms end; BadInput at or below zero."""
    above_zero(D_in=D_in)
    if D_in > LARGEST_IN:
        raise OutOfScope(
            "NDS Table 12.3.1B",
            f"Fasteners over {LARGEST_IN:g} in have no reduction term. Ask an engineer to design the connection.",
        )


def is_small(D_in: float) -> bool:
    """Whether a diameter falls under the rules for small dowels (below 1/4 in)."""
    return D_in < SMALL_IN


# --- Table 12.3.1A, members in contact -------------------------------------------------------------------------------------


@clause("NDS", "12.3.1", title="Bearing strength ratio", symbol="R_e", formula="F_em / F_es", provenance="memory")
def R_e(F_em_psi: float, F_es_psi: float) -> float:
    """Main over side bearing strength. Args: both [psi]. Source: NDS 2018 Table 12.3.1A."""
    above_zero(F_em_psi=F_em_psi, F_es_psi=F_es_psi)
    return F_em_psi / F_es_psi


@clause("NDS", "12.3.1", title="Bearing length ratio", symbol="R_t", formula="l_m / l_s", provenance="memory")
def R_t(l_m_in: float, l_s_in: float) -> float:
    """Main over side bearing length. Args: both [in]. Source: NDS 2018 Table 12.3.1A."""
    above_zero(l_m_in=l_m_in, l_s_in=l_s_in)
    return l_m_in / l_s_in


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Coefficient of mode II",
    symbol="k_1",
    formula="(sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1 + R_t)) / (1 + R_e)",
    provenance="memory",
)
def k_1(R_e: float, R_t: float) -> float:
    """Args: R_e, R_t: bearing strength and length ratios. Source: NDS 2018 Table 12.3.1A notes."""
    return (sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1 + R_t)) / (1 + R_e)


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Coefficient of mode III in the main member",
    symbol="k_2",
    formula="-1 + sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D**2 / (3 * F_em * l_m**2))",
    provenance="memory",
)
def k_2(R_e: float, F_yb_psi: float, D_in: float, F_em_psi: float, l_m_in: float) -> float:
    """Args: F_yb_psi, F_em_psi [psi]. D_in, l_m_in [in]. Source: NDS 2018 Table 12.3.1A notes."""
    above_zero(F_em_psi=F_em_psi, l_m_in=l_m_in)
    return -1 + sqrt(2 * (1 + R_e) + 2 * F_yb_psi * (1 + 2 * R_e) * D_in**2 / (3 * F_em_psi * l_m_in**2))


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Coefficient of mode III in the side member",
    symbol="k_3",
    formula="-1 + sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2))",
    provenance="memory",
)
def k_3(R_e: float, F_yb_psi: float, D_in: float, F_em_psi: float, l_s_in: float) -> float:
    """Args: F_yb_psi, F_em_psi [psi]. D_in, l_s_in [in]. Source: NDS 2018 Table 12.3.1A notes."""
    above_zero(R_e=R_e, F_em_psi=F_em_psi, l_s_in=l_s_in)
    return -1 + sqrt(2 * (1 + R_e) / R_e + 2 * F_yb_psi * (2 + R_e) * D_in**2 / (3 * F_em_psi * l_s_in**2))


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Main member crushes",
    symbol="Z_Im",
    unit="lb",
    formula="D * l_m * F_em / R_d",
    provenance="memory",
)
def mode_Im_lb(D_in: float, l_m_in: float, F_em_psi: float, R_d: float) -> float:
    """Args: D_in, l_m_in [in]. F_em_psi [psi]. Returns: Z [lb], with or without a gap. Source: NDS 2018 Eq. 12.3-1."""
    above_zero(R_d=R_d)
    return D_in * l_m_in * F_em_psi / R_d


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Side member crushes",
    symbol="Z_Is",
    unit="lb",
    formula="D * l_s * F_es / R_d",
    provenance="memory",
)
def mode_Is_lb(D_in: float, l_s_in: float, F_es_psi: float, R_d: float) -> float:
    """Args: D_in, l_s_in [in]. F_es_psi [psi]. Returns: Z [lb], with or without a gap. Source: NDS 2018 Eq. 12.3-2."""
    above_zero(R_d=R_d)
    return D_in * l_s_in * F_es_psi / R_d


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Straight dowel turns in both members",
    symbol="Z_II",
    unit="lb",
    formula="k_1 * D * l_s * F_es / R_d",
    provenance="memory",
)
def mode_II_lb(k_1: float, D_in: float, l_s_in: float, F_es_psi: float, R_d: float) -> float:
    """Args: D_in, l_s_in [in]. F_es_psi [psi]. Returns: Z [lb]. Source: NDS 2018 Eq. 12.3-3."""
    above_zero(R_d=R_d)
    return k_1 * D_in * l_s_in * F_es_psi / R_d


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Dowel bends once, main member crushes",
    symbol="Z_IIIm",
    unit="lb",
    formula="k_2 * D * l_m * F_em / ((1 + 2 * R_e) * R_d)",
    provenance="memory",
)
def mode_IIIm_lb(k_2: float, D_in: float, l_m_in: float, F_em_psi: float, R_e: float, R_d: float) -> float:
    """Args: D_in, l_m_in [in]. F_em_psi [psi]. Returns: Z [lb]. Source: NDS 2018 Eq. 12.3-4."""
    above_zero(R_d=R_d)
    return k_2 * D_in * l_m_in * F_em_psi / ((1 + 2 * R_e) * R_d)


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Dowel bends once, side member crushes",
    symbol="Z_IIIs",
    unit="lb",
    formula="k_3 * D * l_s * F_em / ((2 + R_e) * R_d)",
    provenance="memory",
)
def mode_IIIs_lb(k_3: float, D_in: float, l_s_in: float, F_em_psi: float, R_e: float, R_d: float) -> float:
    """Args: D_in, l_s_in [in]. F_em_psi [psi]. Returns: Z [lb]. Source: NDS 2018 Eq. 12.3-5."""
    above_zero(R_d=R_d)
    return k_3 * D_in * l_s_in * F_em_psi / ((2 + R_e) * R_d)


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Dowel bends in both members",
    symbol="Z_IV",
    unit="lb",
    formula="D**2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))",
    provenance="memory",
)
def mode_IV_lb(D_in: float, F_em_psi: float, F_yb_psi: float, R_e: float, R_d: float) -> float:
    """Args: D_in [in]. F_em_psi, F_yb_psi [psi]. Returns: Z [lb]. Source: NDS 2018 Eq. 12.3-6."""
    above_zero(R_d=R_d, F_em_psi=F_em_psi, F_yb_psi=F_yb_psi)
    return D_in**2 / R_d * sqrt(2 * F_em_psi * F_yb_psi / (3 * (1 + R_e)))
