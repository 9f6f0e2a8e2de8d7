"""Brings a database to the newest form of its tables; run once, before anything is served."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from functools import cache
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, literal_column, select, table

from webapp.folders import MIGRATIONS
from webapp.store import BUSY_MS, Database

TURN = 0x57414C4C  # which of the server's locks is this program's: any number, the same in all its processes
LONGEST_MS = 3_600_000  # a long log takes minutes; who waits for it must not give up


def configuration() -> Config:
    """Alembic's settings without a file."""
    config = Config()
    config.set_main_option("script_location", str(MIGRATIONS))
    return config


def revision(db: Database) -> str | None:
    """The revision a database is at; None for an empty one."""
    with db.engine.connect() as connection:
        return revision_of(connection)


def revision_of(connection: Connection) -> str | None:
    """The same, in a transaction that is under way."""
    return MigrationContext.configure(connection).get_current_revision()


@cache
def newest() -> str | None:
    """The revision this program needs."""
    return ScriptDirectory.from_config(configuration()).get_current_head()


def migrate(db: Database, target: str = "head") -> None:
    """Upgrade, keeping a copy of an SQLite file that holds data. Programs starting at once wait for the one that does it."""
    if target == "head" and revision(db) == newest():
        return
    with alone(db) as connection:
        at = revision_of(connection)
        if target == "head" and at == newest():
            return
        if at is not None:
            _keep_copy(db, at)
        upgrade(connection, target)


def upgrade(connection: Connection, target: str = "head") -> None:
    """Upgrade in the transaction that `alone` gave, together with whatever else happens in it."""
    command.upgrade(_through(connection), target)


def known(at: str) -> bool:
    """Whether this program has such a revision: a newer program's it has not."""
    return at in {script.revision for script in ScriptDirectory.from_config(configuration()).walk_revisions()}


def take_back(db: Database, target: str) -> None:
    """Downgrade; what a step can't keep its migration says. Raises: WouldLose where that can't be made again."""
    with alone(db) as connection:
        command.downgrade(_through(connection), target)


class WouldLose(Exception):
    """A step down would delete what nothing can bring back."""


def keep_filled(connection: Connection, *tables: str) -> None:
    """Let a step down pass that drops these tables only where they are empty. Raises: WouldLose."""
    for name in tables:
        if connection.scalar(select(literal_column("1")).select_from(table(name)).limit(1)) is not None:
            raise WouldLose(
                f"This step down would delete what {name} holds, for good. Nothing was changed. "
                "Go back to the copy that was made before migrating instead."
            )


def _through(connection: Connection) -> Config:
    config = configuration()
    config.attributes["connection"] = connection
    return config


@contextmanager
def alone(db: Database) -> Iterator[Connection]:
    """A transaction to change tables in, while no other program does: all of it is kept, or nothing."""
    with db.writer.connect() as connection:
        sqlite = connection.dialect.name == "sqlite"
        with _copying(connection) if sqlite else connection.begin():
            if not sqlite:
                connection.exec_driver_sql("SET LOCAL lock_timeout = 0")
                connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({TURN})")
                connection.exec_driver_sql(f"SET LOCAL lock_timeout = {BUSY_MS}")
            yield connection


@contextmanager
def _copying(connection: Connection) -> Iterator[None]:
    """A transaction in which SQLite may change a table by copying it.

    With foreign keys on, dropping the old copy would delete the rows that point at it. The pragma has no effect inside a
    transaction, so it is switched before, on the driver's own connection.
    """
    raw = connection.connection.driver_connection
    assert isinstance(raw, sqlite3.Connection)
    raw.execute("PRAGMA foreign_keys=OFF")
    raw.execute(f"PRAGMA busy_timeout={LONGEST_MS}")
    try:
        with connection.begin():
            yield
            broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
            if broken:
                raise RuntimeError(f"the migration left rows that point nowhere: {broken[:5]}")
    finally:
        raw.execute("PRAGMA foreign_keys=ON")
        raw.execute(f"PRAGMA busy_timeout={BUSY_MS}")


def _keep_copy(db: Database, at: str) -> None:
    name = db.engine.url.database
    if db.engine.dialect.name != "sqlite" or not name or name == ":memory:":
        return
    copy = Path(f"{name}.at-{at}")
    with closing(sqlite3.connect(name)) as source, closing(sqlite3.connect(copy)) as target, target:
        source.backup(target)
