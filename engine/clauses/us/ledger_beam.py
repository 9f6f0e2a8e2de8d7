"""A ledger as a continuous beam over its bolts: the largest share of any bolt, the shear beside it, the moment between.

Each piece is one beam of constant section on unyielding bolts, its ends free; supports by the three-moment equation
(Clapeyron), any textbook of statics. Joists are like point loads at a regular spacing; until their place is known, every
position of that comb is tried.
"""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from engine.errors import BadInput
from engine.worksheet import clause

AT = 1e-9  # inches within which a joist stands at a bolt
POSITIONS = 24  # places of the comb tried besides those with a joist at a bolt
HALF_JOIST_IN = (
    0.75  # a hanger stands whole on its piece: half of a 1 1/2 in joist is the nearest to an end (common practice)
)


class Shares(NamedTuple):
    """Per bolt place, for a joist reaction of 1 (or 1 per inch of ledger): its load and the largest shear beside it.

    moment: the largest bending moment anywhere, per unit of the same load [in] (or [in²]).
    """

    load: tuple[float, ...]
    shear: tuple[float, ...]
    moment: float


def _support_moments(u: Sequence[float], right_side: Sequence[float], first: float, last: float) -> list[float]:
    """Moments over the supports, sagging positive, from the three-moment equations (Thomas's elimination).

    Args: right_side: minus six times the load terms, one for each inner support. first, last: over the outer supports.
    """
    spans = [b - a for a, b in pairwise(u)]
    n = len(spans) - 1
    if n < 1:
        return [first, last]
    diagonal = [2 * (spans[k] + spans[k + 1]) for k in range(n)]
    rest = list(right_side)
    rest[0] -= spans[0] * first
    rest[-1] -= spans[-1] * last
    for k in range(1, n):
        factor = spans[k] / diagonal[k - 1]
        diagonal[k] -= factor * spans[k]
        rest[k] -= factor * rest[k - 1]
    moments = [0.0] * n
    moments[-1] = rest[-1] / diagonal[-1]
    for k in range(n - 2, -1, -1):
        moments[k] = (rest[k] - spans[k + 1] * moments[k + 1]) / diagonal[k]
    return [first, *moments, last]


class _Point(NamedTuple):
    """A unit load in a span: which, how far from its left and right bolt."""

    span: int
    a: float
    b: float


def _placed(u: Sequence[float], loads: Sequence[float]) -> tuple[list[_Point], list[int], list[float], list[float]]:
    """Loads in spans, loads at bolts, and the levers of those on the left and right overhang."""
    inside: list[_Point] = []
    at: list[int] = []
    left: list[float] = []
    right: list[float] = []
    k = 0
    for x in sorted(loads):
        while k < len(u) and x > u[k] + AT:
            k += 1
        if k < len(u) and abs(x - u[k]) <= AT:
            at.append(k)
        elif k == 0:
            left.append(u[0] - x)
        elif k == len(u):
            right.append(x - u[-1])
        else:
            inside.append(_Point(k - 1, x - u[k - 1], u[k] - x))
    return inside, at, left, right


def under_points(u: Sequence[float], loads: Sequence[float]) -> Shares:
    """Shares under loads of 1 at the given places. Args: u: two or more supports, ascending [in]. loads: places [in]."""
    inside, at, left, right = _placed(u, loads)
    spans = [b - a for a, b in pairwise(u)]
    terms = [0.0] * len(u)
    for point in inside:
        length = spans[point.span]
        terms[point.span] -= point.b * (length**2 - point.b**2) / length
        terms[point.span + 1] -= point.a * (length**2 - point.a**2) / length
    M = _support_moments(u, terms[1:-1], -sum(left), -sum(right))
    from_left = [float(len(left)), *((M[k] - M[k + 1]) / spans[k] for k in range(len(spans)))]
    from_right = [*((M[k + 1] - M[k]) / spans[k] for k in range(len(spans))), float(len(right))]
    for point in inside:
        from_right[point.span] += point.b / spans[point.span]
        from_left[point.span + 1] += point.a / spans[point.span]
    on = [float(at.count(k)) for k in range(len(u))]
    moment = max((abs(m) for m in (*M, *_moments_at(inside, M, from_right))), default=0.0)
    load = tuple(a + b + c for a, b, c in zip(from_left, from_right, on, strict=True))
    shear = tuple(
        max(abs(a), abs(b), abs(a + c), abs(b + c)) for a, b, c in zip(from_left, from_right, on, strict=True)
    )
    return Shares(load, shear, moment)


def _moments_at(inside: Sequence[_Point], M: Sequence[float], from_right: Sequence[float]) -> Iterator[float]:
    """Bending moment under each load in a span; the loads come in order."""
    span, before, sum_a = -1, 0, 0.0
    for point in inside:
        if point.span != span:
            span, before, sum_a = point.span, 0, 0.0
        yield M[span] + from_right[span] * point.a - (before * point.a - sum_a)
        before, sum_a = before + 1, sum_a + point.a


def under_uniform(u: Sequence[float], length: float) -> Shares:
    """Shares under a uniform load of 1 per inch over a piece from 0 to `length` [in]."""
    spans = [b - a for a, b in pairwise(u)]
    ends = u[0], length - u[-1]
    terms = [-(a**3 + b**3) / 4 for a, b in pairwise(spans)]
    M = _support_moments(u, terms, -(ends[0] ** 2) / 2, -(ends[1] ** 2) / 2)
    from_left = [ends[0], *(span / 2 + (M[k] - M[k + 1]) / span for k, span in enumerate(spans))]
    from_right = [*(span / 2 + (M[k + 1] - M[k]) / span for k, span in enumerate(spans)), ends[1]]
    between = [M[k] + from_right[k] ** 2 / 2 for k, span in enumerate(spans) if 0 < from_right[k] < span]
    load = tuple(a + b for a, b in zip(from_left, from_right, strict=True))
    shear = tuple(max(abs(a), abs(b)) for a, b in zip(from_left, from_right, strict=True))
    return Shares(load, shear, max(abs(m) for m in (*M, *between)))


def _combs(u: Sequence[float], length: float, spacing: float, first: float | None) -> Iterator[list[float]]:
    """Every set of joist places tried: one where the first joist is known, else combs at many positions."""
    low, high = (0.0, length) if first is not None else (HALF_JOIST_IN, length - HALF_JOIST_IN)
    starts = [first] if first is not None else [n * spacing / POSITIONS for n in range(POSITIONS)]
    if first is None:
        starts += [(a + b) / 2 % spacing for a, b in pairwise(u)]
        # also just before and just after a joist drops off an end: one far out may relieve a bolt
        starts += [x % spacing for x in (*u, low, high, low - 4 * AT, high + 4 * AT)]
    for start in dict.fromkeys(starts):
        comb = [start + n * spacing for n in range(int((length - start) / spacing + AT) + 1)]
        on_piece = [x for x in comb if low - AT <= x <= high + AT]
        if on_piece:
            yield on_piece


@lru_cache(maxsize=256)
def under_joists(u: tuple[float, ...], length: float, spacing: float, first: float | None = None) -> Shares:
    """The worst shares under joists at a spacing, each of reaction 1.

    Args: u: bolt places, length: of the piece, spacing: of the joists, first: place of the first joist, None for the worst [in].
    Returns: per bolt the largest over all positions. Raises: BadInput where no joist stands on the piece.
    """
    found = [under_points(u, comb) for comb in _combs(u, length, spacing, first)]
    if not found:
        raise BadInput("first_joist_in", "No joist stands on the piece. Enter a place on it, or leave it blank.")
    return Shares(
        tuple(max(values) for values in zip(*(shares.load for shares in found), strict=True)),
        tuple(max(values) for values in zip(*(shares.shear for shares in found), strict=True)),
        max(shares.moment for shares in found),
    )


@clause(
    "statics",
    "",
    title="Share of one bolt place in a continuous ledger",
    symbol="V",
    unit="lb",
    formula="k_R * R + k_w * w / 12",
    provenance="derived",
    note="k_R and k_w by three-moment equations: the ledger over its bolts, joists where they load this bolt most.",
)
def bolt_share_lb(k_R: float, R_lb: float, k_w: float, w_plf: float) -> float:
    """Load of a bolt place, or shear beside it.

    Args: k_R: per joist reaction. R_lb: joist reaction [lb]. k_w: per line load of 1 [in]. w_plf: line load. Returns: [lb].
    """
    return k_R * R_lb + k_w * w_plf / 12


@clause(
    "statics",
    "",
    title="Largest moment of a continuous ledger between its bolts",
    symbol="M",
    unit="lb-in",
    formula="k_R * R + k_w * w / 12",
    provenance="derived",
    note="k_R [in] and k_w [in²] by three-moment equations, each at its own worst place.",
)
def ledger_moment_lb_in(k_R: float, R_lb: float, k_w: float, w_plf: float) -> float:
    """Args: k_R: per joist reaction [in]. R_lb: joist reaction [lb]. k_w: per line load of 1 [in²]. w_plf. Returns: [lb-in]."""
    return k_R * R_lb + k_w * w_plf / 12
