"""Attachments: what was typed, where it sits, and a summary of its last check."""

from sqlalchemy import JSON, ForeignKey, String, UniqueConstraint
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import EMPTY, Base, Kept, Moved, Texts


class Attachment(Kept, Base):
    """One attachment on a wall. Numbers that follow the wall are not kept here. moved: stations moved by hand, by what they are.

    The summary holds for the engine, the edition and, where listings run out, the day named in it; any other makes it stale, and so
    does an empty `checked_engine`. hash: of all it was checked with, which an engineer's design names.
    """

    __tablename__ = "attachment"
    __table_args__ = (UniqueConstraint("job_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("job.id", ondelete="CASCADE"), index=True)
    wall_id: Mapped[int] = mapped_column(ForeignKey("wall.id"), index=True)
    number: Mapped[int]
    kind: Mapped[str] = mapped_column(String(40))
    level: Mapped[int]
    start: Mapped[str] = mapped_column(String(60))
    end: Mapped[str] = mapped_column(String(60))
    inputs: Mapped[Texts] = mapped_column(JSON)
    moved: Mapped[Moved] = mapped_column(JSON, default=dict, server_default=EMPTY)

    verdict: Mapped[str] = mapped_column(String(20), default="not checked")
    ratio: Mapped[float | None] = mapped_column(default=None)
    governs: Mapped[str] = mapped_column(String(300), default="")
    lines: Mapped[str] = mapped_column(String(60), default="")
    to_measure: Mapped[int] = mapped_column(default=0)
    checked_engine: Mapped[str] = mapped_column(String(20), default="")
    checked_edition: Mapped[str] = mapped_column(String(20), default="")
    checked_on: Mapped[str] = mapped_column(String(10), default="")
    hash: Mapped[str] = mapped_column(String(64), default="", server_default="")

    @property
    def tag(self) -> str:
        """The mark on drawings and lists: A1, A2 …"""
        return f"A{self.number}"
