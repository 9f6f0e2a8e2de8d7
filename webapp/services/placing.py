"""Placing plans of a job and of a wall, from what is typed and from what is kept; the office's own hold points."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from sqlalchemy.orm import Session

from engine import fields
from engine.editions import edition
from engine.errors import BadInput
from engine.placing import (
    HOLD_POINTS,
    HoldPoint,
    Inputs,
    Largest,
    PlacingPlan,
    by_temperature,
    placing_plan,
    read_hold_points,
    runs,
    write_hold_points,
)
from engine.wall import Wall as Built
from webapp.models import Office, Wall
from webapp.services import offices, walls
from webapp.services.refusals import Refused
from webapp.services.standing import Standing, same, stamp, stand, touch
from webapp.store import Database, reading, writing

SPECS = fields.specs(Inputs)
MOST_POINTS = 40
Texts = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Site:
    """A job where concrete is to be placed. Args: points: the office's hold points. own_list: whether it has its own."""

    standing: Standing
    points: tuple[HoldPoint, ...]
    own_list: bool

    @property
    def storeys(self) -> int:
        """Of its highest wall."""
        return max((len(wall.storeys) for wall in self.standing.plan.walls.values()), default=0)

    def at(self, level: int) -> dict[int, Wall]:
        """The walls with a storey there that can be built, by id in the job's order."""
        return {i: row for i, row in self.standing.walls.items() if (b := self._built(row)) and level <= len(b.storeys)}

    def unfit(self) -> dict[str, str]:
        """Walls that can't be built, and why."""
        return dict(self.standing.plan.unfit)

    def _built(self, row: Wall) -> Built | None:
        return self.standing.plan.walls.get(row.name)

    def why_none(self, level: int, wall_ids: Sequence[int]) -> str:
        """Why nothing is to be placed."""
        names = [self.standing.walls[i].name for i in wall_ids if i in self.standing.walls]
        why = [self.standing.plan.unfit.get(name, f"Wall {name} has no storey {level}.") for name in names]
        return " ".join(why) or "Tick at least one wall that has this storey."

    def chosen(self, level: int, wall_ids: Iterable[int]) -> list[Built]:
        """Those of the walls that are at that level."""
        wanted = set(wall_ids)
        return [self.standing.plan.walls[row.name] for i, row in self.at(level).items() if i in wanted]


@dataclass(frozen=True, slots=True)
class Placement:
    """What came of typed texts: a plan with the rates of colder and warmer concrete, or what is to be mended."""

    plan: PlacingPlan | None = None
    rates: tuple[tuple[float, Largest], ...] = ()
    refused: Mapping[str, str] = field(default_factory=dict)


def site(db: Database, job_id: int) -> Site:
    """A job ready to be planned. Raises: Missing."""
    with reading(db) as session:
        standing = stand(session, job_id)
        row = offices.office(session, standing.job.office_id)
        return Site(standing, points_of(row), bool(row.hold_points))


def plan(at: Site, texts: Texts, level: int, wall_ids: Sequence[int]) -> Placement:
    """Texts of `Inputs` as a plan of those walls' storey; nothing is kept."""
    inputs, errors = fields.read(Inputs, texts)
    if inputs is None:
        return Placement(refused=errors)
    chosen = at.chosen(level, wall_ids)
    if not chosen:
        return Placement(refused={"walls": at.why_none(level, wall_ids)})
    try:
        placed = runs(chosen, level)
        found = placing_plan(inputs, placed, edition(at.standing.job.edition), at.points)
    except BadInput as error:
        return Placement(refused={error.field: error.message})
    return Placement(found, by_temperature(inputs, placed))


def differing(texts: Texts, base: Texts) -> dict[str, str]:
    """Of texts that can be read, those that mean something else than the base does, each with its text.

    Raises: Refused with a message for each that can't be read.
    """
    typed, errors = fields.read(Inputs, texts)
    if typed is None:
        raise Refused(errors)
    before = offices.usable(Inputs, base)
    return {
        s.name: texts[s.name]
        for s in SPECS
        if s.name in texts and getattr(typed, s.name) != getattr(before, s.name)
    }  # fmt: skip


def save_job(db: Database, job_id: int, texts: Texts, version: int) -> None:
    """Keep a job's answers, those that are not the usual ones. Raises: Refused, Missing, Stale."""
    own = differing(texts, {})
    with writing(db) as session:
        job = touch(session, job_id)
        same(job, version)
        job.placing = own
        stamp(job, job)


def save_wall(db: Database, job_id: int, wall_id: int, texts: Texts, version: int) -> int:
    """Keep a wall's answers, those that are not the job's. Returns: how many are its own. Raises: Refused, Missing, Stale."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = walls.find(session, job_id, wall_id)
        same(row, version)
        row.placing = differing(texts, job.placing)
        stamp(row, job)
        return len(row.placing)


def points_of(row: Office) -> tuple[HoldPoint, ...]:
    """An office's hold points; the published ones where it has no list of its own, or one that can't be read."""
    try:
        return read_hold_points(row.hold_points) or HOLD_POINTS
    except BadInput:
        return HOLD_POINTS


def kept_points(session: Session, office_id: int) -> tuple[int, tuple[HoldPoint, ...], bool]:
    """An office's version, its hold points, and whether they are its own."""
    row = offices.office(session, office_id)
    return row.version, points_of(row), bool(row.hold_points)


def save_points(db: Database, office_id: int, rows: Sequence[Texts], version: int) -> None:
    """Keep an office's list; the published list is kept as none. Raises: Refused by "<row>-<text>", rows from 1; Stale."""
    if not rows:
        raise Refused({"": "Keep at least one point, or go back to the published list."})
    if len(rows) > MOST_POINTS:
        raise Refused({"": f"Keep at most {MOST_POINTS} points."})
    try:
        points = read_hold_points(rows)
    except BadInput as error:
        raise Refused({error.field: error.message}) from None
    kept = [] if points == HOLD_POINTS else [dict(row) for row in write_hold_points(points)]
    offices.save(db, version, {"hold_points": kept}, office_id)
