"""Published cases on anchors and wall anchorage, from the file kept beside the engine."""

import pytest

from engine.proving import own_cases, run
from engine.proving.tolerance import agrees

CASES = [case for case in own_cases() if case.id.startswith(("anc-", "wa-"))]


def test_the_file_holds_the_anchor_cases() -> None:
    assert len(CASES) >= 13


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_a_published_anchor_case_is_met_within_its_rounding(case) -> None:
    outcome = run(case)
    assert outcome.verdict == "agree", outcome.reason


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.id)
def test_a_case_with_every_figure_a_percent_off_would_be_noticed(case) -> None:
    outcome = run(case)
    moved = {key: _moved(value) for key, value in case.expected.items()}
    assert not all(agrees(outcome.computed[key], value, case.rounding, key) for key, value in moved.items())


def _moved(value):
    if isinstance(value, list):
        return [_moved(v) for v in value]
    return value if isinstance(value, bool) else value * 1.01


def test_a_source_that_does_not_round_means_each_figure_as_it_is_written() -> None:
    words = "none (library regression values, 6 digits)"
    assert agrees(12.76275, 12.763, words)
    assert not agrees(12.7640, 12.763, words)
