"""Finding in the log by words, and the files its rows name."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

from webapp.migrate import keep_filled

revision: str = "0005"
down_revision: str | None = "0004"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

# Words of a row that are searched; the index follows the rows by itself, since rows are only added.
SAID = ("words", "conditions", "authority", "permit", "who", "job_name", "what", "revision", "fingerprint")
BOTH_SPACED = " || ' ' || "


def upgrade() -> None:
    """An index of words that grows with the log, one of moments, and a table of files."""
    op.create_table(
        "log_file",
        sa.Column("id", sa.Integer(), primary_key=True),
        sa.Column(
            "office_id", sa.Integer(), sa.ForeignKey("office.id", name="fk_log_file_office_id_office"), nullable=False
        ),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("media", sa.String(60), nullable=False),
        sa.Column("data", sa.LargeBinary(), nullable=False),
        sa.UniqueConstraint("office_id", "sha256", name="uq_log_file_office_id_sha256"),
    )
    op.create_index("ix_log_entry_office_id_at_seq", "log_entry", ["office_id", "at", "seq"])
    if op.get_bind().dialect.name == "sqlite":
        said = BOTH_SPACED.join(f"new.{name}" for name in SAID)
        op.execute(
            "CREATE VIRTUAL TABLE log_search USING fts5(said, authority, content='', "
            "tokenize='unicode61 remove_diacritics 2', prefix='2 3')"
        )
        op.execute(
            f"CREATE TRIGGER log_entry_said AFTER INSERT ON log_entry BEGIN "
            f"INSERT INTO log_search (rowid, said, authority) VALUES (new.id, {said}, replace(new.authority, ' ', '')); END"
        )
        old = BOTH_SPACED.join(SAID)
        op.execute(
            f"INSERT INTO log_search (rowid, said, authority) SELECT id, {old}, replace(authority, ' ', '') FROM log_entry"
        )
    else:
        said = BOTH_SPACED.join(SAID)
        op.execute(f"CREATE INDEX ix_log_entry_said ON log_entry USING gin (to_tsvector('simple', {said}))")


def downgrade() -> None:
    """Back to a log that is read from its end. Refused where a row of it names a file that is kept."""
    keep_filled(op.get_bind(), "log_file")
    if op.get_bind().dialect.name == "sqlite":
        op.execute("DROP TRIGGER log_entry_said")
        op.execute("DROP TABLE log_search")
    else:
        op.execute("DROP INDEX ix_log_entry_said")
    op.drop_index("ix_log_entry_office_id_at_seq", "log_entry")
    op.drop_table("log_file")
