"""A log of many rows on both kinds of database: finding in it, a page, adding, all of it as a table, walking its chain.

`python -m tests.bench.log 1000000` measures that many rows beside few, and prints a line of JSON for each kind and size.
"""

import json
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from hashlib import sha256
from math import inf
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, process_time
from types import SimpleNamespace
from typing import Any, cast

from sqlalchemy import text

from tests import postgres
from tests.bench.measured import Measured
from webapp.migrate import migrate
from webapp.models import Job, LogEntry
from webapp.models.base import now
from webapp.models.said import said
from webapp.services import log, log_search
from webapp.services.log_search import Sought
from webapp.services.sign_in import Seen
from webapp.store import Database, open_database, reading, writing

FEW, MANY, IN_TABLE = 1_000, 1_000_000, 100_000
MOST_SEARCH_MS, MOST_APPEND_RATIO, MOST_EXPORT_MB = 100.0, 2.0, 60.0
ROUNDS = 9
SEEN = Seen(0, 0, "Omar Finch", "office", 1, "Bench office")
WORDS = (
    "footing",
    "ledge",
    "veneer",
    "gable",
    "poured",
    "returned",
    "short",
    "checked",
    "plate",
    "anchors",
    "north",
    "south",
)
COLUMNS = (
    "office_id", "seq", "at", "device_at", "what", "who", "role", "authority", "permit", "words", "conditions", "job_id",
    "job_name", "revision", "fingerprint", "places", "files", "before", "hash", "said",
)  # fmt: skip
# In a process of its own: how much more memory it takes to write the whole table than before [MB].
EXPORT = """
import resource, sys
from webapp.models import LogEntry
from webapp.pages.log import _csv
from webapp.services import log_search
from webapp.services.log_search import Sought
from webapp.store import open_database, reading
db = open_database(sys.argv[1])
with reading(db) as session:
    log_search.search(session, 1, Sought())
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    _csv(log_search.everything(session, 1, Sought()), "log.csv")
print((resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024)
"""


def _rows(count: int) -> Iterator[tuple[Any, ...]]:
    """Rows as the log keeps them, chained as it chains them."""
    before, moment = log.FIRST, now()
    for seq in range(1, count + 1):
        row: dict[str, Any] = {
            "office_id": 1, "seq": seq, "at": moment, "device_at": "", "what": "permit" if seq % 3 else "note",
            "who": "Omar Finch", "role": "office", "authority": f"County {seq % 40}", "permit": f"BP-{seq}", "conditions": "",
            "words": " ".join(WORDS[(seq * step) % len(WORDS)] for step in (1, 5, 7, 11)), "job_id": 1,
            "job_name": f"House {seq % 5000}", "revision": "A", "fingerprint": sha256(f"{seq}".encode()).hexdigest(),
            "places": [], "files": [], "before": before,
        }  # fmt: skip
        none = dict.fromkeys(set(log.CHAINED) - row.keys())
        row["hash"] = before = log.chained(cast(LogEntry, SimpleNamespace(**row, **none)))
        row |= {"places": "[]", "files": "[]", "said": said(row)}
        yield tuple(row[name] for name in COLUMNS)


@contextmanager
def filled(url: str, count: int) -> Iterator[Database]:
    """A database whose log has that many rows. Args: url: of an empty one."""
    db = open_database(url)
    migrate(db)
    with writing(db) as session:
        session.add(Job(name="House", site={}, edition="US 2021", changes=1))
    raw: Any = db.writer.raw_connection()
    (_into_sqlite if url.startswith("sqlite") else _into_postgres)(raw, count)
    raw.close()
    try:
        yield db
    finally:
        db.close()


def _into_sqlite(raw: Any, count: int) -> None:
    raw.execute("PRAGMA synchronous=OFF")
    raw.execute("BEGIN")
    marks, at = ", ".join("?" * len(COLUMNS)), COLUMNS.index("at")
    rows = ((*row[:at], f"{row[at]:%Y-%m-%d %H:%M:%S}", *row[at + 1 :]) for row in _rows(count))
    raw.executemany(f"INSERT INTO log_entry ({', '.join(COLUMNS)}) VALUES ({marks})", rows)
    raw.execute("COMMIT")
    raw.execute("PRAGMA synchronous=FULL")


def _into_postgres(raw: Any, count: int) -> None:
    """What a server does by itself in time, counting what is in a table, is asked for."""
    with raw.cursor() as cursor:
        with cursor.copy(f"COPY log_entry ({', '.join(COLUMNS)}) FROM STDIN") as copy:
            for row in _rows(count):
                copy.write_row(row)
        raw.commit()
    raw.driver_connection.autocommit = True
    raw.driver_connection.execute("VACUUM ANALYZE log_entry")
    raw.driver_connection.autocommit = False


def works(db: Database, count: int) -> dict[str, Callable[[], object]]:
    """What is measured, by name."""

    def search(**sought: Any) -> Callable[[], object]:
        def work() -> object:
            with reading(db) as session:
                return log_search.search(session, 1, Sought(**sought)).rows

        return work

    def append() -> object:
        with writing(db) as session:
            return log.append(session, SEEN, log.Said("note", "one row more"), session.get_one(Job, 1)).seq

    return {
        "a page": search(),
        "a page from the middle": search(before=count // 2),
        "the last page": search(before=40),
        "by a rare word": search(q=f"BP {count // 2}"),
        "by two common words": search(q="ledge short"),
        "by two common words, the last page": search(q="ledge short", before=count // 50),
        "by permit": search(permit=f"BP-{count // 2}"),
        "by authority and word": search(q="gable", authority="County 7"),
        "by a day without rows": search(since="2001-01-01", until="2001-01-02"),
        "by what is rare": search(what="go-ahead"),
        "append": append,
    }


def times_ms(db: Database, count: int) -> dict[str, float]:
    """Medians of all of them."""
    found = {}
    for name, work in works(db, count).items():
        taken = []
        for _ in range(ROUNDS):
            start = perf_counter()
            work()
            taken.append(perf_counter() - start)
        found[name] = median(taken) * 1000
    return found


def size_bytes(db: Database, rows: int) -> float:
    """Bytes of the log a row takes, with its indexes; of SQLite the whole file."""
    query = "SELECT page_count * page_size FROM pragma_page_count(), pragma_page_size()"
    if db.engine.dialect.name != "sqlite":
        query = "SELECT pg_total_relation_size('log_entry')"
    with reading(db) as session:
        return float(session.scalar(text(query)) or 0) / rows


def verified_a_second(db: Database, rows: int) -> float:
    """Rows of the chain walked a second of this process's core; all of them must hold."""
    start = process_time()
    with reading(db) as session:
        found = log.verify(session, 1)
    assert not found.problems, found.problems[:3]
    assert found.rows >= rows
    return found.rows / (process_time() - start)


def export_mb(url: str) -> float:
    """How much memory writing all of it as a table takes."""
    done = subprocess.run([sys.executable, "-c", EXPORT, url], capture_output=True, text=True, check=True)
    return float(done.stdout)


@contextmanager
def new(kind: str) -> Iterator[str]:
    """The address of an empty database."""
    if kind == "sqlite":
        with TemporaryDirectory() as folder:
            yield f"sqlite:///{Path(folder) / 'log.sqlite'}"
        return
    server = postgres.Server()
    try:
        yield server.url(server.create())
    finally:
        server.close()


def measured(kind: str, count: int) -> dict[str, Any]:
    """Everything at one size."""
    with new(kind) as url, filled(url, count) as db:
        return {
            "kind": kind, "rows": count, "bytes a row": size_bytes(db, count), "ms": times_ms(db, count),
            "verified a second": verified_a_second(db, count), "export MB": export_mb(url),
        }  # fmt: skip


def of_logs(many: int = IN_TABLE) -> list[Measured]:
    """Rows of the table, many beside few."""
    found = []
    for kind in ("sqlite", "postgres"):
        few, full = measured(kind, FEW), measured(kind, many)
        of = f"{kind}, log of {many}"
        for name, taken in full["ms"].items():
            most = (inf, MOST_APPEND_RATIO) if name == "append" else (MOST_SEARCH_MS, inf)
            short = f"{kind}, log of {FEW}, {name}"
            found.append(Measured(f"{of}, {name}", taken, "ms", short, taken / few["ms"][name], most))
        found += [
            Measured(f"{of}, bytes a row", full["bytes a row"], "B", "", None),
            Measured(f"{of}, rows verified", full["verified a second"], "1/s", "", None),
            Measured(f"{of}, memory of the table", full["export MB"], "MB", "", None, (MOST_EXPORT_MB, inf)),
        ]
    return found


if __name__ == "__main__":
    for size in (FEW, int(sys.argv[1]) if len(sys.argv) > 1 else MANY):
        for one in ("sqlite", "postgres"):
            print(json.dumps(measured(one, size)), flush=True)
