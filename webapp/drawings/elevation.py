"""A wall seen from the room, to scale: its storeys and openings, what it carries and where everything is set.

Stations run from the named end at the left. A long wall is cut into strips at match lines. What is set hangs in rows under its
floor level: along the wall to scale, a row a kind.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from engine.setting_out import WORDS, SettingOut
from engine.units import System, show
from engine.wall import Wall
from webapp.drawings import elevation_dims as dims
from webapp.drawings import furniture, svg
from webapp.drawings.elevation_marks import HEADERED, KEY_ROW, key
from webapp.drawings.elevation_openings import label_openings
from webapp.drawings.elevation_strips import ELEVATIONS, Block, Strips, blocks, key_of, levels_in, strips
from webapp.drawings.elevation_wall import Strip, draw_findings, draw_rows, draw_wall
from webapp.drawings.hand import Hand
from webapp.drawings.layout import WidthClass
from webapp.drawings.paper import Panel, Sheet
from webapp.drawings.room import Room
from webapp.drawings.view import View

SIDE = 18.0
LEFT, RIGHT, NARROW = 76.0, 58.0, 30.0  # paper beside a wall, with its heights and levels, and without
HEAD = 22.0  # above a wall, for the names of its ends
BETWEEN, FOOT = 14.0, 66.0
BELOW = 44.0  # chain of the lowest storey's openings


@dataclass(frozen=True, slots=True)
class Elevation:
    """What is drawn: a wall with everything set on it, and whose stations are written out."""

    wall: Wall
    entries: tuple[SettingOut, ...]
    focus: SettingOut | None
    rows: dict[int, tuple[Block, ...]]
    wide: WidthClass

    @property
    def rulers(self) -> tuple[tuple[str, tuple[float, ...]], ...]:
        """Kinds of the focus with their stations [in]."""
        if self.focus is None:
            return ()
        whats = dict.fromkeys(mark.what for mark in self.focus.marks)
        return tuple((what, self.focus.stations(what)) for what in WORDS if what in whats)

    @property
    def above(self) -> float:
        """Paper above a wall for its chains or running dimensions [px]."""
        if self.focus is not None:
            return HEAD + len(self.rulers) * dims.ruler_height() + 6
        upper = {o.storey for o in self.wall.openings if o.storey > 1} if self.wide.full else set()
        return HEAD + dims.TIER * len(upper) + (14 if upper else 0) + self.over_top

    @property
    def over_top(self) -> float:
        """Further paper for findings at the top of the wall [px]."""
        top = len(self.wall.storeys)
        return 20.0 if any(entry.level == top and entry.findings for entry in self.entries) else 0.0


def elevation_sheet(
    wall: Wall,
    set_out: Sequence[SettingOut],
    system: System = "ft in",
    width_class: str = "desk",
    tag: str = "",
    title: str = "",
    focus: str = "",
) -> Sheet:
    """The setting-out elevation of a wall for any renderer.

    Args: set_out: of this wall, as `engine.set_job.set_wall` gives it. width_class: one of `ELEVATIONS`. tag: in the circle, by
    default the wall's name. focus: whose stations are written out: an attachment's tag, or "wall 1" for a storey's own.
    """
    entries = tuple(entry for entry in set_out if entry.wall == wall.name)
    chosen = next((entry for entry in entries if focus and key_of(entry) == focus), None)
    drawn = Elevation(wall, entries, chosen, blocks(entries), ELEVATIONS[width_class])
    sheet = Sheet(drawn.wide.width)
    hand = Hand(sheet, Room((0, 0, sheet.width, 1e6)), system, drawn.wide.sizes)
    length = show(wall.line.length_ft, "ft", system)
    shown = title or f"Wall {wall.name} from the room, {length} long" + (f": {focus}" if chosen else "")
    bottom = _strips(hand, drawn)
    _furnish(hand, drawn, bottom, tag or wall.name, shown)
    sheet.finding = _finding(shown, drawn, system)
    sheet.description = _description(drawn, system)
    return sheet


def elevation_svg(
    wall: Wall,
    set_out: Sequence[SettingOut],
    system: System = "ft in",
    width_class: str = "desk",
    tag: str = "",
    title: str = "",
    focus: str = "",
    prefix: str = "",
) -> str:
    """The elevation as SVG. Args: as `elevation_sheet`; prefix: of its ids.

    Every mark is a group with data-what, data-at (station in inches), data-number, data-tag, data-level and data-scale (pixels an
    inch; stations run to the right).
    """
    sheet = elevation_sheet(wall, set_out, system, width_class, tag, title, focus)
    return svg.render(sheet, prefix or svg.slug(f"e-{wall.name}-{width_class}"))


def _strips(hand: Hand, drawn: Elevation) -> float:
    """Every strip, one below the other. Returns: the lower edge of the last [px]."""
    full = drawn.wide.full
    left, right = (LEFT, RIGHT) if full else (NARROW, NARROW)
    crowd = max((stations for _, stations in drawn.rulers), key=len, default=())
    cut = strips(drawn.wall, drawn.rows, drawn.wide.width - left - right, crowd)
    top = 10.0
    for start, end in cut.stretches:
        top = _strip(hand, drawn, cut, (start, end), left, top) + BETWEEN
    return top - BETWEEN


def _strip(hand: Hand, drawn: Elevation, cut: Strips, span: tuple[float, float], left: float, top: float) -> float:
    levels = levels_in(drawn.wall)
    head = top + drawn.above
    view = View(cut.scale, left - span[0] * cut.scale, head + levels[-1] * cut.scale)
    strip = Strip(drawn.wall, span[0], span[1], view, levels, Panel(cut.scale))
    hand.sheet.panels.append(strip.panel)
    draw_wall(hand, strip, drawn.wide.full)
    label_openings(hand, strip, drawn.rows)
    draw_rows(hand, strip, drawn.rows, drawn.focus)
    _dimensions(hand, drawn, strip, head)
    draw_findings(hand, strip, drawn.rows, drawn.focus)
    base = view.px((0, 0))[1]
    return base + BELOW + (dims.TIER if len(cut.stretches) == 1 else 0.0)


def _dimensions(hand: Hand, drawn: Elevation, strip: Strip, head: float) -> None:
    view, base = strip.view, strip.view.px((0, 0))[1]
    lowest = [o for o in drawn.wall.openings if o.storey == 1]
    stops = dims.jambs(lowest, strip.start, strip.end)
    dims.chain(hand, view, stops, base + dims.TIER, base)
    whole = (strip.start, strip.end) == (0.0, drawn.wall.line.length_ft * 12)
    if whole and len(stops) > 2:
        dims.chain(hand, view, (strip.start, strip.end), base + 2 * dims.TIER, base)
    if drawn.wide.full:
        dims.upright(hand, view, strip.levels, strip.left - 27, strip.left)
    line = head - HEAD - drawn.over_top
    if drawn.focus is not None:
        _rulers(hand, drawn, strip, head - HEAD)
    elif drawn.wide.full:
        for storey in range(2, len(drawn.wall.storeys) + 1):
            upper = [o for o in drawn.wall.openings if o.storey == storey]
            stops = dims.jambs(upper, strip.start, strip.end)
            if len(stops) > 2:
                dims.chain(hand, view, stops, line, head - HEAD + 8)
                line -= dims.TIER


def _rulers(hand: Hand, drawn: Elevation, strip: Strip, line: float) -> None:
    for what, stations in drawn.rulers:
        own = [
            at for at in stations if strip.start <= at < strip.end or at == strip.end == strip.wall.line.length_ft * 12
        ]
        line -= dims.RULER
        if own:
            dims.running(
                hand, strip.view, what, own, line, (strip.start, strip.end), (strip.left + 4, drawn.wide.width - 8)
            )
        line -= dims.KNEE + dims.FIGURES


def _furnish(hand: Hand, drawn: Elevation, bottom: float, tag: str, title: str) -> None:
    panel = Panel(0.0)
    width = drawn.wide.width
    left = SIDE if drawn.wide.full else 14.0
    low = key(hand, _counts(drawn), left, bottom + KEY_ROW, width - left) if _counts(drawn) else bottom
    scale = hand.sheet.panels[0].scale
    hand.sheet.panels.append(panel)
    hand.sheet.height = low + FOOT
    hand.room.bounds = (0, 0, width, hand.sheet.height)
    longest = furniture.LONGEST_BAR if drawn.wide.full else 100.0
    bar = furniture.scale_bar(hand, panel, scale, width - left, hand.sheet.height - 34, longest, building=True)
    if drawn.wide.full:
        furniture.title(hand, panel, tag, title, left, hand.sheet.height - 30, bar - 20)
    else:
        furniture.plain_title(hand, title, left, hand.sheet.height - 22, bar - 14)


def _counts(drawn: Elevation) -> dict[str, int]:
    counted = Counter[str]()
    for entry in drawn.entries:
        for mark in entry.marks:
            counted[mark.what] += mark.count
        if entry.headered:
            counted[HEADERED] += len(entry.headered)
    return {what: counted[what] for what in (*WORDS, HEADERED) if counted[what]}


def _finding(title: str, drawn: Elevation, system: System) -> str:
    """The drawing's title: what it shows and what stands against setting it out."""
    shown = (drawn.focus,) if drawn.focus else drawn.entries
    found = [finding for entry in shown for finding in entry.findings if not finding.note]
    if not found:
        return f"{title}. Nothing stands against setting it out."
    more = f" And {len(found) - 1} more." if len(found) > 1 else ""
    return f"{title}. {found[0].text(system)}{more}"


def _description(drawn: Elevation, system: System) -> str:
    """What is set, and every finding, in words."""
    said = []
    for entry in drawn.entries:
        counts = Counter(mark.what for mark in entry.marks)
        parts = [f"{n} {WORDS[what][0 if n == 1 else 1]}" for what, n in counts.items()]
        name = entry.tag or f"Wall, storey {entry.level}"
        said.append(f"{name}: {', '.join(parts) or 'nothing set'}.")
        said += [finding.text(system) for finding in entry.findings]
    return " ".join(said)
