"""Who signed in and out, what was refused, which credentials changed: for administrators, apart from the approvals log."""

from datetime import datetime

from sqlalchemy import ForeignKey, Index, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import Base, Utc, now


class Audit(Base):
    """One event. what: one of `services.audit.KINDS`. office_id: None where nobody's office is known.

    address: the first twelve digits of a hash of where it came from, so that events of one place can be told, not the place.
    """

    __tablename__ = "audit"
    __table_args__ = (Index("ix_audit_office_id_id", "office_id", "id"), Index("ix_audit_at", "at"))

    id: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime] = mapped_column(Utc, default=now)
    what: Mapped[str] = mapped_column(String(20))
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    office_id: Mapped[int | None] = mapped_column(ForeignKey("office.id"))
    address: Mapped[str] = mapped_column(String(12), default="")
    words: Mapped[str] = mapped_column(String(200), default="")
