"""A small world to test in: an application over a fresh database, a reader whose every page is inspected, a job with walls."""

import json
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from fastapi import FastAPI
from httpx2 import Response
from sqlalchemy import event
from starlette.testclient import TestClient

from webapp.main import create_app
from webapp.migrate import migrate
from webapp.models import Office, Person
from webapp.pages.view import SESSION, SESSION_HTTPS
from webapp.services import checks, job_files, people, sign_in
from webapp.settings import Settings
from webapp.store import Database, writing

VOID = {"input", "br", "meta", "link", "hr", "img"}


class Page(HTMLParser):
    """What a page holds, for inspection."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.words: dict[str, list[str]] = {"h1": [], "title": []}
        self._open: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, {name: value or "" for name, value in attrs}))
        if tag in self.words:
            self._open.append(tag)
            self.words[tag].append("")

    def handle_endtag(self, tag: str) -> None:
        if self._open and self._open[-1] == tag:
            self._open.pop()

    def handle_data(self, data: str) -> None:
        if self._open:
            self.words[self._open[-1]][-1] += data

    def of(self, *names: str) -> Iterator[tuple[str, dict[str, str]]]:
        """Elements by their names."""
        return ((tag, attrs) for tag, attrs in self.tags if tag in names)

    @property
    def ids(self) -> list[str]:
        """Every id, in order."""
        return [attrs["id"] for _, attrs in self.tags if "id" in attrs]

    @property
    def values(self) -> dict[str, str]:
        """What every named field holds; selects and areas are not read."""
        return {a["name"]: a.get("value", "") for _, a in self.of("input") if "name" in a}


def inspect(text: str, whole: bool = True) -> Page:
    """Hold a page against what every page promises. Args: whole: False for a part a script asked for."""
    page = Page(text)
    assert len(page.ids) == len(set(page.ids)), (
        f"ids given twice: {sorted(i for i in page.ids if page.ids.count(i) > 1)}"
    )
    if whole:
        assert len(page.words["h1"]) == 1, f"{len(page.words['h1'])} h1"
        heading = " ".join(page.words["h1"][0].split())
        assert heading
        assert " ".join(page.words["title"][0].split()).startswith(heading), page.words
    _inspect_names(page, whole)
    _inspect_policy(page)
    return page


def _inspect_names(page: Page, whole: bool) -> None:
    labelled = {a["for"] for _, a in page.of("label") if "for" in a}
    for tag, attrs in page.of("input", "select", "textarea"):
        if attrs.get("type") != "hidden":
            assert attrs.get("id") in labelled or attrs.get("aria-label"), f"{tag} without a label: {attrs}"
    for _, attrs in page.tags:
        for name in ("aria-describedby", "aria-labelledby"):
            for wanted in attrs.get(name, "").split():
                assert wanted in page.ids, f"{name} points nowhere: {wanted}"
    if whole:
        for _, attrs in page.of("a"):
            href = attrs.get("href", "")
            if href.startswith("#") and href != "#":
                assert href[1:] in page.ids, f"link to nothing on the page: {href}"


def _inspect_policy(page: Page) -> None:
    """Nothing the content policy would stop, and nothing from elsewhere."""
    for tag, attrs in page.tags:
        assert "style" not in attrs, (tag, attrs)
        assert not any(name.startswith(("on", "hx-on")) for name in attrs), (tag, attrs)
        for name in ("href", "src", "action", "formaction", "hx-get", "hx-post"):
            target = attrs.get(name)
            assert target is None or target.startswith(("/", "#")), (tag, name, target)
            assert target is None or not target.startswith("//"), (tag, name, target)
    assert not re.search(r"<script(?![^>]*\bsrc=)", page.text)
    assert "<style" not in page.text


class Reader(TestClient):
    """A browser of the server's own pages: it sends what browsers send, and inspects every page it gets."""

    def __init__(self, app: FastAPI) -> None:
        super().__init__(app, base_url="http://127.0.0.1", follow_redirects=False)
        self.headers["Sec-Fetch-Site"] = "same-origin"

    def request(self, *args: Any, **kwargs: Any) -> Response:
        response = super().request(*args, **kwargs)
        kind = response.headers.get("content-type", "")
        if kind.startswith("text/html"):
            asked = "hx-request" in response.request.headers
            inspect(response.text, whole="<!doctype html>" in response.text or not asked)
        return response

    def follow(self, response: Response) -> Response:
        """Go where a change leads on to."""
        assert response.status_code == 303, (response.status_code, response.text[:2000])
        return self.get(response.headers["location"])

    def page(self, path: str, **kwargs: Any) -> Page:
        """A page that must be there."""
        response = self.get(path, **kwargs)
        assert response.status_code == 200, (path, response.status_code, response.text[:2000])
        return Page(response.text)


@dataclass
class World:
    """An application, its database, and a reader who may do everything an office may: its administrator."""

    app: FastAPI
    db: Database
    reader: Reader

    def as_(self, role: str) -> Reader:
        """Another browser, in which one of the office's people is signed in."""
        found = Reader(self.app)
        found.cookies.set(SESSION_HTTPS if self.app.state.https else SESSION, sign_in.as_role(self.db, role, "a test"))
        return found

    def stranger(self) -> Reader:
        """Another browser, of a designer of another office."""
        with writing(self.db) as session:
            office = Office(name="Other office")
            session.add(office)
            session.flush()
            person = Person(office_id=office.id, name="Sol Far", sign_in=f"far{office.id}", role="administrator")
            session.add(person)
            session.flush()
            token = sign_in.begin(session, "a test", person_id=person.id)
        found = Reader(self.app)
        found.cookies.set(SESSION, token)
        return found

    def nobody(self) -> Reader:
        """Another browser, in which nobody is signed in."""
        return Reader(self.app)

    def job(self, **changes: Any) -> int:
        """Keep a job of two wall types, three walls and two attachments; changes replace parts of its file."""
        return job_files.take_in(self.db, json.dumps(house() | changes))

    @contextmanager
    def counted(self) -> Iterator[list[str]]:
        """The statements sent to the database meanwhile."""
        sent: list[str] = []

        def note(conn: Any, cursor: Any, statement: str, *rest: Any) -> None:
            sent.append(statement)

        event.listen(self.db.engine, "before_cursor_execute", note)
        try:
            yield sent
        finally:
            event.remove(self.db.engine, "before_cursor_execute", note)


def house() -> dict[str, Any]:
    """A small job's file, every number invented."""

    def wall(name: str, length: str, low: str = "Ten") -> dict[str, Any]:
        storeys = [{"type": low, "height_ft": "9 ft"}, {"type": "Six", "height_ft": "9 ft"}]
        return {"name": name, "line": {"length_ft": length}, "storeys": storeys, "openings": []}

    def seat(tag: str, wall_name: str, **inputs: str) -> dict[str, Any]:
        place = {"tag": tag, "kind": "ledge_seat", "wall": wall_name, "level": 1, "start": "1 ft", "end": "11 ft"}
        return place | {"inputs": inputs}

    return {
        "wallseat_job": 2,
        "name": "Small house",
        "edition": "US 2021",
        "site": {"seismic": "B"},
        "wall_types": {"Ten": {"core_in": "10 in"}, "Six": {"core_in": "6 in"}, "Twelve": {"core_in": "12 in"}},
        "walls": [wall("W1", "40 ft"), wall("W2", "24 ft"), wall("W3", "12 ft")],
        "attachments": [
            seat("A1", "W1", lap_in="48 in"),
            seat("A2", "W2", member="i_joist", required_bearing_in="5 in"),
        ],
    }


@contextmanager
def world(where: Path | str, **settings: Any) -> Iterator[World]:
    """A world of its own. Args: where: a folder for an SQLite database, or the address of a database."""
    url = where if isinstance(where, str) else f"sqlite:///{where / 'test.sqlite'}"
    app = create_app(Settings(database_url=url, **settings))
    db: Database = app.state.db
    migrate(db)
    people.make_demo(db)
    with Reader(app) as reader:
        made = World(app, db, reader)
        reader.cookies.update(made.as_("administrator").cookies)
        yield made


def refresh(at: World, job_id: int) -> int:
    """Check again what is stale. Returns: how many were checked."""
    return checks.refresh(at.db, job_id)
