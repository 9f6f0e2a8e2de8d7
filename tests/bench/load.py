"""The program under many visitors on both kinds of database: pages over a plain text route, growth, decisions, start, memory.

Visitors are those of wrk (Debian's package of that name), at addresses of this machine only.
"""

import json
import re
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from itertools import pairwise
from math import inf
from tempfile import TemporaryDirectory
from typing import NamedTuple

from sqlalchemy import text

from tests import postgres
from tests.bench.measured import Measured, medians_ms
from tests.load.program import Program, program
from tests.world import house
from webapp.models import Job
from webapp.services import log
from webapp.services.log import Said
from webapp.services.sign_in import Seen
from webapp.store import open_database, writing

CONNECTIONS = (1, 16, 64)
SIZES = (50, 100, 200)
SECONDS = 2
PROCESSES = "2"  # one a core
PLAIN = "/healthz"
MOST_P99_MS, MOST_GROWTH, MOST_START_S, MOST_IDLE_MB = 150.0, 2.2, 2.0, 200.0
ROUNDS = 60
STARTS = 3
UNITS_MS = {"us": 1e-3, "ms": 1.0, "s": 1e3}


class Asked(NamedTuple):
    """What wrk measured: answers a second, latencies [ms]."""

    a_second: float
    p50_ms: float
    p99_ms: float


def wrk(served: Program, path: str, connections: int, cookie: str = "", seconds: int = SECONDS) -> Asked:
    """Ask for one page again and again over so many connections. Raises: AssertionError for an answer that is no success."""
    command = [
        "wrk",
        "-t1",
        f"-c{connections}",
        f"-d{seconds}s",
        "--latency",
        "--timeout",
        "30s",
        "-H",
        f"Cookie: {cookie}",
    ]
    done = subprocess.run(
        [*command, f"http://127.0.0.1:{served.port}{path}"], capture_output=True, text=True, check=True
    )
    assert "Non-2xx" not in done.stdout, done.stdout
    assert "Socket errors" not in done.stdout, done.stdout
    rate = re.search(r"Requests/sec:\s+([\d.]+)", done.stdout)
    shares = {
        share: float(n) * UNITS_MS[unit] for share, n, unit in re.findall(r"(\d+)%\s+([\d.]+)(us|ms|s)", done.stdout)
    }
    assert rate, done.stdout
    return Asked(float(rate[1]), shares["50"], shares["99"])


@contextmanager
def databases() -> Iterator[dict[str, str]]:
    """An empty database of each kind; PostgreSQL with the care for the disk it has in use."""
    server = postgres.Server()
    try:
        with TemporaryDirectory() as folder:
            name = server.create()
            server.command(f"ALTER DATABASE {name} SET synchronous_commit = on")
            yield {"SQLite": f"sqlite:///{folder}/bench.sqlite", "PostgreSQL": server.url(name)}
    finally:
        server.close()


def fill(served: Program) -> dict[int, int]:
    """Jobs of every size. Returns: their ids by their size."""
    found = {}
    with closing(served.visitor("designer")) as designer:
        for size in SIZES:
            seats = [house()["attachments"][n % 2] | {"tag": f"A{n + 1}"} for n in range(size)]
            answer = designer.send("POST", "/api/jobs", house() | {"name": f"House of {size}", "attachments": seats})
            assert answer.status == 201, answer.body
            found[size] = answer.json["id"]
        for n in range(SIZES[-1]):
            answer = designer.post(f"/jobs/{found[SIZES[0]]}/log", {"what": "note", "words": f"Row {n}"})
    return found


def _pages(served: Program, kind: str, jobs: dict[int, int]) -> Iterator[Measured]:
    with closing(served.visitor("administrator")) as reader:
        cookie = reader.cookie["Cookie"]
    job = f"/jobs/{jobs[SIZES[-1]]}"
    pages = {
        "sign-in": "/sign-in",
        "list of jobs": "/jobs",
        "attachment": f"{job}/attachments/A1",
        f"job of {SIZES[-1]} attachments": job,
        "log": "/log",
    }
    for path in pages.values():  # every process has filled each page once, as after a morning's first hour
        wrk(served, path, CONNECTIONS[-1], "" if path == "/sign-in" else cookie, 1)
    for connections in CONNECTIONS:
        plain = wrk(served, PLAIN, connections)
        name = f"{kind}, plain text, {connections} at once"
        yield Measured(name, plain.a_second, "1/s", "", None)
        for label, path in pages.items():
            found = wrk(served, path, connections, "" if path == "/sign-in" else cookie)
            row = f"{kind}, {label}, {connections} at once"
            yield Measured(row, found.a_second, "1/s", name, found.a_second / plain.a_second)
            yield Measured(f"{row}, p50", found.p50_ms, "ms", "", None)
            most = MOST_P99_MS if connections == 16 else inf
            yield Measured(f"{row}, p99", found.p99_ms, "ms", "", None, (most, inf))
    times = {size: wrk(served, f"/jobs/{jobs[size]}?size=200", 1, cookie).p50_ms for size in SIZES}
    for small, large in pairwise(SIZES):
        ratio = times[large] / times[small]
        name = f"{kind}, job of {small} attachments, all on a page"
        yield Measured(
            f"{kind}, job of {large} attachments, all on a page", times[large], "ms", name, ratio, (inf, MOST_GROWTH)
        )


def _decisions(url: str, kind: str, job_id: int) -> Iterator[Measured]:
    """A row of the log, kept, beside a bare commit of the same database."""
    db = open_database(url)
    seen = Seen(0, 0, "Omar Finch", "office", 1, "Bench office")

    def decide() -> None:
        with writing(db) as session:
            log.append(session, seen, Said("note", words="Looked at"), session.get_one(Job, job_id))

    def bare() -> None:
        with writing(db) as session:
            session.execute(text("UPDATE office SET name = name WHERE id = 1"))

    try:
        full, alone = medians_ms(decide, bare, ROUNDS)
    finally:
        db.close()
    name = f"{kind}, bare commits"
    yield Measured(f"{kind}, rows of the log", 1000 / full, "1/s", name, alone / full)
    yield Measured(name, 1000 / alone, "1/s", "", None)


def _start(url: str, kind: str) -> Iterator[Measured]:
    """From nothing to the first page, and what a process then holds."""
    starts, held = [], []
    for _ in range(STARTS):
        began = time.perf_counter()
        with program(url) as served, closing(served.visitor()) as visitor:
            assert visitor.get("/").status == 200
            starts.append(time.perf_counter() - began)
            for path in ("/", "/try", "/try/ledge_seat", "/sign-in"):
                visitor.get(path)
            held.append(served.megabytes)
    yield Measured(f"{kind}, cold start to the first page", min(starts), "s", "", None, (MOST_START_S, inf))
    yield Measured(f"{kind}, idle process", max(held), "MB", "", None, (MOST_IDLE_MB, inf))


def of_load() -> list[Measured]:
    """All of it; nothing where there is no wrk, which is said."""
    if shutil.which("wrk") is None:
        print("No wrk on this machine (Debian: apt-get install wrk): the rows under load are left out.")
        return []
    rows: list[Measured] = []
    with databases() as urls:
        for kind, url in urls.items():
            with program(url, WALLSEAT_PROCESSES=PROCESSES) as served:
                jobs = fill(served)
                rows += _pages(served, kind, jobs)
            rows += _decisions(url, kind, jobs[SIZES[0]])
            rows += _start(url, kind)
    return rows


if __name__ == "__main__":
    for row in of_load():
        print(json.dumps(row.to_json()), "" if row.reached else "TOO SLOW")
