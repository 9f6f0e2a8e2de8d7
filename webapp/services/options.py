"""Ways of carrying a floor line: the line as the search takes it, what was found as columns to compare, and choosing one."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from hashlib import sha256

from sqlalchemy import Select, select
from sqlalchemy.orm import Session

from engine import attachments as kinds
from engine import fields
from engine.errors import BadInput
from engine.job import STATION
from engine.options import (
    OFFERS,
    Candidate,
    Comparison,
    Failed,
    Line,
    Ranked,
    Rates,
    choose,
    compare,
    demands,
)
from engine.options import Refused as NotOffered
from engine.options import Search as Searched
from engine.placed import Place
from engine.result import Verdict
from engine.solve import Remedy, Slip
from engine.units import feet_inches
from webapp.models import Attachment, FloorLine
from webapp.models.base import now
from webapp.services import attachments, checks, floor_lines, offices
from webapp.services.clock import today
from webapp.services.refusals import Missing, Refused
from webapp.services.standing import Standing, stamp, stand, touch
from webapp.store import Database, reading, writing

KINDS = tuple(dict.fromkeys(offer.kind for offer in OFFERS))  # one column each, in the order they are offered
START = fields.spec(Place, "start_ft")


@dataclass(frozen=True, slots=True)
class Asked:
    """A floor line and what a search needs of it. Args: key: the same for the same numbers. rates: the office's own."""

    found: floor_lines.Line
    standing: Standing
    line: Line
    key: str
    rates: Rates


def ask(session: Session, job_id: int, line_id: int) -> Asked:
    """A line ready to be searched. Raises: Missing; Refused where its own numbers can't be used."""
    standing, row = stand(session, job_id), floor_lines.find(session, job_id, line_id)
    found = floor_lines.in_place(standing, row, floor_lines.carriers(session, job_id))
    floor, place = found.laid.floor, found.laid.place
    if floor is None or place is None:
        raise Refused({"": found.why})
    wall = standing.plan.walls[found.wall]
    office = offices.office(session, standing.job.office_id)
    run = place if place.end_ft is not None else replace(place, end_ft=wall.line.length_ft)
    line = Line(floor, run, wall, standing.plan.site, standing.plan.edition, office.standards, today())
    key = f"{job_id}-{line_id}-{sha256(repr(line).encode()).hexdigest()[:24]}"
    return Asked(found, standing, line, key, offices.usable(Rates, office.rates))


@dataclass(frozen=True, slots=True)
class Column:
    """The best of one kind.

    Args: name: of the way, or of the kind where none could be tried. rank: its place among all that hold, from 1; 0 where none of
    the kind holds and this is the one that fails by least. candidate: None where none could be tried. why: then why not. asks:
    what it asks of the wall.
    """

    kind: str
    name: str
    rank: int = 0
    candidate: Candidate | None = None
    why: str = ""
    asks: tuple[Slip | Remedy, ...] = ()


@dataclass(frozen=True, slots=True)
class Found:
    """What a search came to. Args: tried: how many candidates."""

    comparison: Comparison
    columns: tuple[Column, ...]
    tried: int

    def ranked(self, rank: int) -> Ranked:
        """One that holds, by its place from 1. Raises: Missing."""
        if not 1 <= rank <= len(self.comparison.ranked):
            raise Missing
        return self.comparison.ranked[rank - 1]


def found(search: Searched) -> Found:
    """A finished search, compared."""
    comparison = compare(search)
    return Found(comparison, tuple(_column(kind, comparison) for kind in KINDS), comparison.checked)


def _column(kind: str, comparison: Comparison) -> Column:
    for rank, one in enumerate(comparison.ranked, 1):
        if one.candidate.way.offer.kind == kind:
            return _of(one.candidate, rank)
    failed = [one for one in comparison.failed if one.nearest.way.offer.kind == kind]
    if failed:
        return _of(min(failed, key=_short).nearest, 0)
    why = " ".join(dict.fromkeys(one.why for one in comparison.refused if one.offer.kind == kind))
    return Column(kind, kinds.kind(kind).name, why=why or "Nothing of this kind was tried.")


def _of(candidate: Candidate, rank: int) -> Column:
    offer = candidate.way.offer
    return Column(offer.kind, offer.name, rank, candidate, candidate.clash, demands(candidate))


def _short(failed: Failed) -> tuple[int, float]:
    """How far the nearest of them is from holding: a flag before a refusal before a clash, then by its ratio."""
    order = {Verdict.FLAG: 0, Verdict.REFER: 1}.get(failed.nearest.verdict or Verdict.UNCHECKED, 2)
    return order, failed.nearest.ratio or float("inf")


def refused_for_listing(one: NotOffered) -> bool:
    """Whether the office can mend a refusal by typing what a part's own listing gives."""
    return bool(one.offer.listed) and any(
        fields.spec(kinds.kind(one.offer.kind).inputs, name).label.lower() in one.why for name in one.offer.listed
    )


def typed(asked: Asked, candidate: Candidate) -> tuple[attachments.Typed, ...]:
    """The attachments that carry the line in that way: one along its run, or one at each joist."""
    chosen, row = choose(candidate), asked.found.row
    level = str(row.level)
    if chosen.inputs.get("carried") == "joist" and asked.found.joists:
        stations = asked.found.joists.stations
        return tuple(
            attachments.Typed(chosen.kind, row.wall_id, level, _station(at), "", chosen.inputs) for at in stations
        )
    end = row.end.strip() or asked.standing.walls[row.wall_id].line["length_ft"]
    return (attachments.Typed(chosen.kind, row.wall_id, level, row.start, end, chosen.inputs),)


def _station(at_in: float) -> str:
    """A station as the text to keep: in feet and inches where sixteenths hold it."""
    if abs(at_in * 16 - round(at_in * 16)) < 1e-9:
        return feet_inches(at_in)
    return f"{fields.write_one(STATION, at_in)} in"


@dataclass(frozen=True, slots=True)
class Made:
    """What a choice did. Args: tags: of the new attachments. gone: of those put away for them. change: marks it to take it back."""

    tags: tuple[str, ...]
    gone: tuple[str, ...]
    change: int


def make(db: Database, asked: Asked, candidate: Candidate, instead_of: Sequence[str] = ()) -> Made:
    """Carry the line that way, all in one transaction.

    Args: instead_of: attachments to put away for it. Raises: Refused where a number can't stand in its place; nothing is done then.
    """
    job_id, wanted = asked.standing.job.id, typed(asked, candidate)
    for one in wanted:
        attachments.usable(asked.standing, one)
    with writing(db) as session:
        job = touch(session, job_id)
        for tag in instead_of:
            row = attachments.find(session, job_id, tag)
            row.deleted_at = now()
            stamp(row, job)
        tags = tuple(attachments.add(session, job, one).tag for one in wanted)
        change = job.changes
    checks.refresh(db, job_id)
    return Made(tags, tuple(instead_of), change)


def turn_back(db: Database, job_id: int, line_id: int, change: int) -> Made:
    """Take a choice back: put away what it made, bring back what it put away; what was changed since stays as it is.

    Raises: Refused where nothing is left of it; Missing.
    """
    with writing(db) as session:
        job = touch(session, job_id)
        line = floor_lines.find(session, job_id, line_id)
        rows = session.scalars(_marked(line, change)).all()
        if not rows:
            raise Refused({"": "Nothing is left of that choice to take back."})
        made: list[str] = []
        gone: list[str] = []
        for row in rows:
            (gone if row.deleted_at is None else made).append(row.tag)
            row.deleted_at = now() if row.deleted_at is None else None
            row.checked_engine = ""
            stamp(row, job)
        change = job.changes
    checks.refresh(db, job_id)
    return Made(tuple(made), tuple(gone), change)


def _marked(line: FloorLine, change: int) -> Select[Attachment]:
    """The attachments beside a line as one change left them."""
    return (
        select(Attachment)
        .where(
            Attachment.job_id == line.job_id,
            Attachment.wall_id == line.wall_id,
            Attachment.level == line.level,
            Attachment.version == change,
        )
        .order_by(Attachment.number)
    )


def beside(db: Database, job_id: int, line_id: int) -> Asked:
    """`ask` in a transaction of its own. Raises: as that."""
    with reading(db) as session:
        try:
            return ask(session, job_id, line_id)
        except BadInput as error:
            raise Refused({error.field: error.message}) from None
