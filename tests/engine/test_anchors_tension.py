"""Cast-in anchors in tension: published figures, hand formulas, and what may never happen."""

import math
import re
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from engine.clauses.us import anchors_phi as phi
from engine.clauses.us import anchors_tension as t
from engine.clauses.us.anchors_lines import tension_lines
from engine.clauses.us.anchors_materials import head, steel
from engine.clauses.us.anchors_model import AnchorGroup
from engine.errors import BadInput, OutOfScope
from engine.result import Verdict
from engine.worksheet import Worksheet
from tests.engine.anchor_examples import by_key, group, l_bolt, mirrored

distance = st.floats(1.5, 40).map(lambda v: round(v, 2))
maybe = st.one_of(st.none(), distance)
SQUARE = ((0.0, 0.0), (6.0, 0.0), (0.0, 6.0), (6.0, 6.0))


def lines(of: AnchorGroup, *N_u: float):
    return by_key(tension_lines(Worksheet(), of, N_u or (1000.0,) * len(of.positions_in)))


def capacity(of: AnchorGroup, key: str) -> float:
    value = lines(of)[key].capacity
    assert value is not None
    return value


# Hand formulas: the ledge bolt of an 8 in core, 1 3/4 in from the room face, 7 in deep, f'c 2,500 psi (own arithmetic)
LEDGE = {"f_c_psi": 2500.0, "c_y1_in": 1.75, "c_y2_in": 6.25, "d_a_in": 0.5}


def test_a_ledge_bolt_breaks_out_over_the_core_width_and_three_embedments() -> None:
    line = lines(group(**LEDGE))["breakout"]
    by_name = {step.function.__name__: step.result for step in line.steps}
    assert by_name["projected_tension_area_in2"] == 8 * 21
    assert by_name["cone_area_in2"] == 441
    assert by_name["edge_factor_tension"] == pytest.approx(0.7 + 0.3 * 1.75 / 10.5)
    hand = 168 / 441 * 0.75 * 24 * math.sqrt(2500) * 7**1.5
    assert line.capacity == pytest.approx(0.70 * hand)
    assert hand == pytest.approx(6350, abs=5)


def test_an_l_bolt_in_that_ledge_pulls_out_long_before_the_concrete_breaks() -> None:
    of = l_bolt(**LEDGE)
    found = lines(of)
    assert found["pullout"].capacity == pytest.approx(0.70 * 0.9 * 2500 * 2.25 * 0.5)
    assert found["pullout"].capacity == pytest.approx(1770, abs=5)
    assert found["pullout"].capacity < found["breakout"].capacity


def test_a_hook_counts_no_further_than_four_and_a_half_diameters() -> None:
    assert capacity(l_bolt(3.5), "pullout") == capacity(l_bolt(2.25), "pullout")


def test_a_hook_shorter_than_three_diameters_is_referred_not_guessed() -> None:
    line = lines(l_bolt(1.4))["pullout"]
    assert line.verdict is Verdict.REFER
    assert "1.5 in" in line.refer
    with pytest.raises(OutOfScope, match="3 diameters"):
        t.hook_length_used_in(1.4, 0.5)
    assert t.hook_length_used_in(1.5, 0.5) == 1.5


def test_a_headed_bolt_deep_beside_a_face_can_burst_the_concrete_beside_its_head() -> None:
    line = lines(group(**LEDGE, head=head("hex", 0.5)))["side-face"]
    area = math.sqrt(3) / 2 * 0.75**2 - math.pi / 4 * 0.25
    assert line.capacity == pytest.approx(0.70 * 160 * 1.75 * math.sqrt(area) * 50)
    assert line.capacity / 0.70 == pytest.approx(7550, abs=5)


def test_a_hooked_bolt_deep_beside_a_face_is_referred() -> None:
    assert lines(l_bolt(**LEDGE))["side-face"].verdict is Verdict.REFER
    assert lines(l_bolt(**(LEDGE | {"c_y1_in": 2.8})))["side-face"].verdict is Verdict.PASS


def test_side_face_blowout_begins_where_the_embedment_passes_two_and_a_half_edge_distances() -> None:
    assert lines(group(c_x1_in=2.8))["side-face"].capacity is None
    assert lines(group(c_x1_in=2.79))["side-face"].capacity is not None


def test_a_corner_weakens_the_side_face_by_its_nearness() -> None:
    free = capacity(group(c_x1_in=2.0), "side-face")
    assert capacity(group(c_x1_in=2.0, c_y1_in=4.0), "side-face") == pytest.approx(free * (1 + 2) / 4)
    assert capacity(group(c_x1_in=2.0, c_y1_in=6.0), "side-face") == pytest.approx(free)


def test_a_row_along_an_edge_shares_one_side_face() -> None:
    single = capacity(group(c_y1_in=2.0), "side-face")
    pair = group((0, 0), (4, 0), c_y1_in=2.0)
    assert capacity(pair, "side-face") == pytest.approx((1 + 4 / 12) * single)
    assert lines(pair, 800, 400)["side-face"].demand == 1200
    apart = group((0, 0), (12, 0), c_y1_in=2.0)
    assert capacity(apart, "side-face") == pytest.approx(single)
    assert lines(apart, 800, 400)["side-face"].demand == 800


def test_one_anchor_of_a_row_never_counts_on_more_than_its_own_side_face() -> None:
    line = lines(group((0, 0), (11, 0), c_y1_in=2.0), 1000, 10)["side-face"]
    assert line.demand == 1000
    assert line.capacity == pytest.approx(capacity(group(c_y1_in=2.0), "side-face"))


def test_bolts_of_an_endless_row_share_the_side_face_by_their_spacing() -> None:
    single = capacity(group(c_y1_in=2.0), "side-face")
    inner = group(c_y1_in=2.0, next_x1_in=8.0, next_x2_in=8.0)
    assert capacity(inner, "side-face") == pytest.approx(single * 8 / 12)
    end = group(c_y1_in=2.0, next_x2_in=8.0)
    assert capacity(end, "side-face") == pytest.approx(single * (4 + 6) / 12)
    # the parts of a row of five add up to the row's own strength
    row = group(*((8.0 * i, 0.0) for i in range(5)), c_y1_in=2.0)
    assert capacity(row, "side-face") == pytest.approx(3 * single * 8 / 12 + 2 * single * 10 / 12)


# Published
def test_three_near_edges_cut_the_embedment_and_raise_the_strength() -> None:
    # Design Guide 1, 3rd ed. 2024, Example 4.7-15: h'_ef 5.33 in, N_cbg 29.2 kip where 14 in would give 15.2 kip
    pedestal = group(
        *((4.0 * i, 4.0 * j) for i in (0, 1) for j in (0, 1)),
        h_ef_in=14.0, f_c_psi=4000.0, c_x1_in=8.0, c_x2_in=8.0, c_y1_in=8.0, c_y2_in=8.0,
    )  # fmt: skip
    line = lines(pedestal)["breakout"]
    assert line.facts["h_ef"][0] == pytest.approx(5.33, abs=0.005)
    assert line.capacity / 0.70 == pytest.approx(29200, abs=50)
    without = 400 / (9 * 14**2) * (0.7 + 0.3 * 8 / 21) * t.basic_breakout_deep_lb(1.0, 4000, 14)
    assert without == pytest.approx(15200, abs=100)


def test_the_reduced_embedment_never_exceeds_the_real_one() -> None:
    assert t.reduced_depth_in(10.4, 30, 7) == 7


def test_headed_anchors_from_11_to_25_in_take_their_own_expression_and_hooked_ones_never() -> None:
    deep = group(h_ef_in=15.0, f_c_psi=4000.0)
    # Design Guide 1, Example 4.7-3: N_b 92.3 kip
    assert capacity(deep, "breakout") / 0.70 == pytest.approx(92300, abs=50)
    hooked = l_bolt(h_ef_in=15.0, f_c_psi=4000.0)
    assert capacity(hooked, "breakout") / 0.70 == pytest.approx(24 * math.sqrt(4000) * 15**1.5)


def test_anchor_reinforcement_takes_the_whole_pull_at_three_quarters_of_yield() -> None:
    # Design Guide 1, Example 4.7-15: 1.56 in² for 70 kip
    assert phi.anchor_reinforcement_in2(70000, 60000) == pytest.approx(1.56, abs=0.005)


# Factors
def test_factors_follow_the_steel_and_the_reinforcement() -> None:
    assert (phi.phi_steel_tension(True), phi.phi_steel_tension(False)) == (0.75, 0.65)
    assert (phi.phi_steel_shear(True), phi.phi_steel_shear(False)) == (0.65, 0.60)
    assert (phi.phi_breakout(True), phi.phi_breakout(False), phi.phi_pullout()) == (0.75, 0.70, 0.70)
    plain, tied = group(**LEDGE), group(**LEDGE, supplementary_tension=True)
    for key, gain in (("breakout", 0.75 / 0.70), ("side-face", 0.75 / 0.70), ("pullout", 1.0), ("steel-tension", 1.0)):
        assert capacity(tied, key) == pytest.approx(gain * capacity(plain, key))


def test_earthquake_takes_a_quarter_from_concrete_and_nothing_from_steel() -> None:
    calm, shaken = group(**LEDGE), group(**LEDGE, seismic=True)
    for key in ("breakout", "pullout", "side-face"):
        assert capacity(shaken, key) == pytest.approx(0.75 * capacity(calm, key))
    assert capacity(shaken, "steel-tension") == capacity(calm, "steel-tension")


def test_concrete_under_earthquake_counts_as_cracked_whatever_was_said() -> None:
    sound = group(cracked=False)
    assert capacity(sound, "breakout") == pytest.approx(1.25 * capacity(group(), "breakout"))
    assert capacity(sound, "pullout") == pytest.approx(1.4 * capacity(group(), "pullout"))
    shaken = replace(sound, seismic=True)
    assert capacity(shaken, "breakout") == pytest.approx(0.75 * capacity(group(), "breakout"))


def test_a_headed_stud_counts_its_whole_shank() -> None:
    # ACI 349.2R-07 Example A1: 12.763 kip for a 1/2 in stud
    stud = group(d_a_in=0.5, steel=steel("stud"), head=head("stud", 0.5))
    assert capacity(stud, "steel-tension") / 0.75 == pytest.approx(12763, abs=0.5)


def test_strength_above_10000_psi_is_not_counted() -> None:
    assert capacity(group(f_c_psi=12000.0), "breakout") == pytest.approx(capacity(group(f_c_psi=10000.0), "breakout"))


# Groups
def test_uneven_tension_is_held_by_its_resultant_about_both_axes() -> None:
    of = group(*SQUARE)
    even, uneven = lines(of)["breakout"], lines(of, 2000, 1000, 1000, 500)["breakout"]
    e = abs(6 * 1500 / 4500 - 3)
    assert uneven.capacity == pytest.approx(even.capacity / (1 + e / 10.5) ** 2)
    assert uneven.demand == 4500


def test_anchors_that_are_pressed_take_no_part_in_the_cone() -> None:
    of = group(*SQUARE)
    pulled = lines(of, 1000, 1000, -400, 0)["breakout"]
    assert pulled.capacity == pytest.approx(capacity(group((0, 0), (6, 0)), "breakout"))
    assert tension_lines(Worksheet(), of, (0, -5, 0, 0)) == ()


def test_anchors_three_embedments_apart_break_out_alone() -> None:
    alone = capacity(group(), "breakout")
    assert capacity(group((0, 0), (21, 0)), "breakout") == pytest.approx(alone)
    assert lines(group((0, 0), (21, 0)), 500, 700)["breakout"].demand == 700
    near = lines(group((0, 0), (20, 0)), 500, 700)["breakout"]
    assert near.demand == 1200


def test_a_bolt_of_an_endless_row_has_the_width_of_its_spacing() -> None:
    faces = {"c_y1_in": 4.0, "c_y2_in": 5.0, "next_x1_in": 12.0, "next_x2_in": 12.0}
    line = lines(group(**faces))["breakout"]
    area = next(s.result for s in line.steps if s.function.__name__ == "projected_tension_area_in2")
    assert area == 12 * 9


def test_the_end_bolt_of_a_row_has_half_the_spacing_and_its_end_distance() -> None:
    # three near edges: h'_ef = max(6 / 1.5, 12 / 3) = 4 in, so 6 in each way but for the face 4 in off
    line = lines(group(c_x1_in=6.0, c_y1_in=4.0, c_y2_in=5.0, next_x2_in=12.0))["breakout"]
    assert line.facts["h_ef"] == (4.0, "in")
    area = next(s.result for s in line.steps if s.function.__name__ == "projected_tension_area_in2")
    assert area == (6 + 6) * (4 + 5)


@given(st.lists(maybe, min_size=4, max_size=4), st.floats(2.5, 10.9))
def test_a_group_of_one_is_a_single_anchor(edges, h_ef) -> None:
    of = group(**dict(zip(("c_x1_in", "c_x2_in", "c_y1_in", "c_y2_in"), edges, strict=True)), h_ef_in=h_ef)
    known = [c for c in edges if c is not None]
    near = [c for c in known if c < 1.5 * h_ef]
    h = min(max(near) / 1.5, h_ef) if len(near) >= 3 else h_ef
    sides = [min(1.5 * h, far if c is None else c) for c in edges for far in (1e9,)]
    A_Nc = (sides[0] + sides[1]) * (sides[2] + sides[3])
    psi_ed = min(1.0, 0.7 + 0.3 * min(known, default=1e9) / (1.5 * h))
    hand = A_Nc / (9 * h**2) * psi_ed * 24 * math.sqrt(3000) * h**1.5
    assert capacity(of, "breakout") == pytest.approx(0.70 * hand, rel=1e-9)


@given(
    st.lists(st.tuples(st.integers(0, 4), st.integers(0, 4)), min_size=1, max_size=6, unique=True),
    st.lists(maybe, min_size=4, max_size=4),
    st.data(),
)
def test_a_mirrored_group_is_as_strong(cells, edges, data) -> None:
    positions = tuple((5.0 * x, 6.0 * y) for x, y in cells)
    of = group(*positions, **dict(zip(("c_x1_in", "c_x2_in", "c_y1_in", "c_y2_in"), edges, strict=True)))
    N_u = data.draw(st.lists(st.floats(1, 5000), min_size=len(cells), max_size=len(cells)))
    here, there = lines(of, *N_u), lines(mirrored(of), *N_u)
    assert here.keys() == there.keys()
    for key, line in here.items():
        assert (line.ratio or 0.0) == pytest.approx(there[key].ratio or 0.0, rel=1e-9), key


@given(
    st.lists(st.tuples(st.integers(0, 3), st.integers(0, 3)), min_size=1, max_size=4, unique=True),
    st.lists(maybe, min_size=4, max_size=4),
    st.integers(0, 3),
    st.floats(0.1, 20),
)
def test_more_edge_distance_never_lowers_a_strength_where_fewer_than_three_edges_are_near(cells, edges, which, more):
    names = ("c_x1_in", "c_x2_in", "c_y1_in", "c_y2_in")
    near = sum(c is not None and c < 10.5 for c in edges)
    assume(edges[which] is not None and near < 3)
    of = group(*((6.0 * x, 6.0 * y) for x, y in cells), **dict(zip(names, edges, strict=True)))
    wider = replace(of, **{names[which]: edges[which] + more})
    here, there = lines(of), lines(wider)
    for key in ("breakout", "side-face"):
        before, after = here[key].ratio or 0.0, there[key].ratio or 0.0
        assert after <= before * (1 + 1e-9), key


def test_with_four_near_edges_moving_one_of_them_away_may_cost_strength() -> None:
    # the rule of 17.6.2.1.2 counts more embedment for it and with that a larger edge effect; a hand calculation:
    # h'_ef 2 and 4 in, 6 x 6 and 6 x 9 in², psi_ed 1.0 and 0.85
    tight = group(c_x1_in=3.0, c_x2_in=3.0, c_y1_in=3.0, c_y2_in=3.0)
    wider = replace(tight, c_y2_in=6.0)
    root = 24 * math.sqrt(3000)
    assert capacity(tight, "breakout") == pytest.approx(0.7 * 36 / 36 * 1.0 * root * 2**1.5)
    assert capacity(wider, "breakout") == pytest.approx(0.7 * 54 / 144 * 0.85 * root * 4**1.5)
    assert capacity(wider, "breakout") < capacity(tight, "breakout")


def test_the_named_jump_the_last_near_edge_but_three_leaving_the_cone() -> None:
    # with four near edges the farthest sets h'_ef; once it is 1.5 h_ef away the next one does
    inside, outside = (group(c_x1_in=3.0, c_x2_in=3.0, c_y1_in=3.0, c_y2_in=c) for c in (10.49, 10.51))
    assert lines(inside)["breakout"].facts["h_ef"][0] == pytest.approx(10.49 / 1.5)
    assert lines(outside)["breakout"].facts["h_ef"][0] == pytest.approx(3 / 1.5)


def test_as_many_tensions_as_anchors_are_asked_for() -> None:
    with pytest.raises(BadInput, match="4 anchors"):
        tension_lines(Worksheet(), group(*SQUARE), (1.0,))
    with pytest.raises(BadInput, match="number of pounds"):
        tension_lines(Worksheet(), group(), (math.nan,))


def test_every_line_carries_its_working_and_ends_in_its_capacity() -> None:
    for line in tension_lines(Worksheet(), group(*SQUARE, c_x1_in=2.5), (500.0,) * 4):
        assert line.steps[-1].result == line.capacity, line.key
        asked = set(re.findall(r"\{(\w+)\}", line.say))
        assert {"demand", "capacity"} <= asked <= {"demand", "capacity", *line.facts}


def test_lines_are_the_same_with_recording_off() -> None:
    of = group(*SQUARE, c_x1_in=2.5)
    plain = tension_lines(Worksheet(recording=False), of, (500.0,) * 4)
    worked = tension_lines(Worksheet(), of, (500.0,) * 4)
    assert [(p.key, p.capacity, p.steps) for p in plain] == [(w.key, w.capacity, ()) for w in worked]
