"""Lines and steps of a working for tests of how they are shown; their clauses are registered nowhere."""

from dataclasses import dataclass
from typing import Any

from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Clause, Provenance, Step


@dataclass(frozen=True)
class StepOf(Step):
    """A step that brings its clause, so that nothing is registered for a test."""

    own: Clause

    @property
    def clause(self) -> Clause:
        return self.own


def a_step(
    text: str, values: dict[str, object], result: object = 1.0, provenance: Provenance = "read", **more: str
) -> Step:
    """A use of a clause with that formula."""
    known = {"title": "A rule", "symbol": "", "unit": "", "rule": "", "family": "ACI 318", **more}
    clause = Clause(
        Citation(known["family"], "1"),
        known["title"],
        known["symbol"],
        known["unit"],
        text,
        known["rule"],
        provenance,
        "",
    )
    return StepOf(max, values, result, clause)


def a_line(ratio: float, **more: Any) -> LimitState:
    """A line of a check with that ratio."""
    return LimitState("key", "A line", Citation("IRC", "R1"), ratio, 1.0, **more)
