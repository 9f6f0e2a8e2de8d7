"""An anchored plate's member and legs by hand: fasteners, distances, shear, the steel that stands out, a ledger; by property."""

from contextlib import suppress
from dataclasses import replace
from itertools import pairwise
from math import hypot, pi, sqrt

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine import fields, solve
from engine.attachments.anchored_plate import Inputs, check, steel
from engine.editions import US_2021
from engine.errors import BadInput
from engine.result import Verdict
from tests import pace
from tests.engine.samples import within_ranges
from tests.engine.test_every_kind import inspect

NAMES = [s.name for s in fields.specs(Inputs)]


def judged(edition=US_2021, **changes):
    inputs = Inputs(**changes)
    fields.validate(inputs)
    return check(inputs, edition)


# --- fasteners ---------------------------------------------------------------------------------------------------------------


def test_bolts_between_two_legs_yield_in_double_shear() -> None:
    """One 5/8 in bolt, DF-L across the grain (F_e 2,800, NDS 2018 Table 12.3.3), 3 1/2 in main, 1/4 in plates of 87,000 psi.

    I_m: 0.625 x 3.5 x 2,800 / (4 x 1.25); one bolt is no row, so C_g is 1.0. III_s and IV, both planes, lie above it.
    """
    line = judged(f_rows=1, dead_lb=200.0, live_lb=800.0)["fasteners"]
    assert "mode Im" in line.say
    assert line.capacity == pytest.approx(0.625 * 3.5 * 2800 / 5)
    assert line.demand == 1000.0


def test_a_knife_plate_is_the_main_member_and_the_cheeks_are_the_sides() -> None:
    """I_s of two cheeks (3 1/2 - 1/4) / 2 thick: 2 x 0.625 x 1.625 x 2,800 / 5."""
    line = judged(legs="slot", f_rows=1, live_lb=500.0)["fasteners"]
    assert "mode Is" in line.say
    assert line.capacity == pytest.approx(2 * 0.625 * 1.625 * 2800 / 5)


def test_one_leg_leaves_a_single_shear_plane() -> None:
    """Mode II of NDS 2018 Table 12.3.1A with R_e = 2,800 / 87,000, R_t = 3.5 / 0.25, R_d 3.6 x 1.25."""
    line = judged(legs="one", f_rows=1, dead_lb=100.0, live_lb=300.0)["fasteners"]
    R_e, R_t = 2800 / 87000, 3.5 / 0.25
    k_1 = (sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1 + R_t)) / (1 + R_e)
    assert line.capacity == pytest.approx(k_1 * 0.625 * 0.25 * 87000 / 4.5)


def test_two_bolts_in_a_row_across_the_grain_share_by_their_stiffness() -> None:
    """NDS 2018 11.3.6: n 2, s 4 in, γ 270,000 D^1.5, EA of the wood E/20 x 3 1/2 x 4 D, of two legs 29e6 x 1/2 x 6 3/4 in."""
    one = judged(f_rows=1, d_in=9.25)["fasteners"].capacity
    gamma = 270000 * 0.625**1.5
    EA_m, EA_s = 1.6e6 / 20 * 3.5 * 2.5, 29e6 * 0.5 * 6.75
    u = 1 + gamma * 4 / 2 * (1 / EA_m + 1 / EA_s)
    m, R = u - sqrt(u * u - 1), EA_m / EA_s
    C_g = m * (1 - m**4) / (2 * ((1 + R * m**2) * (1 + m) - 1 + m**4)) * (1 + R) / (1 - m)
    assert judged()["fasteners"].capacity == pytest.approx(one * C_g)


def test_a_pull_along_the_grain_turns_the_load_and_asks_for_more_end() -> None:
    """7 D toward the end in softwood, half of it at least (NDS 2018 Table 12.5.1A); across the grain 4 D."""
    assert judged()["end-distance"].demand == pytest.approx(2 * 0.625)
    pulled = judged(pull_wind_lb=9000.0)
    assert pulled["end-distance"].demand == pytest.approx(3.5 * 0.625)
    assert judged(pull_wind_lb=9000.0, live_lb=0.0)["fasteners"].demand == pytest.approx(hypot(500, 0.6 * 9000) / 2)
    assert "C_D 1.6" in judged(pull_wind_lb=9000.0, live_lb=0.0)["fasteners"].combination


def test_each_combination_keeps_its_own_duration() -> None:
    assert judged(live_lb=0.0, dead_lb=900.0)["fasteners"].combination == "D, C_D 0.9"
    assert judged(live_lb=0.0, dead_lb=500.0, wind_lb=2500.0)["fasteners"].combination == "D + 0.6W, C_D 1.6"


def test_the_top_is_the_loaded_edge_and_with_uplift_the_bottom_too() -> None:
    """NDS 2018 Table 12.5.1C: 4 D on the loaded edge, 1.5 D on the other."""
    down, up = judged(), judged(uplift_lb=2000.0)
    assert (down["edge-top"].demand, down["edge-bottom"].demand) == (2.5, 0.9375)
    assert (up["edge-top"].demand, up["edge-bottom"].demand) == (2.5, 2.5)
    assert up["edge-bottom"].verdict is Verdict.FLAG


def test_screws_stand_in_both_legs_and_small_ones_count_for_nothing() -> None:
    """No. 10 screws of 1 1/2 in through 1/4 in: 1 1/4 in in the wood, 6 D is 1.14 in (NDS 2018 12.1.5.6)."""
    screws = {"fastener": "screw", "gauge": "10", "f_rows": 4, "f_row_spacing_in": 1.5, "f_columns": 2, "f_top_in": 2.0,
              "f_column_spacing_in": 2.0, "offset_in": 7.0, "screw_length_in": 1.5}  # fmt: skip
    result = judged(**screws)
    assert result["fasteners"].demand == pytest.approx(1800 / 16)
    assert result["penetration"].demand == pytest.approx(1.14)
    assert result["screws-meet"].verdict is Verdict.PASS
    assert judged(**screws, b_in=2.0)["screws-meet"].verdict is Verdict.FLAG
    short = judged(**{**screws, "screw_length_in": 1.0})
    assert short["penetration"].verdict is Verdict.FLAG
    assert short["fasteners"].capacity == 0


def test_shear_at_the_fasteners_counts_from_the_top_to_the_lowest() -> None:
    """NDS 2018 Eq. 3.4-6: 2/3 x 180 x 3 1/2 x 7 3/4 x (7.75 / 9.25)², the beam's end being near."""
    line = judged()["member-shear"]
    assert line.capacity == pytest.approx(2 / 3 * 180 * 3.5 * 7.75 * (7.75 / 9.25) ** 2)
    assert line.demand == 1800.0
    assert judged(fastener="screw")["member-shear"].verdict is Verdict.ADVISORY
    assert judged(incised=True)["member-shear"].capacity == pytest.approx(0.8 * line.capacity)  # NDS 2018 Table 4.3.8


def test_between_two_legs_the_member_is_held_beside_one_its_fasteners_are_pulled() -> None:
    """0.6 W on two bolts; under a 2 in washer DF-L bears 625 x (4 - π (11/16)² / 4), C_b (2 + 3/8) / 2 (NDS 2018 3.10)."""
    assert judged(along_wind_lb=500.0)["sideways"].verdict is Verdict.PASS
    line = judged(legs="one", along_wind_lb=500.0)["sideways"]
    assert line.demand == pytest.approx(0.6 * 500 / 2)
    assert line.capacity == pytest.approx(625 * (2.375 / 2) * (4 - pi * 0.6875**2 / 4))
    screws = judged(legs="one", along_wind_lb=500.0, fastener="screw")["sideways"]
    assert screws.verdict is Verdict.FLAG
    assert "Use bolts" in screws.say


# --- the steel that stands out -----------------------------------------------------------------------------------------------


def test_a_leg_in_shear_by_hand() -> None:
    """AISC 360-22 J4.2: whole 0.6 x 36 x 8 x 1/4; net 0.75 x 0.6 x 58 x (8 - 2 x 3/4) x 1/4, bolts of 5/8 in; two legs."""
    gross, net = 0.6 * 36000 * 8 * 0.25, 0.75 * 0.6 * 58000 * (8 - 2 * 0.75) * 0.25
    assert judged()["leg-shear"].capacity == pytest.approx(2 * min(gross, net))


def test_bearing_and_blocks_of_a_leg_by_hand() -> None:
    """J3.11: clear steel 1.25 - 0.375 at the leg's end. J4.3: 2 + 4 in down with 1 1/2 holes of 3/4, 1.25 - 0.375 across."""
    result = judged()
    assert result["leg-bearing"].capacity == pytest.approx(0.75 * min(2.4 * 0.625, 1.2 * 0.875) * 0.25 * 58000)
    A_nv, A_gv, A_nt = (6 - 1.5 * 0.75) * 0.25, 6 * 0.25, 0.875 * 0.25
    block = 0.75 * (min(0.6 * 58000 * A_nv, 0.6 * 36000 * A_gv) + 58000 * A_nt)
    assert result["leg-block"].capacity == pytest.approx(2 * block)


def test_a_deep_thin_leg_buckles_sideways() -> None:
    """AISC 360-22 F11: L_b d / t² = 5.5 x 8 / (1/4)² = 704, between 0.08 E / F_y and 1.9 E / F_y."""
    slender, E, F_y, S = 5.5 * 8 / 0.25**2, 29e6, 36000, 0.25 * 8**2 / 6
    assert 0.08 * E / F_y < slender < 1.9 * E / F_y
    M = (1.52 - 0.274 * slender * F_y / E) * F_y * S
    line = judged()["leg-bending"]
    assert line.capacity == pytest.approx(2 * 0.9 * M)
    assert line.demand == pytest.approx(2680 * 5.5)


def test_bending_strength_of_a_leg_only_falls_with_its_slenderness() -> None:
    values = [steel.upright_bending_lb_in(s, 29e6, 36000, 1.0) for s in range(10, 4000, 10)]
    assert all(a >= b - 1e-9 for a, b in pairwise(values))
    assert values[0] == pytest.approx(0.9 * 1.5 * 36000)


def test_a_load_along_the_wall_bends_the_legs_on_their_flat_side() -> None:
    """500 lb at 5 1/2 in on two legs, 0.9 x 36,000 x 8 x (1/4)² / 4 each; the rest of the use is shear and upright bending."""
    line = judged(along_wind_lb=500.0)["leg-together"]
    V, weak = 1.2 * 500 + 1300, 2 * 0.9 * 36000 * 8 * 0.25**2 / 4
    shear, strong = judged()["leg-shear"].capacity, judged()["leg-bending"].capacity
    used = (V / shear) ** 2 + (V * 5.5 / strong + 500 * 5.5 / weak) ** 2
    assert line.demand == pytest.approx(used)


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"offset_in": 4.5}, "room"),
        ({"live_lb": 2000.0}, "member-shear"),
        ({"live_lb": 2000.0}, "fasteners"),
        ({"f_top_in": 2.0}, "edge-top"),
        ({"f_top_in": 5.0}, "edge-bottom"),
        ({"f_end_in": 1.0}, "end-distance"),
        ({"f_row_spacing_in": 1.5}, "rows-apart"),
        ({"f_row_spacing_in": 5.5, "leg_height_in": 9.0}, "rows-spread"),
        ({"f_columns": 2, "f_column_spacing_in": 1.0}, "columns-apart"),
        ({"leg_edge_in": 0.75}, "leg-edges"),
        ({"row_top_in": 0.75, "row_spacing_in": 7.0}, "plate-edges"),
        ({"thickness_in": 0.1875}, "plate-bending"),
        ({"thickness_in": 0.25}, "toe-bending"),
        ({"dead_lb": 60000.0, "live_lb": 60000.0, "height_in": 9.0, "f_c_psi": 2500.0}, "toe"),
        ({"dead_lb": 60000.0}, "leg-bearing"),
        ({"dead_lb": 90000.0}, "leg-shear"),
        ({"dead_lb": 90000.0}, "leg-block"),
        ({"dead_lb": 90000.0}, "leg-together"),
        ({"pull_wind_lb": 100000.0}, "leg-block-pull"),
        ({"offset_in": 36.0, "dead_lb": 20000.0}, "leg-bending"),
        ({"dead_lb": 20000.0}, "anchor-breakout"),
        ({"dead_lb": 20000.0}, "anchor-steel-shear"),
        ({"row_spacing_in": 2.0}, "anchor-spacing"),
        ({"left_in": 0.0, "torqued": True}, "anchor-edge"),
    ],
)
def test_each_line_can_flag(changes: dict, key: str) -> None:
    assert judged(**changes)[key].verdict is Verdict.FLAG


# --- a ledger off the wall ---------------------------------------------------------------------------------------------------

LEDGER = {"carried": "ledger"}


def test_a_ledger_on_plates_holds_and_its_middle_plate_takes_five_quarters() -> None:
    """250 plf on plates 32 in apart: 1.25 w s where it runs on, w s where it has a joint at each; sheared by 5/8 or half."""
    result = judged(**LEDGER)
    assert result.lines_verdict == "every line holds"
    ws = 250 * 32 / 12
    assert result["fasteners"].demand * 2 == pytest.approx(1.25 * ws)
    assert result["member-shear"].demand == pytest.approx(0.625 * ws)
    single = judged(**LEDGER, runs="single")
    assert single["fasteners"].demand * 2 == pytest.approx(ws)
    assert single["member-shear"].demand == pytest.approx(ws / 2)


def test_a_ledgers_couple_pulls_its_upper_fasteners() -> None:
    """833 lb acts 2 1/2 in off the front plate; lever 3/4 of 2 + 3 1/2 in, from the upper bolt to the ledger's lower edge."""
    line = judged(**LEDGER)["ledger-couple"]
    assert line.demand == pytest.approx(1.25 * 250 * 32 / 12 * 2.5 / (0.75 * 5.5))
    assert judged(**LEDGER, fastener="screw")["ledger-couple"].verdict is Verdict.FLAG


def test_a_ledger_is_never_pulled_across_its_grain() -> None:
    line = judged(**LEDGER, pull_wind_lb=100.0)["across-grain"]
    assert line.verdict is Verdict.FLAG
    assert "a rule of the trade" in line.say
    assert "the code bars it" in judged(**LEDGER, pull_wind_lb=100.0, seismic="C")["across-grain"].say


def test_a_ledger_bends_between_plates_where_its_value_is_typed() -> None:
    """w s² / 8 = 250 / 12 x 32² / 8."""
    assert judged(**LEDGER)["ledger-bending"].verdict is Verdict.UNCHECKED
    line = judged(**LEDGER, F_b_psi=1000.0)["ledger-bending"]
    assert line.demand == pytest.approx(250 / 12 * 32**2 / 8)
    assert line.capacity == pytest.approx(1000 * 3.5 * 9.25**2 / 6)


def test_a_load_along_a_ledger_runs_along_its_grain() -> None:
    result = judged(**LEDGER, along_wind_lb=900.0)
    assert result["fasteners"].verdict in (Verdict.PASS, Verdict.FLAG)
    assert result["end-distance"].demand == pytest.approx(3.5 * 0.625)
    assert "sideways" not in {s.key for s in result.states}


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"face_in": 5.0}, "room"),
        ({"face_in": 0.5}, "room"),
        ({"leg_thickness_in": 0.1875}, "front-bending"),
        ({"f_row_spacing_in": 4.0, "leg_height_in": 2.0, "f_rows": 3}, "leg-edges"),
        ({"live_plf": 2000.0}, "ledger-couple"),
        ({"F_b_psi": 200.0, "spacing_in": 96.0}, "ledger-bending"),
    ],
)
def test_each_line_of_a_ledger_can_flag(changes: dict, key: str) -> None:
    assert judged(**LEDGER, **changes)[key].verdict is Verdict.FLAG


# --- by property -------------------------------------------------------------------------------------------------------------


@given(
    st.sampled_from(("dead_lb", "live_lb", "snow_lb", "roof_lb")), st.floats(0, 9000), st.floats(1, 3), st.booleans()
)
@settings(max_examples=60, deadline=None)
def test_more_load_never_turns_a_flag_into_a_pass(name: str, base: float, more: float, near: bool) -> None:
    first = Inputs(**{name: base}, top_of_wall=near, top_edge_in=4.0, left_in=3.0 if near else None)
    low, high = (check(i, US_2021) for i in (first, replace(first, **{name: base * more})))
    for line in low.states:
        if line.verdict is Verdict.FLAG:
            assert high[line.key].verdict is not Verdict.PASS, line.key


@given(st.data())
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_no_mixture_of_extremes_breaks_it(data: st.DataObject) -> None:
    """Some fields anywhere in their ranges, the others as at first, so that most of it can be built."""
    drawn = data.draw(within_ranges(Inputs))
    changed = data.draw(st.lists(st.sampled_from(NAMES), max_size=12, unique=True))
    inputs = replace(Inputs(), **{name: getattr(drawn, name) for name in changed})
    with suppress(BadInput):
        inspect(check(inputs, US_2021))


def test_a_solved_plate_holds_and_a_hair_thinner_flags() -> None:
    """Solved in the eighths that can be bought."""
    weak = Inputs(thickness_in=0.25)
    remedy, blocked = solve.solve("anchored_plate", weak, US_2021, "thickness_in")
    assert blocked is None
    assert remedy is not None
    thick = remedy.values[0]
    assert check(replace(weak, thickness_in=thick), US_2021).verdict is Verdict.PASS
    assert check(replace(weak, thickness_in=thick - 0.125), US_2021).verdict is Verdict.FLAG


def test_an_embedment_too_deep_is_cured_by_the_anchors_or_the_wall() -> None:
    words = [r.words() for r in solve.remedies("anchored_plate", Inputs(embedment_in=5.5), US_2021)]
    assert words[0] == "Make the embedment in the core 4 3/4 in"
    assert "Make the core 8 in" in words


def test_a_check_takes_about_a_thousandth_of_a_second() -> None:
    inputs = Inputs(top_of_wall=True, top_edge_in=4.0, left_in=4.0, right_in=3.0)
    assert pace.seconds(lambda: check(inputs, US_2021), rounds=40, number=5) < 0.0015
