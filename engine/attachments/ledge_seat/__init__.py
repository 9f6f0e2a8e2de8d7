"""Joists on the ledge of a stepped wall: the lower core is thicker, and what it is thicker by carries the floor."""

from engine.attachments.ledge_seat import anchors, bearing, concrete, continuity, joists, site, strip, wood
from engine.attachments.ledge_seat.geometry import Seat, geometry
from engine.attachments.ledge_seat.inputs import Inputs
from engine.basis import Basis, Group, by_field, lines, part
from engine.clauses.us.loads import Governing, Loads, governing_strength
from engine.clauses.us.sill_lines import PlateBolts, prescriptive
from engine.editions import Edition
from engine.result import CheckResult
from engine.worksheet import Worksheet

__all__ = ["GROUPS", "Inputs", "Seat", "Standing", "check", "geometry"]

OUTSIDE = (
    "vibration and deflection of the floor",
    "fire rating and the thermal barrier over foam",
    "soil and wind against the wall below",
    "the wall above",
)


class Standing(Basis[Inputs]):
    """The ledge with what stands on it, and what one joist brings."""

    @by_field
    def seat(self, sheet: Worksheet) -> Seat:
        """As drawn."""
        return geometry(self.inputs, sheet)

    @part
    def reaction(self, sheet: Worksheet) -> Loads:
        """Of one joist by type [lb]."""
        return joists.reaction(sheet, self.inputs)

    @part
    def factored(self, sheet: Worksheet) -> Governing:
        """The same in the strength combination that asks most."""
        return governing_strength(self.edition, self.reaction)

    @by_field
    def bolts(self, sheet: Worksheet) -> PlateBolts:
        """Of the plate, with the concrete beside their feet."""
        return anchors.bolts(self.inputs, self.seat)

    @property
    def plated(self) -> bool:
        """Whether a plate lies on the ledge."""
        return self.inputs.plate != "none"

    @property
    def floor(self) -> Loads:
        """The joists' load on the plate [plf]."""
        return self.reaction.times(12 / self.inputs.joist_spacing_in)


GROUPS: tuple[Group[Standing], ...] = (
    lambda b: site.scope(b.sheet, b.inputs),
    lambda b: joists.lift(b.sheet, b.inputs, b.reaction),
    lambda b: bearing.lines(b.sheet, b.inputs, b.seat, b.working("seat")),
    lambda b: wood.lines(b.sheet, b.inputs, b.seat, b.reaction, b.edition, b.working("reaction")),
    lambda b: (concrete.bearing(b.sheet, b.inputs, b.seat, b.factored),),
    lambda b: concrete.lip(b.sheet, b.inputs, b.seat, b.factored),
    lambda b: strip.lines(b.sheet, b.inputs, b.seat, b.reaction, b.edition),
    lambda b: continuity.lines(b.sheet, b.inputs, b.seat),
    lambda b: prescriptive(b.sheet, b.bolts) if b.plated else (),
    lambda b: anchors.placing(b.sheet, b.bolts) if b.plated else (),
    lambda b: anchors.in_concrete(b.sheet, b.inputs, b.bolts, b.floor, b.edition) if b.plated else (),
    lambda b: anchors.in_wood(b.sheet, b.inputs, b.bolts, b.floor) if b.plated else (),
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge joists on a ledge.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    states = lines(GROUPS, Standing(inputs, edition, recording))
    return CheckResult("ledge_seat", edition, states, site.cautions(inputs), OUTSIDE)
