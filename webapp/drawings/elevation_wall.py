"""One strip of a wall's elevation: the wall itself, its openings, the rows of what is set, the findings where they occur."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from engine.result import Verdict
from engine.setting_out import Finding, SettingOut, station, webs
from engine.units import System, show
from engine.wall import ENDS, Opening, Wall
from webapp.drawings.elevation_marks import symbol
from webapp.drawings.elevation_strips import FIRST, Block
from webapp.drawings.hand import Hand
from webapp.drawings.lettering import Lettering, fitted, plain
from webapp.drawings.paper import Circle, Comb, Fill, Group, Line, Panel, Sign, Words
from webapp.drawings.shapes import Material, Pen, rectangle
from webapp.drawings.view import View

END_WORDS = dict(ENDS)
TICK = 3.0
SIGN = 13.0
TIERS = 5
SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Strip:
    """A stretch of wall on paper: from and to [in], its view, its floor levels [in]."""

    wall: Wall
    start: float
    end: float
    view: View
    levels: tuple[float, ...]
    panel: Panel

    @property
    def left(self) -> float:
        """Its left end [px]."""
        return self.view.px((self.start, 0))[0]

    @property
    def right(self) -> float:
        """Its right end [px]."""
        return self.view.px((self.end, 0))[0]

    @property
    def length(self) -> float:
        """Of the whole wall [in]."""
        return self.wall.line.length_ft * 12

    def x(self, at_in: float) -> float:
        """Pixel of a station."""
        return self.view.px((at_in, 0))[0]

    def y(self, level: int) -> float:
        """Pixel of a floor level."""
        return self.view.px((0, self.levels[level]))[1]

    def shows(self, at_in: float) -> bool:
        """Whether a station is in this strip; a match line belongs to the strip it begins."""
        return self.start - SAME <= at_in < self.end - SAME or (
            at_in >= self.end - SAME and self.end >= self.length - SAME
        )


def draw_wall(hand: Hand, strip: Strip, full: bool) -> None:
    """Courses, webs, floor levels, openings, outline, the names of the ends."""
    layers, view = strip.panel.layers, strip.view
    layers["hatch"].append(Comb(tuple(_courses(strip)), Pen.HATCH))
    layers["bars"].append(Comb(tuple(_webs(strip)), Pen.SEEN))
    for level in range(1, len(strip.levels) - 1):
        layers["bars"].append(
            Line(view.pixels(((strip.start, strip.levels[level]), (strip.end, strip.levels[level]))), Pen.SEEN)
        )
    for opening in strip.wall.openings:
        _opening(strip, opening)
    outline = view.pixels(rectangle(strip.start, 0.0, strip.end, strip.levels[-1]))
    layers["outline"] += [Line((outline[0], outline[1]), Pen.CUT), Line((outline[2], outline[3]), Pen.CUT_LIGHT)]
    _end(hand, strip, strip.start, full)
    _end(hand, strip, strip.end, full)
    if full:
        for level in range(1, len(strip.levels)):
            hand.write(strip.right + 9, strip.y(level) + 4, f"level {level}", hand.sizes.sub, "sub")


def _courses(strip: Strip) -> Iterator[tuple[tuple[float, float], ...]]:
    for number, storey in enumerate(strip.wall.storeys):
        low, high = strip.levels[number], strip.levels[number + 1]
        step = strip.wall.types[storey.type].course_in
        for n in range(1, ceil((high - low) / step - SAME)):
            yield strip.view.pixels(((strip.start, low + n * step), (strip.end, low + n * step)))


def _webs(strip: Strip) -> Iterator[tuple[tuple[float, float], ...]]:
    """Middles of webs as short ticks at the foot and at every floor level, by the forms below it."""
    origin, scale = strip.x(0.0), strip.view.scale
    for number, storey in enumerate(strip.wall.storeys):
        xs = [origin + at * scale for at in webs(strip.wall.types[storey.type], strip.start, strip.end)]
        if number == 0:
            foot = strip.y(0)
            yield from [((x, foot), (x, foot - 2 * TICK)) for x in xs]
        level = strip.y(number + 1)
        yield from [((x, level - TICK), (x, level + TICK)) for x in xs]


def _opening(strip: Strip, opening: Opening) -> None:
    base = strip.levels[opening.storey - 1]
    x0, x1 = max(opening.start_ft * 12, strip.start), min(opening.end_ft * 12, strip.end)
    if x1 <= x0:
        return
    low, high = base + opening.sill_ft * 12, base + opening.head_ft * 12
    corners = strip.view.pixels(rectangle(x0, low, x1, high))
    strip.panel.layers["outline"] += [Fill(corners, Material.AIR), Line(corners, Pen.CUT_LIGHT, closed=True)]


def _end(hand: Hand, strip: Strip, at: float, full: bool) -> None:
    """An end of the wall with its name, or the match line where it goes on."""
    outer, first = at in (0.0, strip.length), at == strip.start
    x, top, foot = strip.x(at), strip.y(len(strip.levels) - 1), strip.y(0)
    if outer:
        strip.panel.layers["outline"].append(Line(((x, top), (x, foot)), Pen.CUT))
        line = strip.wall.line
        words = f"0, named end, {END_WORDS[line.near_end]}" if at == 0 else f"far end, {END_WORDS[line.far_end]}"
    else:
        strip.panel.layers["hidden"].append(Line(((x, top - 16), (x, foot + 10)), Pen.CENTRE))
        words = f"match line {station(at, hand.system)}"
    size = hand.sizes.sub
    words = fitted(words, size, (strip.right - strip.left) / 2 - 8)
    hand.write(x + (4 if first else -4), top - 6, words, size, "sub", align="start" if first else "end", halo=True)


def draw_rows(hand: Hand, strip: Strip, rows: dict[int, tuple[Block, ...]], focus: SettingOut | None) -> None:
    """Runs with their tags, and rows of marks, each mark a group a script can read."""
    for level, found in rows.items():
        for block in found:
            entry = block.entry
            if entry.end_in < strip.start - SAME or entry.start_in > strip.end + SAME:
                continue
            quiet = focus is not None and entry is not focus
            y = strip.y(level) + FIRST
            if block.run:
                _run(hand, strip, block, y + block.offset, quiet)
            elif entry.tag and strip.shows(entry.start_in):
                _tag(hand, entry.tag, strip.x(entry.start_in) + 9, y + block.offset, quiet)
            _marks(hand, strip, block, y, quiet)


def _run(hand: Hand, strip: Strip, block: Block, y: float, quiet: bool) -> None:
    entry = block.entry
    x0, x1 = strip.x(max(entry.start_in, strip.start)), strip.x(min(entry.end_in, strip.end))
    pen = Pen.SEEN if quiet else Pen.CUT
    ends = [x for x, at in ((x0, entry.start_in), (x1, entry.end_in)) if strip.start - SAME <= at <= strip.end + SAME]
    joints = [strip.x(piece.end_in) for piece in entry.pieces[:-1] if strip.start < piece.end_in < strip.end]
    ticks = tuple(((x, y - 4.0), (x, y + 4.0)) for x in (*ends, *joints))
    hand.sheet.dimensions += [Line(((x0, y), (x1, y)), pen), Comb(ticks, Pen.SEEN if quiet else Pen.CUT_LIGHT)]
    _tag(hand, entry.tag, x0 + 12, y, quiet)


def _tag(hand: Hand, tag: str, x: float, y: float, quiet: bool) -> None:
    size = hand.sizes.note
    letters = plain(fitted(tag, size, 60, True), size, bold=True)
    box = (x - 3, y - 7), (x + letters.width + 3, y - 7), (x + letters.width + 3, y + 6), (x - 3, y + 6)
    words = Words(x, y + 0.36 * size, letters, "sub" if quiet else "note")
    hand.sheet.groups.append(Group((Fill(box, "paper"),), (words,)))
    hand.room.take(words.box)


def _marks(hand: Hand, strip: Strip, block: Block, y: float, quiet: bool) -> None:
    entry, scale = block.entry, f"{strip.view.scale:.10g}"
    offsets = {what: y + block.row(what) for what in block.whats}
    for mark in entry.marks:
        if strip.shows(mark.at_in):
            data = {
                "what": mark.what, "at": f"{mark.at_in:.10g}", "number": str(mark.number), "tag": entry.tag,
                "level": str(entry.level), "scale": scale,
            }  # fmt: skip
            hand.sheet.groups.append(
                Group(symbol(mark.what, strip.x(mark.at_in), offsets[mark.what], quiet), data=data)
            )
    for at in entry.headered:
        if strip.shows(at):
            hand.sheet.groups.append(Group(symbol("joist", strip.x(at), offsets["joist"], quiet, headered=True)))


def draw_findings(hand: Hand, strip: Strip, rows: dict[int, tuple[Block, ...]], focus: SettingOut | None) -> None:
    """A flag above the level, where findings occur, with their amounts; notes with the advisory mark."""
    for level, found in rows.items():
        places: dict[tuple[bool, float], list[tuple[Block, Finding]]] = {}
        for block in found:
            for finding in block.entry.findings:
                if strip.shows(finding.at_in) and focus in (None, block.entry):
                    places.setdefault((finding.note, round(finding.at_in, 2)), []).append((block, finding))
        for _, together in sorted(places.items(), key=lambda place: not place[0][0]):  # flags over notes
            _findings(hand, strip, level, together)


def _findings(hand: Hand, strip: Strip, level: int, together: list[tuple[Block, Finding]]) -> None:
    """Findings of one place: one mark over it, each thing ringed."""
    first = together[0][1]
    tone, verdict = ("advisory", Verdict.ADVISORY) if first.note else ("flag", Verdict.FLAG)
    x, y = strip.x(first.at_in), strip.y(level)
    amounts = dict.fromkeys(_amount(finding, hand.system) for _, finding in together)
    letters = plain(", ".join(filter(None, amounts)), hand.sizes.note, bold=not first.note)
    sign, words = _over(hand, strip, x, y, letters, verdict, tone)
    hand.room.take(sign.box, *((words.box,) if letters.width else ()))
    targets = {y + FIRST + (b.row(f.what) if f.what in b.whats else b.offset) for b, f in together}
    leader = Line(((x, sign.box[3]), (x, max(targets) - 7)), Pen.GOVERNS, tone=tone)
    rings = (Circle(x, target, 7.0, Pen.GOVERNS, tone=tone) for target in targets)
    data = {
        "finding": first.key, "what": first.what, "at": f"{first.at_in:.10g}", "amount": f"{first.amount_in:.10g}",
    }  # fmt: skip
    hand.sheet.groups.append(Group((leader, *rings), (words,) if letters.width else (), (sign,), data))


def _over(
    hand: Hand, strip: Strip, x: float, y: float, letters: Lettering, verdict: Verdict, tone: str
) -> tuple[Sign, Words]:
    """The mark and its words at the first free height over a level, to the right of the place or to its left."""
    found: tuple[Sign, Words]
    for tier in range(TIERS):
        base = y - 6 - 17 * tier
        for left in (x - SIGN / 2, x - 1.5 * SIGN - letters.width - 3 + SIGN):
            sign = Sign(left, base - SIGN, SIGN, verdict)
            words = Words(left + SIGN + 3, base - 2, letters, "note", halo=True, tone=tone)
            found = sign, words
            inside = words.box[2] < strip.right and left > strip.left - SIGN
            if inside and hand.room.free(sign.box) and (not letters.width or hand.room.free(words.box)):
                return found
    return found


def _amount(finding: Finding, system: System) -> str:
    return show(finding.amount_in, "in", system) if finding.amount_in else ""
