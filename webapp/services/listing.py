"""Lists in parts: what a reader asked for, and one part of the answer."""

from dataclasses import dataclass
from typing import Any, Generic, TypeVar

Row = TypeVar("Row")
MOST = 200
USUAL = 100


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a list is asked for. Args: q: words to find. verdict: "" for all. sort: order. page: from 1. size: rows a page."""

    q: str = ""
    verdict: str = ""
    sort: str = ""
    page: int = 1
    size: int = USUAL

    @property
    def offset(self) -> int:
        """Rows before this page."""
        return (self.page - 1) * self.size


@dataclass(frozen=True, slots=True)
class Part(Generic[Row]):
    """One page of a list. Args: counts: of all that was found, by verdict."""

    rows: tuple[Row, ...]
    total: int
    wanted: Wanted
    counts: dict[str, int]

    @property
    def first(self) -> int:
        """Number of the first row shown."""
        return self.wanted.offset + 1

    @property
    def last(self) -> int:
        """Number of the last row shown."""
        return self.wanted.offset + len(self.rows)

    @property
    def more(self) -> bool:
        """Whether rows follow."""
        return self.last < self.total


def holds(column: Any, q: str) -> Any:
    """Whether a column holds what was typed, whatever the case."""
    return column.icontains(q, autoescape=True)
