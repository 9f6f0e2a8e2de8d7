"""People of an office, their sessions, and how often signing in failed."""

from datetime import datetime

from sqlalchemy import ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import Base, Kept, Utc, now


class Person(Kept, Base):
    """Somebody who signs in. Put away, they can't; what they did stays theirs.

    role: one of `permissions.ROLES`. password: its hash, "" where none is set yet. code: hash of the one-time code that sets one,
    good until `code_until`. second: secret of the one-time-code device, "" without; second_step: the last step used.
    """

    __tablename__ = "person"

    id: Mapped[int] = mapped_column(primary_key=True)
    office_id: Mapped[int] = mapped_column(ForeignKey("office.id"), index=True)
    name: Mapped[str] = mapped_column(String(120))
    sign_in: Mapped[str] = mapped_column(String(120), unique=True)
    role: Mapped[str] = mapped_column(String(20))
    password: Mapped[str] = mapped_column(String(200), default="")
    code: Mapped[str] = mapped_column(String(64), default="")
    code_until: Mapped[datetime | None] = mapped_column(Utc, default=None)
    second: Mapped[str] = mapped_column(String(64), default="")
    second_step: Mapped[int] = mapped_column(default=0)


class Signed(Base):
    """One signed-in browser: of a person, or of whoever opened a review link. Only the token's hash is kept."""

    __tablename__ = "signed"

    id: Mapped[int] = mapped_column(primary_key=True)
    token_hash: Mapped[str] = mapped_column(String(64), unique=True)
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id", ondelete="CASCADE"), index=True)
    link_id: Mapped[int | None] = mapped_column(ForeignKey("review_link.id", ondelete="CASCADE"), index=True)
    device: Mapped[str] = mapped_column(String(200), default="")
    began_at: Mapped[datetime] = mapped_column(Utc, default=now)
    seen_at: Mapped[datetime] = mapped_column(Utc, default=now)


class Attempt(Base):
    """Failures in a row of one account or one address; `key` is a hash of either."""

    __tablename__ = "attempt"

    key: Mapped[str] = mapped_column(String(64), primary_key=True)
    fails: Mapped[int] = mapped_column(default=0)
    last_at: Mapped[datetime] = mapped_column(Utc, default=now)
    until: Mapped[datetime | None] = mapped_column(Utc, default=None)


class Setup(Base):
    """The one-time code that makes the first administrator, printed by the server; only its hash is kept."""

    __tablename__ = "setup"

    id: Mapped[int] = mapped_column(primary_key=True)
    code_hash: Mapped[str] = mapped_column(String(64))
