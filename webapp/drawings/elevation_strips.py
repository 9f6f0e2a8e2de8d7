"""How a wall's elevation meets its paper: cut into strips at match lines, at one scale; rows of marks that do not run together."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate, groupby, pairwise
from math import ceil

from engine.setting_out import WORDS, SettingOut
from engine.wall import Wall
from webapp.drawings.hand import Sizes
from webapp.drawings.layout import WIDTHS, WidthClass

# An elevation has the page's whole width; on paper, the sheet's.
ELEVATIONS = {
    "desk": WidthClass(1020, 0, 4.0, True),
    "tablet": WIDTHS["tablet"],
    "phone": WIDTHS["phone"],
    "letter": WidthClass(700, 0, 3.0, True, sizes=Sizes(9.6, 9.6, 9.4, 10.5, 12.0, 9.4)),
}
LEAST, MOST = 1.1, 2.4  # pixels an inch: below, marks run together; above, a short wall only grows
RUN, ROW, FIRST = (
    15.0,
    12.0,
    9.0,
)  # heights of a run's line and of a row of marks, and how far the first row hangs under its level
TAG_IN = 40.0  # room a tag takes along the wall
FIGURE_PITCH = 14.0  # between two turned figures
MOST_STRIPS = 12
FOOT_IN = 12.0


@dataclass(frozen=True, slots=True)
class Block:
    """One entry's rows of marks. Args: offset: of its first line under the level [px]. whats: a row each."""

    entry: SettingOut
    offset: float
    whats: tuple[str, ...]

    @property
    def run(self) -> bool:
        """Whether it runs along the wall rather than standing at a point or belonging to all of it."""
        return bool(self.entry.tag) and self.entry.end_in > self.entry.start_in

    @property
    def height(self) -> float:
        """Of its lines together [px]."""
        return (RUN if self.run else 0.0) + ROW * len(self.whats)

    def row(self, what: str) -> float:
        """Offset of one row of marks [px]."""
        return self.offset + (RUN if self.run else 0.0) + ROW * self.whats.index(what)


def key_of(entry: SettingOut) -> str:
    """What an entry is focused by: its tag, or "wall 1" for what belongs to a storey of the wall itself."""
    return entry.tag or f"wall {entry.level}"


def kinds_of(entry: SettingOut) -> tuple[str, ...]:
    """What an entry sets, in the order of the trade's words; joists an opening takes count as joists."""
    found = {mark.what for mark in entry.marks} | ({"joist"} if entry.headered else set())
    return tuple(what for what in WORDS if what in found)


def blocks(entries: Sequence[SettingOut]) -> dict[int, tuple[Block, ...]]:
    """The entries of every level, each at the first height where it runs into no other."""
    placed: dict[int, list[Block]] = {}
    for entry in entries:
        block = Block(entry, 0.0, kinds_of(entry))
        others = [other for other in placed.get(entry.level, ()) if _meet(other.entry, entry)]
        offset = 0.0
        for other in sorted(others, key=lambda o: o.offset):
            if offset + block.height > other.offset:
                offset = max(offset, other.offset + other.height)
        placed.setdefault(entry.level, []).append(Block(entry, offset, block.whats))
    return {level: tuple(found) for level, found in placed.items()}


def _meet(a: SettingOut, b: SettingOut) -> bool:
    return a.start_in - TAG_IN < b.end_in + TAG_IN and b.start_in - TAG_IN < a.end_in + TAG_IN


def levels_in(wall: Wall) -> tuple[float, ...]:
    """Heights of the floor levels above the wall's foot, the foot first [in]."""
    return (0.0, *accumulate(storey.height_ft * FOOT_IN for storey in wall.storeys))


@dataclass(frozen=True, slots=True)
class Strips:
    """The stretches of wall that stand one below the other [in], and their scale [px an inch]."""

    stretches: tuple[tuple[float, float], ...]
    scale: float


def strips(wall: Wall, rows: dict[int, tuple[Block, ...]], room_px: float, crowd: Sequence[float]) -> Strips:
    """The fewest strips in which marks stay apart, rows stay within their storey and turned figures find room.

    Args: room_px: width of a strip. crowd: stations that get a turned figure, ascending [in].
    """
    length = wall.line.length_ft * FOOT_IN
    deepest = (
        (FIRST + max(b.offset + b.height for b in found) + 8) / (wall.storeys[level - 1].height_ft * FOOT_IN)
        for level, found in rows.items()
    )
    least = max(LEAST, min(MOST, max(deepest, default=LEAST)))
    count = max(1, ceil(length * least / room_px - 1e-9))
    while count < MOST_STRIPS and _crowded(_cut(wall, count), crowd, room_px):
        count += 1
    stretches = _cut(wall, count)
    longest = max(b - a for a, b in stretches)
    return Strips(stretches, min(MOST, room_px / longest))


def _crowded(stretches: Sequence[tuple[float, float]], crowd: Sequence[float], room_px: float) -> bool:
    return any(sum(a <= at <= b for at in crowd) * FIGURE_PITCH > room_px for a, b in stretches)


def _cut(wall: Wall, count: int) -> tuple[tuple[float, float], ...]:
    """A wall in about equal stretches, cut at whole feet and clear of openings where one is near."""
    length = wall.line.length_ft * FOOT_IN
    share = length / count
    stops = [0.0]
    for number in range(1, count):
        stops.append(_clear(wall, share * number, share / 4))
    return tuple(zip(stops, [*stops[1:], length], strict=True))


def _clear(wall: Wall, about: float, within: float) -> float:
    middle = round(about / FOOT_IN)
    steps = int(within // FOOT_IN)
    for foot in sorted(range(middle - steps, middle + steps + 1), key=lambda f: abs(f - middle)):
        if not any(o.start_ft <= foot <= o.end_ft for o in wall.openings):
            return foot * FOOT_IN
    return middle * FOOT_IN if steps else about


def apart(places: Sequence[float], pitch: float, low: float, high: float) -> list[float]:
    """Ascending places moved as little as can be (least squares) until neighbours are a pitch apart, between two bounds."""
    pools: list[tuple[float, int]] = []  # sum and number of those that stand shoulder to shoulder
    for number, place in enumerate(places):
        pool = (place - number * pitch, 1)
        while pools and pools[-1][0] / pools[-1][1] >= pool[0] / pool[1]:
            last = pools.pop()
            pool = (pool[0] + last[0], pool[1] + last[1])
        pools.append(pool)
    most = high - (len(places) - 1) * pitch
    free = (min(max(total / number, low), most) for total, number in pools for _ in range(number))
    return [place + number * pitch for number, place in enumerate(free)]


def spaced(stations: Sequence[float]) -> Iterator[tuple[float, float, int]]:
    """Neighbours that stand equally far: from, to, number of spaces."""
    gaps = [(a, b) for a, b in pairwise(stations)]
    for _, equal in groupby(gaps, key=lambda gap: round((gap[1] - gap[0]) * 32)):
        found = list(equal)
        yield found[0][0], found[-1][1], len(found)
