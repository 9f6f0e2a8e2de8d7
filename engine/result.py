"""What every check returns. Ratios and verdicts are derived, never stored."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import inf, isinf
from types import MappingProxyType

from engine import VERSION
from engine.editions import Citation, Edition
from engine.units import System, show
from engine.worksheet import Step

# Sums of sixteenths and of metric text differ in the last bits of a float; a ratio within this of 1.0 is 1.0.
ROUNDING = 1e-9

LOCAL_CODE = (
    "Local code and the authority having jurisdiction govern. "
    "A licensed engineer designs what is outside prescriptive limits."
)

Facts = Mapping[str, tuple[float, str]]
NO_FACTS: Facts = MappingProxyType({})


class Verdict(StrEnum):
    """Of a line or of a whole check; `advisory` and `unchecked` are for lines only."""

    PASS = "pass"
    FLAG = "flag"
    REFER = "refer"
    ADVISORY = "advisory"
    UNCHECKED = "not checked"


@dataclass(frozen=True, slots=True)
class LimitState:
    """One line of a check: what is asked against what there is.

    Args:
        key: stable short name, also the anchor on pages ("bearing-code").
        title: what is judged, in trade words.
        source: where the rule is published.
        demand, capacity: what is asked and what there is, in `unit`; for a minimum, the demand is the minimum required.
        unit: engine unit of both ("in", "lb", "psi", "plf", "lb-in", "" for plain numbers and counts).
        holds: the verdict of a line without numbers.
        say: one sentence with {demand}, {capacity} and the names of `facts`, filled in the reader's units.
        facts: further values for the sentence: name -> (value, unit).
        advisory: shown, never turns a pass into a flag. refer: why it is outside, and what to bring. unchecked: why not judged.
        combination: the load combination that governs. spot: name of the place in the drawing where it occurs.
        spread: for an advisory line, (root-sum-square ratio, plain sum ratio).
        steps: the working.
    """

    key: str
    title: str
    source: Citation
    demand: float | None = None
    capacity: float | None = None
    unit: str = ""
    holds: bool | None = None
    say: str = ""
    facts: Facts = field(default_factory=lambda: NO_FACTS)
    advisory: bool = False
    refer: str = ""
    unchecked: str = ""
    combination: str = ""
    spot: str = ""
    spread: tuple[float, float] | None = None
    steps: tuple[Step, ...] = ()

    @property
    def ratio(self) -> float | None:
        """Demand over capacity; infinite where something is asked of nothing; None for a line without numbers."""
        if self.demand is None or self.capacity is None:
            return None
        if self.capacity <= 0:
            return inf if self.demand > 0 else 0.0
        return self.demand / self.capacity

    @property
    def verdict(self) -> Verdict:
        """Of this line alone."""
        if self.unchecked:
            return Verdict.UNCHECKED
        if self.advisory:
            return Verdict.ADVISORY
        if self.refer:
            return Verdict.REFER
        ratio = self.ratio
        held = self.holds is not False if ratio is None else ratio <= 1 + ROUNDING and self.holds is not False
        return Verdict.PASS if held else Verdict.FLAG

    def sentence(self, system: System = "ft in") -> str:
        """What the line says, its figures in the reader's units; why not, where it is unchecked or referred."""
        why_not = self.unchecked or self.refer
        if why_not:
            return f"{why_not[0].upper()}{why_not[1:]}{'' if why_not.endswith('.') else '.'}"
        known = {name: show(value, unit, system) for name, (value, unit) in self.facts.items()}
        for name, value in (("demand", self.demand), ("capacity", self.capacity)):
            if value is not None:
                known[name] = show(value, self.unit, system)
        if self.say:
            return re.sub(r"\{(\w+)\}", lambda match: known.get(match[1], match[0]), self.say)
        if "demand" in known and "capacity" in known:
            return f"{self.title}: {known['demand']} asked, {known['capacity']} there."
        return f"{self.title}."


def ratio_words(ratio: float | None) -> str:
    """A ratio to two decimals, more where two would hide that it is above 1.0; "no ratio" without one."""
    if ratio is None:
        return "no ratio"
    if isinf(ratio):
        return "∞"
    places = 2
    while ratio > 1 + ROUNDING and places < 6 and float(f"{ratio:.{places}f}") <= 1:
        places += 1
    return f"{ratio:,.{places}f}"


@dataclass(frozen=True, slots=True)
class Caution:
    """Something the reader must know or do that no number settles. `practice` marks a rule of the trade without a source."""

    text: str
    source: Citation | None = None
    practice: bool = False


@dataclass(frozen=True, slots=True)
class CheckResult:
    """All lines of one attachment, in the order the load travels.

    Args: kind: key of the attachment kind. edition: the set it was judged by. states: the lines. cautions: what to know or do.
    outside: what was not checked at all, one phrase each ("vibration of the floor").
    """

    kind: str
    edition: Edition
    states: tuple[LimitState, ...]
    cautions: tuple[Caution, ...] = ()
    outside: tuple[str, ...] = ()
    engine: str = VERSION

    @property
    def verdict(self) -> Verdict:
        """Refer before flag before pass: what needs an engineer is said first, with the lines' own verdict beside it."""
        found = {state.verdict for state in self.states}
        for verdict in (Verdict.REFER, Verdict.FLAG):
            if verdict in found:
                return verdict
        return Verdict.PASS

    @property
    def lines_verdict(self) -> str:
        """How the numeric lines stand, whatever the whole says."""
        flags = sum(state.verdict is Verdict.FLAG for state in self.states)
        if not flags:
            return "every line holds"
        return f"{flags} line flags" if flags == 1 else f"{flags} lines flag"

    @property
    def governing(self) -> LimitState | None:
        """The line to read first: a referring one, else a flag, else the largest ratio; a flag without a ratio leads its kind."""
        judged = [s for s in self.states if s.verdict in (Verdict.PASS, Verdict.FLAG, Verdict.REFER)]
        if not judged:
            return None
        order = {Verdict.REFER: 2, Verdict.FLAG: 1, Verdict.PASS: 0}

        def weight(state: LimitState) -> tuple[int, float]:
            ratio = state.ratio
            if ratio is None:
                ratio = 0.0 if state.verdict is Verdict.PASS else inf
            return order[state.verdict], ratio

        return max(judged, key=weight)

    def __getitem__(self, key: str) -> LimitState:
        """The line of that key. Raises: KeyError."""
        for state in self.states:
            if state.key == key:
                return state
        raise KeyError(key)
