"""One view before it meets paper: its shapes and everything a draughtsman says about them, in model inches."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from types import MappingProxyType

from webapp.drawings.shapes import Point, Shape


@dataclass(frozen=True, slots=True)
class Chain:
    """A dimension string beside a view.

    Args:
        side: "top", "bottom", "left" or "right" of the view.
        stops: positions along the side [in], in order; each pair of neighbours is one figure.
        names: what each figure measures, in trade words; "" keeps one out of the description in words.
        edge_in: where the object ends, across the string, one for all stops or one a stop; extension lines start there.
        overall: name of a further figure from first to last, beyond the chain. phone: which of the stops a phone shows.
    """

    side: str
    stops: tuple[float, ...]
    names: tuple[str, ...]
    edge_in: float | tuple[float, ...]
    overall: str = ""
    phone: tuple[int, ...] = ()

    def edges(self) -> tuple[float, ...]:
        """Where the object ends, at each stop."""
        return self.edge_in if isinstance(self.edge_in, tuple) else (self.edge_in,) * len(self.stops)

    def of(self, numbers: tuple[int, ...]) -> "Chain":
        """The string through some of the stops only; names hold where the stops are neighbours."""
        edges = self.edges()
        pairs = pairwise(numbers)
        names = tuple(self.names[a] if b == a + 1 else "" for a, b in pairs)
        return Chain(self.side, tuple(self.stops[n] for n in numbers), names, tuple(edges[n] for n in numbers))


@dataclass(frozen=True, slots=True)
class Inner:
    """A dimension within a view.

    Args: along: "x" or "y". stops: where it starts and ends on that axis. at_in: where its line runs on the other axis.
    name: what it measures. edge_in: where its extension lines start, one a stop; None leaves them out. words: small words beside
    the figure. major: also drawn on a phone.
    """

    along: str
    stops: tuple[float, float]
    at_in: float
    name: str
    edge_in: tuple[float, float] | None = None
    words: str = ""
    major: bool = False


@dataclass(frozen=True, slots=True)
class Note:
    """Words with a leader to a point; or, with `within`, centred in that box (lower left, upper right) where they fit."""

    point: Point
    words: str
    sub: str = ""
    within: tuple[Point, Point] | None = None


@dataclass(frozen=True, slots=True)
class Level:
    """A level mark at the left of a view."""

    y_in: float
    words: str
    sub: str


@dataclass(frozen=True, slots=True)
class Spot:
    """A place where limit states occur. Args: point: what a leader points at. tint: the area under strain."""

    point: Point
    tint: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Length:
    """A length that a limit state judges: level or upright, from the lower to the higher end. Args: does: "bears", "deep"."""

    start: Point
    end: Point
    does: str


@dataclass(frozen=True, slots=True)
class Scene:
    """One view.

    Args:
        name: caption under a view that is not alone.
        window: lower left and upper right corner of what is shown.
        fine: small dimensions that are drawn in the lens, or become notes where there is none.
        spots: by the name a limit state gives; "" is the whole member.
        lengths: by the key of the limit state that judges them.
        tags: words within a box, written only where they fit, on a phone too.
        clear: a part of the window known to be empty paper, for the lens and for notes.
        missing: parts that cannot be drawn, one phrase each.
    """

    name: str
    window: tuple[Point, Point]
    shapes: tuple[Shape, ...]
    chains: tuple[Chain, ...] = ()
    inners: tuple[Inner, ...] = ()
    fine: tuple[Inner, ...] = ()
    notes: tuple[Note, ...] = ()
    tags: tuple[Note, ...] = ()
    levels: tuple[Level, ...] = ()
    spots: Mapping[str, Spot] = field(default_factory=lambda: MappingProxyType({}))
    lengths: Mapping[str, Length] = field(default_factory=lambda: MappingProxyType({}))
    clear: tuple[Point, Point] | None = None
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Frame:
    """What a view may take of the sheet [px] and how large an inch may become."""

    width: float
    height: float
    most: float = 17.0

    def scale(self, width_in: float, height_in: float) -> float:
        """Pixels an inch at which both fit."""
        return min(self.most, self.width / max(width_in, 1e-6), self.height / max(height_in, 1e-6))


@dataclass(frozen=True, slots=True)
class Margins:
    """Paper around a view for its dimension strings [px]."""

    left: float
    right: float
    top: float
    bottom: float


@dataclass(frozen=True, slots=True)
class ViewPlan:
    """A view to be built once its frame is known.

    Args: row: views of one row stand beside each other. share: of the row's width. tall: share of the sheet's height its row may
    take. aligned: keeps one scale and one level with the others of its row. lens: the governing spot may be enlarged.
    phone: whether a phone shows it. most: largest inch [px] of a view that enlarges, 0 for the sheet's own.
    """

    build: Callable[[Frame], Scene]
    row: int = 0
    share: float = 1.0
    tall: float = 1.0
    aligned: bool = False
    lens: bool = False
    phone: bool = True
    most: float = 0.0
