"""Many reviewers at once, and a server killed while it writes: what was acknowledged is there, once, and the chain holds."""

import http.client
import multiprocessing
import os
import random
import signal
import socket
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from typing import Any
from urllib.parse import urlencode

import pytest
import uvicorn
from sqlalchemy import select, text

from tests.webapp.test_revisions import submitted
from tests.world import World, world
from webapp.main import create_app
from webapp.models import LogEntry, ReviewItem, Revision
from webapp.pages.view import SESSION
from webapp.services import log, revisions, sign_in
from webapp.services.refusals import Refused
from webapp.services.review_items import Moved, Sent, take
from webapp.services.sign_in import Seen
from webapp.settings import Settings
from webapp.store import open_database, reading

AT_ONCE = 200
KILLS = {"sqlite": 50, "postgres": 15}  # a server of its own keeps what was committed, whoever is killed
PLACE = {"place": "A1", "stage": "before placing"}


@pytest.fixture
def crowd(at: World, job: int) -> Iterator[tuple[World, int, list[Seen], ThreadPoolExecutor]]:
    """A submitted revision, two reviewers, and as many threads as decisions."""
    submitted(at, job)
    seen = [s for role in ("inspector", "administrator") if (s := sign_in.who(at.db, sign_in.as_role(at.db, role, "")))]
    with ThreadPoolExecutor(AT_ONCE) as threads:
        yield at, job, seen, threads


def outcome(done: Callable[[], Any]) -> Any:
    """The id and whether it was new, or the kind of refusal."""
    try:
        taken = done()
    except (Moved, Refused) as error:
        return type(error)
    return taken.id, taken.new


def together(threads: ThreadPoolExecutor, asked: list[Callable[[], Any]]) -> list[Any]:
    """Ask all at the same moment."""
    gate = threading.Barrier(len(asked))

    def ask(one: Callable[[], Any]) -> Any:
        gate.wait(60)
        return outcome(one)

    return list(threads.map(ask, asked))


def test_of_two_hundred_decisions_about_the_whole_at_once_one_counts(
    crowd: tuple[World, int, list[Seen], ThreadPoolExecutor],
) -> None:
    at, job, seen, threads = crowd

    def decide(n: int) -> Callable[[], Any]:
        item = "accept" if n % 2 else "return"
        sent = Sent(f"whole-decision-{n}", "decision", item=item, text=f"Words {n}", base=1)
        return lambda: take(at.db, seen[n % 3 % 2], job, 1, sent)

    outcomes = together(threads, [decide(n) for n in range(AT_ONCE)])
    assert Counter(o if o is Moved else "stored" for o in outcomes) == {"stored": 1, Moved: AT_ONCE - 1}
    with reading(at.db) as session:
        (item,) = session.scalars(select(ReviewItem)).all()
        rows = [r for r in session.scalars(select(LogEntry)) if r.what in ("accepted", "returned")]
        assert [row.words for row in rows] == [item.value["words"]]
        assert revisions.find(session, job, 1).state == rows[0].what
        assert log.verify(session, 1).problems == ()


def test_of_two_hundred_decisions_about_places_at_once_exactly_the_valid_ones_are_stored(
    crowd: tuple[World, int, list[Seen], ThreadPoolExecutor],
) -> None:
    at, job, (inspector, _), threads = crowd
    asked: list[Callable[[], Any]] = []
    for n in range(AT_ONCE // 4):
        valid = Sent(f"valid-decision-{n}", "decision", item="accept", text=f"Fine {n}", base=1, **PLACE)
        bare = Sent(f"bare-decision-{n}", "decision", item="send back", base=1, **PLACE)
        other = Sent(f"valid-decision-{n}", "decision", item="send back", text="Another content", base=1, **PLACE)
        for sent in (valid, valid, bare, other):
            asked.append(lambda sent=sent: take(at.db, inspector, job, 1, sent))  # type: ignore[misc]
    outcomes = together(threads, asked)
    with reading(at.db) as session:
        items = session.scalars(select(ReviewItem)).all()
        assert log.verify(session, 1).problems == ()
    assert sorted(item.key for item in items) == sorted(f"valid-decision-{n}" for n in range(AT_ONCE // 4))
    assert sum(isinstance(o, tuple) and o[1] for o in outcomes) == AT_ONCE // 4, "each stored as new once"
    assert {o[0] for o in outcomes if isinstance(o, tuple)} == {item.id for item in items}
    assert outcomes[2::4] == [Refused] * (AT_ONCE // 4), "sent back without a reason"
    for n in range(AT_ONCE // 4):
        said = [isinstance(o, tuple) for o in (outcomes[4 * n], outcomes[4 * n + 1], outcomes[4 * n + 3])]
        assert said in ([True, True, False], [False, False, True]), "one content under one key"


# Killed while writing


def serve(url: str, listener: socket.socket) -> None:
    """A process that serves until it is killed."""
    app = create_app(Settings(database_url=url, demo=True))
    uvicorn.Server(uvicorn.Config(app, log_level="critical", timeout_keep_alive=1)).run(sockets=[listener])


class Writer(threading.Thread):
    """Decides, and logs, without pause; what is not acknowledged is sent again under the same key."""

    def __init__(
        self, port: int, token: str, job: int, name: str, stop: threading.Event, acknowledged: list[str]
    ) -> None:
        super().__init__(daemon=True)
        self.port, self.job, self.who, self.stop, self.acknowledged = port, job, name, stop, acknowledged
        self.headers = {"Cookie": f"{SESSION}={token}", "Content-Type": "application/x-www-form-urlencoded"}
        self.odd: list[tuple[int, str]] = []

    def run(self) -> None:
        count = 0
        while not self.stop.is_set():
            key = f"{self.who}-{count:06}"
            logs = count % 4 == 3
            if self._post(key, logs):
                self.acknowledged.append(key)
                count += 1

    def _post(self, key: str, logs: bool) -> bool:
        item = {"kind": "decision", "item": "accept", "text": key, "base": "1", "key": key, **PLACE}
        path, fields = f"/jobs/{self.job}/review/1/items", item
        if logs:
            path, fields = f"/jobs/{self.job}/log", {"what": "note", "words": key}
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=3)
        try:
            connection.request("POST", path, urlencode(fields), self.headers)
            answer = connection.getresponse()
            body = answer.read()
        except (OSError, http.client.HTTPException):
            return False
        finally:
            connection.close()
        if answer.status not in (200, 201, 303):
            self.odd.append((answer.status, body.decode()[:200]))
        return answer.status in (200, 201, 303)


def test_a_server_killed_again_and_again_while_it_writes_loses_nothing_it_acknowledged(
    database: str, database_kind: str
) -> None:
    url, kills = database, KILLS[database_kind]
    with world(url) as at:
        job = at.job()
        submitted(at, job)
        token = sign_in.as_role(at.db, "administrator", "a test")
    listener = socket.socket()
    listener.bind(("127.0.0.1", 0))
    listener.listen(64)
    stop, acknowledged = threading.Event(), list[str]()
    writers = [Writer(listener.getsockname()[1], token, job, f"writer-{n}", stop, acknowledged) for n in range(3)]
    chance, forked = random.Random(7), multiprocessing.get_context("fork")
    for number in range(kills):
        process = forked.Process(target=serve, args=(url, listener), daemon=True)
        process.start()
        if not number:
            for writer in writers:
                writer.start()
        before, until = len(acknowledged), time.monotonic() + 30
        while len(acknowledged) == before:
            assert time.monotonic() < until, [writer.odd for writer in writers]
            time.sleep(0.005)
        time.sleep(chance.uniform(0, 0.08))
        assert process.pid
        os.kill(process.pid, signal.SIGKILL)
        process.join(10)
    stop.set()
    listener.close()
    for writer in writers:
        writer.join(10)
    assert [writer.odd for writer in writers] == [[], [], []]
    assert len(acknowledged) >= kills
    check_all_is_there(url, acknowledged)


def check_all_is_there(url: str, acknowledged: list[str]) -> None:
    """Every acknowledged decision once, every acknowledged row, a chain that verifies, a whole database."""
    decided = [key for key in acknowledged if int(key.rsplit("-", 1)[1]) % 4 != 3]
    db = open_database(url)
    with reading(db) as session:
        keys = session.scalars(select(ReviewItem.key)).all()
        words = session.scalars(select(LogEntry.words).where(LogEntry.what == "note")).all()
        verified = log.verify(session, 1)
        if url.startswith("sqlite"):
            assert session.scalar(text("PRAGMA integrity_check")) == "ok"
        assert session.scalars(select(Revision.state)).one() == "under review"
    db.close()
    assert max(Counter(keys).values()) == 1
    assert set(decided) <= set(keys)
    assert set(acknowledged) - set(decided) <= set(words)
    assert verified.problems == ()
    assert verified.rows >= len(acknowledged) - len(decided)
