"""The form of the office's hold points: rows that can be added, taken away and moved without script."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from engine.fields import Spec
from engine.placing import KEYS, STAGES, HoldPoint, write_hold_points

MOST_ROWS = 60
ROW = re.compile(rf"point-(\d{{1,3}})-({'|'.join(KEYS)})")
BUTTON = re.compile(r"(up|down|drop)-(\d{1,3})|add")
Texts = Mapping[str, str]
Rows = list[dict[str, str]]

SPECS = (
    Spec("words", "What is looked at", "Hold point", "text"),
    Spec("stage", "When", "Hold point", "choice", options=tuple((stage, stage) for stage in STAGES)),
    Spec("stop", "Work waits for it", "Hold point", "yes"),
    Spec("family", "Code or standard, if any", "Hold point", "text", optional=True),
    Spec("section", "Section", "Hold point", "text", optional=True),
)  # fmt: skip


def rows_of(points: Sequence[HoldPoint]) -> Rows:
    """Points as rows of texts."""
    return [dict(row) for row in write_hold_points(points)]


def typed(texts: Texts) -> Rows:
    """Rows as the form came back."""
    found: dict[int, dict[str, str]] = {}
    for name, text in texts.items():
        match = ROW.fullmatch(name)
        if match:
            found.setdefault(int(match[1]), {})[match[2]] = text.strip()
    return [row for _, row in sorted(found.items())][:MOST_ROWS]


def changed(rows: Rows, do: str) -> Rows | None:
    """The rows with one added, moved or taken away, as a button asks ("add", "up-3", "drop-0"); None for others."""
    button = BUTTON.fullmatch(do)
    if not button:
        return None
    if do == "add":
        return [*rows, {"stage": rows[-1].get("stage", STAGES[0]) if rows else STAGES[0], "stop": "yes"}][:MOST_ROWS]
    number = int(button[2])
    if number >= len(rows):
        return rows
    taken, others = rows[number], rows[:number] + rows[number + 1 :]
    if button[1] == "drop":
        return others
    to = max(number - 1, 0) if button[1] == "up" else number + 1
    return [*others[:to], taken, *others[to:]]


def fields_of(number: int) -> tuple[Spec, ...]:
    """The fields of a row, named by their place; rows from 0."""
    return tuple(replace(spec, name=f"point-{number}-{spec.name}") for spec in SPECS)


def named(errors: Texts) -> dict[str, str]:
    """Messages under the form's names: the service counts rows from 1."""
    found = {}
    for name, message in errors.items():
        number, _, text = name.partition("-")
        found[f"point-{int(number) - 1}-{text or 'words'}" if number.isdecimal() else "points"] = message
    return found
