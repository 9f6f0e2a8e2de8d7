"""Bars in walls: ACI 318-19 sections 11.6 and 11.7, and cover of 20.5.1.3."""

from typing import Literal

from engine.clauses.us.concrete_material import above_zero
from engine.errors import BadInput
from engine.worksheet import clause

Exposure = Literal["cast against ground", "weather or ground", "not exposed"]


@clause(
    "ACI 318",
    "11.6.1",
    title="Least vertical steel ratio",
    symbol="rho_l",
    formula="0.0012 if d_b <= 0.625 and f_y >= 60000 else 0.0015",
)
def vertical_steel_ratio(d_b_in: float, f_y_psi: float) -> float:
    """Least ratio of vertical bars in a cast-in-place wall under low in-plane shear.

    Args: d_b_in: bar diameter [in]. f_y_psi: yield strength [psi]. Source: ACI 318-19 Table 11.6.1.
    """
    above_zero(d_b_in=d_b_in, f_y_psi=f_y_psi)
    return 0.0012 if d_b_in <= 0.625 and f_y_psi >= 60000 else 0.0015


@clause(
    "ACI 318",
    "11.6.1",
    title="Least horizontal steel ratio",
    symbol="rho_t",
    formula="0.0020 if d_b <= 0.625 and f_y >= 60000 else 0.0025",
)
def horizontal_steel_ratio(d_b_in: float, f_y_psi: float) -> float:
    """Least ratio of horizontal bars; arguments as for `vertical_steel_ratio`. Source: ACI 318-19 Table 11.6.1."""
    above_zero(d_b_in=d_b_in, f_y_psi=f_y_psi)
    return 0.0020 if d_b_in <= 0.625 and f_y_psi >= 60000 else 0.0025


@clause("ACI 318", "11.6.1", title="Least steel in a strip of wall", symbol="A_s", unit="in²", formula="rho * b * h")
def minimum_wall_steel_in2(rho: float, b_in: float, h_in: float) -> float:
    """Steel area of a ratio on a strip.

    Args: rho: ratio of the gross section. b_in: strip width [in]. h_in: thickness [in]. Returns: [in²].
    """
    return rho * b_in * h_in


@clause(
    "ACI 318",
    "11.7.2.1",
    title="Largest spacing of bars in a wall",
    symbol="s_max",
    unit="in",
    formula="min(3 * h, 18)",
    note="11.7.3.1 sets the same for horizontal bars.",
)
def largest_bar_spacing_in(h_in: float) -> float:
    """Largest spacing of vertical or horizontal bars.

    Args: h_in: thickness [in]. Returns: [in]. Source: ACI 318-19 11.7.2.1, 11.7.3.1.
    """
    above_zero(h_in=h_in)
    return min(3 * h_in, 18.0)


@clause(
    "ACI 318",
    "11.7.2.3",
    title="Layers of bars a wall needs",
    rule="Two layers where the wall is thicker than 10 in, unless it is a basement wall of one storey.",
)
def layers_needed(h_in: float, one_storey_basement: bool) -> int:
    """Number of layers of distributed bars.

    Args: h_in: thickness [in]. one_storey_basement: the stated exception. Source: ACI 318-19 11.7.2.3.
    """
    above_zero(h_in=h_in)
    return 2 if h_in > 10 and not one_storey_basement else 1


@clause(
    "ACI 318",
    "11.7.5.1",
    title="No. 5 bars on each side of an opening",
    rule="Two in walls with two layers of bars, one with one layer, developed at the corners; for openings the size of windows "
    "and doors. A pocket for a beam is smaller: bars beside it are good practice, not this rule.",
)
def bars_at_opening(layers: int) -> int:
    """How many No. 5 bars trim each side of a window, a door or an opening of that size.

    Args: layers: of distributed bars. Raises: BadInput for other than 1 or 2. Source: ACI 318-19 11.7.5.1 (11.7.6.1 in 318-25).
    """
    if layers not in (1, 2):
        raise BadInput("layers", "Enter 1 or 2 layers of bars.")
    return layers


@clause(
    "ACI 318",
    "11.7.4.1",
    title="Steel above which bars in compression need ties",
    symbol="A_st",
    unit="in²",
    formula="0.01 * A_g",
)
def untied_steel_limit_in2(A_g_in2: float) -> float:
    """Vertical steel up to which bars may carry compression without ties.

    Args: A_g_in2: gross area [in²]. Returns: [in²]. Source: ACI 318-19 11.7.4.1.
    """
    return 0.01 * A_g_in2


@clause(
    "ACI 318",
    "20.5.1.3.1",
    title="Clear cover to bars in a wall",
    symbol="c_c",
    unit="in",
    rule="3 in cast against ground; exposed to weather or ground 1 1/2 in up to No. 5 and 2 in above; not exposed 3/4 in up to "
    "No. 11 and 1 1/2 in above. Foam is not cover.",
)
def clear_cover_in(exposure: Exposure, d_b_in: float) -> float:
    """Least clear cover of a cast-in-place wall.

    Args: exposure: of that face of the concrete. d_b_in: bar diameter [in]. Returns: [in].
    Raises: BadInput for an unknown exposure. Source: ACI 318-19 Table 20.5.1.3.1.
    """
    above_zero(d_b_in=d_b_in)
    if exposure == "cast against ground":
        return 3.0
    if exposure == "weather or ground":
        return 1.5 if d_b_in <= 0.625 else 2.0
    if exposure == "not exposed":
        return 0.75 if d_b_in <= 1.41 else 1.5
    raise BadInput("exposure", "Choose cast against ground, weather or ground, or not exposed.")
