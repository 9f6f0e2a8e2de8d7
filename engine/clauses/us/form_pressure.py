"""Lateral pressure of fresh concrete on wall forms: ACI 347R-14, the relations of ACI 347-04 section 2.2.2 carried on.

Clause numbers of the 2014 edition are recalled; the equations, their limits and factors were read in a research digest that
transcribes the 2004 text, and their limits again in a magazine letter on it.
"""

from typing import Literal, NamedTuple

from engine.errors import BadInput
from engine.tables.reading import above_zero
from engine.worksheet import Worksheet, clause

Binder = Literal["types I to III", "blend", "high slag or fly ash"]
Equation = Literal["a", "b", "c"]

HIGHEST_SLUMP_IN = 7.0
DEEPEST_VIBRATION_FT = 4.0
FASTEST_FT_PER_H = 15.0
SLOW_FT_PER_H = 7.0
TALL_FT = 14.0
FLOOR_PSF = 600.0
# ACI 347-04 Table 2.2: binder -> (without, with a retarder). Set-delaying water reducers and superplasticizers count as retarders.
CHEMISTRY: dict[str, tuple[float, float]] = {
    "types I to III": (1.0, 1.2),
    "blend": (1.2, 1.4),
    "high slag or fly ash": (1.4, 1.4),
}


class Pressure(NamedTuple):
    """Design pressure [psf], the equation that gave it ("a" is the liquid head), the equation's own value, and the head."""

    design_psf: float
    equation: Equation
    equation_psf: float | None
    head_psf: float
    C_w: float


@clause("ACI 347R", "4.2.2.1", title="Liquid head", symbol="p", unit="psf", formula="w * h")
def liquid_head_psf(w_pcf: float, h_ft: float) -> float:
    """Pressure of concrete that has not begun to set. Args: w_pcf: unit weight. h_ft: depth [ft]. Source: ACI 347R-14 4.2.2.1."""
    above_zero(w_pcf=w_pcf, h_ft=h_ft)
    return w_pcf * h_ft


@clause(
    "ACI 347R",
    "Table 4.2.2.1a(a)",
    title="Unit weight factor",
    symbol="C_w",
    formula="max(0.8, 0.5 * (1 + w / 145)) if w < 140 else (1 if w <= 150 else w / 145)",
)
def unit_weight_factor(w_pcf: float) -> float:
    """Args: w_pcf: unit weight of the concrete [pcf]. Source: ACI 347-04 Table 2.1."""
    above_zero(w_pcf=w_pcf)
    if w_pcf < 140:
        return max(0.8, 0.5 * (1 + w_pcf / 145))
    return 1.0 if w_pcf <= 150 else w_pcf / 145


@clause(
    "ACI 347R",
    "Table 4.2.2.1a(b)",
    title="Chemistry factor",
    symbol="C_c",
    rule="Types I, II, III 1.0, with a retarder 1.2; other cements and blends below 70 % slag or 40 % fly ash 1.2 and 1.4; above "
    "those 1.4.",
)
def chemistry_factor(binder: Binder, retarder: bool) -> float:
    """Args: binder. retarder: any admixture that delays set. Raises: BadInput. Source: ACI 347-04 Table 2.2."""
    if binder not in CHEMISTRY:
        raise BadInput("binder", f"Choose one of: {', '.join(CHEMISTRY)}.")
    return CHEMISTRY[binder][retarder]


@clause(
    "ACI 347R",
    "4.2.2.1a(c)",
    title="Pressure on a wall filled below 7 ft an hour, to 14 ft",
    symbol="p",
    unit="psf",
    formula="C_c * C_w * (150 + 9000 * R / T)",
)
def slow_wall_psf(C_c: float, C_w: float, R: float, T: float) -> float:
    """Args: C_c, C_w: factors. R: rate of rise [ft/h]. T: temperature of the concrete [°F]. Source: ACI 347-04 Eq. 2.3."""
    above_zero(R=R, T=T)
    return C_c * C_w * (150 + 9000 * R / T)


@clause(
    "ACI 347R",
    "4.2.2.1a(d)",
    title="Pressure on a tall wall, or one filled at 7 to 15 ft an hour",
    symbol="p",
    unit="psf",
    formula="C_c * C_w * (150 + 43400 / T + 2800 * R / T)",
)
def fast_wall_psf(C_c: float, C_w: float, R: float, T: float) -> float:
    """Args: as `slow_wall_psf`. Source: ACI 347-04 Eq. 2.4."""
    above_zero(R=R, T=T)
    return C_c * C_w * (150 + 43400 / T + 2800 * R / T)


@clause(
    "ACI 347R",
    "4.2.2.1a",
    title="Design pressure",
    symbol="p",
    unit="psf",
    formula="min(head, max(p_eq, 600 * C_w))",
    note="The floor of 600 C_w holds only up to the liquid head.",
)
def design_pressure_psf(head_psf: float, p_eq_psf: float, C_w: float) -> float:
    """Args: head_psf: liquid head. p_eq_psf: value of the equation. C_w. Source: ACI 347-04 2.2.2."""
    return min(head_psf, max(p_eq_psf, FLOOR_PSF * C_w))


def liquid_reasons(*, slump_in: float, vibration_ft: float, R: float, flowing: bool = False) -> tuple[str, ...]:
    """Why a placement counts as liquid, each as a phrase; empty where the equations may be used (ACI 347-04 2.2.2).

    Args: slump_in: after all admixtures. vibration_ft: depth of internal vibration. R: rate [ft/h]. flowing: self-consolidating,
    unfamiliar flow, or vibrated from outside.
    """
    reasons = []
    if slump_in > HIGHEST_SLUMP_IN:
        reasons.append(f"slump above {HIGHEST_SLUMP_IN:g} in")
    if vibration_ft > DEEPEST_VIBRATION_FT:
        reasons.append(f"vibration deeper than {DEEPEST_VIBRATION_FT:g} ft")
    if R > FASTEST_FT_PER_H:
        reasons.append(f"rate above {FASTEST_FT_PER_H:g} ft/h")
    if flowing:
        reasons.append("self-consolidating or vibrated from outside")
    return tuple(reasons)


def wall_pressure(
    sheet: Worksheet,
    *,
    w_pcf: float,
    h_ft: float,
    R: float,
    T: float,
    C_c: float,
    slump_in: float = 6.0,
    vibration_ft: float = 4.0,
    flowing: bool = False,
) -> Pressure:
    """Design pressure on a wall form, in the order the guide gives.

    Args: h_ft: height of all concrete not yet set [ft]; it also decides the 14 ft split (reading 16). R: rate over that concrete
    [ft/h]. T: of the concrete [°F]. Raises: BadInput. Source: ACI 347R-14 4.2.2.
    """
    head = sheet.use(liquid_head_psf, w_pcf=w_pcf, h_ft=h_ft)
    weight = sheet.use(unit_weight_factor, w_pcf=w_pcf)
    if liquid_reasons(slump_in=slump_in, vibration_ft=vibration_ft, R=R, flowing=flowing):
        return Pressure(head, "a", None, head, weight)
    slow = R < SLOW_FT_PER_H and h_ft <= TALL_FT
    value = sheet.use(slow_wall_psf if slow else fast_wall_psf, C_c=C_c, C_w=weight, R=R, T=T)
    design = sheet.use(design_pressure_psf, head_psf=head, p_eq_psf=value, C_w=weight)
    return Pressure(design, "b" if slow else "c", value, head, weight)


@clause(
    "ACI 347R",
    "4.2.2.1a(c)",
    title="Largest rate of rise for a pressure",
    symbol="R",
    formula="(p / (C_c * C_w) - 150) * T / 9000",
    provenance="derived",
    note="The equation of a wall to 14 ft turned round; it holds below 7 ft an hour.",
)
def largest_rate_ft_per_h(p_psf: float, C_c: float, C_w: float, T: float) -> float:
    """Args: p_psf: pressure the form may carry. T [°F]. Returns: [ft/h]; zero or less where even the slowest is too much."""
    above_zero(p_psf=p_psf, C_c=C_c, C_w=C_w, T=T)
    return (p_psf / (C_c * C_w) - 150) * T / 9000


@clause(
    "ACI 347R",
    "4.2.2.1",
    title="Depth at which a pressure is reached",
    symbol="h",
    unit="ft",
    formula="p / w",
    provenance="derived",
)
def depth_of_pressure_ft(p_psf: float, w_pcf: float) -> float:
    """Depth of liquid concrete that gives a pressure [ft]."""
    above_zero(p_psf=p_psf, w_pcf=w_pcf)
    return p_psf / w_pcf
