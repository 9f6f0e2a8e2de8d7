"""How close is close enough: read from what a case says of its source's rounding, never chosen.

A printed figure stands for everything that rounds to it. The words of `rounding` say how the source rounds; where they name no
step, the figure's own last digit does.
"""

import math
import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

EXACT = 1e-9
# "nearest 10 lb", "0.1 kip", "truncates or rounds to 1 psf", "not rounded; 0.1 psf". A step is 1, 2 or 5 of some place; other
# numbers in the words ("area to 2.67") are values.
_STEP = re.compile(
    r"(?:nearest|\bto|^|;|,)\s*(0\.0*[125]|[125]0*)(?!\.?\d)\s*(?:lb-in|lb|kip|psi|psf|plf|in2|in|ft|mm|kPa|kN/m|kN|m)?\b(?!\s*(?:decimal|signif|figure|digit))"
)
_FIGURES = re.compile(r"(\d+)\s*(?:significant figures|figures|digits)|(\d+)(?:-(\d+))? decimals")
_WORDS = {"nearest inch": 1.0, "nearest lb": 1.0}


def _last_place(published: float) -> float:
    """The unit of the figure's own last digit. From 1,000 up a lone .0 is how a whole number was written, not a digit."""
    if not isinstance(published, float) or (published == int(published) and abs(published) >= 1000):
        return 1.0
    return float(10.0 ** int(Decimal(repr(published)).as_tuple().exponent))


def _no_finer(step: float, published: float, own: float) -> float:
    """A figure of three digits or more is no finer than its last digit, whatever the words say; a shorter one may be exact."""
    return max(step, own) if abs(published) >= 100 * own else step


def _step(published: float, rounding: str) -> float | None:
    """The unit of the last printed place, or None where the figure is exact."""
    words = rounding.lower()
    own = _last_place(published)
    for text, step in _WORDS.items():
        if text in words and published == int(published):
            return step
    if words.startswith("none"):
        return own  # not rounded but written out: "6 digits" beside it counts those of the longest figure
    figures = _FIGURES.search(words)
    if figures and figures[1]:
        if published == 0:
            return own
        return 10.0 ** (math.floor(math.log10(abs(published))) - int(figures[1]) + 1)
    if figures and figures[2]:
        return _no_finer(10.0 ** -int(figures[2]), published, own)
    step_match = _STEP.search(words)
    if step_match:
        step = float(step_match[1])
        # words about pounds say nothing of a factor printed beside them: a figure off the step keeps its own last digit
        on_step = step and math.isclose(published / step, round(published / step), abs_tol=1e-6)
        return _no_finer(step, published, own) if on_step else own
    if words.startswith(("exact", "look-up")):
        # four decimals and more were written out (0.3333 for a third); a shorter figure is the value itself
        return own if own < 0.001 else None
    return own


def agrees(computed: Any, published: Any, rounding: str, key: str = "") -> bool:
    """Whether an unrounded computed value is one that the source would print as `published`.

    Lists and mappings are compared member by member; texts, truths and nothing must be equal.
    """
    if isinstance(published, Mapping):
        return isinstance(computed, Mapping) and all(
            agrees(computed.get(k), v, rounding, k) for k, v in published.items()
        )
    if isinstance(published, Sequence) and not isinstance(published, str):
        return (
            isinstance(computed, Sequence)
            and not isinstance(computed, str)
            and len(computed) == len(published)
            and all(agrees(c, p, rounding, key) for c, p in zip(computed, published, strict=True))
        )
    if isinstance(published, (str, bool)) or published is None:
        return bool(computed == published)
    if not isinstance(computed, (int, float)) or isinstance(computed, bool):
        return False
    return _near(float(computed), published, rounding, key)


def _near(computed: float, published: float, rounding: str, key: str) -> bool:
    slack = EXACT * max(1.0, abs(published))
    step = _step(published, rounding)
    if step is None:
        return abs(computed - published) <= slack
    words = rounding.lower()
    if "truncat" in words:
        # a truncated figure stands for the step above it; "truncates or rounds" for either
        low = published - (step / 2 if "rounds" in words else 0.0)
        return low - slack <= computed < published + step + slack
    if (
        any(w in words for w in ("up to", "next inch", "round up"))
        and "round the hole up" not in words
        and key.endswith(("rounded_in", "_mm"))
    ):
        return published - step - slack < computed <= published + slack
    return abs(computed - published) <= step / 2 + slack


def describe(rounding: str) -> str:
    """The tolerance in words, for reports."""
    return (
        f"half a unit of the last printed place; source says: {rounding}"
        if rounding not in ("", "-", "none")
        else "half a unit of the last printed place"
    )
