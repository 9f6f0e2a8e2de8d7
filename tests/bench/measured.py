"""One row of the table, and how two works are timed side by side."""

from collections.abc import Callable
from statistics import median
from time import perf_counter_ns
from typing import Any, NamedTuple


class Measured(NamedTuple):
    """One row of the table; `most` is not written, it marks what must be reached."""

    name: str
    value: float
    unit: str
    ratio_to: str
    ratio: float | None
    most: tuple[float, float] = (float("inf"), float("inf"))

    @property
    def reached(self) -> bool:
        """Whether value and ratio stay within what must be reached."""
        return self.value <= self.most[0] and (self.ratio or 0.0) <= self.most[1]

    def to_json(self) -> dict[str, Any]:
        """The record of the file."""
        ratio = None if self.ratio is None else round(self.ratio, 3)
        return {
            "name": self.name,
            "value": round(self.value, 4),
            "unit": self.unit,
            "ratio_to": self.ratio_to,
            "ratio": ratio,
        }


def medians_ms(
    first: Callable[[], object], second: Callable[[], object], rounds: int, clock: Callable[[], int] = perf_counter_ns
) -> tuple[float, float]:
    """Medians of two works taken in turn, so that both see the same machine [ms]. Args: clock: what they are timed by [ns]."""
    times: tuple[list[int], list[int]] = ([], [])
    for work in (first, second) * 3:
        work()
    for _ in range(rounds):
        for work, kept in zip((first, second), times, strict=True):
            start = clock()
            work()
            kept.append(clock() - start)
    return median(times[0]) / 1e6, median(times[1]) / 1e6
