"""A sill plate bolted to the top of a wall or to a ledge."""

from engine.attachments.sill_plate import bolts, concrete, details, plate, site, wood
from engine.attachments.sill_plate.demand import acting, loads
from engine.attachments.sill_plate.geometry import Sill, geometry
from engine.attachments.sill_plate.inputs import PLATES, Inputs
from engine.clauses.us.irc_sills import short_wall_bolts, sill_bolt, step_bolts
from engine.clauses.us.sill_lines import IBC_SILL
from engine.editions import Citation, Edition
from engine.result import Caution, CheckResult
from engine.worksheet import Worksheet, cite

__all__ = ["Inputs", "Sill", "check", "geometry"]

OUTSIDE = (
    "the wall below as a strip, its weight and its bars",
    "joists, rafters or studs crushing the plate, and the plate's bending between bolts",
    "hold-downs at the ends of braced panels, and the straps and ties themselves",
    "bolts over the lintel of an opening",
    "soil against the wall",
    "fire rating and the thermal barrier over foam",
)
FIELD_TREATMENT = Citation("IRC", "R317.1.1", (("US 2024", "R304.1.1"),))


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge a sill plate.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line. Raises: BadInput where inputs contradict each other.
    """
    i, sheet = inputs, Worksheet(recording)
    p = geometry(i, sheet)
    placed = sheet.take()
    b, load = bolts.plate_bolts(i, p), loads(sheet, i)
    states = (
        site.scope(sheet, i),
        site.strength(sheet, i),
        *plate.lines(sheet, i, p, placed),
        *bolts.lines(sheet, i, p, b),
        *details.lines(sheet, i, p, load),
        *wood.lines(sheet, i, p, b, acting(edition, load, strength=False)),
        *concrete.lines(sheet, i, b, edition, acting(edition, load, strength=True)),
        *concrete.exception(sheet, i, p),
        *site.moisture(sheet, i, p),
    )
    return CheckResult("sill_plate", edition, states, _cautions(i), OUTSIDE)


def _cautions(i: Inputs) -> tuple[Caution, ...]:
    found = [
        Caution(
            "Bolts may be set while the concrete is still plastic; where one resists or the concrete draws away from it, "
            "vibrate again.",
            IBC_SILL if i.code == "IBC" else cite(sill_bolt),
        ),
        Caution("Let no strap or sheathing lift one edge of the plate alone: it would bend the wood across its grain."),
        Caution("Wind along the wall, across it and upward is taken to act at once."),
    ]
    if i.treatment == "treated":
        found.append(Caution("Treat cut ends and bolt holes in the field.", FIELD_TREATMENT))
    if i.code == "IRC" and i.seismic.startswith("D"):
        found.append(Caution("Where the foundation steps, bolts stand 1 ft to 3 ft from the step.", cite(step_bolts)))
    if i.code == "IBC":
        found.append(Caution("Under the building code the concrete wall itself is designed to ACI 318."))
    if i.code == "IRC" and short_wall_bolts(i.piece_ft * 12) is not None:
        found.append(
            Caution("A wall this short between offset braced panels may do with fewer bolts.", cite(short_wall_bolts))
        )
    if i.shear_route == "overstrength" and i.shear_seismic_plf:
        found.append(Caution("Enter earthquake shear already multiplied by the overstrength factor."))
    if PLATES[i.plate].plies > 1:
        found.append(Caution("Nail the two plates together; they are taken as one under the bolts.", practice=True))
    return tuple(found)
