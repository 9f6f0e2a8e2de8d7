"""A job's attachments as tasks to set out: what each kind puts along its wall. The only place that knows both."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import ceil
from typing import Any

from engine import attachments, fields
from engine.attachments.anchored_plate.inputs import Inputs as Anchored
from engine.attachments.beam_pocket.inputs import Inputs as BeamPocket
from engine.attachments.bolted_ledger.inputs import Inputs as Ledger
from engine.attachments.cast_in_plate.inputs import Inputs as CastIn
from engine.attachments.gable_end.geometry import geometry as gable_of
from engine.attachments.gable_end.inputs import Inputs as GableEnd
from engine.attachments.ledge_seat.inputs import Inputs as LedgeSeat
from engine.attachments.sill_plate.inputs import Inputs as Sill
from engine.attachments.veneer_ledge.inputs import Inputs as Veneer
from engine.clauses.us.anchors_lines_geometry import least_spacing_in
from engine.clauses.us.bars import bar
from engine.clauses.us.irc_sills import PER_PIECE, end_distance_window_in
from engine.clauses.us.timber_materials import bolt, lumber
from engine.errors import BadInput
from engine.job import AttachmentEntry, Job, Plan, moved_in, plan, stations_in
from engine.placed import Place
from engine.setting_out import (
    WORDS,
    Band,
    Bolts,
    Finding,
    FloorLine,
    Habits,
    Plates,
    Pocket,
    SettingOut,
    Spaced,
    Stirrups,
    Task,
    set_out,
)
from engine.setting_out.rules import EPS
from engine.setting_out.tasks import Moved

SEAT_IN = 1.0  # an inch of lintel at the least under what bears on it; common practice
JOIST_IN = 1.5  # a joist whose width is not asked: a dressed 2 in member, DOC PS 20 Table 3. provenance: memory
CARRY_JOISTS = ("ledge_seat", "sill_plate", "bolted_ledger", "cast_in_plate")

Parts = Mapping[str, Any]  # parts of a Task by name


@dataclass(frozen=True, slots=True)
class Asked:
    """What is set out beside the attachments themselves.

    Args: lines: floor lines as laid out. habits: of the office. moved: stations moved by hand, by attachment tag, then by what
    they are. brackets: those of walls moved by hand, by (wall, level).
    """

    lines: Sequence[FloorLine] = ()
    habits: Habits = field(default_factory=Habits)
    moved: Mapping[str, Moved] = field(default_factory=dict)
    brackets: Mapping[tuple[str, int], Moved] = field(default_factory=dict)


def asked(job: Job, standing: Plan, habits: Habits | None = None) -> Asked:
    """What a job itself says of its setting out. A floor line that can't be used stays out; `Plan.floor_line` says why.

    Args: standing: the job's plan. habits: of the office. Raises: Unfit for stations that can't be read.
    """
    lines = []
    for entry in job.floor_lines:
        laid = standing.floor_line(entry)
        if laid.floor and laid.place:
            at = laid.place
            lines.append(laid.floor.laid_out(entry.wall, at.level, at.start_ft, at.end_ft))
    moved = {entry.tag: moved_in(entry.moved, WORDS) for entry in job.attachments if entry.moved}
    brackets = {
        (entry.name, int(level)): {"bracket": stations_in(texts)}
        for entry in job.walls
        for level, texts in entry.brackets.items()
    }
    return Asked(tuple(lines), habits or Habits(), moved, brackets)


@dataclass(frozen=True, slots=True)
class _Where:
    """An attachment's place: run in feet, and the height of its storey [in]."""

    place: Place
    storey_in: float

    def line(self, spacing: float, first: float | None, width: float, depth: float) -> FloorLine:
        """The joists its own inputs describe; at multiples of their spacing from the wall's named end where no first is typed."""
        start = self.place.start_ft * 12
        if first is None:
            first = ceil((start + width / 2) / spacing - EPS) * spacing - start
        return FloorLine(
            "", self.place.level, self.place.start_ft, self.place.end_ft, spacing, max(first, width / 2), width, depth
        )


def set_job(job: Job, asked: Asked | None = None, edition_key: str = "") -> tuple[SettingOut, ...]:
    """Everything a job sets out, wall by wall. Raises: BadInput for an unknown edition."""
    standing = plan(job, edition_key)
    return tuple(entry for name in standing.walls for entry in set_wall(standing, name, job.attachments, asked))


def set_wall(
    standing: Plan, name: str, entries: Sequence[AttachmentEntry], asked: Asked | None = None
) -> tuple[SettingOut, ...]:
    """Everything on one wall: its attachments in order, then what belongs to the wall itself.

    An attachment whose inputs can't be used has one finding "refused" that says why. Raises: BadInput for a habit out of its range.
    """
    asked = asked or Asked()
    fields.validate(asked.habits)
    wall = standing.walls[name]
    tasks = [task_of(standing, entry, asked) for entry in entries if entry.wall == name]
    brackets = {level: moved for (of, level), moved in asked.brackets.items() if of == name}
    done = iter(set_out(wall, [t for t in tasks if isinstance(t, Task)], asked.habits, brackets))
    return (*(next(done) if isinstance(t, Task) else t for t in tasks), *done)


def task_of(standing: Plan, entry: AttachmentEntry, asked: Asked) -> Task | SettingOut:
    """What one attachment sets out, or why it can't be."""
    place, _ = fields.read(Place, entry.place_texts)
    try:
        checked = standing.inputs(entry)
    except BadInput as error:  # a kind this program has not
        return _refused(entry, place, error.message)
    if checked.inputs is None or place is None:
        said = [f"{_label(entry.kind, name)}: {message}" for name, message in checked.refused.items()]
        return _refused(entry, place, " ".join(said))
    wall = standing.walls[entry.wall]
    try:
        _, _, storey = wall.at_level(place.level)
        parts = KINDS[entry.kind](checked.inputs, _Where(place, storey.height_ft * 12)) if entry.kind in KINDS else {}
    except BadInput as error:
        return _refused(entry, place, error.message)
    line, notes = _laid_out(entry, place, parts.get("line"), asked.lines)
    end = None if place.end_ft is None else place.end_ft * 12
    return Task(
        entry.tag, entry.kind, place.level, place.start_ft * 12, end, line, moved=asked.moved.get(entry.tag, {}),
        notes=(*notes, *parts.get("notes", ())), **{name: part for name, part in parts.items() if name not in ("line", "notes")},
    )  # fmt: skip


def _refused(entry: AttachmentEntry, place: Place | None, said: str) -> SettingOut:
    start = place.start_ft * 12 if place else 0.0
    end = place.end_ft * 12 if place and place.end_ft is not None else start
    finding = Finding("refused", "", start, 0.0, said.replace("{", "(").replace("}", ")"))
    return SettingOut(entry.tag, entry.kind, entry.wall, entry.level, start, end, findings=(finding,))


def _label(kind: str, name: str) -> str:
    known = {s.name: s.label for s in (*fields.specs(Place), *fields.specs(attachments.kind(kind).inputs))}
    return known.get(name, name.capitalize())


def _laid_out(
    entry: AttachmentEntry, place: Place, own: FloorLine | None, lines: Sequence[FloorLine]
) -> tuple[FloorLine | None, tuple[Finding, ...]]:
    """The floor line that covers the attachment, cut to its run and going on in the same layout; its own joists where none does."""
    if entry.kind not in CARRY_JOISTS or place.end_ft is None:
        return own, ()
    end = place.end_ft
    for line in lines:
        far = float("inf") if line.end_ft is None else line.end_ft
        if (
            (line.wall, line.level) != (entry.wall, place.level)
            or line.start_ft > place.start_ft + EPS
            or far < end - EPS
        ):
            continue
        fields.validate(line)
        into, step = (place.start_ft - line.start_ft) * 12, line.joist_spacing_in
        skipped = max(ceil((into + line.joist_width_in / 2 - line.first_joist_in) / step - EPS), 0)
        first = line.first_joist_in + skipped * step - into
        last = line.last_joist and abs(far - end) < EPS
        cut = replace(
            line, start_ft=place.start_ft, end_ft=place.end_ft, first_joist_in=first, last_joist=last,
            depth_in=SEAT_IN if own is None else own.depth_in,
        )  # fmt: skip
        return cut, _differs(own, line, place)
    return own, ()


def _differs(own: FloorLine | None, line: FloorLine, place: Place) -> tuple[Finding, ...]:
    by = 0.0 if own is None else line.joist_spacing_in - own.joist_spacing_in
    if own is None or abs(by) < EPS:
        return ()
    say = "The floor line has joists {line} apart; this attachment was checked with {own}. Check it again."
    facts = {"line": (line.joist_spacing_in, "in"), "own": (own.joist_spacing_in, "in")}
    return (Finding("spacing differs", "joist", place.start_ft * 12, abs(by), say, facts),)


def _ledge_seat(i: LedgeSeat, at: _Where) -> Parts:
    line = at.line(i.joist_spacing_in, None, i.joist_width_in, SEAT_IN)
    if i.plate == "none":
        return {"line": line}
    D = float(i.bolt)
    low, high = end_distance_window_in(D)
    bolts = Bolts(
        i.bolt_spacing_in, least_spacing_in(D, False), low, high, i.plate_piece_ft * 12, Band(-i.bolt_embedment_in, 0.0),
        "joist", i.joint_clear_in, least=PER_PIECE, end_checked_in=i.bolt_end_in,
    )  # fmt: skip
    return {"line": line, "bolts": bolts}


def _sill_plate(i: Sill, at: _Where) -> Parts:
    D = bolt(i.bolt).D_in
    low, high = end_distance_window_in(D, "IBC" if i.code == "IBC" else "IRC")
    bolts = Bolts(
        i.spacing_in, least_spacing_in(D, i.torqued), low, high, i.piece_ft * 12, Band(-i.embedment_in, 0.0), "joist",
        least=PER_PIECE, end_checked_in=i.end_in,
    )  # fmt: skip
    return {"bolts": bolts}


def _bolted_ledger(i: Ledger, at: _Where) -> Parts:
    D, depth = bolt(i.bolt).D_in, lumber(i.size).d_in
    low, high = end_distance_window_in(D)
    tied = i.ties == "listed"
    bolts = Bolts(
        i.spacing_in, least_spacing_in(D, i.torqued), low, high, i.piece_ft * 12, Band(-depth, 0.0), "hanger",
        each=i.rows if not i.staggered else 1, least=PER_PIECE, tie_in=i.tie_spacing_in if tied else None,
        ties_at_bolts=tied and i.tie_anchor == "ledger bolt", end_checked_in=i.end_in, worse="farther",
    )  # fmt: skip
    if i.direction != "perpendicular":
        return {"bolts": bolts}
    return {"line": at.line(i.joist_spacing_in, i.first_joist_in, JOIST_IN, depth), "bolts": bolts}


def _cast_in_plate(i: CastIn, at: _Where) -> Parts:
    width = i.wood_in if i.joist == "sawn" else JOIST_IN
    line = at.line(i.spacing_in, None, max(width, 1.0), max(i.depth_in, i.plate_height_in))
    return {"line": line, "plates": Plates(i.t_in / 2, i.gap_in)}


def _anchored_plate(i: Anchored, at: _Where) -> Parts:
    several = i.carried == "ledger" and at.place.end_ft is not None
    return {"anchored": Spaced(i.width_in, Band(-i.height_in, 0.0), i.spacing_in if several else None)}


def _beam_pocket(i: BeamPocket, at: _Where) -> Parts:
    seat = i.seat_height_ft * 12 - at.storey_in
    band = Band(seat - SEAT_IN, seat + i.pocket_height_in)
    return {"pocket": Pocket(i.pocket_width_in, band, i.bars_cut, i.bars_added, bar(i.vertical_bar).d_b_in)}


def _veneer_ledge(i: Veneer, at: _Where) -> Parts:
    top = i.ledge_height_ft * 12 - at.storey_in
    extra = i.corner_stirrups if i.corner == "outside" else 0
    return {"stirrups": Stirrups(i.web_spaces, Band(top - i.depth_in, top), bar(i.stirrup).d_b_in, extra)}


def _gable_end(i: GableEnd, at: _Where) -> Parts:
    """Its bolts stand along the rakes, which no station of the wall names: they are told as notes, from the eave."""
    start, run = at.place.start_ft * 12, at.place.length_in
    notes = []
    if abs(run - i.base_ft * 12) > EPS:
        say = "The gable was checked {base} wide and its place here is {run} long. Make both agree."
        facts = {"base": (i.base_ft, "ft"), "run": (run / 12, "ft")}
        notes.append(Finding("gable width", "joint", start, abs(run - i.base_ft * 12), say, facts))
    for n, piece in enumerate(gable_of(i).pieces, 1):
        facts = {"from": (piece.start_in, "station"), "to": (piece.end_in, "station")}
        facts |= {f"b{k}": (along, "station") for k, along in enumerate(piece.bolts_in)}
        bolts = ", ".join(f"{{b{k}}}" for k in range(len(piece.bolts_in)))
        say = f"Rake plate {n}, {piece.rake} rake, {{from}} to {{to}} from the eave: bolts along the slope at {bolts}."
        notes.append(Finding(f"rake plate {n}", "anchor", start, 0.0, say, facts, note=True))
    return {"notes": tuple(notes)}


KINDS: Mapping[str, Callable[[Any, _Where], Parts]] = {
    "ledge_seat": _ledge_seat,
    "sill_plate": _sill_plate,
    "bolted_ledger": _bolted_ledger,
    "cast_in_plate": _cast_in_plate,
    "anchored_plate": _anchored_plate,
    "beam_pocket": _beam_pocket,
    "veneer_ledge": _veneer_ledge,
    "gable_end": _gable_end,
}
