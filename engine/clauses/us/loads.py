"""Loads by type and their combinations: ASCE 7 section 2.3 (strength) and 2.4 (allowable stress), floors and roofs on walls."""

from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from engine.editions import Citation, Edition
from engine.worksheet import clause

# ASCE 7-16 and 7-22 sections 2.3.1, 2.3.6, 2.4.1, 2.4.5. provenance: memory. L is taken whole beside W and E (the reduction to
# 0.5 L is optional); L_r, S never act together. The factor of S beside others fell with the 2022 edition's mapped values.
STRENGTH = Citation("ASCE 7", "2.3")
ALLOWABLE = Citation("ASCE 7", "2.4")

# NDS Table 2.3.2, Appendix B; read in a formwork textbook's Table 4-5 and an AWC-based course: 0.9, 1.0, 1.15, 1.25, 1.6.
DURATION = (("E", 1.6), ("W", 1.6), ("Lr", 1.25), ("S", 1.15), ("L", 1.0), ("D", 0.9))


@dataclass(frozen=True, slots=True)
class Loads:
    """Unfactored effects by type, all in one unit (psf, plf, lb or lb-in): dead, floor live, roof live, snow, wind, seismic."""

    D: float = 0.0
    L: float = 0.0
    Lr: float = 0.0
    S: float = 0.0
    W: float = 0.0
    E: float = 0.0

    def times(self, k: float) -> "Loads":
        """The same loads scaled, e.g. area loads times a tributary width."""
        return Loads(self.D * k, self.L * k, self.Lr * k, self.S * k, self.W * k, self.E * k)

    def plus(self, other: "Loads") -> "Loads":
        """Both together, type by type."""
        return Loads(
            self.D + other.D,
            self.L + other.L,
            self.Lr + other.Lr,
            self.S + other.S,
            self.W + other.W,
            self.E + other.E,
        )


class Combination(NamedTuple):
    """Factors of one combination, in the order of `Loads`; `label` as the standard prints it."""

    label: str
    D: float
    L: float
    Lr: float
    S: float
    W: float
    E: float

    def total(self, loads: Loads) -> float:
        """The combined effect, in the loads' unit."""
        return (
            self.D * loads.D
            + self.L * loads.L
            + self.Lr * loads.Lr
            + self.S * loads.S
            + self.W * loads.W
            + self.E * loads.E
        )


def _snow_factors(edition: Edition) -> tuple[float, float, float, float]:
    """Strength main and companion, allowable main and seismic-companion factors of S."""
    return (1.0, 0.3, 0.7, 0.15) if edition.title("ASCE 7") == "ASCE 7-22" else (1.6, 0.5, 1.0, 0.2)


@cache
def strength_combinations(edition: Edition) -> tuple[Combination, ...]:
    """ASCE 7 2.3.1 and 2.3.6 for concrete and anchors. provenance: memory."""
    main, companion, _, seismic = _snow_factors(edition)
    c = Combination
    return (
        c("1.4D", 1.4, 0, 0, 0, 0, 0),
        c("1.2D + 1.6L + 0.5Lr", 1.2, 1.6, 0.5, 0, 0, 0),
        c(f"1.2D + 1.6L + {companion:g}S", 1.2, 1.6, 0, companion, 0, 0),
        c("1.2D + 1.6Lr + L", 1.2, 1.0, 1.6, 0, 0, 0),
        c(f"1.2D + {main:g}S + L", 1.2, 1.0, 0, main, 0, 0),
        c("1.2D + 1.6Lr + 0.5W", 1.2, 0, 1.6, 0, 0.5, 0),
        c(f"1.2D + {main:g}S + 0.5W", 1.2, 0, 0, main, 0.5, 0),
        c("1.2D + W + L + 0.5Lr", 1.2, 1.0, 0.5, 0, 1.0, 0),
        c(f"1.2D + W + L + {companion:g}S", 1.2, 1.0, 0, companion, 1.0, 0),
        c("0.9D + W", 0.9, 0, 0, 0, 1.0, 0),
        c(f"1.2D + E + L + {seismic:g}S", 1.2, 1.0, 0, seismic, 0, 1.0),
        c("0.9D + E", 0.9, 0, 0, 0, 0, 1.0),
    )


@cache
def allowable_combinations(edition: Edition) -> tuple[Combination, ...]:
    """ASCE 7 2.4.1 and 2.4.5 for wood. provenance: memory."""
    _, _, snow, _ = _snow_factors(edition)
    three = f"{0.75 * snow:g}"
    c = Combination
    return (
        c("D", 1.0, 0, 0, 0, 0, 0),
        c("D + L", 1.0, 1.0, 0, 0, 0, 0),
        c("D + Lr", 1.0, 0, 1.0, 0, 0, 0),
        c("D + S" if snow == 1 else f"D + {snow:g}S", 1.0, 0, 0, snow, 0, 0),
        c("D + 0.75L + 0.75Lr", 1.0, 0.75, 0.75, 0, 0, 0),
        c(f"D + 0.75L + {three}S", 1.0, 0.75, 0, 0.75 * snow, 0, 0),
        c("D + 0.6W", 1.0, 0, 0, 0, 0.6, 0),
        c("D + 0.75L + 0.45W + 0.75Lr", 1.0, 0.75, 0.75, 0, 0.45, 0),
        c(f"D + 0.75L + 0.45W + {three}S", 1.0, 0.75, 0, 0.75 * snow, 0.45, 0),
        c("0.6D + 0.6W", 0.6, 0, 0, 0, 0.6, 0),
        c("D + 0.7E", 1.0, 0, 0, 0, 0, 0.7),
        c("D + 0.525E + 0.75L + " + ("0.75S" if snow == 1 else "0.525S"), 1.0, 0.75, 0, 0.75 * snow, 0, 0.525),
        c("0.6D + 0.7E", 0.6, 0, 0, 0, 0, 0.7),
    )


def load_duration_factor(combination: Combination, loads: Loads) -> float:
    """C_D of the shortest load really present in a combination (NDS 2.3.2; 1.6 is the most a connection may use)."""
    for name, factor in DURATION:
        if getattr(combination, name) and getattr(loads, name):
            return factor
    return 0.9


@cache
def _durations(edition: Edition, present: tuple[bool, ...]) -> tuple[tuple[Combination, float], ...]:
    """Allowable combinations with their C_D, by which types of load are there at all."""
    loads = Loads(*map(float, present))
    return tuple((c, load_duration_factor(c, loads)) for c in allowable_combinations(edition))


class Governing(NamedTuple):
    """The combination that asks most: its label, the demand, C_D (1.0 for strength), and demand / C_D."""

    label: str
    demand: float
    C_D: float
    weighted: float


def governing_allowable(edition: Edition, loads: Loads, *, duration: bool = True) -> Governing:
    """The allowable-stress combination with the largest demand / C_D (`duration` False: C_D left out, as for F_c⊥).

    Args: loads in any one unit. Returns: labels and values in that unit.
    """
    best = Governing("D", 0.0, 1.0, 0.0)
    D, L, Lr, S, W, E = loads.D, loads.L, loads.Lr, loads.S, loads.W, loads.E
    for combination, C_D in _durations(edition, (D != 0, L != 0, Lr != 0, S != 0, W != 0, E != 0)):
        total, C_D = combination.total(loads), C_D if duration else 1.0
        if total / C_D > best.weighted:
            best = Governing(combination.label, total, C_D, total / C_D)
    return best


def governing_strength(edition: Edition, loads: Loads) -> Governing:
    """The strength combination with the largest sum. Args: loads in any one unit."""
    best = Governing("1.4D", 0.0, 1.0, 0.0)
    for combination in strength_combinations(edition):
        total = combination.total(loads)
        if total > best.demand:
            best = Governing(combination.label, total, 1.0, total)
    return best


@clause(
    "statics",
    "",
    title="End reaction of a simple span",
    symbol="R",
    unit="lb",
    formula="w * s / 12 * L / 2",
    provenance="derived",
)
def simple_span_reaction_lb(w_psf: float, s_in: float, L_ft: float) -> float:
    """Reaction of one joist of a uniformly loaded simple span.

    Args: w_psf: area load [psf]. s_in: joist spacing [in]. L_ft: span [ft]. Returns: reaction [lb]. Source: statics.
    """
    return w_psf * s_in / 12 * L_ft / 2
