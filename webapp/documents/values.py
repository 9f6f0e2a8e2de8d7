"""Values of proving cases as short text."""

from collections.abc import Mapping, Sequence
from typing import Any


def short(value: Any) -> str:
    """A number to six figures, lists and mappings in a line."""
    if isinstance(value, bool) or value is None:
        return {True: "yes", False: "no", None: "none"}[value]
    if isinstance(value, float):
        return f"{value:.6g}"
    if isinstance(value, Mapping):
        return "; ".join(f"{name} {short(inner)}" for name, inner in value.items())
    if isinstance(value, Sequence) and not isinstance(value, str):
        return ", ".join(short(inner) for inner in value)
    return str(value)
