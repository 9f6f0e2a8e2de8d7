"""Lines about the wood: yielding of wood and bolt, distances, shear at the bolts, bending between them, washers."""

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

from engine.attachments.bolted_ledger import distances
from engine.attachments.bolted_ledger.demand import Carried, combination
from engine.attachments.bolted_ledger.geometry import Ledger
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.clauses.us import timber_factors as factors
from engine.clauses.us.concrete_material import modulus_psi
from engine.clauses.us.irc_loads import load_per_bolt_lb
from engine.clauses.us.ledger_beam import bolt_share_lb, ledger_moment_lb_in
from engine.clauses.us.ledger_rules import stiffness_across_lb, stiffness_core_lb
from engine.clauses.us.loads import allowable_combinations, governing_allowable, load_duration_factor
from engine.clauses.us.timber_bearing_strength import fe_concrete_psi, fe_wood
from engine.clauses.us.timber_geometry import load_to_grain_deg, resultant_lb
from engine.clauses.us.timber_materials import bolt, species
from engine.clauses.us.timber_members import bending_lb_in, shear_at_connection_lb
from engine.clauses.us.timber_yield import Joint, single_shear
from engine.editions import Edition
from engine.errors import OutOfScope
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

SILENT = Worksheet(recording=False)


class Push(NamedTuple):
    """What one allowable combination brings to one bolt: across and along the grain [lb], and its C_D."""

    label: str
    V_lb: float
    H_lb: float
    C_D: float


class Taken(NamedTuple):
    """A push with the bolt's answer: resultant, adjusted capacity [lb], yield mode."""

    push: Push
    R_lb: float
    Z_lb: float
    mode: str

    @property
    def ratio(self) -> float:
        """Demand over capacity."""
        return self.R_lb / self.Z_lb if self.Z_lb > 0 else inf if self.R_lb > 0 else 0.0


def yielding(sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, edition: Edition) -> LimitState:
    """Wood and bolt by the yield limit equations, each combination with its own duration and angle."""
    title, spot = "Wood and bolt", "bolt"
    pushes = tuple(_pushes(i, place, load, edition))
    worst = pushes[0]
    try:
        if len(pushes) > 1:
            worst = max((_taken(SILENT, i, place, p) for p in pushes), key=lambda t: t.ratio).push
        w = combination(edition, worst.label).total(load.spread)
        sheet.use(load_per_bolt_lb, w_plf=w, s_in=i.spacing_in / place.at_a_place)
        taken = _taken(sheet, i, place, worst)
    except OutOfScope as limit:
        sheet.take()
        return LimitState(
            "yield", title, cite(fe_concrete_psi), refer=f"{limit.rule}: {limit.why}", spot=spot,
            say="The bolts' bearing on this concrete is not covered.",
        )  # fmt: skip
    say = f"A bolt takes {{demand}}; wood and bolt yield at {{capacity}}, mode {taken.mode}."
    facts = {}
    if place.gap:
        tight = _taken(SILENT, i, place, worst, gap_in=0.0)
        facts = {"gap": (place.gap, "in"), "tight": (tight.Z_lb, "lb")}
        say = (
            f"A bolt takes {{demand}}; across {{gap}} of foam wood and bolt yield at {{capacity}}, mode {taken.mode}. "
            "Tight to the concrete they would take {tight}."
        )
    return LimitState(
        "yield", title, cite(factors.adjusted_Z_lb), taken.R_lb, taken.Z_lb, "lb", say=say, facts=facts,
        combination=f"{worst.label}, C_D {worst.C_D:g}", spot=spot, steps=sheet.take(),
    )  # fmt: skip


def _pushes(i: Inputs, place: Ledger, load: Carried, edition: Edition) -> Iterator[Push]:
    """Each combination's load on a bolt; without shear along the wall only the one that asks most for its duration."""
    share = i.spacing_in / 12 / place.at_a_place
    down, along = load.spread.times(share), load.along.times(share)
    if not (along.W or along.E):
        most = governing_allowable(edition, down)
        yield Push(most.label, most.demand, 0.0, most.C_D)
        return
    for c in allowable_combinations(edition):
        yield Push(c.label, c.total(down), c.total(along), load_duration_factor(c, down.plus(along)))


def _taken(sheet: Worksheet, i: Inputs, place: Ledger, push: Push, gap_in: float | None = None) -> Taken:
    R = sheet.use(resultant_lb, V_lb=push.V_lb, H_lb=push.H_lb)
    theta = sheet.use(load_to_grain_deg, V_lb=push.V_lb, H_lb=push.H_lb) if R else 90.0
    fastener, wood = bolt(i.bolt), species(i.species)
    found = single_shear(
        sheet,
        Joint(
            D_in=fastener.D_in if i.threads == "body" else fastener.D_r_in,
            D_nom_in=fastener.D_in,
            l_m_in=place.h_ef + place.pad,
            l_s_in=place.b,
            F_em_psi=sheet.use(fe_concrete_psi, f_c_psi=i.f_c_psi),
            F_es_psi=fe_wood(sheet, G=wood.G, D_in=fastener.D_in, theta_deg=theta),
            F_yb_psi=fastener.F_yb_psi,
            theta_deg=theta,
            g_in=place.gap + place.separator if gap_in is None else gap_in,
        ),
    )
    Z = sheet.use(
        factors.adjusted_Z_lb,
        Z_lb=found.Z_lb,
        C_D=push.C_D,
        C_M=wet_factor(sheet, i),
        C_t=1.0,
        C_g=_group(sheet, i, place),
        C_Delta=min(distances.factors(sheet, i, place)),
        C_eg=1.0,
    )
    return Taken(push, R, Z, found.mode)


def wet_factor(sheet: Worksheet, i: Inputs) -> float:
    """C_M of the bolts: one row along the grain is free to shrink."""
    return sheet.use(
        factors.C_M_connection,
        made_wet=i.moisture != "dry",
        wet_in_service=i.moisture == "wet",
        D_in=bolt(i.bolt).D_in,
        free_to_shrink=i.rows == 1,
    )


def _group(sheet: Worksheet, i: Inputs, place: Ledger) -> float:
    """C_g of two bolts at a place, a row along the weight; shear spread along the wall loads no row from its end."""
    if place.at_a_place < 2:
        return 1.0
    EA_s = sheet.use(stiffness_across_lb, E_psi=i.E_psi, b_in=place.b, w_in=i.spacing_in)
    E_c = sheet.use(modulus_psi, f_c_psi=i.f_c_psi)
    EA_m = sheet.use(stiffness_core_lb, E_c_psi=E_c, t_in=place.t, w_in=i.spacing_in)
    D = bolt(i.bolt).D_in
    return factors.group_action(sheet, n=2, D_in=D, s_in=i.gauge_in, EA_m_lb=EA_m, EA_s_lb=EA_s, metal=True)


def _wood_stress(sheet: Worksheet, i: Inputs, stress: factors.Stress, F_psi: float, C_D: float) -> float:
    wet = sheet.use(factors.C_M_stress, stress=stress, material="sawn", wet=i.moisture == "wet")
    cut = sheet.use(factors.C_i, stress=stress, incised=i.incised)
    return sheet.use(factors.adjusted_stress_psi, F_psi=F_psi, C_D=C_D, C_M=wet, C_t=1.0, C_i=cut)


def shear_at_bolts(sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, edition: Edition) -> LimitState:
    """The ledger's own shear beside its bolts: beside the worst one near an end, and the worst one farther in."""
    ends: list[tuple[float, int]] = []
    inner: list[tuple[float, int]] = []
    sheared = [load.shear(n) for n in range(len(place.places))]
    weighted = {k: governing_allowable(edition, load.share(k)).weighted for k in set(sheared)}
    for n, u in enumerate(place.places):
        near = min(u, place.piece - u) < 5 * place.d
        (ends if near else inner).append((weighted[sheared[n]], n))
    worst = [max(found)[1] for found in (ends, inner) if found]
    chosen = max(worst, key=lambda n: _beside(SILENT, i, place, load, edition, n).ratio or 0.0)
    return _beside(sheet, i, place, load, edition, chosen)


def _beside(sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, edition: Edition, n: int) -> LimitState:
    """Shear beside bolt place n. Staggered bolts stand alone, so that the upper row has the least wood above it."""
    d_e = place.rows[0] if place.staggered else place.rows[-1]
    k_R, k_w = load.shear(n)
    most = governing_allowable(edition, load.share((k_R, k_w)))
    c = combination(edition, most.label)
    V = sheet.use(bolt_share_lb, k_R=k_R, R_lb=c.total(load.joist), k_w=k_w, w_plf=c.total(load.line))
    F_v = _wood_stress(sheet, i, "F_v", species(i.species).F_v_psi, most.C_D)
    a_end = min(place.places[n], place.piece - place.places[n])
    capacity = sheet.use(shear_at_connection_lb, F_v_psi=F_v, b_in=place.b, d_e_in=d_e, d_in=place.d, a_end_in=a_end)
    return LimitState(
        "ledger-shear", "Ledger shear at the bolts", cite(shear_at_connection_lb), V, capacity, "lb",
        say="Beside a bolt {a_end} from an end the ledger is sheared by {demand}; with {d_e} of wood above the bolt it "
        "carries {capacity}.",
        facts={"a_end": (a_end, "in"), "d_e": (d_e, "in")},
        combination=f"{most.label}, C_D {most.C_D:g}", spot="ledger", steps=sheet.take(),
    )  # fmt: skip


def bending(sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, edition: Edition) -> LimitState:
    """The ledger bent between its bolts; only where its bending value was typed."""
    title = "Ledger bending between bolts"
    if i.F_b_psi is None:
        return LimitState(
            "ledger-bending", title, cite(bending_lb_in), spot="ledger",
            say="Bending between bolts needs the grade's bending value.",
            unchecked="Enter the grade's bending value to check bending between bolts.",
        )  # fmt: skip
    k_R, k_w = load.by_joist.moment, load.by_line.moment
    moments = load.joist.times(k_R).plus(load.line.times(k_w / 12))
    most = governing_allowable(edition, moments)
    c = combination(edition, most.label)
    M = sheet.use(ledger_moment_lb_in, k_R=k_R, R_lb=c.total(load.joist), k_w=k_w, w_plf=c.total(load.line))
    F_b = _wood_stress(sheet, i, "F_b", i.F_b_psi, most.C_D)
    capacity = sheet.use(bending_lb_in, F_b_psi=F_b, b_in=place.b, d_in=place.d)
    return LimitState(
        "ledger-bending", title, cite(bending_lb_in), M, capacity, "lb-in",
        say="Between bolts the ledger is bent by {demand}; it carries {capacity}.",
        combination=f"{most.label}, C_D {most.C_D:g}", spot="ledger", steps=sheet.take(),
    )  # fmt: skip
