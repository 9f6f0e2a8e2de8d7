"""A frozen document as the package reads it: its parts by name, and the engine's own objects where the engine is still the same."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from json import dumps
from typing import Any

from engine import VERSION, attachments, fields, job_file, set_job
from engine.editions import EDITIONS, edition
from engine.errors import BadInput, EngineError
from engine.fields import Spec
from engine.job import Job, Plan, plan
from engine.result import CheckResult, ratio_words
from engine.setting_out import Habits, SettingOut
from engine.units import show

Attachment = Mapping[str, Any]


@dataclass(frozen=True)
class Frozen:
    """A revision's document, or a draft's. Args: document: as `submission.document` writes it."""

    document: Mapping[str, Any]

    @property
    def attachments(self) -> Sequence[Attachment]:
        """In the job's order."""
        found: Sequence[Attachment] = self.document["attachments"]
        return found

    @property
    def job(self) -> Mapping[str, Any]:
        """The job file in it."""
        found: Mapping[str, Any] = self.document["job"]
        return found

    @property
    def same_engine(self) -> bool:
        """Whether this program computes what was frozen; where not, only what was frozen is printed."""
        return bool(self.document["engine"] == VERSION and self.document["edition"] in EDITIONS)

    @cached_property
    def typed(self) -> tuple[Job, Plan] | None:
        """The job as the engine knows it, and its walls; None with another engine."""
        if not self.same_engine:
            return None
        try:
            job = job_file.read(dumps(self.job))
            return job, plan(job, today=self.document["judged_on"])
        except EngineError:
            return None

    def set_out(self, wall: str) -> tuple[SettingOut, ...]:
        """What is set along a wall, as the engine's own; empty with another engine."""
        if self.typed is None:
            return ()
        job, standing = self.typed
        habits, _ = fields.read(Habits, self.document["habits"])
        return tuple(set_job.set_wall(standing, wall, job.attachments, set_job.asked(job, standing, habits)))

    def checked(self, one: Attachment) -> tuple[Any, CheckResult | None] | None:
        """An attachment's inputs and its result, as the engine's own; None where there are none."""
        kind = attachments.KINDS.get(one["kind"])
        if not self.same_engine or kind is None:
            return None
        inputs, errors = fields.read(kind.inputs, one["inputs"])
        if inputs is None or errors:
            return None
        try:
            return inputs, attachments.check(one["kind"], inputs, edition(self.document["edition"]))
        except BadInput:
            return inputs, None


def designed_by(frozen: Frozen, one: Attachment) -> list[Mapping[str, Any]]:
    """Engineers' designs that cover an attachment as it is."""
    return [d for d in frozen.document["designs"] if d["covers"].get(one["tag"]) == one["hash"]]


def governing(one: Attachment) -> Mapping[str, Any] | None:
    """The line to read first."""
    result = one["result"]
    return next((line for line in result.get("lines", ()) if line["key"] == result.get("governing")), None)


def ratio(value: Any) -> str:
    """A frozen ratio in words, "" for none."""
    if value is None:
        return ""
    return "∞" if value == "infinite" else ratio_words(float(value))


def specs(kind: str) -> tuple[Spec, ...]:
    """What a kind asks; nothing of one this program does not know."""
    known = attachments.KINDS.get(kind)
    return fields.specs(known.inputs) if known else ()


def value_words(spec: Spec, text: str) -> str:
    """A frozen input as a reader sees it: with its unit, a choice in its words; as typed where it can't be read."""
    try:
        value = fields.read_one(spec, text)
    except BadInput:
        return text
    if value is None or value == "":
        return "not given"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if spec.kind == "choice":
        return dict(spec.options).get(value, str(value))
    return show(value, spec.unit) if isinstance(value, (int, float)) else str(value)


def place_words(one: Attachment) -> str:
    """Where an attachment is: "wall W1, floor level 1, 1 ft to 11 ft"."""
    along = f", {one['start']} to {one['end']}" if one["end"] else f", at {one['start']}" if one["start"] else ""
    return f"wall {one['wall']}, floor level {one['level']}{along}"
