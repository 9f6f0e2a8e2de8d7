"""Looking after a database's health: what was looked at, what is wrong, what to do about it."""

import os
import shutil
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from hashlib import sha256
from pathlib import Path

from sqlalchemy import Connection, func, select
from sqlalchemy.orm import Session

from webapp.keeping import backups, health_of_kinds
from webapp.keeping.contents import batches, logs, tables
from webapp.keeping.health_of_kinds import Finding
from webapp.keeping.places import NotDone, file_of, named, opened, saying
from webapp.keeping.replacing import BEING_MADE, BESIDE
from webapp.migrate import known, newest, revision_of
from webapp.models import LogEntry
from webapp.models.base import now
from webapp.models.packed import unpack

ROOM = 1 << 30  # bytes free below which a day's photographs may not fit
CLOCK = timedelta(minutes=5)
# A stored text or file, and the column with its SHA-256.
KEPT = {
    "photo": ("data", "sha256"),
    "log_file": ("data", "sha256"),
    "design": ("data", "sha256"),
    "revision": ("document", "fingerprint"),
}
Look = tuple[str, Callable[[], Iterator[Finding]]]


@dataclass(frozen=True, slots=True)
class Health:
    """What was looked at, in words, and what was found wrong."""

    looked_at: tuple[str, ...]
    findings: tuple[Finding, ...]


def examine(url: str, folder: Path | None = None, hours: float = 26) -> Health:
    """Look at a database, its disk, and the newest backup in a folder. Args: hours: how old that may be. Mends nothing."""
    words: list[str] = []
    found: list[Finding] = []
    try:
        for name, look in (*_of_backups(folder, hours), *_of_file(file_of(url))):
            words.append(name)
            with saying(f"{name[0].upper()}{name[1:]} could not be looked at:"):
                found += look()
        with (
            saying(f"{named(url)} can't be read:"),
            opened(url) as db,
            db.reader.connect() as connection,
            connection.begin(),
        ):
            for name, ask in INSIDE:
                words.append(name)
                found += ask(connection)
    except NotDone as error:
        found.append(Finding("database", str(error), "Mend that first: what follows was not looked at."))
    return Health(tuple(words), tuple(found))


def _of_file(path: Path | None) -> Iterator[Look]:
    if path and path.is_file():
        yield "the file's journal", lambda: health_of_kinds.journal(path)
        yield "who may read the file", lambda: _readable(path)
        yield "room on the disk", lambda: _room(path)
        yield "what was left over", lambda: _left_over(path)


def _of_backups(folder: Path | None, hours: float) -> Iterator[Look]:
    if folder:
        yield "the newest backup", lambda: _newest_backup(folder, hours)


def _kind(connection: Connection) -> Iterator[Finding]:
    if connection.dialect.name == "sqlite":
        yield from health_of_kinds.sqlite(connection)
    else:
        yield from health_of_kinds.postgresql(connection)


def _migration(connection: Connection) -> Iterator[Finding]:
    at, needed = revision_of(connection), newest()
    if at is None:
        yield Finding(
            "migration",
            "The database has no tables of this program.",
            "Run `wallseat serve` once, or restore a backup.",
        )
    elif not known(at):
        yield Finding("migration", f"Its tables ({at}) are those of a newer program.", "Install that program again.")
    elif at != needed:
        do = "Back up, then run `wallseat serve`, which brings them up to date."
        yield Finding("migration", f"Its tables are those of migration {at}; this program needs {needed}.", do)


def _logs(connection: Connection) -> Iterator[Finding]:
    if not _has(connection, "log_entry"):
        return
    for number, one in logs(connection).items():
        for problem in one.problems:
            do = "Keep the database as it is, find the last backup whose log holds, and compare them with `wallseat verify-log`."
            yield Finding("log", f"Office {number}: {problem}", do)


def _clock(connection: Connection) -> Iterator[Finding]:
    if not _has(connection, "log_entry"):
        return
    with Session(connection) as session:
        newest_row = session.scalar(select(func.max(LogEntry.at)))
    if newest_row and newest_row > now() + CLOCK:
        what = f"The newest row of the log is of {newest_row:%Y-%m-%d %H:%M} UTC, which is still to come."
        yield Finding(
            "clock", what, "Set this machine's clock by a time server; new rows keep that time until it has passed."
        )


def _has(connection: Connection, name: str) -> bool:
    return connection.dialect.has_table(connection, name)


def _kept(connection: Connection) -> Iterator[Finding]:
    """Photographs, documents and frozen revisions are what they were when they were kept, and none is missing."""
    there = {table.name: table for table in tables(connection)}
    do = "Restore a backup from before the damage beside this database and compare."
    for name, (data, mark) in KEPT.items():
        for rows in batches(connection, there[name]) if name in there else ():
            for row in rows:
                if sha256(_whole(name, row[data])).hexdigest() != row[mark]:
                    yield Finding(
                        "kept", f"Row {row['id']} of {name} is not what was kept: its SHA-256 is another.", do
                    )
    if {"photo", "review_item"} <= there.keys():
        photo, item = there["photo"].c, there["review_item"].c
        missing = select(item.id).where(item.kind == "photo", item.id.not_in(select(photo.item_id)))
        for number in connection.scalars(missing.order_by(item.id)):
            yield Finding("kept", f"The photograph of row {number} of review_item is missing.", do)


def _whole(name: str, kept: str | bytes) -> bytes:
    """What the fingerprint is of: of a revision its text, which older migrations keep as it is."""
    if isinstance(kept, str):
        return kept.encode()
    try:
        return unpack(kept).encode() if name == "revision" else kept
    except (zlib.error, UnicodeDecodeError):
        return b""


INSIDE: tuple[tuple[str, Callable[[Connection], Iterator[Finding]]], ...] = (
    ("the database itself", _kind),
    ("the migration", _migration),
    ("every office's log", _logs),
    ("the clock", _clock),
    ("photographs, documents and revisions", _kept),
)


def _readable(path: Path) -> Iterator[Finding]:
    """Others reach a file only through folders that let them pass."""
    if not all(folder.stat().st_mode & 0o001 for folder in path.resolve().parents):
        return
    for file in (path, *(path.with_name(path.name + end) for end in BESIDE)):
        if file.exists() and file.stat().st_mode & 0o006:
            what = f"Every account of this machine may read {file}, which holds what signs people in."
            yield Finding("permissions", what, f"Run `chmod 600 {file}`, or `chmod 700 {file.parent}`.")


def _room(path: Path) -> Iterator[Finding]:
    free, size = shutil.disk_usage(path.parent).free, path.stat().st_size
    if free < max(ROOM, 2 * size):
        what = f"{free / 1e6:.0f} MB are free where the database of {size / 1e6:.0f} MB lies."
        yield Finding(
            "room",
            what,
            "Make room: a migration or a restore needs a whole copy beside it, a day's photographs a gigabyte.",
        )


def _left_over(path: Path) -> Iterator[Finding]:
    for left in sorted(path.parent.glob(f"{BEING_MADE}*")):
        yield Finding(
            "left over", f"{left} is what an interrupted restore left.", "Delete it, unless one is running now."
        )


def _newest_backup(folder: Path, hours: float) -> Iterator[Finding]:
    do = f"Run `wallseat backup {folder}`, and have the machine do so every night."
    found = backups.all_in(folder)
    if not found:
        yield Finding("backup", f"There is no backup in {folder}.", do)
        return
    try:
        newest_one = backups.read(found[0])
        backups.unaltered(newest_one, newest_one.file)
    except NotDone as error:
        yield Finding("backup", str(error), do)
        return
    age = now() - newest_one.at
    if age > timedelta(hours=hours):
        yield Finding("backup", f"The newest backup, {found[0].name}, is {age / timedelta(hours=1):.0f} hours old.", do)
    if os.stat(newest_one.file).st_mode & 0o006 and found[0].stat().st_mode & 0o001:
        yield Finding("backup", f"Every account of this machine may read {found[0]}.", f"Run `chmod 700 {found[0]}`.")
    for left in sorted(folder.glob(f"{backups.UNFINISHED}*")):
        yield Finding(
            "backup", f"{left} is what an interrupted backup left.", "Delete it, unless a backup is running now."
        )
