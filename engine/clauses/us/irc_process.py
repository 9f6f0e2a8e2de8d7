"""Around the wall: inspection, special inspection, records, thermal barrier, nails. IRC R104 to R109, R316, R602.3."""

from typing import Literal, NamedTuple

from engine import tables
from engine.errors import OutOfScope
from engine.tables.reading import choose
from engine.worksheet import clause

Barrier = Literal["gypsum", "wood structural panel", "concrete cover"]

# IRC R316.4, R316.5.1 (2024: R303.4, R303.5.1).
BARRIER_IN: dict[Barrier, float] = {"gypsum": 0.5, "wood structural panel": 23 / 32, "concrete cover": 1.0}
RECORDS = {
    2018: "per public-record law",
    2021: "per public-record law",
    2024: ">=5 or life of structure",
}


class RollBrace(NamedTuple):
    """Brace against roll of the edge framing at a guard post: length from the edge [in] and 16d common nails at each end."""

    length_in: float
    nails_each_end: int


@clause(
    "IRC",
    "R109.1.1",
    title="Before concrete is placed",
    rule="Forms erected, reinforcement in place and supported, and the inspection approved; no work past a point that was not.",
    note="The clause names foundations; upper wall placements fall under R109.1.4, R109.1.5 or local rules.",
)
def may_place_concrete(*, forms_erected: bool, bars_in_place: bool, approved: bool) -> bool:
    """Whether concrete may be placed. Source: IRC R109.1.1, R109.4."""
    return forms_erected and bars_in_place and approved


@clause(
    "IBC",
    "Table 1705.3",
    title="Special inspection of concrete work",
    rule="Periodic: reinforcement, cast-in anchors, post-installed anchors, mix. Continuous: adhesive anchors overhead or "
    "horizontal under sustained tension, specimens with slump, air and temperature, placement.",
    note="Its exceptions cover footings and foundation walls, not above-grade walls nor floor anchors.",
)
def special_inspection(task: str) -> str:
    """ "periodic" or "continuous" for a task. Raises: BadInput naming the tasks. Source: IBC Table 1705.3."""
    return choose("task", {row["task"]: row["frequency"] for row in tables.load("ibc_1705_3").rows}, task)


@clause(
    "IRC",
    "R106.5",
    title="Approved documents kept",
    symbol="t",
    unit="days",
    rule="At least 180 days from completion of the work.",
)
def document_retention_days() -> int:
    """How long approved plans are kept, the least [days]. Source: IRC R106.5."""
    return 180


@clause(
    "IRC",
    "R104.7",
    title="Official records kept",
    rule="By public-record law to 2021; from 2024 five years or the life of the structure, as said.",
)
def official_records(year: int) -> str:
    """How long the official's records are kept. Args: year: of the IRC. Raises: BadInput for another year. Source: IRC R104.7."""
    return choose("edition", RECORDS, year)


@clause(
    "IRC",
    "R316.4",
    moved={"US 2024": "R303.4"},
    title="Thermal barrier over foam inside",
    symbol="t_b",
    unit="in",
    rule="1/2 in gypsum or 23/32 in wood structural panel; none is needed behind 1 in of concrete or masonry (R316.5.1, in 2024 "
    "R303.5.1). Gypsum over ICF is mechanically fastened (R702.3.4).",
)
def thermal_barrier_in(barrier: Barrier) -> float:
    """Least thickness of a barrier [in]. Raises: BadInput for another. Source: IRC R316.4, R316.5.1."""
    return choose("barrier", BARRIER_IN, barrier)


@clause(
    "IRC",
    "Table R602.3(1)",
    title="Nails of a joist to its sill or ledger strip",
    symbol="n",
    rule="Joist to sill or girder, toe-nailed: four 8d box, three 8d common or three 10d box. Ledger strip under joists, to each: "
    "four 16d box, three 16d common or four 10d box.",
)
def nails(connection: Literal["joist to sill", "ledger strip"], nail: str) -> int:
    """Least number of nails of a kind. Raises: OutOfScope for one the table does not print. Source: IRC Table R602.3(1)."""
    for row in tables.load("irc_r602_3_1").rows:
        if (row["connection"], row["nail"]) == (connection, nail):
            return int(row["count"])
    raise OutOfScope("IRC Table R602.3(1)", f"The rows kept here have no {nail} nails for {connection}.")


@clause(
    "IRC 2024",
    "R502.11.3",
    title="Roll brace at a guard post",
    rule="16 in from the edge or longer, six 16d common nails at each end. New in 2024.",
)
def roll_brace() -> RollBrace:
    """Least length and nails. Source: IRC 2024 R502.11.3."""
    return RollBrace(16.0, 6)
