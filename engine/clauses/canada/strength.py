"""Canadian loads, bearing of wood and concrete, bars in development. SI units.

Read in open course notes and an engineer's open tables, not in the printed standards. Other strength rules of CSA O86 and A23.3
are not held: what would need them goes to an engineer.
"""

from math import log10, sqrt

from engine.clauses.canada import ALBERTA, NBC_2020
from engine.tables.reading import above_zero
from engine.worksheet import clause

PHI_WOOD = 0.8
PHI_CONCRETE = 0.65
NOTES = "Read in open course notes of a Canadian university course, not in the printed standard."
TABLES = "Read in a practising engineer's open tables and recomputed, not in the printed standard."


@clause(
    NBC_2020,
    "4.1.3.2",
    title="Governing factored load",
    symbol="w_f",
    unit="kPa",
    formula="max(1.4 * D_kPa, 1.25 * D_kPa + 1.5 * L_kPa + max(1.0 * S_kPa, 0.4 * W_kPa), "
    "1.25 * D_kPa + 1.5 * S_kPa + max(1.0 * L_kPa, 0.4 * W_kPa), 1.25 * D_kPa + 1.4 * W_kPa + max(0.5 * L_kPa, 0.5 * S_kPa))",
    note=NOTES,
)
def factored_kPa(D_kPa: float, L_kPa: float, S_kPa: float, W_kPa: float) -> float:
    """Largest of cases 1 to 4, all acting the same way [kPa]. Source: NBC 2020 4.1.3.2, by course notes."""
    return max(
        1.4 * D_kPa,
        1.25 * D_kPa + 1.5 * L_kPa + max(S_kPa, 0.4 * W_kPa),
        1.25 * D_kPa + 1.5 * S_kPa + max(L_kPa, 0.4 * W_kPa),
        1.25 * D_kPa + 1.4 * W_kPa + max(0.5 * L_kPa, 0.5 * S_kPa),
    )


@clause(
    "CSA O86",
    "load duration",
    title="Load duration factor of long-term loads",
    symbol="K_D",
    rule="1 - 0.5 log10(P_L / P_S) where P_L is above P_S, at least 0.65; 1 otherwise. Standard term 1, short term 1.15.",
    note=NOTES,
)
def K_D(P_L: float, P_S: float) -> float:
    """K_D. Args: P_L, P_S: long and standard term load, in one unit. Raises: BadInput. Source: CSA O86, by course notes."""
    above_zero(P_L=P_L, P_S=P_S)
    return max(0.65, 1.0 - 0.5 * log10(P_L / P_S)) if P_L > P_S else 1.0


@clause(
    "CSA O86",
    "load duration",
    title="Load duration factors",
    symbol="K_D",
    rule="Long term 0.65, standard term 1.0, short term 1.15.",
    note=NOTES,
)
def duration_factors() -> dict[str, float]:
    """K_D by term. Source: CSA O86, by course notes."""
    return {"long": 0.65, "standard": 1.0, "short": 1.15}


@clause(
    NBC_2020,
    "4.1.3.2.(4), (5)",
    title="Load factors beside the principal ones",
    rule="0.9 D where it counteracts, 1.0 D with earthquake; earth 1.5, prestress 1.0, imposed deformation 1.25.",
    note="Read in Ontario's text of 2012.",
)
def other_factors() -> dict[str, float]:
    """Factors by load. Source: OBC 2012 4.1.3.2.(4), (5)."""
    return {"D_counteracting": 0.9, "D_with_E": 1.0, "H": 1.5, "P": 1.0, "T": 1.25}


@clause(
    ALBERTA,
    "9.4.1.1",
    title="Floors within Part 9",
    rule="Specified live load to 2.4 kPa (9.4.1.1.(2)), members to 12.2 m (9.23.1.1.(1)).",
)
def floor_scope() -> tuple[float, float]:
    """Largest live load [kPa] and member span [m]. Source: NBC(AE) 9.4.1.1.(2), 9.23.1.1.(1)."""
    return 2.4, 12.2


@clause(
    ALBERTA,
    "9.4.2.3.(1)",
    title="Least live load of a deck",
    unit="kPa",
    rule="1.9 kPa, or the roof snow where that is more.",
)
def deck_live_kPa(roof_snow_kPa: float = 0.0) -> float:
    """Least live load [kPa] of a deck of one dwelling unit. Source: NBC(AE) 9.4.2.3.(1)."""
    return max(1.9, roof_snow_kPa)


@clause(
    NBC_2020,
    "Table 1.3.1.2",
    title="Standards called up",
    rule="A23.1:19, A23.3:19, O86:19, S269.1-16, S269.3-M92, S304-14, CAN/ULC-S717.1:2017, G30.18:21.",
    note="Read in the revisions and errata of March 2025.",
)
def standards() -> dict[str, str]:
    """Edition by standard. Source: NBC 2020 Table 1.3.1.2."""
    return {
        "A23.1": "19",
        "A23.3": "19",
        "O86": "19",
        "S269.1": "16",
        "S269.3": "M92",
        "S304": "14",
        "CAN/ULC-S717.1": "2017",
        "G30.18": "21",
    }


@clause(
    "National Building Code of Canada 2015",
    "Table 1.3.1.2",
    title="Standards called up",
    rule="A23.3-14, O86-14.",
    provenance="memory",
)
def standards_2015() -> dict[str, str]:
    """Edition by standard, the two that were recalled. Source: NBC 2015 Table 1.3.1.2."""
    return {"A23.3": "14", "O86": "14"}


@clause(
    "CSA O86",
    "length of bearing",
    title="Length of bearing factor",
    symbol="K_B",
    formula="(L_b_mm + 9.525) / L_b_mm if L_b_mm < 150 and end_mm >= 75 else 1",
    note=NOTES + " Nearer than 75 mm to the member's end it is 1.",
)
def K_B(L_b_mm: float, end_mm: float) -> float:
    """K_B. Args: L_b_mm: bearing along the grain. end_mm: from the bearing to the member's end. Raises: BadInput.

    Source: CSA O86, by course notes.
    """
    above_zero(L_b_mm=L_b_mm)
    return (L_b_mm + 9.525) / L_b_mm if L_b_mm < 150 and end_mm >= 75 else 1.0


@clause(
    "CSA O86",
    "compression perpendicular to grain",
    title="Factored bearing resistance of wood",
    symbol="Q_r",
    unit="kN",
    formula="phi * f_cp_MPa * K_D * K_Scp * K_T * b_mm * L_b_mm * K_B * K_Zcp / 1000",
    note=NOTES,
)
def wood_bearing_kN(
    b_mm: float,
    L_b_mm: float,
    f_cp_MPa: float,
    K_D: float = 1.0,
    K_Scp: float = 1.0,
    K_T: float = 1.0,
    K_B: float = 1.0,
    K_Zcp: float = 1.0,
    phi: float = PHI_WOOD,
) -> float:
    """Q_r [kN], against factored loads. Args: b_mm, L_b_mm: bearing. f_cp_MPa: strength. Source: CSA O86, by course notes."""
    above_zero(b_mm=b_mm, L_b_mm=L_b_mm, f_cp_MPa=f_cp_MPa)
    return phi * f_cp_MPa * K_D * K_Scp * K_T * b_mm * L_b_mm * K_B * K_Zcp / 1000.0


@clause(
    "CSA O86",
    "compression perpendicular to grain, loads near a support",
    title="Factored bearing resistance near a support",
    symbol="Q'_r",
    unit="kN",
    formula="2 / 3 * phi * f_cp_MPa * min(b_mm * (L_b1_mm + L_b2_mm) / 2, 1.5 * b_mm * min(L_b1_mm, L_b2_mm)) * K / 1000",
    note=NOTES,
)
def wood_bearing_near_support_kN(
    b_mm: float, L_b1_mm: float, L_b2_mm: float, f_cp_MPa: float, K: float = 1.0, phi: float = PHI_WOOD
) -> float:
    """Q'_r [kN] for loads within one depth of the support. Args: L_b1_mm, L_b2_mm: bearings. K: product of the K factors.

    Source: CSA O86, by course notes.
    """
    above_zero(b_mm=b_mm, L_b1_mm=L_b1_mm, L_b2_mm=L_b2_mm, f_cp_MPa=f_cp_MPa)
    area_mm2 = min(b_mm * (L_b1_mm + L_b2_mm) / 2.0, 1.5 * b_mm * min(L_b1_mm, L_b2_mm))
    return 2.0 / 3.0 * phi * f_cp_MPa * area_mm2 * K / 1000.0


@clause(
    "CSA A23.3",
    "10.8.1",
    title="Factored bearing resistance of concrete",
    symbol="B_r",
    unit="kN",
    formula="0.85 * phi_c * f_c_MPa * A_1_mm2 * min(spread, 2) / 1000",
    note=TABLES,
)
def concrete_bearing_kN(f_c_MPa: float, A_1_mm2: float, spread: float = 1.0, phi_c: float = PHI_CONCRETE) -> float:
    """B_r [kN]. Args: A_1_mm2: loaded area. spread: sqrt(A_2/A_1), 1 near an edge. Raises: BadInput. Source: CSA A23.3 10.8.1."""
    above_zero(f_c_MPa=f_c_MPa, A_1_mm2=A_1_mm2, spread=spread)
    return 0.85 * phi_c * f_c_MPa * A_1_mm2 * min(spread, 2.0) / 1000.0


@clause(
    "CSA A23.3",
    "10.8.1",
    title="Bearing area that a factored load needs",
    symbol="A_1",
    unit="mm²",
    formula="P_f_kN * 1000 / (0.85 * phi_c * f_c_MPa)",
    note=TABLES,
)
def concrete_area_mm2(P_f_kN: float, f_c_MPa: float, phi_c: float = PHI_CONCRETE) -> float:
    """A_1 [mm²] without spread. Raises: BadInput. Source: CSA A23.3 10.8.1 solved for A_1."""
    above_zero(f_c_MPa=f_c_MPa, phi_c=phi_c)
    return P_f_kN * 1000.0 / (0.85 * phi_c * f_c_MPa)


@clause(
    "CSA A23.3",
    "12.2.3",
    title="Development length in tension",
    symbol="l_d",
    unit="mm",
    formula="max(300, 0.45 * k_123 * (0.8 if d_b_mm <= 20 else 1) * f_y_MPa / sqrt(f_c_MPa) * d_b_mm)",
    note=TABLES + " The floor of 300 mm is recalled.",
)
def development_mm(d_b_mm: float, f_c_MPa: float, f_y_MPa: float, k_123: float = 1.0) -> float:
    """l_d [mm]. Args: d_b_mm: 20M measures 19.5 and is the largest small bar. k_123: place, coating and density factors.

    Raises: BadInput. Source: CSA A23.3 12.2.3.
    """
    above_zero(d_b_mm=d_b_mm, f_c_MPa=f_c_MPa, f_y_MPa=f_y_MPa)
    small = 0.8 if d_b_mm <= 20 else 1.0
    return max(300.0, 0.45 * k_123 * small * f_y_MPa / sqrt(f_c_MPa) * d_b_mm)


@clause(
    "CSA A23.3",
    "12.5.3",
    title="Basic development length of a hooked bar",
    symbol="l_hb",
    unit="mm",
    formula="100 * d_b_mm / sqrt(f_c_MPa)",
    note=TABLES + " For f_y of 400 MPa, before modifiers; not below 8 d_b and 150 mm once they are applied.",
)
def hook_mm(d_b_mm: float, f_c_MPa: float) -> float:
    """l_hb [mm]. Raises: BadInput. Source: CSA A23.3 12.5.3."""
    above_zero(d_b_mm=d_b_mm, f_c_MPa=f_c_MPa)
    return 100.0 * d_b_mm / sqrt(f_c_MPa)


@clause(
    "CSA A23.3",
    "chapter 14",
    title="Least distributed bars of a wall",
    unit="mm²/m",
    rule="0.002 of the section horizontally, 0.0015 vertically.",
    note=TABLES,
)
def wall_bars_mm2_per_m(t_mm: float) -> tuple[float, float]:
    """Horizontal and vertical bars [mm²/m]. Args: t_mm: wall. Raises: BadInput. Source: CSA A23.3 chapter 14."""
    above_zero(t_mm=t_mm)
    return 0.002 * t_mm * 1000.0, 0.0015 * t_mm * 1000.0


@clause(
    "CSA A23.3",
    "chapter 14",
    title="Largest bar spacing of a wall",
    symbol="s",
    unit="mm",
    formula="min(3 * t_mm, 500)",
    note=TABLES,
)
def wall_spacing_mm(t_mm: float) -> float:
    """Largest spacing [mm]. Args: t_mm: wall. Raises: BadInput. Source: CSA A23.3 chapter 14."""
    above_zero(t_mm=t_mm)
    return min(3.0 * t_mm, 500.0)
