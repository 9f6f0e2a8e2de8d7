"""Lateral value Z of one fastener: the six yield modes, members in contact or a gap apart, single and double shear.

Foam is no bearing material: a foam layer left between the members is a gap.
"""

from collections.abc import Mapping
from typing import NamedTuple

from engine.clauses.us import timber_dowels as nds
from engine.clauses.us import timber_gap as tr12
from engine.errors import BadInput
from engine.tables.reading import above_zero
from engine.worksheet import Worksheet, clause


@clause(
    "NDS",
    "Table 12.3.1A",
    title="Both shear planes together",
    symbol="Z",
    unit="lb",
    formula="2 * Z_plane",
    provenance="memory",
)
def both_planes_lb(Z_plane_lb: float) -> float:
    """Double shear, modes I_s, III_s and IV. Args: Z_plane_lb: of one plane [lb]. Source: NDS 2018 Table 12.3.1A."""
    return 2 * Z_plane_lb


@clause(
    "NDS",
    "12.3.1",
    title="Reference lateral value, single shear",
    symbol="Z",
    unit="lb",
    formula="min(Z_Im, Z_Is, Z_II, Z_IIIm, Z_IIIs, Z_IV)",
)
def least_single_lb(
    Z_Im_lb: float, Z_Is_lb: float, Z_II_lb: float, Z_IIIm_lb: float, Z_IIIs_lb: float, Z_IV_lb: float
) -> float:
    """The smallest of the six modes [lb]. Source: NDS 2018 12.3.1."""
    return min(Z_Im_lb, Z_Is_lb, Z_II_lb, Z_IIIm_lb, Z_IIIs_lb, Z_IV_lb)


@clause(
    "NDS",
    "12.3.1",
    title="Reference lateral value, double shear",
    symbol="Z",
    unit="lb",
    formula="min(Z_Im, Z_Is, Z_IIIs, Z_IV)",
)
def least_double_lb(Z_Im_lb: float, Z_Is_lb: float, Z_IIIs_lb: float, Z_IV_lb: float) -> float:
    """The smallest of the four modes of double shear [lb]. Source: NDS 2018 12.3.1."""
    return min(Z_Im_lb, Z_Is_lb, Z_IIIs_lb, Z_IV_lb)


class Yield(NamedTuple):
    """Z [lb], the mode that governs, and Z of every mode [lb] by its name ("Im", "Is", "II", "IIIm", "IIIs", "IV")."""

    Z_lb: float
    mode: str
    modes: Mapping[str, float]


class Joint(NamedTuple):
    """One dowel between a main and a side member.

    Args: D_in: diameter in the equations, D_r of a threaded screw [in]. D_nom_in: nominal [in]. l_m_in, l_s_in: bearing
    lengths [in]. F_em_psi, F_es_psi, F_yb_psi [psi]. theta_deg: largest load-to-grain angle of any wood member [°]. g_in: gap [in].
    """

    D_in: float
    D_nom_in: float
    l_m_in: float
    l_s_in: float
    F_em_psi: float
    F_es_psi: float
    F_yb_psi: float
    theta_deg: float
    g_in: float = 0.0


def reduction_terms(sheet: Worksheet, joint: Joint) -> tuple[float, float, float]:
    """R_d of modes I, of mode II, and of modes III and IV. Raises: OutOfScope above 1 in. Source: NDS 2018 Table 12.3.1B."""
    nds.refuse_thick(joint.D_nom_in)
    if nds.is_small(joint.D_nom_in):
        term = sheet.use(nds.K_D, D_in=joint.D_in)
        return term, term, term
    angle = sheet.use(nds.K_theta, theta_deg=joint.theta_deg)
    if nds.is_small(joint.D_in):
        term = sheet.use(nds.R_d_thin_root, K_D=sheet.use(nds.K_D, D_in=joint.D_in), K_theta=angle)
        return term, term, term
    one, two, rest = (sheet.use(nds.R_d, c=c, K_theta=angle) for c in (4.0, 3.6, 3.2))
    return one, two, rest


def _crushing(sheet: Worksheet, j: Joint, R_d: float) -> dict[str, float]:
    return {
        "Im": sheet.use(nds.mode_Im_lb, D_in=j.D_in, l_m_in=j.l_m_in, F_em_psi=j.F_em_psi, R_d=R_d),
        "Is": sheet.use(nds.mode_Is_lb, D_in=j.D_in, l_s_in=j.l_s_in, F_es_psi=j.F_es_psi, R_d=R_d),
    }


def _turning_in_contact(sheet: Worksheet, j: Joint, R_d_II: float, R_d: float, single: bool) -> dict[str, float]:
    use, D, l_m, l_s, F_em, F_yb = sheet.use, j.D_in, j.l_m_in, j.l_s_in, j.F_em_psi, j.F_yb_psi
    R_e = use(nds.R_e, F_em_psi=F_em, F_es_psi=j.F_es_psi)
    modes: dict[str, float] = {}
    if single:
        k_1 = use(nds.k_1, R_e=R_e, R_t=use(nds.R_t, l_m_in=l_m, l_s_in=l_s))
        modes["II"] = use(nds.mode_II_lb, k_1=k_1, D_in=D, l_s_in=l_s, F_es_psi=j.F_es_psi, R_d=R_d_II)
        k_2 = use(nds.k_2, R_e=R_e, F_yb_psi=F_yb, D_in=D, F_em_psi=F_em, l_m_in=l_m)
        modes["IIIm"] = use(nds.mode_IIIm_lb, k_2=k_2, D_in=D, l_m_in=l_m, F_em_psi=F_em, R_e=R_e, R_d=R_d)
    k_3 = use(nds.k_3, R_e=R_e, F_yb_psi=F_yb, D_in=D, F_em_psi=F_em, l_s_in=l_s)
    modes["IIIs"] = use(nds.mode_IIIs_lb, k_3=k_3, D_in=D, l_s_in=l_s, F_em_psi=F_em, R_e=R_e, R_d=R_d)
    modes["IV"] = use(nds.mode_IV_lb, D_in=D, F_em_psi=F_em, F_yb_psi=F_yb, R_e=R_e, R_d=R_d)
    return modes


def _turning_over_gap(sheet: Worksheet, j: Joint, R_d_II: float, R_d: float, single: bool) -> dict[str, float]:
    use, g = sheet.use, j.g_in
    q_m = use(tr12.main_resistance_lb_per_in, F_em_psi=j.F_em_psi, D_in=j.D_in)
    q_s = use(tr12.side_resistance_lb_per_in, F_es_psi=j.F_es_psi, D_in=j.D_in)
    M = use(tr12.dowel_moment_lb_in, F_yb_psi=j.F_yb_psi, D_in=j.D_in)
    q = {"q_m_lb_per_in": q_m, "q_s_lb_per_in": q_s}
    modes: dict[str, float] = {}
    if single:
        modes["II"] = use(tr12.gap_II_lb, **q, l_m_in=j.l_m_in, l_s_in=j.l_s_in, g_in=g, R_d=R_d_II)
        modes["IIIm"] = use(tr12.gap_IIIm_lb, **q, l_m_in=j.l_m_in, M_lb_in=M, g_in=g, R_d=R_d)
    modes["IIIs"] = use(tr12.gap_IIIs_lb, **q, l_s_in=j.l_s_in, M_lb_in=M, g_in=g, R_d=R_d)
    modes["IV"] = use(tr12.gap_IV_lb, **q, M_lb_in=M, g_in=g, R_d=R_d)
    return modes


def _modes(sheet: Worksheet, joint: Joint, single: bool) -> dict[str, float]:
    above_zero(D_in=joint.D_in, l_m_in=joint.l_m_in, l_s_in=joint.l_s_in)
    if not 0 <= joint.g_in < float("inf"):
        raise BadInput("g_in", "Enter a gap of zero or more.")
    if not 0 <= joint.theta_deg <= 90:
        raise BadInput("theta_deg", "Enter an angle to grain from 0° to 90°.")
    one, two, rest = reduction_terms(sheet, joint)
    turning = _turning_over_gap if joint.g_in else _turning_in_contact
    return _crushing(sheet, joint, one) | turning(sheet, joint, two, rest, single)


def _governed(Z_lb: float, modes: Mapping[str, float]) -> Yield:
    return Yield(Z_lb, min(modes, key=lambda mode: modes[mode]), modes)


def single_shear(sheet: Worksheet, joint: Joint) -> Yield:
    """Reference lateral value of one dowel in single shear.

    Raises: BadInput for sizes that cannot be; OutOfScope above 1 in. Source: NDS 2018 12.3.1; over a gap AWC TR12 Table 1-1.
    """
    modes = _modes(sheet, joint, single=True)
    return _governed(sheet.use(least_single_lb, **{f"Z_{name}_lb": Z for name, Z in modes.items()}), modes)


def double_shear(sheet: Worksheet, joint: Joint) -> Yield:
    """Reference lateral value in double shear, two like side members of l_s each, the same gap on both sides.

    Raises and source: as `single_shear`.
    """
    modes = _modes(sheet, joint, single=False)
    for name in ("Is", "IIIs", "IV"):
        modes[name] = sheet.use(both_planes_lb, Z_plane_lb=modes[name])
    return _governed(sheet.use(least_double_lb, **{f"Z_{name}_lb": Z for name, Z in modes.items()}), modes)


def yield_modes(
    sheet: Worksheet,
    *,
    D_in: float,
    l_m_in: float,
    l_s_in: float,
    F_em_psi: float,
    F_es_psi: float,
    F_yb_psi: float,
    theta_deg: float,
    g_in: float = 0.0,
    D_nom_in: float | None = None,
) -> Yield:
    """`single_shear` by plain values; `D_nom_in` where the equations use a root diameter."""
    nominal = D_in if D_nom_in is None else D_nom_in
    return single_shear(sheet, Joint(D_in, nominal, l_m_in, l_s_in, F_em_psi, F_es_psi, F_yb_psi, theta_deg, g_in))
