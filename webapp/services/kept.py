"""What was worked out lately, kept by all that it rests on: pages are asked for far more often than anything in a job changes."""

from collections import OrderedDict
from collections.abc import Callable, Hashable, Mapping
from hashlib import sha256
from math import inf
from sys import getsizeof
from threading import Lock
from typing import Generic, TypeVar

T = TypeVar("T")
PIECES = 6_000_000  # bytes that pieces of one kind of page may take in a process


def resting_on(*what: object) -> bytes:
    """A key of values that can't be one themselves, by all that they say of themselves: dataclasses, mappings, texts, numbers."""
    return sha256(repr(what).encode()).digest()


def bytes_of(pieces: Mapping[str, str]) -> int:
    """The room that several pieces kept as one take."""
    return sum(map(getsizeof, pieces.values()))


class Kept(Generic[T]):
    """So many results by their keys; the one not asked for longest goes first. Two threads may both work one out.

    Args: most: of them. most_bytes: that all of them may take, as `size` tells it of each.
    """

    def __init__(self, most: int, most_bytes: float = inf, size: Callable[[T], int] = getsizeof) -> None:
        self._most, self._most_bytes, self._size = most, most_bytes, size
        self._found, self._bytes, self._lock = OrderedDict[Hashable, T](), 0, Lock()

    def of(self, key: Hashable, make: Callable[[], T]) -> T:
        """The one kept for a key, or a new one. Args: key: everything the result depends on."""
        with self._lock:
            found = self._found.get(key)
            if found is not None:
                self._found.move_to_end(key)
                return found
        made = make()
        size = self._size(made)
        with self._lock:
            if key in self._found:
                return self._found[key]
            if size > self._most_bytes:
                return made
            self._found[key] = made
            self._bytes += size
            while len(self._found) > self._most or self._bytes > self._most_bytes:
                self._bytes -= self._size(self._found.popitem(last=False)[1])
        return made
