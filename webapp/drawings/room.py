"""Where words may stand: no two texts overlap, none leaves the sheet, and quiet paper is preferred to busy ink."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from math import inf
from typing import TypeVar

from webapp.drawings.paper import Box

T = TypeVar("T")
MARGIN = 1.5  # between two texts
EDGE = 5.0  # from the sheet's border
SLACK = 8.0  # options come roughly from cheap to dear: this much dearer, none can win any more
QUIET = 3.0  # cost below which a place is taken without looking further


@dataclass(slots=True)
class Room:
    """The sheet's bounds, the texts that stand, and the ink that is better left uncovered (box, cost a square px)."""

    bounds: Box
    taken: list[Box] = field(default_factory=list)
    busy: list[tuple[Box, float]] = field(default_factory=list)

    def inside(self, box: Box) -> bool:
        """Whether a box lies within the sheet."""
        left, top, right, bottom = self.bounds
        return box[0] >= left + EDGE and box[1] >= top + EDGE and box[2] <= right - EDGE and box[3] <= bottom - EDGE

    def free(self, box: Box) -> bool:
        """Whether a text may stand there."""
        if not self.inside(box):
            return False
        left, top, right, bottom = box[0] - MARGIN, box[1] - MARGIN, box[2] + MARGIN, box[3] + MARGIN
        for x0, y0, x1, y1 in self.taken:  # noqa: SIM110  the busiest line of a drawing; a loop takes half the time of all()
            if x0 < right and left < x1 and y0 < bottom and top < y1:
                return False
        return True

    def cost(self, box: Box, enough: float = inf) -> float:
        """How much ink a text there would cover; counting stops at `enough`."""
        total = 0.0
        left, top, right, bottom = box
        for (x0, y0, x1, y1), weight in self.busy:
            if x0 < right and left < x1 and y0 < bottom and top < y1:
                total += weight * (min(right, x1) - max(left, x0)) * (min(bottom, y1) - max(top, y0))
                if total >= enough:
                    break
        return total

    def take(self, *boxes: Box) -> None:
        """Reserve boxes for text."""
        self.taken.extend(boxes)

    def choose(
        self,
        options: Iterable[tuple[float, Box, T]],
        further: Callable[[T], float] | None = None,
        slack: float = SLACK,
    ) -> T | None:
        """The best free option; its box is reserved.

        Args: options: (cost of its own, box, what is returned); roughly from cheap to dear. further:
        costs that are dearer to work out, asked only of options that could still win.
        slack: how far the options' own costs may fall behind a dearer one before them; 0 where they only rise.
        Returns: None when every option is taken or outside.
        """
        least, best = inf, None
        for own, box, what in options:
            if own >= least + slack:
                break
            if own >= least or not self.free(box):
                continue
            cost = own + self.cost(box, least - own)
            if further is not None and cost < least:
                cost += further(what)
            if cost < least:
                least, best = cost, (box, what)
                if cost <= QUIET:
                    break
        if best is None:
            return None
        self.take(best[0])
        return best[1]
