"""Laying out a sheet: views in rows, each at one scale; then dimensions, what governs, notes, key, title, scale bar."""

from collections.abc import Sequence

from engine.result import LimitState
from engine.units import System
from webapp.drawings import annotate, furniture, governing, lens
from webapp.drawings.hand import Hand
from webapp.drawings.layout import CAPTION, TOP, Placed, WidthClass, place_row, rows_of
from webapp.drawings.paper import Box, Panel, Sheet
from webapp.drawings.room import Room
from webapp.drawings.scene import Scene, Spot, ViewPlan
from webapp.drawings.shapes import KEY_WORDS, Area, Material
from webapp.drawings.view import paint

FOOT = 62.0
BARE_HEIGHT = 326.0  # of small comparison drawings, which stand beside each other
BAR = 42.0  # of it under the view, for the scale bar
SIDE = 18.0
ABSENT_LINE = 17.0
KEY_COLUMNS = 2


def compose(
    plans: Sequence[ViewPlan], state: LimitState | None, wide: WidthClass, system: System, tag: str, title: str
) -> tuple[Sheet, list[Scene]]:
    """The whole sheet. Args: state: the governing line, None where nothing was checked."""
    sheet = Sheet(wide.width)
    hand = Hand(sheet, Room((0, 0, sheet.width, 0)), system, wide.sizes)
    placed, bottom = _place(hand, plans, wide)
    absent = (
        annotate.missing([one.scene for one in placed], wide.width - 2 * SIDE, wide.sizes.note) if wide.words else []
    )
    sheet.height = bottom + FOOT + ABSENT_LINE * len(absent) if wide.words else BARE_HEIGHT
    hand.room.bounds = (0, 0, sheet.width, sheet.height)
    for one in placed:
        paint(one.panel, one.view, one.scene.shapes)
        sheet.panels.append(one.panel)
        annotate.mind_shapes(hand, one.view, one.scene)
    _furnish(hand, placed, wide, tag, title)
    for number, said in enumerate(absent):
        hand.write(SIDE, bottom + ABSENT_LINE * (number + 1), said, wide.sizes.note)
    if wide.words:
        _annotate(hand, placed, state, wide)
    elif state is not None:
        one, spot = _governs(placed, state)
        governing.ring(hand, one.view, spot, governing.tone(state))
    return sheet, [one.scene for one in placed]


def _place(hand: Hand, plans: Sequence[ViewPlan], wide: WidthClass) -> tuple[list[Placed], float]:
    """Rows of views from the top, or as much lower down as they must be. Returns: the views, their lower edge."""
    rows = rows_of(plans, wide)
    shift = 0.0
    while True:
        top = TOP + shift
        placed: list[Placed] = []
        for row in rows:
            top = place_row(row, top, len(rows), len(plans) > 1, wide, placed)
        if shift:
            return placed, top
        shift = _lower(hand, placed, top, wide)
        if not shift:
            return placed, top


def _lower(hand: Hand, placed: Sequence[Placed], bottom: float, wide: WidthClass) -> float:
    """How much lower views must stand: below the key they would run under; on a small sheet, in the middle above its bar."""
    if not wide.words:
        return max(BARE_HEIGHT - BAR - bottom, 0.0) / 2
    if wide.full and _under_key(hand, placed, wide):
        return _key_box(hand, placed, wide)[3] - TOP - 4
    return 0.0


def _materials(placed: Sequence[Placed]) -> list[Material]:
    used = {shape.material for one in placed for shape in one.scene.shapes if isinstance(shape, Area)}
    return [material for material in KEY_WORDS if material in used]


def _key_box(hand: Hand, placed: Sequence[Placed], wide: WidthClass) -> Box:
    width, height = furniture.key_size(hand, len(_materials(placed)), KEY_COLUMNS)
    right = wide.width - SIDE
    return right - width, TOP + 12, right, TOP + 12 + height


def _under_key(hand: Hand, placed: Sequence[Placed], wide: WidthClass) -> bool:
    """Whether any shape or any string above a view comes under the key."""
    key = _key_box(hand, placed, wide)
    for one in placed:
        if one.box[1] < key[3] and len(placed) > 1 and one.box[0] > wide.width / 3:
            return True
        for shape in one.scene.shapes:
            points = one.view.pixels(shape.corners) if isinstance(shape, Area) else ()
            if points and max(x for x, _ in points) > key[0] and min(y for _, y in points) < key[3] + 4:
                return True
    return False


def _governs(placed: Sequence[Placed], state: LimitState) -> tuple[Placed, Spot]:
    """The closest view that has the governing line's place, and the place; one not known is the first view's member."""
    for one in reversed(placed):
        if state.spot and state.spot in one.scene.spots:
            return one, one.scene.spots[state.spot]
    first = placed[0]
    return first, first.scene.spots[""]


def _furnish(hand: Hand, placed: list[Placed], wide: WidthClass, tag: str, title: str) -> None:
    panel = Panel(0.0)
    hand.sheet.panels.append(panel)
    height, width = hand.sheet.height, hand.sheet.width
    if not wide.words:
        furniture.scale_bar(hand, panel, placed[0].view.scale, width - 16, height - 30, 90)
        return
    scales = {round(one.view.scale, 6) for one in placed}
    bar_left = width - 18
    if len(scales) == 1:
        longest = furniture.LONGEST_BAR if wide.full else 120.0
        bar_left = furniture.scale_bar(hand, panel, placed[0].view.scale, width - 18, height - 34, longest)
    if wide.full:
        furniture.title(hand, panel, tag, title, SIDE, height - 30, bar_left - 20)
        furniture.key(hand, panel, width - SIDE, TOP + 12, _materials(placed), KEY_COLUMNS)
        hand.room.take(_key_box(hand, placed, wide))
    else:
        furniture.plain_title(
            hand, f"{tag}, {title[0].lower()}{title[1:]}" if title else tag, 14, height - 22, bar_left - 14
        )
    if len(placed) > 1:
        for one in placed:
            furniture.caption(hand, panel, one.scene.name, one.cell, one.view.scale if len(scales) > 1 else 0.0)


def _annotate(hand: Hand, placed: list[Placed], state: LimitState | None, wide: WidthClass) -> None:
    """Everything in words and dimensions, what must stand in one place first."""
    lensed, said = (None, False) if state is None else _enlarge(hand, placed, state, wide)
    for one in placed:
        annotate.levels(hand, one.view, one.scene, one.box, wide.full)
        annotate.strings(hand, one.view, one.scene, one.box, wide.full)
    for one in placed:
        hand.cell = one.cell
        annotate.members(hand, one.view, one.scene, wide.full)
        annotate.tags(hand, one.view, one.scene)
    if state is not None and not said:
        one, spot = _governs(placed, state)
        hand.cell = one.cell
        governing.note(hand, lensed.view(one.view) if lensed else one.view, one.scene, spot, state)
    for one in placed:
        hand.cell = one.cell
        if wide.full and lensed is None:
            annotate.fine(hand, one.view, one.scene)
        annotate.labels(hand, one.view, one.scene, wide.full)


def _enlarge(hand: Hand, placed: list[Placed], state: LimitState, wide: WidthClass) -> tuple[lens.Lens | None, bool]:
    """Tint the governing spot, and enlarge it where there is clear paper. Returns: the lens, and whether it says the finding."""
    one, spot = _governs(placed, state)
    governing.tint(one.panel, one.view, spot, governing.tone(state))
    if not (wide.full and one.plan.lens and one.scene.clear is not None):
        return None, False
    (x0, y0), (x1, y1) = one.scene.clear
    left, bottom = one.view.px((x0, y0))
    right, top = one.view.px((x1, y1))
    low = max(bottom, hand.sheet.height - 46) if len(placed) == 1 else one.cell[3] - CAPTION
    found = lens.place(one.view, spot, (left + 24, top + 6, max(right, one.cell[2] - 22), low))
    if found is None:
        return None, False
    return found, lens.draw(hand, one.view, one.scene, found, spot, state)
