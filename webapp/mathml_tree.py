"""A formula's expression tree set as mathematics: parentheses where the places need them, roots, bars, powers, branches."""

import ast
from collections.abc import Callable, Mapping, Sequence
from typing import Any
from xml.etree.ElementTree import Element, SubElement

from engine import formula
from webapp.mathml_parts import GREEK, bar, decimal, el, fenced, plain_number, row

SIGNS: Mapping[type[ast.AST], str] = {
    ast.Add: "+", ast.Sub: "−", ast.Lt: "<", ast.LtE: "≤", ast.Gt: ">", ast.GtE: "≥", ast.Eq: "=",
}  # fmt: skip
FENCES: Mapping[str, tuple[str, str]] = {"abs": ("|", "|"), "ceil": ("⌈", "⌉"), "floor": ("⌊", "⌋")}
SUM, PRODUCT, POWER, ATOM = range(4)  # how tightly a part binds
Leaf = Callable[[str], Element]


class Setter:
    """Sets an expression. `leaf` turns a name into an element: its symbol, or its number.

    `values` (with numbers only) decides the branch of `a if test else b` that was taken.
    """

    def __init__(self, leaf: Leaf, values: Mapping[str, Any] | None = None) -> None:
        self.leaf = leaf
        self.values = values

    def set(self, node: ast.expr) -> tuple[Element, int]:
        """The element of a part of the formula and how tightly it binds."""
        match node:
            case ast.Constant(value=str(words)):
                return el("mtext", words), ATOM
            case ast.Constant(value=value):
                return plain_number(decimal(float(value))), ATOM  # type: ignore[arg-type]
            case ast.Name(id=name):
                return self._name(name)
            case ast.UnaryOp(operand=operand):
                return el("mrow", el("mo", "−"), self._within(operand, PRODUCT)), SUM
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
            return el("mi", GREEK[name]), ATOM
        element = self.leaf(name)
        negative = element.tag == "mrow" and element[0].text == "−"
        return element, SUM if negative else PRODUCT if element.tag == "mrow" else ATOM

    def _within(self, node: ast.expr, least: int) -> Element:
        """A part, in parentheses where it binds less tightly than its place asks for."""
        element, binds = self.set(node)
        return element if binds >= least else fenced(element)

    def _binary(self, node: ast.BinOp) -> tuple[Element, int]:
        match node.op:
            case ast.Div():
                return self._fraction(node), PRODUCT
            case ast.Pow():
                return self._power(node), POWER
            case ast.Mult():
                between = el("mo", "×") if self._begins_with_number(node.right) else el("mspace", width="0.18em")
                return row(self._within(node.left, PRODUCT), between, self._within(node.right, PRODUCT)), PRODUCT
        right = self._within(node.right, SUM if isinstance(node.op, ast.Add) else PRODUCT)
        if isinstance(node.right, ast.UnaryOp) or (self._is_number(node.right) and right.find("mo") is not None):
            right = right if right[0].text == "(" else fenced(right)
        return row(self._within(node.left, SUM), el("mo", SIGNS[type(node.op)]), right), SUM

    def _fraction(self, node: ast.BinOp) -> Element:
        made = bar(self.set(node.left)[0], self.set(node.right)[0])
        plain = all(isinstance(part, ast.Constant) for part in (node.left, node.right))
        return el("mstyle", made, displaystyle="false") if plain else made

    def _power(self, node: ast.BinOp) -> Element:
        match node.right:
            case ast.Constant(value=0.5):
                return el("msqrt", self.set(node.left)[0])
            case ast.BinOp(op=ast.Div(), left=top, right=bottom):
                above = row(self._within(top, PRODUCT), el("mo", "/"), self._within(bottom, POWER))
            case _:
                above = self.set(node.right)[0]
        match node.left:
            case ast.Call(func=ast.Name(id="sin" | "cos" as name)):
                return el("mrow", el("msup", el("mi", name), above), self._call(node.left)[1])
            case ast.Call(func=ast.Name(id="min" | "max")):
                return el("msup", fenced(self._call(node.left)), above)
        return el("msup", self._within(node.left, ATOM), above)

    def _call(self, node: ast.Call) -> Element:
        name = node.func.id if isinstance(node.func, ast.Name) else ""
        parts = [self.set(argument)[0] for argument in node.args]
        if name == "sqrt":
            return el("msqrt", *parts)
        if name in FENCES:
            return fenced(parts[0], *FENCES[name])
        listed = [parts[0]]
        for part in parts[1:]:
            listed += [el("mo", ",", separator="true"), part]
        degrees = [el("mo", "°")] if name in ("sin", "cos") and self.values is not None else []
        return el("mrow", el("mi", name), fenced(row(*listed, *degrees)))

    def _chain(self, parts: Sequence[ast.expr], signs: Sequence[str]) -> Element:
        made: list[Element] = []
        for sign, part in zip(["", *signs], parts, strict=True):
            if sign:
                words = f"\N{NO-BREAK SPACE}{sign}\N{NO-BREAK SPACE}"
                made.append(el("mtext", words) if sign.isalpha() else el("mo", sign))
            inner = self.set(part)[0]
            made.append(fenced(inner) if isinstance(part, (ast.BoolOp, ast.IfExp)) else inner)
        return row(*made)

    def _cases(self, node: ast.IfExp) -> tuple[Element, int]:
        table = el("mtable")
        rest: ast.expr = node
        while isinstance(rest, ast.IfExp):
            self._case(table, rest.body, self.set(rest.test)[0], "if")
            rest = rest.orelse
        self._case(table, rest, None, "otherwise")
        return el("mrow", el("mo", "{", fence="true", stretchy="true"), table), SUM

    def _case(self, table: Element, body: ast.expr, test: Element | None, word: str) -> None:
        line = SubElement(table, "mtr")
        line.append(el("mtd", self.set(body)[0]))
        condition = SubElement(line, "mtd")
        condition.append(el("mtext", f"{word}\N{NO-BREAK SPACE}" if test is not None else word))
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
