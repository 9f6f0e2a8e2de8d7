"""Lines about limits, strength of the concrete and corrosion, and the cautions: treated or damp wood, fire, thermal barrier."""

from engine.attachments.cast_in_plate.inputs import EXAMPLE, Inputs
from engine.clauses.us.irc_moisture import Coating, fastener_coating_ok
from engine.clauses.us.irc_process import thermal_barrier_in
from engine.clauses.us.irc_scope import r608_limits_exceeded
from engine.clauses.us.irc_walls import minimum_f_c_psi
from engine.editions import Citation
from engine.result import Caution, LimitState
from engine.worksheet import Worksheet, cite, clause

HEAVY = ("G185", "hot-dip galvanized", "stainless")
COATINGS: dict[str, Coating] = {
    "plain": "plain",
    "electroplated": "electroplated",
    "mechanically galvanized": "mechanically galvanized",
    "hot-dip galvanized": "hot-dip galvanized",
    "stainless": "stainless",
    "silicon bronze": "silicon bronze",
}


@clause(
    "IRC", "R317.3.1", moved={"US 2024": "R304.3.1"}, title="Coating of a connector in treated wood",
    rule="As its maker says; where nothing is said, at least ASTM A653 G185. Hot-dip galvanized and stainless are taken with it.",
)  # fmt: skip
def connector_coating_ok(coating: str, treated: bool) -> bool:
    """Whether a part's coating suits the wood it touches. Args: coating: the part's. Source: IRC R317.3.1 (2024: R304.3.1)."""
    return not treated or coating in HEAVY


def scope(sheet: Worksheet, i: Inputs) -> list[LimitState]:
    """What ends the prescriptive rules, each with what to bring to the engineer."""
    category, _, town = i.seismic.partition("-")
    beyond = sheet.use(
        r608_limits_exceeded,
        floor_span_ft=i.span_ft,
        floor_dead_psf=i.dead_psf if i.reaction == "computed" else 0.0,
        sdc=category,
        building="townhouse" if town else "detached",
    )
    scope = LimitState(
        "scope", "Within the prescriptive limits", cite(r608_limits_exceeded), holds=not beyond,
        say=f"Beyond the limits: {', '.join(beyond)}." if beyond else "Span, floor load and seismic category are within limits.",
        refer="Beyond R608.2 the wall and its floor connection are designed: bring spans, loads and seismic category to a "
        "licensed engineer." if beyond else "",
        spot="joist", steps=sheet.take(),
    )  # fmt: skip
    least = sheet.use(minimum_f_c_psi, weathering="negligible", sdc=category)
    weak = i.f_c_psi < least
    strength = LimitState(
        "strength", "Concrete strength", cite(minimum_f_c_psi), least, i.f_c_psi, "psi",
        say="The concrete is {capacity}; the least is {demand}.",
        refer="Concrete below the code's least strength: bring test results to a licensed engineer." if weak else "",
        spot="concrete", steps=sheet.take(),
    )  # fmt: skip
    return [scope, strength]


def lines(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    """The part's coating and the screws'."""
    treated = i.treatment != "plain"
    part = sheet.use(connector_coating_ok, coating=i.coating, treated=treated)
    first = LimitState(
        "part-coating", "Corrosion of the part", cite(connector_coating_ok), holds=part, spot="plate", steps=sheet.take(),
        say=_words("part", part, treated, "G185, hot-dip galvanized or stainless"),
    )  # fmt: skip
    borate = i.treatment == "borate" and i.interior_dry
    screws = not treated or sheet.use(
        fastener_coating_ok, coating=COATINGS[i.screw_coating], fastener="screw", borate_dry=borate
    )
    second = LimitState(
        "screw-coating", "Corrosion of the screws", cite(fastener_coating_ok), holds=screws, spot="screws", steps=sheet.take(),
        say=_words("screws", screws, treated, "hot-dip or mechanically galvanized, stainless or silicon bronze"),
    )  # fmt: skip
    return (first, second) if i.interior_dry else (first, second, _damp(i))


def _words(what: str, holds: bool, treated: bool, right: str) -> str:
    if not treated:
        return f"The wood is untreated: the code asks for no coating of the {what}."
    return f"The coating of the {what} suits treated wood." if holds else f"In treated wood the {what} must be {right}."


def _damp(i: Inputs) -> LimitState:
    suited = i.coating in HEAVY and i.screw_coating not in ("plain", "electroplated")
    return LimitState(
        "damp", "Metal that may get damp", Citation("common practice"), holds=suited, advisory=True, spot="plate",
        say="Part and screws are coated for a damp place."
        if suited
        else "The place is not inside and dry: use G185, hot-dip galvanized or stainless steel for part and screws.",
    )  # fmt: skip


def cautions(i: Inputs) -> tuple[Caution, ...]:
    """What to know or do that no number settles."""
    barrier = cite(thermal_barrier_in)
    found = [
        Caution("Carry the thermal barrier around the joists and through the depth of the floor.", barrier)
        if i.barrier
        else Caution("Foam toward the room needs a thermal barrier, in the depth of the floor too.", barrier),
        Caution(
            "Bare steel and screws lose strength in a fire; a rating comes from the listing of the whole assembly."
        ),
        Caution("Set the parts before the pour, brace them, and survey them before the joists are cut.", practice=True),
    ]
    if (i.coating == "stainless") != (i.screw_coating == "stainless"):
        found.append(
            Caution("Use screws of the part's own metal: stainless and zinc corrode each other.", practice=True)
        )
    if i.report.strip() == EXAMPLE:
        found.append(Caution("The listed values are an example: type your part's own before you rely on this."))
    if i.joist != "sawn":
        found.append(Caution("The member's own drawing governs its filler, holes and screws."))
    return tuple(found)
