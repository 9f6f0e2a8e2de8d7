"""Signing in, codes and people's roles on PostgreSQL, when two of them come in the same moment."""

from collections.abc import Callable, Iterator

import pyotp
import pytest
from sqlalchemy import func, select

from tests.webapp.races import calls, held, in_order, kinds, queued, signed_in
from tests.world import World
from webapp.credentials import passwords, tokens
from webapp.migrate import migrate
from webapp.models import Attempt, Person, Setup, Signed, Token
from webapp.pages.view import SESSION
from webapp.services import api_tokens, people, sign_in
from webapp.services.sign_in import Seen
from webapp.store import open_database, reading, writing

pytestmark = pytest.mark.only("postgres")
WORDS = "four plain words together"


@pytest.fixture(autouse=True)
def ordered(at: World) -> Iterator[None]:
    """Whatever these tests call holds rows in one order."""
    with in_order(at.db):
        yield


def with_password(at: World, password: str = WORDS) -> Seen:
    """The demo's designer with a password."""
    seen = signed_in(at, "designer")
    with writing(at.db) as session:
        session.get_one(Person, seen.person_id).password = passwords.hashed(password)
    return seen


def enter(at: World, password: str = WORDS, code: str = "") -> Callable[[], str]:
    return lambda: sign_in.enter(at.db, "designer", password, code, "10.0.0.1", "a test")


@pytest.fixture
def nobody_yet(at: World, empty_database: str) -> World:
    """An installation that is not set up."""
    db = open_database(empty_database)
    migrate(db)
    return World(at.app, db, at.reader)


def test_a_setup_code_makes_one_administrator_however_often_it_is_used_at_once(nobody_yet: World) -> None:
    db = nobody_yet.db
    code = people.new_setup_code(db)
    outcomes = queued(
        nobody_yet, "person, office, audit",
        *(lambda name=name: people.set_up(db, code, f"Office of {name}", name, name, WORDS) for name in ("ann", "bea")),
    )  # fmt: skip
    assert kinds(outcomes) == ["", "Refused"]
    with reading(db) as session:
        assert session.scalar(select(func.count(Person.id))) == 1
    db.close()


def test_two_servers_that_start_at_once_print_codes_of_which_the_last_holds(nobody_yet: World) -> None:
    db = nobody_yet.db
    first, second = queued(nobody_yet, "setup", *[lambda: people.new_setup_code(db)] * 2)
    with reading(db) as session:
        assert session.scalars(select(Setup.code_hash)).one() in (tokens.code_digest(first), tokens.code_digest(second))
    db.close()


def test_two_servers_that_start_at_once_make_the_demos_people_once(nobody_yet: World) -> None:
    db = nobody_yet.db
    assert sorted(queued(nobody_yet, "person", *[lambda: people.make_demo(db)] * 2)) == [False, True]
    db.close()


def test_a_code_sets_one_password_however_often_it_is_used_at_once(at: World) -> None:
    person_id, code = people.add(at.db, signed_in(at, "administrator"), "Nora Vale", "nora", "designer")
    outcomes = queued(
        at, "person", *(lambda n=n: people.join(at.db, "nora", code, f"{WORDS} {n}") for n in range(2))
    )  # fmt: skip
    assert kinds(outcomes) == ["", "Refused"]
    seen = [sign_in.who(at.db, one) for one in outcomes if isinstance(one, str)]
    assert [one.person_id for one in seen if one] == [person_id]


def test_two_administrators_who_end_each_other_at_once_leave_one(at: World) -> None:
    ada = signed_in(at, "administrator")
    other, _ = people.add(at.db, ada, "Bea Lund", "bea", "administrator")
    outcomes = queued(
        at, "person",
        lambda: people.put_away(at.db, ada, other),
        lambda: people.change(at.db, ada, ada.person_id, "Ada Stone", "designer", 1),
    )  # fmt: skip
    assert kinds(outcomes) == ["", "Refused"]
    left = select(func.count(Person.id)).where(Person.role == "administrator", Person.deleted_at.is_(None))
    with reading(at.db) as session:
        assert session.scalar(left) == 1


def test_a_person_changed_twice_from_the_same_form_is_changed_once(at: World) -> None:
    ada, iris = signed_in(at, "administrator"), signed_in(at, "inspector")
    outcomes = queued(
        at,
        "person",
        *(lambda n=n: people.change(at.db, ada, iris.person_id, n, "inspector", 1) for n in ("One", "Two")),
    )
    assert kinds(outcomes) == ["", "Stale"]


def test_of_two_people_added_at_once_by_the_same_name_one_is_refused(at: World) -> None:
    here, there = signed_in(at, "administrator"), sign_in.who(at.db, at.stranger().cookies[SESSION])
    assert there
    outcomes = queued(
        at, "person", *(lambda s=s: people.add(at.db, s, "Nora Vale", "nora", "designer") for s in (here, there))
    )  # fmt: skip
    assert kinds(outcomes) == ["", "Refused"]


def test_wrong_passwords_tried_at_once_wait_like_those_tried_one_after_another(at: World) -> None:
    with_password(at)
    outcomes = queued(at, "attempt", *[enter(at, "wrong")] * 9)
    with reading(at.db) as session:
        assert set(session.scalars(select(Attempt.fails))) == {sign_in.FREE_TRIES["account"]}
    said = [str(one.errors[""]) for one in outcomes]
    assert sum(one.startswith("Too many tries") for one in said) == 9 - sign_in.FREE_TRIES["account"]


def test_signing_in_right_and_wrong_at_once_never_wait_for_each_other(at: World) -> None:
    with_password(at)
    outcomes = queued(at, "attempt", *[enter(at), enter(at, "wrong")] * 4)
    assert kinds(outcomes) == [""] * 4 + ["Refused"] * 4


def test_a_code_of_a_device_lets_in_once(at: World) -> None:
    seen, secret = with_password(at), pyotp.random_base32()
    with writing(at.db) as session:
        session.get_one(Person, seen.person_id).second = secret
    assert kinds(queued(at, "signed", *[enter(at, code=pyotp.TOTP(secret).now())] * 2)) == ["", "Refused"]


def test_an_old_password_no_longer_lets_in_once_a_new_code_is_given_out(at: World) -> None:
    seen = with_password(at)
    with calls(at) as made:
        with held(at.db, "LOCK TABLE attempt IN SHARE MODE"):
            made.start(enter(at))
            people.new_code(at.db, signed_in(at, "administrator"), seen.person_id)
        assert kinds(made.outcomes()) == ["Refused"]
    with reading(at.db) as session:
        assert session.scalar(select(func.count(Signed.id)).where(Signed.person_id == seen.person_id)) == 0


def test_a_password_changed_twice_at_once_by_the_old_one_is_changed_once(at: World) -> None:
    seen = with_password(at)
    outcomes = queued(
        at, "person", *(lambda n=n: people.change_password(at.db, seen, WORDS, f"{WORDS} {n}") for n in range(2))
    )
    assert kinds(outcomes) == ["", "Refused"]


def test_nobody_gets_more_tokens_by_asking_twice_at_once(at: World) -> None:
    seen = signed_in(at, "designer")
    for n in range(api_tokens.MOST - 1):
        api_tokens.make(at.db, seen, f"Program {n}")
    outcomes = queued(at, "token", *[lambda: api_tokens.make(at.db, seen, "The last")] * 2)
    assert kinds(outcomes) == ["", "Refused"]
    with reading(at.db) as session:
        assert session.scalar(select(func.count(Token.id))) == api_tokens.MOST


def test_a_session_ended_twice_at_once_ends_once(at: World) -> None:
    seen, other = signed_in(at, "designer"), signed_in(at, "designer")
    outcomes = queued(at, "signed", *[lambda: sign_in.end(at.db, seen, other.session_id)] * 2)
    assert kinds(outcomes) == ["", "Missing"]
