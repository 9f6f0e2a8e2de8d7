"""A steel plate cast in through the foam, or a bracket or hanger, that takes a joist by screws."""

from engine.attachments.cast_in_plate import listing, load, place, plate, screws, site, wood
from engine.attachments.cast_in_plate.geometry import PIECES, Plate, geometry
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.basis import Basis, Group, Places, lines, part
from engine.clauses.us.loads import Loads
from engine.editions import Edition
from engine.result import CheckResult
from engine.worksheet import Worksheet

__all__ = ["GROUPS", "Inputs", "Plate", "Standing", "check", "geometry"]

OUTSIDE = (
    "the concrete around the part, beyond its listing's conditions",
    "the part near ends and openings of the wall",
    "ties of floor and wall against wind and earthquake",
    "a part that stands out of plumb",
    "screws that are not wood screws of ASME B18.6.1",
    "vibration and deflection of the floor",
    "fire rating",
)


class Standing(Basis[Inputs]):
    """The part with its screws, as drawn and as surveyed, and what the most loaded joist brings."""

    plate = Places(Plate, PIECES)

    @part
    def reaction(self, sheet: Worksheet) -> Loads:
        """Of the most loaded joist by type [lb]."""
        return load.reaction(sheet, self.inputs, self.plate)


GROUPS: tuple[Group[Standing], ...] = (
    lambda b: site.scope(b.sheet, b.inputs),
    lambda b: wood.lines(b.sheet, b.inputs, b.plate, b.reaction, b.edition),
    lambda b: (screws.strength(b.sheet, b.inputs, b.plate, b.reaction, b.edition, b.working("plate")),),
    lambda b: (screws.penetration(b.sheet, b.plate, b.working("plate")),),
    lambda b: screws.practice(b.inputs),
    lambda b: screws.distances(b.sheet, b.inputs, b.plate, b.working("plate")),
    lambda b: plate.lines(b.sheet, b.inputs, b.plate, b.reaction, b.edition, b.working("plate")),
    lambda b: (listing.capacity(b.sheet, b.inputs, b.reaction, b.edition, b.working("reaction")),),
    lambda b: listing.conditions(b.inputs, b.plate),
    lambda b: (place.behind(b.sheet, b.plate, b.working("plate")),),
    lambda b: (place.upright(b.inputs, b.plate),),
    lambda b: (place.along(b.inputs, b.plate),),
    lambda b: site.lines(b.sheet, b.inputs),
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge a cast-in plate, bracket or hanger and its screws.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    states = lines(GROUPS, Standing(inputs, edition, recording))
    outside = OUTSIDE if inputs.kind == "plate" else (*OUTSIDE, "the steel of the part, beyond its listing")
    return CheckResult("cast_in_plate", edition, states, site.cautions(inputs), outside)
