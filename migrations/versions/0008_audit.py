"""Sign-ins, refusals and changes of credentials."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0008"
down_revision: str | None = "0007"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    """A table of them."""
    op.create_table(
        "audit",
        sa.Column("id", sa.Integer(), primary_key=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("what", sa.String(20), nullable=False),
        sa.Column(
            "person_id", sa.Integer(), sa.ForeignKey("person.id", name="fk_audit_person_id_person"), nullable=True
        ),
        sa.Column(
            "office_id", sa.Integer(), sa.ForeignKey("office.id", name="fk_audit_office_id_office"), nullable=True
        ),
        sa.Column("address", sa.String(12), nullable=False),
        sa.Column("words", sa.String(200), nullable=False),
    )
    op.create_index("ix_audit_office_id_id", "audit", ["office_id", "id"])
    op.create_index("ix_audit_at", "audit", ["at"])


def downgrade() -> None:
    """Without them. Lost: all of them, which are forgotten in time anyway."""
    op.drop_index("ix_audit_at", "audit")
    op.drop_index("ix_audit_office_id_id", "audit")
    op.drop_table("audit")
