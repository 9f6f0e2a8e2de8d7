"""What the member brings to the plate, by type of load and by combination, and how anchors and concrete share it."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from engine.attachments.anchored_plate.geometry import Bracket
from engine.attachments.anchored_plate.inputs import Inputs
from engine.attachments.anchored_plate.tilted import tilted_forces
from engine.clauses.us.anchors_group import modular_ratio, plate_forces, share_shear
from engine.clauses.us.anchors_materials import effective_area_in2, thread_pitch
from engine.clauses.us.concrete_material import E_S_PSI, modulus_psi
from engine.clauses.us.loads import (
    Combination,
    Loads,
    allowable_combinations,
    load_duration_factor,
    strength_combinations,
)
from engine.editions import Edition
from engine.worksheet import Worksheet, clause

OVER_MOST = 1.25  # two equal spans under a load spread over both: the middle support, statics
SHEAR_MOST = 0.625  # beside it


Shears = tuple[tuple[float, float], ...]


class Carried(NamedTuple):
    """Unfactored loads on one plate by type [lb]: vertical in each way they may act (down above zero), along the wall, pull.

    share: of the load on one spacing of plates that comes to a ledger's most loaded plate; 1.0 for a joist or beam.
    """

    vertical: tuple[Loads, ...]
    along: Loads
    pull: Loads
    share: float


class Effect(NamedTuple):
    """One combination on one plate [lb]: V down, H to the right along the wall, P off the wall, and what earthquake is of them."""

    combination: Combination
    V: float
    H: float
    P: float
    E_V: float
    E_H: float
    E_P: float
    C_D: float = 1.0

    @property
    def label(self) -> str:
        """Of the combination."""
        return self.combination.label

    @property
    def quakes(self) -> bool:
        """Whether earthquake is part of it."""
        return bool(self.E_V or self.E_H or self.E_P)


class Shared(NamedTuple):
    """Of one effect: tension and shear (z, y) of each anchor [lb], and what holds the moment M of the offset [lb-in].

    p_toe: largest pressure of the concrete [psi]. C: its force [lb]. pressed: depth in contact [in], None where the plate is bent
    both ways and presses on a corner, or touches nothing. lower: whether it is the lower edge that presses most.
    """

    N: tuple[float, ...]
    V: Shears
    M: float
    p_toe: float = 0.0
    C: float = 0.0
    pressed: float | None = None
    lower: bool = True

    @property
    def most(self) -> float:
        """Largest tension of one anchor [lb]."""
        return max(0.0, *self.N)


@clause(
    "statics", "", title="Load of a ledger on its most loaded plate", symbol="R", unit="lb", formula="k * w * s / 12",
    provenance="derived", note="k is 1.25 where the ledger runs on over plates, 1.0 where it has a joint at each.",
)  # fmt: skip
def ledger_reaction_lb(k: float, w_plf: float, s_in: float) -> float:
    """Args: k: share. w_plf: line load. s_in: spacing of the plates [in]. Source: statics of two equal spans, load spread."""
    return k * w_plf * s_in / 12


@clause("statics", "", title="Moment of the offset", symbol="M", unit="lb-in", formula="V * e", provenance="derived")
def offset_moment_lb_in(V_lb: float, e_in: float) -> float:
    """Args: V_lb: load. e_in: from the concrete [in]. Returns: moment at the concrete's face [lb-in]."""
    return V_lb * e_in


@clause(
    "statics", "", title="Moment about the upright axis", symbol="M_z", unit="lb-in", formula="P * z - H * e",
    provenance="derived",
)  # fmt: skip
def sideways_moment_lb_in(P_lb: float, z_in: float, H_lb: float, e_in: float) -> float:
    """Above zero where it presses the plate's left side. Args: P_lb: pull at z. H_lb: along the wall, to the right, at e [in]."""
    return P_lb * z_in - H_lb * e_in


@clause(
    "statics", "", title="Turning moment on the anchors", symbol="T", unit="lb-in", formula="H * y - V * z",
    provenance="derived",
)  # fmt: skip
def turning_lb_in(H_lb: float, y_in: float, V_lb: float, z_in: float) -> float:
    """Anticlockwise. Args: V_lb: down, at z. H_lb: to the right at the plate's middle. y_in: the anchors' middle above it."""
    return H_lb * y_in - V_lb * z_in


@clause(
    "statics",
    "",
    title="Anchors of a plate that touches nothing",
    rule="the moment by the anchors' distance from their middle, the pull in equal parts; below zero an anchor is pushed",
    provenance="derived",
)
def free_forces_lb(y_in: Sequence[float], P_lb: float, M_lb_in: float) -> tuple[float, ...]:
    """Force of each anchor [lb]. Args: y_in: from the plate's middle. P_lb: pull there. M_lb_in: above zero pulls high y."""
    n, mean = len(y_in), sum(y_in) / len(y_in)
    spread = sum((y - mean) ** 2 for y in y_in)
    slope = (M_lb_in - P_lb * mean) / spread if spread else 0.0
    return tuple(P_lb / n + slope * (y - mean) for y in y_in)


def carried(sheet: Worksheet, i: Inputs) -> Carried:
    """Loads on the plate by type; of a ledger, the most loaded of several."""
    along = Loads(W=i.along_wind_lb, E=i.along_seismic_lb)
    pull = Loads(W=i.pull_wind_lb, E=i.pull_seismic_lb)
    share, parts, up = 1.0, (i.dead_lb, i.live_lb, i.roof_lb, i.snow_lb, i.wind_lb), i.uplift_lb
    if i.form == "front":
        share = OVER_MOST if i.runs == "continuous" else 1.0
        lines = (i.dead_plf, i.live_plf, i.roof_plf, i.snow_plf, i.wind_plf, i.uplift_plf)
        *rest, up = (sheet.use(ledger_reaction_lb, k=share, w_plf=w, s_in=i.spacing_in) if w else 0.0 for w in lines)
        parts = (rest[0], rest[1], rest[2], rest[3], rest[4])
    D, L, L_r, S, W = parts
    down = Loads(D, L, L_r, S, W, i.vertical_seismic_lb)
    lifted = Loads(D, L, L_r, S, -up, -i.vertical_seismic_lb)
    return Carried((down, lifted) if up or i.vertical_seismic_lb else (down,), along, pull, share)


def along_grain(i: Inputs, e: Effect) -> float:
    """The part of an effect along the grain: a joist's pull, or what runs along the wall in a ledger [lb]."""
    return abs(e.H) if i.form == "front" else e.P


def effects(
    combinations: Iterable[Combination], load: Carried, ways: Sequence[float], *, duration: bool = False
) -> Iterator[Effect]:
    """Every combination with its loads up or down. Args: ways: signs of the load along the wall. duration: give each its C_D."""
    for vertical in load.vertical:
        for c in combinations:
            C_D = load_duration_factor(c, _together(vertical, load)) if duration else 1.0
            V, H, P, E = c.total(vertical), c.total(load.along), c.total(load.pull), c.E
            for way in ways if H else (1.0,):
                yield Effect(c, V, way * H, P, E * vertical.E, E * load.along.E, E * load.pull.E, C_D)


def _together(vertical: Loads, load: Carried) -> Loads:
    """Sizes of all loads, so that a type that acts in any direction counts as present."""
    return Loads(
        vertical.D, vertical.L, vertical.Lr, vertical.S,
        abs(vertical.W) + load.along.W + load.pull.W, abs(vertical.E) + load.along.E + load.pull.E,
    )  # fmt: skip


def even(p: Bracket) -> bool:
    """Whether a load along the wall does the same to the left as to the right."""
    return p.left == p.right and abs(p.z_reaction) < 1e-9


def strength_effects(p: Bracket, load: Carried, edition: Edition) -> list[Effect]:
    """Strength combinations that differ; of those with vertical load alone, which only scale, the largest up and down.

    With a pull or a load along the wall no larger effect stands for a smaller one: vertical load may relieve the anchors.
    """
    most: dict[bool, Effect] = {}
    mixed: dict[tuple[float, float, float, bool], Effect] = {}
    for e in effects(strength_combinations(edition), load, (1.0,) if even(p) else (1.0, -1.0)):
        if e.H or e.P or e.quakes:
            mixed.setdefault((e.V, e.H, e.P, e.quakes), e)
        elif (e.V < 0) not in most or abs(e.V) > abs(most[e.V < 0].V):
            most[e.V < 0] = e
    return [*most.values(), *mixed.values()]


def unrelieved(found: Sequence[Effect]) -> list[Effect]:
    """Effects without the pull that takes pressure off the concrete; none that another one matches or exceeds both ways.

    Without a pull, pressure grows with the vertical load and with the load along the wall.
    """
    kept: list[Effect] = []
    for e in sorted(found, key=lambda e: -abs(e.V) - abs(e.H)):
        if not any(o.V * e.V >= 0 and o.H * e.H >= 0 and abs(o.V) >= abs(e.V) and abs(o.H) >= abs(e.H) for o in kept):
            kept.append(e._replace(P=0.0, E_P=0.0))
    return kept


def allowable_effects(load: Carried, edition: Edition) -> list[Effect]:
    """Allowable combinations with their own C_D, for wood; those without any load left out."""
    found = effects(allowable_combinations(edition), load, (1.0,), duration=True)
    return [e for e in found if e.V or e.H or e.P]


def share(sheet: Worksheet, i: Inputs, p: Bracket, effect: Effect) -> Shared:
    """Tension, pressure and shear of one effect by an elastic distribution under a rigid plate. Raises: BadInput."""
    M = sheet.use(offset_moment_lb_in, V_lb=effect.V, e_in=p.reaction)
    M_z = 0.0
    if effect.H or (effect.P and p.z_reaction):
        M_z = sheet.use(sideways_moment_lb_in, P_lb=effect.P, z_in=p.z_reaction, H_lb=effect.H, e_in=p.reaction)
    V = _shears(sheet, p, effect)
    if i.contact == "gap":
        rows = sheet.use(free_forces_lb, y_in=[y for _, y in p.anchors], P_lb=effect.P, M_lb_in=M)
        aside = sheet.use(free_forces_lb, y_in=[z for z, _ in p.anchors], P_lb=0.0, M_lb_in=M_z)
        return Shared(tuple(a + b for a, b in zip(rows, aside, strict=True)), V, M)
    area = sheet.use(effective_area_in2, d_a_in=p.d_a, n_t_per_in=thread_pitch(p.d_a))
    n = sheet.use(modular_ratio, E_s_psi=E_S_PSI, E_c_psi=sheet.use(modulus_psi, f_c_psi=i.f_c_psi))
    return (_tilted if M_z else _level)(sheet, p, effect, V, M, M_z, area, n)


def _shears(sheet: Worksheet, p: Bracket, effect: Effect) -> Shears:
    middle = sum(p.rows) / len(p.rows)
    T = 0.0
    if abs(p.z_reaction) > 1e-9 or (effect.H and abs(middle) > 1e-9):
        T = sheet.use(turning_lb_in, H_lb=effect.H, y_in=middle, V_lb=effect.V, z_in=p.z_reaction)
    return sheet.use(share_shear, positions_in=p.anchors, V_x_lb=effect.H, V_y_lb=-effect.V, T_lb_in=T)


def _level(
    sheet: Worksheet, p: Bracket, effect: Effect, V: Shears, M: float, M_z: float, area: float, n: float
) -> Shared:
    """Bent about the level axis alone; rows lie from the plate's lower edge, each stands for all its anchors."""
    found = sheet.use(
        plate_forces, b_in=p.width, d_in=p.height, y_in=[p.height / 2 + y for y in p.rows],
        A_se_in2=area * len(p.columns), n=n, P_lb=effect.P, M_lb_in=M,
    )  # fmt: skip
    N = tuple(T / len(p.columns) for T in found.T_lb for _ in p.columns)
    return Shared(N, V, M, found.p_max_psi, found.C_lb, found.pressed_in if found.C_lb else None, found.lower_edge)


def _tilted(
    sheet: Worksheet, p: Bracket, effect: Effect, V: Shears, M: float, M_z: float, area: float, n: float
) -> Shared:
    """Bent about both axes."""
    found = sheet.use(
        tilted_forces, b_in=p.width, d_in=p.height, anchors_in=p.anchors, A_se_in2=area, n=n, P_lb=effect.P, M_lb_in=M,
        M_z_lb_in=M_z,
    )  # fmt: skip
    return Shared(found.T_lb, V, M, found.p_max_psi, found.C_lb)
