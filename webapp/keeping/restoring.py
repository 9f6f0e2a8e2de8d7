"""Putting a backup in the place of a database, whole or not at all; what was there is kept beside it."""

import shutil
from dataclasses import dataclass
from pathlib import Path

from webapp.keeping import backups, copying
from webapp.keeping.backups import Backup
from webapp.keeping.contents import contents, is_new, log_differences, logs
from webapp.keeping.places import NotDone, file_of, looked_at, named, opened, saying, whole
from webapp.keeping.replacing import holds_something, replaced
from webapp.migrate import alone, newest, revision_of, upgrade
from webapp.models.base import now
from webapp.store import Database, open_database


@dataclass(frozen=True, slots=True)
class Restored:
    """What was done. kept: where the old database is now, "" where there was none; newer: by office, log rows only that one has."""

    backup: Backup
    kept: str
    newer: dict[int, int]


def restore(folder: Path, url: str, replace: bool) -> Restored:
    """Restore a backup into the database at an address. Args: replace: also where one is that holds something.

    Raises: NotDone; then the database is as it was.
    """
    backup = backups.read(folder)
    backups.verify(backup)
    path = file_of(url)
    with saying(f"Nothing was restored into {named(url)}:"):
        return _into_file(backup, path, replace) if path else _into_server(backup, url, replace)


def _refuse(where: str) -> NotDone:
    return NotDone(
        f"{where} holds data. Nothing was changed. Say --replace to put the backup in its place and keep what is there beside it."
    )


def _into_file(backup: Backup, path: Path, replace: bool) -> Restored:
    there = holds_something(path)
    if there and not replace:
        raise _refuse(str(path))
    later = _of_file(path, backup) if there else {}
    with replaced(path) as (new, kept):
        shutil.copyfile(backup.file, new)
        backups.unaltered(backup, new)
        _bring_up(new, backup)
    return Restored(backup, str(kept or ""), later)


def _bring_up(file: Path, backup: Backup) -> None:
    """To this program's tables, where an older one made the backup; the logs stay as they are."""
    if backup.holds.migration == newest():
        return
    db = open_database(f"sqlite:///{file}")
    try:
        with alone(db) as connection:
            upgrade(connection)
    finally:
        db.close()
    whole(file)
    with looked_at(file) as connection:
        found = log_differences(backup.holds, contents(connection))
    if found:
        raise NotDone(f"Migrating the backup changed it: {'; '.join(found)}.")


def _into_server(backup: Backup, url: str, replace: bool) -> Restored:
    with opened(url) as db:
        others = copying.others_in(db)
        if others:
            raise NotDone(f"{named(url)} has {others} other connections. Stop the server, then try again.")
        schema = ""
        with alone(db) as target, looked_at(backup.file) as source:
            later: dict[int, int] = {}
            if not is_new(target):
                if not replace:
                    raise _refuse(named(url))
                if revision_of(target) is None:
                    raise NotDone(f"{named(url)} holds tables of another program. Name a database of its own.")
                later = _later(db, backup)
                schema = f"wallseat_before_{now():%Y%m%dT%H%M%SZ}".lower()
                copying.set_aside(target, schema)
            copying.fill(target, source, backup.holds)
    return Restored(backup, f"schema {schema}" if schema else "", later)


def _of_file(path: Path, backup: Backup) -> dict[int, int]:
    """None are told of a database that can't be read."""
    try:
        with saying(""), opened(f"sqlite:///{path}") as db:
            return _later(db, backup)
    except NotDone:
        return {}


def _later(db: Database, backup: Backup) -> dict[int, int]:
    """How many rows of each office's log came after the backup."""
    with db.reader.connect() as connection, connection.begin():
        there = {number: one.rows for number, one in logs(connection).items()}
    held = {number: one.rows for number, one in backup.holds.logs.items()}
    return {n: rows - held.get(n, 0) for n, rows in there.items() if rows > held.get(n, 0)}
