"""Lines about the concrete: the couple of the load's lever, the bolts' fit in the core, chapter 17 for bolts of a long row."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import inf
from typing import NamedTuple, cast

from engine.attachments.bolted_ledger.demand import Carried, evenly, tie_feet
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
from engine.clauses.us.loads import Combination, strength_combinations
from engine.editions import Edition
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState, Verdict
from engine.worksheet import Step, Worksheet, cite

SEISMIC_CATEGORIES = ("C", "C-town", "D0", "D1", "D2")
EDGE_NAMES = ("the end of the concrete", "the end of the concrete", "the opening below", "the top of the concrete")
SILENT = Worksheet(recording=False)


class Site(NamedTuple):
    """A kind of bolt place: words, the next place to the left and right, concrete left and right of it that counts [in]."""

    words: str
    next_left: float | None
    next_right: float | None
    c_left: float | None
    c_right: float | None


class Effect(NamedTuple):
    """What one strength combination brings to one bolt place [lb]: down, along the wall, pull of the couple and of a tie.

    k: the shares it was worked with. E_along, E_across: earthquake parts of `along` and `tie`.
    """

    combination: Combination
    k: tuple[float, float]
    V: float
    along: float
    couple: float
    tie: float
    E_along: float
    E_across: float

    @property
    def pull(self) -> float:
        """Couple and tie together [lb]."""
        return self.couple + self.tie


def sites(place: Ledger) -> dict[Site, list[int]]:
    """Bolt places by their neighbours and edges; past a piece's end where the concrete goes on, the next piece's bolt is near."""
    u, found = place.places, dict[Site, list[int]]()
    last = len(u) - 1
    for n in range(len(u)):
        left = u[n] - u[n - 1] if n else _beyond(place.left, place.end)
        right = u[n + 1] - u[n] if n < last else _beyond(place.right, place.end)
        c_left, c_right = (
            _edge(place, place.left, u[n], n == 0),
            _edge(place, place.right, place.piece - u[n], n == last),
        )
        words = "between" if 0 < n < last else "at an end"
        if (c_left or inf, left or inf) > (c_right or inf, right or inf):
            left, right, c_left, c_right = right, left, c_right, c_left  # seen from behind, the near edge to the left
        found.setdefault(Site(words, left, right, c_left, c_right), []).append(n)
    return found


def _beyond(concrete: float | None, end: float) -> float | None:
    return 2 * end if concrete is None else None


def _edge(place: Ledger, concrete: float | None, to_end: float, outermost: bool) -> float | None:
    """Distance to where the concrete ends; for bolts farther in only where it takes from their cone."""
    if concrete is None:
        return None
    return concrete + to_end if outermost or concrete + to_end < 1.5 * place.h_ef else None


def effects(i: Inputs, place: Ledger, load: Carried, edition: Edition, numbers: Sequence[int]) -> Iterator[Effect]:
    """Every strength combination at its worst place among some; w s where that is larger."""
    lever, feet, along = place.x_R / place.lever if place.lever is not None else 0.0, tie_feet(i), i.spacing_in / 12
    candidates = load.candidates(numbers)
    for c in strength_combinations(edition):
        share = load.heaviest(c, i, candidates)
        yield Effect(
            c, share.k, share.V, c.total(load.along) * along, share.V * lever, c.total(load.across) * feet,
            c.E * load.along.E * along, c.E * load.across.E * feet,
        )  # fmt: skip


def _earthquake(i: Inputs, effect: Effect) -> bool:
    """Whether chapter 17's rules for earthquake apply to it."""
    return i.seismic in SEISMIC_CATEGORIES and effect.E_along + effect.E_across > 0


def _worth_checking(i: Inputs, found: Iterable[Effect]) -> list[Effect]:
    """Effects that no other one matches or exceeds in every part."""
    kept: list[Effect] = []
    for effect in sorted(found, key=lambda e: -(e.V + e.along + e.pull)):
        if not any(
            e.V >= effect.V and e.along >= effect.along and e.pull >= effect.pull
            and _earthquake(i, e) >= _earthquake(i, effect)
            for e in kept
        ):  # fmt: skip
            kept.append(effect)
    return kept


def lines(
    sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, edition: Edition, how: tuple[Step, ...]
) -> tuple[LimitState, ...]:
    """Couple, fit in the core, and every mode of chapter 17 at its worst place and combination.

    Args: how: the steps that placed the ledger and gave its loads.
    """
    states = [_couple(sheet, i, place, load, edition, how), _fit(sheet, place)]
    missing = _missing_edges(i)
    if missing:
        states.append(missing)
    if states[1].verdict is Verdict.FLAG:
        first = "The bolts do not fit the core: choose an embedment that fits first."
        return (
            *states,
            LimitState("anchor", "Bolts in the concrete", cite(breakout_lb), spot="core", say=first, unchecked=first),
        )
    try:
        return (*states, *_chapter_17(sheet, i, place, load, edition))
    except OutOfScope as limit:
        blocked = LimitState(
            "anchor", "Bolts in the concrete", cite(breakout_lb), refer=f"{limit.rule}: {limit.why}", spot="core",
            say="The bolts' strength in this concrete is outside what is checked here.",
        )  # fmt: skip
    except BadInput as clash:
        blocked = LimitState(
            "anchor", "Bolts in the concrete", cite(breakout_lb), holds=False, say=clash.message, spot="core"
        )
    return (*states, blocked)


def _couple(
    sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, edition: Edition, how: tuple[Step, ...]
) -> LimitState:
    """How the load's lever becomes a pull; the ledger's lower edge must find concrete to press on."""
    title, spot = "Couple of the load's lever", "contact"
    if place.lever is None:
        return LimitState(
            "couple", title, cite(couple_lever_in), spot=spot,
            say="The load stands {e} from the core and nothing bears behind the ledger's lower edge to hold its couple.",
            facts={"e": (place.x_R, "in")},
            refer="A ledger over foam turns about its bolts: bring the foam's thickness, loads and bolts to a licensed engineer, "
            "or cut the foam out at the bolts.",
        )  # fmt: skip
    most = max(effects(i, place, load, edition, range(len(place.places))), key=lambda e: e.pull)
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


def _missing_edges(i: Inputs) -> LimitState | None:
    asked = []
    if i.top_of_wall and i.top_in is None:
        asked.append("how far the upper bolts stand below the top of the concrete")
    if i.over_opening and i.below_in is None:
        asked.append("how far the lower bolts stand above the opening's head")
    if not asked:
        return None
    return LimitState(
        "edges",
        "Edges of the concrete",
        cite(breakout_lb),
        holds=False,
        spot="core",
        say=f"Enter {' and '.join(asked)}.",
    )


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


def _chapter_17(sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, edition: Edition) -> tuple[LimitState, ...]:
    """The worst of every mode over places and combinations, in the order the modes come."""
    worst: dict[str, LimitState] = {}
    for site, numbers in sites(place).items():
        group = _group(i, place, site, seismic=False)
        for effect in _worth_checking(i, effects(i, place, load, edition, numbers)):
            seismic = _earthquake(i, effect)
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
        shear = (effect.along**2 + effect.V**2) ** 0.5 / n
        yield stand_off_line(sheet, group, shear, effect.pull, place.gap + place.separator, place.b, where)
    if group.seismic:
        route = cast(Route, i.anchor_route)
        tension = tension_route_line(sheet, effect.E_across, effect.pull, route, where)
        E_V, V = abs(effect.E_along), (effect.along**2 + effect.V**2) ** 0.5
        yield from (line for line in (tension, shear_route_line(sheet, E_V, V, route, where)) if line)
