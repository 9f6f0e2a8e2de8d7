"""Where the walls of a job stand in plan, in inches: x to the right, y up; each wall's line is its outer face.

A wall without a start begins where the wall before it ends. Walls without a direction are drawn one under another.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, radians, sin

from engine.wall import Wall, WallType
from webapp.drawings.shapes import Point

MEETS_IN = 1.0  # ends nearer than this are one corner
NEAR_IN = 24.0  # ends nearer than this were meant to meet
EXACT_IN = 1 / 16


@dataclass(frozen=True, slots=True)
class Standing:
    """A wall in plan. The room is to the right of its run.

    Args: start: its named end on the outer face. along: the unit vector of its run.
    """

    wall: Wall
    start: Point
    along: Point

    @property
    def inward(self) -> Point:
        """Unit vector from the outer face to the room."""
        return self.along[1], -self.along[0]

    @property
    def length(self) -> float:
        """Along the outer face [in]."""
        return self.wall.line.length_ft * 12

    @property
    def end(self) -> Point:
        """Its far end on the outer face."""
        return self.at(self.length)

    def at(self, station_in: float, depth_in: float = 0.0) -> Point:
        """The point at a station, so deep behind the outer face; negative is outside."""
        (ax, ay), (ix, iy) = self.along, self.inward
        return self.start[0] + ax * station_in + ix * depth_in, self.start[1] + ay * station_in + iy * depth_in

    def build(self, level: int) -> WallType:
        """The build-up of the storey under a floor level; the top one's where it has fewer storeys."""
        return self.wall.types[self.wall.storeys[min(level, len(self.wall.storeys)) - 1].type]


@dataclass(frozen=True, slots=True)
class Layout:
    """All walls in plan.

    Args: walls: in the job's order. placed: how many of them stand where they were entered; the others are drawn one under
    another. open_by: where the outline does not close: the wall that ends, the wall that starts, the gap [in].
    """

    walls: tuple[Standing, ...]
    placed: int
    open_by: tuple[tuple[str, str, float], ...] = ()


def layout(walls: Sequence[Wall], apart_in: float) -> Layout:
    """Every wall in its place. Args: apart_in: between walls that are drawn one under another."""
    placed = _placed(walls)
    standing = [one for one in placed if one is not None]
    if len(standing) > 1 and len({(one.start, one.along) for one in standing}) == 1:
        standing = []  # all on one spot: nothing was entered
    names = {one.wall.name for one in standing}
    low = min((y for one in standing for _, y in (one.start, one.end)), default=apart_in)
    left = min((x for one in standing for x, _ in (one.start, one.end)), default=0.0)
    rest = [wall for wall in walls if wall.name not in names]
    unfolded = [Standing(wall, (left, low - apart_in * (n + 1)), (1.0, 0.0)) for n, wall in enumerate(rest)]
    by_name = {one.wall.name: one for one in (*standing, *unfolded)}
    return Layout(tuple(by_name[wall.name] for wall in walls), len(standing), tuple(_open(standing)))


def _placed(walls: Sequence[Wall]) -> list[Standing | None]:
    found: list[Standing | None] = []
    before: Point | None = (0.0, 0.0)
    for wall in walls:
        line = wall.line
        given = None if line.x_ft is None or line.y_ft is None else (line.x_ft * 12, line.y_ft * 12)
        start = given or before
        if line.bearing_deg is None or start is None:
            found.append(None)
            before = None
            continue
        turn = radians(line.bearing_deg)
        # Sums of sines leave 1e-14 in; a corner is a corner.
        standing = Standing(wall, start, (round(cos(turn), 12), round(sin(turn), 12)))
        found.append(standing)
        before = standing.end
    return found


def gap(a: Point, b: Point) -> float:
    """Between two points [in]."""
    return hypot(a[0] - b[0], a[1] - b[1])


def _open(standing: Sequence[Standing]) -> list[tuple[str, str, float]]:
    """Where ends that were meant to meet do not: the wall that ends, the wall that starts, the distance [in]."""
    found = [
        (a.wall.name, b.wall.name, gap(a.end, b.start))
        for a, b in pairwise(standing)
        if EXACT_IN < gap(a.end, b.start) <= NEAR_IN
    ]
    if len(standing) > 2:
        last, first = standing[-1], standing[0]
        if gap(last.end, first.start) > EXACT_IN:
            found.append((last.wall.name, first.wall.name, gap(last.end, first.start)))
    return found


def neighbours(walls: Sequence[Standing]) -> dict[str, tuple[Standing | None, Standing | None]]:
    """By name: the wall that ends where one starts, and the wall that starts where it ends."""
    found = {}
    for one in walls:
        others = [other for other in walls if other is not one]
        before = next((o for o in others if gap(o.end, one.start) < MEETS_IN), None)
        after = next((o for o in others if gap(o.start, one.end) < MEETS_IN), None)
        found[one.wall.name] = before, after
    return found


def mitred(
    one: Standing, depth: float, before: tuple[Standing, float] | None, after: tuple[Standing, float] | None
) -> tuple[Point, Point]:
    """Start and end of the line at some depth of a wall, each on the corner it makes with a neighbour's line.

    Args: before, after: the neighbour and the depth of its line [in].
    """
    start = one.at(0.0, depth) if before is None else _corner(before[0], before[1], one, depth, one.at(0.0, depth))
    end = (
        one.at(one.length, depth)
        if after is None
        else _corner(one, depth, after[0], after[1], one.at(one.length, depth))
    )
    return start, end


def _corner(a: Standing, a_depth: float, b: Standing, b_depth: float, square: Point) -> Point:
    """Where two lines cross; the square end where they run on straight, or nearly."""
    cross = a.along[0] * b.along[1] - a.along[1] * b.along[0]
    if abs(cross) < 0.17:  # ten degrees
        return square
    (ax, ay), (bx, by) = a.at(0.0, a_depth), b.at(0.0, b_depth)
    t = ((bx - ax) * b.along[1] - (by - ay) * b.along[0]) / cross
    return ax + t * a.along[0], ay + t * a.along[1]
