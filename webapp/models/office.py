"""The office that owns jobs, and what it types once for all of them."""

from typing import Any

from sqlalchemy import JSON, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import Base, Kept, Texts


class Office(Kept, Base):
    """One office. Its habits, takeoff, waste and rates are texts as typed.

    habits: of `engine.setting_out.Habits`. takeoff: of `engine.takeoff.Office`. waste: percent by item. rates: of
    `engine.options.Rates`. standards: what it always takes for a kind of attachment, texts by kind. hold_points: rows of texts as
    `engine.placing.read_hold_points` takes them; empty for the published list. second_for: of whom a second factor is
    demanded, a key of `permissions.SECOND_FOR`.
    """

    __tablename__ = "office"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(120), default="")
    habits: Mapped[Texts] = mapped_column(JSON, default=dict)
    takeoff: Mapped[Texts] = mapped_column(JSON, default=dict)
    waste: Mapped[Texts] = mapped_column(JSON, default=dict)
    rates: Mapped[Texts] = mapped_column(JSON, default=dict)
    standards: Mapped[dict[str, Any]] = mapped_column(JSON, default=dict)
    hold_points: Mapped[list[Texts]] = mapped_column(JSON, default=list)
    second_for: Mapped[str] = mapped_column(String(20), default="", server_default="")
