"""An office demands a second factor: whoever has none can do nothing but set one up, whichever way they come."""

import re

import pyotp
import pytest

from tests.webapp.test_audit import rows
from tests.webapp.test_people import entered, joined
from tests.world import Reader, World
from webapp import permissions
from webapp.credentials import second
from webapp.permissions import ANYONE, ROWS, WITHOUT_SECOND

SET_UP = "/account/second"


def demanded(at: World, asked_of: str) -> None:
    version = at.reader.page("/office/second").values["version"]
    answer = at.reader.post("/office/second", data={"version": version, "second_for": asked_of})
    assert answer.status_code == 303, answer.text


def set_up(reader: Reader) -> pyotp.TOTP:
    """With the secret of the page."""
    secret = reader.page(SET_UP).values["secret"]
    otp = pyotp.TOTP(secret)
    assert reader.post(SET_UP, data={"secret": secret, "code": otp.now()}).status_code == 303
    return otp


def token_of(reader: Reader) -> dict[str, str]:
    answer = reader.post("/account/tokens", data={"name": "Planner"})
    found = re.search(r'class="secret">([^<]+)<', answer.text)
    assert found
    return {"Authorization": f"Bearer {found[1]}"}


def test_an_administrator_demands_it_and_that_is_kept(at: World) -> None:
    joined(at, role="inspector")
    demanded(at, "approvers")
    assert rows(at)[0] == ("second", "Ada Stone", "asked of whoever may approve or administer")
    page = at.reader.get("/office/second").text
    assert "Nora Vale" in page
    assert "asked of whoever may approve or administer" in at.reader.get("/office").text


@pytest.mark.parametrize("role", ["designer", "inspector", "office"])
def test_nobody_else_demands_it(at: World, role: str) -> None:
    reader = at.as_(role)
    assert reader.get("/office/second").status_code == 403
    assert reader.post("/office/second", data={"version": "1", "second_for": "everybody"}).status_code == 403
    assert "/office/second" not in reader.get("/office").text


def test_a_demand_that_is_none_or_from_an_old_page_is_refused(at: World) -> None:
    version = at.reader.page("/office/second").values["version"]
    assert at.reader.post("/office/second", data={"version": version, "second_for": "cats"}).status_code == 422
    demanded(at, "everybody")
    answer = at.reader.post("/office/second", data={"version": version, "second_for": ""})
    assert answer.status_code == 409
    assert "Kept now: everybody" in answer.text


def test_whoever_has_none_is_led_to_set_it_up_and_then_works_on(at: World) -> None:
    reader = joined(at, role="inspector")
    elsewhere, _ = entered(at)
    demanded(at, "approvers")
    assert reader.get("/jobs").headers["location"] == SET_UP
    assert reader.get("/").headers["location"] == SET_UP
    assert "Your office asks for one" in reader.get(SET_UP).text
    otp = set_up(reader)
    assert reader.get("/jobs").status_code == 200
    assert elsewhere.get("/jobs").headers["location"].startswith("/sign-in"), (
        "a session from before the code was asked for"
    )
    assert entered(at)[1] == 401
    assert otp.secret not in str(rows(at))


def test_nothing_is_reached_around_it(at: World, job: int) -> None:
    """Every route there is."""
    reader = joined(at, role="administrator")
    demanded(at, "everybody")
    for row, roles in ROWS.items():
        method, _, path = row.partition(" ")
        path = re.sub(r"{\w+}", str(job), path)
        if row in WITHOUT_SECOND or (roles is ANYONE and path != "/"):
            continue
        answer = reader.request(method, path)
        led = answer.status_code == 303 and answer.headers["location"] == SET_UP
        assert led or (answer.status_code == 403 and "second factor" in answer.text), (row, answer.status_code)
    assert reader.get("/jobs", headers={"HX-Request": "true"}).status_code == 403, "a part of a page is no way either"
    assert reader.post("/sign-out").status_code == 303
    assert rows(at)[0][:2] == ("out", "Nora Vale"), "nothing else was done and noted"


def test_what_anybody_may_read_is_read_as_nobody(at: World) -> None:
    reader = joined(at)
    demanded(at, "everybody")
    page = reader.get("/proving").text
    assert "Nora Vale" not in page
    assert "Sign in" in page


def test_a_program_is_turned_away_with_its_person(at: World) -> None:
    reader = joined(at, role="inspector")
    headers, program = token_of(reader), at.nobody()
    demanded(at, "approvers")
    answer = program.get("/api/jobs", headers=headers)
    assert (answer.status_code, answer.json()["error"]) == (403, "no_second_factor")
    assert program.get("/jobs", headers=headers).headers["location"] == SET_UP
    set_up(reader)
    assert program.get("/api/jobs", headers=headers).status_code == 200


def test_it_is_not_demanded_of_designers_where_only_approvers_must(at: World) -> None:
    reader = joined(at, role="designer")
    demanded(at, "approvers")
    assert reader.get("/jobs").status_code == 200
    demanded(at, "everybody")
    assert reader.get("/jobs").headers["location"] == SET_UP
    demanded(at, "")
    assert reader.get("/jobs").status_code == 200


def test_what_is_demanded_can_be_moved_to_another_device_and_not_ended(at: World) -> None:
    reader = joined(at)
    demanded(at, "everybody")
    set_up(reader)
    answer = reader.post(SET_UP, data={"secret": ""})
    assert answer.status_code == 422
    assert "moved to another device" in answer.text
    assert "Stop asking" not in reader.get("/account").text
    set_up(reader)
    demanded(at, "")
    assert reader.post(SET_UP, data={"secret": ""}).status_code == 303


@pytest.mark.parametrize("secret", ["AA", "a" * 32, "0" * 32, "A" * 40])
def test_a_secret_that_was_not_made_here_is_refused(at: World, secret: str) -> None:
    reader = joined(at)
    assert reader.post(SET_UP, data={"secret": secret, "code": "123456"}).status_code == 422
    assert second.whole(second.new_secret())


def test_an_end_of_the_password_asks_for_a_new_device_too(at: World) -> None:
    reader = joined(at)
    demanded(at, "everybody")
    set_up(reader)
    code = re.search(r"(?:[A-Z2-9]{6}-){3}[A-Z2-9]{6}", at.reader.post("/people/5/code").text)
    assert code
    fresh = at.nobody()
    fresh.post("/join", data={"sign_in": "nora", "code": code[0], "password": "other words of mine"})
    assert fresh.get("/jobs").headers["location"] == SET_UP


@pytest.mark.parametrize("role", permissions.ROLES)
def test_the_demos_people_go_on_by_their_buttons(at: World, role: str) -> None:
    demanded(at, "everybody")
    assert at.as_(role).get("/jobs").status_code == 200


def test_a_demand_that_this_program_does_not_know_is_of_everybody() -> None:
    from webapp.models import Person
    from webapp.services.sign_in import must_have_second

    person = Person(role="designer", password="some hash")
    assert must_have_second("those of a later version", person)
    assert not must_have_second("", person)
