"""Floor lines: typed, laid out, carried or not, copied, put away and brought back."""

import csv
import io

import pytest

from tests.webapp.test_walls import wall_ids
from tests.world import Page, World
from webapp.services import floor_lines
from webapp.services.floor_lines import Line
from webapp.services.standing import stand
from webapp.store import reading


def form(at: World, job: int, **changes: str) -> dict[str, str]:
    """What the form of a new line sends for W1 from 1 ft to 11 ft."""
    page = at.reader.page(f"/jobs/{job}/floor-lines/new")
    usual = {
        "name": "Main floor", "at_wall": str(wall_ids(at, job)["W1"]), "at_level": "1", "at_start_ft": "1", "at_end_ft": "11",
        "member": "sawn", "species": "SPF", "first_joist_in": "4", "last_joist": "no", "span_ft": "14",
    }  # fmt: skip
    return page.values | usual | changes


def make(at: World, job: int, **changes: str) -> int:
    """Keep a line. Returns: its id."""
    answer = at.reader.post(f"/jobs/{job}/floor-lines/new", data=form(at, job, **changes))
    assert answer.status_code == 303, answer.text[:3000]
    return int(answer.headers["location"].rpartition("/")[2])


def lines(at: World, job: int) -> list[Line]:
    with reading(at.db) as session:
        return floor_lines.page(session, stand(session, job))


def test_a_job_without_floor_lines_says_what_to_do_next(at: World, job: int) -> None:
    assert "There is no floor line yet" in at.reader.page(f"/jobs/{job}/floor-lines").text


def test_a_line_is_laid_out_on_its_wall(at: World, job: int) -> None:
    make(at, job)
    (line,) = lines(at, job)
    # from 1 ft: first joist 4 in on, then every 16 in, the last one whose half width still lies within 11 ft
    assert line.joists is not None
    assert line.joists.stations == tuple(12 + 4 + 16 * n for n in range(8))
    text = at.reader.page(f"/jobs/{job}/floor-lines").text
    assert "8 at 16 in" in text


def test_the_page_of_a_line_says_what_its_joists_bring(at: World, job: int) -> None:
    text = at.reader.page(f"/jobs/{job}/floor-lines/{make(at, job)}").text
    # 40 psf over half of 14 ft at 16 in: 40 x 7 x 16/12 lb; along the line 40 x 7 plf
    assert "373 lb" in text
    assert "280 plf" in text
    assert "1,000 plf" in text


def test_what_carries_a_line_is_found_with_its_verdict(at: World, job: int) -> None:
    make(at, job)
    (line,) = lines(at, job)
    assert [row.tag for row in line.carriers] == ["A1"]
    assert line.carried == line.count
    assert line.bare == ()
    assert "Pass" in at.reader.page(f"/jobs/{job}/floor-lines").text


def test_the_part_nothing_carries_is_named_by_its_joists(at: World, job: int) -> None:
    number = make(at, job, at_start_ft="5", at_end_ft="15")
    (line,) = lines(at, job)
    # joists at 64, 80, 96, 112, 128 in stand on A1, which ends at 132 in; those at 144, 160 and 176 in do not
    assert line.carried == 5
    assert [(s.start_in, s.end_in, s.joists) for s in line.bare] == [(144.0, 176.0, 3)]
    assert "3 joists from 12-0 to 14-8" in at.reader.page(f"/jobs/{job}/floor-lines/{number}").text


def test_what_stands_on_another_level_or_elsewhere_carries_nothing(at: World, job: int) -> None:
    make(at, job, at_level="2")
    make(at, job, name="Beyond", at_start_ft="11", at_end_ft="21")
    assert [line.carriers for line in lines(at, job)] == [(), ()]
    assert at.reader.page(f"/jobs/{job}/floor-lines").text.count("nothing yet") == 2


def test_a_beam_on_a_plate_carries_no_joists_and_a_joist_on_a_plate_only_itself(at: World) -> None:
    plate = {"kind": "anchored_plate", "wall": "W3", "level": 1, "end": ""}
    job = at.job(attachments=[
        plate | {"tag": "A1", "start": "4 ft", "inputs": {}},
        plate | {"tag": "A2", "start": "2 ft 8 in", "inputs": {"carried": "joist"}},
    ])  # fmt: skip
    make(at, job, at_wall=str(wall_ids(at, job)["W3"]))
    (line,) = lines(at, job)
    assert [row.tag for row in line.carriers] == ["A2"]
    assert line.carried == 1


@pytest.mark.parametrize(
    ("name", "text", "message"),
    [
        ("name", "", "Enter a name"),
        ("span_ft", "far", "be read"),
        ("span_ft", "", "Enter span"),
        ("spacing_in", "40 psf", "does not fit here"),
        ("at_start_ft", "60", "Wall W1 is 40 ft long"),
        ("at_end_ft", "0-6", "beyond the start"),
        ("at_level", "7", "levels 1 to 2"),
        ("at_level", "roof", "floor level"),
        ("at_wall", "999", "Choose a wall"),
        ("first_joist_in", "500", "96 in"),
        ("member", "brick", "Choose one of"),
    ],
)
def test_a_value_that_cannot_be_meant_is_refused_beside_its_field(
    at: World, job: int, name: str, text: str, message: str
) -> None:
    answer = at.reader.post(f"/jobs/{job}/floor-lines/new", data=form(at, job, **{"depth_in": "11 7/8", name: text}))
    assert answer.status_code == 422
    assert f'id="e-{name}"' in answer.text
    assert message in answer.text
    assert Page(answer.text).values["depth_in"] == "11 7/8"
    assert lines(at, job) == []


def test_a_name_is_given_once(at: World, job: int) -> None:
    make(at, job)
    answer = at.reader.post(f"/jobs/{job}/floor-lines/new", data=form(at, job))
    assert answer.status_code == 422
    assert "There is a floor line Main floor already" in answer.text


def test_a_line_open_at_its_end_goes_on_to_the_walls_far_end(at: World, job: int) -> None:
    number = make(at, job, at_end_ft="", at_start_ft="0")
    assert "0 ft to the far end" in at.reader.page(f"/jobs/{job}/floor-lines/{number}").text
    assert lines(at, job)[0].count == 30  # 4 in, then every 16 in, up to 40 ft less half a joist


def test_a_change_is_kept_in_the_unit_it_was_typed_in(at: World, job: int) -> None:
    number = make(at, job)
    edit = f"/jobs/{job}/floor-lines/{number}/edit"
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    page = at.reader.page(edit)
    assert page.values["depth_in"] == "234.95"  # 9 1/4 in
    data = page.values | {"at_wall": str(wall_ids(at, job)["W1"]), "member": "sawn", "species": "SPF", "span_ft": "3.8"}
    at.reader.follow(at.reader.post(edit, data=data))
    kept = at.reader.get(f"/api/jobs/{job}").json()["job"]["floor_lines"][0]
    assert kept["inputs"]["span_ft"] == "3.8 m"
    assert kept["inputs"]["depth_in"] == "9 1/4 in"
    assert kept["start"] == "1 ft"


def test_a_line_changed_meanwhile_is_told_with_what_is_kept_now(at: World, job: int) -> None:
    edit = f"/jobs/{job}/floor-lines/{make(at, job)}/edit"
    page = at.reader.page(edit)
    chosen = {"at_wall": str(wall_ids(at, job)["W1"]), "member": "sawn", "species": "SPF"}
    at.reader.follow(at.reader.post(edit, data=page.values | chosen | {"span_ft": "12"}))
    answer = at.reader.post(edit, data=page.values | chosen | {"span_ft": "13"})
    assert answer.status_code == 409
    assert "Kept now: 12." in answer.text
    assert Page(answer.text).values["span_ft"] == "13"


def test_a_copy_lies_on_the_other_walls_cut_to_their_length(at: World, job: int) -> None:
    number, ids = make(at, job, at_end_ft="30"), wall_ids(at, job)
    answer = at.reader.post(f"/jobs/{job}/floor-lines/{number}/copy", data={"wall": [str(ids["W2"]), str(ids["W3"])]})
    assert "Main floor, W2; Main floor, W3" in at.reader.follow(answer).text
    assert [(line.row.name, line.row.end) for line in lines(at, job)[1:]] == [
        ("Main floor, W2", "24 ft"),
        ("Main floor, W3", "12 ft"),
    ]
    again = at.reader.post(f"/jobs/{job}/floor-lines/{number}/copy", data={"wall": str(ids["W2"])})
    assert "Main floor, W2 2" in at.reader.follow(again).text


def test_copying_to_a_wall_it_cannot_lie_on_copies_to_none(at: World, job: int) -> None:
    number, ids = make(at, job, at_start_ft="20", at_end_ft="30"), wall_ids(at, job)
    answer = at.reader.post(f"/jobs/{job}/floor-lines/{number}/copy", data={"wall": [str(ids["W2"]), str(ids["W3"])]})
    assert answer.status_code == 422
    assert "Wall W3 is 12 ft long" in answer.text
    assert len(lines(at, job)) == 1
    assert at.reader.post(f"/jobs/{job}/floor-lines/{number}/copy", data={}).status_code == 422


def test_a_deleted_line_comes_back_unless_its_name_is_taken(at: World, job: int) -> None:
    number = make(at, job)
    at.reader.follow(at.reader.post(f"/jobs/{job}/floor-lines/{number}/delete"))
    assert lines(at, job) == []
    assert at.reader.get(f"/jobs/{job}/floor-lines/{number}").status_code == 404
    at.reader.follow(at.reader.post(f"/jobs/{job}/floor-lines/{number}/restore"))
    assert len(lines(at, job)) == 1
    at.reader.post(f"/jobs/{job}/floor-lines/{number}/delete")
    make(at, job)
    answer = at.reader.post(f"/jobs/{job}/floor-lines/{number}/restore")
    assert answer.status_code == 409
    assert "another floor line Main floor by now" in answer.text


def test_a_wall_is_not_deleted_under_a_floor_line(at: World, job: int) -> None:
    wall = wall_ids(at, job)["W3"]
    number = make(at, job, at_wall=str(wall))
    answer = at.reader.post(f"/jobs/{job}/walls/{wall}/delete")
    assert answer.status_code == 409
    assert "Main floor lies along W3" in answer.text
    at.reader.post(f"/jobs/{job}/floor-lines/{number}/delete")
    assert at.reader.post(f"/jobs/{job}/walls/{wall}/delete").status_code == 303
    restored = at.reader.post(f"/jobs/{job}/floor-lines/{number}/restore")
    assert "Bring that wall back first" in restored.text


def test_a_line_its_wall_no_longer_holds_says_why(at: World, job: int) -> None:
    number = make(at, job, at_wall=str(wall_ids(at, job)["W3"]))
    wall = f"/jobs/{job}/walls/{wall_ids(at, job)['W3']}"
    storeys = {f"storeys-{n}-type": name for n, name in enumerate(("Ten", "Six"))}
    ends = {"near_end": "corner", "far_end": "corner"}
    at.reader.follow(at.reader.post(wall, data=at.reader.page(wall).values | storeys | ends | {"length_ft": "8"}))
    assert "Wall W3 is 8 ft long" in at.reader.page(f"/jobs/{job}/floor-lines").text
    assert "This line can't be used" in at.reader.page(f"/jobs/{job}/floor-lines/{number}").text
    answer = at.reader.get(f"/jobs/{job}/floor-lines/{number}/options")
    assert answer.headers["location"] == f"/jobs/{job}/floor-lines/{number}"


def test_the_list_is_a_table_of_its_own(at: World, job: int) -> None:
    make(at, job, at_start_ft="5", at_end_ft="15")
    rows = list(csv.DictReader(io.StringIO(at.reader.get(f"/jobs/{job}/floor-lines.csv").text)))
    assert rows[0]["joists"] == "8"
    assert rows[0]["carried by"] == "A1 pass"
    assert rows[0]["joists carried"] == "5"
    assert rows[0]["not carried"] == "3 joists from 12-0 to 14-8"
    assert float(rows[0]["live at a joist's end, lb"]) == pytest.approx(40 * 7 * 16 / 12, abs=0.05)


def test_the_list_takes_the_same_queries_however_many_lines(at: World, job: int) -> None:
    def asked() -> int:
        with at.counted() as sent:
            at.reader.page(f"/jobs/{job}/floor-lines")
        return len(sent)

    make(at, job)
    few = asked()
    for n in range(5):
        make(at, job, name=f"Floor {n}")
    assert asked() == few
