"""Sheet steel by gauge and by mil. Strength uses the base metal; a gauge alone names several thicknesses."""

from functools import cache
from typing import NamedTuple

from engine.errors import BadInput
from engine.tables import load
from engine.worksheet import clause


class Sheet(NamedTuple):
    """Thickness of one gauge: base steel and with its zinc coat [in]."""

    uncoated_in: float
    galvanized_in: float


class FramingSteel(NamedTuple):
    """Thickness of one mil designation: for design, and the least base metal delivered [in]."""

    design_in: float
    minimum_in: float


@cache
def gauges() -> dict[int, Sheet]:
    """Every gauge there is."""
    return {
        int(r["gauge"]): Sheet(float(r["uncoated_in"]), float(r["galvanized_in"])) for r in load("sheet_steel").rows
    }


def sheet(gauge: int) -> Sheet:
    """Thicknesses of a gauge. Raises: BadInput naming the range."""
    try:
        return gauges()[gauge]
    except KeyError:
        raise BadInput("gauge", f"Enter a gauge from {min(gauges())} to {max(gauges())}.") from None


@cache
def mils() -> dict[int, FramingSteel]:
    """Every mil designation there is."""
    return {
        int(r["mil"]): FramingSteel(float(r["design_in"]), float(r["minimum_in"])) for r in load("framing_steel").rows
    }


@clause(
    "manufacturers' standard gauge",
    "",
    title="Base metal thickness of sheet steel",
    symbol="t",
    unit="in",
    rule="Uncoated thickness of the gauge; the zinc coat adds nothing to strength.",
)
def base_metal_in(gauge: int) -> float:
    """Thickness that counts in strength. Args: gauge: 10 to 22. Returns: [in]. Raises: BadInput."""
    return sheet(gauge).uncoated_in
