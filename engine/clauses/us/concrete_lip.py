"""The lip of a tapered wall top, where it carries part of a bearing as a plain cantilever: shares, levers, width, depth.

Its strength is that of `concrete_plain`: moment at the tension face and shear, on the strip found here.
"""

from engine.clauses.us.concrete_material import above_zero, not_negative
from engine.worksheet import clause


@clause(
    "geometry",
    "",
    title="Share of the reaction beyond the core's face",
    symbol="share",
    formula="0 if u >= L_b else 1 - (max(u, 0) / L_b) ** 2",
    provenance="geometry",
    note="The pressure rises as a triangle toward the room, as a joist that turns at its end presses.",
)
def lip_share(L_b_in: float, u_in: float) -> float:
    """Part of a triangular bearing pressure that lies past the face of the core below.

    Args: L_b_in: bearing length [in]. u_in: from the back of the bearing to that face [in]; below zero if all is past it.
    Returns: 0 to 1. Raises: BadInput.
    """
    above_zero(L_b_in=L_b_in)
    return 0.0 if u_in >= L_b_in else 1 - (max(u_in, 0.0) / L_b_in) ** 2


@clause(
    "geometry",
    "",
    title="Lever of that share from the core's face",
    symbol="z",
    unit="in",
    formula="0 if u >= L_b else 2 / 3 * (L_b ** 3 - max(u, 0) ** 3) / (L_b ** 2 - max(u, 0) ** 2) - u",
    provenance="geometry",
)
def lip_lever_in(L_b_in: float, u_in: float) -> float:
    """Distance from the face of the core to the centroid of the share beyond it.

    Args: as for `lip_share`. Returns: [in]. Raises: BadInput.
    """
    above_zero(L_b_in=L_b_in)
    if u_in >= L_b_in:
        return 0.0
    back = max(u_in, 0.0)
    return 2 / 3 * (L_b_in**3 - back**3) / (L_b_in**2 - back**2) - u_in


@clause(
    "geometry",
    "",
    title="Centroid of the triangular pressure from the back of the bearing",
    symbol="x_R",
    unit="in",
    formula="2 / 3 * L_b",
    provenance="geometry",
)
def triangle_centroid_in(L_b_in: float) -> float:
    """Where the whole reaction acts, for the wall strip below. Args: L_b_in: bearing length [in]. Returns: [in]."""
    above_zero(L_b_in=L_b_in)
    return 2 / 3 * L_b_in


@clause(
    "geometry",
    "",
    title="Width of lip that carries one joist",
    symbol="b",
    unit="in",
    formula="min(s, b_j + 2 * t_p + 2 * z)",
    provenance="geometry",
    note="Joist width, one plate thickness and one lever on each side, not wider than the joist spacing.",
)
def lip_strip_width_in(b_j_in: float, t_p_in: float, z_in: float, s_in: float) -> float:
    """Strip of lip in bending.

    Args: b_j_in: joist width [in]. t_p_in: plate thickness [in]. z_in: `lip_lever_in` [in]. s_in: joist spacing [in].
    Returns: [in]. Raises: BadInput.
    """
    above_zero(b_j_in=b_j_in, s_in=s_in)
    not_negative(t_p_in=t_p_in, z_in=z_in)
    return min(s_in, b_j_in + 2 * t_p_in + 2 * z_in)


@clause(
    "haunch rule",
    "",
    title="Least depth of a plain lip at the core's face",
    symbol="h_min",
    unit="in",
    formula="2 * p",
    provenance="common practice",
    note="ACI 318 14.1.3 lists no plain cantilevers; a lip may pass only as a haunch.",
)
def lip_depth_minimum_in(p_in: float) -> float:
    """Depth at the core's face that makes the lip a haunch. Args: p_in: projection past that face [in]. Returns: [in]."""
    not_negative(p_in=p_in)
    return 2 * p_in
