"""Bars that lap without touching: ACI 318-19 section 25.5.1.3."""

from engine.worksheet import clause


@clause(
    "ACI 318",
    "25.5.1.3",
    title="Farthest apart that lapped bars may stand",
    symbol="a_max",
    unit="in",
    formula="min(l_st / 5, 6)",
    provenance="memory",
)
def noncontact_lap_offset_in(l_st_in: float) -> float:
    """Largest distance between the centres of two bars that lap without touching.

    Args: l_st_in: required lap [in]. Returns: [in]. Source: ACI 318-19 25.5.1.3.
    """
    return min(l_st_in / 5, 6.0)
