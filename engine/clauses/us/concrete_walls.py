"""Walls under gravity: ACI 318-19 sections 11.2 to 11.5, and the statics of loads beside the middle of a wall."""

from collections.abc import Sequence

from engine.clauses.us.concrete_material import above_zero, not_negative
from engine.errors import BadInput
from engine.worksheet import clause


@clause(
    "ACI 318",
    "11.1.6",
    title="Most storeys of walls cast in insulating forms",
    symbol="n",
    formula="2",
    note="The 2019 edition permits such walls in buildings of one or two stories; beyond that they are outside its chapter 11.",
)
def insulating_form_storeys_limit() -> int:
    """How many storeys walls in insulating forms may have under this code. Source: ACI 318-19 11.1.6."""
    return 2


@clause(
    "ACI 318",
    "11.2.3.1",
    title="Length of wall that carries a concentrated load",
    symbol="L_e",
    unit="in",
    formula="min(s, min(left, (bearing + 4 * h) / 2) + min(right, (bearing + 4 * h) / 2))",
    note="At most the spacing in all; it stops at a wall end, an opening or a joint.",
)
def effective_length_in(bearing_in: float, h_in: float, s_in: float, left_in: float, right_in: float) -> float:
    """Horizontal length of wall effective for one concentrated load.

    Args: bearing_in: width of the bearing along the wall [in]. h_in: wall thickness [in]. s_in: spacing of the loads [in].
        left_in, right_in: from the load's centre line to the end, opening or joint on each side [in].
    Returns: [in]. Raises: BadInput. Source: ACI 318-19 11.2.3.1.
    """
    above_zero(bearing_in=bearing_in, h_in=h_in, s_in=s_in)
    not_negative(left_in=left_in, right_in=right_in)
    half = (bearing_in + 4 * h_in) / 2
    return min(s_in, min(left_in, half) + min(right_in, half))


@clause(
    "ACI 318",
    "11.5.3.2",
    title="Effective length factor of the simplified method",
    symbol="k",
    rule="0.8 braced at top and bottom with an end held against rotation, 1.0 braced with neither end held, 2.0 not braced.",
)
def effective_length_factor(braced: bool, restrained: bool) -> float:
    """k of the simplified wall method.

    Args: braced: held sideways at top and bottom. restrained: at least one end held against rotation.
    Source: ACI 318-19 Table 11.5.3.2.
    """
    if not braced:
        return 2.0
    return 0.8 if restrained else 1.0


@clause(
    "ACI 318",
    "11.5.3.1",
    title="Nominal axial strength, simplified method",
    symbol="P_n",
    unit="lb",
    formula="0.55 * f_c * A_g * max(0, 1 - (k * l_c / (32 * h)) ** 2)",
)
def wall_axial_simplified_lb(f_c_psi: float, A_g_in2: float, k: float, l_c_in: float, h_in: float) -> float:
    """Axial strength of a solid rectangular wall whose loads stay within the middle third.

    Args: f_c_psi [psi]. A_g_in2: thickness times effective length [in²]. k: `effective_length_factor`.
        l_c_in: clear height between supports [in]. h_in: thickness [in].
    Returns: nominal strength [lb], 0 once k l_c reaches 32 h. Raises: BadInput. Source: ACI 318-19 11.5.3.1.
    """
    above_zero(f_c_psi=f_c_psi, A_g_in2=A_g_in2, k=k, l_c_in=l_c_in, h_in=h_in)
    return 0.55 * f_c_psi * A_g_in2 * max(0.0, 1 - (k * l_c_in / (32 * h_in)) ** 2)


@clause(
    "ACI 318",
    "11.5.3.1",
    title="Eccentricity that keeps the resultant in the middle third",
    symbol="e",
    unit="in",
    formula="h / 6",
)
def middle_third_in(h_in: float) -> float:
    """Largest eccentricity the simplified methods allow, at every section of the wall.

    Args: h_in: thickness [in]. Returns: [in]. Source: ACI 318-19 11.5.3.1.
    """
    above_zero(h_in=h_in)
    return h_in / 6


@clause(
    "ACI 318",
    "11.3.1.1",
    title="Least thickness of a bearing wall, simplified method",
    symbol="h",
    unit="in",
    formula="max(4, l / 25)",
)
def wall_thickness_minimum_in(l_in: float) -> float:
    """Least thickness for the simplified method.

    Args: l_in: lesser of unsupported length and unsupported height [in]. Returns: [in]. Source: ACI 318-19 Table 11.3.1.1.
    """
    above_zero(l_in=l_in)
    return max(4.0, l_in / 25)


@clause(
    "ACI 318",
    "11.3.1.1",
    title="Least thickness of an exterior basement or foundation wall, simplified method",
    symbol="h",
    unit="in",
    formula="7.5",
)
def foundation_wall_thickness_minimum_in() -> float:
    """Least thickness of a foundation wall designed by the simplified method [in]. Source: ACI 318-19 Table 11.3.1.1."""
    return 7.5


@clause(
    "statics",
    "",
    title="Eccentricity of all loads together",
    symbol="e",
    unit="in",
    rule="Sum of each load times its own eccentricity, over the sum of the loads.",
    provenance="derived",
)
def resultant_eccentricity_in(P_lb: Sequence[float], e_in: Sequence[float]) -> float:
    """Eccentricity of the resultant about the middle of the wall below.

    Args: P_lb: loads [lb]. e_in: eccentricity of each from the middle of the wall, one sign toward each face [in].
    Returns: [in]. Raises: BadInput when the lists differ in length or the loads sum to nothing. Source: statics.
    """
    if len(P_lb) != len(e_in):
        raise BadInput("e_in", "Give one eccentricity for each load.")
    total = sum(P_lb)
    above_zero(P_lb=total)
    return sum(P * e for P, e in zip(P_lb, e_in, strict=True)) / total


@clause(
    "geometry",
    "",
    title="Distance from the middle of the wall",
    symbol="e",
    unit="in",
    formula="x - t / 2",
    provenance="geometry",
)
def offset_from_middle_in(x_in: float, t_in: float) -> float:
    """Eccentricity of a line of action, positive toward the face opposite to the datum.

    Args: x_in: from the datum face of the core [in]. t_in: core thickness [in]. Returns: [in].
    """
    return x_in - t_in / 2


@clause(
    "statics",
    "",
    title="Moment brought in at the ledge",
    symbol="M_0",
    unit="lb-in",
    formula="P * e",
    provenance="derived",
)
def ledge_moment_lb_in(P_lb: float, e_in: float) -> float:
    """Moment of a ledge load about the middle of the core.

    Args: P_lb [lb]. e_in: from the middle of the core [in]. Returns: [lb-in].
    """
    return P_lb * e_in


@clause(
    "statics",
    "",
    title="Moment in the wall just below the ledge",
    symbol="M_below",
    unit="lb-in",
    formula="M_0 * a / L",
    provenance="derived",
)
def moment_below_ledge_lb_in(M_0_lb_in: float, a_ft: float, L_ft: float) -> float:
    """Share of the ledge moment that goes down, the wall being pinned at the floors below and above.

    Args: M_0_lb_in: `ledge_moment_lb_in`. a_ft: ledge above the lower floor [ft]. L_ft: floor to floor [ft].
    Returns: [lb-in]. Raises: BadInput when the ledge is outside the storey. Source: statics.
    """
    _within_storey(a_ft, L_ft)
    return M_0_lb_in * a_ft / L_ft


@clause(
    "statics",
    "",
    title="Moment in the wall just above the ledge",
    symbol="M_above",
    unit="lb-in",
    formula="M_0 * (L - a) / L",
    provenance="derived",
)
def moment_above_ledge_lb_in(M_0_lb_in: float, a_ft: float, L_ft: float) -> float:
    """Share of the ledge moment that goes up, opposite in sense; arguments as for `moment_below_ledge_lb_in`."""
    _within_storey(a_ft, L_ft)
    return M_0_lb_in * (L_ft - a_ft) / L_ft


@clause(
    "statics",
    "",
    title="Horizontal reaction at each floor from the ledge moment",
    symbol="H",
    unit="lb",
    formula="M_0 / (12 * L)",
    provenance="derived",
)
def ledge_reaction_lb(M_0_lb_in: float, L_ft: float) -> float:
    """Pair of floor reactions that hold the ledge moment.

    Args: M_0_lb_in [lb-in]. L_ft: floor to floor [ft]. Returns: [lb]. Source: statics.
    """
    above_zero(L_ft=L_ft)
    return M_0_lb_in / (12 * L_ft)


def _within_storey(a_ft: float, L_ft: float) -> None:
    above_zero(L_ft=L_ft)
    if not 0 <= a_ft <= L_ft:
        raise BadInput("a_ft", "Enter a ledge height between the two floors.")
