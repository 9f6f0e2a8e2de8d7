"""The people of an office: the first one by the setup code, the others by a one-time code each."""

import re
from datetime import timedelta

from sqlalchemy import delete, func, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from webapp.credentials import passwords, second, tokens
from webapp.models import Office, Person, Setup
from webapp.models.base import now
from webapp.permissions import ADMINISTRATOR, ROLES
from webapp.services import audit
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused, Stale
from webapp.services.sign_in import Seen, begin, end_others, must_have_second
from webapp.store import Database, reading, writing

FIRST_OFFICE = 1
CODE_LASTS = timedelta(days=3)
SIGN_IN = re.compile(r"[^\s\x00-\x1f]{2,120}")
DEMO = (
    ("designer", "Dana Wells", "designer"),
    ("inspector", "Iris Moor", "inspector"),
    ("office", "Omar Finch", "office"),
    ("administrator", "Ada Stone", "administrator"),
)


def any_yet(session: Session) -> bool:
    """Whether there has ever been anybody."""
    return session.scalar(select(Person.id).limit(1)) is not None


def new_setup_code(db: Database) -> str:
    """A code for the first administrator; an earlier one no longer works. Returns: "" where somebody is here already."""
    with writing(db) as session:
        hold(session, Office, FIRST_OFFICE)
        if any_yet(session):
            return ""
        code = tokens.new_code()
        session.execute(delete(Setup))
        session.add(Setup(id=1, code_hash=tokens.code_digest(code)))
        return code


def set_up(db: Database, code: str, office: str, name: str, sign_in: str, password: str, device: str = "") -> str:
    """Make the first administrator of the first office. Returns: the token of a session. Raises: Refused."""
    errors = _errors(name, sign_in)
    if weak := passwords.weakness(password, (sign_in, name, "wallseat")):
        errors["password"] = weak
    if not office.strip() or len(office) > 120:
        errors["office"] = "Enter the office's name, at most 120 characters."
    if errors:
        raise Refused(errors)
    kept = passwords.hashed(password)
    with writing(db) as session:
        first = hold(session, Office, FIRST_OFFICE)
        setup = session.get(Setup, 1)
        if first is None or any_yet(session) or setup is None or setup.code_hash != tokens.code_digest(code):
            raise Refused({"code": "Enter the code the server printed when it started; it works once."})
        session.delete(setup)
        first.name = office.strip()
        person = Person(
            office_id=FIRST_OFFICE,
            name=name.strip(),
            sign_in=sign_in.strip().lower(),
            role=ADMINISTRATOR,
            password=kept,
        )
        session.add(person)
        session.flush()
        _note(session, person.id, person.office_id, "person", "the office was set up")
        return begin(session, device, person_id=person.id)


def make_demo(db: Database) -> bool:
    """One invented person of each role, without passwords. Returns: False where somebody is here already."""
    with writing(db) as session:
        office = hold(session, Office, FIRST_OFFICE)
        if office is None or any_yet(session):
            return False
        office.name = "Demo office"
        session.add_all(Person(office_id=FIRST_OFFICE, name=n, sign_in=s, role=r) for s, n, r in DEMO)
    return True


def _errors(name: str, sign_in: str, role: str = ADMINISTRATOR) -> dict[str, str]:
    errors = {}
    if not name.strip() or len(name) > 120:
        errors["name"] = "Enter the person's name, at most 120 characters."
    if not SIGN_IN.fullmatch(sign_in.strip()):
        errors["sign_in"] = "Enter 2 to 120 characters without spaces, such as an e-mail address."
    if role not in ROLES:
        errors["role"] = f"Choose one of: {', '.join(ROLES)}."
    return errors


def of_office(session: Session, office_id: int) -> list[Person]:
    """Everybody, those put away last."""
    query = select(Person).where(Person.office_id == office_id)
    return list(session.scalars(query.order_by(Person.deleted_at.is_not(None), func.lower(Person.name), Person.id)))


def without_second(session: Session, office_id: int) -> list[Person]:
    """Who has no second factor, of those who are not put away."""
    return [one for one in of_office(session, office_id) if not one.second and not one.deleted_at]


def find(session: Session, seen: Seen, person_id: int) -> Person:
    """One of the same office. Raises: Missing."""
    person = session.get(Person, person_id)
    if person is None or person.office_id != seen.office_id:
        raise Missing
    return person


def _held(session: Session, seen: Seen, person_id: int) -> Person:
    """The same, with the office held: what is said of all its people stays so. Raises: Missing."""
    hold(session, Office, seen.office_id)
    person = hold(session, Person, person_id)
    if person is None or person.office_id != seen.office_id:
        raise Missing
    return person


def add(db: Database, seen: Seen, name: str, sign_in: str, role: str) -> tuple[int, str]:
    """A new person. Returns: the id, and the one-time code to hand over, which is not kept. Raises: Refused."""
    errors = _errors(name, sign_in, role)
    if errors:
        raise Refused(errors)
    with writing(db) as session:
        person = Person(office_id=seen.office_id, name=name.strip(), sign_in=sign_in.strip().lower(), role=role)
        session.add(person)
        code = _give_code(person)
        try:
            session.flush()
        except IntegrityError:  # asking first would miss who is added this moment, in another office too
            raise Refused({"sign_in": "Somebody signs in by that name already. Choose another."}) from None
        _note(session, seen.person_id, seen.office_id, "person", f"added {person.name} as {role}")
        return person.id, code


def _give_code(person: Person) -> str:
    code = tokens.new_code()
    person.code, person.code_until = tokens.code_digest(code), now() + CODE_LASTS
    return code


def new_code(db: Database, seen: Seen, person_id: int) -> str:
    """Let somebody set a new password. Their sessions and second factor end. Returns: the code to hand over."""
    with writing(db) as session:
        person = _held(session, seen, person_id)
        person.password = person.second = ""
        end_others(session, person.id)
        _stamp(person)
        _note(session, seen.person_id, seen.office_id, "password", f"a code for {person.name}")
        return _give_code(person)


def join(db: Database, sign_in: str, code: str, password: str, device: str = "") -> str:
    """Set a password by a one-time code. Returns: the token of a session, begun with it. Raises: Refused."""
    wrong = {
        "code": "Name and code do not fit together, or the code has run out. Ask your administrator for a new one."
    }
    name = sign_in.strip().lower()
    if weak := passwords.weakness(password, (name, "wallseat")):
        raise Refused({"password": weak})
    with reading(db) as session:
        person = session.scalar(select(Person).where(Person.sign_in == name, Person.deleted_at.is_(None)))
    if not _holds(person, code):
        with writing(db) as session:
            audit.note(session, "failed", "a code", office_id=person.office_id if person else None)
        raise Refused(wrong)
    kept = passwords.hashed(password)
    with writing(db) as session:
        person = hold(session, Person, person.id) if person else None
        if person is None or person.deleted_at is not None or not _holds(person, code):
            raise Refused(wrong)
        person.password, person.code, person.code_until = kept, "", None
        end_others(session, person.id)
        _stamp(person)
        _note(session, person.id, person.office_id, "password", "chosen by a code")
        _note(session, person.id, person.office_id, "in", "by a code")
        return begin(session, device, person_id=person.id)


def _holds(person: Person | None, code: str) -> bool:
    if person is None or not person.code or person.code_until is None or person.code_until < now():
        return False
    return person.code == tokens.code_digest(code)


def _note(session: Session, person_id: int, office_id: int, what: str, words: str) -> None:
    audit.note(session, what, words, person_id=person_id, office_id=office_id)


def _stamp(person: Person) -> None:
    person.version += 1
    person.updated_at = now()


def change(db: Database, seen: Seen, person_id: int, name: str, role: str, version: int) -> None:
    """Change a person's name and role. Raises: Refused, Stale, Missing."""
    with writing(db) as session:
        person = _held(session, seen, person_id)
        errors = _errors(name, person.sign_in, role)
        if person.role == ADMINISTRATOR and role != ADMINISTRATOR and _last(session, person):
            errors["role"] = "This is the last administrator. Make somebody else one first."
        if errors:
            raise Refused(errors)
        if person.version != version:
            raise Stale(person.version)
        if person.role != role:
            end_others(session, person.id)
            _note(session, seen.person_id, seen.office_id, "person", f"{person.name} from {person.role} to {role}")
        person.name, person.role = name.strip(), role
        _stamp(person)


def _last(session: Session, person: Person) -> bool:
    others = select(Person.id).where(
        Person.office_id == person.office_id,
        Person.role == ADMINISTRATOR,
        Person.deleted_at.is_(None),
        Person.id != person.id,
    )
    return session.scalar(others.limit(1)) is None


def put_away(db: Database, seen: Seen, person_id: int) -> str:
    """Somebody leaves: no more signing in, every session ends. Returns: the name. Raises: Refused, Missing."""
    with writing(db) as session:
        person = _held(session, seen, person_id)
        if person.role == ADMINISTRATOR and _last(session, person):
            raise Refused({"": "This is the last administrator. Make somebody else one first."})
        person.deleted_at = now()
        end_others(session, person.id)
        _note(session, seen.person_id, seen.office_id, "person", f"put {person.name} away")
        _stamp(person)
        return person.name


def bring_back(db: Database, seen: Seen, person_id: int) -> str:
    """Undo that. Returns: the name. Raises: Missing."""
    with writing(db) as session:
        person = _held(session, seen, person_id)
        person.deleted_at = None
        _note(session, seen.person_id, seen.office_id, "person", f"brought {person.name} back")
        _stamp(person)
        return person.name


def change_password(db: Database, seen: Seen, old: str, new: str) -> None:
    """Change one's own password; one's other sessions end. Raises: Refused."""
    with reading(db) as session:
        kept = find(session, seen, seen.person_id).password
    if not passwords.matches(old, kept):
        with writing(db) as session:
            _note(session, seen.person_id, seen.office_id, "failed", "the old password, to change it")
        raise Refused({"old": "This is not your password now."})
    if weak := passwords.weakness(new, (seen.sign_in, seen.name, "wallseat")):
        raise Refused({"new": weak})
    fresh = passwords.hashed(new)
    with writing(db) as session:
        person = _held(session, seen, seen.person_id)
        if person.password != kept:
            raise Refused({"old": "Your password was changed this moment. Sign in with the new one."})
        person.password = fresh
        end_others(session, person.id, but=seen.session_id)
        _stamp(person)
        _note(session, seen.person_id, seen.office_id, "password", "changed")


def set_second(db: Database, seen: Seen, secret: str, code: str) -> None:
    """Ask for a device's code at every sign-in from now on, and end one's other sessions, which began without; "" ends that.

    Raises: Refused for a code that does not fit, and for ending what the office demands.
    """
    if secret and not second.whole(secret):
        raise Refused({"code": "That code to scan was not made here. Scan the new one."})
    step = second.used_step(secret, code, now(), 0) if secret else 0
    if step is None:
        raise Refused({"code": "Enter the six digits the device shows now."})
    with writing(db) as session:
        person = _held(session, seen, seen.person_id)
        if secret:
            end_others(session, person.id, but=seen.session_id)
        elif must_have_second(session.get_one(Office, seen.office_id).second_for, person):
            raise Refused({"second": "Your office asks for it, so that it can only be moved to another device."})
        person.second, person.second_step = secret, step
        _stamp(person)
        said = "asked for from now on" if secret else "no longer asked for"
        _note(session, seen.person_id, seen.office_id, "second", said)
