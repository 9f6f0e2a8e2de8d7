"""Cast-in plates beside joists, anchored plates, stirrups in the webs' spaces, brackets where the wall steps."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import floor

from engine.setting_out.bolts import set_or_reviewed
from engine.setting_out.floor_line import Joists
from engine.setting_out.marks import Finding, Mark, numbered
from engine.setting_out.rows import Row
from engine.setting_out.rules import EPS, Kept, Piece, Rule, within
from engine.setting_out.runs import Band, cuts, stretches, webs
from engine.setting_out.tasks import Habits, Moved, Plates, Spaced, Stirrups
from engine.wall import Wall

Placed = tuple[tuple[Mark, ...], tuple[Finding, ...], Row]
SIDES = {1: "on the joist's far side", -1: "on the joist's near side"}


def plates(
    wall: Wall, level: int, part: Plates, joists: Joists, beside: tuple[Kept, ...], habits: Habits, moved: Moved
) -> Placed:
    """One part beside every joist, on its far side unless a web or a pocket is in the way there."""
    lower, _, _ = wall.at_level(level)
    kept = (
        Kept("a web", webs(lower, 0.0, wall.line.length_ft * 12), part.half_in, habits.web_clear_in),
        *(k.for_width(part.half_in) for k in beside),
    )
    off = joists.row.rule.end_min_in + part.gap_in + part.half_in
    rule = Rule("plate", apart_in=2 * part.half_in, least=0, keeps=kept, serves=joists.stations, serve_in=off)
    row = Row(joists.row.pieces, rule)
    if "plate" in moved:
        stations, findings = set_or_reviewed(row, moved)
        return numbered("plate", stations), findings, row
    marks = []
    stuck = []
    for number, joist in enumerate(joists.stations, 1):
        side = next((s for s in SIDES if _clear(kept, joist + s * off)), 0)
        if not side:
            stuck.append(joist)
        marks.append(Mark("plate", joist + (side or 1) * off, number, 1, SIDES[side or 1]))
    findings = tuple(f for joist in stuck for f in row.review([joist + off]) if f.key == "clear")
    return tuple(marks), findings + tuple(_shift(joists, stuck, kept, off, habits)), row


def _clear(keeps: Sequence[Kept], at: float) -> bool:
    return not any(within(k.at_in, at - k.reach_in, at + k.reach_in) for k in keeps)


def _shift(
    joists: Joists, stuck: Sequence[float], keeps: Sequence[Kept], off: float, habits: Habits
) -> Iterator[Finding]:
    """The least shift of all joists together that gives every part a place."""
    if not stuck:
        return
    most = floor(joists.row.rule.spacing_in / habits.grid_in)
    for n in range(1, most + 1):
        for by in (n * habits.grid_in, -n * habits.grid_in):
            if all(any(_clear(keeps, at + by + side * off) for side in SIDES) for at in joists.stations):
                toward = "the far end" if by > 0 else "the named end"
                say = f"Moving every joist {{amount}} toward {toward} gives each its plate."
                yield Finding("shift", "joist", joists.stations[0], abs(by), say, note=True)
                return


def anchored(wall: Wall, level: int, run: Piece, part: Spaced, beside: tuple[Kept, ...], moved: Moved) -> Placed:
    """Anchored plates: one at the run's start, or at a spacing along it from its start."""
    half = part.width_in / 2
    whole = stretches(0.0, wall.line.length_ft * 12, cuts(wall, level, part.band))
    row = Row(
        whole,
        Rule(
            "anchored", end_min_in=half, apart_in=part.width_in, least=0, keeps=tuple(k.for_width(half) for k in beside)
        ),
    )
    stations: tuple[float, ...] = (run.start_in,)
    if part.spacing_in is not None:
        row = replace(row, rule=replace(row.rule, spacing_in=part.spacing_in))
        count = floor(run.length_in / part.spacing_in + EPS) + 1
        stations = tuple(run.start_in + n * part.spacing_in for n in range(count))
    stations = tuple(sorted(moved.get("anchored", stations)))
    return numbered("anchored", stations), row.review(stations), row


def stirrups(wall: Wall, level: int, run: Piece, part: Stirrups, moved: Moved) -> Placed:
    """A stirrup in the middle of every so many spaces between webs; a part space at an end counts when wider than half."""
    lower, _, _ = wall.at_level(level)
    module = lower.web_spacing_in
    whole = stretches(run.start_in, run.end_in, cuts(wall, level, part.band))
    at_webs = webs(lower, run.start_in, run.end_in)
    most = part.spaces * module
    rule = Rule("stirrup", most, 0.0, most, part.d_b_in, keeps=(Kept("a web", at_webs, 0.0, part.d_b_in),))
    row = Row(whole, rule)
    if "stirrup" in moved:
        stations, findings = set_or_reviewed(row, moved)
    else:
        stations, findings = tuple(at for s in whole for at in spaces(s, at_webs, module)[:: part.spaces]), ()
    return tuple(_with_corners(wall, stations, part, module)), findings, row


def spaces(stretch: Piece, at_webs: Sequence[float], module: float) -> tuple[float, ...]:
    """Middles of the spaces that webs leave on a stretch, those wider than half a module [in]."""
    inner = within(at_webs, stretch.start_in, stretch.end_in)
    edges = [stretch.start_in, *inner, stretch.end_in]
    found = tuple((a + b) / 2 for a, b in pairwise(edges) if b - a > module / 2 + EPS)
    return found or ((stretch.start_in + stretch.end_in) / 2,)


def _with_corners(wall: Wall, stations: Sequence[float], part: Stirrups, module: float) -> Iterator[Mark]:
    """Marks with the extra stirrups of the first web space at a corner of the wall."""
    length = wall.line.length_ft * 12
    near = wall.line.near_end == "corner" and bool(stations) and stations[0] <= 2 * module
    far = wall.line.far_end == "corner" and bool(stations) and stations[-1] >= length - 2 * module
    for number, at in enumerate(stations, 1):
        extra = part.corner_extra * ((near and number == 1) + (far and number == len(stations)))
        yield Mark("stirrup", at, number, 1 + extra, "with those of the corner" if extra else "")


def brackets(wall: Wall, level: int, habits: Habits, moved: Moved) -> Placed | None:
    """Brackets that hold the upper forms where the wall type changes at this level; None where it does not."""
    lower, upper, _ = wall.at_level(level)
    if (lower.core_in, lower.foam_inner_in) == (upper.core_in, upper.foam_inner_in):
        return None
    length = wall.line.length_ft * 12
    whole = stretches(0.0, length, cuts(wall, level, Band(-EPS * 2, upper.course_in)))
    places = webs(upper, 0.0, length) if habits.brackets_on_webs else None
    rule = Rule(
        "bracket", habits.bracket_spacing_in, 0.0, habits.bracket_end_in, grid_in=habits.grid_in, only_at=places
    )
    row = Row(whole, rule)
    stations, findings = set_or_reviewed(row, moved)
    return numbered("bracket", stations), findings, row
