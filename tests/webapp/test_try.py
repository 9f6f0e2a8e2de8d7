"""Try a check: no job, nothing stored, the address holds what was typed."""

import re
from urllib.parse import parse_qs, urlsplit

import pytest

from engine import attachments
from tests.world import Page, World
from webapp.services import checks
from webapp.services.jobs import any_yet

HX = {"HX-Request": "true"}
KINDS = pytest.mark.parametrize("key", [kind.key for kind in checks.offered()])


@KINDS
def test_every_kind_has_a_verdict_before_anything_is_typed(at: World, key: str) -> None:
    text = at.reader.page(f"/try/{key}").text
    assert 'class="verdict-line' in text
    assert re.search(r'class="sheet sheet-wide"><svg', text)
    assert re.search(r'class="sheet sheet-phone"><svg', text)
    assert attachments.kind(key).name.lower() in text


@KINDS
def test_every_kind_can_be_read_in_millimetres(at: World, key: str) -> None:
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    assert " mm" in at.reader.page(f"/try/{key}").text


def test_a_check_is_shared_by_its_address_whatever_units_the_other_reads_in(at: World) -> None:
    address = "/try/ledge_seat?units=mm&joist_depth_in=235&member=i_joist&required_bearing_in=89"
    assert Page(at.reader.get(address).text).values["joist_depth_in"] == "9.25197"
    at.reader.post("/units", data={"units": "mm", "back": "/"})
    assert Page(at.reader.get(address).text).values["joist_depth_in"] == "235"


def test_a_live_check_moves_the_address_along(at: World) -> None:
    typed = {"units": "ft in", "span_ft": "16", "joist_depth_in": "11 7/8"}
    answer = at.reader.post("/try/ledge_seat", data=typed, headers=HX)
    assert answer.text.lstrip().startswith('<div id="result"')
    moved = urlsplit(answer.headers["hx-replace-url"])
    assert moved.path == "/try/ledge_seat"
    assert parse_qs(moved.query) == {name: [text] for name, text in typed.items()}


def test_the_same_by_a_button_without_script(at: World) -> None:
    text = at.reader.page("/try/ledge_seat?units=ft+in&member=i_joist&required_bearing_in=9").text
    assert "its drawing asks for 9 in" in text


def test_what_cannot_be_read_is_said_and_kept(at: World) -> None:
    answer = at.reader.get("/try/ledge_seat?units=ft+in&span_ft=far&joist_depth_in=11")
    assert answer.status_code == 422
    assert 'id="e-span_ft"' in answer.text
    assert Page(answer.text).values["span_ft"] == "far"
    assert Page(answer.text).values["joist_depth_in"] == "11"


def test_a_live_check_that_cannot_be_made_says_what_to_enter(at: World) -> None:
    answer = at.reader.post("/try/ledge_seat", data={"units": "ft in", "span_ft": "far"}, headers=HX)
    assert answer.status_code == 422
    assert 'data-refused="span_ft"' in answer.text


def test_another_edition_is_one_of_the_choices(at: World) -> None:
    assert "IRC 2024" in at.reader.page("/try/ledge_seat?units=ft+in&edition=US+2024").text


def test_trying_stores_nothing(at: World) -> None:
    at.reader.post("/try/ledge_seat", data={"units": "ft in", "span_ft": "16"}, headers=HX)
    assert not any_yet(at.db)


def test_a_kind_there_is_not_is_not_found(at: World) -> None:
    assert at.reader.get("/try/magic").status_code == 404


@pytest.mark.parametrize("text", ["<script>alert(1)</script>", "\u202e12", "9" * 500, "1e999", "NaN", "12'6\"'"])
def test_nonsense_comes_back_as_text(at: World, text: str) -> None:
    answer = at.reader.get("/try/ledge_seat", params={"units": "ft in", "span_ft": text})
    assert answer.status_code == 422
    assert "<script>alert" not in answer.text
    assert Page(answer.text).values["span_ft"] == text
