"""What only a ledger on a concrete wall asks: the couple on its bolts, its stiffness across the grain, what may hold the wall."""

from engine.tables.reading import SLACK, above_zero
from engine.worksheet import clause

# Wood Handbook (FPL-GTR-282), Table 5-1: E_T / E_L of Douglas-fir 0.050, of southern pines 0.08. provenance: memory
ACROSS_OVER_ALONG = 20
CODE_CATEGORIES = ("C", "D0", "D1", "D2", "E", "F")


@clause(
    "statics",
    "",
    title="Pull of the couple on one bolt place",
    symbol="T",
    unit="lb",
    formula="V * e / z",
    provenance="derived",
    note="The load's lever is held by bolts pulling and the ledger's lower contact pressing.",
)
def couple_pull_lb(V_lb: float, e_in: float, z_in: float) -> float:
    """Args: V_lb: load of one bolt place. e_in: its lever. z_in: between pull and pressure [in]. Returns: [lb]."""
    above_zero(z_in=z_in)
    return V_lb * e_in / z_in


@clause(
    "statics", "", title="Pull of a tie", symbol="T", unit="lb", formula="w * s / 12", provenance="derived"
)  # fmt: skip
def tie_pull_lb(w_plf: float, s_in: float) -> float:
    """Args: w_plf: force across the wall. s_in: tie spacing [in]. Returns: [lb]."""
    return w_plf * s_in / 12


@clause(
    "NDS",
    "11.3.6.3",
    title="Stiffness of a ledger across its grain",
    symbol="EA",
    unit="lb",
    formula="E / 20 * b * w",
    provenance="memory",
    note="Loaded across the grain the width is the spacing of the bolts; E across is taken as a twentieth of E along.",
)
def stiffness_across_lb(E_psi: float, b_in: float, w_in: float) -> float:
    """For group action. Args: E_psi: along the grain [psi]. b_in: thickness. w_in: wood that belongs to a bolt [in].

    Source: NDS 2018 11.3.6.3; ratio of moduli Wood Handbook, Table 5-1.
    """
    above_zero(E_psi=E_psi, b_in=b_in, w_in=w_in)
    return E_psi / ACROSS_OVER_ALONG * b_in * w_in


@clause(
    "geometry",
    "",
    title="Stiffness of the core behind a bolt",
    symbol="EA",
    unit="lb",
    formula="E_c * t * w",
    provenance="geometry",
)
def stiffness_core_lb(E_c_psi: float, t_in: float, w_in: float) -> float:
    """For group action. Args: E_c_psi. t_in: core. w_in: concrete that belongs to a bolt [in]. Returns: [lb]."""
    return E_c_psi * t_in * w_in


@clause(
    "ASCE 7",
    "12.11.2.2.3",
    title="Ledger as a tie between wall and floor",
    rule="Categories C to F: no wood ledger in cross-grain bending or tension may tie a concrete wall to a wood floor.",
    provenance="memory",
)
def cross_grain_barred(category: str) -> bool:
    """Whether the code itself bars it; elsewhere it is a rule of this project. Args: category: "A" to "F". Source: as cited."""
    return category in CODE_CATEGORIES


@clause(
    "IRC",
    "Tables R608.9(1), (2)",
    title="Ties fall on bolts",
    rule="Each row of the tables pairs a bolt spacing with a tie spacing that is a whole multiple of it.",
)
def ties_fall_on_bolts(tie_in: float, bolt_in: float) -> bool:
    """Args: spacings of ties and of bolts [in]. Source: IRC Tables R608.9(1) and (2), every row."""
    above_zero(tie_in=tie_in, bolt_in=bolt_in)
    over = tie_in / bolt_in
    return over >= 1 - SLACK and abs(over - round(over)) <= SLACK
