"""A beam end in a pocket of the wall."""

from engine.attachments.beam_pocket import bearing, place, strip
from engine.attachments.beam_pocket.geometry import Pocket, geometry
from engine.attachments.beam_pocket.inputs import Inputs
from engine.clauses.us.irc_scope import r608_limits_exceeded
from engine.clauses.us.irc_walls import minimum_f_c_psi
from engine.clauses.us.loads import Loads
from engine.clauses.us.timber_materials import species
from engine.editions import Edition
from engine.errors import BadInput
from engine.result import Caution, CheckResult, LimitState
from engine.worksheet import Worksheet, cite

__all__ = ["Inputs", "Pocket", "check", "geometry"]

OUTSIDE = (
    "the beam itself: bending, shear, deflection",
    "soil and wind against the wall",
    "fire rating and the thermal barrier over foam",
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge a beam pocket.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    i, sheet = inputs, Worksheet(recording)
    if i.beam in ("sawn", "glulam") and species(i.species).material != i.beam:
        raise BadInput(
            "species", "Choose a glulam class for a glued laminated beam, and a lumber species for a sawn one."
        )
    p = geometry(i, sheet)
    placed = sheet.take()
    reaction = Loads(D=i.reaction_dead_lb, L=i.reaction_live_lb, Lr=i.reaction_roof_lb, S=i.reaction_snow_lb)
    states = (
        *_scope(sheet, i),
        *bearing.lines(sheet, i, p, reaction, edition, placed),
        *strip.lines(sheet, i, p, reaction, edition),
        *place.lines(sheet, i, p, placed),
    )
    return CheckResult("beam_pocket", edition, states, _cautions(i), OUTSIDE)


def _scope(sheet: Worksheet, i: Inputs) -> list[LimitState]:
    category, _, town = i.seismic.partition("-")
    beyond = sheet.use(r608_limits_exceeded, sdc=category, building="townhouse" if town else "detached")
    scope = LimitState(
        "scope", "Within the prescriptive limits", cite(r608_limits_exceeded), holds=not beyond,
        say=f"Beyond the limits: {', '.join(beyond)}." if beyond else "The seismic category is within the limits.",
        refer="Beyond R608.2 the wall and what it carries are designed: bring the loads and the seismic category to a licensed "
        "engineer." if beyond else "",
        spot="wall", steps=sheet.take(),
    )  # fmt: skip
    least = sheet.use(minimum_f_c_psi, weathering="negligible", sdc=category, foundation=i.foundation)
    strength = LimitState(
        "strength", "Concrete strength", cite(minimum_f_c_psi), least, i.f_c_psi, "psi",
        say="The concrete is {capacity}; the least is {demand}.",
        refer="Concrete below the code's least strength: bring test results to a licensed engineer."
        if i.f_c_psi < least else "",
        spot="concrete", steps=sheet.take(),
    )  # fmt: skip
    return [scope, strength]


def _cautions(i: Inputs) -> tuple[Caution, ...]:
    found = [
        Caution("Form the pocket clear of the foam and keep its gaps open: no foam, no mortar about the beam."),
        Caution("Check the seat's level and length before the beam is cut.", practice=True),
        Caution(
            "Bars beside a pocket are good practice; the code's rule is for openings the size of windows.",
            practice=True,
        ),
    ]
    if i.beam in ("scl", "glulam"):
        found.append(Caution("The member's own drawing governs its bearing and its protection against moisture."))
    return tuple(found)
