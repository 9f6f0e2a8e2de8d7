"""Checks over JSON, and a job whole."""

import pytest

from engine import VERSION
from engine.editions import EDITIONS
from engine.fields import specs
from tests.world import World
from webapp.services import checks


@pytest.mark.parametrize("key", [kind.key for kind in checks.offered()])
@pytest.mark.parametrize("edition", list(EDITIONS))
def test_a_check_answers_with_verdict_lines_working_and_cautions(at: World, key: str, edition: str) -> None:
    found = at.reader.post("/api/checks", json={"kind": key, "edition": edition}).json()
    assert found["verdict"] in ("pass", "flag", "refer")
    assert found["edition"] == edition
    assert found["lines"]
    assert any(line["working"] for line in found["lines"])
    assert found["caution"].startswith("Local code and the authority")
    assert found["engine"] == VERSION
    assert found["not_checked"]


def test_every_input_is_text_with_its_unit(at: World) -> None:
    body = {"kind": "ledge_seat", "inputs": {"member": "i_joist", "required_bearing_in": "127 mm"}}
    found = at.reader.post("/api/checks", json=body).json()
    line = next(line for line in found["lines"] if line["key"] == "bearing-drawing")
    assert line["demand"] == pytest.approx(5.0)
    assert line["unit"] == "in"
    assert line["verdict"] == "flag"


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({"kind": "magic"}, "kind"),
        ({"kind": "ledge_seat", "edition": "US 1999"}, "edition"),
        ({"kind": "ledge_seat", "inputs": {"span_ft": "far"}}, "span_ft"),
        ({"kind": "ledge_seat", "inputs": {"nothing": "1"}}, "nothing"),
        ({"kind": "ledge_seat", "inputs": {"joist_species": "oak of the moon"}}, "joist_species"),
        ({"kind": "ledge_seat", "inputs": {"span_ft": 12}}, "inputs.span_ft"),
        ({"kind": "ledge_seat", "other": 1}, "other"),
        ({}, "kind"),
    ],
)
def test_what_cannot_be_used_is_named_by_field_with_what_is_known(
    at: World, body: dict[str, object], field: str
) -> None:
    answer = at.reader.post("/api/checks", json=body)
    assert answer.status_code == 422
    assert field in answer.json()["fields"]


def test_unknown_kinds_and_editions_list_the_known_ones(at: World) -> None:
    errors = at.reader.post("/api/checks", json={"kind": "magic"}).json()["fields"]
    assert "ledge_seat" in errors["kind"]
    errors = at.reader.post("/api/checks", json={"kind": "ledge_seat", "edition": "x"}).json()["fields"]
    assert "US 2021" in errors["edition"]


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b"nul", b'{"kind": NaN}'])
def test_what_is_no_json_is_refused(at: World, content: bytes) -> None:
    answer = at.reader.post("/api/checks", content=content, headers={"Content-Type": "application/json"})
    assert answer.status_code == 422


def test_kinds_are_described_input_by_input(at: World) -> None:
    found = {kind["key"]: kind for kind in at.reader.get("/api/kinds").json()["kinds"]}
    for kind in checks.offered():
        assert [i["name"] for i in found[kind.key]["inputs"]] == [s.name for s in specs(kind.inputs)]


def test_a_job_comes_with_the_verdict_of_every_attachment(at: World, job: int) -> None:
    found = at.reader.get(f"/api/jobs/{job}").json()
    assert found["job"]["wallseat_job"] == 2
    assert {v["tag"]: v["verdict"] for v in found["verdicts"]} == {"A1": "pass", "A2": "flag"}
    assert found["caution"]


def test_checks_are_open_to_whoever_is_not_signed_in(at: World) -> None:
    assert at.nobody().post("/api/checks", json={"kind": "ledge_seat"}).status_code == 200
    assert at.nobody().get("/api/kinds").status_code == 200
