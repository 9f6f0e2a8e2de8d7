"""What the most loaded joist brings to its part."""

from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.clauses.us.loads import Loads, simple_span_reaction_lb
from engine.worksheet import Worksheet


def reaction(sheet: Worksheet, i: Inputs, p: Plate) -> Loads:
    """End reaction of the most loaded joist by type [lb]."""
    if i.reaction == "typed":
        typed = Loads(D=i.reaction_dead_lb, L=i.reaction_live_lb, S=i.reaction_snow_lb)
        return typed.times(p.tributary / p.spacing)

    def end(w_psf: float) -> float:
        if not w_psf:
            return 0.0
        return sheet.use(simple_span_reaction_lb, w_psf=w_psf, s_in=p.tributary, L_ft=i.span_ft)

    own = i.own_weight_plf * i.span_ft / 2
    return Loads(D=end(i.dead_psf) + own, L=end(i.live_psf), S=end(i.snow_psf))
