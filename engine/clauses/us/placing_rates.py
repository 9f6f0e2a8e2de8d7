"""Rates, volumes, web forces and bracing while a wall is filled: statics and volume balance, with the practice they stand on."""

from math import ceil, cos, radians, sin

from engine.tables.reading import above_zero
from engine.worksheet import clause

LEAST_TOP_LOAD_PLF = (
    100.0  # ACI 347-04 2.3 (read in a digest): wall forms braced for 100 lb/ft at the top or 15 psf of wind
)
BRACING_WIND_PSF = 15.0


@clause(
    "volume balance",
    "",
    title="Rate of rise",
    symbol="R",
    formula="27 * Q / (L * t / 12)",
    provenance="derived",
)
def rate_of_rise_ft_per_h(Q: float, L_ft: float, t_in: float) -> float:
    """Args: Q: pumped [yd³/h]. L_ft: wall served in one circuit. t_in: core. Returns: [ft/h]."""
    above_zero(Q=Q, L_ft=L_ft, t_in=t_in)
    return 27 * Q / (L_ft * t_in / 12)


@clause(
    "volume balance",
    "",
    title="Time of one pass",
    symbol="t_pass",
    formula="60 * L * t / 12 * lift / (27 * Q)",
    provenance="derived",
)
def pass_minutes(Q: float, L_ft: float, t_in: float, lift_ft: float) -> float:
    """Minutes to fill one lift right round. Args: Q [yd³/h]. lift_ft [ft]."""
    above_zero(Q=Q, L_ft=L_ft, t_in=t_in, lift_ft=lift_ft)
    return 60 * L_ft * t_in / 12 * lift_ft / (27 * Q)


@clause("volume balance", "", title="Passes", symbol="n", formula="ceil(H / lift - 1e-9)", provenance="derived")
def passes(H_ft: float, lift_ft: float) -> int:
    """Lifts to the top. Args: H_ft: wall height. lift_ft."""
    above_zero(H_ft=H_ft, lift_ft=lift_ft)
    return ceil(H_ft / lift_ft - 1e-9)


@clause("volume balance", "", title="Concrete in a wall", symbol="V", formula="A * t / 12 / 27", provenance="derived")
def wall_volume_yd3(A_ft2: float, t_in: float) -> float:
    """Args: A_ft2: face less openings. t_in: core. Returns: [yd³]."""
    above_zero(t_in=t_in)
    return A_ft2 * t_in / 12 / 27


@clause(
    "statics",
    "",
    title="Force on one web or tie",
    symbol="F",
    unit="lb",
    formula="p * s_h * s_v / 144",
    provenance="derived",
)
def web_force_lb(p_psf: float, s_h_in: float, s_v_in: float) -> float:
    """Args: p_psf: pressure. s_h_in, s_v_in: webs' spacing across and up [in]. Returns: [lb]."""
    above_zero(s_h_in=s_h_in, s_v_in=s_v_in)
    return p_psf * s_h_in * s_v_in / 144


@clause(
    "ACI 347R", "4.2.3", title="Load at the top of a wall form", symbol="q", unit="plf", formula="max(100, w * H / 2)"
)
def bracing_load_plf(w_psf: float, H_ft: float) -> float:
    """100 lb/ft, or wind on the form brought to its top. Args: w_psf: wind. H_ft: form height. Source: ACI 347-04 2.3."""
    return max(LEAST_TOP_LOAD_PLF, w_psf * H_ft / 2)


@clause(
    "statics", "", title="Reaction at the brace", symbol="R_b", unit="plf", formula="q * H / a", provenance="derived"
)
def brace_reaction_plf(q_plf: float, H_ft: float, a_ft: float) -> float:
    """Args: q_plf: load at the top. H_ft: form height. a_ft: brace above the floor [ft]."""
    above_zero(a_ft=a_ft)
    return q_plf * H_ft / a_ft


@clause(
    "statics",
    "",
    title="Force along a brace",
    symbol="N",
    unit="lb",
    formula="R_b * s / cos(theta)",
    provenance="derived",
)
def brace_axial_lb(R_b_plf: float, s_ft: float, theta_deg: float) -> float:
    """Args: R_b_plf: reaction. s_ft: brace spacing. theta_deg: brace above the floor's plane [°]."""
    return R_b_plf * s_ft / cos(radians(theta_deg))


@clause(
    "statics",
    "",
    title="Vertical part of a brace's force",
    symbol="N_v",
    unit="lb",
    formula="N * sin(theta)",
    provenance="derived",
)
def brace_vertical_lb(N_lb: float, theta_deg: float) -> float:
    """Args: N_lb: force along the brace. theta_deg [°]."""
    return N_lb * sin(radians(theta_deg))


@clause(
    "ASTM C1074",
    "Nurse-Saul",
    title="Maturity",
    symbol="M",
    formula="max(T - T_0, 0) * t",
    provenance="memory",
)
def maturity(T: float, T_0: float, t: float) -> float:
    """Temperature-time factor [°C·h]. Args: T, T_0: concrete and datum [°C]. t: hours. Source: ASTM C1074, recalled."""
    return max(T - T_0, 0.0) * t
