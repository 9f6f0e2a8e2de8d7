"""Parts that several sections share, as shapes in model inches: panels, cores, bars, members, bolts.

A size that is no input (a flange's depth, a deck's thickness, a nut) is drawn at a usual size and never dimensioned.
"""

from collections.abc import Iterator, Sequence
from math import floor, hypot

from webapp.drawings.shapes import Area, Break, Disc, Material, Pen, Point, Shape, Stroke, rectangle

# Usual sizes of parts that are not asked for; common practice, drawn without a figure.
FLANGE, DECK, CHORD = 1.5, 0.75, 1.5
BOTTOM, RIGHT, TOP, LEFT = 0, 1, 2, 3


def bar_diameter_in(size: str) -> float:
    """Nominal diameter of a bar of that number: eighths of an inch (ASTM A615)."""
    return int(size) / 8


def panel(x0: float, x1: float, y0: float, y1: float, broken: Sequence[int] = ()) -> Iterator[Shape]:
    """A foam panel cut through. Args: broken: edges where it goes on (BOTTOM, TOP)."""
    if x1 - x0 > 0 and y1 - y0 > 0:
        yield Area(rectangle(x0, y0, x1, y1), Material.FOAM, Pen.CUT_LIGHT, tuple(broken))


def joints(x0: float, x1: float, levels: Sequence[float]) -> Iterator[Shape]:
    """Course joints across a panel."""
    for y in levels:
        yield Stroke(((x0, y), (x1, y)), Pen.SEEN)


def course_levels(course_in: float, low: float, high: float) -> list[float]:
    """Levels of course joints strictly between two levels, one joint at 0."""
    first = floor(low / course_in) + 1
    found = []
    while first * course_in < high - 1e-9:
        found.append(first * course_in)
        first += 1
    return found


def upright_bar(x: float, diameter: float, y0: float, y1: float, broken: tuple[int, ...] = (BOTTOM, TOP)) -> Area:
    """A bar seen along its length. Args: broken: ends where it goes on."""
    half = diameter / 2
    return Area(rectangle(x - half, y0, x + half, y1), Material.STEEL_SEEN, Pen.BAR, broken)


def level_bar(y: float, diameter: float, x0: float, x1: float) -> Area:
    """A level bar seen along its length."""
    half = diameter / 2
    return Area(rectangle(x0, y - half, x1, y + half), Material.STEEL_SEEN, Pen.BAR)


def bar_places(curtains: str, core_in: float, cover_in: float, diameter: float) -> list[float]:
    """Where upright bars stand in a core, from its outer face: centred, or at the cover of both faces."""
    if curtains == "none":
        return []
    if curtains == "centre":
        return [core_in / 2]
    near = cover_in + diameter / 2
    return [near, core_in - near] if core_in - near > near + diameter else [core_in / 2]


def member(kind: str, x0: float, x1: float, y0: float, y1: float) -> Iterator[Shape]:
    """A joist seen from the side, its far end broken. Args: kind: "sawn", "i_joist" or "truss"."""
    depth = y1 - y0
    if kind == "truss":
        yield from _truss(x0, x1, y0, y1)
        return
    if kind != "i_joist" or depth < 4 * FLANGE:
        yield Area(rectangle(x0, y0, x1, y1), Material.WOOD_SEEN, Pen.CUT_LIGHT, (RIGHT,))
        return
    yield from i_joist(x0, x1, y0, y1, FLANGE)


def i_joist(x0: float, x1: float, y0: float, y1: float, flange: float) -> Iterator[Shape]:
    """Two flanges and a web seen from the side, the far end broken."""
    for low, high in ((y0, y0 + flange), (y0 + flange, y1 - flange), (y1 - flange, y1)):
        yield Area(rectangle(x0, low, x1, high), Material.WOOD_SEEN, Pen.SEEN, (RIGHT,))
    yield Stroke(((x1, y0), (x0, y0), (x0, y1), (x1, y1)), Pen.CUT_LIGHT)


def _truss(x0: float, x1: float, y0: float, y1: float) -> Iterator[Shape]:
    """Chords, an end post and webs at about 45 degrees."""
    inside_low, inside_high = y0 + CHORD, y1 - CHORD
    if inside_high <= inside_low:
        yield Area(rectangle(x0, y0, x1, y1), Material.WOOD_SEEN, Pen.CUT_LIGHT, (RIGHT,))
        return
    for low, high in ((y0, inside_low), (inside_high, y1)):
        yield Area(rectangle(x0, low, x1, high), Material.WOOD_SEEN, Pen.CUT_LIGHT, (RIGHT,))
    yield Area(rectangle(x0, inside_low, x0 + CHORD, inside_high), Material.WOOD_SEEN, Pen.SEEN, (), True, True)
    rise = inside_high - inside_low
    x, up = x0 + CHORD, True
    while x + rise < x1 - CHORD:
        low, high = (inside_low, inside_high) if up else (inside_high, inside_low)
        corners = ((x, low), (x + CHORD, low), (x + rise + CHORD, high), (x + rise, high))
        yield Area(corners, Material.WOOD_SEEN, Pen.SEEN, grained=False)
        x, up = x + rise, not up


def deck(x0: float, x1: float, y: float) -> Area:
    """Subfloor on top of the joists."""
    return Area(rectangle(x0, y, x1, y + DECK), Material.WOOD_SEEN, Pen.SEEN, (RIGHT,))


def upright_bolt(
    x: float, diameter: float, top: float, foot: float, head: str, hook_in: float = 0.0
) -> Iterator[Shape]:
    """An anchor bolt cut lengthwise, from its top to its foot. Args: head: "hook", "hex" or "heavy_hex"."""
    half = diameter / 2
    if head == "hook":
        back = x + half - max(hook_in, diameter)
        corners = (
            (x - half, top), (x - half, foot + diameter), (back, foot + diameter), (back, foot), (x + half, foot), (x + half, top),
        )  # fmt: skip
        yield Area(corners, Material.STEEL_CUT)
        return
    wide = diameter * (0.9 if head == "heavy_hex" else 0.8)
    yield Area(rectangle(x - half, foot, x + half, top), Material.STEEL_CUT)
    yield Area(rectangle(x - wide, foot, x + wide, foot + 0.65 * diameter), Material.STEEL_CUT)


def hidden_nut(x: float, diameter: float, seat: float) -> Iterator[Shape]:
    """Washer, nut and thread above a plate, behind what stands in front of them."""
    for half, low, high in ((1.5, 0.0, 0.15), (0.85, 0.15, 1.0), (0.5, 1.0, 1.6)):
        w, y0, y1 = half * diameter, seat + low * diameter, seat + high * diameter
        yield Stroke(rectangle(x - w, y0, x + w, y1), Pen.HIDDEN, closed=True)


def level_bolt(y: float, diameter: float, x0: float, x1: float, head_in: bool = True) -> Iterator[Shape]:
    """A bolt across a wall, cut lengthwise from its embedded end x0 to its outer end x1, with head and nut."""
    half, wide = diameter / 2, 0.85 * diameter
    yield Area(rectangle(x0, y - half, x1, y + half), Material.STEEL_CUT)
    if head_in:
        yield Area(rectangle(x0, y - wide, x0 + 0.65 * diameter, y + wide), Material.STEEL_CUT)


def nut(y: float, diameter: float, x: float) -> Iterator[Shape]:
    """Washer and nut on a face at x, the nut toward the room."""
    yield Area(rectangle(x, y - 1.5 * diameter, x + 0.15 * diameter, y + 1.5 * diameter), Material.STEEL_CUT)
    yield Area(
        rectangle(x + 0.15 * diameter, y - 0.85 * diameter, x + diameter, y + 0.85 * diameter), Material.STEEL_CUT
    )


def breaks(*lines: tuple[Point, Point]) -> Iterator[Shape]:
    """Drafted breaks."""
    for a, b in lines:
        yield Break(a, b)


def box_around(points: Sequence[Point], by: float) -> tuple[Point, ...]:
    """A rectangle around points with a margin."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return rectangle(min(xs) - by, min(ys) - by, max(xs) + by, max(ys) + by)


def dot(x: float, y: float, diameter: float) -> Disc:
    """A bar or screw cut across."""
    return Disc((x, y), diameter / 2)


def outer_stub(x: float, y0: float, y1: float, shown: float = 1.5) -> Iterator[Shape]:
    """The outer panel of a wall whose outer foam is not asked for: a strip of it, broken off."""
    yield Area(rectangle(x - shown, y0, x, y1), Material.FOAM)
    yield Break((x - shown, y0), (x - shown, y1))


def merged(spans: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Spans that touch or overlap made one, in order."""
    found: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def gaps(low: float, high: float, spans: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """What the spans leave of a range."""
    found, at = [], low
    for start, end in merged([(max(a, low), min(b, high)) for a, b in spans if a < high and b > low]):
        if start > at:
            found.append((at, start))
        at = end
    if at < high:
        found.append((at, high))
    return found


def ribbon(path: Sequence[Point], width: float) -> tuple[Point, ...]:
    """Corners of a bent bar of some width along the middle of its path, mitred at its bends."""
    left: list[Point] = []
    right: list[Point] = []
    for n, (x, y) in enumerate(path):
        ways = [_unit(path[m], path[m + 1]) for m in (n - 1, n) if 0 <= m < len(path) - 1]
        tx, ty = (sum(part) for part in zip(*ways, strict=True))
        # Half the mitre: the sum of two unit vectors is as long as twice the cosine of half the turn.
        stretch = width / max((tx * tx + ty * ty) if len(ways) == 2 else 2.0, 0.5)
        left.append((x - ty * stretch, y + tx * stretch))
        right.append((x + ty * stretch, y - tx * stretch))
    return (*left, *reversed(right))


def _unit(a: Point, b: Point) -> Point:
    length = max(hypot(b[0] - a[0], b[1] - a[1]), 1e-9)
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length
