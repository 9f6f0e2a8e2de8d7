"""What was worked out lately, kept by all that it rests on: pages are asked for far more often than anything in a job changes."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from hashlib import sha256
from threading import Lock
from typing import Generic, TypeVar

T = TypeVar("T")


def resting_on(*what: object) -> bytes:
    """A key of values that can't be one themselves, by all that they say of themselves: dataclasses, mappings, texts, numbers."""
    return sha256(repr(what).encode()).digest()


class Kept(Generic[T]):
    """So many results by their keys; the one not asked for longest goes first. Two threads may both work one out."""

    def __init__(self, most: int) -> None:
        self._most, self._found, self._lock = most, OrderedDict[Hashable, T](), Lock()

    def of(self, key: Hashable, make: Callable[[], T]) -> T:
        """The one kept for a key, or a new one. Args: key: everything the result depends on."""
        with self._lock:
            found = self._found.get(key)
            if found is not None:
                self._found.move_to_end(key)
                return found
        made = make()
        with self._lock:
            self._found[key] = made
            while len(self._found) > self._most:
                self._found.popitem(last=False)
        return made
