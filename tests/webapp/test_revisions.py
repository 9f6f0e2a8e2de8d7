"""Revisions: frozen as submitted, told apart place by place, opened by a link, superseded by the next."""

import json
import re
from datetime import timedelta
from hashlib import sha256

import pytest
from sqlalchemy import select, text, update
from sqlalchemy.exc import IntegrityError

from tests.world import Reader, World
from webapp.models import LinkUse, LogEntry, ReviewLink, Revision
from webapp.models.base import now
from webapp.services import log, revisions
from webapp.services.sign_in import Seen
from webapp.store import reading, writing
from webapp.submission import document
from webapp.submission.difference import differences

SEEN = Seen(0, 0, "Iris Moor", "inspector", 1, "Demo office")


def submitted(at: World, job: int, note: str = "") -> Revision:
    """Submit a job as a designer. Returns: the revision."""
    answer = at.as_("designer").post(f"/jobs/{job}/revisions", data={"note": note})
    assert answer.status_code == 303, answer.text
    with reading(at.db) as session:
        found = revisions.latest(session, job)
        assert found
        return revisions.find(session, job, found.number)


def linked(at: World, job: int, number: int = 1) -> str:
    """A review link's path."""
    form = {"name": "Pat Lane", "authority": "County", "days": "14"}
    answer = at.reader.post(f"/jobs/{job}/revisions/{number}/links", data=form)
    found = re.search(r"/r/[\w-]{43}", answer.text)
    assert found, answer.text
    return found[0]


def lengthened(at: World, job: int, inputs: dict[str, str]) -> None:
    """Change the first attachment."""
    text = at.reader.get(f"/jobs/{job}/attachments/A1").text
    found = re.search(r'name="version" value="(\d+)"', text)
    assert found
    form = dict(re.findall(r'<input[^>]* name="([\w-]+)" value="([^"]*)"', text)) | inputs
    answer = at.reader.post(f"/jobs/{job}/attachments/A1", data=form | {"do": "save", "version": found[1]})
    assert answer.status_code == 303, answer.text


def unguarded(at: World) -> None:
    """Take the log's triggers away, as whoever owns the database could."""
    triggers = {
        "sqlite": ("log_entry_no_update", "log_entry_no_delete"),
        "postgresql": ("log_entry_only_added ON log_entry",),
    }
    with writing(at.db) as session:
        for trigger in triggers[at.db.engine.dialect.name]:
            session.execute(text(f"DROP TRIGGER {trigger}"))


def test_a_submitted_job_is_frozen_with_inputs_results_geometry_and_drawings(at: World, job: int) -> None:
    row = submitted(at, job, "For the permit")
    assert (row.letter, row.state, row.note) == ("A", "submitted", "For the permit")
    assert row.fingerprint == sha256(row.document.encode()).hexdigest()
    frozen = json.loads(row.document)
    assert document.canonical(frozen) == row.document
    one = frozen["attachments"][0]
    assert one["result"]["lines"][0]["working"]
    assert one["geometry"]
    assert one["drawing"].startswith("<svg")
    assert frozen["job"]["walls"]
    ledge = next(m for m in one["measures"] if m["key"] == "lower_core_in")
    assert ledge["low_in"] <= ledge["drawn_in"] == 3.5
    assert {"engine", "edition", "judged_on", "local_code"} <= frozen.keys()
    page = at.as_("inspector").get(f"/jobs/{job}/revisions/1")
    assert document.short(row.fingerprint) in page.text
    body = at.reader.get(f"/jobs/{job}/revisions/1/revision.json")
    assert sha256(body.content).hexdigest() == row.fingerprint


def test_the_same_job_gives_the_same_fingerprint(at: World) -> None:
    first, second = (submitted(at, at.job()).fingerprint for _ in range(2))
    assert first == second


@pytest.mark.parametrize("change", ["document = 'x'", "fingerprint = 'x'", "by_name = 'x'", "made_at = '2020-01-01'"])
def test_a_frozen_revision_cannot_be_edited_by_any_route(at: World, job: int, change: str) -> None:
    submitted(at, job)
    with pytest.raises(IntegrityError, match="a revision is frozen"), writing(at.db) as session:
        session.execute(text(f"UPDATE revision SET {change}"))
    with pytest.raises(IntegrityError, match="a revision is frozen"), writing(at.db) as session:
        session.execute(text("DELETE FROM revision"))


def test_submitting_again_without_a_change_is_refused(at: World, job: int) -> None:
    submitted(at, job)
    answer = at.reader.post(f"/jobs/{job}/revisions", data={"note": ""})
    assert answer.status_code == 422
    assert "Nothing has changed since revision A was submitted." in answer.text


def test_the_next_revision_supersedes_and_says_what_changed(at: World, job: int) -> None:
    first = submitted(at, job)
    lengthened(at, job, {"lap_in": "30"})
    second = submitted(at, job)
    with reading(at.db) as session:
        assert [r.state for r in revisions.of_job(session, job)] == ["submitted", "superseded"]
    page = at.reader.get(f"/jobs/{job}/revisions/2").text
    assert "Changed since revision A" in page
    assert "<td>48</td><td>30</td>" in page
    for row, state in ((first, "superseded"), (second, "current")):
        seen = at.nobody().get(f"/print/{row.fingerprint[:12]}")
        assert f"This print is {state}" in seen.text
        assert "Small house" not in seen.text
    assert at.nobody().get("/print/0123456789ab").status_code == 404
    assert "not known here" in at.nobody().get("/print/<script>").text


def test_stations_moved_and_designs_show_in_the_difference() -> None:
    row = {
        "tag": "A1",
        "kind": "ledge_seat",
        "name": "Joists on a ledge",
        "wall": "W1",
        "level": 1,
        "start": "0 ft",
        "end": "9 ft",
    }
    row |= {"inputs": {}, "result": {"verdict": "pass", "ratio": 0.5}}
    before = {"attachments": [row], "job": {"walls": [], "attachments": [{"tag": "A1", "moved": {}}]}, "designs": []}
    moved = [{"tag": "A1", "moved": {"anchor": ["2-0", "6-0"]}}]
    after = before | {
        "job": {"walls": [], "attachments": moved},
        "designs": [{"who": "R. Sand", "covers": {"A1": "x"}}],
    }
    assert differences(before, before) == ()
    place, head = differences(before, after)
    assert (place.tag, place.changes[0].label, place.changes[0].after) == ("A1", "Moved by hand: anchor", "2-0, 6-0")
    assert "R. Sand" in {change.after for change in head.changes}


def test_an_accepted_revision_stays_the_one_to_build_from_until_the_next_is_accepted(at: World, job: int) -> None:
    first = submitted(at, job)

    def decide(number: int, accept: bool) -> None:
        with writing(at.db) as session:
            row = revisions.find(session, job, number)
            revisions.decide(session, SEEN, row, accept, log.Said("accepted" if accept else "returned", words="so"))

    decide(1, True)
    lengthened(at, job, {"lap_in": "30"})
    second = submitted(at, job)
    with reading(at.db) as session:
        assert revisions.currency(session, first.fingerprint).state == "current"
    decide(2, True)
    with reading(at.db) as session:
        assert revisions.currency(session, first.fingerprint).state == "superseded"
        assert revisions.currency(session, second.fingerprint).state == "current"
        assert [e.what for e in log.of_job(session, job)] == ["accepted", "submitted", "accepted", "submitted"]


def test_nothing_more_is_decided_about_what_is_decided(at: World, job: int) -> None:
    from webapp.services.refusals import Refused

    submitted(at, job)
    with writing(at.db) as session:
        row = revisions.find(session, job, 1)
        with pytest.raises(Refused, match="Say what is to be put right"):
            revisions.decide(session, SEEN, row, False, log.Said("returned"))
        revisions.decide(session, SEEN, row, False, log.Said("returned", words="A1 is short."))
        with pytest.raises(Refused, match="Revision A is returned"):
            revisions.decide(session, SEEN, row, True, log.Said("accepted"))


def test_looking_at_a_link_uses_nothing_up_and_its_button_opens_it_once(at: World, job: int) -> None:
    submitted(at, job)
    path, outside = linked(at, job), at.nobody()
    for _ in range(3):
        assert "Open the review" in at.nobody().get(path).text
    answer = outside.post(path)
    assert answer.headers["location"] == f"/jobs/{job}/review/1"
    again = at.nobody().post(path)
    assert again.status_code == 410
    assert "opened already" in again.text
    with reading(at.db) as session:
        assert [u.what for u in session.scalars(select(LinkUse).order_by(LinkUse.id))] == ["opened", "refused"]
        assert revisions.find(session, job, 1).state == "under review"
    _sees_only_its_revision(outside, at, job)


def _sees_only_its_revision(outside: Reader, at: World, job: int) -> None:
    other = at.job(name="Another house")
    for path in (
        "/jobs",
        f"/jobs/{job}",
        f"/jobs/{job}/revisions",
        f"/jobs/{other}",
        "/people",
        "/office",
        f"/api/jobs/{job}",
    ):
        answer = outside.get(path)
        assert answer.status_code == 404, path
        assert "house" not in answer.text


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"expires_at": now() - timedelta(days=1)}, "This link ended on"),
        ({"revoked_at": now()}, "This link was taken back"),
        ({"used_at": now()}, "opened already"),
    ],
)
def test_a_link_that_ended_opens_nothing_and_says_whom_to_ask(
    at: World, job: int, values: dict[str, object], said: str
) -> None:
    submitted(at, job)
    path = linked(at, job)
    with writing(at.db) as session:
        session.execute(update(ReviewLink).values(values))
    for answer in (at.nobody().get(path), at.nobody().post(path)):
        assert answer.status_code == 410
        assert said in answer.text
        assert "Ask Ada Stone for a new one." in answer.text


def test_a_forged_link_is_nothing(at: World, job: int) -> None:
    submitted(at, job)
    assert at.nobody().get("/r/" + "x" * 43).status_code == 404
    assert at.nobody().post("/r/" + "x" * 43).status_code == 404


def test_taking_a_link_back_ends_what_it_opened(at: World, job: int) -> None:
    submitted(at, job)
    path, outside = linked(at, job), at.nobody()
    outside.post(path)
    answer = at.reader.post(f"/jobs/{job}/revisions/1/links/1/revoke")
    assert answer.status_code == 303
    assert outside.get(f"/jobs/{job}/revisions/1").headers["location"].startswith("/sign-in")


def test_hostile_names_are_text_in_a_revision(at: World) -> None:
    name = '<b onload="x">\u202eesuoh</b> 🏠 ' + "y" * 60
    job = at.job(name=name)
    submitted(at, job, "<script>alert(1)</script>")
    page = at.reader.get(f"/jobs/{job}/revisions/1").text
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page


class TestTheLog:
    def entries(self, at: World, job: int, count: int) -> None:
        with writing(at.db) as session:
            row = session.get_one(Revision, 1)
            from webapp.models import Job

            for number in range(count):
                log.append(session, SEEN, log.Said("note", words=f"note {number}"), session.get_one(Job, job), row)

    def test_every_row_follows_the_one_before(self, at: World, job: int) -> None:
        submitted(at, job)
        self.entries(at, job, 5)
        with reading(at.db) as session:
            assert log.verify(session, 1) == log.Verified(6, log.head(session, 1)[1], ())
            assert log.verify(session, 1, anchor=log.head(session, 1)[1], rows=6).problems == ()

    def test_rows_cannot_be_changed_or_deleted(self, at: World, job: int) -> None:
        submitted(at, job)
        for statement in ("UPDATE log_entry SET words = 'x'", "DELETE FROM log_entry"):
            with pytest.raises(IntegrityError, match="only added to"), writing(at.db) as session:
                session.execute(text(statement))

    def test_an_altered_row_a_missing_tail_and_a_wrong_anchor_are_told_apart(self, at: World, job: int) -> None:
        submitted(at, job)
        self.entries(at, job, 5)
        with reading(at.db) as session:
            rows, head = log.head(session, 1)
        unguarded(at)
        with reading(at.db) as session:
            assert "no row of this log" in log.verify(session, 1, anchor="ab" * 32, rows=rows).problems[0]
        with writing(at.db) as session:
            session.execute(text("UPDATE log_entry SET words = 'other' WHERE seq = 3"))
        with reading(at.db) as session:
            assert log.verify(session, 1, head, rows).problems == ("Row 3 was altered after it was written.",)
        with writing(at.db) as session:
            session.execute(text("UPDATE log_entry SET words = 'note 1' WHERE seq = 3"))
            session.execute(text("DELETE FROM log_entry WHERE seq > 4"))
        with reading(at.db) as session:
            assert log.verify(session, 1, head, rows).problems == (
                "The end is missing: there were 6 rows, there are 4.",
            )
        with writing(at.db) as session:
            session.execute(text("DELETE FROM log_entry WHERE seq = 2"))
        with reading(at.db) as session:
            assert "Row 2 is missing" in log.verify(session, 1).problems[0]

    def test_offices_have_chains_of_their_own(self, at: World, job: int) -> None:
        submitted(at, job)
        stranger = at.stranger()
        stranger.post("/jobs/open", data={"text": at.reader.get(f"/jobs/{job}/job.json").text})
        answer = stranger.get("/jobs")
        other = re.search(r'href="/jobs/(\d+)"', answer.text)
        assert other
        assert stranger.post(f"/jobs/{other[1]}/revisions", data={"note": ""}).status_code == 303
        with reading(at.db) as session:
            found = session.scalars(select(LogEntry).order_by(LogEntry.id)).all()
            assert [(e.office_id != 1, e.seq) for e in found] == [(False, 1), (True, 1)]
