"""Lines about the concrete: the couple of the load's lever, the bolts' fit in the core, chapter 17 for bolts of a long row."""

from collections.abc import Sequence

from engine.attachments.bolted_ledger.demand import Carried, evenly
from engine.attachments.bolted_ledger.effects import Effect
from engine.attachments.bolted_ledger.geometry import Ledger, couple_lever_in
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.clauses.us.anchors_tension import breakout_lb
from engine.clauses.us.irc_walls import minimum_cover_in
from engine.clauses.us.ledger_beam import bolt_share_lb
from engine.clauses.us.ledger_rules import couple_pull_lb, tie_pull_lb
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite

SILENT = Worksheet(recording=False)
EDGE_NAMES = ("the end of the concrete", "the end of the concrete", "the opening below", "the top of the concrete")


def fit(sheet: Worksheet, i: Inputs, place: Ledger) -> tuple[LimitState, ...]:
    """Bolts within the core, and edges of the concrete that are not given."""
    return (within_core(sheet, place), *_missing_edges(i))


def couple(
    sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, every: Sequence[Effect], how: tuple[Step, ...]
) -> LimitState:
    """How the load's lever becomes a pull; the ledger's lower edge must find concrete to press on.

    Args: every: effects at the worst of all places. how: the steps that placed the ledger and gave its loads.
    """
    title, spot = "Couple of the load's lever", "contact"
    if place.lever is None:
        return LimitState(
            "couple", title, cite(couple_lever_in), spot=spot,
            say="The load stands {e} from the core and nothing bears behind the ledger's lower edge to hold its couple.",
            facts={"e": (place.x_R, "in")},
            refer="A ledger over foam turns about its bolts: bring the foam's thickness, loads and bolts to a licensed engineer, "
            "or cut the foam out at the bolts.",
        )  # fmt: skip
    most = max(every, key=lambda e: e.pull)
    c = most.combination
    share = sheet.use(bolt_share_lb, k_R=most.k[0], R_lb=c.total(load.joist), k_w=most.k[1], w_plf=c.total(load.line))
    even = evenly(sheet, c.total(load.spread), i)
    pull = sheet.use(couple_pull_lb, V_lb=max(share, even), e_in=place.x_R, z_in=place.lever)
    if most.tie:
        sheet.use(tie_pull_lb, w_plf=c.total(load.across), s_in=i.tie_spacing_in)
    return LimitState(
        "couple", title, cite(couple_pull_lb), holds=True,
        say="{V} on a bolt place, {e} from the core, is held over a lever of {z}: its bolt pulls {T}."
        + (" A tie adds {tie}." if most.tie else ""),
        facts={"V": (most.V, "lb"), "e": (place.x_R, "in"), "z": (place.lever, "in"), "T": (pull, "lb"),
               "tie": (most.tie, "lb")},
        combination=c.label, spot=spot, steps=how + sheet.take(),
    )  # fmt: skip


def within_core(sheet: Worksheet, place: Ledger) -> LimitState:
    """The bolt, what holds it and its cover within the core."""
    cover = sheet.use(minimum_cover_in)
    need = place.h_ef + place.head_thickness + cover
    return LimitState(
        "fit", "Bolt within the core", cite(minimum_cover_in), need, place.t, "in",
        say="Embedment {h_ef}, its embedded end {head} and {cover} of cover need {demand}; the core is {capacity}.",
        facts={"h_ef": (place.h_ef, "in"), "head": (place.head_thickness, "in"), "cover": (cover, "in")},
        spot="core", steps=sheet.take(),
    )  # fmt: skip


def _missing_edges(i: Inputs) -> tuple[LimitState, ...]:
    asked = []
    if i.top_of_wall and i.top_in is None:
        asked.append("how far the upper bolts stand below the top of the concrete")
    if i.over_opening and i.below_in is None:
        asked.append("how far the lower bolts stand above the opening's head")
    if not asked:
        return ()
    say = f"Enter {' and '.join(asked)}."
    return (LimitState("edges", "Edges of the concrete", cite(breakout_lb), holds=False, say=say, spot="core"),)
