"""Floor lines, the office with its habits, stations moved by hand, placing."""

from collections.abc import Sequence
from typing import Any

import sqlalchemy as sa
from alembic import op

revision: str = "0002"
down_revision: str | None = "0001"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

MOMENT = sa.DateTime(timezone=True)
EMPTY = sa.text("'{}'")
NEW: dict[str, tuple[str, ...]] = {"job": ("placing",), "wall": ("brackets", "placing"), "attachment": ("moved",)}


def _kept() -> list[sa.Column[Any]]:
    return [
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", MOMENT, nullable=False),
        sa.Column("updated_at", MOMENT, nullable=False),
        sa.Column("deleted_at", MOMENT, nullable=True),
    ]


def upgrade() -> None:
    """Two tables, and columns that begin empty; every job there is belongs to the first office."""
    office = op.create_table(
        "office",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(120), nullable=False),
        *(sa.Column(n, sa.JSON(), nullable=False) for n in ("habits", "takeoff", "waste", "rates", "standards")),
        sa.Column("hold_points", sa.JSON(), nullable=False),
        *_kept(),
        sa.PrimaryKeyConstraint("id", name="pk_office"),
    )
    op.execute(
        sa.insert(office).values(
            name="", habits={}, takeoff={}, waste={}, rates={}, standards={}, hold_points=[], version=1,
            created_at=sa.func.current_timestamp(), updated_at=sa.func.current_timestamp(),
        )
    )  # fmt: skip
    for table, names in NEW.items():
        with op.batch_alter_table(table) as change:
            for name in names:
                change.add_column(sa.Column(name, sa.JSON(), nullable=False, server_default=EMPTY))
    with op.batch_alter_table("job") as change:
        change.add_column(sa.Column("office_id", sa.Integer(), nullable=False, server_default="1"))
        change.create_foreign_key("fk_job_office_id_office", "office", ["office_id"], ["id"])
        change.create_index("ix_job_office_id", ["office_id"])
    op.create_table(
        "floor_line",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("job_id", sa.Integer(), nullable=False),
        sa.Column("wall_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(80), nullable=False),
        sa.Column("level", sa.Integer(), nullable=False),
        sa.Column("start", sa.String(60), nullable=False),
        sa.Column("end", sa.String(60), nullable=False),
        sa.Column("inputs", sa.JSON(), nullable=False),
        *_kept(),
        sa.PrimaryKeyConstraint("id", name="pk_floor_line"),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name="fk_floor_line_job_id_job", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["wall_id"], ["wall.id"], name="fk_floor_line_wall_id_wall"),
    )
    op.create_index("ix_floor_line_job_id", "floor_line", ["job_id"])
    op.create_index("ix_floor_line_wall_id", "floor_line", ["wall_id"])


def downgrade() -> None:
    """Back to jobs without an office.

    Lost: floor lines, the office's habits, stations moved by hand, placing. Jobs of several offices become everybody's.
    """
    op.drop_table("floor_line")
    with op.batch_alter_table("job") as change:
        change.drop_index("ix_job_office_id")
        change.drop_constraint("fk_job_office_id_office", type_="foreignkey")
        change.drop_column("office_id")
    for table, names in NEW.items():
        with op.batch_alter_table(table) as change:
            for name in names:
                change.drop_column(name)
    op.drop_table("office")
