"""Part 9: flat insulating concrete form foundations below grade, and where their tops are thinned. Millimetres and metres."""

from typing import NamedTuple

from engine import tables
from engine.clauses.canada import ALBERTA, ONTARIO
from engine.errors import BadInput, OutOfScope
from engine.tables.reading import above_zero, choose, not_less
from engine.worksheet import clause

WALL_HEIGHTS_M = {2.44: "H2.44", 2.75: "H2.75", 3.0: "H3.0"}
PLAIN_HEIGHTS_M = {2.5: "H2.5", 2.75: "H2.75", 3.0: "H3.0"}


class BottomSupport(NamedTuple):
    """Backfill that needs no dowels [m], largest dowel spacing by bar [mm]."""

    without_dowels_m: float
    at_15M_mm: float
    at_10M_mm: float


class Bars(NamedTuple):
    """A bar and its largest spacing [mm]."""

    bar: str
    spacing_mm: float


class ColdJoint(NamedTuple):
    """Dowels across a cold joint: bar, largest spacing, embedment each side [mm]."""

    bar: str
    spacing_mm: float
    each_side_mm: float


class Thinned(NamedTuple):
    """A thinned top: least thickness left, greatest height, ties up and along [mm], what fills the gap."""

    thickness_mm: float
    height_mm: float | None = None
    tie_vertical_mm: float | None = None
    tie_horizontal_mm: float | None = None
    fill: str = ""


def _row(rows: dict[float, dict[str, str]], where: str, asked: float) -> dict[str, str]:
    printed = not_less(rows, asked)
    if printed is None:
        raise OutOfScope(where, f"The table ends at {max(rows):g}; bring a design by an engineer.")
    return rows[printed]


@clause(
    ALBERTA,
    "9.15.4.2.(2)",
    title="Least core of a flat form foundation",
    symbol="t",
    unit="mm",
    formula="max(150, core_above_mm)",
)
def foundation_core_mm(core_above_mm: float) -> float:
    """Least core below grade [mm]. Args: core_above_mm: core of the wall above [mm]. Source: NBC(AE) 9.15.4.2.(2)."""
    return max(150.0, core_above_mm)


@clause(
    ALBERTA,
    "Table 9.15.4.2.-A",
    title="Highest ground beside a wall without bars",
    unit="m",
    rule="By concrete strength and thickness; supported walls by height, the next greater printed; unsupported ones to 3.0 m.",
)
def plain_ground_m(f_c_MPa: float, thickness_mm: float, height_m: float, *, supported: bool) -> float:
    """Highest finished ground above the floor [m].

    Args: f_c_MPa: the table has 15 and 20. thickness_mm: printed thickness. height_m: of the wall. supported: at the top.
    Raises: BadInput, OutOfScope beyond the table. Source: NBC(AE) Table 9.15.4.2.-A.
    """
    above_zero(f_c_MPa=f_c_MPa, thickness_mm=thickness_mm, height_m=height_m)
    found = {(float(row["f_c_MPa"]), float(row["thickness_mm"])): row for row in tables.load("nbc_9_15_4_2_a").rows}
    strength = max((f for f, _ in found if f <= f_c_MPa), default=None)
    thick = max((t for _, t in found if t <= thickness_mm), default=None)
    if strength is None or thick is None:
        raise OutOfScope("Table 9.15.4.2.-A", "It begins at 15 MPa and 150 mm; bring a design by an engineer.")
    printed = not_less(PLAIN_HEIGHTS_M, height_m)
    if printed is None:
        raise OutOfScope("Table 9.15.4.2.-A", "It ends at 3.0 m of wall; bring a design by an engineer.")
    return float(found[strength, thick][PLAIN_HEIGHTS_M[printed] if supported else "unsupported_m"])


@clause(
    ALBERTA,
    "Tables 9.15.4.5.-A to -C",
    title="Least vertical bars of a flat form foundation",
    rule="By core, by ground above the floor and by wall height, the next greater printed.",
    note="One cell differs between Alberta and Ontario; the heavier bar is held.",
)
def foundation_bars(core_mm: float, ground_m: float, height_m: float) -> Bars | None:
    """Least vertical bars; None where none are required.

    Args: core_mm: 150, 190 or 240. ground_m: finished ground above the floor. height_m: of the wall.
    Raises: BadInput for another core, OutOfScope where the table prints nothing. Source: NBC(AE) Tables 9.15.4.5.-A to -C.
    """
    rows = {
        float(row["ground_m"]): dict(row)
        for row in tables.load("nbc_9_15_4_5").rows
        if float(row["core_mm"]) == core_mm
    }
    if not rows:
        raise BadInput("core_mm", f"Choose one of: 150, 190, 240. {core_mm:g} is not in the tables.")
    row = _row(rows, "Table 9.15.4.5", ground_m)
    printed = not_less(WALL_HEIGHTS_M, height_m)
    if printed is None:
        raise OutOfScope("Table 9.15.4.5", "It ends at 3.00 m of wall; bring a design by an engineer.")
    text = row[WALL_HEIGHTS_M[printed]]
    if text == "n/a":
        raise OutOfScope(
            "Table 9.15.4.5", f"It has no bars for {ground_m:g} m of ground beside a wall of {height_m:g} m."
        )
    if text == "none":
        return None
    bar, _, spacing = text.partition("@")
    return Bars(bar, float(spacing))


@clause(
    ALBERTA,
    "9.15.4.5.(1)",
    title="Horizontal bars of a flat form foundation",
    rule="10M within 300 mm of the top and at 600 mm; inside half, 30 mm of cover to the inside face of the concrete.",
)
def foundation_horizontal() -> Bars:
    """Horizontal bars. Source: NBC(AE) 9.15.4.5.(1)."""
    return Bars("10M", 600.0)


@clause(
    ONTARIO,
    "9.15.4.5.(3)",
    title="Dowels across a cold joint",
    rule="15M at 600 mm, embedded 300 mm on each side.",
)
def cold_joint() -> ColdJoint:
    """Dowels across a cold joint. Source: OBC 9.15.4.5.(3)."""
    return ColdJoint("15M", 600.0, 300.0)


@clause(
    ALBERTA,
    "9.15.4.4.(1)",
    title="Support of the foundation wall at its bottom",
    rule="Backfill to 1.2 m, or a key plate with the ground floor, or dowels: 15M at 1.2 m or 10M at 600 mm.",
)
def bottom_support() -> BottomSupport:
    """Support at the bottom. Source: NBC(AE) 9.15.4.4.(1)."""
    return BottomSupport(1.2, 1200.0, 600.0)


@clause(
    ALBERTA,
    "9.15.4.7",
    title="Top of a foundation wall made thinner",
    rule="For joists: at most 350 mm high, 90 mm left (1). For masonry facing: 90 mm left, ties at 200 by 900 mm, mortar (2), (3).",
)
def thinned_top(carries: str) -> Thinned:
    """What a thinned top must keep. Args: carries: "joists" or "veneer". Raises: BadInput. Source: NBC(AE) 9.15.4.7."""
    kinds = {"joists": Thinned(90.0, 350.0), "veneer": Thinned(90.0, None, 200.0, 900.0, "mortar")}
    return choose("carries", kinds, carries)
