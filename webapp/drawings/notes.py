"""Words with leaders, words within a member, level marks."""

from collections.abc import Iterator, Sequence
from math import hypot

from webapp.drawings.hand import Block, Hand
from webapp.drawings.lettering import lines, plain
from webapp.drawings.paper import Box, Circle, Fill, Line, Pixel, Sign, around
from webapp.drawings.shapes import Pen

STUB, AIR = 10.0, 4.0
# Where a leader's knee may lie from its target, nearest first: (distance, across, up or down).
_ACROSS = (10.0, 26.0, 46.0, 72.0, 104.0, 150.0, 210.0, 290.0)
_UP = (
    -18.0,
    18.0,
    0.0,
    -34.0,
    34.0,
    -56.0,
    56.0,
    -84.0,
    84.0,
    -120.0,
    120.0,
    -170.0,
    170.0,
    -230.0,
    230.0,
    -300.0,
    300.0,
)
KNEES = sorted((hypot(x, y), x * side, y) for x in _ACROSS for y in _UP for side in (1, -1) if abs(y) > 10 or x > 20)
FAR = 0.06  # cost of a leader's length, a px
ASTRAY, ASTRAY_UP = 9.0, 12.0  # cost of standing beside another view; height of a first line
BLOCKED, DISLIKE = 40.0, 2.0  # cost of a leader through words, and of each worse way of breaking the words

Place = tuple[Block, float, float, tuple[Pixel, ...]]


def block(hand: Hand, words: str, sub: str = "", room_px: float = 170.0, tone: str = "") -> Block:
    """A note and its small line; with a tone it is the governing note, bold and larger."""
    size, role = (hand.sizes.governs, "governs") if tone else (hand.sizes.note, "note")
    set_ = [(plain(text, size, bool(tone)), role) for text in lines(words, size, room_px, bool(tone))]
    under = hand.sizes.note if tone else hand.sizes.sub
    if sub:
        set_ += [(plain(text, under), "note" if tone else "sub") for text in lines(sub, under, room_px, most=4)]
    return Block(tuple(set_), tone)


def crosses(a: Pixel, b: Pixel, box: Box) -> bool:
    """Whether the line from a to b passes through a box."""
    if max(a[0], b[0]) < box[0] or min(a[0], b[0]) > box[2] or max(a[1], b[1]) < box[1] or min(a[1], b[1]) > box[3]:
        return False
    low, high = 0.0, 1.0
    for axis in (0, 1):
        delta = b[axis] - a[axis]
        near, far = box[axis] - a[axis], box[axis + 2] - a[axis]
        if abs(delta) < 1e-9:
            if near > 0 or far < 0:
                return False
            continue
        first, second = sorted((near / delta, far / delta))
        low, high = max(low, first), min(high, second)
        if low > high:
            return False
    return True


def leader_note(hand: Hand, target: Pixel, *ways: Block, sign: str = "") -> bool:
    """Write a block beside its target with a leader.

    Args: ways: the same words broken in different ways, the best liked first. sign: verdict mark before it.
    Returns: whether there was room.
    """
    mark = 24.0 if sign else 0.0
    taken, cell = hand.room.taken, hand.cell

    def further(place: Place) -> float:
        said, x, y, (start, knee, stub) = place
        blocked = sum(crosses(start, knee, box) or crosses(knee, stub, box) for box in _near(taken, start, knee, stub))
        inside = cell[0] <= x and x + mark + said.width <= cell[2] and cell[1] <= y - ASTRAY_UP and y <= cell[3]
        return BLOCKED * blocked + DISLIKE * ways.index(said) + (0.0 if inside else ASTRAY)

    chosen = hand.room.choose(_places(target, ways, mark), further, slack=0.0)
    if chosen is None:
        return False
    said, x, y, leader = chosen
    hand.sheet.words.extend(said.words(x + mark, y, halo=True))
    if sign:
        size = 20.0
        hand.sheet.signs.append(Sign(x, y - 0.36 * said.lines[0][0].size - size / 2, size, sign))
    hand.mind_path(leader)
    hand.sheet.dimensions.append(Line(leader, Pen.GOVERNS if said.tone else Pen.DIMENSION, tone=said.tone))
    radius = 2.4 if said.tone else 1.7
    hand.sheet.dimensions.append(Circle(*target, radius, fill="solid", tone=said.tone))
    return True


def _near(boxes: Sequence[Box], *path: Pixel) -> list[Box]:
    """Boxes that a path might touch."""
    left, right = min(x for x, _ in path), max(x for x, _ in path)
    top, bottom = min(y for _, y in path), max(y for _, y in path)
    return [b for b in boxes if b[0] <= right and b[2] >= left and b[1] <= bottom and b[3] >= top]


def _places(target: Pixel, ways: Sequence[Block], mark: float) -> Iterator[tuple[float, Box, Place]]:
    shapes = [(said, 0.36 * said.lines[0][0].size, said.box(0, 0)) for said in ways]
    for distance, dx, dy in KNEES:
        knee = (target[0] + dx, target[1] + dy)
        right = dx > 0
        stub = (knee[0] + (STUB if right else -STUB), knee[1])
        for said, drop, (_, up, width, down) in shapes:
            x = stub[0] + AIR if right else stub[0] - AIR - width - mark
            y = knee[1] + drop
            box = (x, y + up - (4 if mark else 0), x + mark + width, y + down)
            yield FAR * distance, box, (said, x, y, (target, knee, stub))


def within(hand: Hand, box: Box, said: Block) -> bool:
    """Write a block in the middle of a box, on a halo, where it fits. Returns: whether it did."""
    width = box[2] - box[0]
    if said.width + 10 > width:
        return False
    extent = said.box(0, 0)
    height = extent[3] - extent[1]
    middle_x = (box[0] + box[2]) / 2
    for share in (0.5, 0.3, 0.7, 0.15, 0.85):
        y = box[1] + share * (box[3] - box[1]) - height / 2 - extent[1]
        placed = around(w.box for w in said.words(middle_x - said.width / 2, y, centred=True))
        if placed[1] < box[1] or placed[3] > box[3] or not hand.room.free(placed):
            continue
        hand.room.take(placed)
        hand.sheet.words.extend(said.words(middle_x - said.width / 2, y, halo=True, centred=True))
        return True
    return False


def level_mark(hand: Hand, y: float, x_text: float, x_end: float, words: str, sub: str) -> None:
    """A level: a line to the object, a solid triangle on it, the height above and what it is below."""
    size = hand.sizes.note
    hand.line((x_text, y), (x_end, y), pen=Pen.CENTRE)
    hand.sheet.dimensions.append(Fill(((x_text, y - 9), (x_text + 10, y - 9), (x_text + 5, y)), "solid"))
    hand.write(x_text + 13, y - 4, words, size)
    if sub:
        hand.write(x_text, y + hand.sizes.sub, sub, hand.sizes.sub, "sub")
