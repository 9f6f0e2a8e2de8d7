"""What every table shares: constraint names, times in UTC, and being put away without being lost."""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import DateTime, Dialect, MetaData, text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column
from sqlalchemy.types import TypeDecorator

NAMES = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}
Texts = dict[str, str]
Moved = dict[str, list[str]]  # stations as texts
EMPTY = text("'{}'")


class Base(DeclarativeBase):
    """Root of the tables."""

    metadata = MetaData(naming_convention=NAMES)


class Utc(TypeDecorator[datetime]):
    """A moment in UTC. SQLite hands times back without their zone; this puts it on again."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Refuse times whose zone is unknown."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a time without its zone")
        return value.astimezone(UTC)

    def process_result_value(self, value: Any, dialect: Dialect) -> datetime | None:
        """Always aware."""
        if value is None:
            return None
        moment: datetime = value
        return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment.astimezone(UTC)


def now() -> datetime:
    """The present moment, to the second."""
    return datetime.now(UTC).replace(microsecond=0)


class Kept:
    """When a row was made and last changed, its state, and whether it is put away (deleted, can be brought back).

    `version` is the job's count of changes when this row last changed: a form made from an older one is stale.
    """

    version: Mapped[int] = mapped_column(default=1)
    created_at: Mapped[datetime] = mapped_column(Utc, default=now)
    updated_at: Mapped[datetime] = mapped_column(Utc, default=now)
    deleted_at: Mapped[datetime | None] = mapped_column(Utc, default=None)
