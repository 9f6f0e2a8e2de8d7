"""Adjustment of wood and connection values: wet service, temperature, incising, group action, geometry. NDS 4.3, 11.3.

The load duration factor comes with the load combination (see loads).
"""

from math import sqrt
from typing import Literal

from engine.errors import BadInput, OutOfScope
from engine.tables.reading import SLACK, above_zero, choose
from engine.worksheet import Worksheet, clause

Stress = Literal["F_b", "F_v", "F_c_perp"]

# Sawn: NDS Supplement Table 4A, read in a formwork textbook's Table 4-5 (F_b only where F_b C_F exceeds 1,150 psi; taken always).
# Glued laminated: Supplement Table 5A, provenance: memory.
WET_SERVICE = {
    "sawn": {"F_b": 0.85, "F_v": 0.97, "F_c_perp": 0.67},
    "glulam": {"F_b": 0.8, "F_v": 0.875, "F_c_perp": 0.53},
}
INCISING = {"F_b": 0.8, "F_v": 0.8, "F_c_perp": 1.0}  # NDS 2018 Table 4.3.8, provenance: memory
# NDS 2018 Tables 2.3.3 and 11.3.4, the same numbers for stresses and connections; provenance: memory. (up to °F, dry, wet)
TEMPERATURE = ((100.0, 1.0, 1.0), (125.0, 0.8, 0.7), (150.0, 0.7, 0.5))


@clause(
    "NDS",
    "Supplement Table 4A",
    title="Wet service factor of a wood stress",
    symbol="C_M",
    rule="Sawn above 19 % moisture: F_b 0.85, F_v 0.97, F_c⊥ 0.67; glued laminated above 16 %: 0.8, 0.875, 0.53; dry 1.0.",
    note="The glued laminated values are recalled.",
)
def C_M_stress(stress: Stress, material: Literal["sawn", "glulam"], wet: bool) -> float:
    """Args: wet: above 19 % (glulam 16 %) moisture in service. Raises: BadInput. Source: NDS 2018 Supplement Tables 4A, 5A."""
    factor = choose("stress", choose("material", WET_SERVICE, material), stress)
    return factor if wet else 1.0


@clause(
    "NDS",
    "Table 4.3.8",
    title="Incising factor",
    symbol="C_i",
    rule="F_b and F_v 0.8, F_c⊥ 1.0 in wood incised for treatment.",
    provenance="memory",
)
def C_i(stress: Stress, incised: bool) -> float:
    """Args: stress; incised: whether the treatment was pressed in through incisions. Source: NDS 2018 Table 4.3.8."""
    factor = choose("stress", INCISING, stress)
    return factor if incised else 1.0


@clause(
    "NDS",
    "11.3.4, 2.3.3",
    title="Temperature factor",
    symbol="C_t",
    rule="1.0 to 100 °F; 0.8 dry, 0.7 wet to 125 °F; 0.7 dry, 0.5 wet to 150 °F.",
    provenance="memory",
)
def C_t(temperature_F: float, wet: bool) -> float:
    """Args: temperature_F: sustained [°F]. Raises: OutOfScope above 150 °F. Source: NDS 2018 Tables 2.3.3, 11.3.4."""
    for limit, dry_factor, wet_factor in TEMPERATURE:
        if temperature_F <= limit:
            return wet_factor if wet else dry_factor
    raise OutOfScope("NDS 2.3.3", "Wood sustained above 150 °F is not covered. Ask an engineer.")


@clause(
    "NDS",
    "Table 11.3.3",
    title="Wet service factor of a connection",
    symbol="C_M",
    rule="Wet in service 0.7; made wet and dry in service 0.4, or 0.7 below 1/4 in, or 1.0 where shrinkage is free; dry 1.0.",
    provenance="memory",
)
def C_M_connection(made_wet: bool, wet_in_service: bool, D_in: float, free_to_shrink: bool) -> float:
    """Lateral value of dowels.

    Args: made_wet, wet_in_service: wood above 19 % moisture then [-]. D_in [in]. free_to_shrink: one fastener, one row along
    the grain, or a splice plate of its own for each row. Source: NDS 2018 Table 11.3.3.
    """
    if wet_in_service:
        return 0.7
    if not made_wet or free_to_shrink:
        return 1.0
    return 0.7 if D_in < 0.25 else 0.4


@clause(
    "NDS",
    "11.3.6",
    title="Slip stiffness of one dowel",
    symbol="γ",
    unit="lb/in",
    formula="(270000 if metal else 180000) * D**1.5",
    provenance="memory",
    note="The exponent 1.5 is read.",
)
def slip_lb_per_in(D_in: float, metal: bool) -> float:
    """Args: D_in [in]. metal: whether the side member is steel. Returns: load per slip [lb/in]. Source: NDS 2018 11.3.6."""
    above_zero(D_in=D_in)
    return float((270000 if metal else 180000) * D_in**1.5)


@clause(
    "NDS",
    "11.3.6",
    title="Group action term u",
    symbol="u",
    formula="1 + gamma * s / 2 * (1 / EA_m + 1 / EA_s)",
    provenance="memory",
)
def group_u(gamma_lb_per_in: float, s_in: float, EA_m_lb: float, EA_s_lb: float) -> float:
    """Args: s_in: spacing along the row [in]. EA_m_lb, EA_s_lb: axial stiffness [lb]. Source: NDS 2018 Eq. 11.3-1."""
    above_zero(EA_m_lb=EA_m_lb, EA_s_lb=EA_s_lb)
    return 1 + gamma_lb_per_in * s_in / 2 * (1 / EA_m_lb + 1 / EA_s_lb)


@clause(
    "NDS", "11.3.6", title="Group action term m", symbol="m", formula="u - sqrt(u**2 - 1)", provenance="memory"
)  # fmt: skip
def group_m(u: float) -> float:
    """Args: u: from `group_u`, above 1. Source: NDS 2018 Eq. 11.3-1."""
    if u <= 1:
        raise BadInput("u", "Enter a value above 1.")
    return u - sqrt(u * u - 1)


@clause(
    "NDS",
    "11.3.6",
    title="Stiffness ratio",
    symbol="R_EA",
    formula="min(EA_m / EA_s, EA_s / EA_m)",
    provenance="memory",
)
def R_EA(EA_m_lb: float, EA_s_lb: float) -> float:
    """The smaller of the two ratios. Args: axial stiffness of main and side members [lb]. Source: NDS 2018 Eq. 11.3-1."""
    above_zero(EA_m_lb=EA_m_lb, EA_s_lb=EA_s_lb)
    return min(EA_m_lb / EA_s_lb, EA_s_lb / EA_m_lb)


@clause(
    "NDS",
    "11.3.6",
    title="Group action factor",
    symbol="C_g",
    formula="m * (1 - m**(2 * n)) / (n * ((1 + R_EA * m**n) * (1 + m) - 1 + m**(2 * n))) * (1 + R_EA) / (1 - m)",
    provenance="memory",
)
def C_g(n: int, m: float, R_EA: float) -> float:
    """Args: n: fasteners in the row, along the load. m, R_EA: from above. Source: NDS 2018 Eq. 11.3-1."""
    above_zero(n=n, m=m)
    return float(m * (1 - m ** (2 * n)) / (n * ((1 + R_EA * m**n) * (1 + m) - 1 + m ** (2 * n))) * (1 + R_EA) / (1 - m))


def group_action(
    sheet: Worksheet, *, n: int, D_in: float, s_in: float, EA_m_lb: float, EA_s_lb: float, metal: bool
) -> float:
    """C_g of a row with its working; 1.0 for one fastener or below 1/4 in. A row runs along the load (NDS 11.3.6)."""
    if n < 2 or D_in < 0.25:
        return 1.0
    gamma = sheet.use(slip_lb_per_in, D_in=D_in, metal=metal)
    u = sheet.use(group_u, gamma_lb_per_in=gamma, s_in=s_in, EA_m_lb=EA_m_lb, EA_s_lb=EA_s_lb)
    ratio = sheet.use(R_EA, EA_m_lb=EA_m_lb, EA_s_lb=EA_s_lb)
    return sheet.use(C_g, n=n, m=sheet.use(group_m, u=u), R_EA=ratio)


@clause(
    "NDS",
    "12.5.1",
    title="Geometry factor",
    symbol="C_Δ",
    formula="0 if a < a_min else min(1, a / a_full)",
    provenance="memory",
    note="The smallest ratio of the group applies to all its fasteners; a short edge distance is never a reduction, it is refused.",
)
def C_Delta(a_in: float, a_min_in: float, a_full_in: float) -> float:
    """Args: a_in: distance there is; a_min_in: least allowed; a_full_in: for the full value [in]. Source: NDS 2018 12.5.1."""
    above_zero(a_full_in=a_full_in)
    return 0.0 if a_in < a_min_in - SLACK else min(1.0, a_in / a_full_in)


@clause(
    "NDS",
    "Table 11.3.1",
    title="Adjusted lateral value",
    symbol="Z'",
    unit="lb",
    formula="Z * C_D * C_M * C_t * C_g * C_Delta * C_eg",
)
def adjusted_Z_lb(Z_lb: float, C_D: float, C_M: float, C_t: float, C_g: float, C_Delta: float, C_eg: float) -> float:
    """Allowable lateral value of one fastener.

    Args: Z_lb: reference value [lb]. C_D at most 1.6. C_eg 0.67 in end grain, else 1. Source: NDS 2018 Table 11.3.1.
    """
    return Z_lb * C_D * C_M * C_t * C_g * C_Delta * C_eg


@clause(
    "NDS",
    "Table 4.3.1",
    title="Adjusted wood stress",
    symbol="F'",
    unit="psi",
    formula="F * C_D * C_M * C_t * C_i",
    provenance="memory",
)
def adjusted_stress_psi(F_psi: float, C_D: float, C_M: float, C_t: float, C_i: float) -> float:
    """F_v, or F_b with its size factor in. Args: F_psi: reference value [psi]. Source: NDS 2018 Table 4.3.1."""
    return F_psi * C_D * C_M * C_t * C_i
