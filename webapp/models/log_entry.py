"""The approvals log: rows are added and never changed; each carries the hash of the one before."""

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey, Index, LargeBinary, String, Text, UniqueConstraint
from sqlalchemy.engine.default import DefaultExecutionContext
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import Base, Utc
from webapp.models.said import said


def _said(context: DefaultExecutionContext) -> str:
    row: dict[str, str] = context.get_current_parameters()  # type: ignore[no-untyped-call]
    return said(row)


class LogEntry(Base):
    """One row of an office's log, in its place in the chain; triggers refuse changing or deleting it.

    seq: from 1 in each office. what: one of `services.log.KINDS`. device_at: what the device's clock said, as text. places: tags
    or walls it is about, empty for all of the revision. files: name and SHA-256 of each. corrects: the row it puts right. said: the
    words it is found by, which follow from the others.
    """

    __tablename__ = "log_entry"
    __table_args__ = (
        UniqueConstraint("office_id", "seq"),
        Index("ix_log_entry_job_id_seq", "job_id", "seq"),
        Index("ix_log_entry_office_id_permit", "office_id", "permit"),
        Index("ix_log_entry_office_id_at_seq", "office_id", "at", "seq"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    office_id: Mapped[int] = mapped_column(ForeignKey("office.id"))
    seq: Mapped[int]
    at: Mapped[datetime] = mapped_column(Utc)
    device_at: Mapped[str] = mapped_column(String(40))
    what: Mapped[str] = mapped_column(String(20))
    who: Mapped[str] = mapped_column(String(120))
    role: Mapped[str] = mapped_column(String(20))
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    authority: Mapped[str] = mapped_column(String(120))
    permit: Mapped[str] = mapped_column(String(80))
    words: Mapped[str] = mapped_column(Text)
    conditions: Mapped[str] = mapped_column(Text)
    job_id: Mapped[int | None] = mapped_column(ForeignKey("job.id"))
    job_name: Mapped[str] = mapped_column(String(120))
    revision_id: Mapped[int | None] = mapped_column(ForeignKey("revision.id"), index=True)
    revision: Mapped[str] = mapped_column(String(8))
    fingerprint: Mapped[str] = mapped_column(String(64))
    places: Mapped[list[str]] = mapped_column(JSON)
    files: Mapped[list[dict[str, Any]]] = mapped_column(JSON)
    corrects: Mapped[int | None]
    before: Mapped[str] = mapped_column(String(64))
    hash: Mapped[str] = mapped_column(String(64))
    said: Mapped[str] = mapped_column(Text, default=_said, deferred=True)


class LogFile(Base):
    """A file that rows of the log name by its hash; of the same bytes there is one in an office."""

    __tablename__ = "log_file"
    __table_args__ = (UniqueConstraint("office_id", "sha256"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    office_id: Mapped[int] = mapped_column(ForeignKey("office.id"))
    sha256: Mapped[str] = mapped_column(String(64))
    name: Mapped[str] = mapped_column(String(120))
    media: Mapped[str] = mapped_column(String(60))
    data: Mapped[bytes] = mapped_column(LargeBinary, deferred=True)
