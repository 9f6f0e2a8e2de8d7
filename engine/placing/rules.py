"""Rules of placing that stand in no other chapter: rate over unset concrete, surge, weather limits, webs, orders."""

from math import ceil

from engine.tables.reading import SLACK, above_zero
from engine.worksheet import clause

COLD_AIR_F = 40.0
HOTTEST_F = 95.0
METHODS_APART = 1.25  # common practice: two published methods this far apart are worth a warning


@clause(
    "volume balance", "", title="Rate over all concrete not yet set", symbol="R", formula="h / t", provenance="derived",
    note="Waits that leave the concrete soft count as time; longer ones start a new height.",
)  # fmt: skip
def average_rate_ft_per_h(h_ft: float, t: float) -> float:
    """Args: h_ft: height of concrete not yet set. t: hours since it was begun. Returns: [ft/h]."""
    above_zero(h_ft=h_ft, t=t)
    return h_ft / t


@clause(
    "ACI 347R", "4.2.2.1", title="Pressure where the form is filled from its bottom", symbol="p", unit="psf",
    formula="1.25 * w * h", note="The liquid head and at least a quarter more for the pump's surge.",
)  # fmt: skip
def surge_psf(w_pcf: float, h_ft: float) -> float:
    """Args: w_pcf: unit weight. h_ft: depth [ft]. Returns: [psf]. Source: ACI 347-04 2.2.2, read in a digest."""
    above_zero(w_pcf=w_pcf, h_ft=h_ft)
    return 1.25 * w_pcf * h_ft


@clause(
    "ACI 347R", "", title="Working strength of a form tie", symbol="F_w", unit="lb", formula="F_u / 2",
    note="Safety factor 2.0 on the tested strength.",
)  # fmt: skip
def tie_strength_lb(F_u_lb: float) -> float:
    """Args: F_u_lb: tested strength. Returns: [lb]. Source: ACI 347-04, form tie safety factors, read in a digest."""
    above_zero(F_u_lb=F_u_lb)
    return F_u_lb / 2


@clause(
    "ACI 306R", "", title="Cold weather",
    rule="Air at or expected below 40 °F while the concrete is protected; then its own temperature as placed is limited.",
)  # fmt: skip
def cold_weather(air_F: float) -> bool:
    """Whether the cold-weather temperatures are asked for. Args: air_F: lowest expected. Source: ACI 306R, concrete.org (read)."""
    return air_F < COLD_AIR_F - SLACK


@clause("ACI 301", "", title="Hottest concrete when placed", rule="95 °F.")
def hottest_F() -> float:
    """Most the concrete may have at placing [°F]. Source: ACI 301, read in a specification that quotes it (35 °C)."""
    return HOTTEST_F


@clause(
    "common practice", "", title="Slump on arrival, at most", symbol="S", unit="in", formula="S_o + dS",
    provenance="common practice",
)  # fmt: skip
def slump_on_arrival_in(S_o_in: float, dS_in: float) -> float:
    """Args: S_o_in: ordered. dS_in: tolerance. Returns: [in]."""
    return S_o_in + dS_in


@clause(
    "common practice", "", title="How far two methods part", symbol="k", formula="max(p_1, p_2) / min(p_1, p_2)",
    provenance="common practice",
)  # fmt: skip
def methods_apart(p_1_psf: float, p_2_psf: float) -> float:
    """The larger of two pressures over the smaller. Args: p_1_psf, p_2_psf: above zero."""
    above_zero(p_1_psf=p_1_psf, p_2_psf=p_2_psf)
    return max(p_1_psf, p_2_psf) / min(p_1_psf, p_2_psf)


@clause(
    "volume balance", "", title="Concrete to order", symbol="V_o", formula="V * (1 + x / 100)", provenance="common practice"
)  # fmt: skip
def order_yd3(V: float, x: float) -> float:
    """Args: V: in the forms [yd³]. x: beyond it, for bulge and the pump line [%]. Returns: [yd³]."""
    return V * (1 + x / 100)


@clause("volume balance", "", title="Trucks", symbol="n", formula="ceil(V_o / v - 1e-9)", provenance="derived")
def trucks(V_o: float, v: float) -> int:
    """Args: V_o: ordered [yd³]. v: one truck [yd³]. Returns: a count."""
    above_zero(v=v)
    return ceil(V_o / v - SLACK)
