"""Ready to place? What must be so before concrete goes into one storey of one wall, what still blocks, who can clear it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine.placing import HoldPoint
from engine.result import Verdict
from webapp.models import Attachment, Job, LogEntry, Release, Revision, Wall
from webapp.permissions import ADMINISTRATOR, DESIGNER, INSPECTOR, OFFICE
from webapp.services import checks, designs, log, placing, revisions, setting_out
from webapp.services.refusals import Missing, Refused
from webapp.services.sign_in import Seen
from webapp.services.standing import Standing, stand
from webapp.store import Database, reading, writing

BEFORE = "before placing"
WEATHER = "weather"  # what the day brings, written down like a release
LONGEST = 500


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
    """One storey of one wall. Args: given: the go-ahead already in the log, None without."""

    job: Job
    wall: Wall
    level: int
    needs: tuple[Need, ...]
    plan: placing.Placement
    given: LogEntry | None = None

    @property
    def blocking(self) -> tuple[Need, ...]:
        """What is not so yet."""
        return tuple(need for need in self.needs if not need.met)


def of_wall(db: Database, job_id: int, wall_id: int, level: int) -> Ready:
    """How one storey stands. Raises: Missing for a wall or a storey the job has not."""
    checks.refresh(db, job_id)
    site = placing.site(db, job_id)
    wall = site.standing.walls.get(wall_id)
    if wall is None or wall_id not in site.at(level):
        raise Missing
    with reading(db) as session:
        standing = stand(session, job_id)
        rows = _on(session, job_id, wall_id, level)
        released = _released(session, wall_id, level)
        found = placing.plan(site, {**standing.job.placing, **wall.placing}, level, [wall_id])
        needs = (
            _checked(session, job_id, rows),
            _set_out(session, standing, wall_id, level),
            _accepted(session, job_id, rows),
            _planned(found, job_id, wall_id),
            *_points(site.points, released, job_id, wall_id, level),
            _weather(released, job_id, wall_id, level),
        )
        return Ready(standing.job, wall, level, needs, found, _given(session, job_id, wall.name, level))


def of_job(db: Database, job_id: int) -> tuple[Ready, ...]:
    """Every storey of every wall, in the order they are placed."""
    site = placing.site(db, job_id)
    levels = range(1, site.storeys + 1)
    return tuple(of_wall(db, job_id, wall_id, level) for level in levels for wall_id in site.at(level))


def _on(session: Session, job_id: int, wall_id: int, level: int) -> list[Attachment]:
    """What goes into this placing: attachments at the top of the storey."""
    query = select(Attachment).where(
        Attachment.job_id == job_id,
        Attachment.wall_id == wall_id,
        Attachment.level == level,
        Attachment.deleted_at.is_(None),
    )
    return list(session.scalars(query.order_by(Attachment.number)))


def _checked(session: Session, job_id: int, rows: list[Attachment]) -> Need:
    covered = designs.covering(session, job_id, {row.tag: row.hash for row in rows})
    wrong = [f"{row.tag} {row.verdict}" for row in rows if row.verdict != Verdict.PASS.value and row.tag not in covered]
    by_design = [tag for tag in covered if any(row.tag == tag and row.verdict != Verdict.PASS.value for row in rows)]
    says = (
        ", ".join(wrong)
        if wrong
        else f"{len(rows)} attachments" + (f", {', '.join(by_design)} by design" if by_design else "")
    )
    words = "Every attachment passes, or an engineer's design covers it"
    return Need(words, not wrong, says if rows else "nothing is attached here", (DESIGNER,), f"/jobs/{job_id}")


def _set_out(session: Session, standing: Standing, wall_id: int, level: int) -> Need:
    layout = setting_out.of_standing(session, standing)
    entries = [e for e in layout.wall(wall_id).entries if e.level == level]
    wrong = [f"{e.tag or 'the wall'}: {f.text()}" for e in entries for f in e.findings if not f.note]
    says = " ".join(wrong[:3]) + (f" And {len(wrong) - 3} more." if len(wrong) > 3 else "")
    path = f"/jobs/{standing.job.id}/setting-out/walls/{wall_id}"
    return Need("All hardware is set out and nothing stands against it", not wrong, says or "clear", (DESIGNER,), path)


def _accepted(session: Session, job_id: int, rows: list[Attachment]) -> Need:
    path, words = f"/jobs/{job_id}/revisions", "What stands here is accepted by its reviewer"
    query = select(Revision).where(Revision.job_id == job_id, Revision.state == revisions.ACCEPTED)
    row = session.scalar(query.order_by(Revision.number.desc()).limit(1))
    who = (DESIGNER, INSPECTOR)
    if row is None:
        return Need(words, False, "no revision is accepted yet", who, path)
    kept = {one["tag"]: one["hash"] for one in revisions.document(row)["attachments"]}
    changed = [one.tag for one in rows if kept.get(one.tag) != one.hash]
    if changed:
        return Need(words, False, f"changed since revision {row.letter}: {', '.join(changed)}", who, path)
    return Need(words, True, f"revision {row.letter}", who, f"{path}/{row.number}")


def _planned(found: placing.Placement, job_id: int, wall_id: int) -> Need:
    words, path = "The placing plan holds: rate, forms, braces, weather", f"/jobs/{job_id}/placing/walls/{wall_id}"
    if found.plan is None:
        return Need(words, False, " ".join(found.refused.values()), (DESIGNER,), path)
    flagged = [s.title for s in found.plan.result.states if s.verdict is Verdict.FLAG]
    return Need(words, not flagged, ", ".join(flagged) or "every line holds", (DESIGNER,), path)


def _released(session: Session, wall_id: int, level: int) -> dict[str, Release]:
    """The last word about each hold point; one taken back is not among them."""
    query = select(Release).where(Release.wall_id == wall_id, Release.level == level).order_by(Release.id)
    last = {row.point: row for row in session.scalars(query)}
    return {point: row for point, row in last.items() if not row.held}


def _points(
    points: Iterable[HoldPoint], released: Mapping[str, Release], job_id: int, wall_id: int, level: int
) -> tuple[Need, ...]:
    path = f"/jobs/{job_id}/ready/{wall_id}/{level}"
    return tuple(
        Need(
            point.words,
            point.words in released,
            _who_released(released.get(point.words)),
            (INSPECTOR, OFFICE),
            path,
            point.words,
        )
        for point in points
        if point.stage == BEFORE and point.stop
    )


def _who_released(row: Release | None) -> str:
    if row is None:
        return "held"
    return f"released by {row.by_name}, {log.utc(row.at)}" + (f": {row.words}" if row.words else "")


def _weather(released: Mapping[str, Release], job_id: int, wall_id: int, level: int) -> Need:
    row = released.get(WEATHER)
    says = f"{row.words} ({row.by_name}, {log.utc(row.at)})" if row else "not entered"
    path = f"/jobs/{job_id}/ready/{wall_id}/{level}"
    return Need("The day's weather is entered", row is not None, says, (OFFICE, DESIGNER, INSPECTOR), path, WEATHER)


def _given(session: Session, job_id: int, wall: str, level: int) -> LogEntry | None:
    query = select(LogEntry).where(LogEntry.job_id == job_id, LogEntry.what == "go-ahead").order_by(LogEntry.seq.desc())
    return next((row for row in session.scalars(query) if row.places == _place(wall, level)), None)


def _place(wall: str, level: int) -> list[str]:
    return [f"{wall}, storey {level}"]


def release(db: Database, seen: Seen, ready: Ready, point: str, words: str, held: bool) -> None:
    """Release a hold point, write the weather down, or take that back. Raises: Refused."""
    if point not in {need.point for need in ready.needs if need.point}:
        raise Refused({"": "There is no such hold point here."})
    if len(words) > LONGEST:
        raise Refused({"words": f"Use at most {LONGEST} characters."})
    if point == WEATHER and not held and not words.strip():
        raise Refused({"words": "Enter the weather: temperature, wind, rain or frost expected."})
    with writing(db) as session:
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
        job = session.get_one(Job, job_id, with_for_update=True)
        if job.changes != ready.job.changes:
            raise Refused({"": "The job changed this moment. Look again before you give the go-ahead."})
        query = select(Revision).where(Revision.job_id == job_id, Revision.state == revisions.ACCEPTED)
        row = session.scalar(query.order_by(Revision.number.desc()).limit(1))
        said = log.Said("go-ahead", words.strip(), conditions=conditions.strip(), places=_place(ready.wall.name, level))
        return log.append(session, seen, said, job, row).seq


def may_clear(role: str, need: Need) -> bool:
    """Whether somebody of a role can clear a need."""
    return role == ADMINISTRATOR or role in need.who
