"""Walls, wall types, floor lines, attachments and whole jobs kept over JSON; what is refused changes nothing."""

import json
from typing import Any

import pytest
from httpx2 import Response

from engine import VERSION
from engine.result import LOCAL_CODE
from tests.world import Reader, World, house

WALL = {"name": "W9", "line": {"length_ft": "30 ft"}, "storeys": [{"type": "Ten", "height_ft": "9 ft"}]}
NEW: dict[str, dict[str, Any]] = {
    "walls": WALL,
    "wall-types": {"name": "Eight", "inputs": {"core_in": "8 in"}},
    "floor-lines": {"name": "F9", "wall": "W1", "inputs": {"span_ft": "14 ft"}},
    "attachments": {"kind": "ledge_seat", "wall": "W3", "start": "1 ft", "end": "11 ft"},
}


@pytest.fixture
def designer(at: World) -> Reader:
    return at.as_("designer")


def problem(answer: Response, status: int, error: str) -> dict[str, Any]:
    """A refusal in the one shape every one has."""
    assert answer.status_code == status, (answer.status_code, answer.text[:500])
    found: dict[str, Any] = answer.json()
    assert found["error"] == error
    assert found["detail"].endswith(".")
    assert isinstance(found["fields"], dict)
    assert found["caution"] == LOCAL_CODE
    assert found["engine"] == VERSION
    return found


def made(reader: Reader, job: int, what: str) -> tuple[str, dict[str, Any]]:
    """One more of something. Returns: its address and what was answered."""
    answer = reader.post(f"/api/jobs/{job}/{what}", json=NEW[what])
    assert answer.status_code == 201, answer.text
    return answer.headers["location"], answer.json()


@pytest.mark.parametrize("what", list(NEW))
def test_what_is_made_is_read_at_the_address_it_is_given(designer: Reader, job: int, what: str) -> None:
    address, kept = made(designer, job, what)
    assert designer.get(address).json() == kept
    assert all(kept[name] == value for name, value in NEW[what].items())
    assert (kept["caution"], kept["engine"]) == (LOCAL_CODE, VERSION)


@pytest.mark.parametrize("what", list(NEW))
def test_a_change_needs_the_version_that_was_read(designer: Reader, job: int, what: str) -> None:
    address, kept = made(designer, job, what)
    body = {name: value for name, value in NEW[what].items() if name != "kind"}
    assert "version" in problem(designer.put(address, json=body), 422, "unusable")["fields"]
    changed = designer.put(address, json=body | {"version": kept["version"]})
    assert changed.status_code == 200, changed.text
    now = changed.json()["version"]
    assert now > kept["version"]
    stale = problem(designer.put(address, json=body | {"version": kept["version"]}), 409, "changed")
    assert stale["version"] == now


@pytest.mark.parametrize("what", list(NEW))
def test_what_is_deleted_is_gone_and_can_be_brought_back(designer: Reader, job: int, what: str) -> None:
    address, kept = made(designer, job, what)
    problem(designer.delete(f"{address}?version={kept['version'] - 1}"), 409, "changed")
    gone = designer.delete(f"{address}?version={kept['version']}").json()
    assert gone["deleted"] == kept.get("name", kept.get("tag"))
    problem(designer.get(address), 404, "not_found")
    back = designer.post(gone["restore"]).json()
    assert {n: v for n, v in back.items() if n != "version"} == {n: v for n, v in kept.items() if n != "version"}


@pytest.mark.parametrize("what", list(NEW))
def test_only_designers_of_the_office_change_anything(at: World, job: int, what: str) -> None:
    address, kept = made(at.as_("designer"), job, what)
    for role in ("inspector", "office"):
        reader = at.as_(role)
        assert reader.get(address).json() == kept
        problem(reader.put(address, json=NEW[what]), 403, "not_yours")
        problem(reader.delete(f"{address}?version={kept['version']}"), 403, "not_yours")
        problem(reader.post(f"/api/jobs/{job}/{what}", json=NEW[what]), 403, "not_yours")
    for method in ("GET", "PUT", "DELETE"):
        problem(at.stranger().request(method, address), 404, "not_found")
        problem(at.nobody().request(method, address), 401, "not_signed_in")
    assert at.as_("designer").get(address).json() == kept


def test_a_wall_that_carries_something_is_not_deleted(designer: Reader, job: int) -> None:
    first = designer.get(f"/api/jobs/{job}/walls").json()["walls"][0]
    address = f"/api/jobs/{job}/walls/{first['id']}?version={first['version']}"
    assert "A1" in problem(designer.delete(address), 409, "in_use")["detail"]


def test_a_wall_type_in_use_is_not_deleted(designer: Reader, job: int) -> None:
    first = designer.get(f"/api/jobs/{job}/wall-types").json()["wall_types"][0]
    address = f"/api/jobs/{job}/wall-types/{first['id']}?version={first['version']}"
    assert "W1" in problem(designer.delete(address), 409, "in_use")["detail"]


def test_what_does_not_fit_is_told_by_its_path_in_the_body(designer: Reader, job: int) -> None:
    wall = {
        "name": "",
        "line": {"length_ft": "far"},
        "storeys": [{"type": "Eleven", "height_ft": "9 ft"}],
        "openings": [{"start_ft": "2 ft", "width_ft": "3 ft"}, {"start_ft": "x"}],
    }
    fields = problem(designer.post(f"/api/jobs/{job}/walls", json=wall), 422, "unusable")["fields"]
    assert {"name", "line.length_ft", "storeys.0.type", "openings.1.start_ft"} <= set(fields)


def test_a_place_off_its_wall_is_told_by_the_names_of_the_body(designer: Reader, job: int) -> None:
    for changes, field in (({"end": "90 ft"}, "end"), ({"wall": "W8"}, "wall"), ({"level": 7}, "level")):
        answer = designer.post(f"/api/jobs/{job}/attachments", json=NEW["attachments"] | changes)
        assert field in problem(answer, 422, "unusable")["fields"]


def test_an_attachment_keeps_its_kind(designer: Reader, job: int) -> None:
    body = {"kind": "bolted_ledger", "wall": "W1", "version": 1}
    assert "kind" in problem(designer.put(f"/api/jobs/{job}/attachments/A1", json=body), 422, "unusable")["fields"]


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"[]",
        b'"text"',
        b'{"name": "a\\u0000b", "inputs": {}}',
        b'{"name": "\\ud800", "inputs": {}}',
        b'{"name": "x", "inputs": {"core_in": 9}}',
        b'{"name": "x", "inputs": {"no_such": "9 in"}}',
        b'{"name": "x", "inputs": {"\\ud800": "9 in"}}',
        b'{"name": "x", "inputs": {"core_in": NaN}}',
        b'{"name": "x", "inputs": {}, "more": 1}',
        b'{"name": "' + b"x" * 500 + b'", "inputs": {}}',
    ],
)
def test_what_cannot_be_read_is_refused_and_nothing_is_kept(designer: Reader, job: int, content: bytes) -> None:
    before = designer.get(f"/api/jobs/{job}/wall-types").json()
    answer = designer.post(f"/api/jobs/{job}/wall-types", content=content, headers={"Content-Type": "application/json"})
    assert problem(answer, 422, "unusable")["fields"]
    assert designer.get(f"/api/jobs/{job}/wall-types").json() == before


def test_a_job_file_becomes_a_job_with_everything_in_it(designer: Reader, job: int) -> None:
    whole = designer.get(f"/api/jobs/{job}").json()["job"]
    answer = designer.post("/api/jobs", json=whole)
    assert answer.status_code == 201
    again = designer.get(answer.headers["location"]).json()
    assert again["job"] == whole
    assert again["id"] == answer.json()["id"] != job


def test_every_problem_of_a_job_file_is_told_by_line_and_path(designer: Reader) -> None:
    text = json.dumps(house(), indent=1).replace('"core_in": "10 in"', '"core_in": "ten"').replace('"lap_in"', '"lap"')
    found = problem(designer.post("/api/jobs", content=text), 422, "unusable")
    lines = text.splitlines()
    for told in found["problems"]:
        key = told["path"].rpartition(".")[2]
        assert f'"{key}"' in lines[told["line"] - 1]
    assert {told["path"] for told in found["problems"]} >= {"wall_types.Ten.core_in"}
    assert designer.get("/api/jobs").json()["total"] == 0


@pytest.mark.parametrize("content", [b"\xff\xfe", b"", b"[1]", b'{"wallseat_job": 2, "name": "a", "name": "b"}'])
def test_what_is_no_job_file_is_refused_with_a_line(designer: Reader, content: bytes) -> None:
    assert problem(designer.post("/api/jobs", content=content), 422, "unusable")["problems"][0]["line"] == 1


def test_another_site_and_a_body_without_end_are_refused_in_the_same_shape(designer: Reader, job: int) -> None:
    headers = {"Sec-Fetch-Site": "cross-site"}
    problem(designer.post(f"/api/jobs/{job}/walls", json=WALL, headers=headers), 403, "other_site")
    problem(designer.post("/api/jobs", content=b" " * 1_100_000), 413, "too_large")
    problem(designer.request("PATCH", f"/api/jobs/{job}"), 405, "no_such_method")
