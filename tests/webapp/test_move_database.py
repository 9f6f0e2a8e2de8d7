"""Moving an office to PostgreSQL and back: every row the same, into an empty database only, whole or not at all."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import select, text, update

from tests.conftest import Databases
from tests.webapp.test_backup import held
from tests.webapp.test_revisions import SEEN
from tests.world import World, world
from webapp.__main__ import main
from webapp.keeping import moving
from webapp.keeping.contents import differences
from webapp.migrate import migrate, newest
from webapp.models import Base, Job, Office, Wall
from webapp.services import log, log_search
from webapp.services.log_search import Sought
from webapp.store import open_database, reading, writing

Out = pytest.CaptureFixture[str]
pytestmark = pytest.mark.only("sqlite")


@pytest.fixture
def server(databases: Databases, tmp_path: Path) -> Iterator[str]:
    """A PostgreSQL database without tables."""
    url = databases.empty("postgres", tmp_path)
    yield url
    databases.remove(url)


@pytest.fixture
def filled(everything: World, database: str, monkeypatch: pytest.MonkeyPatch) -> str:
    """An office with everything in it, in SQLite; its server is stopped."""
    monkeypatch.setenv("DATABASE_URL", database)
    return database


def rows(url: str) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table, as the program reads them."""
    db = open_database(url)
    with db.reader.connect() as connection:
        found = {
            name: sorted((tuple(row) for row in connection.execute(select(table))), key=repr)
            for name, table in Base.metadata.tables.items()
        }
    db.close()
    return found


def test_to_postgresql_and_back_every_row_of_every_table_is_the_same(
    filled: str, server: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    before = rows(filled)
    assert all(
        before[name] for name in ("job", "wall", "floor_line", "revision", "log_entry", "photo", "design", "token")
    )
    back = f"sqlite:///{tmp_path / 'back.sqlite'}"
    assert main(["move-database", "--to", server]) == 0
    said = capsys.readouterr().out
    assert "set DATABASE_URL" in said
    assert f"head {held(filled).logs[1].head}" in said
    assert rows(server) == before
    monkeypatch.setenv("DATABASE_URL", server)
    assert main(["move-database", "--to", back]) == 0
    assert rows(back) == before
    assert held(back) == held(server) == held(filled)


def test_the_office_goes_on_in_the_new_database(filled: str, server: str, tmp_path: Path) -> None:
    moving.move(filled, server)
    back = f"sqlite:///{tmp_path / 'back.sqlite'}"
    for url in (server, back):
        with world(url) as at:
            was = at.reader.get("/log")
            assert was.status_code == 200
            job = at.job()
            with writing(at.db) as session:
                added = log.append(session, SEEN, log.Said("note", "Moved house"), session.get_one(Job, job))
                assert added.seq == log.head(session, 1)[0]
            with reading(at.db) as session:
                assert log.verify(session, 1).problems == ()
                assert log_search.search(session, 1, Sought(q="cafe")).rows, "the index of words came along"
            with pytest.raises(Exception, match="the log is only added to"), at.db.writer.begin() as connection:
                connection.execute(text("UPDATE log_entry SET words = ''"))
        if url == server:
            moving.move(server, back)


def test_the_old_database_is_only_read(filled: str, server: str) -> None:
    path = Path(filled.removeprefix("sqlite:///"))
    before = path.read_bytes()
    moving.move(filled, server)
    assert path.read_bytes() == before


def test_a_database_that_holds_something_is_refused(filled: str, server: str, capsys: Out) -> None:
    with world(server) as at:
        at.job()
    there = rows(server)
    assert main(["move-database", "--to", server]) == 2
    assert "Name one that is empty" in capsys.readouterr().err
    assert rows(server) == there


def test_a_file_that_holds_something_is_refused(filled: str, tmp_path: Path, capsys: Out) -> None:
    other = f"sqlite:///{tmp_path / 'other.sqlite'}"
    with world(other) as at:
        at.job()
    there = rows(other)
    assert main(["move-database", "--to", other]) == 2
    assert "Name a file that is not there yet" in capsys.readouterr().err
    assert rows(other) == there


def test_a_new_database_in_which_nobody_is_yet_is_moved_into(filled: str, server: str) -> None:
    db = open_database(server)
    migrate(db)
    db.close()
    moving.move(filled, server)
    assert rows(server) == rows(filled)


def test_a_database_cannot_be_moved_onto_itself(filled: str, capsys: Out) -> None:
    assert main(["move-database", "--to", filled]) == 2
    assert "the same database" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "reason"), [("x" * 81, "is longer than 80 signs"), ("a\0b", "holds a sign PostgreSQL")]
)
def test_a_text_postgresql_cannot_keep_is_named_without_being_shown(
    filled: str, server: str, capsys: Out, words: str, reason: str
) -> None:
    db = open_database(filled)
    with writing(db) as session:
        session.execute(update(Wall).where(Wall.id == 1).values(name=words))
    db.close()
    assert main(["move-database", "--to", server]) == 2
    said = capsys.readouterr().err
    assert f"Row 1 of wall: name {reason}" in said
    assert words not in said
    other = open_database(server)
    with other.reader.connect() as connection:
        count = "SELECT count(*) FROM pg_tables WHERE schemaname = 'public'"
        assert connection.scalar(text(count)) == 0, "nothing of it was kept"
    other.close()


def test_rows_that_differ_on_arrival_undo_everything(
    filled: str, server: str, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    from webapp.keeping import copying

    real = copying.batches

    def lossy(connection: copying.Connection, table: copying.Table) -> Iterator[object]:
        for part in real(connection, table):
            yield part[1:] if table.name == "log_entry" else part

    monkeypatch.setattr(copying, "batches", lossy)
    assert main(["move-database", "--to", server]) == 2
    said = capsys.readouterr().err
    assert "log_entry holds" in said
    assert "the log of office 1 is another" in said


def test_what_is_written_meanwhile_is_told(
    filled: str, server: str, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    from webapp.keeping import copying

    real = copying._count_on

    def slow(*arguments: object) -> None:
        db = open_database(filled)
        with writing(db) as session:
            log.append(session, SEEN, log.Said("note", "x"), session.get_one(Job, 1))
        db.close()
        real(*arguments)  # type: ignore[arg-type]

    monkeypatch.setattr(copying, "_count_on", slow)
    assert main(["move-database", "--to", server]) == 1
    assert "was written meanwhile" in capsys.readouterr().err


def test_an_empty_database_is_not_moved(
    tmp_path: Path, server: str, monkeypatch: pytest.MonkeyPatch, capsys: Out
) -> None:
    (tmp_path / "empty.sqlite").touch()
    monkeypatch.setenv("DATABASE_URL", f"sqlite:///{tmp_path / 'empty.sqlite'}")
    assert main(["move-database", "--to", server]) == 2
    assert "is empty" in capsys.readouterr().err


def test_several_offices_keep_their_logs_apart(filled: str, server: str) -> None:
    db = open_database(filled)
    with writing(db) as session:
        office = Office(name="Second")
        session.add(office)
        session.flush()
        job = Job(name="Theirs", site={}, edition="US 2021", office_id=office.id)
        session.add(job)
        session.flush()
        log.append(session, SEEN, log.Said("note", "one"), job)
    db.close()
    moved, _ = moving.move(filled, server)
    assert len(moved.logs) == 2
    assert differences(moved, held(server)) == []


PRINTED = st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0"), max_size=80)
SITES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | PRINTED,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(PRINTED, inner, max_size=3), max_leaves=8,
)  # fmt: skip


@settings(max_examples=12, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.tuples(PRINTED, st.dictionaries(PRINTED, SITES, max_size=3)), max_size=5))
def test_whatever_people_typed_is_the_same_after_the_round_trip(
    databases: Databases, tmp_path_factory: pytest.TempPathFactory, typed: list[tuple[str, dict[str, str]]]
) -> None:
    folder = tmp_path_factory.mktemp("typed")
    first, server, back = (
        databases.filled("sqlite", folder),
        databases.empty("postgres", folder),
        f"sqlite:///{folder}/back.sqlite",
    )
    db = open_database(first)
    with writing(db) as session:
        for name, site in typed:
            job = Job(name=name, notes=name * 3, site=site, edition="US 2021", office_id=1)
            session.add(job)
            session.flush()
            log.append(session, SEEN, log.Said("note", name, places=[name]), job)
    db.close()
    moving.move(first, server)
    moving.move(server, back)
    assert rows(back) == rows(server) == rows(first)
    assert held(back).migration == newest()
    databases.remove(server)
