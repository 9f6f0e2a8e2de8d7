"""An old revision checked by the engine of today: what reads otherwise is shown, the revision stays as it was."""

import json

import pytest

from engine import job, job_file
from engine.setting_out import Habits
from tests.webapp.test_revisions import submitted
from tests.world import World, house
from webapp.services import revisions
from webapp.store import reading
from webapp.submission import document
from webapp.submission.again import again


@pytest.fixture
def frozen() -> dict[str, object]:
    found = job_file.read(json.dumps(house()))
    text = document.write(found, job.plan(found, found.edition, "2026-11-25"), Habits())
    return dict(json.loads(text))


def test_the_same_engine_says_the_same(frozen: dict[str, object]) -> None:
    found = again(frozen)
    assert found.same
    assert not found.lines


def test_another_engine_that_says_the_same_is_no_difference(frozen: dict[str, object]) -> None:
    assert again(frozen | {"engine": "0.0.1"}).same


def test_a_line_another_engine_judged_otherwise_is_shown_with_both_sentences(frozen: dict[str, object]) -> None:
    line = frozen["attachments"][0]["result"]["lines"][1]  # type: ignore[index]
    line |= {"verdict": "flag", "ratio": 1.25, "says": "It was short."}
    found = again(frozen)
    assert not found.same
    (other,) = found.lines
    assert (other.tag, other.title) == ("A1", line["title"])
    assert other.before == "flag 1.250: It was short."
    assert other.after.startswith("pass")


def test_a_line_the_engine_has_since_is_shown_as_new(frozen: dict[str, object]) -> None:
    lines = frozen["attachments"][0]["result"]["lines"]  # type: ignore[index]
    title = lines.pop()["title"]
    (other,) = again(frozen).lines
    assert (other.title, other.before) == (title, "")
    assert other.after


def test_a_verdict_that_turned_is_shown_and_nothing_is_kept(
    at: World, job: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    row = submitted(at, job)
    assert "Nothing reads otherwise" in at.reader.page(f"/jobs/{job}/revisions/1/again").text
    old = json.loads(row.document)
    old["engine"] = "0.0.1"
    old["attachments"][0]["result"]["verdict"] = "flag"
    monkeypatch.setattr(revisions, "document", lambda _: old)
    with at.counted() as sent:
        text = at.reader.page(f"/jobs/{job}/revisions/1/again").text
    assert "Reads otherwise now" in text
    assert "flag to pass" in text
    assert not [s for s in sent if s.split()[0] in ("INSERT", "UPDATE", "DELETE")]
    with reading(at.db) as session:
        assert revisions.find(session, job, 1).fingerprint == row.fingerprint


def test_a_frozen_job_this_program_can_no_longer_read_says_why(
    at: World, job: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    row = submitted(at, job)
    old = json.loads(row.document)
    old["job"]["attachments"][0]["kind"] = "of_long_ago"
    monkeypatch.setattr(revisions, "document", lambda _: old)
    assert "It can no longer be read" in at.reader.page(f"/jobs/{job}/revisions/1/again").text
