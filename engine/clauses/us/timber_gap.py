"""Dowels over a gap: the general dowel equations, solid members. AWC TR12 Table 1-1.

A P² + B P + C = 0 with q = F_e D and M = F_yb D³ / 6. At no gap they give what the yield limit equations give. A gap leaves the
crushing modes I_m and I_s as they are.
"""

from math import sqrt

from engine.tables.reading import above_zero
from engine.worksheet import clause

TR12 = "AWC TR12"
EXAMPLE = "Recalled; all 54 mode values of TR12 Example 3.1 come out."


def dowel_load_lb(A: float, B: float, C: float) -> float:
    """Positive root of A P² + B P + C = 0 [lb], the form of TR12 Table 1-1 (C is below zero)."""
    return (-B + sqrt(B * B - 4 * A * C)) / (2 * A)


@clause(
    TR12,
    "Table 1-1",
    title="Bearing resistance of the main member per length",
    symbol="q_m",
    unit="lb/in",
    formula="F_em * D",
    provenance="memory",
)
def main_resistance_lb_per_in(F_em_psi: float, D_in: float) -> float:
    """Args: F_em_psi [psi]. D_in [in]. Returns: q_m [lb/in]. Source: AWC TR12 Table 1-1."""
    above_zero(F_em_psi=F_em_psi, D_in=D_in)
    return F_em_psi * D_in


@clause(
    TR12,
    "Table 1-1",
    title="Bearing resistance of the side member per length",
    symbol="q_s",
    unit="lb/in",
    formula="F_es * D",
    provenance="memory",
)
def side_resistance_lb_per_in(F_es_psi: float, D_in: float) -> float:
    """Args: F_es_psi [psi]. D_in [in]. Returns: q_s [lb/in]. Source: AWC TR12 Table 1-1."""
    above_zero(F_es_psi=F_es_psi, D_in=D_in)
    return F_es_psi * D_in


@clause(
    TR12,
    "Table 1-1",
    title="Dowel moment",
    symbol="M",
    unit="lb-in",
    formula="F_yb * D**3 / 6",
    provenance="memory",
)
def dowel_moment_lb_in(F_yb_psi: float, D_in: float) -> float:
    """Plastic moment of the dowel. Args: F_yb_psi [psi]. D_in: diameter at the hinge [in]. Source: AWC TR12 Table 1-1."""
    above_zero(F_yb_psi=F_yb_psi, D_in=D_in)
    return F_yb_psi * D_in**3 / 6


@clause(
    TR12,
    "Table 1-1",
    title="Straight dowel turns in both members, gap between",
    symbol="Z_II",
    unit="lb",
    formula="(-(l_s / 2 + g + l_m / 2) + sqrt((l_s / 2 + g + l_m / 2)**2"
    " + 4 * (1 / (4 * q_s) + 1 / (4 * q_m)) * (q_s * l_s**2 / 4 + q_m * l_m**2 / 4)))"
    " / (2 * (1 / (4 * q_s) + 1 / (4 * q_m))) / R_d",
    provenance="memory",
    note=EXAMPLE,
)
def gap_II_lb(
    q_m_lb_per_in: float, q_s_lb_per_in: float, l_m_in: float, l_s_in: float, g_in: float, R_d: float
) -> float:
    """Args: q_m_lb_per_in, q_s_lb_per_in [lb/in]. l_m_in, l_s_in, g_in [in]. Returns: Z [lb]. Source: AWC TR12 Table 1-1."""
    above_zero(q_m_lb_per_in=q_m_lb_per_in, q_s_lb_per_in=q_s_lb_per_in, R_d=R_d)
    A = 1 / (4 * q_s_lb_per_in) + 1 / (4 * q_m_lb_per_in)
    B = l_s_in / 2 + g_in + l_m_in / 2
    C = -q_s_lb_per_in * l_s_in**2 / 4 - q_m_lb_per_in * l_m_in**2 / 4
    return dowel_load_lb(A, B, C) / R_d


@clause(
    TR12,
    "Table 1-1",
    title="Dowel bends once, main member crushes, gap between",
    symbol="Z_IIIm",
    unit="lb",
    formula="(-(g + l_m / 2) + sqrt((g + l_m / 2)**2 + 4 * (1 / (2 * q_s) + 1 / (4 * q_m)) * (M + q_m * l_m**2 / 4)))"
    " / (2 * (1 / (2 * q_s) + 1 / (4 * q_m))) / R_d",
    provenance="memory",
    note=EXAMPLE,
)
def gap_IIIm_lb(
    q_m_lb_per_in: float, q_s_lb_per_in: float, l_m_in: float, M_lb_in: float, g_in: float, R_d: float
) -> float:
    """Args: as `gap_II_lb`; M_lb_in: dowel moment [lb-in]. Returns: Z [lb]. Source: AWC TR12 Table 1-1."""
    above_zero(q_m_lb_per_in=q_m_lb_per_in, q_s_lb_per_in=q_s_lb_per_in, M_lb_in=M_lb_in, R_d=R_d)
    A = 1 / (2 * q_s_lb_per_in) + 1 / (4 * q_m_lb_per_in)
    return dowel_load_lb(A, g_in + l_m_in / 2, -M_lb_in - q_m_lb_per_in * l_m_in**2 / 4) / R_d


@clause(
    TR12,
    "Table 1-1",
    title="Dowel bends once, side member crushes, gap between",
    symbol="Z_IIIs",
    unit="lb",
    formula="(-(l_s / 2 + g) + sqrt((l_s / 2 + g)**2 + 4 * (1 / (4 * q_s) + 1 / (2 * q_m)) * (q_s * l_s**2 / 4 + M)))"
    " / (2 * (1 / (4 * q_s) + 1 / (2 * q_m))) / R_d",
    provenance="memory",
    note=EXAMPLE,
)
def gap_IIIs_lb(
    q_m_lb_per_in: float, q_s_lb_per_in: float, l_s_in: float, M_lb_in: float, g_in: float, R_d: float
) -> float:
    """Args: as `gap_II_lb`; M_lb_in: dowel moment [lb-in]. Returns: Z [lb]. Source: AWC TR12 Table 1-1."""
    above_zero(q_m_lb_per_in=q_m_lb_per_in, q_s_lb_per_in=q_s_lb_per_in, M_lb_in=M_lb_in, R_d=R_d)
    A = 1 / (4 * q_s_lb_per_in) + 1 / (2 * q_m_lb_per_in)
    return dowel_load_lb(A, l_s_in / 2 + g_in, -q_s_lb_per_in * l_s_in**2 / 4 - M_lb_in) / R_d


@clause(
    TR12,
    "Table 1-1",
    title="Dowel bends in both members, gap between",
    symbol="Z_IV",
    unit="lb",
    formula="(-g + sqrt(g**2 + 4 * (1 / (2 * q_s) + 1 / (2 * q_m)) * 2 * M)) / (2 * (1 / (2 * q_s) + 1 / (2 * q_m))) / R_d",
    provenance="memory",
    note=EXAMPLE,
)
def gap_IV_lb(q_m_lb_per_in: float, q_s_lb_per_in: float, M_lb_in: float, g_in: float, R_d: float) -> float:
    """Args: as `gap_II_lb`; M_lb_in: dowel moment [lb-in]. Returns: Z [lb]. Source: AWC TR12 Table 1-1."""
    above_zero(q_m_lb_per_in=q_m_lb_per_in, q_s_lb_per_in=q_s_lb_per_in, M_lb_in=M_lb_in, R_d=R_d)
    A = 1 / (2 * q_s_lb_per_in) + 1 / (2 * q_m_lb_per_in)
    return dowel_load_lb(A, g_in, -2 * M_lb_in) / R_d
