"""Letters and figures of mathematics: symbols as the codes print them, numbers as a tape or a table shows them.

Elements are built as a tree and serialised once, so nothing typed or published ever becomes markup.
"""

import re
from collections.abc import Mapping
from math import isfinite
from xml.etree.ElementTree import Element

from engine.units import fraction

GREEK: Mapping[str, str] = {
    "alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "Delta": "Δ", "epsilon": "ε", "eta": "η", "theta": "θ",
    "kappa": "κ", "lambda": "λ", "lambd": "λ", "lam": "λ", "mu": "μ", "nu": "ν", "xi": "ξ", "pi": "π", "rho": "ρ",
    "sigma": "σ", "Sigma": "Σ", "tau": "τ", "phi": "φ", "Phi": "Φ", "chi": "χ", "psi": "ψ", "omega": "ω", "Omega": "Ω",
}  # fmt: skip


def el(tag: str, *children: Element | str, **attributes: str) -> Element:
    """An element with its children, or with its text."""
    element = Element(tag, attributes)
    for child in children:
        if isinstance(child, str):
            element.text = child
        else:
            element.append(child)
    return element


def row(*children: Element) -> Element:
    """Children side by side; one alone needs no row."""
    return children[0] if len(children) == 1 else el("mrow", *children)


def fenced(inner: Element, left: str = "(", right: str = ")") -> Element:
    """A part between parentheses, or another pair that grows with it."""
    return el("mrow", el("mo", left, fence="true"), inner, el("mo", right, fence="true"))


def bar(top: Element, bottom: Element) -> Element:
    """One over the other; beside a small fraction the bar is drawn longer, so that it reads as the main one."""
    parts = []
    for part in (top, bottom):
        small = next(part.iter("mstyle"), None) is not None
        parts.append(el("mrow", el("mspace", width="0.3em"), part, el("mspace", width="0.3em")) if small else part)
    return el("mfrac", *parts)


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
        return row(el("mi", GREEK[glued[1]]), symbol(glued[2], family))
    base, *below = re.split(r"[_,]", name.replace("'", "").strip("_"))
    primed = "'" in name or "prime" in below or (family == "ACI 318" and name == "f_c")
    below = [_SUBSCRIPTS.get(part, _name(part)) for part in below if part not in ("prime", "")]
    parts = [el("mi", _name(base))]
    if below:
        parts.append(el("mi", ",".join(below), mathvariant="normal"))
    if primed:
        parts.append(el("mo", "′"))
    tags = {(True, False): "msub", (False, True): "msup", (True, True): "msubsup"}
    return el(tags[bool(below), primed], *parts) if below or primed else parts[0]


def is_symbol(name: str) -> bool:
    """Whether a name is a letter of mathematics (`l_b`, `psi_ed_N`), not a word (`spacing`, `per_piece`)."""
    base = name.split("_")[0]
    return len(base) <= 2 or base in GREEK or _GLUED.fullmatch(name) is not None


def left_side(text: str, family: str) -> Element:
    """The symbol of a result as its clause prints it: one symbol, or several with a factor or a bar between ("k l_u / r")."""
    made: list[Element] = []
    for token in text.split():
        if token == "/":
            made.append(el("mo", "/"))
        elif token[0].isdigit():
            made.append(el("mn", token))
        else:
            made.append(symbol(token, family))
    return row(*made)


def decimal(value: float) -> str:
    """A number to four figures, thousands parted: 0.8333, 12.5, 1,840, 29,000,000."""
    if not isfinite(value):
        return "∞"
    if value == int(value) and abs(value) < 1e15:
        return f"{value:,.0f}"
    if abs(value) >= 1000:
        return f"{value:,.0f}"
    if abs(value) < 1e-4:
        return f"{value:.3g}"
    places = next(n for n in range(9) if abs(value) >= 10.0 ** (3 - n))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def plain_number(text: str) -> Element:
    """A positive number as text, powers of ten set as powers: 1e-09 -> 10 to the minus 9."""
    if "e" not in text:
        return el("mn", text)
    digits, exponent = text.split("e")
    power = el("msup", el("mn", "10"), el("mn", str(int(exponent)).replace("-", "−")))
    return power if digits == "1" else el("mrow", el("mn", digits), el("mo", "×"), power)


def _is_sixteenth(value: float) -> bool:
    return isfinite(value) and abs(value * 16 - round(value * 16)) < 1e-6 and abs(value) < 10_000


def figure(value: float, unit: str) -> Element:
    """A number; inches on a sixteenth as a mixed fraction, all else as a decimal: nothing is rounded to fit a tape."""
    if unit != "in" or not _is_sixteenth(value) or value == round(value):
        made = plain_number(decimal(abs(value)))
        return el("mrow", el("mo", "−"), made) if value < 0 else made
    sign, words = ("−", fraction(-value)) if value < 0 else ("", fraction(value))
    *whole, parts = words.split(" ")
    top, bottom = parts.split("/")
    small = el("mstyle", el("mfrac", el("mn", top), el("mn", bottom)), displaystyle="false")
    pieces = [el("mo", sign)] if sign else []
    for part in whole:
        pieces += [el("mn", part), el("mspace", width="0.1em")]
    return el("mrow", *pieces, small)
