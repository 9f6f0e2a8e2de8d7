"""Where anchors go along a piece: the fewest that hold every rule, and of those the most evenly spread. Exact.

Dynamic programming over the allowed places. A window that slides over them gives each place the fewest anchors to reach it from
either end; places on a way with the fewest form layers, the j-th anchor standing in layer j. The cost of a gap is its square, so
the best predecessor moves one way only along a layer (a Monge array with sliding windows) and divide and conquer finds them all.
"""

from bisect import bisect_left, bisect_right
from collections import deque
from collections.abc import Sequence
from itertools import pairwise
from math import ceil, floor

from engine.setting_out.rules import EPS, Piece, Rule

NEVER = 1 << 40
Spans = Sequence[tuple[float, float]]
Layers = list[list[float]]


def allowed(piece: Piece, rule: Rule, closed: Spans) -> list[float]:
    """Places of a piece that keep clear of its ends and of what is barred, ascending [in]. Args: closed: by `rules.barred`."""
    low, high = piece.start_in + rule.end_min_in - EPS, piece.end_in - rule.end_min_in + EPS
    found: list[float] = []
    at = low
    for start, end in closed[bisect_left(closed, low, key=lambda span: span[1]) :]:
        if start >= high:
            break
        found += _between(at, start, rule)
        at = max(at, end)
    return found + _between(at, high, rule)


def _between(low: float, high: float, rule: Rule) -> list[float]:
    if rule.only_at is not None:
        return list(rule.only_at[bisect_left(rule.only_at, low) : bisect_right(rule.only_at, high)])
    step = rule.grid_in
    return [n * step for n in range(ceil(low / step), floor(high / step) + 1)]


def spread(piece: Piece, rule: Rule, closed: Spans) -> tuple[float, ...] | None:
    """The best places in one piece, ascending [in]; None where no places hold the rule."""
    layers = layers_of(piece, rule, allowed(piece, rule, closed))
    return None if layers is None else _most_even(piece, rule, layers)


def can_hold(piece: Piece, rule: Rule, closed: Spans) -> bool:
    """Whether a piece has any places that hold the rule."""
    places = allowed(piece, rule, closed)
    first, last = _outermost(piece, rule)
    fewest = min(
        (n for place, n in zip(places, _fewest(places, first, rule), strict=True) if place >= last), default=NEVER
    )
    return fewest < NEVER and (fewest >= rule.least or _counted(places, first, last, rule) is not None)


def layers_of(piece: Piece, rule: Rule, places: Sequence[float]) -> Layers | None:
    """Where the first, second, … of the fewest anchors may stand; None where no number of them holds the rule."""
    first, last = _outermost(piece, rule)
    ahead = _fewest(places, first, rule)
    fewest = min((n for place, n in zip(places, ahead, strict=True) if place >= last), default=NEVER)
    if fewest >= NEVER:
        return None
    if fewest < rule.least:
        return _counted(places, first, last, rule)
    back = _fewest([-place for place in reversed(places)], -last, rule)
    layers: Layers = [[] for _ in range(fewest)]
    for place, before, after in zip(places, ahead, reversed(back), strict=True):
        if before + after - 1 == fewest:
            layers[before - 1].append(place)
    return layers


def _outermost(piece: Piece, rule: Rule) -> tuple[float, float]:
    """The farthest the first anchor may stand, the nearest the last may."""
    return piece.start_in + rule.end_max_in + EPS, piece.end_in - rule.end_max_in - EPS


def _fewest(places: Sequence[float], first: float, rule: Rule) -> list[int]:
    """For each place, the fewest anchors up to and with it; NEVER where none reach it."""
    found: list[int] = []
    window: deque[int] = deque()  # of predecessors within reach, their numbers rising
    entering = 0
    for place in places:
        while entering < len(found) and places[entering] <= place - rule.apart_in + EPS:
            while window and found[window[-1]] >= found[entering]:
                window.pop()
            window.append(entering)
            entering += 1
        while window and places[window[0]] < place - rule.spacing_in - EPS:
            window.popleft()
        reached = found[window[0]] + 1 if window else NEVER
        found.append(1 if place <= first else min(reached, NEVER))
    return found


def _counted(places: Sequence[float], first: float, last: float, rule: Rule) -> Layers | None:
    """Layers for a piece so short that fewer than the least would do: one more anchor a layer, until the last reaches."""
    layers = [[place for place in places if place <= first]]
    while layers[-1] and (len(layers) < rule.least or layers[-1][-1] < last):
        before = layers[-1]
        layers.append([p for p in places if len(range(*_reach(before, p, rule)))])
    return layers if layers[-1] else None


def _reach(before: Sequence[float], place: float, rule: Rule) -> tuple[int, int]:
    """Which of the places before may be this one's neighbour, as a range of indices."""
    return (
        bisect_left(before, place - rule.spacing_in - EPS),
        bisect_right(before, place - rule.apart_in + EPS),
    )


def _most_even(piece: Piece, rule: Rule, layers: Layers) -> tuple[float, ...]:
    """One place from each layer with the least sum of squared gaps, both end distances counted."""
    _, last = _outermost(piece, rule)
    costs = [(place - piece.start_in) ** 2 for place in layers[0]]
    chosen: list[list[int]] = []
    for before, here in pairwise(layers):
        costs, best = _cheapest(before, costs, here, rule)
        chosen.append(best)
    ends = [n for n, place in enumerate(layers[-1]) if place >= last]
    at = min(ends, key=lambda n: costs[n] + (piece.end_in - layers[-1][n]) ** 2)
    stations = [layers[-1][at]]
    for layer, best in zip(reversed(layers[:-1]), reversed(chosen), strict=True):
        at = best[at]
        stations.append(layer[at])
    return tuple(reversed(stations))


def _cheapest(
    before: Sequence[float], costs: Sequence[float], here: Sequence[float], rule: Rule
) -> tuple[list[float], list[int]]:
    """For each place here the least cost so far and the index of the neighbour before that gives it."""
    least, best = [0.0] * len(here), [0] * len(here)
    parts = [(0, len(here), 0, len(before))]
    while parts:
        start, end, low, high = parts.pop()
        middle = (start + end) // 2
        place = here[middle]
        near, far = _reach(before, place, rule)
        chosen, cost = -1, float("inf")
        for n in range(max(low, near), min(high, far)):
            tried = costs[n] + (place - before[n]) ** 2
            if tried < cost:
                chosen, cost = n, tried
        least[middle], best[middle] = cost, chosen
        if start < middle:
            parts.append((start, middle, low, chosen + 1))
        if middle + 1 < end:
            parts.append((middle + 1, end, chosen, high))
    return least, best
