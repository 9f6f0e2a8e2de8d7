"""Times that mean the same on a busy or a slower machine: each is taken in turns with a plain piece of work, and scaled by it."""

from collections.abc import Callable
from time import process_time_ns

STEPS = 1500
# What `_plain` takes on the idle machine for which the targets were set.
PLAIN_S = 0.6e-3


def _plain() -> int:
    """Plain Python of every sort: numbers, names, texts, lists, calls."""
    kept: dict[str, float] = {}
    for n in range(STEPS):
        kept[f"{n % 97:.2f}"] = sum((n * 0.5, len(kept), abs(n - 40.0)))
    return len(sorted(kept.items(), key=lambda pair: pair[1]))


def _took_ns(work: Callable[[], object], number: int) -> int:
    start = process_time_ns()
    for _ in range(number):
        work()
    return process_time_ns() - start


def seconds(work: Callable[[], object], rounds: int = 25, number: int = 1) -> float:
    """How long a piece of work takes, in seconds of the machine for which the targets were set.

    Args: rounds: turns, of which the quickest counts; number: how often the work is done in a turn.
    """
    work()
    turns = [(_took_ns(work, number), _took_ns(_plain, 1)) for _ in range(rounds)]
    return min(took for took, _ in turns) / number / min(plain for _, plain in turns) * PLAIN_S
