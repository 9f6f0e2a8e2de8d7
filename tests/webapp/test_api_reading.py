"""Lists, drawings, setting out, takeoff, placing, revisions and the log over JSON."""

import json
from hashlib import sha256
from typing import Any

import pytest

from engine import VERSION
from engine.result import LOCAL_CODE
from tests.world import Reader, World, house
from webapp.permissions import ROLES

PARTS = ("wall-types", "walls", "floor-lines", "attachments", "setting-out", "placing", "takeoff", "revisions")


def pages(reader: Reader, first: str, name: str) -> list[Any]:
    """Every row of a list, following its links."""
    rows, path = [], first
    while path:
        part = reader.get(path).json()
        assert part[name] or path == first, "a link to an empty part"
        rows += part[name]
        path = part["next"]
    return rows


def test_a_list_of_jobs_is_walked_by_its_links(at: World) -> None:
    for number in range(5):
        at.job(name=f"House {number}")
    found = pages(at.as_("designer"), "/api/jobs?size=2", "jobs")
    assert sorted(job["name"] for job in found) == [f"House {n}" for n in range(5)]
    assert len({job["id"] for job in found}) == 5
    assert [job["name"] for job in at.reader.get("/api/jobs?q=house+3").json()["jobs"]] == ["House 3"]
    assert at.reader.get("/api/jobs?q=100%25").json()["total"] == 0


def test_a_stranger_sees_no_job_of_this_office(at: World, job: int) -> None:
    assert at.stranger().get("/api/jobs").json()["total"] == 0
    for part in PARTS:
        assert at.stranger().get(f"/api/jobs/{job}/{part}").status_code == 404
        assert at.nobody().get(f"/api/jobs/{job}/{part}").status_code == 401


@pytest.mark.parametrize("role", ROLES)
def test_everybody_of_the_office_reads_every_part_of_a_job(at: World, job: int, role: str) -> None:
    reader = at.as_(role)
    links = reader.get(f"/api/jobs/{job}").json()["links"]
    assert set(PARTS) <= set(links)
    for link in links.values():
        assert reader.get(link).status_code == 200, link


def test_attachments_are_found_sorted_and_counted(at: World) -> None:
    rows = [{**house()["attachments"][n % 2], "tag": f"A{n + 1}"} for n in range(6)]
    job = at.job(attachments=rows)
    reader, path = at.as_("inspector"), f"/api/jobs/{job}/attachments"
    assert [row["tag"] for row in pages(reader, f"{path}?size=4", "attachments")] == [f"A{n}" for n in range(1, 7)]
    flagged = reader.get(f"{path}?verdict=flag&sort=worst").json()
    assert {row["verdict"] for row in flagged["attachments"]} == {"flag"}
    assert flagged["counts"] == {"": 6, "pass": 3, "flag": 3, "to measure": flagged["counts"]["to measure"]}
    assert reader.get(f"{path}?verdict=fine").status_code == 422


def test_the_check_of_an_attachment_is_that_of_its_page(at: World, job: int) -> None:
    found = at.as_("inspector").get(f"/api/jobs/{job}/attachments/A2/check").json()
    assert found["result"]["verdict"] == "flag"
    assert found["follows"]["lower_core_in"] == "10 in"
    governing = next(line for line in found["result"]["lines"] if line["key"] == found["result"]["governing"])
    assert governing["ratio"] == found["result"]["ratio"] > 1
    assert found["refused"] == {}
    summary = at.reader.get(f"/api/jobs/{job}/attachments").json()["attachments"][1]
    assert summary["ratio"] == pytest.approx(governing["ratio"])


def test_drawings_come_for_every_sheet_and_both_systems(at: World, job: int) -> None:
    drawn = set()
    for width in ("desk", "tablet", "phone", "letter"):
        for units in ("ft in", "mm"):
            answer = at.reader.get(f"/api/jobs/{job}/attachments/A1/drawing", params={"width": width, "units": units})
            assert answer.headers["content-type"] == "image/svg+xml"
            assert answer.headers["x-wallseat-caution"] == LOCAL_CODE
            drawn.add(answer.text)
    assert len(drawn) == 8
    assert all("<svg" in text and "</svg>" in text for text in drawn)
    assert at.reader.get(f"/api/jobs/{job}/attachments/A1/drawing?width=wide").status_code == 422


def test_setting_out_gives_every_station_three_ways(at: World, job: int) -> None:
    walls = at.reader.get(f"/api/jobs/{job}/setting-out").json()["walls"]
    assert [wall["wall"] for wall in walls] == ["W1", "W2", "W3"]
    marks = [mark for entry in walls[0]["entries"] for mark in entry["marks"]]
    assert marks
    for mark in marks:
        assert mark["mm"] == pytest.approx(mark["at_in"] * 25.4, abs=0.51)
    one = at.reader.get(f"/api/jobs/{job}/setting-out", params={"wall": walls[1]["id"]}).json()["walls"]
    assert one == [walls[1]]
    assert at.reader.get(f"/api/jobs/{job}/setting-out?wall=999").status_code == 404


def test_the_takeoff_adds_up_to_its_totals(at: World, job: int) -> None:
    found = at.reader.get(f"/api/jobs/{job}/takeoff").json()
    for total in found["totals"]:
        own = [r["net"] for r in found["rows"] if all(r[n] == total[n] for n in ("item", "size", "each_in"))]
        assert sum(own) == pytest.approx(total["net"])
        assert total["total"] >= total["net"] * (1 - 1e-9)
    part = at.reader.get(f"/api/jobs/{job}/takeoff?attachment=A1").json()
    assert {row["tag"] for row in part["rows"]} == {"A1"}
    assert found["not_counted"]


def test_the_placing_plan_fills_the_storey(at: World, job: int) -> None:
    plan = at.reader.get(f"/api/jobs/{job}/placing").json()
    assert plan["walls"] == ["W1", "W2", "W3"]
    assert plan["lifts"][0]["from_ft"] == 0
    assert plan["lifts"][-1]["to_ft"] == pytest.approx(9)
    assert sum(lift["volume_yd3"] for lift in plan["lifts"]) == pytest.approx(plan["volume_yd3"])
    assert plan["result"]["lines"]
    wall = at.reader.get(f"/api/jobs/{job}/walls").json()["walls"][0]["id"]
    assert at.reader.get(f"/api/jobs/{job}/placing?wall={wall}").json()["walls"] == ["W1"]
    refused = at.reader.get(f"/api/jobs/{job}/placing?level=3")
    assert refused.status_code == 422
    assert "walls" in refused.json()["fields"]


def test_a_revision_is_given_byte_for_byte(at: World, job: int) -> None:
    at.as_("designer").post(f"/jobs/{job}/revisions", data={"note": "first"})
    found = at.as_("inspector").get(f"/api/jobs/{job}/revisions").json()["revisions"]
    assert [(row["letter"], row["state"], row["note"]) for row in found] == [("A", "submitted", "first")]
    document = at.as_("inspector").get(found[0]["links"]["document"])
    assert sha256(document.content).hexdigest() == found[0]["fingerprint"] == document.headers["etag"].strip('"')
    assert json.loads(document.content)["engine"] == document.headers["x-wallseat-engine"] == VERSION
    assert at.reader.get(f"/api/jobs/{job}/revisions/2").status_code == 404


@pytest.mark.parametrize("path", ["/api/jobs/{job}/revisions/1", "/jobs/{job}/revisions/1/revision.json"])
def test_a_revision_is_not_sent_again_to_whoever_has_it(at: World, job: int, path: str) -> None:
    at.as_("designer").post(f"/jobs/{job}/revisions", data={"note": "first"})
    address = path.format(job=job)
    mark = at.reader.get(address).headers["etag"]
    with at.counted() as sent:
        again = at.reader.get(address, headers={"If-None-Match": f'"another", {mark}'})
    assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", mark)
    assert not [statement for statement in sent if "revision.document" in statement]
    assert at.reader.get(address, headers={"If-None-Match": '"another"'}).status_code == 200


def test_the_log_is_walked_from_the_latest_row_whatever_is_added_meanwhile(at: World, job: int) -> None:
    office = at.as_("office")
    for number in range(5):
        office.post(f"/jobs/{job}/log", data={"what": "note", "words": f"note {number}"})
    first = office.get("/api/log?size=2").json()
    assert [row["words"] for row in first["rows"]] == ["note 4", "note 3"]
    office.post(f"/jobs/{job}/log", data={"what": "note", "words": "late"})
    rest = pages(office, first["next"], "rows")
    assert [row["words"] for row in rest] == ["note 2", "note 1", "note 0"]
    assert [row["hash"] for row in rest[1:]] == [row["before"] for row in rest[:-1]]
    assert [row["words"] for row in office.get("/api/log?q=late").json()["rows"]] == ["late"]
    assert at.stranger().get("/api/log").json()["rows"] == []
    assert "since" in office.get("/api/log?since=yesterday").json()["fields"]
