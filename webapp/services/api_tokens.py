"""Tokens by which programs act as a person: made, used, taken back."""

from datetime import timedelta

from sqlalchemy import ColumnElement, func, select, update
from sqlalchemy.orm import Session

from webapp.credentials import tokens
from webapp.models import Office, Person, Token
from webapp.models.base import now
from webapp.services import audit
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused
from webapp.services.sign_in import SEEN_EVERY, Seen, seen_as
from webapp.store import Database, reading, writing

LASTS = timedelta(days=365)
MOST, LONGEST_NAME = 20, 80


def own(session: Session, seen: Seen) -> list[Token]:
    """A person's tokens that still work, the latest first."""
    return list(session.scalars(select(Token).where(*_live(seen.person_id)).order_by(Token.id.desc())))


def _live(person_id: int) -> tuple[ColumnElement[bool], ...]:
    return Token.person_id == person_id, Token.revoked_at.is_(None), Token.made_at > now() - LASTS


def make(db: Database, seen: Seen, name: str) -> str:
    """A new one. Returns: the token, which is not kept. Raises: Refused."""
    name = name.strip()
    if not name or len(name) > LONGEST_NAME:
        raise Refused({"name": f"Enter which program it is for, at most {LONGEST_NAME} characters."})
    token = tokens.new_token()
    with writing(db) as session:
        hold(session, Person, seen.person_id)
        if (session.scalar(select(func.count()).select_from(Token).where(*_live(seen.person_id))) or 0) >= MOST:
            raise Refused({"name": f"You have {MOST} tokens. Take one back first."})
        session.add(Token(person_id=seen.person_id, token_hash=tokens.digest(token), name=name))
        audit.note(session, "token", f"made for {name}", person_id=seen.person_id, office_id=seen.office_id)
    return token


def revoke(db: Database, seen: Seen, token_id: int) -> str:
    """Take one of one's own back. Returns: which program it was for. Raises: Missing for anyone else's."""
    with writing(db) as session:
        row = session.get(Token, token_id)
        if row is None or row.person_id != seen.person_id:
            raise Missing
        row.revoked_at = row.revoked_at or now()
        audit.note(session, "token", f"taken back: {row.name}", person_id=seen.person_id, office_id=seen.office_id)
        return row.name


def who(db: Database, token: str) -> Seen | None:
    """Whom a token stands for, with the role that person has now; None where it is none, or no longer works.

    A program shows no code: its token works while its person has the second factor their office demands, and is turned away
    like the person until then.
    """
    with reading(db) as session:
        found = session.execute(
            select(Token, Person, Office.name, Office.second_for)
            .join(Person, Person.id == Token.person_id)
            .join(Office, Office.id == Person.office_id)
            .where(
                Token.token_hash == tokens.digest(token), Token.revoked_at.is_(None), Token.made_at > now() - LASTS,
                Person.deleted_at.is_(None),
            )
        ).first()  # fmt: skip
    if found is None:
        return None
    row, person, office, asked_of = found
    if row.used_at is None or row.used_at < now() - SEEN_EVERY:
        with writing(db) as session:
            session.execute(update(Token).where(Token.id == row.id).values(used_at=now()))
    return seen_as(0, person, office, asked_of)
