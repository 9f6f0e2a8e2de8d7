"""Jobs leave as one file and come back: through the database, whatever they are called, nothing is lost or changed."""

import csv
import json
import re
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from engine import attachments, fields, job_file
from engine.result import LOCAL_CODE
from tests.world import Page, World, house, world
from webapp.main import ROUTED
from webapp.services import job_files

HOSTILE = (
    '<script>alert("1")</script>', "=HYPERLINK(0)", "'; DROP TABLE job; --", "../../etc/passwd", "{at} {0.__class__} %s %n",
    "__proto__", "a\nb\tc", " spaced ", "\u202eleft\u202c", "e\u0301 \U0001f9f1 \u6f22\u5b57", "&amp;&lt;", "\\u0041\\", "\ufeff",
    "null",
)  # fmt: skip
NAMES = st.one_of(
    st.sampled_from(HOSTILE),
    st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), min_size=1, max_size=40),
).filter(str.strip)
WORDS = st.one_of(st.just(""), NAMES)
LENGTHS = ("{0} ft", "{0}-0", "{0}' 0\"", "{0}", "{0}.0 ft")  # the same length, as people type it
POINTS = ("anchored_plate", "beam_pocket")
SPANS = [key for key, kind in attachments.KINDS.items() if any(s.name == "span_ft" for s in fields.specs(kind.inputs))]
MOVES = {"ledge_seat": "anchor", "bolted_ledger": "anchor", "cast_in_plate": "plate", "sill_plate": "anchor"}


@pytest.fixture(scope="module")
def kept(tmp_path_factory: pytest.TempPathFactory) -> Iterator[World]:
    with world(tmp_path_factory.mktemp("exchange")) as made:
        yield made


@st.composite
def feet(draw: st.DrawFn, low: int, high: int) -> str:
    return draw(st.sampled_from(LENGTHS)).format(draw(st.integers(low, high)))


@st.composite
def stations(draw: st.DrawFn) -> list[str]:
    inches = sorted(draw(st.sets(st.integers(24, 110), min_size=1, max_size=5)))
    return [draw(st.sampled_from(("{0} in", "{0}.25 in", "{0} 3/16 in"))).format(at) for at in inches]


@st.composite
def a_wall(draw: st.DrawFn, name: str, types: list[str]) -> dict[str, Any]:
    """Twenty feet or more, two storeys, at most one opening in each, brackets and placing answers of its own at times."""
    storeys = [{"type": draw(st.sampled_from(types)), "height_ft": draw(feet(8, 10))} for _ in range(2)]
    openings = [
        {"start_ft": draw(feet(4, 6)), "width_ft": draw(feet(2, 4)), "storey": str(storey)}
        for storey in (1, 2)
        if draw(st.booleans())
    ]
    line = {"length_ft": draw(feet(20, 40)), "near_end": draw(st.sampled_from(("corner", "free")))}
    return {
        "name": name,
        "line": line,
        "storeys": storeys,
        "openings": openings,
        "brackets": draw(st.one_of(st.just({}), st.fixed_dictionaries({"1": stations()}))),
        "placing": draw(st.sampled_from(({}, {"pump_yd3_per_h": "14 yd³/h"}, {"air_F": "50"}))),
    }


@st.composite
def an_attachment(draw: st.DrawFn, number: int, walls: list[str]) -> dict[str, Any]:
    kind = draw(st.sampled_from([key for key in attachments.KINDS if key != "gable_end"]))
    moved = {MOVES[kind]: draw(stations())} if kind in MOVES and draw(st.booleans()) else {}
    return {
        "tag": f"A{number}",
        "kind": kind,
        "wall": draw(st.sampled_from(walls)),
        "level": draw(st.sampled_from((1, 2))) if kind in ("sill_plate", *POINTS) else 1,
        "start": draw(feet(10, 11)),
        "end": "" if kind in POINTS else draw(feet(13, 19)),
        "inputs": draw(st.sampled_from(({}, {"span_ft": "12"}, {"span_ft": "3.8 m"}))) if kind in SPANS else {},
        "moved": moved,
    }


@st.composite
def jobs(draw: st.DrawFn) -> dict[str, Any]:
    """A whole job: everything a file can hold."""
    types = draw(st.lists(NAMES, min_size=1, max_size=3, unique=True))
    walls = draw(st.lists(NAMES, min_size=1, max_size=3, unique=True))
    numbers = draw(st.lists(st.integers(1, 400), max_size=4, unique=True))
    lines = draw(st.lists(NAMES, max_size=2, unique=True))
    return {
        "wallseat_job": 2,
        "name": draw(NAMES),
        "edition": draw(st.sampled_from(("US 2021", "US 2024"))),
        "client": draw(WORDS),
        "place": draw(WORDS),
        "notes": draw(WORDS),
        "site": draw(st.sampled_from(({}, {"seismic": "C"}, {"roof_ft": "22", "wind_mph": "130"}))),
        "wall_types": {name: {"core_in": draw(st.sampled_from(("8", "10 in", "254 mm")))} for name in types},
        "walls": [draw(a_wall(name, types)) for name in walls],
        "floor_lines": [
            {
                "name": name,
                "wall": draw(st.sampled_from(walls)),
                "level": draw(st.sampled_from((1, 2))),
                "start": draw(feet(1, 3)),
                "end": draw(st.sampled_from(("", "15 ft"))),
                "inputs": draw(st.sampled_from(({}, {"span_ft": "13"}, {"member": "i_joist", "depth_in": "302 mm"}))),
            }
            for name in lines
        ],
        "attachments": [draw(an_attachment(number, walls)) for number in numbers],
        "placing": draw(st.sampled_from(({}, {"temperature_F": "50", "brace_capacity_lb": "2,500 lb"}))),
    }


@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow])
@given(document=jobs())
def test_any_job_comes_back_as_it_left(kept: World, document: dict[str, Any]) -> None:
    read = job_file.read(json.dumps(document))
    numbered = tuple(sorted(read.attachments, key=lambda entry: int(entry.tag[1:])))
    text = job_files.text(kept.db, job_files.take_in(kept.db, json.dumps(document)))
    assert text == job_file.write(replace(read, attachments=numbered))
    assert job_files.text(kept.db, job_files.take_in(kept.db, text)) == text


@pytest.mark.parametrize("name", HOSTILE)
def test_whatever_things_are_called_their_pages_and_files_hold(at: World, name: str) -> None:
    document = json.loads(json.dumps(house()).replace('"Ten"', json.dumps(name)).replace('"W1"', json.dumps(name)))
    job = job_files.take_in(at.db, json.dumps(document | {"name": name, "client": name, "place": name}))
    for page in ("", "/walls", "/types", "/walls/1", "/attachments/A1", "/setting-out", "/takeoff", "/placing"):
        assert at.reader.get(f"/jobs/{job}{page}").status_code == 200, page
    tables = ("attachments.csv", "setting-out.csv", "takeoff/rows.csv", "placing.csv")
    for file in (*tables, "plan.svg", "plan.dxf", "placing/pressure.svg", "placing/pressure.dxf"):
        answer = at.reader.get(f"/jobs/{job}/{file}")
        assert answer.status_code == 200, file
        if file.endswith(".csv"):
            assert not any(line.lstrip('"').startswith("=") for line in answer.text.splitlines()), file
    assert at.reader.get(f"/api/jobs/{job}").json()["job"]["walls"][0]["name"] == name


@pytest.mark.parametrize(
    ("path", "changes"),
    [
        ("name", {"name": "n" * 121}),
        ("notes", {"notes": "n" * 5001}),
        ("wall_types." + "t" * 81, {"wall_types": house()["wall_types"] | {"t" * 81: {}}}),
        ("walls[3].name", {"walls": [*house()["walls"], house()["walls"][0] | {"name": "w" * 81}]}),
        ("floor_lines[0].name", {"floor_lines": [{"name": "f" * 81, "wall": "W1", "start": "1 ft"}]}),
    ],
)
def test_words_longer_than_are_kept_are_refused_where_they_stand(at: World, path: str, changes: dict[str, Any]) -> None:
    text = json.dumps(house() | changes, indent=1)
    with pytest.raises(job_file.BadJobFile) as refused:
        job_files.take_in(at.db, text)
    told = refused.value.problems[0]
    assert told.path == path
    assert "at most" in told.reason
    assert at.reader.get("/api/jobs").json()["total"] == 0


@pytest.mark.parametrize("name", ["a\x00b", "\x00"])
def test_a_character_no_database_keeps_is_refused_with_its_line(at: World, name: str) -> None:
    with pytest.raises(job_file.BadJobFile) as refused:
        job_files.take_in(at.db, json.dumps(house() | {"client": name}, indent=1))
    line = json.dumps(house() | {"client": name}, indent=1).splitlines()[refused.value.problems[0].line - 1]
    assert "\\u0000" in line
    assert job_files.take_in(at.db, json.dumps(house() | {"client": "\\u0000 spelt out"}))


# Every table of every page goes out as a file

# Pages whose tables are no list of anything kept: what a form is about, or parts invented for show.
LIST = "<table class="  # a table without one holds the values of a working
NO_LIST = {"/components", "/jobs/{job_id}/import"}
FILLED = {"tag": "A1", "kind_key": "ledge_seat", "stage": "framing", "place": "A1", "fingerprint": "0" * 64}


def filled(at: World) -> tuple[int, list[str]]:
    """A job with something in every list, and the address of every page."""
    line = {"name": "F1", "wall": "W1", "level": 1, "start": "1 ft", "end": "11 ft", "inputs": {}}
    job = at.job(floor_lines=[line])
    at.reader.post(f"/jobs/{job}/revisions", data={"note": ""})
    at.reader.post(f"/jobs/{job}/log", data={"what": "note", "words": "seen"})
    pdf = {"file": ("design.pdf", b"%PDF-1.7 invented", "application/pdf")}
    said = {"who": "Ada Far", "licence": "1", "dated": "2026-01-01", "scope": "the seat", "tags": "A2"}
    assert at.reader.post(f"/jobs/{job}/designs", data=said, files=pdf).status_code == 303
    routes = {
        route.path for module in ROUTED for route in module.router.routes if "GET" in getattr(route, "methods", ())
    }
    pages = [path for path in sorted(routes) if not path.startswith("/api") and path not in NO_LIST]
    return job, [
        re.sub(r"{(\w+)(:\w+)?}", lambda m: FILLED.get(m[1], str(job) if m[1] == "job_id" else "1"), p) for p in pages
    ]


def test_every_page_with_a_table_leads_to_it_as_a_file(at: World) -> None:
    _, pages = filled(at)
    tables, without = 0, []
    for path in pages:
        answer = at.reader.get(path)
        if answer.status_code == 200 and answer.headers["content-type"].startswith("text/html") and LIST in answer.text:
            tables += 1
            files = [a["href"] for _, a in Page(answer.text).of("a") if ".csv" in a.get("href", "")]
            without += [] if files else [path]
            for file in files:
                got = at.reader.get(file)
                assert got.headers["content-type"].startswith("text/csv"), (path, file, got.status_code)
                assert LOCAL_CODE in got.text, file
                assert len(got.text.splitlines()) > 3, f"{file} has a heading and nothing under it"
    assert without == []
    assert tables > 12


def test_a_table_as_a_file_holds_what_its_page_shows(at: World) -> None:
    job, _ = filled(at)

    def rows(path: str) -> list[dict[str, str]]:
        return list(csv.DictReader(at.reader.get(path).text.split("\r\n\r\n")[0].splitlines()))

    jobs = rows("/jobs.csv?q=small")
    assert [(row["job"], row["walls"], row["attachments"], row["verdict"]) for row in jobs] == [
        ("Small house", "3", "2", "flag")
    ]
    assert rows("/jobs.csv?q=nothing+of+the+kind") == []
    walls = rows(f"/jobs/{job}/walls.csv")
    assert [(row["wall"], row["length, ft"], row["length, mm"]) for row in walls] == [
        ("W1", "40", "12192"), ("W2", "24", "7315"), ("W3", "12", "3658"),
    ]  # fmt: skip
    types = rows(f"/jobs/{job}/types.csv")
    assert [(row["wall type"], row["Core thickness, in"], row["walls"]) for row in types] == [
        ("Ten", "10", "W1, W2, W3"), ("Six", "6", "W1, W2, W3"), ("Twelve", "12", ""),
    ]  # fmt: skip
    frozen = rows(f"/jobs/{job}/revisions/1/places.csv")
    assert [(row["attachment"], row["verdict"]) for row in frozen] == [("A1", "pass"), ("A2", "flag")]
    assert rows(f"/jobs/{job}/designs.csv")[0]["covers"] == "A2"
    assert [row["this one"] for row in rows("/account/sessions.csv")].count("yes") == 1


def test_a_long_list_of_jobs_is_paged_and_its_file_is_whole(at: World) -> None:
    for number in range(12):
        at.job(name=f"House {number}", attachments=[])
    first = at.reader.page("/jobs?size=10")
    following = [a["href"] for _, a in first.of("a") if a.get("rel") == "next"]
    assert len(following) == 1
    assert at.reader.page(following[0]).text.count("House ") >= 2
    assert sum(line.startswith("House ") for line in at.reader.get("/jobs.csv?size=10").text.splitlines()) == 12
