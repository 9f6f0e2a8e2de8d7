"""Lines about what ends the prescriptive rules, and what to know or do beside the numbers."""

from engine.attachments.veneer_ledge.geometry import Ledge
from engine.attachments.veneer_ledge.inputs import Inputs
from engine.attachments.veneer_ledge.load import Load, tallest_ft
from engine.clauses.us.irc_scope import projection_tables_apply, r608_limits_exceeded
from engine.clauses.us.irc_veneer import opening_ties_required
from engine.clauses.us.irc_walls import minimum_f_c_psi
from engine.result import Caution, LimitState
from engine.worksheet import Step, Worksheet, cite

LEAST_F_C_PSI = 2500.0  # IRC 2021 R608.5.1.5, R404.1.3.3.1: concrete below it is outside the rules for these walls


def lines(sheet: Worksheet, i: Inputs, g: Ledge, load: Load, how: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Design always; then limits, strength and slope. Args: how: the steps of the load."""
    states = [_design(sheet, i, g, load, how), _limits(sheet, i), _strength(sheet, i)]
    if i.sloped:
        states.append(_sloped())
    return tuple(states)


def _design(sheet: Worksheet, i: Inputs, g: Ledge, load: Load, how: tuple[Step, ...]) -> LimitState:
    """A projection for veneer is outside the tables whatever the lines say (reading 2)."""
    sheet.use(projection_tables_apply, projection=True)
    where = "under the piers, " if i.openings else ""
    return LimitState(
        "design", "Ledge designed by an engineer", cite(projection_tables_apply), spot="ledge", steps=how + sheet.take(),
        say=f"Veneer {{height}} high at {{weight}} is {{line}} on the ledge, {where}and its middle stands {{lever}} from the core. "
        "Projections for veneer are outside the code's wall tables, so the ledge is designed even where every line holds.",
        facts={
            "height": (tallest_ft(i), "ft"),
            "weight": (load.q_psf, "psf"),
            "line": (load.veneer_plf, "plf"),
            "lever": (g.a_v, "in"),
        },
        refer="IRC R404.1.5.2: bring this sheet with its load, bars and the wall below to a licensed engineer, who designs and "
        "signs the ledge.",
    )  # fmt: skip


def _limits(sheet: Worksheet, i: Inputs) -> LimitState:
    category, _, town = i.seismic.partition("-")
    beyond = sheet.use(r608_limits_exceeded, sdc=category, building="townhouse" if town else "detached")
    return LimitState(
        "scope", "Within the prescriptive limits of the wall", cite(r608_limits_exceeded), holds=not beyond,
        say=f"Beyond the limits: {', '.join(beyond)}." if beyond else "The seismic category is within the limits.",
        refer="Beyond R608.2 the wall is designed too: bring the loads and the seismic category to a licensed engineer."
        if beyond else "",
        spot="wall-below", steps=sheet.take(),
    )  # fmt: skip


def _strength(sheet: Worksheet, i: Inputs) -> LimitState:
    category = i.seismic.partition("-")[0]
    least = sheet.use(
        minimum_f_c_psi, weathering=i.weathering, sdc=category, exposed=i.exposed, foundation=i.foundation
    )
    return LimitState(
        "strength", "Concrete strength", cite(minimum_f_c_psi), least, i.f_c_psi, "psi", spot="concrete", steps=sheet.take(),
        say="The concrete is {capacity}; the least is {demand}.",
        refer="Concrete below the code's least strength: bring test results to a licensed engineer."
        if i.f_c_psi < LEAST_F_C_PSI else "",
    )  # fmt: skip


def _sloped() -> LimitState:
    return LimitState(
        "sloped", "Ledge on a slope", cite(projection_tables_apply), spot="ledge",
        say="A ledge on a slope is also pushed along the wall, which is not judged here.",
        refer="IRC R404.1.5.2: step the ledge level, or bring the slope and the stops that hold the veneer to a licensed engineer.",
    )  # fmt: skip


def cautions(i: Inputs) -> tuple[Caution, ...]:
    """What to know or do, in the order of the work."""
    return (*_bars(i), *_loading(i), *_veneer(i))


def _bars(i: Inputs) -> list[Caution]:
    found = [Caution("Tie the stirrups in place before the pour and see that concrete fills the lip.", practice=True)]
    if i.tip == "bar":
        found.append(
            Caution("The bar in the outer corner stands in for a straight bar under the veneer: the engineer signs for it.",
                    practice=True)
        )  # fmt: skip
    if i.tip == "welded":
        found.append(Caution("The weld to the cross bar is designed to bring the stirrup to its yield."))
    if i.joint != "monolithic":
        found.append(
            Caution("A ledge cast later hangs on its bars alone: develop them on both sides and clean the joint.")
        )
    if i.restraint == "slip":
        found.append(Caution("The slip sheet frees the veneer from the ledge for good: name it on the drawing."))
    return found


def _loading(i: Inputs) -> list[Caution]:
    found = [Caution("Lay no veneer on the ledge before its concrete has the stated strength.", practice=True)]
    if i.forms == "strip":
        found.append(
            Caution("Sides may be stripped after 12 h above 50 °F where no strength is stated; the soffit keeps its form and props "
                    "until the concrete has the stated strength.")
        )  # fmt: skip
    if i.backfill:
        found.append(
            Caution(
                "Soil bends the wall below in the same sense as the ledge, and is not in these lines: the engineer adds both."
            )
        )
    return found


def _veneer(i: Inputs) -> list[Caution]:
    found = [
        Caution(
            "The code lists veneer ties on studs: through foam to concrete, a tie needs its own approval or TMS 402."
        ),
        Caution("Slope or flash the ledge outward so that water leaves over its edge.", practice=True),
    ]
    if i.openings and opening_ties_required(i.opening_ft * 12, 0.0):
        found.append(
            Caution("Round openings wider than 16 in, further ties within 12 in of the edge, 3 ft apart at most.")
        )
    return found
