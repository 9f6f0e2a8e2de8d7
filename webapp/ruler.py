"""A tape drawn to scale beside a measured length: what is accepted is a tinted stretch, what was measured a pointer.

Places are in per cent of the width and everything that must keep its shape is a nested svg, so the lettering is never scaled.
"""

from dataclasses import dataclass
from math import ceil, floor

from markupsafe import Markup

from engine.units import System, fraction

BASE, HIGH = 58, 96  # y of the tape's edge; height of the sign, px
CLEAR_IN = 0.02  # a figure that stands on a bound would be struck through by it
MARGIN = 0.6  # of what is shown on either side of the accepted stretch, in inches


@dataclass(frozen=True, slots=True)
class Tape:
    """One kind of graduation: how many ticks make a unit, tick heights by what divides their number, what is figured."""

    per_inch: float
    heights: tuple[tuple[int, int], ...]
    figured: int

    def figure(self, tick: int) -> str:
        """What stands under a figured tick."""
        return str(tick // self.figured * (1 if self.figured == 16 else 10))

    def words(self, inches: float) -> str:
        """A bound as it is read off the tape."""
        return fraction(inches) if self.figured == 16 else f"{inches * self.per_inch:.0f}"


INCHES = Tape(16, ((16, 30), (8, 20), (4, 15), (2, 10), (1, 5)), 16)
# An inch is 25.4 mm exactly: NIST Special Publication 811, appendix B. Not asked of the units at import, which would load them all.
MILLIMETRES = Tape(25.4, ((10, 30), (5, 18), (1, 7)), 10)


def _at(place: float, inner: str) -> str:
    return f'<svg x="{place:.2f}%" y="{BASE}" width="1" height="1" overflow="visible">{inner}</svg>'


def _text(y: int, words: str, weight: str = "") -> str:
    bold = ' font-weight="700"' if weight else ""
    return f'<text y="{y}" text-anchor="middle" font-size="13"{bold} fill="currentColor">{words}</text>'


def _window(measured: float | None, low: float, high: float) -> tuple[float, float]:
    """What is shown: the accepted stretch with a margin, widened to a measured length up to its own width away."""
    start, end = low - MARGIN, high + MARGIN
    if measured is not None and start - (end - start) <= measured <= end + (end - start):
        start, end = min(start, measured - MARGIN / 2), max(end, measured + MARGIN / 2)
    return max(start, 0.0), end


def _tick(tape: Tape, tick: int, bounds: tuple[float, float]) -> str:
    height = next(tall for every, tall in tape.heights if tick % every == 0)
    # a bound has its own figure, on the same spot
    clear = all(abs(tick / tape.per_inch - bound) > CLEAR_IN for bound in bounds)
    figure = _text(16, tape.figure(tick), "bold") if tick % tape.figured == 0 and clear else ""
    return f'<path d="M0 0V{-height}" stroke="currentColor" stroke-width="1" fill="none"/>{figure}'


def _bound(words: str) -> str:
    line = '<path class="ruler-bound" d="M0 -36V6M0 10V22" stroke-width="2.4" fill="none"/>'
    return line + _text(37, words)


_POINTER = '<path d="M-9 -56H9L0 -42z" fill="currentColor"/><path d="M0 -42V0" stroke="currentColor" stroke-width="3"/>'


def ruler_line(measured_in: float | None, low_in: float, high_in: float, system: System = "ft in") -> Markup:
    """The tape about an accepted stretch.

    Args: measured_in: what was measured, None before that; low_in, high_in: what is accepted, ends included [in].
    """
    tape = MILLIMETRES if system == "mm" else INCHES
    start, end = _window(measured_in, low_in, high_in)

    def place(inches: float) -> float:
        return (inches - start) / (end - start) * 100

    ticks = range(ceil(start * tape.per_inch), floor(end * tape.per_inch) + 1)
    parts = [
        f'<rect class="ruler-stretch" x="{place(low_in):.2f}%" width="{place(high_in) - place(low_in):.2f}%" '
        f'y="{BASE - 30}" height="30"/>',
        f'<line x1="0" x2="100%" y1="{BASE}" y2="{BASE}" stroke="currentColor" stroke-width="2"/>',
        *(_at(place(tick / tape.per_inch), _tick(tape, tick, (low_in, high_in))) for tick in ticks),
        *(_at(place(bound), _bound(tape.words(bound))) for bound in (low_in, high_in)),
    ]
    if measured_in is not None and start <= measured_in <= end:
        held = low_in <= measured_in <= high_in
        parts.append(
            f'<g class="{"v-pass" if held else "v-flag"} ruler-pointer">{_at(place(measured_in), _POINTER)}</g>'
        )
    return Markup(
        f'<svg class="ruler-sign" width="100%" height="{HIGH}" overflow="visible" aria-hidden="true" focusable="false">'
        f"{''.join(parts)}</svg>"
    )
