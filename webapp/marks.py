"""Small signs drawn as inline SVG: verdict marks, utilisation as a dimension line, progress.

Presentation attributes and `currentColor` only, so they survive the content policy, forced colours and paper. Horizontal places
are in per cent of the sign's width; what must keep its shape (slash, upright, break) is a nested svg that isn't stretched.
"""

from collections.abc import Mapping
from functools import lru_cache
from math import isinf
from typing import NamedTuple

from markupsafe import Markup

from engine.result import ROUNDING, LimitState, Verdict


class Sign(NamedTuple):
    """A verdict as pages write it: the word, the class its colour comes from, the shape."""

    word: str
    css: str
    shape: str


# The tick is cut out of the square, not painted over it: no paper colour is needed.
_TICK = "M4.63 11.09L8.77 15.1L15.43 7.42L13.77 5.98L8.63 11.9L6.17 9.51z"
SHAPES: Mapping[str, str] = {
    "square": f'<path d="M2 2H18V18H2z{_TICK}" fill="currentColor" fill-rule="evenodd"/>',
    "pennant": '<path d="M3.6 1H5.6V19H3.6z" fill="currentColor"/><path d="M5.6 2.2L18 7L5.6 11.8z" fill="currentColor"/>',
    "ring": '<circle cx="10" cy="10" r="7.9" fill="none" stroke="currentColor" stroke-width="1.9"/>'
    '<path d="M5.6 10H13.6M10.4 6.6L13.8 10L10.4 13.4" fill="none" stroke="currentColor" stroke-width="1.9"/>',
    "ruler": '<rect x="1.2" y="5.8" width="17.6" height="8.4" fill="none" stroke="currentColor" stroke-width="1.5"/>'
    '<path d="M4.7 5.8V9.2M8.2 5.8V10.6M11.7 5.8V9.2M15.2 5.8V10.6" fill="none" stroke="currentColor" stroke-width="1.2"/>',
    "sheet": '<path d="M3.4 1.6H12.6L16.6 5.6V18.4H3.4z" fill="none" stroke="currentColor" stroke-width="1.6"/>'
    '<path d="M6.4 12.6L9 15.2L13.8 8.6" fill="none" stroke="currentColor" stroke-width="1.6"/>',
    "dash": '<path d="M5 10H15" fill="none" stroke="currentColor" stroke-width="1.7"/>',
}  # fmt: skip

_PASS, _FLAG, _REFER = ("v-pass", "square"), ("v-flag", "pennant"), ("v-refer", "ring")
_NONE = ("v-none", "dash")
# States of submissions and of log entries borrow the mark of the verdict they amount to; what is undecided gets a dash.
MARK_OF: Mapping[str, Sign] = {
    Verdict.PASS: Sign("Pass", *_PASS),
    Verdict.FLAG: Sign("Flag", *_FLAG),
    Verdict.REFER: Sign("Refer", *_REFER),
    Verdict.ADVISORY: Sign("Advisory", "v-advisory", "ruler"),
    Verdict.UNCHECKED: Sign("Not checked", *_NONE),
    "by engineer's design": Sign("By engineer's design", "v-designed", "sheet"),
    "accepted": Sign("Accepted", *_PASS),
    "returned": Sign("Returned", *_FLAG),
    "engineer asked": Sign("Engineer asked", *_REFER),
}


def sign(verdict: str) -> Sign:
    """How a verdict or state is written; any other word ("submitted", "draft") is undecided and gets a dash."""
    return MARK_OF.get(verdict) or Sign(verdict[:1].upper() + verdict[1:], *_NONE)


@lru_cache(maxsize=200)
def verdict_mark(verdict: str, size: int = 16) -> Markup:
    """The mark of a verdict, `size` px square. Hidden from readers of text: the word always stands beside it."""
    shape = Markup(SHAPES[sign(verdict).shape])
    return Markup(
        '<svg class="mark" width="{0}" height="{0}" viewBox="0 0 20 20" aria-hidden="true" focusable="false">{1}</svg>'
    ).format(size, shape)


FULL_SCALE = 1.6
MIDDLE = 11  # y of the line in its 20 px high sign


def _percent(ratio: float) -> str:
    """Place of a ratio along the sign, as a length in per cent; beyond the scale it stays at the end."""
    return f"{min(max(ratio, 0.0), FULL_SCALE) / FULL_SCALE * 100:.2f}%"


def _at(place: str, inner: str) -> str:
    return f'<svg x="{place}" y="{MIDDLE}" width="1" height="1" overflow="visible">{inner}</svg>'


def _line(start: str, end: str, css: str, width: float, dash: str = "") -> str:
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<line class="{css}" x1="{start}" x2="{end}" y1="{MIDDLE}" y2="{MIDDLE}" stroke="currentColor" '
        f'stroke-width="{width}"{dashes}/>'
    )


def _slash(width: float) -> str:
    return f'<path d="M-5 5L5 -5" fill="none" stroke="currentColor" stroke-width="{width}"/>'


_BREAK = (
    '<path class="dim-gap" d="M-12 0H-5" stroke-width="9" fill="none"/>'
    '<path d="M-14 0H-11L-9.6 -5L-7.4 5L-6 0H0" fill="none" stroke="currentColor" stroke-width="1.5"/>'
)
_UPRIGHT = (
    '<path class="dim-gap" d="M0 -6V6" stroke-width="5" fill="none"/>'
    '<path class="dim-one" d="M0 -6V6" stroke="currentColor" stroke-width="1.8" fill="none"/>'
)


def _sign(inner: str, css: str = "dim") -> Markup:
    return Markup(
        f'<svg class="{css}" width="100%" height="20" aria-hidden="true" focusable="false" overflow="visible">{inner}</svg>'
    )


def _demand(ratio: float) -> str:
    """The demand: a line from nothing to the ratio, closed by a slash, or broken off where the scale ends."""
    above = ratio > 1 + ROUNDING
    line_width, slash_width = (6.0, 2.6) if above else (3.0, 1.8)
    end = _percent(ratio)
    close = _at(end, _BREAK if ratio > FULL_SCALE else _slash(slash_width))
    return _line("0", end, "dim-demand", line_width) + _at(_percent(1.0), _UPRIGHT) + close


def _spread(low: float, high: float) -> str:
    """An advisory line: dotted to the root-sum-square value, then an open box to the plain sum."""
    low, high = min(low, high), max(low, high)
    width = f"{(min(high, FULL_SCALE) - min(low, FULL_SCALE)) / FULL_SCALE * 100:.2f}%"
    box = (
        f'<rect class="dim-box" x="{_percent(low)}" y="{MIDDLE - 3.5}" width="{width}" height="7" fill="none" '
        f'stroke="currentColor" stroke-width="1.2"/>'
    )
    close = _at(_percent(high), _BREAK) if high > FULL_SCALE else ""
    return _line("0", _percent(low), "dim-demand", 1.6, "2 2") + _at(_percent(1.0), _UPRIGHT) + box + close


def dimension_line(state: LimitState) -> Markup:
    """Utilisation drawn as a dimension against 1.0, 0 to 1.6; nothing for a line without a ratio."""
    ratio = state.ratio
    if ratio is None:
        return Markup("")
    base = _line("0", "100%", "dim-base", 1)
    if state.verdict is Verdict.ADVISORY and state.spread is not None:
        return _sign(base + _spread(*state.spread))
    return _sign(base + _demand(2 * FULL_SCALE if isinf(ratio) else ratio))


def dimension_scale() -> Markup:
    """The figures over the lines: 0, 1.0 and 1.6 at their places."""
    figures = (
        '<text x="0" y="13" fill="currentColor">0</text>'
        f'<text x="{_percent(1.0)}" y="13" text-anchor="middle" fill="currentColor">1.0</text>'
        f'<text x="100%" y="13" text-anchor="end" fill="currentColor">{FULL_SCALE}</text>'
    )
    return _sign(figures, "dim-scale")


def progress_line(share: float) -> Markup:
    """How far long work has come, 0 to 1: a line that grows along a hairline, closed by a slash."""
    end = f"{min(max(share, 0.0), 1.0) * 100:.1f}%"
    inner = _line("0", "100%", "dim-base", 1) + _line("0", end, "dim-demand", 3) + _at(end, _slash(1.8))
    return _sign(inner, "dim progress-line")
