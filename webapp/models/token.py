"""Tokens of programs."""

from datetime import datetime

from sqlalchemy import ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import Base, Utc, now


class Token(Base):
    """What a program sends to act as a person, until it is taken back or a year old. Only its hash is kept."""

    __tablename__ = "token"

    id: Mapped[int] = mapped_column(primary_key=True)
    person_id: Mapped[int] = mapped_column(ForeignKey("person.id", ondelete="CASCADE"), index=True)
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    name: Mapped[str] = mapped_column(String(80))
    made_at: Mapped[datetime] = mapped_column(Utc, default=now)
    used_at: Mapped[datetime | None] = mapped_column(Utc, default=None)
    revoked_at: Mapped[datetime | None] = mapped_column(Utc, default=None)
