"""Verdict marks in a 20 x 20 box, as plain geometry that every renderer can ink."""

from dataclasses import dataclass

from engine.result import Verdict
from webapp.drawings.paper import Pixel


@dataclass(frozen=True, slots=True)
class Part:
    """A piece of a mark: a filled outline, a line of some width, or a ring (one point and a radius)."""

    points: tuple[Pixel, ...]
    width: float = 0.0
    radius: float = 0.0
    cut: bool = False  # in the colour of the paper


def _box(x0: float, y0: float, x1: float, y1: float) -> tuple[Pixel, ...]:
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


# Filled square with a tick cut out; pole and pennant; ring with an arrow; open ruler; a short dash for what was not judged.
MARKS: dict[str, tuple[Part, ...]] = {
    Verdict.PASS: (Part(_box(2, 2, 18, 18)), Part(((5.6, 10.3), (8.7, 13.4), (14.4, 6.9)), 2.2, cut=True)),
    Verdict.FLAG: (Part(_box(3, 1, 5, 19)), Part(((5, 2), (18, 7), (5, 12)))),
    Verdict.REFER: (
        Part(((10, 10),), 1.9, 7.9),
        Part(((5.6, 10), (14, 10)), 1.9),
        Part(((10.6, 6.6), (14, 10), (10.6, 13.4)), 1.9),
    ),
    Verdict.ADVISORY: (
        Part((*_box(1.2, 5.8, 18.8, 14.2), (1.2, 5.8)), 1.3),
        *(Part(((x, 5.8), (x, 5.8 + long)), 1.3) for x, long in ((4.7, 3.2), (8.2, 4.8), (11.7, 3.2), (15.2, 4.8))),
    ),
    Verdict.UNCHECKED: (Part(((5, 10), (15, 10)), 1.9),),
}
