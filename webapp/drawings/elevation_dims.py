"""Dimensions of a wall's elevation: openings in a chain, what is set in running dimensions from the named end."""

import itertools
from collections.abc import Sequence

from engine.units import shown
from engine.wall import Opening
from webapp.drawings import dimensions
from webapp.drawings.dimensions import SLASH, String
from webapp.drawings.elevation_marks import symbol
from webapp.drawings.elevation_strips import FIGURE_PITCH, apart, spaced
from webapp.drawings.hand import Hand
from webapp.drawings.lettering import feet, width_px
from webapp.drawings.paper import Comb, Group, Line, Measured, Words
from webapp.drawings.shapes import Pen
from webapp.drawings.view import View

TIER = 28.0
KNEE, RULER = 16.0, 20.0  # between a ruler and its figures, and the room under it for spacings
FIGURES = 54.0  # height of turned figures
SAME = 1 / 32


def ruler_height() -> float:
    """Paper one row of running dimensions takes [px]."""
    return RULER + KNEE + FIGURES


def chain(hand: Hand, view: View, stops: Sequence[float], y_px: float, edge_px: float) -> None:
    """A chain along the wall through stations [in], its line at y_px, its object ending at edge_px."""
    pixels = tuple(view.px((stop, 0))[0] for stop in stops)
    inches = tuple(b - a for a, b in itertools.pairwise(stops))
    string = String("x", pixels, inches, y_px, (edge_px,) * len(stops), view.scale)
    dimensions.ink(hand, string)
    dimensions.figures(hand, string, letters=[feet(gap, hand.sizes.figure, hand.system) for gap in inches])


def upright(hand: Hand, view: View, stops: Sequence[float], x_px: float, edge_px: float) -> None:
    """A chain up the wall through levels [in]."""
    pixels = tuple(view.px((0, stop))[1] for stop in stops)
    inches = tuple(b - a for a, b in itertools.pairwise(stops))
    string = String("y", pixels, inches, x_px, (edge_px,) * len(stops), view.scale)
    dimensions.ink(hand, string)
    dimensions.figures(hand, string, letters=[feet(gap, hand.sizes.figure, hand.system) for gap in inches])


def jambs(openings: Sequence[Opening], start_in: float, end_in: float) -> list[float]:
    """Stops of a chain past the openings of a stretch: its ends and the jambs between them [in]."""
    sides = sorted({side * 12 for o in openings for side in (o.start_ft, o.end_ft)})
    inside = [side for side in sides if start_in + SAME < side < end_in - SAME]
    return [start_in, *inside, end_in]


def running(
    hand: Hand,
    view: View,
    what: str,
    stations: Sequence[float],
    y_px: float,
    span: tuple[float, float],
    bounds: tuple[float, float],
) -> None:
    """Running dimensions of one kind on a ruler whose line is at y_px: turned figures above, equal spacings below.

    Args: stations: ascending [in]. span: the strip's stretch of wall [in]. bounds: leftmost and rightmost pixel of figures.
    """
    size = hand.sizes.figure
    zero = [span[0]] if span[0] == 0 and stations[0] > SAME else []
    stops = [*zero, *stations]
    xs = [view.px((at, 0))[0] for at in stops]
    turned = apart([x + 0.36 * size for x in xs], max(FIGURE_PITCH, size + 1.5), bounds[0], bounds[1])
    hand.sheet.dimensions.append(Line(((xs[0], y_px), (xs[-1], y_px)), Pen.DIMENSION))
    slashes, leaders = [], []
    for at, x, base in zip(stops, xs, turned, strict=True):
        slashes.append(((x - SLASH, y_px + SLASH), (x + SLASH, y_px - SLASH)))
        foot = base - 0.36 * size
        leaders.append(((x, y_px), (x, y_px - 4), (foot, y_px - KNEE + 3), (foot, y_px - KNEE)))
        letters = feet(at, size, hand.system) if at else feet(0.0, size, hand.system)
        hand.put(Words(base, y_px - KNEE - 3, letters, turned=True))
    hand.sheet.dimensions += [Comb(tuple(slashes), Pen.SLASH), Comb(tuple(leaders), Pen.DIMENSION)]
    hand.sheet.groups.append(Group(symbol(what, bounds[0] - 18, y_px)))
    _spacings(hand, view, stations, y_px)


def _spacings(hand: Hand, view: View, stations: Sequence[float], y_px: float) -> None:
    size = hand.sizes.sub
    for start, end, count in spaced(stations):
        a, b = view.px((start, 0))[0], view.px((end, 0))[0]
        line = Line(((a, y_px), (b, y_px)), Pen.DIMENSION)
        hand.sheet.dimensions.append(Measured(end - start, view.scale, (line,)))
        figure = shown((end - start) / count, "in", hand.system).figure
        said = f"{count} at {figure}" if count > 1 else figure
        if width_px(said, size) + 6 < b - a:
            hand.write((a + b) / 2, y_px + size + 3, said, size, align="middle")
