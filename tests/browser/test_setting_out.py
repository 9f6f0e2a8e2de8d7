"""Stations moved by hand in a real browser: dragged, by the keyboard, by buttons with and without script."""

import re

import pytest
from playwright.sync_api import Locator, Page, expect

pytestmark = pytest.mark.browser

SPOT = "/jobs/1/setting-out/walls/3/A4?what=anchor"  # a bolted ledger of the demo job, on a wall without openings


def marks(page: Page) -> Locator:
    """The marks that can be moved, in the drawing that is shown."""
    return page.locator('.sheet:visible [role="slider"]')


def station(page: Page, number: int) -> Locator:
    return page.locator(f"#f-at-{number - 1}")


def drag(page: Page, mark: Locator, by_px: float) -> None:
    box = mark.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + by_px / 2, y + 4)
    page.mouse.move(x + by_px, y)


def inches(text: str) -> float:
    feet, _, rest = text.partition("-")
    whole, _, part = rest.partition(" ")
    top, _, bottom = part.partition("/")
    return int(feet) * 12 + int(whole) + (int(top) / int(bottom) if part else 0)


def test_a_dragged_mark_takes_its_station_along_and_is_checked_at_once(page: Page) -> None:
    page.goto(SPOT)
    expect(page.locator("#setting .verdict-line")).to_contain_text("Clear")
    before = station(page, 3).input_value()
    mark = marks(page).nth(2)
    mark.scroll_into_view_if_needed()
    scale = float(mark.get_attribute("data-scale") or 0)
    drag(page, mark, 5 * scale)
    expect(page.locator(".drag-says")).to_have_text(re.compile(r"\d+-\d"))
    page.mouse.up()
    expect(page.locator("#setting .verdict-line")).to_contain_text("more than the 16 in allowed between two")
    moved = inches(station(page, 3).input_value()) - inches(before)
    assert 4 <= moved <= 6
    assert (moved * 2) % 1 == 0, "it snaps to the half inches of the office's habits"
    expect(page.locator(".drag-says")).to_have_count(0)
    page.reload()
    assert station(page, 3).input_value() == before, "nothing is kept until it is asked for"


def test_a_focused_mark_moves_by_the_arrow_keys_and_keeps_the_focus(desk: Page) -> None:
    desk.goto(SPOT)
    before = inches(station(desk, 2).input_value())
    marks(desk).nth(1).focus()
    desk.keyboard.press("ArrowLeft")
    expect(station(desk, 2)).not_to_have_value("3-4")
    assert inches(station(desk, 2).input_value()) == before - 0.5
    focused = desk.locator(":focus")
    expect(focused).to_have_attribute("role", "slider")
    expect(focused).to_have_attribute("aria-valuetext", station(desk, 2).input_value())
    desk.keyboard.press("ArrowRight")
    expect(station(desk, 2)).to_have_value("3-4")


def test_steps_are_taken_by_tapping_alone_and_kept(page: Page) -> None:
    page.goto("/jobs/1/setting-out/walls/4/A12?what=anchor")
    start = inches(station(page, 2).input_value())
    page.locator("#more-1").click()
    expect(page.locator("#setting")).to_contain_text("Not kept yet.")
    assert inches(station(page, 2).input_value()) == start + 0.5
    page.get_by_role("button", name="Keep these stations").click()
    expect(page.locator(".notice")).to_contain_text("kept")
    assert inches(station(page, 2).input_value()) == start + 0.5
    page.get_by_role("button", name="Back to the calculated stations").click()
    expect(page.locator(".notice")).to_contain_text("calculated")
    assert inches(station(page, 2).input_value()) == start
    page.get_by_role("button", name="Undo").click()
    assert inches(station(page, 2).input_value()) == start + 0.5
    page.get_by_role("button", name="Back to the calculated stations").click()
    expect(page.locator(".notice")).to_contain_text("calculated")


def test_a_station_is_moved_and_kept_without_script(plain: Page) -> None:
    plain.goto(SPOT)
    plain.locator("#more-2").click()
    assert plain.locator("h1").inner_text().startswith("A4")
    expect(station(plain, 3)).to_have_value("4-8 1/2")
    expect(plain.locator("#setting .verdict-line")).to_contain_text("Not clear")
    plain.locator("#less-2").click()
    expect(station(plain, 3)).to_have_value("4-8")
    station(plain, 3).fill("4-7")
    plain.get_by_role("button", name="Keep these stations").click()
    expect(plain.locator(".notice")).to_contain_text("kept")
    expect(station(plain, 3)).to_have_value("4-7")
    plain.get_by_role("button", name="Undo").click()
    expect(station(plain, 3)).to_have_value("4-8")
