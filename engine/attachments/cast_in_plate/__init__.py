"""A steel plate cast in through the foam, or a bracket or hanger, that takes a joist by screws."""

from engine.attachments.cast_in_plate import listing, place, plate, screws, site, wood
from engine.attachments.cast_in_plate.geometry import Plate, geometry
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.clauses.us.irc_scope import r608_limits_exceeded
from engine.clauses.us.irc_walls import minimum_f_c_psi
from engine.clauses.us.loads import Loads, simple_span_reaction_lb
from engine.editions import Edition
from engine.result import CheckResult, LimitState
from engine.worksheet import Worksheet, cite

__all__ = ["Inputs", "Plate", "check", "geometry"]

OUTSIDE = (
    "the concrete around the part, beyond its listing's conditions",
    "the part near ends and openings of the wall",
    "ties of floor and wall against wind and earthquake",
    "a part that stands out of plumb",
    "screws that are not wood screws of ASME B18.6.1",
    "vibration and deflection of the floor",
    "fire rating",
)


def check(inputs: Inputs, edition: Edition, recording: bool = True) -> CheckResult:
    """Judge a cast-in plate, bracket or hanger and its screws.

    Args: inputs within their stated ranges. edition: the set to judge by. recording: keep the working.
    Returns: every line, in the order the load travels. Raises: BadInput where inputs contradict each other.
    """
    i, sheet = inputs, Worksheet(recording)
    p = geometry(i, sheet)
    placed = sheet.take()
    reaction = _reaction(sheet, i, p)
    how = sheet.take()
    states = (
        *_scope(sheet, i),
        *wood.lines(sheet, i, p, reaction, edition),
        *screws.lines(sheet, i, p, reaction, edition, placed),
        *plate.lines(sheet, i, p, reaction, edition, placed),
        *listing.lines(sheet, i, p, reaction, edition, how),
        *place.lines(sheet, i, p, placed),
        *site.lines(sheet, i),
    )
    outside = OUTSIDE if i.kind == "plate" else (*OUTSIDE, "the steel of the part, beyond its listing")
    return CheckResult("cast_in_plate", edition, states, site.cautions(i), outside)


def _reaction(sheet: Worksheet, i: Inputs, p: Plate) -> Loads:
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


def _scope(sheet: Worksheet, i: Inputs) -> list[LimitState]:
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
