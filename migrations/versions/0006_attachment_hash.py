"""What an attachment is, in a hash: an engineer's design covers it only as long as that stays the same."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0006"
down_revision: str | None = "0005"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    """Empty until the next check, which every summary is asked for again."""
    with op.batch_alter_table("attachment") as change:
        change.add_column(sa.Column("hash", sa.String(64), nullable=False, server_default=""))
    op.execute("UPDATE attachment SET checked_engine = ''")


def downgrade() -> None:
    """Without it; the next check makes it again."""
    with op.batch_alter_table("attachment") as change:
        change.drop_column("hash")
