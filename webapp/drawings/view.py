"""From model inches to paper: one scale a view, shapes to ink in their layers."""

from dataclasses import dataclass
from math import hypot

from webapp.drawings.hatches import RING_STEP, grain, rings
from webapp.drawings.paper import Circle, Fill, Line, Panel, Pixel
from webapp.drawings.shapes import Area, Disc, Material, Pen, Point, Shape, Stroke

HATCH_LAYER = {
    Material.WOOD_SEEN: "wood-seen",
    Material.WOOD_CUT: "wood-cut",
    Material.STEEL_CUT: "steel",
    Material.STEEL_SEEN: "steel",
}
LINE_LAYER = {Pen.CUT: "outline", Pen.CUT_LIGHT: "outline", Pen.HIDDEN: "hidden", Pen.CENTRE: "hidden", Pen.BAR: "bars"}
BREAK_PAST, BREAK_HALF, BREAK_RISE = 9.0, 7.0, 10.0


@dataclass(frozen=True, slots=True)
class View:
    """Where a view stands: pixels an inch, and the pixel of the model's origin. `zoom` above 1 is a lens."""

    scale: float
    x: float
    y: float
    zoom: float = 1.0

    def px(self, point: Point) -> Pixel:
        """A model point on paper."""
        return self.x + point[0] * self.scale, self.y - point[1] * self.scale

    def pixels(self, points: tuple[Point, ...]) -> tuple[Pixel, ...]:
        """Model points on paper."""
        x, y, s = self.x, self.y, self.scale
        return tuple([(x + px * s, y - py * s) for px, py in points])

    def enlarged(self, about: Point, centre: Pixel, factor: float) -> "View":
        """The same model seen larger, `about` standing at the pixel `centre`."""
        scale = self.scale * factor
        return View(scale, centre[0] - about[0] * scale, centre[1] + about[1] * scale, factor)


def paint(panel: Panel, view: View, shapes: tuple[Shape, ...]) -> None:
    """Ink the shapes of a view into the layers of its panel."""
    for shape in shapes:
        if isinstance(shape, Area):
            _area(panel, view, shape)
        elif isinstance(shape, Stroke):
            layer = LINE_LAYER.get(shape.pen, "steel")
            panel.layers[layer].append(Line(view.pixels(shape.points), shape.pen, shape.closed))
        elif isinstance(shape, Disc):
            _disc(panel, view, shape)
        elif view.zoom == 1.0:
            panel.layers["outline"].append(Line(drafted_break(view.px(shape.a), view.px(shape.b)), Pen.SEEN))


def _area(panel: Panel, view: View, area: Area) -> None:
    corners = view.pixels(area.corners)
    layer = HATCH_LAYER.get(area.material, "hatch")
    if area.pen is Pen.BAR:
        layer = "bars"
    ink = panel.layers[layer]
    ink.append(Fill(corners, area.material, zoom=view.zoom))
    if area.material is Material.WOOD_CUT:
        ink.extend(Line(ring, Pen.GRAIN) for ring in rings(corners, RING_STEP * (1.4 if view.zoom > 1 else 1)))
    elif area.material is Material.WOOD_SEEN and area.grained:
        ink.extend(Line(line, Pen.GRAIN) for line in grain(corners, area.upright))
    if area.pen is None:
        return
    where = panel.layers[LINE_LAYER.get(area.pen, layer)] if area.pen is not Pen.SEEN else ink
    if not area.open_edges:
        where.append(Line(corners, area.pen, closed=True))
        return
    where.extend(Line(run, area.pen) for run in _runs(corners, area.open_edges))


def _runs(corners: tuple[Pixel, ...], open_edges: tuple[int, ...]) -> list[tuple[Pixel, ...]]:
    """The outline without its open edges, as runs of neighbouring edges."""
    count = len(corners)
    first = open_edges[0] + 1
    runs: list[list[Pixel]] = [[]]
    for step in range(count):
        edge = (first + step) % count
        if edge in open_edges:
            runs.append([])
            continue
        if not runs[-1]:
            runs[-1].append(corners[edge])
        runs[-1].append(corners[(edge + 1) % count])
    return [tuple(run) for run in runs if run]


def _disc(panel: Panel, view: View, disc: Disc) -> None:
    x, y = view.px(disc.centre)
    radius = max(disc.radius_in * view.scale, 1.2)
    if disc.pen is Pen.HIDDEN:
        panel.layers["hidden"].append(Circle(x, y, radius, disc.pen if radius > 5 else Pen.SEEN))
    else:
        panel.layers["steel"].append(Circle(x, y, radius, disc.pen, Material.STEEL_CUT if disc.solid else "paper"))


def drafted_break(a: Pixel, b: Pixel) -> tuple[Pixel, ...]:
    """A break line from a to b, a little past both, with its zigzag in the middle."""
    length = hypot(b[0] - a[0], b[1] - a[1])
    if length < 1e-6:
        return a, b
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    half = min(BREAK_HALF, length / 4)
    rise = BREAK_RISE * half / BREAK_HALF
    middle = length / 2

    def at(along: float, aside: float) -> Pixel:
        return a[0] + ux * along - uy * aside, a[1] + uy * along + ux * aside

    return (
        at(-BREAK_PAST, 0), at(middle - half, 0), at(middle - half / 2.5, -rise), at(middle + half / 2.5, rise),
        at(middle + half, 0), at(length + BREAK_PAST, 0),
    )  # fmt: skip
