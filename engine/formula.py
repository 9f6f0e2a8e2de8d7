"""Formulas as written beside a clause: parsed once, evaluated in tests, walked by whoever typesets them.

The language is Python's expression syntax, narrowed: + - * / **, unary minus, comparison inside `a if test else b`, and the
functions below. Angles of sin and cos are in degrees, as the codes print them.
"""

import ast
import math
from collections.abc import Callable, Mapping
from functools import cache

FUNCTIONS: Mapping[str, Callable[..., float]] = {
    "sqrt": math.sqrt,
    "min": min,
    "max": max,
    "abs": abs,
    "ceil": math.ceil,
    "floor": math.floor,
    "sin": lambda degrees: math.sin(math.radians(degrees)),
    "cos": lambda degrees: math.cos(math.radians(degrees)),
}
CONSTANTS: Mapping[str, float] = {"pi": math.pi}
ALLOWED = (
    ast.Expression,
    ast.BinOp,
    ast.UnaryOp,
    ast.USub,
    ast.Add,
    ast.Sub,
    ast.Mult,
    ast.Div,
    ast.Pow,
    ast.Call,
    ast.Name,
    ast.Load,
    ast.Constant,
    ast.IfExp,
    ast.Compare,
    ast.Lt,
    ast.LtE,
    ast.Gt,
    ast.GtE,
    ast.Eq,
    ast.BoolOp,
    ast.And,
    ast.Or,
)


@cache
def parse(formula: str) -> ast.expr:
    """The expression tree of a formula. Raises: ValueError when it uses anything outside the language."""
    tree = ast.parse(formula, mode="eval")
    for node in ast.walk(tree):
        if not isinstance(node, ALLOWED):
            raise ValueError(f"{type(node).__name__} is not part of the formula language: {formula}")
        if isinstance(node, ast.Call) and not (isinstance(node.func, ast.Name) and node.func.id in FUNCTIONS):
            raise ValueError(f"unknown function in formula: {formula}")
    return tree.body


def symbols(formula: str) -> frozenset[str]:
    """Names a formula needs values for."""
    names = {node.id for node in ast.walk(parse(formula)) if isinstance(node, ast.Name)}
    return frozenset(names - FUNCTIONS.keys() - CONSTANTS.keys())


@cache
def _compiled(formula: str) -> Callable[[dict[str, object]], float]:
    code = compile(ast.Expression(parse(formula)), "<formula>", "eval")
    return lambda names: float(eval(code, {"__builtins__": {}}, names))


def evaluate(formula: str, values: Mapping[str, float]) -> float:
    """The formula's value. Args: values: symbol -> number. Raises: NameError for a symbol without a value."""
    return _compiled(formula)({**FUNCTIONS, **CONSTANTS, **values})
