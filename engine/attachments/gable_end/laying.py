"""Courses of a gable laid with forms: where the web grid lets each course have its joints, and where it is best."""

from collections.abc import Sequence
from itertools import pairwise

from engine.attachments.gable_end.cells import Cell, Shape, cells, webs
from engine.attachments.gable_end.pairing import Pairing

Way = Sequence[Cell]
# How far courses are laid anew for each other's sake, so that it stays quick: courses of a gable, places tried for each.
MOST_COURSES, MOST_WAYS = 16, 8
SWEEPS = 3


def lay(shape: Shape, pairing: Pairing) -> tuple[list[Cell], int]:
    """All courses, bottom up; and the fewest pieces they could be laid with, which is the forms they take without offcuts.

    Of the places that the web grid allows for its joints, a course takes one with the fewest forms when it uses its own offcuts;
    among those the fewest pieces, pieces without a web, joints over joints, then the least smallest piece: a piece nearly whole
    leaves little, and two short ones come out of one form. Then course by course another such place is taken where that saves a
    form over the whole gable. What is laid so is good, not proved the best; how its offcuts are used is.
    """
    chosen: list[Way] = []
    ways: list[list[Way]] = []
    fewest = 0
    for course in range(1, shape.courses + 1):
        own: list[Way] = [cells(shape, course, offset) for offset in range(shape.spaces)]
        fewest += min(len(way) for way in own)
        forms = [_forms(way, pairing) for way in own]
        least = [way for way, count in zip(own, forms, strict=True) if count == min(forms)]
        below = joints(chosen[-1]) if chosen else set()
        least.sort(key=lambda way: _cost(shape, way, below))
        ways.append(least[:MOST_WAYS])
        chosen.append(least[0])
    if shape.courses <= MOST_COURSES:
        _for_each_other(shape, chosen, ways, pairing)
    return [cell for way in chosen for cell in way], fewest


def joints(way: Way) -> set[float]:
    """Places of the upright joints between the pieces of a course, to a thousandth [in]."""
    return {round(cell.x_in, 3) for cell in way[1:]}


def stacked(ways: Sequence[Way]) -> int:
    """Joints over joints of the course below."""
    return sum(len(joints(above) & joints(below)) for below, above in pairwise(ways))


def _forms(cells_: Way, pairing: Pairing) -> int:
    """Forms that pieces take when offcuts are used."""
    return len(cells_) - len(pairing.most([cell for cell in cells_ if not cell.whole]))


def _cost(shape: Shape, way: Way, below: set[float]) -> tuple[int, int, int, float]:
    smallest = round(min(cell.lower[1] - cell.lower[0] for cell in way), 6)
    return len(way), _webless(shape, way), len(joints(way) & below), smallest


def _webless(shape: Shape, way: Way) -> int:
    return sum(not webs(shape, cell) for cell in way)


def _for_each_other(shape: Shape, chosen: list[Way], ways: Sequence[Sequence[Way]], pairing: Pairing) -> None:
    """Lay courses anew where that saves a form, or at the same number a piece, a piece without a web or a joint over a joint."""

    def cost() -> tuple[int, int, int, int]:
        laid = [cell for way in chosen for cell in way]
        return _forms(laid, pairing), len(laid), _webless(shape, laid), stacked(chosen)

    best = cost()
    for _ in range(SWEEPS):
        before = best
        for n, own in enumerate(ways):
            for way in own:
                kept = chosen[n]
                if way is kept:
                    continue
                chosen[n] = way
                found = cost()
                if found < best:
                    best = found
                else:
                    chosen[n] = kept
        if best == before:
            return
