"""A strip of reinforced wall under axial load and bending: strain compatibility with the stress block, ACI 318-19 22.2 to 22.4.

Compression and a moment that compresses the face the bar depths are measured from are positive.
"""

from collections.abc import Callable
from math import sqrt
from typing import NamedTuple

from engine.clauses.us.concrete_material import E_S_PSI, EPSILON_CU, above_zero, beta_1, phi_by_strain, phi_compression
from engine.errors import BadInput, OutOfScope
from engine.result import ROUNDING
from engine.worksheet import clause

Bars = tuple[tuple[float, float], ...]

# ACI 318-19 22.4.2.1 caps f_y at 80 ksi in the axial strength. provenance: read in a digest of ACI 318M-19 (550 MPa).
LARGEST_F_Y_PSI = 80_000.0
LARGEST_STEEL_RATIO = 0.04


class Strip(NamedTuple):
    """A rectangular strip of wall.

    b_in: width [in]. h_in: thickness [in]. f_c_psi, f_y_psi [psi]. bars: (area [in²], depth from the compressed face [in]) of
    each layer. tied: ties hold the bars, so that more than 0.01 A_g may carry compression (11.7.4.1).
    """

    b_in: float
    h_in: float
    f_c_psi: float
    f_y_psi: float
    bars: Bars
    tied: bool = False

    @property
    def A_st_in2(self) -> float:
        """All vertical steel [in²]."""
        return sum(area for area, _ in self.bars)

    @property
    def d_t_in(self) -> float:
        """Depth of the layer farthest from the compressed face [in]."""
        return max(depth for _, depth in self.bars)

    @property
    def counts_compression(self) -> bool:
        """Whether bars may carry compression: tied, or no more than 0.01 A_g (ACI 318-19 11.7.4.1)."""
        return self.tied or self.A_st_in2 <= 0.01 * self.b_in * self.h_in * (1 + 1e-9)

    def turned(self) -> "Strip":
        """The same strip bent the other way."""
        return self._replace(bars=tuple((area, self.h_in - depth) for area, depth in self.bars))

    def checked(self) -> "Strip":
        """This strip when it can be meant. Raises: BadInput naming what can't."""
        above_zero(b_in=self.b_in, h_in=self.h_in, f_c_psi=self.f_c_psi, f_y_psi=self.f_y_psi)
        if self.f_y_psi > LARGEST_F_Y_PSI:
            raise BadInput("f_y_psi", "Enter a yield strength of 80 ksi at most.")
        if not self.bars or any(not (area > 0 and 0 < depth < self.h_in) for area, depth in self.bars):
            raise BadInput("bars", "Enter bars with an area above 0 and a place within the wall.")
        if self.A_st_in2 > LARGEST_STEEL_RATIO * self.b_in * self.h_in:
            raise BadInput("bars", "The bars are more than 4 % of the wall. Enter fewer or smaller bars.")
        return self


class Capacity(NamedTuple):
    """The design curve at one axial load: neutral axis [in], strain of the outermost bar, φ, nominal moment [lb-in]."""

    c_in: float
    epsilon_t: float
    phi: float
    M_n_lb_in: float

    @property
    def phiM_n_lb_in(self) -> float:
        """Design moment [lb-in]."""
        return self.phi * self.M_n_lb_in


NOTHING = Capacity(0.0, 0.0, phi_compression(), 0.0)


def _section(strip: Strip) -> Callable[[float], tuple[float, float]]:
    """P_n and M_n as a function of c, what does not change with c worked out once."""
    b, h, block, f_y = strip.b_in, strip.h_in, 0.85 * strip.f_c_psi, strip.f_y_psi
    ratio, counted, bars = beta_1(strip.f_c_psi), strip.counts_compression, strip.bars

    def at(c: float) -> tuple[float, float]:
        a = min(ratio * c, h)
        P = block * a * b
        M = P * (h - a) / 2
        for area, d in bars:
            stress = E_S_PSI * EPSILON_CU * (c - d) / c
            if stress > 0:
                if not counted:
                    continue
                stress = min(stress, f_y) - (block if d < a else 0.0)
            elif stress < -f_y:
                stress = -f_y
            P += area * stress
            M += area * stress * (h / 2 - d)
        return P, M

    return at


def resultants(strip: Strip, c_in: float) -> tuple[float, float]:
    """Nominal axial force and moment about mid-depth with the neutral axis at depth c.

    Args: c_in: above 0 [in]. Returns: P_n [lb], M_n [lb-in]. Source: ACI 318-19 22.2: strain 0.003 at the face, 0.85 f'c over
    a = beta_1 c, bars elastic to f_y, concrete a bar displaces inside the block taken off.
    """
    return _section(strip)(c_in)


@clause(
    "ACI 318",
    "22.4.2.2",
    title="Axial strength without bending",
    symbol="P_o",
    unit="lb",
    formula="0.85 * f_c * (A_g - A_st) + f_y * A_st",
    note="A_st is 0 where the bars pass 0.01 A_g without ties.",
)
def squash_load_lb(f_c_psi: float, A_g_in2: float, f_y_psi: float, A_st_in2: float) -> float:
    """Strength under a centred load.

    Args: f_c_psi [psi]. A_g_in2 [in²]. f_y_psi [psi]. A_st_in2: bars that count in compression [in²]. Returns: [lb].
    Source: ACI 318-19 22.4.2.2.
    """
    return 0.85 * f_c_psi * (A_g_in2 - A_st_in2) + f_y_psi * A_st_in2


@clause(
    "ACI 318",
    "22.4.2.1",
    title="Greatest design axial strength",
    symbol="phi P_n,max",
    unit="lb",
    formula="phi * 0.80 * P_o",
)
def greatest_axial_lb(phi: float, P_o_lb: float) -> float:
    """Most axial load a strip may carry at any eccentricity.

    Args: phi: compression-controlled. P_o_lb: `squash_load_lb`. Returns: [lb]. Source: ACI 318-19 22.4.2.1, 11.4.2.1.
    """
    return phi * 0.80 * P_o_lb


@clause(
    "ACI 318",
    "22.2.1",
    title="Depth to the neutral axis at this axial load",
    symbol="c",
    unit="in",
    rule="The depth at which phi P_n of the stress block and the bars equals P_u, found by bracketing.",
)
def neutral_axis_in(strip: Strip, P_u_lb: float) -> float:
    """Neutral axis of the design curve at an axial load.

    Args: strip. P_u_lb: 0 to the greatest design axial strength [lb].
    Returns: [in], 0 where the load is more than the curve reaches. Raises: BadInput; OutOfScope in net tension.
    """
    return _on_curve(strip.checked(), P_u_lb).c_in


@clause(
    "ACI 318",
    "21.2.2",
    title="Strain of the outermost tension bar",
    symbol="epsilon_t",
    formula="0.003 * (d_t - c) / c",
)
def tension_strain(d_t_in: float, c_in: float) -> float:
    """Net tensile strain at nominal strength.

    Args: d_t_in: depth of the outermost layer [in]. c_in: neutral axis [in]. Source: ACI 318-19 21.2.2, 22.2.1.2.
    """
    return EPSILON_CU * (d_t_in - c_in) / c_in


@clause(
    "ACI 318",
    "22.4.1",
    title="Nominal moment at that neutral axis",
    symbol="M_n",
    unit="lb-in",
    rule="Moments of the stress block and the bars about mid-depth.",
)
def nominal_moment_lb_in(strip: Strip, c_in: float) -> float:
    """Nominal moment about mid-depth. Args: strip. c_in [in]. Returns: [lb-in]. Source: ACI 318-19 22.2, 22.4.1."""
    above_zero(c_in=c_in)
    return resultants(strip, c_in)[1]


def design_axial_limit_lb(strip: Strip) -> float:
    """φ P_n,max of a strip with its own bars [lb]. Source: ACI 318-19 22.4.2.1."""
    A_st = strip.A_st_in2 if strip.counts_compression else 0.0
    P_o = squash_load_lb(strip.f_c_psi, strip.b_in * strip.h_in, strip.f_y_psi, A_st)
    return greatest_axial_lb(phi_compression(), P_o)


def refuse_tension(P_u_lb: float) -> None:
    """Raises: OutOfScope when the strip is pulled upward as a whole [lb]."""
    if P_u_lb < 0:
        raise OutOfScope(
            "ACI 318 22.4.3",
            "The wall is pulled upward as a whole. Bring the uplift and the bars to a licensed engineer.",
        )


def capacity_at(strip: Strip, P_u_lb: float) -> Capacity:
    """Design moment that goes with an axial load.

    Args: strip. P_u_lb: factored axial load, compression positive [lb].
    Returns: the point of the φ curve; no moment at all above φ P_n,max.
    Raises: BadInput for a strip that can't be meant; OutOfScope in net tension.
    """
    strip.checked()
    refuse_tension(P_u_lb)
    if P_u_lb > design_axial_limit_lb(strip) * (1 + ROUNDING):
        return NOTHING
    return _on_curve(strip, P_u_lb)


def _on_curve(strip: Strip, P_u_lb: float) -> Capacity:
    """The point on each stretch of the curve that passes P_u (φ constant, falling, constant); the least moment counts."""
    d_t, f_y, eps_y, section = strip.d_t_in, strip.f_y_psi, strip.f_y_psi / E_S_PSI, _section(strip)
    all_yield_in_compression = EPSILON_CU * d_t / (EPSILON_CU - eps_y)
    stops = (
        1e-6 * strip.h_in,
        EPSILON_CU * d_t / (2 * EPSILON_CU + eps_y),
        EPSILON_CU * d_t / (EPSILON_CU + eps_y),
        max(strip.h_in / beta_1(strip.f_c_psi), all_yield_in_compression),
    )

    def surplus(c: float) -> float:
        return phi_by_strain(EPSILON_CU * (d_t - c) / c, f_y) * section(c)[0] - P_u_lb

    def point(c: float) -> Capacity:
        strain = tension_strain(d_t, c)
        return Capacity(c, strain, phi_by_strain(strain, f_y), max(0.0, section(c)[1]))

    at = [surplus(c) for c in stops]
    roots = [_root(surplus, stops[i], stops[i + 1], at[i], at[i + 1]) for i in range(3) if at[i] <= 0 < at[i + 1]]
    return min(map(point, roots), key=lambda found: found.phiM_n_lb_in, default=NOTHING)


def _root(f: Callable[[float], float], low: float, high: float, f_low: float, f_high: float) -> float:
    """Rising root in a bracket by Ridders' rule: the bracket at least halves each time, also across a jump of f."""
    while high - low > 1e-10 * high:
        middle = (low + high) / 2
        f_middle = f(middle)
        bent = sqrt(f_middle**2 - f_low * f_high)
        guess = middle - (middle - low) * f_middle / bent if bent else middle
        f_guess = f(guess)
        if f_guess == 0:
            return guess
        for x, value in ((middle, f_middle), (guess, f_guess)):
            if value <= 0 and x >= low:
                low, f_low = x, value
            elif value > 0 and x <= high:
                high, f_high = x, value
    return (low + high) / 2
