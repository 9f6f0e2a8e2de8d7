"""Practice while concrete goes in: slump, vibration, cold, and where each is written down."""

from typing import NamedTuple

from engine.errors import BadInput
from engine.tables import load
from engine.worksheet import clause

CODE_SLUMP_IN = 6.0  # IRC R608.5.1.4: removable forms at most, stay-in-place forms more than this


class Slump(NamedTuple):
    """Slump where the specification is silent, its tolerance, and the most with a high-range admixture at delivery [in]."""

    default_in: float
    tolerance_in: float
    admixture_max_in: float


class Vibrator(NamedTuple):
    """Insertions: spacing [in], seconds in air-entrained and in other concrete."""

    spacing_in: float
    air_entrained_s: tuple[int, int]
    other_s: tuple[int, int]


@clause(
    "ACI 301",
    "4.2.2.2",
    title="Slump where none is specified",
    rule="4 in, within 1 in; to 8 in with a high-range admixture.",
)
def default_slump() -> Slump:
    """Source: ACI 301 with ACI 117, read in a testing firm's bulletin."""
    return Slump(4.0, 1.0, 8.0)


@clause(
    "Army subcourse EN5466",
    "",
    title="Internal vibration",
    rule="Insert every 18 in, 5 to 10 s in air-entrained concrete and 10 to 15 s in other, several inches into the layer below.",
)
def vibrator() -> Vibrator:
    """Source: Army Correspondence Course EN5466 edition A; it advises against vibrating 5 to 6 in slump, the IRC asks for it."""
    return Vibrator(18.0, (5, 10), (10, 15))


@clause(
    "ACI 306R",
    "Table 3.1",
    title="Least temperature of the concrete",
    rule="55 °F in sections under 12 in, 50 to 36 in, 45 to 72 in, 40 above; of the concrete, not the air.",
)
def least_concrete_temperature_F(section: str) -> float:
    """Args: section: "under 12 in", "12 to 36 in", "36 to 72 in", "over 72 in". Raises: BadInput. Source: ACI 306R Table 3.1."""
    rows = {r["section"]: float(r["temperature_F"]) for r in load("cold_concrete").rows}
    if section not in rows:
        raise BadInput("section", f"Choose one of: {', '.join(rows)}.")
    return rows[section]


@clause(
    "ASCE 7",
    "Table C3.1-1a",
    title="Weight of brick",
    symbol="q",
    unit="psf",
    rule="4 in 39, 8 in 79, 12 in 115, 16 in 155 psf; a stud wall with brick 48.",
    provenance="memory",
)
def brick_weight_psf(assembly: str) -> float:
    """Args: assembly: as the table names it. Raises: BadInput. Source: ASCE 7-16 Table C3.1-1a, recalled."""
    rows = {r["assembly"]: float(r["weight_psf"]) for r in load("veneer_weights").rows}
    if assembly not in rows:
        raise BadInput("assembly", f"Choose one of: {', '.join(rows)}.")
    return rows[assembly]


@clause(
    "geometry", "", title="Weight by thickness", symbol="q", unit="psf", formula="t / 12 * gamma", provenance="derived"
)
def weight_psf(t_in: float, gamma_pcf: float) -> float:
    """Args: t_in: thickness. gamma_pcf: density. Returns: [psf]."""
    return t_in / 12 * gamma_pcf


def slump_window_in() -> tuple[float, float]:
    """The slumps at which stay-in-place forms meet the code and the pressure equations still hold: above, and at most [in]."""
    return CODE_SLUMP_IN, 7.0
