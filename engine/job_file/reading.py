"""From the text of a job file to the job, or to every problem in it."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

from engine import placing
from engine.editions import US_2021, edition
from engine.errors import BadInput, EngineError
from engine.job import (
    AttachmentEntry,
    FloorLineEntry,
    Job,
    Plan,
    Stations,
    Unfit,
    WallEntry,
    build_wall,
    moved_in,
    typed,
)
from engine.json_lines import NotJson, Path, line_of, load, words
from engine.placed import Site
from engine.setting_out import WORDS
from engine.wall import Wall, WallType

T = TypeVar("T")

SCHEMA = 2
# Version -> what turns its document into one of the next version.
UPGRADES: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {
    1: lambda document: (
        document | {"wallseat_job": 2}
    )  # floor lines, stations moved and placing came; all may be absent
}
HEAD = ("name", "edition", "client", "place", "notes")
KNOWN = ("wallseat_job", *HEAD, "site", "wall_types", "walls", "floor_lines", "attachments", "placing")
PLACE = {"start_ft": ("start",), "end_ft": ("end",), "level": ("level",), "wall": ("wall",), "": ()}
TAG = re.compile(r"A[1-9][0-9]{0,5}")


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
        lines = tuple(
            self._floor_line(r, ("floor_lines", i)) for i, r in enumerate(self._rows(document, "floor_lines"))
        )
        how = self._placing(document, ())
        job = Job(**head, site=site, wall_types=types, walls=walls, floor_lines=lines, attachments=entries, placing=how)
        if not self.messages:
            self._placed(job, Plan(edition(job.edition), typed(Site, site), standing))
        return job

    def _upgraded(self, document: dict[str, Any]) -> dict[str, Any]:
        version = document["wallseat_job"]
        while type(version) is int and version in UPGRADES:
            document = UPGRADES[version](document)
            version = document["wallseat_job"]
        if type(version) is not int or version != SCHEMA:
            newer = type(version) is int and version > SCHEMA
            self.messages["wallseat_job",] = f"Version {version!r} is not known; this program reads up to {SCHEMA}." + (
                " The file is of a newer program: update this one, or have the job sent by the older." if newer else ""
            )
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
        """Whether every floor line and every attachment can be used where it is."""
        for number, line in enumerate(job.floor_lines):
            for name, message in standing.floor_line(line).refused.items():
                self.messages["floor_lines", number, *PLACE.get(name, ("inputs", name))] = message
        seen: set[str] = set()
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
                self.messages[(*at, *PLACE.get(name, ("inputs", name)))] = message

    def _wall(self, row: Any, at: Path) -> WallEntry:
        if not isinstance(row, dict):
            self.messages[at] = "Write a wall as {…}."
            return WallEntry("", {}, ())
        self._strange(row, ("name", "line", "storeys", "openings", "brackets", "placing"), at)
        return WallEntry(
            self._text(row, "name", at),
            self._texts(row.get("line", {}), (*at, "line")),
            tuple(self._texts(s, (*at, "storeys", i)) for i, s in enumerate(self._rows(row, "storeys", at))),
            tuple(self._texts(o, (*at, "openings", i)) for i, o in enumerate(self._rows(row, "openings", at))),
            self._stations(row, "brackets", [str(n) for n in range(1, 9)], at),
            self._placing(row, at),
        )

    def _floor_line(self, row: Any, at: Path) -> FloorLineEntry:
        if not isinstance(row, dict):
            self.messages[at] = "Write a floor line as {…}."
            return FloorLineEntry("", "", 1, "", "", {})
        self._strange(row, ("name", "wall", "level", "start", "end", "inputs"), at)
        name, wall, start = (self._text(row, key, at) for key in ("name", "wall", "start"))
        inputs, level = self._texts(row.get("inputs", {}), (*at, "inputs")), self._level(row, at)
        return FloorLineEntry(name, wall, level, start, self._text(row, "end", at, ""), inputs)

    def _level(self, row: Mapping[str, Any], at: Path) -> int:
        level = row.get("level", 1)
        if type(level) is int:
            return level
        self.messages[*at, "level"] = "Write the floor level as a whole number: 1 at the top of the first storey."
        return 1

    def _placing(self, row: Mapping[str, Any], at: Path) -> dict[str, str]:
        texts = self._texts(row.get("placing", {}), (*at, "placing"))
        self._attempt(at, typed, placing.Inputs, texts, ("placing",))
        return texts

    def _stations(self, row: Mapping[str, Any], key: str, known: Iterable[str], at: Path) -> Stations:
        """Stations moved by hand, as lists of texts by what they are."""
        value = row.get(key, {})
        if not isinstance(value, dict) or not all(
            isinstance(texts, list) and all(isinstance(text, str) for text in texts) for texts in value.values()
        ):
            self.messages[*at, key] = 'Write it as {"…": ["12-6 1/2", …]}.'
            return {}
        moved = {what: tuple(texts) for what, texts in value.items()}
        self._attempt(at, moved_in, moved, known, (key,))
        return moved

    def _attachment(self, row: Any, at: Path) -> AttachmentEntry:
        if not isinstance(row, dict):
            self.messages[at] = "Write an attachment as {…}."
            return AttachmentEntry("", "", "", 1, "", "", {})
        self._strange(row, ("tag", "kind", "wall", "level", "start", "end", "inputs", "moved"), at)
        level = self._level(row, at)
        tag, kind, wall = (self._text(row, key, at) for key in ("tag", "kind", "wall"))
        start, end = self._text(row, "start", at), self._text(row, "end", at, "")
        inputs = self._texts(row.get("inputs", {}), (*at, "inputs"))
        return AttachmentEntry(tag, kind, wall, level, start, end, inputs, self._stations(row, "moved", WORDS, at))

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
