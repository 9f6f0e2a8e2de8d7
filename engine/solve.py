"""Solving backwards: which value of one input makes an attachment pass, and how far a passing one may slip.

The answer is looked for where it can be bought or set out: on the lattice of an input's `step`, outward from the value at
hand, with the same check that judges everything else. Codes jump (a third edge, a pryout factor, a screw's penetration), so
nothing is assumed monotone: every lattice point is tried until one holds, the stride widened only where a range is too long.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Any

from engine import attachments, fields
from engine.editions import Edition
from engine.errors import BadInput
from engine.fields import Spec
from engine.result import CheckResult, LimitState, Verdict
from engine.units import System, show

# Points tried on each side of the value at hand before the stride is widened; a check costs a fraction of a millisecond.
REACH = 96


@dataclass(frozen=True, slots=True)
class Remedy:
    """A change that makes an attachment pass, already checked.

    Args: specs, values: the inputs changed and what they become. ratio, governs: the governing line afterwards. wall: the change
    belongs to the wall type, not to the attachment.
    """

    specs: tuple[Spec, ...]
    values: tuple[Any, ...]
    ratio: float | None
    governs: str
    wall: bool

    @property
    def changes(self) -> dict[str, str]:
        """Field -> text that a form or job file takes."""
        return {s.name: fields.write_one(s, v) for s, v in zip(self.specs, self.values, strict=True)}

    def words(self, system: System = "ft in") -> str:
        """The change in a sentence that starts with a verb."""
        parts = [_words(s, v, system) for s, v in zip(self.specs, self.values, strict=True)]
        return " and ".join([parts[0], *(p[0].lower() + p[1:] for p in parts[1:])])


@dataclass(frozen=True, slots=True)
class Slip:
    """How far one input may move before something flags: the last values that still hold, None where the range ends first."""

    spec: Spec
    low: float | None
    high: float | None
    low_breaks: str = ""
    high_breaks: str = ""


def _words(spec: Spec, value: Any, system: System) -> str:
    label = spec.label[0].lower() + spec.label[1:]
    if spec.kind == "yes":
        return f"{'Have' if value else 'Leave out'} {label}"
    if spec.kind == "choice":
        shown = dict(spec.options)[value]
        return (spec.change or f"Choose {{value}} for the {label}").replace("{value}", shown)
    shown = f"{value}" if spec.kind == "count" else show(value, spec.unit, system)
    return (spec.change or f"Make the {label} {{value}}").replace("{value}", shown)


def _try(kind: str, inputs: Any, edition: Edition) -> CheckResult | None:
    try:
        return attachments.check(kind, inputs, edition, recording=False)
    except BadInput:
        return None


def _referred(result: CheckResult) -> frozenset[str]:
    return frozenset(s.key for s in result.states if s.verdict is Verdict.REFER)


def _first_flag(result: CheckResult | None) -> LimitState | None:
    if result is None:
        return None
    flags = [s for s in result.states if s.verdict is Verdict.FLAG]
    return max(flags, key=lambda s: float("inf") if s.ratio is None else s.ratio, default=None)


def holds(result: CheckResult | None, base: CheckResult) -> bool:
    """Whether every line holds and nothing is referred that was not referred before."""
    return result is not None and _first_flag(result) is None and _referred(result) <= _referred(base)


def lattice(spec: Spec, value: float, upward: bool) -> Iterator[float]:
    """Values that can be bought or set out beyond `value`, nearest first, within the stated range."""
    edge = spec.high if upward else spec.low
    steps = int(abs(edge - value) / spec.step + 1e-9)
    stride = max(1, -(-steps // REACH))
    start = round(value / spec.step + (0.5 - 1e-9 if upward else -0.5 + 1e-9))
    for n in range(stride if start * spec.step == value else 0, steps + stride + 1, stride):
        point = (start + n if upward else start - n) * spec.step
        if point == value:
            continue
        if not spec.low - 1e-9 <= point <= spec.high + 1e-9:
            return
        yield round(point) if spec.kind == "count" else min(max(point, spec.low), spec.high)


def _asked(spec: Spec, inputs: Any) -> bool:
    """Whether an input can be solved for as things stand."""
    if spec.step <= 0 or getattr(inputs, spec.name) is None:
        return False
    return spec.when is None or getattr(inputs, spec.when[0]) in spec.when[1]


def solve(kind: str, inputs: Any, edition: Edition, name: str) -> tuple[Remedy | None, LimitState | None]:
    """The value of one input, nearest to the one at hand, that makes every line hold.

    Returns: the remedy, or None with the line that blocks at the best value tried. Raises: BadInput for an unknown input.
    """
    spec = fields.spec(type(inputs), name)
    base = attachments.check(kind, inputs, edition, recording=False)
    return _solve(kind, inputs, edition, spec, base)


def _candidates(spec: Spec, value: Any) -> Iterator[Any]:
    if spec.kind == "choice":
        yield from (v for v, _ in spec.options if v != value)
    elif spec.kind == "yes":
        yield not value
    else:
        ways = [lattice(spec, float(value), True), lattice(spec, float(value), False)]
        while ways:  # alternately up and down, so that the nearest answer is met first
            for way in list(ways):
                point = next(way, None)
                if point is None:
                    ways.remove(way)
                else:
                    yield point


def _solve(
    kind: str, inputs: Any, edition: Edition, spec: Spec, base: CheckResult
) -> tuple[Remedy | None, LimitState | None]:
    blocking = _first_flag(base)
    least = _weight(blocking)
    for value in _candidates(spec, getattr(inputs, spec.name)):
        result = _try(kind, replace(inputs, **{spec.name: value}), edition)
        if result is not None and holds(result, base):
            return _remedy((spec,), (value,), result), None
        flag = _first_flag(result)
        if flag is not None and _weight(flag) < least:
            blocking, least = flag, _weight(flag)
    return None, blocking


def _weight(flag: LimitState | None) -> float:
    if flag is None or flag.ratio is None:
        return float("inf")
    return flag.ratio


def _remedy(specs: tuple[Spec, ...], values: tuple[Any, ...], result: CheckResult) -> Remedy:
    # what is always referred has no ratio: the line that comes nearest to its limit speaks for the rest
    judged = [s for s in result.states if s.verdict is Verdict.PASS and s.ratio is not None]
    nearest = max(judged, key=lambda s: s.ratio or 0.0, default=None)
    return Remedy(
        specs,
        values,
        nearest.ratio if nearest else None,
        nearest.title if nearest else "",
        any(s.wall for s in specs),
    )


def remedies(kind: str, inputs: Any, edition: Edition) -> tuple[Remedy, ...]:
    """Every single change that makes a flagged attachment pass; where none does, pairs of named choices.

    Returns: changes to the attachment itself first, then to the wall; () when nothing flags.
    """
    base = attachments.check(kind, inputs, edition, recording=False)
    if _first_flag(base) is None:
        return ()
    asked = [s for s in fields.specs(type(inputs)) if _asked(s, inputs)]
    found = [r for r, _ in (_solve(kind, inputs, edition, s, base) for s in asked) if r]
    if not [r for r in found if not r.wall]:
        choices = [s for s in asked if s.kind == "choice" and not s.wall]
        found = [*_pairs(kind, inputs, edition, choices, base), *found]
    return tuple(sorted(found, key=lambda r: r.wall))


def _pairs(kind: str, inputs: Any, edition: Edition, choices: list[Spec], base: CheckResult) -> list[Remedy]:
    found = []
    for first, second in combinations(choices, 2):
        for a in _candidates(first, getattr(inputs, first.name)):
            for b in _candidates(second, getattr(inputs, second.name)):
                result = _try(kind, replace(inputs, **{first.name: a, second.name: b}), edition)
                if result is not None and holds(result, base):
                    found.append(_remedy((first, second), (a, b), result))
                    break
            else:
                continue
            break
    return found


def slips(kind: str, inputs: Any, edition: Edition) -> tuple[Slip, ...]:
    """For an attachment whose lines hold: how far each number may move, one at a time, before a line flags.

    Returns: () for one that flags already. The limits are what an inspector measures against.
    """
    base = attachments.check(kind, inputs, edition, recording=False)
    if _first_flag(base) is not None:
        return ()
    asked = [s for s in fields.specs(type(inputs)) if _asked(s, inputs) and s.kind == "number"]
    return tuple(_slip(kind, inputs, edition, s, base) for s in asked)


def slip(kind: str, inputs: Any, edition: Edition, name: str) -> Slip:
    """The same for one number of an attachment whose lines hold. Raises: BadInput for an unknown input."""
    base = attachments.check(kind, inputs, edition, recording=False)
    return _slip(kind, inputs, edition, fields.spec(type(inputs), name), base)


def _slip(kind: str, inputs: Any, edition: Edition, spec: Spec, base: CheckResult) -> Slip:
    ends: list[tuple[float | None, str]] = []
    for upward in (False, True):
        last, broken = getattr(inputs, spec.name), ""
        for value in lattice(spec, getattr(inputs, spec.name), upward):
            result = _try(kind, replace(inputs, **{spec.name: value}), edition)
            if not holds(result, base):
                flag = _first_flag(result)
                broken = flag.title if flag else "outside what is checked"
                break
            last = value
        ends.append((last if broken else None, broken))
    (low, low_breaks), (high, high_breaks) = ends
    return Slip(spec, low, high, low_breaks, high_breaks)
