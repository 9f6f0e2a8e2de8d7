"""Joists on the ledge of a stepped wall: the lower core is thicker, and what it is thicker by carries the floor."""

from engine.attachments.ledge_seat import anchors, bearing, concrete, continuity, strip, wood
from engine.attachments.ledge_seat.geometry import Seat, geometry
from engine.attachments.ledge_seat.inputs import FROM_DRAWING, Inputs
from engine.clauses.us.irc_scope import r608_limits_exceeded
from engine.clauses.us.irc_walls import minimum_f_c_psi
from engine.clauses.us.loads import Loads, governing_strength, simple_span_reaction_lb
from engine.clauses.us.reactions import end_reaction_lb, patterned_end_reaction
from engine.editions import Edition
from engine.result import Caution, CheckResult, LimitState
from engine.worksheet import Worksheet, cite

__all__ = ["Inputs", "Seat", "check", "geometry"]

OUTSIDE = (
    "vibration and deflection of the floor",
    "fire rating and the thermal barrier over foam",
    "soil and wind against the wall below",
    "the wall above",
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge joists on a ledge.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    i, sheet = inputs, Worksheet(recording)
    seat = geometry(i, sheet)
    placed = sheet.take()
    reaction = _reaction(sheet, i)
    how = sheet.take()
    factored = governing_strength(edition, reaction)
    states = [
        *_scope(sheet, i),
        *_lift(sheet, i, reaction),
        *bearing.lines(sheet, i, seat, placed),
        *wood.lines(sheet, i, seat, reaction, edition, how),
        concrete.bearing(sheet, i, seat, factored),
        *concrete.lip(sheet, i, seat, factored),
        *strip.lines(sheet, i, seat, reaction, edition),
        *continuity.lines(sheet, i, seat),
    ]
    if i.plate != "none":
        states += anchors.lines(sheet, i, seat, reaction.times(12 / i.joist_spacing_in), edition)
    return CheckResult("ledge_seat", edition, tuple(states), _cautions(i), OUTSIDE)


def _reaction(sheet: Worksheet, i: Inputs) -> Loads:
    """End reaction of one joist by type [lb]."""
    if i.reaction == "typed":
        return Loads(D=i.reaction_dead_lb, L=i.reaction_live_lb, S=i.reaction_snow_lb)
    own = i.own_weight_plf
    if i.reaction == "continuous":
        spans = tuple(L for L in (i.span_ft, i.second_span_ft, i.third_span_ft) if L)
        feet = i.joist_spacing_in / 12
        dead = sheet.use(end_reaction_lb, w_plf=(i.dead_psf * feet + own,) * len(spans), L_ft=spans)
        live, snow = (
            sheet.use(patterned_end_reaction, w_plf=w * feet, L_ft=spans).most_lb if w else 0.0
            for w in (i.live_psf, i.snow_psf)
        )
        return Loads(D=dead, L=live, S=snow)

    def end(w_psf: float) -> float:
        if not w_psf:
            return 0.0
        return sheet.use(simple_span_reaction_lb, w_psf=w_psf, s_in=i.joist_spacing_in, L_ft=i.span_ft)

    return Loads(D=end(i.dead_psf) + own * i.span_ft / 2, L=end(i.live_psf), S=end(i.snow_psf))


def _lift(sheet: Worksheet, i: Inputs, reaction: Loads) -> tuple[LimitState, ...]:
    """Joists that run on may lift off the ledge when live load stands on the next span alone."""
    if i.reaction != "continuous":
        return ()
    spans = tuple(L for L in (i.span_ft, i.second_span_ft, i.third_span_ft) if L)
    least = sheet.use(patterned_end_reaction, w_plf=i.live_psf * i.joist_spacing_in / 12, L_ft=spans).least_lb
    return (
        LimitState(
            "lift", "Joist end stays down", cite(patterned_end_reaction), max(-least, 0.0), 0.6 * reaction.D, "lb",
            say="Live load on the next span lifts the end with {demand}; six tenths of the dead load hold it with {capacity}.",
            combination="0.6D + L", spot="joist", steps=sheet.take(),
        ),
    )  # fmt: skip


def _scope(sheet: Worksheet, i: Inputs) -> list[LimitState]:
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


def _cautions(i: Inputs) -> tuple[Caution, ...]:
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
