"""People, their sessions, frozen revisions and review links."""

from collections.abc import Sequence
from typing import Any

import sqlalchemy as sa
from alembic import op

from webapp.migrate import keep_filled

revision: str = "0003"
down_revision: str | None = "0002"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

MOMENT = sa.DateTime(timezone=True)
FROZEN = "job_id, number, document, fingerprint, engine, edition, changes, note, by_person_id, by_name, made_at"
REFUSAL = "a revision is frozen"
TABLES = ("link_use", "signed", "review_link", "revision", "setup", "attempt", "person")


def _id() -> sa.Column[Any]:
    return sa.Column("id", sa.Integer(), primary_key=True)


def _text(name: str, length: int) -> sa.Column[Any]:
    return sa.Column(name, sa.String(length), nullable=False)


def _at(name: str, nullable: bool = False) -> sa.Column[Any]:
    return sa.Column(name, MOMENT, nullable=nullable)


def _points(table: str, column: str, to: str, nullable: bool = False, ondelete: str | None = None) -> sa.Column[Any]:
    name = f"fk_{table}_{column}_{to}"
    return sa.Column(column, sa.Integer(), sa.ForeignKey(f"{to}.id", name=name, ondelete=ondelete), nullable=nullable)


def upgrade() -> None:
    """Seven tables, and the triggers that keep a revision as it was submitted."""
    op.create_table(
        "person", _id(), _points("person", "office_id", "office"), _text("name", 120), _text("sign_in", 120), _text("role", 20),
        _text("password", 200), _text("code", 64), _at("code_until", True), _text("second", 64),
        sa.Column("second_step", sa.Integer(), nullable=False), sa.Column("version", sa.Integer(), nullable=False),
        _at("created_at"), _at("updated_at"), _at("deleted_at", True),
        sa.UniqueConstraint("sign_in", name="uq_person_sign_in"),
    )  # fmt: skip
    op.create_index("ix_person_office_id", "person", ["office_id"])
    op.create_table(
        "attempt", sa.Column("key", sa.String(64), primary_key=True), sa.Column("fails", sa.Integer(), nullable=False),
        _at("last_at"), _at("until", True),
    )  # fmt: skip
    op.create_table("setup", _id(), _text("code_hash", 64))
    op.create_table(
        "revision", _id(), _points("revision", "job_id", "job"), sa.Column("number", sa.Integer(), nullable=False),
        _text("state", 20), sa.Column("document", sa.Text(), nullable=False), _text("fingerprint", 64), _text("engine", 20),
        _text("edition", 20), sa.Column("changes", sa.Integer(), nullable=False), sa.Column("note", sa.Text(), nullable=False),
        _points("revision", "by_person_id", "person", True), _text("by_name", 120), _at("made_at"),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.UniqueConstraint("job_id", "number", name="uq_revision_job_id_number"),
    )  # fmt: skip
    op.create_index("ix_revision_job_id", "revision", ["job_id"])
    op.create_index("ix_revision_fingerprint", "revision", ["fingerprint"])
    op.create_table(
        "review_link", _id(), _points("review_link", "revision_id", "revision"), _text("token_hash", 64), _text("name", 120),
        _text("authority", 120), _text("by_name", 120), _at("made_at"), _at("expires_at"), _at("used_at", True),
        _at("revoked_at", True), sa.UniqueConstraint("token_hash", name="uq_review_link_token_hash"),
    )  # fmt: skip
    op.create_index("ix_review_link_revision_id", "review_link", ["revision_id"])
    op.create_table(
        "signed", _id(), _text("token_hash", 64), _points("signed", "person_id", "person", True, "CASCADE"),
        _points("signed", "link_id", "review_link", True, "CASCADE"), _text("device", 200), _at("began_at"), _at("seen_at"),
        sa.UniqueConstraint("token_hash", name="uq_signed_token_hash"),
    )  # fmt: skip
    op.create_index("ix_signed_person_id", "signed", ["person_id"])
    op.create_index("ix_signed_link_id", "signed", ["link_id"])
    op.create_table(
        "link_use", _id(), _points("link_use", "link_id", "review_link"), _at("at"), _text("what", 40),
        sa.Column("address", sa.String(64), nullable=False, server_default=sa.text("''")),
    )  # fmt: skip
    op.create_index("ix_link_use_link_id", "link_use", ["link_id"])
    for statement in _triggers():
        op.execute(statement)


def _triggers() -> list[str]:
    if op.get_bind().dialect.name == "sqlite":
        stop = f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
        return [
            f"CREATE TRIGGER revision_frozen BEFORE UPDATE OF {FROZEN} ON revision {stop}",
            f"CREATE TRIGGER revision_kept BEFORE DELETE ON revision {stop}",
        ]
    return [
        f"CREATE FUNCTION revision_refuse() RETURNS trigger LANGUAGE plpgsql AS "
        f"$$ BEGIN RAISE EXCEPTION '{REFUSAL}'; END $$",
        f"CREATE TRIGGER revision_frozen BEFORE UPDATE OF {FROZEN} ON revision "
        "FOR EACH ROW EXECUTE FUNCTION revision_refuse()",
        "CREATE TRIGGER revision_kept BEFORE DELETE ON revision FOR EACH ROW EXECUTE FUNCTION revision_refuse()",
    ]


def downgrade() -> None:
    """Back to jobs that anyone on this machine may change. Refused where a revision was submitted.

    Lost: people with their passwords, and their sessions.
    """
    keep_filled(op.get_bind(), "revision")
    for table in TABLES:
        op.drop_table(table)
    if op.get_bind().dialect.name != "sqlite":
        op.execute("DROP FUNCTION revision_refuse()")
