"""Bolts of a plate or ledger in its pieces, and the floor ties that stand at them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from engine.setting_out.floor_line import Joists
from engine.setting_out.marks import Finding, Mark, numbered
from engine.setting_out.rows import Row
from engine.setting_out.rules import EPS, Kept, Piece, Rule, within
from engine.setting_out.runs import cuts, pieces, stretches, webs
from engine.setting_out.tasks import Bolts, Habits, Moved
from engine.wall import Wall


@dataclass(frozen=True, slots=True)
class Bolted:
    """Marks, findings, the row of each kind, and the pieces of plate or ledger."""

    marks: tuple[Mark, ...]
    findings: tuple[Finding, ...]
    rows: dict[str, Row]
    pieces: tuple[Piece, ...]


def bolted(
    wall: Wall,
    level: int,
    run: Piece,
    bolts: Bolts,
    joists: Joists | None,
    beside: tuple[Kept, ...],
    habits: Habits,
    moved: Moved,
) -> Bolted:
    """Bolts of one attachment. Args: beside: pockets and plates to keep clear of. Raises: BadInput for rules that clash."""
    whole = stretches(run.start_in, run.end_in, cuts(wall, level, bolts.band))
    shortest = min(habits.shortest_in, bolts.piece_in)
    avoid = _joists(joists, max(bolts.joint_clear_in, habits.joint_clear_in))
    cut = tuple(piece for stretch in whole for piece in pieces(stretch, bolts.piece_in, shortest, avoid))
    keeps = _keeps(wall, level, run, joists, bolts, habits) + beside
    rule = Rule(
        "anchor", bolts.spacing_in, bolts.end_min_in, bolts.end_max_in, bolts.apart_in, bolts.least, habits.grid_in, keeps
    )  # fmt: skip
    row = Row(cut, rule)
    stations, findings = _chosen(row, bolts, moved)
    marks, rows = numbered("anchor", stations, bolts.each), {"anchor": row}
    findings += tuple(_joints(cut, avoid)) + tuple(_idle(run, bolts)) + tuple(_ends(cut, stations, bolts))
    if bolts.tie_in is not None:
        bolted_on = tuple(s for s in whole if _outer(stations, s))
        rows["tie"] = _ties(bolted_on, stations, bolts, bolts.tie_in, habits, keeps)
        tied, of_ties = set_or_reviewed(rows["tie"], moved)
        marks, findings = marks + numbered("tie", tied), findings + of_ties
    return Bolted(marks, findings, rows, cut)


def _chosen(row: Row, bolts: Bolts, moved: Moved) -> tuple[tuple[float, ...], tuple[Finding, ...]]:
    """Places of the bolts; the end ones no farther out than the check took wherever that can be."""
    most = bolts.end_checked_in
    if (
        "anchor" in moved
        or bolts.worse == "nearer"
        or most is None
        or not row.rule.end_min_in <= most < row.rule.end_max_in
    ):
        return set_or_reviewed(row, moved)
    near = Row(row.pieces, replace(row.rule, end_max_in=most)).place(explain=False)
    far = Row(tuple(piece for piece, _ in near.remedies), row.rule).place()
    return tuple(sorted(near.stations + far.stations)), far.findings


def set_or_reviewed(row: Row, moved: Moved) -> tuple[tuple[float, ...], tuple[Finding, ...]]:
    """Stations of a row and its findings: by the rule, or as moved by hand and checked."""
    if row.rule.what in moved:
        stations = tuple(sorted(moved[row.rule.what]))
        return stations, row.review(stations)
    placed = row.place()
    return placed.stations, placed.findings


def _keeps(wall: Wall, level: int, run: Piece, joists: Joists | None, bolts: Bolts, habits: Habits) -> tuple[Kept, ...]:
    lower, _, _ = wall.at_level(level)
    found = [Kept("a web", webs(lower, run.start_in, run.end_in), 0.0, habits.web_clear_in)]
    beside = _joists(joists, habits.hanger_clear_in if bolts.beside == "hanger" else habits.joist_clear_in)
    return (*found, beside) if beside else tuple(found)


def _joists(joists: Joists | None, clear_in: float) -> Kept | None:
    return None if joists is None else Kept("the joist", joists.stations, joists.row.rule.end_min_in, clear_in)


def _ties(
    whole: tuple[Piece, ...],
    stations: tuple[float, ...],
    bolts: Bolts,
    spacing_in: float,
    habits: Habits,
    keeps: tuple[Kept, ...],
) -> Row:
    """Ties at bolts chosen from the bolts' places, or with anchors of their own; the end one within half a spacing."""
    end = max(spacing_in / 2, bolts.end_max_in)
    if bolts.ties_at_bolts:
        return Row(whole, Rule("tie", spacing_in, 0.0, end, bolts.apart_in, only_at=stations))
    return Row(whole, Rule("tie", spacing_in, bolts.end_min_in, end, bolts.apart_in, 1, habits.grid_in, keeps))


def _joints(cut: Sequence[Piece], avoid: Kept | None) -> Iterator[Finding]:
    """Joints that stand too near a joist and could not be moved."""
    for before, after in pairwise(cut) if avoid else ():
        if avoid is None or after.start_in - before.end_in > EPS:
            continue
        for joist in within(avoid.at_in, after.start_in - avoid.reach_in, after.start_in + avoid.reach_in):
            say = "The joint at {at} is {amount} too near the joist at {joist}: move one of them."
            short = avoid.reach_in - abs(joist - after.start_in)
            yield Finding("joint", "joint", after.start_in, short, say, {"joist": (joist, "station")})


def _idle(run: Piece, bolts: Bolts) -> Iterator[Finding]:
    if bolts.spacing_in > run.length_in + EPS:
        say = "The spacing of {spacing} is {amount} more than the run from {at} is long: its ends decide."
        over = bolts.spacing_in - run.length_in
        facts = {"spacing": (bolts.spacing_in, "in")}
        yield Finding("spacing idle", "anchor", run.start_in, over, say, facts, note=True)


def _ends(cut: Sequence[Piece], stations: tuple[float, ...], bolts: Bolts) -> Iterator[Finding]:
    """The end bolt that is worst placed beside the end distance the check took."""
    taken = bolts.end_checked_in
    if taken is None:
        return
    sign = 1.0 if bolts.worse == "farther" else -1.0
    ends = [(sign * (min(at - p.start_in, p.end_in - at) - taken), at) for p in cut for at in _outer(stations, p)]
    by, at = max(ends, default=(0.0, 0.0))
    if by > EPS:
        toward = "farther" if bolts.worse == "farther" else "nearer"
        say = f"The bolt at {{at}} is {{end}} from its piece's end, {{amount}} {toward} than its check took: check it with that."
        yield Finding("end checked", "anchor", at, by, say, {"end": (taken + sign * by, "in")}, note=True)


def _outer(stations: tuple[float, ...], piece: Piece) -> tuple[float, ...]:
    own = within(stations, piece.start_in - 2 * EPS, piece.end_in + 2 * EPS)
    return (own[0], own[-1]) if own else ()
