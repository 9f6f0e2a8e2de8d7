"""Rows as the engine's entries, by what is imported. Every message is the engine's own, or names what the job has."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from engine.attachments import Kind
from engine.errors import BadInput
from engine.fields import read_one, spec, specs
from engine.floor import Floor
from engine.job import HEIGHT, AttachmentEntry, FloorLineEntry, Path, Unfit, WallEntry, build_wall
from engine.placed import Place
from engine.wall import Opening, WallLine, WallType
from webapp.forms.attachment import PLACE, place_errors
from webapp.forms.wall import MOST_ROWS
from webapp.imports.columns import folded
from webapp.imports.rows import Line, Wrong, no_wall, shapes
from webapp.imports.subjects import KIND, MOST_STOREYS, WALL, Subject, own_specs
from webapp.services.imports import Batch, State
from webapp.services.standing import wall_entry
from webapp.services.wall_types import check_name

LEVEL = spec(Place, "level")
Reader = Callable[[Subject, Sequence[Line], State, Wrong], Batch]


def _walls(subject: Subject, lines: Sequence[Line], state: State, wrong: Wrong) -> Batch:
    types, seen = shapes(state), {wall.name: "the job" for wall in state.standing.walls.values()}
    made = []
    for line in lines:
        entry = WallEntry(line.texts.get("name", ""), line.given(specs(WallLine)), _storeys(line))
        wrong.say(line.number, _name(entry.name, "wall", line, seen))
        if types:
            wrong.say(line.number, _untyped(entry, tuple(types)))
        try:
            build_wall(entry, types)
            made.append(entry)
        except Unfit as unfit:
            wrong.say(line.number, {_wall_key(path): message for path, message in unfit.messages.items()})
    return Batch(walls=tuple(made))


def _name(name: str, what: str, line: Line, seen: dict[str, str]) -> dict[str, str]:
    """Messages about a name, which is then one of those seen. Args: seen: where each name stands already."""
    errors = check_name(name, what)
    if name and name in seen:
        errors["name"] = f"There is a {what} {name} in {seen[name]} already. Choose another name."
    seen.setdefault(name, f"row {line.number}")
    return errors


def _storeys(line: Line) -> tuple[dict[str, str], ...]:
    """From the bottom up to the last one that has an entry."""
    entries = [
        {n: line.texts.get(f"storeys-{number}-{n}", "") for n in ("type", HEIGHT.name)}
        for number in range(1, MOST_STOREYS + 1)
    ]
    last = max((number for number, entry in enumerate(entries, 1) if any(entry.values())), default=0)
    height = line.given([HEIGHT])[HEIGHT.name]
    return tuple({"type": e["type"], HEIGHT.name: e[HEIGHT.name] or height} for e in entries[:last])


def _untyped(entry: WallEntry, types: Sequence[str]) -> dict[str, str]:
    return {
        f"storeys-{number}-type": f"Name a wall type: {', '.join(types)}."
        for number, storey in enumerate(entry.storeys, 1)
        if not storey["type"]
    }


def _wall_key(path: Path) -> str:
    if path[0] == "storeys":
        return f"storeys-{int(path[1]) + 1}-{path[2]}" if len(path) == 3 else "storeys-1-type"
    return str(path[-1]) if path[0] == "line" else "name"


def _openings(subject: Subject, lines: Sequence[Line], state: State, wrong: Wrong) -> Batch:
    types = shapes(state)
    standing = {wall.name: wall_entry(wall) for wall in state.standing.walls.values()}
    made: dict[str, list[Mapping[str, str]]] = {}
    for line in lines:
        name = line.texts.get(WALL, "")
        errors = no_wall(line, state)
        if not errors:
            texts = line.given(specs(Opening))
            wider = replace(standing[name], openings=(*standing[name].openings, texts))
            errors = _opening_errors(wider, types)
            if not errors:
                standing[name] = wider
                made.setdefault(name, []).append(texts)
        wrong.say(line.number, errors)
    return Batch(openings=made)


def _opening_errors(entry: WallEntry, types: Mapping[str, WallType]) -> dict[str, str]:
    """What is wrong with the last opening of a wall whose others fit."""
    if len(entry.openings) > MOST_ROWS:
        return {WALL: f"A wall takes at most {MOST_ROWS} openings."}
    try:
        build_wall(entry, types)
    except Unfit as unfit:
        return {str(path[-1]) if len(path) == 3 else "start_ft": message for path, message in unfit.messages.items()}
    return {}


def _place(line: Line, wrong: Wrong) -> tuple[int, str, str]:
    """Level, start and end as typed; a level that is no number is said, and stands for 1."""
    texts = line.given(specs(Place), PLACE)
    try:
        level = int(read_one(LEVEL, texts["level"]))
    except BadInput as error:
        wrong.say(line.number, {f"{PLACE}level": error.message})
        level = 1
    return level, texts["start_ft"], texts["end_ft"]


def _floor_lines(subject: Subject, lines: Sequence[Line], state: State, wrong: Wrong) -> Batch:
    seen = dict.fromkeys(state.lines, "the job")
    made = []
    for line in lines:
        wrong.say(line.number, _name(line.texts.get("name", ""), "floor line", line, seen) | no_wall(line, state))
        level, start, end = _place(line, wrong)
        inputs = line.given(specs(Floor))
        entry = FloorLineEntry(line.texts.get("name", ""), line.texts.get(WALL, ""), level, start, end, inputs)
        wrong.say(line.number, place_errors(state.standing.plan.floor_line(entry).refused))
        made.append(entry)
    return Batch(floor_lines=tuple(made))


def _attachments(subject: Subject, lines: Sequence[Line], state: State, wrong: Wrong) -> Batch:
    assert subject.kind is not None
    own, made = own_specs(subject.kind), []
    for line in lines:
        wrong.say(line.number, _another_kind(line, subject.kind) | no_wall(line, state))
        level, start, end = _place(line, wrong)
        entry = AttachmentEntry(
            "",
            subject.kind.key,
            line.texts.get(WALL, ""),
            level,
            start,
            "" if subject.kind.point else end,
            line.given(own),
        )
        wrong.say(line.number, place_errors(state.standing.plan.inputs(entry).refused))
        made.append(entry)
    return Batch(attachments=tuple(made))


def _another_kind(line: Line, kind: Kind) -> dict[str, str]:
    named = folded(line.texts.get(KIND, ""))
    if not named or named in (folded(kind.key), folded(kind.name)):
        return {}
    return {KIND: f"This import takes “{kind.name}” only. Put other kinds into a sheet of their own."}


READERS: Mapping[str, Reader] = {"walls": _walls, "openings": _openings, "floor_lines": _floor_lines}


def entries(subject: Subject, lines: Sequence[Line], state: State, wrong: Wrong) -> Batch:
    """The rows that hold, as entries; what is wrong with the others is added to `wrong`."""
    return READERS.get(subject.key, _attachments)(subject, lines, state, wrong)
