"""Tables of bars, sheet steel and tolerances: pedigree, order, and figures that hang together."""

from itertools import pairwise
from math import pi

import pytest

from engine.clauses.us import bars, sheet_steel, tolerances
from engine.errors import BadInput, OutOfScope
from engine.tables import load

COLUMNS = {
    "bars": ("bar", "diameter_in", "area_in2", "weight_plf", "provenance"),
    "bars_metric": ("bar", "inch_pound", "diameter_mm", "area_mm2", "mass_kg_per_m", "provenance"),
    "bars_canada": ("bar", "diameter_mm", "area_mm2", "mass_kg_per_m", "provenance"),
    "sheet_steel": ("gauge", "uncoated_in", "galvanized_in"),
    "framing_steel": ("mil", "design_in", "minimum_in"),
    "tolerances": ("key", "item", "plus_in", "minus_in", "source", "provenance"),
    "anchor_bolt_tolerances": ("to_diameter_in", "location_in", "provenance"),
}


@pytest.mark.parametrize("name", COLUMNS)
def test_a_table_says_where_it_comes_from_and_keeps_its_columns(name: str) -> None:
    table = load(name)
    assert table.columns == COLUMNS[name]
    for row in table.rows:
        assert row.get("provenance", table.pedigree["provenance"]) in ("read", "memory", "common practice")


def test_bars_grow_with_their_number() -> None:
    sizes = list(bars.bars().values())
    for small, large in pairwise(sizes):
        assert small.number < large.number
        assert small.d_b_in < large.d_b_in
        assert small.A_b_in2 < large.A_b_in2


def test_a_bar_weighs_its_area_in_steel() -> None:
    """490 pcf of the exact circle, as the table's own weights are."""
    for size in bars.bars().values():
        circle = pi * size.d_b_in**2 / 4
        assert size.A_b_in2 == pytest.approx(circle, rel=0.03, abs=0.005)
        assert size.weight_plf == pytest.approx(490 / 144 * circle, rel=0.006)


@pytest.mark.parametrize("series", ["bars_canada", "bars_metric"])
def test_a_metric_bar_has_the_mass_of_its_area(series: str) -> None:
    for size in bars.metric_bars(series).values():
        circle = pi * size.diameter_mm**2 / 4
        assert size.area_mm2 == pytest.approx(circle, rel=0.03)
        assert size.mass_kg_per_m == pytest.approx(7850e-6 * size.area_mm2, rel=0.03)


def test_a_soft_metric_bar_is_the_inch_pound_bar_it_names() -> None:
    for row in load("bars_metric").rows:
        assert float(row["diameter_mm"]) == pytest.approx(25.4 * bars.bar(row["inch_pound"]).d_b_in, abs=0.06)


def test_zinc_adds_the_same_to_every_gauge_and_counts_for_nothing() -> None:
    last = 1.0
    for gauge, steel in sheet_steel.gauges().items():
        assert steel.uncoated_in < last
        assert 0.0036 < steel.galvanized_in - steel.uncoated_in < 0.00385
        assert sheet_steel.base_metal_in(gauge) == steel.uncoated_in
        last = steel.uncoated_in
    with pytest.raises(BadInput, match="from 10 to 22"):
        sheet_steel.sheet(9)


def test_framing_steel_is_delivered_at_95_percent_of_its_design_thickness() -> None:
    for mil, steel in sheet_steel.mils().items():
        assert steel.minimum_in == pytest.approx(0.95 * steel.design_in, abs=0.00006)
        assert steel.minimum_in * 1000 == pytest.approx(mil, abs=0.5)


def test_a_wall_core_may_be_thinner_than_thicker_at_home() -> None:
    """IRC R608.3: 1/2 in less, 1/4 in more; ACI 117: 1/4 in less, 3/8 in more to 12 in."""
    home, work = tolerances.tolerance("core-residential"), tolerances.tolerance("wall-thickness-12")
    assert (home.minus_in, home.plus_in) == (0.5, 0.25)
    assert (work.minus_in, work.plus_in, work.max_in) == (0.25, 0.375, 0.375)
    with pytest.raises(BadInput, match="Known"):
        tolerances.tolerance("moon")


def test_a_larger_anchor_bolt_may_stand_farther_off() -> None:
    assert [tolerances.anchor_bolt_tolerance_in(d) for d in (0.5, 0.75, 0.875, 1.25, 2.5)] == [
        0.25,
        0.25,
        0.25,
        0.375,
        0.5,
    ]
    with pytest.raises(OutOfScope, match="2 1/2 in"):
        tolerances.anchor_bolt_tolerance_in(3.0)


def test_a_storey_is_plumb_within_three_per_thousand() -> None:
    assert tolerances.plumb_tolerance_in(108) == pytest.approx(0.324)
    assert tolerances.plumb_tolerance_in(1200) == 1.0
