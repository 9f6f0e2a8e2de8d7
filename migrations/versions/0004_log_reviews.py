"""The approvals log, what reviews find, checklists, engineers' designs, hold points released."""

from collections.abc import Sequence
from typing import Any

import sqlalchemy as sa
from alembic import op

from webapp.migrate import keep_filled

revision: str = "0004"
down_revision: str | None = "0003"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

MOMENT = sa.DateTime(timezone=True)
ONLY_ADDED = {"log_entry": "the log is only added to", "review_item": "what a review found is only added to"}
TABLES = ("release", "design", "checklist", "photo", "review_item", "log_entry")


def _id() -> sa.Column[Any]:
    return sa.Column("id", sa.Integer(), primary_key=True)


def _text(*names: tuple[str, int]) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.String(length), nullable=False) for name, length in names]


def _long(*names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Text(), nullable=False) for name in names]


def _json(*names: str) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.JSON(), nullable=False) for name in names]


def _number(*names: str, nullable: bool = False) -> list[sa.Column[Any]]:
    return [sa.Column(name, sa.Integer(), nullable=nullable) for name in names]


def _points(table: str, column: str, to: str, nullable: bool = False, unique: bool = False) -> sa.Column[Any]:
    key = sa.ForeignKey(f"{to}.id", name=f"fk_{table}_{column}_{to}")
    return sa.Column(column, sa.Integer(), key, nullable=nullable)


def _at(name: str = "at", nullable: bool = False) -> sa.Column[Any]:
    return sa.Column(name, MOMENT, nullable=nullable)


def _index(table: str, *columns: str) -> None:
    op.create_index(f"ix_{table}_{'_'.join(columns)}", table, list(columns))


def upgrade() -> None:
    """Six tables, and the triggers that let two of them only grow."""
    op.create_table(
        "log_entry", _id(), _points("log_entry", "office_id", "office"), *_number("seq"), _at(), *_text(("device_at", 40)),
        *_text(("what", 20), ("who", 120), ("role", 20)), _points("log_entry", "person_id", "person", True),
        *_text(("authority", 120), ("permit", 80)), *_long("words", "conditions"), _points("log_entry", "job_id", "job", True),
        *_text(("job_name", 120)), _points("log_entry", "revision_id", "revision", True),
        *_text(("revision", 8), ("fingerprint", 64)), *_json("places", "files"), *_number("corrects", nullable=True),
        *_text(("before", 64), ("hash", 64)), sa.UniqueConstraint("office_id", "seq", name="uq_log_entry_office_id_seq"),
    )  # fmt: skip
    _index("log_entry", "job_id", "seq")
    _index("log_entry", "office_id", "permit")
    _index("log_entry", "revision_id")
    op.create_table(
        "review_item", _id(), _points("review_item", "revision_id", "revision"), *_text(("key", 64), ("content", 64)),
        *_text(("place", 80), ("stage", 20), ("kind", 20), ("item", 80)), *_json("value"),
        _points("review_item", "person_id", "person", True), _points("review_item", "link_id", "review_link", True),
        *_text(("who", 120), ("role", 20), ("device_at", 40)), _at(), sa.UniqueConstraint("key", name="uq_review_item_key"),
    )  # fmt: skip
    _index("review_item", "revision_id")
    op.create_table(
        "photo", _id(), _points("photo", "item_id", "review_item"), *_text(("sha256", 64)), *_number("width", "height"),
        sa.Column("data", sa.LargeBinary(), nullable=False), sa.UniqueConstraint("item_id", name="uq_photo_item_id"),
    )  # fmt: skip
    op.create_table(
        "checklist", _id(), _points("checklist", "office_id", "office"), *_text(("kind", 40), ("stage", 20)), *_number("version"),
        *_json("items"), *_text(("by_name", 120)), _at(),
    )  # fmt: skip
    _index("checklist", "office_id")
    op.create_table(
        "design", _id(), _points("design", "job_id", "job"), *_text(("who", 120), ("licence", 80), ("dated", 10), ("scope", 500)),
        *_json("covers"), *_text(("file_name", 120), ("media", 40), ("sha256", 64)),
        sa.Column("data", sa.LargeBinary(), nullable=False), *_text(("by_name", 120)), _at(), _at("deleted_at", True),
    )  # fmt: skip
    _index("design", "job_id")
    op.create_table(
        "release", _id(), _points("release", "job_id", "job"), _points("release", "wall_id", "wall"), *_number("level"),
        *_text(("point", 200), ("words", 500)), sa.Column("held", sa.Boolean(), nullable=False),
        _points("release", "person_id", "person", True), *_text(("by_name", 120)), _at(),
    )  # fmt: skip
    _index("release", "job_id")
    _index("release", "wall_id")
    for table, refusal in ONLY_ADDED.items():
        for statement in _triggers(table, refusal):
            op.execute(statement)


def _triggers(table: str, refusal: str) -> list[str]:
    if op.get_bind().dialect.name == "sqlite":
        return [
            f"CREATE TRIGGER {table}_no_{event.lower()} BEFORE {event} ON {table} BEGIN SELECT RAISE(ABORT, '{refusal}'); END"
            for event in ("UPDATE", "DELETE")
        ]
    return [
        f"CREATE FUNCTION {table}_refuse() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '{refusal}'; END $$",
        f"CREATE TRIGGER {table}_only_added BEFORE UPDATE OR DELETE OR TRUNCATE ON {table} "
        f"FOR EACH STATEMENT EXECUTE FUNCTION {table}_refuse()",
    ]


def downgrade() -> None:
    """Back to revisions nobody reviewed. Refused where the log has a row, a review an item, or an engineer's design is kept.

    Lost: checklists of the office, and hold points released.
    """
    keep_filled(op.get_bind(), "log_entry", "review_item", "design")
    for table in TABLES:
        op.drop_table(table)
    if op.get_bind().dialect.name != "sqlite":
        for table in ONLY_ADDED:
            op.execute(f"DROP FUNCTION {table}_refuse()")
