"""Wall types and walls. Numbers are kept as the texts that were typed."""

from sqlalchemy import JSON, ForeignKey, Index, String, text
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import EMPTY, Base, Kept, Moved, Texts

LIVE = text("deleted_at IS NULL")


class WallType(Kept, Base):
    """A wall build-up, by a name unique among the job's types in use."""

    __tablename__ = "wall_type"
    __table_args__ = (
        Index("uq_wall_type_job_id_name", "job_id", "name", unique=True, sqlite_where=LIVE, postgresql_where=LIVE),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("job.id", ondelete="CASCADE"), index=True)
    name: Mapped[str] = mapped_column(String(80))
    inputs: Mapped[Texts] = mapped_column(JSON)


class Wall(Kept, Base):
    """One straight wall: its line, its storeys bottom up (each naming a wall type), its openings.

    brackets: stations of transition brackets moved by hand, by floor level. placing: its own answers over the job's.
    """

    __tablename__ = "wall"
    __table_args__ = (
        Index("uq_wall_job_id_name", "job_id", "name", unique=True, sqlite_where=LIVE, postgresql_where=LIVE),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("job.id", ondelete="CASCADE"), index=True)
    name: Mapped[str] = mapped_column(String(80))
    sort: Mapped[int] = mapped_column(default=0)
    line: Mapped[Texts] = mapped_column(JSON)
    storeys: Mapped[list[Texts]] = mapped_column(JSON)
    openings: Mapped[list[Texts]] = mapped_column(JSON)
    brackets: Mapped[Moved] = mapped_column(JSON, default=dict, server_default=EMPTY)
    placing: Mapped[Texts] = mapped_column(JSON, default=dict, server_default=EMPTY)
