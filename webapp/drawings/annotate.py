"""Everything said about a view: dimension strings on its sides and inside, level marks, notes, parts that are missing."""

from collections.abc import Sequence

from engine import units
from webapp.drawings import dimensions, notes
from webapp.drawings.dimensions import OVER_HATCH, PLAIN, String
from webapp.drawings.hand import Hand
from webapp.drawings.lettering import lines, with_words
from webapp.drawings.paper import Box
from webapp.drawings.scene import Chain, Inner, Scene
from webapp.drawings.shapes import Area, Break, Disc, Material
from webapp.drawings.view import View, drafted_break

FIRST_LINE = {"left": 27.0, "right": 29.0, "top": 28.0, "bottom": 28.0}
TIER = 28.0
WEIGHT = {
    Material.CONCRETE: 0.02,
    Material.FOAM: 0.02,
    Material.WOOD_CUT: 0.02,
    Material.WOOD_SEEN: 0.008,
    Material.STEEL_CUT: 0.08,
    Material.STEEL_SEEN: 0.03,
}
STEEL_DOT = 0.3
EDGED = (Material.WOOD_SEEN, Material.WOOD_CUT, Material.STEEL_SEEN)


def mind_shapes(hand: Hand, view: View, scene: Scene) -> None:
    """Let words prefer empty paper to drawn parts."""
    for shape in scene.shapes:
        if isinstance(shape, Area):
            points = view.pixels(shape.corners)
            xs, ys = [x for x, _ in points], [y for _, y in points]
            hand.room.busy.append(((min(xs), min(ys), max(xs), max(ys)), WEIGHT.get(shape.material, 0.01)))
            if shape.pen is not None and shape.material in EDGED:
                hand.mind((*points, points[0]))
        elif isinstance(shape, Disc):
            (x, y), r = view.px(shape.centre), shape.radius_in * view.scale
            hand.room.busy.append(((x - r, y - r, x + r, y + r), STEEL_DOT))
        elif isinstance(shape, Break):
            zigzag = drafted_break(view.px(shape.a), view.px(shape.b))[1:5]
            xs, ys = [x for x, _ in zigzag], [y for _, y in zigzag]
            hand.room.busy.append(((min(xs), min(ys), max(xs), max(ys)), STEEL_DOT))


def _line(side: str, box: Box, tier: int) -> float:
    away = FIRST_LINE[side] + tier * TIER
    return {"left": box[0] - away, "right": box[2] + away, "top": box[1] - away, "bottom": box[3] + away}[side]


def _string(view: View, chain: Chain, line: float) -> String:
    level = chain.side in ("top", "bottom")
    edges_in = chain.edges()
    if level:
        stops = tuple(view.px((stop, 0))[0] for stop in chain.stops)
        edges = tuple(view.px((0, edge))[1] for edge in edges_in)
    else:
        stops = tuple(view.px((0, stop))[1] for stop in chain.stops)
        edges = tuple(view.px((edge, 0))[0] for edge in edges_in)
    inches = tuple(abs(b - a) for a, b in zip(chain.stops, chain.stops[1:], strict=False))
    return String("x" if level else "y", stops, inches, line, edges, view.scale)


def strings(hand: Hand, view: View, scene: Scene, box: Box, full: bool) -> None:
    """Dimension strings beside the view, a chain first and the overall beyond it; then those inside."""
    beside: list[String] = []
    for chain in scene.chains:
        if not (full or chain.phone):
            continue
        shown = chain if full else chain.of(chain.phone)
        beside.append(_string(view, shown, _line(chain.side, box, 0)))
        if chain.overall and full and len(chain.stops) > 2:
            beside.append(_string(view, chain.of((0, len(chain.stops) - 1)), _line(chain.side, box, 1)))
    inside = [(inner, _inner(view, inner)) for inner in scene.inners if full or inner.major]
    for string in beside:
        dimensions.ink(hand, string)
    for _, string in inside:
        dimensions.ink(hand, string, OVER_HATCH)
    for string in beside:
        dimensions.figures(hand, string, PLAIN)
    for inner, string in inside:
        figure = hand.figure(string.inches[0])
        dimensions.figures(hand, string, OVER_HATCH, [with_words(figure, inner.words) if inner.words else figure])


def fine(hand: Hand, view: View, scene: Scene) -> None:
    """Small dimensions as notes, where no lens shows them."""
    for inner in scene.fine:
        middle = sum(inner.stops) / 2
        point = (middle, inner.at_in) if inner.along == "x" else (inner.at_in, middle)
        length = units.show(abs(inner.stops[1] - inner.stops[0]), "in", hand.system)
        notes.leader_note(hand, view.px(point), notes.block(hand, f"{length} {inner.words}"))


def _inner(view: View, inner: Inner) -> String:
    level = inner.along == "x"
    stops = tuple(view.px((s, 0))[0] if level else view.px((0, s))[1] for s in inner.stops)
    line = view.px((0, inner.at_in))[1] if level else view.px((inner.at_in, 0))[0]
    edges = None
    if inner.edge_in is not None:
        edges = tuple(view.px((0, e))[1] if level else view.px((e, 0))[0] for e in inner.edge_in)
    return String(inner.along, stops, (abs(inner.stops[1] - inner.stops[0]),), line, edges, view.scale)


def members(hand: Hand, view: View, scene: Scene, full: bool) -> None:
    """Words that stand inside what they name."""
    for note in scene.notes:
        if note.within is None or not full:
            continue
        left, bottom = view.px(note.within[0])
        right, top = view.px(note.within[1])
        for room_px in (170.0, 100.0):
            if notes.within(hand, (left, top, right, bottom), notes.block(hand, note.words, note.sub, room_px)):
                break
        else:
            notes.leader_note(hand, view.px(note.point), notes.block(hand, note.words, note.sub))


def tags(hand: Hand, view: View, scene: Scene) -> None:
    """Words that stand inside what they name, and nowhere else."""
    for tag in scene.tags:
        if tag.within is not None:
            left, bottom = view.px(tag.within[0])
            right, top = view.px(tag.within[1])
            notes.within(hand, (left, top, right, bottom), notes.block(hand, tag.words, tag.sub))


def labels(hand: Hand, view: View, scene: Scene, full: bool) -> None:
    """Words with leaders."""
    for note in scene.notes:
        if note.within is None and full:
            notes.leader_note(hand, view.px(note.point), notes.block(hand, note.words, note.sub))


def levels(hand: Hand, view: View, scene: Scene, box: Box, full: bool) -> None:
    """Level marks at the left."""
    if not full:
        return
    for level in scene.levels:
        y = view.px((0, level.y_in))[1]
        beside = 104 if any(chain.side == "left" for chain in scene.chains) else 70
        notes.level_mark(hand, y, box[0] - beside, box[0], level.words, level.sub)


def missing(scenes: Sequence[Scene], width_px: float, size: float) -> list[str]:
    """What could not be drawn, as lines for the foot of the sheet."""
    parts = [part for scene in scenes for part in scene.missing]
    return lines(f"Not drawn: {'; '.join(parts)}.", size, width_px, most=4) if parts else []
