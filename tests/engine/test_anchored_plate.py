"""An anchored plate worked by hand: how anchors and concrete share the offset, chapter 17 near edges, fasteners, steel."""

from math import hypot, pi, sqrt

import pytest

from engine import fields
from engine.attachments.anchored_plate import Inputs, check, concrete, demand, geometry, steel
from engine.attachments.anchored_plate.plate import Case
from engine.editions import US_2021, US_2024
from engine.errors import BadInput
from engine.result import Verdict
from engine.worksheet import Worksheet

SILENT = Worksheet(recording=False)


def judged(edition=US_2021, **changes):
    inputs = Inputs(**changes)
    fields.validate(inputs)
    return check(inputs, edition)


def shared_by(**changes):
    """Inputs, geometry and how the first strength effect is shared."""
    i = Inputs(**changes)
    p, load = geometry(i), demand.carried(SILENT, i)
    effect = demand.strength_effects(p, load, US_2021)[0]
    return i, p, effect, demand.share(SILENT, i, p, effect)


# --- what a newcomer sees ----------------------------------------------------------------------------------------------------


def test_an_ordinary_beam_on_a_plate_passes() -> None:
    for edition in (US_2021, US_2024):
        result = judged(edition)
        assert result.verdict is Verdict.PASS
        assert result.lines_verdict == "every line holds"


def test_every_judged_line_shows_its_working() -> None:
    measured = {"plate-clear", "plate-place"}  # read off the drawing
    result = judged(top_of_wall=True, top_edge_in=6.0, pull_wind_lb=500.0, along_wind_lb=300.0)
    for state in result.states:
        if state.demand is not None and not state.advisory and state.key not in measured:
            assert state.steps, state.key


def test_recording_the_working_changes_nothing() -> None:
    inputs = Inputs(uplift_lb=2500.0, along_wind_lb=300.0, pull_wind_lb=400.0, legs="one", left_in=5.0)
    lines = [[(s.key, s.demand, s.capacity, s.say) for s in check(inputs, US_2021, r).states] for r in (True, False)]
    assert lines[0] == lines[1]


# --- places ------------------------------------------------------------------------------------------------------------------


def test_anchors_stand_in_the_middle_of_the_plates_width_and_below_its_top() -> None:
    """Plate 10 x 10 in, 2 by 2 anchors 7 in apart, upper row 1 1/2 in down: 1 1/2 in beside, 1 1/2 in below."""
    p = geometry(Inputs())
    assert p.anchors == ((-3.5, 3.5), (3.5, 3.5), (-3.5, -3.5), (3.5, -3.5))
    assert (p.side, p.above, p.below) == (1.5, 1.5, 1.5)


def test_the_beam_ends_where_its_fasteners_and_their_end_distance_say() -> None:
    """Reaction 6 in off, two columns 3 in apart, 2 1/2 in to the end: 6 - 1 1/2 - 2 1/2."""
    p = geometry(Inputs(f_columns=2, f_column_spacing_in=3.0, f_end_in=2.5))
    assert p.member_x[0] == 2.0
    assert p.x_leg == 6.0 + 1.5 + 1.25


def test_wall_beyond_the_plate_counts_from_the_anchors() -> None:
    p = geometry(Inputs(left_in=4.0, right_in=2.0, next_in=16.0))
    assert (p.left, p.right, p.beside) == (5.5, 3.5, 16.0 - 7.0)


@pytest.mark.parametrize(
    ("legs", "places", "middle"),
    [
        ("two", ((-2.0, -1.75), (1.75, 2.0)), 0.0),
        ("one", ((-0.125, 0.125),), 0.125 + 1.75),
        ("slot", ((-0.125, 0.125),), 0.0),
        ("angle", ((-5.0, -4.75),), -5.0 - 1.75),
    ],
)
def test_legs_stand_by_the_member(legs: str, places, middle: float) -> None:
    """Member 3 1/2 in thick, legs 1/4 in, plate 10 in wide; the reaction acts in the member's middle."""
    p = geometry(Inputs(legs=legs))
    assert p.legs == places
    assert p.z_reaction == pytest.approx(middle)


def test_foam_left_behind_is_the_gap_and_grout_its_own_thickness() -> None:
    assert geometry(Inputs(contact="gap", foam_in=2.5)).x_front == 3.0
    assert geometry(Inputs(contact="grout", pad_in=1.0)).x_front == 1.5
    assert geometry(Inputs()).x_front == 0.5


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"columns": 1, "rows": 1}, "rows", "two to eight"),
        ({"columns": 3, "rows": 3}, "rows", "are 9"),
        ({"row_spacing_in": 9.0}, "row_spacing_in", "miss the plate by 1/2 in"),
        ({"column_spacing_in": 12.0}, "column_spacing_in", "miss the plate by 1 in"),
        ({"leg_height_in": 11.0}, "leg_height_in", "1 in past the plate"),
        ({"off_in": 4.0}, "width_in", "1 in past the plate's side"),
        ({"next_in": 9.0}, "width_in", "overlap by 1 in"),
        ({"head": "washer", "washer_in": 4.0, "washer_thickness_in": 0.5}, "washer", "thick"),
        ({"legs": "slot", "fastener": "screw"}, "fastener", "bolts"),
        ({"legs": "angle", "off_in": 1.0}, "off_in", "beside its leg"),
        ({"f_y_ksi": 50.0, "f_u_ksi": 45.0}, "f_y_ksi", "tensile"),
        ({"wood": "glulam"}, "species", "glulam"),
    ],
)
def test_what_cannot_be_built_is_refused_with_its_inches(changes: dict, field: str, words: str) -> None:
    with pytest.raises(BadInput, match=words) as refused:
        judged(**changes)
    assert refused.value.field == field


# --- the couple --------------------------------------------------------------------------------------------------------------


def test_the_neutral_axis_by_the_quadratic_of_a_single_row() -> None:
    """One row 8 1/2 in up: b x²/2 = n A (y - x). T = M / (y - x/3), p = 2 C / (b x); E_c 57,000 √f'c (ACI 318-19 19.2.2.1)."""
    _, _, effect, shared = shared_by(rows=1)
    n = 29e6 / (57000 * sqrt(3000))
    A = 2 * pi / 4 * (0.625 - 0.9743 / 11) ** 2
    b, y = 10.0, 8.5
    x = (-n * A + sqrt((n * A) ** 2 + 2 * b * n * A * y)) / b
    load = 1.2 * 500 + 1.6 * 1300
    T = load * 6.0 / (y - x / 3)
    assert effect[1] == pytest.approx(load)
    assert shared.pressed == pytest.approx(x)
    assert shared[0] == pytest.approx((T / 2, T / 2))
    assert shared.p_toe == pytest.approx(2 * T / (b * x))


def test_pull_and_pressure_balance_the_offset() -> None:
    for changes in ({"rows": 4, "row_spacing_in": 2.0}, {"columns": 4, "column_spacing_in": 2.0}, {"height_in": 12.0}):
        i, p, effect, shared = shared_by(**changes)
        assert sum(shared.N) == pytest.approx(shared.C)
        up = sum(N * (p.height / 2 + y) for N, (_, y) in zip(shared.N, p.anchors, strict=True))
        assert up - shared.C * shared.pressed / 3 == pytest.approx(effect.V * i.offset_in)


def test_uplift_presses_the_upper_edge_and_pulls_the_lower_row() -> None:
    i = Inputs(uplift_lb=3000.0, dead_lb=0.0, live_lb=0.0)
    p, load = geometry(i), demand.carried(SILENT, i)
    effect = min(demand.strength_effects(p, load, US_2021), key=lambda e: e.V)
    shared = demand.share(SILENT, i, p, effect)
    assert effect.V == -3000.0
    assert not shared.lower
    assert shared.N[0] == 0
    assert shared.N[2] > 0


def test_a_pull_beyond_the_couple_lifts_the_plate_off() -> None:
    """9,000 lb pull and 11,400 lb-in on 2 by 2 anchors 7 in apart: a quarter of the pull and M / (2 x 7) up or down."""
    i = Inputs(pull_wind_lb=9000.0)
    p, load = geometry(i), demand.carried(SILENT, i)
    effect = next(e for e in demand.strength_effects(p, load, US_2021) if e.label == "1.2D + W + L + 0.5Lr")
    pull, bent = 9000 / 4, (1.2 * 500 + 1300) * 6 / 14
    forces = demand.share(SILENT, i, p, effect)[0]
    assert forces == pytest.approx((pull + bent, pull + bent, pull - bent, pull - bent))


def test_an_angle_turns_about_its_anchors() -> None:
    """The beam stands 6 3/4 in left of the plate's middle; anchors 4.95 in from it: V z / (4 r) beside the shared V / 4."""
    _, _, effect, shared = shared_by(legs="angle")
    r = hypot(3.5, 3.5)
    turn = effect.V * 6.75 / (4 * r)
    nearest = (turn * 3.5 / r, effect.V / 4 + turn * 3.5 / r)
    assert max(hypot(x, y) for x, y in shared.V) == pytest.approx(hypot(*nearest))
    assert sum(y for _, y in shared.V) == pytest.approx(-effect.V)


def test_the_couple_is_told_with_its_numbers() -> None:
    line = judged()["couple"]
    assert line.facts["M"][0] == pytest.approx(2680 * 6)
    assert line.facts["C"][0] == pytest.approx(2 * line.facts["T"][0])
    assert "above its lower edge" in line.say


# --- near the top of the wall, in a pier: three edges, shear toward the top ---------------------------------------------------

# 6 in core, f'c 3,000; 2 by 2 anchors 5/8 in, 6 in apart, 4 in deep; 4 in to either end, 5 in to the top; uplift.
PIER = {
    "dead_lb": 200.0, "live_lb": 1300.0, "uplift_lb": 1500.0,
    "width_in": 9.0, "height_in": 9.0, "leg_height_in": 8.0, "column_spacing_in": 6.0, "row_spacing_in": 6.0,
    "top_of_wall": True, "top_edge_in": 5.0, "left_in": 2.5, "right_in": 2.5, "f_top_in": 3.0,
    "f_row_spacing_in": 3.5, "d_in": 9.25,
}  # fmt: skip
ROOT = sqrt(3000)


def test_three_edges_near_cut_the_embedment_that_counts() -> None:
    """ACI 318-19 17.6.2.1.2: h_ef' = max(5 / 1.5, 6 / 3) = 3.333 in; A_Nc 14 x 10, A_Nco 9 x 3.333², psi_ed 0.94 at 4 in.

    N_b = 24 √3000 x 3.333^1.5; the two upper anchors share evenly; phi 0.70.
    """
    line = judged(**PIER)["anchor-breakout"]
    h = 5 / 1.5
    N_cb = 14 * 10 / (9 * h**2) * (0.7 + 0.3 * 4 / (1.5 * h)) * 24 * ROOT * h**1.5
    assert line.capacity == pytest.approx(0.70 * N_cb)
    assert line.facts["h_ef"][0] == pytest.approx(h)
    assert "3 edges near" in line.say


def test_uplift_toward_the_top_is_carried_by_the_back_row_with_everything() -> None:
    """R17.7.2.1: 6 in apart is more than 5 in, so the back row, 11 in down, takes the whole uplift 1,500 - 0.9 x 200.

    Both ends at 4 in and the 6 in core are within 1.5 c_a1, so c_a1' = max(4, 6, 6 / 2) / 1.5 = 4 in (17.7.2.1.2): A_Vc 14 x 6,
    A_Vco 4.5 x 4², psi_ed 0.9, psi_h 1.0; V_b = min(7 (4 / 0.625)^0.2 √0.625, 9) √3000 x 4^1.5; phi 0.70.
    """
    line = judged(**PIER)["anchor-shear-y2"]
    V_b = min(7 * (4 / 0.625) ** 0.2 * sqrt(0.625), 9) * ROOT * 4**1.5
    assert line.demand == pytest.approx(1500 - 0.9 * 200)
    assert line.capacity == pytest.approx(0.70 * 14 * 6 / (4.5 * 16) * 0.9 * V_b)
    assert line.combination == "0.9D + W"
    assert line.title == "Concrete breakout toward the top of the concrete"


def test_shear_down_runs_beside_both_ends_with_half_each() -> None:
    """The column next to an end carries half; twice the breakout toward the end, without its edge factor (17.7.2.1(c))."""
    result = judged(**PIER)
    V = 1.2 * 200 + 1.6 * 1300
    # toward the left: c 4; anchors 6 apart up the edge, 5 in to the top, nothing below: 5 + 6 + 6 long, 6 deep
    V_b = min(7 * (4 / 0.625) ** 0.2 * sqrt(0.625), 9) * ROOT * 4**1.5
    for key in ("anchor-shear-along-x1", "anchor-shear-along-x2"):
        assert result[key].demand == pytest.approx(V / 2)
        assert result[key].capacity == pytest.approx(0.70 * 2 * (5 + 6 + 6) * 6 / (4.5 * 16) * V_b)


def test_the_pier_is_understood_from_its_lines_alone() -> None:
    result = judged(**PIER)
    keys = [s.key for s in result.states]
    modes = [k for k in keys if k.startswith("anchor-")]
    assert modes[:4] == ["anchor-steel-tension", "anchor-breakout", "anchor-pullout", "anchor-side-face"]
    assert {"anchor-shear-y2", "anchor-shear-along-x1", "anchor-pryout", "anchor-interaction"} <= set(modes)
    for state in result.states:
        assert state.say
        assert state.source.label(US_2021)
    used = {step.function.__name__ for step in result["anchor-breakout"].steps}
    assert {"offset_moment_lb_in", "plate_forces", "reduced_depth_in", "group_breakout_lb"} <= used
    assert "reduced_edge_distance_in" in {s.function.__name__ for s in result["anchor-shear-y2"].steps}


def test_a_plate_above_the_concrete_is_flagged_by_the_inches() -> None:
    line = judged(top_of_wall=True, top_edge_in=1.25)["plate-place"]
    assert line.verdict is Verdict.FLAG
    assert (line.demand, line.capacity) == (1.5, 1.25)


# --- concrete and plate ------------------------------------------------------------------------------------------------------


def test_concrete_under_the_toe_by_hand() -> None:
    """ACI 318-19 22.8.3.2: 0.65 x 0.85 x 3000 √(A_2 / A_1), the plate 10 x 10, 2 in of concrete past its left side: 14 x 14."""
    assert judged(left_in=2.0)["toe"].capacity == pytest.approx(0.65 * 0.85 * 3000 * 14 / 10)
    assert judged()["toe"].capacity == pytest.approx(0.65 * 0.85 * 3000 * 2)


def test_pull_never_relieves_the_toe() -> None:
    assert judged(pull_wind_lb=3000.0)["toe"].demand >= judged()["toe"].demand - 1e-9


def test_plate_bending_between_anchor_and_leg_by_hand() -> None:
    """1 1/2 in from the leg; width 1.5 + 1.5 (the plate's top is as far); 0.9 x 36,000 x 3 x 0.5² / 4 (AISC 360-22 F11)."""
    result = judged()
    line = result["plate-bending"]
    assert line.capacity == pytest.approx(0.9 * 36000 * 3.0 * 0.5**2 / 4)
    assert line.demand == pytest.approx(result["anchor-steel-tension"].demand * 1.5)


def test_an_anchor_bears_in_the_plate() -> None:
    """A quarter of 2,680 lb; clear steel 1 1/2 less half of a 3/4 in hole (AISC 360-22 J3.11, B4.3b)."""
    line = judged()["plate-bearing"]
    assert line.demand == pytest.approx(2680 / 4)
    assert line.capacity == pytest.approx(0.75 * min(2.4 * 0.625, 1.2 * 1.125) * 0.5 * 58000)
    assert judged(dead_lb=90000.0)["plate-bearing"].verdict is Verdict.FLAG


def test_the_toe_bends_the_plate_beside_its_legs() -> None:
    """Legs end 2 in from the middle, the plate at 5: a strip 3 in long under the toe's pressure."""
    result = judged()
    assert result["toe-bending"].demand == pytest.approx(result["toe"].demand * 3.0**2 / 2)


def test_below_short_legs_the_pressure_falls_off_from_the_toe() -> None:
    # p (m²/2 - m³/6x) is the moment of a pressure that falls in a straight line to nothing at x, by summing 10,000 strips
    p, m, x = 200.0, 2.0, 3.0
    strips = sum(p * (1 - y / x) * (m - y) * m / 10000 for y in ((k + 0.5) * m / 10000 for k in range(10000)))
    assert steel.end_moment_lb_in(p, m, x) == pytest.approx(strips, rel=1e-6)
    assert steel.end_moment_lb_in(p, 5.0, 3.0) == pytest.approx(p * 3 / 2 * (5 - 1))


def test_a_narrow_plate_without_room_for_its_nuts_is_flagged() -> None:
    """A 5/8 in heavy hex nut is 1 1/16 in across its flats, 1.0625 / √3 from its middle to a corner (ASME B18.2.2)."""
    line = judged(column_spacing_in=5.0)["plate-clear"]
    assert line.demand == pytest.approx(1.0625 / sqrt(3))
    assert line.capacity == pytest.approx(0.5)
    assert line.verdict is Verdict.FLAG


def test_an_embedment_through_the_wall_says_what_is_short() -> None:
    result = judged(embedment_in=5.5)
    line = result["fit"]
    assert line.demand == pytest.approx(5.5 + 0.390625 + 0.75)
    assert line.capacity == 6.0
    assert result["anchor"].verdict is Verdict.UNCHECKED


def test_heads_that_overlap_are_flagged_with_the_inches() -> None:
    """Hex heads of 5/8 in rods are 15/16 in wide: half an inch apart they overlap by 7/16 in."""
    line = judged(columns=2, rows=2, next_in=10.0, width_in=10.0, column_spacing_in=9.5)["anchor"]
    assert line.verdict is Verdict.FLAG
    assert "overlap by 7/16 in" in line.say


# --- over a gap --------------------------------------------------------------------------------------------------------------

OVER_FOAM = {"contact": "gap", "foam_in": 1.0, "offset_in": 7.0}


def test_over_a_gap_the_couple_is_referred_and_the_anchors_bend() -> None:
    """2,680 lb at 7 in on rows 7 in apart: M / (2 x 7) on each anchor; lever 1 + 1/4 in; Z = d³/6 (AISC 360-22 J3.8)."""
    result = judged(**OVER_FOAM)
    assert result.verdict is Verdict.REFER
    couple, bending = result["couple"], result["anchor-bending"]
    assert couple.verdict is Verdict.REFER
    assert "licensed engineer" in couple.refer
    T = 2680 * 7 / 14
    assert couple.facts["T"][0] == pytest.approx(T)
    assert bending.demand == pytest.approx(T / (pi / 4 * 0.625**2) + 670 * 1.25 / (0.625**3 / 6))
    assert "toe" not in {s.key for s in result.states}
    assert any("chapter 17 has no rule" in c.text for c in result.cautions)


def test_a_pull_alone_over_a_gap_pushes_no_anchor() -> None:
    result = judged(**OVER_FOAM, dead_lb=0.0, live_lb=0.0, pull_wind_lb=2000.0)
    assert result["couple"].verdict is Verdict.PASS
    assert (
        judged(**OVER_FOAM, pull_wind_lb=20000.0)["couple"].verdict is Verdict.REFER
    )  # without the wind one is pushed


def test_one_line_of_anchors_over_a_gap_holds_no_couple_about_itself() -> None:
    for line in ({"rows": 1}, {"columns": 1, "along_wind_lb": 300.0}):
        couple = judged(**OVER_FOAM, **line)["couple"]
        assert couple.verdict is Verdict.REFER
        assert "one line of anchors" in couple.say


def test_grout_costs_a_fifth_of_the_anchors_steel_in_shear() -> None:
    """ACI 318-19 17.7.1.2.1."""
    ratio = judged(contact="grout")["anchor-steel-shear"].capacity / judged()["anchor-steel-shear"].capacity
    assert ratio == pytest.approx(0.8)


# --- loads -------------------------------------------------------------------------------------------------------------------


def test_wood_by_allowable_stress_and_concrete_by_strength_never_one_by_the_other() -> None:
    result = judged(dead_lb=500.0, live_lb=0.0, snow_lb=1200.0)
    assert result["fasteners"].demand * 2 == pytest.approx(500 + 1200)
    assert result["fasteners"].combination == "D + S, C_D 1.15"
    assert result["anchor-pryout"].demand == pytest.approx(1.2 * 500 + 1.6 * 1200)
    newer = judged(US_2024, dead_lb=500.0, live_lb=0.0, snow_lb=1200.0)
    assert newer["anchor-pryout"].demand == pytest.approx(1.2 * 500 + 1.0 * 1200)


def test_only_effects_that_differ_are_shared_and_none_that_may_govern_is_lost(monkeypatch) -> None:
    for changes in (
        {"pull_wind_lb": 1500.0, "along_wind_lb": 700.0, "uplift_lb": 900.0, "left_in": 3.0, "right_in": 30.0},
        {"pull_wind_lb": 2200.0, "rows": 1, "legs": "one", "along_wind_lb": 400.0},
        {"along_wind_lb": 900.0, "legs": "angle", "columns": 1, "width_in": 4.0, "left_in": 2.0, "right_in": 60.0},
    ):
        few = judged(**changes)
        with monkeypatch.context() as all_of_them:
            all_of_them.setattr(concrete, "_worth_checking", lambda cases: list(cases))
            every = judged(**changes)
        assert {s.key: s.ratio for s in few.states} == {s.key: s.ratio for s in every.states}


def test_a_case_stands_for_another_only_where_it_matches_every_anchor() -> None:
    _, _, effect, shared = shared_by()
    one = Case(effect, shared, ())
    less = Case(effect, shared._replace(N=tuple(N / 2 for N in shared.N)), ())
    other = Case(effect, shared._replace(N=tuple(reversed(shared.N))), ())
    assert concrete._worth_checking([less, one]) == [one]
    assert len(concrete._worth_checking([one, other])) == 2


def test_wind_both_ways_along_the_wall_finds_the_nearer_end() -> None:
    result = judged(along_wind_lb=500.0, left_in=40.0, right_in=2.5)
    assert result["anchor-shear-x2"].ratio > result["anchor-shear-x1"].ratio


# --- earthquake --------------------------------------------------------------------------------------------------------------

SHAKEN = {"pull_seismic_lb": 1500.0, "seismic": "C"}


def test_earthquake_above_a_fifth_of_the_tension_asks_for_a_way() -> None:
    assert judged(**SHAKEN)["anchor-seismic-tension"].verdict is Verdict.FLAG
    assert judged(**SHAKEN, anchor_route="wall force")["anchor-seismic-tension"].verdict is Verdict.PASS
    assert "anchor-seismic-tension" not in {s.key for s in judged(pull_seismic_lb=1500.0, seismic="B").states}


def test_the_share_of_earthquake_is_the_tension_it_adds() -> None:
    """With the earthquake's pull taken out, the same combination leaves the couple's tension; the largest share is shown."""
    i = Inputs(**SHAKEN)
    p, load = geometry(i), demand.carried(SILENT, i)
    shares = []
    for effect in demand.strength_effects(p, load, US_2021):
        if effect.quakes:
            still = concrete.without_earthquake(effect)
            assert (still.P, still.quakes) == (0.0, False)
            with_it, without = (sum(demand.share(SILENT, i, p, e).N) for e in (effect, still))
            shares.append((with_it - without) / with_it)
    line = judged(**SHAKEN, anchor_route="wall force")["anchor-seismic-tension"]
    assert len(shares) == 2
    assert line.facts["share"][0] == pytest.approx(max(shares))


def test_a_ductile_anchor_needs_room_to_stretch_and_concrete_above_its_steel() -> None:
    """ACI 318-19 17.10.5.3(a): 8 x 5/8 in; 1.2 A_se f_uta = 1.2 x 0.226 x 58,000."""
    result = judged(**SHAKEN, anchor_route="ductile anchor", stretch_in=4.0)
    assert result["anchor-seismic-stretch"].demand == 5.0
    assert result["anchor-seismic-stretch"].verdict is Verdict.FLAG
    A_se = pi / 4 * (0.625 - 0.9743 / 11) ** 2
    assert result["anchor-seismic-order"].demand == pytest.approx(1.2 * A_se * 58000)


def test_concrete_strength_of_one_anchor_is_its_share_of_the_group() -> None:
    """A pull alone: the cone 19 x 19 of 4 anchors over 9 x 4², N_b = 24 √3000 x 4^1.5, a quarter each; pullout holds more."""
    result = judged(**SHAKEN, dead_lb=0.0, live_lb=0.0, anchor_route="ductile anchor", stretch_in=5.0)
    assert result["anchor-seismic-order"].capacity == pytest.approx(19 * 19 / 144 * 24 * ROOT * 4**1.5 / 4)


# --- rules that end, facts that miss -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"seismic": "D0"}, "scope"),
        ({"seismic": "C-town"}, "scope"),
        ({"f_c_psi": 2400.0}, "strength"),
        ({"f_c_psi": 2400.0}, "anchor"),
        (OVER_FOAM, "couple"),
        ({"head": "hook", "left_in": 0.0, "embedment_in": 4.5, "hook_in": 2.5}, "anchor-side-face"),
    ],
)
def test_what_is_outside_the_rules_goes_to_an_engineer(changes: dict, key: str) -> None:
    result = judged(**changes)
    assert result[key].verdict is Verdict.REFER
    assert "engineer" in result[key].refer
    assert result.verdict is Verdict.REFER


@pytest.mark.parametrize(
    ("changes", "key", "words"),
    [
        ({"top_of_wall": True}, "edges", "below the top of the concrete"),
        ({"over_opening": True}, "edges", "above the opening's head"),
        ({"wood": "scl"}, "fasteners", "specific gravity"),
        ({"wood": "scl"}, "member-shear", "shear value"),
        ({"wood": "scl", "legs": "one", "along_wind_lb": 200.0}, "sideways", "bearing value"),
    ],
)
def test_a_missing_fact_is_asked_for(changes: dict, key: str, words: str) -> None:
    line = judged(**changes)[key]
    assert line.verdict is Verdict.FLAG
    assert words in line.say


def test_labels_follow_the_edition() -> None:
    assert judged()["anchor-breakout"].source.label(US_2021).startswith("ACI 318-19 17.6.2.1")
    assert judged(US_2024)["toe"].source.label(US_2024) == "ACI 318-19(22) 22.8.3.2"


def test_a_load_of_nothing_is_still_answered() -> None:
    assert judged(dead_lb=0.0, live_lb=0.0).lines_verdict == "every line holds"


def test_what_is_not_checked_is_said() -> None:
    assert "the welds between plate and legs" in judged().outside
