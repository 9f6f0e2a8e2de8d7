"""A real Chromium on a program that really serves, with the demo job in it."""

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import uvicorn
from playwright.sync_api import Browser, ConsoleMessage, Page, sync_playwright

from tests.find_chromium import HELP, found
from webapp.commands.serve import prepare
from webapp.main import create_app
from webapp.settings import Settings

AXE = Path(__file__).parent / "vendor" / "axe.min.js"
SIZES = {"phone": (390, 844), "tablet": (820, 1180), "desk": (1440, 900)}


@contextmanager
def served(settings: Settings) -> Iterator[str]:
    """Serve on a port of its own. Yields: where."""
    prepare(settings)
    server = uvicorn.Server(uvicorn.Config(create_app(settings), host="127.0.0.1", port=0, log_level="error"))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    until = time.monotonic() + 30
    while not server.started:
        assert time.monotonic() < until, "the program does not start"
        time.sleep(0.02)
    port = server.servers[0].sockets[0].getsockname()[1]
    yield f"http://127.0.0.1:{port}"
    server.should_exit = True
    thread.join(30)


@pytest.fixture(scope="session")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where the program serves, for all that does not ask which database it serves from."""
    folder = tmp_path_factory.mktemp("served")
    with served(Settings(database_url=f"sqlite:///{folder / 'served.sqlite'}", demo=True)) as where:
        yield where


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The browser."""
    path = found()
    assert path is not None, HELP
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield browser
        browser.close()


def open_page(
    chromium: Browser, address: str, size: str = "desk", script: bool = True, role: str = "administrator"
) -> Page:
    """A page of a fresh visitor, signed in as someone of the demo; what the browser complains of is kept in `page.complaints`.

    Args: role: "" for nobody.
    """
    width, height = SIZES[size]
    context = chromium.new_context(
        base_url=address,
        viewport={"width": width, "height": height},
        java_script_enabled=script,
        has_touch=size != "desk",
    )
    context.set_default_timeout(20_000)
    if role:
        context.request.post("/sign-in/demo", form={"role": role}, max_redirects=0)
    page = context.new_page()
    complaints: list[str] = []

    def note(message: ConsoleMessage) -> None:
        if message.type in ("error", "warning") and "status of 422" not in message.text:
            complaints.append(message.text)

    page.on("console", note)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on(
        "request", lambda r: complaints.append(f"asks elsewhere: {r.url}") if not r.url.startswith(address) else None
    )
    page.complaints = complaints  # type: ignore[attr-defined]
    return page


@pytest.fixture(params=list(SIZES))
def page(chromium: Browser, address: str, request: pytest.FixtureRequest) -> Iterator[Page]:
    """The same on a phone, a tablet and a desk; nothing to complain of at the end."""
    made = open_page(chromium, address, request.param)
    yield made
    complaints = made.complaints  # type: ignore[attr-defined]
    made.context.close()
    assert complaints == []


@pytest.fixture
def desk(chromium: Browser, address: str) -> Iterator[Page]:
    """A visitor at a desk."""
    made = open_page(chromium, address)
    yield made
    complaints = made.complaints  # type: ignore[attr-defined]
    made.context.close()
    assert complaints == []


@pytest.fixture
def plain(chromium: Browser, address: str) -> Iterator[Page]:
    """A visitor whose browser runs no script."""
    made = open_page(chromium, address, script=False)
    yield made
    made.context.close()
