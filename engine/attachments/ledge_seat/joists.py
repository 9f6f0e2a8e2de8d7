"""What one joist brings to the ledge: its end reaction by type, and whether its end may lift."""

from engine.attachments.ledge_seat.inputs import Inputs
from engine.clauses.us.loads import Loads, simple_span_reaction_lb
from engine.clauses.us.reactions import end_reaction_lb, patterned_end_reaction
from engine.result import LimitState
from engine.worksheet import Worksheet, cite


def reaction(sheet: Worksheet, i: Inputs) -> Loads:
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


def lift(sheet: Worksheet, i: Inputs, reaction: Loads) -> tuple[LimitState, ...]:
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
