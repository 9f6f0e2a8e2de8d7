"""Laying out a sheet: views in rows, each at one scale; then dimensions, what governs, notes, key, title, scale bar."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from engine.result import LimitState
from engine.units import System
from webapp.drawings import annotate, furniture, governing
from webapp.drawings.hand import Hand, Sizes
from webapp.drawings.paper import Box, Panel, Sheet
from webapp.drawings.room import Room
from webapp.drawings.scene import Frame, Margins, Scene, ViewPlan
from webapp.drawings.shapes import KEY_WORDS, Area, Material
from webapp.drawings.view import View, paint


@dataclass(frozen=True, slots=True)
class WidthClass:
    """What a drawing of this width shows.

    Args: width [px]. tall: what all views together may take of the height [px]. most: largest inch [px]. full: every dimension and note;
    else the major ones. words: any words at all beside the scale bar. key, lens: whether there is one.
    """

    width: float
    tall: float
    most: float
    full: bool
    words: bool = True
    sizes: Sizes = Sizes()

    @property
    def stacked(self) -> bool:
        """Whether views stand one below the other."""
        return not self.full


WIDTHS = {
    "desk": WidthClass(664, 590, 15.5, True),
    "tablet": WidthClass(772, 640, 17.0, True),
    "phone": WidthClass(358, 360, 12.0, False, sizes=Sizes(13.5, 13.5, 13.0, 14.0, 15.5, 11.0)),
    "small": WidthClass(282, 250, 8.0, False, words=False),
}
FOOT = 62.0
TOP = 8.0
CAPTION = 30.0
COMPACT_KEY = 2


@dataclass(frozen=True, slots=True)
class Placed:
    """A scene on its sheet."""

    scene: Scene
    view: View
    panel: Panel
    plan: ViewPlan
    cell: Box
    scale_bar: bool

    @property
    def box(self) -> Box:
        """The window on paper [px]."""
        (x0, y0), (x1, y1) = self.scene.window
        left, bottom = self.view.px((x0, y0))
        right, top = self.view.px((x1, y1))
        return left, top, right, bottom


def margins(scene: Scene, wide: WidthClass) -> Margins:
    """Paper a view needs on each side for its strings and level marks [px]."""
    if not wide.words:
        return Margins(16, 14, 16, 16)
    need = {"left": 16.0, "right": 16.0, "top": 14.0, "bottom": 16.0}
    first = {"left": 34.0, "right": 56.0, "top": 40.0, "bottom": 30.0}
    for chain in scene.chains:
        if wide.full or chain.phone:
            side = chain.side
            need[side] = max(need[side], first[side] + 14 + (annotate.TIER if chain.overall and wide.full else 0.0))
    if scene.levels and wide.full:
        need["left"] += 64
    return Margins(**need)


def compose(
    plans: Sequence[ViewPlan], state: LimitState | None, wide: WidthClass, system: System, tag: str, title: str
) -> tuple[Sheet, list[Scene]]:
    """The whole sheet. Args: state: the governing line, None where nothing was checked."""
    sheet = Sheet(wide.width)
    keyed = wide.full and wide.words
    rows = _rows(plans, wide)
    key_strip = keyed and any(len(row) > 1 for row in rows[:1])
    top = TOP + (furniture.KEY_ROW + 14 if key_strip else 0.0)
    placed: list[Placed] = []
    for row in rows:
        top = _row(row, top, len(rows), len(plans) > 1, wide, placed)
    sheet.height = top + (FOOT if wide.words else 34.0)
    hand = Hand(sheet, Room((0, 0, sheet.width, sheet.height)), system, wide.sizes)
    for one in placed:
        paint(one.panel, one.view, one.scene.shapes)
        sheet.panels.append(one.panel)
        annotate.mind_shapes(hand, one.view, one.scene)
    _furnish(hand, placed, wide, tag, title, key_strip)
    if wide.words:
        _annotate(hand, placed, state, wide)
    elif state is not None:
        one, spot = _governs(placed, state)
        governing.ring(hand, one.view, spot, governing.tone(state))
    return sheet, [one.scene for one in placed]


def _rows(plans: Sequence[ViewPlan], wide: WidthClass) -> list[list[ViewPlan]]:
    if not wide.words:
        return [[plans[0]]]
    if wide.stacked:
        return [[plan] for plan in plans if plan.phone]
    return [[plan for plan in plans if plan.row == row] for row in sorted({plan.row for plan in plans})]


def _row(row: list[ViewPlan], top: float, rows: int, captioned: bool, wide: WidthClass, placed: list[Placed]) -> float:
    """Place one row of views below `top`. Returns: its lower edge [px]."""
    shares = sum(plan.share for plan in row)
    height = wide.tall * (1.0 if rows == 1 or wide.stacked else max(plan.tall for plan in row))
    left, found = 0.0, []
    for plan in row:
        width = wide.width * plan.share / shares
        frame = Frame(width - 110, height, plan.most or wide.most)
        need = margins(plan.build(frame), wide)
        frame = replace(frame, width=width - need.left - need.right)
        found.append((plan, plan.build(frame), need, frame, left, width))
        left += width
    scales = [frame.scale(*_extent(scene)) for _, scene, _, frame, _, _ in found]
    if len(row) > 1 and all(plan.aligned for plan in row):
        scales = [min(scales)] * len(row)
    above = max(need.top for _, _, need, _, _, _ in found)
    bottom, views = top, []
    for (plan, scene, need, frame, left, width), scale in zip(found, scales, strict=True):
        wide_px, tall_px = (inches * scale for inches in _extent(scene))
        spare = max(frame.width - wide_px, 0.0) / 2
        view = View(
            scale, left + need.left + spare - scene.window[0][0] * scale, top + above + scene.window[1][1] * scale
        )
        low = top + above + tall_px + need.bottom + (CAPTION if captioned and wide.words else 0.0)
        bottom = max(bottom, low)
        views.append((scene, view, plan, left, left + width))
    for scene, view, plan, left, right in views:
        placed.append(Placed(scene, view, Panel(view.scale), plan, (left, top, right, bottom), captioned))
    return bottom


def _extent(scene: Scene) -> tuple[float, float]:
    (x0, y0), (x1, y1) = scene.window
    return x1 - x0, y1 - y0


def _governs(placed: Sequence[Placed], state: LimitState) -> tuple[Placed, "governing.Spot"]:
    """The view and the place where the governing line occurs: the closest view that has it; a place not known is the first view's member."""
    for one in reversed(placed):
        if state.spot and state.spot in one.scene.spots:
            return one, one.scene.spots[state.spot]
    first = placed[0]
    return first, first.scene.spots[""]


def _furnish(hand: Hand, placed: list[Placed], wide: WidthClass, tag: str, title: str, key_strip: bool) -> None:
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
        furniture.title(hand, panel, tag, title, 18, height - 30, bar_left - 20)
        used = {shape.material for one in placed for shape in one.scene.shapes if isinstance(shape, Area)}
        materials = [material for material in KEY_WORDS if material in used and material is not Material.AIR]
        columns = len(materials) if key_strip else COMPACT_KEY
        furniture.key(hand, panel, width - 18, TOP + 12, materials, columns)
    else:
        furniture.plain_title(
            hand, f"{tag}, {title[0].lower()}{title[1:]}" if title else tag, 14, height - 22, bar_left - 14
        )
    if len(placed) > 1:
        for one in placed:
            furniture.caption(hand, panel, one.scene.name, one.cell, one.view.scale if len(scales) > 1 else 0.0)


def _annotate(hand: Hand, placed: list[Placed], state: LimitState | None, wide: WidthClass) -> None:
    lensed = None
    if state is not None:
        lensed = _govern(hand, placed, state, wide)
    for one in placed:
        annotate.levels(hand, one.view, one.scene, one.box, wide.full)
        annotate.chains(hand, one.view, one.scene, one.box, wide.full)
        annotate.members(hand, one.view, one.scene, wide.full)
    if state is not None and lensed is None:
        one, spot = _governs(placed, state)
        governing.note(hand, one.view, spot, state)
    for one in placed:
        annotate.inners(hand, one.view, one.scene, wide.full, fine=lensed is not one)
        annotate.labels(hand, one.view, one.scene, wide.full)
    annotate.missing(hand, [one.scene for one in placed])


def _govern(hand: Hand, placed: list[Placed], state: LimitState, wide: WidthClass) -> Placed | None:
    """Tint the spot, and enlarge it where there is clear paper. Returns: the view that got a lens."""
    one, spot = _governs(placed, state)
    governing.tint(one.panel, one.view, spot, governing.tone(state))
    if not (wide.full and one.plan.lens and one.scene.clear is not None):
        return None
    (x0, y0), (x1, y1) = one.scene.clear
    left, bottom = one.view.px((x0, y0))
    right, top = one.view.px((x1, y1))
    alone = len(placed) == 1
    low = max(bottom, hand.sheet.height - 46) if alone else one.cell[3] - CAPTION
    box = (left + 24, top + 6, max(right, one.cell[2] - 22), low)
    lens = governing.place_lens(one.view, spot, box)
    if lens is None:
        return None
    hand.sheet.panels.append(governing.lens(hand, one.view, one.scene, lens, spot, state))
    return one
