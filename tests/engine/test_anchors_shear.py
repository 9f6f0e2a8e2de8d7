"""Cast-in anchors in shear: published figures, hand formulas, rows and corners, and tension with shear."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.clauses.us import anchors_shear as v
from engine.clauses.us.anchors_group import share_shear
from engine.clauses.us.anchors_lines import interaction_line, shear_lines, tension_lines
from engine.clauses.us.anchors_materials import head, steel
from engine.clauses.us.anchors_model import AnchorGroup
from engine.errors import BadInput
from engine.result import LimitState, Verdict
from engine.worksheet import Worksheet
from tests.engine.anchor_examples import by_key, group, mirrored

distance = st.floats(1.5, 40).map(lambda c: round(c, 2))
maybe = st.one_of(st.none(), distance)
SQUARE = ((0.0, 0.0), (6.0, 0.0), (0.0, 6.0), (6.0, 6.0))
EDGES = ("c_x1_in", "c_x2_in", "c_y1_in", "c_y2_in")


def lines(of: AnchorGroup, V_x: float = 0.0, V_y: float = 0.0, T: float = 0.0) -> dict[str, LimitState]:
    return by_key(shear_lines(Worksheet(), of, share_shear(of.positions_in, V_x, V_y, T)))


def capacity(of: AnchorGroup, key: str, V_x: float = 0.0, V_y: float = 0.0) -> float:
    value = lines(of, V_x, V_y)[key].capacity
    assert value is not None
    return value


def basic(c: float, f_c: float = 3000.0, d_a: float = 0.625, l_e: float = 5.0) -> float:
    """V_b by hand, 17.7.2.2.1."""
    return min(7 * (l_e / d_a) ** 0.2 * math.sqrt(d_a), 9) * math.sqrt(f_c) * c**1.5


# Hand formulas: a 5/8 in bolt 7 in deep in 2,500 psi near the room face of a ledge (own arithmetic)
def test_a_ledge_bolt_pushed_toward_the_room_face_carries_680_lb_at_an_inch_and_three_quarters() -> None:
    bolt = group(f_c_psi=2500.0, c_y1_in=1.75)
    assert capacity(bolt, "shear-y1", V_y=-1) == pytest.approx(0.70 * basic(1.75, 2500))
    assert capacity(bolt, "shear-y1", V_y=-1) == pytest.approx(680, abs=1)
    assert capacity(bolt, "shear-along-y1", V_x=1) == pytest.approx(1359, abs=1)
    assert capacity(replace(bolt, c_y1_in=2.75), "shear-y1", V_y=-1) / 0.70 == pytest.approx(1910, abs=5)


def test_a_bolt_pushed_away_from_an_edge_is_not_checked_toward_it() -> None:
    assert "shear-y1" not in lines(group(c_y1_in=2.0), V_y=1)
    assert set(lines(group(), V_y=1)) == {"steel-shear", "pryout"}


def test_the_pryout_factor_falls_from_two_to_one_below_two_and_a_half_inches() -> None:
    # f'c 3,000: 4.9 kip at 2.4 in, 11.0 kip at 2.6 in
    shallow, deep = group(h_ef_in=2.4), group(h_ef_in=2.6)
    assert capacity(shallow, "pryout", V_y=1) / 0.70 == pytest.approx(4900, abs=50)
    assert capacity(deep, "pryout", V_y=1) / 0.70 == pytest.approx(11000, abs=50)
    assert v.pryout_factor(2.5) == 2.0


def test_todays_code_caps_the_basic_strength_that_the_2007_example_did_not() -> None:
    # ACI 349.2R-07 Example A3: 25.20 kip by the 2005 equations; 318-19 expression (b) gives 9 sqrt(4000) 12^1.5 = 23.66 kip
    stud = group(
        d_a_in=0.625, steel=steel("stud"), head=head("stud", 0.625), h_ef_in=6.63, f_c_psi=4000.0,
        c_x1_in=12.0, c_y1_in=20.0, h_a_in=18.0,
    )  # fmt: skip
    by_stud = v.basic_shear_by_stud_lb(5.0, 0.625, 1.0, 4000, 12)
    assert by_stud == pytest.approx(25203, abs=1)
    assert v.basic_shear_lb(by_stud, v.basic_shear_limit_lb(1.0, 4000, 12)) == pytest.approx(23660, abs=5)
    assert capacity(stud, "shear-x1", V_x=-1) / 0.70 == pytest.approx(7 / 8 * 25203, abs=1)


def test_two_front_rods_of_a_close_group_take_the_whole_shear() -> None:
    # Design Guide 1, 3rd ed. 2024, Example 4.7-4: 4 in < c_a1 = 12 in, V_cbg 26.3 kip
    rods = group(
        (0, 0), (4, 0), (0, 4), (4, 4), d_a_in=0.75, h_ef_in=12.0, f_c_psi=4000.0,
        c_y2_in=12.0, c_x1_in=18.0, c_x2_in=18.0, h_a_in=18.0,
    )  # fmt: skip
    line = lines(rods, V_y=10000)["shear-y2"]
    assert line.demand == pytest.approx(10000)
    assert line.capacity / 0.70 == pytest.approx(26300, abs=50)
    area = next(s.result for s in line.steps if s.function.__name__ == "projected_shear_area_in2")
    assert area == 720


# Rows: Fig. R17.7.2.1b
def test_rows_their_edge_distance_apart_share_and_then_the_back_row_takes_all() -> None:
    rows = group((0, 0), (0, 6), c_y1_in=5.0)
    line = lines(rows, V_y=-1000)["shear-y1"]
    front, back = 0.70 * basic(5.0), 0.70 * basic(11.0)
    assert max(500 / front, 1000 / back) == pytest.approx(line.ratio)
    assert line.demand == pytest.approx(500 if 500 / front > 1000 / back else 1000)


def test_crowded_rows_put_everything_on_the_front_row() -> None:
    line = lines(group((0, 0), (0, 6), c_y1_in=6.5), V_y=-1000)["shear-y1"]
    assert line.demand == pytest.approx(1000)
    assert line.capacity == pytest.approx(0.70 * basic(6.5))


def test_of_three_rows_far_apart_each_is_checked_with_the_rows_before_it_gone() -> None:
    rows = group((0, 0), (0, 4), (0, 8), c_y1_in=3.0)
    parts = [1000 / 3 / basic(3.0), 1000 / basic(7.0)]  # the third row is nearer the second than 7 in
    assert lines(rows, V_y=-1000)["shear-y1"].ratio == pytest.approx(max(parts) / 0.70)


def test_the_named_jump_rows_become_crowded_as_the_edge_moves_past_their_spacing() -> None:
    before, after = group((0, 0), (0, 6), c_y1_in=6.0), group((0, 0), (0, 6), c_y1_in=6.01)
    assert lines(before, V_y=-1)["shear-y1"].ratio < 0.6 * lines(after, V_y=-1)["shear-y1"].ratio


def test_anchors_along_an_edge_farther_apart_than_three_edge_distances_break_alone() -> None:
    pair = group((0, 0), (12.1, 0), c_y1_in=4.0)
    line = lines(pair, V_y=-1000)["shear-y1"]
    assert line.demand == pytest.approx(500)
    assert line.capacity == pytest.approx(0.70 * basic(4.0))
    near = lines(group((0, 0), (11.9, 0), c_y1_in=4.0), V_y=-1000)["shear-y1"]
    assert near.demand == pytest.approx(1000)
    assert near.capacity == pytest.approx(0.70 * basic(4.0) * 23.9 / 12)


def test_the_near_column_carries_its_share_along_an_edge_without_edge_effect() -> None:
    of = group(*SQUARE, c_x1_in=4.0, c_y1_in=5.0)
    line = lines(of, V_y=1000)["shear-along-x1"]
    assert line.demand == pytest.approx(500)
    # 6 in of spacing, 5 in to the corner and 6 in beyond; twice, with psi_ed = 1.0
    assert line.capacity == pytest.approx(0.70 * 2 * (5 + 6 + 6) * 6 / (4.5 * 16) * basic(4.0))


def test_a_skew_push_at_a_corner_is_held_component_by_component() -> None:
    found = lines(group(c_x1_in=4.0, c_y1_in=6.0), V_x=-300, V_y=-400)
    assert {key: line.demand for key, line in found.items()} == {
        "steel-shear": 500, "shear-x1": 300, "shear-along-x1": 400, "shear-y1": 400, "shear-along-y1": 300, "pryout": 500,
    }  # fmt: skip
    corner = (9 + 4) * 9 / (4.5 * 36) * (0.7 + 0.3 * 4 / 9) * basic(6.0)
    assert found["shear-y1"].capacity == pytest.approx(0.70 * corner)


# Thin and narrow
def test_a_thin_wall_loses_depth_and_gains_the_thickness_factor() -> None:
    thin = group(h_ef_in=4.0, h_a_in=6.0, c_y1_in=10.0)
    area = 30 * 6 / (4.5 * 100)
    assert capacity(thin, "shear-y1", V_y=-1) == pytest.approx(0.70 * area * math.sqrt(15 / 6) * basic(10.0, l_e=4.0))


def test_a_narrow_thin_part_counts_a_shorter_edge_distance() -> None:
    narrow = group(h_ef_in=4.0, h_a_in=6.0, c_y1_in=20.0, c_x1_in=9.0, c_x2_in=12.0)
    line = lines(narrow, V_y=-1)["shear-y1"]
    assert next(s.result for s in line.steps if s.function.__name__ == "reduced_edge_distance_in") == 8.0
    hand = 21 * 6 / (4.5 * 64) * (0.7 + 0.3 * 9 / 12) * math.sqrt(12 / 6) * basic(8.0, l_e=4.0)
    assert line.capacity == pytest.approx(0.70 * hand)


def test_one_far_side_edge_keeps_the_real_edge_distance() -> None:
    line = lines(group(h_ef_in=4.0, h_a_in=6.0, c_y1_in=20.0, c_x1_in=9.0, c_x2_in=31.0), V_y=-1)["shear-y1"]
    assert "reduced_edge_distance_in" not in {s.function.__name__ for s in line.steps}


def test_the_shortened_edge_distance_never_exceeds_the_real_one() -> None:
    assert v.reduced_edge_distance_in(9.0, 6.0, 30.0, 7.0) == 7.0


def test_a_row_bolt_has_the_prism_of_its_spacing() -> None:
    inner = group(c_y1_in=6.0, next_x1_in=8.0, next_x2_in=8.0)
    assert capacity(inner, "shear-y1", V_y=-1) == pytest.approx(0.70 * 8 * 9 / (4.5 * 36) * basic(6.0))
    far = group(c_y1_in=6.0, next_x1_in=18.0, next_x2_in=18.0)
    assert capacity(far, "shear-y1", V_y=-1) == pytest.approx(0.70 * basic(6.0))


# Factors
def test_edge_bars_stirrups_and_sound_concrete_raise_shear_breakout() -> None:
    plain = capacity(group(c_y1_in=4.0), "shear-y1", V_y=-1)
    for facts, gain in (
        ({"edge_bars": "bar"}, 1.2),
        ({"edge_bars": "bar and stirrups"}, 1.4),
        ({"cracked": False}, 1.4),
        ({"supplementary_shear": True}, 0.75 / 0.70),
        ({"lambda_a": 0.75}, 0.75),
        ({"seismic": True}, 1.0),
    ):
        assert capacity(group(c_y1_in=4.0, **facts), "shear-y1", V_y=-1) == pytest.approx(gain * plain), facts


def test_steel_in_shear_is_six_tenths_for_bolts_whole_for_studs_and_less_through_grout() -> None:
    A_se = math.pi / 4 * (0.625 - 0.9743 / 11) ** 2
    assert capacity(group(), "steel-shear", V_y=1) == pytest.approx(0.65 * 0.6 * A_se * 58000)
    assert capacity(group(grout_pad=True), "steel-shear", V_y=1) == pytest.approx(0.8 * 0.65 * 0.6 * A_se * 58000)
    stud = group(steel=steel("stud"), head=head("stud", 0.625))
    assert capacity(stud, "steel-shear", V_y=1) == pytest.approx(0.65 * math.pi / 4 * 0.625**2 * 65000)


# Torsion
def test_turning_one_anchor_toward_an_edge_counts_only_those_that_go_there() -> None:
    pair = group((0, 0), (6, 0), c_y1_in=5.0)
    found = lines(pair, T=600)
    assert found["steel-shear"].demand == pytest.approx(100)
    assert found["shear-y1"].demand == pytest.approx(100)
    assert found["shear-y1"].capacity == pytest.approx(0.70 * basic(5.0))


def test_anchors_turned_against_each_other_are_pried_as_if_all_carried_the_most() -> None:
    pair = group((0, 0), (6, 0))
    turned, pushed = lines(pair, T=600)["pryout"], lines(pair, V_y=1)["pryout"]
    assert turned.demand == pytest.approx(200)
    assert turned.capacity == pytest.approx(pushed.capacity)


def test_some_turning_beside_shear_moves_the_resultant() -> None:
    pair = group((0, 0), (6, 0), c_y1_in=5.0)
    straight, turned = lines(pair, V_y=-1000), lines(pair, V_y=-1000, T=600)
    assert turned["shear-y1"].demand == pytest.approx(1000)
    e = 600 / 1000
    assert turned["shear-y1"].capacity == pytest.approx(straight["shear-y1"].capacity / (1 + e / 7.5))
    assert turned["pryout"].capacity == pytest.approx(straight["pryout"].capacity / (1 + e / 10.5))


# Properties
@given(
    st.lists(st.tuples(st.integers(0, 3), st.integers(0, 3)), min_size=1, max_size=5, unique=True),
    st.lists(maybe, min_size=4, max_size=4),
    st.one_of(st.none(), st.floats(9, 30)),
    st.floats(-2000, 2000),
    st.floats(-2000, 2000),
)
def test_a_mirrored_group_is_as_strong_in_shear(cells, edges, h_a, V_x, V_y) -> None:
    of = group(*((5.0 * x, 6.0 * y) for x, y in cells), **dict(zip(EDGES, edges, strict=True)), h_a_in=h_a)
    here, there = lines(of, V_x, V_y), lines(mirrored(of), -V_x, V_y)
    swap = {"x1": "x2", "x2": "x1"}
    for key, line in here.items():
        stem, _, edge = key.rpartition("-")
        other = f"{stem}-{swap[edge]}" if edge in swap else key
        assert line.ratio == pytest.approx(there[other].ratio, rel=1e-9), key


@given(
    st.lists(maybe, min_size=4, max_size=4),
    st.one_of(st.none(), st.floats(9, 30)),
    st.integers(0, 3),
    st.floats(0.1, 20),
)
def test_more_edge_distance_never_lowers_the_shear_strength_of_one_anchor(edges, h_a, which, more) -> None:
    if edges[which] is None:
        edges[which] = 3.0
    of = group(**dict(zip(EDGES, edges, strict=True)), h_a_in=h_a)
    wider = replace(of, **{EDGES[which]: edges[which] + more})
    for V in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        here, there = lines(of, *V), lines(wider, *V)
        for key, line in here.items():
            if key != "pryout":  # the cone has its own jumps
                assert there[key].ratio <= line.ratio * (1 + 1e-9), (key, V)


@given(st.floats(1, 20), st.one_of(st.none(), st.floats(9, 30)), maybe, maybe)
def test_a_row_of_one_is_a_single_anchor(c, h_a, side_1, side_2) -> None:
    of = group(c_y1_in=c + 1, h_a_in=h_a, c_x1_in=side_1, c_x2_in=side_2)
    c, sides = c + 1, [s for s in (side_1, side_2) if s is not None]
    if len(sides) == 2 and max(sides) < 1.5 * c and h_a is not None and h_a < 1.5 * c:
        c = min(max(max(sides) / 1.5, h_a / 1.5), c)
    width = sum(min(1.5 * c, 1e9 if s is None else s) for s in (side_1, side_2))
    depth = min(1.5 * c, 1e9 if h_a is None else h_a)
    psi = min(1.0, 0.7 + 0.3 * min(sides, default=1e9) / (1.5 * c)) * max(1.0, math.sqrt(1.5 * c / (h_a or 1e9)))
    hand = width * depth / (4.5 * c**2) * psi * basic(c)
    assert capacity(of, "shear-y1", V_y=-1) == pytest.approx(0.70 * hand, rel=1e-9)


# Tension with shear
def test_tension_and_shear_together_may_reach_twelve_tenths() -> None:
    # ACI 349.2R-07 Example A3: 8 / 15.953 + 6 / 14.956 = 0.903
    assert v.interaction(8 / 15.953, 6 / 14.956) == pytest.approx(0.903, abs=0.0005)
    assert v.interaction_limit(8 / 15.953, 6 / 14.956) == 1.2


def test_a_fifth_or_less_of_one_leaves_the_other_whole() -> None:
    assert (v.interaction(0.95, 0.2), v.interaction_limit(0.95, 0.2)) == (0.95, 1.0)
    assert (v.interaction(0.2, 0.95), v.interaction_limit(0.2, 0.95)) == (0.95, 1.0)
    assert v.interaction(0.95, 0.21) == pytest.approx(1.16)


def test_the_interaction_line_takes_the_worst_of_either_kind() -> None:
    of = group(c_y1_in=3.0)
    tension, shear = tension_lines(Worksheet(), of, (3000.0,)), shear_lines(Worksheet(), of, ((0.0, -1200.0),))
    line = interaction_line(Worksheet(), tension, shear)
    r_N, r_V = max(t.ratio or 0 for t in tension), max(s.ratio or 0 for s in shear)
    assert line is not None
    assert line.demand == pytest.approx(r_N + r_V)
    assert line.verdict is (Verdict.PASS if r_N + r_V <= 1.2 else Verdict.FLAG)
    assert interaction_line(Worksheet(), tension, ()) is None


def test_as_many_shears_as_anchors_are_asked_for() -> None:
    with pytest.raises(BadInput, match="4 anchors"):
        shear_lines(Worksheet(), group(*SQUARE), ((1.0, 0.0),))
    with pytest.raises(BadInput, match="number of pounds"):
        shear_lines(Worksheet(), group(), ((math.inf, 0.0),))
    assert shear_lines(Worksheet(), group(), ((0.0, 0.0),)) == ()
