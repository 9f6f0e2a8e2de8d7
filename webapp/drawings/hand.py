"""The draughting hand: the sheet it inks, the room it minds, the sizes it letters in."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import cos, pi, sin

from engine.units import System
from webapp.drawings.lettering import Lettering, figure, plain
from webapp.drawings.paper import Box, Line, Pixel, Sheet, Words, around
from webapp.drawings.room import Room
from webapp.drawings.shapes import Pen


@dataclass(frozen=True, slots=True)
class Sizes:
    """Type sizes of a width class [px]."""

    figure: float = 12.5
    note: float = 12.5
    sub: float = 12.0
    title: float = 14.0
    governs: float = 16.0
    scale: float = 11.0


@dataclass(slots=True)
class Hand:
    """Writes where there is room."""

    sheet: Sheet
    room: Room
    system: System
    sizes: Sizes
    cell: Box = (0.0, 0.0, 9999.0, 9999.0)  # of the view being annotated: its notes stay beside it

    def figure(self, inches: float, bold: bool = False, size: float = 0.0) -> Lettering:
        """A dimension's figure."""
        return figure(inches, size or self.sizes.figure, self.system, bold)

    def line(self, *points: Pixel, pen: Pen = Pen.DIMENSION, tone: str = "") -> None:
        """Annotation ink; words keep off it where they can."""
        self.sheet.dimensions.append(Line(points, pen, tone=tone))
        self.mind(points)

    def mind(self, points: tuple[Pixel, ...]) -> None:
        """Let later words avoid an upright or level line."""
        for (ax, ay), (bx, by) in pairwise(points):
            if abs(ax - bx) < 1 or abs(ay - by) < 1:
                self.room.busy.append(((min(ax, bx) - 2, min(ay, by) - 2, max(ax, bx) + 2, max(ay, by) + 2), 0.12))

    def mind_path(self, points: tuple[Pixel, ...]) -> None:
        """Let later words avoid a slanting line."""
        for (ax, ay), (bx, by) in pairwise(points):
            steps = max(1, int(max(abs(bx - ax), abs(by - ay)) / 12))
            for k in range(steps + 1):
                x, y = ax + (bx - ax) * k / steps, ay + (by - ay) * k / steps
                self.room.busy.append(((x - 4, y - 4, x + 4, y + 4), 0.2))

    def put(self, words: Words) -> None:
        """Write words whose place is settled and reserve it."""
        self.sheet.words.append(words)
        self.room.take(words.box)

    def write(
        self, x: float, y: float, text: str, size: float, role: str = "note", *, bold: bool = False, align: str = "start",
        tone: str = "", halo: bool = False,
    ) -> Words:  # fmt: skip
        """Write a text at a settled place. Args: align: "start", "middle" or "end" of the text stands at x."""
        letters = plain(text, size, bold)
        start = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[align] * letters.width
        words = Words(start, y, letters, role, halo=halo, tone=tone)
        self.put(words)
        return words

    def somewhere(self, letters: Lettering, role: str, about: Pixel, *places: Pixel) -> None:
        """Write a line at the first of some places that is free, else as near as can be to `about`."""
        options = [*enumerate(places), *((d, (x - letters.width / 2, y)) for d, (x, y) in rounds(about, 20, 500))]
        words = self.room.choose(
            (4.0 * cost, placed.box, placed) for cost, (x, y) in options for placed in (Words(x, y, letters, role),)
        )
        if words is not None:
            self.sheet.words.append(words)


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of words that stand together, ragged right; the first line's start is (0, 0)."""

    lines: tuple[tuple[Lettering, str], ...]  # letters and role
    tone: str = ""
    lead: float = 1.28

    def words(self, x: float, y: float, halo: bool = False, centred: bool = False) -> tuple[Words, ...]:
        """The lines with the first one's base line starting at (x, y)."""
        placed = []
        width = self.width
        for number, (letters, role) in enumerate(self.lines):
            if number:
                y += self.lead * max(letters.size, self.lines[number - 1][0].size)
            start = x + (width - letters.width) / 2 if centred else x
            tone = self.tone if role == "governs" else ""
            placed.append(Words(start, y, letters, role, halo=halo, tone=tone))
        return tuple(placed)

    @property
    def width(self) -> float:
        """Of the longest line [px]."""
        return max(letters.width for letters, _ in self.lines)

    def box(self, x: float, y: float) -> Box:
        """Extent of the block [px]."""
        return around(words.box for words in self.words(x, y))


def rounds(about: Pixel, near: float, far: float, step: float = 14.0, ways: int = 16) -> Iterator[tuple[float, Pixel]]:
    """Places further and further from a point: (distance, place)."""
    distance = near
    while distance <= far:
        for way in range(ways):
            turn = 2 * pi * way / ways + 0.2
            yield distance, (about[0] + distance * cos(turn), about[1] + distance * sin(turn))
        distance += step
