"""Words of the log folded by the program, so that every database finds the same; refusals of triggers as broken integrity."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager

import sqlalchemy as sa
from alembic import op

# not a copy: what is looked for is folded by the same function
from webapp.models.said import SAID, said

revision: str = "0009"
down_revision: str | None = "0008"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

STEP = 2000
KEPT = "the log is only added to"
# By function: what it says. PostgreSQL would call it an error of the program's own otherwise.
REFUSALS = {
    "revision_refuse": "a revision is frozen",
    "log_entry_refuse": KEPT,
    "review_item_refuse": "what a review found is only added to",
}
NO_UPDATE = f"CREATE TRIGGER log_entry_no_update BEFORE UPDATE ON log_entry BEGIN SELECT RAISE(ABORT, '{KEPT}'); END"


def _sqlite() -> bool:
    return op.get_bind().dialect.name == "sqlite"


@contextmanager
def _unguarded() -> Iterator[None]:
    """The log's rows may be filled in, in this transaction."""
    op.execute(
        "DROP TRIGGER log_entry_no_update"
        if _sqlite()
        else "ALTER TABLE log_entry DISABLE TRIGGER log_entry_only_added"
    )
    yield
    op.execute(NO_UPDATE if _sqlite() else "ALTER TABLE log_entry ENABLE TRIGGER log_entry_only_added")


def upgrade() -> None:
    """A column of words instead of an index over eight, and its index."""
    _drop_index()
    op.add_column("log_entry", sa.Column("said", sa.Text(), nullable=False, server_default=""))
    with _unguarded():
        _fill()
    if _sqlite():
        op.execute(
            "CREATE VIRTUAL TABLE log_search USING fts5(said, content='', tokenize=\"ascii tokenchars '='\", prefix='2 3')"
        )
        op.execute("INSERT INTO log_search (rowid, said) SELECT id, said FROM log_entry")
        op.execute(
            "CREATE TRIGGER log_entry_said AFTER INSERT ON log_entry BEGIN "
            "INSERT INTO log_search (rowid, said) VALUES (new.id, new.said); END"
        )
    else:
        # the words are split already: read as they are, not by a parser that takes "-2" for a number
        op.execute("CREATE INDEX ix_log_entry_said ON log_entry USING gin ((said::tsvector))")
        _refuse(" USING ERRCODE = 'integrity_constraint_violation'")
        op.execute(
            "CREATE TRIGGER revision_whole BEFORE TRUNCATE ON revision FOR EACH STATEMENT EXECUTE FUNCTION revision_refuse()"
        )


def _drop_index() -> None:
    if _sqlite():
        op.execute("DROP TRIGGER log_entry_said")
        op.execute("DROP TABLE log_search")
    else:
        op.execute("DROP INDEX ix_log_entry_said")


def _fill() -> None:
    """Some rows at a time: a log may be long."""
    log_entry = sa.table("log_entry", sa.column("id"), sa.column("said"), *map(sa.column, SAID))
    query = sa.select(log_entry.c.id, *(log_entry.c[name] for name in SAID)).order_by(log_entry.c.id).limit(STEP)
    change = sa.update(log_entry).where(log_entry.c.id == sa.bindparam("row")).values(said=sa.bindparam("found"))
    after = 0
    while rows := op.get_bind().execute(query.where(log_entry.c.id > after)).mappings().all():
        op.get_bind().execute(change, [{"row": row["id"], "found": said(row)} for row in rows])  # type: ignore[arg-type]
        after = rows[-1]["id"]


def _refuse(how: str) -> None:
    for function, words in REFUSALS.items():
        op.execute(
            f"CREATE OR REPLACE FUNCTION {function}() RETURNS trigger LANGUAGE plpgsql AS "
            f"$$ BEGIN RAISE EXCEPTION '{words}'{how}; END $$"
        )


def downgrade() -> None:
    """Back to an index over the columns themselves; nothing is lost, since the words follow from the other columns."""
    _drop_index()
    op.drop_column("log_entry", "said")
    if _sqlite():
        _sqlite_as_before()
    else:
        spaced = " || ' ' || ".join(SAID)
        op.execute(f"CREATE INDEX ix_log_entry_said ON log_entry USING gin (to_tsvector('simple', {spaced}))")
        op.execute("DROP TRIGGER revision_whole ON revision")
        _refuse("")


def _sqlite_as_before() -> None:
    new, old = (" || ' ' || ".join(f"{row}{name}" for name in SAID) for row in ("new.", ""))
    op.execute(
        "CREATE VIRTUAL TABLE log_search USING fts5(said, authority, content='', "
        "tokenize='unicode61 remove_diacritics 2', prefix='2 3')"
    )
    op.execute(
        f"CREATE TRIGGER log_entry_said AFTER INSERT ON log_entry BEGIN "
        f"INSERT INTO log_search (rowid, said, authority) VALUES (new.id, {new}, replace(new.authority, ' ', '')); END"
    )
    op.execute(
        f"INSERT INTO log_search (rowid, said, authority) SELECT id, {old}, replace(authority, ' ', '') FROM log_entry"
    )
