"""A job's page asked for in the process, without a network between."""

import asyncio
import json
from pathlib import Path
from types import TracebackType
from typing import Any

from jinja2 import Environment, Template
from markupsafe import Markup

from tests.world import house
from webapp.main import create_app
from webapp.migrate import migrate
from webapp.pages.job import LIST
from webapp.pages.view import SESSION
from webapp.services import job_files, people, sign_in
from webapp.settings import Settings


class Watching:
    """Templates that remember what was last filled in."""

    def __init__(self, environment: Environment) -> None:
        self.environment = environment
        self.template: Template | None = None
        self.values: dict[str, Any] = {}

    def get_template(self, name: str) -> "Watching":
        """The template of that name, watched."""
        self.template = self.environment.get_template(name)
        return self

    def render(self, values: dict[str, Any]) -> str:
        """Fill it in."""
        assert self.template is not None
        self.values = values
        return self.template.render(values)

    def again(self) -> str:
        """The same once more, its list from the rows, not as it was kept."""
        assert self.template is not None
        listed = Markup(self.environment.get_template(LIST).render(self.values))
        return self.template.render(self.values | {"listed": listed})


class Served:
    """An application over a job of many attachments, and the last page's template with the values it was given."""

    def __init__(self, folder: Path, count: int) -> None:
        self.app = create_app(Settings(database_url=f"sqlite:///{folder / 'bench.sqlite'}"))
        migrate(self.app.state.db)
        seats = [house()["attachments"][n % 2] | {"tag": f"A{n + 1}"} for n in range(count)]
        job = job_files.take_in(self.app.state.db, json.dumps(house() | {"attachments": seats}))
        people.make_demo(self.app.state.db)
        self.cookie = f"{SESSION}={sign_in.as_role(self.app.state.db, 'designer', 'bench')}"
        self.path = f"/jobs/{job}"
        self.query = f"size={count}"
        self.loop = asyncio.new_event_loop()
        self.templates = self.app.state.templates = Watching(self.app.state.templates)

    def __enter__(self) -> "Served":
        text = self.page()
        assert text.count('class="row-link"') >= 200, "the page lists them all"
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        self.loop.run_until_complete(self.loop.shutdown_default_executor())
        self.loop.close()
        self.app.state.db.close()

    def page(self) -> str:
        """The whole way of a request: middleware, database, template."""
        return self.loop.run_until_complete(self._ask())

    def template(self) -> str:
        """The same template from the same values."""
        return self.templates.again()

    async def _ask(self) -> str:
        sent: list[dict[str, Any]] = []

        async def receive() -> dict[str, Any]:
            return {"type": "http.request", "body": b"", "more_body": False}

        async def send(message: dict[str, Any]) -> None:
            sent.append(message)

        scope = {
            "type": "http", "method": "GET", "path": self.path, "raw_path": self.path.encode(), "root_path": "",
            "query_string": self.query.encode(), "http_version": "1.1",
            "headers": [(b"host", b"127.0.0.1"), (b"cookie", self.cookie.encode())],
            "scheme": "http", "server": ("127.0.0.1", 80), "client": ("127.0.0.1", 1), "asgi": {"version": "3.0"},
        }  # fmt: skip
        await self.app(scope, receive, send)
        assert sent[0]["status"] == 200
        return b"".join(message.get("body", b"") for message in sent[1:]).decode()
