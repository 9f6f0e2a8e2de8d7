"""Values that can be bought or set out, and what of them a wall and a floor leave."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil, floor
from typing import Any, NamedTuple

QUARTER_IN = 0.25  # fasteners are set out in quarters of an inch; common practice


class Facts(NamedTuple):
    """What sizes are held against: the inputs that hold for every candidate, the joists' depth, the web spacing [in]."""

    inputs: Any
    depth_in: float
    web_in: float


class Choices(NamedTuple):
    """Inputs, and rows of values that go together."""

    names: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]


@dataclass(frozen=True, slots=True)
class Sizes:
    """Rows of values that go together.

    Args: webs: besides, every multiple of the web spacing between the least and the largest. within: (input, margin): the first
    value is at most that input less the margin. deepest: only so many of the largest that fit; 0 for all.
    """

    names: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]
    webs: bool = False
    within: tuple[str, float] | None = None
    deepest: int = 0

    def choices(self, facts: Facts) -> Choices:
        """What this wall leaves of them."""
        rows = self.rows
        if self.webs:
            least, most = min(rows)[0], max(rows)[0]
            rows += tuple(
                (n * facts.web_in,) for n in range(ceil(least / facts.web_in), floor(most / facts.web_in) + 1)
            )
        if self.within:
            name, margin = self.within
            rows = tuple(row for row in rows if row[0] <= getattr(facts.inputs, name) - margin)
        rows = tuple(sorted(set(rows))) if self.webs or self.deepest else rows
        return Choices(self.names, rows[-self.deepest :])


@dataclass(frozen=True, slots=True)
class Spread:
    """Fasteners in rows and columns, spread over the joist's depth.

    Args: fields: input -> what of the layout it takes: "rows", "columns", "count", "top", "apart" (of rows) or "height" (of the
    steel that holds them). counts: (rows, columns). edge_in: least wood above and below. most_in: between the outer rows.
    beside_in: steel past them.
    """

    fields: Mapping[str, str]
    counts: tuple[tuple[int, int], ...]
    edge_in: float
    most_in: float
    beside_in: float

    def choices(self, facts: Facts) -> Choices:
        """Layouts that this depth takes, the rows in its middle."""
        found = [self._layout(facts.depth_in, rows, columns) for rows, columns in self.counts]
        rows = tuple(tuple(layout[what] for what in self.fields.values()) for layout in found if layout)
        return Choices(tuple(self.fields), rows)

    def _layout(self, depth: float, rows: int, columns: int) -> dict[str, Any] | None:
        over = min(depth - 2 * self.edge_in, self.most_in)
        apart = floor(over / (rows - 1) / QUARTER_IN) * QUARTER_IN
        if apart <= 0:
            return None
        height = (rows - 1) * apart
        return {
            "rows": rows, "columns": columns, "count": rows * columns, "apart": apart, "top": (depth - height) / 2,
            "height": height + 2 * self.beside_in,
        }  # fmt: skip


Axis = Sizes | Spread


def one(name: str, *values: Any, **how: Any) -> Sizes:
    """Values of a single input."""
    return Sizes((name,), tuple((value,) for value in values), **how)


def together(names: Iterable[str], *rows: tuple[Any, ...], **how: Any) -> Sizes:
    """Values of several inputs that go together."""
    return Sizes(tuple(names), rows, **how)
