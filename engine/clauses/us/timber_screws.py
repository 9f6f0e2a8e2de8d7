"""Wood screws in single shear, wood or steel side member. NDS 12.1.5, 12.3.5.3, Tables 12L and 12M."""

from collections.abc import Mapping
from typing import Literal, NamedTuple

from engine.clauses.us.timber_bearing_strength import fe_side_plate_psi, fe_wood
from engine.clauses.us.timber_materials import Fastener, wood_screw
from engine.clauses.us.timber_yield import Joint, single_shear
from engine.errors import BadInput, OutOfScope
from engine.tables.reading import SLACK, above_zero
from engine.worksheet import Worksheet, clause

Side = Literal["steel", "wood"]


@clause(
    "NDS",
    "12.1.5.6",
    title="Least penetration of a wood screw",
    symbol="p_min",
    unit="in",
    formula="6 * D",
    provenance="memory",
)
def least_penetration_in(D_in: float) -> float:
    """Tip counted. Args: D_in: nominal diameter [in]. Returns: penetration into the main member [in]. Source: NDS 2018."""
    above_zero(D_in=D_in)
    return 6 * D_in


@clause(
    "NDS",
    "12.3.5.3",
    title="Bearing length of a pointed screw",
    symbol="l_m",
    unit="in",
    formula="p if p >= 10 * D else p - D",
    provenance="memory",
    note="The tip is 2 D long; below 10 D of penetration half of it is left out.",
)
def screw_bearing_length_in(p_in: float, D_in: float) -> float:
    """Args: p_in: penetration into the main member, tip counted [in]. D_in: nominal [in]. Returns: l_m [in]. Source: NDS 2018."""
    above_zero(p_in=p_in, D_in=D_in)
    return p_in if p_in >= 10 * D_in - SLACK else p_in - D_in


def refuse_short(p_in: float, D_in: float, what: str) -> None:
    """Refuse a screw whose point doesn't reach 6 D into the main member. Raises: OutOfScope. Source: NDS 2018 12.1.5.6."""
    if p_in < least_penetration_in(D_in) - SLACK:
        raise OutOfScope(
            "NDS 12.1.5.6", f"{what} must reach {6 * D_in:.2f} in (6 D) into the member. Use a longer screw."
        )


class ScrewValue(NamedTuple):
    """Z of one screw [lb], the governing mode, Z of every mode [lb], the bearing length [in] and the screw's data."""

    Z_lb: float
    mode: str
    modes: Mapping[str, float]
    l_m_in: float
    screw: Fastener


def screw_capacity(
    sheet: Worksheet,
    gauge: int | str,
    G_main: float,
    t_side_in: float,
    p_in: float,
    *,
    side: Side = "steel",
    G_side: float | None = None,
    F_es_psi: float | None = None,
    theta_deg: float = 90.0,
    g_in: float = 0.0,
) -> ScrewValue:
    """Reference lateral value of one wood screw, root diameter in every equation.

    Args:
        gauge: 6 to 18. G_main, G_side: specific gravity of the member that holds the point, and of a wood side member (as the
        main member where not given). t_side_in: thickness of the side member that bears: base metal of a plate, wood below a
        countersunk head [in]. p_in: penetration into the main member, tip counted [in]. F_es_psi: bearing strength of a side
        plate [psi], the tables' steel where not given. theta_deg: largest load-to-grain angle, counts from No. 16 up [°].
        g_in: foam or other gap between the members [in].
    Raises: OutOfScope below 6 D of penetration; BadInput. Source: NDS 2018 12.3, Tables 12L, 12M; AWC TR12 over a gap.
    """
    screw = wood_screw(gauge)
    above_zero(t_side_in=t_side_in, p_in=p_in)
    if side not in ("steel", "wood"):
        raise BadInput("side", "Choose steel or wood for the side member.")
    refuse_short(p_in, screw.D_in, f"A No. {screw.key} screw")
    l_m = sheet.use(screw_bearing_length_in, p_in=p_in, D_in=screw.D_in)
    F_em = fe_wood(sheet, G=G_main, D_in=screw.D_in, theta_deg=theta_deg)
    if side == "wood":
        F_es = F_em if G_side is None else fe_wood(sheet, G=G_side, D_in=screw.D_in, theta_deg=theta_deg)
    else:
        F_es = sheet.use(fe_side_plate_psi, t_in=t_side_in) if F_es_psi is None else F_es_psi
    joint = Joint(screw.D_r_in, screw.D_in, l_m, t_side_in, F_em, F_es, screw.F_yb_psi, theta_deg, g_in)
    found = single_shear(sheet, joint)
    return ScrewValue(found.Z_lb, found.mode, found.modes, l_m, screw)
