"""End reactions of joists that run on over supports: three-moment equations, straight joists of one section, level supports."""

from collections.abc import Sequence
from itertools import product
from typing import NamedTuple

from engine.errors import BadInput
from engine.worksheet import clause


class EndReaction(NamedTuple):
    """Reaction at the end support [lb] with every span loaded, and the most and least that loading some of them gives."""

    all_lb: float
    most_lb: float
    least_lb: float


def support_moments_lb_ft(w_plf: Sequence[float], L_ft: Sequence[float]) -> list[float]:
    """Moments over all supports, ends included (0), hogging negative [lb-ft].

    Args: w_plf: uniform load of each span [plf]. L_ft: spans [ft]. Source: theorem of three moments (Clapeyron), by elimination.
    """
    inner = len(L_ft) - 1
    if inner == 0:
        return [0.0, 0.0]
    diagonal = [2 * (L_ft[n] + L_ft[n + 1]) for n in range(inner)]
    right = [-(w_plf[n] * L_ft[n] ** 3 + w_plf[n + 1] * L_ft[n + 1] ** 3) / 4 for n in range(inner)]
    for n in range(1, inner):
        share = L_ft[n] / diagonal[n - 1]
        diagonal[n] -= share * L_ft[n]
        right[n] -= share * right[n - 1]
    moments = [0.0] * inner
    for n in reversed(range(inner)):
        beyond = L_ft[n + 1] * moments[n + 1] if n + 1 < inner else 0.0
        moments[n] = (right[n] - beyond) / diagonal[n]
    return [0.0, *moments, 0.0]


@clause(
    "statics",
    "three-moment equations",
    title="End reaction of a joist over several spans",
    symbol="R",
    unit="lb",
    rule="Moments over the supports by the three-moment equations; the end reaction is half the end span's load, plus the moment "
    "over the second support divided by that span.",
    provenance="derived",
)
def end_reaction_lb(w_plf: Sequence[float], L_ft: Sequence[float]) -> float:
    """Reaction at the first support.

    Args: w_plf: uniform load of each span [plf]. L_ft: spans from that support on [ft]. Returns: [lb], below zero for uplift.
    Raises: BadInput for spans that cannot be.
    """
    if not L_ft or len(w_plf) != len(L_ft) or any(not L > 0 for L in L_ft):
        raise BadInput("L_ft", "Give each span a length above zero and a load.")
    return w_plf[0] * L_ft[0] / 2 + support_moments_lb_ft(w_plf, L_ft)[1] / L_ft[0]


@clause(
    "statics",
    "three-moment equations",
    title="End reaction with live load on the spans that matter",
    symbol="R",
    unit="lb",
    rule="Live load on every span, and on each choice of spans; the most and the least of the end reactions.",
    provenance="derived",
)
def patterned_end_reaction(w_plf: float, L_ft: Sequence[float]) -> EndReaction:
    """End reaction of a load that may be absent from any span.

    Args: w_plf: the load where it is present [plf]. L_ft: spans from the end support on [ft].
    """
    spans = tuple(L_ft)
    every = [end_reaction_lb([w_plf * on for on in pattern], spans) for pattern in product((0, 1), repeat=len(spans))]
    return EndReaction(every[-1], max(every), min(every))
