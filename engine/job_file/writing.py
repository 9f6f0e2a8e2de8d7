"""From a job to the text of its file."""

import json
import re
from typing import Any

from engine import attachments, fields, placing, units
from engine.fields import Spec
from engine.floor import Floor
from engine.job import STATION, AttachmentEntry, FloorLineEntry, Job, Stations, WallEntry
from engine.job_file.reading import HEAD, SCHEMA
from engine.placed import Place, Texts
from engine.wall import Opening, Storey, WallLine, WallType

BARE = re.compile(r"[\d\s.,/½¼¾⅛⅜⅝⅞⅓⅔−-]+")
FEET_INCHES = re.compile(r"\d+\s*-\s*\d{1,2}(\.\d+)?(\s+\d+/\d+)?")


def with_unit(known: Spec, text: str) -> str:
    """A quantity's text with its unit: "9 1/4" of a field in inches becomes "9 1/4 in"; what names its unit stays as typed."""
    typed_text = text.strip()
    if known.kind != "number" or not known.unit or not BARE.fullmatch(typed_text):
        return typed_text
    if known.unit in units.LENGTHS and FEET_INCHES.fullmatch(typed_text):
        return typed_text  # 12-6 1/2 can only be feet and inches
    return f"{typed_text} {known.unit}"


def _with_units(kind: type[Any], texts: Texts) -> dict[str, str]:
    known = {s.name: s for s in fields.specs(kind)}
    return {name: with_unit(known[name], text) if name in known else text for name, text in texts.items()}


def write(job: Job) -> str:
    """A job as the text of its file; `read` gives the same job back."""
    document: dict[str, Any] = {"wallseat_job": SCHEMA}
    document.update({key: getattr(job, key) for key in HEAD})
    document["site"] = dict(job.site)
    document["wall_types"] = {name: _with_units(WallType, texts) for name, texts in job.wall_types.items()}
    document["walls"] = [_wall_row(entry) for entry in job.walls]
    document["floor_lines"] = [_floor_line_row(entry) for entry in job.floor_lines]
    document["attachments"] = [_attachment_row(entry) for entry in job.attachments]
    document["placing"] = _with_units(placing.Inputs, job.placing)
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _wall_row(entry: WallEntry) -> dict[str, Any]:
    return {
        "name": entry.name,
        "line": _with_units(WallLine, entry.line),
        "storeys": [_with_units(Storey, row) for row in entry.storeys],
        "openings": [_with_units(Opening, row) for row in entry.openings],
        "brackets": _stations(entry.brackets),
        "placing": _with_units(placing.Inputs, entry.placing),
    }


def _stations(moved: Stations) -> dict[str, list[str]]:
    return {what: [with_unit(STATION, text) for text in texts] for what, texts in moved.items()}


def _floor_line_row(entry: FloorLineEntry) -> dict[str, Any]:
    place = _with_units(Place, entry.place_texts)
    return {
        "name": entry.name,
        "wall": entry.wall,
        "level": entry.level,
        "start": place["start_ft"],
        "end": place["end_ft"],
        "inputs": _with_units(Floor, entry.inputs),
    }


def _attachment_row(entry: AttachmentEntry) -> dict[str, Any]:
    place = _with_units(Place, entry.place_texts)
    return {
        "tag": entry.tag,
        "kind": entry.kind,
        "wall": entry.wall,
        "level": entry.level,
        "start": place["start_ft"],
        "end": place["end_ft"],
        "inputs": _with_units(attachments.kind(entry.kind).inputs, entry.inputs),
        "moved": _stations(entry.moved),
    }
