"""An opening's size and sill in a wall's elevation, written where no row of marks runs through them."""

from collections.abc import Iterator, Mapping

from engine.setting_out import station
from engine.wall import Opening
from webapp.drawings.elevation_strips import FIRST, Block
from webapp.drawings.elevation_wall import Strip
from webapp.drawings.hand import Hand
from webapp.drawings.lettering import width_px
from webapp.drawings.paper import ASCENT, DESCENT

REACH = 7.0  # of a row's marks above and below its line [px]
LEADING = 1.25
LOW, STEP = 8.0, 2.0
UNDER = 4.0  # between the sill and words below it [px]

Band = tuple[float, float]


def label_openings(hand: Hand, strip: Strip, rows: Mapping[int, tuple[Block, ...]]) -> None:
    """Write every opening's words: low in it, else under its sill, where nothing that is set runs through them."""
    size = hand.sizes.sub
    for opening in strip.wall.openings:
        x0, x1 = max(opening.start_ft * 12, strip.start), min(opening.end_ft * 12, strip.end)
        if x1 <= x0:
            continue
        base = strip.levels[opening.storey - 1]
        bottom, top, floor = (
            strip.view.px((x0, base + up))[1] for up in (opening.sill_ft * 12, opening.head_ft * 12, 0.0)
        )
        room = strip.x(x1) - strip.x(x0) - 6
        said = [text for text in _said(hand, opening) if width_px(text, size) <= room]
        taken = tuple(_bands(strip, rows, x0, x1))
        y = _last_line(len(said), size, (top, bottom, floor), taken)
        for text in reversed(said):
            if y - size < top:
                break
            hand.write((strip.x(x0) + strip.x(x1)) / 2, y, text, size, "sub", align="middle", halo=True)
            y -= LEADING * size


def _said(hand: Hand, opening: Opening) -> Iterator[str]:
    width, height = (station(12 * ft, hand.system) for ft in (opening.width_ft, opening.head_ft - opening.sill_ft))
    yield f"{width} x {height}"
    if opening.sill_ft:
        yield f"sill {station(opening.sill_ft * 12, hand.system)}"


def _bands(strip: Strip, rows: Mapping[int, tuple[Block, ...]], x0: float, x1: float) -> Iterator[Band]:
    """Heights [px] at which a run's line or a mark stands between two stations."""
    for level, found in rows.items():
        for block in found:
            entry, y = block.entry, strip.y(level) + FIRST
            lines = [block.offset] if block.run and entry.start_in < x1 and entry.end_in > x0 else []
            lines += [block.row(mark.what) for mark in entry.marks if x0 <= mark.at_in <= x1]
            lines += [block.row("joist") for at in entry.headered if x0 <= at <= x1]
            yield from {(y + line - REACH, y + line + REACH) for line in lines}


def _last_line(count: int, size: float, edges: tuple[float, float, float], taken: tuple[Band, ...]) -> float:
    """Where the last of some lines stands. Args: edges: head, sill and floor [px]."""
    top, bottom, floor = edges
    high = ASCENT * size + LEADING * size * (count - 1)
    y = bottom - LOW
    while y - high > top:
        if _clear(y - high, y + DESCENT * size, taken):
            return y
        y -= STEP
    y = bottom + UNDER + high
    while y + DESCENT * size < floor:
        if _clear(y - high, y + DESCENT * size, taken):
            return y
        y += STEP
    return bottom - LOW


def _clear(high: float, low: float, taken: tuple[Band, ...]) -> bool:
    return all(low <= upper or high >= lower for upper, lower in taken)
