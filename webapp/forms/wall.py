"""The form of a wall: its line, and rows of storeys and openings that can be added and taken away without script.

A wall comes in two guises here: as typed or shown (bare numbers in the reader's unit) and as kept (each with its unit).
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from engine.fields import Spec, specs
from engine.job import HEIGHT, WallEntry
from engine.units import System
from engine.wall import Opening, WallLine
from webapp.forms.quantities import default, keep_all, shown_all

MOST_ROWS = 40
GROUPS = ("storeys", "openings")
ROW = re.compile(rf"({'|'.join(GROUPS)})-(\d{{1,3}})-(\w+)")
BUTTON = re.compile(rf"(add|drop)-({'|'.join(GROUPS)})(?:-(\d{{1,3}}))?")
LINE = specs(WallLine)
Texts = Mapping[str, str]


def row_specs(group: str, types: Iterable[str]) -> tuple[Spec, ...]:
    """The fields of a storey, its type one of the job's, or of an opening."""
    if group == "openings":
        return specs(Opening)
    options = tuple((name, name) for name in types)
    return Spec(name="type", label="Wall type", group="Storeys", kind="choice", options=options), HEIGHT


def typed(texts: Texts) -> WallEntry:
    """A wall as its form came back."""
    found: dict[str, dict[int, dict[str, str]]] = {group: {} for group in GROUPS}
    for name, text in texts.items():
        match = ROW.fullmatch(name)
        if match:
            found[match[1]].setdefault(int(match[2]), {})[match[3]] = text
    storeys, openings = (tuple(row for _, row in sorted(found[group].items())[:MOST_ROWS]) for group in GROUPS)
    line = {s.name: texts[s.name] for s in LINE if s.name in texts}
    return WallEntry(texts.get("name", ""), line, storeys, openings)


def kept(entry: WallEntry, types: Iterable[str], system: System, before: WallEntry | None) -> WallEntry:
    """A typed wall as it is to be kept."""
    line = keep_all(LINE, entry.line, system, before.line if before else None)
    return _each_row(replace(entry, name=entry.name.strip(), line=line), types, lambda s, t: keep_all(s, t, system))


def shown(entry: WallEntry, types: Iterable[str], system: System) -> WallEntry:
    """A kept wall as its form shows it."""
    line = shown_all(LINE, entry.line, system)
    return _each_row(replace(entry, line=line), types, lambda s, t: shown_all(s, t, system))


def _each_row(
    entry: WallEntry, types: Iterable[str], change: Callable[[tuple[Spec, ...], Texts], dict[str, str]]
) -> WallEntry:
    storeys, openings = (
        tuple(change(row_specs(group, types), row) for row in getattr(entry, group)) for group in GROUPS
    )
    return replace(entry, storeys=storeys, openings=openings)


def changed_rows(entry: WallEntry, do: str, types: Iterable[str], system: System) -> WallEntry | None:
    """The typed wall with a row added or taken away, as a button asks ("add-openings", "drop-storeys-1"); None for others."""
    button = BUTTON.fullmatch(do)
    if not button:
        return None
    action, group, number = button.groups()
    rows: tuple[Texts, ...] = getattr(entry, group)
    if action == "add":
        rows = (*rows, blank(group, types, system))[:MOST_ROWS]
    else:
        rows = tuple(row for i, row in enumerate(rows) if str(i) != number)
    return replace(entry, storeys=rows) if group == "storeys" else replace(entry, openings=rows)


def blank(group: str, types: Iterable[str], system: System) -> dict[str, str]:
    """A new row as shown: every field at its default."""
    known = row_specs(group, types)
    first = {s.name: s.options[0][0] for s in known if s.kind == "choice" and s.options}
    return shown_all(known, {s.name: default(s) for s in known} | first, system)


def new_wall(name: str, types: Iterable[str], system: System) -> WallEntry:
    """A wall of one storey, as shown, nothing typed yet."""
    return WallEntry(name, shown_all(LINE, {}, system), (blank("storeys", types, system),))


@dataclass(frozen=True, slots=True)
class Row:
    """One row as the page shows it: its number from 1, and its fields named by their place."""

    number: int
    drop: str
    specs: tuple[Spec, ...]


def rows(entry: WallEntry, group: str, types: Iterable[str]) -> list[Row]:
    """The rows of a group for the page."""
    known = row_specs(group, types)
    return [
        Row(i + 1, f"drop-{group}-{i}", tuple(replace(s, name=f"{group}-{i}-{s.name}") for s in known))
        for i in range(len(getattr(entry, group)))
    ]


def flat(entry: WallEntry) -> dict[str, str]:
    """All texts under the names the form gives them."""
    texts = {"name": entry.name, **entry.line}
    for group in GROUPS:
        for number, row in enumerate(getattr(entry, group)):
            texts.update({f"{group}-{number}-{name}": text for name, text in row.items()})
    return texts
