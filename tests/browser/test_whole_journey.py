"""From submitting to the permit, as all three would: a designer, an inspector with only a link and no signal, the office."""

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.conftest import SIZES, open_page, served
from tests.world import house
from webapp.settings import Settings

SAME_ORIGIN = {"Sec-Fetch-Site": "same-origin"}


@pytest.fixture
def address(empty_database: str, tmp_path: Path) -> Iterator[str]:
    """Where the program serves, from each kind of database."""
    with served(Settings(database_url=empty_database, demo=True, packages_folder=str(tmp_path))) as where:
        yield where


def signed_in(chromium: Browser, address: str, role: str) -> Page:
    """A desk at which somebody of the demo's office sits."""
    return open_page(chromium, address, role=role)


def tablet(chromium: Browser, address: str) -> BrowserContext:
    """A touch screen of nobody the office knows."""
    width, height = SIZES["tablet"]
    return chromium.new_context(base_url=address, viewport={"width": width, "height": height}, has_touch=True)


def submitted(page: Page, job: str, note: str) -> None:
    page.goto(f"{job}/revisions")
    page.fill("#f-note", note)
    page.get_by_role("button", name="Submit", exact=True).click()


def sent(page: Page) -> None:
    """Until the bar says that nothing is left on the device."""
    expect(page.locator('[data-unsent="count"]')).to_have_text("All sent", timeout=30_000)


def test_a_layout_goes_from_the_desk_to_the_site_and_back_to_a_permit(chromium: Browser, address: str) -> None:
    designer = signed_in(chromium, address, "designer")
    job = _made(designer)
    submitted(designer, job, "For the permit")
    fingerprint = designer.locator("text=/^[0-9a-f]{4} [0-9a-f]{4} [0-9a-f]{4}$/").first.inner_text()
    designer.fill("#f-name", "Pat Lane")
    designer.fill("#f-authority", "Harbour County")
    designer.get_by_role("button", name="Make a link").click()
    link = re.search(r"/r/[\w-]{43}", designer.content())
    assert link
    _sent_back_without_signal(chromium, address, link[0], job)

    designer.goto(f"{job}/revisions/1")
    expect(designer.locator(".strip")).to_contain_text("returned")
    designer.goto(f"{job}/attachments/A1")
    designer.fill("#f-lap_in", "54")
    with designer.expect_navigation():
        designer.get_by_role("button", name="Save").click()
    submitted(designer, job, "A1 laps farther")
    expect(designer.locator("main")).to_contain_text("Changed since revision A")
    expect(designer.get_by_role("row", name=re.compile("48.*54"))).to_be_visible()

    inspector = signed_in(chromium, address, "inspector")
    inspector.goto(f"{job}/review/2/decide?do=accept")
    inspector.get_by_role("button", name="Accept revision B").click()
    expect(inspector).to_have_url(re.compile(r"/review/2$"))
    sent(inspector)
    inspector.goto(f"{job}/revisions/2")
    expect(inspector.locator(".strip")).to_contain_text("accepted")

    office = signed_in(chromium, address, "office")
    office.goto(f"{job}/log")
    office.fill("#f-permit", "BP-2026-118")
    office.fill("#f-authority", "Harbour County")
    with office.expect_navigation():
        office.get_by_role("button", name="Log it").click()
    office.goto("/log?permit=BP-2026-118")
    expect(office.locator("#log-rows tbody tr")).to_have_count(1)
    office.goto(f"/print/{fingerprint.replace(' ', '')}")
    expect(office.locator("h1")).to_have_text("This print is superseded")
    for page in (designer, inspector, office):
        page.context.close()


def _made(designer: Page) -> str:
    """A job of its own, so that the demo stays as it is. Returns: its address."""
    text = json.dumps(house() | {"name": "House by the harbour"})
    answer = designer.context.request.post("/jobs/open", form={"text": text}, headers=SAME_ORIGIN, max_redirects=0)
    return answer.headers["location"]


def _sent_back_without_signal(chromium: Browser, address: str, link: str, job: str) -> None:
    """The inspector opens the link, takes the review along, loses the signal, finds a short ledge and sends it back."""
    site = tablet(chromium, address)
    page = site.new_page()
    page.goto(link)
    page.get_by_role("button", name="Open the review").tap()
    page.wait_for_url(f"**{job}/review/1")
    page.locator("#take").tap()
    expect(page.locator("#take-says")).to_contain_text(re.compile("kept|along", re.I), timeout=60_000)
    expect(page.locator("#take")).to_be_enabled(timeout=60_000)
    site.set_offline(True)
    page.goto(f"{job}/review/1/after-placing/A1")
    page.locator("#f-measure-lower_core_in").fill("1")
    expect(page.locator("#says-measure-lower_core_in")).to_contain_text("Short", timeout=10_000)
    page.locator("textarea").first.fill("Ledge broken away")
    page.get_by_role("button", name="Send back").tap()
    expect(page).not_to_have_url(re.compile(r"/A1$"))  # on to the next place
    page.goto(f"{job}/review/1/decide?do=return")
    page.locator("#whole textarea").fill("A1: the ledge is short")
    page.get_by_role("button", name="Send back revision A").tap()
    expect(page).to_have_url(re.compile(r"/review/1$"))
    expect(page.locator('[data-unsent="count"]')).to_contain_text("not sent")
    site.set_offline(False)
    page.reload()
    sent(page)
    site.close()
