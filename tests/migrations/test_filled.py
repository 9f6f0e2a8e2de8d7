"""Every step down and up again on a database that holds something: row by row the same, or refused before anything is lost."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import inspect, text
from sqlalchemy.exc import IntegrityError

from tests.conftest import Databases
from tests.migrations.filled import REVISIONS, contents, counts, guards, people_at_work, reviewed
from tests.world import World
from webapp.migrate import WouldLose, migrate, newest, revision, take_back
from webapp.services import audit, log, log_search
from webapp.services.log_search import Sought
from webapp.store import Database, open_database, reading

DOWN = REVISIONS[-2::-1]
# What a step down loses and says so in its migration, by the step; `audit` and `token` are tables, dropped whole.
BEFORE_PEOPLE, BEFORE_REVIEWS, BEFORE_FILES = "0002", "0003", "0004"
REVIEWED = [old for old in DOWN if old > BEFORE_FILES]
# What the guards of each table refuse, by the table.
GUARDED = {
    "log_entry": "words = 'x'",
    "revision": "document = 'x'",
    "review_item": "place = 'x'",
    "audit": "words = 'x'",
}
RECHECKED = {"checked_engine"}  # the hash makes every attachment be checked again


@pytest.fixture
def known(database_kind: str, databases: Databases, tmp_path: Path) -> Iterator[dict[str, dict[str, set[str]]]]:
    """The columns of each table at each revision."""
    url = databases.empty(database_kind, tmp_path / "known")
    db = open_database(url)
    found = {}
    for number in REVISIONS:
        migrate(db, number)
        look = inspect(db.engine)
        found[number] = {name: {c["name"] for c in look.get_columns(name)} for name in counts(db)}
    db.close()
    yield found
    databases.remove(url)


def narrowed(rows: dict[str, list[dict[str, Any]]], columns: dict[str, set[str]]) -> dict[str, list[dict[str, Any]]]:
    """What a revision can hold of them."""
    return {
        name: [{column: row[column] for column in columns[name] - RECHECKED} for row in rows[name]] for name in columns
    }


def there_and_back(db: Database, old: str, columns: dict[str, set[str]]) -> None:
    """Down to a revision and up again: all it can hold is the same at both ends, and the guards stand again."""
    before, guarded, head = contents(db), guards(db), newest()
    take_back(db, old)
    assert revision(db) == old
    assert narrowed(contents(db), columns) == narrowed(before, columns)
    migrate(db)
    after = contents(db)
    assert revision(db) == head
    assert narrowed(after, columns) == narrowed(before, columns)
    assert {name: len(after[name]) for name in columns} == {name: len(before[name]) for name in columns}
    assert guards(db) == guarded


def test_every_step_down_and_up_keeps_all_that_the_older_tables_can_hold(
    at: World, known: dict[str, dict[str, set[str]]]
) -> None:
    people_at_work(at)
    filled = counts(at.db)
    assert all(
        filled[name] for name in ("job", "wall", "attachment", "floor_line", "person", "token", "audit", "office")
    )
    for old in DOWN:
        there_and_back(at.db, old, known[old])


def test_every_step_a_reviewed_job_allows_keeps_its_reviews_photographs_and_log(
    at: World, known: dict[str, dict[str, set[str]]]
) -> None:
    job = people_at_work(at)
    reviewed(at, job)
    assert [name for name, count in counts(at.db).items() if not count and name not in ("attempt", "setup")] == []
    for old in REVIEWED:
        there_and_back(at.db, old, known[old])
    with reading(at.db) as session:
        assert log.verify(session, 1).problems == ()
        assert [e.permit for e in log_search.search(session, 1, Sought(q="cafe P-2")).rows] == ["P-2"]
    audit.refused(at.db, 1, 1, "GET /somewhere", "")  # a step down drops what was there
    for table, change in GUARDED.items():
        for statement in (f"UPDATE {table} SET {change}", f"DELETE FROM {table}"):
            with pytest.raises(IntegrityError, match=r"frozen|only added to"), at.db.writer.begin() as connection:
                connection.execute(text(statement))


@pytest.mark.parametrize("old", [BEFORE_FILES, BEFORE_REVIEWS, BEFORE_PEOPLE, "0001", "base"])
def test_a_step_that_would_delete_the_log_a_review_or_a_revision_is_refused_and_changes_nothing(
    at: World, old: str
) -> None:
    reviewed(at, people_at_work(at))
    before, guarded = contents(at.db), guards(at.db)
    with pytest.raises(WouldLose, match="Nothing was changed"):
        take_back(at.db, old)
    assert revision(at.db) == newest()
    assert contents(at.db) == before
    assert guards(at.db) == guarded


@pytest.mark.only("postgres")
def test_a_guarded_table_cannot_be_emptied_whole(at: World) -> None:
    reviewed(at, people_at_work(at))
    for table in GUARDED:
        with pytest.raises(IntegrityError, match=r"frozen|only added to"), at.db.writer.begin() as connection:
            connection.execute(text(f"TRUNCATE {table} CASCADE"))
