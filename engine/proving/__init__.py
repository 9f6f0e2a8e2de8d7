"""Published cases run against the engine: computed beside published, tolerance from the source's own rounding.

One adapter a topic turns a case's inputs into the same keys its `expected` has, unrounded, by calling the engine's clauses.
"""

import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any, Literal

from engine.errors import EngineError
from engine.proving.tolerance import agrees, describe

NEEDED = ("id", "topic", "provenance", "source", "inputs", "expected", "rounding")
Verdict = Literal["agree", "disagree", "disputed", "not_run"]
Adapter = Callable[[Mapping[str, Any]], Mapping[str, Any]]
# The input under which a placed adapter also finds where in its source a case stands.
PLACE = "where"

ADAPTERS: dict[str, Adapter] = {}
PLACED: set[str] = set()


def adapter(*topics: str, placed: bool = False, usual: Mapping[str, Any] | None = None) -> Callable[[Adapter], Adapter]:
    """Register the function that computes the cases of these topics.

    Args: placed: several tables or sentences stand under one topic, so that the place in the source is part of the question.
    usual: what the rule itself takes where a case leaves an input out (a strength factor, a unit weight).
    """

    def register(function: Adapter) -> Adapter:
        for topic in topics:
            if topic in ADAPTERS:
                raise ValueError(f"two adapters for {topic}")
            ADAPTERS[topic] = function if usual is None else _with(usual, function)
        if placed:
            PLACED.update(topics)
        return function

    return register


def _with(usual: Mapping[str, Any], function: Adapter) -> Adapter:
    return lambda inputs: function({**usual, **inputs})


def given(inputs: Mapping[str, Any], *keys: str) -> bool:
    """Whether a case states all of these, so that what follows from them is asked."""
    return all(key in inputs for key in keys)


@dataclass(frozen=True, slots=True)
class Case:
    """One published, recalled or derived case, as its file holds it."""

    id: str
    topic: str
    provenance: str
    source: Mapping[str, str]
    inputs: Mapping[str, Any]
    expected: Mapping[str, Any]
    rounding: str
    notes: str = ""
    disputed: str = ""

    @property
    def about(self) -> str:
        """Its topic in words: "canada: beam bearing"."""
        return self.topic.replace("/", ": ").replace("_", " ").replace("-", " ")


@dataclass(frozen=True, slots=True)
class Outcome:
    """What running a case gave. Args: computed: same keys as the case expects; reason: why not plainly "agree"."""

    case: Case
    verdict: Verdict
    computed: Mapping[str, Any] = field(default_factory=dict)
    reason: str = ""

    def to_json(self) -> dict[str, Any]:
        """The record of `wallseat prove --json`."""
        return {
            "id": self.case.id,
            "topic": self.case.topic,
            "verdict": self.verdict,
            "provenance": self.case.provenance,
            "computed": dict(self.computed),
            "published": dict(self.case.expected),
            "tolerance": describe(self.case.rounding),
            "reason": self.reason,
        }


def read_cases(text: str) -> tuple[Case, ...]:
    """Cases from the text of a JSON file. Raises: ValueError naming the case that can't be used."""
    cases = []
    for number, row in enumerate(json.loads(text), 1):
        try:
            needed = {key: row[key] for key in NEEDED}
            cases.append(Case(**needed, notes=row.get("notes", ""), disputed=row.get("disputed", "")))
        except (KeyError, TypeError) as error:
            raise ValueError(f"case {number} lacks {error}") from None
    return tuple(cases)


def own_cases() -> tuple[Case, ...]:
    """Every case kept beside the engine, in file order."""
    folder = files("engine.proving").joinpath("cases")
    texts = [
        f.read_text(encoding="utf-8")
        for f in sorted(folder.iterdir(), key=lambda f: f.name)
        if f.name.endswith(".json")
    ]
    return tuple(case for text in texts for case in read_cases(text))


@cache
def _own_disputes() -> Mapping[str, Case]:
    return {case.id: case for case in own_cases() if case.disputed}


def _dispute(case: Case) -> str:
    """Why a case can't be met though the engine is right: said with the case, or known of the same case here."""
    known = _own_disputes().get(case.id)
    if case.disputed or known is None or known.expected != case.expected:
        return case.disputed
    return known.disputed


def run(case: Case) -> Outcome:
    """Compute one case and compare every value it expects."""
    _load_adapters()
    compute = ADAPTERS.get(case.topic)
    if compute is None:
        return Outcome(case, "not_run", reason=f"no adapter for the topic {case.topic}")
    try:
        computed = compute(_asked(case))
    except (EngineError, ArithmeticError, AttributeError, LookupError, TypeError, ValueError) as error:
        return _differs(case, {}, f"{type(error).__name__}: {error}")
    missing = [key for key in case.expected if key not in computed]
    if missing:
        return Outcome(case, "not_run", computed, f"not computed: {', '.join(missing)}")
    computed = {key: computed[key] for key in case.expected}
    wrong = [key for key, value in case.expected.items() if not agrees(computed[key], value, case.rounding, key)]
    return _differs(case, computed, f"differs in {', '.join(wrong)}") if wrong else Outcome(case, "agree", computed)


def _asked(case: Case) -> Mapping[str, Any]:
    return {**case.inputs, PLACE: case.source["where"]} if case.topic in PLACED else case.inputs


def _differs(case: Case, computed: Mapping[str, Any], how: str) -> Outcome:
    dispute = _dispute(case)
    return Outcome(case, "disputed", computed, dispute) if dispute else Outcome(case, "disagree", computed, how)


def run_all(cases: Iterable[Case]) -> tuple[Outcome, ...]:
    """Every case, in order."""
    return tuple(run(case) for case in cases)


def counts(outcomes: Iterable[Outcome]) -> dict[str, int]:
    """How many agree, disagree, are disputed, were not run."""
    tally = {"agree": 0, "disagree": 0, "disputed": 0, "not_run": 0}
    for outcome in outcomes:
        tally[outcome.verdict] += 1
    return tally


def _load_adapters() -> None:
    from engine.proving import adapters  # noqa: F401  (registers; here to keep the import of this package light)
