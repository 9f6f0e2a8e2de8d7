"""A check's result as JSON: every line with its working, the cautions, and that local code governs."""

from collections.abc import Mapping
from math import isfinite
from typing import Any, Literal

from engine.job import Checked
from engine.result import LOCAL_CODE, CheckResult, LimitState
from engine.worksheet import Step, split_name


def number(value: float | None) -> float | Literal["infinite"] | None:
    """A number JSON can carry; what is asked of nothing has the ratio "infinite"."""
    return value if value is None or isfinite(value) else "infinite"


def result(found: CheckResult) -> dict[str, Any]:
    """A whole result."""
    governing = found.governing
    return {
        "kind": found.kind,
        "edition": found.edition.key,
        "editions": dict(found.edition.titles),
        "engine": found.engine,
        "verdict": found.verdict.value,
        "lines_verdict": found.lines_verdict,
        "governing": governing.key if governing else None,
        "ratio": number(governing.ratio) if governing else None,
        "lines": [line(state, found) for state in found.states],
        "cautions": [
            {
                "text": caution.text,
                "source": caution.source.label(found.edition) if caution.source else None,
                "common_practice": caution.practice,
            }
            for caution in found.cautions
        ],
        "not_checked": list(found.outside),
        "local_code": LOCAL_CODE,
    }


def line(state: LimitState, found: CheckResult) -> dict[str, Any]:
    """One line, in the engine's units, with its sentence in feet and inches."""
    return {
        "key": state.key,
        "title": state.title,
        "source": state.source.label(found.edition),
        "verdict": state.verdict.value,
        "says": state.sentence(),
        "demand": number(state.demand),
        "capacity": number(state.capacity),
        "unit": state.unit,
        "ratio": number(state.ratio),
        "combination": state.combination,
        "facts": {name: {"value": number(value), "unit": unit} for name, (value, unit) in state.facts.items()},
        "spread": [number(ratio) for ratio in state.spread] if state.spread else None,
        "working": [step(used, found) for used in state.steps],
    }


def step(used: Step, found: CheckResult) -> dict[str, Any]:
    """One use of a clause."""
    clause = used.clause
    return {
        "title": clause.title,
        "source": clause.citation.label(found.edition),
        "symbol": clause.symbol,
        "formula": clause.formula or None,
        "rule": clause.rule or None,
        "values": {split_name(name)[0]: plain(value) for name, value in used.values.items()},
        "result": plain(used.result),
        "unit": clause.unit,
        "provenance": clause.provenance,
    }


def plain(value: Any) -> Any:
    """A value of the engine as JSON can carry it."""
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return value
    if isinstance(value, (int, float)):
        return number(value)
    if isinstance(value, Mapping):
        return {str(name): plain(inner) for name, inner in value.items()}
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return plain(value._asdict())
    if isinstance(value, (list, tuple)):
        return [plain(inner) for inner in value]
    return str(value)


def checked(found: Checked) -> dict[str, Any]:
    """A result, or by field why there is none."""
    if found.result is not None:
        return result(found.result)
    return {"verdict": "not checked", "errors": dict(found.refused), "local_code": LOCAL_CODE}
