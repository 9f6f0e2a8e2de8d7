"""Rules as mathematics: what is shown reads as the formula that is computed, and nothing in it can become markup."""

import re
from xml.etree.ElementTree import Element, fromstring

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markupsafe import Markup

from engine import formula
from engine.editions import Citation
from engine.result import LimitState
from tests.webapp.steps import a_step
from webapp import mathml


def read(markup: Markup) -> str:
    """Mathematics as a reader takes it in: bars as (a)/(b), roots, powers and subscripts as signs."""
    return _read(fromstring(markup))


def _read(element: Element) -> str:
    parts = [_read(child) for child in element]
    match element.tag:
        case "mfrac":
            return f"({parts[0]})/({parts[1]})"
        case "msqrt":
            return f"√({''.join(parts)})"
        case "msup":
            return f"{parts[0]}{parts[1]}" if parts[1] == "′" else f"{parts[0]}^({parts[1]})"
        case "msub":
            return f"{parts[0]}_{parts[1]}"
        case "msubsup":
            return f"{parts[0]}{parts[2]}_{parts[1]}"
        case "mspace":
            return "" if element.get("width") == "0.3em" else " "
        case "mtr":
            return f"[{' '.join(parts)}]"
    return (element.text or "") + "".join(parts)


def shown(text: str, **more: str) -> str:
    return read(mathml.rule(a_step(text, {}, **more)))


def with_numbers(text: str, **values: object) -> str:
    return read(mathml.numbers(a_step(text, values)))


@pytest.mark.parametrize(
    ("text", "reads"),
    [
        ("t_U + f_U - lip", "t_U+f_U−lip"),
        ("min(sqrt(A_2 / A_1), 2) * 0.85 * f_c * A_1", "min(√((A_2)/(A_1)),2)×0.85 f′_c A_1"),
        ("16 * lambda_a * sqrt(f_c) * h_ef ** (5 / 3)", "16 λ_a √(f′_c) h_ef^(5/3)"),
        ("a - (b - c)", "a−(b−c)"),
        ("a - (b + c)", "a−(b+c)"),
        ("a - b - c", "a−b−c"),
        ("(a + b) * c", "(a+b) c"),
        ("-(g + l_m / 2) + q", "−(g+(ℓ_m)/(2))+q"),
        ("(a / b) ** 2", "((a)/(b))^(2)"),
        ("(a * b) ** 2", "(a b)^(2)"),
        ("(a ** 2) ** 3", "(a^(2))^(3)"),
        ("a ** 0.5", "√(a)"),
        ("pi * d_h**2 / 4", "(π d_h^(2))/(4)"),
        ("2 / 3 * F_v * b * d", "(2)/(3) F_v b d"),
        ("b * 2 / 3", "(b×2)/(3)"),
        ("b * (2 / 3)", "b×(2)/(3)"),
        ("ceil(L / s - 1e-9) + 1", "⌈(L)/(s)−10^(−9)⌉+1"),
        ("abs(x_B - x_J)", "|x_B−x_J|"),
        ("sin(theta)**2", "sin^(2)(θ)"),
        ("min(a, b) ** 2", "(min(a,b))^(2)"),
        ("sqrt(a) ** 3", "√(a)^(3)"),
        ("A_Nc / A_Nco * psi_ed_N", "(A_Nc)/(A_Nco) ψ_ed,N"),
        ("F_e_perp * C_Delta", "F_e,⊥ C_Δ"),
        ("P_u / phiP_n", "(P_u)/(φP_n)"),
        ("2 if a <= b and c > 3 else 1.5", "{[2 if\xa0a≤b\xa0and\xa0c>3][1.5 otherwise]"),
        ("1 if (a < b or c < b) and a < c else 2", "{[1 if\xa0(a<b\xa0or\xa0c<b)\xa0and\xa0a<c][2 otherwise]"),
        ("1 if a < 1 else 2 if a == 2 else 3", "{[1 if\xa0a<1][2 if\xa0a=2][3 otherwise]"),
    ],
)
def test_a_formula_reads_as_its_code_prints_it(text: str, reads: str) -> None:
    assert shown(text) == reads


@pytest.mark.parametrize(
    ("symbol", "reads"),
    [
        ("B_n", "B_n=a"),
        ("phi V_n", "φV_n=a"),
        ("f'_c", "f′_c=a"),
        ("c'_a1", "c′_a1=a"),
        ("psi_ec,V", "ψ_ec,V=a"),
        ("k l_u / r", "kℓ_u/r=a"),
        ("0.75 phi N_n", "0.75φN_n=a"),
        ("F_c⊥'", "F′_c⊥=a"),
    ],
)
def test_the_result_stands_before_the_formula_as_its_clause_writes_it(symbol: str, reads: str) -> None:
    assert shown("a", symbol=symbol) == reads


def test_only_concrete_strength_is_primed() -> None:
    assert shown("f_c", family="NDS") == "f_c"
    assert shown("f_c_prime", family="NDS") == "f′_c"


@pytest.mark.parametrize(
    ("text", "values", "reads"),
    [
        ("t_U + f_U", {"t_U_in": 6.0, "f_U_in": 2.5}, "6+2 (1)/(2)"),
        ("t_U - g", {"t_U_in": 6.0, "g_in": -0.5}, "6−(−(1)/(2))"),
        ("g + t_U", {"t_U_in": -6.0, "g_in": -0.5}, "−(1)/(2)+(−6)"),
        ("a * b", {"a_in": -2.0, "b_in": 3.0}, "(−2)×3"),
        ("h ** 2", {"h_in": 2.5}, "(2 (1)/(2))^(2)"),
        ("f_c * A", {"f_c_psi": 3000.0, "A_in2": 12.345}, "3,000×12.35"),
        ("a / b", {"a_in": 11.9375, "b_in": 11.9}, "(11 (15)/(16))/(11.9)"),
        ("E", {"E_psi": 29_000_000.0}, "29,000,000"),
        ("x", {"x": 0.000012345}, "1.23×10^(−5)"),
        ("sin(theta)", {"theta_deg": 30.0}, "sin(30°)"),
        ("2 if kind == 'steel' else 3", {"kind": "steel"}, "2"),
        ("a", {"a_lb": float("inf")}, "∞"),
        ("2 if a <= b else 3 * a", {"a_in": 4.0, "b_in": 2.0}, "3×4"),
        ("1 + (2 if a <= b else 3)", {"a_in": 1.0, "b_in": 2.0}, "1+2"),
    ],
)
def test_numbers_stand_where_their_symbols_stood(text: str, values: dict[str, object], reads: str) -> None:
    assert with_numbers(text, **values) == reads


def test_a_length_off_the_sixteenth_is_not_rounded_to_a_fraction() -> None:
    assert with_numbers("a", a_in=3.414) == "3.414"
    assert with_numbers("a", a_in=3.4375) == "3 (7)/(16)"


def test_a_rule_in_words_lists_its_values() -> None:
    step = a_step(
        "", {"d_a_in": 0.5, "grade": "A & B", "braced": True, "note": None}, rule="Bolts <b>at least</b> 1/2 in"
    )
    assert "&lt;b&gt;" in mathml.rule(step)
    listed = mathml.numbers(step)
    assert "A &amp; B" in listed
    assert "braced: yes" in listed
    assert "note" not in listed


def test_named_values_are_letters_or_words_as_they_were_meant() -> None:
    listed = mathml.numbers(a_step("", {"l_e_in": 7.0, "per_piece": 2, "spacing_in": 72.0}, rule="A table"))
    assert re.sub(r"<[^>]+>", "", listed) == "ℓe=7\N{NO-BREAK SPACE}in, per piece: 2, spacing: 72\N{NO-BREAK SPACE}in"


def test_what_is_published_never_becomes_markup() -> None:
    nasty = '<script>alert("1")</script>'
    words = mathml.rule(a_step("a", {}, symbol="<img> x")) + mathml.gives(a_step("a", {}, result=nasty))
    words += mathml.numbers(a_step("a", {"a": nasty})) + mathml.quantity(1.0, "<b>")
    assert "<script" not in words
    assert "<img" not in words
    assert "<b>" not in words


def test_a_result_names_the_readers_unit_after_the_codes() -> None:
    assert "mm" not in mathml.gives(a_step("a", {}, result=3.5, unit="in"))
    assert "89 mm" in mathml.gives(a_step("a", {}, result=3.5, unit="in"), "mm")
    assert read(mathml.gives(a_step("a", {}, result=90.0, unit="°"))) == "90°"
    assert mathml.gives(a_step("a", {}, result=True)) == "yes"
    assert mathml.gives(a_step("a", {}, result=None)) == "none"


def test_the_ratio_is_set_against_one() -> None:
    state = LimitState("k", "t", Citation("x"), 3.5, 3.0, "in")
    assert read(mathml.ratio_numbers(state)) == "(3 (1)/(2))/(3)"
    assert read(mathml.ratio_gives(state, "1.17")) == "1.17>1.0"
    held = LimitState("k", "t", Citation("x"), 3.0, 3.0, "in")
    assert read(mathml.ratio_gives(held, "1.00")) == "1.00≤1.0"


def test_a_short_rule_stands_beside_its_numbers_and_a_long_one_above() -> None:
    assert mathml.lines(a_step("t_U + f_U", {"t_U_in": 6.0, "f_U_in": 2.5})) == 1
    assert mathml.lines(a_step("", {}, rule="A table.")) == 1
    middling = "min(sqrt(A_2 / A_1), 2) * 0.85 * f_c * A_1"
    assert mathml.lines(a_step(middling, {"A_2": 9.0, "A_1": 4.0, "f_c": 3000.0})) == 2
    long = (
        "(-g + sqrt(g**2 + 4 * (1 / (2 * q_s) + 1 / (2 * q_m)) * 2 * M)) / (2 * (1 / (2 * q_s) + 1 / (2 * q_m))) / R_d"
    )
    values = dict.fromkeys(formula.symbols(long), 1.25)
    assert mathml.lines(a_step(long, values)) == 3


# Every expression of the language, so that no formula a clause may carry is without its setting.
NAMES = st.sampled_from(["a", "f_c", "psi_ed_N", "lip", "x_B", "pi"])
NUMBERS = st.sampled_from(["2", "0.85", "3000", "1e-9", "0.5"])


def _more(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    pairs = st.tuples(inner, st.sampled_from(["+", "-", "*", "/"]), inner).map(lambda p: f"({p[0]} {p[1]} {p[2]})")
    powers = st.tuples(inner, st.sampled_from(["2", "0.5", "(5 / 3)"])).map(lambda p: f"({p[0]}) ** {p[1]}")
    calls = st.tuples(st.sampled_from(["sqrt", "abs", "ceil", "floor", "sin", "cos"]), inner).map(
        lambda p: f"{p[0]}({p[1]})"
    )
    chosen = st.tuples(inner, inner, inner).map(lambda p: f"({p[0]} if {p[1]} <= {p[2]} else {p[1]})")
    return st.one_of(pairs, powers, calls, chosen, inner.map(lambda p: f"(-{p})"))


@given(st.recursive(NAMES | NUMBERS, _more, max_leaves=10))
def test_every_expression_of_the_language_can_be_set(text: str) -> None:
    step = a_step(text, {})
    assert fromstring(mathml.rule(step)).tag == "math"


@given(st.recursive(NAMES | NUMBERS, lambda inner: st.tuples(inner, st.sampled_from("+-*/"), inner).map(
    lambda p: f"({p[0]} {p[1]} {p[2]})"), max_leaves=8))  # fmt: skip
def test_parentheses_are_kept_where_the_arithmetic_needs_them(text: str) -> None:
    """What is shown, read back with the usual rules of precedence, comes to the same number."""
    values = {"a": 1.75, "f_c": 2.5, "psi_ed_N": 0.6, "lip": 3.25, "x_B": 7.5}
    back = shown(text, family="NDS").replace("−", "-").replace("×", "*").replace(" ", "*").replace("π", "pi")
    back = back.replace("ψ_ed,N", "psi_ed_N").replace("10^(-9)", "(1e-9)").replace("3,000", "3000")
    try:
        wanted = formula.evaluate(text, values)
    except ZeroDivisionError:
        return
    assert formula.evaluate(back, values) == pytest.approx(wanted, rel=1e-9)
