"""How the codes' tables are read: by exact name, or at the first printed row or column that is not less than what is asked."""

from collections.abc import Iterable, Mapping
from typing import TypeVar

from engine.errors import BadInput

T = TypeVar("T")
K = TypeVar("K")

# Sums of sixteenths and metric text differ in the last bits of a float: this much over a printed limit is still at it.
SLACK = 1e-9


def choose(field: str, options: Mapping[K, T], key: K) -> T:
    """The option of that name. Raises: BadInput naming the field and the known options."""
    try:
        return options[key]
    except KeyError:
        known = ", ".join(str(option) for option in options)
        raise BadInput(field, f"Choose one of: {known}. {key} is not known.") from None


def not_less(printed: Iterable[float], asked: float) -> float | None:
    """The smallest printed row or column that covers what is asked, without interpolation; None beyond the last."""
    covering = [value for value in printed if value >= asked - SLACK]
    return min(covering, default=None)


def above_zero(**values: float) -> None:
    """Refuse sizes that cannot be. Raises: BadInput for the first value that is not above zero."""
    for field, value in values.items():
        if not value > 0:
            raise BadInput(field, f"Enter a value above zero in place of {value:g}.")
