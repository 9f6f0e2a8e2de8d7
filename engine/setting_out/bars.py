"""Vertical bars of a wall, beam pockets among them, and the extra bars beside pockets and openings."""

from collections.abc import Iterator, Sequence
from math import ceil

from engine.clauses.us.bars import bar
from engine.clauses.us.concrete_wall_steel import bars_at_opening
from engine.setting_out.marks import Finding, Mark
from engine.setting_out.parts import Placed
from engine.setting_out.rows import Row
from engine.setting_out.rules import EPS, Kept, Piece, Rule, within
from engine.setting_out.runs import cuts, stretches, webs
from engine.setting_out.tasks import Habits, Moved, Pocket
from engine.wall import Wall, WallType

TRIM = "5"  # ACI 318-19 11.7.5.1: No. 5 bars beside an opening


def curtains_of(kind: WallType) -> int:
    """Layers of vertical bars: 0, 1 or 2."""
    return {"none": 0, "centre": 1, "two": 2}[kind.curtains]


def evenly_ended(length_in: float, first_in: float, spacing_in: float) -> tuple[float, ...]:
    """Bars from one end at a spacing, the last as far from the other end as the first; one in the middle where only one goes in."""
    between = length_in - 2 * first_in
    if between <= EPS:
        return (length_in / 2,)
    count = ceil(between / spacing_in - EPS)
    return (*(first_in + n * spacing_in for n in range(count)), length_in - first_in)


def vertical_bars(wall: Wall, storey: int, habits: Habits) -> tuple[float, ...]:
    """Stations of a storey's vertical bars as if it had no openings, one for every curtain [in]; () for a plain wall."""
    kind = wall.types[wall.storeys[storey - 1].type]
    if not curtains_of(kind):
        return ()
    return evenly_ended(wall.line.length_ft * 12, habits.first_bar_in, kind.vertical_spacing_in)


def trim_bars(wall: Wall, storey: int, habits: Habits) -> Placed:
    """Extra vertical bars beside every opening of a storey, one for every layer; ACI 318-19 11.7.5.1."""
    kind = wall.types[wall.storeys[storey - 1].type]
    layers = bars_at_opening(max(curtains_of(kind), 1))
    off = habits.bar_cover_in + bar(TRIM).d_b_in / 2
    own = [o for o in wall.openings if o.storey == storey]
    gaps = tuple(Piece(o.start_ft * 12, o.end_ft * 12) for o in own)
    rule = Rule("bar", end_min_in=off, apart_in=bar(TRIM).d_b_in, least=0)
    row = Row(stretches(0.0, wall.line.length_ft * 12, gaps), rule)
    places = [at for gap in gaps for at in (gap.start_in - off, gap.end_in + off)]
    marks = tuple(
        Mark("bar", at, n, layers, f"No. {TRIM} beside an opening, storey {storey}")
        for n, at in enumerate(sorted(places), 1)
    )
    return marks, row.review(places), row


def pocket(
    wall: Wall, level: int, at_in: float, part: Pocket, others: tuple[Kept, ...], habits: Habits, moved: Moved
) -> Placed:
    """A beam pocket with the extra bars beside it."""
    (at,) = moved.get("pocket", (at_in,))[:1] or (at_in,)
    half = part.width_in / 2
    whole = stretches(0.0, wall.line.length_ft * 12, cuts(wall, level, part.band))
    row = Row(
        whole,
        Rule(
            "pocket", end_min_in=half, apart_in=part.width_in, least=0, keeps=tuple(k.for_width(half) for k in others)
        ),
    )
    marks = (Mark("pocket", at, 1), *_beside(at, part, habits))
    bars = Row(whole, Rule("bar", end_min_in=habits.bar_cover_in, apart_in=part.d_b_in, least=0))
    findings = (
        *row.review([at]),
        *bars.review([m.at_in for m in marks[1:]]),
        *_cut(wall, level, at, part, habits),
    )
    return marks, findings, row


def _beside(at: float, part: Pocket, habits: Habits) -> Iterator[Mark]:
    """Bars added, by turns on the near and the far side, from the pocket outward."""
    first, step = part.width_in / 2 + habits.bar_cover_in + part.d_b_in / 2, habits.bars_apart_in + part.d_b_in
    offs = [(-1 if n % 2 == 0 else 1) * (first + n // 2 * step) for n in range(part.bars_added)]
    for number, off in enumerate(sorted(offs), 1):
        yield Mark("bar", at + off, number, 1, "beside the pocket")


def _cut(wall: Wall, level: int, at: float, part: Pocket, habits: Habits) -> Iterator[Finding]:
    """Webs and vertical bars that run through the pocket."""
    lower, _, _ = wall.at_level(level)
    low, high = at - part.width_in / 2, at + part.width_in / 2
    through = within(webs(lower, low - 1, high + 1), low, high)
    if through:
        yield Finding("webs cut", "pocket", at, 0.0, f"The pocket at {{at}} cuts {_of(through, 'web')}.", note=True)
    size = part.d_b_in / 2
    bars = within(vertical_bars(wall, level, habits), low - size, high + size)
    if len(bars) != part.bars_cut:
        say = f"The pocket at {{at}} meets {_of(bars, 'vertical bar')} of the wall; its check has {part.bars_cut} cut."
        yield Finding("bars cut", "pocket", at, 0.0, say, note=True)


def _of(things: Sequence[float], word: str) -> str:
    return f"{len(things)} {word}" + ("" if len(things) == 1 else "s") if things else f"no {word}"
