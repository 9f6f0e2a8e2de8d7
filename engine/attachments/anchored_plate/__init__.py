"""An anchored steel plate or angle that carries a joist, a beam or a ledger off the wall's face."""

from engine.attachments.anchored_plate import concrete, distances, fasteners, leg, plate, site, wood
from engine.attachments.anchored_plate.demand import (
    Carried,
    Effect,
    allowable_effects,
    carried,
    strength_effects,
    unrelieved,
)
from engine.attachments.anchored_plate.geometry import PIECES, Bracket, geometry
from engine.attachments.anchored_plate.inputs import Inputs
from engine.attachments.anchored_plate.plate import Case, cases
from engine.basis import Basis, Group, Places, lines, part
from engine.clauses.us.loads import Loads
from engine.editions import Edition
from engine.result import CheckResult
from engine.worksheet import Worksheet

__all__ = ["GROUPS", "Bracket", "Inputs", "Standing", "check", "geometry"]

OUTSIDE = (
    "the welds between plate and legs",
    "the member itself between its supports",
    "the wall's own bending from the couple of the offset",
    "a push of the member against the wall",
    "bars and foam webs in the anchors' way",
    "fire rating and the thermal barrier over foam",
)


class Standing(Basis[Inputs]):
    """The plate on its anchors, what it carries in every combination, and how anchors and concrete share that."""

    bracket = Places(Bracket, PIECES)

    @part
    def load(self, sheet: Worksheet) -> Carried:
        """On one plate by type."""
        return carried(sheet, self.inputs)

    @part
    def strong(self, sheet: Worksheet) -> tuple[Effect, ...]:
        """Strength combinations that may govern."""
        return tuple(strength_effects(self.bracket, self.load, self.edition))

    @part
    def allowable(self, sheet: Worksheet) -> tuple[Effect, ...]:
        """Allowable combinations, for wood."""
        return tuple(allowable_effects(self.load, self.edition))

    @part
    def cases(self, sheet: Worksheet) -> tuple[Case, ...]:
        """Strength combinations with what they bring to anchors and concrete."""
        return cases(sheet, self.inputs, self.bracket, self.strong, self.working("load"))

    @part
    def used(self, sheet: Worksheet) -> tuple[float, ...]:
        """Of each anchor, how much of the plate's bending strength 1 lb of its force uses."""
        return plate.used_by_a_pound(self.inputs, self.bracket)

    @part
    def pressing(self, sheet: Worksheet) -> tuple[Case, ...]:
        """The same without the relief of a pull."""
        if self.load.pull == Loads():
            return self.cases
        return cases(sheet, self.inputs, self.bracket, unrelieved(self.strong), self.working("load"))


GROUPS: tuple[Group[Standing], ...] = (
    lambda b: site.scope(b.sheet, b.inputs),
    lambda b: wood.lines(b.sheet, b.inputs, b.bracket, b.load, b.allowable, b.working("bracket")),
    lambda b: fasteners.lines(b.sheet, b.inputs, b.bracket, b.allowable),
    lambda b: distances.lines(b.sheet, b.inputs, b.bracket, b.allowable),
    lambda b: leg.lines(b.sheet, b.inputs, b.bracket, b.strong),
    lambda b: plate.room(b.sheet, b.inputs, b.bracket, b.working("bracket")),
    lambda b: plate.bending(b.sheet, b.inputs, b.bracket, b.cases, b.used),
    lambda b: plate.over_toe(b.sheet, b.inputs, b.bracket, b.pressing),
    lambda b: concrete.couple(b.inputs, b.bracket, b.cases),
    lambda b: concrete.toe(b.sheet, b.inputs, b.bracket, b.pressing),
    lambda b: concrete.fit(b.sheet, b.inputs, b.bracket),
    lambda b: concrete.modes(b.sheet, b.inputs, b.bracket, b.cases, b.edition),
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge an anchored plate.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    states = lines(GROUPS, Standing(inputs, edition, recording))
    return CheckResult("anchored_plate", edition, states, site.cautions(inputs), OUTSIDE)
