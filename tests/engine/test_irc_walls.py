"""Prescriptive concrete walls: limits, section and mix. Values: IRC 2021 R404.1, R608.2 to R608.8."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import irc_scope as scope
from engine.clauses.us import irc_walls as walls
from engine.errors import BadInput, OutOfScope

INSIDE = {
    "plan_ft": 60,
    "floor_span_ft": 32,
    "roof_span_ft": 40,
    "mean_roof_ft": 35,
    "stories": 2,
    "floor_dead_psf": 10,
}
INSIDE |= {"roof_dead_psf": 15, "attic_live_psf": 20, "overhang_ft": 2, "overhang_dead_psf": 8}  # R608.2


def test_a_building_at_every_limit_is_inside() -> None:
    assert scope.r608_limits_exceeded(**INSIDE, speed_mph=160, exposure="B", sdc="C") == ()


@pytest.mark.parametrize("key", sorted(INSIDE))
def test_a_building_beyond_one_limit_is_outside_by_that_one_alone(key) -> None:
    beyond = scope.r608_limits_exceeded(**(INSIDE | {key: INSIDE[key] + 1}))
    assert len(beyond) == 1
    assert f"> {INSIDE[key]}" in beyond[0]


def test_a_floor_span_of_33_ft_is_named() -> None:
    assert scope.r608_limits_exceeded(floor_span_ft=33) == ("floor span > 32 ft",)


@pytest.mark.parametrize(("exposure", "most_mph"), [("B", 160), ("C", 136), ("D", 125)])
def test_wind_ends_at_the_exposures_own_speed(exposure, most_mph) -> None:
    assert not scope.r608_limits_exceeded(speed_mph=most_mph, exposure=exposure)
    assert scope.r608_limits_exceeded(speed_mph=most_mph + 1, exposure=exposure)


@pytest.mark.parametrize(
    ("building", "sdc", "inside"),
    [("detached", "C", True), ("townhouse", "C", False), ("townhouse", "B", True), ("detached", "D0", False)],
)
def test_townhouses_end_at_seismic_category_b_and_houses_at_c(building, sdc, inside) -> None:
    assert (not scope.r608_limits_exceeded(building=building, sdc=sdc)) is inside


def test_an_unknown_exposure_is_a_bad_input() -> None:
    with pytest.raises(BadInput, match="exposure"):
        scope.r608_limits_exceeded(exposure="A")


@pytest.mark.parametrize(
    ("fill_in", "supported", "hydrostatic", "asked"),
    [(48, False, False, False), (49, False, False, True), (49, True, False, False), (10, True, True, True)],
)
def test_unsupported_fill_over_48_inches_asks_for_design(fill_in, supported, hydrostatic, asked) -> None:
    found = scope.retaining_design_required(fill_in, supported=supported, hydrostatic=hydrostatic)
    assert found is asked  # R404.1.1


@pytest.mark.parametrize(("height_in", "step_in", "thick"), [(24, 4, True), (24, 4.5, False), (25, 4, False)])
def test_the_thick_part_chooses_the_bars_only_of_a_low_small_shelf(height_in, step_in, thick) -> None:
    assert scope.bars_by_thick_part(height_in, step_in) is thick  # R404.1.5.2


def test_a_thin_part_is_no_thinner_than_the_wall_above_it() -> None:
    assert scope.shelf_thickness_ok(6, 6)  # R404.1.5.2
    assert not scope.shelf_thickness_ok(4, 6)


def test_corbels_and_beams_on_lintels_are_left_to_design() -> None:
    assert not scope.projection_tables_apply(projection=True)  # R404.1.5.2
    assert scope.projection_tables_apply(projection=False)
    assert not scope.lintel_prescriptive(concentrated=True)  # R608.8.2
    assert scope.lintel_prescriptive(concentrated=False)


def test_a_wall_stands_lower_above_grade_behind_masonry_veneer() -> None:
    assert scope.wall_top_above_grade_in(masonry_veneer=True) == 4  # R404.1.6
    assert scope.wall_top_above_grade_in(masonry_veneer=False) == 6


def test_a_6_inch_wall_is_built_between_5_and_a_half_and_6_and_a_quarter() -> None:
    assert walls.as_built_thickness_in(6) == (5.5, 6.25)  # Table R608.3 note c


@pytest.mark.parametrize(("thickness_in", "weight_psf"), [(4, 50), (6, 75), (8, 100), (10, 125)])
def test_flat_walls_weigh_what_the_table_prints(thickness_in, weight_psf) -> None:
    assert walls.wall_weight_psf(150, thickness_in) == weight_psf  # Table R608.3


@pytest.mark.parametrize(
    ("weathering", "sdc", "exposed", "foundation", "least_psi"),
    [
        ("negligible", "B", True, False, 2500),
        ("moderate", "B", True, False, 3000),
        ("severe", "B", True, True, 3000),
        ("severe", "B", False, False, 2500),
        ("negligible", "D1", True, True, 3000),
        ("negligible", "D1", True, False, 2500),
    ],
)
def test_weather_and_earthquakes_ask_for_stronger_concrete(weathering, sdc, exposed, foundation, least_psi) -> None:
    least = walls.minimum_f_c_psi(weathering, sdc, exposed=exposed, foundation=foundation)
    assert least == least_psi  # R608.5.1.5, Table R402.2, R404.1.3.3.1


@pytest.mark.parametrize(("slump_in", "stay"), [(5, False), (6, False), (6.5, True)])
def test_the_slump_rule_turns_round_with_the_form(slump_in, stay) -> None:
    assert walls.slump_ok(slump_in) is stay  # R608.5.1.4
    assert walls.slump_ok(slump_in, "removable") is not stay


def test_only_self_consolidating_concrete_goes_without_vibration() -> None:
    assert walls.vibration_required(8, self_consolidating=False)
    assert walls.vibration_required(7, self_consolidating=True)
    assert not walls.vibration_required(8, self_consolidating=True)


@pytest.mark.parametrize(("form_in", "aggregate_in"), [(4, 0.8), (6, 1.2), (8, 1.6)])
def test_aggregate_is_a_fifth_of_the_form_and_three_quarters_of_the_space(form_in, aggregate_in) -> None:
    assert walls.aggregate_by_form_in(form_in) == pytest.approx(aggregate_in)  # R608.5.1.3
    assert walls.aggregate_by_bars_in(2) == 1.5


def test_cover_in_stay_in_place_forms_may_fall_a_quarter_inch_short() -> None:
    assert walls.minimum_cover_in() == 0.75  # R608.5.4.1
    assert walls.cover_tolerance_in(0.75) == 0.25
    assert walls.cover_tolerance_in(2) == 0.375
    with pytest.raises(OutOfScope, match=r"R608\.5\.4\.1"):
        walls.minimum_cover_in("removable")


@pytest.mark.parametrize(("wall_in", "offset_in"), [(3, 0.375), (4, 0.4), (6, 0.6), (8, 0.8)])
def test_bars_stand_near_the_middle_of_the_wall(wall_in, offset_in) -> None:
    assert walls.bar_offset_in(wall_in) == pytest.approx(offset_in)  # R608.6.5


@pytest.mark.parametrize(
    ("a_in", "b_in", "edge_in", "allowed"),
    [(6.5, 12.375, 12, False), (4.8, 6.25, 6, False), (4.7, 6.25, 6, True), (6.3, 4, 12, False), (4, 4, 5.9, False)],
)
def test_a_pocket_may_void_a_required_wall_segment(a_in, b_in, edge_in, allowed) -> None:
    assert walls.opening_in_segment_allowed(a_in, b_in, edge_in) is allowed  # R608.7.2


@given(st.floats(0.1, 40), st.floats(0.1, 40), st.floats(0, 40))
def test_turning_an_opening_changes_nothing(a_in, b_in, edge_in) -> None:
    assert walls.opening_in_segment_allowed(a_in, b_in, edge_in) == walls.opening_in_segment_allowed(
        b_in, a_in, edge_in
    )


@pytest.mark.parametrize(("section", "depth_in"), [("flat", 8), ("waffle", 8), ("screen", 12)])
def test_wide_openings_have_concrete_over_them(section, depth_in) -> None:
    assert walls.depth_over_opening_in(section, 2) == depth_in  # R608.8.1
    assert walls.depth_over_opening_in(section, 1.9) == 0
