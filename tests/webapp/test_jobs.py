"""Jobs: made, changed, put away and brought back."""

import pytest

from tests.world import Page, World

NEW = {"name": "Lot 9", "client": "", "place": "", "notes": "", "edition": "US 2024", "seismic": "C"}


def test_a_new_job_is_kept_and_opened(at: World) -> None:
    answer = at.reader.post("/jobs/new", data=NEW)
    page = at.reader.follow(answer)
    assert "Lot 9" in page.text
    assert "US 2024" in page.text
    assert "Nothing is attached yet" in page.text


def test_what_was_done_is_said_once(at: World) -> None:
    answer = at.reader.post("/jobs/new", data=NEW)
    assert "The job is made" in at.reader.follow(answer).text
    assert "The job is made" not in at.reader.get(answer.headers["location"]).text


def test_a_job_without_a_name_is_refused_with_everything_typed_kept(at: World) -> None:
    answer = at.reader.post("/jobs/new", data=NEW | {"name": " ", "place": "12 Example <Lane>", "notes": "dry site"})
    assert answer.status_code == 422
    assert "Enter a name" in answer.text
    assert "12 Example &lt;Lane&gt;" in answer.text
    assert "dry site" in answer.text
    assert "There is no job yet" in at.reader.get("/jobs").text


@pytest.mark.parametrize(("field", "text"), [("edition", "US 1999"), ("seismic", "Z"), ("name", "x" * 121)])
def test_a_value_no_job_can_have_is_refused_beside_its_field(at: World, field: str, text: str) -> None:
    answer = at.reader.post("/jobs/new", data=NEW | {field: text})
    assert answer.status_code == 422
    assert f'id="e-{field}"' in answer.text


def test_a_deleted_job_is_gone_until_it_is_brought_back(at: World, job: int) -> None:
    gone = at.reader.follow(at.reader.post(f"/jobs/{job}/delete"))
    assert "Small house is deleted." in gone.text
    assert f'action="/jobs/{job}/restore"' in gone.text
    assert at.reader.get(f"/jobs/{job}").status_code == 404
    assert at.reader.get(f"/jobs/{job}/walls").status_code == 404
    assert at.reader.post(f"/jobs/{job}/edit", data=NEW).status_code == 404
    back = at.reader.follow(at.reader.post(f"/jobs/{job}/restore"))
    assert "A1" in back.text


def test_a_stale_form_is_told_and_loses_nothing(at: World, job: int) -> None:
    version = at.reader.page(f"/jobs/{job}/edit").values["version"]
    first = at.reader.post(f"/jobs/{job}/edit", data=NEW | {"version": version, "name": "From the first desk"})
    assert first.status_code == 303
    second = at.reader.post(f"/jobs/{job}/edit", data=NEW | {"version": version, "name": "From the second desk"})
    assert second.status_code == 409
    assert "Somebody changed this" in second.text
    assert "Kept now: From the first desk." in second.text
    page = Page(second.text)
    assert page.values["name"] == "From the second desk"
    again = at.reader.post(f"/jobs/{job}/edit", data=NEW | {"version": page.values["version"], "name": "Agreed"})
    assert again.status_code == 303


def test_a_change_elsewhere_in_the_job_does_not_make_its_details_stale(at: World, job: int) -> None:
    version = at.reader.page(f"/jobs/{job}/edit").values["version"]
    at.reader.post(f"/jobs/{job}/attachments/A1/delete")
    answer = at.reader.post(f"/jobs/{job}/edit", data=NEW | {"version": version})
    assert answer.status_code == 303


def test_another_edition_checks_every_attachment_again(at: World, job: int) -> None:
    version = at.reader.page(f"/jobs/{job}/edit").values["version"]
    at.reader.post(f"/jobs/{job}/edit", data=NEW | {"version": version})
    verdicts = at.reader.get(f"/api/jobs/{job}").json()
    assert verdicts["job"]["edition"] == "US 2024"
    assert "IRC 2024" in at.reader.get(f"/jobs/{job}/attachments/A1").text


def test_jobs_are_found_by_name_client_or_place_whatever_the_case(at: World) -> None:
    at.job(name="North barn", place="Ridge 100%_a")
    at.job(name="South barn", client="Ada")
    assert "North barn" in at.reader.get("/jobs?q=NORTH").text
    assert "South barn" not in at.reader.get("/jobs?q=NORTH").text
    assert "South barn" in at.reader.get("/jobs?q=ada").text
    assert "North barn" in at.reader.get("/jobs?q=%25_").text
    assert "South barn" not in at.reader.get("/jobs?q=%25_").text
    assert "No job holds those words" in at.reader.get("/jobs?q=nothing").text


def test_the_list_comes_in_parts(at: World) -> None:
    for number in range(12):
        at.job(name=f"House {number:02}", attachments=[])
    first = at.reader.get("/jobs?size=10&sort=name").text
    assert "House 09" in first
    assert "House 10" not in first
    assert "1 to 10 of 12" in first
    assert "House 11" in at.reader.get("/jobs?size=10&sort=name&page=2").text
