"""Wall types: a change reaches everything that stands on them."""

from dataclasses import replace

from engine.fields import specs, write
from engine.wall import WallType
from tests.world import Page, World

USUAL = write(replace(WallType(), core_in=10.0))


def form(name: str, **changes: str) -> dict[str, str]:
    return {"units": "ft in", "name": name, **USUAL, **changes}


def type_ids(at: World, job: int) -> dict[str, int]:
    from webapp.services.standing import stand
    from webapp.store import reading

    with reading(at.db) as session:
        return {row.name: row.id for row in stand(session, job).types}


def verdict(at: World, job: int, tag: str) -> dict[str, object]:
    return next(v for v in at.reader.get(f"/api/jobs/{job}").json()["verdicts"] if v["tag"] == tag)


def test_a_new_wall_type_is_kept_with_the_units_it_was_typed_in(at: World, job: int) -> None:
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/new", data={"units": "mm", "name": "Metric", "core_in": "200"}))
    kept = at.reader.get(f"/api/jobs/{job}").json()["job"]["wall_types"]["Metric"]
    assert kept["core_in"] == "200 mm"


def test_every_field_has_its_stated_range_and_says_it(at: World, job: int) -> None:
    for spec in specs(WallType):
        if spec.kind != "number":
            continue
        answer = at.reader.post(f"/jobs/{job}/types/new", data=form("Bad", **{spec.name: "99999999"}))
        assert answer.status_code == 422, spec.name
        assert f'id="e-{spec.name}"' in answer.text
        assert Page(answer.text).values[spec.name] == "99999999"
    assert "Bad" not in type_ids(at, job)


def test_what_cannot_be_read_is_said_beside_every_field_at_once(at: World, job: int) -> None:
    answer = at.reader.post(f"/jobs/{job}/types/new", data=form("", core_in="thick", f_c_psi="4 kN"))
    assert answer.status_code == 422
    for name in ("name", "core_in", "f_c_psi"):
        assert f'href="#f-{name}"' in answer.text
        assert f'id="e-{name}"' in answer.text
    assert Page(answer.text).values["core_in"] == "thick"
    assert Page(answer.text).values["f_c_psi"] == "4 kN"


def test_two_wall_types_of_one_name_are_refused(at: World, job: int) -> None:
    answer = at.reader.post(f"/jobs/{job}/types/new", data=form("Ten"))
    assert answer.status_code == 422
    assert "There is a wall type Ten already" in answer.text


def test_a_thinner_core_flags_what_stands_on_it(at: World, job: int) -> None:
    before = verdict(at, job, "A1")
    ten = type_ids(at, job)["Ten"]
    version = at.reader.page(f"/jobs/{job}/types/{ten}").values["version"]
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/{ten}", data=form("Ten", core_in="7", version=version)))
    after = verdict(at, job, "A1")
    assert before["verdict"] == "pass", before
    assert after["verdict"] == "flag"


def test_a_new_name_goes_to_the_walls_that_use_the_type(at: World, job: int) -> None:
    ten = type_ids(at, job)["Ten"]
    version = at.reader.page(f"/jobs/{job}/types/{ten}").values["version"]
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/{ten}", data=form("Below grade", version=version)))
    found = at.reader.get(f"/api/jobs/{job}").json()
    assert {w["storeys"][0]["type"] for w in found["job"]["walls"]} == {"Below grade"}
    assert all(v["verdict"] != "not checked" for v in found["verdicts"])


def test_a_wall_type_in_use_cannot_be_deleted_and_says_where(at: World, job: int) -> None:
    answer = at.reader.post(f"/jobs/{job}/types/{type_ids(at, job)['Ten']}/delete")
    assert answer.status_code == 409
    assert "Ten is used by W1, W2, W3" in answer.text
    assert "Ten" in type_ids(at, job)


def test_a_deleted_wall_type_can_be_brought_back(at: World, job: int) -> None:
    twelve = type_ids(at, job)["Twelve"]
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/{twelve}/delete"))
    assert "Twelve" not in type_ids(at, job)
    assert at.reader.get(f"/jobs/{job}/types/{twelve}").status_code == 404
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/{twelve}/restore"))
    assert "Twelve" in type_ids(at, job)


def test_a_deleted_type_whose_name_was_taken_stays_away_and_says_why(at: World, job: int) -> None:
    twelve = type_ids(at, job)["Twelve"]
    at.reader.post(f"/jobs/{job}/types/{twelve}/delete")
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/new", data=form("Twelve")))
    answer = at.reader.post(f"/jobs/{job}/types/{twelve}/restore")
    assert answer.status_code == 409
    assert "Rename that one first" in answer.text


def test_a_stale_wall_type_is_told_with_what_is_kept_now(at: World, job: int) -> None:
    ten = type_ids(at, job)["Ten"]
    version = at.reader.page(f"/jobs/{job}/types/{ten}").values["version"]
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/{ten}", data=form("Ten", core_in="9", version=version)))
    answer = at.reader.post(f"/jobs/{job}/types/{ten}", data=form("Ten", core_in="11", version=version))
    assert answer.status_code == 409
    assert "Kept now: 9." in answer.text
    assert Page(answer.text).values["core_in"] == "11"


def test_a_reader_in_millimetres_sees_millimetres_and_changes_nothing_by_saving(at: World, job: int) -> None:
    before = at.reader.get(f"/api/jobs/{job}").json()["job"]["wall_types"]["Ten"]
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    page = at.reader.page(f"/jobs/{job}/types/{type_ids(at, job)['Ten']}")
    assert page.values["core_in"] == "254"
    fields = page.values | {n: t for n, t in USUAL.items() if n not in page.values} | {"units": "mm"}
    at.reader.follow(at.reader.post(f"/jobs/{job}/types/{type_ids(at, job)['Ten']}", data=fields))
    after = at.reader.get(f"/api/jobs/{job}").json()["job"]["wall_types"]["Ten"]
    assert after["core_in"] == before["core_in"] == "10 in"


def test_values_in_the_address_are_filled_in_but_not_kept(at: World, job: int) -> None:
    ten = type_ids(at, job)["Ten"]
    assert at.reader.page(f"/jobs/{job}/types/{ten}?core_in=12&units=ft+in").values["core_in"] == "12"
    assert at.reader.page(f"/jobs/{job}/types/{ten}").values["core_in"] == "10"
