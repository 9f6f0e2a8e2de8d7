"""A bent bar for a bar list: to scale with its real bends, a long straight part broken, its legs measured out to out."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, hypot, pi, sin

from engine.takeoff.shapes import Shape
from engine.units import System
from webapp.drawings import svg
from webapp.drawings.lettering import Lettering, feet, figure
from webapp.drawings.paper import Panel, Sheet, Words, overlap
from webapp.drawings.shapes import Area, Material, Pen, Point, Stroke
from webapp.drawings.shapes import Shape as Drawn
from webapp.drawings.view import View, paint

WIDTH, HEIGHT, EDGE, LETTERS = 208.0, 128.0, 30.0, 12.5
LONGEST = 5.0  # a leg longer than this many of all others together is broken
LEAST_BESIDE = 4.0  # the same in bar diameters, for a bar whose other legs are nothing
MOST_SCALE = 3.6  # pixels an inch
PAPER = 4.0  # above and below what is drawn [px]
STEPS = 8  # straight lines to a quarter turn
GAP = 3.0  # half of a break [px]
CLEAR = 6.0  # words from a leg [px]
DENSE = 12  # points to a straight part where ink is looked for
FROM_FEET_IN = 24.0  # lengths from here on are written in feet and inches


@dataclass(frozen=True, slots=True)
class Bent:
    """A shape brought to the paper: corners perhaps drawn together, which leg is broken (-1 for none)."""

    shape: Shape
    corners: tuple[Point, ...]
    broken: int

    @property
    def longest(self) -> float:
        """The larger of its width and height [in]."""
        (x0, y0), (x1, y1) = self.window
        return max(x1 - x0, y1 - y0)

    @property
    def window(self) -> tuple[Point, Point]:
        """Lower left and upper right of its outside [in]."""
        half = self.shape.d_b_in / 2
        points = [point for run in self.middles() for point in run]
        xs, ys = zip(*points, strict=True)
        return (min(xs) - half, min(ys) - half), (max(xs) + half, max(ys) + half)

    def middles(self, gap_in: float = 0.0) -> tuple[tuple[Point, ...], ...]:
        """The middle of the bar as it runs, in two parts where it is broken."""
        runs: list[list[Point]] = [[self.corners[0]]]
        for n, (a, b) in enumerate(pairwise(self.corners)):
            if n == self.broken:
                middle, way = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), _way(a, b)
                runs[-1].append(_along(middle, way, -gap_in))
                runs.append([_along(middle, way, gap_in)])
            if n < len(self.shape.bends_in):
                radius = (self.shape.bends_in[n] + self.shape.d_b_in) / 2
                runs[-1] += _arc(a, b, self.corners[n + 2], radius, self.shape.tangents_in[n])
            else:
                runs[-1].append(b)
        return tuple(tuple(run) for run in runs)


def _way(a: Point, b: Point) -> Point:
    length = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length


def _along(at: Point, way: Point, by: float) -> Point:
    return at[0] + way[0] * by, at[1] + way[1] * by


def _arc(a: Point, corner: Point, b: Point, radius: float, tangent: float) -> list[Point]:
    """The bend at a corner, as points from where it leaves the one leg to where it meets the other."""
    into, out = _way(a, corner), _way(corner, b)
    start = _along(corner, into, -tangent)
    left = 1.0 if into[0] * out[1] - into[1] * out[0] >= 0 else -1.0
    centre = (start[0] - into[1] * radius * left, start[1] + into[0] * radius * left)
    first = atan2(start[1] - centre[1], start[0] - centre[0])
    turn = left * abs(atan2(into[0] * out[1] - into[1] * out[0], into[0] * out[0] + into[1] * out[1]))
    count = max(round(abs(turn) / (pi / 2) * STEPS), 1)
    angles = [first + turn * n / count for n in range(count + 1)]
    return [(centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)) for angle in angles]


def bent(shape: Shape) -> Bent:
    """A shape with its one long leg drawn together, so that its bends can be seen; y up, as drawings have it."""
    corners = [(x, -y) for x, y in shape.corners]
    lengths = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(corners)]
    longest = max(range(len(lengths)), key=lengths.__getitem__)
    room = LONGEST * max(sum(lengths) - lengths[longest], LEAST_BESIDE * shape.d_b_in)
    if lengths[longest] <= room or not shape.bends_in:
        return Bent(shape, tuple(corners), -1)
    way, back = _way(corners[longest], corners[longest + 1]), room - lengths[longest]
    moved = [_along(point, way, back) if n > longest else point for n, point in enumerate(corners)]
    return Bent(shape, tuple(moved), longest)


def _outline(middle: tuple[Point, ...], half: float) -> tuple[Point, ...]:
    """Both sides of a bar from its middle."""
    ways = [_way(a, b) for a, b in pairwise(middle)]
    ways = [ways[0], *(_way((0.0, 0.0), (a[0] + b[0], a[1] + b[1])) for a, b in pairwise(ways)), ways[-1]]
    left = [(x - way[1] * half, y + way[0] * half) for (x, y), way in zip(middle, ways, strict=True)]
    right = [(x + way[1] * half, y - way[0] * half) for (x, y), way in zip(middle, ways, strict=True)]
    return (*left, *reversed(right))


def _shapes(one: Bent, scale: float) -> Iterator[Drawn]:
    half = max(one.shape.d_b_in / 2, 0.9 / scale)
    for run in one.middles(GAP / scale):
        yield Area(_outline(run, half), Material.STEEL_SEEN, Pen.BAR)
    if one.broken >= 0:
        a, b = one.corners[one.broken : one.broken + 2]
        middle, way = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), _way(a, b)
        reach = half + 4 / scale
        for side in (-1.0, 1.0):
            x, y = _along(middle, way, side * GAP / scale)
            lean = (way[0] * 2 / scale, way[1] * 2 / scale)
            across = (-way[1] * reach, way[0] * reach)
            yield Stroke(
                (
                    (x - across[0] - lean[0], y - across[1] - lean[1]),
                    (x + across[0] + lean[0], y + across[1] + lean[1]),
                ),
                Pen.SEEN,
            )


def bar_sheet(shape: Shape, system: System = "ft in") -> Sheet:
    """A bar's sketch for any renderer, no higher than what is on it."""
    one = bent(shape)
    (x0, y0), (x1, y1) = one.window
    scale = min((WIDTH - 2 * EDGE) / (x1 - x0), (HEIGHT - 2 * EDGE) / max(y1 - y0, 0.1), MOST_SCALE)
    across = WIDTH / 2 - (x0 + x1) / 2 * scale
    ends = (-y1 * scale, -y0 * scale)  # of the ink, up and down the paper
    tried = _laid(one, View(scale, across, 0.0), sum(ends) / 2, system)
    top, bottom = (pick((*ends, *(edge for words in tried.words for edge in words.box[1::2]))) for pick in (min, max))
    found = _laid(one, View(scale, across, PAPER - top), PAPER - top + sum(ends) / 2, system)
    found.height = bottom - top + 2 * PAPER
    found.finding = f"No. {shape.number}, {shape.words}"
    legs = [feet(leg.out_in, 1, system).text for leg in shape.legs if leg.out_in]
    found.description = f"Straight parts out to out: {', '.join(legs)}."
    return found


def _laid(one: Bent, view: View, middle: float, system: System) -> Sheet:
    """The ink and its figures. Args: middle: of the ink, down the paper [px]."""
    sheet = Sheet(WIDTH, 2 * middle)
    panel = Panel(view.scale)
    paint(panel, view, tuple(_shapes(one, view.scale)))
    sheet.panels.append(panel)
    _measure(sheet, one, view, system)
    return sheet


def _measure(sheet: Sheet, one: Bent, view: View, system: System) -> None:
    """How long every leg is, beside its middle on the side with more paper; tails stand in the list."""
    ink = [view.px(point) for run in one.middles() for point in _dense(run)]
    for n, leg in enumerate(one.shape.legs):
        if leg.out_in and not _within_hook(one.shape, n):
            letters = (feet if leg.out_in >= FROM_FEET_IN else figure)(leg.out_in, LETTERS, system)
            a, b = view.px(one.corners[n]), view.px(one.corners[n + 1])
            sides = [_beside(a, b, letters, side) for side in (-1.0, 1.0)]
            sheet.words.append(min(sides, key=lambda words: _crowded(words, ink, sheet)))


def _within_hook(shape: Shape, n: int) -> bool:
    """Whether a leg is the short way across a hook of 180 degrees."""
    return (shape.hooks[0] == 180 and n == 1) or (shape.hooks[1] == 180 and n == len(shape.corners) - 3)


def _beside(a: Point, b: Point, letters: Lettering, side: float) -> Words:
    """Words centred off the middle of a leg, on its one side or the other."""
    way = _way(a, b)
    across = (-way[1] * side, way[0] * side)
    off = abs(across[0]) * letters.width / 2 + abs(across[1]) * LETTERS / 2 + CLEAR
    x, y = (a[0] + b[0]) / 2 + across[0] * off, (a[1] + b[1]) / 2 + across[1] * off
    return Words(x - letters.width / 2, y + LETTERS * 0.34, letters, halo=True)


def _crowded(words: Words, ink: list[Point], sheet: Sheet) -> tuple[float, float]:
    """How much stands in the way of words: other words and ink, then how near the middle of the sketch they are."""
    left, top, right, bottom = words.box
    under = sum(left - 2 < x < right + 2 and top - 2 < y < bottom + 2 for x, y in ink)
    over = sum(overlap(words.box, other.box) for other in sheet.words)
    off = hypot((left + right) / 2 - sheet.width / 2, (top + bottom) / 2 - sheet.height / 2)
    return under + over, -off


def _dense(run: tuple[Point, ...]) -> Iterator[Point]:
    """Points close together along a run."""
    for a, b in pairwise(run):
        for n in range(DENSE):
            yield a[0] + (b[0] - a[0]) * n / DENSE, a[1] + (b[1] - a[1]) * n / DENSE


def bar_svg(shape: Shape, system: System = "ft in", prefix: str = "bar") -> str:
    """The sketch as SVG. Args: prefix: of its ids."""
    return svg.render(bar_sheet(shape, system), prefix)
