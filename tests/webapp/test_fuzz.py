"""Whatever is typed, sent or put into an address is read or refused; nothing breaks the program."""

import io
import json
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image

from tests.fuzz.targets import TARGETS, picture, stations
from tests.world import World, house
from webapp.services import photos

GOOD = {
    "quantity": b"10 ft 3 1/2 in",
    "job": json.dumps(house()).encode(),
    "sheet": b"Name,Length\nW1,40 ft\n",
    "picture": b"",
    "stations": b"16;32;48\n1 ft 4 in\n2 ft 8 in\n6 ft",
}
LISTS = ("/jobs", "/log", "/proving", "/people/audit", "/jobs/{job}", "/jobs/{job}/log", "/reviews", "/try/ledge_seat")
NAMES = ("q", "verdict", "sort", "page", "size", "before", "since", "until", "what", "permit", "units", "open", "next")
TYPED = st.text(max_size=60) | st.from_regex(r"[-+0-9 ./'\"ftinm;eE]{0,40}", fullmatch=True)


@cache
def photograph(kind: str) -> bytes:
    """A small picture."""
    out = io.BytesIO()
    Image.linear_gradient("L").resize((40, 30)).convert("RGB").save(out, kind)
    return out.getvalue()


@pytest.mark.parametrize("name", TARGETS)
@given(data=st.binary(max_size=200), at=st.integers(0, 5000), many=st.integers(0, 20))
def test_a_parser_reads_or_refuses_random_and_damaged_bytes(name: str, data: bytes, at: int, many: int) -> None:
    good = GOOD[name] or photograph("JPEG")
    at %= len(good)
    TARGETS[name](data)
    TARGETS[name](good[:at] + data[:many] + good[at + many :])


@given(st.lists(TYPED, min_size=1, max_size=8))
def test_stations_typed_anyhow_are_read_or_named_as_wrong(texts: list[str]) -> None:
    stations("\n".join(texts).encode(errors="replace"))


@given(st.sampled_from(photos.KINDS), st.integers(0, 1000), st.binary(min_size=1, max_size=8), st.integers(1, 1000))
def test_a_damaged_photograph_is_shown_or_refused(kind: str, at: int, put: bytes, cut: int) -> None:
    good = photograph(kind)
    at %= len(good)
    picture(good[:at] + put + good[at + len(put) :])
    picture(good[: cut % len(good)])


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(LISTS), st.dictionaries(st.sampled_from(NAMES), TYPED, max_size=4))
def test_an_address_with_anything_behind_it_is_answered_or_refused(
    at: World, job: int, path: str, asked: dict[str, str]
) -> None:
    answer = at.reader.get(path.format(job=job), params={n: t.encode(errors="replace") for n, t in asked.items()})
    assert answer.status_code < 500, (path, asked)


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.binary(max_size=300),
    st.text("abc-_'\"\r\n;=%\x00\u00e9", max_size=20),
    st.sampled_from(["image/jpeg", "text/html", ""]),
)
def test_a_form_with_files_of_any_name_and_content_is_answered_or_refused(
    at: World, job: int, data: bytes, name: str, media: str
) -> None:
    form = {"what": "note", "words": "x"}
    answer = at.reader.post(f"/jobs/{job}/log", data=form, files={"file": (name, data, media)})
    assert answer.status_code < 500, (name, answer.text[:200])
    raw = at.reader.post(
        f"/jobs/{job}/log", content=data, headers={"Content-Type": f"multipart/form-data; boundary={media}x"}
    )
    assert raw.status_code < 500
