"""Strength reduction factors of cast-in anchors: ACI 318-19 17.5.3, and what makes a design strength of a nominal one."""

from engine.worksheet import clause


@clause(
    "ACI 318",
    "17.5.3(a)",
    title="Factor for steel in tension",
    symbol="phi",
    rule="0.75 for a ductile steel, 0.65 for a brittle one",
)
def phi_steel_tension(ductile: bool) -> float:
    """Source: ACI 318-19 Table 17.5.3(a)."""
    return 0.75 if ductile else 0.65


@clause(
    "ACI 318",
    "17.5.3(a)",
    title="Factor for steel in shear",
    symbol="phi",
    rule="0.65 for a ductile steel, 0.60 for a brittle one",
)
def phi_steel_shear(ductile: bool) -> float:
    """Source: ACI 318-19 Table 17.5.3(a)."""
    return 0.65 if ductile else 0.60


@clause(
    "ACI 318",
    "17.5.3(b)",
    title="Factor for concrete breakout and side-face blowout",
    symbol="phi",
    rule="0.75 with supplementary reinforcement across the failure surface, 0.70 without",
)
def phi_breakout(supplementary: bool) -> float:
    """Cast-in anchors, tension and shear. Source: ACI 318-19 Table 17.5.3(b)."""
    return 0.75 if supplementary else 0.70


@clause(
    "ACI 318",
    "17.5.3(c)",
    title="Factor for pullout and pryout",
    symbol="phi",
    rule="0.70, whatever reinforcement there is",
)
def phi_pullout() -> float:
    """Cast-in anchors, also for pryout. Source: ACI 318-19 Table 17.5.3(c)."""
    return 0.70


@clause("ACI 318", "17.5.1.2", title="Design strength", symbol="phi R_n", unit="lb", formula="phi * R_n")
def design_strength_lb(phi: float, R_n_lb: float) -> float:
    """Args: phi: factor. R_n_lb: nominal strength [lb]. Returns: [lb]. Source: ACI 318-19 17.5.1.2."""
    return phi * R_n_lb


@clause(
    "ACI 318",
    "17.10.5.4",
    title="Design strength of concrete in tension under earthquake",
    symbol="0.75 phi N_n",
    unit="lb",
    formula="0.75 * phi * N_n",
)
def seismic_tension_strength_lb(phi: float, N_n_lb: float) -> float:
    """Breakout, pullout and side-face blowout; steel is not reduced. Args: as named [lb]. Source: ACI 318-19 17.10.5.4."""
    return 0.75 * phi * N_n_lb


@clause(
    "ACI 318",
    "17.5.2.1",
    title="Anchor reinforcement needed",
    symbol="A_s",
    unit="in²",
    formula="N_u / (0.75 * f_y)",
)
def anchor_reinforcement_in2(N_u_lb: float, f_y_psi: float) -> float:
    """Bars that take the place of breakout, developed on both sides of the surface; phi is 0.75.

    Args: N_u_lb: factored force [lb]. f_y_psi: yield strength [psi]. Returns: [in²]. Source: ACI 318-19 17.5.2.1.
    """
    return N_u_lb / (0.75 * f_y_psi)
