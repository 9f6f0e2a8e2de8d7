"""Distances of dowels from edges, ends and each other."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import timber_geometry as geometry
from engine.errors import BadInput

diameters = st.floats(0.25, 1.0)


# NDS 2024 Table 12.5.1C, 12.5.1.3, second-hand: 1/2 in bolt, 2.0 in loaded, 0.75 in unloaded edge, 5 in between outer rows.
def test_a_ledger_bolt_keeps_four_diameters_from_the_top_and_one_and_a_half_from_the_bottom() -> None:
    assert geometry.loaded_edge_in(0.5) == 2.0
    assert geometry.unloaded_edge_in(0.5) == 0.75
    assert geometry.outer_rows_limit_in(dry_glulam=False) == 5.0
    assert geometry.outer_rows_limit_in(dry_glulam=True) == 10.0


# NDS 2018 Tables 12.5.1A to D, recalled (7 D read second-hand).
def test_ends_and_spacings_are_counted_in_diameters() -> None:
    D = 0.625
    assert geometry.end_full_in(D) == 2.5
    assert geometry.end_least_in(geometry.end_full_in(D)) == 1.25
    assert geometry.end_tension_full_in(D, hardwood=False) == 4.375
    assert geometry.end_tension_full_in(D, hardwood=True) == 3.125
    assert geometry.spacing_full_in(D) == 2.5
    assert geometry.spacing_least_in(D) == 1.875
    assert geometry.row_spacing_parallel_in(D) == 0.9375


def test_edges_along_the_grain_grow_with_slender_dowels_in_wide_rows() -> None:
    assert geometry.edge_parallel_in(0.5, 3.0, 4.0) == 0.75  # l/D = 6
    assert geometry.edge_parallel_in(0.5, 3.5, 4.0) == 2.0  # half the row spacing
    assert geometry.edge_parallel_in(0.5, 3.5, 0.0) == 0.75


@pytest.mark.parametrize(
    ("l_over_D", "in_diameters"), [(1, 2.5), (2, 2.5), (3, 3.125), (4, 3.75), (5.9, 4.9375), (6, 5), (12, 5)]
)
def test_rows_across_the_grain_stand_further_apart_where_dowels_are_slender(l_over_D, in_diameters) -> None:
    assert geometry.row_spacing_perpendicular_in(0.5, l_over_D * 0.5) == pytest.approx(in_diameters * 0.5, rel=1e-12)


@given(diameters, st.floats(0.1, 12), st.floats(0.1, 12))
def test_row_spacing_never_falls_with_slenderness(D, one, other) -> None:
    short, long = sorted((one, other))
    at = geometry.row_spacing_perpendicular_in
    assert at(D, short * D) <= at(D, long * D) * (1 + 1e-9)


# NDS Commentary C12.1.5.7, recalled: No. 10 screw, 0.190 in.
@pytest.mark.parametrize(
    ("item", "steel", "lead", "in_diameters"),
    [
        ("end tension", False, False, 15),
        ("end tension", False, True, 10),
        ("end compression", False, True, 5),
        ("edge", False, False, 2.5),
        ("edge", True, True, 2.5),
        ("along", False, False, 15),
        ("along", True, True, 5),
        ("across in line", True, False, 5),
        ("across in line", False, True, 3),
        ("across staggered", True, True, 2.5),
    ],
)
def test_small_screws_follow_the_practice_against_splitting(item, steel, lead, in_diameters) -> None:
    assert geometry.small_dowel_distance_in(item, 0.190, steel, lead) == pytest.approx(in_diameters * 0.190, rel=1e-12)


def test_a_lead_hole_or_a_steel_plate_never_asks_for_more_room() -> None:
    at = geometry.small_dowel_distance_in
    for item in ("end tension", "end compression", "edge", "along", "across in line", "across staggered"):
        for steel in (False, True):
            assert at(item, 0.2, steel, True) <= at(item, 0.2, steel, False)
        assert at(item, 0.2, True, False) <= at(item, 0.2, False, False)


def test_the_practice_for_small_screws_ends_at_a_quarter_inch() -> None:
    with pytest.raises(BadInput, match=r"12\.5\.1"):
        geometry.small_dowel_distance_in("edge", 0.25, True, True)
    with pytest.raises(BadInput, match="across in line"):
        geometry.small_dowel_distance_in("diagonal", 0.19, True, True)


def test_gravity_and_in_plane_shear_make_one_inclined_load() -> None:
    assert geometry.resultant_lb(300, 400) == 500
    assert geometry.load_to_grain_deg(300, 0) == 90
    assert geometry.load_to_grain_deg(0, 400) == 0
    assert geometry.load_to_grain_deg(400, 400) == pytest.approx(45)
