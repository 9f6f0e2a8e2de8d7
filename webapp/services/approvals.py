"""Approvals of a job: logged by the office, and held against what is the newest revision now."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256

from sqlalchemy import select
from sqlalchemy.orm import Session

from webapp.models import Job, LogEntry, LogFile, Office, Revision
from webapp.services import log, revisions
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused
from webapp.services.sign_in import Seen
from webapp.store import Database, writing

BY_HAND = ("approved", "permit", "note")  # what an office logs by itself; the rest is logged where it happens
APPROVING = ("accepted", "approved", "permit")
LONGEST = {"authority": 120, "permit": 80, "words": 5000, "conditions": 5000}
MOST_FILES, MOST_BYTES = 5, 10_000_000


@dataclass(frozen=True, slots=True)
class Upload:
    """A file as it came."""

    name: str
    media: str
    data: bytes


def record(
    db: Database,
    seen: Seen,
    job_id: int,
    texts: Mapping[str, str],
    files: Sequence[Upload] = (),
    corrects: int | None = None,
) -> int:
    """Add a row by hand.

    Args: texts: what, number (the revision's), authority, permit, words, conditions. corrects: a row's number.
    Returns: the row's number. Raises: Refused, Missing.
    """
    what = "correction" if corrects else texts.get("what", "")
    errors = {n: f"Use at most {most} characters." for n, most in LONGEST.items() if len(texts.get(n, "")) > most}
    if not corrects and what not in BY_HAND:
        errors["what"] = "Choose what is logged."
    if what == "permit" and not texts.get("permit", "").strip():
        errors["permit"] = "Enter the permit's number."
    if what in ("note", "correction") and not texts.get("words", "").strip():
        errors["words"] = "Say what is to be kept."
    if what == "approved" and not texts.get("authority", "").strip():
        errors["authority"] = "Enter who approved it."
    if len(files) > MOST_FILES or sum(len(f.data) for f in files) > MOST_BYTES:
        errors["files"] = f"Add at most {MOST_FILES} files of together {MOST_BYTES // 1_000_000} MB."
    if errors:
        raise Refused(errors)
    hashes = [sha256(f.data).hexdigest() for f in files]
    with writing(db) as session:
        job = hold(session, Job, job_id)
        if job is None:
            raise Missing
        row = _revision(session, job_id, texts.get("number", ""))
        if (
            corrects
            and session.scalar(select(LogEntry.id).where(LogEntry.job_id == job_id, LogEntry.seq == corrects)) is None
        ):
            raise Missing
        hold(session, Office, job.office_id)
        named = [_keep(session, job.office_id, upload, mark) for upload, mark in zip(files, hashes, strict=True)]
        said = log.Said(
            what, texts.get("words", "").strip(), texts.get("authority", "").strip(), texts.get("permit", "").strip(),
            texts.get("conditions", "").strip(), files=named, device_at=texts.get("device_at", ""), corrects=corrects,
        )  # fmt: skip
        return log.append(session, seen, said, job, row).seq


def _revision(session: Session, job_id: int, number: str) -> Revision | None:
    if not number:
        return None
    if not (number.isdecimal() and len(number) < 9):
        raise Refused({"number": "Choose a revision of this job."})
    return revisions.find(session, job_id, int(number))


def _keep(session: Session, office_id: int, upload: Upload, mark: str) -> dict[str, str]:
    known = select(LogFile.id).where(LogFile.office_id == office_id, LogFile.sha256 == mark)
    name = "".join(sign for sign in upload.name if sign.isprintable())[:120] or "unnamed"
    if session.scalar(known) is None:
        media = upload.media[:60] or "application/octet-stream"
        session.add(LogFile(office_id=office_id, sha256=mark, name=name, media=media, data=upload.data))
        session.flush()
    return {"name": name, "sha256": mark}


def kept_file(session: Session, office_id: int, mark: str) -> LogFile:
    """A file of the office by its hash. Raises: Missing."""
    row = session.scalar(select(LogFile).where(LogFile.office_id == office_id, LogFile.sha256 == mark))
    if row is None:
        raise Missing
    return row


@dataclass(frozen=True, slots=True)
class Cover:
    """What an approval no longer covers: tags changed since its revision, removed, or added after it. by: the newest revision."""

    changed: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    added: tuple[str, ...] = ()
    by: str = ""

    @property
    def whole(self) -> bool:
        """Whether it covers all there is."""
        return not (self.changed or self.removed or self.added)


def covers(session: Session, job_id: int, entries: Sequence[LogEntry]) -> dict[int, Cover]:
    """How each approval stands against the newest revision, by the row's number."""
    approving = [e for e in entries if e.what in APPROVING and e.revision_id]
    last = revisions.latest(session, job_id)
    if not approving or last is None:
        return {}
    wanted = {e.revision_id for e in approving} | {last.id}
    rows = session.scalars(select(Revision).where(Revision.id.in_(wanted)))
    marks = {row.id: _marks(row) for row in rows}
    return {e.seq: _cover(marks[e.revision_id], marks[last.id], last.letter) for e in approving if e.revision_id}


def _marks(row: Revision) -> dict[str, tuple[str, str]]:
    found = revisions.document(row)["attachments"]
    return {one["tag"]: (one["hash"], one["result"]["verdict"]) for one in found}


def _cover(then: Mapping[str, tuple[str, str]], now: Mapping[str, tuple[str, str]], letter: str) -> Cover:
    both = then.keys() & now.keys()
    return Cover(
        _ordered(tag for tag in both if then[tag] != now[tag]), _ordered(then.keys() - now.keys()),
        _ordered(now.keys() - then.keys()), letter,
    )  # fmt: skip


def _ordered(tags: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(tags, key=lambda tag: (len(tag), tag)))
