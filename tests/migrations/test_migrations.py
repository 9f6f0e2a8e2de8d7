"""Migrations: the tables they make are those the program uses; a failure leaves all as it was; starting at once is no harm."""

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.operations import Operations
from alembic.runtime.migration import MigrationContext
from sqlalchemy import inspect, text

from tests.migrations.filled import REVISIONS, counts, first_rows
from tests.world import World
from webapp.folders import ROOT
from webapp.migrate import alone, migrate, newest, revision, take_back
from webapp.models import Base
from webapp.store import open_database

START = """
import sys
from webapp.migrate import migrate, revision
from webapp.store import open_database
db = open_database(sys.argv[1])
print("ready", flush=True)
sys.stdin.readline()
migrate(db)
print(revision(db))
db.close()
"""


def of_the_program(name: str | None, kind: str, _: object) -> bool:
    """Not what the index of words is kept in, which each database has in its own way."""
    return kind not in ("table", "index") or not str(name).startswith(("log_search", "ix_log_entry_said"))


def tables(url: str) -> set[str]:
    """Their names."""
    db = open_database(url)
    try:
        return set(inspect(db.engine).get_table_names())
    finally:
        db.close()


def test_the_tables_are_those_the_program_uses(at: World) -> None:
    with at.db.engine.connect() as connection:
        options = {"compare_type": True, "target_metadata": Base.metadata, "include_name": of_the_program}
        context = MigrationContext.configure(connection, opts=options)
        assert compare_metadata(context, Base.metadata) == []


def test_migrating_twice_changes_nothing(at: World, job: int) -> None:
    before = counts(at.db)
    migrate(at.db)
    assert counts(at.db) == before
    assert revision(at.db) == newest()


@pytest.mark.parametrize("old", REVISIONS)
def test_a_filled_database_of_any_revision_keeps_every_row(empty_database: str, old: str) -> None:
    db = open_database(empty_database)
    migrate(db, old)
    first_rows(db)
    before = counts(db)
    migrate(db)
    after = counts(db)
    assert {table: after[table] for table in before} == before
    assert all(before[table] for table in ("job", "wall_type", "wall", "attachment"))
    assert revision(db) == newest()
    db.close()


def test_changing_a_table_others_point_at_deletes_none_of_their_rows(at: World, job: int) -> None:
    """The trap on SQLite: copying a table with foreign keys on empties its children."""
    before = counts(at.db)
    with alone(at.db) as connection:
        operations = Operations(MigrationContext.configure(connection))
        with operations.batch_alter_table(
            "job", recreate="auto" if connection.dialect.name != "sqlite" else "always"
        ) as table:
            table.add_column(sa.Column("colour", sa.String(10), nullable=True))
    assert counts(at.db) == before


@pytest.mark.only("sqlite")
def test_foreign_keys_are_on_again_after_migrating(tmp_path: Path) -> None:
    db = open_database(f"sqlite:///{tmp_path / 'new.sqlite'}", pool_size=1)
    migrate(db)
    with db.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    db.close()


@pytest.mark.only("sqlite")
def test_a_migration_that_leaves_rows_pointing_nowhere_is_undone(at: World, job: int) -> None:
    with pytest.raises(RuntimeError, match="point nowhere"), alone(at.db) as connection:
        connection.execute(text("DELETE FROM job"))
    assert counts(at.db)["job"] == 1


def test_a_migration_that_fails_leaves_the_database_as_it_was(empty_database: str) -> None:
    db = open_database(empty_database)
    with db.writer.begin() as connection:
        connection.exec_driver_sql("CREATE TABLE attachment (id INTEGER)")
    with pytest.raises(Exception, match="already exists"):
        migrate(db)
    db.close()
    assert tables(empty_database) == {"attachment"}


def test_programs_that_start_at_once_migrate_once(empty_database: str) -> None:
    """Each in a process of its own; a second migration of the same tables would fail."""
    begun = [
        subprocess.Popen(
            [sys.executable, "-c", START, empty_database],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            cwd=ROOT,
        )
        for _ in range(4)
    ]
    for program in begun:
        assert program.stdout
        assert program.stdin
        assert program.stdout.readline() == "ready\n"
    for program in begun:
        assert program.stdin
        program.stdin.write("\n")
        program.stdin.flush()
    assert [program.communicate(timeout=120)[0].strip() for program in begun] == [newest()] * 4


@pytest.mark.only("sqlite")
def test_a_database_with_data_is_copied_before_it_is_migrated(tmp_path: Path) -> None:
    path = tmp_path / "old.sqlite"
    db = open_database(f"sqlite:///{path}")
    migrate(db, REVISIONS[0])
    first_rows(db)
    migrate(db)
    copies = list(tmp_path.glob("old.sqlite.at-*"))
    assert [copy.name for copy in copies] == [f"old.sqlite.at-{REVISIONS[0]}"]
    with sqlite3.connect(copies[0]) as kept:
        assert kept.execute("SELECT count(*) FROM attachment").fetchone() == (1,)
        assert kept.execute("SELECT version_num FROM alembic_version").fetchone() == (REVISIONS[0],)
    kept.close()
    db.close()


def test_every_migration_can_be_taken_back(empty_database: str) -> None:
    db = open_database(empty_database)
    migrate(db)
    take_back(db, "base")
    db.close()
    assert tables(empty_database) == {"alembic_version"}
