"""Runs along a wall: which openings cut one, into which pieces it falls, where the webs of the forms are."""

from dataclasses import dataclass
from math import ceil, floor

from engine.errors import BadInput
from engine.setting_out.rules import EPS, Kept, Piece, within
from engine.units import show
from engine.wall import Wall, WallType

SIXTEENTHS = 16


@dataclass(frozen=True, slots=True)
class Band:
    """Concrete that something needs, in height: from below to above the floor level it belongs to [in], below zero under it."""

    low_in: float
    high_in: float


def on_wall(wall: Wall, start_in: float, end_in: float) -> None:
    """Whether a run lies on its wall. Raises: BadInput naming the field and by how much it does not."""
    length = wall.line.length_ft * 12
    if start_in < -EPS:
        raise BadInput("start_ft", f"The run starts {show(-start_in / 12, 'ft')} before the end of wall {wall.name}.")
    if end_in > length + EPS:
        raise BadInput("end_ft", f"The run ends {show((end_in - length) / 12, 'ft')} past the end of wall {wall.name}.")
    if end_in - start_in < EPS:
        raise BadInput("end_ft", "Enter a station beyond the start.")


def at_on_wall(wall: Wall, at_in: float) -> None:
    """Whether a station lies on its wall. Raises: BadInput by how much it does not."""
    length = wall.line.length_ft * 12
    off = max(-at_in, at_in - length)
    if off > EPS:
        raise BadInput(
            "start_ft", f"The station lies {show(off, 'in')} off the end of wall {wall.name}. Enter one on it."
        )


def cuts(wall: Wall, level: int, band: Band) -> tuple[Piece, ...]:
    """Openings that take away concrete of this band, merged, ascending. Raises: BadInput for a level the wall has not."""
    _, _, below = wall.at_level(level)
    spans = []
    for o in wall.openings:
        if o.storey not in (level, level + 1):
            continue
        floor_ft = below.height_ft if o.storey == level else 0.0
        low, high = (o.sill_ft - floor_ft) * 12, (o.head_ft - floor_ft) * 12
        if low < band.high_in - EPS and high > band.low_in + EPS:
            spans.append((o.start_ft * 12, o.end_ft * 12))
    merged: list[Piece] = []
    for start, end in sorted(spans):
        if merged and start <= merged[-1].end_in + EPS:
            merged[-1] = Piece(merged[-1].start_in, max(end, merged[-1].end_in))
        else:
            merged.append(Piece(start, end))
    return tuple(merged)


def stretches(start_in: float, end_in: float, gaps: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """What is left of a run between gaps, ascending."""
    found, at = [], start_in
    for gap in gaps:
        if gap.start_in > at + EPS and gap.start_in <= end_in:
            found.append(Piece(at, gap.start_in))
        at = max(at, gap.end_in)
    if end_in > at + EPS:
        found.append(Piece(at, end_in))
    return tuple(found)


def pieces(stretch: Piece, longest_in: float, shortest_in: float = 0.0, avoid: Kept | None = None) -> tuple[Piece, ...]:
    """A stretch in pieces of full length; where the last would be too short, it and the one before share what is left.

    Args: longest_in: what is bought. shortest_in: the least a piece may be [in]. avoid: what joints keep clear of, a piece being
    cut shorter for it. Raises: BadInput for a length of nothing.
    """
    if longest_in <= 0:
        raise BadInput("piece_ft", "Enter a length above 0.")
    at, found = stretch.start_in, []
    while stretch.end_in - at > longest_in + EPS:
        joint = at + longest_in
        if stretch.end_in - joint < shortest_in - EPS:
            joint = at + floor((stretch.end_in - at) / 2 * SIXTEENTHS) / SIXTEENTHS
        joint = _clear(joint, at + min(shortest_in, longest_in / 2), avoid)
        found.append(Piece(at, joint))
        at = joint
    return (*found, Piece(at, stretch.end_in))


def _clear(joint: float, least: float, avoid: Kept | None) -> float:
    """The joint moved back to where nothing is in its way; where it was when that would leave too little."""
    moved = joint
    while avoid and (near := within(avoid.at_in, moved - avoid.reach_in, moved + avoid.reach_in)):
        moved = near[0] - avoid.reach_in
        if moved < least:
            return joint
    return moved


def webs(kind: WallType, start_in: float, end_in: float) -> tuple[float, ...]:
    """Middles of the forms' webs on a run [in]; the module starts at the wall's named end."""
    first, step = kind.first_web_in, kind.web_spacing_in
    low = max(ceil((start_in - first) / step - EPS), 0)
    return tuple(first + n * step for n in range(low, floor((end_in - first) / step + EPS) + 1))
