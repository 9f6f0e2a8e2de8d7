"""Bars of concrete walls from the tables: verticals, horizontals, laps. IRC R608.5.4, R608.6, R404.1.3.2."""

from typing import Literal, NamedTuple

from engine import tables
from engine.clauses.us.irc import Form
from engine.clauses.us.irc_scope import Exposure, speed_column_mph
from engine.errors import OutOfScope
from engine.tables.reading import not_less
from engine.worksheet import clause

Bearing = Literal["top", "side"]


class Bars(NamedTuple):
    """Bars as the tables print them: size number and largest spacing [in]."""

    number: int
    spacing_in: float

    def __str__(self) -> str:
        return f"{self.number}@{self.spacing_in:g}"


class Horizontals(NamedTuple):
    """Horizontal bars of a storey: how many of which size, and how near the top and the bottom one must be [in]."""

    bars: int
    number: int
    top_within_in: float
    bottom_within_in: float | None

    def __str__(self) -> str:
        return f"{self.bars} #{self.number}"


STAY_IN_PLACE_LEAST = Bars(4, 48.0)  # Table R404.1.3.2(2), note for stay-in-place forms


def _bars(cell: str) -> Bars:
    number, _, spacing = cell.partition("@")
    return Bars(int(number), float(spacing))


@clause(
    "IRC",
    "Table R608.6(1)",
    title="Vertical bars of a flat above-grade wall",
    rule="By wind speed and exposure, unsupported height of the storey and nominal thickness; the heavier column where floors "
    "bear on the side of the wall. No interpolation.",
    note="The row of 160 mph and 9 ft is recalled.",
)
def vertical_bars(
    t_nom_in: float, H_ft: float, speed_mph: float, exposure: Exposure, bearing: Bearing = "side"
) -> Bars:
    """Bars of one storey.

    Args: t_nom_in: nominal core [in]. H_ft: unsupported height [ft]. speed_mph: wind. bearing: joists on top or on the side
        (a ledger; a ledge inside a stepped wall is taken as side). Returns: size and spacing.
    Raises: OutOfScope off the table. Source: IRC Table R608.6(1).
    """
    if t_nom_in not in (4, 6, 8, 10):
        raise OutOfScope("IRC Table R608.6(1)", f"It has no {t_nom_in:g} in wall; bring a design to ACI 318.")
    height = not_less((8, 9, 10), H_ft)
    if height is None:
        raise OutOfScope("IRC Table R608.6(1)", "It ends at 10 ft of unsupported height; bring a design to ACI 318.")
    column = speed_column_mph(speed_mph, exposure)
    for row in tables.load("irc_r608_6_1").rows:
        if (float(row["speed_b_mph"]), float(row["height_ft"])) == (column, height):
            return _bars(row[bearing]) if t_nom_in == 4 else Bars(4, 48.0)
    raise OutOfScope("IRC Table R608.6(1)", "It has no such row; bring a design to ACI 318.")


@clause(
    "IRC",
    "Table R404.1.3.2(2)",
    title="Vertical bars of a flat basement wall",
    rule="Tables (2) and (3) for 6 in and 8 in walls, by unsupported height, unbalanced fill and soil load. No interpolation. "
    "NR: none required; DR: design required.",
    provenance="memory",
    note="Five rows were read in print; the others are recalled, and agree with strength design.",
)
def basement_bars(t_nom_in: float, H_ft: float, backfill_ft: float, soil_psf_per_ft: float) -> str:
    """The table's own cell: bars like "6@39", "NR" or "DR".

    Args: t_nom_in: nominal core [in]. H_ft: unsupported height [ft]. backfill_ft: unbalanced fill [ft]. soil_psf_per_ft:
        lateral load for each foot of depth [psf]. Raises: OutOfScope off the tables. Source: IRC Tables R404.1.3.2(2), (3).
    """
    rows = [row for row in tables.load("irc_r404_1_3_2").rows if float(row["wall_in"]) == t_nom_in]
    soil = not_less((30, 45, 60), soil_psf_per_ft)
    height = not_less({float(row["height_ft"]) for row in rows}, H_ft)
    fills = {float(row["backfill_ft"]) for row in rows if float(row["height_ft"]) == height}
    backfill = not_less(fills, backfill_ft)
    if soil is None or backfill is None:
        raise OutOfScope("IRC R404.1.3.2", "The wall is off the tables kept here; bring a design to ACI 318.")
    for row in rows:
        if (float(row["height_ft"]), float(row["backfill_ft"])) == (height, backfill):
            return row[f"soil_{soil:g}"]
    raise OutOfScope("IRC R404.1.3.2", "The tables kept here have no such row; bring a design to ACI 318.")


@clause(
    "IRC",
    "R404.1.3.2",
    title="Vertical bars of a basement wall in stay-in-place forms",
    rule="The table's bars; a 6 in stay-in-place wall where none are required still has #4 at 48 in.",
)
def basement_bars_in_form(cell: str, t_nom_in: float, form: Form = "stay-in-place") -> Bars | None:
    """Bars to place for a cell of `basement_bars`, None where none are. Raises: OutOfScope for "DR". Source: IRC R404.1.3.2."""
    if cell == "DR":
        raise OutOfScope("IRC R404.1.3.2", "The table asks for design here; bring a design to ACI 318.")
    if cell == "NR":
        return STAY_IN_PLACE_LEAST if t_nom_in <= 6 and form == "stay-in-place" else None
    return _bars(cell)


@clause(
    "IRC",
    "R608.6.2",
    title="Horizontal bars of an above-grade storey",
    rule="Four #4: within 12 in of the top, within 12 in of the floor, and at the third points.",
)
def horizontal_bars() -> Horizontals:
    """Horizontal bars of one storey of a flat wall. Source: IRC R608.6.2."""
    return Horizontals(4, 4, 12.0, 12.0)


@clause(
    "IRC",
    "Table R404.1.3.2(1)",
    title="Horizontal bars of a basement wall",
    rule="One #4 within 12 in of the top and one near mid-height of walls up to 8 ft, two near the third points of taller ones.",
)
def basement_horizontal_bars(H_ft: float) -> Horizontals:
    """Horizontal bars of a basement wall. Args: H_ft: height [ft]. Source: IRC Table R404.1.3.2(1)."""
    return Horizontals(2 if H_ft <= 8 else 3, 4, 12.0, None)


@clause(
    "IRC",
    "Table R608.5.4(1)",
    title="Lap of bars",
    symbol="lap",
    unit="in",
    rule="#4, #5, #6: 20, 25, 30 in of Grade 40 and 30, 38, 45 in of Grade 60 (40 and 60 diameters, up to the whole inch).",
)
def lap_in(number: int, f_y_psi: float) -> float:
    """Least lap [in]. Args: number: bar size. f_y_psi: yield strength [psi].

    Raises: OutOfScope for bars and grades the table does not print. Source: IRC Table R608.5.4(1).
    """
    for row in tables.load("irc_r608_5_4_1").rows:
        if int(row["bar_no"]) == number and f"lap_{f_y_psi:g}" in row:
            return float(row[f"lap_{f_y_psi:g}"])
    raise OutOfScope("IRC Table R608.5.4(1)", f"It has no #{number} bar of {f_y_psi:,.0f} psi; bring a lap to ACI 318.")
