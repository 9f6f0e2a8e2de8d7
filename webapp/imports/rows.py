"""Rows of a matched sheet as texts by input, and the messages about them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from engine import fields
from engine.errors import BadInput
from engine.fields import Spec
from engine.wall import WallType
from webapp.forms.quantities import default
from webapp.imports.columns import Match, meant
from webapp.imports.sheets import Table
from webapp.imports.subjects import WALL
from webapp.services.imports import State

MOST_NAMED = 12  # names listed in a message


@dataclass(frozen=True, slots=True)
class Line:
    """One row. Args: number: as the spreadsheet shows it. texts: by the key of the input; empty cells are not among them."""

    number: int
    texts: Mapping[str, str]

    def given(self, known: Iterable[Spec], before: str = "") -> dict[str, str]:
        """Texts of inputs, the usual one where the sheet gives none. Args: before: what comes before a name in its key."""
        return {s.name: self.texts.get(before + s.name) or default(s) for s in known}


class Wrong(dict[int, dict[str, str]]):
    """What is wrong: messages by row number and the key of the input. Of two about one cell the first counts."""

    def say(self, number: int, errors: Mapping[str, str]) -> None:
        """Add messages of a row."""
        for key, message in errors.items():
            self.setdefault(number, {}).setdefault(key, message)


def lines(table: Table, matches: Sequence[Match], wrong: Wrong) -> list[Line]:
    """The rows with their texts as the engine reads them; a cell that can't be meant so keeps its text."""
    taken = [match for match in matches if match.target]
    found = []
    for row in table.rows:
        texts = {}
        for match in taken:
            cell = row.cells[match.column]
            if not cell:
                continue
            texts[match.key] = cell
            try:
                texts[match.key] = meant(match, cell, table)
            except BadInput as error:
                wrong.say(row.number, {match.key: error.message})
        found.append(Line(row.number, texts))
    return found


def shapes(state: State) -> dict[str, WallType]:
    """The job's wall types as the engine computes with them."""
    read = {row.name: fields.read(WallType, row.inputs)[0] for row in state.standing.types}
    return {name: shape for name, shape in read.items() if shape is not None}


def no_wall(line: Line, state: State) -> dict[str, str]:
    """A message where a row names no wall of the job that can be built."""
    name, plan = line.texts.get(WALL, ""), state.standing.plan
    if name in plan.walls:
        return {}
    if name in plan.unfit:
        return {WALL: plan.unfit[name]}
    names = list(plan.walls)
    if not names:
        return {WALL: "The job has no wall yet. Draw up or import its walls first."}
    known = ", ".join(names[:MOST_NAMED]) + (" and others" if len(names) > MOST_NAMED else "")
    return {WALL: f"No wall “{name}” in this job. Known: {known}." if name else f"Name a wall: {known}."}
