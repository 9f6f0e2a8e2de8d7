"""A veneer ledge under any inputs: load, solving, ranges, speed."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine import attachments, fields, solve
from engine.attachments.veneer_ledge import Inputs, check
from engine.editions import EDITIONS, US_2021
from engine.errors import BadInput
from engine.result import Verdict
from tests import pace

KIND = attachments.Kind("veneer_ledge", "Veneer ledge")
# Steel needed beyond the pull: 16.5.5.2 takes A_n off, so where the least steel governs a heavier veneer needs fewer closed ties.
FALLS_WITH_LOAD = {"ties"}


@pytest.fixture
def known(monkeypatch: pytest.MonkeyPatch) -> None:
    """The kind under its key, whatever else is registered."""
    monkeypatch.setattr(attachments, "KINDS", {**attachments.KINDS, KIND.key: KIND})


def flags(result) -> set[str]:
    return {s.key for s in result.states if s.verdict is Verdict.FLAG}


LOADS = {"veneer_psf": (10.0, 60.0), "height_ft": (5.0, 20.0), "opening_ft": (1.0, 10.0)}


@given(
    st.sampled_from(sorted(LOADS)),
    st.floats(0, 1),
    st.floats(1, 3),
    st.sampled_from(["3", "4"]),
    st.floats(0.5, 8.5),
    st.sampled_from([7.0, 8.0, 12.0]),
)
@settings(max_examples=80, deadline=None)
def test_more_veneer_never_turns_a_flag_into_a_pass(name, where, more, stirrup, level, depth) -> None:
    low, high = LOADS[name]
    base = low + where * (high - low)
    light = Inputs(
        stirrup=stirrup, openings=True, wall_dead_plf=0.0, curtains="none", ledge_height_ft=level, depth_in=depth,
        **{name: base},
    )  # fmt: skip
    first, second = check(light, US_2021), check(replace(light, **{name: base * more}), US_2021)
    after = {s.key: s for s in second.states}
    for key in flags(first) - FALLS_WITH_LOAD:
        if key in after:
            assert after[key].verdict is not Verdict.PASS, key


@pytest.mark.parametrize(
    "changes",
    [
        {"beside_end": True},
        {"stirrup": "3"},
        {"web_spaces": 2},
        {"f_c_psi": 4000.0},
        {"tie_bar": "none"},
        {"projection_in": 5.0},
        {"lip_depth_in": 3.0},
        {"depth_in": 8.0, "lip_depth_in": 4.0, "stirrup": "3"},
        {"tip": "bend"},
        {"air_in": 3.0, "projection_in": 9.125},
        {"height_ft": 31.0},
        {"core_in": 6.0},
    ],
)
def test_what_flags_can_be_mended_and_the_mended_ledge_holds(known, changes: dict) -> None:
    inputs = Inputs(**changes)
    assert flags(check(inputs, US_2021))
    found = solve.remedies(KIND.key, inputs, US_2021)
    assert found
    for remedy in found:
        mended = replace(inputs, **dict(zip((s.name for s in remedy.specs), remedy.values, strict=True)))
        result = check(mended, US_2021)
        assert not flags(result), remedy.words()
        assert {s.key for s in result.states if s.verdict is Verdict.REFER} == {"design"}


def test_a_depth_solved_for_the_least_steel_flags_a_step_beyond(known) -> None:
    """No. 3 at 8 in: 0.024 d <= 0.165, so d <= 6.875 and h <= 8.5625; the next half inch up flags."""
    remedy, _ = solve.solve(KIND.key, Inputs(stirrup="3"), US_2021, "depth_in")
    assert remedy.values == (8.5,)
    assert "steel-least" in flags(check(Inputs(stirrup="3", depth_in=9.0), US_2021))


def test_how_far_a_sound_ledge_may_slip(known) -> None:
    slips = {s.spec.name: s for s in solve.slips(KIND.key, Inputs(), US_2021)}
    assert slips["height_ft"].high == 30.0
    assert slips["core_in"].low == 8.0
    assert slips["air_in"].low == 1.0


def inputs_within_ranges():
    values = {}
    for s in fields.specs(Inputs):
        if s.kind == "number":
            some = st.one_of(st.sampled_from([s.low, s.high]), st.floats(s.low, s.high, allow_nan=False))
            values[s.name] = st.one_of(st.none(), some) if s.optional else some
        elif s.kind == "count":
            values[s.name] = st.integers(int(s.low), int(s.high))
        elif s.kind == "choice":
            values[s.name] = st.sampled_from([v for v, _ in s.options])
        elif s.kind == "text":
            values[s.name] = st.sampled_from(["", "{x}", "ER-1"])
        else:
            values[s.name] = st.booleans()
    return st.builds(Inputs, **values)


@given(inputs_within_ranges(), st.sampled_from(list(EDITIONS.values())))
@settings(max_examples=400, deadline=None)
def test_nothing_within_the_stated_ranges_breaks_a_check(inputs: Inputs, edition) -> None:
    fields.validate(inputs)
    try:
        result = check(inputs, edition)
    except BadInput as refused:
        fields.spec(Inputs, refused.field)  # raises unless the refusal names an input
        return
    keys = [s.key for s in result.states]
    assert len(keys) == len(set(keys))
    assert result.verdict is Verdict.REFER
    for s in result.states:
        names = (
            {"demand": 0, "capacity": 0, **dict.fromkeys(s.facts, 0)}
            if s.demand is not None
            else dict.fromkeys(s.facts, 0)
        )
        assert s.say.format(**names)
        assert s.ratio is None or s.ratio >= 0, s.key


def test_metric_text_gives_the_same_ratios() -> None:
    typed = {"core_in": "203.2 mm", "foam_outer_in": "63.5 mm", "wythe_in": "92.075 mm", "height_ft": "6.096 m",
             "depth_in": "304.8 mm", "web_spacing_in": "203.2 mm"}  # fmt: skip
    inputs, errors = fields.read(Inputs, typed)
    assert not errors
    for a, b in zip(check(inputs, US_2021).states, check(Inputs(), US_2021).states, strict=True):
        assert a.verdict is b.verdict, a.key
        if b.ratio is not None:
            assert a.ratio == pytest.approx(b.ratio, rel=1e-9), a.key


def test_every_number_judged_shows_its_working() -> None:
    sizes_side_by_side = {"tip"}
    for state in check(Inputs(corner="outside", bend_in=2.0), US_2021).states:
        if state.demand is not None and not state.advisory and state.key not in sizes_side_by_side:
            assert state.steps, state.key


def test_without_recording_the_numbers_are_the_same() -> None:
    for a, b in zip(check(Inputs(), US_2021).states, check(Inputs(), US_2021, recording=False).states, strict=True):
        assert (a.key, a.demand, a.capacity, a.verdict) == (b.key, b.demand, b.capacity, b.verdict)
        assert not b.steps


def test_a_check_takes_about_a_millisecond() -> None:
    inputs = Inputs()
    assert pace.seconds(lambda: check(inputs, US_2021)) < 0.001
