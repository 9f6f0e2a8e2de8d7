"""The database: opened once, read with `reading`, written with `writing`."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from math import inf
from pathlib import Path
from time import monotonic
from typing import Any

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import DisconnectionError
from sqlalchemy.orm import Session

BUSY_MS = 10_000
GIVEN_BACK, RESTED_S = "given back", 1.0
EMPTY_QUERY = 0  # libpq's PGRES_EMPTY_QUERY
# Pages of the file that each connection keeps; each fills as the file grows, and the system keeps them all once more.
CACHE_KIB = 1000


@dataclass(frozen=True, slots=True)
class Database:
    """Three views of one pool: as it is, for reading, for writing.

    On SQLite the writing one takes the write lock as its transaction begins. On PostgreSQL the reading one sees one moment and may
    not write; the writing one sees what others have finished, and services hold the rows they work on.
    """

    engine: Engine
    reader: Engine
    writer: Engine

    def close(self) -> None:
        """Give the connections back."""
        self.engine.dispose()


def open_database(url: str, pool_size: int = 5) -> Database:
    """Open a database, making the folder of an SQLite file. Args: pool_size: at least the handlers run at once."""
    target = make_url(url)
    if target.get_backend_name() != "sqlite":
        return _open_server(target, pool_size)
    if target.database and target.database != ":memory:":
        file = Path(target.database)
        file.parent.mkdir(parents=True, exist_ok=True)
        if not file.exists():
            file.touch(mode=0o600)  # what signs people in is in it; its journal gets the same rights
    engine = create_engine(target, pool_size=pool_size)
    event.listen(engine, "connect", _prepare)
    event.listen(engine, "begin", _begin)
    return Database(engine, engine, engine.execution_options(sqlite_write=True))


def _open_server(target: URL, pool_size: int) -> Database:
    if target.drivername == "postgresql":
        target = target.set(drivername="postgresql+psycopg")
    engine = create_engine(
        target,
        pool_size=pool_size,
        connect_args={"connect_timeout": 5, "options": f"-c timezone=UTC -c lock_timeout={BUSY_MS}"},
    )
    event.listen(engine, "checkin", _given_back)
    event.listen(engine, "checkout", _alive)
    reader = engine.execution_options(isolation_level="REPEATABLE READ", postgresql_readonly=True)
    # said, not left to the server's settings: a row held must be read as its last holder left it
    return Database(engine, reader, engine.execution_options(isolation_level="READ COMMITTED"))


def _given_back(_connection: Any, record: Any) -> None:
    record.info[GIVEN_BACK] = monotonic()


def _alive(connection: Any, record: Any, _proxy: object) -> None:
    """Ask a connection that rested whether its server is still there; the pool makes another where it is not.

    One that was in use a moment ago is not asked: a request takes three, and asking each would cost as much as a query.
    """
    if monotonic() - record.info.get(GIVEN_BACK, -inf) < RESTED_S:
        return
    try:
        there = connection.pgconn.exec_(b"").status == EMPTY_QUERY  # below the driver, which would begin a transaction
    except connection.OperationalError:
        there = False
    if not there:
        raise DisconnectionError


def _prepare(connection: Any, _record: object) -> None:
    # The driver would begin transactions on its own, and not before reads or DDL.
    connection.isolation_level = None
    settings = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", f"cache_size=-{CACHE_KIB}")
    for pragma in (f"busy_timeout={BUSY_MS}", *settings):
        connection.execute(f"PRAGMA {pragma}")


def _begin(connection: Connection) -> None:
    # A read that later writes can't wait for the lock and fails at once; so writers take it first.
    write = connection.get_execution_options().get("sqlite_write", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if write else "BEGIN")


@contextmanager
def reading(db: Database) -> Iterator[Session]:
    """One consistent view; nothing written here is kept."""
    with Session(db.reader, expire_on_commit=False, autoflush=False) as session:
        yield session


@contextmanager
def writing(db: Database) -> Iterator[Session]:
    """One short transaction: kept when the block ends, undone when it raises."""
    with Session(db.writer, expire_on_commit=False) as session, session.begin():
        yield session
