"""Floors and roofs tied to concrete walls. Values: IRC 2021 R608.9 and Tables R608.9(1) to (12)."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import tables
from engine.clauses.us import irc_connections as connections
from engine.clauses.us import irc_scope as scope
from engine.errors import BadInput, OutOfScope

SPEEDS = (115, 120, 130, 140, 150, 160)
ROWS = tables.load("irc_r608_9").rows
# ASCE 7 Table 26.10-1 at 35 ft, recalled: velocity pressure exposure coefficients.
K_Z = {"B": 0.73, "C": 1.01, "D": 1.19}


def severity(cell: str) -> tuple[float, int]:
    return (
        (math.inf, 0)
        if cell == "x"
        else (4, 0)
        if cell == "ok"
        else (float(cell.rstrip("AB")), "AB".find(cell[-1]) + 1)
    )


def test_every_table_has_its_rows() -> None:
    counted = {number: sum(row["table"] == str(number) for row in ROWS) for number in range(1, 13)}
    assert counted == {1: 9, 2: 11, 3: 11, 4: 11, 5: 11, 6: 11, 7: 7, 8: 7, 9: 11, 10: 11, 11: 7, 12: 7}


@pytest.mark.parametrize("row", [row for row in ROWS if row["table"] in ("1", "2")], ids=lambda r: "-".join(r.values()))
def test_the_ledger_tables_are_one_tie_force_in_the_wind(row) -> None:
    # Every cell follows from one spacing, 51 in at 120 mph, falling with the square of the speed (derived).
    for speed in SPEEDS:
        permitted = connections.permitted(int(row["table"]), float(row["bolt_in"]), float(row["tie_in"]), speed, "B")
        assert permitted.permitted is (float(row["tie_in"]) <= 51 * (120 / speed) ** 2)


def test_more_wind_and_wider_ties_are_never_milder() -> None:
    for row in ROWS:
        asked = [severity(row[str(speed)]) for speed in SPEEDS]
        assert asked == sorted(asked), row
        for other in ROWS:
            if (other["table"], other["bolt_in"]) == (row["table"], row["bolt_in"]):
                wider = float(other["tie_in"]) >= float(row["tie_in"])
                assert not wider or all(severity(other[str(s)]) >= severity(row[str(s)]) for s in SPEEDS)


def test_ties_are_whole_multiples_of_the_bolt_spacing() -> None:
    for row in ROWS:
        multiple = float(row["tie_in"]) / float(row["bolt_in"])
        assert multiple == pytest.approx(round(multiple))


@pytest.mark.parametrize(
    ("table", "bolt_in", "tie_in", "speed_mph", "cell"),
    [
        (1, 12, 36, 140, (True, 4, False, False)),
        (1, 12, 36, 150, (False, 4, False, False)),
        (3, 24, 48, 160, (True, 8, True, True)),
        (4, 19.2, 19.2, 150, (True, 6, True, False)),
        (6, 24, 48, 160, (True, 4, False, False)),
        (10, 24, 48, 140, (True, 8, True, True)),
        (11, 24, 24, 150, (True, 6, True, False)),
        (12, 24, 24, 150, (True, 6, False, False)),
    ],
)
def test_printed_cells(table, bolt_in, tie_in, speed_mph, cell) -> None:
    assert connections.permitted(table, bolt_in, tie_in, speed_mph, "B") == cell


@pytest.mark.parametrize(
    ("b_mph", "c_mph", "d_mph"), [(130, 110, None), (140, 119, 110), (150, 127, 117), (160, 136, 125)]
)
def test_columns_hold_equal_wind_pressures(b_mph, c_mph, d_mph) -> None:
    for exposure, speed in (("C", c_mph), ("D", d_mph)):
        assert scope.equivalent_speed_mph(b_mph, exposure) == speed
        if speed is not None:
            assert speed == pytest.approx(b_mph * math.sqrt(K_Z["B"] / K_Z[exposure]), abs=1)
            assert scope.speed_column_mph(speed, exposure) == b_mph


def test_low_columns_print_no_speed_for_open_exposures() -> None:
    assert scope.equivalent_speed_mph(115, "C") is None
    assert scope.equivalent_speed_mph(120, "D") is None
    with pytest.raises(OutOfScope, match="headed 125"):
        scope.equivalent_speed_mph(125, "C")


@given(st.floats(60, 160))
def test_a_site_reads_the_first_column_that_covers_it(speed_mph) -> None:
    column = scope.speed_column_mph(speed_mph, "B")
    assert column >= speed_mph - 1e-9
    assert all(other >= column for other in SPEEDS if other >= speed_mph)


@pytest.mark.parametrize(("speed_mph", "exposure"), [(160.5, "B"), (137, "C"), (126, "D")])
def test_a_speed_off_the_tables_is_refused(speed_mph, exposure) -> None:
    with pytest.raises(OutOfScope, match="off the tables"):
        connections.permitted(1, 12, 12, speed_mph, exposure)


@pytest.mark.parametrize(("table", "bolt_in", "tie_in"), [(1, 24, 24), (7, 12, 36), (1, 14, 14), (13, 12, 12)])
def test_a_row_that_is_not_printed_is_refused(table, bolt_in, tie_in) -> None:
    with pytest.raises(OutOfScope, match=f"R608.9\\({table}\\)"):
        connections.permitted(table, bolt_in, tie_in, 115, "B")


def test_the_rows_a_wall_may_use_are_permitted_and_thick_enough() -> None:
    rows = connections.permitted_rows(3, 6, 150, "B")
    assert (24, 24, (True, 6, True, True)) in rows
    assert len(connections.permitted_rows(3, 4, 160, "B")) == 0
    assert {(b, t) for b, t, _ in connections.permitted_rows(1, 6, 160, "B")} == {
        (12, 12),
        (12, 24),
        (16, 16),
        (19.2, 19.2),
    }


def test_each_detail_has_its_number_and_a_roof_on_the_side_has_none() -> None:
    assert connections.detail("wood", "floor", "side", "perpendicular") == 1
    assert connections.detail("cold-formed steel", "roof", "top", "parallel") == 12
    with pytest.raises(BadInput, match="no detail"):
        connections.detail("wood", "roof", "side", "parallel")


@pytest.mark.parametrize(("foam_in", "hole_in"), [(1, 4), (1.5, 4), (2, 5), (2.5, 6), (2.625, 7), (3, 7)])
def test_the_hole_in_the_foam_grows_an_inch_for_each_half_inch(foam_in, hole_in) -> None:
    assert connections.ledger_hole_in(foam_in) == hole_in  # R608.9.1.2


def test_between_half_inches_the_line_gives_less_than_the_step() -> None:
    assert connections.ledger_hole_linear_in(2.625) == 6.25


@given(st.floats(0, 12))
def test_the_stepped_hole_is_never_smaller_than_the_line_nor_an_inch_larger(foam_in) -> None:
    over = connections.ledger_hole_in(foam_in) - connections.ledger_hole_linear_in(foam_in)
    assert -1e-8 <= over < 1 + 1e-9


def test_track_holes_and_separators() -> None:
    assert connections.track_hole_in() == 4  # R608.9.1.2
    assert connections.largest_separator_in() == 1 / 16


@pytest.mark.parametrize(
    ("kind", "grade", "permitted"),
    [
        ("headed", "A307 Gr A", True),
        ("headed", "F1554 Gr 55", True),
        ("headed", "A36", False),
        ("headed", "", True),
        ("threaded rod with embedded nut", "A36", True),
        ("J-hook", "", False),
        ("L-hook", "F1554 Gr 36", False),
    ],
)
def test_hooked_bolts_are_barred_from_the_details(kind, grade, permitted) -> None:
    assert connections.bolt_kind_permitted(kind, grade) is permitted  # R608.9.1.1, R608.5.2.2


@pytest.mark.parametrize(("gravity", "permitted"), [(0.36, False), (0.42, True), (0.5, True)])
def test_light_species_are_barred(gravity, permitted) -> None:
    assert connections.wood_permitted(gravity) is permitted  # R608.9.2


def test_the_tie_force_behind_the_ledger_tables() -> None:
    pressure = connections.wind_pressure_psf(0.73, 0.85, 120, 1.28)  # coefficients recalled, ASCE 7
    assert pressure == pytest.approx(29.3, abs=0.05)
    assert connections.tie_force_lb(0.6 * pressure, 10, 50) == pytest.approx(732, abs=0.5)
