"""Several processes that serve one database on PostgreSQL: whichever answers, the office sees the same."""

import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, contextmanager
from pathlib import Path
from typing import Any

import pytest
from httpx2 import Client, Response

from tests.webapp.test_people import WORDS
from tests.world import Page, inspect
from webapp.__main__ import main
from webapp.folders import ROOT
from webapp.services import people, sign_in
from webapp.store import open_database

pytestmark = pytest.mark.only("postgres")
PATIENCE_S = 120.0
ADDRESS = re.compile(r"http://127\.0\.0\.1:\d+")


class Turns(Client):
    """A browser behind a proxy that hands every request to the next process."""

    def __init__(self, addresses: list[str]) -> None:
        super().__init__(headers={"Sec-Fetch-Site": "same-origin", "Connection": "close"}, timeout=PATIENCE_S)
        self.addresses, self.count = addresses, 0

    def ask(self, method: str, path: str, **more: Any) -> Response:
        """A request, inspected where it answers with a page."""
        self.count += 1
        response = self.request(method, self.addresses[self.count % len(self.addresses)] + path, **more)
        if "<!doctype html>" in response.text[:100]:
            inspect(response.text)
        return response

    def page(self, path: str) -> Page:
        """A page that must be there."""
        response = self.ask("GET", path)
        assert response.status_code == 200, (path, response.status_code, response.text[:500])
        return Page(response.text)

    def fill_in(self, path: str, **fields: str) -> Page:
        """Send a form, and go where it leads: the other process answers there."""
        response = self.ask("POST", path, data=fields)
        assert response.status_code == 303, (path, response.status_code, response.text[:2000])
        return self.page(response.headers["location"])

    def as_(self, role: str) -> "Turns":
        """Another browser, signed in as somebody of the demo."""
        other = Turns(self.addresses)
        other.ask("POST", "/sign-in/demo", data={"role": role})
        return other


@contextmanager
def serving(count: int, url: str, folder: Path) -> Iterator[tuple[list[str], list[str]]]:
    """Processes that all start in the same moment. Yields: their addresses, and all they said before."""
    environment = os.environ | {
        "DATABASE_URL": url,
        "PORT": "0",
        "WALLSEAT_PACKAGES": str(folder / "packages"),
        "WALLSEAT_PUBLIC_ORIGIN": "http://127.0.0.1:8000",
    }
    command = [sys.executable, "-m", "webapp", "serve", "--demo"]
    begun = [
        subprocess.Popen(
            command, env=environment, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
        )
        for _ in range(count)
    ]
    try:
        with ThreadPoolExecutor(count) as threads:
            said = list(threads.map(_until_it_serves, begun))
        yield [lines[-1] for lines in said], [line for lines in said for line in lines[:-1]]
    finally:
        for process in begun:
            process.terminate()
        for process in begun:
            process.communicate(timeout=30)


def _until_it_serves(process: "subprocess.Popen[str]") -> list[str]:
    lines = []
    assert process.stdout
    for line in process.stdout:
        if address := ADDRESS.search(line):
            return [*lines, address[0]]
        lines.append(line.strip())
    raise AssertionError("it ended before it served")


@pytest.fixture
def served(empty_database: str, tmp_path: Path) -> Iterator[tuple[Turns, str]]:
    """A browser before two processes, and the address of their database, as an administrator would write it."""
    url = empty_database.replace("postgresql+psycopg://", "postgresql://")
    with ExitStack() as stack:
        addresses, said = stack.enter_context(serving(2, url, tmp_path))
        assert said == ["The demo job is loaded."], "of two that start at once one loads it"
        yield Turns(addresses), url


def test_a_job_is_edited_submitted_reviewed_and_logged_whichever_process_answers(
    served: tuple[Turns, str], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    visitor, url = served
    designer, inspector = visitor.as_("designer"), visitor.as_("inspector")
    form = designer.page("/jobs/1/attachments/A1").values
    designer.fill_in("/jobs/1/attachments/A1", **form | {"lap_in": "47", "do": "save"})
    for _ in range(2):
        assert designer.page("/jobs/1/attachments/A1").values["lap_in"] == "47"
    stale = designer.ask("POST", "/jobs/1/attachments/A1", data=form | {"lap_in": "46", "do": "save"})
    assert stale.status_code in (409, 422), "made from what the other process changed since"
    designer.fill_in("/jobs/1/revisions", note="For the permit")
    form = inspector.page("/jobs/1/review/1/decide?do=return").values
    decided = inspector.fill_in("/jobs/1/review/1/items", **form | {"text": "More bolts."})
    assert "returned" in decided.text
    assert "More bolts." in visitor.as_("office").page("/log?q=bolts").text
    monkeypatch.setenv("DATABASE_URL", url)
    assert main(["verify-log"]) == 0
    assert "Office 1: 2 rows" in capsys.readouterr().out


def test_what_takes_long_is_found_ready_whichever_process_answers(served: tuple[Turns, str]) -> None:
    designer = served[0].as_("designer")
    designer.fill_in("/jobs/1/package")
    until = time.monotonic() + PATIENCE_S
    while "The package is ready" not in (text := designer.page("/jobs/1/package").text):
        assert 'hx-trigger="every' in text, "whoever answers says that it is under way"
        assert time.monotonic() < until
    pdfs = [designer.ask("GET", "/jobs/1/package.pdf") for _ in range(2)]
    assert pdfs[0].content == pdfs[1].content
    assert pdfs[0].content.startswith(b"%PDF-")
    line = re.search(
        r'href="(/jobs/1/floor-lines/\d+)"', designer.page("/jobs/1").text + designer.page("/jobs/1/floor-lines").text
    )
    assert line
    while "hx-trigger" in (text := designer.page(f"{line[1]}/options").text):
        assert time.monotonic() < until
    tables = [designer.ask("GET", f"{line[1]}/options/all.csv").text for _ in range(2)]
    assert tables[0] == tables[1]
    assert tables[0].count("\n") > 3


def test_sessions_and_failed_tries_count_whichever_process_answers(served: tuple[Turns, str]) -> None:
    visitor, url = served
    administrator = visitor.as_("administrator")
    administrator.page("/people")
    administrator.ask("POST", "/sign-out")
    for _ in range(2):
        assert administrator.ask("GET", "/people").status_code == 303
    db = open_database(url)
    seen = sign_in.who(db, sign_in.as_role(db, "administrator", "a test"))
    assert seen
    _, code = people.add(db, seen, "Nora Vale", "nora", "designer")
    people.join(db, "nora", code, WORDS)
    db.close()
    wrong = {"sign_in": "nora", "password": "not this one"}
    for _ in range(6):
        assert Turns(visitor.addresses).ask("POST", "/sign-in", data=wrong).status_code == 401
    for number in range(2):
        late = Turns(visitor.addresses)
        late.count = number
        answer = late.ask("POST", "/sign-in", data=wrong | {"password": WORDS})
        assert "Too many tries. Wait" in answer.text
