"""The formula shown is the formula computed: every clause's expression against its function on random inputs."""

import importlib
import inspect
import math
import pkgutil
import random

import pytest

import engine.attachments
import engine.clauses
from engine import formula
from engine.errors import EngineError
from engine.worksheet import CLAUSES, split_name

# Plausible spans by unit; names without a unit get RATIO unless listed in NAMED.
SPANS = {
    "psi": (100.0, 9000.0),
    "ksi": (30.0, 80.0),
    "lb": (10.0, 20000.0),
    "kip": (1.0, 100.0),
    "plf": (10.0, 3000.0),
    "psf": (5.0, 200.0),
    "pcf": (90.0, 160.0),
    "in": (0.2, 40.0),
    "in²": (0.1, 200.0),
    "in³": (0.1, 200.0),
    "in⁴": (1.0, 5000.0),
    "ft": (1.0, 40.0),
    "ft²": (1.0, 400.0),
    "°": (0.0, 90.0),
    "lb-in": (10.0, 200000.0),
    "lb-in/ft": (10.0, 200000.0),
    "lb/in": (10.0, 5000.0),
    "1/in": (6.0, 20.0),
    "kPa": (5.0, 100.0),
    "kN": (1.0, 100.0),
    "mm": (5.0, 500.0),
    "m": (0.5, 10.0),
    "": (0.2, 3.0),
}
TRIES = 400
WANTED = 40


def _every_module() -> None:
    for package in (engine.clauses, engine.attachments):
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            importlib.import_module(module.name)


_every_module()
WITH_FORMULA = [f for f, c in CLAUSES.items() if c.formula]


def _sample(function, rng: random.Random) -> dict[str, object]:
    values: dict[str, object] = {}
    for name, parameter in inspect.signature(function).parameters.items():
        annotation = parameter.annotation
        if annotation in (bool, "bool"):
            values[name] = rng.random() < 0.5
        elif annotation in (int, "int"):
            values[name] = rng.randint(1, 8)
        else:
            low, high = SPANS[split_name(name)[1]]
            values[name] = rng.uniform(low, high)
    return values


@pytest.mark.parametrize("function", WITH_FORMULA, ids=lambda f: f"{f.__module__.rsplit('.', 1)[-1]}.{f.__name__}")
def test_the_formula_shown_is_the_formula_computed(function) -> None:
    rng = random.Random(function.__name__)
    expression = CLAUSES[function].formula
    compared = 0
    for _ in range(TRIES):
        values = _sample(function, rng)
        try:
            computed = function(**values)
        except EngineError:
            continue
        symbols = {split_name(name)[0]: value for name, value in values.items()}
        shown = formula.evaluate(expression, symbols)
        assert math.isclose(computed, shown, rel_tol=1e-9, abs_tol=1e-12), (expression, values)
        compared += 1
        if compared == WANTED:
            break
    assert compared >= 5, "the function refuses nearly every plausible input"


@pytest.mark.parametrize("function", list(CLAUSES), ids=lambda f: f"{f.__module__.rsplit('.', 1)[-1]}.{f.__name__}")
def test_a_clause_says_where_it_comes_from_and_what_it_returns(function) -> None:
    clause = CLAUSES[function]
    assert clause.title
    assert clause.citation.family
    assert function.__doc__
    if clause.formula:
        assert clause.symbol
        names = {split_name(name)[0] for name in inspect.signature(function).parameters}
        assert formula.symbols(clause.formula) <= names
    else:
        assert clause.rule


def test_a_formula_outside_the_language_is_refused() -> None:
    with pytest.raises(ValueError, match="not part of the formula language"):
        formula.parse("[1, 2][0]")
    with pytest.raises(ValueError, match="unknown function"):
        formula.parse("exec(x)")
