"""A job as it is submitted: one canonical JSON text of inputs, results, geometry, drawings and setting out, and its fingerprint."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import fields as dataclass_fields
from dataclasses import is_dataclass
from enum import Enum
from hashlib import sha256
from typing import Any

from engine import VERSION, attachments, fields, job_file, set_job
from engine.editions import edition
from engine.errors import BadInput
from engine.job import AttachmentEntry, Checked, Job, Plan
from engine.result import LOCAL_CODE
from engine.review import accepted
from engine.setting_out import Habits, SettingOut
from webapp.documents import result_json
from webapp.drawings import section_svg
from webapp.services.standing import attachment_hash

VERSION_OF_DOCUMENT = 1


def canonical(document: Any) -> str:
    """The one text of a document: keys in order, nothing between them."""
    return json.dumps(document, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def fingerprint(text: str) -> str:
    """SHA-256 of a canonical text, in hexadecimal."""
    return sha256(text.encode()).hexdigest()


def short(whole: str) -> str:
    """The form printed on sheets: twelve signs in groups of four."""
    return " ".join(whole[at : at + 4] for at in range(0, 12, 4))


def write(
    job: Job,
    plan: Plan,
    habits: Habits,
    designs: Sequence[Mapping[str, Any]] = (),
    points: Sequence[Mapping[str, str]] = (),
) -> str:
    """The canonical text of a job.

    Args: plan: its walls, built, with the day listings are judged by. designs: engineers' documents that cover parts of it.
    points: the office's hold points as `engine.placing.write_hold_points` writes them.
    """
    asked = set_job.asked(job, plan, habits)
    placed = [found for name in plan.walls for found in set_job.set_wall(plan, name, job.attachments, asked)]
    return canonical(
        {
            "wallseat_revision": VERSION_OF_DOCUMENT,
            "engine": VERSION,
            "edition": job.edition,
            "editions": dict(edition(job.edition).titles),
            "judged_on": plan.today,
            "job": json.loads(job_file.write(job)),
            "habits": fields.write(habits),
            "attachments": [_attachment(entry, _checked(plan, entry), plan) for entry in job.attachments],
            "setting_out": [_set_out(found) for found in placed],
            "designs": [dict(design) for design in designs],
            "local_code": LOCAL_CODE,
            **({"hold_points": [dict(point) for point in points]} if points else {}),
        }
    )


def _checked(plan: Plan, entry: AttachmentEntry) -> Checked:
    try:
        return plan.check(entry)
    except BadInput as error:
        return Checked(refused={error.field: error.message})


def _attachment(entry: AttachmentEntry, checked: Checked, plan: Plan) -> dict[str, Any]:
    kind, inputs = attachments.kind(entry.kind), checked.inputs
    return {
        "tag": entry.tag,
        "kind": entry.kind,
        "name": kind.name,
        "wall": entry.wall,
        "level": entry.level,
        "start": entry.start,
        "end": entry.end,
        "inputs": fields.write(inputs) if inputs is not None else dict(entry.inputs),
        "hash": attachment_hash(entry, inputs),
        "result": result_json.checked(checked),
        "geometry": _geometry(kind, inputs),
        "measures": _measures(entry.kind, inputs, plan),
        "drawing": _drawing(entry, checked, "tablet"),
        "drawing_small": _drawing(entry, checked, "phone"),
    }


def _drawing(entry: AttachmentEntry, checked: Checked, width_class: str) -> str:
    """A sheet of its own for each width; "" for inputs nothing can be drawn of."""
    if checked.inputs is None:
        return ""
    return section_svg(entry.kind, checked.inputs, checked.result, width_class=width_class, tag=entry.tag)


def _measures(kind: str, inputs: Any | None, plan: Plan) -> list[dict[str, Any]]:
    """What is measured on site and what is accepted, so that a tablet without signal can say so at once."""
    if inputs is None:
        return []
    try:
        found = accepted(kind, inputs, plan.edition)
    except BadInput:
        return []
    return [
        {
            "key": one.measure.key, "stage": one.measure.stage, "words": one.measure.words, "drawn_in": one.drawn,
            "low_in": one.low, "high_in": one.high, "low_breaks": one.low_breaks, "high_breaks": one.high_breaks,
            "holds": one.holds,
        }
        for one in found
    ]  # fmt: skip


def _geometry(kind: attachments.Kind, inputs: Any | None) -> Any:
    """All a drawing needs, in inches; null where inputs contradict each other."""
    if inputs is None:
        return None
    try:
        return plain(kind.module.geometry(inputs))
    except BadInput:
        return None


def plain(value: Any) -> Any:
    """A value of the engine as JSON carries it; a dataclass as its fields."""
    if is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in dataclass_fields(value)}
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, Mapping):
        return {str(name): plain(inner) for name, inner in value.items()}
    if isinstance(value, (list, tuple)) and not hasattr(value, "_asdict"):
        return [plain(inner) for inner in value]
    return result_json.plain(value)


def _set_out(found: SettingOut) -> dict[str, Any]:
    return {
        "tag": found.tag,
        "kind": found.kind,
        "wall": found.wall,
        "level": found.level,
        "marks": [
            {
                "what": m.what,
                "at_in": m.at_in,
                "at": m.text,
                "mm": m.mm,
                "number": m.number,
                "count": m.count,
                "note": m.note,
            }
            for m in found.marks
        ],
        "findings": [finding.text() for finding in found.findings],
    }
