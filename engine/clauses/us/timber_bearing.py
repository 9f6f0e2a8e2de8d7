"""Wood crushed across the grain, at joist ends, on plates and under washers. NDS 3.10, 4.2.6. C_D never applies."""

from math import pi

from engine.tables.reading import above_zero
from engine.worksheet import clause


@clause(
    "NDS",
    "3.10.4",
    title="Bearing area factor",
    symbol="C_b",
    formula="(l_b + 0.375) / l_b if l_b < 6 and a_end >= 3 else 1",
    note="A joist end on a seat has no wood beyond it: 1.0.",
)
def C_b(l_b_in: float, a_end_in: float) -> float:
    """Wood beside a short bearing helps to carry it.

    Args: l_b_in: bearing length along the grain (a round washer's diameter) [in]. a_end_in: from the bearing to the member's
    end or joint [in]. Returns: factor. Source: NDS 2018 Eq. 3.10-2.
    """
    above_zero(l_b_in=l_b_in)
    return (l_b_in + 0.375) / l_b_in if l_b_in < 6 and a_end_in >= 3 else 1.0


@clause(
    "NDS",
    "4.2.6",
    title="Bearing value across the grain at the tighter deformation limit",
    symbol="F_c⊥,0.02",
    unit="psi",
    formula="0.73 * F_c_perp",
)
def tight_bearing_psi(F_c_perp_psi: float) -> float:
    """For 0.02 in of crushing in place of 0.04 in. Args: F_c_perp_psi [psi]. Source: NDS 2018 4.2.6."""
    above_zero(F_c_perp_psi=F_c_perp_psi)
    return 0.73 * F_c_perp_psi


@clause(
    "NDS",
    "Table 4.3.1",
    title="Adjusted bearing value across the grain",
    symbol="F_c⊥'",
    unit="psi",
    formula="F_c_perp * C_M * C_t * C_b",
)
def adjusted_bearing_psi(F_c_perp_psi: float, C_M: float, C_t: float, C_b: float) -> float:
    """No load duration factor; C_i is 1.0. Args: F_c_perp_psi: reference value [psi]. Source: NDS 2018 Tables 4.3.1, 4.3.8."""
    above_zero(F_c_perp_psi=F_c_perp_psi)
    return F_c_perp_psi * C_M * C_t * C_b


@clause(
    "NDS",
    "3.10.2",
    title="Bearing across the grain",
    symbol="R",
    unit="lb",
    formula="F_c_perp * C_M * C_t * C_b * b * l_b",
)
def bearing_perpendicular_lb(
    F_c_perp_psi: float, C_M: float, C_t: float, C_b: float, b_in: float, l_b_in: float
) -> float:
    """Load the wood bears across its grain.

    Args: F_c_perp_psi: reference value [psi]. b_in: width across the grain [in]. l_b_in: bearing length along it [in].
    Returns: allowable load [lb]. Source: NDS 2018 3.10.2, Table 4.3.1.
    """
    above_zero(F_c_perp_psi=F_c_perp_psi, b_in=b_in, l_b_in=l_b_in)
    return F_c_perp_psi * C_M * C_t * C_b * b_in * l_b_in


@clause(
    "NDS",
    "3.10.2",
    title="Bearing under a washer",
    symbol="T",
    unit="lb",
    formula="F_c_perp * C_M * C_t * C_b * (A_w - pi * d_h**2 / 4)",
)
def washer_bearing_lb(F_c_perp_psi: float, C_M: float, C_t: float, C_b: float, A_w_in2: float, d_h_in: float) -> float:
    """Bolt tension the wood bears under a washer. Args: A_w_in2: gross [in²]. d_h_in: hole [in]. Source: NDS 2018 3.10.2."""
    hole = pi * d_h_in**2 / 4
    above_zero(F_c_perp_psi=F_c_perp_psi, A_w_in2=A_w_in2, net_area_in2=A_w_in2 - hole)
    return F_c_perp_psi * C_M * C_t * C_b * (A_w_in2 - hole)
