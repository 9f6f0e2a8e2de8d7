"""A clause's formula as MathML, in symbols and with numbers, walked from the same tree the tests evaluate.

Elements are built as a tree and serialised once, so nothing typed or published ever becomes markup. Numbers inside a formula stay
in the code's own units: its constants only hold there.
"""

import ast
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from functools import lru_cache
from typing import Any
from xml.etree.ElementTree import Element, SubElement, tostring

from markupsafe import Markup, escape

from engine import formula
from engine.result import ROUNDING, LimitState
from engine.units import System, fraction, show
from engine.worksheet import Step, split_name

GREEK: Mapping[str, str] = {
    "alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "Delta": "Δ", "epsilon": "ε", "eta": "η", "theta": "θ",
    "kappa": "κ", "lambda": "λ", "lambd": "λ", "lam": "λ", "mu": "μ", "nu": "ν", "xi": "ξ", "pi": "π", "rho": "ρ",
    "sigma": "σ", "Sigma": "Σ", "tau": "τ", "phi": "φ", "Phi": "Φ", "chi": "χ", "psi": "ψ", "omega": "ω", "Omega": "Ω",
}  # fmt: skip
SIGNS: Mapping[type[ast.AST], str] = {
    ast.Add: "+", ast.Sub: "−", ast.Lt: "<", ast.LtE: "≤", ast.Gt: ">", ast.GtE: "≥", ast.Eq: "=",
}  # fmt: skip
FENCES: Mapping[str, tuple[str, str]] = {"abs": ("|", "|"), "ceil": ("⌈", "⌉"), "floor": ("⌊", "⌋")}
SUM, PRODUCT, POWER, ATOM = range(4)  # how tightly a part binds
Leaf = Callable[[str], Element]


def _el(tag: str, *children: Element | str, **attributes: str) -> Element:
    element = Element(tag, attributes)
    for child in children:
        if isinstance(child, str):
            element.text = child
        else:
            element.append(child)
    return element


def _row(*children: Element) -> Element:
    return children[0] if len(children) == 1 else _el("mrow", *children)


def _fenced(inner: Element, left: str = "(", right: str = ")") -> Element:
    return _el("mrow", _el("mo", left, fence="true"), inner, _el("mo", right, fence="true"))


def _serialised(*children: Element) -> Markup:
    root = _el("math", *children, displaystyle="true")
    return Markup(tostring(root, encoding="unicode"))


# Names and figures


def _name(part: str) -> str:
    if part == "l":
        return "ℓ"  # a lower-case l reads as a one
    return GREEK.get(part, part)


_GLUED = re.compile(r"(phi|lambda|psi)([A-Z].*)")  # `phiP_n`: a factor written in one word with what it reduces
_SUBSCRIPTS: Mapping[str, str] = {"perp": "⊥", "par": "∥"}


def symbol(name: str, family: str = "") -> Element:
    """A symbol such as `psi_ed_N` or `psi_ed,N`: ψ with subscript "ed,N"; `F_c_prime` and `F'_c` get a prime.

    In ACI 318 `f_c` is the specified strength, which that code prints with a prime.
    """
    glued = _GLUED.fullmatch(name)
    if glued:
        return _row(_el("mi", GREEK[glued[1]]), symbol(glued[2], family))
    base, *below = re.split(r"[_,]", name.replace("'", "").strip("_"))
    primed = "'" in name or "prime" in below or (family == "ACI 318" and name == "f_c")
    below = [_SUBSCRIPTS.get(part, _name(part)) for part in below if part not in ("prime", "")]
    parts = [_el("mi", _name(base))]
    if below:
        parts.append(_el("mi", ",".join(below), mathvariant="normal"))
    if primed:
        parts.append(_el("mo", "′"))
    tag = {(False, False): "", (True, False): "msub", (False, True): "msup", (True, True): "msubsup"}[
        bool(below), primed
    ]
    return _el(tag, *parts) if tag else parts[0]


def _left_side(text: str, family: str) -> Element:
    """The symbol of a result as its clause prints it: one symbol, or several with a factor or a bar between ("k l_u / r")."""
    made: list[Element] = []
    for token in text.split():
        if token == "/":
            made.append(_el("mo", "/"))
        elif token[0].isdigit():
            made.append(_el("mn", token))
        else:
            made.append(symbol(token, family))
    return _row(*made)


def decimal(value: float) -> str:
    """A number to four figures, thousands parted: 0.8333, 12.5, 1,840, 29,000,000."""
    if value == int(value) and abs(value) < 1e15:
        return f"{value:,.0f}"
    if abs(value) >= 1000:
        return f"{value:,.0f}"
    if abs(value) < 1e-4:
        return f"{value:.3g}"
    places = next(n for n in range(9) if abs(value) >= 10.0 ** (3 - n))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _plain_number(text: str) -> Element:
    """A positive number as text, powers of ten set as powers: 1e-09 -> 10 to the minus 9."""
    if "e" not in text:
        return _el("mn", text)
    digits, exponent = text.split("e")
    power = _el("msup", _el("mn", "10"), _el("mn", str(int(exponent)).replace("-", "−")))
    return power if digits == "1" else _el("mrow", _el("mn", digits), _el("mo", "×"), power)


def _is_sixteenth(value: float) -> bool:
    return abs(value * 16 - round(value * 16)) < 1e-6 and abs(value) < 10_000


def figure(value: float, unit: str) -> Element:
    """A number; inches on a sixteenth as a mixed fraction, all else as a decimal: nothing is rounded to fit a tape."""
    if unit != "in" or not _is_sixteenth(value) or value == int(value):
        made = _plain_number(decimal(abs(value)))
        return _el("mrow", _el("mo", "−"), made) if value < 0 else made
    sign, words = ("−", fraction(-value)) if value < 0 else ("", fraction(value))
    *whole, parts = words.split(" ")
    top, bottom = parts.split("/")
    small = _el("mstyle", _el("mfrac", _el("mn", top), _el("mn", bottom)), displaystyle="false")
    pieces = [_el("mo", sign)] if sign else []
    for part in whole:
        pieces += [_el("mn", part), _el("mspace", width="0.1em")]
    return _el("mrow", *pieces, small)


# The tree


class _Setter:
    """Sets an expression. `leaf` turns a name into an element: its symbol, or its number.

    `values` (with numbers only) decides the branch of `a if test else b` that was taken.
    """

    def __init__(self, leaf: Leaf, values: Mapping[str, float] | None = None) -> None:
        self.leaf = leaf
        self.values = values

    def set(self, node: ast.expr) -> tuple[Element, int]:
        """The element of a part of the formula and how tightly it binds."""
        match node:
            case ast.Constant(value=str(words)):
                return _el("mtext", words), ATOM
            case ast.Constant(value=value):
                return _plain_number(decimal(float(value))), ATOM  # type: ignore[arg-type]
            case ast.Name(id=name):
                return self._name(name)
            case ast.UnaryOp(operand=operand):
                return _el("mrow", _el("mo", "−"), self._within(operand, PRODUCT)), SUM
            case ast.BinOp():
                return self._binary(node)
            case ast.Call():
                return self._call(node), ATOM
            case ast.Compare(left=left, ops=ops, comparators=others):
                return self._chain([left, *others], [SIGNS[type(op)] for op in ops]), SUM
            case ast.BoolOp(op=op, values=parts):
                return self._chain(parts, ["and" if isinstance(op, ast.And) else "or"] * (len(parts) - 1)), SUM
            case ast.IfExp():
                return self._cases(node) if self.values is None else self._taken(node)
        raise ValueError(f"no way to set {type(node).__name__}")

    def _name(self, name: str) -> tuple[Element, int]:
        if name in formula.CONSTANTS:
            return _el("mi", GREEK[name]), ATOM
        element = self.leaf(name)
        negative = element.tag == "mrow" and element[0].text == "−"
        return element, SUM if negative else PRODUCT if element.tag == "mrow" else ATOM

    def _within(self, node: ast.expr, least: int) -> Element:
        """A part, in parentheses where it binds less tightly than its place asks for."""
        element, binds = self.set(node)
        return element if binds >= least else _fenced(element)

    def _binary(self, node: ast.BinOp) -> tuple[Element, int]:
        match node.op:
            case ast.Div():
                return self._fraction(node), PRODUCT
            case ast.Pow():
                return self._power(node), POWER
            case ast.Mult():
                between = _el("mo", "×") if self._begins_with_number(node.right) else _el("mspace", width="0.18em")
                return _row(self._within(node.left, PRODUCT), between, self._within(node.right, PRODUCT)), PRODUCT
        right = self._within(node.right, SUM if isinstance(node.op, ast.Add) else PRODUCT)
        if isinstance(node.right, ast.UnaryOp) or (self._is_number(node.right) and right.find("mo") is not None):
            right = right if right[0].text == "(" else _fenced(right)
        return _row(self._within(node.left, SUM), _el("mo", SIGNS[type(node.op)]), right), SUM

    def _fraction(self, node: ast.BinOp) -> Element:
        made = _el("mfrac", self.set(node.left)[0], self.set(node.right)[0])
        plain = all(isinstance(part, ast.Constant) for part in (node.left, node.right))
        return _el("mstyle", made, displaystyle="false") if plain else made

    def _power(self, node: ast.BinOp) -> Element:
        match node.right:
            case ast.Constant(value=0.5):
                return _el("msqrt", self.set(node.left)[0])
            case ast.BinOp(op=ast.Div(), left=top, right=bottom):
                above = _row(self._within(top, PRODUCT), _el("mo", "/"), self._within(bottom, POWER))
            case _:
                above = self.set(node.right)[0]
        return _el("msup", self._within(node.left, ATOM), above)

    def _call(self, node: ast.Call) -> Element:
        name = node.func.id if isinstance(node.func, ast.Name) else ""
        parts = [self.set(argument)[0] for argument in node.args]
        if name == "sqrt":
            return _el("msqrt", *parts)
        if name in FENCES:
            return _fenced(parts[0], *FENCES[name])
        listed = [parts[0]]
        for part in parts[1:]:
            listed += [_el("mo", ",", separator="true"), part]
        degrees = [_el("mo", "°")] if name in ("sin", "cos") and self.values is not None else []
        return _el("mrow", _el("mi", name), _fenced(_row(*listed, *degrees)))

    def _chain(self, parts: Sequence[ast.expr], signs: Sequence[str]) -> Element:
        made = [self.set(parts[0])[0]]
        for sign, part in zip(signs, parts[1:], strict=True):
            made.append(
                _el("mtext", f"\N{NO-BREAK SPACE}{sign}\N{NO-BREAK SPACE}") if sign.isalpha() else _el("mo", sign)
            )
            made.append(self.set(part)[0])
        return _row(*made)

    def _cases(self, node: ast.IfExp) -> tuple[Element, int]:
        table = _el("mtable", columnalign="left")
        rest: ast.expr = node
        while isinstance(rest, ast.IfExp):
            self._case(table, rest.body, self.set(rest.test)[0], "if")
            rest = rest.orelse
        self._case(table, rest, None, "otherwise")
        return _el("mrow", _el("mo", "{", fence="true", stretchy="true"), table), SUM

    def _case(self, table: Element, body: ast.expr, test: Element | None, word: str) -> None:
        row = SubElement(table, "mtr")
        row.append(_el("mtd", self.set(body)[0]))
        condition = SubElement(row, "mtd")
        condition.append(_el("mtext", f"{word}\N{NO-BREAK SPACE}" if test is not None else word))
        if test is not None:
            condition.append(test)

    def _taken(self, node: ast.IfExp) -> tuple[Element, int]:
        holds = formula.evaluate(ast.unparse(node.test), self.values or {})
        return self.set(node.body if holds else node.orelse)

    def _is_number(self, node: ast.expr) -> bool:
        if isinstance(node, ast.Constant):
            return True
        return self.values is not None and isinstance(node, ast.Name)

    def _begins_with_number(self, node: ast.expr) -> bool:
        """Whether a factor starts with a figure, so that a multiplication sign must stand before it."""
        while isinstance(node, ast.BinOp) and isinstance(node.op, (ast.Mult, ast.Div, ast.Pow)):
            node = node.left
        return self.values is not None or self._is_number(node)


LONG = 36  # letters a rule and its numbers may take side by side before they are set one under the other


def _breadth(element: Element) -> float:
    """How much room mathematics takes across, in letters, roughly: bars stack, subscripts are small."""
    parts = [_breadth(child) for child in element]
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
    body = _Setter(lambda name: symbol(name, family)).set(formula.parse(text))[0]
    parts = [_left_side(left, family), _el("mo", "="), body] if left else [body]
    return _serialised(*parts), sum(map(_breadth, parts))


def rule(step: Step) -> Markup:
    """The rule of a step: its formula in symbols, or its words."""
    clause = step.clause
    if clause.formula:
        return _rule(clause.formula, clause.symbol, clause.citation.family)[0]
    return Markup('<span class="rule-words">{}</span>').format(clause.rule)


def _substituted(step: Step) -> Element:
    by_symbol = {split_name(name)[0]: (value, split_name(name)[1]) for name, value in step.values.items()}
    plain = {name: value for name, (value, _) in by_symbol.items() if isinstance(value, (int, float))}

    def leaf(name: str) -> Element:
        value, unit = by_symbol[name]
        return figure(float(value), unit) if isinstance(value, (int, float)) else _el("mtext", str(value))

    return _Setter(leaf, plain).set(formula.parse(step.clause.formula))[0]


def numbers(step: Step) -> Markup:
    """The same rule with the values it was used with; of several branches the one taken. A rule in words lists its values."""
    if not step.clause.formula:
        return _listed(step.values, step.clause.citation.family)
    return _serialised(_substituted(step))


def is_long(step: Step) -> bool:
    """Whether the rule and its numbers need a line each."""
    clause = step.clause
    if not clause.formula:
        return False
    return _rule(clause.formula, clause.symbol, clause.citation.family)[1] + _breadth(_substituted(step)) > LONG


def _words(value: Any) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def _listed(values: Mapping[str, Any], family: str) -> Markup:
    items: list[Markup] = []
    for name, value in values.items():
        short, unit = split_name(name)
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            items.append(_serialised(symbol(short, family), _el("mo", "="), figure(value, unit), *_unit(unit)))
        elif value is not None:
            items.append(Markup("{}: {}").format(short.replace("_", " "), _words(value)))
    return Markup(", ").join(items)


def _unit(unit: str) -> list[Element]:
    return [_el("mtext", f"\N{NO-BREAK SPACE}{unit}")] if unit else []


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
    return _serialised(_el("mfrac", _el("mtext", "asked"), _el("mtext", "there is")))


def ratio_numbers(state: LimitState) -> Markup:
    """Demand over capacity of a line, in the code's unit; empty for a line without numbers."""
    if state.demand is None or state.capacity is None:
        return Markup("")
    return _serialised(_el("mfrac", figure(state.demand, state.unit), figure(state.capacity, state.unit)))


def ratio_gives(state: LimitState, shown: str) -> Markup:
    """The ratio against 1.0. Args: shown: the ratio as pages write it."""
    ratio = state.ratio
    if ratio is None:
        return Markup("")
    sign = "≤" if ratio <= 1 + ROUNDING else ">"
    return _serialised(_el("mn", shown), _el("mo", sign), _el("mn", "1.0"))
