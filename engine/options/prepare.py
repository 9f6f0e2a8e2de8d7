"""A floor line on one wall made ready for every way of carrying it: the inputs that hold, and the sizes that may vary."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from math import prod
from typing import Any

from engine import attachments, fields
from engine.clauses.us.irc_connections import ledger_hole_in
from engine.editions import Edition
from engine.errors import BadInput
from engine.floor import Floor
from engine.options.grid import Pick
from engine.options.offers import OFFERS, Offer
from engine.options.sizes import Choices, Facts
from engine.placed import Place, Site, Texts, placed_inputs
from engine.wall import Wall


@dataclass(frozen=True, slots=True)
class Line:
    """A floor line in its place.

    Args: standards: what the office always takes, as texts by kind; a part's listing is among it. today: the day listings are
    judged by.
    """

    floor: Floor
    place: Place
    wall: Wall
    site: Site
    edition: Edition
    standards: Mapping[str, Texts] = field(default_factory=dict)
    today: str = ""


@dataclass(frozen=True, slots=True)
class Way:
    """An offer on this line. Args: base: inputs that hold. choices: what varies. follows: inputs that follow wall and site."""

    offer: Offer
    line: Line
    base: Any
    choices: tuple[Choices, ...]
    follows: frozenset[str]

    @property
    def count(self) -> int:
        """How many candidates there are."""
        return prod(len(c.rows) for c in self.choices)

    def pick(self, number: int) -> Pick:
        """A candidate by its number: the number of its row in each of the choices, the last of which turns fastest."""
        found = []
        for choices in reversed(self.choices):
            number, row = divmod(number, len(choices.rows))
            found.append(row)
        return tuple(reversed(found))

    def sizes(self, pick: Pick) -> dict[str, Any]:
        """What a candidate varies."""
        rows = ((c.names, c.rows[n]) for c, n in zip(self.choices, pick, strict=True))
        return {name: value for names, row in rows for name, value in zip(names, row, strict=True)}

    def inputs(self, pick: Pick) -> Any:
        """A candidate's inputs."""
        return replace(self.base, **self.sizes(pick))


@dataclass(frozen=True, slots=True)
class Refused:
    """An offer that can't be compared here, and why."""

    offer: Offer
    why: str


def prepare(line: Line) -> tuple[tuple[Way, ...], tuple[Refused, ...]]:
    """Every offer, ready or refused. Raises: BadInput where the floor's own values can't be used."""
    fields.validate(line.floor)
    found = [_way(offer, line) for offer in OFFERS]
    return tuple(w for w in found if isinstance(w, Way)), tuple(w for w in found if isinstance(w, Refused))


def _way(offer: Offer, line: Line) -> Way | Refused:
    if line.floor.member not in offer.members:
        return Refused(offer, "It carries sawn joists only.")
    kind = replace(
        attachments.kind(offer.kind), point=False
    )  # parts along the line count as a run from its start to its end
    texts = {**dict.fromkeys(offer.listed, ""), **line.standards.get(offer.kind, {}), **_taken(offer, line)}
    inputs, errors, follows = placed_inputs(kind, texts, line.place, line.wall, line.site, line.today)
    if inputs is None:
        return Refused(offer, " ".join(f"{_label(kind, name)}: {message}" for name, message in errors.items()))
    if offer.listed and getattr(inputs, offer.listed[0]) is None:
        asked = ", ".join(_label(kind, name).lower() for name in offer.listed)
        return Refused(offer, f"Type what the part's own listing gives first: {asked}.")
    facts = Facts(inputs, line.floor.depth_in, line.wall.at_level(line.place.level)[0].web_spacing_in)
    choices = tuple(_offered(kind, axis.choices(facts)) for axis in offer.axes)
    empty = [c for c in choices if not c.rows]
    if empty:
        return Refused(offer, f"No size fits here: {', '.join(_label(kind, n).lower() for n in empty[0].names)}.")
    return Way(offer, line, inputs, choices, frozenset(follows))


def _label(kind: attachments.Kind, name: str) -> str:
    try:
        return fields.spec(kind.inputs, name).label
    except BadInput:
        return name


def _taken(offer: Offer, line: Line) -> dict[str, str]:
    """What the floor, the wall's heights and the offer itself settle, as texts."""
    kind = attachments.kind(offer.kind).inputs
    values = {**offer.fixed, **{name: getattr(line.floor, of) for name, of in offer.taken.items()}}
    if offer.kind == "bolted_ledger":
        lower, _, below = line.wall.at_level(line.place.level)
        above = line.wall.storeys[line.place.level :][:1]
        # half of each storey is tied at the floor between them; the hole is the least the foam asks for
        values["wall_height_ft"] = (below.height_ft + sum(storey.height_ft for storey in above)) / 2
        values["hole_in"] = ledger_hole_in(lower.foam_inner_in)
    return {name: fields.write_one(fields.spec(kind, name), value) for name, value in values.items()}


def _offered(kind: attachments.Kind, choices: Choices) -> Choices:
    """Those within the stated ranges of the kind."""
    known = [fields.spec(kind.inputs, name) for name in choices.names]
    return Choices(
        choices.names,
        tuple(row for row in choices.rows if all(_stated(s, value) for s, value in zip(known, row, strict=True))),
    )


def _stated(known: fields.Spec, value: Any) -> bool:
    if known.kind == "choice":
        return value in dict(known.options)
    return known.kind not in ("number", "count") or known.low <= value <= known.high
