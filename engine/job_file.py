"""The job as one JSON document: read strictly, checked in full, upgraded from older versions, written with every unit.

    {"wallseat_job": 1, "name": …, "edition": …, "client": …, "place": …, "notes": …, "site": {…},
     "wall_types": {name: {field: text}},
     "walls": [{"name": …, "line": {field: text}, "storeys": [{"type": name, "height_ft": text}], "openings": [{field: text}]}],
     "attachments": [{"tag": "A1", "kind": …, "wall": name, "level": 1, "start": text, "end": text, "inputs": {field: text}}]}

Every quantity is text with its unit ("9 1/4 in"). What is not known is refused by name, so nothing is dropped in silence.
"""

import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from engine import attachments, fields, units
from engine.editions import US_2021, edition
from engine.errors import BadInput, EngineError
from engine.fields import Spec
from engine.job import AttachmentEntry, Job, Plan, Unfit, WallEntry, build_wall, typed
from engine.json_lines import NotJson, Path, line_of, load, words
from engine.placed import Place, Site, Texts
from engine.wall import Opening, Storey, Wall, WallLine, WallType

T = TypeVar("T")

SCHEMA = 1
# Version -> what turns its document into one of the next version.
UPGRADES: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {}
HEAD = ("name", "edition", "client", "place", "notes")
KNOWN = ("wallseat_job", *HEAD, "site", "wall_types", "walls", "attachments")
TAG = re.compile(r"A[1-9][0-9]{0,5}")
BARE = re.compile(r"[\d\s.,/½¼¾⅛⅜⅝⅞⅓⅔−-]+")
FEET_INCHES = re.compile(r"\d+\s*-\s*\d{1,2}(\.\d+)?(\s+\d+/\d+)?")


@dataclass(frozen=True, slots=True)
class Problem:
    """Why a file can't be used: the line, the path to the value, and what is wrong there."""

    line: int
    path: str
    reason: str

    def __str__(self) -> str:
        return f"line {self.line}: {self.path}: {self.reason}"


class BadJobFile(EngineError):
    """A file that is no usable job. Args: problems: at least one, in file order."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("; ".join(str(problem) for problem in problems))
        self.problems = problems


def read(text: str) -> Job:
    """The job in a file's text, every part of it usable. Raises: BadJobFile naming every problem."""
    try:
        document = load(text)
    except NotJson as error:
        raise BadJobFile((Problem(error.line, "(whole file)", error.reason),)) from None
    reader = _Reader()
    job = reader.job(document)
    if reader.messages:
        found = [Problem(line_of(text, path), words(path), why) for path, why in reader.messages.items()]
        raise BadJobFile(tuple(sorted(found, key=lambda problem: problem.line)))
    return job


class _Reader:
    """Walks a document and keeps what is wrong, by path."""

    def __init__(self) -> None:
        self.messages: dict[Path, str] = {}

    def job(self, document: Any) -> Job:
        if not isinstance(document, dict) or "wallseat_job" not in document:
            self.messages[()] = 'This is no job file: it lacks "wallseat_job".'
            return Job("")
        document = self._upgraded(document)
        if self.messages:
            return Job("")
        self._strange(document, KNOWN, ())
        head = {key: self._text(document, key, (), {"edition": US_2021.key}.get(key, "")) for key in HEAD}
        self._attempt((), edition, head["edition"])
        site = self._texts(document.get("site", {}), ("site",))
        self._attempt((), typed, Site, site, ("site",))
        types = {n: self._texts(v, ("wall_types", n)) for n, v in self._mapping(document, "wall_types").items()}
        built = {n: self._attempt((), typed, WallType, t, ("wall_types", n)) for n, t in types.items()}
        walls = tuple(self._wall(row, ("walls", i)) for i, row in enumerate(self._rows(document, "walls")))
        standing = self._walls_built(walls, built)
        entries = tuple(
            self._attachment(row, ("attachments", i)) for i, row in enumerate(self._rows(document, "attachments"))
        )
        job = Job(**head, site=site, wall_types=types, walls=walls, attachments=entries)
        if not self.messages:
            self._placed(job, Plan(edition(job.edition), typed(Site, site), standing))
        return job

    def _upgraded(self, document: dict[str, Any]) -> dict[str, Any]:
        version = document["wallseat_job"]
        while type(version) is int and version in UPGRADES:
            document = UPGRADES[version](document)
            version = document["wallseat_job"]
        if type(version) is not int or version != SCHEMA:
            self.messages["wallseat_job",] = f"Version {version!r} is not known; this program reads up to {SCHEMA}."
        return document

    def _walls_built(self, walls: tuple[WallEntry, ...], types: Mapping[str, WallType | None]) -> dict[str, Wall]:
        known = {name: kind for name, kind in types.items() if kind is not None}
        standing: dict[str, Wall] = {}
        for number, entry in enumerate(walls):
            if entry.name in standing:
                self.messages["walls", number, "name"] = f"There are two walls named {entry.name!r}."
            if None not in types.values():
                built = self._attempt(("walls", number), build_wall, entry, known)
                if built is not None:
                    standing[entry.name] = built
        return standing

    def _placed(self, job: Job, standing: Plan) -> None:
        """Whether every attachment can be checked where it is."""
        seen: set[str] = set()
        names = {"start_ft": ("start",), "end_ft": ("end",), "level": ("level",), "wall": ("wall",), "": ()}
        for number, entry in enumerate(job.attachments):
            at: Path = ("attachments", number)
            if entry.tag in seen or not TAG.fullmatch(entry.tag):
                self.messages[*at, "tag"] = "Give every attachment its own tag: A1, A2 and so on."
            seen.add(entry.tag)
            try:
                checked = standing.inputs(entry)
            except BadInput as error:
                self.messages[*at, error.field] = error.message
                continue
            for name in entry.inputs.keys() & checked.inherited.keys():
                self.messages[*at, "inputs", name] = "This follows the wall; change it there."
            for name, message in checked.refused.items():
                self.messages[(*at, *names.get(name, ("inputs", name)))] = message

    def _wall(self, row: Any, at: Path) -> WallEntry:
        if not isinstance(row, dict):
            self.messages[at] = "Write a wall as {…}."
            return WallEntry("", {}, ())
        self._strange(row, ("name", "line", "storeys", "openings"), at)
        return WallEntry(
            self._text(row, "name", at),
            self._texts(row.get("line", {}), (*at, "line")),
            tuple(self._texts(s, (*at, "storeys", i)) for i, s in enumerate(self._rows(row, "storeys", at))),
            tuple(self._texts(o, (*at, "openings", i)) for i, o in enumerate(self._rows(row, "openings", at))),
        )

    def _attachment(self, row: Any, at: Path) -> AttachmentEntry:
        if not isinstance(row, dict):
            self.messages[at] = "Write an attachment as {…}."
            return AttachmentEntry("", "", "", 1, "", "", {})
        self._strange(row, ("tag", "kind", "wall", "level", "start", "end", "inputs"), at)
        level = row.get("level", 1)
        if type(level) is not int:
            self.messages[*at, "level"] = "Write the floor level as a whole number: 1 at the top of the first storey."
            level = 1
        tag, kind, wall = (self._text(row, key, at) for key in ("tag", "kind", "wall"))
        start, end = self._text(row, "start", at), self._text(row, "end", at, "")
        return AttachmentEntry(tag, kind, wall, level, start, end, self._texts(row.get("inputs", {}), (*at, "inputs")))

    def _attempt(self, at: Path, build: Callable[..., T], *values: Any) -> T | None:
        try:
            return build(*values)
        except Unfit as unfit:
            for path, message in unfit.messages.items():
                self.messages.setdefault((*at, *path), message)
        except BadInput as error:
            self.messages.setdefault((*at, error.field), error.message)
        return None

    def _strange(self, row: Mapping[str, Any], known: tuple[str, ...], at: Path) -> None:
        for key in row.keys() - set(known):
            self.messages[*at, key] = f"Unknown key. Known here: {', '.join(known)}."

    def _text(self, row: Mapping[str, Any], key: str, at: Path, default: str | None = None) -> str:
        value = row.get(key, default)
        if isinstance(value, str) and (value.strip() or default is not None):
            return value
        self.messages[*at, key] = f"Write {key} as text."
        return ""

    def _texts(self, value: Any, at: Path) -> dict[str, str]:
        if not isinstance(value, dict):
            self.messages[at] = 'Write it as {"field": "text", …}.'
            return {}
        for key, text in value.items():
            if not isinstance(text, str):
                self.messages[*at, key] = 'Write it as text with its unit, such as "9 1/4 in".'
        return {key: text for key, text in value.items() if isinstance(text, str)}

    def _rows(self, row: Mapping[str, Any], key: str, at: Path = ()) -> list[Any]:
        value = row.get(key, [])
        if isinstance(value, list):
            return value
        self.messages[*at, key] = "Write it as a list: […]."
        return []

    def _mapping(self, row: Mapping[str, Any], key: str) -> dict[str, Any]:
        value = row.get(key, {})
        if isinstance(value, dict):
            return value
        self.messages[key,] = 'Write it as {"name": {…}, …}.'
        return {}


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
    document["attachments"] = [_attachment_row(entry) for entry in job.attachments]
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def _wall_row(entry: WallEntry) -> dict[str, Any]:
    return {
        "name": entry.name,
        "line": _with_units(WallLine, entry.line),
        "storeys": [_with_units(Storey, row) for row in entry.storeys],
        "openings": [_with_units(Opening, row) for row in entry.openings],
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
    }
