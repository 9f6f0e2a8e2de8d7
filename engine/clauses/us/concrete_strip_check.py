"""A strip of wall judged: the simplified method where it may be used, else axial load with bending, slenderness counted.

One strip serves joists on a ledge, a beam in a pocket and a veneer ledge; each gives its own load, moment and effective length.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import inf
from typing import Any

from engine.clauses.us import concrete_material as material
from engine.clauses.us import concrete_plain as plain
from engine.clauses.us import concrete_slender as slender
from engine.clauses.us import concrete_strip as bending
from engine.clauses.us import concrete_walls as walls
from engine.result import ROUNDING, LimitState
from engine.worksheet import Worksheet, cite


@dataclass(frozen=True, slots=True)
class WallStrip:
    """A strip of wall between lateral supports.

    b_in: width [in]. h_in: core thickness [in]. f_c_psi, f_y_psi [psi]. l_c_in: height between supports [in]. bars: (area [in²],
    depth from the face that a positive moment compresses [in]) of each layer, none for plain concrete. k: effective length factor;
    for bending 1.0 unless analysis shows less (6.6.4.4.3). beta_dns: sustained part of the factored axial load. foundation: an
    exterior basement or foundation wall.
    """

    b_in: float
    h_in: float
    f_c_psi: float
    f_y_psi: float
    l_c_in: float
    bars: bending.Bars = ()
    k: float = 1.0
    beta_dns: float = 0.0
    foundation: bool = False

    @property
    def A_g_in2(self) -> float:
        """Gross area [in²]."""
        return self.b_in * self.h_in

    def bent(self, M_u_lb_in: float) -> bending.Strip:
        """The section with bar depths from the face this moment compresses."""
        strip = bending.Strip(self.b_in, self.h_in, self.f_c_psi, self.f_y_psi, self.bars)
        return strip.turned() if M_u_lb_in < 0 else strip


@dataclass(frozen=True, slots=True)
class Action:
    """What acts on the strip in one combination.

    P_u_lb: factored axial load with its own weight [lb]. M_u_lb_in: larger first-order moment [lb-in], its sign by face. M_ratio:
    smaller over larger end moment, negative in single curvature. lateral: load across the wall between its supports. sustained: the
    part of P_u that stays, 0 to 1, in place of the strip's beta_dns.
    """

    P_u_lb: float
    M_u_lb_in: float
    M_ratio: float = 0.0
    lateral: bool = False
    combination: str = ""
    sustained: float | None = None

    @property
    def e_in(self) -> float:
        """Eccentricity of the resultant, without sign [in]."""
        return abs(self.M_u_lb_in) / self.P_u_lb if self.P_u_lb > 0 else inf


def judge_wall(
    sheet: Worksheet, wall: WallStrip, action: Action, *, key: str = "wall", spot: str = ""
) -> tuple[LimitState, ...]:
    """Every line of the strip: plain without bars, simplified where its conditions hold, else axial load with bending.

    Raises: BadInput for a strip that can't be meant; OutOfScope for net tension or a wall free to sway in bending.
    """
    bending.refuse_tension(action.P_u_lb)
    line = _Lines(sheet, action, key, spot)
    if not wall.bars:
        return _plain(line, wall)
    if simplified_applies(wall, action):
        return (_simplified(line, wall),)
    return _bent(line, wall)


def simplified_applies(wall: WallStrip, action: Action) -> bool:
    """Whether the method of 11.5.3 may be used: resultant in the middle third, thickness of Table 11.3.1.1."""
    least = walls.foundation_wall_thickness_minimum_in() if wall.foundation else 0.0
    least = max(least, walls.wall_thickness_minimum_in(wall.l_c_in))
    return wall.h_in >= least and action.e_in <= walls.middle_third_in(wall.h_in) * (1 + ROUNDING)


class _Lines:
    """Makes the lines of one strip: same key stem, combination and spot, and the working since the last line."""

    def __init__(self, sheet: Worksheet, action: Action, key: str, spot: str) -> None:
        self.sheet, self.action, self._key, self._spot = sheet, action, key, spot

    def add(
        self,
        name: str,
        title: str,
        rule: Callable[..., Any],
        demand: float,
        capacity: float,
        unit: str,
        say: str,
        unchecked: str = "",
        holds: bool | None = None,
        **facts: tuple[float, str],
    ) -> LimitState:
        return LimitState(
            key=f"{self._key}-{name}",
            title=title,
            source=cite(rule),
            demand=demand,
            capacity=capacity,
            unit=unit,
            holds=holds,
            say=say,
            facts=facts,
            unchecked=unchecked,
            combination=self.action.combination,
            spot=self._spot,
            steps=self.sheet.take(),
        )


def _simplified(line: _Lines, wall: WallStrip) -> LimitState:
    use, action = line.sheet.use, line.action
    third = use(walls.middle_third_in, h_in=wall.h_in)
    P_n = use(
        walls.wall_axial_simplified_lb,
        f_c_psi=wall.f_c_psi,
        A_g_in2=wall.A_g_in2,
        k=wall.k,
        l_c_in=wall.l_c_in,
        h_in=wall.h_in,
    )
    strength = use(material.design_strength_lb, phi=use(material.phi_compression), S_n_lb=P_n)
    return line.add(
        "axial", "Wall under its loads, simplified method", walls.wall_axial_simplified_lb, action.P_u_lb, strength, "lb",
        "The load, {e} from the middle of the wall and so within {third}, is {demand}; the strip takes {capacity}.",
        e=(action.e_in, "in"), third=(third, "in"),
    )  # fmt: skip


def _plain(line: _Lines, wall: WallStrip) -> tuple[LimitState, ...]:
    use, action, h = line.sheet.use, line.action, wall.h_in
    least = use(plain.plain_wall_thickness_minimum_in, l_in=wall.l_c_in)
    if wall.foundation:
        least = max(least, use(plain.plain_foundation_wall_thickness_minimum_in))
    thickness = line.add(
        "plain-thickness", "Least thickness of a plain wall", plain.plain_wall_thickness_minimum_in, least, h, "in",
        "A plain wall here is at least {demand} thick; it is {capacity}.",
    )  # fmt: skip
    e = max(action.e_in, use(plain.plain_minimum_eccentricity_in, h_in=h))
    phi = use(material.phi_plain)
    if e <= use(walls.middle_third_in, h_in=h) * (1 + ROUNDING):
        P_n = use(
            plain.plain_wall_axial_simplified_lb, f_c_psi=wall.f_c_psi, A_g_in2=wall.A_g_in2, l_c_in=wall.l_c_in, h_in=h
        )
        strength = use(material.design_strength_lb, phi=phi, S_n_lb=P_n)
        return thickness, line.add(
            "plain-axial", "Plain wall, loads in the middle third", plain.plain_wall_axial_simplified_lb, action.P_u_lb,
            strength, "lb", "The load, {e} from the middle of the wall, is {demand}; the plain strip takes {capacity}.",
            e=(e, "in"),
        )  # fmt: skip
    M_u = max(abs(action.M_u_lb_in), action.P_u_lb * e if action.P_u_lb > 0 else 0.0)
    return thickness, *_plain_faces(line, wall, phi, M_u)


def _plain_faces(line: _Lines, wall: WallStrip, phi: float, M_u: float) -> tuple[LimitState, LimitState]:
    use, P_u, f_c = line.sheet.use, line.action.P_u_lb, wall.f_c_psi
    S_m = use(plain.section_modulus_in3, b_in=wall.b_in, h_in=wall.h_in)
    P_n = use(plain.plain_axial_lb, f_c_psi=f_c, A_g_in2=wall.A_g_in2, l_c_in=wall.l_c_in, h_in=wall.h_in)
    M_n = use(plain.plain_moment_compression_lb_in, f_c_psi=f_c, S_m_in3=S_m)
    total = use(plain.plain_interaction, P_u_lb=P_u, phiP_n_lb=phi * P_n, M_u_lb_in=M_u, phiM_n_lb_in=phi * M_n)
    compressed = line.add(
        "plain-compression", "Plain wall, compressed face", plain.plain_interaction, total, 1.0, "",
        "Axial load and moment together reach {demand} of the compressed face's strength.",
    )  # fmt: skip
    stress = use(plain.plain_tension_psi, M_u_lb_in=M_u, S_m_in3=S_m, P_u_lb=P_u, A_g_in2=wall.A_g_in2)
    strength = phi * use(plain.plain_tension_strength_psi, f_c_psi=f_c)
    stretched = line.add(
        "plain-tension", "Plain wall, stretched face", plain.plain_tension_psi, max(0.0, stress), strength, "psi",
        "The stretched face reaches {demand} of tension; plain concrete is allowed {capacity}.",
    )  # fmt: skip
    return compressed, stretched


def _bent(line: _Lines, wall: WallStrip) -> tuple[LimitState, ...]:
    action, strip = line.action, wall.bent(line.action.M_u_lb_in).checked()
    axial = _axial(line, wall, strip)
    ratio = -1.0 if action.lateral else action.M_ratio
    kl_r = line.sheet.use(slender.slenderness, k=wall.k, l_c_in=wall.l_c_in, h_in=wall.h_in)
    limit = line.sheet.use(slender.slenderness_limit, M_ratio=ratio)
    M_c, second_order = _magnified(line, wall) if kl_r > limit else (abs(action.M_u_lb_in), ())
    return axial, *second_order, _moment(line, strip, M_c, kl_r)


def _axial(line: _Lines, wall: WallStrip, strip: bending.Strip) -> LimitState:
    use = line.sheet.use
    counted = strip.A_st_in2 if strip.counts_compression else 0.0
    P_o = use(
        bending.squash_load_lb, f_c_psi=wall.f_c_psi, A_g_in2=wall.A_g_in2, f_y_psi=wall.f_y_psi, A_st_in2=counted
    )
    strength = use(bending.greatest_axial_lb, phi=use(material.phi_compression), P_o_lb=P_o)
    return line.add(
        "axial-limit", "Wall strip, greatest axial load", bending.greatest_axial_lb, line.action.P_u_lb, strength, "lb",
        "The strip carries {demand}; at any eccentricity it may carry {capacity} at most.",
    )  # fmt: skip


def _magnified(line: _Lines, wall: WallStrip) -> tuple[float | None, tuple[LimitState, ...]]:
    """Moment with slenderness, None where the strip buckles, and the lines on stability."""
    use, action, M_2 = line.sheet.use, line.action, abs(line.action.M_u_lb_in)
    E_c = use(material.modulus_psi, f_c_psi=wall.f_c_psi)
    P_c = use(
        slender.buckling_load_lb,
        E_c_psi=E_c,
        b_in=wall.b_in,
        h_in=wall.h_in,
        beta_dns=wall.beta_dns,
        k=wall.k,
        l_c_in=wall.l_c_in,
    )
    stands = action.P_u_lb < slender.PHI_K * P_c
    stable = line.add(
        "stability", "Wall strip, buckling", slender.buckling_load_lb, action.P_u_lb, slender.PHI_K * P_c, "lb",
        "The strip carries {demand}; three quarters of its buckling load are {capacity}.", holds=stands,
    )  # fmt: skip
    if not stands:
        return None, (stable,)
    shape = (
        use(slender.moment_shape_factor_with_lateral_load)
        if action.lateral
        else use(slender.moment_shape_factor, M_ratio=action.M_ratio)
    )
    delta = use(slender.magnification, C_m=shape, P_u_lb=action.P_u_lb, P_c_lb=P_c)
    second = line.add(
        "second-order", "Wall strip, second-order moment", slender.magnification, delta, slender.LARGEST_MAGNIFICATION, "",
        "Slenderness multiplies the moment by {demand}; {capacity} is the most allowed.",
    )  # fmt: skip
    least = use(slender.least_moment_lb_in, P_u_lb=action.P_u_lb, h_in=wall.h_in)
    M_c = use(slender.magnified_moment_lb_in, delta=delta, M_2_lb_in=M_2, M_2min_lb_in=least)
    return M_c, (stable, second)


def _moment(line: _Lines, strip: bending.Strip, M_c: float | None, kl_r: float) -> LimitState:
    P_u, unchecked = line.action.P_u_lb, ""
    found = bending.capacity_at(strip, P_u)
    if M_c is None:
        M_c, unchecked = abs(line.action.M_u_lb_in), "the strip buckles before it bends"
    elif found is bending.NOTHING:
        unchecked = "the axial load alone is more than the strip carries"
    elif line.sheet.recording:
        _record(line.sheet, strip, P_u)
    return line.add(
        "moment", "Wall strip, moment with this axial load", bending.nominal_moment_lb_in, M_c, found.phiM_n_lb_in, "lb-in",
        "The moment is {demand}; with {P_u} on it the strip takes {capacity}. Its slenderness is {slenderness}.",
        unchecked, P_u=(P_u, "lb"), slenderness=(kl_r, ""),
    )  # fmt: skip


def _record(sheet: Worksheet, strip: bending.Strip, P_u: float) -> None:
    """The working behind `capacity_at`, clause by clause."""
    c = sheet.use(bending.neutral_axis_in, strip=strip, P_u_lb=P_u)
    sheet.use(material.beta_1, f_c_psi=strip.f_c_psi)
    strain = sheet.use(bending.tension_strain, d_t_in=strip.d_t_in, c_in=c)
    sheet.use(material.phi_by_strain, epsilon_t=strain, f_y_psi=strip.f_y_psi)
    sheet.use(bending.nominal_moment_lb_in, strip=strip, c_in=c)
