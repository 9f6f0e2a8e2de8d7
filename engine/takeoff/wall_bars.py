"""Bars of a wall by storey: verticals with their laps, horizontals with hooks and laps, bars round openings. Cut lengths [in]."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from engine.clauses.us import development
from engine.clauses.us.bars import bar
from engine.clauses.us.bent_bars import hooked_bar_in, lap_of_two_sizes_in
from engine.clauses.us.concrete_wall_steel import bars_at_opening
from engine.errors import BadInput
from engine.setting_out import Habits, Piece, stretches
from engine.setting_out.bars import TRIM, curtains_of, evenly_ended, vertical_bars
from engine.takeoff.rows import Maker, Office
from engine.takeoff.shapes import Shape, hooked
from engine.units import show
from engine.wall import Opening, Wall, WallType

TOP_WITHIN_IN = 12.0  # IRC R608.6.2: a horizontal bar within 12 in of the top of a storey and of its floor
FRESH_IN = 12.0  # ACI 318-19 25.4.2.5: bars with more fresh concrete than this below count as top bars

Cut = tuple[str, Shape, float]  # size number, shape, cut length


def cut_to_sixteenth(length_in: float) -> float:
    """A cut length as it is written and weighed [in]."""
    return round(length_in * 16) / 16


def add_bars(maker: Maker, cuts: Counter[Cut], source: str) -> None:
    """A row for every size, shape and cut length."""
    for (number, shape, length), count in sorted(cuts.items(), key=lambda c: (int(c[0][0]), c[0][1].words, c[0][2])):
        pounds = count * length / 12 * bar(number).weight_plf
        maker.add("bar", f"No. {number}, {shape.words}", count, source, length, pounds, shape)


def straight_cut(number: str, length_in: float) -> Cut:
    """A straight bar, cut to the sixteenth."""
    return hooked_cut(number, length_in, 0)


def hooked_cut(number: str, length_in: float, hooks: int) -> Cut:
    """A bar with standard hooks at some of its ends, cut to the sixteenth. Args: length_in: hooks and all."""
    cut = cut_to_sixteenth(length_in)
    return number, hooked(number, cut, hooks), cut


def lap_in(number: str, kind: WallType, fresh_in: float = 0.0) -> float:
    """Class B tension lap (ACI 318-19 25.5.2.1), up to the whole inch. Args: fresh_in: fresh concrete below a level bar [in]."""
    return float(ceil(development.lap_b_in(_developed(number, kind, fresh_in)) - 1e-9))


def _developed(number: str, kind: WallType, fresh_in: float = 0.0) -> float:
    f_y = kind.f_y_ksi * 1000
    return development.tension_development_in(
        f_y, kind.f_c_psi, bar(number).d_b_in, development.straight_psi_t(fresh_in),
        psi_g=development.straight_psi_g(f_y),
    )  # fmt: skip


def lap_up_in(below: WallType, above: WallType) -> float:
    """Lap of a storey's vertical bars with those of the storey above, which may be of another size [in]."""
    sizes = sorted((below.vertical_bar, above.vertical_bar), key=int)
    if sizes[0] == sizes[1]:
        return lap_in(sizes[0], below)
    of_two = lap_of_two_sizes_in(_developed(sizes[1], below), development.lap_b_in(_developed(sizes[0], below)))
    return float(ceil(of_two - 1e-9))


@dataclass(frozen=True, slots=True)
class StoreyBars:
    """Where a storey's bars end: its wall, number and type, height [in], and how far verticals run on into the next [in]."""

    wall: Wall
    storey: int
    kind: WallType
    height_in: float
    up_in: float

    @property
    def openings(self) -> tuple[Opening, ...]:
        """Those of this storey."""
        return tuple(o for o in self.wall.openings if o.storey == self.storey)

    @property
    def length_in(self) -> float:
        """Of the wall."""
        return self.wall.line.length_ft * 12


def storey_bars(wall: Wall, storey: int) -> StoreyBars:
    """A storey; at the wall's top, and under a storey without vertical bars, the verticals end a cover short."""
    kind = wall.types[wall.storeys[storey - 1].type]
    up = -kind.cover_in
    if storey < len(wall.storeys):
        above = wall.types[wall.storeys[storey].type]
        if curtains_of(above):
            up = lap_up_in(kind, above)
    return StoreyBars(wall, storey, kind, wall.storeys[storey - 1].height_ft * 12, up)


def verticals(s: StoreyBars, habits: Habits) -> Counter[Cut]:
    """Full bars, and what openings leave of them below their sill and above their head."""
    found: Counter[Cut] = Counter()
    layers, cover = curtains_of(s.kind), s.kind.cover_in
    for at in vertical_bars(s.wall, s.storey, habits):
        meets = [o for o in s.openings if o.start_ft * 12 - cover < at < o.end_ft * 12 + cover]
        low, high = min((o.sill_ft for o in meets), default=0.0) * 12, max((o.head_ft for o in meets), default=0.0) * 12
        # a bar stands only where the storey has concrete to hold it between two covers
        below = [low - cover] if meets and low > 2 * cover else []
        above = [s.height_in - high - cover + s.up_in] if s.height_in - high > 2 * cover else []
        for length in (below + above) if meets else [s.height_in + s.up_in]:
            found[straight_cut(s.kind.vertical_bar, length)] += layers
    return found


def horizontals(s: StoreyBars, office: Office) -> Counter[Cut]:
    """Bars at every level: between openings, hooked at corners, lapped where longer than stock."""
    found: Counter[Cut] = Counter()
    layers, cover = max(curtains_of(s.kind), 1), s.kind.cover_in
    edge = min(TOP_WITHIN_IN, s.kind.horizontal_spacing_in / 2)
    for z in evenly_ended(s.height_in, edge, s.kind.horizontal_spacing_in):
        gaps = tuple(
            Piece(o.start_ft * 12, o.end_ft * 12)
            for o in s.openings
            if o.sill_ft * 12 - cover < z < o.head_ft * 12 + cover
        )
        for run in stretches(0.0, s.length_in, gaps):
            for cut in _level_bar(s, run, z, office):
                found[cut] += layers
    return found


def _level_bar(s: StoreyBars, run: Piece, z: float, office: Office) -> Iterator[Cut]:
    """One level bar along a run, in stock lengths."""
    number, size = s.kind.horizontal_bar, bar(s.kind.horizontal_bar)
    out = run.length_in - 2 * s.kind.cover_in
    if out <= 0:
        return
    line = s.wall.line
    near = run.start_in <= 0 and line.near_end == "corner"
    far = run.end_in >= s.length_in and line.far_end == "corner"
    hooks = near + far
    yield from lapped(number, hooked_bar_in(out, size.d_b_in, hooks), lap_in(number, s.kind, z), office, hooks)


def lapped(number: str, length_in: float, lap: float, office: Office, hooks: int = 0) -> Iterator[Cut]:
    """A long bar as stock lengths and a rest, laps added; hooks stand on the first and the last.

    Raises: BadInput where stock is no longer than the lap.
    """
    stock = office.stock_ft * 12
    if length_in <= stock + 1e-9:
        yield hooked_cut(number, length_in, hooks)
        return
    if stock <= lap:
        short = show(lap - stock, "in")
        raise BadInput("stock_ft", f"The lap of a No. {number} is {short} longer than stock bars. Enter longer ones.")
    count = ceil((length_in - lap) / (stock - lap) - 1e-9)
    rest = length_in + (count - 1) * lap - (count - 1) * stock
    for n in range(count - 1):
        yield hooked_cut(number, stock, 1 if hooks and n == 0 else 0)
    yield hooked_cut(number, rest, 1 if hooks == 2 else 0)


def beside_openings(s: StoreyBars) -> Counter[Cut]:
    """No. 5 bars round every opening, developed past its corners where the storey lets them; ACI 318-19 11.7.5.1."""
    found: Counter[Cut] = Counter()
    layers, cover = bars_at_opening(max(curtains_of(s.kind), 1)), s.kind.cover_in
    past = ceil(_developed(TRIM, s.kind) - 1e-9)
    past_top = ceil(_developed(TRIM, s.kind, FRESH_IN + 1) - 1e-9)
    for o in s.openings:
        low, high = max(o.sill_ft * 12 - past, cover), min(o.head_ft * 12 + past, s.height_in - cover)
        found[straight_cut(TRIM, high - low)] += 2 * layers
        start, end = max(o.start_ft * 12 - past_top, cover), min(o.end_ft * 12 + past_top, s.length_in - cover)
        edges = (o.sill_ft > 0) + (o.head_ft * 12 < s.height_in)
        if edges:
            found[straight_cut(TRIM, end - start)] += edges * layers
    return found
