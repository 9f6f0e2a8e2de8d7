"""Lines of chapter 17 for the bolts of a long row: every mode at the place and in the combination where most is asked of it.

A place's strength is worked out once, for a pull of 1 lb on its upper bolt and for 1 lb of shear straight down; what the
combinations bring there scales what is asked. Only a load along the wall turns the shear and is worked through by itself.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from math import inf
from typing import Any, NamedTuple, cast

from engine.attachments.bolted_ledger.concrete import within_core
from engine.attachments.bolted_ledger.effects import SEISMIC_CATEGORIES, Effect, Site, earthquake
from engine.attachments.bolted_ledger.geometry import Ledger, foot_of
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.clauses.us.anchors_bending import stand_off_line
from engine.clauses.us.anchors_line import Where
from engine.clauses.us.anchors_lines import geometry_lines, shear_lines, tension_lines, together_line
from engine.clauses.us.anchors_materials import refuse_unread_edition, steel
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.anchors_seismic import Route, shear_route_line, tension_route_line
from engine.clauses.us.anchors_shear import interaction, interaction_limit
from engine.clauses.us.anchors_tension import breakout_lb
from engine.editions import Edition
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState, Verdict
from engine.worksheet import Worksheet, cite

EDGE_NAMES = ("the end of the concrete", "the end of the concrete", "the opening below", "the top of the concrete")
SILENT = Worksheet(recording=False)


Weighed = tuple[tuple[LimitState, float], ...]  # lines, each with how much of the strength is asked


class Worked(NamedTuple):
    """Lines for 1 lb, each with its weight; most: their largest ratio."""

    lines: Weighed
    most: float


class Strength(NamedTuple):
    """The bolts of one kind of place: lines for a pull of 1 lb, for 1 lb of shear straight down, and on where they stand."""

    site: Site
    group: AnchorGroup
    pulled: Worked
    sheared: Worked
    standing: Weighed


Strengths = tuple[tuple[Strength, ...], ...]
NOT_WORKED = Worked((), 0.0)


def strengths(
    sheet: Worksheet, i: Inputs, place: Ledger, kinds: Iterable[Site], edition: Edition
) -> Strengths | LimitState:
    """Of every kind of place: as it is, and where earthquake may act also under it. A line in their place where there is none."""
    if within_core(SILENT, place).verdict is Verdict.FLAG:
        first = "The bolts do not fit the core: choose an embedment that fits first."
        return _blocked(say=first, unchecked=first)
    ways = (False, True) if i.seismic in SEISMIC_CATEGORIES else (False,)
    try:
        refuse_unread_edition(edition)
        return tuple(tuple(_strength(sheet, i, place, site, seismic) for seismic in ways) for site in kinds)
    except (OutOfScope, BadInput) as error:
        return _without(error)


def _without(error: OutOfScope | BadInput) -> LimitState:
    if isinstance(error, BadInput):
        return _blocked(say=error.message, holds=False)
    say = "The bolts' strength in this concrete is outside what is checked here."
    return _blocked(say=say, refer=f"{error.rule}: {error.why}")


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


def _strength(sheet: Worksheet, i: Inputs, place: Ledger, site: Site, seismic: bool) -> Strength:
    group, where = _group(i, place, site, seismic), _where(site, "")
    n = len(group.positions_in)
    pulled = tension_lines(sheet, group, (1.0, *(0.0,) * (n - 1)), where)
    sheared = shear_lines(sheet, group, ((0.0, -1.0 / n),) * n, where)
    standing = geometry_lines(sheet, group, where)
    return Strength(site, group, _worked(pulled), _worked(sheared), _weighed(standing))


def _worked(found: Iterable[LimitState]) -> Worked:
    lines = _weighed(found)
    return Worked(lines, max((weight for line, weight in lines if line.ratio is not None), default=0.0))


def _weighed(found: Iterable[LimitState]) -> Weighed:
    silent = "The code gives no strength for this mode here."
    said = (replace(line, say=silent) if line.refer and not line.say else line for line in found)
    return tuple((line, _weight(line)) for line in said)


def _weight(line: LimitState) -> float:
    if line.refer:
        return inf
    if line.ratio is None:
        return inf if line.holds is False else -1.0
    return line.ratio


def _where(site: Site, label: str) -> Where:
    return Where("anchor", f"bolt {site.words}", label, "core")


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


def modes(
    sheet: Worksheet,
    i: Inputs,
    place: Ledger,
    found: Strengths | LimitState,
    asked: Iterable[tuple[Site, Sequence[Effect]]],
    shaken: Sequence[Effect],
) -> tuple[LimitState, ...]:
    """Every mode of chapter 17 where most is asked of it, and how earthquake is taken.

    Args: found: by `strengths`. asked: effects by kind of bolt place. shaken: by earthquake, at the worst of all places.
    """
    if isinstance(found, LimitState):
        return (found,)
    try:
        worst = _Worst()
        for strength, (_, effects) in zip(found, asked, strict=True):
            if len(strength) == 1:
                _judge(sheet, worst, place, strength[0], effects)
                continue
            for shaking in dict.fromkeys(earthquake(i, e) for e in effects):
                _judge(sheet, worst, place, strength[shaking], [e for e in effects if earthquake(i, e) == shaking])
        return (*worst.lines(), *_routes(sheet, i, shaken))
    except (OutOfScope, BadInput) as error:
        return (_without(error),)


class _Worst:
    """Of every mode the line of which most is asked; it is made only at the end."""

    def __init__(self) -> None:
        self._found: dict[str, tuple[float, Callable[..., LimitState], tuple[Any, ...]]] = {}

    def offer(self, key: str, weight: float, line: Callable[..., LimitState], *given: Any) -> None:
        if key not in self._found or weight > self._found[key][0]:
            self._found[key] = weight, line, given

    def lines(self) -> Iterator[LimitState]:
        return (line(*given) for _, line, given in self._found.values())


def _judge(sheet: Worksheet, worst: _Worst, place: Ledger, at: Strength, effects: Sequence[Effect]) -> None:
    """Every mode of one kind of place under all its effects."""
    pulling, level = [e for e in effects if e.pull > 0], [e for e in effects if not e.along and e.V]
    pulled, sheared = at.pulled if pulling else NOT_WORKED, at.sheared if level else NOT_WORKED
    _offer(worst, pulled, [(e.pull, e.label) for e in pulling])
    _offer(worst, sheared, [(e.V, e.label) for e in level])
    _together(sheet, worst, at, pulled, sheared, level)
    for e in effects:
        if e.along:
            turned = _worked(shear_lines(sheet, at.group, _each(at, e), _where(at.site, e.label)))
            _offer(worst, turned, [(1.0, e.label)])
            _together(sheet, worst, at, pulled, turned, (e,))
    for line, weight in at.standing:
        worst.offer(line.key, weight, _under, line, None, effects[0].label)
    for e in effects if place.gap else ():
        bent = _bent(sheet, place, at, e)
        worst.offer(bent.key, _weight(bent), lambda line: line, bent)


def _each(at: Strength, e: Effect) -> tuple[tuple[float, float], ...]:
    n = len(at.group.positions_in)
    return ((-e.along / n, -e.V / n),) * n


def _bent(sheet: Worksheet, place: Ledger, at: Strength, e: Effect) -> LimitState:
    V, gap = e.shear / len(at.group.positions_in), place.gap + place.separator
    return stand_off_line(sheet, at.group, V, e.pull, gap, place.b, _where(at.site, e.label))


def _offer(worst: _Worst, found: Worked, loads: Sequence[tuple[float, str]]) -> None:
    """Lines worked for 1 lb, under the largest of some loads; those without a ratio under the first. Args: loads: [lb], label."""
    if not found.lines:
        return
    most, label = max(loads, key=lambda load: load[0])
    for line, weight in found.lines:
        if 0 < weight < inf:
            worst.offer(line.key, weight * most, _under, line, most, label)
        else:
            worst.offer(line.key, weight, _under, line, *loads[0])


def _together(
    sheet: Worksheet, worst: _Worst, at: Strength, pulled: Worked, sheared: Worked, effects: Iterable[Effect]
) -> None:
    """Tension with shear, under each effect."""
    for e in effects:
        V = 1.0 if e.along else e.V
        r_N, r_V = pulled.most * e.pull, sheared.most * V
        if r_N > 0 and r_V > 0:
            weight = interaction(r_N, r_V) / interaction_limit(r_N, r_V)
            worst.offer("anchor-interaction", weight, _both, sheet, at, (pulled, e.pull), (sheared, V), e.label)


def _both(
    sheet: Worksheet, at: Strength, tension: tuple[Worked, float], shear: tuple[Worked, float], label: str
) -> LimitState:
    """Args: tension, shear: lines worked for 1 lb, and the pounds."""
    r_N, r_V = (max(_ratio(line, pounds) for line, _ in found.lines) for found, pounds in (tension, shear))
    return together_line(sheet, r_N, r_V, _where(at.site, label))


def _ratio(line: LimitState, pounds: float) -> float:
    """Of a line worked for 1 lb under that many pounds; 0 where it has none."""
    if line.demand is None or line.capacity is None:
        return 0.0
    return line.demand * pounds / line.capacity if line.capacity > 0 else inf


def _under(line: LimitState, pounds: float | None, label: str) -> LimitState:
    """A line worked for 1 lb under that many pounds; one that asks nothing in pounds as it is."""
    demand = line.demand if pounds is None or line.demand is None else line.demand * pounds
    return LimitState(
        line.key, line.title, line.source, demand, line.capacity, line.unit, line.holds, line.say, line.facts,
        refer=line.refer, combination=label, spot=line.spot, steps=line.steps,
    )  # fmt: skip


def _routes(sheet: Worksheet, i: Inputs, shaken: Sequence[Effect]) -> Iterator[LimitState]:
    """How earthquake on the bolts is taken, in the combination where its share is largest (17.10.5, 17.10.6)."""
    route = cast(Route, i.anchor_route)
    pulled = max((e for e in shaken if e.pull > 0), key=lambda e: e.E_across / e.pull, default=None)
    if pulled:
        where = Where("anchor", "", pulled.combination.label, "core")
        yield from filter(None, (tension_route_line(sheet, pulled.E_across, pulled.pull, route, where),))
    sheared = max((e for e in shaken if e.shear > 0), key=lambda e: e.E_along / e.shear, default=None)
    if sheared:
        where = Where("anchor", "", sheared.combination.label, "core")
        yield from filter(None, (shear_route_line(sheet, sheared.E_along, sheared.shear, route, where),))
