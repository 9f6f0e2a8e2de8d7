"""A review without signal, in a real Chromium: nothing lost, nothing twice, in order, and conflicts decided by a person."""

import base64
import json
import os
import signal
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
import uvicorn
from playwright.sync_api import Browser, BrowserContext, Page, expect
from sqlalchemy import select
from starlette.types import ASGIApp, Message, Receive, Scope, Send
from uvicorn.protocols.http.h11_impl import H11Protocol

from engine.errors import BadInput
from engine.units import parse
from tests.find_chromium import found
from webapp.commands.serve import prepare
from webapp.main import create_app
from webapp.models import ReviewItem
from webapp.pages.view import SESSION
from webapp.services import log
from webapp.settings import Settings
from webapp.store import Database, open_database, reading

REVIEW = "/jobs/1/review/1"
SEVERAL = 40
CHROMIUM = found()  # asked for before any browser runs


class Line(H11Protocol):
    """A connection that the application in it can cut."""

    def connection_made(self, transport: Any) -> None:
        """Hand the connection on with every request."""
        super().connection_made(transport)
        self.app_state = {**self.app_state, "transport": transport}


@dataclass
class Weather:
    """How the signal is between a tablet and the server.

    Args: signal: whether anything comes through. drop_every: of how many answers to what was found one gets lost, 0 for none.
    """

    app: ASGIApp
    signal: bool = True
    drop_every: int = 0
    asked: int = 0
    dropped: int = 0
    stored: list[str] = field(default_factory=list)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass on; the server has done its work before an answer is lost."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        transport = scope["state"]["transport"]
        if not self.signal:
            transport.abort()
            return
        lost = False
        if self.drop_every and scope["method"] == "POST" and scope["path"].endswith("/items"):
            self.asked += 1
            lost = self.asked % self.drop_every == 0

        async def perhaps(message: Message) -> None:
            if not lost:
                await send(message)

        await self.app(scope, receive, perhaps)
        if lost:
            self.dropped += 1
            transport.abort()


@dataclass
class Site:
    """A server with weather, its database and its address."""

    weather: Weather
    db: Database
    address: str

    def items(self) -> list[ReviewItem]:
        """All that was stored, in order."""
        with reading(self.db) as session:
            return list(session.scalars(select(ReviewItem).order_by(ReviewItem.id)))


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    """The demo job on a server of its own."""
    settings = Settings(database_url=f"sqlite:///{tmp_path / 'site.sqlite'}", demo=True)
    prepare(settings)
    weather = Weather(create_app(settings))
    server = uvicorn.Server(uvicorn.Config(weather, host="127.0.0.1", port=0, log_level="critical", http=Line))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    until = time.monotonic() + 30
    while not server.started:
        assert time.monotonic() < until
        time.sleep(0.02)
    db = open_database(settings.database_url)
    yield Site(weather, db, f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}")
    db.close()
    server.should_exit = True
    thread.join(30)


def sign_in(context: BrowserContext, role: str) -> None:
    """As one of the demo's people."""
    assert context.request.post("/sign-in/demo", form={"role": role}, max_redirects=0).status == 303


def submit(chromium: Browser, site: Site) -> None:
    """Make a submission, as the designer."""
    context = chromium.new_context(base_url=site.address)
    sign_in(context, "designer")
    assert context.request.post("/jobs/1/revisions", form={"note": ""}, max_redirects=0).status == 303
    context.close()


def tablet(chromium: Browser, site: Site, folder: Path, **more: Any) -> BrowserContext:
    """A browser with a memory of its own."""
    context = chromium.browser_type.launch_persistent_context(
        folder, executable_path=CHROMIUM, base_url=site.address, viewport={"width": 820, "height": 1180}, accept_downloads=True,
        args=["--no-sandbox", *more.pop("args", [])], **more,
    )  # fmt: skip
    context.set_default_timeout(20_000)
    return context


def kill(folder: Path) -> None:
    """End the browser that has this memory, and its helpers, as a flat battery does."""
    for place in Path("/proc").glob("[0-9]*"):
        try:
            asked = (place / "cmdline").read_bytes().decode(errors="replace")
        except OSError:
            continue
        if f"--user-data-dir={folder}" in asked:
            os.kill(int(place.name), signal.SIGKILL)


def set_signal(context: BrowserContext, site: Site, there: bool) -> None:
    """Out of the basement, or into it."""
    site.weather.signal = there
    context.set_offline(not there)


def take_along(page: Page) -> None:
    """Keep all places on the device."""
    page.goto(REVIEW)
    page.get_by_role("button", name="Take this review along").click()
    expect(page.locator("#take-says")).to_contain_text("pages taken along", timeout=60_000)


def count(page: Page, number: int) -> None:
    """What the bar says."""
    said = f"{number} not sent" if number else "All sent"
    expect(page.locator('[data-unsent="count"]')).to_have_text(said, timeout=90_000)


JPEG = base64.b64decode(
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDAAgGBgcGBQgHBwcJCQgKDBQNDAsLDBkSEw8UHRofHh0aHBwgJC4nICIsIxwcKDcpLDAxNDQ0Hyc5PTgyPC4zNDL/wAALCAAB"
    "AAEBAREA/8QAHwAAAQUBAQEBAQEAAAAAAAAAAAECAwQFBgcICQoL/8QAtRAAAgEDAwIEAwUFBAQAAAF9AQIDAAQRBRIhMUEGE1FhByJxFDKBkaEII0KxwRVS0fAkM2Jy"
    "ggkKFhcYGRolJicoKSo0NTY3ODk6Q0RFRkdISUpTVFVWV1hZWmNkZWZnaGlqc3R1dnd4eXqDhIWGh4iJipKTlJWWl5iZmqKjpKWmp6ipqrKztLW2t7i5usLDxMXGx8jJytLT"
    "1NXW19jZ2uHi4+Tl5ufo6erx8vP09fb3+Pn6/9oACAEBAAA/APn+v//Z"
)


class Walk:
    """A reviewer who goes from place to place; what was found is counted as it is found."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.expected: list[tuple[str, str, str]] = []

    def _found(self, kind: str, what: str) -> None:
        place = self.page.locator("#place").get_attribute("data-place") or ""
        self.expected.append((place, kind, what))
        count(self.page, len(self.expected))

    def tick(self, number: int) -> None:
        """One line."""
        box = self.page.locator("[data-tick]").nth(number)
        box.check()
        self._found("tick", box.get_attribute("data-tick") or "")

    def measure(self, text: str) -> None:
        """The first measure."""
        box = self.page.locator(".measured").first
        box.get_by_role("textbox").fill(text)
        box.get_by_role("textbox").blur()
        self._found("measure", box.get_attribute("data-measure") or "")

    def photograph(self) -> None:
        """One photograph."""
        self.page.locator('input[type="file"]').set_input_files(
            {"name": "p.jpg", "mimeType": "image/jpeg", "buffer": JPEG}
        )
        self._found("photo", "")

    def note(self, text: str) -> None:
        """Some words."""
        self.page.locator("#f-note").fill(text)
        self.page.locator("#f-note").blur()
        self._found("note", "")

    def decide(self, button: str, what: str) -> None:
        """And on to the next place."""
        place = self.page.locator("#place").get_attribute("data-place") or ""
        address = self.page.url
        self.page.get_by_role("button", name=button).click()
        self.page.wait_for_url(lambda url: url != address)
        self.expected.append((place, "decision", what))
        count(self.page, len(self.expected))


def walk_half(walk: Walk, until: int) -> None:
    """Places one after another, with everything that can be found at one."""
    while len(walk.expected) < until:
        number = len(walk.expected)
        walk.tick(0)
        if walk.page.locator("[data-tick]").count() > 1:
            walk.tick(1)
        if walk.page.locator(".measured").count():
            walk.measure("7 1/4")
        walk.photograph()
        walk.note(f"Seen as number {number}")
        walk.decide("Accept", "accept")


def test_forty_items_found_without_signal_are_each_stored_once_and_in_order(
    chromium: Browser, site: Site, tmp_path: Path
) -> None:
    submit(chromium, site)
    memory = tmp_path / "memory"
    context = tablet(chromium, site, memory)
    sign_in(context, "inspector")
    page = context.pages[0]
    take_along(page)
    set_signal(context, site, there=False)
    page.goto(f"{REVIEW}/before-placing/wall-1-1")
    walk = Walk(page)
    walk_half(walk, SEVERAL // 2)
    page.reload()
    count(page, len(walk.expected))
    here = page.url
    kill(memory)
    context = tablet(chromium, site, memory)
    set_signal(context, site, there=False)
    page = walk.page = context.pages[0]
    page.goto(here)
    count(page, len(walk.expected))
    walk_half(walk, SEVERAL)
    assert site.items() == []
    context.clear_cookies()  # the session ended meanwhile
    site.weather.drop_every = 3
    set_signal(context, site, there=True)
    expect(page.locator('[data-unsent="detail"]')).to_contain_text("Sign in to send.", timeout=60_000)
    count(page, len(walk.expected))
    sign_in(context, "inspector")
    page.get_by_role("button", name="Send now").click()
    count(page, 0)
    expect(page.locator('[data-unsent="detail"]')).to_contain_text("Last sent")
    assert [(i.place, i.kind, i.item if i.kind != "photo" else "") for i in site.items()] == [
        (place, kind, what) for place, kind, what in walk.expected
    ]
    assert site.weather.dropped >= SEVERAL // 3
    assert {item.role for item in site.items()} == {"inspector"}
    with reading(site.db) as session:
        assert log.verify(session, 1).problems == ()
    page.goto(f"{REVIEW}/before-placing/A1")
    expect(page.locator("[data-tick]").first).to_be_checked()
    context.close()


def test_a_revision_that_moved_gives_a_conflict_and_loses_nothing(
    chromium: Browser, site: Site, tmp_path: Path
) -> None:
    submit(chromium, site)
    context = tablet(chromium, site, tmp_path / "memory")
    sign_in(context, "inspector")
    page = context.pages[0]
    take_along(page)
    set_signal(context, site, there=False)
    page.goto(f"{REVIEW}/before-placing/A1")
    walk = Walk(page)
    walk.tick(0)
    walk.decide("Accept", "accept")
    site.weather.signal = True
    other = chromium.new_context(base_url=site.address)
    sign_in(other, "administrator")
    whole = {"kind": "decision", "item": "return", "text": "Bolts first.", "base": "1", "key": "the-others-decision"}
    assert other.request.post(f"{REVIEW}/items", form=whole).status == 201
    other.close()
    set_signal(context, site, there=True)
    expect(page.locator('[data-unsent="detail"]')).to_contain_text("1 waits for your decision", timeout=60_000)
    count(page, 1)
    page.goto(REVIEW)
    entry = page.locator("#unsent-items li")
    expect(entry).to_contain_text("Revision A is returned since this was decided")
    assert [(item.kind, item.item) for item in site.items()] == [("decision", "return"), ("tick", "line-1")]
    page.on("dialog", lambda dialog: dialog.dismiss())
    entry.get_by_role("button", name="Drop it").click()
    count(page, 1)
    page.reload()
    expect(page.locator("#unsent-items li")).to_have_count(1)
    context.close()


def test_unsent_work_is_downloaded_and_loaded_again_elsewhere(chromium: Browser, site: Site, tmp_path: Path) -> None:
    submit(chromium, site)
    context = tablet(chromium, site, tmp_path / "memory")
    sign_in(context, "inspector")
    page = context.pages[0]
    take_along(page)
    set_signal(context, site, there=False)
    page.goto(f"{REVIEW}/before-placing/A1")
    walk = Walk(page)
    walk.tick(0)
    walk.photograph()
    page.goto(REVIEW)
    with page.expect_download() as download:
        page.get_by_role("button", name="Download unsent work").click()
    kept = tmp_path / "unsent.json"
    download.value.save_as(kept)
    assert [item["fields"]["kind"] for item in json.loads(kept.read_text())["items"]] == ["tick", "photo"]
    context.close()
    site.weather.signal = True
    other = tablet(chromium, site, tmp_path / "another memory")
    sign_in(other, "inspector")
    page = other.pages[0]
    for _ in range(2):  # the second time the server knows them
        page.goto(f"{REVIEW}/unsent")
        page.locator('input[type="file"]').set_input_files(kept)
        page.get_by_role("button", name="Load it").click()
        expect(page.locator("#load-says")).to_contain_text("2 put back")
        count(page, 0)
    assert [item.kind for item in site.items()] == ["tick", "photo"]
    other.close()


def test_signing_out_with_unsent_work_asks_first_and_keeps_it(chromium: Browser, site: Site, tmp_path: Path) -> None:
    submit(chromium, site)
    context = tablet(chromium, site, tmp_path / "memory")
    sign_in(context, "inspector")
    page = context.pages[0]
    take_along(page)
    context.route("**/items", lambda route: route.abort())  # pages come through, what was found does not
    page.goto(f"{REVIEW}/before-placing/A1")
    Walk(page).tick(0)
    asked = page.get_by_role("dialog")

    def leave(button: str) -> None:
        page.goto("/account")
        page.get_by_role("main").get_by_role("button", name="Sign out").click()
        expect(asked).to_contain_text("1 item found by")
        asked.get_by_role("button", name=button).click()

    leave("Send now, then sign out")
    expect(asked).to_contain_text("There is no signal")
    asked.get_by_role("button", name="Stay signed in").click()
    expect(asked).to_be_hidden()
    with page.expect_download() as kept:
        leave("Download unsent work")
    assert len(json.loads(Path(kept.value.path()).read_text())["items"]) == 1
    leave("Sign out anyway")
    page.wait_for_url("**/sign-in")
    sign_in(context, "inspector")
    page.goto(REVIEW)
    count(page, 1)
    page.goto("/jobs")
    page.locator("summary", has_text="Menu").click()
    page.locator(".menu-panel").get_by_role("button", name="Sign out").click()
    expect(asked).to_contain_text("1 item found by")
    context.unroute("**/items")  # not before: what can be sent is sent without anybody asking
    asked.get_by_role("button", name="Send now, then sign out").click()
    page.wait_for_url("**/sign-in")
    assert [item.kind for item in site.items()] == ["tick"]
    context.close()


def test_a_number_out_of_range_flags_at_once_without_signal(chromium: Browser, site: Site, tmp_path: Path) -> None:
    submit(chromium, site)
    context = tablet(chromium, site, tmp_path / "memory")
    sign_in(context, "inspector")
    page = context.pages[0]
    take_along(page)
    set_signal(context, site, there=False)
    page.goto(f"{REVIEW}/after-placing/A1")
    page.locator("#f-measure-lower_core_in").fill("3 3/8")
    expect(page.locator("#says-measure-lower_core_in")).to_contain_text(
        "Short by 1/8 in. With less, this flags: Room on the ledge."
    )
    page.locator("#f-measure-shift_across_in").fill("-1/8")  # 1 1/4 - 1/8 in is short of the middle third's 3.5 / 3 in
    expect(page.locator("#says-measure-shift_across_in")).to_contain_text("Short by 1/16 in.")
    page.locator("#f-measure-shift_across_in").fill("-1/16")
    expect(page.locator("#says-measure-shift_across_in")).to_contain_text("Within.")
    expect(page.locator("#accept")).to_have_text("Accept, saying why")
    page.locator("#accept").click()
    expect(page.locator("#e-note")).to_contain_text("Say in the note why it is accepted.")
    page.locator("#f-measure-lower_core_in").fill("3 1/2")
    expect(page.locator("#says-measure-lower_core_in")).to_contain_text("Within.")
    context.close()


def test_over_plain_http_the_page_says_why_it_can_not_be_taken_along_and_works(
    chromium: Browser, site: Site, tmp_path: Path
) -> None:
    submit(chromium, site)
    rules = ["--host-resolver-rules=MAP office.test 127.0.0.1"]
    context = tablet(chromium, site, tmp_path / "memory", args=rules)
    sign_in(context, "inspector")
    held = next(cookie["value"] for cookie in context.cookies() if cookie["name"] == SESSION)
    context.add_cookies([{"name": SESSION, "value": held, "domain": "office.test", "path": "/"}])
    page = context.pages[0]
    named = site.address.replace("127.0.0.1", "office.test")
    page.goto(named + REVIEW)
    expect(page.locator("#take-says")).to_contain_text("This page came over plain http")
    expect(page.get_by_role("button", name="Take this review along")).to_be_disabled()
    page.goto(f"{named}{REVIEW}/before-placing/A1")
    page.locator("[data-tick]").first.check()
    count(page, 0)
    until = time.monotonic() + 20
    while not site.items() and time.monotonic() < until:
        time.sleep(0.05)
    assert [item.kind for item in site.items()] == ["tick"]
    context.close()


LENGTHS = (
    "3 3/8", "3-3/8", "3 3/8 in", '3 3/8"', "½", "3½", "86", "86 mm", "8.6cm", "0.2 m", "1 ft", "1 ft 2 in", "1' 2 1/2\"",
    "12-6 1/2", "1,200 mm", ".5", "5.", "-1/4", "−2", "1/0", "wide", "3 lb", "", "1 ft 14 in", "9**9", "3 3/8 in x",
)  # fmt: skip


@pytest.mark.parametrize("units", ["in", "mm"])
def test_lengths_are_read_on_the_tablet_as_they_are_read_here(chromium: Browser, site: Site, units: str) -> None:
    submit(chromium, site)
    context = chromium.new_context(base_url=site.address)
    sign_in(context, "inspector")
    page = context.new_page()
    page.goto(REVIEW)
    read: Callable[[str], Any] = lambda text: page.evaluate("([t, u]) => wallseat.length.parse(t, u)", [text, units])  # noqa: E731
    for text in LENGTHS:
        try:
            here: float | None = parse(text, units) / (25.4 if units == "mm" else 1)
        except BadInput:
            here = None
        assert read(text) == (None if here is None else pytest.approx(here)), text
    context.close()
