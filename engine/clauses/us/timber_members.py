"""Shear, notches and bending of rectangular wood members. NDS 3.2.3, 3.3, 3.4.3, 4.4.3.

F_v and F_b here are the adjusted values (see `timber_factors.adjusted_stress_psi`).
"""

from engine.errors import BadInput
from engine.tables.reading import SLACK, above_zero
from engine.worksheet import clause


def _within(field: str, part: float, whole: float) -> None:
    above_zero(**{field: part}, depth_in=whole)
    if part > whole + SLACK:
        raise BadInput(field, "Enter a depth that is not more than the member's.")


@clause(
    "NDS", "3.4.3", title="Shear strength", symbol="V_r'", unit="lb", formula="2 / 3 * F_v * b * d", provenance="memory"
)  # fmt: skip
def shear_lb(F_v_psi: float, b_in: float, d_in: float) -> float:
    """Whole section. Args: F_v_psi: adjusted [psi]. b_in, d_in [in]. Returns: shear [lb]. Source: NDS 2018 3.4.2."""
    above_zero(F_v_psi=F_v_psi, b_in=b_in, d_in=d_in)
    return 2 / 3 * F_v_psi * b_in * d_in


@clause(
    "NDS",
    "3.4.3.2(a)",
    title="Shear at an end notched on the tension side",
    symbol="V_r'",
    unit="lb",
    formula="2 / 3 * F_v * b * d_n * (d_n / d)**2",
    provenance="memory",
    note="That the ratio is squared since 2005 is read.",
)
def notched_shear_lb(F_v_psi: float, b_in: float, d_n_in: float, d_in: float) -> float:
    """Joist end with its bottom cut up.

    Args: F_v_psi: adjusted [psi]. d_n_in: depth left at the notch [in]. d_in: full depth [in]. Source: NDS 2018 Eq. 3.4-3.
    """
    _within("d_n_in", d_n_in, d_in)
    above_zero(F_v_psi=F_v_psi, b_in=b_in)
    return 2 / 3 * F_v_psi * b_in * d_n_in * (d_n_in / d_in) ** 2


@clause(
    "NDS",
    "3.4.3.2(e)",
    title="Shear at an end notched on the compression side",
    symbol="V_r'",
    unit="lb",
    formula="2 / 3 * F_v * b * (d - (d - d_n) / d_n * min(e, d_n))",
    provenance="memory",
)
def top_notched_shear_lb(F_v_psi: float, b_in: float, d_n_in: float, d_in: float, e_in: float) -> float:
    """Joist end with its top cut down.

    Args: as `notched_shear_lb`; e_in: how far the notch runs past the support's inner edge, 0 or more [in].
    Source: NDS 2018 Eq. 3.4-5.
    """
    _within("d_n_in", d_n_in, d_in)
    above_zero(F_v_psi=F_v_psi, b_in=b_in)
    if e_in < 0:
        raise BadInput("e_in", "Enter 0 where the notch stays over the support.")
    return 2 / 3 * F_v_psi * b_in * (d_in - (d_in - d_n_in) / d_n_in * min(e_in, d_n_in))


@clause(
    "NDS",
    "3.4.3.3",
    title="Shear of the member at a connection",
    symbol="V_r'",
    unit="lb",
    formula="2 / 3 * F_v * b * d_e * (d_e / d)**2 if a_end < 5 * d else 2 / 3 * F_v * b * d_e",
    provenance="memory",
)
def shear_at_connection_lb(F_v_psi: float, b_in: float, d_e_in: float, d_in: float, a_end_in: float) -> float:
    """Shear that bolts may bring into a member across its grain.

    Args: F_v_psi: adjusted [psi]. d_e_in: depth less the distance from the unloaded edge to the nearest bolt [in].
    d_in: depth [in]. a_end_in: from the connection to the member's end or butt joint [in]. Source: NDS 2018 Eq. 3.4-6, 3.4-7.
    """
    _within("d_e_in", d_e_in, d_in)
    above_zero(F_v_psi=F_v_psi, b_in=b_in)
    whole = 2 / 3 * F_v_psi * b_in * d_e_in
    return whole * (d_e_in / d_in) ** 2 if a_end_in < 5 * d_in else whole


@clause(
    "NDS",
    "3.3.2",
    title="Bending strength",
    symbol="M_r'",
    unit="lb-in",
    formula="F_b * b * d**2 / 6",
    provenance="memory",
    note="Held against twisting: C_L is 1.0.",
)
def bending_lb_in(F_b_psi: float, b_in: float, d_in: float) -> float:
    """Args: F_b_psi: adjusted, size factor in [psi]. b_in, d_in [in]. Returns: moment [lb-in]. Source: NDS 2018 3.3.2."""
    above_zero(F_b_psi=F_b_psi, b_in=b_in, d_in=d_in)
    return F_b_psi * b_in * d_in**2 / 6


@clause("NDS", "4.4.3", title="Deepest notch along a sawn member", symbol="h_n,max", unit="in", formula="d / 6")
def notch_depth_limit_in(d_in: float) -> float:
    """Outer thirds of the span only; none on the tension side of a member 3 1/2 in or thicker. Source: NDS 2018 4.4.3."""
    above_zero(d_in=d_in)
    return d_in / 6


@clause("NDS", "4.4.3", title="Longest notch along a sawn member", symbol="l_n,max", unit="in", formula="d / 3")
def notch_length_limit_in(d_in: float) -> float:
    """Args: d_in: member depth [in]. Returns: length [in]. Source: NDS 2018 4.4.3."""
    above_zero(d_in=d_in)
    return d_in / 3


@clause(
    "NDS",
    "4.4.3",
    title="Deepest end notch of a sawn member over its support",
    symbol="h_n,max",
    unit="in",
    formula="d / 4",
    provenance="memory",
)
def end_notch_depth_limit_in(d_in: float) -> float:
    """Args: d_in: member depth [in]. Returns: notch depth [in]. Source: NDS 2018 4.4.3."""
    above_zero(d_in=d_in)
    return d_in / 4


@clause(
    "NDS",
    "5.4.5",
    title="Deepest end notch of a glued laminated member",
    symbol="h_n,max",
    unit="in",
    formula="2 * d / 5 if top else min(d / 10, 3)",
    provenance="memory",
)
def glulam_notch_limit_in(d_in: float, top: bool) -> float:
    """Args: d_in: depth [in]. top: cut on the compression side. Returns: notch depth [in]. Source: NDS 2018 5.4.5."""
    above_zero(d_in=d_in)
    return 2 * d_in / 5 if top else min(d_in / 10, 3.0)
