"""An attachment in its place on a wall: which of its inputs follow the wall and the site, and which are its own."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engine import fields, units
from engine.attachments import Kind
from engine.common_fields import SEISMIC
from engine.errors import BadInput
from engine.fields import choice, count, number
from engine.wall import Wall

Texts = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Site:
    """What holds for the whole job; an input that follows it names it "job.<field>"."""

    seismic: str = choice("Seismic design category", SEISMIC, "B", group="Site")
    wind_mph: float = number("Basic wind speed, mph", "", 80, 250, 115.0, group="Site")
    exposure: str = choice("Wind exposure", (("B", "B"), ("C", "C"), ("D", "D")), "B", group="Site")
    stories: int = count("Stories above grade", 1, 4, 2, group="Building")
    plan_ft: float = number("Longer side of the plan", "ft", 8, 400, 40.0, group="Building")
    roof_ft: float = number("Mean roof height", "ft", 8, 120, 25.0, group="Building")


@dataclass(frozen=True, slots=True)
class Place:
    """Where an attachment sits: at the top of which storey, and from where to where along the wall."""

    level: int = count("Floor level, 1 at the top of the first storey", 1, 8, 1, group="Place")
    start_ft: float = number("Starts at, from the wall's named end", "ft", 0, 400, 0.0, group="Place")
    end_ft: float | None = number("Ends at", "ft", 0, 400, group="Place", optional=True)

    @property
    def middle_ft(self) -> float:
        """Station of its middle [ft]."""
        return self.start_ft if self.end_ft is None else (self.start_ft + self.end_ft) / 2

    @property
    def length_in(self) -> float:
        """How far it runs [in]; 0 at a point."""
        return 0.0 if self.end_ft is None else (self.end_ft - self.start_ft) * 12


def fits(place: Place, kind: Kind, wall: Wall) -> None:
    """Whether the wall has that place. Raises: BadInput naming the field and what the wall has."""
    length = wall.line.length_ft
    wall.at_level(place.level)
    if place.start_ft > length + 1e-9:
        raise BadInput("start_ft", f"Wall {wall.name} is {units.show(length, 'ft')} long.")
    if kind.point and place.end_ft is None:
        return
    if place.end_ft is None:
        raise BadInput("end_ft", f"Enter where it ends, up to {units.show(length, 'ft')}.")
    fits_run(place, wall)


def fits_run(place: Place, wall: Wall) -> None:
    """Whether a wall has that run; one without an end goes on to the wall's. Raises: BadInput as `fits`."""
    length = wall.line.length_ft
    wall.at_level(place.level)
    if place.start_ft > length + 1e-9:
        raise BadInput("start_ft", f"Wall {wall.name} is {units.show(length, 'ft')} long.")
    if place.end_ft is not None and place.end_ft > length + 1e-9:
        raise BadInput("end_ft", f"Wall {wall.name} is {units.show(length, 'ft')} long.")
    if place.end_ft is not None and place.end_ft <= place.start_ft:
        raise BadInput("end_ft", "Enter a station beyond the start.")


def _width_in(kind: Kind, place: Place, texts: Texts) -> float:
    """Room it takes along the wall [in]: a run its length, a point the width typed for it where that can be read."""
    if not kind.point:
        return place.length_in
    if not kind.width:
        return 0.0
    try:
        known = fields.spec(kind.inputs, kind.width)
        width = fields.read_one(known, texts.get(kind.width, fields.write_one(known, known.default)))
    except BadInput:
        return 0.0  # said beside the field itself
    return width if width is not None and math.isfinite(width) else 0.0


def followed(kind: Kind, texts: Texts, place: Place, wall: Wall, site: Site, today: str = "") -> dict[str, str]:
    """The inputs that follow the wall or the site at this place, as texts.

    Raises: BadInput where the wall has no such place.
    """
    fits(place, kind, wall)
    facts: dict[str, Any] = wall.facts(place.level, place.middle_ft, _width_in(kind, place, texts))
    facts.update({f"job.{s.name}": getattr(site, s.name) for s in fields.specs(Site)})
    if today:
        facts["job.today"] = today
    return {s.name: fields.write_one(s, facts[s.wall]) for s in fields.specs(kind.inputs) if s.wall in facts}


def placed_inputs(
    kind: Kind, texts: Texts, place: Place, wall: Wall, site: Site, today: str = ""
) -> tuple[Any | None, dict[str, str], dict[str, str]]:
    """An attachment's inputs in its place.

    Args: texts: its own inputs, as typed. today: the day to judge listings by, as "2026-05-27".
    Returns: the inputs (None when some can't be used), messages by field, and the texts that follow the wall.
    """
    try:
        inherited = followed(kind, texts, place, wall, site, today)
    except BadInput as error:
        return None, {error.field: error.message}, {}
    own = {name: text for name, text in texts.items() if name not in inherited}
    inputs, errors = fields.read(kind.inputs, {**own, **inherited})
    for name in errors.keys() & inherited.keys():
        errors[name] = f"Wall {wall.name} gives {inherited[name]} here; this kind covers {_range(kind, name)}."
    return inputs, errors, inherited


def _range(kind: Kind, name: str) -> str:
    known = fields.spec(kind.inputs, name)
    return known.range_words if known.kind in ("number", "count") else ", ".join(words for _, words in known.options)
