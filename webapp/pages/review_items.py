"""What a reviewer found, as it is sent: one item by the page's script, the form of a place without it, or a file of unsent work."""

import json
from base64 import b64decode
from binascii import Error as NotBase64
from collections.abc import Callable, Iterator
from dataclasses import replace
from hashlib import sha256
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import JSONResponse, Response

from engine.review import STAGES
from engine.units import System
from webapp.pages import review, review_view
from webapp.pages.ask import Db, Id, JobHere, PostedFiles, SeenHere, Uploaded
from webapp.pages.view import lead_on, page
from webapp.services import reviews
from webapp.services.refusals import Missing, Refused
from webapp.services.review_items import DECISION, MEASURE, NOTE, PHOTO, TICK, Moved, NotTheirs, Sent, Taken, take
from webapp.services.reviews import Review
from webapp.services.sign_in import Seen
from webapp.store import Database, reading

router = APIRouter(prefix="/jobs/{job_id}/review/{number}", include_in_schema=False)
WORDS = {"key": 64, "kind": 20, "place": 80, "stage": 20, "item": 80, "by": 40, "fingerprint": 64, "device_at": 40}
ANOTHER = (
    "Somebody else found this. It stays on the device; whoever found it signs in there, and it is sent in their name."
)
MOST_LOADED = 2000


@router.post("/items")
def items(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id, form: Uploaded) -> Response:
    """Take what was found."""
    if form.get("do") == "unsent":
        return _load(request, db, seen, job.id, number, form)
    with reading(db) as session:
        found = reviews.look(session, seen, job.id, number)
    if form.get("do") == "place":
        return _from_place(request, db, seen, found, form)
    if form.get("do") == "whole":
        return _whole(request, db, seen, found, form)
    photo = form.files[0].data if form.files else b""
    return _answer(
        lambda: take(db, seen, job.id, number, _sent(form, photo, request.headers.get("idempotency-key", "")))
    )


def _sent(texts: dict[str, Any], photo: bytes = b"", key: str = "") -> Sent:
    """An item from its texts; what is too long for its place is cut, and then is unknown there."""
    short = {name: str(texts.get(name, ""))[:most] for name, most in WORDS.items()}
    return Sent(
        **(short | {"key": key[:65] or short["key"]}),
        text=str(texts.get("text", "")).replace("\x00", ""),
        units=_units(texts),
        base=_count(texts.get("base")),
        last=_count(texts.get("last")),
        photo=photo,
    )


def _units(texts: dict[str, Any]) -> System:
    return "mm" if texts.get("units") == "mm" else "ft in"


def _count(text: object) -> int:
    return int(str(text)) if str(text).isdecimal() and len(str(text)) < 10 else 0


def _answer(done: Callable[[], Taken]) -> Response:
    """What the page's script is told; its status decides what becomes of the item on the device."""
    try:
        taken = done()
    except Moved as moved:
        return JSONResponse({"state": "conflict", "words": moved.words}, 409)
    except Refused as refused:
        return JSONResponse({"state": "refused", "words": " ".join(refused.errors.values())}, 422)
    except NotTheirs:
        return JSONResponse({"state": "another", "words": ANOTHER}, 403)
    except Missing:
        words = "There is no such place in this revision. Open the review anew; the item stays on the device."
        return JSONResponse({"state": "refused", "words": words}, 422)
    return JSONResponse({"state": "stored", "id": taken.id, "words": taken.words}, 201 if taken.new else 200)


# Without script


def _from_place(request: Request, db: Database, seen: Seen, found: Review, form: PostedFiles) -> Response:
    """The form of a place: what changed in it, one item each, the decision last."""
    place, stage = found.place(form.get("place", "")), form.get("stage", "")
    if stage not in STAGES:
        raise Missing
    status, errors = 0, dict[str, str]()
    for sent in _changed(form, place.key, stage):
        if errors and sent.kind == DECISION:
            break  # what was found must be kept before it is decided on
        try:
            take(db, seen, found.job.id, found.revision.number, sent)
        except Refused as refused:
            status, errors = 422, errors | {name or "note": words for name, words in refused.errors.items()}
        except Moved as moved:
            status, errors = 409, errors | {"note": moved.words}
    if errors:
        with reading(db) as session:
            now = reviews.look(session, seen, found.job.id, found.revision.number)
        return review.place_page(request, now, seen, place.key, stage, status, errors, form)
    if form.get("decide"):
        return lead_on(
            review_view.next_after(found, place, stage), f"{place.said}: {reviews.DECISIONS[form['decide']]}."
        )
    return lead_on(review_view.address(found, place, stage), "Kept.")


def _changed(form: PostedFiles, place: str, stage: str) -> Iterator[Sent]:
    """What differs from what the page showed. Its keys come from the page's, so that sending it twice stores it once."""

    def made(kind: str, item: str, text: str, photo: bytes = b"") -> Sent:
        what = "|".join((form.get("form_key", ""), kind, item, sha256(photo).hexdigest() if photo else ""))
        key = sha256(what.encode()).hexdigest()[:48] if form.get("form_key") else ""
        return _sent({**form, "kind": kind, "item": item, "text": text, "place": place, "key": key}, photo)

    for name in form:
        kind, _, item = name.removeprefix("was-").partition("-")
        if name.startswith("was-") and kind in (TICK, MEASURE):
            text = form.get(name.removeprefix("was-"), "no" if kind == TICK else "")
            if text != form[name] and (text or kind == TICK):
                yield made(kind, item, text)
    for file in form.files:
        yield made(PHOTO, "", file.name[:200], file.data)
    words = form.get("note", "").strip()
    if form.get("decide"):
        yield made(DECISION, form["decide"], words)
    elif words:
        yield made(NOTE, "", words)


def _whole(request: Request, db: Database, seen: Seen, found: Review, form: PostedFiles) -> Response:
    """The decision about the whole, from its page."""
    sent = replace(_sent({**form, "kind": DECISION, "place": "", "stage": ""}), place="", stage="")
    try:
        take(db, seen, found.job.id, found.revision.number, sent)
    except Refused as refused:
        errors = {"text": " ".join(refused.errors.values())}
        return review.decide_page(request, found, seen, sent.item or "accept", 422, errors, sent.text)
    except Moved as moved:
        with reading(db) as session:
            now = reviews.look(session, seen, found.job.id, found.revision.number)
        return review.decide_page(request, now, seen, sent.item, 409, {"text": moved.words}, sent.text)
    said = "accepted" if sent.item == reviews.ACCEPT else "sent back"
    return lead_on(review_view.address(found), f"Revision {found.revision.letter} {said}. It stands in the log.")


# A file of unsent work


@router.get("/unsent")
def unsent(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id) -> Response:
    """Where a file of unsent work is loaded."""
    with reading(db) as session:
        found = reviews.look(session, seen, job.id, number)
    return page(request, "pages/review_unsent.html", job=job, results=None, error="", **review_view.common(found, seen))


def _load(request: Request, db: Database, seen: Seen, job_id: int, number: int, form: PostedFiles) -> Response:
    """Take every item of a file; each says what became of it."""
    with reading(db) as session:
        found = reviews.look(session, seen, job_id, number)
    error, results = "", []
    try:
        for one in _items(form.files[0].data if form.files else b"", f"/jobs/{job_id}/review/{number}/items"):
            results.append((one, *_became(lambda one=one: take(db, seen, job_id, number, one))))  # type: ignore[misc]
    except ValueError as bad:
        error = str(bad)
    return page(
        request, "pages/review_unsent.html", status=422 if error else 200, job=found.job, results=results, error=error,
        **review_view.common(found, seen),
    )  # fmt: skip


def _became(done: Callable[[], Taken]) -> tuple[str, str]:
    """A mark's name and words for one item of a file."""
    try:
        taken = done()
    except Moved as moved:
        return "flag", moved.words
    except Refused as refused:
        return "flag", " ".join(refused.errors.values())
    except NotTheirs:
        return "flag", ANOTHER
    except Missing:
        return "flag", "There is no such place in this revision."
    return "pass", taken.words or "Stored."


def _items(data: bytes, address: str) -> list[Sent]:
    """The items of a file that belong here. Raises: ValueError saying what to do."""
    try:
        rows = json.loads(data)["items"]
        if not isinstance(rows, list) or len(rows) > MOST_LOADED:
            raise TypeError
        own = [row for row in rows if row.get("url") == address]
        found = [
            _sent(dict(row["fields"]), b64decode(row.get("photo") or "", validate=True), row["key"]) for row in own
        ]
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError, NotBase64) as bad:
        raise ValueError("Choose the file that “Download unsent work” made; this one can't be read.") from bad
    if not found:
        raise ValueError(
            "Nothing in this file is of this revision. Open the revision it was made on and load it there."
        )
    return found
