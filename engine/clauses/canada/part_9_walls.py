"""Part 9: flat insulating concrete form walls above grade, their bars, openings and lintels. Millimetres and metres."""

from typing import NamedTuple

from engine import tables
from engine.clauses.canada import ALBERTA, BRITISH_COLUMBIA, ONTARIO
from engine.errors import BadInput, OutOfScope
from engine.worksheet import clause

LINTEL = "Table 9.20.17.4"


class Materials(NamedTuple):
    """Largest aggregate [mm], least yield of bars [MPa], laps by bar [mm]."""

    aggregate_mm: float
    f_y_MPa: float
    lap_10M_mm: float
    lap_15M_mm: float


class WallBars(NamedTuple):
    """Bar, largest spacing, largest distance of the bar beside an opening or below the top [mm]."""

    bar: str
    spacing_mm: float
    edge_mm: float


class Openings(NamedTuple):
    """Openings in walls that bear nothing: clear of corners, concrete above [mm], bars, their extension [mm], share of length."""

    corner_mm: float
    concrete_above_mm: float
    bars_600_to_3000: str
    bars_over_3000: str
    extension_mm: float
    most_of_length: float


class BearingOpenings(NamedTuple):
    """Openings in bearing walls: widths from which a lintel and stirrups are needed, the stirrup, clear of corners [mm]."""

    lintel_over_mm: float
    stirrups_over_mm: float
    stirrup: str
    corner_mm: float


@clause(
    BRITISH_COLUMBIA,
    "9.20.1.1.(1)(b), 2012",
    title="Buildings with prescriptive flat form walls",
    rule="One dwelling unit only; later texts do not ask for it.",
)
def one_dwelling_only_in_2012() -> bool:
    """Whether the text built on NBC 2010 keeps to one dwelling unit. Source: BCBC 2012 9.20.1.1.(1)(b)."""
    return True


@clause(
    BRITISH_COLUMBIA,
    "9.20.1.1.(1)(b)(iii)",
    title="Seismic limit in British Columbia",
    rule="S_max to 0.27 on Site Class C.",
)
def limit_S_max() -> float:
    """Largest S_max. Source: BCBC 2024 9.20.1.1.(1)(b)(iii)."""
    return 0.27


@clause(
    ALBERTA,
    "9.3.1.1.(4)",
    title="Concrete and bars of flat form walls",
    rule="Aggregate to 19 mm, yield from 400 MPa, laps 450 mm (10M) and 650 mm (15M).",
)
def materials() -> Materials:
    """Materials. Source: NBC(AE) 9.3.1.1.(4)."""
    return Materials(19.0, 400.0, 450.0, 650.0)


@clause(
    ALBERTA,
    "9.20.17.2.(2)",
    title="Vertical bars above grade",
    rule="10M at 400 mm in the middle third, one within 600 mm of each opening.",
)
def vertical_bars() -> WallBars:
    """Vertical bars. Source: NBC(AE) 9.20.17.2.(2), (3)."""
    return WallBars("10M", 400.0, 600.0)


@clause(
    ALBERTA,
    "9.20.17.2.(1)",
    title="Horizontal bars above grade",
    rule="10M within 300 mm of the top and at 600 mm, in the middle third.",
)
def horizontal_bars() -> WallBars:
    """Horizontal bars. Source: NBC(AE) 9.20.17.2.(1)."""
    return WallBars("10M", 600.0, 300.0)


@clause(
    ALBERTA,
    "9.20.17.3",
    title="Openings in flat form walls that bear nothing",
    rule="None within 1,200 mm of a corner, 200 mm of concrete above, bars by width, 600 mm past, 70 % of the length at most.",
)
def openings() -> Openings:
    """Openings in walls that bear nothing. Source: NBC(AE) 9.20.17.3."""
    return Openings(1200.0, 200.0, "1-10M top and bottom", "2-10M four sides", 600.0, 0.7)


@clause(
    ALBERTA,
    "9.20.17.4",
    title="Openings in bearing flat form walls",
    rule="None within 1,200 mm of a corner; a lintel over 900 mm, 10M stirrups over 1,200 mm.",
)
def bearing_openings() -> BearingOpenings:
    """Openings in bearing walls. Source: NBC(AE) 9.20.17.4."""
    return BearingOpenings(900.0, 1200.0, "10M", 1200.0)


@clause(
    ONTARIO,
    LINTEL,
    title="Longest clear span of a lintel in a flat form wall",
    unit="m",
    rule="By table (bottom bars), thickness, depth, what is carried and ground snow, the next greater snow printed.",
    note="Read in one extraction only; a second reading is needed before anything is built by it.",
)
def lintel_span_m(table: str, thickness_mm: float, depth_mm: float, snow_kPa: float, *, storey_above: bool) -> float:
    """Longest clear span [m].

    Args: table: "A", "B" or "C". thickness_mm, depth_mm: printed sizes. snow_kPa: ground snow, to 3.33. storey_above: a storey
    of flat form wall stands on it beside the roof. Raises: BadInput, OutOfScope. Source: OBC Tables 9.20.17.4.-A to -C.
    """
    asked = (table, thickness_mm, depth_mm)
    rows = {
        (row["table"], float(row["thickness_mm"]), float(row["depth_mm"])): row
        for row in tables.load("obc_9_20_17_4").rows
    }
    if asked not in rows:
        raise BadInput(
            "depth_mm", f"{LINTEL}.-{table} has no lintel {thickness_mm:g} mm thick and {depth_mm:g} mm deep."
        )
    if snow_kPa > 3.33:
        raise OutOfScope(LINTEL, "It ends at 3.33 kPa of ground snow; bring a design by an engineer.")
    column = f"{'storey' if storey_above else 'roof'}_{'1.50' if snow_kPa <= 1.5 else '3.33'}"
    if (*asked, column) == ("C", 150, 500, "roof_1.50"):
        raise OutOfScope(LINTEL, "The printed 4.80 m stands between 4.00 and 4.16 and is not believed; bring a design.")
    return float(rows[asked][column])
