"""What the lines of one check stand on: inputs, edition, and the parts that several lines share.

A kind of attachment names its parts and the groups in which its lines come. Both are pure functions of what they read here, so that
a search over thousands of inputs need ask again only what reads something new.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, Generic, Self, TypeVar, overload

from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import Step, Worksheet

I = TypeVar("I")  # noqa: E741  the inputs of a kind
T = TypeVar("T")


class Basis(Generic[I]):
    """Inputs within their stated ranges, the edition to judge by, and the sheet that the lines share."""

    def __init__(self, inputs: I, edition: Edition, recording: bool = True) -> None:
        self.inputs = inputs
        self.edition = edition
        self.sheet = Worksheet(recording)
        self.steps: dict[str, tuple[Step, ...]] = {}

    def working(self, *parts: str) -> tuple[Step, ...]:
        """The steps that gave some parts."""
        for name in parts:
            getattr(self, name)
        return tuple(step for name in parts for step in self.steps[name])


class Part(Generic[T]):
    """A part of a basis, worked out when it is first asked for, on a sheet of its own.

    by_field: lines read its fields one by one, as they do those of the inputs, and not the whole.
    """

    def __init__(self, work: Callable[[Any, Worksheet], T], by_field: bool = False) -> None:
        self.work, self.by_field = work, by_field
        self.__doc__ = work.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name

    @overload
    def __get__(self, basis: None, owner: type) -> Self: ...
    @overload
    def __get__(self, basis: Basis[Any], owner: type) -> T: ...
    def __get__(self, basis: Basis[Any] | None, owner: type) -> Self | T:
        if basis is None:
            return self
        sheet = Worksheet(basis.sheet.recording)
        found = self.work(basis, sheet)
        basis.steps[self.name] = sheet.take()
        basis.__dict__[self.name] = found  # found there before this is asked again
        return found


Piece = Callable[[Any, Worksheet], Mapping[str, Any]]


def assemble(of: type[T], pieces: Iterable[Piece], inputs: Any, sheet: Worksheet) -> T:
    """A geometry from its pieces: functions of the inputs, each of which gives some of its fields."""
    return of(**{name: value for piece in pieces for name, value in piece(inputs, sheet).items()})


class Places(Part[T]):
    """A geometry, read by its fields; each piece of it turns on inputs of its own.

    Args: of: a frozen dataclass. pieces: see `assemble`.
    """

    def __init__(self, of: type[T], pieces: tuple[Piece, ...]) -> None:
        self.of, self.pieces = of, pieces
        super().__init__(lambda basis, sheet: assemble(of, pieces, basis.inputs, sheet), by_field=True)


def part(work: Callable[[Any, Worksheet], T]) -> Part[T]:
    """Declare a part that lines read whole: a load, a list of effects."""
    return Part(work)


def by_field(work: Callable[[Any, Worksheet], T]) -> Part[T]:
    """Declare a part that lines read by its fields: a frozen dataclass."""
    return Part(work, by_field=True)


B = TypeVar("B", bound=Basis[Any])
Group = Callable[[B], Iterable[LimitState]]


def lines(groups: Iterable[Group[B]], basis: B) -> tuple[LimitState, ...]:
    """Every line of every group, in order. Raises: BadInput where inputs contradict each other."""
    return tuple(line for group in groups for line in group(basis))
