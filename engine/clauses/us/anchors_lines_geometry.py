"""Spacing and edge distance against splitting: ACI 318-19 17.9."""

from itertools import combinations
from math import hypot

from engine.clauses.us.anchors_line import PREFIX, Where, cite
from engine.clauses.us.anchors_model import AnchorGroup
from engine.result import LimitState
from engine.worksheet import Worksheet, clause


@clause(
    "ACI 318",
    "17.9.2(a)",
    title="Least anchor spacing",
    symbol="s_min",
    unit="in",
    rule="4 d_a where nuts are not torqued, 6 d_a where they are",
    provenance="memory",
)
def least_spacing_in(d_a_in: float, torqued: bool) -> float:
    """Cast-in anchors, centre to centre [in]. Args: d_a_in: diameter [in]. Source: ACI 318-19 Table 17.9.2(a)."""
    return (6 if torqued else 4) * d_a_in


@clause(
    "ACI 318",
    "17.9.2(a)",
    title="Least edge distance, torqued anchors",
    symbol="c_a,min",
    unit="in",
    formula="6 * d_a",
    provenance="memory",
)
def least_edge_torqued_in(d_a_in: float) -> float:
    """Centre to edge [in]. Args: d_a_in: diameter [in]. Source: ACI 318-19 Table 17.9.2(a)."""
    return 6 * d_a_in


@clause(
    "ACI 318",
    "17.9.2(a)",
    title="Least edge distance by cover",
    symbol="c_a,min",
    unit="in",
    formula="cover + w / 2",
    provenance="memory",
    note="The cover of 20.5.1.3, clear to the widest steel of the anchor.",
)
def least_edge_by_cover_in(cover_in: float, w_in: float) -> float:
    """Centre to edge of an anchor that is not torqued [in]. Args: cover_in: required. w_in: shank or head, the wider [in]."""
    return cover_in + w_in / 2


def geometry_lines(sheet: Worksheet, group: AnchorGroup, where: Where = PREFIX) -> tuple[LimitState, ...]:
    """Nearest two anchors and nearest edge against 17.9.2; a line is left out where there is nothing to measure."""
    lines = []
    apart = [hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(group.positions_in, 2)]
    apart += [gap for gap in (group.next_x1_in, group.next_x2_in) if gap is not None]
    if apart:
        least = sheet.use(least_spacing_in, d_a_in=group.d_a_in, torqued=group.torqued)
        say = "The nearest two anchors stand {capacity} apart; {demand} is the least."
        lines.append(
            where.line(sheet, "spacing", "Anchor spacing", cite(least_spacing_in), least, min(apart), "in", say=say)
        )
    edges = [min(face.c) for face in group.faces]
    if edges:
        least, source = _least_edge(sheet, group), least_edge_torqued_in if group.torqued else least_edge_by_cover_in
        say = "The nearest edge is {capacity} from an anchor's centre; {demand} is the least."
        lines.append(where.line(sheet, "edge", "Anchor edge distance", cite(source), least, min(edges), "in", say=say))
    return tuple(lines)


def _least_edge(sheet: Worksheet, group: AnchorGroup) -> float:
    by_cover = sheet.use(least_edge_by_cover_in, cover_in=group.cover_in, w_in=max(group.d_a_in, group.head.width_in))
    if not group.torqued:
        return by_cover
    return max(by_cover, sheet.use(least_edge_torqued_in, d_a_in=group.d_a_in))
