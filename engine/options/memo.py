"""Pure functions over a grid of inputs, each asked once for all inputs that are alike to it.

A function of a check runs with views of what it is given, which note every input, field and part that it reads. What it read turns
on some axes of the grid; its result is worked out once for each set of values found there, and holds wherever they are found again,
since the same values take the same way through the same function. So results are exact, and no dependencies are listed by hand.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import fields
from functools import partial
from types import MethodType
from typing import Any, NamedTuple

from engine.basis import Basis, Part, Piece, Places
from engine.editions import Edition
from engine.options.grid import Axes, Grid, Pick, Table, union
from engine.options.sizes import Choices
from engine.options.views import TYPE, Fields, Known, View
from engine.worksheet import Step, Worksheet

Work = Callable[["Traced"], Any]
Reader = Callable[[str, str], Any]
Key = tuple[int, ...]
Owned = dict[str, dict[str, Any]]
SILENT = Worksheet(recording=False)
INPUTS, WHOLE = "inputs", ""  # whose fields are read: the inputs'; the basis' own, parts read whole; else a part's


class Traced:
    """Stands for a basis while a function runs. Args: known: by owner, what the function is known to read. read: takes note."""

    def __init__(self, memo: "Memo", known: Owned, read: Reader) -> None:
        self._memo, self._known, self._read = memo, known, read
        self.edition, self.sheet = memo.edition, SILENT
        self.inputs = View(memo.kind, known[INPUTS], partial(read, INPUTS))

    def working(self, *_: str) -> tuple[Step, ...]:
        """Nothing is recorded in a search."""
        return ()

    def whole(self, name: str) -> Any:
        """A part, or a piece of one. Raises: what it raises."""
        known = self._known[WHOLE].get(name)
        return (known or self._read(WHOLE, name)).get()

    def __getattr__(self, name: str) -> Any:
        found = getattr(self._memo.basis, name)
        if isinstance(found, Part):
            value = self._by_field(name) if found.by_field else self.whole(name)
        elif isinstance(found, property):
            value = found.__get__(self)
        else:
            return MethodType(found, self)
        self.__dict__[name] = value
        return value

    def _by_field(self, name: str) -> View:
        part = self._memo.fields(name)
        for piece in part.broken:
            self.whole(piece)
        return View(part.of, self._known[name], partial(self._read, name))


class Column(NamedTuple):
    """Fields of one owner that turn on the same axes: in every cell their values by name, and a number for each set of values."""

    owner: str
    axes: Axes
    values: list[dict[str, Any]]
    numbers: list[int]


class Noted:
    """What a run reads beyond the columns known before. Args: axes: of the cells in which it may run. cell: where it runs."""

    def __init__(self, memo: "Memo", axes: Axes) -> None:
        self._memo, self._axes, self.cell = memo, axes, 0
        self.tables: dict[tuple[str, str], Table[Any]] = {}

    @property
    def pick(self) -> Pick:
        """One that lies there."""
        return self._memo.grid.pick(self._axes, self.cell)

    def read(self, owner: str, name: str) -> Any:
        """A value, of which note is taken."""
        table = self.tables[owner, name] = self._memo.read(owner, name)
        return table.cells[self._memo.grid.at(table.axes, self.pick)]

    def columns(self) -> list[Column]:
        """By owner and axes."""
        found: dict[tuple[str, Axes], dict[str, list[Any]]] = defaultdict(dict)
        for (owner, name), table in self.tables.items():
            found[owner, table.axes][name] = table.cells
        return [_column(owner, axes, cells) for (owner, axes), cells in found.items()]


def _column(owner: str, axes: Axes, cells: Mapping[str, list[Any]]) -> Column:
    rows, numbers = list(zip(*cells.values(), strict=True)), dict[tuple[Any, ...], int]()
    values = [dict(zip(cells, row, strict=True)) for row in rows]
    return Column(owner, axes, values, [numbers.setdefault(row, len(numbers)) for row in rows])


class Function:
    """One pure function of a basis with its results.

    A result is kept under the numbers of all columns that had been read by then. One that came before a further column was read
    holds for every key that begins with its own, since it was reached by reading no more.
    """

    def __init__(self, memo: "Memo", work: Work, *, keyed: bool = False) -> None:
        self._memo, self._work = memo, work
        self._equal: dict[Any, Known] | None = {} if keyed else None
        self._columns: list[Column] = []
        self._known: dict[Key, Known] = {}
        self._lengths: list[int] = []  # of keys
        self._table: Table[Known] | None = None

    def table(self) -> Table[Known]:
        """Every result, over the axes on which it turns."""
        if self._table is None:
            axes, found = self._results(None)
            self._table = self._memo.grid.narrow(Table(axes, list(found.values())))
        return self._table

    def of(self, picks: Sequence[int]) -> list[Any]:
        """Results of some picks, by their numbers. Raises: the first one's error."""
        axes, found = self._results(picks)
        grid = self._memo.grid
        places = grid.places(axes, grid.axes)
        return [found[places[number]].get() for number in picks]

    def _results(self, picks: Iterable[int] | None) -> tuple[Axes, dict[int, Known]]:
        """By cell, of some picks or all; begun again where a run read more than those before, by more axes then."""
        grid, columns = self._memo.grid, self._columns
        axes = union(column.axes for column in columns)
        spread = [grid.places(column.axes, axes) for column in columns]
        numbers = [[column.numbers[at] for at in places] for column, places in zip(columns, spread, strict=True)]
        keys = list(zip(*numbers, strict=True)) if columns else [()]
        cells = (
            range(len(keys)) if picks is None else dict.fromkeys(map(grid.places(axes, grid.axes).__getitem__, picks))
        )
        found, new = {}, Noted(self._memo, axes)
        for cell in cells:
            key = keys[cell]
            known = self._kept(key)
            if known is None:
                new.cell = cell
                known = self._run([places[cell] for places in spread], new)
                if new.tables:
                    self._columns = [*columns, *new.columns()]
                    key = tuple([column.numbers[grid.at(column.axes, new.pick)] for column in self._columns])
                self._known[key] = known
                if len(key) not in self._lengths:
                    self._lengths.append(len(key))
                if new.tables:
                    return self._results(picks)
            found[cell] = known
        return axes, found

    def _kept(self, key: Key) -> Known | None:
        for length in self._lengths:
            known = self._known.get(key[:length])
            if known is not None:
                return known
        return None

    def _run(self, places: Sequence[int], new: Noted) -> Known:
        """For one cell. Args: places: its number in each column. new: takes note of what else is read."""
        known: Owned = defaultdict(dict)
        known[INPUTS] = self._memo.constant.copy()
        for column, place in zip(self._columns, places, strict=True):
            known[column.owner].update(column.values[place])
        try:
            return self._one(Known(self._work(Traced(self._memo, known, new.read))))
        except Exception as error:  # raised again wherever this is read, as it would be in a single check
            return Known(None, error.with_traceback(None))

    def _one(self, known: Known) -> Known:
        """One object for all equal results of a part, which serves as a key itself."""
        if self._equal is None:
            return known
        try:
            return self._equal.setdefault(known.value, known)
        except TypeError:  # lines hold facts in a mapping, which has no hash
            return known


class Memo:
    """What all candidates share: inputs that hold, the edition, and the parts of the basis.

    Args: basis: of the kind. base: inputs that hold but for the varied ones. axes: what is varied.
    """

    def __init__(self, basis: type[Basis[Any]], base: Any, axes: Sequence[Choices], edition: Edition) -> None:
        self.basis, self.kind, self.edition = basis, type(base), edition
        self.grid = Grid([len(axis.rows) for axis in axes])
        self._inputs = {
            name: self.grid.narrow(Table((number,), list(column)))
            for number, axis in enumerate(axes)
            for name, column in zip(axis.names, zip(*axis.rows, strict=True), strict=True)
        }
        self.constant = {f.name: getattr(base, f.name) for f in fields(base) if f.name not in self._inputs}
        self._fields: dict[str, Fields] = {}
        self._parts: dict[str, Function] = {}
        self._pieces: dict[str, list[str]] = {}
        self.places: list[str] = []  # pieces of geometries
        for name in dir(basis):
            found = getattr(basis, name)
            if isinstance(found, Part):
                works = _works(name, found)
                self._parts |= {own: Function(self, work, keyed=not found.by_field) for own, work in works.items()}
                self._pieces[name] = list(works)
                self.places += works if isinstance(found, Places) else ()

    def function(self, work: Work) -> Function:
        """A function of the basis."""
        return Function(self, work)

    def fields(self, name: str) -> Fields:
        """Of a part that is read by them."""
        if name not in self._fields:
            pieces = {piece: self._parts[piece].table() for piece in self._pieces[name]}
            self._fields[name] = Fields(self.grid, getattr(getattr(self.basis, name), "of", None), pieces)
        return self._fields[name]

    def read(self, owner: str, name: str) -> Table[Any]:
        """An input, a part whole or a field of a part."""
        if owner == INPUTS:
            return self._inputs[name]
        return self._parts[name].table() if owner == WHOLE else self.fields(owner).table(name)


def _works(name: str, part: Part[Any]) -> dict[str, Work]:
    """What gives a part: its pieces, each a mapping; itself as one; or itself whole."""
    if isinstance(part, Places):
        return {f"{name}.{number}": partial(_piece, piece) for number, piece in enumerate(part.pieces)}
    return {name: partial(_by_field if part.by_field else _whole, part.work)}


def _piece(piece: Piece, basis: Traced) -> Mapping[str, Any]:
    return piece(basis.inputs, basis.sheet)


def _by_field(work: Callable[[Any, Worksheet], Any], basis: Traced) -> Mapping[str, Any]:
    part = work(basis, basis.sheet)
    return {TYPE: type(part), **{field.name: getattr(part, field.name) for field in fields(part)}}


def _whole(work: Callable[[Any, Worksheet], Any], basis: Traced) -> Any:
    return work(basis, basis.sheet)
