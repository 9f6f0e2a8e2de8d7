"""Lines about limits and concrete strength, and what to know or do that no number settles."""

from engine.attachments.anchored_plate.inputs import HIGH_CATEGORIES, Inputs
from engine.clauses.us.irc_bearing import rotation_held
from engine.clauses.us.irc_scope import r608_limits_exceeded
from engine.clauses.us.irc_walls import minimum_f_c_psi
from engine.clauses.us.ledger_rules import cross_grain_barred
from engine.result import Caution, LimitState
from engine.worksheet import Worksheet, cite


def scope(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    """Limits of R608.2 and the least strength of concrete."""
    category, _, town = i.seismic.partition("-")
    beyond = sheet.use(r608_limits_exceeded, sdc=category, building="townhouse" if town else "detached")
    within = LimitState(
        "scope", "Within the prescriptive limits", cite(r608_limits_exceeded), holds=not beyond,
        say=f"Beyond the limits: {', '.join(beyond)}." if beyond else "The seismic category is within the limits.",
        refer="Beyond R608.2 the wall and what it carries are designed: bring this check, the loads and the seismic category to a "
        "licensed engineer." if beyond else "",
        spot="wall", steps=sheet.take(),
    )  # fmt: skip
    least = sheet.use(minimum_f_c_psi, weathering="negligible", sdc=category)
    strength = LimitState(
        "strength", "Concrete strength", cite(minimum_f_c_psi), least, i.f_c_psi, "psi",
        say="The concrete is {capacity}; the least is {demand}.",
        refer="Concrete below the code's least strength: bring test results to a licensed engineer."
        if i.f_c_psi < least else "",
        spot="concrete", steps=sheet.take(),
    )  # fmt: skip
    return within, strength


def cautions(i: Inputs) -> tuple[Caution, ...]:
    """What to know or do: about the plate and its anchors, then about what it carries."""
    return (*_of_plate(i), *_of_member(i))


def _of_plate(i: Inputs) -> list[Caution]:
    place = "Set the anchors through a template, check their places before the pour, and see that they clear the wall's bars."
    found = [
        Caution(place, practice=True),
        Caution("Prime or galvanize steel that stays in the foam; bare steel loses its strength in a fire."),
    ]
    if i.contact == "gap":
        rule = "ACI 318 chapter 17 has no rule for an anchor bent across a gap: its steel is judged by AISC 360 J3.8."
        found.append(Caution(rule))
    if i.contact == "grout":
        pad = "Use a grout at least as strong as the concrete, packed to the plate's edges."
        found.append(Caution(pad, practice=True))
    if i.form == "angle":
        found.append(Caution("One angle turns about its anchors, which is counted; a second angle takes it away."))
    if i.seismic in HIGH_CATEGORIES and i.anchor_route == "overstrength":
        found.append(Caution("Enter the earthquake loads already multiplied by the overstrength factor."))
    return found


def _of_member(i: Inputs) -> list[Caution]:
    if i.form == "front":
        tie = "Tie wall and floor across the ledger by hardware of its own: wood is not pulled across its grain."
        return [
            Caution(tie, cite(cross_grain_barred)),
            Caution("Joists on the ledger are taken as a load spread along it."),
        ]
    found = []
    if not (i.pull_wind_lb or i.pull_seismic_lb):
        found.append(Caution("Where this plate also ties the wall to the floor, enter its pull off the wall."))
    if i.carried == "joist":
        found.append(Caution("Hold the joist's end against rotation.", cite(rotation_held)))
    return found
