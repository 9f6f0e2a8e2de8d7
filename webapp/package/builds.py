"""Packages under way and made: each in a short-lived process of its own, two at a time, the rest in a queue that says so.

What is made is kept in a folder by what its bytes depend on; the ones used longest ago go when there are too many. Another process
of the server finds them there too, and by a mark in the same folder what is under way.
"""

import logging
import os
import signal
import subprocess
import sys
import time
from collections import OrderedDict
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryFile
from threading import Event, Lock, Semaphore, Thread, Timer
from typing import IO

from webapp.folders import ROOT
from webapp.package import marks
from webapp.package.marks import Elsewhere, Mark
from webapp.package.order import Order

AT_ONCE = 2
REMEMBERED = 24  # builds whose state is known
QUEUED = 12  # waiting at most; more would only wait longer than anybody does
KEPT, KEPT_BYTES = 60, 600_000_000
LONGEST_S = 600.0
LOOK_S = 0.05
LEFT_S = 3600.0  # what a process that was killed left behind goes after this
log = logging.getLogger("wallseat")
Load = Callable[[], Order]


class Busy(Exception):
    """So many wait already that another would only wait."""


class Building:
    """One package on its way. state: "waiting", "building", "ready", "failed" or "stopped". done, total: steps."""

    def __init__(self, load: Load, target: Path, turn: Semaphore) -> None:
        self._load, self.target, self._turn = load, target, turn
        self.state, self.done, self.total = "waiting", 0, 0
        self._stop, self._over = Event(), Event()
        self.process: subprocess.Popen[bytes] | None = None
        self._mark = Mark(target, lambda: (self.state, self.done, self.total), self.stop)

    def begin(self) -> "Building":
        """Start it, beside whoever calls."""
        self._mark.begin()
        Thread(target=self._run, name="package", daemon=True).start()
        return self

    def _run(self) -> None:
        try:
            while not self._turn.acquire(timeout=LOOK_S):
                if self._stop.is_set():
                    return
            try:
                self.state = "building"
                self._make(self._load())
            finally:
                self._turn.release()
        except Exception:  # a thread of its own: nobody else would hear of it
            log.exception("a package failed")
        finally:
            if self.state != "ready":
                self.state = "stopped" if self._stop.is_set() else "failed"
            self._mark.end(failed=self.state == "failed")
            self._over.set()

    def _make(self, order: Order) -> None:
        unfinished = self.target.with_suffix(f".{os.getpid()}.part")
        with TemporaryFile() as errors:
            code = self._in_process(order, unfinished, errors)
            if code == 0 and not self._stop.is_set():
                unfinished.replace(self.target)
                self.state = "ready"
                return
            unfinished.unlink(missing_ok=True)
            if not self._stop.is_set():
                errors.seek(0)
                log.error("a package failed with %s: %s", code, errors.read(4000).decode(errors="replace"))

    def _in_process(self, order: Order, target: Path, errors: IO[bytes]) -> int:
        """Run the typesetter's process to its end. Returns: its exit code."""
        command = [sys.executable, "-m", "webapp.package", str(target)]
        with subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=errors, cwd=ROOT, start_new_session=True
        ) as process:
            self.process = process
            too_long = Timer(LONGEST_S, self._kill)
            too_long.start()
            try:
                if self._stop.is_set():
                    self._kill()
                self._talk(process, order.text().encode())
            finally:
                too_long.cancel()
                self._kill()  # whatever of it is left
        return process.returncode

    def _talk(self, process: "subprocess.Popen[bytes]", order: bytes) -> None:
        assert process.stdin is not None
        assert process.stdout is not None
        with suppress(BrokenPipeError):  # it ended before it had heard all
            process.stdin.write(order)
            process.stdin.close()
        for line in process.stdout:
            done, _, total = line.partition(b" ")
            if done.strip().isdigit() and total.strip().isdigit():
                self.done, self.total = int(done), int(total)
        process.wait()

    def _kill(self) -> None:
        """End the process and those it began: they are a session of their own."""
        if self.process is not None:
            with suppress(ProcessLookupError, PermissionError):
                os.killpg(self.process.pid, signal.SIGKILL)

    def stop(self) -> None:
        """End it now; nothing of it is kept."""
        self._stop.set()
        if self.process is not None and self.process.poll() is None:
            self._kill()

    def wait(self, seconds: float) -> str:
        """Its state, waiting at most so long for its end."""
        self._over.wait(seconds)
        return self.state

    @property
    def share(self) -> float:
        """How much of it is done."""
        return self.done / self.total if self.total else 0.0


class Builds:
    """All packages of this process. Args: folder: where the finished ones are kept."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._lock, self._turn = Lock(), Semaphore(AT_ONCE)
        self._known: OrderedDict[str, Building] = OrderedDict()

    def ready(self, key: str) -> Path | None:
        """The finished file of that key; None where there is none."""
        path = self._target(key)
        with suppress(OSError):
            os.utime(path)  # used just now: it is kept longest
            return path
        return None

    def _target(self, key: str) -> Path:
        return self.folder / f"{key}.pdf"

    def known(self, key: str) -> Building | Elsewhere | None:
        """What is under way or was tried under that key, here or in another process."""
        with self._lock:
            here = self._known.get(key)
        if here is not None and here.state in marks.UNDER_WAY:
            return here
        found = marks.read(self._target(key))
        there = Elsewhere(self._target(key), found) if found else None
        return there if there is not None and (here is None or there.state in marks.UNDER_WAY) else here

    def begin(self, key: str, load: Load) -> Building | Elsewhere:
        """The build of that key, begun where none is under way. Raises: Busy."""
        known = self.known(key)
        if isinstance(known, Elsewhere) and known.state in marks.UNDER_WAY:
            return known
        with self._lock:
            building = self._known.get(key)
            if building is None or self._useless(building, key):
                if sum(one.state == "waiting" for one in self._known.values()) >= QUEUED:
                    raise Busy
                self._tidy()
                building = self._known[key] = Building(load, self._target(key), self._turn).begin()
            self._known.move_to_end(key)
            return building

    def _useless(self, building: Building, key: str) -> bool:
        """Whether nothing will come of it, or what came of it is gone."""
        return building.state in ("failed", "stopped") or (building.state == "ready" and self.ready(key) is None)

    def before(self, building: Building | Elsewhere) -> int:
        """How many wait before it in this process."""
        with self._lock:
            waiting = [one for one in self._known.values() if one.state == "waiting"]
        return waiting.index(building) if building in waiting else 0

    def stop(self, key: str) -> None:
        """Stop a build and forget it."""
        with self._lock:
            building = self._known.pop(key, None)
        if building:
            building.stop()
        marks.take_away(self._target(key))

    def _tidy(self) -> None:
        """Forget what ended long ago; drop the files used longest ago, and what was left unfinished."""
        over = [key for key, one in self._known.items() if one.state not in ("waiting", "building")]
        for key in over[: max(0, len(self._known) - REMEMBERED)]:
            del self._known[key]
        self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        files = sorted(self.folder.glob("*.pdf"), key=lambda path: path.stat().st_mtime, reverse=True)
        room = KEPT_BYTES
        for number, path in enumerate(files):
            room -= path.stat().st_size
            if number >= KEPT or room < 0:
                path.unlink(missing_ok=True)
        for path in (*self.folder.glob("*.part"), *self.folder.glob(f"*{marks.ENDING}")):
            with suppress(FileNotFoundError):
                if time.time() - path.stat().st_mtime > LEFT_S:
                    path.unlink()

    def close(self) -> None:
        """Stop them all."""
        with self._lock:
            for building in self._known.values():
                building.stop()
            self._known.clear()
