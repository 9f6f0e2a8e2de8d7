"""A group of like anchors in a rectangular piece of concrete: what the checks of chapter 17 are asked about."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from engine.clauses.us import anchors_fit
from engine.clauses.us.anchors_area import Outline, Point
from engine.clauses.us.anchors_materials import AnchorSteel, Head, thread_pitch
from engine.clauses.us.anchors_shear import EdgeBars

EDGES = ("x1", "x2", "y1", "y2")


class Face(NamedTuple):
    """One side face of the concrete: `k` in EDGES; per anchor the distance `c` to it and the place `u` along it [in].

    `ends` are the side edges in terms of u; `cut` are those and, in a row, half way to the next anchor; `gaps` are the
    spacings to those next anchors.
    """

    k: int
    c: tuple[float, ...]
    u: tuple[float, ...]
    ends: tuple[float | None, float | None]
    cut: tuple[float | None, float | None]
    gaps: tuple[float | None, float | None]

    def sides(self, members: Iterable[int]) -> list[float]:
        """Distances from the outer ones of these anchors to the side edges there are [in]."""
        u = [self.u[i] for i in members]
        low, high = self.ends
        return [
            d for d in (None if low is None else min(u) - low, None if high is None else high - max(u)) if d is not None
        ]


@dataclass(frozen=True)
class AnchorGroup:
    """Anchors of one size, steel, foot and embedment, square to one face of the concrete.

    Args:
        positions_in: (x, y) of each anchor on that face [in].
        d_a_in: diameter. steel, head: see `anchors_materials`.
        h_ef_in: face of the concrete to the bearing face of head or hook [in]. f_c_psi: concrete [psi].
        c_x1_in .. c_y2_in: from the anchor nearest that edge to the edge, x1 toward low x; None where the concrete goes on.
        h_a_in: thickness of the concrete along the anchor; None where it is deep.
        next_x1_in, next_x2_in: in a long row along x, the next anchor on either side; areas are then cut half way to it, and
            the demands are this part's share.
        lambda_a: lightweight factor (17.2.4). cracked: by analysis or assumption. supplementary_tension, supplementary_shear:
            bars detailed across the failure surface. edge_bars: see `cracking_factor_shear`.
        seismic: tension with earthquake in category C or above. grout_pad: shear passes through one.
        torqued: nuts are torqued rather than snug. cover_in: least clear cover to steel there (20.5.1.3).
        edge_names: what x1, x2, y1, y2 are called in lines and messages.

    Raises: BadInput for nonsense or what cannot be built, OutOfScope for what chapter 17 leaves out.
    """

    positions_in: tuple[Point, ...]
    d_a_in: float
    steel: AnchorSteel
    head: Head
    h_ef_in: float
    f_c_psi: float
    c_x1_in: float | None = None
    c_x2_in: float | None = None
    c_y1_in: float | None = None
    c_y2_in: float | None = None
    h_a_in: float | None = None
    next_x1_in: float | None = None
    next_x2_in: float | None = None
    lambda_a: float = 1.0
    cracked: bool = True
    supplementary_tension: bool = False
    supplementary_shear: bool = False
    edge_bars: EdgeBars = "none"
    seismic: bool = False
    grout_pad: bool = False
    torqued: bool = False
    cover_in: float = 0.75
    edge_names: tuple[str, str, str, str] = ("the left edge", "the right edge", "the lower edge", "the upper edge")

    def __post_init__(self) -> None:
        anchors_fit.check(self)

    @cached_property
    def x_in(self) -> tuple[float, ...]:
        """Places along x [in]."""
        return tuple(x for x, _ in self.positions_in)

    @cached_property
    def y_in(self) -> tuple[float, ...]:
        """Places along y [in]."""
        return tuple(y for _, y in self.positions_in)

    @cached_property
    def n_t_per_in(self) -> float:
        """Threads per inch. Raises: BadInput for a size without a known thread."""
        return thread_pitch(self.d_a_in)

    @cached_property
    def assumed_cracked(self) -> bool:
        """Concrete counts as cracked under earthquake (17.10.5.4), whatever else was said."""
        return self.cracked or self.seismic

    @cached_property
    def outline_in(self) -> Outline:
        """The concrete's edges in the coordinates of the anchors."""
        x, y = self.x_in, self.y_in
        return (
            _edge(min(x), self.c_x1_in, -1),
            _edge(max(x), self.c_x2_in, 1),
            _edge(min(y), self.c_y1_in, -1),
            _edge(max(y), self.c_y2_in, 1),
        )

    @cached_property
    def cut_in(self) -> Outline:
        """The outline, cut half way to the next anchors of a row."""
        x1, x2, y1, y2 = self.outline_in
        low, high = _edge(min(self.x_in), self.next_x1_in, -0.5), _edge(max(self.x_in), self.next_x2_in, 0.5)
        return _tighter(x1, low, max), _tighter(x2, high, min), y1, y2

    @cached_property
    def faces(self) -> tuple[Face, ...]:
        """The side faces there are."""
        return tuple(self._face(k, edge) for k, edge in enumerate(self.outline_in) if edge is not None)

    def _face(self, k: int, edge: float) -> Face:
        across, along = (self.x_in, self.y_in) if k < 2 else (self.y_in, self.x_in)
        o, cut, low = self.outline_in, self.cut_in, (2 if k < 2 else 0)
        gaps = (None, None) if k < 2 else (self.next_x1_in, self.next_x2_in)
        c = tuple(abs(edge - a) for a in across)
        return Face(k, c, along, (o[low], o[low + 1]), (cut[low], cut[low + 1]), gaps)


def _edge(place: float, distance: float | None, way: float) -> float | None:
    return None if distance is None else place + way * distance


def _tighter(a: float | None, b: float | None, choose: Callable[[float, float], float]) -> float | None:
    if a is None or b is None:
        return a if b is None else b
    return choose(a, b)
