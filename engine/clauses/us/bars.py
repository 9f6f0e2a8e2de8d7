"""Reinforcing bars: sizes, bends and tails (ACI 318-19 section 25.3), straight parts and arcs of bent bars."""

from functools import cache
from math import pi
from typing import NamedTuple

from engine.clauses.us.concrete_material import above_zero
from engine.errors import BadInput, OutOfScope
from engine.tables import load
from engine.worksheet import clause


class Bar(NamedTuple):
    """An inch-pound bar: diameter [in], area [in²], weight [lb/ft]."""

    number: int
    d_b_in: float
    A_b_in2: float
    weight_plf: float


class MetricBar(NamedTuple):
    """A bar of a metric series: diameter [mm], area [mm²], mass [kg/m]."""

    name: str
    diameter_mm: float
    area_mm2: float
    mass_kg_per_m: float


@cache
def bars() -> dict[str, Bar]:
    """Inch-pound bars by number, "3" to "18"."""
    return {
        r["bar"]: Bar(int(r["bar"]), float(r["diameter_in"]), float(r["area_in2"]), float(r["weight_plf"]))
        for r in load("bars").rows
    }


def bar(number: str | int) -> Bar:
    """A bar by its number. Args: 4, "4" or "No. 4". Raises: BadInput naming the sizes."""
    key = str(number).removeprefix("No.").strip().removeprefix("#")
    if key not in bars():
        raise BadInput("bar", f"Enter a bar size: {', '.join(bars())}.")
    return bars()[key]


@cache
def metric_bars(series: str) -> dict[str, MetricBar]:
    """Bars of a metric series by name. Args: series: "bars_canada" ("10M") or "bars_metric" (soft metric, "13")."""
    return {
        r["bar"]: MetricBar(r["bar"], float(r["diameter_mm"]), float(r["area_mm2"]), float(r["mass_kg_per_m"]))
        for r in load(series).rows
    }


@clause("mechanics", "", title="Bars on a width", symbol="A_s", unit="in²", formula="b * A_b / s", provenance="derived")
def bars_on_width_in2(A_b_in2: float, s_in: float, b_in: float) -> float:
    """Area of spaced bars on a width. Args: A_b_in2: one bar [in²]. s_in: spacing [in]. b_in: width [in]. Returns: [in²]."""
    above_zero(A_b_in2=A_b_in2, s_in=s_in, b_in=b_in)
    return b_in * A_b_in2 / s_in


@clause(
    "ACI 318",
    "25.3.1",
    title="Least inside diameter of the bend, main bars",
    symbol="D_b",
    unit="in",
    formula="(6 if d_b <= 1 else 8 if d_b <= 1.41 else 10) * d_b",
)
def main_bend_in(d_b_in: float) -> float:
    """Bend of a standard hook. Args: d_b_in: bar [in]. Returns: inside diameter [in]. Source: ACI 318-19 Table 25.3.1."""
    above_zero(d_b_in=d_b_in)
    return (6 if d_b_in <= 1 else 8 if d_b_in <= 1.41 else 10) * d_b_in


@clause(
    "ACI 318",
    "25.3.2",
    title="Least inside diameter of the bend, stirrups and ties",
    symbol="D_b",
    unit="in",
    formula="(4 if d_b <= 0.625 else 6) * d_b",
)
def stirrup_bend_in(d_b_in: float) -> float:
    """Bend of a stirrup, Nos. 3 to 8.

    Args: d_b_in: bar [in]. Returns: inside diameter [in]. Raises: OutOfScope above No. 8. Source: ACI 318-19 Table 25.3.2.
    """
    _stirrup_size(d_b_in)
    return (4 if d_b_in <= 0.625 else 6) * d_b_in


@clause("ACI 318", "25.3.1", title="Tail of a 90 degree hook, main bars", symbol="l_ext", unit="in", formula="12 * d_b")
def main_tail_in(d_b_in: float) -> float:
    """Straight tail past the bend. Args: d_b_in [in]. Returns: [in]. Source: ACI 318-19 Table 25.3.1."""
    above_zero(d_b_in=d_b_in)
    return 12 * d_b_in


@clause(
    "ACI 318",
    "25.3.1",
    title="Tail of a 180 degree hook, main bars",
    symbol="l_ext",
    unit="in",
    formula="max(4 * d_b, 2.5)",
)
def main_return_tail_in(d_b_in: float) -> float:
    """Straight tail past a full turn. Args: d_b_in [in]. Returns: [in]. Source: ACI 318-19 Table 25.3.1."""
    above_zero(d_b_in=d_b_in)
    return max(4 * d_b_in, 2.5)


@clause(
    "ACI 318",
    "25.3.2",
    title="Tail of a 90 degree hook, stirrups and ties",
    symbol="l_ext",
    unit="in",
    formula="max(6 * d_b, 3) if d_b <= 0.625 else 12 * d_b",
)
def stirrup_tail_in(d_b_in: float) -> float:
    """Straight tail of a stirrup's 90° hook; arguments as for `stirrup_bend_in`. Source: ACI 318-19 Table 25.3.2."""
    _stirrup_size(d_b_in)
    return max(6 * d_b_in, 3.0) if d_b_in <= 0.625 else 12 * d_b_in


@clause(
    "ACI 318",
    "25.3.2",
    title="Tail of a 135 degree hook, stirrups and ties",
    symbol="l_ext",
    unit="in",
    formula="max(6 * d_b, 3)",
)
def stirrup_turned_tail_in(d_b_in: float) -> float:
    """Straight tail of a stirrup's 135° hook; arguments as for `stirrup_bend_in`. Source: ACI 318-19 Table 25.3.2."""
    _stirrup_size(d_b_in)
    return max(6 * d_b_in, 3.0)


def _stirrup_size(d_b_in: float) -> None:
    above_zero(d_b_in=d_b_in)
    if d_b_in > 1:
        raise OutOfScope("ACI 318 25.3.2", "Stirrups end at No. 8. Choose a smaller bar.")


@clause(
    "geometry",
    "",
    title="Length of a bend along the middle of the bar",
    symbol="arc",
    unit="in",
    formula="pi * theta / 180 * (D_b / 2 + d_b / 2)",
    provenance="geometry",
)
def bend_length_in(theta_deg: float, D_b_in: float, d_b_in: float) -> float:
    """Arc at mid-bar. Args: theta_deg: angle turned. D_b_in: inside diameter [in]. d_b_in: bar [in]. Returns: [in]."""
    above_zero(theta_deg=theta_deg, D_b_in=D_b_in, d_b_in=d_b_in)
    return pi * theta_deg / 180 * (D_b_in / 2 + d_b_in / 2)
