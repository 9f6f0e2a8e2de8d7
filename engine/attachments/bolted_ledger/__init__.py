"""A wood ledger bolted to the side of the wall."""

from engine.attachments.bolted_ledger import concrete, distances, joists, site, ties, washers, wood
from engine.attachments.bolted_ledger.demand import carried
from engine.attachments.bolted_ledger.geometry import Ledger, geometry
from engine.attachments.bolted_ledger.inputs import EXAMPLE, Inputs
from engine.editions import Citation, Edition
from engine.result import Caution, CheckResult
from engine.worksheet import Worksheet

__all__ = ["Inputs", "Ledger", "check", "geometry"]

OUTSIDE = (
    "the joists, and deflection and vibration of the floor",
    "chord and collector forces along the ledger, and the diaphragm's nailing",
    "crushing of the ledger's lower edge on the concrete, and the strength of a cast-out pad itself",
    "the wall's own bending from the ledger's couple",
    "the anchors of ties that are not held by ledger bolts",
    "fire rating and the thermal barrier over foam",
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge a bolted ledger.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    i, sheet = inputs, Worksheet(recording)
    place = geometry(i, sheet)
    placed = sheet.take()
    load = carried(sheet, i, place)
    how = sheet.take()
    scope = site.scope(sheet, i)
    states = [
        scope,
        *joists.lift(sheet, i, load.joist),
        *ties.hanger(i, load, edition, how),
        wood.bending(sheet, i, place, load, edition),
        wood.shear_at_bolts(sheet, i, place, load, edition),
        wood.yielding(sheet, i, place, load, edition),
        *distances.lines(sheet, i, place),
        *site.contact(sheet, i, place),
        *washers.lines(sheet, i, place, load, edition),
        *concrete.lines(sheet, i, place, load, edition, placed + how),
        *ties.ties(sheet, i, load, edition, within=scope.holds is not False),
        *site.materials(sheet, i),
        *site.moisture(sheet, i),
    ]
    return CheckResult("bolted_ledger", edition, tuple(states), _cautions(i, place), OUTSIDE)


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
