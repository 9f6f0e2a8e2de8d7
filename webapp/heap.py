"""What the C library does with memory that is freed: shared, given back. With another library than glibc nothing of it happens."""

import ctypes
from contextlib import suppress

import anyio

M_TRIM_THRESHOLD, M_MMAP_THRESHOLD, M_ARENA_MAX = -1, -3, -8  # malloc.h, mallopt(3)
ARENAS = 2
# Fetching pages anew costs four times what filling half a megabyte of text does, so that much room stays at hand between requests.
MAPPED_BYTES, TOP_BYTES = 1 << 20, 4 << 20
TRIM_S = 60.0


def bounded() -> bool:
    """Set how the heap of this process grows. Returns: whether the library knows all of it.

    Threads share two heaps: with one each, pages of half a megabyte leave holes that are never given back. Texts of a megabyte are
    mapped for themselves and given back at once: left alone glibc raises that bound, and the free room it keeps at a heap's end,
    with the largest text it ever freed.
    """
    settings = ((M_ARENA_MAX, ARENAS), (M_MMAP_THRESHOLD, MAPPED_BYTES), (M_TRIM_THRESHOLD, TOP_BYTES))
    with suppress(OSError, AttributeError):
        mallopt = ctypes.CDLL(None).mallopt
        return all(mallopt(name, value) for name, value in settings)
    return False


def trim() -> bool:
    """Give whole free pages back to the system, which takes a millisecond. Returns: whether there were any."""
    with suppress(OSError, AttributeError):
        return bool(ctypes.CDLL(None).malloc_trim(0))
    return False


async def trim_now_and_then(every_s: float = TRIM_S) -> None:
    """Trim each minute until cancelled: what a large page or a submission needed for a moment does not stay."""
    while True:
        await anyio.sleep(every_s)
        trim()
