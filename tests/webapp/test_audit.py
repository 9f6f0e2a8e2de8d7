"""Every sign-in, refusal and change of a credential leaves a row, which administrators of the office read."""

from datetime import timedelta

import pyotp
import pytest
from sqlalchemy import delete, text, update
from sqlalchemy.exc import IntegrityError

from tests.webapp.test_people import WORDS, entered, joined
from tests.world import World
from webapp.credentials import second
from webapp.models import Audit
from webapp.models.base import now
from webapp.services import audit
from webapp.store import reading, writing


def rows(at: World) -> list[tuple[str, str, str]]:
    """What, whose, and in which words; the latest first."""
    with reading(at.db) as session:
        return [(e.row.what, e.name, e.row.words) for e in audit.events(session, 1, most=None)]


def test_signing_in_and_out_is_kept(at: World) -> None:
    joined(at)
    reader, _ = entered(at)
    reader.post("/sign-out")
    assert [row[:2] for row in rows(at)[:4]] == [
        ("out", "Nora Vale"), ("in", "Nora Vale"), ("in", "Nora Vale"), ("password", "Nora Vale"),
    ]  # fmt: skip


def test_a_wrong_password_is_kept_and_what_was_typed_is_not(at: World) -> None:
    joined(at)
    entered(at, password="not this one")
    entered(at, sign_in_as="my-password-in-the-wrong-field")
    assert [row[:2] for row in rows(at)[:2]] == [("failed", ""), ("failed", "Nora Vale")]
    assert "wrong-field" not in at.reader.get("/people/audit").text


def test_where_it_came_from_can_be_told_apart_and_not_read(at: World) -> None:
    joined(at)
    entered(at)
    with reading(at.db) as session:
        marks = {e.row.address for e in audit.events(session, 1) if e.row.what == "in"}
    assert any(len(mark) == 12 for mark in marks)
    assert "testclient" not in marks


def test_what_somebody_may_not_do_is_kept(at: World, job: int) -> None:
    assert at.as_("inspector").post("/jobs/new").status_code == 403
    assert rows(at)[0] == ("refused", "Iris Moor", "POST /jobs/new, as inspector")
    stranger = at.stranger()
    assert stranger.get(f"/jobs/{job}").status_code == 404
    assert rows(at)[0][1] == "Iris Moor", "the other office's own administrator sees it, not this one's"
    assert "GET /jobs/{job_id}" in stranger.get("/people/audit").text


def test_changed_credentials_are_kept(at: World) -> None:
    reader = joined(at)
    reader.post("/account/password", data={"old": "wrong", "new": "another set of words"})
    reader.post("/account/password", data={"old": WORDS, "new": "another set of words"})
    secret = second.new_secret()
    reader.post("/account/second", data={"secret": secret, "code": pyotp.TOTP(secret).now()})
    assert [(what, words) for what, _, words in rows(at)[:3]] == [
        ("second", "asked for from now on"), ("password", "changed"), ("failed", "the old password, to change it"),
    ]  # fmt: skip


def test_only_administrators_read_it_page_by_page_and_as_a_table(at: World) -> None:
    for role in ("designer", "inspector", "office"):
        assert at.as_(role).get("/people/audit").status_code == 403
    with writing(at.db) as session:
        for number in range(audit.PAGE):
            audit.note(session, "in", f"=row {number}", office_id=1)
    first = at.reader.page("/people/audit")
    assert first.text.count("=row") == audit.PAGE
    (earlier,) = [a["href"] for _, a in first.of("a") if "before=" in a.get("href", "")]
    assert "as designer" in at.reader.page(earlier).text
    table = at.reader.get("/people/audit.csv").text
    assert table.count("'=row") == audit.PAGE
    assert "as designer" in table
    assert at.reader.get("/people/audit?before=x%27").status_code == 200


def test_after_its_time_it_is_dropped(at: World) -> None:
    with writing(at.db) as session:
        session.add(Audit(what="in", words="long ago", at=now() - audit.KEPT - timedelta(seconds=1)))
        session.add(Audit(what="in", words="not so long ago", at=now() - audit.KEPT + timedelta(hours=1)))
    audit.forget(at.db)
    kept = [row[2] for row in rows(at)]
    assert "not so long ago" in kept
    assert "long ago" not in kept


def test_what_is_kept_is_neither_changed_nor_dropped_early(at: World, monkeypatch: pytest.MonkeyPatch) -> None:
    before = rows(at)
    for statement in (update(Audit).values(words="nothing"), delete(Audit)):
        with pytest.raises(IntegrityError, match="only added to"), writing(at.db) as session:
            session.execute(statement)
    monkeypatch.setattr(audit, "KEPT", timedelta(days=-1))
    audit.forget(at.db)
    assert rows(at) == before != []


@pytest.mark.only("postgres")
def test_all_of_it_at_once_is_not_dropped_either(at: World) -> None:
    with pytest.raises(IntegrityError, match="only added to"), writing(at.db) as session:
        session.execute(text("TRUNCATE audit"))
