"""Tolerances of concrete work, bars, anchors and framed walls: one row of `tables/tolerances.csv` a rule."""

from functools import cache
from typing import NamedTuple

from engine.clauses.us.concrete_material import above_zero
from engine.errors import BadInput, OutOfScope
from engine.tables import load
from engine.worksheet import clause


class Tolerance(NamedTuple):
    """What may be more and what may be less [in], and who says so."""

    item: str
    plus_in: float
    minus_in: float
    source: str
    provenance: str

    @property
    def max_in(self) -> float:
        """The larger of the two [in]."""
        return max(self.plus_in, self.minus_in)


@cache
def tolerances() -> dict[str, Tolerance]:
    """Every row by its key."""
    return {
        row["key"]: Tolerance(
            row["item"], float(row["plus_in"]), float(row["minus_in"]), row["source"], row["provenance"]
        )
        for row in load("tolerances").rows
    }


def tolerance(key: str) -> Tolerance:
    """The tolerance of that key. Raises: BadInput naming the keys there are."""
    try:
        return tolerances()[key]
    except KeyError:
        raise BadInput("tolerance", f"No tolerance {key!r}. Known: {', '.join(tolerances())}.") from None


@clause(
    "ACI 117",
    "2.3",
    title="Location tolerance of an anchor bolt",
    symbol="tol",
    unit="in",
    rule="1/4 in to 7/8 in bolts, 3/8 in to 1 1/2 in, 1/2 in to 2 1/2 in.",
    provenance="memory",
    note="The 3/4 in bolt was read for ACI 117-06; the rest are recalled from ACI 117-10.",
)
def anchor_bolt_tolerance_in(d_a_in: float) -> float:
    """How far an anchor bolt may stand from its place.

    Args: d_a_in: bolt diameter [in]. Returns: [in] either way. Raises: BadInput; OutOfScope above 2 1/2 in. Source: ACI 117 2.3.
    """
    above_zero(d_a_in=d_a_in)
    for row in load("anchor_bolt_tolerances").rows:
        if d_a_in <= float(row["to_diameter_in"]):
            return float(row["location_in"])
    raise OutOfScope("ACI 117 2.3", "The table ends at a 2 1/2 in bolt. State the tolerance on the drawing.")


@clause(
    "ACI 117",
    "4.1",
    title="Plumb of a wall by its height",
    symbol="tol",
    unit="in",
    formula="min(0.003 * H, 1)",
    provenance="memory",
)
def plumb_tolerance_in(H_in: float) -> float:
    """Out-of-plumb allowed by the 2010 edition for walls to 100 ft.

    Args: H_in: height [in]. Returns: [in]. Raises: BadInput. Source: ACI 117-10 4.1.
    """
    above_zero(H_in=H_in)
    return min(0.003 * H_in, 1.0)
