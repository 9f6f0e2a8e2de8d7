"""A soak: a steady stream of reading, editing, submitting, reviewing and packing, every answer looked at, nothing lost at the end.

    python -m tests.load.soak [--minutes 30] [--rate 50] [--database URL] [--out FILE]

Each request is due at its own moment, whether or not the earlier ones have been answered, so that a slow server is seen as slow.
What a request does is drawn from a fixed seed. Only this machine is asked, and it stops by itself.
"""

import argparse
import json
import random
import re
import sys
import threading
import time
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path
from queue import Queue
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

from sqlalchemy import select

from tests.load.program import Answer, Program, Visitor, program
from tests.world import house
from webapp.models import LogEntry, ReviewItem
from webapp.services import log
from webapp.store import open_database, reading

JOBS, HANDS = 6, 16
# What is asked for, by weight.
PAGES = (
    "",
    "/attachments/A1",
    "/setting-out",
    "/takeoff",
    "/walls",
    "/revisions",
    "/log",
    "/placing",
    "/ready",
    "/floor-lines",
)
WEIGHTS = {"page": 62, "list": 10, "check": 8, "edit": 8, "note": 5, "review": 5, "drawing": 2}
SUBMIT_EVERY_S, PACK_EVERY_S = 20, 45
MOST_GROWTH = 1.10


@dataclass
class Seen:
    """What the stream met."""

    answers: Counter[str] = field(default_factory=Counter)
    odd: list[str] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    late: list[float] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    items: list[str] = field(default_factory=list)
    packages: int = 0
    submitted: int = 0
    lock: threading.Lock = field(default_factory=threading.Lock)

    def note(self, what: str, answer: Answer, expected: tuple[int, ...], seconds: float) -> bool:
        """Whether an answer is one of those expected."""
        with self.lock:
            self.answers[f"{what} {answer.status}"] += 1
            self.seconds.append(seconds)
            if answer.status not in expected:
                self.odd.append(f"{what} {answer.status} {answer.body[:200]!r}")
        return answer.status in expected


class Stream:
    """The visitors of one program."""

    def __init__(self, served: Program, seed: int = 7) -> None:
        self.served, self.seen, self.numbers = served, Seen(), count(1)
        self.chance = random.Random(seed)
        self.jobs = self._jobs()
        self.numbers_of = dict.fromkeys(self.jobs, 1)
        with closing(served.visitor("designer")) as designer:
            for job in self.jobs:
                self._ok("submit", designer.post(f"/jobs/{job}/revisions", {"note": "first"}), (303,))

    def _ok(self, what: str, answer: Answer, expected: tuple[int, ...]) -> Answer:
        assert answer.status in expected, (what, answer.status, answer.body[:500])
        return answer

    def _jobs(self) -> list[int]:
        with closing(self.served.visitor("designer")) as designer:
            return [
                self._ok("job", designer.send("POST", "/api/jobs", house() | {"name": f"Soaked {n}"}), (201,)).json[
                    "id"
                ]
                for n in range(JOBS)
            ]

    def drawn(self) -> Callable[[dict[str, Visitor]], None]:
        """What the next request does."""
        what = self.chance.choices(list(WEIGHTS), list(WEIGHTS.values()))[0]
        job, page, number = self.chance.choice(self.jobs), self.chance.choice(PAGES), next(self.numbers)
        does: Callable[[dict[str, Visitor], int, str, int], None] = getattr(self, f"_{what}")
        return lambda who: does(who, job, page, number)

    def _timed(self, what: str, expected: tuple[int, ...], ask: Callable[[], Answer]) -> Answer | None:
        began = time.perf_counter()
        answer = ask()
        return answer if self.seen.note(what, answer, expected, time.perf_counter() - began) else None

    def _page(self, who: dict[str, Visitor], job: int, page: str, number: int) -> None:
        self._timed("page", (200,), lambda: who["designer"].get(f"/jobs/{job}{page}"))

    def _list(self, who: dict[str, Visitor], job: int, page: str, number: int) -> None:
        path = ("/jobs", "/log", "/reviews", "/log?q=note")[number % 4]
        self._timed("list", (200,), lambda: who["office"].get(path))

    def _drawing(self, who: dict[str, Visitor], job: int, page: str, number: int) -> None:
        self._timed("drawing", (200,), lambda: who["designer"].get(f"/api/jobs/{job}/attachments/A1/drawing"))

    def _check(self, who: dict[str, Visitor], job: int, page: str, number: int) -> None:
        body = {"kind": "ledge_seat", "inputs": {"span_ft": f"{10 + number % 8} ft"}}
        self._timed("check", (200, 422), lambda: who["nobody"].send("POST", "/api/checks", body))

    def _edit(self, who: dict[str, Visitor], job: int, page: str, number: int) -> None:
        path = f"/api/jobs/{job}/attachments/A1"
        kept = self._timed("read", (200,), lambda: who["designer"].get(path))
        if kept:
            body = {k: kept.json[k] for k in ("wall", "level", "start", "end", "inputs", "version") if k in kept.json}
            body["end"] = f"{10 + number % 8} ft"
            self._timed("edit", (200, 409), lambda: who["designer"].send("PUT", path, body))

    def _note(self, who: dict[str, Visitor], job: int, page: str, number: int) -> None:
        words = f"note {number} of the soak"
        if self._timed(
            "note", (303,), lambda: who["office"].post(f"/jobs/{job}/log", {"what": "note", "words": words})
        ):
            self.seen.notes.append(words)

    def _review(self, who: dict[str, Visitor], job: int, page: str, number: int) -> None:
        key = f"soaked-decision-{number:08}"
        at = {"place": "A1", "stage": "before placing", "base": str(self.numbers_of[job])}
        fields = {"kind": "decision", "item": "accept", "text": "Looked at", "key": key, **at}
        path = f"/jobs/{job}/review/{self.numbers_of[job]}/items"
        # a revision that was superseded in between takes nothing more
        answer = self._timed("review", (200, 201, 303, 409, 422), lambda: who["inspector"].post(path, fields))
        if answer and answer.status in (200, 201, 303):
            self.seen.items.append(key)

    def submit(self, who: dict[str, Visitor], job: int) -> None:
        """A new revision of a job, after a change."""
        self._edit(who, job, "", next(self.numbers))
        answer = self._timed(
            "submit", (303, 409, 422), lambda: who["designer"].post(f"/jobs/{job}/revisions", {"note": "again"})
        )
        found = re.search(r"/revisions/(\d+)", answer.location) if answer and answer.status == 303 else None
        if found:
            self.numbers_of[job] = int(found[1])
            self.seen.submitted += 1

    def pack(self, who: dict[str, Visitor], job: int) -> None:
        """A package, waited for."""
        path = f"/jobs/{job}/revisions/{self.numbers_of[job]}/package"
        self._timed("package", (200, 303), lambda: who["designer"].post(path, {}))
        for _ in range(240):
            answer = self._timed("package file", (200, 303, 404, 409, 503), lambda: who["designer"].get(f"{path}.pdf"))
            if answer and answer.body.startswith(b"%PDF"):
                self.seen.packages += 1
                return
            time.sleep(0.5)
        self.seen.odd.append(f"no package of job {job}")


@contextmanager
def visitors(served: Program) -> Iterator[dict[str, Visitor]]:
    """One of each role that is needed, with connections of their own."""
    who = {role: served.visitor(role) for role in ("designer", "office", "inspector")} | {"nobody": served.visitor()}
    try:
        yield who
    finally:
        for visitor in who.values():
            visitor.close()


def run(served: Program, minutes: float, rate: float) -> dict[str, Any]:
    """The soak. Args: rate: requests due each second. Returns: its record."""
    stream = Stream(served)
    due: Queue[tuple[float, Callable[[dict[str, Visitor]], None]] | None] = Queue()
    memory: list[float] = []
    threads = [threading.Thread(target=_hand, args=(stream, due)) for _ in range(HANDS)]
    threads.append(threading.Thread(target=_slow, args=(stream, minutes * 60)))
    began = time.monotonic()
    for thread in threads:
        thread.start()
    for number in range(int(minutes * 60 * rate)):
        moment = began + number / rate
        time.sleep(max(moment - time.monotonic(), 0))
        due.put((moment, stream.drawn()))
        if number % int(rate * 5) == 0:
            memory.append(served.megabytes)
    for _ in range(HANDS):
        due.put(None)
    for thread in threads:
        thread.join(300)
    took = time.monotonic() - began
    memory.append(served.megabytes)
    return _record(stream.seen, took, memory) | {"kept": _kept(served.url, stream.seen)}


def _hand(stream: Stream, due: "Queue[tuple[float, Callable[[dict[str, Visitor]], None]] | None]") -> None:
    with visitors(stream.served) as who:
        while (asked := due.get()) is not None:
            moment, does = asked
            stream.seen.late.append(max(time.monotonic() - moment, 0.0))
            try:
                does(who)
            except OSError as error:
                stream.seen.odd.append(f"nobody answered: {error!r}")


def _slow(stream: Stream, seconds: float) -> None:
    """What happens now and then: submissions and packages."""
    began, turn, submit_at, pack_at = time.monotonic(), 0, 5.0, 12.0
    with visitors(stream.served) as who:
        while (now := time.monotonic() - began) < seconds:
            job = stream.jobs[turn % JOBS]
            try:
                if now >= submit_at:
                    submit_at += SUBMIT_EVERY_S
                    turn += 1
                    stream.submit(who, job)
                elif now >= pack_at:
                    pack_at += PACK_EVERY_S
                    stream.pack(who, job)
            except OSError as error:
                stream.seen.odd.append(f"nobody answered: {error!r}")
            time.sleep(0.2)


def _record(seen: Seen, took: float, memory: list[float]) -> dict[str, Any]:
    ordered = sorted(seen.seconds)
    warm = memory[len(memory) // 6 :] or memory
    tenth = max(len(warm) // 10, 1)
    first, last = median(warm[:tenth]), median(warm[-tenth:])
    return {
        "seconds": round(took, 1),
        "requests": len(ordered),
        "rate": round(len(ordered) / took, 1),
        "answers": dict(sorted(seen.answers.items())),
        "5xx": sum(n for what, n in seen.answers.items() if what.rsplit(" ", 1)[1] >= "500"),
        "odd": seen.odd[:20],
        "p50_ms": round(ordered[len(ordered) // 2] * 1000, 1),
        "p99_ms": round(ordered[int(len(ordered) * 0.99)] * 1000, 1),
        "late_p99_ms": round(sorted(seen.late)[int(len(seen.late) * 0.99)] * 1000, 1),
        "submitted": seen.submitted,
        "packages": seen.packages,
        "memory_mb": [round(m, 1) for m in (first, last, max(memory))],
        "memory_growth": round(last / first, 3),
        "memory_series_mb": [round(m) for m in memory[:: max(len(memory) // 30, 1)]],
    }


def _kept(url: str, seen: Seen) -> dict[str, Any]:
    """Whether all that was acknowledged is there, and the log's chain."""
    db = open_database(url)
    try:
        with reading(db) as session:
            words = set(session.scalars(select(LogEntry.words).where(LogEntry.what == "note")))
            keys = set(session.scalars(select(ReviewItem.key)))
            verified = log.verify(session, 1)
    finally:
        db.close()
    lost = sorted(set(seen.notes) - words) + sorted(set(seen.items) - keys)
    return {
        "acknowledged": len(seen.notes) + len(seen.items),
        "lost": lost[:20],
        "log_rows": verified.rows,
        "chain": [str(problem) for problem in verified.problems],
    }


def faults(record: dict[str, Any], most_growth: float = MOST_GROWTH) -> list[str]:
    """What of a record must not be."""
    found = []
    if record["5xx"]:
        found.append(f"{record['5xx']} answers of 500 and above")
    if record["odd"]:
        found.append(f"unexpected: {record['odd'][0]}")
    if record["memory_growth"] > most_growth:
        found.append(f"memory grew to {record['memory_growth']} times")
    if record["kept"]["lost"]:
        found.append(f"lost: {record['kept']['lost'][0]}")
    if record["kept"]["chain"]:
        found.append(f"chain: {record['kept']['chain'][0]}")
    return found


def main() -> int:
    """Soak and print the record. Returns: 0 when nothing went wrong."""
    parser = argparse.ArgumentParser(prog="python -m tests.load.soak", description=__doc__.splitlines()[0])
    parser.add_argument("--minutes", type=float, default=30.0)
    parser.add_argument("--rate", type=float, default=50.0, help="requests due each second")
    parser.add_argument("--database", default="", help="its address; an SQLite file of its own without one")
    parser.add_argument("--out", type=Path, help="where the record is written")
    options = parser.parse_args()
    with TemporaryDirectory() as folder, program(options.database or f"sqlite:///{folder}/soak.sqlite") as served:
        record = run(served, options.minutes, options.rate)
    text = json.dumps(record | {"faults": faults(record)}, indent=1)
    print(text)
    if options.out:
        options.out.write_text(text + "\n", encoding="utf-8")
    return 1 if faults(record) else 0


if __name__ == "__main__":
    sys.exit(main())
