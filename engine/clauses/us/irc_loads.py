"""Residential loads, deflection and joist spans. IRC R301.5, R301.7, R502.3.1."""

from math import sqrt

from engine import tables
from engine.clauses.us.timber_materials import lumber
from engine.errors import BadInput
from engine.tables.reading import choose
from engine.worksheet import clause

FLOOR_RATIO = 360.0  # Table R301.7, floors under live load
VENEER_LINTEL_RATIO = 600.0  # Table R301.7, lintels that carry masonry veneer, dead load included
REPETITIVE = 1.15  # NDS 4.3.9, recalled


@clause(
    "IRC",
    "Table R301.5",
    title="Live load of a use",
    symbol="L",
    unit="psf",
    rule="Sleeping rooms 30, other rooms 40, attics 10 without storage, 20 with limited storage and 30 habitable, decks and "
    "balconies 40, stairs 40, garages 50 psf.",
)
def live_load_psf(use: str) -> float:
    """Least uniform live load [psf]. Args: use: a row of the table. Raises: BadInput naming the rows. Source: IRC Table R301.5."""
    return choose("use", {row["use"]: float(row["live_psf"]) for row in tables.load("irc_r301_5").rows}, use)


@clause(
    "IRC",
    "Table R301.7",
    title="Largest deflection",
    symbol="delta_max",
    unit="in",
    formula="L * 12 / n",
)
def deflection_limit_in(L_ft: float, n: float = FLOOR_RATIO) -> float:
    """Span over n. Args: L_ft: clear span [ft]. n: 360 for floors under live load, 600 for lintels under veneer.

    Returns: deflection [in]. Source: IRC Table R301.7.
    """
    return L_ft * 12 / n


@clause(
    "statics",
    "",
    title="Line load of a floor on a wall",
    symbol="w",
    unit="plf",
    formula="q * L / 2",
    provenance="derived",
)
def ledger_line_load_plf(q_psf: float, L_ft: float) -> float:
    """Half the span of a simply supported floor. Args: q_psf: area load [psf]. L_ft: clear span [ft]. Returns: [plf]."""
    return q_psf * L_ft / 2


@clause(
    "statics",
    "",
    title="Load on one bolt of a ledger",
    symbol="V",
    unit="lb",
    formula="w * s / 12",
    provenance="derived",
)
def load_per_bolt_lb(w_plf: float, s_in: float) -> float:
    """Share of one bolt. Args: w_plf: line load [plf]. s_in: bolt spacing [in]. Returns: [lb]."""
    return w_plf * s_in / 12


@clause(
    "IRC",
    "Table R502.3.1(2)",
    title="Joist span by bending",
    symbol="L_b",
    unit="ft",
    formula="sqrt(8 * F_b * S / (12 * w))",
    provenance="derived",
    note="The span tables follow from bending under all load and L/360 under live load.",
)
def span_by_bending_ft(F_b_psi: float, S_in3: float, w_plf: float) -> float:
    """Simple span at which bending stress reaches F_b. Args: F_b_psi: adjusted. S_in3: modulus. w_plf: all load on a joist."""
    return sqrt(8 * F_b_psi * S_in3 / (12 * w_plf))


@clause(
    "IRC",
    "Table R502.3.1(2)",
    title="Joist span by deflection",
    symbol="L_d",
    unit="ft",
    formula="(384 * E * I * 12 / (5 * w * n)) ** (1 / 3) / 12",
    provenance="derived",
)
def span_by_deflection_ft(E_psi: float, I_in4: float, w_plf: float, n: float = FLOOR_RATIO) -> float:
    """Simple span that deflects L/n. Args: E_psi: modulus. I_in4: inertia. w_plf: live load on a joist. Returns: [ft]."""
    return float((384 * E_psi * I_in4 * 12 / (5 * w_plf * n)) ** (1 / 3) / 12)


@clause(
    "IRC",
    "Table R502.3.1(2)",
    title="Largest span of a sawn floor joist",
    symbol="L_max",
    unit="in",
    rule="The lesser of the spans by bending and by deflection, to the nearest inch.",
    provenance="derived",
    note="Recomputed with reference design values; it meets every printed row it was held against.",
)
def joist_span_in(joist: str, species: str, s_in: float, live_psf: float, dead_psf: float) -> int:
    """Largest clear span [in]. Args: joist: "2x8". species: "SPF No.2". s_in: spacing [in]. live_psf, dead_psf: loads [psf].

    Raises: BadInput for a size or species not kept. Source: IRC Tables R502.3.1(1) and (2), recomputed.
    """
    for row in tables.load("irc_joist_values").rows:
        if (row["joist"], row["species"]) == (joist, species):
            size = lumber(joist)
            w_plf, w_live_plf = (live_psf + dead_psf) * s_in / 12, live_psf * s_in / 12
            F_b_psi = float(row["f_b_psi"]) * float(row["c_f"]) * REPETITIVE
            bending = span_by_bending_ft(F_b_psi, size.b_in * size.d_in**2 / 6, w_plf)
            deflection = span_by_deflection_ft(float(row["e_psi"]), size.b_in * size.d_in**3 / 12, w_live_plf)
            return round(12 * min(bending, deflection))
    raise BadInput("joist", f"No design values are kept for {joist} {species}.")
