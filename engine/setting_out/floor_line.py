"""A floor line: joists that meet a wall at one level, in layout order, and what openings do to them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor

from engine.errors import BadInput
from engine.fields import count, number, text, yes
from engine.setting_out.marks import Finding
from engine.setting_out.rows import Row
from engine.setting_out.rules import EPS, Piece, Rule, within
from engine.setting_out.runs import Band, cuts, on_wall, stretches
from engine.units import show
from engine.wall import Wall

LINE = "Floor line"


@dataclass(frozen=True, slots=True)
class FloorLine:
    """Where joists meet a wall: see each field's label, unit and range. `kind` is the attachment chosen, "" until one is."""

    wall: str = text("Wall", group=LINE)
    level: int = count("Floor level, 1 at the top of the first storey", 1, 8, 1, group=LINE)
    start_ft: float = number("Starts at, from the wall's named end", "ft", 0, 400, 0.0, group=LINE)
    end_ft: float | None = number(
        "Ends at", "ft", 0, 400, group=LINE, optional=True, hint="The wall's far end where left open."
    )
    joist_spacing_in: float = number("Joist spacing", "in", 6, 96, 16.0, group=LINE)
    first_joist_in: float = number("Start to the middle of the first joist", "in", 0, 96, 16.0, group=LINE)
    joist_width_in: float = number("Joist width", "in", 1, 12, 1.5, group=LINE)
    depth_in: float = number(
        "Wall the joists need below the floor level", "in", 0, 96, 12.0, group=LINE,
        hint="An opening that reaches into it takes away what they stand on.",
    )  # fmt: skip
    last_joist: bool = yes("A last joist at the line's end", group=LINE)
    kind: str = text("Carried by", group=LINE)

    def run_in(self, wall: Wall) -> Piece:
        """Its run along the wall. Raises: BadInput where it is not on it, by how much."""
        end = wall.line.length_ft if self.end_ft is None else self.end_ft
        on_wall(wall, self.start_ft * 12, end * 12)
        return Piece(self.start_ft * 12, end * 12)


@dataclass(frozen=True, slots=True)
class Joists:
    """Joists of a line: stations of those that bear on the wall [in], and of those that an opening takes; findings."""

    row: Row
    stations: tuple[float, ...]
    headered: tuple[float, ...] = ()
    findings: tuple[Finding, ...] = ()


def layout_in(line: FloorLine, run: Piece) -> tuple[float, ...]:
    """Middles of the joists in layout order [in]. Raises: BadInput where spacing or first joist do not go on the run."""
    half = line.joist_width_in / 2
    if line.joist_spacing_in > run.length_in + EPS:
        over = show(line.joist_spacing_in - run.length_in, "in")
        raise BadInput("joist_spacing_in", f"The spacing is {over} more than the line is long. Enter less.")
    first, end = run.start_in + line.first_joist_in, run.end_in - half
    if first < run.start_in + half - EPS:
        raise BadInput(
            "first_joist_in", f"Enter {show(half, 'in')} or more: the joist would stand off the line's start."
        )
    if first > end + EPS:
        over = show(first - end, "in")
        raise BadInput("first_joist_in", f"The first joist stands {over} off the line's end. Enter less.")
    step = line.joist_spacing_in
    found = [first + n * step for n in range(floor((end - first) / step + EPS) + 1)]
    if line.last_joist and end - found[-1] > EPS:
        if end - found[-1] < line.joist_width_in:
            found.pop()  # two would share one place: the one at the end stays
        found.append(end)
    return tuple(found)


def joists(line: FloorLine, wall: Wall, by_hand: tuple[float, ...] | None = None) -> Joists:
    """Joists of a line on its wall.

    Args: line: as read, or held against its ranges. by_hand: stations moved by hand instead of the layout [in].
    Raises: BadInput for a line that is not on its wall, or a layout that does not go on it, naming the amount.
    """
    run, half = line.run_in(wall), line.joist_width_in / 2
    gaps = cuts(wall, line.level, Band(-line.depth_in, 0.0))
    stations = layout_in(line, run) if by_hand is None else tuple(sorted(by_hand))
    headered = dict.fromkeys(at for g in gaps for at in within(stations, g.start_in - half, g.end_in + half))
    kept = tuple(at for at in stations if at not in headered)
    rule = Rule(
        "joist", line.joist_spacing_in, end_min_in=half, end_max_in=max(line.first_joist_in, line.joist_spacing_in),
        apart_in=line.joist_width_in, least=0,
    )  # fmt: skip
    row = Row(stretches(run.start_in, run.end_in, gaps), rule)
    findings = [*_headers(stations, gaps, half), *_lintels(line, wall, kept)]
    if by_hand is not None:
        findings += row.review(kept)
    return Joists(row, kept, tuple(headered), tuple(findings))


def _headers(stations: tuple[float, ...], gaps: tuple[Piece, ...], half: float) -> Iterator[Finding]:
    """One note for every opening that takes joists away."""
    for gap in gaps:
        inside = within(stations, gap.start_in - half, gap.end_in + half)
        if inside:
            say = f"{_joists(inside)} would meet the opening from {{at}} to {{end}}, {{amount}} wide: head off or move."
            facts = {"end": (gap.end_in, "station")}
            yield Finding("header", "joist", gap.start_in, gap.length_in, say, facts, note=True)


def _lintels(line: FloorLine, wall: Wall, kept: tuple[float, ...]) -> Iterator[Finding]:
    """One note for every opening whose lintel carries joists."""
    _, _, storey = wall.at_level(line.level)
    for o in wall.openings:
        start, end = o.start_ft * 12, o.end_ft * 12
        if o.storey != line.level or (storey.height_ft - o.head_ft) * 12 < line.depth_in - EPS:
            continue
        over = within(kept, start, end)
        if over:
            say = f"{_joists(over)} over the opening from {{at}} to {{end}}: its lintel, {{amount}} deep, carries them."
            facts = {"end": (end, "station")}
            yield Finding("lintel", "joist", start, (storey.height_ft - o.head_ft) * 12, say, facts, note=True)


def _joists(stations: Sequence[float]) -> str:
    return "One joist" if len(stations) == 1 else f"{len(stations)} joists"
