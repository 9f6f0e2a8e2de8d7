"""Placing concrete: lifts, volumes and hours, setting between lifts, webs, braces, the mix, curves, hold points."""

from dataclasses import replace
from math import ceil, cos, inf, pi

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine.editions import US_2021
from engine.errors import BadInput
from engine.placing import (
    HOLD_POINTS,
    STAGES,
    Inputs,
    Run,
    parted,
    placing_plan,
    read_hold_points,
    run,
    runs,
    write_hold_points,
)
from engine.result import Verdict
from engine.wall import Opening, Storey, WallLine, WallType, wall
from tests.engine.placements import AREA_FT2, W1, plan, verdict
from tests.engine.samples import within_ranges

# Lifts, volume, time.


def test_the_last_lift_is_what_is_left() -> None:
    found = plan(replace(W1, height_ft=8.0), lift_ft=3.0, pump_yd3_per_h=6.0)
    assert [(row.filling.from_ft, row.filling.to_ft) for row in found.lifts] == [(0, 3), (3, 6), (6, 8)]
    assert found.lifts[-1].filling.minutes == pytest.approx(60 * 2 * AREA_FT2 / 27 / 6)
    assert found.hours == pytest.approx(8 * AREA_FT2 / 27 / 6)


WINDOW = Opening(start_ft=4.0, width_ft=5.0, sill_ft=3.0, head_ft=7.0)


def test_openings_take_concrete_away_and_speed_the_rise() -> None:
    found = plan(replace(W1, openings=(WINDOW,)), pump_yd3_per_h=4.0)
    assert found.volume_yd3 == pytest.approx((54 * 9 - 5 * 4) * 8 / 12 / 27)
    assert [row.filling.volume_yd3 for row in found.lifts] == pytest.approx(
        [54 * 3 * 8 / 12 / 27, (54 - 5) * 3 * 8 / 12 / 27, (54 * 3 - 5 * 1) * 8 / 12 / 27]
    )
    assert found.lifts[1].filling.circuit_ft_per_h == pytest.approx(27 * 4 / (49 * 8 / 12))
    assert found.lifts[1].filling.average_ft_per_h == pytest.approx(
        6 / (found.lifts[1].filling.volume_yd3 / 4 + 54 * 2 / 27 / 4)
    )


def test_a_band_that_is_all_opening_takes_no_time_and_breaks_nothing() -> None:
    gate = Opening(start_ft=0.0, width_ft=54.0, sill_ft=0.0, head_ft=3.0)
    found = plan(replace(W1, openings=(gate,)), pump_yd3_per_h=4.0)
    assert found.lifts[0].filling.minutes == 0
    assert found.lifts[0].filling.average_ft_per_h == inf
    assert "inf" not in "".join(state.sentence() for state in found.result.states)


def volume_by_slices(walls: tuple[Run, ...], high: float, n: int = 6000) -> float:
    """Concrete up to a height, summed slice by slice [yd³]: another way than areas of rectangles."""
    total = 0.0
    for k in range(n):
        z = (k + 0.5) * high / n
        for one in walls:
            if z < one.height_ft:
                gone = sum(o.width_ft for o in one.openings if o.sill_ft <= z < o.head_ft)
                total += (one.length_ft - gone) * one.core_in / 12 / 27 * high / n
    return total


@given(
    st.lists(
        st.tuples(st.floats(10, 60), st.sampled_from([6.0, 8.0, 10.0]), st.sampled_from([8.0, 9.0, 10.0]), st.booleans()),
        min_size=1, max_size=4,
    ),
    st.sampled_from([2.0, 3.0, 4.0]), st.floats(2, 40),
)  # fmt: skip
@settings(max_examples=25, deadline=None)
def test_filling_slice_by_slice_comes_to_the_same_volumes_and_hours(
    shapes: list[tuple[float, float, float, bool]], lift: float, rate: float
) -> None:
    walls = tuple(
        Run(f"W{n}", length, height, core, 8.0, 16.0, 715.0, (WINDOW,) if window else ())
        for n, (length, core, height, window) in enumerate(shapes)
    )
    found = placing_plan(Inputs(lift_ft=lift, pump_yd3_per_h=rate), walls, US_2021)
    assert len(found.lifts) == ceil(max(one.height_ft for one in walls) / lift)
    for row in found.lifts:
        filled = volume_by_slices(walls, row.filling.to_ft)
        assert (row.filling.starts_min + row.filling.minutes) / 60 == pytest.approx(filled / rate, rel=2e-3)
    assert sum(row.filling.volume_yd3 for row in found.lifts) == pytest.approx(found.volume_yd3)
    assert found.volume_yd3 == pytest.approx(volume_by_slices(walls, 10.0), rel=2e-3)


def test_a_low_wall_ends_below_the_last_lift_and_is_pressed_by_its_own_depth_only() -> None:
    low = replace(W1, name="W2", height_ft=4.0, form_psf=600.0)
    found = plan(W1, low, slump_in=7.5, pump_yd3_per_h=5.0)
    assert found.lifts[1].filling.volume_yd3 == pytest.approx((54 * 3 + 54 * 1) * 8 / 12 / 27)
    assert found.lifts[2].wall == "W1"
    assert found.result["form-pressure"].demand == pytest.approx(150 * 9)


def test_a_circuit_longer_than_the_walls_rises_slower_and_takes_longer() -> None:
    alone, further = plan(pump_yd3_per_h=4.0), plan(pump_yd3_per_h=4.0, circuit_ft=108.0)
    assert further.lifts[0].filling.average_ft_per_h == pytest.approx(alone.lifts[0].filling.average_ft_per_h / 2)
    assert further.hours == pytest.approx(2 * alone.hours)
    assert further.volume_yd3 == pytest.approx(alone.volume_yd3)


def test_walls_longer_than_the_circuit_are_filled_one_circuit_after_another() -> None:
    found = plan(pump_yd3_per_h=4.0, circuit_ft=20.0, wait_h=0.5)
    assert found.circuits == ceil(54 / 20)
    assert found.lifts[0].filling.circuit_ft_per_h == pytest.approx(27 * 4 / (20 * 8 / 12))
    assert found.hours == pytest.approx(found.volume_yd3 / 4 + 3 * 2 * 0.5)


def test_trucks_are_counted_with_what_is_ordered_beyond_the_forms() -> None:
    found = plan(pump_yd3_per_h=4.0, truck_yd3=9.0, extra_percent=5.0)
    assert found.volume_yd3 == pytest.approx(12)
    assert found.order_yd3 == pytest.approx(12.6)
    assert found.trucks == 2
    assert found.truck_every_min == pytest.approx(60 * 9 / 4)


# Setting between lifts.


def test_a_wait_longer_than_the_set_starts_a_new_height() -> None:
    assert not parted(3.0, None)
    assert not parted(3.0, 3.0)
    assert parted(3.1, 3.0)
    found = plan(slump_in=7.5, wait_h=5.0, set_h=4.0, pump_yd3_per_h=30.0)
    assert [row.aci_psf for row in found.lifts] == pytest.approx([450, 450, 450])
    assert verdict(found, "form-pressure") is Verdict.PASS
    assert "construction joint" in found.result["cold-joint"].sentence()


def test_a_wait_in_which_nothing_sets_slows_the_rise_but_keeps_the_depth() -> None:
    found = plan(wait_h=1.0, pump_yd3_per_h=8.0)
    pumping_h = 9 * AREA_FT2 / 27 / 8
    assert found.lifts[-1].filling.average_ft_per_h == pytest.approx(9 / (pumping_h + 2))
    assert found.lifts[-1].filling.soft_from_ft == 0
    assert found.hours == pytest.approx(pumping_h + 2)


def test_the_hose_coming_back_after_the_set_makes_a_cold_joint() -> None:
    found = plan(pump_yd3_per_h=1.0, set_h=3.0)
    assert found.result["cold-joint"].demand == pytest.approx(4.0)
    assert found.result["cold-joint"].demand > (found.result["cold-joint"].capacity or inf)
    assert "cold joint" in found.result["cold-joint"].sentence()


# Webs and braces.


def test_a_web_carries_the_pressure_on_its_area() -> None:
    # p s_h s_v / 144; 600 psf on 8 in by 16 in is 533 lb.
    found = plan(pump_yd3_per_h=2.0)
    assert found.result["web-force"].demand == pytest.approx(600 * 8 * 16 / 144)
    assert found.result["web-force"].capacity == pytest.approx(715 * 8 * 16 / 144)


def test_webs_set_wider_than_the_forms_have_them_are_flagged() -> None:
    found = plan(pump_yd3_per_h=2.0, web_across_in=12.0)
    assert found.result["web-force"].demand == pytest.approx(600 * 12 * 16 / 144)
    assert verdict(found, "web-force") is Verdict.FLAG
    own = plan(pump_yd3_per_h=2.0, web_across_in=12.0, form_pressure_psf=715.0)
    assert verdict(own, "web-force") is Verdict.PASS  # a pressure typed with its own webs


def test_half_a_webs_tested_strength_counts() -> None:
    # ACI 347-04: safety factor 2.0 on form ties.
    found = plan(pump_yd3_per_h=2.0, web_tested_lb=1000.0)
    assert found.result["web-force"].capacity == pytest.approx(500)
    assert verdict(found, "web-force") is Verdict.FLAG


def test_braces_take_100_lb_a_foot_or_the_wind() -> None:
    # ACI 347-04 2.3: 100 lb/ft at the top or 15 psf; wind governs above 13.3 ft of form.
    found = plan(brace_ft=6.0, brace_spacing_ft=5.0, brace_deg=60.0)
    assert found.bracing.top_plf == 100
    assert found.bracing.reaction_plf == pytest.approx(100 * 9 / 6)
    assert found.bracing.axial_lb == pytest.approx(150 * 5 / cos(pi / 3))
    windy = plan(wind_psf=30.0)
    assert windy.bracing.top_plf == pytest.approx(30 * 9 / 2)
    assert windy.bracing.reaction_plf == pytest.approx(135 * 9 / 7)
    assert verdict(plan(brace_capacity_lb=500.0), "brace") is Verdict.FLAG
    assert verdict(plan(brace_capacity_lb=5000.0), "brace") is Verdict.PASS
    assert verdict(plan(), "brace") is Verdict.ADVISORY


def test_braces_of_low_walls_meet_them_at_their_top_and_never_above() -> None:
    low = replace(W1, height_ft=4.0)
    assert plan(low).bracing.reaction_plf == pytest.approx(100)
    with pytest.raises(BadInput, match="tallest wall is 4 ft"):
        plan(low, brace_ft=5.0)


# The concrete itself.


def test_the_code_asks_for_more_slump_than_6_in_and_the_equations_for_7_at_most() -> None:
    # IRC R608.5.1.4: stay-in-place forms, more than 6 in. ACI 347-04 2.2.2: not more than 7 in.
    assert verdict(plan(slump_in=6.0), "slump-code") is Verdict.FLAG
    found = plan(slump_in=6.5, slump_tolerance_in=1.5)
    assert verdict(found, "slump-code") is Verdict.PASS
    said = found.result["slump-window"].sentence()
    for words in ("more than 6 in", "at most 7 in", "arrive at 8 in", "1,350 psf as a liquid", "turn those loads away"):
        assert words in said
    assert "nothing turns those loads away" in plan(slump_gate=False).result["slump-window"].sentence()


def test_stay_in_place_forms_ask_for_vibration_from_inside() -> None:
    assert verdict(plan(vibration="none"), "vibration") is Verdict.FLAG
    assert verdict(plan(vibration="external"), "vibration") is Verdict.FLAG
    assert verdict(plan(), "vibration") is Verdict.PASS
    assert verdict(plan(vibration="none", self_consolidating=True, slump_in=8.0), "vibration") is Verdict.PASS
    assert "knits" in plan(lift_ft=3.0, vibration_ft=3.5).result["vibration-reach"].sentence()
    assert "leaves the layer below alone" in plan(lift_ft=4.0, vibration_ft=3.5).result["vibration-reach"].sentence()


def test_in_cold_weather_a_thin_wall_asks_for_55_degrees() -> None:
    # ACI 306R Table 3.1: 55 °F under 12 in, 50 °F from 12 in; asked for where the air is below 40 °F.
    assert verdict(plan(temperature_F=50.0, air_F=35.0), "cold") is Verdict.FLAG
    assert verdict(plan(temperature_F=50.0, air_F=40.0), "cold") is Verdict.PASS
    assert verdict(plan(temperature_F=55.0, air_F=35.0), "cold") is Verdict.PASS
    assert verdict(plan(replace(W1, core_in=12.0), temperature_F=50.0, air_F=35.0), "cold") is Verdict.PASS
    assert any("cover the top" in c.text for c in plan(air_F=35.0).result.cautions)
    assert any("twice as long to set" in c.text for c in plan(temperature_F=50.0).result.cautions)


def test_concrete_above_95_degrees_is_flagged() -> None:
    assert verdict(plan(temperature_F=95.0), "hot") is Verdict.PASS
    assert verdict(plan(temperature_F=96.0), "hot") is Verdict.FLAG


# Walls of a job.


def test_a_storey_of_a_wall_is_placed_with_its_own_openings_and_forms() -> None:
    types = {"Ten": WallType(core_in=10.0, form_pressure_psf=800.0), "Six": WallType()}
    high = replace(WINDOW, storey=2)
    found = wall("W1", WallLine(40.0), (Storey("Ten", 9.0), Storey("Six", 8.0)), (WINDOW, high), types)
    first, second = run(found, 1), run(found, 2)
    assert (first.core_in, first.height_ft, first.form_psf, len(first.openings)) == (10.0, 9.0, 800.0, 1)
    assert (second.core_in, second.height_ft, second.form_psf) == (6.0, 8.0, None)
    assert runs((found,), 2) == (second,)
    with pytest.raises(BadInput, match="No wall has a storey 3"):
        runs((found,), 3)
    with pytest.raises(BadInput, match="at least one wall"):
        placing_plan(Inputs(), (), US_2021)


# The drawing's curves.


def test_the_curves_rise_as_a_liquid_and_stay_at_what_is_designed_for() -> None:
    found = plan(pump_yd3_per_h=4.0, temperature_F=50.0).diagram
    assert found.head == ((0.0, 0.0), (9.0, 1350.0))
    assert [depth for depth, _ in found.aci] == pytest.approx([0, 690 / 150, 9])
    assert [p for _, p in found.aci] == pytest.approx([0, 690, 690])
    assert found.ciria[1][1] == pytest.approx(849, abs=0.1)
    assert found.ciria[1][0] == pytest.approx(found.ciria[1][1] / 150)  # depth of the maximum is P/D
    assert found.lifts_ft == pytest.approx((9.0, 6.0, 3.0))
    assert found.form_psf == 715


def test_lifts_that_set_apart_each_have_their_own_curve() -> None:
    found = plan(wait_h=5.0, set_h=4.0).diagram
    assert found.head == ((0.0, 0.0), (3.0, 450.0), (3.0, 0.0), (6.0, 450.0), (6.0, 0.0), (9.0, 450.0))


# Hold points.


def test_hold_points_are_kept_and_read_back_as_they_were() -> None:
    rows = write_hold_points(HOLD_POINTS)
    assert read_hold_points(rows) == HOLD_POINTS
    assert {point.stage for point in HOLD_POINTS} == set(STAGES)
    shorter = read_hold_points(rows[:2])
    assert plan().hold_points == HOLD_POINTS
    assert placing_plan(Inputs(), (W1,), US_2021, shorter).hold_points == shorter


@pytest.mark.parametrize(
    ("row", "message"),
    [
        ({"stage": "before placing", "words": "  "}, "Hold point 1: Enter what is looked at"),
        ({"stage": "before placing", "words": "x" * 121}, "at most 120 characters"),
        ({"stage": "someday", "words": "Look"}, "Choose one of: before placing"),
        ({"stage": "before placing", "words": "Look", "stop": "perhaps"}, "Enter yes or no"),
        (
            {"stage": "before placing", "words": "Look", "section": "R109"},
            "the code or standard that the section is of",
        ),
        ({"stage": "before placing", "words": "Look", "family": "I" * 61}, "at most 60 characters"),
        ({"stage": "before placing", "words": "Look", "colour": "red"}, "No such entry as colour"),
    ],
)
def test_a_hold_point_that_cannot_be_used_says_what_to_enter(row: dict[str, str], message: str) -> None:
    with pytest.raises(BadInput, match=message):
        read_hold_points([row])


# The whole stated ranges.


@given(
    within_ranges(Inputs),
    st.floats(1, 400), st.floats(1, 40), st.floats(4, 24), st.one_of(st.none(), st.floats(100, 3000)), st.booleans(),
)  # fmt: skip
@settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_nothing_within_the_stated_ranges_breaks_a_plan(
    inputs: Inputs, length: float, height: float, core: float, form: float | None, window: bool
) -> None:
    gate = (Opening(start_ft=0.0, width_ft=min(length, 5.0), sill_ft=0.0, head_ft=height / 2),) if window else ()
    walls = (Run("W1", length, height, core, 8.0, 16.0, form, gate), Run("W2", 30.0, height / 2, 6.0, 8.0, 16.0, 600.0))
    if (inputs.brace_ft or 0.0) > height + 1e-9:
        with pytest.raises(BadInput, match="braces meet it there or lower"):
            placing_plan(inputs, walls, US_2021)
        return
    found = placing_plan(inputs, walls, US_2021)
    assert found.result.verdict in (Verdict.PASS, Verdict.FLAG)
    assert len(found.lifts) == ceil(height / inputs.lift_ft - 1e-9)
    for state in found.result.states:
        for system in ("ft in", "mm"):
            said = state.sentence(system)  # type: ignore[arg-type]
            assert not any(word in said for word in ("{", "nan", "inf"))
