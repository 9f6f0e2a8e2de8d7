"""Floors and roofs tied to concrete walls: the tables of IRC R608.9, foam cut out at bolts, kinds of bolt, separators, wood."""

from math import ceil
from typing import Literal, NamedTuple

from engine import tables
from engine.clauses.us.irc_scope import Exposure, speed_column_mph
from engine.errors import BadInput, OutOfScope
from engine.tables.reading import SLACK, choose
from engine.worksheet import clause

Framing = Literal["wood", "cold-formed steel"]
Storey = Literal["floor", "roof"]
Place = Literal["side", "top"]
Direction = Literal["perpendicular", "parallel"]
BoltKind = Literal["headed", "threaded rod with embedded nut", "J-hook", "L-hook"]

# IRC R608.9(1) to (12) by what is tied, to which face of the wall, and which way the framing runs.
DETAILS: dict[tuple[Framing, Storey, Place, Direction], int] = {
    ("wood", "floor", "side", "perpendicular"): 1,
    ("wood", "floor", "side", "parallel"): 2,
    ("wood", "floor", "top", "perpendicular"): 3,
    ("wood", "floor", "top", "parallel"): 4,
    ("cold-formed steel", "floor", "side", "perpendicular"): 5,
    ("cold-formed steel", "floor", "side", "parallel"): 6,
    ("cold-formed steel", "floor", "top", "perpendicular"): 7,
    ("cold-formed steel", "floor", "top", "parallel"): 8,
    ("wood", "roof", "top", "perpendicular"): 9,
    ("wood", "roof", "top", "parallel"): 10,
    ("cold-formed steel", "roof", "top", "perpendicular"): 11,
    ("cold-formed steel", "roof", "top", "parallel"): 12,
}
SEPARATOR_IN = 0.0625  # R608.9.1.2
HOLE_IN = 4.0  # R608.9.1.2: round at a wood ledger, square at a steel track
LEAST_G = 0.42  # R608.9.2, R608.10
ALLOWED_BOLTS = "headed A307 Gr A or F1554 Gr 36+, or A36 rod threaded both ends with embedded nut"
GRADES: dict[BoltKind, tuple[str, ...]] = {
    "headed": ("A307 Gr A", "F1554 Gr 36", "F1554 Gr 55", "F1554 Gr 105"),
    "threaded rod with embedded nut": ("A36",),
    "J-hook": (),
    "L-hook": (),
}


class Connection(NamedTuple):
    """One cell of a table: permitted or not, least nominal wall [in], and whether it asks a 3x6 sill and 5/8 in bolts."""

    permitted: bool
    wall_in: float
    sill_3x6: bool
    bolt_5_8: bool


def detail(framing: Framing, storey: Storey, place: Place, direction: Direction) -> int:
    """Number of the R608.9 table for a connection. Raises: BadInput where the code has no such detail."""
    try:
        return DETAILS[framing, storey, place, direction]
    except KeyError:
        raise BadInput("place", f"R608.9 has no detail for a {framing} {storey} at the {place} of the wall.") from None


def _connection(cell: str) -> Connection:
    if cell in ("ok", "x"):
        return Connection(cell == "ok", 4.0, False, False)
    return Connection(True, float(cell.rstrip("AB")), cell[-1] in "AB", cell.endswith("B"))


@clause(
    "IRC",
    "Table R608.9",
    title="Prescriptive tie of a floor or roof to a concrete wall",
    rule="By bolt spacing, tie spacing and wind column: permitted or not, least nominal wall, 3x6 sill, 5/8 in bolt.",
    note="An out-of-plane wind tie only: it says nothing of the weight the bolts carry.",
)
def permitted(table: int, bolt_in: float, tie_in: float, speed_mph: float, exposure: Exposure) -> Connection:
    """What a row of Table R608.9(1) to (12) allows at a site.

    Args: table: 1 to 12. bolt_in, tie_in: spacing of bolts and of tension ties [in], as a printed row pairs them. speed_mph:
        basic wind speed. Raises: OutOfScope for a row or speed the table does not print. Source: IRC Tables R608.9(1) to (12).
    """
    column = f"{speed_column_mph(speed_mph, exposure):g}"
    for row in tables.load("irc_r608_9").rows:
        if (int(row["table"]), float(row["bolt_in"]), float(row["tie_in"])) == (table, bolt_in, tie_in):
            return _connection(row[column])
    raise OutOfScope(
        f"IRC Table R608.9({table})",
        f"It has no row for bolts at {bolt_in:g} in and ties at {tie_in:g} in; bring a design.",
    )


@clause(
    "IRC",
    "Table R608.9",
    title="Row of the table",
    rule="The row with the least printed spacings that are not below those used.",
    note="A reading: the table's spacings are the most; bolts and ties that stand closer carry less each.",
)
def printed_row(table: int, bolt_in: float, tie_in: float) -> tuple[float, float]:
    """Bolt and tie spacing [in] of the row that covers those used. Raises: OutOfScope where no row is as wide.

    Source: IRC Tables R608.9(1) to (12).
    """
    rows = [
        (float(r["bolt_in"]), float(r["tie_in"])) for r in tables.load("irc_r608_9").rows if int(r["table"]) == table
    ]
    covering = [row for row in rows if row[0] >= bolt_in - SLACK and row[1] >= tie_in - SLACK]
    if not covering:
        raise OutOfScope(
            f"IRC Table R608.9({table})",
            f"It has no row as wide as bolts at {bolt_in:g} in and ties at {tie_in:g} in; bring a design.",
        )
    return min(covering)


@clause(
    "IRC",
    "Table R608.9",
    title="Widest spacings a table allows",
    rule="The rows of the table that are permitted at the site's wind speed in a wall this thick.",
)
def permitted_rows(
    table: int, wall_in: float, speed_mph: float, exposure: Exposure
) -> tuple[tuple[float, float, Connection], ...]:
    """Rows (bolt spacing, tie spacing [in], what they ask) a wall may use. Args: wall_in: nominal core [in]. Source: IRC R608.9."""
    rows = [r for r in tables.load("irc_r608_9").rows if int(r["table"]) == table]
    pairs = [(float(r["bolt_in"]), float(r["tie_in"])) for r in rows]
    found = [(bolt, tie, permitted(table, bolt, tie, speed_mph, exposure)) for bolt, tie in pairs]
    return tuple(row for row in found if row[2].permitted and row[2].wall_in <= wall_in)


@clause(
    "IRC",
    "R608.9.1.2",
    title="Hole in the foam at a wood ledger bolt, along a line",
    symbol="D_h",
    unit="in",
    formula="4 + max(0, f - 1.5) / 0.5",
)
def ledger_hole_linear_in(f_in: float) -> float:
    """Least diameter of the hole: 4 in to 1 1/2 in of foam, 1 in more for each 1/2 in, in proportion. Args: f_in: foam [in].

    Source: IRC R608.9.1.2.
    """
    return HOLE_IN + max(0, f_in - 1.5) / 0.5


@clause(
    "IRC",
    "R608.9.1.2",
    title="Hole in the foam at a wood ledger bolt",
    symbol="D_h",
    unit="in",
    formula="4 + ceil(max(0, f - 1.5) / 0.5 - 1e-9)",
    note="The clause does not say what holds between half inches; the next whole step is taken.",
)
def ledger_hole_in(f_in: float) -> float:
    """Least diameter of the hole, a begun half inch counting whole. Args: f_in: foam [in]. Source: IRC R608.9.1.2."""
    return HOLE_IN + ceil(max(0, f_in - 1.5) / 0.5 - SLACK)


@clause(
    "IRC",
    "R608.9.1.2",
    title="Hole in the foam at a steel track bolt",
    unit="in",
    rule="4 in square.",
)
def track_hole_in() -> float:
    """Side of the square hole at a cold-formed steel track [in]. Source: IRC R608.9.1.2."""
    return HOLE_IN


@clause(
    "IRC",
    "R608.9.1.2",
    title="Thickest separator between ledger and concrete",
    unit="in",
    rule="Ledger or track touches the concrete at each bolt; a moisture separator of 1/16 in at most may lie between.",
)
def largest_separator_in() -> float:
    """Thickest sheet allowed between ledger and concrete at bolts [in]. Source: IRC R608.9.1.2."""
    return SEPARATOR_IN


@clause(
    "IRC",
    "R608.9.1.1",
    title="Kind of bolt in the R608.9 details",
    rule="Headed A307 Grade A or F1554 Grade 36 and up, or A36 rod threaded at both ends with the nut cast in; hooks are barred.",
)
def bolt_kind_permitted(kind: BoltKind, grade: str = "") -> bool:
    """Whether a bolt may be used in the details; a grade left out is not judged. Raises: BadInput for another kind.

    Source: IRC R608.9.1.1, R608.5.2.2. Hooked bolts stay allowed for sill plates (R403.1.6).
    """
    grades = choose("kind", GRADES, kind)
    return grade in grades if grade else bool(grades)


@clause(
    "IRC",
    "R608.9.2",
    title="Wood of the connected framing",
    rule="Specific gravity 0.42 or more.",
)
def wood_permitted(G: float) -> bool:
    """Whether a species may be used. Args: G: specific gravity. Source: IRC R608.9.2, R608.10."""
    return G >= LEAST_G - SLACK


@clause(
    "ASCE 7",
    "26.10",
    title="Wind pressure at roof height",
    symbol="p",
    unit="psf",
    formula="0.00256 * K_z * K_d * V_mph ** 2 * GC_p",
    provenance="memory",
)
def wind_pressure_psf(K_z: float, K_d: float, V_mph: float, GC_p: float) -> float:
    """Ultimate pressure on a component, inside and outside coefficients together.

    Args: K_z, K_d: exposure and directionality. V_mph: basic wind speed. GC_p: summed coefficients. Source: ASCE 7 26.10, 30.3.
    """
    return 0.00256 * K_z * K_d * V_mph**2 * GC_p


@clause(
    "statics",
    "",
    title="Pull on one tension tie",
    symbol="T",
    unit="lb",
    formula="p * h * s / 12",
    provenance="derived",
)
def tie_force_lb(p_psf: float, h_ft: float, s_in: float) -> float:
    """Tie force of a strip of wall. Args: p_psf: pressure [psf]. h_ft: tributary height [ft]. s_in: tie spacing [in]."""
    return p_psf * h_ft * s_in / 12
