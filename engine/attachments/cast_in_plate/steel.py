"""What the part's steel carries at allowable stress: screws bearing in it, shear, tearing out, bending over its reach.

Steel takes no load duration factor. Sheet up to 3/16 in by the rules for cold-formed steel, thicker by those for rolled steel.
"""

from engine.clauses.us.timber_bearing_strength import (
    FE_LIGHT_SHEET_PSI,
    FE_PLATE_PSI,
    SMALL_IN,
    fe_side_plate_psi,
    fe_steel_hot_rolled_psi,
    fe_steel_sheet_psi,
)
from engine.tables.reading import SLACK, above_zero
from engine.worksheet import Worksheet, clause

AISC = "AISC 360-22"
AISI = "AISI S100-16"
SHEET_MOST_IN = 3 / 16  # AISI S100-16 J: connected parts up to 3/16 in; thicker by AISC 360. provenance: memory
HOLE_OVER_IN = 1 / 16  # AISC 360-22 B4.3b: a hole counts 1/16 in wider than it is. provenance: memory
TABLE_F_U_PSI = {
    FE_LIGHT_SHEET_PSI: 45000.0,
    FE_PLATE_PSI: 58000.0,
}  # NDS 2018 Tables 12K, 12M: the steels they stand for
LTB = "Lateral-torsional buckling of a narrow rectangle, C_b 1.0; taken for sheet as well. E is 29,000 ksi."


@clause(
    AISI, "J4.3.1", title="Screw bearing in sheet, allowable", symbol="P_nb/Ω", unit="lb", formula="2.7 * t * d * F_u / 3",
    provenance="memory", note="Ω is 3.0; the wood does not tilt the screw as a second sheet would.",
)  # fmt: skip
def sheet_bearing_lb(t_in: float, d_in: float, F_u_psi: float) -> float:
    """Args: t_in: base metal [in]. d_in: nominal screw diameter [in]. F_u_psi [psi]. Source: AISI S100-16 J4.3.1."""
    return 2.7 * t_in * d_in * F_u_psi / 3


@clause(
    AISI, "J6.1", title="Screw tearing out of sheet, allowable", symbol="P_nv/Ω", unit="lb", formula="0.6 * F_u * 2 * t * e / 3",
    provenance="memory", note="Two planes beside the screw; Ω is 3.0 for screws.",
)  # fmt: skip
def sheet_tear_out_lb(F_u_psi: float, t_in: float, e_in: float) -> float:
    """Args: F_u_psi [psi]. t_in: base metal [in]. e_in: clear steel below the hole [in]. Source: AISI S100-16 J6.1."""
    return 0.6 * F_u_psi * 2 * t_in * e_in / 3


@clause(
    AISC, "J3.11", title="Bearing and tear-out at a hole, allowable", symbol="R_n/Ω", unit="lb",
    formula="min(2.4 * d, 1.2 * e) * t * F_u / 2", provenance="memory", note="Ω is 2.00; J3.10 in the editions before.",
)  # fmt: skip
def plate_bearing_lb(d_in: float, e_in: float, t_in: float, F_u_psi: float) -> float:
    """Args: d_in: screw [in]. e_in: clear steel below the hole [in]. t_in [in]. F_u_psi [psi]. Source: AISC 360-22 J3.11."""
    return min(2.4 * d_in, 1.2 * e_in) * t_in * F_u_psi / 2


@clause(
    AISC, "J4.2", title="Shear of the gross section, allowable", symbol="V_n/Ω", unit="lb", formula="0.6 * F_y * h * t / 1.5",
    provenance="memory",
)  # fmt: skip
def shear_yield_lb(F_y_psi: float, h_in: float, t_in: float) -> float:
    """Args: F_y_psi [psi]. h_in: upright height of the part [in]. t_in [in]. Source: AISC 360-22 J4.2(a), Ω 1.50."""
    return 0.6 * F_y_psi * h_in * t_in / 1.5


@clause(
    AISC, "J4.2", title="Shear of the net section, allowable", symbol="V_n/Ω", unit="lb",
    formula="0.6 * F_u * max(h - n_r * d_h, 0) * t / 2", provenance="memory",
)  # fmt: skip
def shear_rupture_lb(F_u_psi: float, h_in: float, n_r: int, d_h_in: float, t_in: float) -> float:
    """Through one column of screws. Args: n_r: holes in it. d_h_in: hole as it counts [in]. Source: AISC 360-22 J4.2(b), Ω 2.00."""
    return 0.6 * F_u_psi * max(h_in - n_r * d_h_in, 0.0) * t_in / 2


@clause(
    AISC, "J4.3", title="Block shear, allowable", symbol="R_n/Ω", unit="lb",
    formula="min(0.6 * F_u * A_nv, 0.6 * F_y * A_gv) / 2 + U_bs * F_u * A_nt / 2", provenance="memory",
    note="The block below the upper row and outside the first column; U_bs is 0.5 for more than one column.",
)  # fmt: skip
def block_shear_lb(
    F_u_psi: float, F_y_psi: float, A_nv_in2: float, A_gv_in2: float, A_nt_in2: float, U_bs: float
) -> float:
    """Args: A_nv_in2, A_gv_in2: net and gross area in shear, A_nt_in2: net in tension [in²]. Source: AISC 360-22 J4.3, Ω 2.00."""
    return min(0.6 * F_u_psi * A_nv_in2, 0.6 * F_y_psi * A_gv_in2) / 2 + U_bs * F_u_psi * A_nt_in2 / 2


@clause(
    "statics",
    "",
    title="Section modulus of an upright part",
    symbol="S",
    unit="in³",
    formula="t * h**2 / 6",
    provenance="derived",
)
def upright_modulus_in3(t_in: float, h_in: float) -> float:
    """Args: t_in: thickness, h_in: upright height [in]. Returns: [in³]. Source: statics."""
    return t_in * h_in**2 / 6


@clause(
    "statics", "", title="Moment at the core's face", symbol="M", unit="lb-in", formula="R * a", provenance="derived"
)
def moment_at_core_lb_in(R_lb: float, a_in: float) -> float:
    """The part as a cantilever; its screws then bring shear only. Args: R_lb [lb]. a_in: lever [in]. Source: statics."""
    return R_lb * a_in


@clause(AISC, "F11", title="Slenderness of an upright part", symbol="λ", formula="L_b * h / t**2", provenance="memory")
def upright_slenderness(L_b_in: float, h_in: float, t_in: float) -> float:
    """Args: L_b_in: free length, h_in: height, t_in: thickness [in]. Source: AISC 360-22 F11.1."""
    above_zero(t_in=t_in)
    return L_b_in * h_in / t_in**2


@clause(
    AISC, "F11", title="Bending of an upright part, allowable", symbol="M_n/Ω", unit="lb-in",
    formula="1.5 * F_y * S / 1.67 if slender <= 0.08 * E / F_y else min(1.5, 1.52 - 0.274 * slender * F_y / E) * F_y * S / 1.67 "
    "if slender <= 1.9 * E / F_y else min(1.5 * F_y, 1.9 * E / slender) * S / 1.67",
    provenance="memory", note=LTB,
)  # fmt: skip
def upright_bending_lb_in(slender: float, E_psi: float, F_y_psi: float, S_in3: float) -> float:
    """Args: slender: L_b h / t². E_psi, F_y_psi [psi]. S_in3 [in³]. Returns: [lb-in]. Source: AISC 360-22 F11, Ω 1.67."""
    if slender <= 0.08 * E_psi / F_y_psi:
        stress = 1.5 * F_y_psi
    elif slender <= 1.9 * E_psi / F_y_psi:
        stress = min(1.5, 1.52 - 0.274 * slender * F_y_psi / E_psi) * F_y_psi
    else:
        stress = min(1.5 * F_y_psi, 1.9 * E_psi / slender)
    return stress * S_in3 / 1.67


@clause(
    "AISC Steel Construction Manual", "Part 10", title="Shear and bending together", symbol="u",
    formula="(V / V_c)**2 + (M / M_c)**2", provenance="memory", note="As for single-plate connections.",
)  # fmt: skip
def shear_and_bending(V_lb: float, V_c_lb: float, M_lb_in: float, M_c_lb_in: float) -> float:
    """At most 1. Args: V_lb, M_lb_in: what is asked; V_c_lb, M_c_lb_in: allowable. Source: AISC Manual, extended single plates."""
    above_zero(V_c_lb=V_c_lb, M_c_lb_in=M_c_lb_in)
    return (V_lb / V_c_lb) ** 2 + (M_lb_in / M_c_lb_in) ** 2


def one_screw_lb(sheet: Worksheet, t: float, d: float, F_u_psi: float, e: float) -> float:
    """What one screw may bring into the steel [lb]. Args: e: least clear steel below a hole [in]."""
    if e <= 0:
        return 0.0
    if t > SHEET_MOST_IN + SLACK:
        return sheet.use(plate_bearing_lb, d_in=d, e_in=e, t_in=t, F_u_psi=F_u_psi)
    bearing = sheet.use(sheet_bearing_lb, t_in=t, d_in=d, F_u_psi=F_u_psi)
    return min(bearing, sheet.use(sheet_tear_out_lb, F_u_psi=F_u_psi, t_in=t, e_in=e))


def dowel_bearing_psi(sheet: Worksheet, t: float, F_u_psi: float) -> float:
    """F_es of the part as the screw's side member [psi]: the tables' figure for the tables' steels (reading 11), else by F_u."""
    table = fe_side_plate_psi(t)
    if TABLE_F_U_PSI[table] == F_u_psi:
        return sheet.use(fe_side_plate_psi, t_in=t)
    return sheet.use(fe_steel_sheet_psi if t < SMALL_IN else fe_steel_hot_rolled_psi, F_u_psi=F_u_psi)
