"""Frozen revisions compressed; their fingerprint stays that of the text."""

import zlib
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import sqlalchemy as sa
from alembic import op
from sqlalchemy import Row

revision: str = "0011"
down_revision: str | None = "0010"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

STEP = 4  # a document may be of megabytes
FROZEN = "job_id, number, document, fingerprint, engine, edition, changes, note, by_person_id, by_name, made_at"
REFUSAL = "a revision is frozen"


def _pack(text: str) -> bytes:
    return zlib.compress(text.encode(), 6)


def _text(kept: str | bytes) -> str:
    return kept if isinstance(kept, str) else zlib.decompress(kept).decode()


def upgrade() -> None:
    """The column in bytes, every row read back and held against what it was."""
    _exchange(sa.Text(), sa.LargeBinary(), _pack)


def downgrade() -> None:
    """The column as text again; nothing is lost."""
    _exchange(sa.LargeBinary(), sa.Text(), _text)


def _exchange(
    old: sa.types.TypeEngine[Any], new: sa.types.TypeEngine[Any], convert: Callable[[Any], str | bytes]
) -> None:
    table = sa.table("revision", sa.column("id"), sa.column("document", old), sa.column("other", new))
    op.add_column("revision", sa.Column("other", new, nullable=True))
    if not _sqlite() and isinstance(new, sa.LargeBinary):
        op.execute("ALTER TABLE revision ALTER COLUMN other SET STORAGE EXTERNAL")  # it would not get smaller
    with _unguarded():
        _fill(table, convert)
        _hold(table)
        with op.batch_alter_table("revision") as batch:
            batch.drop_column("document")
            batch.alter_column("other", new_column_name="document", existing_type=new, nullable=False)


def _fill(table: Any, convert: Callable[[Any], str | bytes]) -> None:
    change = sa.update(table).where(table.c.id == sa.bindparam("row")).values(other=sa.bindparam("found"))
    for rows in _some(table, table.c.id, table.c.document):
        op.get_bind().execute(change, [{"row": row.id, "found": convert(row.document)} for row in rows])


def _hold(table: Any) -> None:
    """Each row gives the same text as before, so that its fingerprint is as right or wrong as it was. Raises: RuntimeError.

    Texts are compared: another machine's library may press the same text into other bytes.
    """
    count = 0
    for rows in _some(table, table.c.id, table.c.document, table.c.other):
        for row in rows:
            count += 1
            if _text(row.other) != _text(row.document):
                raise RuntimeError(f"Revision row {row.id} is not what it was. Nothing was changed.")
    if count != op.get_bind().scalar(sa.select(sa.func.count()).select_from(table)):
        raise RuntimeError("Not every revision was read back. Nothing was changed.")


def _some(table: Any, *columns: Any) -> Iterator[Sequence[Row[Any]]]:
    after = 0
    query = sa.select(*columns).order_by(table.c.id).limit(STEP)
    while rows := op.get_bind().execute(query.where(table.c.id > after)).all():
        yield rows
        after = rows[-1].id


def _sqlite() -> bool:
    return op.get_bind().dialect.name == "sqlite"


@contextmanager
def _unguarded() -> Iterator[None]:
    """The triggers name the column, and on SQLite they go with the table that is copied."""
    op.execute("DROP TRIGGER IF EXISTS revision_frozen" + ("" if _sqlite() else " ON revision"))
    yield
    if _sqlite():
        stop = f"BEGIN SELECT RAISE(ABORT, '{REFUSAL}'); END"
        op.execute(f"CREATE TRIGGER revision_frozen BEFORE UPDATE OF {FROZEN} ON revision {stop}")
        op.execute(f"CREATE TRIGGER revision_kept BEFORE DELETE ON revision {stop}")
    else:
        op.execute(
            f"CREATE TRIGGER revision_frozen BEFORE UPDATE OF {FROZEN} ON revision "
            "FOR EACH ROW EXECUTE FUNCTION revision_refuse()"
        )
