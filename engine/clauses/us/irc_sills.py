"""Sill and sole plates on concrete: bolts, their number, ends, place across the plate, washers. IRC R403.1.6; IBC 2308."""

from math import ceil
from typing import Literal, NamedTuple

from engine.clauses.us.irc import Category, Code
from engine.tables.reading import SLACK, above_zero
from engine.worksheet import clause

Building = Literal["detached", "townhouse"]

SPACING_IN = 72.0  # R403.1.6, 6 ft
CLOSE_SPACING_IN = 48.0  # R403.1.6.1, 4 ft
END_MAX_IN = 12.0
PER_PIECE = 2


class SillBolt(NamedTuple):
    """The least sill bolt: diameter, embedment and largest spacing [in], and how many a piece of plate needs."""

    diameter_in: float
    embedment_in: float
    spacing_in: float
    per_piece: int


class Window(NamedTuple):
    """Nearest and farthest place allowed [in]."""

    low_in: float
    high_in: float


class Washer(NamedTuple):
    """Plate washer: thickness and sides, and its slot: how much wider than the bolt, and how long [in]."""

    thickness_in: float
    width_in: float
    length_in: float
    slot_over_bolt_in: float
    slot_length_in: float


class StepBolts(NamedTuple):
    """At a foundation step: where the bolts stand, how far the upper plate runs on, and the sill that counts as braced [ft]."""

    nearest_ft: float
    farthest_ft: float
    plate_extension_ft: float
    sill_ft: float


@clause(
    "IRC",
    "R403.1.6",
    title="Sill bolt, the least",
    rule="1/2 in bolts, 7 in into concrete, at 6 ft or closer, two or more a piece, with nut and washer, in the middle third.",
)
def sill_bolt(sdc: Category = "B", code: Code = "IRC") -> SillBolt:
    """Least diameter and embedment, largest spacing, fewest a piece. IBC in SDC E: 5/8 in bolts.

    Source: IRC R403.1.6; IBC 2308.3.1 (2021), 2308.7.1 (2024).
    """
    return SillBolt(0.625 if code == "IBC" and sdc == "E" else 0.5, 7.0, SPACING_IN, PER_PIECE)


@clause(
    "IRC",
    "R403.1.6.1",
    title="Largest spacing of sill bolts",
    symbol="s_max",
    unit="in",
    rule="6 ft; 4 ft for buildings over two storeys in SDC D0 to D2 and, for townhouses, in SDC C.",
)
def sill_bolt_spacing_in(sdc: Category, stories: int, building: Building = "detached") -> float:
    """Largest spacing of sill bolts [in]. Args: stories: of the building. Source: IRC R403.1.6 and R403.1.6.1."""
    return CLOSE_SPACING_IN if stories > 2 and seismic_rules(sdc, building) else SPACING_IN


@clause(
    "IBC",
    "2308.3.1",
    moved={"US 2024": "2308.7.1"},
    title="Largest spacing of sill bolts, over two storeys",
    symbol="s_max",
    unit="in",
    rule="6 ft; 4 ft along braced wall lines of buildings over two storeys.",
)
def ibc_sill_bolt_spacing_in(stories: int, *, braced_line: bool = True) -> float:
    """Largest spacing of sill bolts [in]. Args: stories: of the building. Source: IBC 2308.3.1 (2021), 2308.7.1 (2024)."""
    return CLOSE_SPACING_IN if stories > 2 and braced_line else SPACING_IN


def seismic_rules(sdc: Category, building: Building = "detached") -> bool:
    """Whether R403.1.6.1 applies: wood light frame in SDC D0 to D2, and townhouses in SDC C."""
    return sdc in ("D0", "D1", "D2", "E") or (sdc == "C" and building == "townhouse")


@clause(
    "IRC",
    "R403.1.6",
    title="Bolts in a piece of plate",
    symbol="n",
    formula="max(2, ceil((L - 2 * e) / s - 1e-9) + 1)",
    provenance="derived",
    note="The fewest with no two farther apart than s and the first and last no farther than e from the ends.",
)
def sill_bolt_count(L_in: float, s_in: float, e_in: float = END_MAX_IN) -> int:
    """Fewest bolts in one piece of plate.

    Args: L_in: length of the piece [in]. s_in: largest spacing [in]. e_in: largest end distance [in]. Returns: a count.
    Raises: BadInput if a length is not above zero. Source: derived from IRC R403.1.6.
    """
    above_zero(L_in=L_in, s_in=s_in, e_in=e_in)
    return max(PER_PIECE, ceil((L_in - 2 * e_in) / s_in - SLACK) + 1)


@clause(
    "IRC",
    "R403.1.6",
    title="Bolts in a short wall between offset braced panels",
    symbol="n",
    rule="One bolt in a wall 24 in or shorter, none in one 12 in or shorter, with its corners fastened to the panels beside.",
)
def short_wall_bolts(L_in: float) -> int | None:
    """Fewest bolts in a short offset wall; None where it is longer and the ordinary rule holds. Args: L_in: length [in].

    Source: IRC R403.1.6 exceptions.
    """
    if L_in > 24 + SLACK:
        return None
    return 0 if L_in <= 12 + SLACK else 1


@clause(
    "IRC",
    "R403.1.6",
    title="Nearest a bolt may stand to a plate's end",
    symbol="e_min",
    unit="in",
    formula="7 * D",
)
def minimum_end_distance_in(D_in: float) -> float:
    """Seven bolt diameters. Args: D_in: bolt diameter [in]. Returns: distance [in]. Source: IRC R403.1.6."""
    return 7 * D_in


@clause(
    "IBC",
    "2308.3.1",
    moved={"US 2024": "2308.7.1"},
    title="Nearest a bolt may stand to a plate's end",
    symbol="e_min",
    unit="in",
    rule="4 in, whatever the bolt.",
)
def ibc_minimum_end_distance_in() -> float:
    """Least end distance [in]. Source: IBC 2308.3.1 (2021), 2308.7.1 (2024)."""
    return 4.0


@clause(
    "IRC",
    "R403.1.6",
    title="Where the end bolt of a piece stands",
    unit="in",
    rule="Between 7 diameters (IRC) or 4 in (IBC) and 12 in from each end.",
)
def end_distance_window_in(D_in: float, code: Code = "IRC") -> Window:
    """Nearest and farthest place of the end bolt [in]. Args: D_in: bolt diameter [in]. Source: IRC R403.1.6; IBC 2308."""
    return Window(minimum_end_distance_in(D_in) if code == "IRC" else ibc_minimum_end_distance_in(), END_MAX_IN)


@clause(
    "IRC",
    "R403.1.6",
    title="Middle third of a plate",
    unit="in",
    rule="Bolts stand between one and two thirds of the plate's actual width.",
)
def middle_third_in(b_in: float) -> Window:
    """Where across the plate a bolt may stand, from its edge [in]. Args: b_in: actual plate width [in].

    Source: IRC R403.1.6.
    """
    return Window(b_in / 3, 2 * b_in / 3)


@clause(
    "IRC",
    "R404.3",
    title="Least sill plate",
    rule="At least a nominal 2x4.",
)
def sill_plate_ok(t_nom_in: float, b_nom_in: float) -> bool:
    """Whether a sill plate is large enough. Args: nominal thickness and width [in]. Source: IRC R404.3."""
    return t_nom_in >= 2 and b_nom_in >= 4


@clause(
    "IRC",
    "R403.1.6.1",
    title="Plate washers",
    rule="On every bolt along required braced wall lines in SDC D0 to D2 and, for townhouses, in SDC C.",
)
def plate_washer_required(sdc: Category, building: Building = "detached", *, braced_line: bool = True) -> bool:
    """Whether a bolt needs a plate washer. Source: IRC R403.1.6.1; IBC 2308 asks it in SDC D and E."""
    return braced_line and seismic_rules(sdc, building)


@clause(
    "IRC",
    "R602.11.1",
    title="Plate washer",
    rule="0.229 in by 3 in by 3 in; a slot 3/16 in wider than the bolt and 1 3/4 in long at most, with a cut washer on top.",
)
def plate_washer() -> Washer:
    """Sizes of the plate washer. Source: IRC R602.11.1."""
    return Washer(0.229, 3.0, 3.0, 0.1875, 1.75)


@clause(
    "IRC",
    "R602.11.2",
    title="Bolts at a step of the foundation",
    rule="SDC D, wall heights along the line differing by more than 4 ft: bolts 1 ft to 3 ft from the step, the upper plate "
    "runs 4 ft over it, and 8 ft of sill on the foundation counts as braced.",
)
def step_bolts() -> StepBolts:
    """Where bolts and plates go at a step [ft]. Source: IRC R602.11.2."""
    return StepBolts(1.0, 3.0, 4.0, 8.0)
