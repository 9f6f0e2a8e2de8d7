"""Rows of a takeoff: what, how much, where from; waste, totals, and records for a table."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import ceil, isfinite

from engine import units
from engine.errors import BadInput
from engine.fields import count, number
from engine.setting_out import millimetres
from engine.takeoff.shapes import Shape

FORMS, BARS, HARDWARE = "Forms and lifts", "Bars", "Hardware"
EACH, FEET, YARDS = "each", "ft", "yd³"

# What is counted: key -> (words, unit).
ITEMS: Mapping[str, tuple[str, str]] = {
    "form": ("Forms", EACH),
    "concrete": ("Concrete", YARDS),
    "bar": ("Bars", EACH),
    "plate": ("Cast-in plates, brackets and hangers", EACH),
    "anchored plate": ("Anchored plates", EACH),
    "bearing plate": ("Bearing plates", EACH),
    "bracket": ("Transition brackets", EACH),
    "anchor": ("Anchor bolts", EACH),
    "nut": ("Nuts", EACH),
    "washer": ("Washers", EACH),
    "tie": ("Floor ties", EACH),
    "hanger": ("Joist hangers", EACH),
    "screw": ("Screws", EACH),
    "hanger fastener": ("Hanger fasteners", EACH),
    "member bolt": ("Bolts to members", EACH),
    "ledger": ("Ledger", FEET),
    "ledger piece": ("Ledger pieces", EACH),
    "sill": ("Sill plate", FEET),
    "sill piece": ("Sill plate pieces", EACH),
    "foam cut": ("Foam cuts", EACH),
    "foam strip": ("Foam cut along a line", FEET),
    "strapping": ("Strapping", FEET),
    "sealant": ("Sealant and gasket", FEET),
}

# What a buyer orders together.
GROUPS: Mapping[str, tuple[str, ...]] = {
    "Concrete and forms": ("form", "concrete"),
    "Bars": ("bar",),
    "Plates, bolts and hardware": (
        "plate", "anchored plate", "bearing plate", "bracket", "anchor", "nut", "washer", "tie", "hanger", "screw",
        "hanger fastener", "member bolt",
    ),
    "Wood": ("ledger", "ledger piece", "sill", "sill piece"),
    "Foam and sealant": ("foam cut", "foam strip", "strapping", "sealant"),
}  # fmt: skip
CUT_PIECES = ("ledger piece", "sill piece")  # lists to cut by; the running length they are cut from has the waste
WORK = ("foam cut", "foam strip")  # done to the forms, not bought


@dataclass(frozen=True, slots=True)
class Office:
    """What an office types once for its takeoffs; common practice throughout."""

    form_length_in: float = number("Length of a straight form", "in", 12, 240, 48.0, group=FORMS)
    corner_leg_in: float = number(
        "Wall each leg of a corner form takes", "in", 0, 96, 0.0, group=FORMS, hint="0 where corners are cut from straight forms."
    )  # fmt: skip
    special_length_in: float = number("Length of a taper or ledge form", "in", 12, 240, 48.0, group=FORMS)
    lift_ft: float = number("Height of a lift", "ft", 0.5, 40, 4.0, group=FORMS)
    stock_ft: float = number("Length of stock bars", "ft", 8, 60, 20.0, group=BARS)
    tie_width_in: float = number("Width of closed ties along the wall", "in", 2, 24, 4.0, group=BARS)
    screws_a_box: int = count("Screws in a box", 1, 100000, 100, group=HARDWARE)


Waste = Mapping[str, float]  # percent by item; what is not named has none


def checked_waste(waste: Waste) -> Waste:
    """Raises: BadInput for an item that is not known, or a share that is not from 0 to 100 percent."""
    for item, percent in waste.items():
        if item not in ITEMS:
            raise BadInput("waste", f"No item {item!r}. Known: {', '.join(ITEMS)}.")
        if not (isfinite(percent) and 0 <= percent <= 100):
            raise BadInput("waste", f"Enter a waste of 0 to 100 percent for {ITEMS[item][0].lower()}.")
    return waste


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a takeoff.

    Args:
        item: a key of ITEMS. size: which of its kind, in words. net: how much, in the item's unit.
        each_in: cut length of one [in], 0 where it has none. pounds: weight of the net amount, None where not known.
        wall, level, tag, kind: where it goes; kind "wall" for the wall itself. source: where the figure comes from.
        shape: how a bar is bent.
    """

    item: str
    size: str
    net: float
    wall: str
    level: int
    kind: str
    source: str
    tag: str = ""
    each_in: float = 0.0
    pounds: float | None = None
    shape: Shape | None = None

    @property
    def unit(self) -> str:
        """Unit of the amount."""
        return ITEMS[self.item][1]

    @property
    def length_mm(self) -> int | None:
        """Of a length the whole, of cut pieces one [mm]; None for what has no length."""
        return _length_mm(self.unit, self.net, self.each_in)


def _length_mm(unit: str, amount: float, each_in: float) -> int | None:
    if each_in:
        return millimetres(each_in)
    return millimetres(amount * 12) if unit == FEET else None


@dataclass(frozen=True, slots=True)
class Total:
    """All of one item, size and cut length. `total` has waste in it and is whole for what is counted."""

    item: str
    size: str
    each_in: float
    net: float
    waste_percent: float
    pounds: float | None
    boxes: int | None = None

    @property
    def unit(self) -> str:
        """Unit of net and total."""
        return ITEMS[self.item][1]

    @property
    def total(self) -> float:
        """What to buy."""
        gross = self.net * (1 + self.waste_percent / 100)
        return float(ceil(gross - 1e-6)) if self.unit == EACH else gross

    @property
    def length_mm(self) -> int | None:
        """Of a length the whole with waste, of cut pieces one [mm]."""
        return _length_mm(self.unit, self.total, self.each_in)


def totals(rows: Iterable[Row], waste: Waste | None = None, office: Office | None = None) -> tuple[Total, ...]:
    """Rows added up by item, size and cut length, in the order of ITEMS.

    Args: waste: percent by item; a list of cut pieces has none, what they are cut from has.
    Raises: BadInput for a waste that is not known or not a percentage.
    """
    waste, box = checked_waste(waste or {}), (office or Office()).screws_a_box
    groups: dict[tuple[str, str, float], list[Row]] = {}
    for row in rows:
        groups.setdefault((row.item, row.size, row.each_in), []).append(row)
    order = list(ITEMS)
    found = []
    for (item, size, each), own in sorted(
        groups.items(), key=lambda g: (order.index(g[0][0]), in_order(g[0][1]), -g[0][2])
    ):
        known = [row.pounds for row in own if row.pounds is not None]
        total = Total(
            item, size, each, sum(row.net for row in own), _percent(item, each, waste),
            sum(known) if len(known) == len(own) else None,
        )  # fmt: skip
        found.append(_boxed(total, box) if item == "screw" else total)
    return tuple(found)


def in_order(size: str) -> tuple[tuple[int, str], ...]:
    """A key that sorts sizes by the figures in them: "No. 4" before "No. 10"."""
    return tuple((int(part), "") if part.isdecimal() else (-1, part) for part in re.split(r"(\d+)", size) if part)


def _percent(item: str, each_in: float, waste: Waste) -> float:
    """A list of cut pieces has no waste; what they are cut from has."""
    return 0.0 if each_in else waste.get(item, 0.0)


def _boxed(total: Total, box: int) -> Total:
    return Total(
        total.item, total.size, total.each_in, total.net, total.waste_percent, total.pounds, ceil(total.total / box - 1e-9)
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class BarWeight:
    """All bars of one size: length [ft] and weight [lb] as cut, and with waste."""

    size: str
    feet: float
    pounds: float
    waste_percent: float = 0.0

    @property
    def total_feet(self) -> float:
        """With waste."""
        return self.feet * (1 + self.waste_percent / 100)

    @property
    def total_pounds(self) -> float:
        """With waste."""
        return self.pounds * (1 + self.waste_percent / 100)


def bar_weights(rows: Iterable[Row], waste: Waste | None = None) -> tuple[BarWeight, ...]:
    """Bars by size alone ("No. 4"), smallest first. Raises: as `totals`."""
    percent = checked_waste(waste or {}).get("bar", 0.0)
    feet: dict[str, float] = {}
    pounds: dict[str, float] = {}
    for row in rows:
        if row.item == "bar":
            size = row.size.split(",")[0]
            feet[size] = feet.get(size, 0.0) + row.net * row.each_in / 12
            pounds[size] = pounds.get(size, 0.0) + (row.pounds or 0.0)
    return tuple(BarWeight(s, feet[s], pounds[s], percent) for s in sorted(feet, key=lambda s: (len(s), s)))


HEADINGS = (
    "item", "size", "unit", "net", "waste %", "total", "each, in", "each or whole, mm", "weight, lb", "wall", "level",
    "attachment", "kind", "from",
)  # fmt: skip


def records(rows: Sequence[Row], waste: Waste | None = None) -> Iterator[tuple[str, ...]]:
    """Rows as texts under HEADINGS, for a table or a file; `total` has the row's own waste and is not rounded up."""
    waste = checked_waste(waste or {})
    for row in rows:
        percent = _percent(row.item, row.each_in, waste)
        yield (
            ITEMS[row.item][0], row.size, row.unit, f"{row.net:.6g}", f"{percent:g}",
            f"{row.net * (1 + percent / 100):.6g}", units.fraction(row.each_in) if row.each_in else "",
            "" if row.length_mm is None else str(row.length_mm), "" if row.pounds is None else f"{row.pounds:.1f}", row.wall,
            str(row.level), row.tag, row.kind, row.source,
        )  # fmt: skip


TOTAL_HEADINGS = (
    "item",
    "size",
    "unit",
    "net",
    "waste %",
    "total",
    "each, in",
    "each or whole, mm",
    "weight, lb",
    "boxes",
)


def total_records(found: Sequence[Total]) -> Iterator[tuple[str, ...]]:
    """Totals as texts under TOTAL_HEADINGS."""
    for t in found:
        yield (
            ITEMS[t.item][0], t.size, t.unit, f"{t.net:.6g}", f"{t.waste_percent:g}", f"{t.total:.6g}",
            units.fraction(t.each_in) if t.each_in else "", "" if t.length_mm is None else str(t.length_mm),
            "" if t.pounds is None else f"{t.pounds:.1f}", "" if t.boxes is None else str(t.boxes),
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Maker:
    """Makes rows that share a place."""

    wall: str
    level: int
    kind: str
    tag: str = ""
    made: list[Row] = field(default_factory=list)

    def add(
        self,
        item: str,
        size: str,
        net: float,
        source: str,
        each_in: float = 0.0,
        pounds: float | None = None,
        shape: Shape | None = None,
    ) -> None:
        """A row, unless there is nothing of it."""
        if net > 1e-9:
            place = (self.wall, self.level, self.kind, source, self.tag)
            self.made.append(Row(item, size, net, *place, each_in, pounds, shape))
