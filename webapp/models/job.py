"""Jobs."""

from sqlalchemy import JSON, ForeignKey, String, Text
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import EMPTY, Base, Kept, Texts


class Job(Kept, Base):
    """One building. `changes` counts every change to anything in it; `version` that of its own details.

    placing: texts of `engine.placing.Inputs` for all its walls.
    """

    __tablename__ = "job"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(String(120))
    client: Mapped[str] = mapped_column(String(120), default="")
    place: Mapped[str] = mapped_column(String(200), default="")
    notes: Mapped[str] = mapped_column(Text, default="")
    site: Mapped[Texts] = mapped_column(JSON)
    edition: Mapped[str] = mapped_column(String(20))
    changes: Mapped[int] = mapped_column(default=1)
    placing: Mapped[Texts] = mapped_column(JSON, default=dict, server_default=EMPTY)
    office_id: Mapped[int] = mapped_column(ForeignKey("office.id"), index=True, default=1, server_default="1")
