"""Bearing on concrete: ACI 318-19 section 22.8."""

from math import sqrt

from engine.clauses.us.concrete_material import above_zero, not_negative
from engine.worksheet import clause


@clause(
    "ACI 318",
    "22.8.3.2",
    title="Clear concrete beside the loaded area that counts",
    symbol="c",
    unit="in",
    formula="min(left, right, front, back, 2 * depth)",
    note="The spread keeps the loaded area's shape, so the narrowest side limits all four; the sides slope 1 down to 2 out.",
)
def support_offset_in(left_in: float, right_in: float, front_in: float, back_in: float, depth_in: float) -> float:
    """Equal offset of the frustum's base from the loaded area.

    Args: left_in, right_in, front_in, back_in: concrete beyond the loaded area on each side [in], 0 at a flush face.
        depth_in: depth of concrete below [in].
    Returns: offset on every side [in]. Raises: BadInput for a negative distance. Source: ACI 318-19 22.8.3.2.
    """
    not_negative(left_in=left_in, right_in=right_in, front_in=front_in, back_in=back_in, depth_in=depth_in)
    return min(left_in, right_in, front_in, back_in, 2 * depth_in)


@clause(
    "ACI 318",
    "22.8.3.2",
    title="Base of the largest frustum within the support",
    symbol="A_2",
    unit="in²",
    formula="(a + 2 * c) * (b + 2 * c)",
)
def support_area_in2(a_in: float, b_in: float, c_in: float) -> float:
    """Area of the frustum's base by equal offsets.

    Args: a_in, b_in: sides of the loaded area [in]. c_in: offset of `support_offset_in` [in]. Returns: [in²].
    Source: ACI 318-19 22.8.3.2.
    """
    above_zero(a_in=a_in, b_in=b_in)
    not_negative(c_in=c_in)
    return (a_in + 2 * c_in) * (b_in + 2 * c_in)


@clause(
    "ACI 318",
    "22.8.3.2",
    title="Nominal bearing strength",
    symbol="B_n",
    unit="lb",
    formula="min(sqrt(A_2 / A_1), 2) * 0.85 * f_c * A_1",
)
def bearing_strength_lb(f_c_psi: float, A_1_in2: float, A_2_in2: float) -> float:
    """Nominal bearing strength of concrete.

    Args: f_c_psi: specified compressive strength [psi]. A_1_in2: loaded area [in²]. A_2_in2: area of the frustum's base [in²],
        equal to A_1 where the seat reaches a face. Returns: strength [lb].
    Raises: BadInput for a value not above zero. Source: ACI 318-19 22.8.3.2.
    """
    above_zero(f_c_psi=f_c_psi, A_1_in2=A_1_in2, A_2_in2=A_2_in2)
    return min(sqrt(A_2_in2 / A_1_in2), 2) * 0.85 * f_c_psi * A_1_in2
