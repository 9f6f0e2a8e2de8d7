"""A frozen revision computed once more by the engine of today, beside what was frozen; nothing of it is kept."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from engine import VERSION, fields, job, job_file
from engine.setting_out import Habits
from webapp.submission import document
from webapp.submission.difference import Place, differences


@dataclass(frozen=True, slots=True)
class Line:
    """A line of one attachment that reads otherwise; words are "" where it was not, or is no longer, there."""

    tag: str
    title: str
    before: str
    after: str


@dataclass(frozen=True, slots=True)
class Again:
    """What the engine of today makes of a frozen revision. engine: the one it was frozen by; now: today's."""

    engine: str
    now: str
    places: tuple[Place, ...]
    lines: tuple[Line, ...]

    @property
    def same(self) -> bool:
        """Whether nothing reads otherwise; the engine's own number may differ."""
        return not self.lines and all(_only_engine(place) for place in self.places)


def _only_engine(place: Place) -> bool:
    return bool(place.changes) and not place.turned and all(change.label == "engine" for change in place.changes)


def again(frozen: Mapping[str, Any]) -> Again:
    """Read the frozen job, judge it by its own editions, habits and day. Raises: BadJobFile where it can't be read any more."""
    found = job_file.read(json.dumps(frozen["job"]))
    habits, _ = fields.read(Habits, frozen["habits"])
    plan = job.plan(found, found.edition, frozen["judged_on"])
    fresh = json.loads(
        document.write(found, plan, habits or Habits(), frozen["designs"], frozen.get("hold_points", ()))
    )
    return Again(frozen["engine"], VERSION, differences(frozen, fresh), tuple(_lines(frozen, fresh)))


def _lines(frozen: Mapping[str, Any], fresh: Mapping[str, Any]) -> Iterator[Line]:
    now = {row["tag"]: row for row in fresh["attachments"]}
    for row in frozen["attachments"]:
        was, is_ = _by_key(row), _by_key(now.get(row["tag"], {}))
        for key in is_ | was:
            before, after = _said(was.get(key)), _said(is_.get(key))
            if before != after:
                yield Line(row["tag"], (was.get(key) or is_[key])["title"], before, after)


def _by_key(row: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    return {line["key"]: line for line in row.get("result", {}).get("lines", [])}


def _said(line: Mapping[str, Any] | None) -> str:
    """The verdict, the ratio, and the sentence with the numbers."""
    if line is None:
        return ""
    ratio = line.get("ratio")
    figure = f" {ratio:.3f}" if isinstance(ratio, int | float) else ""
    return f"{line['verdict']}{figure}: {line['says']}"
