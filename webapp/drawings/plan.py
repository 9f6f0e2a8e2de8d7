"""A floor level of a job in plan: its walls to scale, what they carry as lines beside them, marked by verdict."""

from collections.abc import Mapping, Sequence

from engine.result import Verdict
from engine.units import System, show
from engine.wall import Wall
from webapp.drawings import furniture, svg
from webapp.drawings.hand import Hand, Sizes
from webapp.drawings.layout import WIDTHS, WidthClass
from webapp.drawings.lettering import fitted, lines, plain
from webapp.drawings.paper import Comb, Fill, Group, Line, Panel, Pixel, Sheet, Sign, Words, around, grown
from webapp.drawings.plan_dims import dimension_outline
from webapp.drawings.plan_key import key, pen_of
from webapp.drawings.plan_layout import Layout, Standing, layout, neighbours
from webapp.drawings.plan_walls import JOIST_STUB_IN, arrow, depths, joists, poche, usual_gap
from webapp.drawings.plan_words import Carried, description, finding, said, says
from webapp.drawings.room import Room
from webapp.drawings.shapes import Pen
from webapp.drawings.view import View

PLANS = {
    "desk": WidthClass(818, 560, 2.0, True),
    "tablet": WidthClass(770, 600, 2.0, True),
    "phone": WidthClass(356, 320, 1.6, False, sizes=WIDTHS["phone"].sizes),
    "letter": WidthClass(700, 620, 2.0, True, sizes=Sizes(9.6, 9.6, 9.4, 10.5, 12.0, 9.4)),
}
SIDE, FOOT, SAID = 18.0, 64.0, 17.0
FIRST, LANE = 15.0, 23.5  # from a level wall's face to the first line beside it, and from line to line [px]
FIRST_UPRIGHT, LANE_UPRIGHT = 33.0, 50.0  # beside an upright wall, where tags lie across their lines
TICK, TAG, MARK = 4.5, 13.5, 15.0
ALONG = (0.5, 0.36, 0.64, 0.22, 0.78, 0.1, 0.9)
DIMENSIONS, NARROW = 56.0, 26.0  # paper beside an outline for its dimensions, and where there are none [px]


def plan_sheet(
    walls: Sequence[Wall],
    rows: Sequence[Carried],
    hrefs: Mapping[str, str],
    system: System = "ft in",
    width_class: str = "desk",
    level: int = 1,
    title: str = "",
) -> Sheet:
    """One floor level of a job for any renderer.

    Args: rows: every attachment; those of other levels are left out. hrefs: where its tag leads, by tag. title: beside the number.
    """
    wide = PLANS[width_class]
    shown = [row for row in rows if row.level == level and any(row.wall == wall.name for wall in walls)]
    sheet = Sheet(wide.width)
    hand = Hand(sheet, Room((0, 0, wide.width, 1e6)), system, wide.sizes)
    drawn = _Plan(hand, wide, level, shown)
    found = drawn.lay(walls)
    words = title or f"Floor level {level}: walls and what they carry"
    bottom = drawn.draw(found, hrefs)
    _furnish(hand, wide, drawn, bottom, level, words, said(found, system), shown)
    sheet.finding = finding(words, found, shown)
    sheet.description = description(found, shown, system)
    return sheet


def plan_svg(
    walls: Sequence[Wall],
    rows: Sequence[Carried],
    hrefs: Mapping[str, str],
    system: System = "ft in",
    width_class: str = "desk",
    level: int = 1,
    title: str = "",
    prefix: str = "",
) -> str:
    """The plan as SVG. Args: as `plan_sheet`; prefix: of its ids."""
    sheet = plan_sheet(walls, rows, hrefs, system, width_class, level, title)
    return svg.render(sheet, prefix or f"plan-{level}-{width_class}")


Lanes = Mapping[str, int]  # by tag: which line beside the wall, from 0


def _lanes(rows: Sequence[Carried]) -> dict[str, int]:
    """A line for each attachment that no other of its wall's side runs along."""
    found: dict[str, int] = {}
    for row in rows:
        beside = [o for o in rows if o.tag in found and (o.wall, o.outside) == (row.wall, row.outside)]
        taken = {found[o.tag] for o in beside if o.start_ft - 1 < row.far_ft + 1 and row.start_ft - 1 < o.far_ft + 1}
        found[row.tag] = next(n for n in range(len(rows) + 1) if n not in taken)
    return found


class _Plan:
    """One plan while it is drawn."""

    def __init__(self, hand: Hand, wide: WidthClass, level: int, rows: Sequence[Carried]) -> None:
        self.hand, self.wide, self.level, self.rows = hand, wide, level, rows
        self.lanes: Lanes = _lanes(rows)
        self.panel = Panel(1.0)
        self.view = View(1.0, 0.0, 0.0)
        self.margin = self.bottom = 0.0

    def lay(self, walls: Sequence[Wall]) -> Layout:
        """Walls in place, at the largest scale the sheet gives them."""
        apart_px = 2 * FIRST + LANE * (2 + max(self.lanes.values(), default=0)) + 34
        apart = 120.0
        for _ in range(3):  # how far apart walls without a place stand depends on the scale, and the scale on that
            found = layout(walls, apart)
            self.margin = (DIMENSIONS if self.wide.full else NARROW) + max(self._beyond(found), FIRST)
            xs = [x for one in found.walls for x, _ in (one.start, one.end)]
            ys = [y for one in found.walls for _, y in (one.start, one.end)]
            width, height = max(xs) - min(xs), max(ys) - min(ys)
            tall = self.wide.tall if found.placed else 1e6
            scale = min(self.wide.most, (self.wide.width - 2 * self.margin) / max(width, 1.0), tall / max(height, 1.0))
            apart = apart_px / scale
        spare = (self.wide.width - width * scale) / 2
        self.view = View(scale, spare - min(xs) * scale, self.margin + max(ys) * scale)
        self.panel = Panel(scale)
        self.bottom = self.margin + height * scale
        return found

    def _beyond(self, found: Layout) -> float:
        """Paper that lines outside the walls take [px]."""
        by_name = {one.wall.name: one for one in found.walls}
        return max((self._away(by_name[r.wall], self.lanes[r.tag]) + 12 for r in self.rows if r.outside), default=0.0)

    def draw(self, found: Layout, hrefs: Mapping[str, str]) -> float:
        """Walls, joists, dimensions, lines, tags. Returns: the lower edge [px]."""
        self.hand.sheet.panels.append(self.panel)
        rows = self.rows
        by_name = {one.wall.name: one for one in found.walls}
        pairs = neighbours(found.walls)
        for one in found.walls:
            poche(self.panel, self.view, one, self.level, pairs[one.wall.name])
            if min(abs(one.along[0]), abs(one.along[1])) < 1e-9:
                corners = (one.at(0.0), one.at(one.length, depths(one, self.level)[3]))
                self.hand.room.take(around((*p, *p) for p in self.view.pixels(corners)))
        beyond = self._beyond(found)
        placed = found.walls if found.placed == len(found.walls) else ()
        chained = self.wide.full and dimension_outline(self.hand, self.view, placed, beyond)
        for row in rows:
            joists(self.panel, self.view, by_name[row.wall], self.level, row.joists)
            self._line(by_name[row.wall], row)
        for row in sorted(rows, key=lambda row: row.end_ft is not None):  # a point's tag has one place, a run's many
            self._tag(by_name[row.wall], row, hrefs.get(row.tag, ""))
        for one in found.walls:
            self._name(one, rows, "" if chained else f", {show(one.length / 12, 'ft', self.hand.system)}")
        if self.wide.full:
            self._spans(by_name, rows)
        if found.placed == len(found.walls):
            return self.bottom + self.margin
        inside = max((self._away(by_name[r.wall], self.lanes[r.tag]) for r in rows if not r.outside), default=0.0)
        return self.bottom + max(inside + 22, JOIST_STUB_IN * self.view.scale + 48)

    def _away(self, one: Standing, lane: float) -> float:
        """From a wall's face to a line beside it [px]."""
        upright = abs(one.inward[0])
        return (1 - upright) * (FIRST + LANE * lane) + upright * (FIRST_UPRIGHT + LANE_UPRIGHT * lane)

    def _depth(self, one: Standing, row: Carried) -> float:
        """How deep behind the outer face an attachment's line runs [in]; outside, it is negative."""
        away = self._away(one, self.lanes[row.tag]) / self.view.scale
        return -away if row.outside else depths(one, self.level)[3] + away

    def _line(self, one: Standing, row: Carried) -> None:
        pen, tone = pen_of(Verdict(row.verdict))
        depth = self._depth(one, row)
        if row.end_ft is None:
            self._point(one, row)
            return
        a, b = self.view.pixels((one.at(row.start_ft * 12, depth), one.at(row.end_ft * 12, depth)))
        ix, iy = one.inward[0] * TICK, -one.inward[1] * TICK
        ticks = tuple(((x - ix, y - iy), (x + ix, y + iy)) for x, y in (a, b))
        self.hand.sheet.dimensions += [Line((a, b), pen, tone=tone), Comb(ticks, Pen.GOVERNS_SLASH, tone)]

    def _point(self, one: Standing, row: Carried) -> None:
        """Something at one station: a small square in the wall."""
        _, near, far, _ = depths(one, self.level)
        at = row.start_ft * 12
        x, y = self.view.px(one.at(at, (near + far) / 2))
        half = max(4.0, (far - near) / 2 * self.view.scale - 1)
        corners = (x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half)
        self.hand.sheet.dimensions += [Fill(corners, "paper"), Line(corners, Pen.CUT_LIGHT, True)]

    def _tag(self, one: Standing, row: Carried, href: str) -> None:
        """The tag on a patch that clears its line, where no other stands; pressing it leads to the attachment."""
        letters = plain(fitted(row.tag, TAG, 90, True), TAG, bold=True)
        width = MARK + 5 + letters.width
        depth = self._depth(one, row)
        spots = [self._spot(one, row, depth, share) for share in (ALONG if row.end_ft is not None else (0.5,))]
        step = (self._away(one, 1) - self._away(one, 0)) / self.view.scale * (-1 if row.outside else 1)
        spots += [self._spot(one, row, depth + n * step, share) for n in (1, 2, -1) for share in ALONG]
        boxes = [(x - width / 2 - 4, y - 10, x + width / 2 + 4, y + 10) for x, y in spots]
        box = next((box for box in boxes if self.hand.room.free(box)), boxes[0])
        self.hand.room.take(box)
        target = spots[boxes.index(box)]
        if row.end_ft is None:
            foot = self.view.px(one.at(row.start_ft * 12, depths(one, self.level)[3]))
            self.hand.room.take(around(((*foot, *foot), (*target, *target))))
        else:
            foot = target if target in spots[: len(ALONG)] else spots[0]
        if foot != target:
            self.hand.sheet.dimensions.append(Line((foot, target), Pen.GOVERNS, tone=row.verdict.replace(" ", "-")))
        left, middle = box[0] + 4, (box[1] + box[3]) / 2
        tone = row.verdict.replace(" ", "-")
        patch = Fill(((box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])), "paper")
        words = Words(left + MARK + 5, middle + 0.36 * TAG, letters, "tag", tone=tone)
        sign = Sign(left, middle - MARK / 2, MARK, row.verdict)
        group = Group((patch,), (words,), (sign,), {"tag": row.tag}, href, f"{row.tag}, {says(row)}")
        self.hand.sheet.groups.append(group)

    def _spot(self, one: Standing, row: Carried, depth: float, share: float) -> Pixel:
        at = 12 * (row.start_ft + share * (row.far_ft - row.start_ft))
        return self.view.px(one.at(at, depth))

    def _name(self, one: Standing, rows: Sequence[Carried], length: str) -> None:
        """The wall's name outside it, clear of what runs there."""
        size = self.hand.sizes.sub
        name = fitted(one.wall.name, size, 120)
        lanes = [self.lanes[row.tag] for row in rows if row.outside and row.wall == one.wall.name]
        beyond = self._away(one, max(lanes)) if lanes else 0.0
        for text, more in ((name + length, 0.0), (name + length, 18.0), (name, 0.0), (name, 18.0), (name, 36.0)):
            letters = plain(text, size)
            # Half the words' extent across the wall: their height beside a level wall, their width beside an upright one.
            half = abs(one.inward[0]) * letters.width / 2 + abs(one.inward[1]) * 5
            depth = -(9 + half + more + beyond) / self.view.scale
            for share in (0.5, *ALONG):
                x, y = self.view.px(one.at(share * one.length, depth))
                words = Words(x - letters.width / 2, y + 0.36 * size, letters, "sub", halo=True)
                if self.hand.room.free(grown(words.box, 2)):
                    self.hand.put(words)
                    return

    def _spans(self, by_name: Mapping[str, Standing], rows: Sequence[Carried]) -> None:
        """One arrow along the joists of each spacing on a wall."""
        every = {(row.wall, usual_gap(row.joists)): row for row in reversed(rows) if len(row.joists) > 1}
        for (wall, spacing), row in every.items():
            self._span(by_name[wall], row, spacing)

    def _span(self, one: Standing, row: Carried, every: float) -> None:
        face = depths(one, self.level)[3]
        spaced = plain(f"joists at {show(every, 'in', self.hand.system)}", self.hand.sizes.sub)
        deepest = self._away(one, self.lanes[row.tag]) / self.view.scale
        low = face + max(JOIST_STUB_IN, deepest + 12 / self.view.scale)
        for share in (3, 1, 5, 2, 4):
            at = row.joists[len(row.joists) * share // 6] - every / 2
            a, b = self.view.pixels((one.at(at, face + 4), one.at(at, low)))
            words = Words(*self._beside(spaced.width, (a, b)), spaced, "sub", halo=True)
            if self.hand.room.free(words.box) and self.hand.room.free(around(((*a, *a), (*b, *b)))):
                self.hand.put(words)
                self.hand.line(a, b)
                self.hand.sheet.dimensions += [Fill(arrow(a, b), "solid"), Fill(arrow(b, a), "solid")]
                return

    def _beside(self, width: float, ends: tuple[Pixel, Pixel]) -> Pixel:
        """Where words at the room end of an arrow start."""
        (ax, ay), (bx, by) = ends
        if abs(bx - ax) < abs(by - ay):
            return bx - width / 2, by + (14 if by > ay else -6)
        return (bx + 6 if bx > ax else bx - 6 - width), by + 4


def _furnish(
    hand: Hand,
    wide: WidthClass,
    drawn: _Plan,
    bottom: float,
    level: int,
    title: str,
    notes: Sequence[str],
    rows: Sequence[Carried],
) -> None:
    panel = Panel(0.0)
    left = SIDE if wide.full else 14.0
    broken = [line for text in notes for line in lines(text, hand.sizes.note, wide.width - 2 * left)]
    for line in broken:
        hand.write(left, bottom + 4, line, hand.sizes.note)
        bottom += SAID
    bottom = key(hand, panel, rows, left, bottom + 8, wide.width - left)
    hand.sheet.panels.append(panel)
    hand.sheet.height = bottom + FOOT
    hand.room.bounds = (0, 0, wide.width, hand.sheet.height)
    y = hand.sheet.height
    bar = furniture.scale_bar(
        hand, panel, drawn.view.scale, wide.width - left, y - 34, 200 if wide.full else 120, building=True
    )
    if wide.full:
        furniture.title(hand, panel, f"P{level}", title, left, y - 30, bar - 20)
    else:
        furniture.plain_title(hand, f"P{level}, floor level {level}", left, y - 22, bar - 14)
