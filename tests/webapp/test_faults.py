"""Faults of the machine: what each looks like to whoever meets it, and that nothing acknowledged is lost."""

import html
import random
import socket
import sqlite3
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from datetime import datetime, timedelta, tzinfo
from pathlib import Path
from typing import Any

import psycopg
import pyotp
import pytest
import uvicorn
from httpx2 import Response
from sqlalchemy import event, func, select, text
from sqlalchemy.exc import DBAPIError

from tests.load.program import program
from tests.postgres import Server
from tests.webapp.test_people import entered, joined
from tests.world import World, house, inspect, world
from webapp import store
from webapp.credentials import second
from webapp.main import create_app
from webapp.models import Job, LogEntry
from webapp.models import base as models_base
from webapp.pages.view import SESSION
from webapp.services import log
from webapp.services.outages import outage
from webapp.settings import Settings
from webapp.store import open_database, reading

HX = {"HX-Request": "true"}
FORM = {"name": "Kept in the form", "client": 'A "quoted" <client>', "place": "", "edition": "US 2021", "seismic": "B"}


def jobs_kept(at: World) -> list[str]:
    with reading(at.db) as session:
        return list(session.scalars(select(Job.name).order_by(Job.id)))


def refused(answer: Response, heading: str, says: str = "Nothing of this request was kept") -> None:
    """A page that says what is the matter and what was kept, and nothing of the inside."""
    assert answer.status_code == 503, answer.text[:400]
    assert heading in html.unescape(answer.text)
    assert says in answer.text
    assert int(answer.headers["retry-after"]) > 0
    for inner in ("sqlite3", "psycopg", "Traceback", "INSERT", "/tmp"):
        assert inner not in answer.text


def note(at: World, job: int, words: str) -> Response:
    return at.reader.post(f"/jobs/{job}/log", data={"what": "note", "words": words})


def chain_holds(at: World) -> None:
    with reading(at.db) as session:
        assert log.verify(session, 1).problems == ()


# A locked database


@contextmanager
def locked(path: str) -> Iterator[None]:
    """Another program writes and does not come to an end."""
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        yield
        other.execute("ROLLBACK")


@pytest.fixture
def impatient(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[World]:
    """A world that waits a tenth of a second for others to finish writing."""
    monkeypatch.setattr(store, "BUSY_MS", 100)
    with world(tmp_path) as made:
        made.db.engine.dispose()  # the connection that migrated has its own patience
        yield made


@pytest.mark.only("sqlite")
def test_a_locked_database_keeps_what_was_typed_and_takes_it_when_it_is_free(impatient: World) -> None:
    at, job = impatient, impatient.job()
    path = str(at.db.engine.url.database)
    with locked(path):
        answer = at.reader.post("/jobs/new", data=FORM)
        refused(answer, "Too much at once")
        assert at.reader.get(f"/jobs/{job}").status_code == 200, "reading goes on"
        part = at.reader.post("/jobs/new", data=FORM, headers=HX)
        assert part.status_code == 503
        assert "<html" not in part.text
        told = at.reader.post("/api/jobs", json=house()).json()
        assert (told["error"], told["outage"]) == ("unavailable", "busy")
    assert jobs_kept(at) == ["Small house"]
    page = inspect(answer.text)
    fields = {a["name"]: a["value"] for _, a in page.of("input") if a.get("type") == "hidden" and a["name"] in FORM}
    assert fields == FORM
    assert at.reader.post("/jobs/new", data=fields).status_code == 303
    assert jobs_kept(at) == ["Small house", FORM["name"]]


@pytest.mark.only("sqlite")
def test_passwords_are_not_written_into_a_page_when_signing_in_meets_a_locked_database(impatient: World) -> None:
    with locked(str(impatient.db.engine.url.database)):
        _, status = entered(impatient, "designer", "a password of theirs")
        fresh = impatient.nobody()
        answer = fresh.post("/sign-in", data={"sign_in": "designer", "password": "a password of theirs", "code": ""})
    assert status == 503
    refused(answer, "Too much at once")
    assert "a password of theirs" not in answer.text


@pytest.mark.only("postgres")
def test_who_waits_too_long_for_a_row_is_told_to_try_again(at: World, job: int) -> None:
    at.db.engine.dispose()
    event.listen(at.db.engine, "begin", lambda c: c.exec_driver_sql("SET lock_timeout = 100"))
    with at.db.writer.begin() as other:
        other.execute(text("SELECT id FROM job FOR UPDATE"))
        form = {"tag": "A9", "name": "Nine"}
        refused(at.reader.post(f"/jobs/{job}/edit", data=FORM | form | {"version": "1"}), "Too much at once")
    chain_holds(at)


# A full disk


@pytest.mark.only("sqlite")
def test_a_full_disk_stores_nothing_in_part_and_goes_on_when_there_is_room(at: World, job: int) -> None:
    assert note(at, job, "before").status_code == 303
    with at.db.engine.connect() as connection:
        pages = int(connection.exec_driver_sql("PRAGMA page_count").scalar_one())

    def full(connection: Any, _record: object) -> None:
        connection.execute(f"PRAGMA max_page_count={pages}")

    at.db.engine.dispose()
    event.listen(at.db.engine, "connect", full)
    kept = 0
    for number in range(200):
        answer = note(at, job, f"row {number} " + "x" * 900)
        if answer.status_code == 503:
            break
        kept += 1
    refused(answer, "No room to write")
    assert at.reader.get(f"/jobs/{job}").status_code == 200, "reading goes on"
    with reading(at.db) as session:
        rows = session.scalar(select(func.count()).where(LogEntry.words.like("row %")))
    assert rows == kept
    chain_holds(at)
    event.remove(at.db.engine, "connect", full)
    at.db.engine.dispose()
    assert note(at, job, "after").status_code == 303
    chain_holds(at)


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of six megabytes, half of it taken."""
    disk = tmp_path / "disk"
    disk.mkdir()
    if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=6m", "tmpfs", disk], capture_output=True).returncode:
        pytest.skip("only root may mount a disk")
    (disk / "filler").write_bytes(b"x" * 3_000_000)
    yield disk
    subprocess.run(["umount", "--lazy", disk], check=True)


def test_a_program_whose_disk_fills_up_says_so_keeps_all_it_acknowledged_and_goes_on(small_disk: Path) -> None:
    url = f"sqlite:///{small_disk / 'office.sqlite'}"
    with (
        program(url) as served,
        closing(served.visitor("office")) as office,
        closing(served.visitor("designer")) as designer,
    ):
        job = designer.send("POST", "/api/jobs", house()).json["id"]
        kept, answer = 0, designer.get("/jobs")
        for number in range(2000):
            answer = office.post(f"/jobs/{job}/log", {"what": "note", "words": f"row {number} " + "x" * 3000})
            if answer.status != 303:
                break
            kept += 1
        assert answer.status == 503
        assert b"No room to write" in answer.body
        assert designer.get(f"/jobs/{job}").status == 200, "reading goes on"
        (small_disk / "filler").unlink()
        assert office.post(f"/jobs/{job}/log", {"what": "note", "words": "after"}).status == 303
    db = open_database(url)
    with reading(db) as session:
        words = list(session.scalars(select(LogEntry.words).where(LogEntry.what == "note").order_by(LogEntry.seq)))
        assert log.verify(session, 1).problems == ()
    db.close()
    assert [w.split(" x")[0] for w in words] == [*(f"row {n}" for n in range(kept)), "after"]


# A database that may only be read


def test_a_database_that_may_only_be_read_is_read(at: World, job: int, database_kind: str) -> None:
    at.db.engine.dispose()
    if database_kind == "sqlite":
        event.listen(at.db.engine, "connect", lambda c, _: c.execute("PRAGMA query_only=ON"))
    else:
        # as a standby would: it refuses whatever the transaction asks for
        event.listen(at.db.engine, "begin", lambda c: c.exec_driver_sql("SET TRANSACTION READ ONLY"))
    refused(at.reader.post("/jobs/new", data=FORM), "Only reading is possible")
    assert at.reader.get(f"/jobs/{job}").status_code == 200
    assert at.nobody().get("/readyz").status_code == 200
    assert jobs_kept(at) == ["Small house"]


# A database server that is gone for a while


@pytest.fixture
def server() -> Iterator[Server]:
    """A server of one's own, to be stopped and started again."""
    made = Server()
    yield made
    made.close()


@contextmanager
def office_on(server: Server) -> Iterator[World]:
    """A world that keeps what it acknowledged though its server is stopped hard."""
    name = server.create()
    server.command(f"ALTER DATABASE {name} SET synchronous_commit = on")
    with world(server.url(name)) as at:
        yield at


@pytest.mark.only("postgres")
def test_a_server_that_was_lost_is_found_again_without_a_restart_and_all_acknowledged_is_there(server: Server) -> None:
    with office_on(server) as at:
        job = at.job()
        assert note(at, job, "before").status_code == 303
        server.stop()
        refused(at.reader.get(f"/jobs/{job}"), "The database can't be reached", "look before you send it again")
        assert note(at, job, "lost").status_code == 503
        assert at.nobody().get("/readyz").status_code == 503
        assert at.nobody().get("/healthz").status_code == 200
        server.start()
        assert at.reader.get(f"/jobs/{job}").status_code == 200
        assert note(at, job, "after").status_code == 303
        with reading(at.db) as session:
            words = list(session.scalars(select(LogEntry.words).where(LogEntry.what == "note").order_by(LogEntry.id)))
        assert words == ["before", "after"]
        chain_holds(at)


@pytest.mark.only("postgres")
def test_a_connection_that_rested_is_asked_before_it_is_used(server: Server, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without asking, whoever comes first after a restart of the server in the night would be told that it is gone."""
    with office_on(server) as at:
        job = at.job()
        for rested_s, first in ((0.0, 200), (60.0, 503)):
            monkeypatch.setattr(store, "RESTED_S", rested_s)
            assert at.reader.get(f"/jobs/{job}").status_code == 200
            server.stop()
            server.start()
            assert at.reader.get(f"/jobs/{job}").status_code == first
            assert at.reader.get(f"/jobs/{job}").status_code == 200


@pytest.mark.parametrize(
    ("state", "found"),
    [
        ("53100", "full"),
        ("53300", "busy"),
        ("40001", "busy"),
        ("40P01", "busy"),
        ("55P03", "busy"),
        ("25006", "read only"),
        ("57P01", "away"),
        ("08006", "away"),
        ("XX001", "damaged"),
        ("23505", None),
        ("42P01", None),
    ],
)
def test_what_postgresql_says_is_understood(state: str, found: str | None) -> None:
    """SQLSTATE: PostgreSQL documentation, appendix A."""
    cause = psycopg.errors.lookup(state)("said by the server")
    assert outage(DBAPIError.instance("SELECT 1", {}, cause, psycopg.Error)) == found


# A program that is killed while it writes: tests/webapp/test_review_load.py


# An upload that stops half way


@pytest.fixture
def served(at: World, database: str) -> Iterator[int]:
    """The port of a server on the same database as the world."""
    app = create_app(Settings(database_url=database, demo=True))
    server = uvicorn.Server(uvicorn.Config(app, host="127.0.0.1", port=0, log_level="critical"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    until = time.monotonic() + 30
    while not server.started:
        assert time.monotonic() < until
        time.sleep(0.01)
    yield server.servers[0].sockets[0].getsockname()[1]
    server.should_exit = True
    thread.join(30)


def test_an_upload_that_stops_half_way_leaves_nothing(at: World, job: int, served: int, tmp_path: Path) -> None:
    token = at.reader.cookies.get(SESSION)
    part = (
        b'--cut\r\nContent-Disposition: form-data; name="what"\r\n\r\nnote\r\n'
        b'--cut\r\nContent-Disposition: form-data; name="words"\r\n\r\nhalf of it\r\n'
        b'--cut\r\nContent-Disposition: form-data; name="files"; filename="permit.pdf"\r\n\r\n%PDF-1.7 '
    )
    head = (
        f"POST /jobs/{job}/log HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: {SESSION}={token}\r\n"
        f"Content-Type: multipart/form-data; boundary=cut\r\nContent-Length: 2000000\r\n\r\n"
    )
    files = set(tmp_path.rglob("*"))
    for sent in (part, part + b"x" * 1_500_000):  # the second is more than is held in memory
        with socket.create_connection(("127.0.0.1", served), 10) as connection:
            connection.sendall(head.encode() + sent)
    with socket.create_connection(("127.0.0.1", served), 10) as connection:
        connection.sendall(b"GET /healthz HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n")
        assert b"200 OK" in connection.recv(1000)
    with reading(at.db) as session:
        assert session.scalar(select(func.count()).select_from(LogEntry).where(LogEntry.what == "note")) == 0
    assert {f for f in set(tmp_path.rglob("*")) - files if "sqlite" not in f.name} == set()
    assert note(at, job, "whole").status_code == 303
    chain_holds(at)


# A clock that jumps


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> Callable[[timedelta], None]:
    """Turns the server's clock, for everything that asks what time it is."""
    ahead = timedelta(0)

    class Turned(datetime):
        @classmethod
        def now(cls, tz: tzinfo | None = None) -> datetime:
            return datetime.now(tz) + ahead

    monkeypatch.setattr(models_base, "datetime", Turned)

    def turn(by: timedelta) -> None:
        nonlocal ahead
        ahead = by

    return turn


def test_a_clock_that_goes_back_does_not_change_the_order_of_the_log(
    at: World, job: int, clock: Callable[[timedelta], None]
) -> None:
    for words, by in (("first", timedelta(0)), ("second", timedelta(days=365)), ("third", timedelta(hours=-1))):
        clock(by)
        at.reader = at.as_("administrator")
        assert note(at, job, words).status_code == 303
    page = at.as_("administrator").page(f"/jobs/{job}/log").text
    assert page.index("third") < page.index("second") < page.index("first"), "the newest row is the last written"
    chain_holds(at)


@pytest.mark.parametrize("by", [timedelta(days=365), timedelta(days=1)], ids=["a year", "a day"])
def test_a_session_begun_while_the_clock_ran_ahead_does_not_go_on_for_ever(
    at: World, clock: Callable[[timedelta], None], by: timedelta
) -> None:
    clock(by)
    reader = at.as_("designer")
    assert reader.get("/account").status_code == 200
    clock(timedelta(0))
    assert reader.get("/account").headers["location"].startswith("/sign-in")


def test_a_session_ends_when_the_clock_jumps_ahead_and_stays_ended(
    at: World, clock: Callable[[timedelta], None]
) -> None:
    reader = at.as_("designer")
    clock(timedelta(days=365))
    assert reader.get("/account").headers["location"].startswith("/sign-in")
    clock(timedelta(minutes=-30))
    assert reader.get("/account").status_code == 200, "a clock half an hour off is nobody's fault"


def test_nobody_is_locked_out_by_tries_that_were_counted_while_the_clock_ran_ahead(
    at: World, clock: Callable[[timedelta], None]
) -> None:
    joined(at)
    clock(timedelta(days=365))
    for _ in range(8):
        entered(at, password="wrong words every time")
    assert entered(at)[1] == 401, "after too many tries it has to wait"
    clock(timedelta(0))
    assert entered(at)[1] == 303


def test_a_code_used_while_the_clock_ran_ahead_does_not_bar_the_codes_of_today(
    at: World, clock: Callable[[timedelta], None]
) -> None:
    reader = joined(at)
    secret = second.new_secret()
    otp = pyotp.TOTP(secret)
    assert reader.post("/account/second", data={"secret": secret, "code": otp.now()}).status_code == 303
    later = models_base.now() + timedelta(days=365)
    clock(timedelta(days=365))
    assert entered(at, code=otp.at(later + timedelta(seconds=second.STEP_S)))[1] == 303
    clock(timedelta(0))
    good = otp.at(models_base.now() + timedelta(seconds=second.STEP_S))
    assert entered(at, code=good)[1] == 303
    assert entered(at, code=good)[1] == 401, "and still works once"


# Job files that were damaged, and old ones


def test_a_damaged_job_file_is_refused_and_says_where(at: World, job: int) -> None:
    whole = at.reader.get(f"/jobs/{job}/job.json").text
    chance = random.Random(5)
    damaged = [
        whole[: len(whole) // 2],
        whole[:-3],
        "",
        "\x00" * 50,
        "[]",
        "null",
        '{"wallseat": 1}',
        "PK\x03\x04 not a job",
    ]
    damaged += [whole[:at_] + "\ufffd" + whole[at_ + 1 :] for at_ in (chance.randrange(len(whole)) for _ in range(20))]
    kept = jobs_kept(at)
    for text_ in damaged:
        answer = at.reader.post("/jobs/open", data={"text": text_})
        if answer.status_code == 303:  # a letter of a name was changed: a job all the same
            kept = jobs_kept(at)
            continue
        assert answer.status_code in (400, 422), text_[:80]
        assert jobs_kept(at) == kept
