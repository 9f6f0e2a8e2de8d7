"""Joist, beam and girder ends. Values: IRC 2021 R502.6 to R502.8 and R802.6; IBC 2021 2308.4 unless said otherwise."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import irc_bearing as bearing
from engine.editions import US_2021, US_2024
from engine.errors import BadInput, OutOfScope
from engine.worksheet import CLAUSES

DEPTHS = st.floats(3.5, 24)


@pytest.mark.parametrize(("support", "least_in"), [("wood", 1.5), ("metal", 1.5), ("masonry", 3), ("concrete", 3)])
def test_a_member_bears_as_far_as_what_is_beneath_it_asks(support, least_in) -> None:
    assert bearing.minimum_bearing_in(support) == least_in  # IRC R502.6
    assert bearing.minimum_roof_bearing_in(support) == least_in  # IRC R802.6
    assert bearing.ibc_minimum_joist_bearing_in(support) == least_in  # IBC 2308.4.2.2


def test_bearing_on_an_unknown_material_is_a_bad_input() -> None:
    with pytest.raises(BadInput, match="wood, metal, masonry, concrete"):
        bearing.minimum_bearing_in("foam")


def test_the_building_code_names_no_bearing_of_a_beam_on_wood() -> None:
    assert bearing.ibc_minimum_beam_bearing_in("concrete") == 3  # IBC 2308.4.1
    with pytest.raises(OutOfScope, match=r"2308\.4\.1"):
        bearing.ibc_minimum_beam_bearing_in("wood")


def test_the_bearing_clauses_of_the_building_code_moved_in_2024() -> None:
    citation = CLAUSES[bearing.ibc_minimum_joist_bearing_in].citation
    assert citation.label(US_2021) == "IBC 2021 2308.4.2.2"
    assert citation.label(US_2024) == "IBC 2024 2308.8.2.2"


def test_a_seat_short_of_the_minimum_lacks_the_difference_and_a_long_one_nothing() -> None:
    assert bearing.bearing_shortfall_in(3, 2.5) == 0.5
    assert bearing.bearing_shortfall_in(1.5, 2.5) == 0


@pytest.mark.parametrize(("nominal_in", "length_in"), [(4, 12), (6, 8), (8, 6)])
def test_a_plate_has_48_square_inches_of_nominal_area(nominal_in, length_in) -> None:
    assert bearing.minimum_plate_length_in(nominal_in) == length_in  # IRC R502.6
    assert bearing.plate_area_ok(nominal_in, 2, length_in)
    assert not bearing.plate_area_ok(nominal_in, 2, length_in - 0.1)
    assert not bearing.plate_area_ok(nominal_in, 1, length_in)


@given(st.floats(0.5, 24))
def test_the_shortest_plate_that_is_enough_is_just_enough(nominal_in) -> None:
    length_in = bearing.minimum_plate_length_in(nominal_in)
    assert bearing.plate_area_ok(nominal_in, 2, length_in)
    assert not bearing.plate_area_ok(nominal_in, 2, length_in * 0.999)


def test_a_plate_without_width_is_a_bad_input() -> None:
    with pytest.raises(BadInput, match="b_nom_in"):
        bearing.minimum_plate_length_in(0)


@pytest.mark.parametrize(
    ("depth_in", "end_in", "span_in", "third_in"),
    [(7.25, 1.81, 1.21, 2.42), (9.25, 2.31, 1.54, 3.08), (11.25, 2.81, 1.88, 3.75)],
)
def test_notches_and_holes_keep_to_a_quarter_a_sixth_and_a_third(depth_in, end_in, span_in, third_in) -> None:
    assert bearing.end_notch_limit_in(depth_in) == pytest.approx(end_in, abs=0.005)  # IRC R502.8.1
    assert bearing.span_notch_limit_in(depth_in) == pytest.approx(span_in, abs=0.005)
    assert bearing.notch_length_limit_in(depth_in) == pytest.approx(third_in, abs=0.005)
    assert bearing.hole_limit_in(depth_in) == pytest.approx(third_in, abs=0.005)
    assert bearing.hole_edge_distance_in() == 2


@given(DEPTHS)
def test_an_end_may_be_notched_deeper_than_the_span(depth_in) -> None:
    assert (
        bearing.span_notch_limit_in(depth_in) < bearing.end_notch_limit_in(depth_in) < bearing.hole_limit_in(depth_in)
    )


@pytest.mark.parametrize(
    ("thickness_in", "at_end", "middle_third", "allowed"),
    [(4, False, False, False), (4, True, False, True), (2, False, False, True), (2, False, True, False)],
)
def test_the_tension_face_of_thick_members_is_notched_only_at_the_ends(
    thickness_in, at_end, middle_third, allowed
) -> None:
    assert bearing.tension_notch_allowed(thickness_in, at_end=at_end, middle_third=middle_third) is allowed  # R502.8.1


@pytest.mark.parametrize("restraint", ["full-depth blocking", "full-depth rim", "stud", "other approved"])
def test_a_restrained_end_is_held_and_a_free_one_is_not(restraint) -> None:
    assert bearing.rotation_held(restraint)  # IRC R502.7
    assert not bearing.rotation_held("none")


def test_intermediate_supports_are_held_only_in_high_seismic_categories() -> None:
    assert bearing.rotation_held("none", "C", intermediate=True)
    assert not bearing.rotation_held("none", "D0", intermediate=True)


@pytest.mark.parametrize(("joist", "interval_in"), [("2x12", None), ("2x14", 96), ("deeper than nominal 2x12", 96)])
def test_joists_deeper_than_a_nominal_2x12_are_bridged_every_8_ft(joist, interval_in) -> None:
    assert bearing.bridging_interval_in(bearing.nominal_depth_in(joist)) == interval_in  # IRC R502.7.1


def test_a_joist_without_a_size_is_a_bad_input() -> None:
    with pytest.raises(BadInput, match="2x12"):
        bearing.nominal_depth_in("deep")


def test_joists_that_meet_over_a_support_lap_three_inches_with_three_nails() -> None:
    assert (bearing.minimum_joist_lap_in(), bearing.minimum_lap_nails()) == (3, 3)  # IRC R502.6.1


def test_a_drawing_may_ask_for_more_bearing_and_never_for_less() -> None:
    assert bearing.drawn_bearing_in(3.5, "wood") == 3.5  # IRC R502.11 (2024: R502.12)
    assert bearing.drawn_bearing_in(1.25, "concrete") == 3
    citation = CLAUSES[bearing.drawn_bearing_in].citation
    assert (citation.label(US_2021), citation.label(US_2024)) == ("IRC 2021 R502.11", "IRC 2024 R502.12")


def test_engineered_wood_is_cut_only_as_its_maker_allows() -> None:
    assert not bearing.engineered_cut_allowed(allowed_by_maker_or_designer=False)  # IRC R502.8.2
    assert bearing.engineered_cut_allowed(allowed_by_maker_or_designer=True)
