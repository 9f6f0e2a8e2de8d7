"""What is freed goes back to the system, and a C library without these means is left alone."""

import ctypes
import subprocess
import sys
from pathlib import Path

import anyio
import pytest
from anyio.from_thread import start_blocking_portal

from webapp import heap

glibc = pytest.mark.skipif(not hasattr(ctypes.CDLL(None), "malloc_trim"), reason="about glibc")

# Every second text is dropped, then all but the last: what lies between kept ones can only be given back page by page.
HOLES = """
from pathlib import Path
from webapp import heap
def held():
    lines = Path("/proc/self/smaps_rollup").read_text().splitlines()
    return next(int(line.split()[1]) for line in lines if line.startswith("Anonymous:"))
{prepare}
empty = held()
texts = [b"x" * {size} for _ in range({many})]
full = held()
last = texts[-1]
del texts
{after}
print(full - empty, held() - empty)
"""


def holes(prepare: str, after: str, size: int, many: int) -> tuple[int, int]:
    """kB that many texts take in a process of its own, and what is left when all but the last one are dropped."""
    code = HOLES.format(prepare=prepare, after=after, size=size, many=many)
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    full, left = ran.stdout.split()
    return int(full), int(left)


@glibc
@pytest.mark.skipif(not Path("/proc/self/smaps_rollup").exists(), reason="reads Linux's own figures")
def test_what_was_freed_between_things_that_stay_is_given_back_when_trimmed() -> None:
    full, left = holes("heap.bounded()", "heap.trim()", size=50_000, many=400)
    assert full > 15_000
    assert left < full / 10
    _, untrimmed = holes("heap.bounded()", "", size=50_000, many=400)
    assert untrimmed > full / 2, "without trimming it stays, or this test tests nothing"


@glibc
@pytest.mark.skipif(not Path("/proc/self/smaps_rollup").exists(), reason="reads Linux's own figures")
def test_a_large_text_is_given_back_at_once_after_a_larger_one_was_freed() -> None:
    larger = "bytes(8_000_000)"
    full, left = holes(f"heap.bounded()\n{larger}", "", size=1_500_000, many=20)
    assert full > 25_000
    assert left < full / 10
    _, raised = holes(larger, "", size=1_500_000, many=20)
    assert raised > full / 2, "the bound is no longer raised by itself, and need not be fixed"


@glibc
def test_this_library_knows_what_is_set() -> None:
    ran = subprocess.run([sys.executable, "-c", "from webapp import heap; print(heap.bounded())"], capture_output=True)
    assert ran.stdout.split() == [b"True"]


@pytest.mark.parametrize("error", [OSError("no such library"), AttributeError("mallopt")])
def test_another_library_is_left_alone(monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    class Other:
        def __getattr__(self, name: str) -> object:
            raise error

    monkeypatch.setattr(ctypes, "CDLL", lambda name: Other())
    assert heap.bounded() is False
    assert heap.trim() is False


def test_trimming_goes_on_until_it_is_cancelled(monkeypatch: pytest.MonkeyPatch) -> None:
    trimmed: list[int] = []
    monkeypatch.setattr(heap, "trim", lambda: trimmed.append(1))

    async def a_while() -> None:
        async with anyio.create_task_group() as beside:
            beside.start_soon(heap.trim_now_and_then, 0.001)
            while len(trimmed) < 3:
                await anyio.sleep(0.001)
            beside.cancel_scope.cancel()

    with start_blocking_portal() as portal:
        portal.call(a_while)
    assert len(trimmed) >= 3
