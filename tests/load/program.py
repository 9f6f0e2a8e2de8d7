"""A server process of its own, its visitors, and how much memory it holds."""

import http.client
import json
import os
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from webapp.pages.view import SESSION
from webapp.services import sign_in
from webapp.store import open_database

JSON = {"Content-Type": "application/json"}
FORM = {"Content-Type": "application/x-www-form-urlencoded"}


@dataclass(frozen=True, slots=True)
class Answer:
    """Status, body and where it leads on."""

    status: int
    body: bytes
    location: str

    @property
    def json(self) -> Any:
        """The body read as JSON."""
        return json.loads(self.body)


class Visitor:
    """One connection that is kept open, signed in by its session. Not for two threads at once."""

    def __init__(self, port: int, token: str = "") -> None:
        self.port = port
        self.cookie = {"Cookie": f"{SESSION}={token}"} if token else {}
        self._connection: http.client.HTTPConnection | None = None

    def ask(self, method: str, path: str, body: str | bytes | None = None, headers: Mapping[str, str] = {}) -> Answer:
        """One request; on a connection that the server gave up meanwhile once more on a new one, as browsers do.

        Raises: OSError where nobody answers.
        """
        kept = self._connection is not None
        try:
            return self._ask(method, path, body, {**self.cookie, **headers})
        except (BrokenPipeError, ConnectionResetError, http.client.RemoteDisconnected):
            if not kept:
                raise
            return self._ask(method, path, body, {**self.cookie, **headers})

    def _ask(self, method: str, path: str, body: str | bytes | None, headers: Mapping[str, str]) -> Answer:
        if self._connection is None:
            self._connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=120)
        try:
            self._connection.request(method, path, body, dict(headers))
            answer = self._connection.getresponse()
            return Answer(answer.status, answer.read(), answer.headers.get("location", ""))
        except (OSError, http.client.HTTPException):
            self.close()
            raise

    def get(self, path: str) -> Answer:
        """Read a page."""
        return self.ask("GET", path)

    def post(self, path: str, fields: Mapping[str, str]) -> Answer:
        """Send a form."""
        return self.ask("POST", path, urlencode(fields), FORM)

    def send(self, method: str, path: str, body: Any) -> Answer:
        """Send JSON."""
        return self.ask(method, path, json.dumps(body), JSON)

    def close(self) -> None:
        """Hang up."""
        if self._connection is not None:
            self._connection.close()
            self._connection = None


class Program:
    """`wallseat serve` over a database, until it is told to stop."""

    def __init__(self, url: str, **env: str) -> None:
        self.url = url
        self.began = time.monotonic()
        self.process = subprocess.Popen(
            [sys.executable, "-m", "webapp", "serve", "--demo"],
            env={**os.environ, "DATABASE_URL": url, "PORT": "0", "WALLSEAT_OPEN_RATE": "0", **env},
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        self.port = self._port()

    def _port(self) -> int:
        assert self.process.stdout
        for line in self.process.stdout:
            if "serves on http://" in line:
                return int(line.split("http://")[1].split()[0].rsplit(":", 1)[1])
        raise AssertionError(f"the program ended with {self.process.wait()} before it served")

    def visitor(self, role: str = "") -> Visitor:
        """Somebody of the demo's office; nobody where no role is named."""
        if not role:
            return Visitor(self.port)
        db = open_database(self.url)
        try:
            return Visitor(self.port, sign_in.as_role(db, role, "load"))
        finally:
            db.close()

    @property
    def megabytes(self) -> float:
        """Memory that this process holds (anonymous) [MB]. Source: proc(5), smaps_rollup.

        Pages of files, its database's among them, are the system's to drop; a process's share of them (PSS) jumps by ten megabytes
        when another that maps the same files, as the typesetter does, begins or ends.
        """
        text = Path(f"/proc/{self.process.pid}/smaps_rollup").read_text(encoding="utf-8")
        return next(int(line.split()[1]) for line in text.splitlines() if line.startswith("Anonymous:")) / 1024

    def stop(self) -> int:
        """End it as a service is ended. Returns: its exit code."""
        with self.process:
            self.process.terminate()
            try:
                return self.process.wait(30)
            except subprocess.TimeoutExpired:
                self.process.kill()
                return self.process.wait(30)


@contextmanager
def program(url: str, **env: str) -> Iterator[Program]:
    """A program that is stopped in the end."""
    found = Program(url, **env)
    try:
        yield found
    finally:
        found.stop()
