"""Migrations: the tables they make are those the program uses, and data survives them."""

import sqlite3
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import text

from tests.world import World
from webapp.migrate import configuration, migrate, newest, revision
from webapp.models import Base
from webapp.store import Database, open_database

TABLES = ("job", "wall_type", "wall", "attachment")
REVISIONS = [r.revision for r in ScriptDirectory.from_config(configuration()).walk_revisions()][::-1]


def counts(db: Database) -> dict[str, int]:
    with db.engine.connect() as connection:
        return {t: connection.execute(text(f"SELECT count(*) FROM {t}")).scalar_one() for t in TABLES}


def of_the_program(name: str | None, kind: str, _: object) -> bool:
    """Not the tables in which SQLite keeps its index of words."""
    return kind != "table" or not str(name).startswith("log_search")


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
def test_a_filled_database_of_any_revision_keeps_every_row(tmp_path: Path, old: str) -> None:
    db = open_database(f"sqlite:///{tmp_path / 'old.sqlite'}")
    migrate(db, old)
    _fill(db)
    before = counts(db)
    migrate(db)
    assert counts(db) == before
    assert all(before.values())
    assert revision(db) == newest()
    db.close()


def _fill(db: Database) -> None:
    """Rows as the first revision has them; later columns have defaults or their own migration fills them."""
    moment = "2026-01-01 00:00:00"
    kept = f"1, '{moment}', '{moment}'"
    with db.writer.begin() as connection:
        for statement in (
            "INSERT INTO job (id, name, client, place, notes, site, edition, changes, version, created_at, updated_at) "
            f"VALUES (1, 'J', '', '', '', '{{}}', 'US 2021', 1, {kept})",
            f"INSERT INTO wall_type (id, job_id, name, inputs, version, created_at, updated_at) VALUES (1, 1, 'T', '{{}}', {kept})",
            "INSERT INTO wall (id, job_id, name, sort, line, storeys, openings, version, created_at, updated_at) "
            f"VALUES (1, 1, 'W1', 1, '{{}}', '[]', '[]', {kept})",
            'INSERT INTO attachment (id, job_id, wall_id, number, kind, level, start, "end", inputs, verdict, governs, lines, '
            "to_measure, checked_engine, checked_edition, checked_on, version, created_at, updated_at) "
            f"VALUES (1, 1, 1, 1, 'ledge_seat', 1, '0 ft', '1 ft', '{{}}', 'pass', '', '', 0, '', '', '', {kept})",
        ):
            connection.execute(text(statement))


def test_changing_a_table_others_point_at_deletes_none_of_their_rows(at: World, job: int) -> None:
    """The trap the environment guards against: copying a table with foreign keys on empties its children."""
    import sqlalchemy as sa
    from alembic.operations import Operations

    before = counts(at.db)
    with at.db.writer.connect() as connection:
        raw = connection.connection.driver_connection
        assert raw is not None
        raw.execute("PRAGMA foreign_keys=OFF")
        operations = Operations(MigrationContext.configure(connection))
        with operations.batch_alter_table("job", recreate="always") as table:
            table.add_column(sa.Column("colour", sa.String(10), nullable=True))
        connection.commit()
        raw.execute("PRAGMA foreign_keys=ON")
    assert counts(at.db) == before


def test_foreign_keys_are_on_again_after_migrating(tmp_path: Path) -> None:
    db = open_database(f"sqlite:///{tmp_path / 'new.sqlite'}", pool_size=1)
    migrate(db)
    with db.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
    db.close()


def test_a_migration_that_fails_leaves_the_database_as_it_was(tmp_path: Path) -> None:
    db = open_database(f"sqlite:///{tmp_path / 'new.sqlite'}")
    with db.writer.begin() as connection:
        connection.exec_driver_sql("CREATE TABLE attachment (id INTEGER)")
    with pytest.raises(Exception, match="already exists"):
        migrate(db)
    with db.engine.connect() as connection:
        names = {row[0] for row in connection.exec_driver_sql("SELECT name FROM sqlite_master WHERE type = 'table'")}
    assert names == {"attachment"}
    db.close()


def test_programs_that_start_at_once_migrate_once(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path / 'new.sqlite'}"

    def start(_: int) -> str | None:
        db = open_database(url)
        migrate(db)
        found = revision(db)
        db.close()
        return found

    with ThreadPoolExecutor(1) as pool:
        assert list(pool.map(start, range(3))) == [newest()] * 3


def test_a_database_with_data_is_copied_before_it_is_migrated(tmp_path: Path) -> None:
    path = tmp_path / "old.sqlite"
    db = open_database(f"sqlite:///{path}")
    migrate(db, REVISIONS[0])
    _fill(db)
    migrate(db, "base") if len(REVISIONS) == 1 else migrate(db)
    copies = list(tmp_path.glob("old.sqlite.at-*"))
    assert [copy.name for copy in copies] == [f"old.sqlite.at-{REVISIONS[0]}"]
    with sqlite3.connect(copies[0]) as kept:
        assert kept.execute("SELECT count(*) FROM attachment").fetchone() == (1,)
    kept.close()
    db.close()


def test_every_migration_can_be_taken_back(tmp_path: Path) -> None:
    db = open_database(f"sqlite:///{tmp_path / 'new.sqlite'}")
    migrate(db)
    config = configuration()
    with db.writer.connect() as connection:
        config.attributes["connection"] = connection
        command.downgrade(config, "base")
        connection.commit()
    with db.engine.connect() as connection:
        names = {row[0] for row in connection.exec_driver_sql("SELECT name FROM sqlite_master WHERE type = 'table'")}
    assert names == {"alembic_version"}
    db.close()
