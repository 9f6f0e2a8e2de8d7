"""Bolts of a plate that lies on concrete, as lines of a check: the prescriptive rules, place and cover, concrete, wood.

Every kind of attachment with a bolted plate describes its bolts as `PlateBolts` and takes these lines as they are.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import ceil, pi
from typing import Any, NamedTuple

from engine.clauses.us import irc_sills as sills
from engine.clauses.us.anchors_materials import AnchorSteel, Head
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.concrete_wall_steel import Exposure, clear_cover_in
from engine.clauses.us.irc import Category, Code
from engine.clauses.us.timber_bearing import C_b, washer_bearing_lb
from engine.clauses.us.timber_bearing_strength import fe_concrete_psi, fe_wood
from engine.clauses.us.timber_factors import C_Delta, C_M_connection, C_M_stress, adjusted_Z_lb
from engine.clauses.us.timber_geometry import (
    end_full_in,
    end_least_in,
    end_tension_full_in,
    load_to_grain_deg,
    resultant_lb,
)
from engine.clauses.us.timber_materials import Species
from engine.clauses.us.timber_yield import yield_modes
from engine.editions import Citation
from engine.errors import BadInput, OutOfScope
from engine.result import LimitState
from engine.worksheet import Worksheet, cite, clause

BOLT_F_YB_PSI = 45000.0  # NDS 2018 Table 12E: bolts. provenance: read second-hand
HOLE_OVER_IN = 1 / 16  # NDS 2018 12.1.3.2: holes at most 1/16 in over the bolt
# Round cut washers, outside diameter and thickness by bolt [in]: ASME B18.21.1, type A plain washers, wide series.
# provenance: memory.
CUT_WASHERS = {0.5: (1.375, 0.109), 0.625: (1.75, 0.134), 0.75: (2.0, 0.148)}
EDGE_NAMES = ("the left end of the concrete", "the right end of the concrete", "the outer face", "the room-side face")
IBC_SILL = cite(sills.ibc_minimum_end_distance_in)


class Rule(NamedTuple):
    """By which code the bolts are judged, and what of the building its rules turn on."""

    code: Code = "IRC"
    category: Category = "B"
    stories: int = 1
    building: sills.Building = "detached"
    braced_line: bool = False


@dataclass(frozen=True, slots=True)
class PlateBolts:
    """A row of bolts through a plate into the concrete below.

    Args: D_in, steel, foot, embedment_in: each bolt. spacing_in, end_in, piece_in: along a piece of plate. across_in: from the
    edge of the plate that is measured from. b_in, t_in, wood, wet: the plate. layer_in: gap under it. outer_in, room_in: from
    a bolt's centre to the faces of the concrete at its foot. f_c_psi. exposure: of the concrete there. torqued: nuts.
    """

    D_in: float
    steel: AnchorSteel
    foot: Head
    embedment_in: float
    spacing_in: float
    end_in: float
    piece_in: float
    across_in: float
    b_in: float
    t_in: float
    wood: Species
    wet: bool
    outer_in: float
    room_in: float
    f_c_psi: float
    layer_in: float = 0.0
    exposure: Exposure = "not exposed"
    torqued: bool = False

    @property
    def steel_half_in(self) -> float:
        """From the bolt's centre to the side of its widest steel; a hook is turned along the wall."""
        return (self.D_in if self.foot.kind == "hooked" else self.foot.width_in) / 2

    @property
    def toward_near_face(self) -> float:
        """Sign of a push toward the nearer face, along y."""
        return 1.0 if self.room_in <= self.outer_in else -1.0


@clause(
    "statics", "", title="Net pull on one bolt", symbol="T", unit="lb", formula="max(k_W * W - k_D * D, 0) * l / 12",
    provenance="derived",
)  # fmt: skip
def net_pull_lb(k_W: float, W_plf: float, k_D: float, D_plf: float, l_in: float) -> float:
    """Uplift that dead load leaves. Args: k_W, k_D: factors of the combination. W_plf, D_plf: uplift and dead load [plf].
    l_in: length of plate the bolt holds [in]. Returns: [lb]."""
    return max(k_W * W_plf - k_D * D_plf, 0.0) * l_in / 12


def prescriptive(sheet: Worksheet, b: PlateBolts, rule: Rule = Rule()) -> tuple[LimitState, ...]:
    """Size, embedment, spacing, ends and count by IRC R403.1.6 or IBC 2308."""
    least = sheet.use(sills.sill_bolt, sdc=rule.category, code=rule.code)
    source, taken = IBC_SILL if rule.code == "IBC" else cite(sills.sill_bolt), sheet.take()
    return (
        LimitState(
            "bolt-size", "Anchor diameter", source, least.diameter_in, b.D_in, "in",
            say="The bolts are {capacity}; the code asks for {demand}.", spot="anchor", steps=taken,
        ),
        LimitState(
            "bolt-embedment", "Anchor embedment", source, least.embedment_in, b.embedment_in, "in",
            say="The bolts go {capacity} into the concrete; the code asks for {demand}.", spot="anchor", steps=taken,
        ),
        *_along(sheet, b, rule, source),
    )  # fmt: skip


def _along(sheet: Worksheet, b: PlateBolts, rule: Rule, source: Citation) -> tuple[LimitState, ...]:
    most = _most_apart(sheet, rule)
    close = rule.code == "IRC" and most < sills.SPACING_IN
    apart = cite(sills.sill_bolt_spacing_in) if close else source
    spacing = LimitState(
        "bolt-spacing", "Anchor spacing", apart, b.spacing_in, most, "in",
        say="The bolts stand {demand} apart; {capacity} is the most.", spot="anchor", steps=sheet.take(),
    )  # fmt: skip
    window = sheet.use(sills.end_distance_window_in, D_in=b.D_in, code=rule.code)
    ends = LimitState(
        "bolt-ends", "Anchors near the ends of a piece", source,
        holds=window.low_in - 1e-9 <= b.end_in <= window.high_in + 1e-9,
        say="The end bolt stands {end} from the end of its piece; the code asks for {low} to {high}.",
        facts={"end": (b.end_in, "in"), "low": (window.low_in, "in"), "high": (window.high_in, "in")},
        spot="anchor", steps=sheet.take(),
    )  # fmt: skip
    count = sheet.use(sills.sill_bolt_count, L_in=b.piece_in, s_in=most)
    between = max(b.piece_in - 2 * b.end_in, 0.0)
    placed = max(ceil(between / b.spacing_in - 1e-9) + 1, 2)
    number = LimitState(
        "bolt-count", "Anchors in a piece", source, float(count), float(placed), "",
        say="A piece {piece} long has {capacity} bolts at this spacing; the code asks for {demand}.",
        facts={"piece": (b.piece_in / 12, "ft")}, spot="anchor", steps=sheet.take(),
    )  # fmt: skip
    return spacing, ends, number


def _most_apart(sheet: Worksheet, rule: Rule) -> float:
    if rule.code == "IBC":
        return sheet.use(sills.ibc_sill_bolt_spacing_in, stories=rule.stories, braced_line=rule.braced_line)
    return sheet.use(sills.sill_bolt_spacing_in, sdc=rule.category, stories=rule.stories, building=rule.building)


def middle_third(sheet: Worksheet, b: PlateBolts, measured_from: str, rule: Rule = Rule()) -> LimitState:
    """Bolts between one and two thirds of the plate's width. Args: measured_from: the edge `across_in` starts at, in words."""
    third = sheet.use(sills.middle_third_in, b_in=b.b_in)
    return LimitState(
        "bolt-third", "Anchors in the middle third of the plate",
        IBC_SILL if rule.code == "IBC" else cite(sills.middle_third_in),
        holds=third.low_in - 1e-9 <= b.across_in <= third.high_in + 1e-9,
        say=f"The bolts stand {{place}} from {measured_from}; the middle third runs from {{low}} to {{high}}.",
        facts={"place": (b.across_in, "in"), "low": (third.low_in, "in"), "high": (third.high_in, "in")},
        spot="anchor", steps=sheet.take(),
    )  # fmt: skip


def cover(sheet: Worksheet, b: PlateBolts) -> LimitState:
    """Concrete beside the bolt's widest steel, down to its foot."""
    need = sheet.use(clear_cover_in, exposure=b.exposure, d_b_in=b.D_in)
    return LimitState(
        "bolt-cover", "Anchor cover at its foot", cite(clear_cover_in), need,
        min(b.outer_in, b.room_in) - b.steel_half_in, "in",
        say="At its foot the bolt has {capacity} of concrete beside it; {demand} is needed. Foam is not cover.",
        spot="anchor", steps=sheet.take(),
    )  # fmt: skip


def row_group(b: PlateBolts, next_in: float | None = None, end_in: float | None = None) -> AnchorGroup:
    """One bolt of the long row, cut half way to its neighbours.

    Args: next_in: to the neighbour on the right where it is not the spacing [in]. end_in: to the end of the concrete on the
    right, in place of a neighbour [in]. Raises: BadInput for what cannot be built, OutOfScope beyond chapter 17.
    """
    beside = b.spacing_in if next_in is None else next_in
    return AnchorGroup(
        positions_in=((0.0, 0.0),), d_a_in=b.D_in, steel=b.steel, head=b.foot, h_ef_in=b.embedment_in, f_c_psi=b.f_c_psi,
        c_x2_in=end_in, c_y1_in=b.outer_in, c_y2_in=b.room_in, next_x1_in=b.spacing_in,
        next_x2_in=beside if end_in is None else None, torqued=b.torqued,
        cover_in=clear_cover_in(b.exposure, b.D_in), edge_names=EDGE_NAMES,
    )  # fmt: skip


def in_concrete(
    b: PlateBolts, judge: Callable[[AnchorGroup], tuple[LimitState, ...]], **place: float | None
) -> tuple[LimitState, ...]:
    """What `judge` says of a bolt of the row (`place` as for `row_group`), or one line on why its strength can't be told."""
    if min(b.outer_in, b.room_in) <= 0:
        out = max(-b.outer_in, -b.room_in)
        say = "The bolt stands {out} outside the concrete at its foot."
        return (_blocked(holds=False, say=say, facts={"out": (out, "in")}),)
    try:
        found = judge(row_group(b, **place))
    except OutOfScope as limit:
        return (
            _blocked(refer=f"{limit.rule}: {limit.why}", say="The bolts' strength is outside what is checked here."),
        )
    except BadInput as clash:
        return (_blocked(holds=False, say=clash.message),)
    silent = "The code gives no strength for this mode here."
    return tuple(replace(line, say=silent) if line.refer and not line.say else line for line in found)


def _blocked(**verdict: Any) -> LimitState:
    return LimitState("bolt-fit", "Anchors in the concrete", cite(clear_cover_in), spot="anchor", **verdict)


class Washer(NamedTuple):
    """Under a nut: words, what presses on the wood [in²], and how long it is along the grain [in]."""

    words: str
    area_in2: float
    length_in: float


def cut_washer(D_in: float) -> Washer:
    """The round cut washer of a bolt."""
    across, _ = CUT_WASHERS[D_in]
    return Washer("round washer", pi * across**2 / 4, across)


def washer_bearing(sheet: Worksheet, b: PlateBolts, pull_lb: float, washer: Washer, combination: str) -> LimitState:
    """Plate crushed under a washer by a bolt's allowable pull; NDS 3.10."""
    hole = b.D_in + HOLE_OVER_IN
    capacity = 0.0
    if washer.area_in2 > pi * hole**2 / 4:
        wet = sheet.use(C_M_stress, stress="F_c_perp", material="sawn", wet=b.wet)
        factor = sheet.use(C_b, l_b_in=washer.length_in, a_end_in=max(b.end_in - washer.length_in / 2, 0.0))
        capacity = sheet.use(
            washer_bearing_lb, F_c_perp_psi=b.wood.F_c_perp_psi, C_M=wet, C_t=1.0, C_b=factor,
            A_w_in2=washer.area_in2, d_h_in=hole,
        )  # fmt: skip
    return LimitState(
        "bolt-washer", "Plate under the washer", cite(washer_bearing_lb), pull_lb, capacity, "lb",
        say=f"Uplift presses {{demand}} on a {washer.words} {{across}} wide; the plate bears {{capacity}}.",
        facts={"across": (washer.length_in, "in")}, combination=combination, spot="anchor", steps=sheet.take(),
    )  # fmt: skip


class Push(NamedTuple):
    """Allowable load of one bolt: along the plate and across it [lb], its C_D and its combination."""

    along_lb: float
    across_lb: float
    C_D: float
    combination: str


def dowel(sheet: Worksheet, b: PlateBolts, push: Push, key: str, title: str, say: str) -> LimitState:
    """Plate and bolt by the yield limit equations. Args: say: sentence with {demand}, {capacity}; the mode is added."""
    try:
        F_em = sheet.use(fe_concrete_psi, f_c_psi=b.f_c_psi)
    except OutOfScope as limit:
        return LimitState(
            key, title, cite(fe_concrete_psi), refer=f"{limit.rule}: {limit.why}", spot="anchor",
            say="The bolts' bearing on this concrete is not covered.",
        )  # fmt: skip
    R, theta = push.along_lb or push.across_lb, 0.0 if push.along_lb else 90.0
    if push.along_lb and push.across_lb:
        R = sheet.use(resultant_lb, V_lb=push.across_lb, H_lb=push.along_lb)
        theta = sheet.use(load_to_grain_deg, V_lb=push.across_lb, H_lb=push.along_lb)
    found = yield_modes(
        sheet, D_in=b.D_in, l_m_in=b.embedment_in, l_s_in=b.t_in, F_em_psi=F_em, g_in=b.layer_in,
        F_es_psi=fe_wood(sheet, G=b.wood.G, D_in=b.D_in, theta_deg=theta), F_yb_psi=BOLT_F_YB_PSI, theta_deg=theta,
    )  # fmt: skip
    Z = sheet.use(
        adjusted_Z_lb, Z_lb=found.Z_lb, C_D=push.C_D, C_M=_wet(sheet, b), C_t=1.0, C_g=1.0, C_Delta=_ends(sheet, b, push),
        C_eg=1.0,
    )  # fmt: skip
    return LimitState(
        key, title, cite(adjusted_Z_lb), R, Z, "lb", say=f"{say}, mode {found.mode}.",
        combination=f"{push.combination}, C_D {push.C_D:g}", spot="anchor", steps=sheet.take(),
    )  # fmt: skip


def _wet(sheet: Worksheet, b: PlateBolts) -> float:
    return sheet.use(C_M_connection, made_wet=False, wet_in_service=b.wet, D_in=b.D_in, free_to_shrink=True)


def _ends(sheet: Worksheet, b: PlateBolts, push: Push) -> float:
    """C_delta of the end bolt: load along the plate may run toward its end."""
    full = (
        sheet.use(end_tension_full_in, D_in=b.D_in, hardwood=b.wood.hardwood)
        if push.along_lb
        else sheet.use(end_full_in, D_in=b.D_in)
    )
    return sheet.use(C_Delta, a_in=b.end_in, a_min_in=sheet.use(end_least_in, a_full_in=full), a_full_in=full)
