"""Every page, whole and as a script asks for it; lists, files, and what went wrong."""

import csv
import io
import json

import pytest
from fastapi.routing import APIRoute

from engine import job_file
from tests.world import World, house, inspect
from webapp.pages import view

HX = {"HX-Request": "true"}
PATHS = (
    "/",
    "/jobs",
    "/jobs/new",
    "/jobs/open",
    "/jobs/{job}",
    "/jobs/{job}/edit",
    "/jobs/{job}/import",
    "/jobs/{job}/types",
    "/jobs/{job}/types/new",
    "/jobs/{job}/types/1",
    "/jobs/{job}/walls",
    "/jobs/{job}/walls/new",
    "/jobs/{job}/walls/1",
    "/jobs/{job}/attachments/new",
    "/jobs/{job}/attachments/A1",
    "/jobs/{job}/attachments/A1/copy",
    "/jobs/{job}/revisions",
    "/jobs/{job}/log",
    "/jobs/{job}/package",
    "/jobs/{job}/ready",
    "/jobs/{job}/takeoff",
    "/office",
    "/office/takeoff",
    "/jobs/{job}/ready/1/1",
    "/jobs/{job}/designs",
    "/log",
    "/jobs/{job}/setting-out",
    "/jobs/{job}/setting-out/walls/1",
    "/jobs/{job}/setting-out/walls/1/A1",
    "/jobs/{job}/floor-lines",
    "/jobs/{job}/floor-lines/new",
    "/jobs/{job}/placing",
    "/jobs/{job}/placing/walls/1",
    "/office/checklists",
    "/office/habits",
    "/office/hold-points",
    "/office/rates",
    "/office/second",
    "/office/standards",
    "/office/standards/ledge_seat",
    "/reviews",
    "/sign-in",
    "/join",
    "/account",
    "/account/second",
    "/people",
    "/people/audit",
    "/people/1",
    "/try",
    "/try/ledge_seat",
    "/proving",
    "/components",
)


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("headers", [{}, HX], ids=["whole", "as a part"])
def test_every_page_is_there_and_keeps_what_pages_promise(
    at: World, job: int, path: str, headers: dict[str, str]
) -> None:
    answer = at.reader.get(path.format(job=job), headers=headers)
    assert answer.status_code == 200
    inspect(answer.text, whole="<!doctype html>" in answer.text)
    if "<!doctype html>" not in answer.text:
        assert answer.headers["vary"] == "HX-Request"
    else:
        assert "Local code and the authority having jurisdiction govern" in answer.text


def test_no_page_is_left_out_above(at: World) -> None:
    known = {path.format(job="{job_id}").replace("/1", "/{}").replace("/A1", "/{}") for path in PATHS}
    known = {path.replace("ledge_seat", "{}") for path in known}
    files = (
        ".csv",
        ".json",
        ".dxf",
        ".svg",
        ".pdf",
        "/setup",
        "/floor-lines/{line_id}",
        "/floor-lines/{line_id}/copy",
        "/floor-lines/{line_id}/edit",
        "/options",
        "/options/all",
        "/revisions/{number}",
        "/revisions/{number}/package",
        "/review/{number}",
        "/review/{number}/as-built",
        "/review/{number}/decide",
        "/review/{number}/photos/{photo_id}",
        "/review/{number}/unsent",
        "/review/{number}/{stage}/{place}",
        "/sw.js",
        "/r/{token}",
        "/print/{fingerprint}",
        "/{sha256}",
        "/again",
        "/file",
    )
    found = set()
    for route in _routes(at):
        path = route.path
        if "GET" in route.methods and not path.startswith("/api/") and not path.endswith(files):
            for name in ("type_id", "wall_id", "tag", "kind_key", "person_id", "level"):
                path = path.replace("{" + name + "}", "{}")
            found.add(path)
    assert found == known


def _routes(at: World) -> list[APIRoute]:
    found: list[APIRoute] = []

    def walk(routes: object) -> None:
        for route in routes:  # type: ignore[attr-defined]
            if isinstance(route, APIRoute):
                found.append(route)
            elif hasattr(route, "original_router"):
                walk(route.original_router.routes)

    walk(at.app.routes)
    return found


def test_no_router_grows_beyond_eight_routes() -> None:
    from webapp.main import ROUTED

    for module in ROUTED:
        assert len(module.router.routes) <= 8, module.__name__


def test_a_changed_page_is_not_taken_from_a_store(at: World, job: int) -> None:
    assert at.reader.get(f"/jobs/{job}").headers["cache-control"] == "no-store"


def test_the_first_page_of_an_empty_program_says_what_to_do(at: World) -> None:
    text = at.reader.page("/").text
    assert "Try a check" in text
    assert "There is no job yet" in text


def test_units_are_switched_without_script_and_lead_back_to_the_page(at: World, job: int) -> None:
    answer = at.reader.post("/units", data={"units": "mm", "back": f"/jobs/{job}?sort=tag"})
    assert answer.headers["location"] == f"/jobs/{job}?sort=tag"
    assert 'value="mm" aria-pressed="true"' in at.reader.page("/jobs").text


@pytest.mark.parametrize(
    "back", ["https://elsewhere.example/", "//elsewhere.example", "/\\elsewhere", "javascript:1", "", "/a\nb"]
)
def test_switching_units_never_leads_elsewhere(at: World, back: str) -> None:
    assert at.reader.post("/units", data={"units": "mm", "back": back}).headers["location"] == "/"


def test_attachments_come_as_csv_with_the_caution(at: World, job: int) -> None:
    answer = at.reader.get(f"/jobs/{job}/attachments.csv?sort=tag")
    assert answer.headers["content-type"].startswith("text/csv")
    assert 'filename="small-house-attachments.csv"' in answer.headers["content-disposition"]
    rows = list(csv.reader(io.StringIO(answer.text)))
    assert rows[0][:3] == ["tag", "kind", "wall"]
    assert [row[0] for row in rows[1:3]] == ["A1", "A2"]
    assert rows[-2][0].startswith("Local code and the authority")


def test_no_csv_cell_is_a_formula(at: World) -> None:
    walls = [w | {"name": "=1+1"} if w["name"] == "W1" else w for w in house()["walls"]]
    attachments = [a | {"wall": "=1+1"} if a["wall"] == "W1" else a for a in house()["attachments"]]
    job = at.job(walls=walls, attachments=attachments)
    rows = list(csv.reader(io.StringIO(at.reader.get(f"/jobs/{job}/attachments.csv").text)))
    assert "'=1+1" in {row[2] for row in rows if len(row) > 2}
    assert not any(cell.startswith("=") for row in rows for cell in row)


def test_a_job_file_taken_out_and_in_again_is_the_same_job(at: World, job: int) -> None:
    text = at.reader.get(f"/jobs/{job}/job.json").text
    answer = at.reader.post("/jobs/open", data={"text": text})
    other = int(answer.headers["location"].rsplit("/", 1)[1])
    assert other != job
    assert job_file.read(at.reader.get(f"/jobs/{other}/job.json").text) == job_file.read(text)


def test_an_unusable_job_file_names_line_path_and_reason_and_keeps_nothing(at: World) -> None:
    bad = json.dumps(house() | {"walls": "none"}, indent=1)
    answer = at.reader.post("/jobs/open", data={"text": bad})
    assert answer.status_code == 422
    line = bad.split("\n").index(' "walls": "none",') + 1
    assert f"Line {line}, walls: Write it as a list" in answer.text
    assert "There is no job yet" in at.reader.get("/jobs").text


def test_the_cases_are_shown_with_what_was_computed_beside_what_was_published(at: World) -> None:
    text = at.reader.page("/proving").text
    assert "Computed" in text
    assert "Published" in text
    assert "Agree" in text


def test_the_cases_are_found_filtered_and_paged(at: World) -> None:
    text = at.reader.page("/proving?q=bearing&verdict=agree&size=10").text
    assert "1 to 10 of" in text
    assert "Next" in text
    assert "Canada: beam bearing" in at.reader.page("/proving?q=beam+bearing").text
    assert "No case fits that" in at.reader.page("/proving?q=nothing-of-the-kind").text


def test_the_cases_come_as_csv(at: World) -> None:
    rows = list(csv.reader(io.StringIO(at.reader.get("/proving/cases.csv?q=bearing").text)))
    assert rows[0][0] == "case"
    assert len(rows) > 10


@pytest.mark.parametrize("path", ["/nothing", "/jobs/999", "/jobs/x", "/jobs/99999999999999999999", "/static/none.css"])
def test_what_is_not_there_is_said_without_the_inside(at: World, path: str) -> None:
    answer = at.reader.get(path)
    assert answer.status_code == 404
    assert "There is nothing here" in answer.text


def test_a_wrong_method_is_said(at: World) -> None:
    answer = at.reader.request("DELETE", "/jobs")
    assert answer.status_code == 405
    assert "allow" in answer.headers


@pytest.mark.parametrize("query", ["page=0", "page=x", "size=9999", f"q={'x' * 101}"])
def test_a_list_asked_for_nonsense_says_so(at: World, query: str) -> None:
    answer = at.reader.get(f"/jobs?{query}")
    assert answer.status_code == 400
    assert "That could not be read" in answer.text


def test_an_error_nobody_foresaw_reveals_nothing(at: World, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("the secret of the house")

    monkeypatch.setattr("webapp.services.jobs.page", broken)
    answer = at.reader.get("/jobs")
    assert answer.status_code == 500
    assert "Something went wrong here" in answer.text
    assert "secret" not in answer.text
    assert "Traceback" not in answer.text
    assert answer.headers["content-security-policy"]


def test_an_error_in_a_part_takes_the_place_of_that_part(at: World, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("the secret of the house")

    monkeypatch.setattr("webapp.services.checks.judge", broken)
    answer = at.reader.post("/try/ledge_seat", data={"span_ft": "12"}, headers=HX | {"HX-Target": "div#result"})
    assert answer.status_code == 500
    assert answer.text.startswith('<div id="result" role="alert">')
    assert "secret" not in answer.text
    forged = at.reader.get("/nothing", headers=HX | {"HX-Target": 'div#x"><script>'})
    assert "<script" not in forged.text


def test_an_error_in_the_error_page_still_answers(at: World, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object, **__: object) -> None:
        raise RuntimeError("the secret of the house")

    monkeypatch.setattr(view, "navigation", broken)
    answer = at.reader.get("/jobs")
    assert answer.status_code == 500
    assert "Something went wrong here" in answer.text
    assert "secret" not in answer.text


@pytest.mark.parametrize(
    "notice", ["x", "e30=", "bm90IGpzb24=", "////", "eyJ0ZXh0IjogIngiLCAidW5kbyI6ICIvL2V2aWwifQ=="]
)
def test_a_forged_notice_is_harmless(at: World, notice: str) -> None:
    at.reader.cookies.set(view.NOTICE, notice)
    text = at.reader.page("/jobs").text
    assert "evil" not in text
