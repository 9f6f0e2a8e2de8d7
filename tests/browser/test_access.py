"""Every page for everybody: rules of WCAG 2.2 AA held by axe-core, the keyboard, narrow and enlarged pages."""

from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import AXE, open_page

pytestmark = pytest.mark.browser
PATHS = (
    "/",
    "/jobs",
    "/jobs/new",
    "/jobs/open",
    "/jobs/1",
    "/jobs/1/edit",
    "/jobs/1/types",
    "/jobs/1/types/1",
    "/jobs/1/walls",
    "/jobs/1/walls/1",
    "/jobs/1/attachments/new",
    "/jobs/1/attachments/A1",
    "/jobs/1/attachments/A5",
    "/jobs/1/attachments/A1/copy",
    "/jobs/1/floor-lines",
    "/jobs/1/floor-lines/new",
    "/jobs/1/floor-lines/2",
    "/jobs/1/floor-lines/2/copy",
    "/jobs/1/floor-lines/1/options",
    "/jobs/1/floor-lines/1/options/all",
    "/office/rates",
    "/office/standards",
    "/office/standards/cast_in_plate",
    "/jobs/1/setting-out",
    "/jobs/1/setting-out/walls/1",
    "/jobs/1/setting-out/walls/3/A4",
    "/jobs/1/setting-out/walls/1/L1",
    "/office/habits",
    "/try",
    "/try/ledge_seat",
    "/try/ledge_seat?units=ft+in&span_ft=far",
    "/try/bolted_ledger",
    "/try/cast_in_plate",
    "/try/beam_pocket",
    "/proving?size=20",
    "/nothing",
)
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
RUN = "tags => axe.run(document, {runOnly: {type: 'tag', values: tags}, resultTypes: ['violations']})"


def violations(page: Page) -> list[str]:
    """What axe-core finds, one line a rule."""
    found: dict[str, Any] = page.evaluate(RUN, TAGS)
    return [
        f"{rule['id']}: {rule['help']}: {[node['target'] for node in rule['nodes']][:3]}"
        for rule in found["violations"]
    ]


def searched(page: Page) -> None:
    """Until the ways of the demo's floor line are found: while they are looked for, their page loads itself anew."""
    page.goto("/jobs/1/floor-lines/1/options")
    page.locator(".ways").first.wait_for(timeout=60_000)


@pytest.mark.parametrize(
    ("size", "scheme"), [("phone", "light"), ("tablet", "light"), ("desk", "light"), ("desk", "dark")]
)
def test_axe_finds_nothing_on_any_page(chromium: Browser, address: str, size: str, scheme: str) -> None:
    page = open_page(chromium, address, size)
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    page.add_init_script(path=AXE)
    searched(page)
    found = {}
    for path in PATHS:
        page.goto(path)
        wrong = violations(page)
        if wrong:
            found[path] = wrong
    page.context.close()
    assert found == {}


def test_no_page_scrolls_sideways_on_the_narrowest_screen(chromium: Browser, address: str) -> None:
    page = open_page(chromium, address, "phone")
    page.set_viewport_size({"width": 320, "height": 640})
    wide = {}
    for path in PATHS:
        page.goto(path)
        width = page.evaluate("document.documentElement.scrollWidth")
        if width > 320:
            wide[path] = width
    page.context.close()
    assert wide == {}


def test_no_page_scrolls_sideways_at_twice_the_size(chromium: Browser, address: str) -> None:
    page = open_page(chromium, address)
    page.set_viewport_size({"width": 640, "height": 512})
    wide = {}
    for path in PATHS:
        page.goto(path)
        width = page.evaluate("document.documentElement.scrollWidth")
        if width > 640:
            wide[path] = width
    page.context.close()
    assert wide == {}


def test_the_first_tab_leads_past_the_navigation(desk: Page) -> None:
    desk.goto("/jobs/1")
    desk.keyboard.press("Tab")
    expect(desk.locator(".skip")).to_be_focused()
    desk.keyboard.press("Enter")
    assert desk.evaluate("document.activeElement.id") == "main"


def test_after_a_refused_form_the_summary_has_the_focus_and_leads_to_the_field(desk: Page) -> None:
    desk.goto("/jobs/1/types/new")
    desk.get_by_label("Core thickness").fill("thick")
    desk.get_by_role("button", name="Save").click()
    expect(desk.locator("#error-summary")).to_be_focused()
    desk.get_by_role("link", name="Core thickness").click()
    expect(desk.locator("#f-core_in")).to_be_focused()
    assert desk.locator("#f-core_in").input_value() == "thick"


def test_a_check_is_made_by_the_keyboard_alone(desk: Page) -> None:
    desk.goto("/try/ledge_seat")
    desk.locator("#f-span_ft").focus()
    desk.keyboard.press("Control+A")
    desk.keyboard.type("30")
    desk.keyboard.press("Enter")
    expect(desk.locator("#result .verdict-line")).to_be_visible()
    assert desk.locator("#f-span_ft").input_value() == "30"


def test_touch_targets_are_large_enough_on_a_phone(chromium: Browser, address: str) -> None:
    page = open_page(chromium, address, "phone")
    page.goto("/try/ledge_seat")
    small = page.evaluate(
        """() => [...document.querySelectorAll('main button, main input, main select')]
        .map(e => [e.id || e.textContent, e.getBoundingClientRect()])
        .filter(([, r]) => r.width && r.height && (r.height < 24 || r.width < 24)).map(([name]) => name)"""
    )
    page.context.close()
    assert small == []
