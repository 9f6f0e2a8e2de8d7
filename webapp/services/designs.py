"""Engineers' designs: documents that cover what the checks refer or flag, as long as the attachment stays what it was."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine import fields
from engine.errors import BadInput
from engine.result import Verdict
from webapp.models import Attachment, Design
from webapp.models.base import now
from webapp.services import checks, log
from webapp.services.refusals import Missing, Refused
from webapp.services.sign_in import Seen
from webapp.services.standing import held
from webapp.store import Database, reading, writing

DESIGNED = "by engineer's design"  # never a pass
COVERABLE = (Verdict.REFER.value, Verdict.FLAG.value)
MOST_BYTES = 10_000_000
# What a file begins with, whatever it is called.
MEDIA: Mapping[bytes, str] = {b"%PDF-": "application/pdf", b"\x89PNG\r\n": "image/png", b"\xff\xd8\xff": "image/jpeg"}
LONGEST = {"who": 120, "licence": 80, "scope": 500}
ASKED = {
    "who": "Enter the engineer's name.",
    "licence": "Enter the licence: its number and where it holds.",
    "scope": "Say what the document covers, in its own words.",
}
DAY = fields.Spec("dated", "Date", "", "date")


@dataclass(frozen=True, slots=True)
class Document:
    """A file as it came."""

    name: str
    data: bytes


def media(data: bytes) -> str:
    """What a file is by how it begins; "" for what is not taken."""
    return next((kind for start, kind in MEDIA.items() if data.startswith(start)), "")


def add(
    db: Database, seen: Seen, job_id: int, texts: Mapping[str, str], tags: Sequence[str], file: Document | None
) -> int:
    """Keep a design, and log it. Args: texts: who, licence, dated, scope. tags: attachments it covers, which refer or flag now.

    Returns: its id. Raises: Refused, Missing.
    """
    errors = _errors(texts, tags, file)
    if errors or file is None:
        raise Refused(errors)
    checks.refresh(db, job_id)
    mark = sha256(file.data).hexdigest()
    name = "".join(sign for sign in file.name if sign.isprintable())[:120] or "design"
    with writing(db) as session:
        job = held(session, job_id)
        covers = _covers(session, job_id, tags)
        row = Design(
            job_id=job_id, covers=covers, file_name=name, media=media(file.data), sha256=mark, data=file.data, by_name=seen.name,
            **{key: texts[key].strip() for key in ("who", "licence", "dated", "scope")},
        )  # fmt: skip
        session.add(row)
        session.flush()
        words = f"{row.who}, {row.licence}, {row.dated}: {row.scope}"
        log.append(
            session,
            seen,
            log.Said("designed", words, places=sorted(covers), files=[{"name": name, "sha256": mark}]),
            job,
        )
        return row.id


def _errors(texts: Mapping[str, str], tags: Sequence[str], file: Document | None) -> dict[str, str]:
    errors = {name: asked for name, asked in ASKED.items() if not texts.get(name, "").strip()}
    errors |= {n: f"Use at most {most} characters." for n, most in LONGEST.items() if len(texts.get(n, "")) > most}
    try:
        if not fields.read_one(DAY, texts.get("dated", "")):
            errors["dated"] = "Enter the document's date."
    except BadInput as error:
        errors["dated"] = error.message
    if not tags:
        errors["tags"] = "Choose the attachments it covers."
    if file is None:
        errors["file"] = "Add the document itself: a PDF, or a picture of it."
    elif not media(file.data):
        errors["file"] = "This is no PDF, PNG or JPEG file. Save the document as one and add that."
    elif len(file.data) > MOST_BYTES:
        errors["file"] = f"Use a file of at most {MOST_BYTES // 1_000_000} MB."
    return errors


def _covers(session: Session, job_id: int, tags: Sequence[str]) -> dict[str, str]:
    numbers = [int(tag[1:]) for tag in tags if tag[:1] == "A" and tag[1:].isdecimal() and len(tag) < 9]
    query = select(Attachment).where(
        Attachment.job_id == job_id, Attachment.deleted_at.is_(None), Attachment.number.in_(numbers)
    )
    found = {row.tag: row for row in session.scalars(query)}
    for tag in tags:
        if tag not in found:
            raise Refused({"tags": f"There is no attachment {tag[:12]}."})
        if found[tag].verdict not in COVERABLE:
            raise Refused({"tags": f"{tag} is {found[tag].verdict}: there is nothing for a design to cover."})
    return {tag: found[tag].hash for tag in tags}


def of_job(session: Session, job_id: int) -> list[Design]:
    """A job's designs in use, the latest first, without their files."""
    query = select(Design).where(Design.job_id == job_id, Design.deleted_at.is_(None))
    return list(session.scalars(query.order_by(Design.id.desc())))


def find(session: Session, job_id: int, design_id: int) -> Design:
    """One of them, put away or not. Raises: Missing."""
    row = session.get(Design, design_id)
    if row is None or row.job_id != job_id:
        raise Missing
    return row


def covering(session: Session, job_id: int, hashes: Mapping[str, str]) -> dict[str, Design]:
    """The design that covers each attachment as it is now. Args: hashes: by tag."""
    found: dict[str, Design] = {}
    for design in of_job(session, job_id):
        for tag, mark in design.covers.items():
            if mark and hashes.get(tag) == mark:
                found.setdefault(tag, design)
    return found


def stale(design: Design, hashes: Mapping[str, str]) -> list[str]:
    """Tags it covered that have changed since, or are gone."""
    return sorted(
        (tag for tag, mark in design.covers.items() if hashes.get(tag) != mark), key=lambda tag: (len(tag), tag)
    )


def hashes(session: Session, job_id: int) -> dict[str, str]:
    """What each attachment of a job is now, by tag; summaries must be fresh."""
    query = select(Attachment.number, Attachment.hash).where(
        Attachment.job_id == job_id, Attachment.deleted_at.is_(None)
    )
    return {f"A{number}": mark for number, mark in session.execute(query)}


def coverable(session: Session, job_id: int) -> list[Attachment]:
    """Attachments that refer or flag, in order."""
    query = select(Attachment).where(
        Attachment.job_id == job_id, Attachment.deleted_at.is_(None), Attachment.verdict.in_(COVERABLE)
    )
    return list(session.scalars(query.order_by(Attachment.number)))


def put_away(db: Database, seen: Seen, job_id: int, design_id: int, away: bool = True) -> str:
    """Take a design out of use, or bring it back; both are logged. Returns: whose it is. Raises: Missing."""
    with writing(db) as session:
        job = held(session, job_id)
        row = find(session, job_id, design_id)
        row.deleted_at = now() if away else None
        words = f"{row.who}'s design of {row.dated} {'no longer covers' if away else 'covers again'} what it names."
        log.append(session, seen, log.Said("designed", words, places=sorted(row.covers)), job)
        return row.who


def as_frozen(db: Database, job_id: int) -> list[dict[str, Any]]:
    """What a revision keeps of the designs in use: everything but the files, which their hashes name."""
    with reading(db) as session:
        return [
            {
                "who": d.who, "licence": d.licence, "dated": d.dated, "scope": d.scope, "covers": dict(d.covers),
                "file": d.file_name, "sha256": d.sha256,
            }
            for d in reversed(of_job(session, job_id))
        ]  # fmt: skip
