"""A whole job as typed: entries of text, the walls they build, the checks they get."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from engine import attachments, fields
from engine.editions import US_2021, Edition, edition
from engine.errors import BadInput, EngineError
from engine.floor import Floor
from engine.placed import Place, Site, Texts, fits_run, placed_inputs
from engine.result import CheckResult
from engine.setting_out import joists
from engine.wall import Opening, Storey, Wall, WallLine, WallType, wall

Path = tuple[str | int, ...]
Stations = Mapping[str, tuple[str, ...]]  # texts, by what they are or by floor level
T = TypeVar("T")
HEIGHT = fields.spec(Storey, "height_ft")
STATION = fields.Spec("station", "Station", "Setting out", "number", "in", 0, 400 * 12)


class Unfit(EngineError):
    """Entries that can't be used together. Args: messages: what is wrong, by path inside the entry."""

    def __init__(self, messages: Mapping[Path, str]) -> None:
        super().__init__("; ".join(f"{'.'.join(map(str, path))}: {text}" for path, text in messages.items()))
        self.messages = messages


@dataclass(frozen=True, slots=True)
class WallEntry:
    """A wall as typed.

    A storey's texts are "type" (the name of a wall type) and "height_ft". brackets: transition brackets moved by hand, by floor
    level. placing: its own answers to `engine.placing.Inputs`, over the job's.
    """

    name: str
    line: Texts
    storeys: tuple[Texts, ...]
    openings: tuple[Texts, ...] = ()
    brackets: Stations = field(default_factory=dict)
    placing: Texts = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class FloorLineEntry:
    """A floor line as typed: joists of `engine.floor.Floor` that meet a wall at one level."""

    name: str
    wall: str
    level: int
    start: str
    end: str
    inputs: Texts

    @property
    def place_texts(self) -> dict[str, str]:
        """Under the names of `Place`."""
        return {"level": str(self.level), "start_ft": self.start, "end_ft": self.end}


@dataclass(frozen=True, slots=True)
class AttachmentEntry:
    """An attachment as typed; inputs that follow the wall are not among its own.

    moved: stations moved by hand, by what they are.
    """

    tag: str
    kind: str
    wall: str
    level: int
    start: str
    end: str
    inputs: Texts
    moved: Stations = field(default_factory=dict)

    @property
    def place_texts(self) -> dict[str, str]:
        """Under the names of `Place`."""
        return {"level": str(self.level), "start_ft": self.start, "end_ft": self.end}


@dataclass(frozen=True, slots=True)
class Job:
    """A whole job as typed. placing: answers to `engine.placing.Inputs` for all its walls."""

    name: str
    edition: str = US_2021.key
    client: str = ""
    place: str = ""
    notes: str = ""
    site: Texts = field(default_factory=dict)
    wall_types: Mapping[str, Texts] = field(default_factory=dict)
    walls: tuple[WallEntry, ...] = ()
    floor_lines: tuple[FloorLineEntry, ...] = ()
    attachments: tuple[AttachmentEntry, ...] = ()
    placing: Texts = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Laid:
    """A floor line with what it brings and where; `refused` says by field why it can't be used."""

    floor: Floor | None = None
    place: Place | None = None
    refused: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Checked:
    """One attachment with its inputs and result; `refused` says by field why there is none. `inherited`: texts from the wall."""

    inputs: Any | None = None
    result: CheckResult | None = None
    refused: Mapping[str, str] = field(default_factory=dict)
    inherited: Mapping[str, str] = field(default_factory=dict)


def typed(kind: type[Any], texts: Texts, at: Path = ()) -> Any:
    """Texts as a dataclass of `engine.fields`. Raises: Unfit with every message, its paths under `at`."""
    value, errors = fields.read(kind, texts)
    if errors:
        raise Unfit({(*at, name): message for name, message in errors.items()})
    return value


def build_wall(entry: WallEntry, types: Mapping[str, WallType]) -> Wall:
    """A wall from its texts.

    Raises: Unfit with all that can be seen at once, by paths such as ("storeys", 0, "height_ft") or ("openings",).
    """
    wrong: dict[Path, str] = {}
    line = _gather(wrong, typed, WallLine, entry.line, ("line",))
    storeys = [_gather(wrong, _storey, row, types, ("storeys", i)) for i, row in enumerate(entry.storeys)]
    openings = [_gather(wrong, typed, Opening, row, ("openings", i)) for i, row in enumerate(entry.openings)]
    if wrong or line is None:
        raise Unfit(wrong)
    try:
        return wall(entry.name, line, [s for s in storeys if s], [o for o in openings if o], types)
    except BadInput as error:
        raise Unfit({(error.field,): error.message}) from None


def _gather(wrong: dict[Path, str], build: Callable[..., T], *values: Any) -> T | None:
    try:
        return build(*values)
    except Unfit as unfit:
        wrong.update(unfit.messages)
        return None


def _storey(row: Texts, types: Mapping[str, WallType], at: Path) -> Storey:
    known = ("type", HEIGHT.name)
    wrong: dict[Path, str] = {(*at, n): f"No such input. Known: {', '.join(known)}." for n in row.keys() - set(known)}
    height = HEIGHT.default
    try:
        height = fields.read_one(HEIGHT, row.get(HEIGHT.name, fields.write_one(HEIGHT, height)))
    except BadInput as error:
        wrong[*at, HEIGHT.name] = error.message
    kind = row.get("type", "")
    if kind not in types:
        wrong[*at, "type"] = f"No wall type {kind!r}. Known: {', '.join(types)}." if types else "Add a wall type first."
    if wrong:
        raise Unfit(wrong)
    return Storey(kind, height)


@dataclass(frozen=True, slots=True)
class Plan:
    """A job's walls and site as the engine computes with them; `unfit` says of a wall that can't be built why not."""

    edition: Edition
    site: Site
    walls: Mapping[str, Wall]
    unfit: Mapping[str, str] = field(default_factory=dict)
    today: str = ""

    def check(self, entry: AttachmentEntry) -> Checked:
        """One attachment, checked; refused with the reasons where its inputs can't be used."""
        checked = self.inputs(entry)
        if checked.inputs is None:
            return checked
        try:
            result = attachments.check(entry.kind, checked.inputs, self.edition)
        except BadInput as error:
            return Checked(checked.inputs, None, {error.field: error.message}, checked.inherited)
        return Checked(checked.inputs, result, {}, checked.inherited)

    def inputs(self, entry: AttachmentEntry) -> Checked:
        """One attachment's inputs in their place, without the check. Raises: BadInput for an unknown kind."""
        kind = attachments.kind(entry.kind)
        place, errors = fields.read(Place, entry.place_texts)
        if place is None:
            return Checked(refused=errors)
        if entry.wall not in self.walls:
            known = f"No wall {entry.wall!r}. Known: {', '.join(self.walls)}."
            return Checked(refused={"wall": self.unfit.get(entry.wall, known)})
        inputs, errors, inherited = placed_inputs(
            kind, entry.inputs, place, self.walls[entry.wall], self.site, self.today
        )
        return Checked(inputs, None, errors, inherited)

    def floor_line(self, entry: FloorLineEntry) -> Laid:
        """A floor line in its place."""
        floor, wrong = fields.read(Floor, entry.inputs)
        place, misplaced = fields.read(Place, entry.place_texts)
        wall = self.walls.get(entry.wall)
        if wall is None:
            known = f"No wall {entry.wall!r}. Known: {', '.join(self.walls)}."
            misplaced = misplaced | {"wall": self.unfit.get(entry.wall, known)}
        if floor is None or place is None or wall is None:
            return Laid(refused=wrong | misplaced)
        try:
            fits_run(place, wall)
            joists(floor.laid_out(wall.name, place.level, place.start_ft, place.end_ft), wall)
        except BadInput as error:
            return Laid(refused={{"joist_spacing_in": "spacing_in"}.get(error.field, error.field): error.message})
        return Laid(floor, place)


def stations_in(texts: Iterable[str], at: Path = ()) -> tuple[float, ...]:
    """Stations in their order [in]. Raises: Unfit with a message for each that can't be read."""
    found, wrong = [], dict[Path, str]()
    for number, text in enumerate(texts):
        try:
            found.append(fields.read_one(STATION, text))
        except BadInput as error:
            wrong[*at, number] = error.message
    if wrong:
        raise Unfit(wrong)
    return tuple(found)


def moved_in(moved: Stations, known: Iterable[str], at: Path = ()) -> dict[str, tuple[float, ...]]:
    """Stations by what they are [in]. Raises: Unfit for what is not among `known`, or can't be read."""
    wrong: dict[Path, str] = {
        (*at, key): f"Nothing of that kind. Known: {', '.join(known)}." for key in moved.keys() - set(known)
    }
    found = {key: _gather(wrong, stations_in, texts, (*at, key)) for key, texts in moved.items()}
    if wrong:
        raise Unfit(wrong)
    return {key: stations for key, stations in found.items() if stations is not None}


def plan(job: Job, edition_key: str = "", today: str = "") -> Plan:
    """The walls of a job, built as far as they can be.

    Args: edition_key: another set than the job's own. today: the day listings are judged by. Raises: BadInput.
    """
    unfit: dict[str, str] = {}
    types: dict[str, WallType] = {}
    walls: dict[str, Wall] = {}
    for name, texts in job.wall_types.items():
        value, _ = fields.read(WallType, texts)
        if value is not None:
            types[name] = value
    for entry in job.walls:
        try:
            walls[entry.name] = build_wall(entry, types)
        except Unfit as error:
            unfit[entry.name] = f"Wall {entry.name} can't be built: {error}"
    site, _ = fields.read(Site, job.site)
    return Plan(edition(edition_key or job.edition), site or Site(), walls, unfit, today)


def check(job: Job, edition_key: str = "", today: str = "") -> tuple[Checked, ...]:
    """Every attachment of a job, in order. Raises: BadInput for an unknown edition."""
    standing = plan(job, edition_key, today)
    return tuple(standing.check(entry) for entry in job.attachments)
