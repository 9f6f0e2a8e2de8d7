"""Where the prescriptive concrete-wall provisions end and design begins; the wind columns of their tables.

IRC R608.1, R608.2, R608.8.2, R404.1.1, R404.1.5.2.
"""

from typing import Literal, NamedTuple

from engine import tables
from engine.clauses.us.irc import Category
from engine.clauses.us.irc_sills import Building
from engine.errors import OutOfScope
from engine.tables.reading import SLACK, choose, not_less
from engine.worksheet import clause

Exposure = Literal["B", "C", "D"]


class Limit(NamedTuple):
    """One limit of R608.2: its largest value and how it is named when exceeded."""

    most: float
    name: str
    unit: str = ""


# IRC R608.2, the same in 2018, 2021 and 2024. Keys and order are those of the parameters of `r608_limits_exceeded`.
LIMITS = {
    "plan_ft": Limit(60, "plan", " ft"),
    "floor_span_ft": Limit(32, "floor span", " ft"),
    "roof_span_ft": Limit(40, "roof span", " ft"),
    "mean_roof_ft": Limit(35, "mean roof height", " ft"),
    "stories": Limit(2, "stories above grade"),
    "floor_dead_psf": Limit(10, "floor dead load", " psf"),
    "roof_dead_psf": Limit(15, "roof and ceiling dead load", " psf"),
    "attic_live_psf": Limit(20, "attic live load", " psf"),
    "overhang_ft": Limit(2, "overhang", " ft"),
    "overhang_dead_psf": Limit(8, "overhang dead load", " psf"),
}
WIND_MPH: dict[Exposure, float] = {"B": 160, "C": 136, "D": 125}
BACKFILL_IN = 48.0  # R404.1.1: unbalanced fill without permanent lateral support
DESIGN_ROUTE = "ACI 318 design"
TABLED_CATEGORIES: dict[Building, tuple[Category, ...]] = {"detached": ("A", "B", "C"), "townhouse": ("A", "B")}


@clause(
    "IRC",
    "R608.2",
    title="Limits of the prescriptive concrete walls",
    rule="Plan 60 ft, floor span 32 ft, roof span 40 ft, mean roof height 35 ft, 2 stories above grade, dead load 10 psf floor "
    "and 15 psf roof with ceiling, attic live load 20 psf, overhang 2 ft and 8 psf, wind 160 mph B, 136 C, 125 D, SDC A and B "
    "(C for detached houses). Beyond any: PCA 100, ACI 318.",
)
def r608_limits_exceeded(
    *,
    plan_ft: float = 0,
    floor_span_ft: float = 0,
    roof_span_ft: float = 0,
    mean_roof_ft: float = 0,
    stories: int = 0,
    floor_dead_psf: float = 0,
    roof_dead_psf: float = 0,
    attic_live_psf: float = 0,
    overhang_ft: float = 0,
    overhang_dead_psf: float = 0,
    speed_mph: float = 0,
    exposure: Exposure = "B",
    sdc: Category = "A",
    building: Building = "detached",
) -> tuple[str, ...]:
    """Every limit a building is beyond, each as a phrase ("floor span > 32 ft"); empty where the tables may be used.

    Args: clear spans, plan and heights [ft], loads [psf], wind [mph]; what is left at 0 is not judged. building: "detached"
        holds houses for one or two families. Raises: BadInput for an unknown exposure or building. Source: IRC R608.2.
    """
    given = (plan_ft, floor_span_ft, roof_span_ft, mean_roof_ft, stories, floor_dead_psf, roof_dead_psf, attic_live_psf)
    pairs = zip(LIMITS.values(), (*given, overhang_ft, overhang_dead_psf), strict=True)
    beyond = [f"{limit.name} > {limit.most:g}{limit.unit}" for limit, value in pairs if value > limit.most + SLACK]
    most = choose("exposure", WIND_MPH, exposure)
    if speed_mph > most + SLACK:
        beyond.append(f"wind > {most:g} mph in exposure {exposure}")
    if sdc not in choose("building", TABLED_CATEGORIES, building):
        beyond.append(f"{building} in SDC {sdc}")
    return tuple(beyond)


@clause(
    "IRC",
    "Table R608.9",
    title="Wind speed of another exposure that reads the same column",
    unit="mph",
    rule="Columns are headed by exposure B speeds; each holds one lower speed of exposure C and, from 140 mph, of D.",
)
def equivalent_speed_mph(speed_b_mph: float, exposure: Exposure) -> float | None:
    """The speed printed under a column's exposure B speed; None where the column has none for that exposure.

    Args: speed_b_mph: a column head [mph]. Raises: OutOfScope for a speed that heads no column. Source: IRC R608.9 column heads.
    """
    for row in tables.load("irc_r608_exposures").rows:
        if float(row["b"]) == speed_b_mph:
            cell = row[exposure.lower()]
            return float(cell) if cell else None
    raise OutOfScope("IRC R608", f"No column of the tables is headed {speed_b_mph:g} mph.")


@clause(
    "IRC",
    "Table R608.9",
    title="Wind column of the concrete-wall tables",
    unit="mph",
    rule="The first column whose speed for the site's exposure is not less than the site's; never between columns.",
)
def speed_column_mph(speed_mph: float, exposure: Exposure) -> float:
    """The column to read, by its exposure B head [mph]. Args: speed_mph: the site's basic wind speed.

    Raises: BadInput for an unknown exposure; OutOfScope beyond the last column. Source: IRC R608.6(1), R608.9 column heads.
    """
    letter = choose("exposure", {"B": "b", "C": "c", "D": "d"}, exposure)
    heads = {float(row[letter]): float(row["b"]) for row in tables.load("irc_r608_exposures").rows if row[letter]}
    printed = not_less(heads, speed_mph)
    if printed is None:
        raise OutOfScope("IRC R608.2", f"{speed_mph:g} mph in exposure {exposure} is off the tables; bring a design.")
    return heads[printed]


@clause(
    "IRC",
    "R608.8.2",
    title="Beam or girder bearing over an opening",
    rule="A lintel that carries the reaction of a beam or girder is outside the tables: design to ACI 318.",
)
def lintel_prescriptive(*, concentrated: bool) -> bool:
    """Whether the lintel tables cover what bears on it. Args: concentrated: a beam or girder does. Source: IRC R608.8.2."""
    return not concentrated


@clause(
    "IRC",
    "R404.1.1",
    title="Design of a wall that retains fill",
    rule="Design is required for hydrostatic pressure, or more than 48 in of unbalanced fill without permanent lateral support.",
)
def retaining_design_required(backfill_in: float, *, supported: bool, hydrostatic: bool = False) -> bool:
    """Whether a foundation wall must be designed. Args: backfill_in: unbalanced fill [in]. supported: permanently, top and bottom.

    Source: IRC R404.1.1.
    """
    return hydrostatic or (not supported and backfill_in > BACKFILL_IN + SLACK)


@clause(
    "IRC",
    "R404.1.5.2",
    title="Corbels, brackets and other projections for veneer",
    rule="Outside the foundation-wall tables: design is required.",
)
def projection_tables_apply(*, projection: bool) -> bool:
    """Whether the foundation-wall tables cover how veneer is carried. Args: projection: a corbel, bracket or the like does.

    Source: IRC R404.1.5.2.
    """
    return not projection


@clause(
    "IRC",
    "R404.1.5.2",
    title="Thin part of a foundation wall above a shelf",
    rule="No thinner than the wall above it.",
)
def shelf_thickness_ok(t_thin_in: float, t_above_in: float) -> bool:
    """Whether the thinned part may carry the wall above. Args: their thicknesses [in]. Source: IRC R404.1.5.2."""
    return t_thin_in >= t_above_in - SLACK


@clause(
    "IRC",
    "R404.1.5.2",
    title="Which thickness chooses the bars of a wall with a shelf",
    rule="The thin part, by Table R404.1.3.2(8); the thick part only where the thin part is at most 24 in high and the step "
    "at most 4 in.",
)
def bars_by_thick_part(h_thin_in: float, step_in: float) -> bool:
    """Whether the thick part may choose the vertical bars. Args: h_thin_in: height of the thin part [in]. step_in: shelf [in].

    Source: IRC R404.1.5.2.
    """
    return h_thin_in <= 24 + SLACK and step_in <= 4 + SLACK


@clause(
    "IRC",
    "R404.1.6",
    title="Foundation wall above grade",
    symbol="h_g",
    unit="in",
    rule="4 in where masonry veneer is used, 6 in elsewhere.",
)
def wall_top_above_grade_in(*, masonry_veneer: bool) -> float:
    """Least height of the top of a foundation wall above finished grade [in]. Source: IRC R404.1.6."""
    return 4.0 if masonry_veneer else 6.0
