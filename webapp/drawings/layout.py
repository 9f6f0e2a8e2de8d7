"""Where views stand on a sheet: width classes, rows, the paper each view needs about it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from webapp.drawings.annotate import TIER
from webapp.drawings.hand import Sizes
from webapp.drawings.paper import Box, Panel
from webapp.drawings.scene import Frame, Margins, Scene, ViewPlan
from webapp.drawings.view import View

SIZES = Sizes()


@dataclass(frozen=True, slots=True)
class WidthClass:
    """What a drawing of this width shows.

    Args: width [px]. tall: what all views together may take of the height [px]. most: largest inch [px]. full: key, lens, every
    dimension and note; else the major ones. words: any words at all beside the scale bar.
    """

    width: float
    tall: float
    most: float
    full: bool
    words: bool = True
    sizes: Sizes = SIZES

    @property
    def stacked(self) -> bool:
        """Whether views stand one below the other."""
        return not self.full


WIDTHS = {
    "desk": WidthClass(664, 590, 15.5, True),
    "tablet": WidthClass(772, 640, 17.0, True),
    "phone": WidthClass(358, 360, 12.0, False, sizes=Sizes(13.5, 13.5, 13.0, 14.0, 15.5, 11.0)),
    "letter": WidthClass(438, 470, 10.5, True, sizes=Sizes(9.6, 9.6, 9.4, 10.5, 12.0, 9.4)),  # on paper, 7 pt and up
    "small": WidthClass(282, 250, 9.5, False, words=False),
    "half": WidthClass(358, 282, 12.0, False, words=False),
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
            need[side] = max(need[side], first[side] + 14 + (TIER if chain.overall and wide.full else 0.0))
    if scene.levels and wide.full:
        need["left"] += 64
    return Margins(**need)


def rows_of(plans: Sequence[ViewPlan], wide: WidthClass) -> list[list[ViewPlan]]:
    """The views by the row of the sheet they stand in."""
    if not wide.words:
        return [[plans[0]]]
    if wide.stacked:
        return [[plan] for plan in plans if plan.phone]
    return [[plan for plan in plans if plan.row == row] for row in sorted({plan.row for plan in plans})]


def place_row(
    row: list[ViewPlan], top: float, rows: int, captioned: bool, wide: WidthClass, placed: list[Placed]
) -> float:
    """Place one row of views below `top`. Returns: its lower edge [px]."""
    shares = sum(plan.share for plan in row)
    height = wide.tall * (1.0 if rows == 1 or wide.stacked else max(plan.tall for plan in row))
    left, found = 0.0, []
    for plan in row:
        width = wide.width * plan.share / shares
        frame, scene, need = _fit(plan, wide, Frame(width, height, plan.most or wide.most))
        found.append((plan, scene, need, frame, left, width))
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
        placed.append(Placed(scene, view, Panel(view.scale), plan, (left, top, right, bottom)))
    return bottom


def _fit(plan: ViewPlan, wide: WidthClass, cell: Frame) -> tuple[Frame, Scene, Margins]:
    """Build a view for what its strings leave of the cell; a narrower view may bring further strings into its window."""
    need = Margins(55, 55, 0, 0)
    while True:
        frame = replace(cell, width=cell.width - need.left - need.right)
        scene = plan.build(frame)
        wanted = margins(scene, wide)
        if need.left >= wanted.left and need.right >= wanted.right and need.top:
            return frame, scene, Margins(need.left, need.right, wanted.top, wanted.bottom)
        first = not need.top
        left, right = (
            (wanted.left, wanted.right) if first else (max(need.left, wanted.left), max(need.right, wanted.right))
        )
        need = Margins(left, right, 1.0, 1.0)


def _extent(scene: Scene) -> tuple[float, float]:
    (x0, y0), (x1, y1) = scene.window
    return x1 - x0, y1 - y0
