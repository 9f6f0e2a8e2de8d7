"""The most pairs that can be made of things of which some go together: a maximum matching of a graph, by Edmonds' blossoms."""

from collections import deque
from collections.abc import Sequence


def most_pairs(friends: Sequence[Sequence[int]]) -> list[int]:
    """The partner of each, -1 for none; no other choice makes more pairs.

    Args: friends: for each, those it can be paired with, the liked ones first; mutual.

    Source: J. Edmonds, "Paths, trees, and flowers", Canadian Journal of Mathematics 17, 1965. From each one without a partner an
    alternating path to another such is sought, odd rings on the way shrunk to a point; when none is left, there is none better.
    """
    mates = [-1] * len(friends)
    for one, liked in enumerate(friends):  # a start that keeps to what is liked
        if mates[one] < 0:
            other = next((o for o in liked if mates[o] < 0), -1)
            if other >= 0:
                mates[one], mates[other] = other, one
    for root in range(len(friends)):
        if mates[root] < 0:
            _Search(friends, mates, root).run()
    return mates


class _Search:
    """A tree of alternating paths from one without a partner."""

    def __init__(self, friends: Sequence[Sequence[int]], mates: list[int], root: int) -> None:
        count = len(friends)
        self.friends, self.mates, self.root = friends, mates, root
        self.parents = [-1] * count
        self.bases = list(range(count))
        self.outer = [False] * count
        self.outer[root] = True
        self.queue = deque([root])

    def run(self) -> None:
        """Find a path to another without a partner and change partners along it."""
        while self.queue:
            one = self.queue.popleft()
            for other in self.friends[one]:
                if self.bases[one] == self.bases[other] or self.mates[one] == other:
                    continue
                if other == self.root or (self.mates[other] >= 0 and self.parents[self.mates[other]] >= 0):
                    self._shrink(one, other)
                elif self.parents[other] < 0:
                    self.parents[other] = one
                    if self.mates[other] < 0:
                        self._change(other)
                        return
                    self._reach(self.mates[other])

    def _reach(self, one: int) -> None:
        if not self.outer[one]:
            self.outer[one] = True
            self.queue.append(one)

    def _change(self, end: int) -> None:
        while end >= 0:
            before = self.parents[end]
            following = self.mates[before]
            self.mates[end], self.mates[before] = before, end
            end = following

    def _shrink(self, one: int, other: int) -> None:
        """An odd ring through both becomes one point at their common base."""
        base = self._common(one, other)
        inside: set[int] = set()
        self._mark(one, base, other, inside)
        self._mark(other, base, one, inside)
        for n, own in enumerate(self.bases):
            if own in inside:
                self.bases[n] = base
                self._reach(n)

    def _common(self, one: int, other: int) -> int:
        seen = set()
        while True:
            one = self.bases[one]
            seen.add(one)
            if self.mates[one] < 0:
                break
            one = self.parents[self.mates[one]]
        other = self.bases[other]
        while other not in seen:
            other = self.bases[self.parents[self.mates[other]]]
        return other

    def _mark(self, one: int, base: int, child: int, inside: set[int]) -> None:
        while self.bases[one] != base:
            mate = self.mates[one]
            inside.update((self.bases[one], self.bases[mate]))
            self.parents[one] = child
            child = mate
            one = self.parents[mate]
