"""Pure functions that remember: each is asked again only where something it read has a new value.

A search varies a few inputs. A function of a check runs with views of what it is given, which note every varied input and every
part it reads. Its result is kept under the values of all that was ever read in it: other inputs with the same values there would
take the same way through the same function. So results are exact, and no list of dependencies is kept by hand.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, fields
from functools import partial
from operator import attrgetter, itemgetter
from types import FunctionType, MethodType
from typing import Any, NoReturn

from engine.basis import Basis, Part, Piece, Places
from engine.editions import Edition
from engine.errors import EngineError
from engine.options.sizes import Choices
from engine.worksheet import Step, Worksheet

Pick = tuple[int, ...]
Work = Callable[["Traced"], Any]
Key = Callable[[], Any]
SILENT = Worksheet(recording=False)
VALUE = attrgetter("value")


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
    """What a function was ever seen to read: varied inputs, parts whole, parts by their fields."""

    inputs: dict[str, None] = field(default_factory=dict)
    parts: dict[str, None] = field(default_factory=dict)
    fields: dict[str, dict[str, None]] = field(default_factory=dict)
    grown: bool = True

    @property
    def anything(self) -> bool:
        """Whether the result can differ between candidates."""
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

    def __init__(self, memo: "Memo", noted: Read) -> None:
        self._memo, self._noted = memo, noted
        self.edition, self.sheet = memo.edition, SILENT
        known = memo.constant.copy()
        for name in noted.inputs:
            known[name] = memo.row[name]
        self.inputs = View(memo.kind, known, self._input)

    def working(self, *_: str) -> tuple[Step, ...]:
        """Nothing is recorded in a search."""
        return ()

    def piece(self, name: str) -> Any:
        """One piece of a geometry. Raises: what it raises."""
        return self._whole(name)

    def _input(self, name: str) -> Any:
        value = self._memo.row[name]
        self._note(self._noted.inputs, name)
        return value

    def __getattr__(self, name: str) -> Any:
        found = getattr(self._memo.basis, name)
        if isinstance(found, Places):
            value: Any = self._pieces(name, found)
        elif isinstance(found, Part):
            value = self._by_field(name) if found.by_field else self._whole(name)
        elif isinstance(found, property):
            value = found.__get__(self)
        else:
            return MethodType(found, self)
        self.__dict__[name] = value
        return value

    def _whole(self, name: str) -> Any:
        known = self._memo.part(name)
        if self._memo.parts[name].varies:
            self._note(self._noted.parts, name)
        return known.get()

    def _by_field(self, name: str) -> View:
        known = self._memo.part(name)
        names, value = self._names(name), known.get()

        def read(one: str) -> Any:
            self._note(names, one)
            return getattr(value, one)

        return View(type(value), {one: getattr(value, one) for one in names or ()}, read)

    def _pieces(self, name: str, found: Places[Any]) -> View:
        memo, noted = self._memo, self._noted.fields
        pieces = memo.pieces(name, found)

        def read(one: str) -> Any:
            self._note(self._names(pieces[one]), one)
            return memo.part(pieces[one]).get()[one]

        every = [(memo.part(piece).get(), noted[piece]) for piece in dict.fromkeys(pieces.values()) if piece in noted]
        return View(found.of, {one: values[one] for values, names in every for one in names}, read)

    def _names(self, part: str) -> dict[str, None] | None:
        """Fields of a part that are noted; None for one that never varies, of which none need be."""
        if not self._memo.parts[part].varies:
            return None
        if part not in self._noted.fields:
            self._noted.fields[part], self._noted.grown = {}, True
        return self._noted.fields[part]

    def _note(self, names: dict[str, None] | None, one: str) -> None:
        if names is not None and one not in names:
            names[one], self._noted.grown = None, True


class Remembering:
    """One pure function of a basis with its results.

    They are kept twice. By what was read, in layers: a layer is a key over all that had been read when it was begun, and older
    layers hold on, since each result was reached by reading no more than its layer's key. And by the axes that all this comes from
    in the end, which is quicker to look up.
    """

    __slots__ = ("_axes", "_by_axes", "_equal", "_key", "_layers", "_memo", "_read", "_seen", "_work", "runs")

    def __init__(self, memo: "Memo", work: Work, *, keyed: bool = False) -> None:
        self._memo, self._work = memo, work
        self._read = Read()
        self._layers: list[tuple[Key, dict[Any, Known]]] = []
        self._equal: dict[Any, Known] | None = {} if keyed else None
        self._axes: frozenset[int] = frozenset()
        self._key: Callable[[Pick], Any] = _nothing
        self._by_axes: dict[Any, Known] = {}
        self._seen = -1
        self.runs = 0

    @property
    def varies(self) -> bool:
        """Whether the result can differ between candidates; settled by the first run."""
        return self._read.anything

    def origin(self) -> frozenset[int]:
        """The axes that the result comes from, by way of parts too."""
        axes, parts = self._memo.axis_of, (*self._read.parts, *self._read.fields)
        return frozenset(axes[name] for name in self._read.inputs).union(
            *(self._memo.parts[name].origin() for name in parts)
        )

    def column(self, picks: Sequence[Pick]) -> list[Any]:
        """The result of each of some candidates."""
        self._settle()
        if not self._axes and self._by_axes:
            return [known.value for known in self._by_axes.values()] * len(picks)
        known, key = self._by_axes, self._key
        keys = list(map(key, picks))
        for pick, one in zip(picks, keys, strict=True):
            if one not in known:
                self._memo.begin(pick)
                self.find()
                if self._key is not key:
                    return self.column(picks)  # more was read than ever before: by other axes, then
        return [known[one].value for one in keys]

    def find(self) -> Known:
        """The result for the candidate begun."""
        self._settle()
        known = self._by_axes.get(self._key(self._memo.pick))
        if known is None:
            known = self._look_up()
            self._settle()
            self._by_axes[self._key(self._memo.pick)] = known
        return known

    def _settle(self) -> None:
        """Where some function has read more than before, the axes that results come from may be more."""
        if self._seen != self._memo.grown:
            axes = self.origin()
            if axes != self._axes:
                self._key = itemgetter(*sorted(axes))
                self._by_axes.clear()
            self._axes, self._seen = axes, self._memo.grown

    def _look_up(self) -> Known:
        for key, results in self._layers:
            known = results.get(key())
            if known is not None:
                return known
        return self._run()

    def _run(self) -> Known:
        self.runs += 1
        try:
            known = self._one(Known(self._work(Traced(self._memo, self._read))))
        except EngineError as error:
            known = self._one(Known(None, error))
        if self._read.grown:
            self._layers.insert(0, (self._memo.key(self._read), {}))
            self._read.grown = False
            self._memo.grown += 1
        key, results = self._layers[0]
        results[key()] = known
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


class Memo:
    """What all candidates share: inputs that hold, the edition, and the parts of the basis.

    Args: basis: of the kind. base: inputs that hold but for the varied ones. axes: what is varied; a candidate is picked by the
    number of a row on each axis.
    """

    def __init__(self, basis: type[Basis[Any]], base: Any, axes: Sequence[Choices], edition: Edition) -> None:
        self.basis, self.kind, self.edition = basis, type(base), edition
        self.axis_of = {name: number for number, axis in enumerate(axes) for name in axis.names}
        self.constant = {f.name: getattr(base, f.name) for f in fields(base) if f.name not in self.axis_of}
        self.pick: Pick = ()
        self.row: dict[str, Any] = {}
        self.grown = 0  # how often any function read more than before
        self.parts: dict[str, Remembering] = {}
        self.pieced: list[str] = []
        self._axes = [[dict(zip(axis.names, row, strict=True)) for row in axis.rows] for axis in axes]
        self._pieces: dict[str, dict[str, str]] = {}
        self._begun: dict[Pick, tuple[dict[str, Any], dict[str, Known]]] = {}
        self._found: dict[str, Known] = {}
        for name in dir(basis):
            found = getattr(basis, name)
            if isinstance(found, Places):
                for number, piece in enumerate(found.pieces):
                    self.parts[f"{name}.{number}"] = Remembering(self, partial(_piece, piece))
                    self.pieced.append(f"{name}.{number}")
            elif isinstance(found, Part):
                self.parts[name] = Remembering(self, partial(_part, found), keyed=not found.by_field)

    def function(self, work: Work) -> Remembering:
        """A function of the basis that remembers."""
        return Remembering(self, work)

    def begin(self, pick: Pick) -> None:
        """The candidate that is asked about from now on."""
        if pick not in self._begun:
            row: dict[str, Any] = {}
            for axis, n in zip(self._axes, pick, strict=True):
                row |= axis[n]
            self._begun[pick] = row, {}
        self.pick, (self.row, self._found) = pick, self._begun[pick]

    def forget(self) -> None:
        """Let go of the candidates begun; what functions remember stays."""
        self._begun.clear()

    def part(self, name: str) -> Known:
        """A part, or a piece of one, for the candidate begun."""
        known = self._found.get(name)
        if known is None:
            known = self._found[name] = self.parts[name].find()
        return known

    def pieces(self, name: str, found: Places[Any]) -> Mapping[str, str]:
        """By which piece of a geometry each of its fields is given."""
        if name not in self._pieces:
            every = [f"{name}.{number}" for number in range(len(found.pieces))]
            self._pieces[name] = {one: piece for piece in every for one in self.part(piece).get()}
        return self._pieces[name]

    def key(self, read: Read) -> Key:
        """What two candidates must have in common to share a result."""
        keys = [self._by_fields(name, tuple(names)) for name, names in read.fields.items()]
        keys += [partial(self.part, name) for name in read.parts]
        if read.inputs:
            inputs = itemgetter(*read.inputs)
            keys.append(lambda: inputs(self.row))
        if len(keys) == 1:
            return keys[0]
        return lambda: tuple([key() for key in keys])

    def _by_fields(self, name: str, names: tuple[str, ...]) -> Key:
        getter = itemgetter if "." in name else attrgetter  # a piece is a mapping
        values: Callable[[Any], Any] = getter(*names) if names else lambda _: None

        def key() -> Any:
            known = self.part(name)
            return values(known.value) if known.error is None else known

        return key


def _nothing(_: Pick) -> None:
    """The key of what never varies."""


def _part(found: Part[Any], basis: Traced) -> Any:
    return found.work(basis, basis.sheet)


def _piece(piece: Piece, basis: Traced) -> Any:
    return piece(basis.inputs, basis.sheet)
