"""Two people in the same moment, made to happen: calls are stopped between what they read and what they write.

A gate locks tables against writing but not against reading. Calls that read first and write later, without holding what they read,
all come to the gate with the same in mind; calls that hold it come one by one. Either way they stand still until the gate opens.
"""

import re
import time
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager
from typing import Any

from sqlalchemy import event, text

from tests.world import World
from webapp.services import sign_in
from webapp.services.sign_in import Seen
from webapp.store import Database

PATIENCE_S = 30
ORDER = ("job", "review_link", "office", "attempt", "person")
HOLDS = re.compile(r"FROM (\w+)\s+WHERE .*FOR NO KEY UPDATE|INSERT INTO (attempt) ", re.DOTALL)
WAITING = text("SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'")


class Calls:
    """Calls in threads of their own."""

    def __init__(self, db: Database, threads: ThreadPoolExecutor) -> None:
        self.db, self.threads = db, threads
        self.futures: list[Future[Any]] = []

    def start(self, call: Callable[[], Any]) -> Future[Any]:
        """Begin one, and return when it stands still, as all before it, or is done."""
        self.futures.append(self.threads.submit(call))
        self.settle()
        return self.futures[-1]

    def settle(self) -> None:
        """Wait until every call begun waits for a lock or is done."""
        until = time.monotonic() + PATIENCE_S
        while self._moving():
            assert time.monotonic() < until, "a call neither waits for another nor ends"
            time.sleep(0.01)

    def _moving(self) -> bool:
        done = sum(future.done() for future in self.futures)
        with self.db.engine.connect() as connection:
            waiting = connection.execute(WAITING).scalar_one()
        return bool(done + waiting < len(self.futures))

    def outcomes(self) -> list[Any]:
        """What each returned or raised, in the order they began."""
        return [future.exception(PATIENCE_S) or future.result() for future in self.futures]


@contextmanager
def calls(at: World) -> Iterator[Calls]:
    """Threads to call from, on PostgreSQL."""
    with ThreadPoolExecutor(12) as threads:
        yield Calls(at.db, threads)


@contextmanager
def held(db: Database, statement: str) -> Iterator[None]:
    """Locks that somebody else holds meanwhile."""
    with db.engine.connect() as connection:
        connection.execute(text(statement))
        yield
        connection.rollback()


@contextmanager
def in_order(db: Database) -> Iterator[None]:
    """Whether every transaction meanwhile holds rows in the one order that `services.holding` names."""
    known: dict[int, list[str]] = {}
    wrong: list[list[str]] = []

    def began(connection: Any) -> None:
        known[id(connection.connection.dbapi_connection)] = []

    def sent(connection: Any, cursor: Any, statement: str, *rest: Any) -> None:
        found = HOLDS.search(statement)
        if found:
            so_far = known[id(connection.connection.dbapi_connection)]
            so_far.append(found[1] or found[2])
            if sorted(so_far, key=ORDER.index) != so_far:
                wrong.append([*so_far])

    event.listen(db.engine, "begin", began)
    event.listen(db.engine, "before_cursor_execute", sent)
    yield
    assert not wrong


def queued(at: World, tables: str, *asked: Callable[[], Any], one_by_one: bool = False) -> list[Any]:
    """What calls bring that are let through to write to `tables` at one moment. Args: one_by_one: begun in their order."""
    with calls(at) as made:
        with held(at.db, f"LOCK TABLE {tables} IN SHARE MODE"):
            for call in asked:
                made.futures.append(made.threads.submit(call))
                if one_by_one:
                    made.settle()
            made.settle()
        return made.outcomes()


def kinds(outcomes: list[Any]) -> list[str]:
    """Outcomes as the names of what was raised, "" where nothing was, in order."""
    return sorted(type(one).__name__ if isinstance(one, Exception) else "" for one in outcomes)


def signed_in(at: World, role: str) -> Seen:
    """One of the demo's people, signed in."""
    found = sign_in.who(at.db, sign_in.as_role(at.db, role, "a test"))
    assert found
    return found
