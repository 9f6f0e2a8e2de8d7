"""Tokens of programs: they do what their person may do, are shown once, and stop when they are taken back."""

import re
from datetime import timedelta

import pytest
from sqlalchemy import select, update

from tests.world import Reader, World
from webapp.models import Person, Token
from webapp.models.base import now
from webapp.services import sign_in
from webapp.store import reading, writing

TYPE = {"name": "Eight", "inputs": {"core_in": "8 in"}}


def made(reader: Reader, name: str = "a planner") -> str:
    """A new token, read off the page that shows it."""
    answer = reader.post("/account/tokens", data={"name": name})
    assert answer.status_code == 200, answer.text[:500]
    found = re.search(r'<p class="secret">([\w-]{43})</p>', answer.text)
    assert found is not None
    return found[1]


def program(at: World, token: str) -> Reader:
    """A client that is no browser: it has the token and no session."""
    found = at.nobody()
    del found.headers["Sec-Fetch-Site"]
    found.headers["Authorization"] = f"Bearer {token}"
    return found


@pytest.mark.parametrize(
    ("role", "status"), [("designer", 201), ("administrator", 201), ("inspector", 403), ("office", 403)]
)
def test_a_program_may_do_what_its_person_may_do(at: World, job: int, role: str, status: int) -> None:
    client = program(at, made(at.as_(role)))
    assert client.get(f"/api/jobs/{job}").status_code == 200
    assert client.post(f"/api/jobs/{job}/wall-types", json=TYPE).status_code == status
    for link in client.get(f"/api/jobs/{job}").json()["links"].values():
        assert client.get(link).status_code == 200, link


def test_a_program_sees_the_jobs_of_its_office_only(at: World, job: int) -> None:
    client = program(at, made(at.stranger()))
    assert client.get("/api/jobs").json()["total"] == 0
    assert client.get(f"/api/jobs/{job}").status_code == 404


def test_a_token_is_shown_once_and_not_kept(at: World) -> None:
    designer = at.as_("designer")
    token = made(designer)
    page = designer.page("/account")
    assert token not in page.text
    assert "a planner" in page.text
    assert "never" in page.text
    with reading(at.db) as session:
        assert token not in session.scalars(select(Token.token_hash)).all()


def test_its_use_is_noted(at: World) -> None:
    designer = at.as_("designer")
    program(at, made(designer)).get("/api/jobs")
    assert "never" not in designer.page("/account").text
    assert "never" not in designer.get("/account/tokens.csv").text


def test_a_token_taken_back_opens_nothing(at: World) -> None:
    designer = at.as_("designer")
    client = program(at, made(designer))
    with reading(at.db) as session:
        number = session.scalars(select(Token.id)).one()
    assert at.as_("office").post(f"/account/tokens/{number}/revoke").status_code == 404
    assert client.get("/api/jobs").status_code == 200
    designer.follow(designer.post(f"/account/tokens/{number}/revoke"))
    answer = client.get("/api/jobs")
    assert answer.status_code == 401
    assert answer.headers["www-authenticate"] == "Bearer"
    assert answer.json()["error"] == "not_signed_in"


def test_a_token_ends_after_a_year_and_with_its_person(at: World) -> None:
    old, gone = program(at, made(at.as_("designer"))), program(at, made(at.as_("office")))
    with writing(at.db) as session:
        person = select(Person.id).where(Person.role == "designer").scalar_subquery()
        session.execute(update(Token).where(Token.person_id == person).values(made_at=now() - timedelta(days=366)))
        session.execute(update(Person).where(Person.role == "office").values(deleted_at=now()))
    assert old.get("/api/jobs").status_code == 401
    assert gone.get("/api/jobs").status_code == 401


def test_tokens_end_when_an_administrator_ends_what_a_person_has_open(at: World) -> None:
    client = program(at, made(at.as_("designer")))
    with writing(at.db) as session:
        sign_in.end_others(session, session.scalars(select(Token.person_id)).one())
    assert client.get("/api/jobs").status_code == 401


@pytest.mark.parametrize("token", ["", "x", "x" * 5000, "\u00e9".encode("latin-1").decode("latin-1")])
def test_a_token_that_is_none_is_not_made_up_for_by_a_session(at: World, token: str) -> None:
    reader = at.as_("administrator")
    answer = reader.get("/api/jobs", headers={"Authorization": f"Bearer {token}".encode("latin-1")})
    assert answer.status_code == 401


def test_a_program_changes_nothing_on_pages_and_not_its_account(at: World, job: int) -> None:
    client = program(at, made(at.as_("administrator")))
    assert client.get("/account").headers["location"].startswith("/sign-in")
    assert client.post("/account/tokens", data={"name": "another"}).status_code == 401
    assert client.post(f"/jobs/{job}/delete").status_code == 401
    assert client.get(f"/api/jobs/{job}").status_code == 200


@pytest.mark.parametrize("name", ["", "  ", "n" * 81])
def test_a_token_needs_a_name_to_be_known_by(at: World, name: str) -> None:
    answer = at.as_("designer").post("/account/tokens", data={"name": name})
    assert answer.status_code == 422
    assert "which program" in answer.text


def test_nobody_heaps_tokens_up(at: World) -> None:
    designer = at.as_("designer")
    for number in range(20):
        made(designer, f"program {number}")
    assert designer.post("/account/tokens", data={"name": "one more"}).status_code == 422
