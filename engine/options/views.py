"""What stands for the dataclasses that a function of a check reads, so that every field it reads is known."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import FunctionType, MethodType
from typing import Any, NoReturn

from engine.options.grid import Grid, Table

TYPE = ".type"  # of a part that is kept as a mapping of its fields


@dataclass(frozen=True, slots=True, eq=False)
class Known:
    """A result, or the error in its place."""

    value: Any
    error: Exception | None = None

    def get(self) -> Any:
        """The result. Raises: the error."""
        if self.error is not None:
            raise self.error.with_traceback(None)  # or every raise would lengthen it
        return self.value


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


class Fields:
    """A part's fields, each a table of its own.

    Args: of: the part's type, where `TYPE` in its only piece does not say it. pieces: by name, mappings that give some of the
    fields. broken: those that raise an error somewhere.
    """

    def __init__(self, grid: Grid, of: type | None, pieces: Mapping[str, Table[Known]]) -> None:
        sound: dict[str, Mapping[str, Any]] = {}
        for name, piece in pieces.items():
            sound[name] = next((known.value for known in piece.cells if known.error is None), {})
        self._grid = grid
        self._given = {field: pieces[name] for name, values in sound.items() for field in values}
        self._tables: dict[str, Table[Any]] = {}
        self.of: type = of or next((values[TYPE] for values in sound.values() if values), object)
        self.broken = [name for name, piece in pieces.items() if any(known.error for known in piece.cells)]

    def table(self, name: str) -> Table[Any]:
        """One field; nothing where its piece raises an error."""
        if name not in self._tables:
            piece = self._given[name]
            cells = [None if known.error else known.value[name] for known in piece.cells]
            self._tables[name] = self._grid.narrow(Table(piece.axes, cells))
        return self._tables[name]
