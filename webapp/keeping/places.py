"""Where databases are: named without secrets, opened only where they are there, their failures told in words."""

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from sqlalchemy import URL, Connection, create_engine, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError
from sqlalchemy.pool import NullPool

from webapp.store import Database, open_database


class NotDone(Exception):
    """A command ended with nothing changed; its words say why and what to do."""


# By SQLite's primary result code.
OF_SQLITE = {
    sqlite3.SQLITE_FULL: "There is no room left on that disk. Make room, or choose another folder.",
    sqlite3.SQLITE_IOERR: "The disk can't be written or read: it is full, limited or failing. Make room, or use another.",
    sqlite3.SQLITE_READONLY: "It may not be written there. Give this account the right to, or choose another folder.",
    sqlite3.SQLITE_CANTOPEN: "It can't be opened. See that the folder is there and this account may use it.",
    sqlite3.SQLITE_BUSY: "It is in use. Stop the server, then try again.",
    sqlite3.SQLITE_LOCKED: "It is in use. Stop the server, then try again.",
    sqlite3.SQLITE_CORRUPT: "The file is damaged. Run `wallseat doctor`; a backup can be put in its place by `wallseat restore`.",
    sqlite3.SQLITE_NOTADB: "The file is no SQLite database, or its beginning is damaged. Put a backup in its place.",
}
OF_SYSTEM = {
    errno.ENOSPC: OF_SQLITE[sqlite3.SQLITE_FULL],
    errno.EDQUOT: OF_SQLITE[sqlite3.SQLITE_FULL],
    errno.EFBIG: OF_SQLITE[sqlite3.SQLITE_IOERR],
    errno.EACCES: OF_SQLITE[sqlite3.SQLITE_READONLY],
    errno.EPERM: OF_SQLITE[sqlite3.SQLITE_READONLY],
    errno.EROFS: "That disk can only be read. Choose another folder.",
}


@contextmanager
def saying(what: str) -> Iterator[None]:
    """Tell failures of disks and databases in words. What a database says itself is left out: it may quote what people typed."""
    try:
        yield
    except OSError as error:
        raise NotDone(f"{what} {OF_SYSTEM.get(error.errno or 0, f'The system says: {error.strerror}.')}") from error
    except sqlite3.Error as error:
        raise NotDone(f"{what} {_of_sqlite(error)}") from error
    except DBAPIError as error:
        raise NotDone(f"{what} {_of_either(error)}") from error
    except ValueError as error:  # a date or a JSON text that is none
        raise NotDone(f"{what} {OF_SQLITE[sqlite3.SQLITE_CORRUPT]}") from error


def _of_either(error: DBAPIError) -> str:
    if isinstance(error.orig, sqlite3.Error):
        return _of_sqlite(error.orig)
    state = str(getattr(error.orig, "sqlstate", None) or "")
    if not state or state.startswith(("08", "28", "3D", "57")):
        return "The server can't be reached or does not let this account in. Look at the address, the name and the password."
    if state.startswith("42501"):
        return "This account may not do that there. It must own the database."
    if state.startswith("55"):
        return "Others are using it. Stop the server, then try again."
    return f"PostgreSQL refuses it (SQLSTATE {state})."


def _of_sqlite(error: sqlite3.Error) -> str:
    code = getattr(error, "sqlite_errorcode", 0)
    return OF_SQLITE.get(code & 0xFF, f"SQLite refuses it ({getattr(error, 'sqlite_errorname', 'no code')}).")


def address(url: str) -> URL:
    """An address as its parts. Raises: NotDone without repeating it, since it may hold a password."""
    try:
        found = make_url(url)
    except (ArgumentError, ValueError) as error:
        raise NotDone(_NO_ADDRESS) from error
    if found.get_backend_name() not in ("sqlite", "postgresql"):
        raise NotDone(_NO_ADDRESS)
    return found


_NO_ADDRESS = (
    "This is no address of a database. Write sqlite:////folder/file.sqlite or postgresql://name@host/database."
)


def file_of(url: str) -> Path | None:
    """The file of an SQLite database; None for a server's. Raises: NotDone for one that is only in memory."""
    where = address(url)
    if where.get_backend_name() != "sqlite":
        return None
    if not where.database or where.database == ":memory:":
        raise NotDone("A database in memory can't be kept. Name a file.")
    return Path(where.database).absolute()


def named(url: str) -> str:
    """A database in words, without its account or password."""
    where = address(url)
    return str(file_of(url) or f"the database {where.database} on {where.host or 'the local PostgreSQL server'}")


@contextmanager
def opened(url: str) -> Iterator[Database]:
    """A database that is there. Raises: NotDone where it is not, instead of making an empty one."""
    path = file_of(url)
    if path is not None and not path.is_file():
        raise NotDone(f"There is no database at {path}. Set DATABASE_URL to the one the server uses.")
    db = open_database(url)
    try:
        yield db
    finally:
        db.close()


@contextmanager
def looked_at(path: Path) -> Iterator[Connection]:
    """An SQLite file nobody writes, read without a trace beside it or in it."""

    def connect() -> sqlite3.Connection:
        return sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro&immutable=1", uri=True)

    engine = create_engine("sqlite://", creator=connect, poolclass=NullPool)
    with engine.connect() as connection:
        yield connection


def whole(path: Path) -> None:
    """Fold an SQLite database nobody else uses into its one file, without a log beside it."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA journal_mode=DELETE")
