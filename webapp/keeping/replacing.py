"""Putting a new SQLite file where a database is, in one step: at any moment the name leads to a whole database, old or new."""

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from sqlalchemy.exc import DatabaseError

from webapp.keeping.backups import sync
from webapp.keeping.contents import is_new
from webapp.keeping.places import NotDone, opened
from webapp.models.base import now

BESIDE = ("-wal", "-shm")
IN_USE = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
BEING_MADE = ".being-made-"


def holds_something(path: Path) -> bool:
    """Whether people's data are at that path; what can't be read counts as that."""
    if not path.exists() or path.stat().st_size == 0:
        return False
    try:
        with opened(f"sqlite:///{path}") as db, db.reader.connect() as connection:
            return not is_new(connection)
    except DatabaseError:
        return True


@contextmanager
def replaced(path: Path) -> Iterator[tuple[Path, Path | None]]:
    """A path to write the new file at, and where the old one will be kept; exchanged when the block ends without an error.

    The old database is locked meanwhile. Raises: NotDone where somebody uses it.
    """
    with _alone_in(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        work = Path(tempfile.mkdtemp(prefix=BEING_MADE, dir=path.parent))
        kept = _dated(path) if path.exists() else None
        try:
            new = work / path.name
            yield new, kept
            _give(new, path if kept else path.parent)
            sync(new)
            if kept:
                _keep(path, kept)
            new.replace(path)
            sync(path.parent)
        finally:
            shutil.rmtree(work, ignore_errors=True)


def _dated(path: Path) -> Path:
    stem = f"{path.name}.before-{now():%Y-%m-%dT%H-%M-%SZ}"
    names = (path.with_name(f"{stem}-{n}" if n > 1 else stem) for n in range(1, 1000))
    return next(name for name in names if not name.exists())


def _give(new: Path, like: Path) -> None:
    """To whoever owns the old one, and nobody else: the server need not run as whoever restores."""
    new.chmod(0o600)
    if os.geteuid() == 0:
        owner = like.stat()
        os.chown(new, owner.st_uid, owner.st_gid)


def _keep(path: Path, kept: Path) -> None:
    """A second name for the old file, so that the first one is never missing; a copy where a disk knows no second names."""
    for end in BESIDE:  # left only by a database that could not be read: they must not be taken for the new one's
        beside = path.with_name(path.name + end)
        if beside.exists():
            beside.rename(kept.with_name(kept.name + end))
    try:
        os.link(path, kept)
    except OSError:
        shutil.copy2(path, kept)
        sync(kept)


@contextmanager
def _alone_in(path: Path) -> Iterator[None]:
    """Hold the one lock that nobody else can have beside an open connection; on the way the database becomes one file."""
    if not path.exists():
        yield
        return
    with closing(sqlite3.connect(path, timeout=0.5, isolation_level=None)) as connection:
        try:
            for statement in ("PRAGMA locking_mode=EXCLUSIVE", "PRAGMA journal_mode=DELETE", "BEGIN EXCLUSIVE"):
                connection.execute(statement)
        except sqlite3.DatabaseError as error:
            if error.sqlite_errorcode & 0xFF in IN_USE:
                raise NotDone(f"{path} is in use. Stop the server, then try again; nothing was changed.") from error
            # damaged: there is nothing to lock, and this is why it is replaced
        yield
