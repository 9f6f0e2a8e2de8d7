"""Lines about the concrete: how anchors and toe share the couple, the toe's pressure, the anchors' fit, chapter 17."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import hypot, inf
from typing import cast

from engine.attachments.anchored_plate.demand import Effect, Shared, free_forces_lb, share
from engine.attachments.anchored_plate.geometry import Bracket, foot_of
from engine.attachments.anchored_plate.inputs import HIGH_CATEGORIES, Inputs
from engine.attachments.anchored_plate.plate import Case, heaviest
from engine.clauses.us.anchors_bending import stand_off_line
from engine.clauses.us.anchors_group import plate_forces
from engine.clauses.us.anchors_line import Where
from engine.clauses.us.anchors_lines import anchor_lines
from engine.clauses.us.anchors_materials import steel
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.anchors_phi import phi_breakout, phi_pullout
from engine.clauses.us.anchors_seismic import Route, ductile_lines, shear_route_line, tension_route_line
from engine.clauses.us.anchors_shear import EdgeBars
from engine.clauses.us.anchors_tension import breakout_lb
from engine.clauses.us.concrete_bearing import bearing_strength_lb, support_area_in2, support_offset_in
from engine.clauses.us.concrete_material import phi_bearing
from engine.clauses.us.concrete_wall_steel import Exposure, clear_cover_in
from engine.editions import Citation, Edition
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState, Verdict
from engine.worksheet import Worksheet, cite, clause

GEOMETRY = Citation("geometry")
EDGE_NAMES = ("the left end", "the right end", "the opening below", "the top of the concrete")
TITLE = "Anchors in the concrete"
# as the lines follow one another: tension, shear, both, bending, earthquake, room
MODES = ("steel-tension", "breakout", "pullout", "side-face", "steel-shear", "shear-", "pryout", "interaction", "bending",
         "seismic", "spacing", "edge")  # fmt: skip
SILENT = Worksheet(recording=False)


@clause(
    "ACI 318", "22.8.3.2", title="Design pressure under the toe", symbol="phi B_n / A_1", unit="psi",
    formula="phi * B_n / A_1",
)  # fmt: skip
def design_pressure_psi(phi: float, B_n_lb: float, A_1_in2: float) -> float:
    """Args: phi: for bearing. B_n_lb: nominal strength of the pressed area A_1 [in²]. Source: ACI 318-19 22.8.3.2, 21.2.1."""
    return phi * B_n_lb / A_1_in2


def fit(sheet: Worksheet, i: Inputs, p: Bracket) -> tuple[LimitState, ...]:
    """The plate on the concrete, its anchors within the core, and edges that are not given."""
    return (*_on_concrete(p), _fit(sheet, i, p), *_missing(i))


def modes(sheet: Worksheet, i: Inputs, p: Bracket, cases: Sequence[Case], edition: Edition) -> tuple[LimitState, ...]:
    """Every mode of chapter 17 in its worst combination."""
    if _fit(SILENT, i, p).verdict is Verdict.FLAG:
        first = "The anchors do not fit the core: choose an embedment that fits first."
        return (LimitState("anchor", TITLE, cite(breakout_lb), spot="core", say=first, unchecked=first),)
    try:
        return _chapter_17(sheet, i, p, cases, edition)
    except OutOfScope as limit:
        return (
            LimitState(
                "anchor", TITLE, cite(breakout_lb), refer=f"{limit.rule}: {limit.why}", spot="core",
                say="The anchors' strength in this concrete is outside what is checked here.",
            ),
        )  # fmt: skip
    except BadInput as clash:
        return (LimitState("anchor", TITLE, cite(breakout_lb), holds=False, say=clash.message, spot="core"),)


def couple(i: Inputs, p: Bracket, cases: Sequence[Case]) -> tuple[LimitState, ...]:
    """How the offset is held: pull of the anchors against pressure on the concrete, or over a gap nothing that is covered."""
    case = heaviest(cases)
    effect, shared, steps = case
    title, facts = "Couple of the offset", {
        "V": (abs(effect.V), "lb"), "e": (p.reaction, "in"), "M": (abs(shared.M), "lb-in"), "T": (shared.most, "lb"),
        "P": (effect.P, "lb"),
    }  # fmt: skip
    if i.contact == "gap":
        return (_over_gap(p, cases, title),)
    say = "{V} at {e} from the concrete makes {M}."
    if shared.C and shared.pressed:
        facts |= {"C": (shared.C, "lb"), "x": (shared.pressed, "in")}
        edge = "above its lower" if shared.lower else "below its upper"
        say += f" The plate presses {{C}} on {{x}} {edge} edge; the most loaded anchor pulls {{T}}."
    elif shared.C:
        facts |= {"C": (shared.C, "lb")}
        say += " Bent both ways the plate presses {C} about a corner; the most loaded anchor pulls {T}."
    elif shared.most:
        say += " With {P} of pull the plate leaves the concrete; the most loaded anchor pulls {T}."
    return (
        LimitState(
            "couple", title, cite(plate_forces), holds=True, say=say, facts=facts, combination=effect.label, spot="anchors",
            steps=steps,
        ),
    )  # fmt: skip


def _over_gap(p: Bracket, cases: Sequence[Case], title: str) -> LimitState:
    """Anchors alone hold the plate; the case that pushes one of them most, if any does."""
    case = min(cases, key=lambda case: min(case.shared.N))
    pushed, pulled = max(-min(case.shared.N), 0.0), case.shared.most
    held = all(_held(p, case.effect) for case in cases)
    say = "Over {gap} of gap no plate presses on concrete: {V} at {e} pulls an anchor with {T} and pushes another with {C}."
    if not held:
        say = "Over {gap} of gap one line of anchors cannot hold a couple about itself."
    facts = {
        "gap": (p.gap, "in"), "V": (abs(case.effect.V), "lb"), "e": (p.reaction, "in"), "T": (pulled, "lb"),
        "C": (pushed, "lb"),
    }  # fmt: skip
    covered = held and pushed <= 1e-9 * pulled
    return LimitState(
        "couple", title, cite(free_forces_lb), holds=True, say=say, facts=facts, combination=case.effect.label, spot="anchors",
        refer="" if covered else "Chapter 17 covers no anchor that is pushed into the concrete: bring plate, gap, loads and "
        "core to a licensed engineer, or cut the foam away so that the plate bears on the core.",
        steps=case.steps,
    )  # fmt: skip


def _held(p: Bracket, effect: Effect) -> bool:
    """Whether anchors without contact can hold its couples at all."""
    about_level, about_upright = effect.V, effect.H or effect.P * p.z_reaction
    return not (about_level and len(p.rows) == 1) and not (about_upright and len(p.columns) == 1)


def _pressure(sheet: Worksheet, i: Inputs, p: Bracket) -> float:
    """What the concrete takes [psi]: the whole plate counts as loaded area, which a strip at its edge only exceeds."""
    left, right, down, up = (
        _past(p, *side) for side in ((p.left, p.side), (p.right, p.side), (p.down, p.below), (p.up, p.above))
    )
    c = sheet.use(support_offset_in, left_in=left, right_in=right, front_in=down, back_in=up, depth_in=p.core)
    A_1, A_2 = p.width * p.height, sheet.use(support_area_in2, a_in=p.width, b_in=p.height, c_in=c)
    B_n = sheet.use(bearing_strength_lb, f_c_psi=i.f_c_psi, A_1_in2=A_1, A_2_in2=A_2)
    return sheet.use(design_pressure_psi, phi=sheet.use(phi_bearing), B_n_lb=B_n, A_1_in2=A_1)


def _past(p: Bracket, edge: float | None, within: float) -> float:
    """Concrete beyond the plate [in]; twice the core, more than which never counts, where it goes on."""
    return 2 * p.core if edge is None else max(edge - within, 0.0)


def toe(sheet: Worksheet, i: Inputs, p: Bracket, pressing: Sequence[Case]) -> tuple[LimitState, ...]:
    """Its pressure on the concrete. Args: pressing: effects without the relief of a pull."""
    case = max(pressing, key=lambda case: case.shared.p_toe)
    if not case.shared.p_toe:
        return ()
    return (
        LimitState(
            "toe", "Concrete under the plate's toe", cite(bearing_strength_lb), case.shared.p_toe, _pressure(sheet, i, p), "psi",
            say="At its edge the plate presses with {demand}; the concrete takes {capacity}.",
            combination=case.effect.label, spot="toe", steps=case.steps + sheet.take(),
        ),
    )  # fmt: skip


def _on_concrete(p: Bracket) -> tuple[LimitState, ...]:
    """The plate must not stand past the concrete."""
    ends = ((p.up, p.above, "the top of the concrete"), (p.down, p.below, "the opening's head"))
    found = [(edge, within, where) for edge, within, where in ends if edge is not None]
    if not found:
        return ()
    edge, within, where = min(found, key=lambda f: f[0] - f[1])
    return (
        LimitState(
            "plate-place", "Plate on the concrete", GEOMETRY, within, edge, "in",
            say=f"From the anchors the plate reaches {{demand}} toward {where}, which is {{capacity}} away.", spot="plate",
        ),
    )  # fmt: skip


def _fit(sheet: Worksheet, i: Inputs, p: Bracket) -> LimitState:
    cover = sheet.use(clear_cover_in, exposure=cast(Exposure, i.exposure), d_b_in=p.d_a)
    return LimitState(
        "fit", "Anchors within the core", cite(clear_cover_in), p.h_ef + p.foot + cover, p.core, "in",
        say="Embedment {h_ef}, what holds it {foot} and {cover} of cover need {demand}; the core is {capacity}.",
        facts={"h_ef": (p.h_ef, "in"), "foot": (p.foot, "in"), "cover": (cover, "in")}, spot="core", steps=sheet.take(),
    )  # fmt: skip


def _missing(i: Inputs) -> tuple[LimitState, ...]:
    asked = []
    if i.top_of_wall and i.top_edge_in is None:
        asked.append("how far the upper anchors stand below the top of the concrete")
    if i.over_opening and i.bottom_edge_in is None:
        asked.append("how far the lower anchors stand above the opening's head")
    if not asked:
        return ()
    say = f"Enter {' and '.join(asked)}."
    return (LimitState("edges", "Edges of the concrete", cite(breakout_lb), holds=False, spot="core", say=say),)


def group_of(i: Inputs, p: Bracket, seismic: bool) -> AnchorGroup:
    """The plate's anchors as chapter 17 is asked about them; x along the wall, y up. Raises: BadInput, OutOfScope."""
    return AnchorGroup(
        positions_in=p.anchors, d_a_in=p.d_a, steel=steel(i.steel), head=foot_of(i), h_ef_in=p.h_ef, f_c_psi=i.f_c_psi,
        c_x1_in=p.left, c_x2_in=p.right, c_y1_in=p.down, c_y2_in=p.up, h_a_in=p.core,
        next_x1_in=p.beside if p.left is None or (p.beside or inf) < p.left else None,
        next_x2_in=p.beside if p.right is None or (p.beside or inf) < p.right else None,
        cracked=i.cracked, supplementary_tension=i.supplementary_tension, supplementary_shear=i.supplementary_shear,
        edge_bars=cast(EdgeBars, i.edge_bars), seismic=seismic, grout_pad=i.contact == "grout", torqued=i.torqued,
        cover_in=clear_cover_in(cast(Exposure, i.exposure), p.d_a), edge_names=EDGE_NAMES,
    )  # fmt: skip


def _chapter_17(
    sheet: Worksheet, i: Inputs, p: Bracket, cases: Sequence[Case], edition: Edition
) -> tuple[LimitState, ...]:
    """The worst of every mode over the combinations, in the order the modes come."""
    group = group_of(i, p, seismic=False)
    worst: dict[str, LimitState] = {}
    for case in _worth_checking(cases):
        seismic = i.seismic in HIGH_CATEGORIES and case.effect.quakes
        used = replace(group, seismic=True) if seismic else group
        for line in _at(sheet, i, p, edition, used, case):
            if line.key not in worst or _weight(line) > _weight(worst[line.key]):
                worst[line.key] = replace(line, steps=case.steps + line.steps) if line.combination else line
    return tuple(sorted(worst.values(), key=lambda line: _rank(line.key)))


def _rank(key: str) -> int:
    """Place of a mode among the lines, whichever combination brought it first."""
    return next((k for k, mode in enumerate(MODES) if key.startswith(f"anchor-{mode}")), len(MODES))


def _worth_checking(cases: Sequence[Case]) -> list[Case]:
    """Cases that no other one matches or exceeds at every anchor, loading the same ones the same way."""
    kept: list[Case] = []
    for case in sorted(cases, key=lambda case: -sum(case.shared.N) - sum(abs(x) + abs(y) for x, y in case.shared.V)):
        if not any(_exceeds(other, case) for other in kept):
            kept.append(case)
    return kept


def _exceeds(other: Case, case: Case) -> bool:
    if (case.effect.quakes and not other.effect.quakes) or _turned(case.shared.V):
        return False
    pulls = zip(other.shared.N, case.shared.N, strict=True)
    shears = zip((f for v in other.shared.V for f in v), (f for v in case.shared.V for f in v), strict=True)
    same = all((a > 0) == (b > 0) and a >= b for a, b in pulls)
    return same and all((a * b > 0 and abs(a) >= abs(b)) or a == b for a, b in shears)


def _turned(V: Sequence[tuple[float, float]]) -> bool:
    """Whether turning sets some anchors against the others, so that no resultant stands for them in pryout."""
    R_x, R_y = sum(x for x, _ in V), sum(y for _, y in V)
    return any(R_x * x + R_y * y <= 0 for x, y in V)


def _weight(line: LimitState) -> float:
    """How much a line asks; one without numbers by its verdict, then by its share of earthquake."""
    if line.verdict is Verdict.REFER:
        return inf
    if line.ratio is None:
        return inf if line.verdict is Verdict.FLAG else line.facts.get("share", (-1.0, ""))[0]
    return line.ratio


def _at(
    sheet: Worksheet, i: Inputs, p: Bracket, edition: Edition, group: AnchorGroup, case: Case
) -> Iterator[LimitState]:
    shared, where = case.shared, Where("anchor", "", case.effect.label, "anchors")
    found = anchor_lines(sheet, edition, group, [max(N, 0.0) for N in shared.N], shared.V, where)
    yield from found
    if i.contact == "gap":
        V, N = max(hypot(*v) for v in shared.V), max(abs(N) for N in shared.N)
        yield stand_off_line(sheet, group, V, N, p.gap, p.thickness, where)
    if group.seismic:
        yield from _earthquake(sheet, i, p, group, case, found, where)


def _earthquake(
    sheet: Worksheet, i: Inputs, p: Bracket, group: AnchorGroup, case: Case, found: Sequence[LimitState], where: Where
) -> Iterator[LimitState]:
    """What 17.10 asks of the anchors' tension and shear where earthquake is more than a fifth of it."""
    effect, shared, route = case.effect, case.shared, cast(Route, i.anchor_route)
    still = _pulls(share(SILENT, i, p, without_earthquake(effect)))
    tension = tension_route_line(sheet, max(_pulls(shared) - still, 0.0), _pulls(shared), route, where)
    shear = shear_route_line(sheet, hypot(effect.E_V, effect.E_H), hypot(effect.V, effect.H), route, where)
    yield from (line for line in (tension, shear) if line)
    if tension and route == "ductile anchor":
        yield from ductile_lines(sheet, group, _concrete_n(i, shared, found), i.stretch_in, where)


def _pulls(shared: Shared) -> float:
    return sum(max(N, 0.0) for N in shared.N)


def without_earthquake(effect: Effect) -> Effect:
    """The same combination with its earthquake part taken out."""
    way = -1.0 if effect.H < 0 else 1.0
    return effect._replace(
        V=effect.V - effect.E_V, H=effect.H - way * effect.E_H, P=effect.P - effect.E_P, E_V=0.0, E_H=0.0, E_P=0.0
    )


def _concrete_n(i: Inputs, shared: Shared, found: Sequence[LimitState]) -> float:
    """Least nominal strength of the concrete modes for the most pulled anchor, by its share of each mode's demand [lb]."""
    breakout = phi_breakout(i.supplementary_tension)
    phis = {"anchor-breakout": breakout, "anchor-side-face": breakout, "anchor-pullout": phi_pullout()}
    nominal = [
        line.capacity / (0.75 * phis[line.key]) * shared.most / line.demand
        for line in found
        if line.key in phis and line.capacity is not None and line.demand
    ]
    return min(nominal, default=0.0)
