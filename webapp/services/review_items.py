"""Taking what a reviewer sends: each item once however often it comes, in the transaction of what it brings about."""

import json
import logging
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any, cast

from sqlalchemy import func, select
from sqlalchemy.orm import Session

from engine.errors import BadInput
from engine.review import STAGES
from engine.units import System, convert, parse
from webapp.models import Photo, ReviewItem, ReviewLink, Revision
from webapp.services import log, photos, reviews, revisions
from webapp.services.holding import insert
from webapp.services.refusals import Missing, Refused
from webapp.services.reviews import ACCEPT, DECISIONS, Place, Review
from webapp.services.sign_in import Seen
from webapp.store import Database, reading, writing

note = logging.getLogger("wallseat.review")

TICK, MEASURE, NOTE, PHOTO, DECISION = KINDS = ("tick", "measure", "note", "photo", "decision")
RETURN = "return"
WHOLE = {ACCEPT: "accepted", RETURN: "returned"}  # what is decided about a revision, and the log's word for it
KEY = re.compile(r"[A-Za-z0-9_-]{8,64}")
LONGEST = {TICK: 3, MEASURE: 40, NOTE: 2000, PHOTO: 200, DECISION: 2000}
MOST_PHOTOS = 500


@dataclass(frozen=True, slots=True)
class Sent:
    """One item as it comes.

    Args: key: made by the device. item: the line, the measure or the decision. text: "yes" or "no", the length as typed, the words.
    units: those a bare length is in. base: the revision's version the device had. last: the last decision it knew of there.
    by: who made it, "" for whoever sends it. fingerprint: of the document the device had, at least its start.
    """

    key: str
    kind: str
    place: str = ""
    stage: str = ""
    item: str = ""
    text: str = ""
    units: System = "ft in"
    base: int = 0
    last: int = 0
    by: str = ""
    fingerprint: str = ""
    device_at: str = ""
    photo: bytes = field(default=b"", repr=False)


@dataclass(frozen=True, slots=True)
class Taken:
    """What became of an item. new: False where it had been stored before. words: what the person should know, mostly ""."""

    id: int
    new: bool
    words: str = ""


class Moved(Exception):
    """Something moved since the decision was made; a person decides again. Nothing was stored."""

    def __init__(self, words: str) -> None:
        super().__init__(words)
        self.words = words


class NotTheirs(Exception):
    """The item was made by somebody else than sends it."""


def who_key(seen: Seen) -> str:
    """Whom an item is bound to: a person, or a review link."""
    return f"link-{seen.link_id}" if seen.link_id else f"person-{seen.person_id}"


def take(db: Database, seen: Seen, job_id: int, number: int, sent: Sent) -> Taken:
    """Store an item, once.

    Raises: Missing; Refused for what can't be used, a key used for something else, a decision on a frozen revision; Moved;
    NotTheirs. Nothing is stored then, and it is noted in the program's log.
    """
    try:
        return _take(db, seen, job_id, number, sent)
    except (Refused, Moved, NotTheirs) as error:
        note.warning(
            "refused: %s of %s by %s (%s) on job %s revision %s: %s",
            sent.kind, sent.place or "the whole", seen.name, who_key(seen), job_id, number, error or type(error).__name__,
        )  # fmt: skip
        raise


def _take(db: Database, seen: Seen, job_id: int, number: int, sent: Sent) -> Taken:
    if not KEY.fullmatch(sent.key):
        raise Refused({"key": "This item has no key to know it by. Enter it again on its page."})
    with reading(db) as session:
        if not _theirs(session, seen, sent.by):
            raise NotTheirs
        content = _content(reviews.here(session, seen, job_id, number), seen, sent)
        if (old := _replayed(session, sent.key, content)) is not None:
            return old
        review = reviews.look(session, seen, job_id, number)
    value = _value(review, sent)
    picture = photos.prepare(sent.photo) if sent.kind == PHOTO else None
    with writing(db) as session:
        _, row = revisions.hold_revision(session, review.revision.id)
        item_id = _insert(session, seen, row, sent, content, value)
        if item_id is None:
            old = _replayed(session, sent.key, content)
            assert old is not None
            return old
        if picture:
            _keep_photo(session, row, item_id, picture)
        if sent.kind == DECISION:
            _decide(session, seen, review, row, sent, item_id)
        late = row.state not in revisions.OPEN and sent.kind != DECISION
        revisions.begin_review(session, row)
        return Taken(
            item_id, new=True, words=f"Stored. Revision {row.letter} is {row.state} meanwhile." if late else ""
        )


def _theirs(session: Session, seen: Seen, by: str) -> bool:
    """Whether an item was made by whoever sends it. A reviewer from outside may come back by another link to the same revision."""
    if by in ("", who_key(seen)):
        return True
    kind, _, number = by.partition("-")
    if kind != "link" or not seen.link_id or not number.isdecimal() or len(number) > 9:
        return False
    link = session.get(ReviewLink, int(number))
    return link is not None and link.revision_id == seen.revision_id and link.name == seen.name


def _content(row: Revision, seen: Seen, sent: Sent) -> str:
    """The hash of all that was sent and who sent it."""
    what = [
        row.id, sent.by or who_key(seen), sent.kind, sent.place, sent.stage, sent.item, sent.text, sent.units, sent.base,
        sent.last, sent.device_at, sha256(sent.photo).hexdigest(),
    ]  # fmt: skip
    return sha256(json.dumps(what).encode()).hexdigest()


def _replayed(session: Session, key: str, content: str) -> Taken | None:
    """What was stored under a key; None for a new key. Raises: Refused where that was something else."""
    old = session.execute(select(ReviewItem.id, ReviewItem.content).where(ReviewItem.key == key)).first()
    if old is None:
        return None
    if old.content != content:
        raise Refused({"key": "Another entry was stored under this key. What is stored stays; enter this one again."})
    return Taken(old.id, new=False, words="It had been stored before.")


def _insert(
    session: Session, seen: Seen, row: Revision, sent: Sent, content: str, value: Mapping[str, Any]
) -> int | None:
    statement = insert(session, ReviewItem).values(
        revision_id=row.id, key=sent.key, content=content, place=sent.place, stage=sent.stage, kind=sent.kind, item=sent.item,
        value={**value} | ({} if row.state in revisions.OPEN else {"late": row.state}),
        person_id=seen.person_id or None, link_id=seen.link_id or None, who=seen.name, role=seen.role,
        device_at=sent.device_at[:40],
    )  # fmt: skip
    made = statement.on_conflict_do_nothing(index_elements=["key"]).returning(ReviewItem.id)
    return cast(int | None, session.scalar(made))


def _keep_photo(session: Session, row: Revision, item_id: int, picture: photos.Picture) -> None:
    query = select(func.count(Photo.id)).join(ReviewItem, ReviewItem.id == Photo.item_id)
    if (session.scalar(query.where(ReviewItem.revision_id == row.id)) or 0) >= MOST_PHOTOS:
        raise Refused({"photo": f"This revision has {MOST_PHOTOS} photographs already; no more are kept."})
    session.add(
        Photo(
            item_id=item_id, sha256=picture.sha256, width=picture.width, height=picture.height, data=picture.data
        )
    )  # fmt: skip


def _value(review: Review, sent: Sent) -> dict[str, Any]:
    """What is kept of an item. Raises: Refused naming what to mend, Missing for a place that is not there."""
    if sent.kind not in KINDS:
        raise Refused({"": "This is nothing a review keeps. Enter it again on its page."})
    if len(sent.text) > LONGEST[sent.kind]:
        raise Refused({sent.kind: f"Use at most {LONGEST[sent.kind]} characters."})
    if sent.fingerprint and not review.revision.fingerprint.startswith(sent.fingerprint):
        raise Moved(
            "This was found on another document than the one kept here under that letter. Open the review anew."
        )
    if not sent.place and sent.kind == DECISION:
        if sent.item not in WHOLE:
            raise Refused({"": "Accept the revision or send it back."})
        return {"words": sent.text.strip()}
    place = review.place(sent.place)
    if sent.stage not in STAGES:
        raise Missing
    if sent.kind == TICK:
        return _ticked(review, place, sent)
    if sent.kind == MEASURE:
        return _measured(review, place, sent)
    words = sent.text.strip()
    if sent.kind == NOTE and not words:
        raise Refused({"note": "Write the note, then keep it."})
    if sent.kind == DECISION and sent.item not in DECISIONS:
        raise Refused({"": "Accept the place, send it back, or ask the engineer."})
    return {"words": words}


def _ticked(review: Review, place: Place, sent: Sent) -> dict[str, Any]:
    line = next((row for row in review.lines(place, sent.stage) if row["key"] == sent.item), None)
    if line is None:
        raise Refused({"": "This line is not on the list of this revision. Open the page anew."})
    return {"on": sent.text == "yes", "words": line["words"]}


def _measured(review: Review, place: Place, sent: Sent) -> dict[str, Any]:
    measure = next((one for one in review.measures(place, sent.stage) if one.key == sent.item), None)
    if measure is None:
        raise Refused({"": "This is not measured here. Open the page anew."})
    field_name = f"measure-{measure.key}"
    try:
        unit = "mm" if sent.units == "mm" else "in"
        value_in = convert(parse(sent.text, unit), unit, "in")
    except BadInput as error:
        raise Refused({field_name: error.message}) from error
    if not -1e4 < value_in < 1e4 or (value_in < 0 and not measure.signed):
        raise Refused({field_name: "Enter the length that was measured, from 0 up."})
    return {
        "text": sent.text.strip(), "in": value_in, "verdict": reviews.judge(measure, value_in).verdict, "words": measure.words,
        "drawn_in": measure.drawn_in, "low_in": measure.low_in, "high_in": measure.high_in, "signed": measure.signed,
    }  # fmt: skip


def _decide(session: Session, seen: Seen, review: Review, row: Revision, sent: Sent, item_id: int) -> None:
    """Let a decision take effect. Raises: Moved, Refused; the caller's transaction is undone with them."""
    if row.state not in revisions.OPEN:
        raise _closed(session, row, sent.base)
    if not sent.place:
        _decide_whole(session, seen, review, row, sent)
        return
    here = _at(session, row.id, sent.place, sent.stage, item_id)
    _nobody_since(here, seen, sent)
    words, spot = sent.text.strip(), reviews.spots(here, {}).get((sent.place, sent.stage), reviews.NOTHING)
    if sent.item == reviews.SEND_BACK and not words:
        raise Refused({"note": "Say in the note what is to be put right, then send it back."})
    if sent.item == reviews.ASK and not words:
        raise Refused({"note": "Say in the note what the engineer is asked."})
    if sent.item == ACCEPT and spot.out and not words:
        raise Refused({"note": "A measure is out of range. Say in the note why it is accepted."})


def _at(session: Session, revision_id: int, place: str, stage: str, before: int) -> list[ReviewItem]:
    query = select(ReviewItem).where(
        ReviewItem.revision_id == revision_id,
        ReviewItem.place == place,
        ReviewItem.stage == stage,
        ReviewItem.id < before,
    )
    return list(session.scalars(query.order_by(ReviewItem.id)))


def _nobody_since(here: list[ReviewItem], seen: Seen, sent: Sent) -> None:
    """A decision must know the one before it, unless that is the same person's own."""
    old = next((item for item in reversed(here) if item.kind == DECISION), None)
    if old is None or old.id <= sent.last or _own(old, seen):
        return
    said = f", saying: {old.value['words']}" if old.value.get("words") else ""
    raise Moved(f"{old.who} decided “{old.item}” here on {log.utc(old.at)}{said}. Look at that, then decide again.")


def _own(old: ReviewItem, seen: Seen) -> bool:
    if seen.link_id:
        return old.link_id is not None and old.who == seen.name
    return old.person_id == seen.person_id


def _decide_whole(session: Session, seen: Seen, review: Review, row: Revision, sent: Sent) -> None:
    query = select(ReviewItem).where(ReviewItem.revision_id == row.id, ReviewItem.kind == DECISION)
    found = reviews.spots(session.scalars(query.order_by(ReviewItem.id)), {})
    wrong = {key for (key, _), spot in found.items() if key and spot.last and spot.last.item != ACCEPT}
    accept = sent.item == ACCEPT
    if accept and wrong and not sent.text.strip():
        raise Refused({"words": "Places were sent back or the engineer was asked. Say why the whole is accepted."})
    places = tuple(place.said for place in review.places if place.key in wrong)
    authority = seen.office if seen.link_id else ""
    said = log.Said(
        WHOLE[sent.item], words=sent.text.strip(), authority=authority, places=() if accept else places,
        device_at=sent.device_at,
    )  # fmt: skip
    revisions.decide(session, seen, row, accept, said)


def _closed(session: Session, row: Revision, base: int) -> Exception:
    """Why nothing can be decided: it is frozen so since before the decision, or it moved since."""
    last = revisions.latest(session, row.job_id)
    newer = f" Go on with revision {last.letter}." if last and last.id != row.id else ""
    if base == row.version:
        return Refused(
            {"": f"Revision {row.letter} is {row.state}; nothing more can be decided about it."
             f"{newer or ' Changes are submitted as the next revision.'}"}
        )  # fmt: skip
    return Moved(
        f"Revision {row.letter} is {row.state} since this was decided, so the decision was not stored."
        f"{newer or ' Look at who decided what, and talk to them before deciding anew.'}"
    )
