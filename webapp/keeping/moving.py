"""Moving an office's database: from SQLite to PostgreSQL and back. The old one is only read."""

from sqlalchemy import Connection

from webapp.keeping import copying
from webapp.keeping.contents import Contents, contents, differences
from webapp.keeping.places import NotDone, address, file_of, named, opened, saying, whole
from webapp.keeping.replacing import holds_something, replaced
from webapp.migrate import alone, known
from webapp.store import Database, open_database


def move(url: str, to: str) -> tuple[Contents, list[str]]:
    """Copy one moment of a database into an empty one, verified there before it is kept.

    Returns: what was copied, and in what the old database has moved on since. Raises: NotDone; then the other one is as it was.
    """
    if address(url) == address(to):
        raise NotDone("Both addresses are the same database. Name another one.")
    with saying(f"Nothing was moved into {named(to)}:"), opened(url) as db:
        moved = _into_file(db, to) if file_of(to) else _into_server(db, to)
        with db.reader.connect() as source, source.begin():
            return moved, differences(moved, contents(source))


def _into_server(db: Database, to: str) -> Contents:
    with opened(to) as other, alone(other) as target:
        return _copy(db, target)


def _into_file(db: Database, to: str) -> Contents:
    path = file_of(to)
    assert path is not None
    if holds_something(path):
        raise NotDone(f"{path} holds data already. Name a file that is not there yet.")
    with replaced(path) as (new, _):
        other = open_database(f"sqlite:///{new}")
        try:
            with alone(other) as target:
                moved = _copy(db, target)
        finally:
            other.close()
        whole(new)
    return moved


def _copy(db: Database, target: Connection) -> Contents:
    with db.reader.connect() as source, source.begin():
        expected = contents(source)
        if not known(expected.migration):
            raise NotDone("The database to move is empty, or of a newer program.")
        copying.fill(target, source, expected)
        return expected
