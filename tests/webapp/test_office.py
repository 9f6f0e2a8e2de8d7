"""The office's settings: one list of those there are, its name, and what takeoffs are counted by."""

import pytest

from tests.webapp.test_takeoff import values
from tests.world import Page, World
from webapp import permissions
from webapp.forms import office as forms
from webapp.models import Office
from webapp.pages.office import SETTINGS
from webapp.services import offices
from webapp.store import reading


def row(at: World) -> Office:
    with reading(at.db) as session:
        return offices.office(session)


def test_the_office_lists_the_settings_there_are(at: World) -> None:
    page = at.reader.get("/office").text
    for path, (title, _, _) in SETTINGS.items():
        there = f"GET {path}" in permissions.ROWS
        assert (f'href="{path}"' in page) == there
        assert (f">{title}</a>" in page) == there
        if there:
            at.reader.page(path)


def test_a_setting_appears_with_its_page(at: World, monkeypatch: pytest.MonkeyPatch) -> None:
    rows = {key: roles for key, roles in permissions.ROWS.items() if key != "GET /office/habits"}
    monkeypatch.setattr(permissions, "ROWS", rows)
    assert "/office/habits" not in at.reader.get("/office").text
    monkeypatch.setattr(permissions, "ROWS", rows | {"GET /office/habits": permissions.READ})
    assert 'href="/office/habits"' in at.reader.get("/office").text


def test_the_office_says_what_is_set(at: World) -> None:
    assert "usual values, no waste typed" in at.reader.get("/office").text
    at.reader.post("/office/takeoff", data=values(str(row(at).version), **{"waste-bar": "6"}))
    assert "own values, waste typed for 1 item<" in at.reader.get("/office").text


def test_the_offices_name_is_kept(at: World) -> None:
    version = at.reader.page("/office").values["version"]
    answer = at.reader.follow(at.reader.post("/office", data={"version": version, "name": "  Hill  and Dale "}))
    assert Page(answer.text).values["name"] == "Hill and Dale"
    assert row(at).name == "Hill and Dale"


@pytest.mark.parametrize(("typed", "message"), [("  ", "Enter the office"), ("x" * 121, "at most 120")])
def test_a_name_that_cannot_be_kept_is_said(at: World, typed: str, message: str) -> None:
    answer = at.reader.post("/office", data={"version": str(row(at).version), "name": typed})
    assert answer.status_code == 422
    assert message in answer.text
    assert Page(answer.text).values["name"] == typed


def test_a_stale_name_is_told_with_what_is_kept_now(at: World) -> None:
    version = str(row(at).version)
    at.reader.post("/office", data={"version": version, "name": "First"})
    answer = at.reader.post("/office", data={"version": version, "name": "Second"})
    assert answer.status_code == 409
    assert "Kept now: First." in answer.text
    assert Page(answer.text).values == Page(answer.text).values | {"name": "Second", "version": str(row(at).version)}


def test_values_and_wastes_are_kept(at: World) -> None:
    page = at.reader.page("/office/takeoff")
    assert {s.name for s in forms.SPECS} <= set(page.values)
    typed = values(
        page.values["version"], form_length_in="40", **{"waste-form": "4", "waste-sill": "0", "waste-bar": "7.5 %"}
    )
    shown = at.reader.follow(at.reader.post("/office/takeoff", data=typed))
    assert Page(shown.text).values["form_length_in"] == "40"
    assert Page(shown.text).values["waste-bar"] == "7.5"
    kept = row(at)
    assert kept.takeoff["form_length_in"] == "40 in"
    assert kept.waste == {"form": "4", "bar": "7.5"}


@pytest.mark.parametrize(
    ("field", "text", "message"),
    [
        ("stock_ft", "4", "8 ft to 60 ft"),
        ("form_length_in", "long", "be read"),
        ("screws_a_box", "2.5", "whole number"),
        ("waste-anchor", "120", "0 to 100"),
        ("waste-anchor", "-1", "0 to 100"),
        ("waste-anchor", "some", "be read"),
    ],
)
def test_what_cannot_be_counted_by_is_said_beside_its_field_and_nothing_typed_is_lost(
    at: World, field: str, text: str, message: str
) -> None:
    typed = values(str(row(at).version), **{"waste-bar": "7", field: text})
    answer = at.reader.post("/office/takeoff", data=typed)
    assert answer.status_code == 422
    assert f'id="e-{field}"' in answer.text
    assert message in answer.text
    assert Page(answer.text).values == Page(answer.text).values | {"waste-bar": "7", field: text}
    assert row(at).waste == {}


def test_a_stale_form_is_told_with_what_is_kept_now(at: World) -> None:
    version = str(row(at).version)
    at.reader.post("/office/takeoff", data=values(version, stock_ft="30", **{"waste-bar": "5"}))
    answer = at.reader.post("/office/takeoff", data=values(version, stock_ft="40", **{"waste-bar": "5"}))
    assert answer.status_code == 409
    assert "Kept now: 30." in answer.text
    again = Page(answer.text).values
    assert again["stock_ft"] == "40"
    at.reader.follow(at.reader.post("/office/takeoff", data=values(again["version"], stock_ft="40")))
    assert row(at).takeoff["stock_ft"] == "40 ft"


def test_values_typed_in_metric_are_kept_as_typed(at: World) -> None:
    typed = values(str(row(at).version), units="mm", form_length_in="1220", lift_ft="1.2", stock_ft="6", tie_width_in="100",
                   special_length_in="1220")  # fmt: skip
    at.reader.follow(at.reader.post("/office/takeoff", data=typed))
    assert row(at).takeoff["form_length_in"] == "1220 mm"
    assert row(at).takeoff["lift_ft"] == "1.2 m"


@pytest.mark.parametrize("role", permissions.ROLES)
def test_only_those_who_may_change_settings_get_a_button(at: World, role: str) -> None:
    reader, may = at.as_(role), role in permissions.SETTINGS
    assert ("Save the name" in reader.get("/office").text) == may
    assert (">Save</button>" in reader.get("/office/takeoff").text) == may
