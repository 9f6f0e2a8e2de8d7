"""Bars of concrete walls. Values: IRC 2021 Tables R608.6(1), R404.1.3.2(2) and (3), R608.5.4(1); the same in 2018 and 2024."""

import math

import pytest

from engine import tables
from engine.clauses.us import irc_bars as bars
from engine.errors import OutOfScope

SOIL = (30, 45, 60)
BASEMENT = tables.load("irc_r404_1_3_2").rows


@pytest.mark.parametrize(
    ("speed_mph", "height_ft", "top_in", "side_in"),
    [(115, 8, 48, 48), (120, 9, 48, 36), (140, 9, 34, 34), (150, 10, 31, 27), (160, 10, 27, 24)],
)
def test_printed_verticals_of_4_inch_walls(speed_mph, height_ft, top_in, side_in) -> None:
    assert bars.vertical_bars(4, height_ft, speed_mph, "B", "top") == (4, top_in)  # Table R608.6(1)
    assert bars.vertical_bars(4, height_ft, speed_mph, "B", "side") == (4, side_in)


@pytest.mark.parametrize("wall_in", [6, 8, 10])
@pytest.mark.parametrize("height_ft", [8, 9, 10])
def test_thicker_walls_have_a_4_at_48_everywhere(wall_in, height_ft) -> None:
    assert str(bars.vertical_bars(wall_in, height_ft, 160, "B")) == "4@48"  # Table R608.6(1)


def test_side_bearing_and_more_wind_never_ask_for_less_steel() -> None:
    rows = {(float(r["speed_b_mph"]), float(r["height_ft"])): r for r in tables.load("irc_r608_6_1").rows}
    assert len(rows) == 18
    spacing = {(*at, column): float(r[column].split("@")[1]) for at, r in rows.items() for column in ("top", "side")}
    for (speed, height, column), value in spacing.items():
        assert spacing[speed, height, "side"] <= spacing[speed, height, "top"]
        assert all(value >= other for (v, h, c), other in spacing.items() if c == column and v >= speed and h >= height)


def test_another_exposure_and_a_height_between_rows_read_the_safe_cell() -> None:
    assert bars.vertical_bars(4, 9, 119, "C") == bars.vertical_bars(4, 9, 140, "B")
    assert bars.vertical_bars(4, 8.5, 118, "B") == bars.vertical_bars(4, 9, 120, "B")


@pytest.mark.parametrize(("wall_in", "height_ft", "speed_mph"), [(4, 10.5, 120), (5, 9, 120), (4, 9, 161)])
def test_verticals_off_the_table_are_refused(wall_in, height_ft, speed_mph) -> None:
    with pytest.raises(OutOfScope):
        bars.vertical_bars(wall_in, height_ft, speed_mph, "B")


@pytest.mark.parametrize(
    ("wall_in", "height_ft", "fill_ft", "cells"),
    [
        (6, 8, 8, ("6@39", "6@25", "6@18")),
        (6, 9, 7, ("6@47", "6@30", "6@22")),
        (6, 10, 10, ("6@19", "DR", "DR")),
        (8, 8, 8, ("6@41", "6@35", "6@26")),
        (8, 10, 8, ("6@35", "6@29", "6@21")),
    ],
)
def test_printed_verticals_of_basement_walls(wall_in, height_ft, fill_ft, cells) -> None:
    assert tuple(bars.basement_bars(wall_in, height_ft, fill_ft, soil) for soil in SOIL) == cells  # R404.1.3.2(2), (3)


def moment_lb_ft(height_ft: float, fill_ft: float, soil: float) -> float:
    """Factored moment of a strip held top and bottom under a triangle of soil load; statics, load factor 1.6 (ASCE 7 2.3.1)."""
    top = soil * fill_ft**3 / (6 * height_ft)
    depth = math.sqrt(2 * top / soil)
    return 1.6 * (top * (height_ft - fill_ft + depth) - soil * depth**3 / 6)


def strength_lb_ft(wall_in: float, number: int, spacing_in: float) -> float:
    """Strength of a strip with bars at mid-thickness: ACI 318 22.2, 2,500 psi and 60 ksi, built 1/2 in thin."""
    area = {5: 0.31, 6: 0.44}[number] * 12 / spacing_in
    a = area * 60_000 / (0.85 * 2500 * 12)
    return 0.9 * area * 60_000 * ((wall_in - 0.5) / 2 - a / 2) / 12


@pytest.mark.parametrize(
    "row", BASEMENT, ids=lambda r: f"{r['wall_in']} in, {r['height_ft']} ft, {r['backfill_ft']} ft"
)
def test_every_basement_cell_is_strong_enough_and_asks_no_design_in_vain(row) -> None:
    wall_in, height_ft, fill_ft = (float(row[key]) for key in ("wall_in", "height_ft", "backfill_ft"))
    depth_in = (wall_in - 0.5) / 2
    plain = 0.6 * 5 * math.sqrt(2500) * 2 * depth_in**2 * 4 / 12  # ACI 318 14.5.2 with S = 12 t²/6, lb-ft
    for soil in SOIL:
        cell, moment = row[f"soil_{soil}"], moment_lb_ft(height_ft, fill_ft, soil)
        if cell == "NR":
            assert moment < 1.07 * plain  # the dead load above presses on the strip and adds the last few hundredths
        elif cell == "DR":
            # as many bars as keep the section tension-controlled (c/d = 0.375, ACI 318 21.2.2) are not enough
            area = 0.85 * 0.375 * depth_in * 0.85 * 2500 * 12 / 60_000
            assert strength_lb_ft(wall_in, 6, 0.44 * 12 / area) < moment
        else:
            number, spacing_in = (int(part) for part in cell.split("@"))
            assert strength_lb_ft(wall_in, number, spacing_in - 0.5) > moment > plain


def test_more_soil_more_fill_and_less_wall_never_ask_for_less() -> None:
    def severity(cell: str) -> float:
        if cell in ("NR", "DR"):
            return 0 if cell == "NR" else math.inf
        number, spacing_in = (int(part) for part in cell.split("@"))
        return {5: 0.31, 6: 0.44}[number] / spacing_in

    at = {(r["wall_in"], float(r["height_ft"]), float(r["backfill_ft"])): r for r in BASEMENT}
    assert len(at) == 36
    for (wall, height, fill), row in at.items():
        asked = [severity(row[f"soil_{soil}"]) for soil in SOIL]
        assert asked == sorted(asked)
        deeper = at.get((wall, height, fill + 1))
        assert deeper is None or all(severity(deeper[f"soil_{s}"]) >= a for s, a in zip(SOIL, asked, strict=True))


@pytest.mark.parametrize(("wall_in", "height_ft", "fill_ft", "soil"), [(10, 8, 8, 30), (6, 11, 5, 30), (6, 8, 8, 61)])
def test_basement_walls_off_the_tables_are_refused(wall_in, height_ft, fill_ft, soil) -> None:
    with pytest.raises(OutOfScope, match=r"R404\.1\.3\.2"):
        bars.basement_bars(wall_in, height_ft, fill_ft, soil)


def test_a_basement_wall_between_rows_reads_the_next_larger() -> None:
    assert bars.basement_bars(6, 8.5, 6.5, 40) == bars.basement_bars(6, 9, 7, 45)


def test_a_6_inch_stay_in_place_wall_has_bars_where_none_are_required() -> None:
    assert bars.basement_bars_in_form("NR", 6) == (4, 48)  # Table R404.1.3.2(2), note
    assert bars.basement_bars_in_form("NR", 8) is None
    assert bars.basement_bars_in_form("NR", 6, "removable") is None
    assert bars.basement_bars_in_form("6@39", 6) == (6, 39)
    with pytest.raises(OutOfScope, match="design"):
        bars.basement_bars_in_form("DR", 6)


def test_horizontals_of_a_storey_and_of_a_basement() -> None:
    assert str(bars.horizontal_bars()) == "4 #4"  # R608.6.2
    assert bars.basement_horizontal_bars(8).bars == 2  # Table R404.1.3.2(1)
    assert bars.basement_horizontal_bars(9).bars == 3


@pytest.mark.parametrize("number", [4, 5, 6])
@pytest.mark.parametrize("grade_ksi", [40, 60])
def test_laps_are_40_and_60_diameters_up_to_the_whole_inch(number, grade_ksi) -> None:
    assert bars.lap_in(number, grade_ksi * 1000) == math.ceil(number / 8 * grade_ksi)  # Table R608.5.4(1)


@pytest.mark.parametrize(("number", "f_y_psi"), [(7, 60000), (4, 80000)])
def test_laps_the_table_does_not_print_are_refused(number, f_y_psi) -> None:
    with pytest.raises(OutOfScope, match=r"R608\.5\.4"):
        bars.lap_in(number, f_y_psi)
