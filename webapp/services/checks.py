"""Checks: of typed numbers alone, and of a job's attachments, whose summaries are kept until something they rest on changes."""

from collections.abc import Mapping
from functools import cache
from typing import Any

from sqlalchemy import func, select, update
from sqlalchemy.orm import Session

from engine import VERSION, attachments, fields, solve
from engine.editions import Edition, edition
from engine.errors import BadInput
from engine.job import Checked, Job, check
from engine.result import Verdict
from webapp.models import Attachment
from webapp.models import Job as JobRow
from webapp.services.clock import today
from webapp.services.holding import hold
from webapp.services.kept import Kept
from webapp.services.standing import Standing, attachment_hash, stand
from webapp.store import Database, reading, writing

TRIES = 5
# solving takes some hundred checks: a tenth of a second and more
_REMEDIES = Kept[tuple[solve.Remedy, ...]](500)
_SLIPS = Kept[tuple[solve.Slip, ...]](500)


def offered() -> tuple[attachments.Kind, ...]:
    """The kinds of attachment there are, in the order they are offered."""
    return tuple(kind for kind in attachments.KINDS.values() if _built(kind))


def _built(kind: attachments.Kind) -> bool:
    try:
        return bool(kind.inputs)
    except ModuleNotFoundError:
        return False


def judge(kind_key: str, texts: Mapping[str, str], edition_key: str) -> Checked:
    """Check typed numbers that belong to no job, today unless another day is typed.

    Raises: BadInput for an unknown kind or edition.
    """
    kind, chosen = attachments.kind(kind_key), edition(edition_key)
    days = {s.name: today() for s in fields.specs(kind.inputs) if s.wall == "job.today"}
    inputs, errors = fields.read(kind.inputs, {**days, **texts})
    if inputs is None:
        return Checked(refused=errors)
    try:
        return Checked(inputs, attachments.check(kind_key, inputs, chosen))
    except BadInput as error:
        return Checked(inputs, None, {error.field: error.message})


def whole(job: Job, edition_key: str) -> tuple[Checked, ...]:
    """Every attachment of a job that is in no database. Raises: BadInput for an unknown edition."""
    return check(job, edition_key, today())


def remedies(kind_key: str, inputs: Any, chosen: Edition) -> tuple[solve.Remedy, ...]:
    """What would make a flagged attachment pass, each found by the check itself."""
    return _REMEDIES.of((kind_key, inputs, chosen), lambda: solve.remedies(kind_key, inputs, chosen))


def slips(kind_key: str, inputs: Any, chosen: Edition) -> tuple[solve.Slip, ...]:
    """How far each number may move before a line flags; empty for what flags already."""
    return _SLIPS.of((kind_key, inputs, chosen), lambda: solve.slips(kind_key, inputs, chosen))


def summary(checked: Checked, edition_key: str) -> dict[str, Any]:
    """The columns an attachment keeps of its check."""
    result = checked.result
    stamp = {"checked_engine": VERSION, "checked_edition": edition_key, "checked_on": today()}
    if result is None:
        why = next(iter(checked.refused.values()), "")
        return {
            "verdict": Verdict.UNCHECKED.value,
            "ratio": None,
            "governs": why[:300],
            "lines": "",
            "to_measure": 0,
        } | stamp
    governing = result.governing
    return {
        "verdict": result.verdict.value,
        "ratio": governing.ratio if governing else None,
        "governs": governing.title[:300] if governing else "",
        "lines": result.lines_verdict,
        "to_measure": sum(state.verdict is Verdict.ADVISORY for state in result.states),
    } | stamp


@cache
def dated() -> tuple[str, ...]:
    """The kinds judged by the day: listings run out."""
    return tuple(kind.key for kind in offered() if any(s.wall == "job.today" for s in fields.specs(kind.inputs)))


def stale(edition_key: str) -> Any:
    """The condition that a summary no longer holds."""
    another_day = Attachment.kind.in_(dated()) & (Attachment.checked_on != today())
    return (Attachment.checked_engine != VERSION) | (Attachment.checked_edition != edition_key) | another_day


def forget(session: Session, *where: Any) -> None:
    """Mark the summaries of some attachments as no longer holding."""
    session.execute(update(Attachment).where(*where).values(checked_engine=""))


def refresh(db: Database, job_id: int) -> int:
    """Check again what is stale in a job.

    The checks run outside any transaction; their summaries are kept only if the job did not change meanwhile, else it is done over.
    Returns: how many were checked. Raises: Missing.
    """
    for _ in range(TRIES):
        with reading(db) as session:
            standing = stand(session, job_id)
            rows = session.scalars(
                select(Attachment).where(
                    Attachment.job_id == job_id,
                    Attachment.deleted_at.is_(None),
                    stale(standing.job.edition),
                )
            ).all()
        if not rows:
            return 0
        found = [_row(standing, row) for row in rows]
        with writing(db) as session:
            job = hold(session, JobRow, job_id)
            if job and job.changes == standing.job.changes:
                session.execute(update(Attachment), found)
                return len(found)
    return 0


def _row(standing: Standing, row: Attachment) -> dict[str, Any]:
    checked = _check(standing, row)
    mark = attachment_hash(standing.entry(row), checked.inputs)
    return {"id": row.id, "hash": mark, **summary(checked, standing.job.edition)}


def _check(standing: Standing, row: Attachment) -> Checked:
    try:
        return standing.check(row)
    except BadInput as error:
        return Checked(refused={error.field: error.message})


def count_stale(session: Session, job: JobRow) -> int:
    """How many summaries of a job no longer hold."""
    return (
        session.scalar(
            select(func.count())
            .select_from(Attachment)
            .where(Attachment.job_id == job.id, Attachment.deleted_at.is_(None), stale(job.edition))
        )
        or 0
    )
