"""Sill plates on concrete. Values: IRC 2021 R403.1.6, R602.11; IBC 2021 2308.3.1."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import irc_sills as sills
from engine.editions import US_2021, US_2024
from engine.errors import BadInput
from engine.worksheet import CLAUSES

END_IN = 12


def bolts_by_walking(length_in: int, spacing_in: int) -> int:
    """As few bolts as can be, found by walking: the first as far in as allowed, each next as far on as allowed."""
    place, bolts = END_IN, 1
    while place < length_in - END_IN:
        place += spacing_in
        bolts += 1
    return max(2, bolts)


@given(st.integers(1, 600), st.integers(6, 96))
def test_the_bolt_count_is_the_fewest_that_can_be_placed(length_in, spacing_in) -> None:
    assert sills.sill_bolt_count(length_in, spacing_in) == bolts_by_walking(length_in, spacing_in)


@given(st.floats(25, 480), st.floats(6, 96))
def test_that_many_bolts_spread_evenly_keep_both_rules(length_in, spacing_in) -> None:
    bolts = sills.sill_bolt_count(length_in, spacing_in)
    gap_in = (length_in - 2 * END_IN) / (bolts - 1)
    assert gap_in <= spacing_in * (1 + 1e-6)


@pytest.mark.parametrize(
    ("length_in", "spacing_in", "bolts"), [(24, 72, 2), (96, 72, 2), (144, 72, 3), (192, 72, 4), (192, 48, 5)]
)
def test_published_plates_need_that_many_bolts(length_in, spacing_in, bolts) -> None:
    assert sills.sill_bolt_count(length_in, spacing_in) == bolts  # derived from IRC R403.1.6, R403.1.6.1


def test_a_length_typed_in_millimetres_gains_no_bolt_from_rounding() -> None:
    assert sills.sill_bolt_count(2438.4000000001 / 25.4, 72) == 2


def test_a_plate_without_length_or_spacing_is_a_bad_input() -> None:
    with pytest.raises(BadInput, match="L_in"):
        sills.sill_bolt_count(0, 72)
    with pytest.raises(BadInput, match="s_in"):
        sills.sill_bolt_count(96, -1)


@pytest.mark.parametrize(("diameter_in", "nearest_in"), [(0.5, 3.5), (0.625, 4.375), (0.75, 5.25)])
def test_the_end_bolt_stands_seven_diameters_to_twelve_inches_from_the_end(diameter_in, nearest_in) -> None:
    assert sills.end_distance_window_in(diameter_in) == (nearest_in, 12)  # IRC R403.1.6
    assert sills.end_distance_window_in(diameter_in, "IBC") == (4, 12)  # IBC 2308.3.1


def test_the_sill_clause_of_the_building_code_moved_in_2024() -> None:
    citation = CLAUSES[sills.ibc_minimum_end_distance_in].citation
    assert (citation.label(US_2021), citation.label(US_2024)) == ("IBC 2021 2308.3.1", "IBC 2024 2308.7.1")


@pytest.mark.parametrize(
    ("width_in", "low_in", "high_in"), [(3.5, 1.167, 2.333), (5.5, 1.833, 3.667), (7.25, 2.417, 4.833)]
)
def test_bolts_stand_in_the_middle_third_of_the_plate(width_in, low_in, high_in) -> None:
    assert sills.middle_third_in(width_in) == pytest.approx((low_in, high_in), abs=5e-4)  # IRC R403.1.6


@pytest.mark.parametrize(("length_in", "bolts"), [(12, 0), (12.5, 1), (24, 1), (24.5, None)])
def test_short_walls_between_offset_panels_need_one_bolt_or_none(length_in, bolts) -> None:
    assert sills.short_wall_bolts(length_in) == bolts  # IRC R403.1.6 exceptions


def test_the_least_bolt_is_half_an_inch_seven_inches_deep_at_six_feet() -> None:
    assert sills.sill_bolt() == (0.5, 7, 72, 2)  # IRC R403.1.6
    assert sills.sill_bolt("E", "IBC").diameter_in == 0.625  # IBC 2308.3.1


@pytest.mark.parametrize(
    ("sdc", "stories", "building", "spacing_in"),
    [
        ("D1", 3, "detached", 48),
        ("D1", 2, "detached", 72),
        ("C", 3, "townhouse", 48),
        ("C", 3, "detached", 72),
        ("B", 3, "townhouse", 72),
    ],
)
def test_tall_buildings_in_high_seismic_categories_are_bolted_at_four_feet(sdc, stories, building, spacing_in) -> None:
    assert sills.sill_bolt_spacing_in(sdc, stories, building) == spacing_in  # IRC R403.1.6.1
    assert sills.ibc_sill_bolt_spacing_in(stories) == (48 if stories > 2 else 72)  # IBC 2308.3.1


def test_plate_washers_are_asked_where_braced_lines_meet_high_seismic_categories() -> None:
    assert sills.plate_washer_required("D0")  # IRC R403.1.6.1
    assert sills.plate_washer_required("C", "townhouse")
    assert not sills.plate_washer_required("C", "detached")
    assert not sills.plate_washer_required("D0", braced_line=False)
    assert sills.plate_washer() == (0.229, 3, 3, 0.1875, 1.75)  # IRC R602.11.1


def test_bolts_at_a_step_stand_one_to_three_feet_from_it() -> None:
    assert sills.step_bolts() == (1, 3, 4, 8)  # IRC R602.11.2


def test_a_sill_plate_is_at_least_a_nominal_2x4() -> None:
    assert sills.sill_plate_ok(2, 4)  # IRC R404.3
    assert not sills.sill_plate_ok(2, 3)
    assert not sills.sill_plate_ok(1, 6)
