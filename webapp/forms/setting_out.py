"""Stations in their form: one field each, buttons that move them a step, one field for another station.

A field shows a station to the sixteenth or the whole millimetre; a hidden field keeps them exactly, so that one which comes back as
it was shown has not moved.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import isfinite

from engine import units
from engine.errors import BadInput
from engine.job import STATION
from engine.setting_out import Row, millimetres
from engine.units import System
from webapp.forms.quantities import explicit
from webapp.services.stations import MOST, nearest_clear, stepped, wrong

Texts = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Typed:
    """One station. Args: at_in: as typed, None where it can't be read. was_in: what stood there before, None for another one."""

    text: str
    at_in: float | None
    was_in: float | None = None
    error: str = ""

    @property
    def tried_in(self) -> float | None:
        """What the rules are held against: where it can't stand as typed, what stood there before."""
        return self.was_in if self.error else self.at_in


@dataclass(frozen=True, slots=True)
class Draft:
    """All stations of one spot. Args: add, add_error: the field for another one."""

    rows: tuple[Typed, ...]
    add: str = ""
    add_error: str = ""

    @property
    def stations(self) -> tuple[float, ...]:
        """What can be held against the rules, in the rows' order [in]."""
        return tuple(row.tried_in for row in self.rows if row.tried_in is not None)

    @property
    def exact(self) -> str:
        """For the hidden field."""
        return ";".join("" if row.tried_in is None else repr(row.tried_in) for row in self.rows)

    @property
    def errors(self) -> dict[str, str]:
        """Messages by field."""
        found = {f"at-{n}": row.error for n, row in enumerate(self.rows) if row.error}
        return found | ({"add": self.add_error} if self.add_error else {})


def shown(at_in: float, system: System) -> str:
    """A station as its field shows it."""
    return units.feet_inches(at_in) if system == "ft in" else str(millimetres(at_in))


def draft_of(stations: Sequence[float], system: System) -> Draft:
    """Stations as they are."""
    return Draft(tuple(Typed(shown(at, system), at, at) for at in sorted(stations)))


def typed(form: Texts, system: System) -> Draft:
    """What came back, not yet held against the wall."""
    before = _exact(form.get("stations", ""))
    rows = []
    for n in range(MOST + 1):
        if f"at-{n}" not in form:
            break
        rows.append(_read(form[f"at-{n}"], before[n] if n < len(before) else None, system))
    add = form.get("add", "").strip()
    added = _read(add, None, system) if add else None
    if added and added.error:
        return Draft(tuple(rows), add, added.error)
    return Draft((*rows, added) if added else tuple(rows))


def _exact(text: str) -> list[float | None]:
    found: list[float | None] = []
    for part in text.split(";"):
        try:
            value = float(part)
        except ValueError:
            value = float("nan")
        found.append(value if isfinite(value) else None)
    return found


def _read(text: str, before: float | None, system: System) -> Typed:
    text = text.strip()
    if before is not None and text == shown(before, system):
        return Typed(text, before, before)
    try:
        return Typed(text, units.parse(explicit(STATION, text, system), STATION.unit), before)
    except BadInput as error:
        return Typed(text, None, before, error.message)


def on_wall(draft: Draft, wall: str, length_in: float, system: System) -> Draft:
    """A draft with what is wrong of its stations. Where nothing is, they stand in order along the wall, written alike."""
    readable = [(n, row.at_in) for n, row in enumerate(draft.rows) if row.at_in is not None]
    found = wrong([at for _, at in readable], wall, length_in, system)
    errors = {readable[place][0]: message for place, message in found.items()}
    rows = [replace(row, error=errors.get(n, row.error)) for n, row in enumerate(draft.rows)]
    if any(row.error for row in rows) or draft.add_error:
        return replace(draft, rows=tuple(rows))
    return draft_of(draft.stations, system)


def changed(draft: Draft, do: str, row: Row, grid_in: float, length_in: float, system: System) -> Draft:
    """What a button of a row does: "less-3", "more-3", "near-3", "drop-3"; any other leaves the draft as it is."""
    verb, _, number = do.partition("-")
    n = int(number) if number.isdecimal() and len(number) < 5 else -1
    if not 0 <= n < len(draft.rows):
        return draft
    if verb == "drop":
        return replace(draft, rows=draft.rows[:n] + draft.rows[n + 1 :])
    at = draft.rows[n].tried_in
    if at is None or verb not in ("less", "more", "near"):
        return draft
    to = nearest_clear(row, at) if verb == "near" else stepped(row, at, 1 if verb == "more" else -1, grid_in, length_in)
    if to is None:
        return draft
    return replace(draft, rows=(*draft.rows[:n], Typed(shown(to, system), to, at), *draft.rows[n + 1 :]))
