"""A bar list: every bar of a size, a bend and a cut length once, with its mark, number, hooks and weight."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil

from engine import units
from engine.setting_out import millimetres
from engine.takeoff.rows import Row, in_order
from engine.takeoff.shapes import Shape, straight


@dataclass(frozen=True, slots=True)
class BarLine:
    """One line of a bar list. Args: mark: "B1". each_in: cut length [in]. net: how many. pounds: of all. rows: where they go."""

    mark: str
    shape: Shape
    each_in: float
    net: float
    pounds: float
    rows: tuple[Row, ...]

    @property
    def count(self) -> int:
        """Whole bars; half a bar at a corner is shared with another wall."""
        return ceil(self.net - 1e-6)

    @property
    def hooks(self) -> str:
        """Its hooks in words, tails in inches: "90 degrees, tail 6"; "" without any."""
        angles = [hook for hook in self.shape.hooks if hook]
        found = dict.fromkeys(zip(angles, self.shape.tails_in, strict=True))
        return ", ".join(
            f"{'two of ' if len(angles) == 2 and len(found) == 1 else ''}{angle} degrees, tail {units.fraction(tail)}"
            for angle, tail in found
        )

    @property
    def bends(self) -> str:
        """How often and round what it is bent, diameters inside in inches: "2 x 3"; "" for a straight bar."""
        sizes = list(self.shape.bends_in)
        return ", ".join(f"{sizes.count(size)} x {units.fraction(size)}" for size in dict.fromkeys(sizes))

    @property
    def where(self) -> tuple[str, ...]:
        """Walls and attachments they go to."""
        return tuple(dict.fromkeys(f"{row.wall} {row.tag}".strip() for row in self.rows))


def bar_list(rows: Iterable[Row]) -> tuple[BarLine, ...]:
    """Bars by size, bend and cut length: straight before bent, long before short."""
    groups: dict[tuple[Shape, float], list[Row]] = {}
    for row in rows:
        if row.item == "bar":
            number = row.size.split(",")[0].removeprefix("No. ")
            groups.setdefault((row.shape or straight(number, row.each_in), row.each_in), []).append(row)
    ordered = sorted(groups.items(), key=lambda g: (in_order(g[0][0].number), len(g[0][0].bends_in), -g[0][1]))
    return tuple(
        BarLine(f"B{n}", shape, each, sum(r.net for r in own), sum(r.pounds or 0.0 for r in own), tuple(own))
        for n, ((shape, each), own) in enumerate(ordered, 1)
    )


BAR_HEADINGS = (
    "mark", "size", "shape", "bars", "cut, in", "cut, mm", "legs out to out, in", "bends inside, in", "hooks, tails in in",
    "weight, lb", "where",
)  # fmt: skip


def bar_records(found: Sequence[BarLine]) -> Iterator[tuple[str, ...]]:
    """A bar list as texts under BAR_HEADINGS."""
    for line in found:
        legs = " + ".join(units.fraction(leg.out_in) for leg in line.shape.legs if leg.out_in)
        yield (
            line.mark, f"No. {line.shape.number}", line.shape.words, str(line.count), units.fraction(line.each_in),
            str(millimetres(line.each_in)), legs, line.bends, line.hooks, f"{line.pounds:.1f}", ", ".join(line.where),
        )  # fmt: skip
