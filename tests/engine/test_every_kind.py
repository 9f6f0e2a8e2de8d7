"""What holds for every kind of attachment, whatever it carries."""

from contextlib import suppress

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine import attachments, fields, units
from engine.attachments import KINDS
from engine.editions import US_2021, US_2024
from engine.errors import BadInput
from engine.result import CheckResult, Verdict
from tests.engine.samples import within_ranges

EVERY = pytest.mark.parametrize("key", list(KINDS))


def inspect(result: CheckResult) -> None:
    keys = [s.key for s in result.states]
    assert len(keys) == len(set(keys)), "two lines of one key"
    for state in result.states:
        assert state.title
        assert state.source.label(result.edition)
        said = state.sentence()
        assert said.endswith((".", "?")), said
        assert "{" not in said.replace("{a}", "")
        if state.ratio is None and state.verdict is Verdict.FLAG:
            assert state.say
        if state.verdict is Verdict.REFER:
            assert len(state.refer) > 20


@EVERY
@pytest.mark.parametrize("edition", [US_2021, US_2024], ids=lambda e: e.key)
def test_the_case_a_newcomer_sees_first_holds(key: str, edition) -> None:
    result = attachments.check(key, KINDS[key].inputs(), edition)
    assert result.lines_verdict == "every line holds"
    inspect(result)


@EVERY
def test_every_input_says_what_it_is(key: str) -> None:
    for s in fields.specs(KINDS[key].inputs):
        assert s.label[0].isupper(), s.name
        assert s.group
        if s.kind in ("number", "count"):
            assert s.low < s.high
            assert s.default is None or s.low <= s.default <= s.high, s.name
        if s.kind == "choice":
            assert s.default in dict(s.options), s.name
        if s.when:
            fields.spec(KINDS[key].inputs, s.when[0])


@EVERY
@given(data=st.data())
@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_nothing_within_the_stated_ranges_breaks_a_check(key: str, data: st.DataObject) -> None:
    inputs = data.draw(within_ranges(KINDS[key].inputs))
    with suppress(BadInput):
        inspect(attachments.check(key, inputs, US_2021))


@EVERY
@given(data=st.data())
@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_metric_text_gives_the_same_ratios(key: str, data: st.DataObject) -> None:
    kind = KINDS[key]
    inputs = data.draw(within_ranges(kind.inputs))
    metric = {s.name: metric_text(s, getattr(inputs, s.name)) for s in fields.specs(kind.inputs)}
    again, errors = fields.read(kind.inputs, metric)
    plain, _ = fields.read(kind.inputs, fields.write(inputs))
    assert not errors
    try:
        ours = attachments.check(key, plain, US_2021, recording=False)
    except BadInput:
        with pytest.raises(BadInput):
            attachments.check(key, again, US_2021, recording=False)
        return
    theirs = attachments.check(key, again, US_2021, recording=False)
    assert [s.key for s in ours.states] == [s.key for s in theirs.states]
    for a, b in zip(ours.states, theirs.states, strict=True):
        if a.ratio is None or a.ratio in (0.0, float("inf")) or a.demand < 1e-6:
            continue
        assert b.ratio == pytest.approx(a.ratio, rel=1e-9), a.key


def metric_text(spec: fields.Spec, value) -> str:
    if value is None or spec.kind != "number" or spec.unit not in units.METRIC:
        return fields.write_one(spec, value)
    metric = units.METRIC[spec.unit][0]
    return f"{units.convert(value, spec.unit, metric):.15f} {metric}"


@EVERY
def test_recording_the_working_changes_nothing(key: str) -> None:
    inputs = KINDS[key].inputs()
    with_steps, without = (attachments.check(key, inputs, US_2021, recording) for recording in (True, False))
    assert [(s.key, s.demand, s.capacity) for s in with_steps.states] == [
        (s.key, s.demand, s.capacity) for s in without.states
    ]
    assert any(s.steps for s in with_steps.states)
    assert not any(s.steps for s in without.states)


def test_an_unknown_kind_names_the_known_ones() -> None:
    with pytest.raises(BadInput, match="ledge_seat, bolted_ledger"):
        attachments.kind("shelf")
