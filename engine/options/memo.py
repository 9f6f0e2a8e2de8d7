"""Pure functions that remember: each is asked again only where something it read has a new value.

A search varies a few inputs. A function of a check runs with views of what it is given, which note every varied input and every
part it reads. Its result is kept under the values of all that was ever read in it: other inputs with the same values there would
take the same way through the same function. So results are exact, and no list of dependencies is kept by hand.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, fields
from functools import partial
from operator import attrgetter, itemgetter
from types import FunctionType, MethodType
from typing import Any, NoReturn

from engine.basis import Basis, Part
from engine.editions import Edition
from engine.errors import EngineError
from engine.worksheet import Step, Worksheet

Row = tuple[Any, ...]
Work = Callable[[Any], Any]
Key = Callable[[Row], Any]


@dataclass(frozen=True, slots=True, eq=False)
class Known:
    """A result, or the error in its place. A part's equal results are one object, which serves as a key itself."""

    value: Any
    error: EngineError | None = None

    def get(self) -> Any:
        """The result. Raises: the error."""
        if self.error is not None:
            raise self.error
        return self.value


@dataclass(slots=True)
class Read:
    """What a function was ever seen to read: varied inputs with their places in a row, parts whole, parts by their fields."""

    inputs: dict[str, int] = field(default_factory=dict)
    parts: dict[str, None] = field(default_factory=dict)
    fields: dict[str, dict[str, None]] = field(default_factory=dict)
    grown: bool = True

    @property
    def anything(self) -> bool:
        """Whether the result can differ between rows."""
        return bool(self.inputs or self.parts or self.fields)


class View:
    """Stands for a frozen dataclass. `known` fields are at hand; another one is read through `read`, which takes note of it.

    Properties and methods run on the view itself.
    """

    def __init__(self, of: type, known: dict[str, Any], read: Callable[[str], Any]) -> None:
        known[".of"], known[".read"] = of, read
        self.__dict__ = known

    def __getattr__(self, name: str) -> Any:
        found = getattr(self.__dict__[".of"], name, None)
        if isinstance(found, FunctionType):
            return MethodType(found, self)
        value = found.__get__(self) if isinstance(found, property) else self.__dict__[".read"](name)
        self.__dict__[name] = value
        return value

    def _whole(self, *_: Any) -> NoReturn:
        raise TypeError("a view is read by its fields")

    __eq__ = __hash__ = __bool__ = _whole


class Traced:
    """Stands for a basis while a function runs, and notes in `noted` what it asks for beyond what is noted already."""

    def __init__(self, memo: "Memo", row: Row, noted: Read) -> None:
        self._memo, self._row, self._noted = memo, row, noted
        self.edition, self.sheet = memo.edition, SILENT
        known = memo.constant.copy()
        for name, place in noted.inputs.items():
            known[name] = row[place]
        self.inputs = View(memo.kind, known, self._input)

    def working(self, *_: str) -> tuple[Step, ...]:
        """Nothing is recorded in a search."""
        return ()

    def _input(self, name: str) -> Any:
        place = self._noted.inputs[name] = self._memo.places[name]
        self._noted.grown = True
        return self._row[place]

    def __getattr__(self, name: str) -> Any:
        found = getattr(self._memo.basis, name)
        if isinstance(found, Part):
            value = self._part(name, found)
        elif isinstance(found, property):
            value = found.__get__(self)
        else:
            return MethodType(found, self)
        self.__dict__[name] = value
        return value

    def _part(self, name: str, found: Part[Any]) -> Any:
        known, noted = self._memo.part(name), self._noted
        if not self._memo.parts[name].varies:
            return known.get()
        if not found.by_field:
            if name not in noted.parts:
                noted.parts[name], noted.grown = None, True
            return known.get()
        if name not in noted.fields:
            noted.fields[name], noted.grown = {}, True
        names, value = noted.fields[name], known.get()

        def read(one: str) -> Any:
            names[one], noted.grown = None, True
            return getattr(value, one)

        return View(type(value), {one: getattr(value, one) for one in names}, read)


class Remembering:
    """One pure function of a basis with its results.

    A layer is a key over all that had been read when it was begun, with the results kept under it. Older layers hold on: each
    result was reached by reading no more than its layer's key.
    """

    __slots__ = ("_equal", "_layers", "_memo", "_read", "_work", "runs")

    def __init__(self, memo: "Memo", work: Work, *, keyed: bool = False) -> None:
        self._memo, self._work = memo, work
        self._read = Read()
        self._layers: list[tuple[Key, dict[Any, Known]]] = []
        self._equal: dict[Any, Known] | None = {} if keyed else None
        self.runs = 0

    @property
    def varies(self) -> bool:
        """Whether the result can differ between rows; settled by the first run."""
        return self._read.anything

    def find(self, row: Row) -> Known:
        """The result for a row of varied inputs."""
        for key, results in self._layers:
            known = results.get(key(row))
            if known is not None:
                return known
        return self._run(row)

    def _run(self, row: Row) -> Known:
        self.runs += 1
        try:
            known = self._one(Known(self._work(Traced(self._memo, row, self._read))))
        except EngineError as error:
            known = self._one(Known(None, error))
        if self._read.grown:
            self._layers.insert(0, (self._memo.key(self._read), {}))
            self._read.grown = False
        if len(self._read.inputs) < len(row):  # what reads all that varies is never asked the same twice
            key, results = self._layers[0]
            results[key(row)] = known
        return known

    def _one(self, known: Known) -> Known:
        """One object for all equal results of a part."""
        if self._equal is None:
            return known
        error = known.error
        alike = known.value if error is None else (type(error), getattr(error, "field", ""), str(error))
        try:
            return self._equal.setdefault(alike, known)
        except TypeError:  # lines hold facts in a mapping, which has no hash
            return known


SILENT = Worksheet(recording=False)


def _on_sheet(found: Part[Any], basis: Traced) -> Any:
    return found.work(basis, basis.sheet)


class Memo:
    """What all rows share: inputs that hold, the edition, and the parts of the basis.

    Args: basis: of the kind. base: inputs that hold but for the varied ones. varied: their names in the order of a row.
    """

    def __init__(self, basis: type[Basis[Any]], base: Any, varied: Sequence[str], edition: Edition) -> None:
        self.basis, self.kind, self.edition = basis, type(base), edition
        self.places = {name: place for place, name in enumerate(varied)}
        self.constant = {f.name: getattr(base, f.name) for f in fields(base) if f.name not in self.places}
        self.parts = {
            name: Remembering(self, partial(_on_sheet, found), keyed=not found.by_field)
            for name in dir(basis)
            if isinstance(found := getattr(basis, name), Part)
        }
        self._row: Row = ()
        self._found: dict[str, Known] = {}

    def function(self, work: Work) -> Remembering:
        """A function of the basis that remembers."""
        return Remembering(self, work)

    def begin(self, row: Row, found: dict[str, Known]) -> None:
        """The row that is asked about from now on, and what was found of its parts before."""
        self._row, self._found = row, found

    def part(self, name: str) -> Known:
        """A part for the row begun."""
        known = self._found.get(name)
        if known is None:
            known = self._found[name] = self.parts[name].find(self._row)
        return known

    def key(self, read: Read) -> Key:
        """What two rows must have in common to share a result."""
        keys = [self._by_fields(name, tuple(names)) for name, names in read.fields.items()]
        keys += [self._whole(name) for name in read.parts]
        if read.inputs:
            keys.append(itemgetter(*read.inputs.values()))
        if len(keys) == 1:
            return keys[0]
        if len(keys) == 2:
            first, second = keys
            return lambda row: (first(row), second(row))
        return lambda row: tuple([key(row) for key in keys])

    def _whole(self, name: str) -> Key:
        return lambda _: self._found.get(name) or self.part(name)

    def _by_fields(self, name: str, names: tuple[str, ...]) -> Key:
        values: Callable[[Any], Any] = attrgetter(*names) if names else lambda _: None

        def key(_: Row) -> Any:
            known = self._found.get(name) or self.part(name)
            return values(known.value) if known.error is None else known

        return key
