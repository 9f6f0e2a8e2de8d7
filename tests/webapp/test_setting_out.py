"""Setting out as a designer does it: stations read, an anchor moved clear of a window and back, bad moves named."""

import csv
import io
import json
from typing import Any

import pytest

from engine import job_file
from engine.job import plan
from engine.set_job import asked, set_job
from engine.setting_out import Habits, SettingOut
from engine.units import feet_inches
from tests.world import Page, World, house
from webapp.models import Attachment, Wall
from webapp.services import setting_out
from webapp.services.refusals import Stale
from webapp.services.setting_out import Spot
from webapp.services.stations import packed, text_of, unpacked
from webapp.store import reading, writing

ANCHORS = Spot("A1", "anchor")


def windowed(at: World, **changes: Any) -> tuple[int, int]:
    """The small house with a window right under the floor of W1, inside the run of A1. Returns: the job's id and the wall's."""
    document = house()
    window = {"start_ft": "4 ft", "width_ft": "3 ft", "sill_ft": "3 ft", "head_ft": "9 ft", "storey": "1"}
    document["walls"][0]["openings"] = [window]
    job = at.job(walls=document["walls"], **changes)
    with reading(at.db) as session:
        return job, next(iter(setting_out.of_job(session, job).standing.walls))


def entry(at: World, job: int, wall: int, mark: str = "A1") -> SettingOut:
    with reading(at.db) as session:
        return setting_out.of_wall(session, job, wall).entry(mark)


def address(job: int, wall: int, mark: str = "A1") -> str:
    return f"/jobs/{job}/setting-out/walls/{wall}/{mark}"


def sent(page: Page, **changes: str) -> dict[str, str]:
    """The form of stations as a browser sends it back."""
    names = ("what", "version", "units", "stations", "add")
    kept = {n: t for n, t in page.values.items() if n in names or n.startswith("at-")}
    return kept | changes


def inputs(page: Page) -> list[str]:
    return [text for name, text in page.values.items() if name.startswith("at-")]


def test_every_wall_says_how_many_of_what_is_set_on_it(at: World) -> None:
    job, wall = windowed(at)
    text = at.reader.get(f"/jobs/{job}/setting-out").text
    out = entry(at, job, wall)
    assert f"{out.count('joist')} joists, {out.count('anchor')} anchor bolts" in text
    assert f"/jobs/{job}/setting-out/walls/{wall}#A1" in text


def test_a_wall_shows_its_elevation_and_every_station_in_feet_and_in_millimetres(at: World) -> None:
    job, wall = windowed(at)
    text = at.reader.get(f"/jobs/{job}/setting-out/walls/{wall}").text
    assert text.count('class="dwg"') == 4, "three widths of screen and the sheet of paper"
    for mark in entry(at, job, wall).marks:
        assert f">{mark.text}</th>" in text
        assert f">{mark.mm:,}<" in text


def test_an_anchor_is_moved_into_a_window_clear_of_it_again_and_back(at: World) -> None:
    job, wall = windowed(at)
    calculated = entry(at, job, wall).stations("anchor")
    page = at.reader.page(address(job, wall))
    into = at.reader.post(address(job, wall), data=sent(page, **{"at-1": "5-0", "do": "check"}))
    assert into.status_code == 200
    assert "The anchor bolt at 5-0 stands 12 in off: in an opening, or past the end." in into.text
    assert entry(at, job, wall).stations("anchor") == calculated, "a try keeps nothing"
    tried = Page(into.text)
    row = inputs(tried).index("5-0")
    clear = at.reader.post(address(job, wall), data=sent(tried, do=f"near-{row}"))
    assert "in an opening" not in clear.text
    moved = Page(clear.text)
    kept = at.reader.follow(at.reader.post(address(job, wall), data=sent(moved, do="save")))
    assert "These stations are kept." in kept.text
    by_hand = entry(at, job, wall)
    assert [text_of(station) for station in by_hand.stations("anchor")] == inputs(moved)
    assert not any(f.key == "off" for f in by_hand.findings)
    assert all(not 48 < station < 84 for station in by_hand.stations("anchor"))
    version = Page(kept.text).values["version"]
    back = at.reader.post(f"{address(job, wall)}/anchor/reset", data={"version": version})
    assert "Back to the calculated stations." in at.reader.follow(back).text
    assert entry(at, job, wall).stations("anchor") == calculated


def test_a_move_can_be_taken_back(at: World) -> None:
    job, wall = windowed(at)
    calculated = entry(at, job, wall).stations("anchor")
    page = at.reader.page(address(job, wall))
    kept = at.reader.follow(at.reader.post(address(job, wall), data=sent(page, **{"at-0": "2-1", "do": "save"})))
    undo = next(a["action"] for _, a in Page(kept.text).of("form") if "/put/" in a.get("action", ""))
    assert "Taken back." in at.reader.follow(at.reader.post(undo)).text
    assert entry(at, job, wall).stations("anchor") == calculated
    assert "moved again since" in at.reader.follow(at.reader.post(undo)).text


def test_stations_made_meanwhile_by_somebody_else_are_told_and_nothing_typed_is_lost(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall))
    at.reader.follow(at.reader.post(address(job, wall), data=sent(page, **{"at-0": "2-1", "do": "save"})))
    stale = at.reader.post(address(job, wall), data=sent(page, **{"at-0": "2-3", "do": "save"}))
    assert stale.status_code == 409
    assert "Somebody moved these meanwhile" in stale.text
    assert "2-1" in stale.text
    again = Page(stale.text)
    assert inputs(again)[0] == "2-3"
    at.reader.follow(at.reader.post(address(job, wall), data=sent(again, do="save")))
    assert entry(at, job, wall).stations("anchor")[0] == 27


def test_the_service_refuses_an_older_version(at: World) -> None:
    job, wall = windowed(at)
    with reading(at.db) as session:
        version = setting_out.version_of(session, job, wall, ANCHORS)
    setting_out.move(at.db, job, wall, ANCHORS, (24.0, 36.0), version)
    with pytest.raises(Stale):
        setting_out.reset(at.db, job, wall, ANCHORS, version)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("45-0", "That is 60 in past the end of wall W1. Enter 0-0 to 40-0."),
        ("-3 in", "That is 3 in before the named end of wall W1."),
        ("nan", "“nan” can&#39;t be read"),
        ("", "Enter a length"),
        ("4 psf", "does not fit here"),
        ("1e9", "is not a unit known here"),
    ],
)
def test_a_station_no_wall_has_is_named_beside_its_field(at: World, text: str, message: str) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall))
    for do in ("check", "save"):
        answer = at.reader.post(address(job, wall), data=sent(page, **{"at-1": text, "do": do}))
        assert answer.status_code == 422
        assert 'id="e-at-1"' in answer.text
        assert message in answer.text
        assert Page(answer.text).values["at-1"] == text
    with reading(at.db) as session:
        assert setting_out.of_job(session, job).moved(wall, ANCHORS) is None


def test_a_station_typed_twice_is_named(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall))
    answer = at.reader.post(address(job, wall), data=sent(page, **{"at-1": inputs(page)[0], "do": "save"}))
    assert answer.status_code == 422
    assert "is there already. Enter another station, or take this one away." in answer.text


def test_steps_reach_the_next_half_inch_and_stop_at_the_end_of_the_wall(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall))
    uneven = sent(page, **{"at-0": "2-0 1/8", "do": "more-0"})
    assert inputs(Page(at.reader.post(address(job, wall), data=uneven).text))[0] == "2-0 1/2"
    at_the_end = sent(page, **{"at-0": "0-0", "do": "less-0"})
    assert inputs(Page(at.reader.post(address(job, wall), data=at_the_end).text))[0] == "0-0"


def test_a_station_is_added_and_taken_away(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall))
    more = Page(at.reader.post(address(job, wall), data=sent(page, add="3-0", do="check")).text)
    assert len(inputs(more)) == len(inputs(page)) + 1
    assert "3-0" in inputs(more)
    less = Page(at.reader.post(address(job, wall), data=sent(more, do=f"drop-{inputs(more).index('3-0')}")).text)
    assert inputs(less) == inputs(page)
    bad = at.reader.post(address(job, wall), data=sent(page, add="far", do="save"))
    assert bad.status_code == 422
    assert Page(bad.text).values["add"] == "far"


def test_no_station_at_all_is_not_kept(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall))
    none = {name: text for name, text in sent(page, do="save").items() if not name.startswith("at-")}
    answer = at.reader.post(address(job, wall), data=none)
    assert answer.status_code == 422
    assert "Leave at least one station" in answer.text


def test_a_script_gets_the_checked_part_alone(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall))
    asked_by = {"hx-request": "true"}
    part = at.reader.post(address(job, wall), data=sent(page, **{"at-1": "5-0"}), headers=asked_by)
    assert part.text.lstrip().startswith('<div id="setting"')
    assert part.headers["vary"] == "HX-Request"
    assert "in an opening" in part.text
    bad = at.reader.post(address(job, wall), data=sent(page, **{"at-1": "far"}), headers=asked_by)
    assert bad.status_code == 200
    assert 'id="e-at-1"' in bad.text


def test_millimetres_typed_and_left_alone_do_not_drift(at: World) -> None:
    job, wall = windowed(at)
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    before = entry(at, job, wall).stations("anchor")
    page = at.reader.page(address(job, wall))
    assert page.values["units"] == "mm"
    assert inputs(page)[1] == str(round(before[1] * 25.4))
    at.reader.follow(at.reader.post(address(job, wall), data=sent(page, **{"at-0": "635", "do": "save"})))
    after = entry(at, job, wall).stations("anchor")
    assert after[0] == 25.0
    assert after[1:] == before[1:]


def test_joists_moved_by_hand_take_the_bolts_along_and_are_kept(at: World) -> None:
    job, wall = windowed(at)
    spot = at.reader.page(address(job, wall) + "?what=joist")
    answer = at.reader.post(address(job, wall), data=sent(spot, **{"at-0": "2-2", "do": "save"}))
    assert answer.headers["location"].endswith("?what=joist")
    out = entry(at, job, wall)
    assert 26.0 in out.stations("joist")
    apart = Habits().joist_clear_in + 0.75
    assert all(abs(bolt - joist) >= apart - 1e-6 for bolt in out.stations("anchor") for joist in out.stations("joist"))


def test_transition_brackets_step_from_web_to_web_and_are_kept_with_the_wall(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall, "L1"))
    before = entry(at, job, wall, "L1").stations("bracket")
    tried = Page(at.reader.post(address(job, wall, "L1"), data=sent(page, do="more-1")).text)
    assert inputs(tried)[1] == text_of(before[1] + 8), "webs stand 8 in apart"
    at.reader.follow(at.reader.post(address(job, wall, "L1"), data=sent(tried, do="save")))
    assert entry(at, job, wall, "L1").stations("bracket")[1] == before[1] + 8
    file = at.reader.get(f"/jobs/{job}/job.json").json()
    assert file["walls"][0]["brackets"]["1"][1] == text_of(before[1] + 8)


def test_what_is_moved_shows_as_stations_of_the_attachments_own_page(at: World) -> None:
    job, wall = windowed(at)
    text = at.reader.get(f"/jobs/{job}/attachments/A1").text
    assert "Set out: " in text
    assert "Clear." in text
    assert f'href="{address(job, wall)}"' in text
    page = at.reader.page(address(job, wall))
    at.reader.follow(at.reader.post(address(job, wall), data=sent(page, **{"at-1": "5-0", "do": "save"})))
    assert "against it" in at.reader.get(f"/jobs/{job}/attachments/A1").text


def test_an_attachment_page_says_where_the_floor_line_differs_from_its_check(at: World) -> None:
    line = {"name": "F1", "wall": "W1", "level": 1, "start": "0 ft", "end": "40 ft", "inputs": {"spacing_in": "12 in"}}
    job, _ = windowed(at, floor_lines=[line])
    text = at.reader.get(f"/jobs/{job}/attachments/A1").text
    assert "The floor line has joists 12 in apart; this attachment was checked with 16 in." in text


def test_the_csv_holds_the_engines_stations(at: World) -> None:
    job, wall = windowed(at)
    text = at.reader.get(f"/jobs/{job}/setting-out.csv").text
    rows = [row for row in csv.reader(io.StringIO(text)) if len(row) == 10][1:]
    typed = job_file.read(json.dumps(at.reader.get(f"/jobs/{job}/job.json").json()))
    standing = plan(typed)
    expected = []
    for out in set_job(typed, asked(typed, standing)):
        own = (out.wall, str(out.level), out.tag or "wall")
        set_at = [(mark.what, mark.at_in, mark.count) for mark in out.marks]
        headed = [
            ("joist", station, 0) for station in out.headered
        ]  # listed, so that a crew does not look for them; none is set
        for what, station, count in set_at + headed:
            feet, mm = feet_inches(station), round(station * 25.4)  # 25.4 mm in an inch, by its definition
            expected.append((*own, what, feet, str(mm), f"{station:.4f}", str(count)))
    assert sorted((*r[:4], *r[5:9]) for r in rows) == sorted(expected)
    assert any(row[-1] == "headed off at an opening" for row in rows)
    one = at.reader.get(f"/jobs/{job}/setting-out/walls/{wall}.csv").text
    assert [r for r in csv.reader(io.StringIO(one)) if len(r) == 10][1:] == [r for r in rows if r[0] == "W1"]


def test_the_csv_says_what_stands_against_its_stations(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page(address(job, wall))
    at.reader.follow(at.reader.post(address(job, wall), data=sent(page, **{"at-1": "5-0", "do": "save"})))
    assert "The anchor bolt at 5-0 stands 12 in off" in at.reader.get(f"/jobs/{job}/setting-out.csv").text


def test_places_that_are_not_there_are_missing(at: World) -> None:
    job, wall = windowed(at)
    for path in (
        "walls/999",
        f"walls/{wall}/A9",
        f"walls/{wall}/A2",
        f"walls/{wall}/L7",
        f"walls/{wall}/A1?what=pocket",
    ):
        assert at.reader.get(f"/jobs/{job}/setting-out/{path}").status_code == 404, path
    assert at.reader.post(f"{address(job, wall)}/bar/reset").status_code == 404


def test_an_inspector_reads_stations_and_moves_none(at: World) -> None:
    job, wall = windowed(at)
    inspector = at.as_("inspector")
    text = inspector.get(address(job, wall)).text
    assert "<fieldset disabled>" in text
    assert "Keep these stations" not in text
    assert inspector.post(address(job, wall)).status_code == 403


def test_a_wall_that_cannot_be_built_says_why(at: World) -> None:
    job, wall = windowed(at)
    with reading(at.db) as session:
        row = setting_out.of_job(session, job).standing.walls[wall]
    with writing(at.db) as session:
        session.get_one(Wall, row.id).storeys = [{"type": "Gone", "height_ft": "9 ft"}]
    assert "can&#39;t be built" in at.reader.get(f"/jobs/{job}/setting-out").text
    assert "can&#39;t be built" in at.reader.get(f"/jobs/{job}/setting-out/walls/{wall}").text


def test_a_job_without_walls_says_what_to_do_first(at: World) -> None:
    job = at.job(walls=[], attachments=[])
    assert "There is no wall to set out yet." in at.reader.get(f"/jobs/{job}/setting-out").text


def test_stations_are_kept_in_feet_and_inches_or_to_the_last_digit() -> None:
    assert text_of(150.5) == "12-6 1/2"
    assert text_of(0.0625) == "0-0 1/16"
    assert text_of(10 / 25.4) == "0.393700787 in"
    stations = (0.0, 150.5, 10 / 25.4, 4800.0)
    assert unpacked(packed(stations)) == pytest.approx(stations, abs=1e-6)
    assert unpacked(packed(None)) is None


def test_habits_are_typed_once_and_stations_follow_them(at: World) -> None:
    job, wall = windowed(at)
    page = at.reader.page("/office/habits")
    before = entry(at, job, wall).stations("anchor")
    data = page.values | {"grid_in": "4", "brackets_on_webs": "yes"}
    at.reader.follow(at.reader.post("/office/habits", data=data))
    after = entry(at, job, wall).stations("anchor")
    assert after != before
    assert all(station % 4 == 0 for station in after)
    assert at.reader.page("/office/habits").values["grid_in"] == "4"


def test_a_habit_outside_its_range_is_named_and_an_older_form_is_told(at: World) -> None:
    page = at.reader.page("/office/habits")
    answer = at.reader.post("/office/habits", data=page.values | {"grid_in": "0"})
    assert answer.status_code == 422
    assert 'id="e-grid_in"' in answer.text
    at.reader.follow(at.reader.post("/office/habits", data=page.values | {"grid_in": "1"}))
    stale = at.reader.post("/office/habits", data=page.values | {"grid_in": "2"})
    assert stale.status_code == 409
    assert "Kept now: 1." in stale.text
    assert "common practice" in stale.text.lower()


def test_an_attachment_of_a_kind_this_program_has_not_says_so_and_the_others_are_set_out(at: World) -> None:
    job, wall = windowed(at)
    with writing(at.db) as session:
        session.add(
            Attachment(job_id=job, number=7, kind="later", wall_id=wall, level=1, start="1 ft", end="", inputs={})
        )
    text = at.reader.get(f"/jobs/{job}/setting-out/walls/{wall}").text
    assert "No attachment kind &#39;later&#39;." in text
    assert entry(at, job, wall).count("anchor") > 0
    assert at.reader.get(address(job, wall, "A7")).status_code == 404, "there is nothing of it to move"


def test_a_wall_of_four_hundred_feet_has_a_field_for_each_of_its_stirrups(at: World) -> None:
    document = house()
    document["walls"][0]["line"]["length_ft"] = "400 ft"
    ledge = {
        "tag": "A3",
        "kind": "veneer_ledge",
        "wall": "W1",
        "level": 1,
        "start": "1 ft",
        "end": "399 ft",
        "inputs": {},
    }
    job = at.job(walls=document["walls"], attachments=[ledge])
    with reading(at.db) as session:
        wall = next(iter(setting_out.of_job(session, job).standing.walls))
    page = at.reader.page(address(job, wall, "A3"))
    assert len(inputs(page)) == 597  # a stirrup in each of the spaces of 8 in on 398 ft
    answer = at.reader.post(address(job, wall, "A3"), data=sent(page, do="more-3"))
    assert answer.status_code == 200
    assert inputs(Page(answer.text))[3] != inputs(page)[3]


def test_a_pocket_set_elsewhere_than_it_was_checked_says_so_on_both_pages(at: World) -> None:
    pocket = {"tag": "A4", "kind": "beam_pocket", "wall": "W2", "level": 1, "start": "10 ft", "end": "", "inputs": {}}
    job, _ = windowed(at, attachments=[*house()["attachments"], pocket])
    with reading(at.db) as session:
        wall = next(i for i, row in setting_out.of_job(session, job).standing.walls.items() if row.name == "W2")
    assert "where it was checked" not in at.reader.get(f"/jobs/{job}/attachments/A4").text
    page = at.reader.page(address(job, wall, "A4"))
    assert "add" not in page.values, "there is one pocket, and no other beside it"
    at.reader.follow(at.reader.post(address(job, wall, "A4"), data=sent(page, **{"at-0": "10-3", "do": "save"})))
    said = "It is set at 10-3, 3 in from 10-0 where it was checked."
    assert said in at.reader.get(f"/jobs/{job}/attachments/A4").text
    assert said in at.reader.get(f"/jobs/{job}/setting-out/walls/{wall}").text
