"""Attachments of a job: listed by their kept summaries, made, changed, copied, put away and brought back."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import case, func, or_, select, true
from sqlalchemy.orm import Session

from engine import attachments as kinds
from engine.errors import BadInput
from engine.job import AttachmentEntry, Checked
from engine.result import Verdict
from webapp.models import Attachment, Job, Wall
from webapp.models.base import now
from webapp.services import checks
from webapp.services.designs import COVERABLE, DESIGNED, covering
from webapp.services.listing import Part, Wanted, holds
from webapp.services.refusals import Missing, Refused
from webapp.services.standing import Standing, on_wall, same, stamp, stand, touch
from webapp.store import Database, reading, writing

WORST_FIRST = case(
    {Verdict.FLAG.value: 0, Verdict.REFER.value: 1, Verdict.UNCHECKED.value: 2}, value=Attachment.verdict, else_=3
)
SORTS: Mapping[str, tuple[Any, ...]] = {
    "worst": (WORST_FIRST, Attachment.ratio.desc().nulls_first(), Attachment.number),
    "tag": (Attachment.number,),
    "wall": (Wall.sort, Wall.id, Attachment.number),
    "kind": (Attachment.kind, Attachment.number),
}
TO_MEASURE = "to measure"
MOST = 2000


@dataclass(frozen=True, slots=True)
class AttachmentRow:
    """An attachment in a list."""

    number: int
    kind: str
    wall: str
    level: int
    start: str
    end: str
    verdict: str
    ratio: float | None
    governs: str
    lines: str
    to_measure: int
    hash: str = ""
    designed: str = ""

    @property
    def shown(self) -> str:
        """The verdict, or that an engineer's design covers it; who, in `designed`."""
        return DESIGNED if self.designed else self.verdict

    @property
    def tag(self) -> str:
        """Its mark."""
        return f"A{self.number}"

    @property
    def place(self) -> str:
        """Where it sits, as typed."""
        run = f"{self.start} to {self.end}" if self.end else f"at {self.start}"
        return f"level {self.level}, {run}"

    @property
    def kind_name(self) -> str:
        """What the trade calls it; the key of a kind this program has not."""
        kind = kinds.KINDS.get(self.kind)
        return kind.name if kind else self.kind


COLUMNS = (
    Attachment.number, Attachment.kind, Wall.name, Attachment.level, Attachment.start, Attachment.end, Attachment.verdict,
    Attachment.ratio, Attachment.governs, Attachment.lines, Attachment.to_measure, Attachment.hash,
)  # fmt: skip


def _found(job_id: int, wanted: Wanted) -> list[Any]:
    found: list[Any] = [Attachment.job_id == job_id, Attachment.deleted_at.is_(None)]
    if wanted.q:
        named = [key for key, kind in kinds.KINDS.items() if wanted.q.lower() in kind.name.lower()]
        number = wanted.q.lower().removeprefix("a")
        found.append(
            or_(
                holds(Wall.name, wanted.q),
                holds(Attachment.governs, wanted.q),
                Attachment.kind.in_(named),
                Attachment.number == (int(number) if number.isdecimal() and len(number) < 9 else -1),
            )
        )
    return found


def _of_verdict(verdict: str) -> Any:
    if verdict == TO_MEASURE:
        return Attachment.to_measure > 0
    return Attachment.verdict == verdict if verdict else true()


def page(session: Session, job_id: int, wanted: Wanted) -> Part[AttachmentRow]:
    """One page of a job's attachments, from their summaries: two queries, no check."""
    found = _found(job_id, wanted)
    tally = (
        select(Attachment.verdict, func.count(), func.count(case((Attachment.to_measure > 0, 1))))
        .join(Wall)
        .where(*found)
        .group_by(Attachment.verdict)
    )
    counts, measure = {}, 0
    for verdict, count, to_measure in session.execute(tally):
        counts[verdict] = count
        measure += to_measure
    counts |= {"": sum(counts.values()), TO_MEASURE: measure}
    order = SORTS.get(wanted.sort, SORTS["worst"])
    query = select(*COLUMNS).join(Wall).where(*found, _of_verdict(wanted.verdict)).order_by(*order)
    rows = session.execute(query.limit(wanted.size).offset(wanted.offset))
    shown = _designed(session, job_id, [AttachmentRow(*row) for row in rows])
    return Part(tuple(shown), counts.get(wanted.verdict, 0), wanted, counts)


def _designed(session: Session, job_id: int, rows: list[AttachmentRow]) -> list[AttachmentRow]:
    """The same rows, each with the engineer whose design covers it."""
    covered = covering(session, job_id, {row.tag: row.hash for row in rows if row.verdict in COVERABLE})
    return [replace(row, designed=covered[row.tag].who) if row.tag in covered else row for row in rows]


def everything(session: Session, job_id: int, wanted: Wanted | None = None) -> list[AttachmentRow]:
    """All of a job's attachments that fit what is wanted, whatever the page."""
    asked = wanted or Wanted(sort="tag")
    order = SORTS.get(asked.sort, SORTS["worst"])
    query = select(*COLUMNS).join(Wall).where(*_found(job_id, asked), _of_verdict(asked.verdict)).order_by(*order)
    return _designed(session, job_id, [AttachmentRow(*row) for row in session.execute(query)])


def find(session: Session, job_id: int, tag: str) -> Attachment:
    """An attachment in use by its tag. Raises: Missing."""
    row = _any(session, job_id, tag)
    if row.deleted_at is not None:
        raise Missing
    return row


def _any(session: Session, job_id: int, tag: str) -> Attachment:
    number = tag.removeprefix("A")
    if not (tag.startswith("A") and number.isdecimal() and len(number) < 9):
        raise Missing
    row = session.scalar(select(Attachment).where(Attachment.job_id == job_id, Attachment.number == int(number)))
    if row is None:
        raise Missing
    return row


@dataclass(frozen=True, slots=True)
class Typed:
    """What a form says of an attachment: its kind, its place, its own inputs."""

    kind: str
    wall_id: int
    level: str
    start: str
    end: str
    inputs: Mapping[str, str]

    def entry(self, standing: Standing, tag: str = "") -> AttachmentEntry:
        """As the engine's job knows it. Raises: Refused for a wall that is not there or a level that is no number."""
        wall = standing.walls.get(self.wall_id)
        if wall is None:
            raise Refused({"wall": "Choose a wall of this job."})
        try:
            level = int(self.level)
        except ValueError:
            raise Refused({"level": "Enter a floor level: 1 at the top of the first storey."}) from None
        return AttachmentEntry(tag, self.kind, wall.name, level, self.start, self.end, self.inputs)


def check(standing: Standing, typed: Typed, tag: str = "") -> Checked:
    """What was typed, checked where it is to be; nothing is kept."""
    try:
        return standing.plan.check(typed.entry(standing, tag))
    except Refused as refused:
        return Checked(refused=refused.errors)
    except BadInput as error:
        return Checked(refused={error.field: error.message})


def save(db: Database, job_id: int, typed: Typed, tag: str = "", version: int = 0) -> str:
    """Make an attachment (tag "") or change one; its check may flag, its numbers must be usable.

    Returns: its tag. Raises: Refused, Missing, Stale.
    """
    with reading(db) as session:
        entry, inherited = usable(stand(session, job_id), typed)
    own = {name: text for name, text in entry.inputs.items() if name not in inherited}
    with writing(db) as session:
        job = touch(session, job_id)
        on_wall(session, job_id, typed.wall_id)
        if tag:
            row = find(session, job_id, tag)
            same(row, version)
        else:
            row = Attachment(job_id=job_id, number=_next(session, job_id), kind=typed.kind)
            session.add(row)
        row.wall_id, row.level, row.start, row.end = typed.wall_id, entry.level, entry.start, entry.end
        row.inputs, row.checked_engine = own, ""
        stamp(row, job)
        session.flush()
        tag = row.tag
    checks.refresh(db, job_id)
    return tag


def usable(standing: Standing, typed: Typed) -> tuple[AttachmentEntry, Iterable[str]]:
    """The entry and the names of the inputs that follow the wall. Raises: Refused."""
    entry = typed.entry(standing)
    try:
        checked = standing.plan.inputs(entry)
    except BadInput as error:
        raise Refused({error.field: error.message}) from None
    if checked.refused:
        raise Refused(checked.refused)
    return entry, checked.inherited


def _next(session: Session, job_id: int) -> int:
    """A number never used before in the job: a deleted tag is not given to something else."""
    mine = Attachment.job_id == job_id
    last = session.scalar(select(func.max(Attachment.number)).where(mine)) or 0
    if (session.scalar(select(func.count()).where(mine, Attachment.deleted_at.is_(None))) or 0) >= MOST:
        raise Refused({"": f"A job holds at most {MOST} attachments."})
    return last + 1


def copy(db: Database, job_id: int, tag: str, wall_ids: Iterable[int]) -> list[str]:
    """Put the same attachment on other walls, there following those walls; a run is cut to the length of its wall.

    Returns: the new tags. Raises: Refused naming the walls it can't stand on (nothing is copied then); Missing.
    """
    with reading(db) as session:
        standing, source = stand(session, job_id), find(session, job_id, tag)
    copies = _copies(standing, source, wall_ids)
    with writing(db) as session:
        job = touch(session, job_id)
        tags = [add(session, job, typed).tag for typed in copies]
    checks.refresh(db, job_id)
    return tags


def add(session: Session, job: Job, typed: Typed) -> Attachment:
    """Make one more of a held job; its inputs are known to be usable. Raises: Refused where there are too many."""
    on_wall(session, job.id, typed.wall_id)
    row = Attachment(
        job_id=job.id, number=_next(session, job.id), kind=typed.kind, wall_id=typed.wall_id,
        level=int(typed.level), start=typed.start, end=typed.end, inputs=dict(typed.inputs),
    )  # fmt: skip
    session.add(row)
    stamp(row, job)
    session.flush()
    return row


def _copies(standing: Standing, source: Attachment, wall_ids: Iterable[int]) -> list[Typed]:
    """What is to be made. Raises: Refused when there is nothing to make, or any can't stand where it is to be."""
    copies, errors = [], {}
    for wall_id in wall_ids:
        typed = _shortened(standing, source, wall_id)
        try:
            usable(standing, typed)
            copies.append(typed)
        except Refused as refused:
            name = standing.walls[wall_id].name if wall_id in standing.walls else ""
            errors[f"wall-{wall_id}"] = f"{name}: {next(iter(refused.errors.values()))}"
    if errors or not copies:
        raise Refused(errors or {"": "Choose at least one wall."})
    return copies


def _shortened(standing: Standing, source: Attachment, wall_id: int) -> Typed:
    typed = Typed(source.kind, wall_id, str(source.level), source.start, source.end, source.inputs)
    wall = standing.plan.walls.get(standing.walls[wall_id].name) if wall_id in standing.walls else None
    if wall is None or (kinds.kind(source.kind).point and not source.end):
        return typed
    checked = standing.plan.inputs(typed.entry(standing))
    if "end_ft" in checked.refused and "start_ft" not in checked.refused:
        return replace(typed, end=standing.walls[wall_id].line["length_ft"])
    return typed


def put_away(db: Database, job_id: int, tag: str, version: int | None = None) -> None:
    """Delete an attachment so that it can be brought back. Raises: Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = find(session, job_id, tag)
        same(row, version)
        row.deleted_at = now()
        stamp(row, job)


def bring_back(db: Database, job_id: int, tag: str) -> None:
    """Undo that. Raises: Refused while its wall is put away; Missing."""
    with writing(db) as session:
        job = touch(session, job_id)
        row = _any(session, job_id, tag)
        wall = session.get_one(Wall, row.wall_id)
        if wall.deleted_at is not None:
            raise Refused({"": f"{tag} stood on wall {wall.name}, which is deleted. Bring that wall back first."})
        row.deleted_at = None
        row.checked_engine = ""
        stamp(row, job)
    checks.refresh(db, job_id)
