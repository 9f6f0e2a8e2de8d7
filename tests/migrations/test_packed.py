"""Revisions that were kept as text are kept compressed, each with the fingerprint it had, however many there are."""

import tracemalloc
import zlib
from hashlib import sha256
from pathlib import Path

import pytest
from sqlalchemy import text

from webapp.migrate import migrate, take_back
from webapp.models.packed import pack, unpack
from webapp.store import Database, open_database

ROWS = 9  # more than two parts of a migration
MOMENT = "2026-01-01 00:00:00"


def filled(url: str, size: int = 200, rows: int = ROWS) -> Database:
    """A database of the migration before, with revisions. Args: size: about how long each document is."""
    db = open_database(url)
    migrate(db, "0010")
    with db.writer.begin() as connection:
        connection.execute(text(
            "INSERT INTO job (id, name, client, place, notes, site, edition, changes, version, created_at, updated_at) "
            f"VALUES (1, 'J', '', '', '', '{{}}', 'US 2021', 1, 1, '{MOMENT}', '{MOMENT}')"
        ))  # fmt: skip
        for number in range(1, rows + 1):
            said = f'{{"é":"{number}"}}' + f" {number * 7919}" * (size // 5)
            row = {"number": number, "document": said, "mark": sha256(said.encode()).hexdigest()}
            if number == 5:
                row["mark"] = "damaged long ago"
            connection.execute(text(
                "INSERT INTO revision (job_id, number, state, document, fingerprint, engine, edition, changes, note, by_name, "
                f"made_at, version) VALUES (1, :number, 'submitted', :document, :mark, '0', 'US 2021', 1, '', 'N', '{MOMENT}', 1)"
            ), row)  # fmt: skip
    return db


def documents(db: Database) -> list[tuple[int, str, str]]:
    with db.engine.connect() as connection:
        found = connection.execute(text("SELECT id, document, fingerprint FROM revision ORDER BY id")).all()
    return [(row.id, row.document if isinstance(row.document, str) else unpack(row.document), row[2]) for row in found]


def test_up_and_down_every_document_is_the_text_it_was(empty_database: str) -> None:
    db = filled(empty_database)
    before = documents(db)
    migrate(db)
    assert documents(db) == before
    whole = [sha256(said.encode()).hexdigest() == mark for _, said, mark in before]
    assert whole.count(False) == 1, "what was damaged before is neither mended nor in the way"
    with db.engine.connect() as connection:
        assert all(isinstance(kept, bytes) for kept in connection.scalars(text("SELECT document FROM revision")))
    take_back(db, "0010")
    assert documents(db) == before
    db.close()


def test_a_document_that_can_not_be_unpacked_stops_the_step_down_and_nothing_changes(empty_database: str) -> None:
    db = filled(empty_database)
    migrate(db)
    with db.writer.begin() as connection:
        off = "TRIGGER revision_frozen" + ("" if db.engine.dialect.name == "sqlite" else " ON revision")
        connection.execute(text(f"DROP {off}"))
        connection.execute(text("UPDATE revision SET document = :kept WHERE id = 3"), {"kept": pack("whole")[:-2]})
    with pytest.raises(zlib.error, match="incomplete"):
        take_back(db, "0010")
    with db.engine.connect() as connection:
        assert connection.scalar(text("SELECT version_num FROM alembic_version")) == "0011"
        assert isinstance(connection.scalar(text("SELECT document FROM revision WHERE id = 1")), bytes)
    db.close()


@pytest.mark.only("sqlite")
def test_memory_does_not_grow_with_the_number_of_revisions(tmp_path: Path) -> None:
    peaks = []
    for rows in (8, 24):
        db = filled(f"sqlite:///{tmp_path / str(rows)}.sqlite", 500_000, rows)
        tracemalloc.start()
        migrate(db)
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
        db.close()
    assert peaks[1] < 1.2 * peaks[0]
