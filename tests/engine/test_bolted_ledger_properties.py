"""What must hold of any bolted ledger, whatever is typed."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from engine import attachments, fields
from engine.attachments.bolted_ledger import Inputs
from engine.editions import US_2021
from engine.errors import BadInput
from engine.result import Verdict
from tests.engine.samples import within_ranges

HEAVIER = ("dead_psf", "live_psf", "snow_psf", "line_dead_plf", "line_live_plf", "shear_wind_plf", "out_wind_plf")
SLOW = settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


def ledgers() -> st.SearchStrategy[Inputs]:
    """Ledgers near the ordinary: loads, bolts and edges varied, everything else as a newcomer finds it."""
    return st.builds(
        Inputs,
        direction=st.sampled_from(["perpendicular", "parallel"]),
        live_psf=st.floats(0, 120),
        snow_psf=st.sampled_from([0.0, 30.0]),
        line_dead_plf=st.floats(0, 300),
        shear_wind_plf=st.sampled_from([0.0, 150.0, 900.0]),
        size=st.sampled_from(["2x10", "2x12", "3x10", "4x12"]),
        bolt=st.sampled_from(["1/2", "5/8", "3/4"]),
        rows=st.sampled_from([1, 2]),
        staggered=st.booleans(),
        top_edge_in=st.sampled_from([3.0, 4.0, 5.5]),
        spacing_in=st.sampled_from([8.0, 12.0, 16.0, 24.0]),
        contact=st.sampled_from(["pads", "strip", "gap"]),
        left_in=st.sampled_from([None, 0.0, 6.0]),
        over_opening=st.booleans(),
        below_in=st.sampled_from([3.0, 8.0, 24.0]),
        seismic=st.sampled_from(["A", "B", "C"]),
        joist_spacing_in=st.sampled_from([12.0, 16.0, 24.0]),
    )


@given(inputs=ledgers(), name=st.sampled_from(HEAVIER), more=st.floats(1, 400))
@SLOW
def test_more_load_never_eases_a_line(inputs: Inputs, name: str, more: float) -> None:
    top = fields.spec(Inputs, name).high
    heavier = replace(inputs, **{name: min(getattr(inputs, name) + more, top)})
    try:
        light, heavy = (attachments.check("bolted_ledger", i, US_2021, recording=False) for i in (inputs, heavier))
    except BadInput:
        assume(False)
    for state in light.states:
        if state.ratio is None:
            continue
        again = next((s for s in heavy.states if s.key == state.key), None)
        if name.startswith("shear") and state.key in ("yield", "end-distance", "spacing"):
            continue  # a turned load meets the wood along its grain, where it is stronger
        assert again is not None, state.key
        assert again.ratio is not None, state.key
        assert again.ratio >= state.ratio - 1e-9, state.key


@given(inputs=ledgers())
@SLOW
def test_a_ledger_over_foam_never_passes(inputs: Inputs) -> None:
    result = attachments.check("bolted_ledger", replace(inputs, contact="gap"), US_2021, recording=False)
    assert result.verdict is Verdict.REFER
    assert result["hole"].verdict is Verdict.FLAG


@given(inputs=within_ranges(Inputs))
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
def test_a_pass_means_that_no_line_asks_more_than_there_is(inputs: Inputs) -> None:
    try:
        result = attachments.check("bolted_ledger", inputs, US_2021, recording=False)
    except BadInput:
        return
    for state in result.states:
        assert state.demand is None or state.demand == state.demand  # never NaN
        if result.verdict is Verdict.PASS and state.ratio is not None and not state.advisory:
            assert state.ratio <= 1 + 1e-9


@pytest.mark.parametrize("spacing", [8.0, 12.0, 16.0, 24.0])
def test_bolts_nearer_together_never_yield_sooner(spacing: float) -> None:
    near, far = (
        attachments.check("bolted_ledger", replace(Inputs(), spacing_in=s), US_2021)["yield"].ratio
        for s in (spacing, spacing + 4)
    )
    assert near < far
