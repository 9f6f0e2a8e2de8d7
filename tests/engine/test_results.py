"""Results and worksheets: what a verdict means, which line speaks first, what a step remembers."""

from math import inf

import pytest

from engine.editions import US_2021, US_2024, Citation
from engine.result import CheckResult, LimitState, Verdict
from engine.worksheet import CLAUSES, Worksheet, clause, split_name

HERE = Citation("these tests")


def line(key: str = "a", demand: float | None = 1.0, capacity: float | None = 2.0, **more) -> LimitState:
    return LimitState(key, key, HERE, demand, capacity, "lb", **more)


def result(*states: LimitState) -> CheckResult:
    return CheckResult("test", US_2021, states)


@pytest.mark.parametrize(
    ("state", "ratio", "verdict"),
    [
        (line(demand=1, capacity=2), 0.5, Verdict.PASS),
        (line(demand=2, capacity=2), 1.0, Verdict.PASS),
        (line(demand=2 + 1e-10, capacity=2), 1.0, Verdict.PASS),
        (line(demand=2.001, capacity=2), 1.0005, Verdict.FLAG),
        (line(demand=1, capacity=0), inf, Verdict.FLAG),
        (line(demand=1, capacity=-3), inf, Verdict.FLAG),
        (line(demand=0, capacity=0), 0.0, Verdict.PASS),
        (line(demand=None, capacity=None, holds=True), None, Verdict.PASS),
        (line(demand=None, capacity=None, holds=False), None, Verdict.FLAG),
        (line(demand=1, capacity=2, holds=False), 0.5, Verdict.FLAG),
        (line(demand=9, capacity=2, advisory=True), 4.5, Verdict.ADVISORY),
        (line(refer="bring it to a licensed engineer"), 0.5, Verdict.REFER),
        (line(unchecked="not yet"), 0.5, Verdict.UNCHECKED),
    ],
)
def test_a_line_is_judged_by_its_ratio_and_its_facts(state: LimitState, ratio: float | None, verdict: Verdict) -> None:
    assert state.ratio == pytest.approx(ratio) if ratio is not None else state.ratio is None
    assert state.verdict is verdict


def test_what_needs_an_engineer_is_said_before_what_flags() -> None:
    flag, refer, over = line("f", 3, 2), line("r", refer="bring it"), line("o", 9, 2, advisory=True)
    assert result(line(), over).verdict is Verdict.PASS
    assert result(line(), flag).verdict is Verdict.FLAG
    both = result(flag, refer)
    assert both.verdict is Verdict.REFER
    assert both.lines_verdict == "1 line flags"
    assert both.governing is refer
    assert result(flag, flag, refer).lines_verdict == "2 lines flag"
    assert result(refer).lines_verdict == "every line holds"


def test_a_flag_without_a_ratio_leads_the_flags() -> None:
    missing = line("m", None, None, holds=False)
    assert result(line("f", 30, 2), missing).governing is missing
    assert result(line("a", 1, 2), line("b", 1, 1.5)).governing.key == "b"
    assert result(line(advisory=True)).governing is None


def test_a_line_is_found_by_its_key() -> None:
    assert result(line("a"), line("b"))["b"].key == "b"
    with pytest.raises(KeyError):
        result(line("a"))["c"]


@pytest.mark.parametrize(
    ("parameter", "parts"),
    [
        ("f_c_psi", ("f_c", "psi")),
        ("A_1_in2", ("A_1", "in²")),
        ("M_u_lb_in", ("M_u", "lb-in")),
        ("theta_deg", ("theta", "°")),
        ("q_m_lb_per_in", ("q_m", "lb/in")),
        ("G", ("G", "")),
        ("n", ("n", "")),
    ],
)
def test_a_parameter_name_holds_symbol_and_unit(parameter: str, parts: tuple[str, str]) -> None:
    assert split_name(parameter) == parts


@clause("these tests", "1", title="Doubled", symbol="d", formula="a * b", moved={"US 2024": "2"})
def doubled(a: float, b: float = 2.0) -> float:
    """Twice a, or b times it."""
    return a * b


def test_a_step_remembers_every_value_that_was_used() -> None:
    sheet = Worksheet()
    assert sheet.use(doubled, a=3.0) == 6.0
    (step,) = sheet.take()
    assert dict(step.values) == {"a": 3.0, "b": 2.0}
    assert step.result == 6.0
    assert step.clause is CLAUSES[doubled]
    assert sheet.take() == ()


def test_with_recording_off_a_use_is_a_plain_call() -> None:
    sheet = Worksheet(recording=False)
    assert sheet.use(doubled, a=3.0, b=5.0) == 15.0
    assert sheet.take() == ()


def test_a_moved_clause_is_cited_where_the_edition_has_it() -> None:
    citation = CLAUSES[doubled].citation
    assert citation.label(US_2021) == "these tests 1"
    assert citation.label(US_2024) == "these tests 2"


def test_a_clause_without_formula_or_rule_is_refused() -> None:
    with pytest.raises(TypeError, match="formula or a rule"):
        clause("these tests", "3", title="Nothing")
