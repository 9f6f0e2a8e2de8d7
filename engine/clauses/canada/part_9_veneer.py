"""Part 9: masonry veneer, its ties and its steel angles; gable studs. Millimetres and metres."""

import re
from typing import NamedTuple

from engine import tables
from engine.clauses.canada import ALBERTA
from engine.errors import OutOfScope
from engine.tables.reading import choose, not_less
from engine.worksheet import clause

NOT_A_SIZE = re.compile(r"[^\d.x]")
TIE_ALONG_MM = {400.0: 800.0, 500.0: 600.0, 600.0: 400.0}


class Veneer(NamedTuple):
    """Least veneer and the air behind it over a wood frame [mm]."""

    thickness_mm: float
    air_mm: float


class Tie(NamedTuple):
    """Largest spacing along the wall, least strap [mm]."""

    along_mm: float
    thickness_mm: float
    width_mm: float


class AngleSpans(NamedTuple):
    """Longest spans of an angle [m] by what it carries."""

    brick_75_m: float
    brick_90_m: float
    stone_100_m: float


@clause(
    ALBERTA,
    "9.20.6.4",
    title="Least masonry veneer",
    rule="75 mm thick, 25 mm of air behind it over a wood frame.",
    note="Ontario prints 70 mm.",
)
def veneer() -> Veneer:
    """Least veneer [mm]. Source: NBC(AE) 9.20.6.4."""
    return Veneer(75.0, 25.0)


@clause(
    ALBERTA,
    "Table 9.20.9.5",
    title="Ties of a masonry veneer",
    rule="400 by 800, 500 by 600 or 600 by 400 mm, straps 0.76 by 22 mm.",
)
def tie(vertical_mm: float) -> Tie:
    """Ties, by the next greater spacing printed. Raises: OutOfScope above 600 mm. Source: NBC(AE) Table 9.20.9.5."""
    printed = not_less(TIE_ALONG_MM, vertical_mm)
    if printed is None:
        raise OutOfScope("Table 9.20.9.5", "Ties stand at most 600 mm apart vertically.")
    return Tie(TIE_ALONG_MM[printed], 0.76, 22.0)


@clause(
    ALBERTA,
    "Table 9.20.5.2",
    title="Longest span of a steel angle under veneer",
    unit="m",
    rule="By angle and veneer, with 90 mm of bearing at each end.",
)
def angle_spans(angle_mm: str) -> AngleSpans:
    """Longest spans [m]. Args: angle_mm: "89x89x6.4", with or without blanks and an L. Raises: BadInput for an angle not held.

    Source: NBC(AE) Table 9.20.5.2.
    """
    rows = {row["angle_mm"]: row for row in tables.load("nbc_9_20_5_2").rows}
    row = choose("angle_mm", rows, NOT_A_SIZE.sub("", angle_mm.lower().replace("×", "x")))
    return AngleSpans(float(row["brick_75_m"]), float(row["brick_90_m"]), float(row["stone_100_m"]))


@clause(ALBERTA, "9.23.10.3.(2)", title="Studs laid flat", rule="Only in gable ends that enclose unfinished space.")
def flat_studs_where() -> str:
    """Where studs may lie flat. Source: NBC(AE) 9.23.10.3.(2)."""
    return "gable end, unfinished space only"
