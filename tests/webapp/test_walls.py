"""Walls: storeys and openings that fit, rows added and taken away without script."""

import pytest

from tests.world import Page, World


def form(**changes: str) -> dict[str, str]:
    usual = {
        "units": "ft in", "name": "W9", "length_ft": "30", "near_end": "corner", "far_end": "free", "x_ft": "0", "y_ft": "0",
        "bearing_deg": "90", "storeys-0-type": "Ten", "storeys-0-height_ft": "9", "storeys-1-type": "Six",
        "storeys-1-height_ft": "9", "openings-0-start_ft": "4", "openings-0-width_ft": "3", "openings-0-sill_ft": "3",
        "openings-0-head_ft": "6-8", "openings-0-storey": "1",
    }  # fmt: skip
    return usual | changes


def wall_ids(at: World, job: int) -> dict[str, int]:
    from webapp.services.standing import stand
    from webapp.store import reading

    with reading(at.db) as session:
        return {row.name: row.id for row in stand(session, job).walls.values()}


def test_a_wall_is_kept_with_its_storeys_and_openings(at: World, job: int) -> None:
    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/new", data=form()))
    kept = at.reader.get(f"/api/jobs/{job}").json()["job"]["walls"][-1]
    assert kept["name"] == "W9"
    assert kept["line"]["length_ft"] == "30 ft"
    assert [s["type"] for s in kept["storeys"]] == ["Ten", "Six"]
    assert kept["openings"][0]["head_ft"] == "6-8"


@pytest.mark.parametrize(
    ("field", "text", "message"),
    [
        ("length_ft", "", "Enter"),
        ("length_ft", "twelve", "be read"),
        ("storeys-1-height_ft", "900", "1 ft to 40 ft"),
        ("storeys-0-type", "Brick", "No wall type"),
        ("openings-0-width_ft", "4 psf", "does not fit here"),
        ("name", "W1", "There is a wall W1 already"),
    ],
)
def test_a_value_no_wall_can_have_is_said_beside_its_field(
    at: World, job: int, field: str, text: str, message: str
) -> None:
    answer = at.reader.post(f"/jobs/{job}/walls/new", data=form(**{field: text}))
    assert answer.status_code == 422
    assert f'id="e-{field}"' in answer.text
    assert message in answer.text
    assert "W9" not in wall_ids(at, job)
    assert Page(answer.text).values["openings-0-head_ft"] == "6-8"


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"openings-0-start_ft": "29"}, "past the end of the wall"),
        ({"openings-0-head_ft": "9-6"}, "rises above its storey"),
        ({"openings-0-sill_ft": "7"}, "head at or below its sill"),
        ({"openings-0-storey": "3"}, "the wall has 2"),
    ],
)
def test_an_opening_that_does_not_fit_is_refused_and_says_by_how_much(
    at: World, job: int, changes: dict[str, str], message: str
) -> None:
    answer = at.reader.post(f"/jobs/{job}/walls/new", data=form(**changes))
    assert answer.status_code == 422
    assert message in answer.text


def test_a_row_is_added_without_script_and_nothing_typed_is_lost(at: World, job: int) -> None:
    answer = at.reader.post(f"/jobs/{job}/walls/new", data=form(do="add-openings", length_ft="what"))
    assert answer.status_code == 200
    values = Page(answer.text).values
    assert "openings-1-start_ft" in values
    assert values["length_ft"] == "what"
    assert "W9" not in wall_ids(at, job)


def test_a_row_is_taken_away_and_the_others_move_up(at: World, job: int) -> None:
    two = form(**{name.replace("-0-", "-1-"): text for name, text in form().items() if name.startswith("openings")})
    answer = at.reader.post(f"/jobs/{job}/walls/new", data=two | {"openings-1-start_ft": "20", "do": "drop-openings-0"})
    values = Page(answer.text).values
    assert values["openings-0-start_ft"] == "20"
    assert "openings-1-start_ft" not in values


def test_rows_have_an_end(at: World, job: int) -> None:
    many = {f"openings-{n}-start_ft": "1" for n in range(60)}
    answer = at.reader.post(f"/jobs/{job}/walls/new", data=form(**many, do="add-openings"))
    assert "openings-39-start_ft" in answer.text
    assert "openings-40-start_ft" not in answer.text


def test_a_shorter_wall_says_what_no_longer_fits_on_it(at: World, job: int) -> None:
    w2 = wall_ids(at, job)["W2"]
    fields = form(name="W2", length_ft="8", version=at.reader.page(f"/jobs/{job}/walls/{w2}").values["version"])
    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/{w2}", data=fields))
    found = {v["tag"]: v for v in at.reader.get(f"/api/jobs/{job}").json()["verdicts"]}
    assert found["A2"]["verdict"] == "not checked"
    assert "Wall W2 is 8 ft long" in found["A2"]["governs"]
    assert found["A1"]["verdict"] == "pass"
    assert "Wall W2 is 8 ft long" in at.reader.get(f"/jobs/{job}/attachments/A2").text


def test_a_wall_that_carries_something_cannot_be_deleted(at: World, job: int) -> None:
    answer = at.reader.post(f"/jobs/{job}/walls/{wall_ids(at, job)['W1']}/delete")
    assert answer.status_code == 409
    assert "W1 carries A1" in answer.text


def test_a_deleted_wall_can_be_brought_back(at: World, job: int) -> None:
    w3 = wall_ids(at, job)["W3"]
    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/{w3}/delete"))
    assert "W3" not in wall_ids(at, job)
    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/{w3}/restore"))
    assert "W3" in wall_ids(at, job)


def test_a_deleted_wall_whose_type_is_gone_stays_away_and_says_why(at: World, job: int) -> None:
    from tests.webapp.test_wall_types import type_ids

    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/new", data=form(**{"storeys-0-type": "Twelve"})))
    w9 = wall_ids(at, job)["W9"]
    at.reader.post(f"/jobs/{job}/walls/{w9}/delete")
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/{type_ids(at, job)['Twelve']}/delete"))
    answer = at.reader.post(f"/jobs/{job}/walls/{w9}/restore")
    assert answer.status_code == 409
    assert "W9 no longer fits" in answer.text


def test_a_stale_wall_is_told_with_what_is_kept_now(at: World, job: int) -> None:
    w3 = wall_ids(at, job)["W3"]
    version = at.reader.page(f"/jobs/{job}/walls/{w3}").values["version"]
    at.reader.follow(at.reader.post(f"/jobs/{job}/walls/{w3}", data=form(name="W3", version=version)))
    answer = at.reader.post(f"/jobs/{job}/walls/{w3}", data=form(name="W3", version=version, length_ft="31"))
    assert answer.status_code == 409
    assert "Kept now: 30." in answer.text


def test_a_job_without_wall_types_is_told_to_make_one_first(at: World) -> None:
    empty = at.job(wall_types={}, walls=[], attachments=[])
    assert "no wall type to make one of" in at.reader.get(f"/jobs/{empty}/walls").text
    answer = at.reader.post(f"/jobs/{empty}/walls/new", data=form())
    assert answer.status_code == 422
    assert "Add a wall type first" in answer.text
