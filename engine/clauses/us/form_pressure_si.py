"""Lateral pressure of fresh concrete in SI: the metric set of ACI 347R-14, and CIRIA Report 108 as a second opinion.

The metric constants are rounded up on their own (600 psf is 28.7 kPa, printed 30), so each system of units runs in its own set.
"""

from math import sqrt
from typing import Literal, NamedTuple

from engine.tables.reading import above_zero
from engine.worksheet import Worksheet, clause

GRAVITY = 9.81
SLOW_M_PER_H = 2.1
TALL_M = 4.2
FASTEST_M_PER_H = 4.5
HIGHEST_SLUMP_MM = 175.0
DEEPEST_VIBRATION_M = 1.2
Shape = Literal["wall", "column"]
Concrete = Literal["plain", "retarded or blended", "blended and retarded, or high slag or fly ash"]
# CIRIA 108 Table: C_2 by concrete. 0.30 read in a posted worksheet; the other two recalled.
CIRIA_C_2: dict[str, float] = {
    "plain": 0.30,
    "retarded or blended": 0.45,
    "blended and retarded, or high slag or fly ash": 0.60,
}


class PressureSI(NamedTuple):
    """Design pressure, the equation's letter and value, and the liquid head [kPa]."""

    design_kPa: float
    equation: str
    equation_kPa: float | None
    head_kPa: float


@clause("ACI 347R", "4.2.2.1 SI", title="Liquid head", symbol="p", formula="rho * 9.81 * h / 1000")
def liquid_head_kPa(rho: float, h: float) -> float:
    """Args: rho: density [kg/m³]. h: depth [m]. Returns: [kPa]. Source: ACI 347R-14 4.2.2.1."""
    above_zero(rho=rho, h=h)
    return rho * GRAVITY * h / 1000


@clause(
    "ACI 347R",
    "Table 4.2.2.1a(a) SI",
    title="Unit weight factor",
    symbol="C_w",
    formula="max(0.8, 0.5 * (1 + rho / 2320)) if rho < 2240 else (1 if rho <= 2400 else rho / 2320)",
)
def unit_weight_factor_si(rho: float) -> float:
    """Args: rho: density [kg/m³]. Source: ACI 347-04 Table 2.1, SI."""
    above_zero(rho=rho)
    if rho < 2240:
        return max(0.8, 0.5 * (1 + rho / 2320))
    return 1.0 if rho <= 2400 else rho / 2320


@clause(
    "ACI 347R",
    "4.2.2.1a(c) SI",
    title="Pressure on a wall filled slowly",
    symbol="p",
    formula="C_c * C_w * (7.2 + 785 * R / (T + 17.8))",
)
def slow_wall_kPa(C_c: float, C_w: float, R: float, T: float) -> float:
    """Args: R: rate of rise [m/h]. T: of the concrete [°C]. Returns: [kPa]. Source: ACI 347-04 Eq. 2.3, SI."""
    return C_c * C_w * (7.2 + 785 * R / (T + 17.8))


@clause(
    "ACI 347R",
    "4.2.2.1a(d) SI",
    title="Pressure on a tall wall, or one filled fast",
    symbol="p",
    formula="C_c * C_w * (7.2 + 1156 / (T + 17.8) + 244 * R / (T + 17.8))",
)
def fast_wall_kPa(C_c: float, C_w: float, R: float, T: float) -> float:
    """Args: as `slow_wall_kPa`. Source: ACI 347-04 Eq. 2.4, SI."""
    return C_c * C_w * (7.2 + 1156 / (T + 17.8) + 244 * R / (T + 17.8))


@clause("ACI 347R", "4.2.2.1a SI", title="Design pressure", symbol="p", formula="min(head, max(p_eq, 30 * C_w))")
def design_pressure_kPa(head: float, p_eq: float, C_w: float) -> float:
    """Args: head, p_eq [kPa]. Source: ACI 347-04 2.2.2, SI: the floor is 30 C_w kPa."""
    return min(head, max(p_eq, 30 * C_w))


def wall_pressure_si(
    sheet: Worksheet,
    *,
    rho: float,
    h: float,
    R: float,
    T: float,
    C_c: float,
    slump_mm: float = 150.0,
    vibration_m: float = 1.2,
) -> PressureSI:
    """Design pressure in the SI set; the liquid head alone above 4.5 m/h, 175 mm of slump or 1.2 m of vibration.

    Args: rho [kg/m³]. h: of all concrete not yet set [m]. R [m/h]. T [°C]. Raises: BadInput. Source: ACI 347-04 2.2.2, SI.
    """
    head = sheet.use(liquid_head_kPa, rho=rho, h=h)
    if R > FASTEST_M_PER_H or slump_mm > HIGHEST_SLUMP_MM or vibration_m > DEEPEST_VIBRATION_M:
        return PressureSI(head, "a", None, head)
    weight = sheet.use(unit_weight_factor_si, rho=rho)
    slow = R < SLOW_M_PER_H and h <= TALL_M
    value = sheet.use(slow_wall_kPa if slow else fast_wall_kPa, C_c=C_c, C_w=weight, R=R, T=T)
    return PressureSI(
        sheet.use(design_pressure_kPa, head=head, p_eq=value, C_w=weight), "b" if slow else "c", value, head
    )


@clause(
    "CIRIA Report 108 (1985)",
    "",
    title="Temperature coefficient",
    symbol="K",
    formula="(36 / (T + 16)) ** 2",
)
def ciria_K(T: float) -> float:
    """Args: T: of the concrete at placing [°C]. Source: CIRIA 108, read in posted worksheets (one garbled)."""
    return (36 / (T + 16)) ** 2


@clause(
    "CIRIA Report 108 (1985)",
    "",
    title="Largest pressure",
    symbol="P_max",
    formula="D * h if C_1 * sqrt(R) >= H else min(D * (C_1 * sqrt(R) + C_2 * K * sqrt(H - C_1 * sqrt(R))), D * h)",
)
def ciria_pressure_kPa(D: float, C_1: float, C_2: float, K: float, R: float, H: float, h: float) -> float:
    """Second opinion on the pressure.

    Args: D: weight [kN/m³]. C_1: 1.0 walls, 1.5 columns. C_2: by concrete. K: `ciria_K`. R: rate [m/h]. H: form height
    and h: pour height [m]. Returns: [kPa]. Source: CIRIA Report 108, by two posted worksheets; the report was not read.
    """
    above_zero(D=D, R=R, H=H, h=h)
    reach = C_1 * sqrt(R)
    if reach >= H:
        return D * h
    return min(D * (reach + C_2 * K * sqrt(H - reach)), D * h)
