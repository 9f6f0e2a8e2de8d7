"""Functions over a grid of inputs: each result is the one its function gives alone, and like inputs are worked out once."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.basis import Basis, Places, by_field, part
from engine.editions import US_2021
from engine.errors import BadInput, EngineError
from engine.options.grid import Grid, Table, union
from engine.options.memo import Memo
from engine.options.sizes import Choices
from engine.worksheet import Worksheet


@dataclass(frozen=True, slots=True)
class Inputs:
    """Four that vary, two of which go together, and one that holds."""

    a: int = 0
    b: int = 0
    c: int = 0
    d: int = 0
    held: int = 5


@dataclass(frozen=True, slots=True)
class Shape:
    """A geometry."""

    wide: int
    high: int

    @property
    def area(self) -> int:
        """Reads both."""
        return self.wide * self.high

    def over(self, other: int) -> int:
        """Reads one."""
        return max(self.wide - other, 0)


def wide(i: Any, _: Worksheet) -> Mapping[str, int]:
    """Of a, and of b where a is large."""
    return {"wide": i.a + i.b if i.a > 1 else i.a}


def high(i: Any, _: Worksheet) -> Mapping[str, int]:
    """Of c; an error where that is 3."""
    if i.c == 3:
        raise BadInput("c", "Three is too high.")
    return {"high": i.c // 2}


class Standing(Basis[Inputs]):
    """Parts of every sort."""

    shape = Places(Shape, (wide, high))

    @part
    def load(self, sheet: Worksheet) -> tuple[int, ...]:
        """Read whole; often equal for different inputs."""
        return (self.inputs.d % 2, self.inputs.held)

    @by_field
    def room(self, sheet: Worksheet) -> Shape:
        """Read by its fields; an error for some inputs."""
        if self.inputs.b == 2:
            raise BadInput("b", "Two has no room.")
        return Shape(self.inputs.b, self.shape.high)

    @property
    def twice(self) -> int:
        """On the way to a part."""
        return 2 * self.load[0]


FUNCTIONS = (
    lambda b: b.inputs.held,
    lambda b: b.shape.area + b.inputs.d,
    lambda b: b.shape.over(b.inputs.b),
    lambda b: b.room.wide if b.inputs.a == 1 else -1,
    lambda b: b.room.area + b.twice,
    lambda b: sum(b.load) if b.inputs.c else b.inputs.a,
    lambda b: 12 // b.inputs.d if b.inputs.b != 1 else 0,
)
VALUES = st.integers(0, 3)
ROWS = st.lists(VALUES, min_size=1, max_size=4)
AXES = st.tuples(ROWS, st.lists(st.tuples(VALUES, VALUES), min_size=1, max_size=4), ROWS).map(
    lambda rows: (
        Choices(("a",), tuple((a,) for a in rows[0])),
        Choices(("b", "c"), tuple(rows[1])),
        Choices(("d",), tuple((d,) for d in rows[2])),
    )
)


def alone(axes: tuple[Choices, ...]) -> Iterator[Standing]:
    """Every pick by itself, in order."""
    for rows in product(*(axis.rows for axis in axes)):
        values = {
            name: v for axis, row in zip(axes, rows, strict=True) for name, v in zip(axis.names, row, strict=True)
        }
        yield Standing(replace(Inputs(), **values), US_2021, recording=False)


def outcome(of: Any, *given: Any) -> Any:
    """A result, or the sort of its error and what that says."""
    try:
        return of(*given)
    except (EngineError, ZeroDivisionError) as error:
        return type(error), str(error)


@pytest.mark.parametrize("function", FUNCTIONS)
@given(axes=AXES)
def test_results_over_a_grid_are_those_of_each_pick_alone(function: Any, axes: tuple[Choices, ...]) -> None:
    memo = Memo(Standing, Inputs(), axes, US_2021)
    found = memo.function(function).table()
    every = memo.grid.spread(found, memo.grid.axes)
    assert [outcome(known.get) for known in every] == [outcome(function, basis) for basis in alone(axes)]


@given(AXES)
def test_a_function_runs_once_for_like_inputs(axes: tuple[Choices, ...]) -> None:
    runs: Counter[tuple[int, ...]] = Counter()

    def counted(b: Any) -> int:
        values = (b.inputs.a, b.load[0]) if b.inputs.a else (b.inputs.a, b.inputs.c)
        runs[values] += 1
        return sum(values)

    Memo(Standing, Inputs(), axes, US_2021).function(counted).table()
    # one that ran before another branch was known may run again under the longer key only for values it had not met
    likely = {(i.a, i.c, i.d % 2) for i in (basis.inputs for basis in alone(axes))}
    assert sum(runs.values()) <= len(likely)


@given(AXES, st.data())
def test_some_picks_are_asked_without_the_others(axes: tuple[Choices, ...], data: st.DataObject) -> None:
    memo = Memo(Standing, Inputs(), axes, US_2021)
    every = list(alone(axes))
    picks = sorted(data.draw(st.sets(st.integers(0, len(every) - 1))))
    function = memo.function(lambda b: (b.inputs.a, b.load))
    assert function.of(picks) == [(every[n].inputs.a, every[n].load) for n in picks]


LENGTHS = st.lists(st.integers(1, 4), min_size=1, max_size=4)


@given(LENGTHS, st.data())
def test_tables_spread_narrow_and_merge_as_their_cells_say(lengths: list[int], data: st.DataObject) -> None:
    grid = Grid(lengths)
    tables = []
    for _ in range(data.draw(st.integers(1, 3))):
        axes = union([tuple(data.draw(st.sets(st.sampled_from(grid.axes))))])
        count = len(list(product(*(range(lengths[axis]) for axis in axes))))
        cells = data.draw(st.lists(st.integers(0, 2), min_size=count, max_size=count))
        tables.append(Table(axes, cells))
    picks = list(product(*(range(length) for length in lengths)))
    for table in tables:
        narrow = grid.narrow(table)
        assert set(narrow.axes) <= set(table.axes)
        assert grid.spread(table, grid.axes) == [table.cells[grid.at(table.axes, pick)] for pick in picks]
        assert grid.spread(narrow, grid.axes) == grid.spread(table, grid.axes)
        assert all(grid.at(table.axes, grid.pick(table.axes, cell)) == cell for cell in range(len(table.cells)))
    merged = grid.merge(max, tables)
    assert merged == [max(table.cells[grid.at(table.axes, pick)] for table in tables) for pick in picks]
