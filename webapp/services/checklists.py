"""What an office looks at on site: the published lists until it changes them; every change is a version that stays."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from engine.errors import BadInput
from engine.review import STAGES, WALL, as_rows, items, read_items
from engine.review.checklists import CHECKLISTS
from webapp.models import Checklist, Office
from webapp.services.holding import hold
from webapp.services.refusals import Missing, Refused, Stale
from webapp.services.sign_in import Seen
from webapp.store import Database, writing

Rows = tuple[dict[str, str], ...]
KINDS = tuple(dict.fromkeys(kind for kind, _ in CHECKLISTS))


@dataclass(frozen=True, slots=True)
class Kept:
    """A list as it stands. version: 0 for the published one that was never changed. own: whether it differs from that."""

    kind: str
    stage: str
    version: int
    rows: Rows
    own: bool
    by_name: str = ""
    at: datetime | None = None


def published(kind: str, stage: str) -> Rows:
    """The list to begin with."""
    return as_rows(items(kind, stage))


def kept(session: Session, office_id: int, kind: str, stage: str, by: datetime | None = None) -> Kept:
    """The list an office uses. Args: by: as it stood then; None for now. Raises: Missing for an unknown kind or stage."""
    if kind not in KINDS or stage not in STAGES:
        raise Missing
    return kept_all(session, office_id, by)[kind, stage]


def kept_all(session: Session, office_id: int, by: datetime | None = None) -> Mapping[tuple[str, str], Kept]:
    """Every list of an office by kind and stage."""
    found = {
        (kind, stage): Kept(kind, stage, 0, published(kind, stage), own=False) for kind in KINDS for stage in STAGES
    }
    query = select(Checklist).where(Checklist.office_id == office_id).order_by(Checklist.version)
    if by is not None:
        query = query.where(Checklist.at <= by)
    for row in session.scalars(query):
        rows = tuple(dict(item) for item in row.items)
        own = rows != published(row.kind, row.stage)
        found[row.kind, row.stage] = Kept(row.kind, row.stage, row.version, rows, own, row.by_name, row.at)
    return found


def save(db: Database, seen: Seen, kind: str, stage: str, rows: Sequence[Mapping[str, str]], version: int) -> None:
    """Keep a list as the next version. Raises: Missing, Refused naming the line, Stale."""
    if kind not in KINDS or stage not in STAGES:
        raise Missing
    try:
        read = read_items(named(rows))
    except BadInput as error:
        raise Refused({"lines": error.message}) from error
    with writing(db) as session:
        hold(session, Office, seen.office_id)
        now = kept(session, seen.office_id, kind, stage)
        if now.version != version:
            raise Stale(now.version)
        session.add(
            Checklist(
                office_id=seen.office_id, kind=kind, stage=stage, version=version + 1, items=list(read), by_name=seen.name
            )
        )  # fmt: skip


def named(rows: Sequence[Mapping[str, str]]) -> list[dict[str, str]]:
    """Rows in which each has a short name: lines keep theirs, new ones get the next free number."""
    taken = {row.get("key", "") for row in rows}
    free = (f"line-{number}" for number in range(1, len(rows) + len(taken) + 2) if f"line-{number}" not in taken)
    return [{**row, "key": row.get("key") or next(free)} for row in rows]


def words_of(kind: str) -> str:
    """What a list is of."""
    from engine import attachments

    return "Walls" if kind == WALL else attachments.kind(kind).name
