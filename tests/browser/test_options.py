"""Ways of carrying a floor compared and one chosen, in a real browser."""

import re

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import open_page

pytestmark = pytest.mark.browser


def new_line(page: Page, name: str, wall: str, start: str, end: str) -> None:
    """Type a floor line and keep it."""
    page.goto("/jobs/1/floor-lines/new")
    closed = page.locator("details.group:not([open]) > summary")
    while closed.count():
        closed.first.click()
    page.get_by_role("textbox", name="Name", exact=True).fill(name)
    page.get_by_label("Wall", exact=True).select_option(label=wall)
    page.get_by_label(re.compile("^Floor level")).fill("2")
    page.get_by_label(re.compile("^Starts at")).fill(start)
    page.get_by_label(re.compile("^Ends at")).fill(end)
    page.get_by_role("button", name="Save").click()
    expect(page.locator("h1")).to_have_text(name)


def test_four_ways_are_compared_and_one_is_chosen(page: Page) -> None:
    page.goto("/jobs/1/floor-lines")
    page.get_by_role("link", name="Main floor, west").click()
    page.get_by_role("link", name="Compare ways to carry it").first.click()
    expect(page.locator("article.option")).to_have_count(4, timeout=30_000)
    for column in page.locator("article.option").all():
        expect(column.locator("svg.dwg:visible")).to_have_count(1)
    page.locator("article.option").nth(1).locator("summary").first.click()
    expect(page.locator("article.option").nth(1).locator("ol").first).to_be_visible()
    page.locator("article.option").nth(1).get_by_role("button", name=re.compile("^Choose this")).click()
    expect(page.locator(".notice")).to_contain_text("carries it now: ledger bolted to the wall")
    expect(page.locator("main")).to_contain_text("7 of 7 joists stand on it")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".notice")).to_contain_text("Taken back")


def test_a_new_line_leads_from_its_form_to_the_ways_it_could_be_carried(desk: Page) -> None:
    new_line(desk, "Upper floor, by hand", "W2", "2", "9")
    desk.get_by_role("link", name="Compare ways to carry it").first.click()
    expect(desk.locator("article.option")).to_have_count(4, timeout=30_000)
    desk.get_by_role("link", name=re.compile("^All |^Why none")).click()
    expect(desk.locator("h1")).to_have_text("All ways that hold")
    expect(desk.locator("main")).to_contain_text("Why the others do not hold")


def test_without_script_the_comparison_is_reached_and_chosen_from(chromium: Browser, address: str) -> None:
    plain = open_page(chromium, address, script=False)
    plain.goto("/jobs/1/floor-lines/2/options")
    expect(plain.locator("article.option")).to_have_count(4, timeout=30_000)
    plain.get_by_role("button", name=re.compile("^Choose this")).first.click()
    expect(plain.locator("h1")).to_contain_text("is carried already")
    plain.get_by_role("link", name="Leave it as it is").click()
    expect(plain.locator("article.option")).to_have_count(4, timeout=30_000)
    plain.context.close()
