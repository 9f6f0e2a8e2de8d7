"""Working for paper: the same trees the pages set as MathML, as small lists the typesetter builds its mathematics from.

A node is text, or a list whose first sign says what it is: i a letter, x a named function, o an operator, r a row, f a fraction,
s a small one, a a letter with what stands below and above it, q a root, l a part between fences, c branches, w a space. Nothing of
it is ever read as code: the template builds each by its sign. Every piece of mathematics carries itself in words for who listens.
"""

from collections.abc import Mapping
from functools import lru_cache
from math import isfinite
from typing import Any
from xml.etree.ElementTree import Element

from engine import attachments, formula
from engine.units import show
from engine.worksheet import CLAUSES, split_name
from webapp.mathml import LONG, breadth
from webapp.mathml_parts import el, figure, is_symbol, left_side, symbol
from webapp.mathml_tree import Setter

Node = Any
Piece = Any  # text, or a list of the node and its words: what a cell of the working is made of
SPOKEN: Mapping[str, str] = {
    "−": "minus", "×": "times", "≤": "at most", "≥": "at least", "<": "less than", ">": "above", "′": "prime", "/": "over",
    "+": "plus", "=": "equals", "⊥": "perpendicular", "∥": "parallel",
}  # fmt: skip


def node(element: Element) -> Node:
    """An element of mathematics as a node."""
    parts = list(element)
    text = element.text or ""
    match element.tag:
        case "mi":
            return ["i", text] if len(text) == 1 and element.get("mathvariant") is None else (
                text if element.get("mathvariant") else ["x", text]
            )  # fmt: skip
        case "mo":
            return ["o", text]
        case "mspace":
            return ["w", float(element.get("width", "0em").removesuffix("em"))]
        case "mfrac":
            return ["f", node(parts[0]), node(parts[1])]
        case "mstyle":
            return ["s", _row(parts)]
        case "msqrt":
            return ["q", _row(parts)]
        case "msub":
            return ["a", node(parts[0]), node(parts[1]), None]
        case "msup":
            return ["a", node(parts[0]), None, node(parts[1])]
        case "msubsup":
            return ["a", node(parts[0]), node(parts[1]), node(parts[2])]
        case "mtable":
            return ["c", [[_row(list(cell)) for cell in line] for line in parts]]
    return text if not parts else _fenced(parts) or _row(parts)


def _row(parts: list[Element]) -> Node:
    return node(parts[0]) if len(parts) == 1 else ["r", *map(node, parts)]


def _fenced(parts: list[Element]) -> Node:
    """A part between fences that grow with it; branches have a fence at the left only."""
    if parts[0].get("fence") and parts[-1].get("fence") and len(parts) > 2:
        return ["l", parts[0].text, parts[-1].text, _row(parts[1:-1])]
    if parts[0].get("fence") and len(parts) == 2:
        return node(parts[1])
    return None


def words(element: Element) -> str:
    """An element as it is read aloud."""
    parts = [words(part) for part in element]
    match element.tag:
        case "mo":
            return f" {SPOKEN.get(element.text or '', element.text or '')} "
        case "mspace":
            return " "
        case "mfrac":
            return f" {_whole(parts[0])} over {_whole(parts[1])} "
        case "msqrt":
            return f" square root of {_whole(''.join(parts))} "
        case "msub":
            return f"{parts[0]} sub {SPOKEN.get(parts[1], parts[1])}"
        case "msup":
            return f"{parts[0]} to the power {_whole(parts[1])}" if parts[1].strip() != "prime" else f"{parts[0]} prime"
        case "msubsup":
            return f"{parts[0]} sub {SPOKEN.get(parts[1], parts[1])} prime"
        case "mtable":
            return "; ".join(parts)
        case "mtr":
            return " ".join(parts)
    return "".join(parts) or element.text or ""


def _whole(text: str) -> str:
    text = " ".join(text.split())
    return f"({text})" if " " in text else text


def maths(*elements: Element) -> Piece:
    """Elements side by side as one piece."""
    return [_row(list(elements)), " ".join("".join(map(words, elements)).split())]


def pieces(*elements: Element) -> list[Piece]:
    """The same; what is only text stays text, which is set faster and found by a search."""
    plain = all(one.tag in ("mn", "mtext") for one in elements)
    return ["".join(one.text or "" for one in elements)] if plain else [maths(*elements)]


@lru_cache(maxsize=1)
def _units() -> Mapping[tuple[str, str], Mapping[str, str]]:
    """The unit of every symbol, by title and rule of its clause."""
    assert attachments.KINDS  # their clauses are registered by now
    return {
        (clause.title, clause.formula or clause.rule): dict(map(split_name, _parameters(function)))
        for function, clause in CLAUSES.items()
    }


def _parameters(function: Any) -> tuple[str, ...]:
    code = function.__code__
    return tuple(code.co_varnames[: code.co_argcount + code.co_kwonlyargcount])


@lru_cache(maxsize=2048)
def rule(text: str, left: str, family: str) -> tuple[Piece, float]:
    """A formula in symbols, and how much room it takes across, in letters."""
    body = Setter(lambda name: symbol(name, family)).set(formula.parse(text))[0]
    parts = [left_side(left, family), el("mo", "="), body] if left else [body]
    return maths(*parts), sum(map(breadth, parts))


def _numbers(step: Mapping[str, Any], units: Mapping[str, str]) -> Element:
    values = step["values"]

    def leaf(name: str) -> Element:
        value = values[name]
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            return figure(float(value), units.get(name, ""))
        return el("mtext", "∞" if value == "infinite" else str(value))

    known = {name: float("inf") if value == "infinite" else value for name, value in values.items()}
    return Setter(leaf, known).set(formula.parse(step["formula"]))[0]


def step(frozen: Mapping[str, Any]) -> dict[str, Any]:
    """One step of a frozen working as the template sets it. `lines`: 1 where rule and numbers stand side by side, else 2."""
    family = "ACI 318" if str(frozen["source"]).startswith("ACI 318") else ""
    units = _units().get((frozen["title"], frozen["formula"] or frozen["rule"] or ""), {})
    made = {"t": frozen["title"], "s": source(frozen), "g": gives(frozen["result"], frozen["unit"], family)}
    if not frozen["formula"]:
        listed = _listed(frozen["values"], units, family)
        return made | {"r": [frozen["rule"] or ""], "n": listed, "l": 1 if _short(frozen["rule"], listed) else 2}
    piece, across = rule(frozen["formula"], frozen["symbol"], family)
    body = _numbers(frozen, units)
    beside = across + breadth(body) <= LONG
    return made | {"r": [piece], "n": pieces(body), "l": 1 if beside else 2}


def _short(text: str | None, listed: list[Piece]) -> bool:
    return len(text or "") <= 46 and sum(len(one if isinstance(one, str) else one[1]) for one in listed) <= 26


def source(frozen: Mapping[str, Any]) -> str:
    """Where a step stands; how the engine came by it, where that is not from reading."""
    said = {"memory": "from memory", "common practice": "common practice", "geometry": ""}.get(frozen["provenance"], "")
    name = "" if frozen["provenance"] == "geometry" else str(frozen["source"])
    return ", ".join(filter(None, (name, said if said not in name else ""))) or "geometry"


def _listed(values: Mapping[str, Any], units: Mapping[str, str], family: str) -> list[Piece]:
    found: list[Piece] = []
    for name, value in values.items():
        if value is None:
            continue
        found += [", "] if found else []
        found += _said(name, value, units.get(name, ""), family)
    return found


def _said(name: str, value: Any, unit: str, family: str) -> list[Piece]:
    short, own = split_name(name)
    unit = unit or own
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        if is_symbol(short):
            return [maths(symbol(short, family), el("mo", "="), figure(value, unit)), f" {unit}" if unit else ""]
        return [f"{short.replace('_', ' ')}: ", *_quantity(value, unit)]
    return [f"{name.replace('_', ' ')}: ", *gives(value, unit, family)]


def _quantity(value: float, unit: str) -> list[Piece]:
    if not isfinite(value):
        return ["∞"]
    after = unit if unit == "°" else f" {unit}" if unit else ""
    made = pieces(figure(value, unit))
    return [made[0] + after] if isinstance(made[0], str) else [*made, after]


def gives(result: Any, unit: str, family: str = "") -> list[Piece]:
    """What a step came to: a quantity, yes or no, words, or several values."""
    if isinstance(result, bool) or result is None:
        return [{True: "yes", False: "no", None: "none"}[result]]
    if isinstance(result, (int, float)):
        return _quantity(float(result), unit)
    if isinstance(result, Mapping):
        return _listed(result, {}, family)
    if result == []:
        return ["nothing"]
    if isinstance(result, list):
        return [
            part for number, one in enumerate(result) for part in ([", "] * bool(number) + gives(one, unit, family))
        ]
    return ["∞" if result == "infinite" else str(result)]


def amount(value: Any, unit: str) -> str:
    """A demand or a capacity in a table."""
    if value is None:
        return ""
    return "∞" if value == "infinite" else show(float(value), unit, "ft in")
