"""What was found when a revision was walked: ticks, measurements, notes, photographs and decisions, added one by one."""

from datetime import datetime
from typing import Any

from sqlalchemy import JSON, ForeignKey, LargeBinary, String
from sqlalchemy.orm import Mapped, mapped_column

from webapp.models.base import Base, Utc, now


class ReviewItem(Base):
    """One item, kept once however often it is sent.

    key: made by the device. content: hash of what was sent with it. place: an attachment's tag, a wall's name, or "" for the whole.
    stage: one of `services.checklists.STAGES`. kind: tick, measure, note, photo or decision. item: which line of the checklist.
    """

    __tablename__ = "review_item"

    id: Mapped[int] = mapped_column(primary_key=True)
    revision_id: Mapped[int] = mapped_column(ForeignKey("revision.id"), index=True)
    key: Mapped[str] = mapped_column(String(64), unique=True)
    content: Mapped[str] = mapped_column(String(64))
    place: Mapped[str] = mapped_column(String(80))
    stage: Mapped[str] = mapped_column(String(20))
    kind: Mapped[str] = mapped_column(String(20))
    item: Mapped[str] = mapped_column(String(80))
    value: Mapped[dict[str, Any]] = mapped_column(JSON)
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    link_id: Mapped[int | None] = mapped_column(ForeignKey("review_link.id"))
    who: Mapped[str] = mapped_column(String(120))
    role: Mapped[str] = mapped_column(String(20))
    device_at: Mapped[str] = mapped_column(String(40))
    at: Mapped[datetime] = mapped_column(Utc, default=now)


class Photo(Base):
    """A photograph of an item, re-encoded here so that nothing but the picture is kept."""

    __tablename__ = "photo"

    id: Mapped[int] = mapped_column(primary_key=True)
    item_id: Mapped[int] = mapped_column(ForeignKey("review_item.id"), unique=True)
    sha256: Mapped[str] = mapped_column(String(64))
    width: Mapped[int]
    height: Mapped[int]
    data: Mapped[bytes] = mapped_column(LargeBinary, deferred=True)


class Checklist(Base):
    """What an office looks at, for a kind of attachment (or "wall") at one stage; a change is a new version.

    items: rows of "key", "words", "measure" (a drawn dimension, or "") and "stop" ("yes" where work waits for it).
    """

    __tablename__ = "checklist"

    id: Mapped[int] = mapped_column(primary_key=True)
    office_id: Mapped[int] = mapped_column(ForeignKey("office.id"), index=True)
    kind: Mapped[str] = mapped_column(String(40))
    stage: Mapped[str] = mapped_column(String(20))
    version: Mapped[int]
    items: Mapped[list[dict[str, str]]] = mapped_column(JSON)
    by_name: Mapped[str] = mapped_column(String(120))
    at: Mapped[datetime] = mapped_column(Utc, default=now)


class Design(Base):
    """An engineer's document that covers what the checks refer or flag.

    covers: by tag, the hash of the attachment as it was covered; of another it is no longer the cover.
    """

    __tablename__ = "design"

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("job.id"), index=True)
    who: Mapped[str] = mapped_column(String(120))
    licence: Mapped[str] = mapped_column(String(80))
    dated: Mapped[str] = mapped_column(String(10))
    scope: Mapped[str] = mapped_column(String(500))
    covers: Mapped[dict[str, str]] = mapped_column(JSON)
    file_name: Mapped[str] = mapped_column(String(120))
    media: Mapped[str] = mapped_column(String(40))
    sha256: Mapped[str] = mapped_column(String(64))
    data: Mapped[bytes] = mapped_column(LargeBinary, deferred=True)
    by_name: Mapped[str] = mapped_column(String(120))
    at: Mapped[datetime] = mapped_column(Utc, default=now)
    deleted_at: Mapped[datetime | None] = mapped_column(Utc, default=None)


class Release(Base):
    """A hold point released for one wall's storey, or something the placing was given ("weather"). Undone by a later row.

    point: the hold point's words. held: whether this row takes an earlier release back.
    """

    __tablename__ = "release"

    id: Mapped[int] = mapped_column(primary_key=True)
    job_id: Mapped[int] = mapped_column(ForeignKey("job.id"), index=True)
    wall_id: Mapped[int] = mapped_column(ForeignKey("wall.id"), index=True)
    level: Mapped[int]
    point: Mapped[str] = mapped_column(String(200))
    words: Mapped[str] = mapped_column(String(500))
    held: Mapped[bool] = mapped_column(default=False)
    person_id: Mapped[int | None] = mapped_column(ForeignKey("person.id"))
    by_name: Mapped[str] = mapped_column(String(120))
    at: Mapped[datetime] = mapped_column(Utc, default=now)
