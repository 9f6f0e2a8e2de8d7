"""Jobs, wall types, walls and attachments."""

from collections.abc import Sequence
from typing import Any

import sqlalchemy as sa
from alembic import op

revision: str = "0001"
down_revision: str | None = None
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

LIVE = sa.text("deleted_at IS NULL")


def _kept() -> list[sa.Column[Any]]:
    moment = sa.DateTime(timezone=True)
    return [
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", moment, nullable=False),
        sa.Column("updated_at", moment, nullable=False),
        sa.Column("deleted_at", moment, nullable=True),
    ]


def _of_job(table: str) -> sa.Column[Any]:
    name = f"fk_{table}_job_id_job"
    return sa.Column("job_id", sa.Integer(), sa.ForeignKey("job.id", name=name, ondelete="CASCADE"), nullable=False)


def _unique_while_live(table: str) -> None:
    columns = ["job_id", "name"]
    op.create_index(f"uq_{table}_job_id_name", table, columns, unique=True, sqlite_where=LIVE, postgresql_where=LIVE)
    op.create_index(f"ix_{table}_job_id", table, ["job_id"])


def upgrade() -> None:
    """Four tables."""
    op.create_table(
        "job",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("client", sa.String(120), nullable=False),
        sa.Column("place", sa.String(200), nullable=False),
        sa.Column("notes", sa.Text(), nullable=False),
        sa.Column("site", sa.JSON(), nullable=False),
        sa.Column("edition", sa.String(20), nullable=False),
        sa.Column("changes", sa.Integer(), nullable=False),
        *_kept(),
        sa.PrimaryKeyConstraint("id", name="pk_job"),
    )
    op.create_table(
        "wall_type",
        sa.Column("id", sa.Integer(), nullable=False),
        _of_job("wall_type"),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("inputs", sa.JSON(), nullable=False),
        *_kept(),
        sa.PrimaryKeyConstraint("id", name="pk_wall_type"),
    )
    _unique_while_live("wall_type")
    op.create_table(
        "wall",
        sa.Column("id", sa.Integer(), nullable=False),
        _of_job("wall"),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("sort", sa.Integer(), nullable=False),
        sa.Column("line", sa.JSON(), nullable=False),
        sa.Column("storeys", sa.JSON(), nullable=False),
        sa.Column("openings", sa.JSON(), nullable=False),
        *_kept(),
        sa.PrimaryKeyConstraint("id", name="pk_wall"),
    )
    _unique_while_live("wall")
    op.create_table(
        "attachment",
        sa.Column("id", sa.Integer(), nullable=False),
        _of_job("attachment"),
        sa.Column("wall_id", sa.Integer(), sa.ForeignKey("wall.id", name="fk_attachment_wall_id_wall"), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("level", sa.Integer(), nullable=False),
        sa.Column("start", sa.String(60), nullable=False),
        sa.Column("end", sa.String(60), nullable=False),
        sa.Column("inputs", sa.JSON(), nullable=False),
        sa.Column("verdict", sa.String(20), nullable=False),
        sa.Column("ratio", sa.Double(), nullable=True),
        sa.Column("governs", sa.String(300), nullable=False),
        sa.Column("lines", sa.String(60), nullable=False),
        sa.Column("to_measure", sa.Integer(), nullable=False),
        sa.Column("checked_engine", sa.String(20), nullable=False),
        sa.Column("checked_edition", sa.String(20), nullable=False),
        sa.Column("checked_on", sa.String(10), nullable=False),
        *_kept(),
        sa.PrimaryKeyConstraint("id", name="pk_attachment"),
        sa.UniqueConstraint("job_id", "number", name="uq_attachment_job_id_number"),
    )
    op.create_index("ix_attachment_job_id", "attachment", ["job_id"])
    op.create_index("ix_attachment_wall_id", "attachment", ["wall_id"])


def downgrade() -> None:
    """Drops everything the program keeps."""
    for table in ("attachment", "wall", "wall_type", "job"):
        op.drop_table(table)
