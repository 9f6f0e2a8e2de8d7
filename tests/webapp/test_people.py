"""People: the first one, the others, signing in and out, and what each role may do."""

import re
from datetime import timedelta
from pathlib import Path

import pyotp
import pytest
from sqlalchemy import update

from tests.world import Reader, World, world
from webapp.commands.serve import prepare
from webapp.credentials import passwords, second
from webapp.main import create_app
from webapp.models import Signed
from webapp.models.base import now
from webapp.pages.view import SESSION, SESSION_HTTPS
from webapp.services import people, sign_in
from webapp.services.refusals import Missing
from webapp.settings import Settings
from webapp.store import writing

WORDS = "four plain words together"


def added(at: World, sign_in_as: str = "nora", role: str = "designer") -> str:
    """Add somebody. Returns: the code handed over."""
    answer = at.reader.post("/people", data={"name": "Nora Vale", "sign_in": sign_in_as, "role": role})
    found = re.search(r"(?:[A-Z2-9]{6}-){3}[A-Z2-9]{6}", answer.text)
    assert found, answer.text
    return found[0]


def joined(at: World, sign_in_as: str = "nora", role: str = "designer") -> Reader:
    """Somebody with a password, signed in."""
    fresh = at.nobody()
    answer = fresh.post("/join", data={"sign_in": sign_in_as, "code": added(at, sign_in_as, role), "password": WORDS})
    assert answer.status_code == 303
    return fresh


def entered(at: World, sign_in_as: str = "nora", password: str = WORDS, code: str = "") -> tuple[Reader, int]:
    fresh = at.nobody()
    answer = fresh.post("/sign-in", data={"sign_in": sign_in_as, "password": password, "code": code, "next": "/jobs"})
    return fresh, answer.status_code


def test_the_first_administrator_is_made_by_the_code_the_server_printed(tmp_path: Path) -> None:
    settings = Settings(database_url=f"sqlite:///{tmp_path / 'new.sqlite'}")
    old, code = prepare(settings), prepare(settings)
    with Reader(create_app(settings)) as reader:
        assert reader.get("/").headers["location"] == "/setup"
        form = {"office": "North office", "name": "Ann Hill", "sign_in": "ann", "password": WORDS}
        assert "Enter the code the server printed" in reader.post("/setup", data=form | {"code": old}).text
        answer = reader.post("/setup", data=form | {"code": code.lower().replace("-", " ")})
        assert answer.headers["location"] == "/jobs"
        assert "Ann Hill" in reader.follow(answer).text
        assert "North office" in reader.get("/account").text
        assert reader.get("/people").status_code == 200
        assert reader.get("/setup").headers["location"] == "/sign-in"
        again = reader.post("/setup", data=form | {"code": code, "sign_in": "eve"})
        assert again.status_code == 422
    assert prepare(settings) == ""


def test_somebody_new_chooses_a_password_once_and_signs_in(at: World) -> None:
    code = added(at)
    fresh = at.nobody()
    form = {"sign_in": "Nora", "code": code, "password": WORDS}
    assert fresh.post("/join", data=form | {"password": "short"}).status_code == 422
    assert fresh.post("/join", data=form | {"code": "A" * 24}).status_code == 422
    assert fresh.post("/join", data=form).headers["location"] == "/jobs"
    assert fresh.get("/account").status_code == 200
    assert at.nobody().post("/join", data=form).status_code == 422
    reader, status = entered(at)
    assert status == 303
    assert "Nora Vale" in reader.get("/jobs").text


@pytest.mark.parametrize(
    "password", ["short", "password1", "trustno1", "aaaaaaaaaaaa", "Wallseat1", "nora1234", "x" * 201]
)
def test_a_password_that_is_tried_first_is_refused(password: str) -> None:
    assert passwords.weakness(password, ("nora", "Nora Vale", "wallseat"))
    assert not passwords.weakness(WORDS, ("nora", "Nora Vale", "wallseat"))


def test_an_unknown_name_and_a_wrong_password_get_the_same_answer(at: World) -> None:
    joined(at)
    answers = [
        at.nobody().post("/sign-in", data={"sign_in": name, "password": "not this one"}) for name in ("nora", "nobody")
    ]
    said = [re.sub(r'value="(nora|nobody)"', "", a.text) for a in answers]
    assert [a.status_code for a in answers] == [401, 401]
    assert said[0] == said[1]


def test_after_five_wrong_passwords_even_the_right_one_waits(at: World) -> None:
    joined(at)
    for _ in range(6):
        _, status = entered(at, password="not this one")
        assert status == 401
    fresh = at.nobody()
    answer = fresh.post("/sign-in", data={"sign_in": "nora", "password": WORDS})
    assert answer.status_code == 401
    assert "Too many tries. Wait" in answer.text
    with writing(at.db) as session:
        from webapp.models import Attempt

        session.execute(update(Attempt).values(until=now() - timedelta(seconds=1)))
    assert entered(at)[1] == 303


def test_a_second_factor_is_asked_for_and_each_code_works_once(at: World) -> None:
    reader = joined(at)
    secret = second.new_secret()
    otp = pyotp.TOTP(secret)
    assert reader.post("/account/second", data={"secret": secret, "code": "000000"}).status_code == 422
    assert reader.post("/account/second", data={"secret": secret, "code": otp.now()}).status_code == 303
    assert entered(at)[1] == 401
    assert entered(at, code=otp.now())[1] == 401  # that code set it up
    following = otp.at(int(now().timestamp()) + 30)
    assert entered(at, code=following)[1] == 303
    assert entered(at, code=following)[1] == 401


def test_sessions_are_listed_and_can_be_ended(at: World) -> None:
    first = joined(at)
    other, _ = entered(at)
    text = first.get("/account").text
    ends = re.findall(r"/account/sessions/(\d+)/end", text)
    assert len(ends) == 1
    assert at.as_("designer").post(f"/account/sessions/{ends[0]}/end").status_code == 404
    assert first.post(f"/account/sessions/{ends[0]}/end").status_code == 303
    assert other.get("/jobs").headers["location"].startswith("/sign-in")
    assert first.get("/jobs").status_code == 200


@pytest.mark.parametrize("column", ["seen_at", "began_at"])
def test_a_session_ends_by_itself(at: World, column: str) -> None:
    reader = at.as_("designer")
    with writing(at.db) as session:
        session.execute(update(Signed).values({column: now() - sign_in.LONGEST - timedelta(seconds=1)}))
    assert reader.get("/jobs").status_code == 303


def test_somebody_put_away_is_out_at_once_and_can_come_back(at: World) -> None:
    reader = joined(at)
    with writing(at.db) as session:
        person = next(p for p in people.of_office(session, 1) if p.sign_in == "nora")
    assert at.reader.post(f"/people/{person.id}/delete").status_code == 303
    assert reader.get("/jobs").status_code == 303
    assert entered(at)[1] == 401
    at.reader.post(f"/people/{person.id}/restore")
    assert entered(at)[1] == 303


def test_the_last_administrator_stays(at: World) -> None:
    with writing(at.db) as session:
        ada = next(p for p in people.of_office(session, 1) if p.role == "administrator")
    assert "last administrator" in at.reader.post(f"/people/{ada.id}/delete").text
    answer = at.reader.post(f"/people/{ada.id}", data={"name": "Ada", "role": "office", "version": str(ada.version)})
    assert "last administrator" in answer.text


def test_a_new_code_ends_the_old_password_and_its_sessions(at: World) -> None:
    reader = joined(at)
    with writing(at.db) as session:
        person = next(p for p in people.of_office(session, 1) if p.sign_in == "nora")
    answer = at.reader.post(f"/people/{person.id}/code")
    assert re.search(r"(?:[A-Z2-9]{6}-){3}[A-Z2-9]{6}", answer.text)
    assert reader.get("/jobs").status_code == 303
    assert entered(at)[1] == 401


def test_changing_the_password_ends_the_other_sessions(at: World) -> None:
    reader = joined(at)
    other, _ = entered(at)
    form = {"old": WORDS, "new": "other plain words together"}
    assert reader.post("/account/password", data=form | {"old": "wrong one"}).status_code == 422
    assert reader.post("/account/password", data=form).status_code == 303
    assert other.get("/jobs").status_code == 303
    assert reader.get("/jobs").status_code == 200


def test_a_page_asked_for_before_signing_in_is_come_back_to(at: World, job: int) -> None:
    fresh = at.nobody()
    answer = fresh.get(f"/jobs/{job}?sort=tag")
    assert answer.headers["location"] == f"/sign-in?next=%2Fjobs%2F{job}%3Fsort%3Dtag"
    joined(at)
    answer = fresh.post("/sign-in", data={"sign_in": "nora", "password": WORDS, "next": f"/jobs/{job}?sort=tag"})
    assert answer.headers["location"] == f"/jobs/{job}?sort=tag"


def test_a_way_on_that_leads_elsewhere_is_not_gone(at: World) -> None:
    joined(at)
    answer = at.nobody().post("/sign-in", data={"sign_in": "nora", "password": WORDS, "next": "//elsewhere.example/"})
    assert answer.headers["location"] == "/"


def test_signing_out_ends_the_session_on_the_server(at: World) -> None:
    reader = at.as_("designer")
    token = reader.cookies[SESSION]
    assert reader.post("/sign-out").status_code == 303
    again = at.nobody()
    again.cookies.set(SESSION, token)
    assert again.get("/jobs").status_code == 303


def test_over_https_the_cookie_is_bound_to_the_host(tmp_path: Path) -> None:
    with world(tmp_path, public_origin="https://checks.example") as at:
        fresh = at.nobody()
        fresh.headers["Origin"] = "https://checks.example"
        joined_answer = fresh.post("/join", data={"sign_in": "nora", "code": added(at), "password": WORDS})
        cookie = next(c for c in joined_answer.headers.get_list("set-cookie") if c.startswith(SESSION_HTTPS))
        assert all(part in cookie for part in ("Secure", "HttpOnly", "SameSite=lax", "Path=/"))
        assert "Domain" not in cookie


def test_in_the_demo_one_press_signs_in_and_elsewhere_it_does_not(tmp_path: Path, at: World) -> None:
    assert at.nobody().post("/sign-in/demo", data={"role": "designer"}).status_code == 404
    (tmp_path / "demo").mkdir()
    with world(tmp_path / "demo", demo=True) as demo:
        fresh = demo.nobody()
        assert "Inspector" in fresh.get("/").text
        assert fresh.post("/sign-in/demo", data={"role": "inspector"}).status_code == 303
        assert "Iris Moor" in fresh.get("/jobs").text
        assert fresh.post("/sign-in/demo", data={"role": "owner"}).status_code == 404


def test_the_demo_signs_nobody_of_a_real_office_in(at: World) -> None:
    added(at, "nora", "inspector")
    with writing(at.db) as session:
        demo = next(p for p in people.of_office(session, 1) if p.sign_in == "inspector")
        demo.deleted_at = now()
    with pytest.raises(Missing):
        sign_in.as_role(at.db, "inspector", "a test")


def test_people_without_a_password_cannot_sign_in(at: World) -> None:
    assert entered(at, "designer", "")[1] == 401
    assert entered(at, "designer", WORDS)[1] == 401
