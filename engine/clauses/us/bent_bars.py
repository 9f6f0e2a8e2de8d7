"""Cut lengths of bent bars, measured along the middle of the bar; laps of two sizes; weight of steel."""

from collections.abc import Sequence
from itertools import pairwise
from math import acos, cos, degrees, hypot, pi, radians, sin

from engine.clauses.us.bars import (
    main_bend_in,
    main_return_tail_in,
    main_tail_in,
    stirrup_bend_in,
    stirrup_turned_tail_in,
)
from engine.clauses.us.concrete_material import above_zero
from engine.errors import BadInput
from engine.worksheet import clause

Point = tuple[float, float]


@clause(
    "geometry",
    "",
    title="What a bend saves against its sharp corner",
    symbol="c",
    unit="in",
    formula="(D_b + d_b) * (sin(theta) / (1 + cos(theta)) - pi * theta / 360)",
    provenance="geometry",
    note="Two tangents of R tan(theta / 2) less the arc R theta, R to the middle of the bar.",
)
def bend_saving_in(theta_deg: float, D_b_in: float, d_b_in: float) -> float:
    """Length a bar is shorter than along its corner. Args: theta_deg: turned, below 180. D_b_in: inside diameter. d_b_in: bar.

    Returns: [in]. Raises: BadInput for an angle not between 0 and 180.
    """
    above_zero(D_b_in=D_b_in, d_b_in=d_b_in)
    if not 0 <= theta_deg < 180:
        raise BadInput(
            "theta_deg", "Enter an angle from 0 to less than 180 degrees; make a full turn of two bends of 90."
        )
    theta = radians(theta_deg)
    return (D_b_in + d_b_in) * (sin(theta) / (1 + cos(theta)) - theta / 2)


def path_length_in(corners: Sequence[Point], bends_in: Sequence[float], d_b_in: float) -> float:
    """Cut length of a bar along a path of its middle, drawn with sharp corners [in].

    Args: corners: of the path, its ends among them [in]. bends_in: inside diameter of the bend at each inner corner. d_b_in: bar.
    Raises: BadInput for fewer than two corners, for two in one place, or another number of bends than corners between the ends.
    """
    legs = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(corners)]
    if not legs or len(bends_in) != len(legs) - 1 or not all(hypot(*leg) > 0 for leg in legs):
        raise BadInput("corners", "Give two different corners or more, and a bend for each between the ends.")
    turns = [_turn_deg(a, b) for a, b in pairwise(legs)]
    saved = sum(bend_saving_in(turn, D_b, d_b_in) for turn, D_b in zip(turns, bends_in, strict=True))
    return sum(hypot(*leg) for leg in legs) - saved


def _turn_deg(a: Point, b: Point) -> float:
    cosine = (a[0] * b[0] + a[1] * b[1]) / (hypot(*a) * hypot(*b))
    return degrees(acos(min(max(cosine, -1.0), 1.0)))


@clause(
    "geometry",
    "",
    title="Length a standard 90 degree hook adds",
    symbol="l_add",
    unit="in",
    formula="pi / 2 * (D_b / 2 + d_b / 2) + l_ext - D_b / 2 - d_b",
    provenance="geometry",
    note="To a bar measured to the outside of its hook.",
)
def hook_90_in(D_b_in: float, d_b_in: float, l_ext_in: float) -> float:
    """Arc and tail less what the bend takes of the straight part. Args: D_b_in: inside diameter. d_b_in: bar. l_ext_in: tail."""
    above_zero(D_b_in=D_b_in, d_b_in=d_b_in, l_ext_in=l_ext_in)
    return pi / 2 * (D_b_in / 2 + d_b_in / 2) + l_ext_in - D_b_in / 2 - d_b_in


@clause(
    "geometry",
    "",
    title="Length a standard 180 degree hook adds",
    symbol="l_add",
    unit="in",
    formula="pi * (D_b / 2 + d_b / 2) + l_ext - D_b / 2 - d_b",
    provenance="geometry",
    note="To a bar measured to the outside of its hook.",
)
def hook_180_in(D_b_in: float, d_b_in: float, l_ext_in: float) -> float:
    """As `hook_90_in`, for a full turn."""
    above_zero(D_b_in=D_b_in, d_b_in=d_b_in, l_ext_in=l_ext_in)
    return pi * (D_b_in / 2 + d_b_in / 2) + l_ext_in - D_b_in / 2 - d_b_in


def hooked_bar_in(out_in: float, d_b_in: float, hooks: int, turn_deg: int = 90) -> float:
    """Cut length of a main bar with standard hooks at one end or both (ACI 318-19 Table 25.3.1) [in].

    Args: out_in: out to out of its straight part with the hooks. hooks: 0, 1 or 2. turn_deg: 90 or 180.
    """
    D_b = main_bend_in(d_b_in)
    if turn_deg == 90:
        return out_in + hooks * hook_90_in(D_b, d_b_in, main_tail_in(d_b_in))
    return out_in + hooks * hook_180_in(D_b, d_b_in, main_return_tail_in(d_b_in))


@clause(
    "geometry",
    "",
    title="Cut length of a closed tie",
    symbol="l",
    unit="in",
    formula="2 * (a + b) - 4 * D_b - 8 * d_b + 3 / 2 * pi * (D_b + d_b) + 2 * l_ext",
    provenance="geometry",
    note="Three bends of 90 degrees and, where it closes, two hooks of 135 with their tails; sides out to out.",
)
def closed_tie_in(a_in: float, b_in: float, D_b_in: float, d_b_in: float, l_ext_in: float) -> float:
    """Args: a_in, b_in: sides out to out. D_b_in: inside diameter. d_b_in: bar. l_ext_in: each tail. Returns: [in].

    Raises: BadInput for a side too short for its bends, by how much.
    """
    above_zero(D_b_in=D_b_in, d_b_in=d_b_in, l_ext_in=l_ext_in)
    least = D_b_in + 2 * d_b_in
    for name, side in (("a_in", a_in), ("b_in", b_in)):
        if side < least:
            raise BadInput(
                name, f"The side is {least - side:.3g} in too short for its bends. Enter {least:.3g} in or more."
            )
    return 2 * (a_in + b_in) - 4 * D_b_in - 8 * d_b_in + 3 / 2 * pi * (D_b_in + d_b_in) + 2 * l_ext_in


def standard_tie_in(a_in: float, b_in: float, d_b_in: float) -> float:
    """Closed tie with the least bends and tails of ACI 318-19 Table 25.3.2 [in]. Raises: as `closed_tie_in`."""
    return closed_tie_in(a_in, b_in, stirrup_bend_in(d_b_in), d_b_in, stirrup_turned_tail_in(d_b_in))


@clause(
    "ACI 318",
    "25.5.2.2",
    title="Lap of two sizes of bar",
    symbol="l_st",
    unit="in",
    formula="max(l_d, l_st)",
    provenance="memory",
)
def lap_of_two_sizes_in(l_d_in: float, l_st_in: float) -> float:
    """Tension lap of different bars. Args: l_d_in: development of the larger. l_st_in: lap of the smaller. Returns: [in].

    Source: ACI 318-19 25.5.2.2.
    """
    above_zero(l_d_in=l_d_in, l_st_in=l_st_in)
    return max(l_d_in, l_st_in)


@clause("bar table", "", title="Weight of steel", symbol="W", unit="lb", formula="490 * V / 1728", provenance="derived",
        note="490 pcf: what the weights of the bar table come from.")  # fmt: skip
def steel_weight_lb(V_in3: float) -> float:
    """Weight of a volume of steel. Args: V_in3 [in³]. Returns: [lb]."""
    return 490 * V_in3 / 1728


def round_steel_lb(D_in: float, length_in: float) -> float:
    """Weight of a round bar or bolt [lb]. Args: D_in: diameter. length_in."""
    return steel_weight_lb(pi / 4 * D_in**2 * length_in)
