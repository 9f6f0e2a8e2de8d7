"""What setting out gives: things to set at stations from a wall's named end, and what stands against setting them."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from engine import units
from engine.units import System

MM_IN_INCH = 25.4  # exact, by the definition of the inch
READING_IN = 1 / 16  # a tape is read, and a station written, to the nearest sixteenth
NO_FACTS: Mapping[str, tuple[float, str]] = {}
# What can be set: one of them, several of them.
WORDS: Mapping[str, tuple[str, str]] = {
    "joist": ("joist", "joists"),
    "anchor": ("anchor bolt", "anchor bolts"),
    "tie": ("floor tie", "floor ties"),
    "plate": ("cast-in plate", "cast-in plates"),
    "anchored": ("anchored plate", "anchored plates"),
    "bracket": ("transition bracket", "transition brackets"),
    "stirrup": ("stirrup", "stirrups"),
    "pocket": ("beam pocket", "beam pockets"),
    "bar": ("extra bar", "extra bars"),
}


def station(at_in: float, system: System = "ft in") -> str:
    """A station from the named end: "12-6 1/2", or "3,823 mm". Args: at_in [in]."""
    return units.feet_inches(at_in) if system == "ft in" else f"{millimetres(at_in):,} mm"


def millimetres(at_in: float) -> int:
    """A length to the whole millimetre. Args: at_in [in]."""
    return round(at_in * MM_IN_INCH)


@dataclass(frozen=True, slots=True)
class Mark:
    """One place where something is set.

    Args: what: a key of WORDS. at_in: station of its middle [in]. number: its place in the row of its kind, from 1. count: how
    many at this place. note: what the crew must know of it.
    """

    what: str
    at_in: float
    number: int
    count: int = 1
    note: str = ""

    @property
    def text(self) -> str:
        """Station in feet and inches, to the nearest sixteenth."""
        return station(self.at_in)

    @property
    def mm(self) -> int:
        """Station in whole millimetres."""
        return millimetres(self.at_in)


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that stands against setting out as asked, or that is to be known.

    Args:
        key: stable short name. what: the thing it concerns (a key of WORDS, or "joint").
        at_in: station [in]. amount_in: by how much [in]; 0 where nothing is to be measured.
        say: a sentence with {at}, {amount} and the names of facts: name -> (value, unit), unit "station" for a place.
        note: to know, nothing to mend.
    """

    key: str
    what: str
    at_in: float
    amount_in: float
    say: str
    facts: Mapping[str, tuple[float, str]] = field(default_factory=lambda: NO_FACTS)
    note: bool = False

    def text(self, system: System = "ft in") -> str:
        """The sentence in the reader's units."""
        values = {"at": (self.at_in, "station"), "amount": (self.amount_in, "in"), **self.facts}
        return self.say.format(**{name: _shown(value, unit, system) for name, (value, unit) in values.items()})


def _shown(value: float, unit: str, system: System) -> str:
    return station(value, system) if unit == "station" else units.show(value, unit, system)


def plain(words: str) -> str:
    """Words somebody typed, safe inside a sentence with places to fill."""
    return words.replace("{", "(").replace("}", ")")


def numbered(what: str, stations: tuple[float, ...], count: int = 1, note: str = "") -> tuple[Mark, ...]:
    """Marks in order along the wall. Args: stations [in]."""
    return tuple(Mark(what, at, number, count, note) for number, at in enumerate(sorted(stations), 1))
