"""Concrete and bar steel as material, and the strength reduction factors: ACI 318-19 chapters 19 to 22."""

from math import inf, sqrt

from engine.errors import BadInput
from engine.worksheet import clause

# ACI 318-19 20.2.2.2 (E_s) and 22.2.2.1 (strain of concrete at nominal strength). provenance: read in a digest of ACI 318M-19.
E_S_PSI = 29_000_000.0
EPSILON_CU = 0.003


def above_zero(**values: float) -> None:
    """Refuse anything not a plain number above zero. Args: values: by their input names. Raises: BadInput for the first."""
    for name, value in values.items():
        if not 0 < value < inf:
            raise BadInput(name, "Enter a number above 0.")


def not_negative(**values: float) -> None:
    """Refuse anything below zero, NaN and infinity. Args: values: by their input names. Raises: BadInput for the first."""
    for name, value in values.items():
        if not 0 <= value < inf:
            raise BadInput(name, "Enter 0 or more.")


@clause(
    "ACI 318",
    "22.2.2.4.3",
    title="Depth of the stress block over depth to the neutral axis",
    symbol="beta_1",
    formula="min(0.85, max(0.65, 0.85 - 0.05 * (f_c - 4000) / 1000))",
)
def beta_1(f_c_psi: float) -> float:
    """Ratio a / c of the rectangular stress block.

    Args: f_c_psi: specified compressive strength [psi]. Returns: 0.85 down to 0.65. Source: ACI 318-19 Table 22.2.2.4.3.
    """
    return min(0.85, max(0.65, 0.85 - 0.05 * (f_c_psi - 4000) / 1000))


@clause(
    "ACI 318",
    "19.2.2.1",
    title="Modulus of elasticity of normal-weight concrete",
    symbol="E_c",
    unit="psi",
    formula="57000 * sqrt(f_c)",
)
def modulus_psi(f_c_psi: float) -> float:
    """Modulus of elasticity.

    Args: f_c_psi [psi]. Returns: [psi]. Raises: BadInput. Source: ACI 318-19 19.2.2.1(b).
    """
    above_zero(f_c_psi=f_c_psi)
    return 57000 * sqrt(f_c_psi)


@clause(
    "ACI 318",
    "19.2.4.1",
    title="Factor for lightweight concrete",
    symbol="lambda_c",
    formula="min(1, max(0.75, 0.0075 * w_c))",
    provenance="memory",
)
def lightweight_factor(w_c_pcf: float) -> float:
    """λ from the equilibrium density.

    Args: w_c_pcf: density [pcf]. Returns: 0.75 to 1.0. Source: ACI 318-19 Table 19.2.4.1(a).
    """
    return min(1.0, max(0.75, 0.0075 * w_c_pcf))


@clause("ACI 318", "21.2.1(d)", title="Strength reduction factor, bearing", symbol="phi", formula="0.65")
def phi_bearing() -> float:
    """φ for bearing. Source: ACI 318-19 Table 21.2.1."""
    return 0.65


@clause("ACI 318", "21.2.1(b)", title="Strength reduction factor, shear", symbol="phi", formula="0.75")
def phi_shear() -> float:
    """φ for shear and shear friction. Source: ACI 318-19 Table 21.2.1."""
    return 0.75


@clause("ACI 318", "21.2.1(f)", title="Strength reduction factor, brackets and corbels", symbol="phi", formula="0.75")
def phi_corbel() -> float:
    """φ for every action in a corbel. Source: ACI 318-19 Table 21.2.1."""
    return 0.75


@clause("ACI 318", "21.2.1(i)", title="Strength reduction factor, plain concrete", symbol="phi", formula="0.60")
def phi_plain() -> float:
    """φ for plain concrete in every mode. Source: ACI 318-19 Table 21.2.1."""
    return 0.60


@clause("ACI 318", "21.2.2", title="Strength reduction factor, compression-controlled", symbol="phi", formula="0.65")
def phi_compression() -> float:
    """φ of a compression-controlled section without spirals. Source: ACI 318-19 Table 21.2.2."""
    return 0.65


@clause(
    "ACI 318",
    "21.2.2",
    title="Strength reduction factor by tension strain",
    symbol="phi",
    formula="min(0.9, max(0.65, 0.65 + 0.25 * (epsilon_t - f_y / 29000000) / 0.003))",
)
def phi_by_strain(epsilon_t: float, f_y_psi: float) -> float:
    """φ for moment with axial force, from compression- to tension-controlled.

    Args: epsilon_t: strain of the extreme tension bar, tension positive. f_y_psi: yield strength [psi].
    Returns: 0.65 to 0.90. Source: ACI 318-19 Table 21.2.2 (ties or none).
    """
    return min(0.9, max(0.65, 0.65 + 0.25 * (epsilon_t - f_y_psi / E_S_PSI) / 0.003))


@clause("ACI 318", "22.1.3", title="Design strength", symbol="phi S_n", unit="lb", formula="phi * S_n")
def design_strength_lb(phi: float, S_n_lb: float) -> float:
    """Nominal strength reduced.

    Args: phi: strength reduction factor. S_n_lb: nominal strength [lb]. Returns: [lb]. Source: ACI 318-19 22.1.3.
    """
    return phi * S_n_lb
