"""The cut list of a gable: every piece with both its edges, where it is cut from, and where each offcut goes.

Method: the pieces follow from the laying of the courses. Any two cut pieces that come out of one form make a pair if they lie in it
without meeting, with their webs on the wall's grid and a saw cut between. The most offcuts are used by a maximum matching of these
pairs, which is exact; an offcut serves once, so a third piece from one form is not sought.
"""

from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from math import ceil
from typing import NamedTuple

from engine.attachments.gable_end.cells import Cell, Shape, turns, webs
from engine.attachments.gable_end.geometry import Gable, geometry
from engine.attachments.gable_end.inputs import Inputs
from engine.attachments.gable_end.laying import lay, stacked
from engine.attachments.gable_end.outline import AS_IT_STANDS, SLACK, TURN_WORDS, Turn, turned
from engine.attachments.gable_end.pairing import Pairing, leftover

Point = tuple[float, float]
LETTERS = "abcdefghijklmnopqrstuvwxyz"
# Which rakes cut a piece.
WHOLE, LEFT, RIGHT, BOTH = "none", "left rake", "right rake", "both rakes"


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece of form. Lengths in inches.

    number: from the bottom left. course: from 1. lower, upper: its edges, from and to along the base (one point at a tip).
    low: its course's joint above the eaves. height: of the piece. cuts: which rakes cut it. webs: how many it holds. form: number
    of the form it is cut from. shift: how far it is moved in that form from where its web spaces begin. turn: how it lies there.
    leaves, of: letter of the offcut it leaves that is used, or is cut from; "" without one. corners: in the wall. in_form: in the
    form, from its lower left.
    """

    number: int
    course: int
    lower: tuple[float, float]
    upper: tuple[float, float]
    low: float
    height: float
    cuts: str
    webs: int
    form: int
    shift: float
    turn: Turn
    leaves: str
    of: str
    corners: tuple[Point, ...]
    in_form: tuple[Point, ...]

    @property
    def lower_in(self) -> float:
        """Length of its lower edge."""
        return self.lower[1] - self.lower[0]

    @property
    def upper_in(self) -> float:
        """Length of its upper edge, 0 at a tip."""
        return self.upper[1] - self.upper[0]

    @property
    def turned(self) -> str:
        """How it lies in its form, in words."""
        return TURN_WORDS[self.turn]


@dataclass(frozen=True, slots=True)
class Offcut:
    """What a piece leaves that another is cut from: its letter, its longer edge [in], and the numbers of both pieces."""

    letter: str
    longer_in: float
    source: int
    goes_to: int


@dataclass(frozen=True, slots=True)
class CutList:
    """Pieces and offcuts of a gable.

    without: forms where no offcut is used, laid with the fewest pieces. by_area: forms no cutting could better. stacked: joints
    over joints of the course below. kerf, form, h: lost at a cut, length and height of a form [in].
    """

    pieces: tuple[Piece, ...]
    offcuts: tuple[Offcut, ...]
    without: int
    by_area: int
    stacked: int
    kerf: float
    form: float
    h: float

    @property
    def with_reuse(self) -> int:
        """Forms where offcuts are used."""
        return len(self.pieces) - len(self.offcuts)

    @property
    def webless(self) -> tuple[int, ...]:
        """Numbers of the pieces that hold no web."""
        return tuple(piece.number for piece in self.pieces if not piece.webs)


def cut_list(inputs: Inputs) -> CutList:
    """The cut list of a gable; an opening is cut out of the laid forms and is not in it. Raises: BadInput as `geometry`."""
    return _cut(shape(inputs, geometry(inputs)))


def shape(i: Inputs, g: Gable) -> Shape:
    """What the cut list turns on."""
    return Shape(
        g.W, g.x_r, g.H, g.h, g.s, i.form_spaces, (i.first_web_in - g.s / 2) % g.s, i.kerf_in, i.least_offcut_in,
        turns(i.reversible, i.foam_inner_in == i.foam_outer_in),
    )  # fmt: skip


class Lies(NamedTuple):
    """Where a piece is cut from: number of the piece its form was opened for, how it is moved and turned, its offcuts' letters."""

    source: int
    shift: float
    turn: Turn
    leaves: str
    of: str


@lru_cache(maxsize=64)
def _cut(one: Shape) -> CutList:
    pairing = Pairing(one)
    laid, fewest = lay(one, pairing)
    made, offcuts = _from_offcuts(one, laid, pairing)
    sources = [n for n in range(len(laid)) if made[n].source == n]
    forms = {n: number for number, n in enumerate(sources, 1)}
    area = sum(cell.area_in2 for cell in laid)
    return CutList(
        pieces=tuple(_piece(one, n, cell, made[n], forms[made[n].source]) for n, cell in enumerate(laid)),
        offcuts=offcuts,
        without=fewest,
        by_area=max(ceil(area / (one.form * one.h) - SLACK), 1),
        stacked=_stacked(laid),
        kerf=one.kerf,
        form=one.form,
        h=one.h,
    )


def _from_offcuts(one: Shape, laid: list[Cell], pairing: Pairing) -> tuple[list[Lies], tuple[Offcut, ...]]:
    """How every piece lies in its form, and the offcuts that are used."""
    made = [Lies(n, 0.0, AS_IT_STANDS, "", "") for n in range(len(laid))]
    numbers = [n for n, cell in enumerate(laid) if not cell.whole]
    found = sorted(pairing.most([laid[n] for n in numbers]).items())
    offcuts = []
    for letter, (first, (second, fit)) in zip(_letters(len(found)), found, strict=True):
        a, b = numbers[first], numbers[second]
        made[a] = Lies(a, fit.first_in, AS_IT_STANDS, letter, "")
        made[b] = Lies(a, fit.second_in, fit.turn, "", letter)
        offcuts.append(Offcut(letter, leftover(one, laid[a], fit), a + 1, b + 1))
    return made, tuple(offcuts)


def _letters(count: int) -> list[str]:
    """a to z, then aa, ab."""
    found = list(LETTERS)
    while len(found) < count:
        found += [first + second for first in found[-26:] for second in LETTERS]
    return found[:count]


def _stacked(laid: list[Cell]) -> int:
    """Joints over joints."""
    return stacked([list(course) for _, course in groupby(laid, key=lambda cell: cell.course)])


def _piece(one: Shape, n: int, cell: Cell, lies: Lies, form: int) -> Piece:
    low, in_form = (cell.course - 1) * one.h, turned(cell.outline, lies.turn, one.h)
    return Piece(
        number=n + 1,
        course=cell.course,
        lower=cell.lower,
        upper=cell.upper,
        low=low,
        height=cell.height_in,
        cuts=_cuts(one, cell),
        webs=webs(one, cell),
        form=form,
        shift=lies.shift,
        turn=lies.turn,
        leaves=lies.leaves,
        of=lies.of,
        corners=tuple((cell.x_in + x, low + y) for x, y in _corners(cell.outline.left, cell.outline.right)),
        in_form=tuple((x + lies.shift, y) for x, y in _corners(in_form.left, in_form.right)),
    )


def _corners(left: tuple[Point, ...], right: tuple[Point, ...]) -> tuple[Point, ...]:
    """Corners from the lower left, anticlockwise, each once."""
    found: list[Point] = []
    for y, x in (*right, *reversed(left)):
        if not found or max(abs(found[-1][0] - x), abs(found[-1][1] - y)) > SLACK:
            found.append((x, y))
    if len(found) > 1 and max(abs(found[0][0] - found[-1][0]), abs(found[0][1] - found[-1][1])) <= SLACK:
        found.pop()
    return tuple(found)


def _cuts(one: Shape, cell: Cell) -> str:
    left, right = cell.outline.left, cell.outline.right
    by_left = max(x for _, x in left) > SLACK
    by_right = min(x for _, x in right) < one.form - SLACK
    return {(False, False): WHOLE, (True, False): LEFT, (False, True): RIGHT, (True, True): BOTH}[by_left, by_right]
