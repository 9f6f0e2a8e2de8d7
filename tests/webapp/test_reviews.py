"""Reviews: each item once, bound to who found it; conflicts shown; pictures made safe; what was built beside what was drawn."""

import csv
import io
import json
import re
import struct
import zlib
from base64 import b64encode
from typing import Any

import pytest
from httpx2 import Response
from PIL import Image
from sqlalchemy import select

from tests.webapp.test_revisions import linked, submitted
from tests.world import Reader, World
from webapp.models import LogEntry, Photo, ReviewItem, Revision
from webapp.services import checklists, log, photos, reviews, revisions
from webapp.services.refusals import Refused
from webapp.store import reading

JSON = {"Accept": "application/json"}
WHEN = "2026-05-27T09:12:00Z"


@pytest.fixture
def revision(at: World, job: int) -> Revision:
    """A submitted revision of the small house."""
    return submitted(at, job)


def sent(reader: Reader, job: int, key: str, **fields: Any) -> Response:
    """Send an item as the page's script does; by default a tick of the first line of A1 before placing."""
    photo = fields.pop("photo", None)
    texts = {
        "kind": "tick",
        "place": "A1",
        "stage": "before placing",
        "item": "line-1",
        "text": "yes",
        "device_at": WHEN,
    } | fields
    files = {"photo": ("p.jpg", photo, "image/jpeg")} if photo is not None else {"none": ("", b"")}
    headers = JSON | {"Idempotency-Key": key}
    return reader.post(f"/jobs/{job}/review/1/items", data=texts | {"key": key}, files=files, headers=headers)


def kept(at: World) -> list[ReviewItem]:
    """All items, in order."""
    with reading(at.db) as session:
        return list(session.scalars(select(ReviewItem).order_by(ReviewItem.id)))


def state(at: World, job: int) -> Revision:
    """The revision as it stands."""
    with reading(at.db) as session:
        return revisions.find(session, job, 1)


def picture(width: int = 60, height: int = 40, kind: str = "JPEG", **more: Any) -> bytes:
    """A picture of one colour."""
    out = io.BytesIO()
    Image.new("RGB", (width, height), "teal").save(out, kind, **more)
    return out.getvalue()


# Once each, and whose


def test_an_item_sent_twice_is_stored_once_and_answered_the_same(at: World, job: int, revision: Revision) -> None:
    inspector = at.as_("inspector")
    first, again = (sent(inspector, job, "a-key-of-its-own") for _ in range(2))
    assert (first.status_code, again.status_code) == (201, 200)
    assert first.json()["id"] == again.json()["id"]
    (item,) = kept(at)
    assert (item.place, item.item, item.value["on"], item.role) == ("A1", "line-1", True, "inspector")
    assert item.value["words"] == "Each stands at its station; what is off is measured"
    assert state(at, job).state == "under review"


def test_a_key_used_for_another_content_is_refused_and_what_is_stored_stays(
    at: World, job: int, revision: Revision, caplog: pytest.LogCaptureFixture
) -> None:
    inspector = at.as_("inspector")
    sent(inspector, job, "a-key-of-its-own")
    answer = sent(inspector, job, "a-key-of-its-own", text="no")
    assert answer.status_code == 422
    assert "What is stored stays; enter this one again" in answer.json()["words"]
    assert sent(at.reader, job, "a-key-of-its-own").status_code == 422, "the same key from somebody else"
    assert [item.value["on"] for item in kept(at)] == [True]
    assert "refused: tick of A1 by" in caplog.text


def test_an_item_goes_under_the_name_of_whoever_found_it_only(at: World, job: int, revision: Revision) -> None:
    inspector = at.as_("inspector")
    found = re.search(r'data-who="(person-\d+)"', inspector.get(f"/jobs/{job}/review/1").text)
    assert found
    answer = sent(at.reader, job, "found-by-another", by=found[1])
    assert answer.status_code == 403
    assert "signs in there" in answer.json()["words"]
    assert kept(at) == []
    assert sent(inspector, job, "found-by-another", by=found[1]).status_code == 201


def test_an_outsider_who_comes_back_by_a_new_link_sends_what_was_found_before(
    at: World, job: int, revision: Revision
) -> None:
    first, second = at.nobody(), at.nobody()
    first.post(linked(at, job))
    found = re.search(r'data-who="(link-\d+)"', first.get(f"/jobs/{job}/review/1").text)
    assert found
    assert sent(first, job, "stored-but-unsaid", by=found[1]).status_code == 201
    second.post(linked(at, job))
    assert sent(second, job, "stored-but-unsaid", by=found[1]).status_code == 200
    assert sent(second, job, "found-then-sent-now", by=found[1]).status_code == 201
    assert len(kept(at)) == 2


def test_an_outsider_sees_and_reviews_one_revision_only(at: World, job: int, revision: Revision) -> None:
    outsider = at.nobody()
    outsider.post(linked(at, job))
    at.reader.post(f"/jobs/{job}/walls/1/delete", data={"version": "1"})
    at.as_("designer").post(f"/jobs/{job}/revisions", data={"note": ""})
    assert outsider.get(f"/jobs/{job}/review/1").status_code == 200
    assert outsider.get(f"/jobs/{job}/review/1/before-placing/A1").status_code == 200
    for path in (
        f"/jobs/{job}/review/2",
        f"/jobs/{job}/review/2/as-built",
        f"/jobs/{job}",
        "/reviews",
        "/office/checklists",
    ):
        assert outsider.get(path).status_code == 404, path
    other = outsider.post(f"/jobs/{job}/review/2/items", data={"kind": "tick", "key": "of-another-revision"})
    assert other.status_code == 404
    assert sent(outsider, job, "of-their-revision").status_code == 201
    assert kept(at)[0].who == "Pat Lane"


@pytest.mark.parametrize("role", ["designer", "office"])
def test_who_does_not_review_looks_and_changes_nothing(at: World, job: int, revision: Revision, role: str) -> None:
    reader = at.as_(role)
    assert "Accept the revision" not in reader.get(f"/jobs/{job}/review/1").text
    assert 'name="decide"' not in reader.get(f"/jobs/{job}/review/1/before-placing/A1").text
    assert sent(reader, job, "not-for-this-role").status_code == 403
    assert at.stranger().get(f"/jobs/{job}/review/1").status_code == 404
    assert sent(at.nobody(), job, "nobody-is-signed-in").status_code == 401
    assert kept(at) == []


# What is found


@pytest.mark.parametrize(
    ("text", "units", "inches", "verdict"),
    [
        ("3 1/2", "ft in", 3.5, "pass"),
        ("3 3/8 in", "ft in", 3.375, "flag"),
        ("89", "mm", 89 / 25.4, "pass"),
        ("85 mm", "ft in", 85 / 25.4, "flag"),
    ],
)
def test_a_measure_is_held_against_what_the_check_found_to_hold(
    at: World, job: int, revision: Revision, text: str, units: str, inches: float, verdict: str
) -> None:
    fields = {"kind": "measure", "stage": "after placing", "item": "lower_core_in", "text": text, "units": units}
    assert sent(at.as_("inspector"), job, "measured-once", **fields).status_code == 201
    (item,) = kept(at)
    assert item.value["in"] == pytest.approx(inches)
    assert item.value["verdict"] == verdict


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"kind": "measure", "item": "lower_core_in", "stage": "after placing", "text": "wide"}, "can't be read"),
        ({"kind": "measure", "item": "lower_core_in", "stage": "after placing", "text": "-2"}, "from 0 up"),
        ({"kind": "measure", "item": "colour", "text": "2"}, "not measured here"),
        ({"kind": "tick", "item": "line-99"}, "not on the list"),
        ({"kind": "note", "text": "  "}, "Write the note"),
        ({"kind": "note", "text": "x" * 2001}, "at most 2000"),
        ({"kind": "song"}, "nothing a review keeps"),
        ({"kind": "decision", "item": "burn it"}, "Accept the place"),
        ({"kind": "decision", "item": "send back", "text": ""}, "what is to be put right"),
        ({"place": "A99"}, "no such place"),
        ({"stage": "at midnight"}, "no such place"),
        ({"fingerprint": "0" * 16}, "another document"),
    ],
)
def test_what_can_not_be_used_is_refused_saying_what_to_do_and_nothing_is_stored(
    at: World, job: int, revision: Revision, fields: dict[str, str], said: str
) -> None:
    answer = sent(at.as_("inspector"), job, "refused-entry", **fields)
    assert answer.status_code in (409, 422)
    assert said in answer.json()["words"]
    assert kept(at) == []


def test_a_key_that_is_none_is_refused(at: World, job: int, revision: Revision) -> None:
    for key in ("short", "with space in it", "x" * 65, ""):
        assert sent(at.as_("inspector"), job, key).status_code == 422


def test_what_goes_past_the_range_is_accepted_with_a_reason_only(at: World, job: int, revision: Revision) -> None:
    inspector, there = at.as_("inspector"), {"stage": "after placing"}
    sent(inspector, job, "measured-short", kind="measure", item="lower_core_in", text="3 3/8", **there)
    bare = sent(inspector, job, "accepted-bare", kind="decision", item="accept", text="", **there)
    assert bare.status_code == 422
    assert "why it is accepted" in bare.json()["words"]
    told = sent(inspector, job, "accepted-told", kind="decision", item="accept", text="Plate is 3 in here.", **there)
    assert told.status_code == 201


@pytest.mark.parametrize(
    ("device", "said"),
    [
        ("2031-01-01T00:00:00Z", "later than this was received"),
        ("2019-05-03T10:00:00Z", "before this revision was submitted"),
        ("yesterday-ish", "no readable time"),
        ("x" * 400, "no readable time"),
    ],
)
def test_a_device_with_a_wrong_clock_is_believed_in_nothing_else(
    at: World, job: int, revision: Revision, device: str, said: str
) -> None:
    inspector = at.as_("inspector")
    assert sent(inspector, job, "odd-clock-note", kind="note", text="Dry.", device_at=device).status_code == 201
    (item,) = kept(at)
    assert item.device_at == device[:40]
    assert said in reviews.clock_says(item, revision.made_at)
    assert said in inspector.get(f"/jobs/{job}/review/1/before-placing/A1").text


# Conflicts


def test_a_decision_another_has_made_meanwhile_is_a_conflict_and_loses_nothing(
    at: World, job: int, revision: Revision
) -> None:
    inspector, other = at.as_("inspector"), at.reader
    sent(other, job, "first-decision", kind="decision", item="send back", text="Foam torn.")
    late = sent(inspector, job, "second-decision", kind="decision", item="accept", text="")
    assert late.status_code == 409
    assert "Foam torn." in late.json()["words"]
    assert "decide again" in late.json()["words"]
    assert len(kept(at)) == 1
    knowing = sent(inspector, job, "third-decision", kind="decision", item="accept", text="", last=kept(at)[0].id)
    assert knowing.status_code == 201
    assert (
        sent(inspector, job, "fourth-decision", kind="decision", item="ask the engineer", text="Sure?").status_code
        == 201
    )


def test_a_revision_that_moved_gives_a_conflict_for_decisions_and_keeps_what_was_found(
    at: World, job: int, revision: Revision
) -> None:
    inspector = at.as_("inspector")
    base = revision.version
    at.reader.post(f"/jobs/{job}/walls/3", data={"version": "1"})  # whatever; the next revision needs a change
    with_note = at.as_("designer").post(
        f"/jobs/{job}/edit", data={"name": "Small house 2", "edition": "US 2021", "seismic": "C"}
    )
    assert with_note.status_code in (303, 409, 422)
    whole = {"kind": "decision", "place": "", "stage": "", "text": "Put the bolts in.", "base": base}
    assert sent(at.reader, job, "returned-meanwhile", item="return", **whole).status_code == 201
    answer = sent(inspector, job, "decided-on-the-old", kind="decision", item="accept", text="", base=base)
    assert answer.status_code == 409
    assert "Revision A is returned since this was decided" in answer.json()["words"]
    for key, fields in (
        ("tick-after-it", {}),
        ("note-after-it", {"kind": "note", "text": "Rain."}),
        ("photo-after-it", {"kind": "photo", "text": "", "photo": picture()}),
    ):
        answer = sent(inspector, job, key, **fields)
        assert answer.status_code == 201
        assert "returned meanwhile" in answer.json()["words"]
    assert [item.value.get("late") for item in kept(at)][1:] == ["returned"] * 3


def test_a_decision_on_a_frozen_revision_is_refused_logged_and_changes_nothing(
    at: World, job: int, revision: Revision, caplog: pytest.LogCaptureFixture
) -> None:
    whole = {"kind": "decision", "place": "", "stage": "", "text": "", "base": 1}
    assert sent(at.reader, job, "accepted-first", item="accept", **whole).status_code == 201
    before = state(at, job)
    assert before.state == "accepted"
    answer = sent(at.reader, job, "accepted-again", item="return", **whole | {"text": "No.", "base": before.version})
    assert answer.status_code == 422
    assert "Changes are submitted as the next revision" in answer.json()["words"]
    after = state(at, job)
    assert (after.state, after.version, after.document) == (before.state, before.version, before.document)
    assert "accepted; nothing more can be decided" in caplog.text
    assert len(kept(at)) == 1


def test_the_whole_is_decided_once_and_logged_with_who_and_when(at: World, job: int, revision: Revision) -> None:
    inspector = at.as_("inspector")
    sent(inspector, job, "place-sent-back", kind="decision", item="send back", text="No bolts.")
    whole = {"kind": "decision", "place": "", "stage": "", "base": 1, "device_at": WHEN}
    assert sent(inspector, job, "accept-unsaid", item="accept", text="", **whole).status_code == 422
    assert sent(inspector, job, "the-return", item="return", text="Bolts of A1.", **whole).status_code == 201
    assert sent(inspector, job, "the-return", item="return", text="Bolts of A1.", **whole).status_code == 200
    with reading(at.db) as session:
        rows = session.scalars(select(LogEntry).where(LogEntry.what == "returned")).all()
        assert log.verify(session, 1).problems == ()
    (row,) = rows
    assert (row.words, row.places, row.device_at, row.fingerprint) == (
        "Bolts of A1.",
        ["A1"],
        WHEN,
        revision.fingerprint,
    )


# Without script


def form_of(reader: Reader, path: str) -> dict[str, str]:
    """The hidden fields and inputs of a place's form, ticks left out."""
    return {name: value for name, value in reader.page(path).values.items() if not name.startswith(("tick-", "photo"))}


def test_a_place_is_reviewed_by_plain_forms(at: World, job: int, revision: Revision) -> None:
    inspector, path = at.as_("inspector"), f"/jobs/{job}/review/1/before-placing/A1"
    form = form_of(inspector, path) | {"tick-line-1": "yes", "measure-bolt_embedment_in": "7 1/4", "note": "Dry."}
    files = [("photo", ("a.jpg", picture(), "image/jpeg"))]
    kept_page = inspector.follow(inspector.post(f"/jobs/{job}/review/1/items", data=form, files=files))
    assert [item.kind for item in kept(at)] == ["measure", "tick", "photo", "note"]
    assert "Dry." in kept_page.text
    assert "7 1/4" in kept_page.text
    inspector.post(f"/jobs/{job}/review/1/items", data=form, files=files)
    assert len(kept(at)) == 4, "the same form twice"
    form = form_of(inspector, path) | {"tick-line-1": "yes", "decide": "accept"}
    decided = inspector.post(f"/jobs/{job}/review/1/items", data=form)
    assert decided.headers["location"].endswith("/before-placing/wall-1-2"), "the next place"
    assert [item.kind for item in kept(at)][4:] == ["decision"]
    assert "accepted" in inspector.get(f"/jobs/{job}/review/1").text


def test_a_form_that_can_not_be_used_comes_back_with_all_that_was_typed(
    at: World, job: int, revision: Revision
) -> None:
    inspector, path = at.as_("inspector"), f"/jobs/{job}/review/1/before-placing/A1"
    form = form_of(inspector, path) | {"measure-bolt_embedment_in": "deep", "note": "Kept words", "decide": "accept"}
    answer = inspector.post(f"/jobs/{job}/review/1/items", data=form)
    assert answer.status_code == 422
    assert "deep" in answer.text
    assert "Kept words" in answer.text
    assert kept(at) == []
    bare = inspector.post(f"/jobs/{job}/review/1/items", data=form_of(inspector, path) | {"decide": "send back"})
    assert bare.status_code == 422
    assert "what is to be put right" in bare.text


def test_a_conflict_without_script_shows_what_moved_and_asks_again(at: World, job: int, revision: Revision) -> None:
    inspector, path = at.as_("inspector"), f"/jobs/{job}/review/1/before-placing/A1"
    form = form_of(inspector, path) | {"decide": "accept"}
    sent(at.reader, job, "decided-meanwhile", kind="decision", item="send back", text="Foam torn.")
    answer = inspector.post(f"/jobs/{job}/review/1/items", data=form)
    assert answer.status_code == 409
    assert "Foam torn." in answer.text
    again = Reader(at.app)
    again.cookies.update(inspector.cookies)
    retry = dict(re.findall(r'<input type="hidden" name="([\w-]+)" value="([^"]*)"', answer.text))
    assert again.post(f"/jobs/{job}/review/1/items", data=retry | {"decide": "accept"}).status_code == 303


def test_the_whole_is_decided_on_a_page_of_its_own(at: World, job: int, revision: Revision) -> None:
    inspector = at.as_("inspector")
    page = inspector.page(f"/jobs/{job}/review/1/decide?do=return")
    assert inspector.get(f"/jobs/{job}/review/1/decide?do=burn").status_code == 404
    bare = inspector.post(f"/jobs/{job}/review/1/items", data=page.values | {"text": ""})
    assert bare.status_code == 422
    assert "Say what is to be put right" in bare.text
    form = inspector.page(f"/jobs/{job}/review/1/decide?do=return").values
    done = inspector.follow(inspector.post(f"/jobs/{job}/review/1/items", data=form | {"text": "More bolts."}))
    assert "returned" in done.text
    assert state(at, job).state == "returned"


# Photographs


def test_a_photograph_is_kept_as_nothing_but_the_picture(at: World, job: int, revision: Revision) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # taken with the device on its side
    exif[0x010F] = "A maker's name"
    exif.get_ifd(0x8825)[1] = "N"
    data = picture(2400, 1200, exif=exif, comment=b"somewhere")
    assert b"maker" in data
    inspector = at.as_("inspector")
    assert sent(inspector, job, "a-photograph", kind="photo", item="", text="", photo=data).status_code == 201
    with reading(at.db) as session:
        photo_id = session.scalars(select(Photo.id)).one()
    answer = inspector.get(f"/jobs/{job}/review/1/photos/{photo_id}")
    assert (answer.headers["content-type"], answer.headers["x-content-type-options"]) == ("image/jpeg", "nosniff")
    image = Image.open(io.BytesIO(answer.content))
    assert image.size == (800, 1600)
    assert not image.getexif()
    assert b"maker" not in answer.content
    assert b"somewhere" not in answer.content
    assert at.stranger().get(f"/jobs/{job}/review/1/photos/{photo_id}").status_code == 404
    assert at.as_("designer").get(f"/jobs/{job}/review/1/photos/{photo_id}").status_code == 200


def png(width: int, height: int, body: bytes = b"") -> bytes:
    """A PNG that announces a size."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"\xff\xd8\xff\xe0not a picture", "not a whole picture"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>", "not a whole picture"),
        (b"GIF89a" + bytes(40), "not a whole picture"),
        (picture(400, 300)[:900], "not a whole picture"),
        (png(50_000, 50_000, zlib.compress(bytes(10_000))), "million points"),
        (png(6000, 5000, zlib.compress(bytes(10_000))), "million points"),
        (bytes(12_000_001), "larger than 12 MB"),
        (b"", "not a whole picture"),
    ],
    ids=["named so", "svg", "gif", "cut off", "bomb", "thirty million points", "too many bytes", "empty"],
)
def test_what_is_no_picture_or_a_bomb_is_refused(
    at: World, job: int, revision: Revision, data: bytes, said: str
) -> None:
    with pytest.raises(Refused, match=said):
        photos.prepare(data)
    answer = sent(at.as_("inspector"), job, "no-photograph", kind="photo", item="", text="", photo=data)
    assert answer.status_code == 422
    assert said in answer.json()["words"]
    assert kept(at) == []


def test_a_photograph_of_forty_million_points_is_made_small_without_being_opened_whole() -> None:
    import tracemalloc

    data = picture(8000, 5000, quality=30)
    tracemalloc.start()
    small = photos.prepare(data)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert max(small.width, small.height) == 1600
    assert peak < 60_000_000
    with pytest.raises(Refused, match="24 million points"):
        photos.prepare(picture(8000, 5000, quality=30, progressive=True))


def test_a_photograph_with_holes_in_it_stands_on_white() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (10, 10), (255, 0, 0, 0)).save(out, "PNG")
    image = Image.open(io.BytesIO(photos.prepare(out.getvalue()).data))
    assert image.getpixel((5, 5)) == (255, 255, 255)


# Unsent work


def test_a_file_of_unsent_work_is_loaded_once_however_often(at: World, job: int, revision: Revision) -> None:
    inspector = at.as_("inspector")
    address = f"/jobs/{job}/review/1/items"
    tick = {"kind": "tick", "place": "A1", "stage": "before placing", "item": "line-2", "text": "yes"}
    photo = {"kind": "photo", "place": "A1", "stage": "before placing", "text": ""}
    items = [
        {"key": "loaded-tick", "url": address, "fields": tick, "photo": ""},
        {"key": "loaded-photo", "url": address, "fields": photo, "photo": b64encode(picture()).decode()},
        {"key": "of-another", "url": "/jobs/999/review/1/items", "fields": tick, "photo": ""},
    ]
    files = {"unsent": ("unsent.json", json.dumps({"wallseat_unsent": 1, "items": items}), "application/json")}
    for said in ("Stored.", "It had been stored before."):
        answer = inspector.post(address, data={"do": "unsent"}, files=files)
        assert answer.text.count(said) == 2
    assert [item.kind for item in kept(at)] == ["tick", "photo"]


@pytest.mark.parametrize(
    "text", ["", "{", "[]", '{"items": 3}', '{"items": [3]}', '{"items": [{"url": "/x"}]}', "[" * 9000]
)
def test_another_file_is_refused_saying_which_to_choose(at: World, job: int, revision: Revision, text: str) -> None:
    files = {"unsent": ("unsent.json", text, "application/json")}
    answer = at.as_("inspector").post(f"/jobs/{job}/review/1/items", data={"do": "unsent"}, files=files)
    assert answer.status_code == 422
    assert "Download unsent work" in answer.text or "Nothing in this file" in answer.text


# As built


def test_what_was_built_stands_beside_what_was_drawn_and_what_is_to_be_put_right(
    at: World, job: int, revision: Revision
) -> None:
    inspector = at.as_("inspector")
    fields = {"kind": "measure", "stage": "after placing", "item": "lower_core_in"}
    sent(inspector, job, "seat-as-drawn", **fields, text="3 1/2")
    text = inspector.get(f"/jobs/{job}/review/1/as-built").text
    assert "Nothing that was measured or sent back" in text
    sent(inspector, job, "seat-short", **fields, text="2")
    sent(inspector, job, "wall-back", kind="decision", place="wall-1-1", item="send back", text="Brace it.")
    text = inspector.get(f"/jobs/{job}/review/1/as-built").text
    assert "as measured" in text
    assert "Brace it." in text
    assert "Work waits for these" in text
    rows = list(csv.DictReader(io.StringIO(inspector.get(f"/jobs/{job}/review/1/as-built.csv").text)))
    assert (rows[0]["place"], rows[0]["drawn"], rows[0]["built"]) == ("A1", "3 1/2 in", "2 in")
    assert (rows[0]["verdict as drawn"], rows[0]["verdict as built"]) == ("pass", "flag")


def test_a_plate_surveyed_after_placing_is_checked_with_its_shift_both_ways(at: World) -> None:
    plate = {
        "tag": "A1",
        "kind": "cast_in_plate",
        "wall": "W1",
        "level": 1,
        "start": "1 ft",
        "end": "11 ft",
        "inputs": {},
    }
    job = at.job(attachments=[plate])
    row = submitted(at, job)
    inspector = at.as_("inspector")
    page = inspector.get(f"/jobs/{job}/review/1/after-placing/A1").text
    assert "Plate off its place along the wall" in page
    assert "Plate off its place up the wall" in page
    with reading(at.db) as session:
        place = reviews.places(revisions.document(row))[1]
        known = {one.key: one for one in reviews.measures(place, "US 2021")}
        assert session.get(Revision, row.id)
    up = known["shift_up_in"]
    assert up.low_in < 0 < up.high_in
    fields = {"kind": "measure", "stage": "after placing"}
    assert sent(inspector, job, "shifted-down", item="shift_up_in", text="-1/8", **fields).status_code == 201
    sent(inspector, job, "shifted-along", item="shift_along_in", text="9", **fields)
    rows = list(csv.DictReader(io.StringIO(inspector.get(f"/jobs/{job}/review/1/as-built.csv").text)))
    assert {row["measured"] for row in rows if row["place"] == "A1"} >= {"Plate off its place along the wall"}
    assert rows[0]["verdict as built"] == "flag"


# Lists


def test_a_revision_is_reviewed_by_the_lists_of_its_day(at: World, job: int, revision: Revision) -> None:
    from datetime import timedelta

    with reading(at.db) as session:
        before = checklists.kept(session, 1, "ledge_seat", "before placing", revision.made_at)
    page = at.reader.page("/office/checklists?kind=ledge_seat&stage=before+placing")
    form = {name: value for name, value in page.values.items() if not name.endswith("-stop")} | {"do": "save"}
    form["line-0-words"] = "Bolts counted"
    assert at.as_("inspector").post("/office/checklists", data=form).status_code == 403
    done = at.as_("office").post("/office/checklists", data=form)
    assert done.status_code == 303
    with reading(at.db) as session:
        now = checklists.kept(session, 1, "ledge_seat", "before placing")
        then = checklists.kept(session, 1, "ledge_seat", "before placing", revision.made_at - timedelta(seconds=5))
    assert now.rows[0]["words"] == "Bolts counted"
    assert (now.version, now.own, then.rows) == (1, True, before.rows)
    assert at.as_("office").post("/office/checklists", data=form).status_code == 409, "somebody changed it meanwhile"


def test_a_list_is_changed_without_script_and_taken_back_to_the_published_one(at: World) -> None:
    reader, address = at.reader, "/office/checklists"
    page = reader.page(f"{address}?kind=wall&stage=at+framing")
    added = reader.post(address, data=page.values | {"do": "add"})
    assert 'name="line-1-words"' in added.text
    moved = reader.post(address, data=page.values | {"line-1-key": "", "line-1-words": "Second", "do": "up-1"})
    assert re.search(r'name="line-0-words" value="Second"', moved.text)
    empty = reader.post(address, data=page.values | {"line-0-words": "", "do": "save"})
    assert empty.status_code == 422
    assert "Line 1: enter what is looked at" in empty.text
    reader.post(address, data=page.values | {"line-0-words": "Ours", "do": "save"})
    assert "the office's own" in reader.get(address).text
    back = reader.post(address, data={"kind": "wall", "stage": "at framing", "version": "1", "do": "published"})
    assert "Nothing is hung on the wall" in back.text
    form = {"kind": "wall", "stage": "at framing", "version": "1", "do": "save"}
    rows = {f"line-0-{k}": v for k, v in checklists.published("wall", "at framing")[0].items()}
    assert reader.post(address, data=form | rows).status_code == 303
    with reading(at.db) as session:
        now = checklists.kept(session, 1, "wall", "at framing")
    assert (now.version, now.own) == (2, False)
    assert reader.get(f"{address}?kind=song&stage=at+framing").status_code == 404


def test_revisions_that_wait_are_listed_for_the_office(at: World, job: int, revision: Revision) -> None:
    assert f"/jobs/{job}/review/1" in at.as_("inspector").get("/reviews").text
    assert "Small house" in at.as_("inspector").get("/reviews.csv").text
    assert "Small house" not in at.stranger().get("/reviews").text


def test_the_worker_is_served_from_the_root_it_controls_and_asked_about_each_time(at: World) -> None:
    answer = at.nobody().get("/sw.js")
    assert answer.headers["content-type"].startswith("text/javascript")
    assert answer.headers["cache-control"] == "no-cache"
    assert answer.text.startswith('const VERSION = "')
