"""What other processes of the server see of a package under way: a small file beside it, renewed as long as somebody makes it.

Taking the file away asks whoever makes the package to stop.
"""

import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from threading import Event, Lock, Thread

BEAT_S = 0.5
STALE_S = 15.0  # not renewed for so long, its maker is gone
LOOK_S = 0.05
ENDING = ".making"
UNDER_WAY = ("waiting", "building")
State = tuple[str, int, int]


class Mark:
    """The mark of one package that this process makes. Args: state: how it stands now. stop: called when somebody asks for it."""

    def __init__(self, target: Path, state: Callable[[], State], stop: Callable[[], None]) -> None:
        self._path, self._state, self._stop = target.with_suffix(ENDING), state, stop
        self._over, self._lock = Event(), Lock()

    def begin(self) -> None:
        """Set it, and renew it until the end."""
        self._write()
        Thread(target=self._beat, name="package-mark", daemon=True).start()

    def _beat(self) -> None:
        while not self._over.wait(BEAT_S):
            if not self._path.exists():
                self._stop()
                return
            self._write()

    def _write(self) -> None:
        with self._lock, suppress(OSError):  # it is made whether others see it or not
            if not self._over.is_set():
                self._path.write_text(" ".join(map(str, self._state())), encoding="ascii")

    def end(self, failed: bool) -> None:
        """Take it away; where the package failed it stays and says so."""
        with self._lock, suppress(OSError):
            self._over.set()
            if failed:
                self._path.write_text("failed 0 0", encoding="ascii")
            else:
                self._path.unlink(missing_ok=True)


class Elsewhere:
    """A package that another process makes, or could not make."""

    def __init__(self, target: Path, state: State) -> None:
        self._target = target
        self.state, self.done, self.total = state

    def wait(self, seconds: float) -> str:
        """Its state, waiting at most so long for its end."""
        until = time.monotonic() + seconds
        while self.state in UNDER_WAY and time.monotonic() < until:
            time.sleep(LOOK_S)
            gone = "ready" if self._target.exists() else "stopped"
            self.state, self.done, self.total = read(self._target) or (gone, self.done, self.total)
        return self.state

    @property
    def share(self) -> float:
        """How much of it is done."""
        return self.done / self.total if self.total else 0.0


def read(target: Path) -> State | None:
    """How the mark of a package stands; None without one, and where whoever set it is gone."""
    path = target.with_suffix(ENDING)
    try:
        state, done, total = path.read_text(encoding="ascii").split()
        age_s = time.time() - path.stat().st_mtime
    except (OSError, ValueError):
        return None
    return None if state in UNDER_WAY and age_s > STALE_S else (state, int(done), int(total))


def take_away(target: Path) -> None:
    """Ask whoever makes it to stop."""
    target.with_suffix(ENDING).unlink(missing_ok=True)
