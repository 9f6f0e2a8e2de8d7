"""Walls: types, storeys, steps and openings; the geometry that attachments, drawings and setting-out all read."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from engine.errors import BadInput
from engine.fields import choice, count, number, validate

BARS = tuple((str(n), f"No. {n}") for n in range(3, 9))
ENDS = (("corner", "corner"), ("free", "free end"), ("opening", "opening"))
CURTAINS = (("centre", "one curtain, centred"), ("two", "two curtains"), ("none", "no vertical bars"))


@dataclass(frozen=True, slots=True)
class WallType:
    """One kind of wall build-up: two foam panels, the core between them, its bars and its forms' web module."""

    core_in: float = number("Core thickness", "in", 4, 24, 6.0, group="Section")
    foam_inner_in: float = number("Foam, room side", "in", 0.5, 8, 2.5, group="Section")
    foam_outer_in: float = number("Foam, outer side", "in", 0.5, 8, 2.5, group="Section")
    course_in: float = number("Course height", "in", 6, 48, 16.0, group="Forms")
    web_spacing_in: float = number("Web spacing", "in", 4, 24, 8.0, group="Forms")
    first_web_in: float = number("First web from the wall's end", "in", 0, 24, 4.0, group="Forms")
    form_pressure_psf: float | None = number(
        "Pressure the forms may carry", "psf", 100, 3000, group="Forms", optional=True, hint="From the forms' own data."
    )
    f_c_psi: float = number("Concrete strength", "psi", 2000, 10000, 3000.0, group="Concrete and bars")
    f_y_ksi: float = number("Bar yield strength", "ksi", 40, 80, 60.0, group="Concrete and bars")
    curtains: str = choice("Vertical bars", CURTAINS, "centre", group="Concrete and bars")
    vertical_bar: str = choice("Vertical bar size", BARS, "4", group="Concrete and bars")
    vertical_spacing_in: float = number("Vertical bar spacing", "in", 4, 48, 16.0, group="Concrete and bars")
    horizontal_bar: str = choice("Horizontal bar size", BARS, "4", group="Concrete and bars")
    horizontal_spacing_in: float = number("Horizontal bar spacing", "in", 4, 48, 16.0, group="Concrete and bars")
    cover_in: float = number("Cover to bars", "in", 0.5, 6, 1.5, group="Concrete and bars")

    @property
    def overall_in(self) -> float:
        """Foam, core and foam [in]."""
        return self.foam_outer_in + self.core_in + self.foam_inner_in


@dataclass(frozen=True, slots=True)
class Storey:
    """One storey of a wall, bottom up: the name of its wall type and its clear height between lateral supports [ft]."""

    type: str
    height_ft: float = number("Storey height", "ft", 1, 40, 9.0, group="Storeys")


@dataclass(frozen=True, slots=True)
class Opening:
    """A window, door or large penetration, stations from the wall's named end."""

    start_ft: float = number("Starts at", "ft", 0, 400, group="Openings")
    width_ft: float = number("Width", "ft", 0.5, 60, group="Openings")
    sill_ft: float = number("Sill above the storey's floor", "ft", 0, 40, 3.0, group="Openings")
    head_ft: float = number("Head above the storey's floor", "ft", 0.5, 40, 7.0, group="Openings")
    storey: int = count("Storey, from the bottom", 1, 8, 1, group="Openings")

    @property
    def end_ft(self) -> float:
        """Station of the far jamb [ft]."""
        return self.start_ft + self.width_ft


@dataclass(frozen=True, slots=True)
class WallLine:
    """What is typed of a wall beside its storeys and openings; the plan position is of its named end, on the outer face."""

    length_ft: float = number("Length", "ft", 1, 400, group="Wall")
    near_end: str = choice("Named end, station 0", ENDS, "corner", group="Wall")
    far_end: str = choice("Far end", ENDS, "corner", group="Wall")
    x_ft: float | None = number(
        "Plan position, across", "ft", -2000, 2000, group="Plan", optional=True,
        hint="Empty: it starts where the wall before it ends.",
    )  # fmt: skip
    y_ft: float | None = number("Plan position, up", "ft", -2000, 2000, group="Plan", optional=True)
    bearing_deg: float | None = number(
        "Runs toward", "°", 0, 360, group="Plan", optional=True,
        hint="0 is right, 90 is up the sheet; the room lies to its right, so that its named end is at the left seen from there.",
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall with its storeys bottom up and its openings. Build with `wall()`, which checks that they fit."""

    name: str
    line: WallLine
    storeys: tuple[Storey, ...]
    openings: tuple[Opening, ...]
    types: Mapping[str, WallType]

    def at_level(self, level: int) -> tuple[WallType, WallType, Storey]:
        """Wall type below and above floor level `level` (1 is the top of the first storey), and the storey below.

        At the top of the wall the type above is the type below. Raises: BadInput for a level the wall has not.
        """
        if not 1 <= level <= len(self.storeys):
            raise BadInput("level", f"Wall {self.name} has floor levels 1 to {len(self.storeys)}.")
        below = self.storeys[level - 1]
        above = self.storeys[level] if level < len(self.storeys) else below
        return self.types[below.type], self.types[above.type], below

    def clear_in(self, station_ft: float, width_in: float, storey: int) -> tuple[float, float]:
        """Concrete left and right of something `width_in` wide centred at a station, to the next end or jamb [in]."""
        left = station_ft * 12 - width_in / 2
        right = self.line.length_ft * 12 - station_ft * 12 - width_in / 2
        for opening in self.openings:
            if opening.storey != storey:
                continue
            if opening.end_ft <= station_ft:
                left = min(left, (station_ft - opening.end_ft) * 12 - width_in / 2)
            if opening.start_ft >= station_ft:
                right = min(right, (opening.start_ft - station_ft) * 12 - width_in / 2)
        return left, right

    def over_opening(self, station_ft: float, storey: int) -> bool:
        """Whether a station lies over an opening of that storey."""
        return any(o.storey == storey and o.start_ft < station_ft < o.end_ft for o in self.openings)

    def facts(self, level: int, start_ft: float, width_in: float = 0.0) -> dict[str, Any]:
        """Everything an attachment at this level and station takes from the wall, under the names of `Spec.wall`."""
        lower, upper, storey = self.at_level(level)
        left, right = self.clear_in(start_ft, width_in, level)
        facts: dict[str, Any] = {}
        for side, kind in (("lower", lower), ("upper", upper)):
            for name in WallType.__dataclass_fields__:
                facts[f"{side}.{name}"] = getattr(kind, name)
        facts["storey.height_ft"] = storey.height_ft
        facts["place.left_in"], facts["place.right_in"] = max(left, 0.0), max(right, 0.0)
        facts["place.over_opening"] = self.over_opening(start_ft, level)
        facts["place.top_of_wall"] = level == len(self.storeys)
        return facts


def wall(
    name: str,
    line: WallLine,
    storeys: Sequence[Storey],
    openings: Sequence[Opening],
    types: Mapping[str, WallType],
) -> Wall:
    """A wall whose parts fit together.

    Raises: BadInput naming the place and the amount: no storey, an unknown type, an opening past the end, above its storey,
    or overlapping another.
    """
    validate(line)
    if not storeys:
        raise BadInput("storeys", f"Give wall {name} at least one storey.")
    for number_, storey in enumerate(storeys, 1):
        validate(storey)
        if storey.type not in types:
            raise BadInput(
                "storeys", f"Storey {number_} of {name}: no wall type {storey.type!r}. Known: {', '.join(types)}."
            )
    ordered = tuple(sorted(openings, key=lambda o: (o.storey, o.start_ft)))
    for opening in ordered:
        _fits(name, line, storeys, opening)
    for first, second in pairwise(ordered):
        if first.storey == second.storey and second.start_ft < first.end_ft:
            over = first.end_ft - second.start_ft
            raise BadInput("openings", f"Two openings of {name} overlap by {over:.2f} ft at {second.start_ft:.2f} ft.")
    return Wall(name, line, tuple(storeys), ordered, types)


def _fits(name: str, line: WallLine, storeys: Sequence[Storey], opening: Opening) -> None:
    validate(opening)
    where = f"The opening of {name} at {opening.start_ft:.2f} ft"
    if opening.storey > len(storeys):
        raise BadInput("openings", f"{where} is in storey {opening.storey}; the wall has {len(storeys)}.")
    if opening.end_ft > line.length_ft:
        raise BadInput("openings", f"{where} runs {opening.end_ft - line.length_ft:.2f} ft past the end of the wall.")
    if opening.head_ft <= opening.sill_ft:
        raise BadInput("openings", f"{where} has its head at or below its sill.")
    if opening.head_ft > storeys[opening.storey - 1].height_ft:
        raise BadInput(
            "openings",
            f"{where} rises above its storey by {opening.head_ft - storeys[opening.storey - 1].height_ft:.2f} ft.",
        )
