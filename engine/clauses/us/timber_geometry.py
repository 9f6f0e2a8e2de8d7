"""Least end, edge and spacing distances of dowels in wood, and the load's angle to the grain. NDS 12.5.1 and its commentary.

On a ledger the joists pull the wood down onto the bolts, so the loaded edge is the top one. Any load component across the
grain asks for the loaded edge distance: there is no rule in between.
"""

from functools import cache
from math import atan2, degrees, hypot
from typing import Literal

from engine.errors import BadInput
from engine.tables import load
from engine.tables.reading import above_zero, choose
from engine.worksheet import clause

SmallItem = Literal["end tension", "end compression", "edge", "along", "across in line", "across staggered"]


@clause("NDS", "12.5.1.3", title="Least loaded edge distance", symbol="a_q", unit="in", formula="4 * D")
def loaded_edge_in(D_in: float) -> float:
    """Load across the grain, the edge the fastener pushes toward; no reduction below it. Source: NDS 2018 Table 12.5.1C."""
    above_zero(D_in=D_in)
    return 4 * D_in


@clause("NDS", "12.5.1.3", title="Least unloaded edge distance", symbol="a_q", unit="in", formula="1.5 * D")
def unloaded_edge_in(D_in: float) -> float:
    """Load across the grain, the other edge. Args: D_in [in]. Source: NDS 2018 Table 12.5.1C."""
    above_zero(D_in=D_in)
    return 1.5 * D_in


@clause(
    "NDS",
    "12.5.1.3",
    title="Least edge distance, load along the grain",
    symbol="a_q",
    unit="in",
    formula="1.5 * D if l / D <= 6 else max(1.5 * D, s_row / 2)",
    provenance="memory",
)
def edge_parallel_in(D_in: float, l_in: float, s_row_in: float) -> float:
    """Args: l_in: lesser bearing length of the members [in]. s_row_in: distance between rows, 0 for one row [in].

    Source: NDS 2018 Table 12.5.1C.
    """
    above_zero(D_in=D_in)
    return 1.5 * D_in if l_in / D_in <= 6 else max(1.5 * D_in, s_row_in / 2)


@clause(
    "NDS",
    "12.5.1.2",
    title="End distance for the full value",
    symbol="a_p",
    unit="in",
    formula="4 * D",
    provenance="memory",
    note="Load across the grain, or along it away from the end; half of it is the least allowed.",
)
def end_full_in(D_in: float) -> float:
    """Args: D_in [in]. Returns: distance for C_Δ = 1 [in]. Source: NDS 2018 Table 12.5.1A."""
    above_zero(D_in=D_in)
    return 4 * D_in


@clause(
    "NDS",
    "12.5.1.2",
    title="End distance for the full value, load toward the end",
    symbol="a_p",
    unit="in",
    formula="(5 if hardwood else 7) * D",
    provenance="memory",
    note="7 D in softwood is read; half of it is the least allowed.",
)
def end_tension_full_in(D_in: float, hardwood: bool) -> float:
    """Fastener bearing toward the member's end, along the grain. Args: D_in [in]; hardwood. Source: NDS 2018 Table 12.5.1A."""
    above_zero(D_in=D_in)
    return (5 if hardwood else 7) * D_in


@clause(
    "NDS",
    "12.5.1.2",
    title="Least end distance",
    symbol="a_p,min",
    unit="in",
    formula="a_full / 2",
    provenance="memory",
)
def end_least_in(a_full_in: float) -> float:
    """At C_Δ = 0.5. Args: a_full_in: end distance for the full value [in]. Source: NDS 2018 Table 12.5.1A."""
    above_zero(a_full_in=a_full_in)
    return a_full_in / 2


@clause(
    "NDS",
    "12.5.1.3",
    title="Spacing in a row for the full value",
    symbol="s",
    unit="in",
    formula="4 * D",
    provenance="memory",
    note="Load along the grain; across it the attached member decides.",
)
def spacing_full_in(D_in: float) -> float:
    """Args: D_in [in]. Returns: spacing for C_Δ = 1 [in]. Source: NDS 2018 Table 12.5.1B."""
    above_zero(D_in=D_in)
    return 4 * D_in


@clause(
    "NDS",
    "12.5.1.3",
    title="Least spacing in a row",
    symbol="s_min",
    unit="in",
    formula="3 * D",
    provenance="memory",
)
def spacing_least_in(D_in: float) -> float:
    """Load along or across the grain. Args: D_in [in]. Source: NDS 2018 Table 12.5.1B."""
    above_zero(D_in=D_in)
    return 3 * D_in


@clause(
    "NDS",
    "12.5.1.3",
    title="Least distance between rows, load along the grain",
    symbol="s_r",
    unit="in",
    formula="1.5 * D",
    provenance="memory",
)
def row_spacing_parallel_in(D_in: float) -> float:
    """Args: D_in [in]. Source: NDS 2018 Table 12.5.1D."""
    above_zero(D_in=D_in)
    return 1.5 * D_in


@clause(
    "NDS",
    "12.5.1.3",
    title="Least distance between rows, load across the grain",
    symbol="s_r",
    unit="in",
    formula="2.5 * D if l / D <= 2 else (5 * l + 10 * D) / 8 if l / D < 6 else 5 * D",
    provenance="memory",
)
def row_spacing_perpendicular_in(D_in: float, l_in: float) -> float:
    """Args: D_in [in]. l_in: lesser bearing length of the members [in]. Source: NDS 2018 Table 12.5.1D."""
    above_zero(D_in=D_in, l_in=l_in)
    if l_in / D_in <= 2:
        return 2.5 * D_in
    return (5 * l_in + 10 * D_in) / 8 if l_in / D_in < 6 else 5 * D_in


@clause(
    "NDS",
    "12.5.1.3",
    title="Most between the outer rows across the grain",
    symbol="s_r,max",
    unit="in",
    rule="5 in unless the joint lets the wood shrink (glued laminated and dry: 10 in).",
    note="The 10 in is recalled.",
)
def outer_rows_limit_in(dry_glulam: bool) -> float:
    """Rows held by one splice plate, or one concrete face. Args: dry_glulam. Source: NDS 2018 12.5.1.3."""
    return 10.0 if dry_glulam else 5.0


@cache
def _small_dowel_diameters(steel_side: bool) -> dict[str, tuple[float, float]]:
    rows = load("timber_small_fastener_spacing").rows
    return {r["item"]: (float(r["bare_D"]), float(r["lead_D"])) for r in rows if (r["side"] == "steel") == steel_side}


@clause(
    "NDS Commentary",
    "C12.1.5.7",
    title="Practice against splitting, fasteners below 1/4 in",
    symbol="",
    unit="in",
    rule="Diameters by item, side member and lead hole; the standard itself only says that the wood may not split.",
    provenance="memory",
)
def small_dowel_distance_in(item: SmallItem, D_in: float, steel_side: bool, lead_hole: bool) -> float:
    """Distance that keeps nails and wood screws from splitting the wood.

    Args: item: "end tension" (load toward the end), "end compression", "edge", "along", "across in line" or "across staggered".
    D_in: nominal [in]. steel_side: steel side plate. lead_hole: prebored. Returns: [in]. Raises: BadInput. Source: NDS
    Commentary 2018 C12.1.5.7, recalled.
    """
    if not 0 < D_in < 0.25:
        raise BadInput("D_in", "Enter a diameter below 1/4 in; from there on NDS 12.5.1 has its own distances.")
    bare, lead = choose("item", _small_dowel_diameters(steel_side), item)
    return (lead if lead_hole else bare) * D_in


@clause(
    "geometry",
    "",
    title="Load on one fastener",
    symbol="R",
    unit="lb",
    formula="sqrt(V**2 + H**2)",
    provenance="geometry",
)
def resultant_lb(V_lb: float, H_lb: float) -> float:
    """Args: V_lb: across the grain; H_lb: along it [lb]. Returns: [lb]."""
    return hypot(V_lb, H_lb)


@clause(
    "geometry",
    "",
    title="Angle of the load to the grain",
    symbol="θ",
    unit="°",
    rule="The angle whose tangent is the load across the grain over the load along it.",
    provenance="geometry",
)
def load_to_grain_deg(V_lb: float, H_lb: float) -> float:
    """Args: V_lb: across the grain; H_lb: along it, 0 or more [lb]. Returns: 0 to 90 [°]."""
    return degrees(atan2(abs(V_lb), abs(H_lb)))
