"""Walls in plan by poche: the core solid between two foam hairlines, openings left white, joists as hatch lines."""

from collections.abc import Sequence
from itertools import pairwise

from engine.setting_out import stretches
from engine.setting_out.rules import Piece
from engine.wall import Opening
from webapp.drawings.paper import Comb, Fill, Line, Panel, Pixel
from webapp.drawings.plan_layout import Standing, mitred
from webapp.drawings.shapes import Pen, Point
from webapp.drawings.view import View

Pair = tuple[Standing | None, Standing | None]
JOIST_STUB_IN = 42.0  # how far a joist's end is shown; its span is not drawn


def depths(one: Standing, level: int) -> tuple[float, float, float, float]:
    """Depths behind the outer face: foam, core, core, foam [in]."""
    build = one.build(level)
    core = build.foam_outer_in + build.core_in
    return 0.0, build.foam_outer_in, core, build.overall_in


def _line(one: Standing, layer: int, level: int, pair: Pair) -> tuple[Point, Point]:
    before, after = ((other, depths(other, level)[layer]) if other else None for other in pair)
    return mitred(one, depths(one, level)[layer], before, after)


def poche(panel: Panel, view: View, one: Standing, level: int, pair: Pair) -> None:
    """One wall at a floor level; a wall that does not reach so high is outlined dashed."""
    faces = [_line(one, layer, level, pair) for layer in range(4)]
    if len(one.wall.storeys) < level:
        corners = (*faces[0], *reversed(faces[3]))
        panel.layers["hidden"].append(Line(view.pixels(corners), Pen.HIDDEN, closed=True))
        return
    openings = [o for o in one.wall.openings if o.storey == level]
    for solid in _solids(one, level, openings, faces[1], faces[2]):
        panel.layers["outline"].append(Fill(view.pixels(solid), "solid"))
    hairlines = [view.pixels(faces[0]), view.pixels(faces[3])]
    for end, other in ((0, pair[0]), (1, pair[1])):
        # A free end is closed by its edge; on a corner two cores meet without a seam.
        a, b = (0, 3) if other is None else (1, 2)
        hairlines.append(view.pixels((faces[a][end], faces[b][end])))
    panel.layers["outline"].append(Comb(tuple(hairlines), Pen.SEEN))
    for opening in openings:
        _opening(panel, view, one, depths(one, level)[3], opening)


def _solids(
    one: Standing, level: int, openings: Sequence[Opening], outer: tuple[Point, Point], inner: tuple[Point, Point]
) -> list[tuple[Point, ...]]:
    """The core between its openings, its ends on the corners."""
    _, near, far, _ = depths(one, level)
    gaps = tuple(Piece(o.start_ft * 12, o.end_ft * 12) for o in openings)
    found: list[tuple[Point, ...]] = []
    for piece in stretches(0.0, one.length, gaps):
        first, last = piece.start_in == 0.0, piece.end_in >= one.length - 1e-6
        a, d = (outer[0], inner[0]) if first else (one.at(piece.start_in, near), one.at(piece.start_in, far))
        b, c = (outer[1], inner[1]) if last else (one.at(piece.end_in, near), one.at(piece.end_in, far))
        found.append((a, b, c, d))
    return found


def _opening(panel: Panel, view: View, one: Standing, overall: float, opening: Opening) -> None:
    """A window with its glass line; a door, whose sill is the floor, without."""
    a, b = opening.start_ft * 12, opening.end_ft * 12
    corners = view.pixels((one.at(a, 0.0), one.at(b, 0.0), one.at(b, overall), one.at(a, overall)))
    panel.layers["outline"] += [Fill(corners, "paper"), Line(corners, Pen.SEEN, closed=True)]
    if opening.sill_ft > 0:
        glass = view.pixels((one.at(a, overall / 2), one.at(b, overall / 2)))
        panel.layers["outline"].append(Line(glass, Pen.SEEN))


def joists(panel: Panel, view: View, one: Standing, level: int, stations: Sequence[float]) -> None:
    """The ends of joists at their stations, toward the room."""
    face = depths(one, level)[3]
    ends = tuple(view.pixels((one.at(at, face), one.at(at, face + JOIST_STUB_IN))) for at in stations)
    if ends:
        panel.layers["hatch"].append(Comb(ends, Pen.HATCH))


def usual_gap(stations: Sequence[float]) -> float:
    """The spacing most joists have [in]; 0 for fewer than two."""
    gaps = [round(b - a, 3) for a, b in pairwise(sorted(stations))]
    return max(set(gaps), key=lambda gap: (gaps.count(gap), -gap)) if gaps else 0.0


def arrow(a: Pixel, b: Pixel, size: float = 5.0) -> tuple[Pixel, ...]:
    """A solid arrow head at b of a line from a."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = max((dx * dx + dy * dy) ** 0.5, 1e-9)
    ux, uy = dx / length, dy / length
    back = b[0] - 2 * size * ux, b[1] - 2 * size * uy
    return b, (back[0] - uy * size / 2, back[1] + ux * size / 2), (back[0] + uy * size / 2, back[1] - ux * size / 2)
