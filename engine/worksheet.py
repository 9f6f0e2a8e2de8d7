"""Clauses and the worksheet: the formula that is shown is the formula that is computed.

A clause is a pure function decorated with where it is published, its symbol, its unit and its formula. An attachment calls it
through a worksheet, which keeps the function, the values and the result; every view of the working comes from that record.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from inspect import signature
from typing import Any, Literal, ParamSpec, TypeVar

from engine.editions import Citation

P = ParamSpec("P")
R = TypeVar("R")

Provenance = Literal["read", "memory", "derived", "common practice", "geometry"]

# Endings of parameter names that are units; what is left is the symbol used in the formula.
UNIT_ENDINGS = (
    "_lb_in_per_ft",
    "_lb_in",
    "_per_in",
    "_kip",
    "_plf",
    "_psf",
    "_pcf",
    "_psi",
    "_ksi",
    "_in2",
    "_in3",
    "_in4",
    "_lb_per_in",
    "_lb",
    "_in",
    "_ft2",
    "_ft",
    "_deg",
)
UNIT_OF_ENDING = {
    "_lb_in_per_ft": "lb-in/ft",
    "_lb_in": "lb-in",
    "_per_in": "1/in",
    "_lb_per_in": "lb/in",
    "_in2": "in²",
    "_in3": "in³",
    "_in4": "in⁴",
    "_ft2": "ft²",
    "_deg": "°",
}


def split_name(parameter: str) -> tuple[str, str]:
    """Symbol and unit in a parameter name: `f_c_psi` -> ("f_c", "psi"); without a unit ending, ("G", "")."""
    for ending in sorted(UNIT_ENDINGS, key=len, reverse=True):
        if parameter.endswith(ending) and len(parameter) > len(ending):
            return parameter[: -len(ending)], UNIT_OF_ENDING.get(ending, ending[1:])
    return parameter, ""


@dataclass(frozen=True, slots=True)
class Clause:
    """What is known of a rule beside its arithmetic.

    `formula` is a Python expression over the symbols of the function's parameters (unit endings dropped) using + - * / **,
    sqrt, min, max, abs, sin, cos (degrees), ceil, floor and `a if test else b`. `rule` says in words what has no algebra.
    """

    citation: Citation
    title: str
    symbol: str
    unit: str
    formula: str
    rule: str
    provenance: Provenance
    note: str


CLAUSES: dict[Callable[..., Any], Clause] = {}
# What a clause takes for a value it isn't given: part of its working like any other.
_DEFAULTS: dict[Callable[..., Any], Mapping[str, Any]] = {}


def clause(
    family: str,
    section: str,
    *,
    title: str,
    symbol: str = "",
    unit: str = "",
    formula: str = "",
    rule: str = "",
    provenance: Provenance = "read",
    note: str = "",
    moved: Mapping[str, str] | None = None,
) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Register a pure function as a published rule.

    Args:
        family: key into the edition's titles ("ACI 318", "NDS", "IRC", "IBC", "ASCE 7"), or a full title of its own ("AWC TR12").
        section: clause, table or equation in the default edition set; `moved` gives it where another set differs.
        title: what the number is, in a few trade words ("Nominal bearing strength").
        symbol, unit: of the result, as the rule prints them. formula or rule: at least one is needed.
        provenance: how the engine came by it; `memory` is shown openly. note: one sentence where a reading was chosen.
    """
    if not (formula or rule):
        raise TypeError("a clause needs a formula or a rule in words")
    entry = Clause(
        Citation(family, section, tuple((moved or {}).items())), title, symbol, unit, formula, rule, provenance, note
    )

    def register(function: Callable[P, R]) -> Callable[P, R]:
        CLAUSES[function] = entry
        defaults = {p.name: p.default for p in signature(function).parameters.values() if p.default is not p.empty}
        if defaults:
            _DEFAULTS[function] = defaults
        return function

    return register


@dataclass(frozen=True, slots=True)
class Step:
    """One use of a clause: which function, with which values, giving what."""

    function: Callable[..., Any]
    values: Mapping[str, Any]
    result: Any

    @property
    def clause(self) -> Clause:
        """The published rule behind the step."""
        return CLAUSES[self.function]


class Worksheet:
    """Keeps the uses of clauses in order. With recording off, `use` is a plain call."""

    __slots__ = ("_steps", "recording")

    def __init__(self, recording: bool = True) -> None:
        self.recording = recording
        self._steps: list[Step] = []

    def use(self, function: Callable[..., R], /, **values: Any) -> R:
        """Call a clause with values by name and keep the step."""
        result = function(**values)
        if self.recording:
            defaults = _DEFAULTS.get(function)
            self._steps.append(Step(function, {**defaults, **values} if defaults else values, result))
        return result

    def take(self) -> tuple[Step, ...]:
        """The steps since the last take; the sheet starts anew."""
        steps = tuple(self._steps)
        self._steps.clear()
        return steps


def cite(function: Callable[..., Any]) -> Citation:
    """Where a clause function is published."""
    return CLAUSES[function].citation
