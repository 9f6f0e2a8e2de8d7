"""What watches over the servers is told whether a process answers and may be sent visitors."""

import threading
import time

import pytest
from sqlalchemy import text

from tests.world import World
from webapp.pages import health


def test_a_process_that_answers_says_so_without_asking_who_comes(at: World) -> None:
    answer = at.nobody().get("/healthz")
    assert (answer.status_code, answer.text) == (200, "ok\n")
    assert "set-cookie" not in answer.headers


def test_a_program_with_its_tables_is_ready(at: World) -> None:
    answer = at.nobody().get("/readyz")
    assert (answer.status_code, answer.text) == (200, "ready\n")


def test_a_program_newer_or_older_than_its_tables_is_not_ready(at: World) -> None:
    with at.db.writer.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '0001'"))
    answer = at.nobody().get("/readyz")
    assert (answer.status_code, answer.text) == (503, "not ready\n")
    assert answer.headers["retry-after"] == "5"
    assert at.nobody().get("/healthz").status_code == 200


def test_a_database_that_hangs_is_given_a_second(at: World, monkeypatch: pytest.MonkeyPatch) -> None:
    hanging = threading.Event()
    monkeypatch.setattr(health.outages, "ready", lambda db: hanging.wait(30))
    began = time.monotonic()
    try:
        assert at.nobody().get("/readyz").status_code == 503
        assert time.monotonic() - began < 20  # it would be 30 otherwise
    finally:
        hanging.set()


def test_only_failures_of_them_are_written_into_the_log(at: World, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level("INFO", "wallseat.request")
    at.nobody().get("/healthz")
    at.nobody().get("/readyz")
    assert not caplog.records
    with at.db.writer.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '0001'"))
    at.nobody().get("/readyz")
    assert [record.said["route"] for record in caplog.records] == ["/readyz"]  # type: ignore[attr-defined]
