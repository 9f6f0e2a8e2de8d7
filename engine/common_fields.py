"""Input declarations that several kinds of attachment ask for in the same words: what the wall gives, and loads by type."""

from typing import Any

from engine.fields import choice, number, yes
from engine.wall import BARS, CURTAINS

When = tuple[str, tuple[Any, ...]] | None

SEISMIC = (
    ("A", "A"),
    ("B", "B"),
    ("C", "C, detached house"),
    ("C-town", "C, townhouse"),
    ("D0", "D0"),
    ("D1", "D1"),
    ("D2", "D2"),
)
WALL = "Wall"
LOADS = "Loads"
CONCRETE = "Concrete and bars"


def core(label: str, side: str, default: float = 6.0) -> Any:
    """Core thickness of the wall below or above; `side` is "lower" or "upper"."""
    return number(label, "in", 4, 24, default, group=WALL, step=2, wall=f"{side}.core_in")


def foam(label: str, side: str, face: str) -> Any:
    """Foam panel of one face; `face` is "inner" or "outer"."""
    return number(label, "in", 0.5, 8, 2.5, group=WALL, wall=f"{side}.foam_{face}_in")


def f_c() -> Any:
    """Specified compressive strength [psi]."""
    return number("Concrete strength", "psi", 2000, 10000, 3000.0, group=CONCRETE, step=500, wall="lower.f_c_psi")


def f_y() -> Any:
    """Yield strength of the bars [ksi]."""
    return number("Bar yield strength", "ksi", 40, 80, 60.0, group=CONCRETE, wall="lower.f_y_ksi")


def bars(side: str = "lower", words: str = "Vertical bar") -> Any:
    """Size of the vertical bars."""
    return choice(f"{words} size", BARS, "4", group=CONCRETE, wall=f"{side}.vertical_bar")


def bar_spacing(side: str = "lower", words: str = "Vertical bar") -> Any:
    """Spacing of the vertical bars [in]."""
    return number(f"{words} spacing", "in", 4, 48, 16.0, group=CONCRETE, step=8, wall=f"{side}.vertical_spacing_in")


def curtains(side: str = "lower") -> Any:
    """One central curtain, two, or none."""
    return choice("Vertical bars", CURTAINS, "centre", group=CONCRETE, wall=f"{side}.curtains")


def cover() -> Any:
    """Clear cover to the bars [in]."""
    return number("Cover to bars", "in", 0.5, 6, 1.5, group=CONCRETE, wall="lower.cover_in")


def storey_height() -> Any:
    """Height of the wall below between lateral supports [ft]."""
    return number("Height of the wall below", "ft", 1, 40, 9.0, group=WALL, wall="storey.height_ft")


def seismic() -> Any:
    """Seismic design category."""
    return choice("Seismic design category", SEISMIC, "B", group=LOADS, wall="job.seismic")


def foundation() -> Any:
    """Whether the wall below is a foundation wall."""
    return yes("The wall below is a foundation wall", group=WALL)


def area_load(words: str, default: float = 0.0, when: When = None) -> Any:
    """An unfactored area load [psf]."""
    return number(words, "psf", 0, 500, default, group=LOADS, when=when)


def line_load(words: str, default: float = 0.0, group: str = LOADS, when: When = None) -> Any:
    """An unfactored line load [plf]."""
    return number(words, "plf", 0, 40000, default, group=group, when=when)


def point_load(words: str, default: float = 0.0, group: str = LOADS, when: When = None) -> Any:
    """An unfactored point load [lb]."""
    return number(words, "lb", 0, 200000, default, group=group, when=when)
