"""A log of many rows: finding in it, a page of it, and adding to it, beside a log of few."""

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path
from typing import Any

from sqlalchemy import text

from webapp.migrate import migrate
from webapp.models import Job
from webapp.models.base import now
from webapp.models.said import said
from webapp.services import log, log_search
from webapp.services.log_search import Sought
from webapp.services.sign_in import Seen
from webapp.store import Database, open_database, reading, writing

FEW, MANY = 1_000, 1_000_000
MOST_SEARCH_MS, MOST_APPEND_RATIO = 100.0, 2.0
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


def _rows(count: int, moment: str) -> Iterator[tuple[Any, ...]]:
    """Rows as the log keeps them; their hashes are not those of the chain, which nothing here walks."""
    before = log.FIRST
    for seq in range(1, count + 1):
        words = " ".join(WORDS[(seq * step) % len(WORDS)] for step in (1, 5, 7, 11))
        mark = sha256(f"{before}{seq}".encode()).hexdigest()
        row = (
            1, seq, moment, "", "permit" if seq % 3 else "note", "Omar Finch", "office", f"County {seq % 40}", f"BP-{seq}", words,
            "", 1, f"House {seq % 5000}", "A", mark, "[]", "[]", before, mark,
        )  # fmt: skip
        yield (*row, said(dict(zip(COLUMNS, row, strict=False))))  # type: ignore[arg-type]
        before = mark


@contextmanager
def filled(folder: Path, count: int) -> Iterator[Database]:
    """A database whose log has that many rows."""
    db = open_database(f"sqlite:///{folder / f'log-{count}.sqlite'}")
    migrate(db)
    with writing(db) as session:
        session.add(Job(name="House", site={}, edition="US 2021", changes=1))
    raw: Any = db.writer.raw_connection()
    raw.execute("PRAGMA synchronous=OFF")
    raw.execute("BEGIN")
    marks = ", ".join("?" * len(COLUMNS))
    raw.executemany(
        f"INSERT INTO log_entry ({', '.join(COLUMNS)}) VALUES ({marks})", _rows(count, f"{now():%Y-%m-%d %H:%M:%S}")
    )
    raw.execute("COMMIT")
    raw.execute("PRAGMA synchronous=FULL")
    raw.close()
    yield db
    db.close()


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
        "by a rare word": search(q=f"BP {count // 2}"),
        "by two common words": search(q="ledge short"),
        "by permit": search(permit=f"BP-{count // 2}"),
        "by authority and word": search(q="gable", authority="County 7"),
        "by a day without rows": search(since="2001-01-01", until="2001-01-02"),
        "by what is rare": search(what="go-ahead"),
        "append": append,
    }


def size_bytes(db: Database, rows: int) -> float:
    """Bytes of the database a row takes."""
    with reading(db) as session:
        pages = session.scalar(text("SELECT page_count * page_size FROM pragma_page_count(), pragma_page_size()"))
    return float(pages or 0) / rows


if __name__ == "__main__":
    import sys
    from statistics import median
    from tempfile import TemporaryDirectory
    from time import perf_counter

    for number in (FEW, int(sys.argv[1]) if len(sys.argv) > 1 else MANY):
        with TemporaryDirectory() as place, filled(Path(place), number) as base:
            found = {}
            for name, work in works(base, number).items():
                times = []
                for _ in range(9):
                    start = perf_counter()
                    work()
                    times.append(perf_counter() - start)
                found[name] = round(median(times) * 1000, 2)
            print(json.dumps({"rows": number, "bytes a row": round(size_bytes(base, number)), "ms": found}))
