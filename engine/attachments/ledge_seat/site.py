"""Lines about limits and the concrete's strength, and what to know or do that no number settles."""

from engine.attachments.ledge_seat.inputs import FROM_DRAWING, Inputs
from engine.clauses.us.irc_scope import r608_limits_exceeded
from engine.clauses.us.irc_walls import minimum_f_c_psi
from engine.result import Caution, LimitState
from engine.worksheet import Worksheet, cite


def scope(sheet: Worksheet, i: Inputs) -> list[LimitState]:
    """What ends the prescriptive rules, each with what to bring to the engineer."""
    category, _, town = i.seismic.partition("-")
    beyond = sheet.use(
        r608_limits_exceeded,
        floor_span_ft=max(i.span_ft, i.second_span_ft if i.reaction == "continuous" else 0.0),
        floor_dead_psf=i.dead_psf if i.reaction != "typed" else 0.0,
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
    least = sheet.use(minimum_f_c_psi, weathering="negligible", sdc=category, foundation=i.foundation)
    weak = i.f_c_psi < least
    strength = LimitState(
        "strength", "Concrete strength", cite(minimum_f_c_psi), least, i.f_c_psi, "psi",
        say="The concrete is {capacity}; the least is {demand}.",
        refer="Concrete below the code's least strength: bring test results to a licensed engineer." if weak else "",
        spot="concrete", steps=sheet.take(),
    )  # fmt: skip
    return [scope, strength]


def cautions(i: Inputs) -> tuple[Caution, ...]:
    """By the ledge, the plate and the member."""
    found = [Caution("Measure the ledge before joists are cut and again before they are set.")]
    if i.top == "taper":
        found.append(
            Caution("Keep concrete full to the lip: tap the inner foam over the depth of the taper.", practice=True)
        )
    if i.plate == "none":
        found.append(
            Caution("Keep untreated wood off the concrete: a moisture barrier or treated ends.", practice=True)
        )
    if i.member in FROM_DRAWING:
        found.append(Caution("The member's own drawing governs its bearing, stiffeners and cutting; none is notched."))
    if i.upper_foam != "whole":
        found.append(
            Caution("Close the cut foam around the joists before air and insulation are inspected.", practice=True)
        )
    return tuple(found)
