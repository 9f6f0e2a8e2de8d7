"""Part 9: sill plates and their anchor bolts, in millimetres and metres."""

from typing import Literal, NamedTuple

from engine import tables
from engine.clauses.canada import ALBERTA, BRITISH_COLUMBIA
from engine.errors import BadInput, OutOfScope
from engine.tables.reading import choose, not_less
from engine.worksheet import clause

HWP_PART_4_KPA = 1.2
S_MAX_PART_4 = 2.6
SPACING_BY_BOLT_M = {12.7: 1.7, 15.9: 2.4}


class Sill(NamedTuple):
    """Least sill [mm]."""

    thickness_mm: float
    width_mm: float


class PanelBolts(NamedTuple):
    """Largest spacing, largest distance to the foundation's end [mm], least bolts in a braced wall panel."""

    spacing_mm: float
    end_mm: float
    per_panel: int


@clause(ALBERTA, "9.23.7.1.(1)", title="Least sill plate under a floor", rule="38 by 89 mm.")
def sill_plate() -> Sill:
    """Least sill [mm]. Source: NBC(AE) 9.23.7.1.(1)."""
    return Sill(38.0, 89.0)


def _refuse_strong_wind(HWP_kPa: float) -> None:
    if HWP_kPa > HWP_PART_4_KPA:
        raise OutOfScope("9.23.6.1.(6)", "Above 1.2 kPa of hourly wind pressure the anchorage is designed to Part 4.")


@clause(
    ALBERTA,
    "9.23.6.1.(3)",
    title="Anchor bolts where the frame carries two floors or more",
    rule="15.9 mm at 2.4 m or 12.7 mm at 1.7 m, within 0.5 m of the foundation's ends, two in each braced wall panel.",
    note="For S_a(0.2) to 0.70; beyond that Table 9.23.6.1.",
)
def bolts_two_floors(bolt_mm: float, S_a_02: float, HWP_kPa: float = 0.0) -> PanelBolts:
    """Bolts under two floors or more. Args: bolt_mm: 12.7 or 15.9. S_a_02: S_a(0.2). HWP_kPa: hourly wind pressure.

    Raises: BadInput for another bolt, OutOfScope above 0.70 or 1.2 kPa. Source: NBC(AE) 9.23.6.1.(3).
    """
    _refuse_strong_wind(HWP_kPa)
    spacing_m = choose("bolt_mm", SPACING_BY_BOLT_M, bolt_mm)
    if S_a_02 > 0.70:
        raise OutOfScope("9.23.6.1.(3)", "It ends at S_a(0.2) of 0.70; use Table 9.23.6.1.")
    return PanelBolts(spacing_m * 1000.0, 500.0, 2)


@clause(
    ALBERTA,
    "Table 9.23.6.1",
    title="Largest spacing of sill bolts in seismic regions",
    unit="m",
    rule="By bolt, S_a(0.2) to the next greater printed, light or heavy construction, and floors supported.",
    note="S_a(0.2) above 1.8 or hourly wind pressure above 1.2 kPa goes to Part 4.",
)
def spacing_m(
    bolt_mm: float, S_a_02: float, construction: Literal["light", "heavy"], floors: int, HWP_kPa: float = 0.0
) -> float:
    """Largest spacing along a braced wall band [m].

    Args: bolt_mm: 12.7 or 15.9. S_a_02: above 0.70. floors: supported. HWP_kPa: hourly wind pressure.
    Raises: BadInput, OutOfScope. Source: NBC(AE) Table 9.23.6.1.
    """
    _refuse_strong_wind(HWP_kPa)
    rows = {float(row["S_a_02"]): row for row in tables.load("nbc_9_23_6_1").rows if float(row["bolt_mm"]) == bolt_mm}
    if not rows:
        raise BadInput("bolt_mm", f"Choose one of: 12.7, 15.9. {bolt_mm:g} is not in the table.")
    printed = not_less(rows, S_a_02)
    if printed is None:
        raise OutOfScope("9.23.6.1.(6)", "Above S_a(0.2) of 1.8 the anchorage is designed to Part 4.")
    columns = {
        (kind, n): f"{kind}_{n}" for kind, n in (("light", 1), ("light", 2), ("light", 3), ("heavy", 1), ("heavy", 2))
    }
    return float(rows[printed][choose("floors", columns, (construction, floors))])


@clause(
    BRITISH_COLUMBIA,
    "Table 9.23.6.1",
    title="Largest spacing of sill bolts in British Columbia",
    unit="m",
    rule="By reference framing, for S_max above 0.47 and to 2.6 on Site Class C, hourly wind pressure to 1.2 kPa.",
)
def spacing_bc_m(framing: str, bolt_mm: float, S_max: float = 0.0, HWP_kPa: float = 0.0) -> float:
    """Largest spacing [m]. Args: framing: "GWB-A" and so on. bolt_mm: 12.7 or 15.9. HWP_kPa: hourly wind pressure.

    Raises: BadInput, OutOfScope above S_max of 2.6 or 1.2 kPa. Source: BCBC 2024 Table 9.23.6.1.
    """
    _refuse_strong_wind(HWP_kPa)
    if S_max > S_MAX_PART_4:
        raise OutOfScope("9.23.6.1", "Above S_max of 2.6 the anchorage is designed to Part 4.")
    column = choose("bolt_mm", {12.7: "bolt_12.7", 15.9: "bolt_15.9"}, bolt_mm)
    rows = {row["framing"]: row for row in tables.load("bcbc_9_23_6_1").rows}
    return float(choose("framing", rows, framing)[column])
