"""Shape of a veneer ledge that runs out through the foam: levers, depths, own weight, where the bearing may end."""

from engine.clauses.us.concrete_material import above_zero, not_negative
from engine.errors import BadInput
from engine.worksheet import clause


@clause(
    "geometry",
    "",
    title="Shear span from the face of the core to the middle of the wythe",
    symbol="a_v",
    unit="in",
    formula="t_f + air + t_w / 2",
    provenance="geometry",
    note="The foam counts: the lever starts at the core, and the weight stays in the middle of the wythe where it overhangs.",
)
def shear_span_in(t_f_in: float, air_in: float, t_w_in: float) -> float:
    """Lever of the veneer. Args: t_f_in: foam. air_in: air space. t_w_in: wythe, all [in]. Returns: [in]. Raises: BadInput."""
    not_negative(t_f_in=t_f_in, air_in=air_in)
    above_zero(t_w_in=t_w_in)
    return t_f_in + air_in + t_w_in / 2


@clause("geometry", "", title="Depth to the main bars", symbol="d", unit="in", formula="h - c_c - d_b / 2",
        provenance="geometry")  # fmt: skip
def depth_to_bars_in(h_in: float, c_c_in: float, d_b_in: float) -> float:
    """Effective depth at the core. Args: h_in: depth. c_c_in: clear cover above. d_b_in: bar, all [in]. Raises: BadInput."""
    above_zero(h_in=h_in, c_c_in=c_c_in, d_b_in=d_b_in)
    d = h_in - c_c_in - d_b_in / 2
    if d <= 0:
        raise BadInput("h_in", "The cover leaves no depth. Enter a deeper ledge or less cover.")
    return d


@clause("geometry", "", title="Depth of the ledge at a distance from the core", symbol="h_x", unit="in",
        formula="h - (h - h_lip) * x / p", provenance="geometry")  # fmt: skip
def depth_at_in(h_in: float, h_lip_in: float, p_in: float, x_in: float) -> float:
    """Depth by the straight taper of the soffit.

    Args: h_in: at the core. h_lip_in: at the lip. p_in: projection. x_in: from the core's face, all [in]. Returns: [in].
    """
    above_zero(h_in=h_in, h_lip_in=h_lip_in, p_in=p_in)
    return h_in - (h_in - h_lip_in) * x_in / p_in


@clause("geometry", "", title="Own weight of the ledge", symbol="W", unit="lb", formula="w_c * b * p * (h + h_lip) / 2 / 1728",
        provenance="geometry")  # fmt: skip
def own_weight_lb(w_c_pcf: float, b_in: float, p_in: float, h_in: float, h_lip_in: float) -> float:
    """Weight of the tapered ledge on a width. Args: w_c_pcf: unit weight [pcf]. b_in, p_in, h_in, h_lip_in [in]. Returns: [lb]."""
    above_zero(w_c_pcf=w_c_pcf, b_in=b_in, p_in=p_in, h_in=h_in, h_lip_in=h_lip_in)
    return w_c_pcf * b_in * p_in * (h_in + h_lip_in) / 2 / 1728


@clause("geometry", "", title="Centroid of the ledge from the face of the core", symbol="x_W", unit="in",
        formula="p / 3 * (h + 2 * h_lip) / (h + h_lip)", provenance="geometry")  # fmt: skip
def own_centroid_in(p_in: float, h_in: float, h_lip_in: float) -> float:
    """Lever of the ledge's own weight, a trapezoid. Args: [in]. Returns: [in]."""
    above_zero(p_in=p_in, h_in=h_in, h_lip_in=h_lip_in)
    return p_in / 3 * (h_in + 2 * h_lip_in) / (h_in + h_lip_in)


@clause(
    "ACI 318",
    "16.5.2.3",
    title="From the lip to the end of the straight part of the main bars",
    symbol="x_s",
    unit="in",
    formula="c_c + d_b + D_b / 2",
    note="The bearing may not pass this point, nor the inner face of a cross bar.",
)
def straight_end_from_lip_in(c_c_in: float, d_b_in: float, D_b_in: float) -> float:
    """How far back from the lip a bent stirrup is straight.

    Args: c_c_in: cover at the lip [in]. d_b_in: stirrup [in]. D_b_in: inside diameter of its bend [in]. Returns: [in].
    Source: ACI 318-19 16.5.2.3.
    """
    above_zero(c_c_in=c_c_in, d_b_in=d_b_in, D_b_in=D_b_in)
    return c_c_in + d_b_in + D_b_in / 2
