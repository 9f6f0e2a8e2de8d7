"""Non-dominated order: a point stands before another where it is no worse in any measure and better in one. Smaller is better."""

from collections.abc import Sequence

Point = tuple[float, ...]


def fronts(points: Sequence[Point]) -> list[int]:
    """Front of every point, from 0: those no other one dominates; then those that only earlier fronts dominate; and so on.

    Exact. Sets of points are bits of a number, so that all that dominate one are the few numbers' common bits.
    """
    ordered = sorted(set(points))  # whatever dominates a point comes before it
    measures = [_at_most(column) for column in zip(*ordered, strict=True)]
    found: dict[Point, int] = {}
    members: list[int] = []  # of each front, as bits
    for number, point in enumerate(ordered):
        dominating = (1 << number) - 1
        for value, at_most in zip(point, measures, strict=True):
            dominating &= at_most[value]
        front = _first_free(members, dominating)
        if front == len(members):
            members.append(0)
        members[front] |= 1 << number
        found[point] = front
    return [found[point] for point in points]


def _at_most(column: Sequence[float]) -> dict[float, int]:
    """For every value of a measure, the points that have no more of it, as bits."""
    sets: dict[float, int] = {}
    bits = 0
    for number in sorted(range(len(column)), key=column.__getitem__):
        bits |= 1 << number
        sets[column[number]] = bits
    return sets


def _first_free(members: Sequence[int], dominating: int) -> int:
    """The first front none of whose points dominate; by halving, since whatever a front dominates every earlier one does too."""
    low, high = 0, len(members)
    while low < high:
        middle = (low + high) // 2
        if members[middle] & dominating:
            low = middle + 1
        else:
            high = middle
    return low


def mean_places(points: Sequence[Point]) -> list[float]:
    """Mean over the measures of a point's place among their different values: 0 the best of each, 1 the worst."""
    if not points:
        return []
    places = []
    for column in zip(*points, strict=True):
        values = sorted(set(column))
        last = max(len(values) - 1, 1)
        places.append({value: number / last for number, value in enumerate(values)})
    return [sum(place[value] for place, value in zip(places, point, strict=True)) / len(places) for point in points]
