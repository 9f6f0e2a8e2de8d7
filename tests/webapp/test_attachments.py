"""Attachments: typed with the verdict beside, kept, copied, put away and brought back."""

import re

import pytest

from tests.webapp.test_walls import wall_ids
from tests.world import Page, World
from webapp.services import attachments
from webapp.services.listing import Wanted
from webapp.store import reading

HX = {"HX-Request": "true"}


def fields(at: World, job: int, tag: str, **changes: str) -> dict[str, str]:
    """What the form of an attachment sends when nothing is touched, and changes."""
    page = at.reader.page(f"/jobs/{job}/attachments/{tag}")
    start = page.text.index('class="col-inputs"')
    inputs = Page(page.text[start:]).values
    for name, options in re.findall(r'<select[^>]* name="(\w+)"[^>]*>(.*?)</select>', page.text[start:], re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', options)
        inputs[name] = chosen[1] if chosen else ""
    return inputs | changes


def row(at: World, job: int, tag: str) -> attachments.AttachmentRow:
    with reading(at.db) as session:
        return next(r for r in attachments.everything(session, job) if r.tag == tag)


def test_the_page_shows_verdict_drawing_working_and_cautions(at: World, job: int) -> None:
    text = at.reader.page(f"/jobs/{job}/attachments/A2").text
    assert "Flag" in text
    assert "<svg" in text
    assert "<math" in text
    assert "Cautions" in text
    assert "Not checked:" in text
    assert "Local code and the authority having jurisdiction govern" in text


def test_numbers_that_follow_the_wall_are_shown_and_not_asked_for(at: World, job: int) -> None:
    page = at.reader.page(f"/jobs/{job}/attachments/A1")
    assert "from wall W1" in page.text
    assert "lower_core_in" not in page.values
    assert "from the job" in page.text


def test_numbers_that_follow_the_wall_are_not_kept_with_the_attachment(at: World, job: int) -> None:
    data = fields(at, job, "A1", lower_core_in="24", do="save")
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1", data=data))
    kept = at.reader.get(f"/api/jobs/{job}").json()["job"]["attachments"][0]["inputs"]
    assert "lower_core_in" not in kept
    assert row(at, job, "A1").verdict == "pass"


def test_checking_without_script_shows_the_verdict_and_keeps_nothing(at: World, job: int) -> None:
    before = row(at, job, "A1")
    answer = at.reader.post(f"/jobs/{job}/attachments/A1", data=fields(at, job, "A1", required_bearing_in="9"))
    assert answer.status_code == 200
    assert "not kept yet" in answer.text
    assert "its drawing asks for 9 in" in answer.text
    assert row(at, job, "A1") == before


def test_a_live_check_answers_with_the_result_alone(at: World, job: int) -> None:
    data = fields(at, job, "A1", required_bearing_in="9")
    answer = at.reader.post(f"/jobs/{job}/attachments/A1", data=data, headers=HX)
    assert answer.headers["vary"] == "HX-Request"
    assert answer.text.lstrip().startswith('<div id="result"')
    assert "<html" not in answer.text
    assert "its drawing asks for 9 in" in answer.text


def test_what_would_make_it_pass_follows_a_live_check(at: World, job: int) -> None:
    data = fields(at, job, "A1", lap_in="12")
    live = at.reader.post(f"/jobs/{job}/attachments/A1", data=data, headers=HX).text
    assert "What would make it pass" not in live
    address = re.search(r'hx-post="([^"]*part=remedies)"', live)
    assert address
    later = at.reader.post(address[1], data=data, headers=HX)
    assert "What would make it pass" in later.text
    assert '<svg class="drawing' not in later.text


def test_a_remedy_fills_the_form_in_and_makes_it_pass(at: World, job: int) -> None:
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1", data=fields(at, job, "A1", lap_in="12", do="save")))
    assert row(at, job, "A1").verdict == "flag"
    text = at.reader.page(f"/jobs/{job}/attachments/A1").text
    used = re.search(r'class="remedy-use" href="([^"]*lap_in=[^"]*)"', text)
    assert used
    filled = at.reader.get(used[1].replace("&amp;", "&"))
    assert "Filled in, not kept yet" in filled.text
    assert row(at, job, "A1").verdict == "flag"
    lap = Page(filled.text).values["lap_in"]
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1", data=fields(at, job, "A1", lap_in=lap, do="save")))
    assert row(at, job, "A1").verdict == "pass"


def test_saving_keeps_what_was_typed_in_the_unit_it_was_typed_in(at: World, job: int) -> None:
    data = fields(at, job, "A1", span_ft="3.8 m", joist_spacing_in="12", do="save")
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1", data=data))
    kept = at.reader.get(f"/api/jobs/{job}").json()["job"]["attachments"][0]["inputs"]
    assert kept["span_ft"] == "3.8 m"
    assert kept["joist_spacing_in"] == "12 in"


@pytest.mark.parametrize(
    ("name", "text", "message"),
    [
        ("span_ft", "far", "be read"),
        ("span_ft", "", "Enter span"),
        ("joist_depth_in", "-3", "3 in to 60 in"),
        ("joist_depth_in", "40 psf", "does not fit here"),
        ("member", "brick", "Choose one of"),
        ("at_start_ft", "500", "400"),
        ("at_start_ft", "60", "Wall W1 is 40 ft long"),
        ("at_end_ft", "0-6", "beyond the start"),
        ("at_level", "7", "levels 1 to 2"),
        ("at_level", "roof", "floor level"),
        ("at_wall", "999", "Choose a wall"),
    ],
)  # fmt: skip
def test_a_value_that_cannot_be_meant_is_refused_beside_its_field(
    at: World, job: int, name: str, text: str, message: str
) -> None:
    before = row(at, job, "A1")
    data = fields(at, job, "A1", **{name: text}, joist_spacing_in="19.2", do="save")
    answer = at.reader.post(f"/jobs/{job}/attachments/A1", data=data)
    assert answer.status_code == 422
    assert f'id="e-{name}"' in answer.text
    assert message in answer.text
    values = Page(answer.text[answer.text.index('class="col-inputs"') :]).values
    assert values["joist_spacing_in"] == "19.2"
    if name in values:
        assert values[name] == text
    assert row(at, job, "A1") == before


def test_a_new_attachment_is_chosen_typed_and_kept(at: World, job: int) -> None:
    choose = at.reader.page(f"/jobs/{job}/attachments/new").text
    assert "Joists on a ledge" in choose
    wall = wall_ids(at, job)["W3"]
    form = at.reader.page(f"/jobs/{job}/attachments/new?kind=ledge_seat&at_wall={wall}&units=ft+in")
    assert "from wall W3" in form.text
    data = {
        "kind": "ledge_seat",
        "units": "ft in",
        "at_wall": str(wall),
        "at_level": "1",
        "at_start_ft": "1",
        "at_end_ft": "9",
    }
    kept = at.reader.post(f"/jobs/{job}/attachments/new", data=data | {"span_ft": "12", "do": "save"})
    assert kept.headers["location"] == f"/jobs/{job}/attachments/A3"
    at.reader.follow(kept)
    assert row(at, job, "A3").wall == "W3"


def test_a_kind_there_is_not_is_not_found(at: World, job: int) -> None:
    assert at.reader.get(f"/jobs/{job}/attachments/new?kind=magic").status_code == 404
    assert at.reader.post(f"/jobs/{job}/attachments/new", data={"kind": "magic"}).status_code == 404


@pytest.mark.parametrize("tag", ["A9", "A0", "B1", "A1x", "A99999999999", "1"])
def test_a_tag_there_is_not_is_not_found(at: World, job: int, tag: str) -> None:
    assert at.reader.get(f"/jobs/{job}/attachments/{tag}").status_code == 404
    assert at.reader.post(f"/jobs/{job}/attachments/{tag}/delete").status_code == 404


def test_a_copy_follows_its_own_wall_and_gets_its_own_verdict(at: World, job: int) -> None:
    ids = wall_ids(at, job)
    answer = at.reader.post(f"/jobs/{job}/attachments/A1/copy", data={"wall": [str(ids["W2"]), str(ids["W3"])]})
    assert "A1 is copied as A3, A4." in at.reader.follow(answer).text
    assert (row(at, job, "A3").wall, row(at, job, "A4").wall) == ("W2", "W3")
    assert row(at, job, "A4").verdict == "pass"


def test_a_run_longer_than_the_other_wall_is_cut_to_it(at: World, job: int) -> None:
    at.reader.follow(
        at.reader.post(f"/jobs/{job}/attachments/A1", data=fields(at, job, "A1", at_end_ft="39", do="save"))
    )
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1/copy", data={"wall": str(wall_ids(at, job)["W3"])}))
    assert row(at, job, "A3").end == "12 ft"


def test_copying_to_a_wall_it_cannot_stand_on_copies_to_none(at: World, job: int) -> None:
    ids = wall_ids(at, job)
    at.reader.follow(at.reader.post(
        f"/jobs/{job}/attachments/A1", data=fields(at, job, "A1", at_start_ft="20", at_end_ft="30", do="save")
    ))  # fmt: skip
    answer = at.reader.post(f"/jobs/{job}/attachments/A1/copy", data={"wall": [str(ids["W2"]), str(ids["W3"])]})
    assert answer.status_code == 422
    assert "Wall W3 is 12 ft long" in answer.text
    with reading(at.db) as session:
        assert len(attachments.everything(session, job)) == 2


def test_a_deleted_attachment_comes_back_as_it_was_and_its_tag_is_not_given_away(at: World, job: int) -> None:
    before = row(at, job, "A1")
    gone = at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1/delete"))
    assert "A1 is deleted." in gone.text
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A2/copy", data={"wall": str(wall_ids(at, job)["W1"])}))
    assert row(at, job, "A3").wall == "W1"
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1/restore"))
    assert row(at, job, "A1") == before


def test_an_attachment_whose_wall_was_deleted_stays_away_and_says_why(at: World, job: int) -> None:
    at.reader.post(f"/jobs/{job}/attachments/A1/delete")
    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/{wall_ids(at, job)['W1']}/delete"))
    assert "Bring that wall back first" in at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1/restore")).text


def test_a_stale_attachment_is_told_with_what_is_kept_now(at: World, job: int) -> None:
    first, second = fields(at, job, "A1", span_ft="12", do="save"), fields(at, job, "A1", span_ft="13", do="save")
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1", data=first))
    answer = at.reader.post(f"/jobs/{job}/attachments/A1", data=second)
    assert answer.status_code == 409
    assert "Somebody changed this" in answer.text
    assert "Kept now: 12." in answer.text
    page = Page(answer.text[answer.text.index('class="col-inputs"') :])
    assert page.values["span_ft"] == "13"
    again = at.reader.post(f"/jobs/{job}/attachments/A1", data=second | {"version": page.values["version"]})
    assert again.status_code == 303


def test_an_attachment_is_drawn_and_judged_in_either_system_of_units(at: World, job: int) -> None:
    inches = at.reader.page(f"/jobs/{job}/attachments/A2").text
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    metric = at.reader.page(f"/jobs/{job}/attachments/A2").text
    assert "its drawing asks for 5 in" in inches
    assert "its drawing asks for 127 mm" in metric


def test_saving_in_the_other_system_without_touching_anything_changes_nothing(at: World, job: int) -> None:
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1", data=fields(at, job, "A1", do="save")))
    before = at.reader.get(f"/api/jobs/{job}").json()["job"]["attachments"][0]
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    at.reader.follow(at.reader.post(f"/jobs/{job}/attachments/A1", data=fields(at, job, "A1", do="save")))
    assert at.reader.get(f"/api/jobs/{job}").json()["job"]["attachments"][0] == before


def test_attachments_are_found_filtered_and_sorted(at: World, job: int) -> None:
    with reading(at.db) as session:

        def tags(**wanted: str) -> list[str]:
            return [r.tag for r in attachments.page(session, job, Wanted(**wanted)).rows]

        assert tags(sort="worst") == ["A2", "A1"]
        assert tags(sort="tag") == ["A1", "A2"]
        assert tags(q="w2") == ["A2"]
        assert tags(q="a1") == ["A1"]
        assert tags(q="JOISTS ON") == ["A2", "A1"]
        assert tags(verdict="pass") == ["A1"]
        assert tags(verdict=attachments.TO_MEASURE, sort="tag") == ["A1", "A2"]
        assert tags(q="100%") == []
