"""Projected areas against a general geometry library, and against areas a ruler gives."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import unary_union
from shapely.geometry import box

from engine.clauses.us.anchors_area import (
    chains,
    clusters,
    covered_length,
    projected_shear_area_in2,
    projected_tension_area_in2,
    union_area,
)

place = st.floats(-40, 40).map(lambda v: round(v, 3))
size = st.floats(0, 20).map(lambda v: round(v, 3))
points = st.lists(st.tuples(place, place), min_size=1, max_size=9)
far = 1e6


def edge(low: float, high: float) -> st.SearchStrategy[float | None]:
    return st.one_of(st.none(), st.floats(low, high).map(lambda v: round(v, 3)))


@given(st.lists(st.tuples(place, size, place, size), max_size=10))
def test_a_union_of_rectangles_has_the_area_a_geometry_library_finds(made: list[tuple[float, ...]]) -> None:
    rects = [(x, x + w, y, y + h) for x, w, y, h in made]
    expected = unary_union([box(x1, y1, x2, y2) for x1, x2, y1, y2 in rects]).area
    assert union_area(rects) == pytest.approx(expected, rel=1e-9, abs=1e-9)


@given(points, st.floats(1, 25), edge(-60, -40), edge(40, 60), edge(-60, -40), edge(40, 60))
def test_a_cone_is_the_union_of_squares_within_whatever_edges_there_are(positions, h_ef, x1, x2, y1, y2) -> None:
    concrete = box(*(-far if v is None else v for v in (x1, y1)), *(far if v is None else v for v in (x2, y2)))
    r = 1.5 * h_ef
    expected = unary_union([box(x - r, y - r, x + r, y + r).intersection(concrete) for x, y in positions]).area
    xs, ys = [x for x, _ in positions], [y for _, y in positions]
    assert projected_tension_area_in2(xs, ys, h_ef, x1, x2, y1, y2) == pytest.approx(expected, rel=1e-9)


@given(points, st.floats(1, 25))
def test_a_cone_never_exceeds_as_many_full_cones_as_there_are_anchors(positions, h_ef) -> None:
    xs, ys = [x for x, _ in positions], [y for _, y in positions]
    area = projected_tension_area_in2(xs, ys, h_ef, None, None, None, None)
    assert area <= len(positions) * 9 * h_ef**2 * (1 + 1e-12)


@given(st.lists(place, min_size=1, max_size=6), st.floats(0.5, 20), edge(-60, -41), edge(41, 60), edge(1, 40))
def test_a_prism_is_a_length_along_the_edge_times_a_depth(u, c_a1, low, high, h_a) -> None:
    r = 1.5 * c_a1
    concrete = box(-far if low is None else low, 0, far if high is None else high, far if h_a is None else h_a)
    expected = unary_union([box(x - r, 0, x + r, r).intersection(concrete) for x in u]).area
    assert projected_shear_area_in2(u, c_a1, low, high, h_a) == pytest.approx(expected, rel=1e-9)


def test_the_cone_of_four_rods_15_in_deep_and_4_in_apart_is_49_in_square() -> None:
    # Design Guide 1, 3rd ed. 2024, Example 4.7-3: A_Nc = 2,400 in² (three figures)
    assert projected_tension_area_in2((0, 4, 0, 4), (0, 0, 4, 4), 15, None, None, None, None) == 49**2


def test_an_anchor_in_a_slot_between_three_faces_keeps_only_the_concrete_there_is() -> None:
    # by ruler: 2 in to the left, 9 in (1.5 h_ef) to the right, 3 in below and 4 in above
    assert projected_tension_area_in2((0,), (0,), 6, -2, None, -3, 4) == (2 + 9) * (3 + 4)


def test_cones_that_only_touch_at_a_corner_share_nothing() -> None:
    assert projected_tension_area_in2((0, 12), (0, 12), 4, None, None, None, None) == 2 * 9 * 16


def test_covered_length_counts_an_overlap_once_and_an_empty_interval_not_at_all() -> None:
    assert covered_length([(0, 3), (2, 5), (7, 7), (9, 8)]) == 5


@given(st.lists(place, max_size=9, unique=True), st.floats(0.1, 20))
def test_chains_part_exactly_where_a_gap_reaches_the_limit(u, reach) -> None:
    found = chains(range(len(u)), u, reach)
    assert sorted(i for chain in found for i in chain) == list(range(len(u)))
    for chain in found:
        assert all(u[b] - u[a] < reach for a, b in pairwise(chain))
    for before, after in pairwise(found):
        assert u[after[0]] - u[before[-1]] >= reach


@given(st.lists(st.tuples(place, place), min_size=1, max_size=9, unique=True), st.floats(0.5, 30))
def test_anchors_in_different_clusters_are_never_linked(positions, reach) -> None:
    assume(len(positions) > 1)

    def linked(i: int, j: int) -> bool:
        return math.dist(positions[i], positions[j]) < reach

    found = clusters(len(positions), linked)
    assert sorted(i for c in found for i in c) == list(range(len(positions)))
    for number, one in enumerate(found):
        for other in found[number + 1 :]:
            assert not any(linked(i, j) for i in one for j in other)
