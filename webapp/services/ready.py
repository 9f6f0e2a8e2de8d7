"""Ready to place? What must be so before concrete goes into one storey of one wall, what still blocks, who can clear it."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from engine import job_file
from engine.placing import HoldPoint
from engine.result import Verdict
from webapp.models import Attachment, Design, Job, LogEntry, Office, Release, ReviewItem, Revision, Wall
from webapp.permissions import ADMINISTRATOR, DESIGNER, INSPECTOR, OFFICE
from webapp.services import checks, designs, log, placing, reviews, revisions, setting_out
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused
from webapp.services.sign_in import Seen
from webapp.services.standing import Standing, as_typed, stand
from webapp.services.standing import held as held_job
from webapp.store import Database, reading, writing

BEFORE = "before placing"
WEATHER = "weather"  # what the day brings, written down like a release
LONGEST = 500
PROGRAM = Seen(0, 0, "", "", 0, "")  # who reads a review for this page: nobody in particular


@dataclass(frozen=True, slots=True)
class Need:
    """One thing that must be so. Args: says: how it stands, or what still blocks. who: roles that can clear it. path: where."""

    words: str
    met: bool
    says: str
    who: tuple[str, ...]
    path: str
    point: str = ""


@dataclass(frozen=True, slots=True)
class Ready:
    """One storey of one wall. Args: mark: how far everything it rests on had come. given: the last go-ahead in the log."""

    job: Job
    wall: Wall
    level: int
    needs: tuple[Need, ...]
    plan: placing.Placement
    mark: tuple[int | None, ...]
    given: LogEntry | None = None

    @property
    def state(self) -> str:
        """Where it stands, in words; a go-ahead no longer stands while something blocks."""
        if self.blocking:
            lines = f"{len(self.blocking)} of {len(self.needs)} block"
            return f"{lines} since the go-ahead" if self.given else lines
        return "go-ahead given" if self.given else "ready"

    @property
    def blocking(self) -> tuple[Need, ...]:
        """What is not so yet."""
        return tuple(need for need in self.needs if not need.met)


@dataclass(frozen=True, slots=True)
class _Known:
    """All of a job that placings are held against, read once.

    Args: frozen: the accepted revision's document, empty without one. now: the job's file as it is, without attachments. review:
    what was found of the accepted, else of the last revision.
    """

    standing: Standing
    site: placing.Site
    layout: setting_out.Layout
    rows: tuple[Attachment, ...]
    covered: Mapping[str, Design]
    accepted: Revision | None
    frozen: Mapping[str, Any]
    now: Mapping[str, Any]
    review: reviews.Review | None
    releases: tuple[Release, ...]
    mark: tuple[int | None, ...]
    given: tuple[LogEntry, ...]

    @property
    def job(self) -> Job:
        """The job."""
        return self.standing.job


def _known(db: Database, job_id: int) -> _Known:
    with reading(db) as session:
        mark = _mark(session, job_id)  # before all else, so that what changes while it is read counts as changed
    checks.refresh(db, job_id)
    site = placing.site(db, job_id)
    with reading(db) as session:
        standing = stand(session, job_id)
        of_job = (Attachment.job_id == job_id) & Attachment.deleted_at.is_(None)
        rows = tuple(session.scalars(select(Attachment).where(of_job).order_by(Attachment.number)))
        accepted = _accepted_revision(session, job_id)
        frozen = revisions.document(accepted) if accepted else {}
        now = json.loads(job_file.write(as_typed(standing.job, standing.types, standing.walls.values())))
        released = select(Release).where(Release.job_id == job_id).order_by(Release.id)
        given = (
            select(LogEntry).where(LogEntry.job_id == job_id, LogEntry.what == "go-ahead").order_by(LogEntry.seq.desc())
        )
        return _Known(
            standing, site, setting_out.of_standing(session, standing), rows,
            designs.covering(session, job_id, {row.tag: row.hash for row in rows}), accepted,
            frozen, now, _review(session, job_id, accepted),
            tuple(session.scalars(released)),
            mark, tuple(session.scalars(given)),
        )  # fmt: skip


def _review(session: Session, job_id: int, accepted: Revision | None) -> reviews.Review | None:
    row = accepted or revisions.latest(session, job_id)
    return reviews.look(session, PROGRAM, job_id, row.number) if row else None


def _mark(session: Session, job_id: int) -> tuple[int | None, ...]:
    """How far a job has come in everything a placing rests on: whatever changes one of these may block again."""
    asked = select(
        select(Job.changes).where(Job.id == job_id).scalar_subquery(),
        select(Office.version).join(Job).where(Job.id == job_id).scalar_subquery(),
        select(func.max(Release.id)).where(Release.job_id == job_id).scalar_subquery(),
        select(func.sum(Revision.version)).where(Revision.job_id == job_id).scalar_subquery(),
        select(func.max(ReviewItem.id)).join(Revision).where(Revision.job_id == job_id).scalar_subquery(),
        select(func.max(LogEntry.seq)).where(LogEntry.job_id == job_id, LogEntry.what == "designed").scalar_subquery(),
    )
    return tuple(session.execute(asked).one())


def _accepted_revision(session: Session, job_id: int) -> Revision | None:
    query = select(Revision).where(Revision.job_id == job_id, Revision.state == revisions.ACCEPTED)
    return session.scalar(query.order_by(Revision.number.desc()).limit(1))


def of_wall(db: Database, job_id: int, wall_id: int, level: int) -> Ready:
    """How one storey stands. Raises: Missing for a wall or a storey the job has not."""
    known = _known(db, job_id)
    if wall_id not in known.site.at(level):
        raise Missing
    return _ready(known, wall_id, level)


def of_job(db: Database, job_id: int) -> tuple[Ready, ...]:
    """Every storey of every wall, in the order they are placed; as many queries as for one."""
    known = _known(db, job_id)
    levels = range(1, known.site.storeys + 1)
    return tuple(_ready(known, wall_id, level) for level in levels for wall_id in known.site.at(level))


def _ready(known: _Known, wall_id: int, level: int) -> Ready:
    wall = known.site.standing.walls[wall_id]
    rows = [row for row in known.rows if row.wall_id == wall_id and row.level == level]
    last = {row.point: row for row in known.releases if row.wall_id == wall_id and row.level == level}
    released = {point: row for point, row in last.items() if not row.held}
    found = placing.plan(known.site, {**known.job.placing, **wall.placing}, level, [wall_id])
    here = f"/jobs/{known.job.id}/ready/{wall_id}/{level}"
    needs = (
        _checked(known, rows),
        _set_out(known, wall_id, level),
        _accepted(known, rows, wall.name, level),
        _inspected(known, wall.name, level),
        _planned(found, known.job.id, wall_id),
        *_points(known.site.points, released, here),
        _weather(released, here),
    )
    given = next((row for row in known.given if row.places == _place(wall.name, level)), None)
    return Ready(known.job, wall, level, needs, found, known.mark, given)


def _checked(known: _Known, rows: list[Attachment]) -> Need:
    """What goes into this placing: attachments at the top of the storey."""
    wrong = [row for row in rows if row.verdict != Verdict.PASS.value]
    open_ones = [f"{row.tag} {row.verdict}" for row in wrong if row.tag not in known.covered]
    by_design = ", ".join(row.tag for row in wrong if row.tag in known.covered)
    says = (
        f"{len(rows)} attachments" + (f", {by_design} by design" if by_design else "")
        if rows
        else "nothing is attached here"
    )
    words = "Every attachment passes, or an engineer's design covers it"
    return Need(words, not open_ones, ", ".join(open_ones) or says, (DESIGNER,), f"/jobs/{known.job.id}")


def _set_out(known: _Known, wall_id: int, level: int) -> Need:
    entries = [entry for entry in known.layout.wall(wall_id).entries if entry.level == level]
    wrong = [f"{entry.tag or 'the wall'}: {f.text()}" for entry in entries for f in entry.findings if not f.note]
    says = " ".join(wrong[:3]) + (f" And {len(wrong) - 3} more." if len(wrong) > 3 else "")
    path = f"/jobs/{known.job.id}/setting-out/walls/{wall_id}"
    return Need("All hardware is set out and nothing stands against it", not wrong, says or "clear", (DESIGNER,), path)


def _accepted(known: _Known, rows: list[Attachment], wall: str, level: int) -> Need:
    path, words = f"/jobs/{known.job.id}/revisions", "What stands here is accepted by its reviewer"
    who = (DESIGNER, INSPECTOR)
    if known.accepted is None:
        return Need(words, False, "no revision is accepted yet", who, path)
    changed, letter = _changed(known, rows, wall, level), known.accepted.letter
    if changed:
        return Need(words, False, f"changed since revision {letter}: {', '.join(changed)}", who, path)
    return Need(words, True, f"revision {letter}", who, f"{path}/{known.accepted.number}")


def _changed(known: _Known, rows: list[Attachment], wall: str, level: int) -> list[str]:
    """What is not as it was accepted: attachments changed, added or taken away, the wall itself, what it is built of."""
    here = [one for one in known.frozen["attachments"] if one["wall"] == wall and one["level"] == level]
    then = {one["tag"]: one["hash"] for one in here}
    found = [row.tag for row in rows if then.pop(row.tag, None) != row.hash]
    found += [f"{tag} (taken away)" for tag in then]
    if _built(known.frozen["job"], wall) != _built(known.now, wall):
        found.append(f"wall {wall} itself")
    return found


def _built(job: Mapping[str, Any], name: str) -> Any:
    """A wall of a job file with its wall types; how it is placed has a line of its own."""
    wall = next((dict(row) for row in job["walls"] if row["name"] == name), {})
    wall.pop("placing", None)
    return wall, [job["wall_types"].get(storey["type"]) for storey in wall.get("storeys", ())]


def _inspected(known: _Known, wall: str, level: int) -> Need:
    words, review = "Inspected before placing: every line that work waits for is ticked", known.review
    if review is None:
        return Need(words, False, "nothing is submitted yet", (INSPECTOR,), f"/jobs/{known.job.id}/revisions")
    path = f"/jobs/{known.job.id}/review/{review.revision.number}"
    here = [place for place in review.places if place.wall == wall and place.level == level]
    wrong = []
    for place in here:
        left = review.unticked_stops(place, BEFORE)
        if left or review.spot(place.key, BEFORE).state == "returned":
            wrong.append(f"{place.said}: {f'{len(left)} left' if left else 'sent back'}")
    return Need(words, not wrong, "; ".join(wrong) or f"on revision {review.revision.letter}", (INSPECTOR,), path)


def _planned(found: placing.Placement, job_id: int, wall_id: int) -> Need:
    words, path = "The placing plan holds: rate, forms, braces, weather", f"/jobs/{job_id}/placing/walls/{wall_id}"
    if found.plan is None:
        return Need(words, False, " ".join(found.refused.values()), (DESIGNER,), path)
    flagged = [state.title for state in found.plan.result.states if state.verdict is Verdict.FLAG]
    return Need(words, not flagged, ", ".join(flagged) or "every line holds", (DESIGNER,), path)


def _points(points: Iterable[HoldPoint], released: Mapping[str, Release], here: str) -> tuple[Need, ...]:
    return tuple(
        Need(
            point.words,
            point.words in released,
            _who(released.get(point.words)),
            (INSPECTOR, OFFICE),
            here,
            point.words,
        )
        for point in points
        if point.stage == BEFORE and point.stop
    )


def _who(row: Release | None) -> str:
    if row is None:
        return "held"
    return f"released by {row.by_name}, {log.utc(row.at)}" + (f": {row.words}" if row.words else "")


def _weather(released: Mapping[str, Release], here: str) -> Need:
    row = released.get(WEATHER)
    says = f"{row.words} ({row.by_name}, {log.utc(row.at)})" if row else "not entered"
    return Need("The day's weather is entered", row is not None, says, (OFFICE, DESIGNER, INSPECTOR), here, WEATHER)


def _place(wall: str, level: int) -> list[str]:
    return [f"{wall}, storey {level}"]


def release(db: Database, seen: Seen, ready: Ready, point: str, words: str, held: bool) -> None:
    """Release a hold point, write the weather down, or take that back. Raises: Refused, for a role that has no part in it, too."""
    need = next((need for need in ready.needs if need.point and need.point == point), None)
    if need is None:
        raise Refused({"": "There is no such hold point here."})
    if not may_clear(seen.role, need):
        raise Refused({"": f"This is for {' or '.join(need.who)} to release. Ask one of them."})
    if len(words) > LONGEST:
        raise Refused({"words": f"Use at most {LONGEST} characters."})
    if point == WEATHER and not held and not words.strip():
        raise Refused({"words": "Enter the weather: temperature, wind, rain or frost expected."})
    with writing(db) as session:
        held_job(session, ready.job.id)
        session.add(
            Release(
                job_id=ready.job.id,
                wall_id=ready.wall.id,
                level=ready.level,
                point=point,
                words=words.strip(),
                held=held,
                person_id=seen.person_id or None,
                by_name=seen.name,
            )
        )


def go_ahead(db: Database, seen: Seen, job_id: int, wall_id: int, level: int, words: str, conditions: str) -> int:
    """Give the go-ahead to place, where nothing blocks, and log it. Returns: the row's number. Raises: Refused, Missing."""
    ready = of_wall(db, job_id, wall_id, level)
    if ready.blocking:
        raise Refused({"": f"This still blocks: {'; '.join(need.words for need in ready.blocking)}."})
    if len(words) > LONGEST or len(conditions) > LONGEST:
        raise Refused({"words": f"Use at most {LONGEST} characters."})
    with writing(db) as session:
        job = held_job(session, job_id)
        hold(session, Office, job.office_id)
        if _mark(session, job_id) != ready.mark:
            raise Refused({"": "Something changed this moment. Look again before you give the go-ahead."})
        row = _accepted_revision(session, job_id)
        said = log.Said("go-ahead", words.strip(), conditions=conditions.strip(), places=_place(ready.wall.name, level))
        return log.append(session, seen, said, job, row).seq


def may_clear(role: str, need: Need) -> bool:
    """Whether somebody of a role can clear a need."""
    return role == ADMINISTRATOR or role in need.who
