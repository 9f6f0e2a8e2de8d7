"""A clause's formula as MathML, in symbols and with numbers, walked from the same tree the tests evaluate.

Numbers inside a formula stay in the code's own units: its constants only hold there.
"""

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import lru_cache
from typing import Any
from xml.etree.ElementTree import Element, tostring

from markupsafe import Markup, escape

from engine import formula
from engine.result import ROUNDING, LimitState
from engine.units import System, show
from engine.worksheet import Step, split_name
from webapp.mathml_parts import bar, el, figure, is_symbol, left_side, symbol
from webapp.mathml_tree import Setter

LONG = 31  # letters a rule and its numbers may take side by side before they are set one under the other


def _serialised(*children: Element) -> Markup:
    root = el("math", *children, displaystyle="true")
    return Markup(tostring(root, encoding="unicode"))


def breadth(element: Element) -> float:
    """How much room mathematics takes across, in letters, roughly: bars stack, subscripts are small."""
    parts = [breadth(child) for child in element]
    match element.tag:
        case "mo":
            return 1 if element.get("fence") else 2.2
        case "mfrac" | "mtable":
            return max(parts)
        case "msub" | "msup":
            return parts[0] + 0.6 * parts[1]
        case "msubsup":
            return parts[0] + 0.6 * max(parts[1:])
    return sum(parts) if parts else len(element.text or "") * 0.95


@lru_cache(maxsize=1024)
def _rule(text: str, left: str, family: str) -> tuple[Markup, float]:
    body = Setter(lambda name: symbol(name, family)).set(formula.parse(text))[0]
    parts = [left_side(left, family), el("mo", "="), body] if left else [body]
    return _serialised(*parts), sum(map(breadth, parts))


def rule(step: Step) -> Markup:
    """The rule of a step: its formula in symbols, or its words."""
    clause = step.clause
    if clause.formula:
        return _rule(clause.formula, clause.symbol, clause.citation.family)[0]
    return Markup('<span class="rule-words">{}</span>').format(clause.rule)


def _substituted(step: Step) -> Element:
    by_symbol = {split_name(name)[0]: (value, split_name(name)[1]) for name, value in step.values.items()}
    plain = {name: value for name, (value, _) in by_symbol.items()}

    def leaf(name: str) -> Element:
        value, unit = by_symbol[name]
        return figure(float(value), unit) if isinstance(value, (int, float)) else el("mtext", str(value))

    return Setter(leaf, plain).set(formula.parse(step.clause.formula))[0]


def numbers(step: Step) -> Markup:
    """The same rule with the values it was used with; of several branches the one taken. A rule in words lists its values."""
    if not step.clause.formula:
        return _listed(step.values, step.clause.citation.family)
    return _serialised(_substituted(step))


def lines(step: Step) -> int:
    """How many lines a rule, its numbers and its result need: one where all stand side by side, else two or three."""
    clause = step.clause
    if not clause.formula:
        return 1
    beside = breadth(_substituted(step))
    if _rule(clause.formula, clause.symbol, clause.citation.family)[1] + beside <= LONG:
        return 1
    return 2 if beside <= LONG else 3


def _words(value: Any) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def _said(name: str, value: Markup) -> Markup:
    return Markup("{}: {}").format(name.replace("_", " "), value)


def _listed(values: Mapping[str, Any], family: str) -> Markup:
    items: list[Markup] = []
    for name, value in values.items():
        short, unit = split_name(name)
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            number = (figure(value, unit), *_unit(unit))
            if is_symbol(short):
                items.append(_serialised(symbol(short, family), el("mo", "="), *number))
            else:
                items.append(_said(short, _serialised(*number)))
        elif value is not None:
            items.append(_said(short, escape(_words(value))))
    return Markup(", ").join(items)


def _unit(unit: str) -> list[Element]:
    space = "" if unit == "°" else "\N{NO-BREAK SPACE}"
    return [el("mtext", space + unit)] if unit else []


def quantity(value: float, unit: str, system: System = "ft in") -> Markup:
    """A result in the code's unit, and after it in the reader's where that differs."""
    made = _serialised(figure(value, unit), *_unit(unit))
    theirs = show(value, unit, system) if unit and system == "mm" else ""
    if theirs and not theirs.endswith(f" {unit}"):
        made += Markup(' <small class="theirs">{}</small>').format(theirs)
    return made


def gives(step: Step, system: System = "ft in") -> Markup:
    """What a step came to: a quantity, yes or no, words, or several named values."""
    result, unit = step.result, step.clause.unit
    if isinstance(result, bool):
        return escape("yes" if result else "no")
    if isinstance(result, (int, float)):
        return quantity(result, unit, system)
    if is_dataclass(result) and not isinstance(result, type):
        return _listed({f.name: getattr(result, f.name) for f in fields(result)}, "")
    if isinstance(result, tuple) and hasattr(result, "_asdict"):
        return _listed(result._asdict(), "")
    if isinstance(result, (tuple, list)):
        return Markup(", ").join(gives(Step(step.function, step.values, part), system) for part in result)
    return escape("none" if result is None else result)


def ratio_rule() -> Markup:
    """The last line of every working, in words: what is asked over what there is."""
    return _serialised(bar(el("mtext", "asked"), el("mtext", "there is")))


def ratio_numbers(state: LimitState) -> Markup:
    """Demand over capacity of a line, in the code's unit; empty for a line without numbers."""
    if state.demand is None or state.capacity is None:
        return Markup("")
    return _serialised(bar(figure(state.demand, state.unit), figure(state.capacity, state.unit)))


def ratio_gives(state: LimitState, shown: str) -> Markup:
    """The ratio against 1.0. Args: shown: the ratio as pages write it."""
    ratio = state.ratio
    if ratio is None:
        return Markup("")
    sign = "≤" if ratio <= 1 + ROUNDING else ">"
    return _serialised(el("mn", shown), el("mo", sign), el("mn", "1.0"))
