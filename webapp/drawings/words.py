"""What a drawing says: the finding in one line, what governs in two, the main dimensions for those who cannot see it."""

from collections.abc import Iterable
from math import isinf

from engine import units
from engine.result import CheckResult, LimitState, Verdict, ratio_words
from engine.units import System
from webapp.drawings.scene import Scene

LONG = 80  # letters beside a spot; more than that, and only the first clause stands there
VERDICT_WORDS = {
    Verdict.PASS: "Pass",
    Verdict.FLAG: "Flag",
    Verdict.REFER: "Refer",
    Verdict.ADVISORY: "Advisory",
    Verdict.UNCHECKED: "Not checked",
}


def governing(state: LimitState, system: System) -> tuple[str, str]:
    """The two lines beside the governing spot: the limit with its ratio, and both its numbers."""
    ratio = state.ratio
    if state.verdict is Verdict.REFER:
        return state.title, "for a licensed engineer"
    if ratio is None or isinf(ratio) or state.demand is None or state.capacity is None:
        said = state.sentence(system)
        if len(said) > LONG and "; " in said:
            said = f"{said.partition('; ')[0]}."
        return (
            state.title,
            said if said != f"{state.title}." else "holds" if state.verdict is Verdict.PASS else "does not hold",
        )
    there = "has" if state.unit in ("in", "ft", "in²", "") else "carries"
    asked, given = (units.show(value, state.unit, system) for value in (state.demand, state.capacity))
    return f"{state.title} {ratio_words(ratio)}", f"asks {asked}, {there} {given}"


def finding(name: str, title: str, result: CheckResult | None, system: System) -> str:
    """The drawing's title for those who cannot see it: what it shows and what was found."""
    shown = f"{name}, {title}" if title else name
    state = result.governing if result else None
    if result is None or state is None:
        return f"{shown}."
    return f"{shown}. {VERDICT_WORDS[result.verdict]}: {state.sentence(system)}"


def description(scenes: Iterable[Scene], system: System) -> str:
    """The main dimensions in words, view by view, and what could not be drawn."""
    said: list[str] = []
    for scene in scenes:
        parts = [f"{name} {units.show(inches, 'in', system)}" for name, inches in measures(scene)]
        if parts:
            said.append(f"{scene.name}: {', '.join(parts)}.")
        if scene.missing:
            said.append(f"Not drawn: {'; '.join(scene.missing)}.")
    return " ".join(said)


def measures(scene: Scene) -> list[tuple[str, float]]:
    """Every named dimension of a view with its length [in], each name once."""
    found: dict[str, float] = {}
    for chain in scene.chains:
        for number, name in enumerate(chain.names):
            if name:
                found.setdefault(name, abs(chain.stops[number + 1] - chain.stops[number]))
        if chain.overall:
            found.setdefault(chain.overall, abs(chain.stops[-1] - chain.stops[0]))
    for inner in (*scene.inners, *scene.fine):
        if inner.name:
            found.setdefault(inner.name, abs(inner.stops[1] - inner.stops[0]))
    return list(found.items())
