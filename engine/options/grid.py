"""Tables over the axes of a search: what turns on a few of them is kept once for all the others."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Generic, TypeVar

T = TypeVar("T")
Axes = tuple[int, ...]
Pick = tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Table(Generic[T]):
    """Values over some axes. A cell has a number, in which the last axis turns fastest."""

    axes: Axes
    cells: list[T]


def union(several: Iterable[Axes]) -> Axes:
    """Axes of any of several tables."""
    return tuple(sorted({axis for axes in several for axis in axes}))


class Grid:
    """The axes of a search. Args: lengths: how many values each has."""

    def __init__(self, lengths: Sequence[int]) -> None:
        self.lengths = tuple(lengths)
        self.axes: Axes = tuple(range(len(self.lengths)))
        self._places: dict[tuple[Axes, Axes], list[int]] = {}

    def at(self, axes: Axes, pick: Pick) -> int:
        """Number of the cell over some axes in which a pick lies."""
        number = 0
        for axis in axes:
            number = number * self.lengths[axis] + pick[axis]
        return number

    def pick(self, axes: Axes, number: int) -> Pick:
        """The first pick that lies in a cell over some axes."""
        found = [0] * len(self.lengths)
        for axis in reversed(axes):
            number, found[axis] = divmod(number, self.lengths[axis])
        return tuple(found)

    def places(self, few: Axes, many: Axes) -> list[int]:
        """For each cell over many axes, the number of the one over a few of them in which it lies."""
        if (few, many) not in self._places:
            found = [0]
            for axis in many:
                values = range(self.lengths[axis])
                if axis in few:
                    found = [at * len(values) + value for at in found for value in values]
                else:
                    found = [at for at in found for _ in values]
            self._places[few, many] = found
        return self._places[few, many]

    def spread(self, table: Table[T], axes: Axes) -> list[T]:
        """A table's values over more axes."""
        if table.axes == axes:
            return table.cells
        return [table.cells[place] for place in self.places(table.axes, axes)]

    def narrow(self, table: Table[T]) -> Table[T]:
        """The same over those axes only on which the values turn."""
        kept, cells = [], table.cells
        for axis in reversed(table.axes):  # the last axis goes away or to the front, until all are in order again
            length = self.lengths[axis]
            layers = [cells[value::length] for value in range(length)]
            if all(layer == layers[0] for layer in layers):
                cells = layers[0]
            else:
                cells = [cell for layer in layers for cell in layer]
                kept.append(axis)
        return Table(tuple(reversed(kept)), cells)

    def merge(self, of: Callable[[T, T], T], tables: Iterable[Table[T]]) -> list[T]:
        """For every pick its values in all tables made one; small tables first, so that few values are for every pick."""

        def both(one: Table[T], other: Table[T]) -> Table[T]:
            axes = union((one.axes, other.axes))
            return Table(axes, list(map(of, self.spread(one, axes), self.spread(other, axes))))

        return self.spread(reduce(both, sorted(tables, key=lambda table: len(table.cells))), self.axes)
