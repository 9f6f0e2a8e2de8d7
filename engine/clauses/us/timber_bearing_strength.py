"""Dowel bearing strength F_e of wood, steel and concrete. NDS 12.3.3, 12.3.4, Tables 12.3.3, 12E, 12K, Appendix I."""

from math import cos, floor, radians, sin, sqrt

from engine.errors import BadInput, OutOfScope
from engine.tables.reading import above_zero
from engine.worksheet import Worksheet, clause

SMALL_IN = 0.25  # fasteners below 1/4 in: F_e without direction, K_D in place of R_d
FE_CONCRETE_PSI = 7500.0  # NDS Table 12E footnote 3
LEAST_CONCRETE_PSI = 2500.0  # same footnote
FE_LIGHT_SHEET_PSI = 61850.0  # Tables 12K, 12M: ASTM A653 SS Grade 33 (61,875 by the formula)
FE_PLATE_PSI = 87000.0  # Tables 12K, 12M: ASTM A36, 1/4 in and thicker


@clause(
    "NDS",
    "Table 12.3.3",
    title="Dowel bearing strength along the grain",
    symbol="F_e∥",
    unit="psi",
    formula="11200 * G",
)
def fe_parallel_psi(G: float) -> float:
    """Fasteners of 1/4 in and more. Args: G: oven-dry specific gravity. Returns: [psi], unrounded. Source: NDS 2018 12.3.3."""
    above_zero(G=G)
    return 11200 * G


@clause(
    "NDS",
    "Table 12.3.3",
    title="Dowel bearing strength across the grain",
    symbol="F_e⊥",
    unit="psi",
    formula="6100 * G**1.45 / sqrt(D)",
)
def fe_perpendicular_psi(G: float, D_in: float) -> float:
    """Fasteners of 1/4 in and more. Args: D_in: nominal diameter, also of screws [in]. Source: NDS 2018 12.3.3."""
    above_zero(G=G, D_in=D_in)
    return float(6100 * G**1.45 / sqrt(D_in))


@clause(
    "NDS",
    "Table 12.3.3",
    title="Dowel bearing strength, fastener below 1/4 in",
    symbol="F_e",
    unit="psi",
    formula="16600 * G**1.84",
)
def fe_small_dowel_psi(G: float) -> float:
    """Any direction of grain. Args: G: oven-dry specific gravity. Returns: [psi], unrounded. Source: NDS 2018 12.3.3."""
    above_zero(G=G)
    return float(16600 * G**1.84)


@clause(
    "NDS",
    "Table 12.3.3",
    title="Dowel bearing strength as the table prints it",
    symbol="F_e",
    unit="psi",
    formula="50 * floor(F_e / 50 + 0.5)",
    provenance="derived",
    note="Rounded to 50 psi before the yield equations: the printed lateral values come out only so.",
)
def to_table_psi(F_e_psi: float) -> float:
    """Args: F_e_psi: unrounded [psi]. Returns: nearest 50 psi, halves up. Source: NDS 2018 Table 12.3.3."""
    return 50 * floor(F_e_psi / 50 + 0.5)


@clause(
    "NDS",
    "12.3.4",
    title="Dowel bearing strength at an angle to grain",
    symbol="F_eθ",
    unit="psi",
    formula="F_e_par * F_e_perp / (F_e_par * sin(theta)**2 + F_e_perp * cos(theta)**2)",
)
def fe_at_angle_psi(F_e_par_psi: float, F_e_perp_psi: float, theta_deg: float) -> float:
    """Args: F_e_par_psi, F_e_perp_psi [psi]. theta_deg: load to grain [°]. Returns: [psi]. Source: NDS 2018 Eq. 12.3-11."""
    above_zero(F_e_par_psi=F_e_par_psi, F_e_perp_psi=F_e_perp_psi)
    theta = radians(theta_deg)
    return F_e_par_psi * F_e_perp_psi / (F_e_par_psi * sin(theta) ** 2 + F_e_perp_psi * cos(theta) ** 2)


def fe_wood(sheet: Worksheet, *, G: float, D_in: float, theta_deg: float) -> float:
    """Dowel bearing strength of wood with its working.

    Args: G: oven-dry specific gravity. D_in: nominal diameter, also where the root is thinner [in]. theta_deg: 0 to 90 [°].
    Returns: F_e [psi]. Raises: BadInput. Source: NDS 2018 12.3.3, 12.3.4.
    """
    if not 0 <= theta_deg <= 90:
        raise BadInput("theta_deg", "Enter an angle to grain from 0° to 90°.")
    use = sheet.use
    if D_in < SMALL_IN:
        above_zero(D_in=D_in)
        return use(to_table_psi, F_e_psi=use(fe_small_dowel_psi, G=G))
    if theta_deg == 0:
        return use(to_table_psi, F_e_psi=use(fe_parallel_psi, G=G))
    across = use(to_table_psi, F_e_psi=use(fe_perpendicular_psi, G=G, D_in=D_in))
    if theta_deg == 90:
        return across
    along = use(to_table_psi, F_e_psi=use(fe_parallel_psi, G=G))
    return use(fe_at_angle_psi, F_e_par_psi=along, F_e_perp_psi=across, theta_deg=theta_deg)


_SILENT = Worksheet(recording=False)


@clause(
    "NDS",
    "12.3.3, 12.3.4",
    title="Dowel bearing strength of wood",
    symbol="F_e",
    unit="psi",
    rule="16,600 G^1.84 below 1/4 in; else 11,200 G along and 6,100 G^1.45 / √D across the grain, to 50 psi each, joined by "
    "Hankinson's formula.",
)
def fe_wood_psi(G: float, D_in: float, theta_deg: float) -> float:
    """`fe_wood` without its working, in one line."""
    return fe_wood(_SILENT, G=G, D_in=D_in, theta_deg=theta_deg)


@clause(
    "NDS",
    "Table 12.3.3 notes",
    title="Dowel bearing strength of hot-rolled steel",
    symbol="F_e",
    unit="psi",
    formula="1.5 * F_u",
)
def fe_steel_hot_rolled_psi(F_u_psi: float) -> float:
    """Plate of 1/4 in and more. Args: F_u_psi: tensile strength [psi]. Returns: [psi]. Source: NDS 2018 Appendix I.2."""
    above_zero(F_u_psi=F_u_psi)
    return 1.5 * F_u_psi


@clause(
    "NDS",
    "Table 12.3.3 notes",
    title="Dowel bearing strength of cold-formed steel",
    symbol="F_e",
    unit="psi",
    formula="1.375 * F_u",
)
def fe_steel_sheet_psi(F_u_psi: float) -> float:
    """Sheet below 1/4 in. Args: F_u_psi: tensile strength [psi]. Returns: [psi]. Source: NDS 2018 Appendix I.2."""
    above_zero(F_u_psi=F_u_psi)
    return 1.375 * F_u_psi


@clause(
    "NDS",
    "Tables 12K, 12M",
    title="Dowel bearing strength of a steel side plate",
    symbol="F_es",
    unit="psi",
    rule="61,850 psi below 1/4 in (sheet of F_u 45 ksi), 87,000 psi from 1/4 in (plate of F_u 58 ksi).",
)
def fe_side_plate_psi(t_in: float) -> float:
    """The steels of the tables. Args: t_in: base metal thickness [in]. Returns: [psi]. Source: NDS 2018 Tables 12K, 12M."""
    above_zero(t_in=t_in)
    return FE_LIGHT_SHEET_PSI if t_in < SMALL_IN else FE_PLATE_PSI


@clause(
    "NDS",
    "Table 12E",
    title="Dowel bearing strength of concrete",
    symbol="F_em",
    unit="psi",
    rule="7,500 psi where f'c is 2,500 psi or more.",
)
def fe_concrete_psi(f_c_psi: float) -> float:
    """Args: f_c_psi: specified strength [psi]. Raises: OutOfScope below 2,500 psi. Source: NDS 2018 Table 12E footnote 3."""
    above_zero(f_c_psi=f_c_psi)
    if f_c_psi < LEAST_CONCRETE_PSI:
        raise OutOfScope(
            "NDS Table 12E",
            f"Bolts in concrete below {LEAST_CONCRETE_PSI:,.0f} psi are not covered. Bring the concrete's test results to "
            "an engineer.",
        )
    return FE_CONCRETE_PSI
