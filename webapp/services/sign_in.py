"""Signing in and out: who a request comes from, and how often a wrong password may be tried.

Sessions end 12 hours after they were last used, 14 days after they began, and when the person is put away (OWASP Application
Security Verification Standard 5.0, 7.1.1 asks that this be written down).
"""

from dataclasses import dataclass
from datetime import timedelta

from sqlalchemy import ColumnElement, delete, select, update
from sqlalchemy.orm import Session

from webapp.credentials import passwords, second, tokens
from webapp.models import Attempt, Office, Person, ReviewLink, Revision, Signed, Token
from webapp.models.base import now
from webapp.permissions import OUTSIDER, READ, SECOND_FOR
from webapp.services import audit
from webapp.services.holding import hold, insert
from webapp.services.outages import TROUBLES, outage
from webapp.services.refusals import Missing, Refused
from webapp.store import Database, reading, writing

IDLE, LONGEST = timedelta(hours=12), timedelta(days=14)
AHEAD = timedelta(hours=1)  # farther ahead of the clock lies what was noted while the clock was wrong
SEEN_EVERY = timedelta(minutes=1)  # each note of it takes the write lock
FREE_TRIES = {"account": 5, "address": 30}
FIRST_WAIT, LONGEST_WAIT = timedelta(seconds=5), timedelta(minutes=15)
FORGET = timedelta(hours=1)
WRONG = "Name, password or code is not right. Check them and try again."


@dataclass(frozen=True, slots=True)
class Seen:
    """Whoever a request comes from. person_id is 0 for an outsider, who sees one revision (link_id, revision_id, job_id) only.

    lacks_second: their office demands a second factor and they have none, so that nothing but setting one up is theirs to do.
    """

    session_id: int
    person_id: int
    name: str
    role: str
    office_id: int
    office: str
    sign_in: str = ""
    link_id: int = 0
    revision_id: int = 0
    job_id: int = 0
    lacks_second: bool = False


def must_have_second(asked_of: str, person: Person) -> bool:
    """Whether somebody's office demands a second factor of them. Args: asked_of: the office's `second_for`.

    Not of the demo's people, who sign in by a button without a password: there a code would guard nothing.
    """
    return bool(person.password) and person.role in SECOND_FOR.get(asked_of, READ)


def seen_as(session_id: int, person: Person, office: str, asked_of: str) -> Seen:
    """A person, by a session of theirs, or by 0 for a program's token."""
    lacks = not person.second and must_have_second(asked_of, person)
    return Seen(
        session_id, person.id, person.name, person.role, person.office_id, office, person.sign_in, lacks_second=lacks
    )


def who(db: Database, token: str) -> Seen | None:
    """Whose session a token is; None where it is none, or one that has ended."""
    if not token:
        return None
    with reading(db) as session:
        found = session.execute(
            select(Signed, Person, Office.name, Office.second_for)
            .outerjoin(Person, (Person.id == Signed.person_id) & Person.deleted_at.is_(None))
            .outerjoin(Office, Office.id == Person.office_id)
            .where(Signed.token_hash == tokens.digest(token), _live())
        ).first()
        if found is None:
            return None
        signed, person, office, asked_of = found
        if person:
            seen: Seen | None = seen_as(signed.id, person, office, asked_of)
        else:
            seen = _outsider(session, signed)
    if seen and signed.seen_at < now() - SEEN_EVERY:
        _note_seen(db, signed.id)
    return seen


def _live() -> ColumnElement[bool]:
    """Which sessions go on; one of a time to come would never end."""
    at = now()
    return Signed.seen_at.between(at - IDLE, at + AHEAD) & Signed.began_at.between(at - LONGEST, at + AHEAD)


def _note_seen(db: Database, signed_id: int) -> None:
    """Keep when a session was last used; a database that can't be written to must not keep anybody from reading."""
    try:
        with writing(db) as session:
            session.execute(update(Signed).where(Signed.id == signed_id).values(seen_at=now()))
    except TROUBLES as error:
        if outage(error) is None:
            raise


def _outsider(session: Session, signed: Signed) -> Seen | None:
    found = session.execute(
        select(ReviewLink, Revision.job_id)
        .join(Revision, Revision.id == ReviewLink.revision_id)
        .where(ReviewLink.id == signed.link_id, ReviewLink.revoked_at.is_(None), ReviewLink.expires_at > now())
    ).first()
    if found is None:
        return None
    link, job_id = found
    return Seen(
        signed.id,
        0,
        link.name,
        OUTSIDER,
        0,
        link.authority,
        link_id=link.id,
        revision_id=link.revision_id,
        job_id=job_id,
    )


def enter(db: Database, sign_in: str, password: str, code: str, address: str, device: str) -> str:
    """Sign a person in. Returns: the session's token.

    Raises: Refused, in the same words and after the same time for an unknown name, a wrong password and a wrong code; with
    how long to wait after too many.
    """
    name = sign_in.strip().lower()
    keys = {"account": tokens.digest(f"account {name}"), "address": tokens.digest(f"address {address}")}
    with reading(db) as session:
        _may_try(session, keys)
        person = session.scalar(select(Person).where(Person.sign_in == name, Person.deleted_at.is_(None)))
    right = passwords.matches(password, person.password if person else "")
    step = 0
    if person and right and person.second:
        step = second.used_step(person.second, code, now(), person.second_step) or 0
        right = step > 0
    with writing(db) as session:
        tries = _held_tries(session, keys)
        _may_try(session, keys)  # again: of many tries at once no more count than of as many one after another
        if person is None or not right or not _unchanged(session, person) or not _first_use(session, person, step):
            _count(tries)
            _note(session, "failed", person, "", address)
        else:
            session.execute(delete(Attempt).where(Attempt.key.in_(keys.values())))
            _note(session, "in", person, "with a second factor" if step else "with a password", address)
            return begin(session, device, person_id=person.id)
    raise Refused({"": WRONG})


def _note(session: Session, what: str, person: Person | None, words: str, address: str = "") -> None:
    """The name that was typed is not kept: it may be a password in the wrong field."""
    person_id, office_id = (person.id, person.office_id) if person else (None, None)
    audit.note(session, what, words, person_id=person_id, office_id=office_id, address=address)


def _unchanged(session: Session, person: Person) -> bool:
    """Whether somebody still is as the password was held against, and stays so until the session has begun."""
    held = hold(session, Person, person.id)
    if held is None or held.deleted_at is not None:
        return False
    return (held.password, held.second) == (person.password, person.second)


def _first_use(session: Session, person: Person, step: int) -> bool:
    """Note the step of a one-time code; two requests that bring the same one do not both get in."""
    if not step:
        return True
    newer = (Person.second_step < step) | (Person.second_step > step + second.DRIFT_STEPS)
    used = update(Person).where(Person.id == person.id, newer).values(second_step=step)
    return session.scalar(used.returning(Person.id)) is not None


def _may_try(session: Session, keys: dict[str, str]) -> None:
    # a wait longer than there is was begun while the clock was wrong
    waits = Attempt.until.between(now() + timedelta(seconds=1), now() + LONGEST_WAIT)
    held = session.scalars(select(Attempt.until).where(Attempt.key.in_(keys.values()), waits)).all()
    until = max((moment for moment in held if moment), default=None)
    if until:
        seconds = max(int((until - now()).total_seconds()), 1)
        raise Refused({"": f"Too many tries. Wait {seconds} seconds, then try again."})


def _held_tries(session: Session, keys: dict[str, str]) -> dict[str, Attempt]:
    """The counts of failures by what they are of, made where there are none yet, held in the order of their keys."""
    none_yet = [{"key": key, "fails": 0, "last_at": now()} for key in sorted(keys.values())]
    made = insert(session, Attempt).values(none_yet)
    session.execute(made.on_conflict_do_update(index_elements=["key"], set_={"fails": Attempt.fails}))
    return {kind: session.get_one(Attempt, key) for kind, key in keys.items()}


def _count(tries: dict[str, Attempt]) -> None:
    """One failure more; each beyond the free ones doubles the wait, up to a limit that nobody is locked out for long by."""
    for kind, row in tries.items():
        row.fails = row.fails + 1 if row.last_at > now() - FORGET else 1
        row.last_at = now()
        over = row.fails - FREE_TRIES[kind]
        row.until = now() + min(FIRST_WAIT * 2 ** min(over, 12), LONGEST_WAIT) if over >= 0 else None


def begin(session: Session, device: str, person_id: int | None = None, link_id: int | None = None) -> str:
    """A new session. Returns: its token, which is not kept."""
    token = tokens.new_token()
    session.add(Signed(token_hash=tokens.digest(token), person_id=person_id, link_id=link_id, device=device[:200]))
    return token


def leave(db: Database, seen: Seen) -> None:
    """End this session."""
    with writing(db) as session:
        audit.note(session, "out", person_id=seen.person_id, office_id=seen.office_id)
        session.execute(delete(Signed).where(Signed.id == seen.session_id))


def own(session: Session, seen: Seen) -> list[Signed]:
    """A person's sessions that have not ended, last used first."""
    query = (
        select(Signed)
        .where(Signed.person_id == seen.person_id, _live())
        .order_by(Signed.seen_at.desc(), Signed.id.desc())
    )
    return list(session.scalars(query))


def end(db: Database, seen: Seen, session_id: int) -> None:
    """End one of a person's own sessions. Raises: Missing for anyone else's."""
    with writing(db) as session:
        gone = delete(Signed).where(Signed.id == session_id, Signed.person_id == seen.person_id)
        if session.scalar(gone.returning(Signed.id)) is None:
            raise Missing
        audit.note(session, "out", "another session ended", person_id=seen.person_id, office_id=seen.office_id)


def end_others(session: Session, person_id: int, but: int = 0) -> None:
    """End a person's sessions, all or all but one; with all of them, the tokens of their programs."""
    session.execute(delete(Signed).where(Signed.person_id == person_id, Signed.id != but))
    if not but:
        session.execute(
            update(Token).where(Token.person_id == person_id, Token.revoked_at.is_(None)).values(revoked_at=now())
        )


def as_role(db: Database, role: str, device: str) -> str:
    """Sign in as one of the demo's people, who sign in by their role's name and have neither password nor code.

    Somebody of a real office who has not chosen a password yet is none of them. Returns: the token. Raises: Missing.
    """
    with writing(db) as session:
        found = select(Person).where(
            Person.role == role,
            Person.sign_in == role,
            Person.password == "",
            Person.code == "",
            Person.deleted_at.is_(None),
        )
        person = session.scalar(found.order_by(Person.id).limit(1))
        if person is None:
            raise Missing
        _note(session, "in", person, "in the demo")
        return begin(session, device, person_id=person.id)
