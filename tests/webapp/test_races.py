"""Jobs, reviews and the log on PostgreSQL, when two people write in the same moment, from one machine or from two."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from sqlalchemy import func, select

from tests.webapp.races import calls, held, in_order, kinds, queued, signed_in
from tests.webapp.test_ready import accepted, blocking, job_of, released, ticked
from tests.webapp.test_revisions import linked, submitted
from tests.world import World
from webapp.models import Attachment, Job, LogEntry, LogFile, Wall
from webapp.models.base import now
from webapp.services import (
    approvals,
    attachments,
    checklists,
    checks,
    demo,
    log,
    offices,
    placing,
    ready,
    revisions,
)
from webapp.services.approvals import Upload
from webapp.services.attachments import Typed
from webapp.services.refusals import Refused
from webapp.services.review_items import Sent, take
from webapp.services.standing import attachment_hash, stamp, stand, touch
from webapp.store import open_database, reading, writing

pytestmark = pytest.mark.only("postgres")
FAR = "SELECT id FROM {table} FOR NO KEY UPDATE"


@pytest.fixture(autouse=True)
def ordered(at: World) -> Iterator[None]:
    """Whatever these tests call holds rows in one order."""
    with in_order(at.db):
        yield


def noted(at: World, job: int, words: str = "A note", *files: Upload) -> Callable[[], int]:
    """A row logged by hand."""
    seen = signed_in(at, "office")
    return lambda: approvals.record(at.db, seen, job, {"what": "note", "words": words}, files)


def submit(at: World, job: int) -> Callable[[], int]:
    """The next revision of a job as it is, with another document."""
    with reading(at.db) as session:
        changes = session.get_one(Job, job).changes
    return lambda: revisions.submit(at.db, signed_in(at, "designer"), job, changes, "{}", "f" * 64, "US 2021", "")


def whole_chain(at: World) -> int:
    """How many rows the log has, after walking them all."""
    with reading(at.db) as session:
        found = log.verify(session, 1)
    assert found.problems == ()
    return found.rows


def typed(lap: str = "36 in", wall_id: int = 1) -> Typed:
    return Typed("ledge_seat", wall_id, "1", "1 ft", "11 ft", {"lap_in": lap})


# The order in which rows are held: these waited for each other


def test_a_row_logged_while_a_job_is_submitted_neither_waits_for_the_other_for_ever(at: World, job: int) -> None:
    with calls(at) as made:
        with held(at.db, FAR.format(table="office")):
            made.start(noted(at, job))
            made.start(submit(at, job))
        assert kinds(made.outcomes()) == ["", ""]
    assert whole_chain(at) == 2


def test_a_job_submitted_while_its_revision_is_decided_about_neither_waits_for_ever(at: World, job: int) -> None:
    submitted(at, job)
    inspector, sent = signed_in(at, "inspector"), Sent("whole-decision-1", "decision", item="accept", base=1)
    with calls(at) as made:
        with held(at.db, FAR.format(table="office")):
            made.start(lambda: take(at.db, inspector, job, 1, sent))
            made.start(submit(at, job))
        assert kinds(made.outcomes()) == ["", ""]
    assert whole_chain(at) == 3
    with reading(at.db) as session:
        assert [row.state for row in revisions.of_job(session, job)] == ["submitted", "accepted"]


def test_two_review_links_opened_at_once_neither_wait_for_ever(at: World, job: int) -> None:
    submitted(at, job)
    tokens = [linked(at, job).removeprefix("/r/") for _ in range(2)]
    with calls(at) as made:
        with held(at.db, "SELECT id FROM office FOR KEY SHARE"):
            for token in tokens:
                made.start(lambda token=token: revisions.open_link(at.db, token, "", ""))  # type: ignore[misc]
        assert kinds(made.outcomes()) == ["", ""]
    assert whole_chain(at) == 3


def test_a_review_link_opened_twice_at_once_opens_once(at: World, job: int) -> None:
    submitted(at, job)
    token = linked(at, job).removeprefix("/r/")
    outcomes = queued(at, "link_use", *[lambda: revisions.open_link(at.db, token, "", "")] * 3)
    assert kinds(outcomes) == ["", "Refused", "Refused"]


# What was read is still so when it is written


def test_a_summary_of_what_changed_while_it_was_checked_is_not_kept(at: World, job: int) -> None:
    with writing(at.db) as session:
        checks.forget(session, Attachment.job_id == job)
    with calls(at) as made:
        with writing(at.db) as session:
            row = attachments.find(session, job, "A1")
            stamp(row, touch(session, job))
            row.inputs, row.checked_engine = {"lap_in": "30 in"}, ""
            session.flush()
            made.start(lambda: checks.refresh(at.db, job))
        assert made.outcomes() == [2]
    with reading(at.db) as session:
        standing, row = stand(session, job), attachments.find(session, job, "A1")
        assert row.hash == attachment_hash(standing.entry(row), standing.check(row).inputs)


def test_the_same_form_sent_twice_at_once_changes_once(at: World, job: int) -> None:
    inspector, rows = signed_in(at, "inspector"), [{"words": "Look at it", "measure": "", "stop": ""}]
    with reading(at.db) as session:
        version = attachments.find(session, job, "A1").version
    changes: dict[str, list[Callable[[], Any]]] = {
        "attachment": [lambda lap=lap: attachments.save(at.db, job, typed(lap), "A1", version) for lap in ("30 in", "33 in")],
        "office": [lambda name=name: offices.save(at.db, 1, {"name": name}) for name in ("North", "South")],
        "checklist": [lambda: checklists.save(at.db, inspector, "wall", "before placing", rows, 0)] * 2,
    }  # type: ignore[misc]  # fmt: skip
    for table, asked in changes.items():
        assert kinds(queued(at, table, *asked)) == ["", "Stale"], table


def test_attachments_made_at_once_get_tags_of_their_own(at: World, job: int) -> None:
    made = queued(at, "attachment", *[lambda: attachments.save(at.db, job, typed())] * 5)
    assert sorted(made) == ["A3", "A4", "A5", "A6", "A7"]


def test_nothing_is_put_on_a_wall_that_is_deleted_this_moment(at: World, job: int) -> None:
    with calls(at) as made:
        with writing(at.db) as session:
            wall = session.scalars(select(Wall).where(Wall.name == "W3")).one()
            wall.deleted_at = now()
            stamp(wall, touch(session, job))
            session.flush()
            made.start(lambda: attachments.save(at.db, job, typed(wall_id=wall.id)))
        (outcome,) = made.outcomes()
    assert isinstance(outcome, Refused)
    assert "wall" in outcome.errors


def test_a_hold_point_taken_back_waits_for_the_go_ahead_it_comes_too_late_for(at: World) -> None:
    job, inspector = job_of(at), signed_in(at, "inspector")
    accepted(at, job)
    ticked(at, job)
    released(at, job)
    assert blocking(at, job) == []
    found = ready.of_wall(at.db, job, 1, 1)
    with calls(at) as made:
        with held(at.db, "LOCK TABLE log_entry IN SHARE MODE"):
            made.start(lambda: ready.go_ahead(at.db, inspector, job, 1, 1, "Go", ""))
            back = made.start(lambda: ready.release(at.db, inspector, found, ready.WEATHER, "Rain", True))
            assert not back.done(), "the go-ahead rests on what would be taken back before it is logged"
        assert kinds(made.outcomes()) == ["", ""]


def test_what_changes_while_a_storey_is_looked_at_stops_its_go_ahead(
    at: World, monkeypatch: pytest.MonkeyPatch
) -> None:
    job, inspector = job_of(at), signed_in(at, "inspector")
    accepted(at, job)
    ticked(at, job)
    released(at, job)
    read = placing.site

    def changed_after(*args: Any) -> Any:
        found = read(*args)
        with writing(at.db) as session:
            touch(session, job).placing = {"pump_yd3_per_h": "90"}
        return found

    monkeypatch.setattr(placing, "site", changed_after)
    with pytest.raises(Refused, match="changed this moment"):
        ready.go_ahead(at.db, inspector, job, 1, 1, "Go", "")


def test_two_servers_that_start_at_once_load_the_demo_once(at: World) -> None:
    outcomes = queued(at, "job, office", *[lambda: demo.load_if_empty(at.db)] * 2)
    assert sorted(map(str, outcomes)) == ["1", "None"]


# The log


def test_the_same_file_added_to_two_jobs_at_once_is_kept_once(at: World, job: int) -> None:
    file = Upload("permit.pdf", "application/pdf", b"%PDF-1.7 a permit")
    other = at.job(name="Another house")
    assert sorted(queued(at, "log_file", noted(at, job, "One", file), noted(at, other, "Two", file))) == [1, 2]
    with reading(at.db) as session:
        assert session.scalar(select(func.count(LogFile.id))) == 1


def test_rows_added_by_two_machines_at_once_make_one_chain(at: World, job: int) -> None:
    far = open_database(at.db.engine.url.render_as_string(hide_password=False))
    seen, other = signed_in(at, "office"), at.job(name="Another house")

    def note(n: int) -> Callable[[], int]:
        db, where = (at.db, far)[n % 2], (job, other)[n // 2 % 2]
        return lambda: approvals.record(db, seen, where, {"what": "note", "words": f"Note {n}"})

    with calls(at) as made:
        with held(at.db, FAR.format(table="office")):
            for n in range(8):
                made.start(note(n))  # as many as there are connections, all waiting for the same end of the chain
            rest = [made.threads.submit(note(n)) for n in range(8, 50)]
        numbers = [*made.outcomes(), *(future.result() for future in rest)]
    assert sorted(numbers) == list(range(1, 51))
    assert whole_chain(at) == 50
    with reading(at.db) as session:
        said = session.scalars(select(LogEntry.words)).all()
    assert sorted(said) == sorted(f"Note {n}" for n in range(50))
    far.close()
