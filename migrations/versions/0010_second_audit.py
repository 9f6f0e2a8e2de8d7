"""Of whom an office demands a second factor; the audit's rows can't be changed, and go only when they are old enough."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0010"
down_revision: str | None = "0009"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

REFUSAL = "the audit is only added to, and forgotten in time"
DAYS = 399  # one fewer than the program keeps them: its clock and the database's may differ


def upgrade() -> None:
    """A column for the demand, and the triggers of the audit."""
    op.add_column("office", sa.Column("second_for", sa.String(20), nullable=False, server_default=""))
    for statement in _sqlite() if op.get_bind().dialect.name == "sqlite" else _postgres():
        op.execute(statement)


def _sqlite() -> list[str]:
    stop = f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
    young = f"old.at > datetime('now', '-{DAYS} days')"
    return [
        f"CREATE TRIGGER audit_no_update BEFORE UPDATE ON audit {stop}",
        f"CREATE TRIGGER audit_no_delete BEFORE DELETE ON audit WHEN {young} {stop}",
    ]


def _postgres() -> list[str]:
    call = "EXECUTE FUNCTION audit_refuse()"
    return [
        "CREATE FUNCTION audit_refuse() RETURNS trigger LANGUAGE plpgsql AS "
        f"$$ BEGIN RAISE EXCEPTION '{REFUSAL}' USING ERRCODE = 'integrity_constraint_violation'; END $$",
        f"CREATE TRIGGER audit_only_added BEFORE UPDATE OR TRUNCATE ON audit FOR EACH STATEMENT {call}",
        "CREATE TRIGGER audit_no_delete BEFORE DELETE ON audit FOR EACH ROW "
        f"WHEN (old.at > now() - interval '{DAYS} days') {call}",
    ]


def downgrade() -> None:
    """Without both. Lost: the demand; those who have a second factor keep it."""
    if op.get_bind().dialect.name == "sqlite":
        op.execute("DROP TRIGGER audit_no_update")
        op.execute("DROP TRIGGER audit_no_delete")
    else:
        op.execute("DROP TRIGGER audit_only_added ON audit")
        op.execute("DROP TRIGGER audit_no_delete ON audit")
        op.execute("DROP FUNCTION audit_refuse()")
    op.drop_column("office", "second_for")
