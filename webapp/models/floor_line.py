"""Floor lines: joists that meet a wall at one level, before it is settled what carries them."""

from sqlalchemy import JSON, ForeignKey, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import Base, Kept, Texts


class FloorLine(Kept, Base):
    """One floor line of a wall. Args: inputs: texts of `engine.floor.Floor`."""

    __tablename__ = "floor_line"

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("job.id", ondelete="CASCADE"), index=True)
    wall_id: Mapped[int] = mapped_column(ForeignKey("wall.id"), index=True)
    name: Mapped[str] = mapped_column(String(80))
    level: Mapped[int]
    start: Mapped[str] = mapped_column(String(60))
    end: Mapped[str] = mapped_column(String(60))
    inputs: Mapped[Texts] = mapped_column(JSON)
