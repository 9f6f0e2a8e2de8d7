"""A wood ledger bolted to the side of the wall."""

from engine.attachments.bolted_ledger import concrete, distances, joists, site, strength, ties, washers, wood
from engine.attachments.bolted_ledger.demand import Carried, Share, carried
from engine.attachments.bolted_ledger.effects import (
    Beside,
    Effect,
    Site,
    beside,
    earthquake,
    effects,
    shares,
    sites,
    worth_checking,
)
from engine.attachments.bolted_ledger.geometry import PIECES, Ledger, geometry
from engine.attachments.bolted_ledger.inputs import EXAMPLE, Inputs
from engine.attachments.bolted_ledger.strength import Strengths
from engine.basis import Basis, Group, Places, lines, part
from engine.clauses.us.loads import Combination
from engine.editions import Citation, Edition
from engine.result import Caution, CheckResult, LimitState
from engine.worksheet import Worksheet

__all__ = ["GROUPS", "Inputs", "Ledger", "Standing", "check", "geometry"]

OUTSIDE = (
    "the joists, and deflection and vibration of the floor",
    "chord and collector forces along the ledger, and the diaphragm's nailing",
    "crushing of the ledger's lower edge on the concrete, and the strength of a cast-out pad itself",
    "the wall's own bending from the ledger's couple",
    "the anchors of ties that are not held by ledger bolts",
    "fire rating and the thermal barrier over foam",
)


class Standing(Basis[Inputs]):
    """The ledger on its bolts, what it carries, and what of that reaches them."""

    place = Places(Ledger, PIECES)

    @part
    def load(self, sheet: Worksheet) -> Carried:
        """Everything it carries, and the shares of its bolt places."""
        return carried(sheet, self.inputs, self.place)

    @part
    def within(self, sheet: Worksheet) -> bool:
        """Inside the limits of the prescriptive tables."""
        return site.scope(sheet, self.inputs).holds is not False

    @part
    def kinds(self, sheet: Worksheet) -> tuple[tuple[Site, tuple[int, ...]], ...]:
        """Kinds of bolt place, and which places of a piece are of it."""
        return tuple((kind, tuple(numbers)) for kind, numbers in sites(self.place).items())

    @part
    def shares(self, sheet: Worksheet) -> tuple[tuple[Site, tuple[Share, ...]], ...]:
        """Kinds of bolt place, each with its share under every strength combination."""
        i, load = self.inputs, self.load
        return tuple((kind, shares(i, load, self.edition, numbers)) for kind, numbers in self.kinds)

    @part
    def strengths(self, sheet: Worksheet) -> Strengths | LimitState:
        """Of the bolts in the concrete, by kind of place."""
        return strength.strengths(sheet, self.inputs, self.place, tuple(kind for kind, _ in self.kinds), self.edition)

    @part
    def beside(self, sheet: Worksheet) -> tuple[Beside, ...]:
        """What every strength combination brings to every bolt place alike."""
        return beside(self.inputs, self.load, self.edition)

    @part
    def asked(self, sheet: Worksheet) -> tuple[tuple[Site, tuple[Effect, ...]], ...]:
        """Kinds of bolt place, each with the effects that may govern."""
        return tuple(
            (kind, worth_checking(self.inputs, effects(self.place, found, self.beside))) for kind, found in self.shares
        )

    @part
    def every(self, sheet: Worksheet) -> tuple[Effect, ...]:
        """Effects at the worst of all bolt places."""
        numbers = range(len(self.place.places))
        return effects(self.place, shares(self.inputs, self.load, self.edition, numbers), self.beside)

    @part
    def shaken(self, sheet: Worksheet) -> tuple[Effect, ...]:
        """Those of them to which chapter 17's rules for earthquake apply."""
        return tuple(e for e in self.every if earthquake(self.inputs, e))

    @part
    def pressing(self, sheet: Worksheet) -> tuple[tuple[Share, Combination], ...]:
        """Share of the heaviest bolt place under every allowable combination."""
        return washers.shares(self.inputs, self.place, self.load, self.edition)


GROUPS: tuple[Group[Standing], ...] = (
    lambda b: (site.scope(b.sheet, b.inputs),),
    lambda b: joists.lift(b.sheet, b.inputs, b.load.joist),
    lambda b: ties.hanger(b.inputs, b.load, b.edition, b.working("load")),
    lambda b: (wood.bending(b.sheet, b.inputs, b.place, b.load, b.edition),),
    lambda b: (wood.shear_at_bolts(b.sheet, b.inputs, b.place, b.load, b.edition),),
    lambda b: (wood.yielding(b.sheet, b.inputs, b.place, b.load, b.edition),),
    lambda b: distances.edges(b.sheet, b.place),
    lambda b: (distances.end(b.sheet, b.inputs, b.place), distances.spacing(b.sheet, b.place)),
    lambda b: distances.rows(b.sheet, b.inputs, b.place),
    lambda b: site.contact(b.sheet, b.inputs, b.place),
    lambda b: washers.lines(b.sheet, b.inputs, b.place, b.load, b.pressing),
    lambda b: (concrete.couple(b.sheet, b.inputs, b.place, b.load, b.every, b.working("place", "load")),),
    lambda b: concrete.fit(b.sheet, b.inputs, b.place),
    lambda b: strength.modes(b.sheet, b.inputs, b.place, b.strengths, b.asked, b.shaken),
    lambda b: ties.ties(b.sheet, b.inputs, b.load, b.edition, b.within),
    lambda b: site.materials(b.sheet, b.inputs),
    lambda b: site.moisture(b.sheet, b.inputs),
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge a bolted ledger.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    b = Standing(inputs, edition, recording)
    return CheckResult("bolted_ledger", edition, lines(GROUPS, b), _cautions(inputs, b.place), OUTSIDE)


def _cautions(i: Inputs, place: Ledger) -> tuple[Caution, ...]:
    found = [
        Caution("Hang nothing from the ledger below its bolts: it would split along the grain."),
        Caution(
            "Drill the ledger 1/32 to 1/16 in over the bolts; a washer under every nut.", Citation("NDS", "12.1.3")
        ),
    ]
    if place.joist_spacing and place.first_joist is None:
        found.append(Caution("Until joists and bolts are set out, a joist is taken where it loads a bolt most."))
    if i.plies > 1:
        found.append(Caution("Fasten the plies together before they are bolted, as one member.", practice=True))
    if place.pad:
        found.append(
            Caution(
                "Place bolts before the pour and see that concrete fills every cut-out to the ledger's face.",
                practice=True,
            )
        )
    if i.treatment == "treated":
        found.append(
            Caution("The building code (IBC) gives bolts in treated wood no exception by size: coat them all.")
        )
        found.append(Caution("Treat cut ends and bolt holes in the field."))
    if EXAMPLE in (i.hanger_report, i.tie_report):
        found.append(Caution("Listed capacities are examples until the parts' own reports are typed."))
    if place.staggered:
        found.append(
            Caution("Staggered bolts are judged one by one: the upper row for shear, the shorter lever for pull.")
        )
    return tuple(found)
