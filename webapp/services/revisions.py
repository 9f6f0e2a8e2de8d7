"""Revisions: frozen when submitted, walked by a reviewer, accepted or sent back, superseded by the next."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import select, update
from sqlalchemy.orm import Session, defer

from engine import VERSION
from webapp.credentials import tokens
from webapp.models import Job, LinkUse, ReviewLink, Revision
from webapp.models.base import now
from webapp.models.packed import pack
from webapp.services import audit, log, sign_in
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused, Stale
from webapp.services.sign_in import Seen
from webapp.services.standing import held
from webapp.store import Database, writing

SUBMITTED, UNDER_REVIEW, RETURNED, ACCEPTED, SUPERSEDED = STATES = (
    "submitted", "under review", "returned", "accepted", "superseded",
)  # fmt: skip
OPEN = (SUBMITTED, UNDER_REVIEW)
LONGEST_NOTE = 5000
LINK_DAYS = (1, 90)


def of_job(session: Session, job_id: int) -> list[Revision]:
    """A job's revisions without their documents, the latest first."""
    query = select(Revision).where(Revision.job_id == job_id).options(defer(Revision.document))
    return list(session.scalars(query.order_by(Revision.number.desc())))


def find(session: Session, job_id: int, number: int, whole: bool = True) -> Revision:
    """A revision of a job. Args: whole: with its document, which is large; else it is read when asked for. Raises: Missing."""
    query = select(Revision).where(Revision.job_id == job_id, Revision.number == number)
    row = session.scalar(query if whole else query.options(defer(Revision.document)))
    if row is None:
        raise Missing
    return row


def by_fingerprint(session: Session, start: str) -> Revision | None:
    """The revision whose fingerprint begins so; None for none, or for fewer than twelve signs."""
    plain = "".join(start.split()).lower()
    if not 12 <= len(plain) <= 64 or not all(sign in "0123456789abcdef" for sign in plain):
        return None
    query = (
        select(Revision)
        .where(Revision.fingerprint.startswith(plain, autoescape=True))
        .options(defer(Revision.document))
    )
    return session.scalar(query.order_by(Revision.id).limit(1))


def latest(session: Session, job_id: int) -> Revision | None:
    """The last one submitted."""
    query = select(Revision).where(Revision.job_id == job_id).options(defer(Revision.document))
    return session.scalar(query.order_by(Revision.number.desc()).limit(1))


def document(row: Revision) -> dict[str, Any]:
    """What was frozen."""
    found: dict[str, Any] = json.loads(row.document)
    return found


def submit(
    db: Database, seen: Seen, job_id: int, changes: int, text: str, fingerprint: str, edition: str, note: str
) -> int:
    """Freeze a job as its next revision; earlier ones that were not accepted are superseded.

    Args: changes: the job's count when the text was made; it must still be so. Returns: the revision's number.
    Raises: Stale where the job changed meanwhile, Refused where nothing changed since the last submission.
    """
    if len(note) > LONGEST_NOTE:
        raise Refused({"note": f"Use at most {LONGEST_NOTE} characters."})
    packed = pack(text)  # before the transaction: others wait for its end
    with writing(db) as session:
        job = held(session, job_id)
        if job.changes != changes:
            raise Stale(job.changes)
        last = latest(session, job_id)
        if last and last.fingerprint == fingerprint and last.state != RETURNED:
            raise Refused({"": f"Nothing has changed since revision {last.letter} was submitted."})
        row = Revision(
            job_id=job_id, number=(last.number if last else 0) + 1, state=SUBMITTED, document=packed, fingerprint=fingerprint,
            engine=VERSION, edition=edition, changes=changes, note=note.strip(), by_person_id=seen.person_id, by_name=seen.name,
        )  # fmt: skip
        _supersede(session, job_id, but_accepted=True)
        session.add(row)
        session.flush()
        log.append(session, seen, log.Said("submitted", words=note.strip()), job, row)
        return row.number


def hold_revision(session: Session, row_id: int) -> tuple[Job, Revision]:
    """A revision with its job held, which every change of a revision's state waits for. Raises: Missing."""
    job_id = session.scalar(select(Revision.job_id).where(Revision.id == row_id))
    job = hold(session, Job, job_id) if job_id else None
    if job is None:
        raise Missing
    return job, session.get_one(Revision, row_id, options=[defer(Revision.document)], populate_existing=True)


def _supersede(session: Session, job_id: int, but_accepted: bool, below: int | None = None) -> None:
    kept = (SUPERSEDED, ACCEPTED) if but_accepted else (SUPERSEDED,)
    older = update(Revision).where(Revision.job_id == job_id, Revision.state.not_in(kept))
    if below is not None:
        older = older.where(Revision.number < below)
    session.execute(older.values(state=SUPERSEDED, version=Revision.version + 1))


def begin_review(session: Session, row: Revision) -> None:
    """Somebody looks at it for the first time; its job is held."""
    if row.state == SUBMITTED:
        row.state = UNDER_REVIEW
        row.version += 1


def decide(session: Session, seen: Seen, row: Revision, accept: bool, said: log.Said) -> None:
    """Accept a revision or send it back, and log it, inside the caller's transaction, who holds its job.

    Raises: Refused where it is decided already, superseded, or sent back without a reason.
    """
    if row.state not in OPEN:
        raise Refused({"": f"Revision {row.letter} is {row.state}; nothing more can be decided about it."})
    if not accept and not said.words.strip():
        raise Refused({"words": "Say what is to be put right."})
    row.state = ACCEPTED if accept else RETURNED
    row.version += 1
    session.flush()
    if accept:
        _supersede(session, row.job_id, but_accepted=False, below=row.number)
    log.append(session, seen, said, session.get_one(Job, row.job_id), row)


@dataclass(frozen=True, slots=True)
class Currency:
    """Whether a print is the one to build from. state: "current", "superseded" or "unknown"; by: the revision that holds now."""

    state: str
    row: Revision | None = None
    by: Revision | None = None
    job_name: str = ""


def currency(session: Session, start: str) -> Currency:
    """How a print with this fingerprint stands."""
    row = by_fingerprint(session, start)
    if row is None:
        return Currency("unknown")
    last = latest(session, row.job_id)
    name = session.scalar(select(Job.name).where(Job.id == row.job_id)) or ""
    if last is None or last.id == row.id or (row.state == ACCEPTED and last.state != ACCEPTED):
        return Currency("current", row, last if last and last.id != row.id else None, name)
    return Currency("superseded", row, last, name)


# Links for somebody outside the office


def links(session: Session, revision_ids: Sequence[int]) -> list[ReviewLink]:
    """The links made to some revisions, the latest first."""
    query = select(ReviewLink).where(ReviewLink.revision_id.in_(revision_ids))
    return list(session.scalars(query.order_by(ReviewLink.id.desc())))


def make_link(db: Database, seen: Seen, row_id: int, name: str, authority: str, days: str) -> str:
    """A link to one revision. Returns: its token, which is not kept. Raises: Refused."""
    errors = {}
    if not name.strip() or len(name) > 120:
        errors["name"] = "Enter who the link is for, at most 120 characters."
    if len(authority) > 120:
        errors["authority"] = "Use at most 120 characters."
    low, high = LINK_DAYS
    if not (days.strip().isdecimal() and len(days) < 4 and low <= int(days) <= high):
        errors["days"] = f"Enter {low} to {high} days."
    if errors:
        raise Refused(errors)
    token = tokens.new_token()
    with writing(db) as session:
        _, row = hold_revision(session, row_id)
        if row.state not in OPEN:
            raise Refused({"": f"Revision {row.letter} is {row.state}: submit again, then make a link to that."})
        session.add(
            ReviewLink(
                revision_id=row_id,
                token_hash=tokens.digest(token),
                name=name.strip(),
                authority=authority.strip(),
                by_name=seen.name,
                expires_at=now() + timedelta(days=int(days)),
            )
        )
        audit.note(session, "link", f"made for {name.strip()}", person_id=seen.person_id, office_id=seen.office_id)
    return token


def revoke_link(db: Database, job_id: int, link_id: int) -> str:
    """End a link and what it opened. Returns: whom it was for. Raises: Missing."""
    with writing(db) as session:
        link = session.get(ReviewLink, link_id)
        if link is None or session.get_one(Revision, link.revision_id).job_id != job_id:
            raise Missing
        link.revoked_at = link.revoked_at or now()
        session.add(LinkUse(link_id=link.id, what="revoked"))
        audit.note(session, "link", f"taken back from {link.name}", office_id=session.get_one(Job, job_id).office_id)
        return link.name


@dataclass(frozen=True, slots=True)
class Opened:
    """What a link leads to, before its button is pressed."""

    link: ReviewLink
    revision: Revision
    job_name: str


def look_at_link(session: Session, token: str) -> Opened:
    """What a link would open; looking uses nothing up. Raises: Missing for a forged one, Refused with what to do for others."""
    link = session.scalar(select(ReviewLink).where(ReviewLink.token_hash == tokens.digest(token)))
    if link is None:
        raise Missing
    row = session.get_one(Revision, link.revision_id, options=[defer(Revision.document)])
    if why := _ended(link, now()):
        raise Refused({"": why})
    return Opened(link, row, session.scalar(select(Job.name).where(Job.id == row.job_id)) or "")


def _ended(link: ReviewLink, moment: datetime) -> str:
    ask = f"Ask {link.by_name} for a new one."
    if link.revoked_at:
        return f"This link was taken back. {ask}"
    if link.expires_at <= moment:
        return f"This link ended on {link.expires_at:%d %B %Y}. {ask}"
    if link.used_at:
        return f"This link was opened already, and opens once. If that was on another device, go on there; if it was not you: {ask}"
    return ""


def open_link(db: Database, token: str, address: str, device: str) -> tuple[str, int, int]:
    """Use a link up and begin a session that sees its revision only.

    Returns: the session's token, the job's id, the revision's number. Raises: Missing, Refused; every try is noted.
    """
    with writing(db) as session:
        found = session.scalar(select(ReviewLink).where(ReviewLink.token_hash == tokens.digest(token)))
        if found is None:
            raise Missing
        job, row = hold_revision(session, found.revision_id)
        link = hold(session, ReviewLink, found.id) or found
        why = _ended(link, now())
        used = "refused" if why else "opened"
        session.add(LinkUse(link_id=link.id, what=used, address=address[:64]))
        audit.note(session, "link", f"{used}: {link.name}", office_id=job.office_id, address=address)
        if not why:
            link.used_at = now()
            begin_review(session, row)
            held = sign_in.begin(session, device, link_id=link.id)
            outsider = Seen(0, 0, link.name, "outsider", 0, link.authority, link_id=link.id)
            log.append(session, outsider, log.Said("opened", authority=link.authority), job, row)
            return held, row.job_id, row.number
    raise Refused({"": why})


def waiting(session: Session, office_id: int) -> list[tuple[Revision, str]]:
    """Revisions an inspector of the office is to look at, the oldest first, with the job's name."""
    query = (
        select(Revision, Job.name)
        .join(Job)
        .where(Job.office_id == office_id, Job.deleted_at.is_(None), Revision.state.in_(OPEN))
        .options(defer(Revision.document))
        .order_by(Revision.id)
    )
    return [(row, name) for row, name in session.execute(query)]
