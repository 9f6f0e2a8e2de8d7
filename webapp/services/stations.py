"""Stations moved by hand: what can't stand on a wall at all, the next place, the nearest clear one, and how they are kept."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from math import ceil, floor, isfinite

from engine import units
from engine.fields import write_one
from engine.job import STATION
from engine.setting_out import Row, station
from engine.setting_out.places import allowed
from engine.setting_out.rules import EPS, barred
from engine.units import System

MOST = 900
PACKED_IN = 1e-6  # finer than any two stations are told apart by
SIXTEENTH_IN = 1 / 16
SINGLE = ("pocket",)  # what an attachment has one of, neither more nor less


def text_of(at_in: float) -> str:
    """A station as it is kept: feet and inches where it falls on a sixteenth, else every digit, so that nothing shifts."""
    on_tape = abs(at_in / SIXTEENTH_IN - round(at_in / SIXTEENTH_IN)) < EPS
    return units.feet_inches(at_in) if on_tape else f"{write_one(STATION, round(at_in, 9))} in"


def wrong(stations: Sequence[float], wall: str, length_in: float, system: System = "ft in") -> dict[int, str]:
    """Of stations that can't stand on the wall, or stand there twice: what to enter instead, by their place in the list."""
    found: dict[int, str] = {}
    for n, at in enumerate(stations):
        if not isfinite(at):
            found[n] = "Enter a length from the wall's named end."
        elif at < -EPS or at > length_in + EPS:
            off = max(-at, at - length_in)
            side = "before the named end" if at < 0 else "past the end"
            found[n] = (
                f"That is {units.show(off, 'in', system)} {side} of wall {wall}. "
                f"Enter {station(0.0, system)} to {station(length_in, system)}."
            )
        elif any(abs(at - other) < EPS for other in stations[:n]):
            found[n] = f"{station(at, system)} is there already. Enter another station, or take this one away."
    return found


def wrong_count(what: str, count: int) -> str:
    """Why so many can't be kept; "" where they can."""
    if what in SINGLE and count != 1:
        return "There is one to set. Enter one station."
    if not count:
        return "Leave at least one station, or go back to the calculated ones."
    return f"At most {MOST} stations can be set at one place." if count > MOST else ""


def stepped(row: Row, at_in: float, toward: int, grid_in: float, length_in: float) -> float:
    """The next place from a station: of those the row may take where it names them, else the next of the grid, on the wall.

    Args: toward: 1 away from the named end, -1 toward it.
    """
    places = row.rule.only_at
    if places is not None:
        n = bisect_right(places, at_in + EPS) if toward > 0 else bisect_left(places, at_in - EPS) - 1
        return places[n] if 0 <= n < len(places) else at_in
    steps = floor(at_in / grid_in + EPS) + 1 if toward > 0 else ceil(at_in / grid_in - EPS) - 1
    return min(max(steps * grid_in, 0.0), length_in)


def nearest_clear(row: Row, at_in: float) -> float | None:
    """The place nearest to a station that keeps off ends, openings and what is to be kept clear of; None where there is none.

    It looks neither at the spacing nor at what stands beside it in the row: `Row.review` says that of the whole.
    """
    closed = barred(row.rule.keeps)
    places = (place for piece in row.pieces for place in allowed(piece, row.rule, closed))
    return min(places, key=lambda place: abs(place - at_in), default=None)


def packed(stations: Sequence[float] | None) -> str:
    """Stations as one word of an address; None, the calculated ones, as "calculated"."""
    if stations is None:
        return "calculated"
    return "_".join(format(round(at / PACKED_IN), "x") for at in stations)


def unpacked(word: str) -> tuple[float, ...] | None:
    """The same back. Raises: ValueError for any other word."""
    if word == "calculated":
        return None
    return tuple(round(int(part, 16) * PACKED_IN, 6) for part in word.split("_"))
