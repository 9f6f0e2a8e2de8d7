"""The published residential cases agree, and the tables they are read from are whole and in order."""

from collections import Counter
from importlib.resources import files

import pytest

from engine import tables
from engine.proving import read_cases, run

CASES = read_cases(files("engine.proving").joinpath("cases/residential.json").read_text(encoding="utf-8"))
HEADERS = {
    "irc_r608_9": ("table", "bolt_in", "tie_in", "115", "120", "130", "140", "150", "160"),
    "irc_r608_6_1": ("speed_b_mph", "height_ft", "top", "side", "provenance"),
    "irc_r404_1_3_2": ("wall_in", "height_ft", "backfill_ft", "soil_30", "soil_45", "soil_60", "provenance"),
    "irc_r608_exposures": ("b", "c", "d"),
    "irc_r703_8": ("sdc", "stories", "height_ft", "height_backed_ft", "gable_extra_ft", "thickness_in", "weight_psf"),
    "obc_9_20_17_5": ("clear_span_m", "bolt_12.7", "bolt_16"),
}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_a_published_residential_case_agrees(case) -> None:
    outcome = run(case)
    assert outcome.verdict == "agree", outcome.reason


@pytest.mark.parametrize("name", list(HEADERS))
def test_a_table_has_its_columns_and_no_row_twice(name) -> None:
    table = tables.load(name)
    assert table.columns == HEADERS[name]
    assert max(Counter(tuple(row.values()) for row in table.rows).values()) == 1


@pytest.mark.parametrize(
    ("name", "keys"),
    [
        ("irc_r608_9", ("table", "bolt_in", "tie_in")),
        ("irc_r608_6_1", ("speed_b_mph", "height_ft")),
        ("irc_r404_1_3_2", ("wall_in", "height_ft", "backfill_ft")),
        ("irc_r608_exposures", ("b",)),
        ("obc_9_20_17_5", ("clear_span_m",)),
    ],
)
def test_a_table_is_in_the_order_of_its_rows(name, keys) -> None:
    found = [tuple(float(row[key]) for key in keys) for row in tables.load(name).rows]
    assert found == sorted(set(found))
