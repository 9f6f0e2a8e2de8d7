"""Summaries of attachments: kept until something they rest on changes, then checked once."""

from concurrent.futures import ThreadPoolExecutor
from typing import Any

import pytest
from sqlalchemy import update

import webapp.services.checks
from engine import attachments as kinds
from tests.webapp.test_attachments import fields
from tests.webapp.test_wall_types import type_ids
from tests.webapp.test_walls import wall_ids
from tests.world import World, house, refresh
from webapp.models import Attachment, Job
from webapp.services import attachments, checks
from webapp.services.refusals import Stale
from webapp.store import reading, writing


def many(at: World, count: int) -> int:
    seats = [house()["attachments"][n % 2] | {"tag": f"A{n + 1}"} for n in range(count)]
    return at.job(attachments=seats)


@pytest.fixture
def checked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The kinds checked from now on, one entry a check."""
    seen: list[str] = []
    real = kinds.check

    def noted(key: str, *rest: Any, **more: Any) -> Any:
        seen.append(key)
        return real(key, *rest, **more)

    monkeypatch.setattr(kinds, "check", noted)
    return seen


def test_a_page_of_many_attachments_takes_as_many_queries_as_one_of_few(at: World) -> None:
    sent = []
    for count in (2, 100):
        job = many(at, count)
        at.reader.get(f"/jobs/{job}?size=200")  # the plan is drawn once
        with at.counted() as statements:
            assert at.reader.get(f"/jobs/{job}?size=200").status_code == 200
        sent.append(len(statements))
    assert sent[0] == sent[1] <= 11


def test_a_list_from_kept_summaries_checks_nothing(at: World, checked: list[str]) -> None:
    job = many(at, 20)
    assert len(checked) == 20
    checked.clear()
    at.reader.get(f"/jobs/{job}")
    at.reader.get("/jobs")
    assert checked == []


def test_what_another_engine_checked_is_checked_again_once(at: World, checked: list[str]) -> None:
    job = many(at, 6)
    with writing(at.db) as session:
        session.execute(
            update(Attachment).where(Attachment.number <= 4).values(checked_engine="0.0.9", verdict="refer")
        )
    checked.clear()
    at.reader.get(f"/jobs/{job}")
    assert len(checked) == 4
    at.reader.get(f"/jobs/{job}")
    assert len(checked) == 4
    with reading(at.db) as session:
        assert {row.verdict for row in attachments.everything(session, job)} == {"pass", "flag"}


def test_a_changed_wall_checks_only_what_stands_on_it(at: World, job: int, checked: list[str]) -> None:
    w1 = wall_ids(at, job)["W1"]
    page = at.reader.page(f"/jobs/{job}/walls/{w1}")
    checked.clear()
    data = {
        **{n: t for n, t in page.values.items() if n not in ("do", "back")},
        "near_end": "corner", "far_end": "corner", "storeys-0-type": "Twelve", "storeys-1-type": "Six",
    }  # fmt: skip
    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/{w1}", data=data))
    assert len(checked) == 1


def test_a_changed_type_no_wall_uses_checks_nothing(at: World, job: int, checked: list[str]) -> None:
    twelve = type_ids(at, job)["Twelve"]
    version = at.reader.page(f"/jobs/{job}/types/{twelve}").values["version"]
    checked.clear()
    data = {"units": "ft in", "name": "Twelve", "core_in": "11", "version": version}
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/{twelve}", data=data))
    assert checked == []


def test_a_check_overtaken_by_a_change_is_done_over(at: World, job: int, monkeypatch: pytest.MonkeyPatch) -> None:
    real, overtaken = checks.summary, []

    def slow(*given: Any) -> dict[str, Any]:
        found = real(*given)
        if not overtaken:
            overtaken.append(True)
            with writing(at.db) as session:
                changed = session.get_one(Job, job)
                changed.changes += 1
                session.execute(update(Attachment).where(Attachment.number == 1).values(inputs={"lap_in": "12 in"}))
        return found

    with writing(at.db) as session:
        session.execute(update(Attachment).values(checked_engine=""))
    monkeypatch.setattr(webapp.services.checks, "summary", slow)
    assert refresh(at, job) == 2
    with reading(at.db) as session:
        assert {r.tag: r.verdict for r in attachments.everything(session, job)}["A1"] == "flag"


def test_an_attachment_of_a_kind_this_program_has_not_is_kept_and_said(at: World, job: int) -> None:
    with writing(at.db) as session:
        session.execute(update(Attachment).where(Attachment.number == 1).values(kind="later_kind", checked_engine=""))
    text = at.reader.page(f"/jobs/{job}").text
    assert "No attachment kind" in text
    assert at.reader.get(f"/jobs/{job}/attachments/A1").status_code == 404


def test_two_writers_at_once_lose_nothing(at: World, job: int) -> None:
    typed = attachments.Typed("ledge_seat", wall_ids(at, job)["W1"], "1", "1 ft", "9 ft", {})

    def make(_: int) -> str:
        return attachments.save(at.db, job, typed)

    with ThreadPoolExecutor(4) as pool:
        tags = list(pool.map(make, range(24)))
    assert len(set(tags)) == 24
    with reading(at.db) as session:
        rows = attachments.everything(session, job)
        assert len(rows) == 26
        assert all(row.verdict in ("pass", "flag") for row in rows)
        assert session.get_one(Job, job).changes == 25


def test_of_two_who_change_the_same_thing_at_once_exactly_one_is_told(at: World, job: int) -> None:
    version = int(fields(at, job, "A1")["version"])
    wall = wall_ids(at, job)["W1"]

    def change(span: int) -> bool:
        typed = attachments.Typed("ledge_seat", wall, "1", "1 ft", "9 ft", {"span_ft": f"{span} ft"})
        try:
            attachments.save(at.db, job, typed, "A1", version)
        except Stale:
            return False
        return True

    with ThreadPoolExecutor(4) as pool:
        assert sum(pool.map(change, range(8, 16))) == 1


def test_a_reader_sees_one_state_while_a_writer_writes(at: World, job: int) -> None:
    with reading(at.db) as session:
        before = session.get_one(Job, job).name
        with writing(at.db) as other:
            other.get_one(Job, job).name = "Renamed"
        session.expire_all()
        assert session.get_one(Job, job).name == before
    with reading(at.db) as session:
        assert session.get_one(Job, job).name == "Renamed"


def test_what_raises_inside_a_writing_keeps_nothing(at: World, job: int) -> None:
    def half() -> None:
        with writing(at.db) as session:
            session.get_one(Job, job).name = "Half done"
            session.flush()
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        half()
    with reading(at.db) as session:
        assert session.get_one(Job, job).name == "Small house"


@pytest.mark.only("sqlite")
def test_the_database_is_set_for_safety(at: World) -> None:
    with at.db.engine.connect() as connection:
        found = {
            name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
            for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
        }
    assert found == {"journal_mode": "wal", "synchronous": 2, "foreign_keys": 1, "busy_timeout": 10_000}


@pytest.mark.only("postgres")
def test_readers_of_a_server_see_one_moment_and_writers_what_is_finished(at: World) -> None:
    settings = ("transaction_isolation", "transaction_read_only", "timezone", "lock_timeout")
    for view, expected in (
        (at.db.reader, ["repeatable read", "on", "UTC", "10s"]),
        (at.db.writer, ["read committed", "off", "UTC", "10s"]),
    ):
        with view.connect() as connection:
            assert [connection.exec_driver_sql(f"SHOW {name}").scalar() for name in settings] == expected
