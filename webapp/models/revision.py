"""Revisions of a job: frozen when they are submitted, and the links by which somebody outside the office sees one."""

from datetime import datetime

from sqlalchemy import ForeignKey, Index, String, Text, UniqueConstraint, text
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import Base, Utc, now
from webapp.models.packed import Packed


class Revision(Base):
    """One submission. Everything but its state is frozen; triggers refuse any other change.

    document: canonical JSON, kept compressed; fingerprint: its SHA-256. changes: the job's count of changes when it was frozen.
    state: one of `services.revisions.STATES`.
    """

    __tablename__ = "revision"
    __table_args__ = (UniqueConstraint("job_id", "number"), Index("ix_revision_fingerprint", "fingerprint"))

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("job.id"), index=True)
    number: Mapped[int]
    state: Mapped[str] = mapped_column(String(20))
    document: Mapped[str] = mapped_column(Packed)
    fingerprint: Mapped[str] = mapped_column(String(64))
    engine: Mapped[str] = mapped_column(String(20))
    edition: Mapped[str] = mapped_column(String(20))
    changes: Mapped[int]
    note: Mapped[str] = mapped_column(Text, default="")
    by_person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    by_name: Mapped[str] = mapped_column(String(120))
    made_at: Mapped[datetime] = mapped_column(Utc, default=now)
    version: Mapped[int] = mapped_column(default=1)

    @property
    def letter(self) -> str:
        """A, B … Z, AA, AB: as drawings are lettered."""
        number, letters = self.number, ""
        while number:
            number, rest = divmod(number - 1, 26)
            letters = chr(65 + rest) + letters
        return letters


class ReviewLink(Base):
    """A link to one revision for somebody outside the office. Only the token's hash is kept.

    used_at: when its button was pressed; a link opens once, what it opened lasts until `expires_at`.
    """

    __tablename__ = "review_link"

    id: Mapped[int] = mapped_column(primary_key=True)
    revision_id: Mapped[int] = mapped_column(ForeignKey("revision.id"), index=True)
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    name: Mapped[str] = mapped_column(String(120))
    authority: Mapped[str] = mapped_column(String(120), default="")
    by_name: Mapped[str] = mapped_column(String(120))
    made_at: Mapped[datetime] = mapped_column(Utc, default=now)
    expires_at: Mapped[datetime] = mapped_column(Utc)
    used_at: Mapped[datetime | None] = mapped_column(Utc, default=None)
    revoked_at: Mapped[datetime | None] = mapped_column(Utc, default=None)


class LinkUse(Base):
    """Every time a review link was tried, and what came of it."""

    __tablename__ = "link_use"

    id: Mapped[int] = mapped_column(primary_key=True)
    link_id: Mapped[int] = mapped_column(ForeignKey("review_link.id"), index=True)
    at: Mapped[datetime] = mapped_column(Utc, default=now)
    what: Mapped[str] = mapped_column(String(40))
    address: Mapped[str] = mapped_column(String(64), server_default=text("''"), default="")
