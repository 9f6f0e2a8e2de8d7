"""Rules of a veneer ledge's shape: where the wythe bears, how the stirrup turns at the lip, how far ties reach [in]."""

from math import sqrt

from engine.worksheet import clause


@clause("geometry", "", title="Inner face of the wythe from the core", symbol="x_back", unit="in", formula="t_f + air",
        provenance="geometry")  # fmt: skip
def wythe_back_in(t_f_in: float, air_in: float) -> float:
    """From the core's face to the back of the veneer [in]; foam counts."""
    return t_f_in + air_in


@clause("geometry", "", title="Outer edge of the bearing", symbol="x_edge", unit="in", formula="min(x_back + t_w, p)",
        provenance="geometry")  # fmt: skip
def bearing_edge_in(x_back_in: float, t_w_in: float, p_in: float) -> float:
    """Outer face of the wythe, or the lip where the wythe overhangs it [in]."""
    return min(x_back_in + t_w_in, p_in)


@clause(
    "geometry", "", title="Height for the stirrup's leg at the lip", symbol="y_leg", unit="in",
    formula="h_lip + c_lip * r / p - c_s * sqrt(p ** 2 + r ** 2) / p - c_c", provenance="geometry",
    note="The soffit rises r over p toward the lip; its cover is measured square to it.",
)  # fmt: skip
def tip_leg_in(h_lip_in: float, c_lip_in: float, c_s_in: float, c_c_in: float, r_in: float, p_in: float) -> float:
    """Out to out height the covers leave for a stirrup bent down at the lip [in]."""
    return h_lip_in + c_lip_in * r_in / p_in - c_s_in * sqrt(p_in**2 + r_in**2) / p_in - c_c_in


@clause(
    "geometry", "", title="Height the stirrup's two bends take at the lip", symbol="y_bends", unit="in",
    formula="(d_b + D_b / 2) * (1 + (sqrt(p ** 2 + r ** 2) - r) / p)", provenance="geometry",
    note="The upper bend turns 90 degrees, the lower one 90 less the soffit's slope.",
)  # fmt: skip
def tip_bends_in(d_b_in: float, D_b_in: float, r_in: float, p_in: float) -> float:
    """Sum of the outside tangent lengths of both bends [in]; D_b: inside diameter."""
    return (d_b_in + D_b_in / 2) * (1 + (sqrt(p_in**2 + r_in**2) - r_in) / p_in)


@clause(
    "geometry", "", title="Reach of a closed tie into the ledge", symbol="x_tie", unit="in",
    formula="min(p - c_lip, (h - y - (c_s + d_t / 2) * sqrt(p ** 2 + r ** 2) / p) * p / max(r, 0.001))",
    provenance="geometry",
)  # fmt: skip
def tie_reach_in(
    p_in: float, c_lip_in: float, c_s_in: float, h_in: float, r_in: float, y_in: float, d_t_in: float
) -> float:
    """How far out a level tie at depth y goes before the soffit's cover stops it [in]; below zero where it can't leave the core."""
    cover = (c_s_in + d_t_in / 2) * sqrt(p_in**2 + r_in**2) / p_in
    return min(p_in - c_lip_in, (h_in - y_in - cover) * p_in / max(r_in, 0.001))


@clause("geometry", "", title="Spacing of the stirrups", symbol="s", unit="in", formula="n * m", provenance="geometry")
def stirrup_place_spacing_in(n: int, m_in: float) -> float:
    """One stirrup to every n web spaces of m [in]."""
    return n * m_in


@clause("geometry", "", title="Room for the hook in the core", symbol="l_core", unit="in", formula="t - c_c",
        provenance="geometry", note="From the face of the core to the outside of the hook.")  # fmt: skip
def hook_room_in(t_in: float, c_c_in: float) -> float:
    """Core less the cover behind the hook [in]."""
    return t_in - c_c_in


@clause(
    "geometry", "", title="Closed ties on a width", symbol="A_h", unit="in²", formula="2 * n * A_b * b / s",
    provenance="geometry", note="Both legs of a closed tie cross the face of the core.",
)  # fmt: skip
def closed_tie_area_in2(n: int, A_b_in2: float, b_in: float, s_in: float) -> float:
    """Area of n layers of closed ties. Args: A_b_in2: one leg [in²]. b_in: width. s_in: spacing [in]. Returns: [in²]."""
    return 2 * n * A_b_in2 * b_in / s_in


@clause(
    "geometry", "", title="Room a closed tie needs to turn beyond the core", symbol="x_turn", unit="in",
    formula="d_t + D_b / 2", provenance="geometry",
)  # fmt: skip
def tie_turn_in(d_t_in: float, D_b_in: float) -> float:
    """Bar and half the inside diameter of its bend [in]."""
    return d_t_in + D_b_in / 2
