"""What the doctor finds wrong, each with what to do; nothing in a healthy office."""

import json
import os
import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import text

from tests.webapp.test_revisions import SEEN
from tests.world import World
from webapp.__main__ import main
from webapp.keeping import backups, health, health_of_kinds
from webapp.keeping.health import Health
from webapp.migrate import take_back
from webapp.models import Job
from webapp.models.base import now
from webapp.models.packed import pack
from webapp.services import log
from webapp.store import open_database, writing

Out = pytest.CaptureFixture[str]
Damage = Callable[..., None]


@pytest.fixture
def office(everything: World, database: str, monkeypatch: pytest.MonkeyPatch) -> str:
    """A healthy office's address: everything in it, only its owner reads the file, room on the disk."""
    monkeypatch.setenv("DATABASE_URL", database)
    monkeypatch.setattr(health, "ROOM", 1)
    if database.startswith("sqlite"):
        Path(database.removeprefix("sqlite:///")).chmod(0o600)
    return database


@pytest.fixture
def damage(office: str) -> Damage:
    """Change rows behind the program's back."""

    def statements(*texts: str) -> None:
        db = open_database(office)
        with db.writer.begin() as connection:
            if db.engine.dialect.name == "sqlite":
                triggers = connection.scalars(text("SELECT name FROM sqlite_master WHERE type = 'trigger'")).all()
                off = [f"DROP TRIGGER {name}" for name in triggers]
            else:
                off = ["SET session_replication_role = replica"]  # neither triggers nor foreign keys
            for one in (*off, *texts):
                connection.execute(text(one))
        db.close()

    return statements


def found(office: str, *about: str) -> list[str]:
    """What is wrong, and nothing but about that."""
    seen = health.examine(office).findings
    assert {one.about for one in seen} <= set(about), seen
    assert all(one.do.endswith(".") for one in seen)
    return [one.what for one in seen]


def test_nothing_is_wrong_with_a_healthy_office(office: str, tmp_path: Path, capsys: Out) -> None:
    (tmp_path / "backups").mkdir()
    assert main(["backup", str(tmp_path / "backups")]) == 0
    capsys.readouterr()
    assert main(["doctor", "--backups", str(tmp_path / "backups")]) == 0
    said = capsys.readouterr().out
    assert "Nothing is wrong." in said
    for looked in ("the newest backup", "the migration", "every office's log", "photographs, documents and revisions"):
        assert looked in said


def test_findings_come_as_json_with_what_to_do(office: str, damage: Damage, capsys: Out) -> None:
    damage("UPDATE log_entry SET words = 'else' WHERE seq = 1")
    assert main(["doctor", "--json"]) == 1
    (one,) = json.loads(capsys.readouterr().out)["findings"]
    assert one["about"] == "log"
    assert one["what"] == "Office 1: Row 1 was altered after it was written."
    assert "verify-log" in one["do"]


def test_a_photograph_that_was_altered_and_one_that_is_missing_are_found(office: str, damage: Damage) -> None:
    damage("UPDATE photo SET sha256 = 'another'")
    assert found(office, "kept") == ["Row 1 of photo is not what was kept: its SHA-256 is another."]
    damage("DELETE FROM photo")
    (missing,) = found(office, "kept")
    assert missing.startswith("The photograph of row")


@pytest.mark.parametrize(("table", "change"), [
    ("revision", "document = {other}"), ("revision", "document = {broken}"), ("log_file", "sha256 = 'x'"),
    ("design", "sha256 = 'x'"),
])  # fmt: skip
def test_a_document_that_was_altered_is_found(office: str, damage: Damage, table: str, change: str) -> None:
    """Another text, whole, and one that can't be unpacked any more."""
    quoted = "X'{0}'" if office.startswith("sqlite") else "'\\x{0}'"
    other, broken = (quoted.format(kept.hex()) for kept in (pack("{}"), pack("{}")[:-3]))
    damage(f"UPDATE {table} SET {change.format(other=other, broken=broken)}".replace(":", "\\:"))
    assert found(office, "kept") == [f"Row 1 of {table} is not what was kept: its SHA-256 is another."]


def test_a_log_from_the_future_says_the_clock_was_wrong(
    office: str, at: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(log, "now", lambda: now() + timedelta(days=30))
    with writing(at.db) as session:
        log.append(session, SEEN, log.Said("note", "x"), session.get_one(Job, 1))
    (what,) = found(office, "clock")
    assert "is still to come" in what


def test_tables_of_an_older_program_are_found(at: World, database: str) -> None:
    take_back(at.db, "0008")
    at.db.close()
    assert "this program needs" in " ".join(one.what for one in health.examine(database).findings)


def test_a_database_without_tables_is_found(empty_database: str) -> None:
    if empty_database.startswith("sqlite"):
        Path(empty_database.removeprefix("sqlite:///")).touch(mode=0o600)
    found = {one.about: one for one in health.examine(empty_database).findings}
    assert "no tables of this program" in found["migration"].what
    assert "wallseat serve" in found["migration"].do


@pytest.mark.only("sqlite")
def test_no_database_is_found_and_none_is_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out) -> None:
    monkeypatch.setenv("DATABASE_URL", f"sqlite:///{tmp_path}/none.sqlite")
    assert main(["doctor"]) == 1
    assert "Set DATABASE_URL" in capsys.readouterr().out
    assert list(tmp_path.iterdir()) == []


@pytest.mark.only("sqlite")
def test_rows_that_point_nowhere_are_found(office: str) -> None:
    with closing(sqlite3.connect(office.removeprefix("sqlite:///"))) as connection, connection:
        connection.execute("UPDATE attachment SET wall_id = 999 WHERE id = 1")
    assert found(office, "integrity") == ["Rows of attachment point at rows of wall that are not there."]


@pytest.mark.only("sqlite")
def test_a_damaged_file_is_found(office: str) -> None:
    path = Path(office.removeprefix("sqlite:///"))
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        (page,) = connection.execute(
            "SELECT rootpage FROM sqlite_master WHERE name = 'ix_log_entry_job_id_seq'"
        ).fetchone()
        (size,) = connection.execute("PRAGMA page_size").fetchone()
    with path.open("r+b") as file:
        file.seek((page - 1) * size)
        file.write(os.urandom(200))
    (what, *_) = found(office, "integrity", "database")
    assert "The file is damaged" in what


@pytest.mark.only("sqlite")
def test_a_file_that_is_no_database_is_found(tmp_path: Path) -> None:
    (tmp_path / "x.sqlite").write_bytes(b"not a database " * 100)
    seen = health.examine(f"sqlite:///{tmp_path}/x.sqlite").findings
    assert "is no SQLite database" in seen[-1].what


@pytest.mark.only("sqlite")
def test_a_journal_that_makes_readers_wait_is_found(office: str) -> None:
    with closing(sqlite3.connect(office.removeprefix("sqlite:///"))) as connection:
        connection.execute("PRAGMA journal_mode=DELETE")
    (what,) = found(office, "journal")
    assert "in mode delete" in what


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder every account may pass through, which a test's own is not."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    yield folder
    shutil.rmtree(folder)


@pytest.mark.only("sqlite")
@pytest.mark.parametrize(
    ("file", "folder", "told"), [(0o644, 0o755, True), (0o600, 0o755, False), (0o644, 0o700, False)]
)
def test_a_file_that_others_may_read_is_found(
    office: str, open_folder: Path, file: int, folder: int, told: bool
) -> None:
    path = open_folder / "office.sqlite"
    shutil.copyfile(office.removeprefix("sqlite:///"), path)
    path.chmod(file)
    open_folder.chmod(folder)
    what = found(f"sqlite:///{path}", "permissions")
    assert bool(what) == told
    assert all("Every account of this machine may read" in one for one in what)


@pytest.mark.only("sqlite")
def test_a_new_database_is_readable_by_its_owner_only(open_folder: Path) -> None:
    db = open_database(f"sqlite:///{open_folder}/new.sqlite")
    with db.writer.begin() as connection:
        connection.execute(text("CREATE TABLE x (y)"))
        assert {path.stat().st_mode & 0o077 for path in open_folder.iterdir()} == {0}
    db.close()


@pytest.mark.only("sqlite")
def test_a_disk_without_room_is_found(office: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(health, "ROOM", 1 << 60)
    (what,) = found(office, "room")
    assert "MB are free" in what


@pytest.mark.only("sqlite")
def test_what_an_interrupted_restore_left_is_found(office: str) -> None:
    (Path(office.removeprefix("sqlite:///")).parent / ".being-made-abc").mkdir()
    (what,) = found(office, "left over")
    assert "interrupted restore" in what


def backed_up(office: str, folder: Path) -> Path:
    folder.mkdir(exist_ok=True)
    return backups.make(office, folder).folder


def about_backups(office: str, folder: Path, hours: float = 26) -> Health:
    return health.examine(office, folder, hours)


def test_a_folder_without_a_backup_is_found(office: str, tmp_path: Path) -> None:
    (one,) = about_backups(office, tmp_path / "nowhere").findings
    assert "There is no backup" in one.what
    assert "every night" in one.do


def test_a_backup_that_is_too_old_is_found(office: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    backed_up(office, tmp_path / "kept")
    assert about_backups(office, tmp_path / "kept").findings == ()
    monkeypatch.setattr(health, "now", lambda: now() + timedelta(hours=30))
    (one,) = about_backups(office, tmp_path / "kept").findings
    assert "is 30 hours old" in one.what
    assert about_backups(office, tmp_path / "kept", hours=48).findings == ()


def test_a_newest_backup_that_is_damaged_is_found(office: str, tmp_path: Path) -> None:
    backup = backed_up(office, tmp_path / "kept")
    with (backup / backups.FILE).open("ab") as file:
        file.write(b"x")
    (one,) = about_backups(office, tmp_path / "kept").findings
    assert "is not whole" in one.what


def test_what_an_interrupted_backup_left_is_found(office: str, tmp_path: Path) -> None:
    backed_up(office, tmp_path / "kept")
    (tmp_path / "kept" / ".unfinished-abc").mkdir()
    (one,) = about_backups(office, tmp_path / "kept").findings
    assert "interrupted" in one.what


@pytest.mark.only("postgres")
def test_a_server_that_is_too_old_and_one_whose_connections_are_used_up_are_found(
    office: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(health_of_kinds, "OLDEST_SERVER", 99)
    monkeypatch.setattr(health_of_kinds, "USED", 0.0)
    old, used = found(office, "server", "connections")
    assert "gets no mends" in old
    assert "connections are in use" in used


@pytest.mark.only("postgres")
def test_an_index_that_is_not_whole_is_found(office: str, damage: Damage) -> None:
    damage("UPDATE pg_index SET indisvalid = false WHERE indexrelid = 'ix_job_office_id'::regclass")
    (what,) = found(office, "index")
    assert "ix_job_office_id is not whole" in what
