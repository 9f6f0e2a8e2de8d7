"""Searches under way: each runs beside the requests, can be stopped, and what it found is kept while there is room.

Kept in the memory of this process and known by the numbers searched: another process, or this one after it has forgotten, simply
searches again and finds the same.
"""

import logging
from collections import OrderedDict
from threading import Event, Lock, Semaphore, Thread

from engine.options import Line, Search
from webapp.services.options import Found, found

MOST = 12  # searches remembered
AT_ONCE = 2  # more would only contend for the interpreter
LOOK_S = 0.05
log = logging.getLogger("wallseat")


class Running:
    """One search. done, total: candidates. failed: it met an error nobody foresaw, which is logged."""

    def __init__(self, line: Line, turn: Semaphore) -> None:
        self._search, self._turn = Search(line), turn
        self._stop, self._over = Event(), Event()
        self.total, self.done, self.failed = self._search.total, 0, False
        self._found: Found | None = None

    def begin(self) -> "Running":
        """Start it, beside whoever calls."""
        Thread(target=self._run, name="search", daemon=True).start()
        return self

    def _run(self) -> None:
        try:
            while not self._turn.acquire(timeout=LOOK_S):
                if self._stop.is_set():
                    return
            try:
                self._walk()
            finally:
                self._turn.release()
        except Exception:  # a thread of its own: nobody else would hear of it
            log.exception("a search failed")
            self.failed = True
        finally:
            self._over.set()

    def _walk(self) -> None:
        for done in self._search.run():
            self.done = done
            if self._stop.is_set():
                return
        self._found = found(self._search)

    def wait(self, seconds: float | None = None) -> Found | None:
        """What it found, waiting at most so long for it; None while it runs, and for one that was stopped or failed."""
        self._over.wait(seconds)
        return self._found

    def stop(self) -> None:
        """Let it end at its next step."""
        self._stop.set()

    @property
    def useless(self) -> bool:
        """Whether nothing will come of it."""
        return self.failed or (self._stop.is_set() and self._found is None)

    @property
    def share(self) -> float:
        """How much of it is done."""
        return self.done / self.total if self.total else 1.0


class Searches:
    """All searches of this process, the ones asked for last at the end."""

    def __init__(self) -> None:
        self._lock, self._turn = Lock(), Semaphore(AT_ONCE)
        self._known: OrderedDict[str, Running] = OrderedDict()

    def of(self, key: str, line: Line) -> Running:
        """The search of that key, begun where there is none. Raises: BadInput where the line's own numbers can't be used."""
        with self._lock:
            running = self._known.get(key)
            if running is None or running.useless:
                running = self._known[key] = Running(line, self._turn).begin()
            self._known.move_to_end(key)
            while len(self._known) > MOST:
                self._known.popitem(last=False)[1].stop()
            return running

    def stop(self, key: str) -> None:
        """Stop a search and forget it."""
        with self._lock:
            running = self._known.pop(key, None)
        if running:
            running.stop()

    def close(self) -> None:
        """Stop them all."""
        with self._lock:
            for running in self._known.values():
                running.stop()
            self._known.clear()
