"""What is looked at in SQLite, and what in PostgreSQL."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, text

OLDEST_SERVER = 14  # PostgreSQL's makers mend no older one
SHOWN = 5
USED = 0.8  # of the connections a server allows


@dataclass(frozen=True, slots=True)
class Finding:
    """Something wrong. about: a word to sort by; do: what mends it."""

    about: str
    what: str
    do: str


def journal(path: Path) -> Iterator[Finding]:
    """Whether an SQLite file is written ahead, read without setting that."""
    try:
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as connection:
            (mode,) = connection.execute("PRAGMA journal_mode").fetchone()
    except sqlite3.Error:
        return  # whatever it is, opening it below says it
    if mode != "wal":
        what = f"The journal is in mode {mode}: readers and writers wait for each other."
        yield Finding(
            "journal", what, "Start `wallseat serve`, which sets it; on a network disk use a local one or PostgreSQL."
        )


def sqlite(connection: Connection) -> Iterator[Finding]:
    """Pages, rows that point nowhere, and whether the program's connections watch over that."""
    if connection.exec_driver_sql("PRAGMA foreign_keys").scalar_one() != 1:
        do = "Use a build of SQLite with foreign keys; install Python from its makers or the system."
        yield Finding("foreign keys", "This SQLite does not watch over rows that point at others.", do)
    damage = connection.exec_driver_sql(f"PRAGMA integrity_check({SHOWN})").scalars().all()
    if damage != ["ok"]:
        what = f"The file is damaged: {len(damage)} or more places do not hold together."
        yield Finding(
            "integrity", what, "Stop the server, copy the file away, and run `wallseat restore` with the newest backup."
        )
    nowhere = {(row[0], row[2]) for row in connection.exec_driver_sql("PRAGMA foreign_key_check")}
    for table, to in sorted(nowhere):
        what = f"Rows of {table} point at rows of {to} that are not there."
        yield Finding("integrity", what, "Run `wallseat restore` with the newest backup without them.")


def postgresql(connection: Connection) -> Iterator[Finding]:
    """Version, signs, indexes that hold, connections left."""
    version = int(connection.scalar(text("SHOW server_version_num")) or 0) // 10_000
    if version < OLDEST_SERVER:
        yield Finding("server", f"PostgreSQL {version} gets no mends any more.", f"Use {OLDEST_SERVER} or newer.")
    signs = connection.scalar(text("SHOW server_encoding"))
    if signs != "UTF8":
        do = "Make a database with ENCODING 'UTF8' and move into it with `wallseat move-database`."
        yield Finding("server", f"The database keeps texts as {signs}.", do)
    broken = text(
        "SELECT c.relname FROM pg_index i JOIN pg_class c ON c.oid = i.indexrelid "
        "WHERE c.relnamespace = current_schema()::regnamespace AND NOT (i.indisvalid AND i.indisready) ORDER BY 1"
    )
    for name in connection.scalars(broken):
        yield Finding("index", f"The index {name} is not whole.", f'Run `REINDEX INDEX "{name}"` in the database.')
    most = int(connection.scalar(text("SHOW max_connections")) or 0)
    used = connection.scalar(text("SELECT count(*) FROM pg_stat_activity WHERE backend_type = 'client backend'")) or 0
    if used > USED * most:
        do = "Raise max_connections, or lower WALLSEAT_THREADS where several programs share the server."
        yield Finding("connections", f"{used} of the server's {most} connections are in use.", do)
