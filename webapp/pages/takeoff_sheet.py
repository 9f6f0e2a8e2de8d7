"""A takeoff as its page shows it: figures in the reader's units, every total with where it goes."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from engine import units
from engine.setting_out import millimetres, station
from engine.takeoff import ITEMS, BarLine, BarWeight, Row, Total
from engine.takeoff.rows import EACH, FEET, in_order
from engine.units import System
from webapp.drawings.bar_shapes import bar_svg
from webapp.services.takeoff import WALL_ITSELF, JobTakeoff

KG_IN_LB = 0.45359237  # exact, by the definition of the pound


def amount(value: float, unit: str, system: System) -> str:
    """An amount in the reader's unit: "24", "3 1/2", "40.5 ft", "12.61 yd³"."""
    if unit == EACH:
        return f"{value:,.0f}" if abs(value - round(value)) < 1e-6 else units.fraction(value)
    if system == "mm":
        return units.show(value, unit, system)
    return f"{value:,.1f}".removesuffix(".0") + " ft" if unit == FEET else f"{value:,.2f} {unit}"


def weight(pounds: float | None, system: System) -> str:
    """A weight of goods: "1,240 lb", "14.2 lb", "6.4 kg"; "" where none is known."""
    if pounds is None:
        return ""
    value, unit = (pounds * KG_IN_LB, "kg") if system == "mm" else (pounds, "lb")
    return f"{value:,.0f} {unit}" if value >= 100 else f"{value:,.1f} {unit}"


@dataclass(frozen=True, slots=True)
class Place:
    """Where a part of a total goes."""

    amount: str
    wall: str
    wall_id: int | None
    level: str
    tag: str
    source: str


@dataclass(frozen=True, slots=True)
class TotalLine:
    """A total in words."""

    item: str
    size: str
    each: str
    net: str
    waste: str
    buy: str
    weight: str
    boxes: int | None
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """What a buyer orders together."""

    name: str
    lines: tuple[TotalLine, ...]

    @property
    def each(self) -> bool:
        """Whether anything in it is cut to a length."""
        return any(line.each for line in self.lines)

    @property
    def weighed(self) -> bool:
        """Whether the weight of anything in it is known."""
        return any(line.weight for line in self.lines)

    @property
    def boxed(self) -> bool:
        """Whether anything in it comes in boxes."""
        return any(line.boxes is not None for line in self.lines)


def groups(found: JobTakeoff, system: System) -> list[Group]:
    """Totals by what is ordered together; bars stand in their own lists."""
    return [
        Group(name, tuple(_line(found, total, system) for total in own))
        for name, own in found.grouped().items()
        if name != "Bars"
    ]


def _line(found: JobTakeoff, total: Total, system: System) -> TotalLine:
    return TotalLine(
        ITEMS[total.item][0],
        total.size,
        station(total.each_in, system) if total.each_in else "",
        amount(total.net, total.unit, system),
        f"{total.waste_percent:g} %" if total.waste_percent else "none",
        amount(total.total, total.unit, system),
        weight(total.pounds, system),
        total.boxes,
        places(found, found.behind(total), system),
    )


def places(found: JobTakeoff, rows: Iterable[Row], system: System) -> tuple[Place, ...]:
    """Where rows go."""
    return tuple(
        Place(
            amount(row.net, row.unit, system), row.wall, found.walls.get(row.wall),
            f"storey {row.level}" if row.kind == WALL_ITSELF else f"floor level {row.level}", row.tag, row.source,
        )
        for row in rows
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class BarRow:
    """A line of the bar list in words. Args: sketch: its bend as SVG, "" for a straight bar."""

    mark: str
    number: str
    words: str
    sketch: Markup
    count: int
    cut: str
    cut_mm: str
    bends: str
    weight: str
    places: tuple[Place, ...]


def bar_rows(found: JobTakeoff, system: System) -> list[BarRow]:
    """The bar list."""
    return [
        BarRow(
            line.mark, f"No. {line.shape.number}", line.shape.words,
            Markup(bar_svg(line.shape, system, f"bend-{line.mark}")) if line.shape.bends_in else Markup(), line.count,
            units.feet_inches(line.each_in), f"{millimetres(line.each_in):,}", bends(line, system),
            weight(line.pounds, system), places(found, line.rows, system),
        )
        for line in found.bars
    ]  # fmt: skip


def bends(line: BarLine, system: System) -> str:
    """How it is bent: "1 bend, 3 in inside; hook of 90 degrees, tail 6 in"."""
    sizes = line.shape.bends_in
    said = [
        f"{sizes.count(size)} bend{'s' * (sizes.count(size) != 1)}, {units.show(size, 'in', system)} inside"
        for size in dict.fromkeys(sizes)
    ]
    angles = [hook for hook in line.shape.hooks if hook]
    for angle, tail in dict.fromkeys(zip(angles, line.shape.tails_in, strict=True)):
        several = "two hooks" if len(angles) == 2 and len(set(angles)) == 1 else "hook"
        said.append(f"{several} of {angle} degrees, tail {units.show(tail, 'in', system)}")
    return "; ".join(said)


@dataclass(frozen=True, slots=True)
class WeightRow:
    """Bars of one size to order."""

    size: str
    count: int
    cut: str
    waste: str
    buy: str
    weight: str


def weight_rows(found: JobTakeoff, system: System) -> list[WeightRow]:
    """Bars by size alone, with waste, and all of them."""

    def row(size: str, own: Sequence[BarWeight], count: int) -> WeightRow:
        feet, total = sum(w.feet for w in own), sum(w.total_feet for w in own)
        percent = own[0].waste_percent
        return WeightRow(
            size, count, amount(feet, FEET, system), f"{percent:g} %" if percent else "none", amount(total, FEET, system),
            weight(sum(w.total_pounds for w in own), system),
        )  # fmt: skip

    def count(size: str) -> int:
        return sum(line.count for line in found.bars if size in ("", f"No. {line.shape.number}"))

    rows = [row(w.size, [w], count(w.size)) for w in found.weights]
    return [*rows, row("All bars", found.weights, count(""))] if len(rows) > 1 else rows


@dataclass(frozen=True, slots=True)
class Pours:
    """Concrete by wall and lift, net. Args: heads: lifts, then what is not in a lift. walls: name, id, figures, sum."""

    heads: tuple[tuple[str, str], ...]
    walls: tuple[tuple[str, int | None, tuple[str, ...], str], ...]
    foot: tuple[tuple[str, ...], str]


def pours(found: JobTakeoff, system: System) -> Pours | None:
    """None where no concrete is counted."""
    rows = [row for row in found.rows if row.item == "concrete"]
    if not rows:
        return None
    lifts = sorted({row.size for row in rows if row.kind == WALL_ITSELF}, key=in_order)
    beside = any(row.kind != WALL_ITSELF for row in rows)

    def figures(of: Sequence[Row]) -> tuple[tuple[str, ...], str]:
        sums = [sum(r.net for r in of if r.size == lift and r.kind == WALL_ITSELF) for lift in lifts]
        sums += [sum(r.net for r in of if r.kind != WALL_ITSELF)] if beside else []
        return tuple(_cubic(value, system) for value in sums), _cubic(sum(r.net for r in of), system)

    heads = [(", ".join(lift.split(", ")[:2]), lift.split(", ")[-1]) for lift in lifts]
    heads += [("Attachments", "ledges, pads, gables")] if beside else []
    names = dict.fromkeys(row.wall for row in rows)
    walls = [(name, found.walls.get(name), *figures([r for r in rows if r.wall == name])) for name in names]
    return Pours(tuple(heads), tuple(walls), figures(rows))


def _cubic(yards: float, system: System) -> str:
    """A volume without its unit; "" for none."""
    return units.shown(yards, "yd³", "mm").figure if system == "mm" and yards else f"{yards:,.2f}" if yards else ""


def concrete_line(found: JobTakeoff, system: System) -> tuple[str, str, str] | None:
    """All concrete: net, waste, to buy."""
    own = [total for total in found.totals if total.item == "concrete"]
    if not own:
        return None
    percent = own[0].waste_percent
    return (
        amount(sum(t.net for t in own), own[0].unit, system), f"{percent:g} %" if percent else "none",
        amount(sum(t.total for t in own), own[0].unit, system),
    )  # fmt: skip
