"""Lines about the concrete: the couple of the load's lever, the bolts' fit in the core, chapter 17 for bolts of a long row."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import inf
from typing import cast

from engine.attachments.bolted_ledger.demand import Carried, evenly
from engine.attachments.bolted_ledger.effects import Effect, Site, earthquake
from engine.attachments.bolted_ledger.geometry import Ledger, couple_lever_in, foot_of
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.clauses.us.anchors_bending import stand_off_line
from engine.clauses.us.anchors_line import Where
from engine.clauses.us.anchors_lines import anchor_lines
from engine.clauses.us.anchors_materials import steel
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.anchors_seismic import Route, shear_route_line, tension_route_line
from engine.clauses.us.anchors_tension import breakout_lb
from engine.clauses.us.irc_walls import minimum_cover_in
from engine.clauses.us.ledger_beam import bolt_share_lb
from engine.clauses.us.ledger_rules import couple_pull_lb, tie_pull_lb
from engine.editions import Edition
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState, Verdict
from engine.worksheet import Step, Worksheet, cite

SILENT = Worksheet(recording=False)
EDGE_NAMES = ("the end of the concrete", "the end of the concrete", "the opening below", "the top of the concrete")


def fit(sheet: Worksheet, i: Inputs, place: Ledger) -> tuple[LimitState, ...]:
    """Bolts within the core, and edges of the concrete that are not given."""
    return (_fit(sheet, place), *_missing_edges(i))


def modes(
    sheet: Worksheet,
    i: Inputs,
    place: Ledger,
    asked: Iterable[tuple[Site, Sequence[Effect]]],
    every: Sequence[Effect],
    edition: Edition,
) -> tuple[LimitState, ...]:
    """Every mode of chapter 17. Args: asked: effects by kind of bolt place. every: effects at the worst of all places."""
    if _fit(SILENT, place).verdict is Verdict.FLAG:
        first = "The bolts do not fit the core: choose an embedment that fits first."
        return (_blocked(say=first, unchecked=first),)
    try:
        return (*_chapter_17(sheet, i, place, asked, edition), *_routes(sheet, i, every))
    except OutOfScope as limit:
        say = "The bolts' strength in this concrete is outside what is checked here."
        return (_blocked(say=say, refer=f"{limit.rule}: {limit.why}"),)
    except BadInput as clash:
        return (_blocked(say=clash.message, holds=False),)


def _blocked(say: str, holds: bool | None = None, refer: str = "", unchecked: str = "") -> LimitState:
    """One line in the place of all modes of chapter 17."""
    return LimitState(
        "anchor",
        "Bolts in the concrete",
        cite(breakout_lb),
        holds=holds,
        say=say,
        refer=refer,
        unchecked=unchecked,
        spot="core",
    )


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


def _fit(sheet: Worksheet, place: Ledger) -> LimitState:
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


def _group(i: Inputs, place: Ledger, site: Site, seismic: bool) -> AnchorGroup:
    """The bolts of one place in a row along the wall; x along it, y up from the upper bolts."""
    return AnchorGroup(
        positions_in=((0.0, 0.0),) if place.at_a_place == 1 else ((0.0, 0.0), (0.0, -i.gauge_in)),
        d_a_in=place.D,
        steel=steel(i.steel),
        head=foot_of(i),
        h_ef_in=place.h_ef,
        f_c_psi=i.f_c_psi,
        c_x1_in=site.c_left,
        c_x2_in=site.c_right,
        c_y1_in=place.below,
        c_y2_in=place.top,
        h_a_in=place.t,
        next_x1_in=site.next_left,
        next_x2_in=site.next_right,
        seismic=seismic,
        torqued=i.torqued,
        edge_names=EDGE_NAMES,
    )


def _chapter_17(
    sheet: Worksheet, i: Inputs, place: Ledger, asked: Iterable[tuple[Site, Sequence[Effect]]], edition: Edition
) -> tuple[LimitState, ...]:
    """The worst of every mode over places and combinations, in the order the modes come."""
    worst: dict[str, LimitState] = {}
    for site, found in asked:
        group = _group(i, place, site, seismic=False)
        for effect in found:
            seismic = earthquake(i, effect)
            used = replace(group, seismic=True) if seismic else group
            for line in _at(sheet, i, place, edition, used, effect, site):
                if line.refer and not line.say:
                    line = replace(line, say="The code gives no strength for this mode here.")
                if line.key not in worst or _weight(line) > _weight(worst[line.key]):
                    worst[line.key] = line
    return tuple(worst.values())


def _weight(line: LimitState) -> float:
    if line.verdict is Verdict.REFER:
        return inf
    if line.ratio is None:
        return inf if line.verdict is Verdict.FLAG else -1.0
    return line.ratio


def _at(
    sheet: Worksheet, i: Inputs, place: Ledger, edition: Edition, group: AnchorGroup, effect: Effect, site: Site
) -> Iterator[LimitState]:
    n = len(group.positions_in)
    where = Where("anchor", f"bolt {site.words}", effect.combination.label, "core")
    pulls = (effect.pull, *(0.0,) * (n - 1))
    shears = ((-effect.along / n, -effect.V / n),) * n
    yield from anchor_lines(sheet, edition, group, pulls, shears, where)
    if place.gap:
        yield stand_off_line(sheet, group, effect.shear / n, effect.pull, place.gap + place.separator, place.b, where)


def _routes(sheet: Worksheet, i: Inputs, every: Sequence[Effect]) -> Iterator[LimitState]:
    """How earthquake on the bolts is taken, in the combination where its share is largest (17.10.5, 17.10.6)."""
    shaken = [e for e in every if earthquake(i, e)]
    route = cast(Route, i.anchor_route)
    pulled = max((e for e in shaken if e.pull > 0), key=lambda e: e.E_across / e.pull, default=None)
    if pulled:
        where = Where("anchor", "", pulled.combination.label, "core")
        yield from filter(None, (tension_route_line(sheet, pulled.E_across, pulled.pull, route, where),))
    sheared = max((e for e in shaken if e.shear > 0), key=lambda e: e.E_along / e.shear, default=None)
    if sheared:
        where = Where("anchor", "", sheared.combination.label, "core")
        yield from filter(None, (shear_route_line(sheet, sheared.E_along, sheared.shear, route, where),))
