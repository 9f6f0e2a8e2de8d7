"""Placing pages: how fast to pump and why, tried without keeping, kept when asked; the office's hold points."""

import json
import re
from html import unescape

import pytest

from tests.webapp.test_walls import wall_ids
from tests.world import Page, World, house
from webapp.services import job_files

FORMS = {"form_pressure_psf": "715 psf"}
SCRIPT = {"HX-Request": "true"}


def words(text: str) -> str:
    """A page's words without its tags."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", text)).split())


def kept(at: World, job: int) -> dict[str, str]:
    return dict(json.loads(job_files.text(at.db, job))["placing"])


def answer(at: World, path: str, **texts: str) -> str:
    """The big sentence of a plan."""
    page = at.reader.get(path, params=texts)
    assert page.status_code == 200
    found = re.search(r'<div class="verdict-line answer.*?</div>', page.text, re.DOTALL)
    assert found
    return words(found[0])


def save(at: World, path: str, **texts: str):  # type: ignore[no-untyped-def]
    """Everything in the form with some of it typed over, sent to be kept."""
    fields = at.reader.page(path).values | {"do": "save", "units": "ft in", "slump_gate": "yes"} | texts
    fields = {n: t for n, t in fields.items() if n != "wall"}
    for box in ("self_consolidating", "retarder", "from_base"):
        fields[box] = texts.get(box, "no")
    return at.reader.post(path, data=fields)


def test_a_job_without_form_pressure_is_told_what_to_enter(at: World, job: int) -> None:
    said = answer(at, f"/jobs/{job}/placing")
    assert "Flag" in said
    assert "enter what they may carry, from the forms' own data" in said


def test_the_plan_says_how_fast_to_pump_at_50_degrees_and_why(at: World, job: int) -> None:
    # 40 + 24 + 12 ft of 10 in core: (715 - 150) 50 / 9000 = 3.14 ft/h on 63.3 ft² is 7.4 yd³/h.
    path = f"/jobs/{job}/placing"
    assert "Pump at most 7.3 yd³/h, not 10 yd³/h: faster, at 50 °F" in answer(at, path, temperature_F="50", **FORMS)
    page = at.reader.get(path, params={"temperature_F": "50", **FORMS}).text
    assert "Governed by ACI 347R 4.2.2.1a(c)" in words(page)
    assert "At that rate concrete not yet set rises 3.14 ft/h" in words(page)
    assert "Pump at most 10.3 yd³/h: faster, at 70 °F" in answer(at, path, temperature_F="70", **FORMS)


def test_nothing_tried_is_kept_until_it_is_saved(at: World, job: int) -> None:
    path = f"/jobs/{job}/placing"
    assert "not kept yet" in words(at.reader.get(path, params={"temperature_F": "50"}).text)
    assert kept(at, job) == {}
    at.reader.follow(save(at, path, temperature_F="50", **FORMS))
    assert kept(at, job) == {"temperature_F": "50 °F", "form_pressure_psf": "715 psf"}
    assert Page(at.reader.get(path).text).values["temperature_F"] == "50"


def test_a_script_gets_the_plan_alone(at: World, job: int) -> None:
    part = at.reader.get(f"/jobs/{job}/placing", params={"temperature_F": "50", **FORMS}, headers=SCRIPT)
    assert part.text.lstrip().startswith('<div id="result"')
    assert "HX-Request" in part.headers["vary"]
    wrong = at.reader.get(f"/jobs/{job}/placing", params={"temperature_F": "hot"}, headers=SCRIPT)
    assert wrong.status_code == 200
    assert 'data-refused="temperature_F"' in wrong.text


def test_what_cannot_be_read_is_said_beside_its_field_and_stays_typed(at: World, job: int) -> None:
    sent = save(at, f"/jobs/{job}/placing", temperature_F="hot", pump_yd3_per_h="900", lift_ft="4")
    assert sent.status_code == 422
    assert 'id="e-temperature_F"' in sent.text
    assert "1 yd³/h to 150 yd³/h" in sent.text
    assert Page(sent.text).values["lift_ft"] == "4"
    assert kept(at, job) == {}
    assert at.reader.get(f"/jobs/{job}/placing", params={"temperature_F": "hot"}).status_code == 422


def test_somebody_elses_change_is_never_overwritten_unseen(at: World, job: int) -> None:
    path = f"/jobs/{job}/placing"
    old = at.reader.page(path).values["version"]
    at.reader.follow(save(at, path, temperature_F="50"))
    late = save(at, path, temperature_F="60", version=old)
    assert late.status_code == 409
    assert "Kept now: 50." in late.text
    assert kept(at, job)["temperature_F"] == "50 °F"
    at.reader.follow(save(at, path, temperature_F="60", version=Page(late.text).values["version"]))
    assert kept(at, job)["temperature_F"] == "60 °F"


def test_a_circuit_is_the_walls_that_are_ticked(at: World, job: int) -> None:
    ids, path = wall_ids(at, job), f"/jobs/{job}/placing"
    some = at.reader.get(path, params={"walls": "some", "wall": [ids["W1"], ids["W3"]], **FORMS})
    assert "W1, W3" in words(some.text)
    # 52 ft of 10 in core, 9 ft high: 52 x 9 x 10/12 / 27 = 14.4 yd³.
    assert "14.4 yd³" in words(some.text)
    assert f'name="wall" value="{ids["W2"]}" checked' not in some.text
    none = at.reader.get(path, params={"walls": "some", **FORMS})
    assert none.status_code == 422
    assert "Tick at least one wall" in none.text


def test_saving_leads_back_to_the_same_storey_and_walls(at: World, job: int) -> None:
    ids = wall_ids(at, job)
    fields = {"units": "ft in", "version": at.reader.page(f"/jobs/{job}/placing").values["version"], "do": "save",
              "walls": "some", "wall": str(ids["W2"]), "level": "2", "temperature_F": "50"}  # fmt: skip
    sent = at.reader.post(f"/jobs/{job}/placing", data=fields)
    assert sent.headers["location"] == f"/jobs/{job}/placing?level=2&walls=some&wall={ids['W2']}"
    assert "W2" in words(at.reader.follow(sent).text)


def test_the_second_storey_is_planned_with_its_own_forms(at: World, job: int) -> None:
    # 76 ft of 6 in core, 9 ft high: 76 x 9 x 6/12 / 27 = 12.7 yd³.
    page = at.reader.get(f"/jobs/{job}/placing", params={"level": "2", **FORMS})
    assert "12.7 yd³" in words(page.text)
    assert at.reader.get(f"/jobs/{job}/placing", params={"level": "99"}).status_code == 200


def test_a_wall_keeps_only_what_differs_from_the_job(at: World, job: int) -> None:
    at.reader.follow(save(at, f"/jobs/{job}/placing", temperature_F="50", **FORMS))
    path = f"/jobs/{job}/placing/walls/{wall_ids(at, job)['W2']}"
    assert "Every answer is the job's" in at.reader.get(path).text
    at.reader.follow(save(at, path, pump_yd3_per_h="2"))
    walls = {w["name"]: w["placing"] for w in json.loads(job_files.text(at.db, job))["walls"]}
    assert walls == {"W1": {}, "W2": {"pump_yd3_per_h": "2 yd³/h"}, "W3": {}}
    page = at.reader.get(path).text
    assert "Pump rate: W2's own; the rest follows the job." in unescape(page)
    assert "Pump at most 2.3 yd³/h: faster, at 50 °F" in words(page)
    assert "own answers" in at.reader.get(f"/jobs/{job}/placing").text


def test_a_wall_goes_back_to_the_jobs_answers(at: World, job: int) -> None:
    path = f"/jobs/{job}/placing/walls/{wall_ids(at, job)['W2']}"
    at.reader.follow(save(at, path, pump_yd3_per_h="2"))
    filled = at.reader.post(path, data={"do": "follow", "units": "ft in", "version": "0"})
    assert filled.status_code == 200
    assert Page(filled.text).values["pump_yd3_per_h"] == "10"
    assert "Pump rate" in at.reader.get(path).text.split("own-answers")[1][:200]  # nothing is kept yet
    after = at.reader.follow(save(at, path, pump_yd3_per_h="10"))
    assert "W2 follows the job." in after.text


def test_a_wall_without_that_storey_says_so(at: World, job: int) -> None:
    low = {"name": "W4", "line": {"length_ft": "20 ft"}, "storeys": [{"type": "Ten", "height_ft": "9 ft"}]}
    other = at.job(walls=[*house()["walls"], low])
    page = at.reader.get(f"/jobs/{other}/placing/walls/{wall_ids(at, other)['W4']}", params={"level": "2"})
    assert page.status_code == 422
    assert "Wall W4 has no storey 2." in page.text
    assert at.reader.get(f"/jobs/{other}/placing", params={"level": "2"}).status_code == 200


def test_a_job_without_walls_says_what_to_do(at: World) -> None:
    empty = at.job(walls=[], attachments=[])
    assert "Describe a wall type" in at.reader.get(f"/jobs/{empty}/placing").text
    assert at.reader.get(f"/jobs/{empty}/placing/walls/1").status_code == 404


def test_metric_readers_type_and_read_metric(at: World, job: int) -> None:
    typed = {"units": "mm", "temperature_F": "10", "pump_yd3_per_h": "5", "form_pressure_psf": "34.2"}
    said = answer(at, f"/jobs/{job}/placing", **typed)
    assert "Pump at most 5.58 m³/h: faster, at 10 °C" in said  # 7.3 yd³/h
    assert "34.2 kPa" in said


def test_every_width_has_its_drawing_and_the_lifts_their_times(at: World, job: int) -> None:
    page = at.reader.get(f"/jobs/{job}/placing", params={"pump_yd3_per_h": "6", **FORMS}).text
    for width in ("wide", "tablet", "phone"):
        assert f'class="sheet sheet-{width}"' in page
    assert "the forms may carry 715 psf" in page
    assert "CIRIA 108" in page
    # 76 x 3 x 10/12 / 27 = 7.04 yd³ a lift: 70 min at 6 yd³/h.
    assert "1:10 to 2:21" in page


def test_the_lifts_come_as_csv_with_what_is_typed(at: World, job: int) -> None:
    page = at.reader.get(f"/jobs/{job}/placing", params={"temperature_F": "50", "pump_yd3_per_h": "6", **FORMS})
    href = unescape(re.search(r'href="([^"]+placing\.csv[^"]*)"', page.text)[1])  # type: ignore[index]
    text = at.reader.get(href).text
    assert text.splitlines()[0].startswith("lift,from ft,to ft,concrete yd3")
    assert text.splitlines()[2].startswith("2,3,6,7.04,1:10,70,2.56,W1,")
    assert "Pump at most 7.3 yd³/h" in text
    assert "authority having jurisdiction" in text
    alone = at.reader.get(f"/jobs/{job}/placing/walls/{wall_ids(at, job)['W3']}.csv")
    assert alone.headers["content-disposition"] == 'attachment; filename="small-house-w3-placing.csv"'


def test_the_demo_opens_with_a_plan_at_50_degrees_that_holds(at: World) -> None:
    from webapp.services import demo

    job = job_files.take_in(at.db, demo.text())
    said = answer(at, f"/jobs/{job}/placing")
    assert said.startswith("Pass Pump at most")
    assert "at 50 °F" in said


# The office's hold points.

POINTS = "/office/hold-points"


def points(at: World) -> list[str]:
    """What is looked at, in order."""
    values = at.reader.page(POINTS).values
    return [text for name, text in values.items() if name.endswith("-words")]


def point_form(at: World, **changes: str) -> dict[str, str]:
    """The list as its form holds it; selects are read by hand."""
    page = at.reader.get(POINTS).text
    chosen = re.findall(r'<select id="f-(point-\d+-stage)".*?<option value="([^"]+)" selected', page, re.DOTALL)
    boxes = dict.fromkeys(re.findall(r'type="checkbox"[^>]+name="(point-\d+-stop)" value="yes" checked', page), "yes")
    values = {n: t for n, t in Page(page).values.items() if not n.endswith("-stop")}
    stops = {n: boxes.get(n, "no") for n in Page(page).values if n.endswith("-stop")}
    return values | stops | dict(chosen) | changes


def test_every_plan_shows_the_published_hold_points_with_their_source(at: World, job: int) -> None:
    page = words(at.reader.get(f"/jobs/{job}/placing").text)
    for text in (
        "Before placing",
        "While placing",
        "After placing",
        "Stop: Inspection asked for",
        "IRC R109.3, R109.4",
    ):
        assert text in page


def test_the_office_changes_its_hold_points_without_script(at: World, job: int) -> None:
    before = points(at)
    added = at.reader.post(POINTS, data=point_form(at, do="add"))
    assert f"point-{len(before)}-words" in added.text
    assert points(at) == before  # nothing is kept yet
    moved = at.reader.post(POINTS, data=point_form(at, do="down-0"))
    assert Page(moved.text).values["point-1-words"] == before[0]
    fewer = at.reader.post(POINTS, data=point_form(at, do="drop-0"))
    assert Page(fewer.text).values["point-0-words"] == before[1]
    own = point_form(at, do="save", **{"point-0-words": "Ring the ready-mix plant"})
    at.reader.follow(at.reader.post(POINTS, data=own))
    assert points(at)[0] == "Ring the ready-mix plant"
    assert "Ring the ready-mix plant" in at.reader.get(f"/jobs/{job}/placing").text


def test_the_published_list_can_be_brought_back(at: World) -> None:
    before = points(at)
    at.reader.follow(at.reader.post(POINTS, data=point_form(at, do="save", **{"point-0-words": "Mine"})))
    filled = at.reader.post(POINTS, data=point_form(at, do="published"))
    assert Page(filled.text).values["point-0-words"] == before[0]
    assert points(at)[0] == "Mine"  # until it is saved
    at.reader.follow(at.reader.post(POINTS, data=point_form(at, do="save", **{"point-0-words": before[0]})))
    assert "The published list, until the office changes it." in at.reader.get(POINTS).text


@pytest.mark.parametrize(
    ("changes", "field", "message"),
    [
        ({"point-1-words": ""}, "e-point-1-words", "Enter what is looked at"),
        ({"point-5-section": "R1"}, "e-point-5-family", "Enter the code or standard"),
        ({"point-2-stage": "some day"}, "e-point-2-stage", "Choose one of"),
    ],
)
def test_a_point_that_cannot_be_used_is_said_beside_its_field(
    at: World, changes: dict[str, str], field: str, message: str
) -> None:
    answer = at.reader.post(POINTS, data=point_form(at, do="save", **changes))
    assert answer.status_code == 422
    assert f'id="{field}"' in answer.text
    assert message in answer.text


def test_an_empty_list_is_refused(at: World) -> None:
    version = at.reader.page(POINTS).values["version"]
    answer = at.reader.post(POINTS, data={"do": "save", "version": version})
    assert answer.status_code == 422
    assert "Keep at least one point" in answer.text


def test_two_offices_people_do_not_overwrite_each_other(at: World) -> None:
    old = point_form(at, do="save", **{"point-0-words": "Theirs"})
    at.reader.follow(at.reader.post(POINTS, data=point_form(at, do="save", **{"point-0-words": "Mine"})))
    late = at.reader.post(POINTS, data=old)
    assert late.status_code == 409
    assert "Kept now: Mine" in late.text
    assert points(at)[0] == "Mine"
    assert at.stranger().page(POINTS).values["point-0-words"] != "Mine"
