"""Backups: a folder with one SQLite file, whichever database it came from, and a manifest of what is in it."""

import json
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime
from hashlib import file_digest
from pathlib import Path

from sqlalchemy import Connection

from engine import VERSION
from webapp.keeping import copying
from webapp.keeping.contents import Contents, contents, differences, from_plain
from webapp.keeping.places import NotDone, looked_at, named, opened, saying, whole
from webapp.migrate import alone, known
from webapp.models.base import now
from webapp.store import open_database

FILE, MANIFEST, FORMAT = "wallseat.sqlite", "manifest.json", 1
BEGINS, UNFINISHED = "wallseat-", ".unfinished-"
OTHERS_NOT = 0o700  # a backup holds what signs people in


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup as its manifest describes it. size: bytes, sha256: of the file."""

    folder: Path
    at: datetime
    program: str
    size: int
    sha256: str
    holds: Contents

    @property
    def file(self) -> Path:
        """The database in it."""
        return self.folder / FILE

    def manifest(self) -> str:
        """What is kept beside the file."""
        file = {"name": FILE, "bytes": self.size, "sha256": self.sha256}
        plain = {"wallseat_backup": FORMAT, "at": self.at.isoformat(), "program": self.program, "files": [file]}
        return json.dumps(plain | self.holds.plain(), indent=1) + "\n"


def make(url: str, folder: Path) -> Backup:
    """Back up a database, while others may write it, into a new folder inside this one; it gets its name when it is verified.

    Raises: NotDone; then nothing is left behind.
    """
    with saying(f"No backup was made in {folder}:"), _unfinished(folder) as work:
        file = work / FILE
        expected = _written(url, file)
        _must_hold(file, expected)
        made = Backup(work, now(), VERSION, file.stat().st_size, _hash(file), expected)
        (work / MANIFEST).write_text(made.manifest(), encoding="utf-8")
        for path in (file, work / MANIFEST, work):
            sync(path)
        name = _free_name(folder, made.at)
        work.rename(name)
        sync(folder)
    return Backup(name, made.at, made.program, made.size, made.sha256, made.holds)


@contextmanager
def _unfinished(folder: Path) -> Iterator[Path]:
    if not folder.is_dir():
        raise NotDone(f"There is no folder {folder}. Make it, or connect the disk it is on.")
    work = Path(tempfile.mkdtemp(prefix=UNFINISHED, dir=folder))  # only for this account
    try:
        yield work
    finally:
        shutil.rmtree(work, ignore_errors=True)


def _written(url: str, file: Path) -> Contents:
    """Write one moment of a database into a file. Returns: what it held at that moment."""
    with opened(url) as db, db.reader.connect() as source, source.begin():
        expected = contents(source)
        if not known(expected.migration):
            raise NotDone(f"{named(url)} is empty, or of a newer program. Nothing was backed up.")
        if db.engine.dialect.name == "sqlite":
            _copy_pages(source, file)
        else:
            new = open_database(f"sqlite:///{file}")
            try:
                with alone(new) as target:
                    copying.fill(target, source, expected, newer=False)
            finally:
                new.close()
    whole(file)
    return expected


def _copy_pages(source: Connection, file: Path) -> None:
    """The snapshot that was counted is the one that is copied, since the connection's transaction has begun."""
    raw = source.connection.driver_connection
    assert isinstance(raw, sqlite3.Connection)
    with closing(sqlite3.connect(file)) as copy:
        raw.backup(copy)


def _must_hold(file: Path, expected: Contents) -> None:
    """Read a written file again, as whoever restores it will."""
    with looked_at(file) as connection:
        damage = connection.exec_driver_sql("PRAGMA integrity_check(1)").scalar_one()
        if damage != "ok":
            raise NotDone(f"{file.name} is damaged inside. Take another backup.")
        found = differences(expected, contents(connection))
    if found:
        raise NotDone(f"{file.name} does not hold what its manifest says: {'; '.join(found)}.")


def _hash(file: Path) -> str:
    with file.open("rb") as read:
        return file_digest(read, "sha256").hexdigest()


def sync(path: Path) -> None:
    """Wait until a file, or the names in a folder, are on the disk."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _free_name(folder: Path, at: datetime) -> Path:
    stem = f"{BEGINS}{at:%Y-%m-%dT%H-%M-%SZ}"
    names = (folder / (f"{stem}-{n}" if n > 1 else stem) for n in range(1, 1000))
    return next(name for name in names if not name.exists())


def read(folder: Path) -> Backup:
    """A backup by its manifest alone. Raises: NotDone where there is none."""
    try:
        kept = json.loads((folder / MANIFEST).read_text(encoding="utf-8"))
        (file,) = kept["files"]
        if kept["wallseat_backup"] != FORMAT or file["name"] != FILE:
            raise NotDone(f"{folder} is a backup of a newer program, {kept['program']}. Install that one first.")
        at = datetime.fromisoformat(kept["at"]).astimezone(UTC)
        return Backup(folder, at, str(kept["program"]), int(file["bytes"]), str(file["sha256"]), from_plain(kept))
    except FileNotFoundError as error:
        raise NotDone(
            f"{folder} is no backup: it has no {MANIFEST}. Name a folder that `wallseat backup` made."
        ) from error
    except OSError as error:
        raise NotDone(f"{folder / MANIFEST} can't be read: {error.strerror}.") from error
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise NotDone(f"{folder / MANIFEST} is damaged. Use another backup.") from error


def unaltered(backup: Backup, file: Path) -> None:
    """Hold a backup's file, or a copy of it, against its manifest. Raises: NotDone with what is wrong."""
    other = "Use another backup; this one can't be trusted."
    with saying(f"{file} can't be read:"):
        size = file.stat().st_size if file.is_file() else 0
        if size != backup.size:
            raise NotDone(f"{file} has {size} bytes instead of {backup.size}: it is not whole. {other}")
        if _hash(file) != backup.sha256:
            raise NotDone(f"{file} was altered or damaged after it was written: its SHA-256 is another. {other}")


def verify(backup: Backup) -> None:
    """The same, and everything in it: pages, rows of each table, every office's log. Raises: NotDone."""
    unaltered(backup, backup.file)
    if not known(backup.holds.migration):
        raise NotDone(f"{backup.folder} was made by a newer program, {backup.program}. Install that one first.")
    with saying(f"{backup.file} can't be read:"):
        _must_hold(backup.file, backup.holds)


def all_in(folder: Path) -> list[Path]:
    """Finished backups in a folder, the newest first."""
    return sorted((p for p in folder.glob(f"{BEGINS}*") if p.is_dir()), reverse=True)
