"""A cast-in plate and its screws, worked by hand and by property."""

from dataclasses import replace
from math import ceil, inf, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import attachments, fields, solve
from engine.attachments.cast_in_plate import Inputs, geometry
from engine.attachments.cast_in_plate.inputs import EXAMPLE
from engine.editions import US_2021, US_2024
from engine.errors import BadInput
from engine.result import Verdict
from tests import pace

REACTION_LB = 50 * 16 / 12 * 14 / 2  # 10 + 40 psf, joists at 16 in, 14 ft


def judged(edition=US_2021, **changes):
    return attachments.check("cast_in_plate", Inputs(**changes), edition)


def single_shear_lb(D_r: float, l_m: float, t: float, F_em: float, F_es: float, F_yb: float, K_D: float) -> float:
    """NDS 2018 Table 12.3.1A written out: the least of the six yield modes of a screw with a steel side plate."""
    R_e, R_t = F_em / F_es, l_m / t
    k_1 = (sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1 + R_t)) / (1 + R_e)
    k_2 = -1 + sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D_r**2 / (3 * F_em * l_m**2))
    k_3 = -1 + sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D_r**2 / (3 * F_em * t**2))
    return min(
        D_r * l_m * F_em / K_D,
        D_r * t * F_es / K_D,
        k_1 * D_r * t * F_es / K_D,
        k_2 * D_r * l_m * F_em / ((1 + 2 * R_e) * K_D),
        k_3 * D_r * t * F_em / ((2 + R_e) * K_D),
        D_r**2 / K_D * sqrt(2 * F_em * F_yb / (3 * (1 + R_e))),
    )


# No. 10: D 0.190, D_r 0.152, F_yb 80 ksi (NDS 2018 Appendices I, L; recalled). SPF: G 0.42, F_e 3,350 psi to 50 psi (12.3.3).
# 14 gauge base metal 0.0747 in, F_es 61,850 psi (Table 12M). 1 1/2 in screw: p = 1.5 - 0.0747, below 10 D, so l_m = p - D.
ONE_LB = single_shear_lb(0.152, 1.5 - 0.0747 - 0.19, 0.0747, 3350, 61850, 80000, 2.2)


def test_an_ordinary_cast_in_plate_passes() -> None:
    for edition in (US_2021, US_2024):
        result = judged(edition)
        assert result.verdict is Verdict.PASS
        assert result.lines_verdict == "every line holds"


def test_six_screws_pass_and_three_flag_by_strength_and_by_the_listing() -> None:
    assert REACTION_LB < 6 * ONE_LB
    assert REACTION_LB > 3 * ONE_LB
    three = judged(screws=3)
    assert three.verdict is Verdict.FLAG
    assert {s.key for s in three.states if s.verdict is Verdict.FLAG} == {"screws", "listing-screws"}
    assert three["usual-count"].verdict is Verdict.ADVISORY


def test_screws_are_worth_the_yield_limit_with_a_steel_side_plate() -> None:
    line = judged()["screws"]
    assert line.demand == pytest.approx(REACTION_LB, rel=1e-12)
    assert line.capacity == pytest.approx(6 * ONE_LB, rel=1e-12)
    assert line.facts["one"][0] == pytest.approx(ONE_LB, rel=1e-12)


def test_a_screw_ten_diameters_deep_counts_its_whole_point() -> None:
    """Reading of NDS 12.3.5.3: l_m = p - D below 10 D, p from there on; in 3 in of wood a 2 in screw reaches 1.925 in."""
    deep = judged(wood_in=3.0, length_in=2.0)["screws"]
    full = single_shear_lb(0.152, 2.0 - 0.0747, 0.0747, 3350, 61850, 80000, 2.2)
    assert 2.0 - 0.0747 > 10 * 0.19
    assert deep.capacity == pytest.approx(6 * full, rel=1e-12)


def test_each_combination_has_its_own_duration() -> None:
    """Snow: D + S at C_D 1.15 governs over D at 0.9 (NDS 2018 Table 2.3.2)."""
    line = judged(live_psf=0.0, snow_psf=40.0)["screws"]
    assert line.combination == "D + S, C_D 1.15"
    assert line.capacity == pytest.approx(6 * 1.15 * ONE_LB, rel=1e-12)


def test_wood_screwed_green_or_wet_in_service_keeps_seven_tenths() -> None:
    """NDS 2018 Table 11.3.3, fasteners below 1/4 in."""
    for moisture in ("green", "wet"):
        assert judged(moisture=moisture)["screws"].capacity == pytest.approx(6 * 0.7 * ONE_LB, rel=1e-12)


def test_penetration_short_of_six_diameters_is_flagged_and_carries_nothing() -> None:
    short = judged(length_in=1.0)
    assert short["penetration"].demand == pytest.approx(6 * 0.19)
    assert short["penetration"].capacity == pytest.approx(1.0 - 0.0747)
    assert short["penetration"].verdict is Verdict.FLAG
    assert short["screws"].ratio == inf


def test_a_point_that_comes_out_of_the_wood_is_flagged_and_counts_only_what_is_in_it() -> None:
    long = judged(length_in=2.0)
    assert (long["wood"].demand, long["wood"].capacity) == (pytest.approx(2.0 - 0.0747), 1.5)
    assert long["wood"].verdict is Verdict.FLAG
    assert long["penetration"].capacity == 1.5


def test_thickness_of_steel_is_base_metal_and_never_a_gauge_alone() -> None:
    """Manufacturers' standard gauge: 14 gauge is 0.0747 in bare, 0.0785 in with its zinc."""
    assert Inputs().t_in == 0.0747
    assert Inputs(sheet="typed", thickness_in=0.1).t_in == 0.1
    for value, words in fields.spec(Inputs, "sheet").options:
        assert value == "typed" or "in" in words.split()
    thicker = judged(sheet="0.1046")["screws"].capacity
    assert thicker > judged()["screws"].capacity


def test_steel_of_another_strength_bears_by_its_own_tensile_strength() -> None:
    """NDS 2018 Appendix I.2: 1.375 F_u for sheet, 1.5 F_u from 1/4 in."""
    strong = single_shear_lb(0.152, 1.5 - 0.0747 - 0.19, 0.0747, 3350, 1.375 * 65000, 80000, 2.2)
    assert judged(F_u_ksi=65.0, F_y_ksi=50.0)["screws"].capacity == pytest.approx(6 * strong, rel=1e-12)
    plate = single_shear_lb(0.152, 1.75 - 0.25 - 0.19, 0.25, 3350, 1.5 * 70000, 80000, 2.2)
    thick = judged(sheet="0.25", F_u_ksi=70.0, F_y_ksi=50.0, length_in=1.75)
    assert thick["screws"].capacity == pytest.approx(6 * plate, rel=1e-12)
    tables = single_shear_lb(0.152, 1.75 - 0.25 - 0.19, 0.25, 3350, 87000, 80000, 2.2)
    thick = judged(sheet="0.25", F_u_ksi=58.0, F_y_ksi=36.0, length_in=1.75)
    assert thick["screws"].capacity == pytest.approx(6 * tables, rel=1e-12)


def test_screws_stand_row_by_row_from_the_top() -> None:
    p = geometry(Inputs())
    x = 2.5 + 0.25 + 2.0  # foam, gap to the joist's end, end distance
    assert p.screws == tuple((x + c * 2.0, 2.125 + r * 2.5) for r in range(3) for c in range(2))
    assert p.bottom == 9.25 - 2.125 - 2 * 2.5
    assert p.lever == x + 1.0
    assert p.beyond == 5.25 - 0.25 - 2.0 - 2.0
    assert p.below == (7.0 - 5.0) / 2


def test_a_short_last_row_starts_at_the_joists_end_and_staggered_rows_shift_by_half() -> None:
    p = geometry(Inputs(screws=3))
    assert p.rows == ceil(3 / 2)
    assert p.screws[2] == (4.75, 4.625)
    staggered = geometry(Inputs(staggered=True))
    assert staggered.screws[2] == (5.75, 4.625)


@pytest.mark.parametrize(
    ("key", "changes", "need_in_D", "there"),
    [
        ("end-distance", {"end_in": 1.75}, 10, 1.75),
        ("along", {"along_in": 1.75}, 10, 1.75),
        ("across", {"across_in": 0.75}, 5, 0.75),
        ("top-edge", {"top_in": 0.375}, 2.5, 0.375),
        ("bottom-edge", {"top_in": 4.0}, 2.5, 0.25),
    ],
)
def test_distances_against_splitting_are_those_of_the_commentary(
    key: str, changes: dict[str, float], need_in_D: float, there: float
) -> None:
    """NDS 2018 Commentary C12.1.5.7 (recalled), steel side plate, no lead hole: end and along 10 D, across 5 D, edge 2.5 D."""
    line = judged(**changes)[key]
    assert line.demand == pytest.approx(need_in_D * 0.19)
    assert line.capacity == pytest.approx(there)
    assert line.verdict is Verdict.FLAG


def test_lead_holes_halve_distances_along_the_grain_and_staggering_those_across() -> None:
    """Same commentary: 5 D and 2.5 D with lead holes; 2.5 D across where rows are staggered."""
    drilled = judged(lead_holes=True)
    assert drilled["end-distance"].demand == drilled["along"].demand == pytest.approx(5 * 0.19)
    assert drilled["across"].demand == pytest.approx(2.5 * 0.19)
    assert judged(staggered=True)["across"].demand == pytest.approx(2.5 * 0.19)


def test_rows_that_do_not_fit_the_joist_say_by_how_much() -> None:
    shallow = judged(depth_in=7.0)["bottom-edge"]
    assert shallow.capacity == 7.0 - 2.125 - 5.0
    assert shallow.facts["miss"] == (0.125, "in")
    assert shallow.verdict is Verdict.FLAG


def test_no_listed_capacity_is_flagged_and_never_invented() -> None:
    line = judged(listed_lb=None)["listed"]
    assert (line.verdict, line.capacity) == (Verdict.FLAG, None)
    assert "Enter the allowable capacity" in line.say


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"report": ""}, "Enter the report's number"),
        ({"report": "   "}, "Enter the report's number"),
        ({"expires": ""}, "Enter the day"),
        ({"expires": "2026-01-31", "today": "2026-02-01"}, "ended on 2026-01-31"),
        ({"issued": "2026-03-01", "today": "2026-02-01"}, "dated 2026-03-01"),
    ],
)
def test_a_report_without_number_or_end_or_no_longer_in_force_is_flagged(changes: dict[str, str], words: str) -> None:
    result = judged(**changes)
    assert result["report"].verdict is Verdict.FLAG
    assert words in result["report"].say
    assert result.verdict is Verdict.FLAG


def test_a_report_holds_on_its_last_day_and_without_a_day_says_it_was_not_compared() -> None:
    assert judged(expires="2026-01-31", today="2026-01-31")["report"].verdict is Verdict.PASS
    assert judged(expires="2026-01-31")["report"].verdict is Verdict.UNCHECKED


@pytest.mark.parametrize(
    ("key", "flagging", "missing"),
    [
        ("listing-strength", {"f_c_psi": 2500.0, "listed_f_c_psi": 3000.0}, {"listed_f_c_psi": None}),
        ("listing-foam", {"foam_in": 3.0}, {"listed_foam_most_in": None}),
        ("listing-foam", {"listed_foam_least_in": 2.625}, {"listed_foam_least_in": None}),
        ("listing-embedment", {"embedment_in": 3.25}, {"listed_embedment_in": None}),
        ("listing-spacing", {"spacing_in": 10.0}, {"listed_spacing_in": None}),
        ("listing-screws", {"screws": 5}, {"listed_screws": None}),
        ("listing-gauge", {"gauge": "9"}, {"listed_gauge": ""}),
    ],
)
def test_every_condition_of_the_listing_is_held_and_asked_for(key: str, flagging: dict, missing: dict) -> None:
    assert judged()[key].verdict is Verdict.PASS
    assert judged(**flagging)[key].verdict is Verdict.FLAG
    blank = judged(**missing)[key]
    assert blank.verdict is Verdict.FLAG
    assert blank.say.startswith("Enter ")


def test_a_listing_for_short_loads_is_worth_less_under_a_floor_and_never_more() -> None:
    """P' = P min(C_D / C_D listed, 1): listed for wind, 1.6, a floor at 1.0 leaves 800 / 1.6; snow never raises it."""
    floor = judged(basis="1.6")["listed"]
    assert floor.capacity == pytest.approx(800 / 1.6)
    snow = judged(basis="1.0", live_psf=0.0, snow_psf=40.0)["listed"]
    assert (snow.capacity, snow.combination) == (800.0, "D + S, C_D 1.15")


def test_an_i_joist_wants_filler_and_its_drawing() -> None:
    bare = judged(joist="i_joist", filler="none", wood_in=0.375, length_in=1.5)
    assert bare["filler"].verdict is Verdict.FLAG
    assert bare["member"].verdict is Verdict.FLAG
    assert bare["wood"].verdict is Verdict.FLAG
    filled = judged(joist="i_joist", depth_in=11.875, top_in=3.0, wood_in=1.5, member_capacity_lb=900.0)
    assert filled["filler"].verdict is Verdict.PASS
    assert filled.verdict is Verdict.PASS
    assert "filler" not in {s.key for s in judged().states}


def test_an_i_joists_screws_keep_their_edge_distance_inside_its_filler() -> None:
    """Flange 1 1/2 in, 1/8 in open above the filler: a row 2 in down has 3/8 in of wood above it, 0.475 is asked."""
    joist = {"joist": "i_joist", "depth_in": 11.875, "member_capacity_lb": 900.0}
    line = judged(**joist, top_in=2.0)["top-edge"]
    assert line.capacity == 0.375
    assert line.verdict is Verdict.FLAG
    assert geometry(Inputs(**joist, top_in=2.0)).bottom == 11.875 - 1.5 - 2.0 - 5.0


def test_composite_lumber_asks_for_its_own_gravity_and_reaction() -> None:
    unknown = judged(joist="scl", wood_in=1.75)
    assert unknown["screws"].verdict is Verdict.FLAG
    assert unknown["screws"].capacity is None
    known = judged(joist="scl", wood_in=1.75, G=0.50, member_capacity_lb=2000.0)
    # 16,600 G^1.84 at 0.50 to 50 psi is 4,650 (NDS 2018 Table 12.3.3)
    one = single_shear_lb(0.152, 1.5 - 0.0747 - 0.19, 0.0747, 4650, 61850, 80000, 2.2)
    assert known["screws"].capacity == pytest.approx(6 * one, rel=1e-12)
    assert judged(joist="scl", G=0.5, member_capacity_lb=400.0)["member"].verdict is Verdict.FLAG


def test_shear_above_the_lowest_screws_is_shown_but_never_flags() -> None:
    """NDS 2018 3.4.3.3: (2/3) F_v b d_e (d_e/d)^2 within 5 d of the end; F_v 135 psi, d_e = 9.25 - 2.125."""
    line = judged()["joist-shear"]
    assert line.capacity == pytest.approx(2 / 3 * 135 * 1.5 * 7.125 * (7.125 / 9.25) ** 2)
    assert line.verdict is Verdict.ADVISORY


def test_a_part_too_deep_in_its_core_has_no_cover_behind() -> None:
    """ACI 318-19 20.5.1.3.1: 3/4 in, not exposed."""
    line = judged(embedment_in=5.5)["behind"]
    assert (line.demand, line.capacity) == (0.75, 0.5)
    assert line.verdict is Verdict.FLAG
    assert judged(embedment_in=7.0)["behind"].verdict is Verdict.FLAG


def test_without_a_survey_the_place_is_advisory_and_with_one_it_is_judged() -> None:
    assert judged()["place-upright"].verdict is Verdict.ADVISORY
    assert judged()["place-along"].verdict is Verdict.ADVISORY
    assert judged(surveyed=True)["place-upright"].verdict is Verdict.PASS
    assert judged(surveyed=True)["place-along"].verdict is Verdict.PASS


def test_a_part_may_stand_off_its_height_until_a_screw_loses_its_edge() -> None:
    """Upper row 2 1/8 in down, 2.5 D = 0.475 in is asked: 1.65 in of room upward, as much downward here."""
    for up in (1.65, -1.65):
        line = judged(surveyed=True, shift_up_in=up)["place-upright"]
        assert line.capacity == pytest.approx(2.125 - 0.475)
        assert line.verdict is Verdict.PASS
        assert judged(surveyed=True, shift_up_in=up * 1.01)["place-upright"].verdict is Verdict.FLAG
    assert geometry(Inputs(surveyed=True, shift_up_in=0.5)).screws_built[0] == (4.75, 1.625)


def test_a_part_off_the_joists_side_costs_penetration_and_opens_a_gap() -> None:
    """1/4 in away: the point reaches 1.5 - 0.0747 - 0.25 in and the screw bends over the gap (AWC TR12)."""
    off = judged(surveyed=True, shift_along_in=0.25)
    assert off["penetration"].capacity == pytest.approx(1.5 - 0.0747 - 0.25)
    assert off["place-along"].capacity == pytest.approx(1.5 - 0.0747 - 6 * 0.19)
    assert off["screws"].capacity < judged()["screws"].capacity
    assert judged(surveyed=True, shift_along_in=0.375)["place-along"].verdict is Verdict.FLAG


def test_a_part_in_the_joists_place_moves_the_joist_and_loads_its_neighbour() -> None:
    """2 in over: the neighbour carries 16 + 2/2 in of floor, and parts stand 14 in apart."""
    moved = judged(surveyed=True, shift_along_in=-2.0)
    assert moved["screws"].demand == pytest.approx(50 * 17 / 12 * 14 / 2)
    assert moved["listing-spacing"].capacity == 14.0
    typed = judged(surveyed=True, shift_along_in=-2.0, reaction="typed")
    assert typed["screws"].demand == pytest.approx(500 * 17 / 16)


def test_a_shift_typed_before_the_survey_changes_nothing() -> None:
    assert judged(shift_along_in=0.5, shift_up_in=5.0)["screws"].capacity == judged()["screws"].capacity


@pytest.mark.parametrize(
    ("treatment", "coating", "verdict"),
    [
        ("plain", "plain", Verdict.PASS),
        ("treated", "G90", Verdict.FLAG),
        ("treated", "G185", Verdict.PASS),
        ("treated", "hot-dip galvanized", Verdict.PASS),
        ("borate", "G60", Verdict.FLAG),
        ("borate", "stainless", Verdict.PASS),
    ],
)
def test_a_connector_in_treated_wood_is_at_least_g185(treatment: str, coating: str, verdict: Verdict) -> None:
    """IRC 2021 R317.3.1: where its maker says nothing, ASTM A653 G185."""
    assert judged(treatment=treatment, coating=coating)["part-coating"].verdict is verdict


@pytest.mark.parametrize(
    ("treatment", "screw", "dry", "verdict"),
    [
        ("plain", "plain", True, Verdict.PASS),
        ("treated", "plain", True, Verdict.FLAG),
        ("treated", "electroplated", True, Verdict.FLAG),
        ("treated", "mechanically galvanized", True, Verdict.PASS),
        ("borate", "plain", True, Verdict.PASS),
        ("borate", "plain", False, Verdict.FLAG),
    ],
)
def test_screws_in_treated_wood_are_coated(treatment: str, screw: str, dry: bool, verdict: Verdict) -> None:
    """IRC 2021 R317.3.1: plain steel only in borate-treated wood that is dry inside."""
    assert (
        judged(treatment=treatment, screw_coating=screw, interior_dry=dry, coating="stainless")["screw-coating"].verdict
        is verdict
    )


def test_a_damp_place_is_said_but_not_judged() -> None:
    assert "damp" not in {s.key for s in judged().states}
    assert judged(interior_dry=False)["damp"].verdict is Verdict.ADVISORY
    assert judged(interior_dry=False)["damp"].holds is False


def test_the_clause_moves_with_the_edition() -> None:
    line = judged()["part-coating"]
    assert line.source.label(US_2021) == "IRC 2021 R317.3.1"
    assert line.source.label(US_2024) == "IRC 2024 R304.3.1"


def test_cautions_tell_an_example_from_a_listing_and_name_the_barrier() -> None:
    def texts(**changes):
        return " ".join(c.text for c in judged(**changes).cautions)

    assert Inputs().report == EXAMPLE
    assert "example" in texts()
    assert "example" not in texts(report="No. 1")
    assert "Foam toward the room needs a thermal barrier" in texts(barrier=False)
    assert "corrode each other" in texts(coating="stainless")
    assert "corrode each other" not in texts()


@pytest.mark.parametrize(
    ("changes", "key"),
    [({"seismic": "D1"}, "scope"), ({"span_ft": 33.0}, "scope"), ({"f_c_psi": 2000.0}, "strength")],
)
def test_beyond_the_prescriptive_limits_an_engineer_is_asked(changes: dict, key: str) -> None:
    """IRC 2021 R608.2: spans to 32 ft, seismic categories A to C; R608.5.1.5: 2,500 psi."""
    result = judged(**changes)
    assert result[key].verdict is Verdict.REFER
    assert result.verdict is Verdict.REFER


def test_ends_held_by_nothing_are_flagged() -> None:
    assert judged(end_held="none")["rotation"].verdict is Verdict.FLAG


def test_a_solved_span_passes_and_the_next_step_flags() -> None:
    remedy, _ = solve.solve("cast_in_plate", Inputs(span_ft=24.0), US_2021, "span_ft")
    assert remedy is not None
    span = remedy.values[0]
    assert judged(span_ft=span).verdict is Verdict.PASS
    assert judged(span_ft=span + 1 / 3).verdict is Verdict.FLAG


def test_three_screws_are_mended_by_six() -> None:
    remedy, _ = solve.solve("cast_in_plate", Inputs(screws=3), US_2021, "screws")
    assert remedy is not None
    assert remedy.values == (6,)


def test_inputs_survive_a_trip_through_their_texts() -> None:
    inputs = Inputs(
        listed_lb=None, listed_gauge="", today="2026-02-28", report="A (1)", surveyed=True, shift_up_in=-0.5
    )
    read, errors = fields.read(Inputs, fields.write(inputs))
    assert (read, errors) == (inputs, {})


LOADS = ("dead_psf", "live_psf", "snow_psf", "own_weight_plf")


@given(st.sampled_from(LOADS), st.floats(1.0, 3.0), st.floats(0, 60), st.sampled_from(("1.0", "1.15", "1.6")))
@settings(max_examples=60, deadline=None)
def test_more_load_never_turns_a_flag_into_a_pass(name: str, more: float, base: float, basis: str) -> None:
    first = Inputs(basis=basis, **{name: base})
    low, high = (attachments.check("cast_in_plate", i, US_2021) for i in (first, replace(first, **{name: base * more})))
    for line in low.states:
        if line.verdict is Verdict.FLAG:
            assert high[line.key].verdict is not Verdict.PASS, line.key


@given(st.integers(1, 20), st.integers(1, 4))
@settings(max_examples=40, deadline=None)
def test_one_more_screw_never_weakens_the_joint_in_the_wood(screws: int, columns: int) -> None:
    fewer, more = (judged(screws=n, columns=columns)["screws"] for n in (screws, screws + 1))
    assert more.capacity > fewer.capacity


def _any(known: fields.Spec) -> st.SearchStrategy:
    if known.kind == "choice":
        return st.sampled_from([value for value, _ in known.options])
    if known.kind == "yes":
        return st.booleans()
    if known.kind == "date":
        return st.sampled_from(("", "2020-02-29", "2026-07-01", "2099-12-31"))
    if known.kind == "text":
        return st.sampled_from(("", "R-1", "{demand} {nothing}", "}{"))
    edges = (known.low, known.high)
    if known.kind == "count":
        value = st.integers(int(known.low), int(known.high))
    else:
        value = st.sampled_from(edges) | st.floats(known.low, known.high)
    return st.none() | value if known.optional else value


@given(st.fixed_dictionaries({s.name: _any(s) for s in fields.specs(Inputs)}), st.sampled_from((US_2021, US_2024)))
@settings(max_examples=400, deadline=None)
def test_no_inputs_in_range_break_the_check(values: dict, edition) -> None:
    inputs = Inputs(**values)
    if inputs.kind == "plate" and inputs.F_y_ksi > inputs.F_u_ksi:
        with pytest.raises(BadInput, match="tensile strength"):
            attachments.check("cast_in_plate", inputs, edition)
        return
    result = attachments.check("cast_in_plate", inputs, edition)
    assert len({s.key for s in result.states}) == len(result.states)
    for line in result.states:
        values = {name: value for name, (value, _) in line.facts.items()}
        said = line.say.format(demand=line.demand, capacity=line.capacity, **values)
        assert said
        assert "None" not in said
        assert line.demand is None or line.demand >= 0, line.key


def test_a_check_takes_less_than_a_millisecond() -> None:
    inputs = Inputs()
    assert pace.seconds(lambda: attachments.check("cast_in_plate", inputs, US_2021), rounds=5, number=20) < 1e-3
