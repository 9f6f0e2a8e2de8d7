"""Joist, beam and girder ends: bearing, laps, rotation, notches and holes. IRC R502.6 to R502.8, R802.6; IBC 2308."""

import re
from typing import Literal

from engine.clauses.us.irc import Category, Support
from engine.errors import BadInput, OutOfScope
from engine.tables.reading import SLACK, above_zero, choose
from engine.worksheet import clause

# IRC R502.6 (floors) and R802.6 (rafters, ceiling joists), the same words in 2018, 2021 and 2024.
BEARING_IN: dict[Support, float] = {"wood": 1.5, "metal": 1.5, "masonry": 3.0, "concrete": 3.0}
PLATE_AREA_IN2 = 48.0  # R502.6: nominal area of a sill plate between a member and concrete
PLATE_THICKNESS_IN = 2.0  # R502.6: nominal thickness of that plate

Restraint = Literal["full-depth blocking", "full-depth rim", "stud", "other approved", "none"]


@clause(
    "IRC",
    "R502.6",
    title="Least bearing of a joist, beam or girder end",
    symbol="b_min",
    unit="in",
    rule="1 1/2 in on wood or metal, 3 in on masonry or concrete; an approved hanger is the other way.",
)
def minimum_bearing_in(support: Support) -> float:
    """Least bearing length by what the member rests on; a sill plate of enough area on concrete counts as wood.

    Args: support: what is directly beneath. Returns: length [in]. Raises: BadInput for another support. Source: IRC R502.6.
    """
    return choose("support", BEARING_IN, support)


@clause(
    "IRC",
    "R802.6",
    title="Least bearing of a rafter or ceiling joist",
    symbol="b_min",
    unit="in",
    rule="1 1/2 in on wood or metal, 3 in on masonry or concrete.",
)
def minimum_roof_bearing_in(support: Support) -> float:
    """Least bearing of roof framing. Args: support. Returns: length [in]. Raises: BadInput. Source: IRC R802.6."""
    return choose("support", BEARING_IN, support)


@clause(
    "IBC",
    "2308.4.2.2",
    moved={"US 2024": "2308.8.2.2"},
    title="Least bearing of a joist end, conventional construction",
    symbol="b_min",
    unit="in",
    rule="1 1/2 in on wood or metal, 3 in on masonry.",
    note="The clause does not name concrete; 3 in is used there too.",
)
def ibc_minimum_joist_bearing_in(support: Support) -> float:
    """Least bearing of a joist. Args: support. Returns: length [in]. Raises: BadInput. Source: IBC 2308.4.2.2 (2021)."""
    return choose("support", BEARING_IN, support)


@clause(
    "IBC",
    "2308.4.1",
    moved={"US 2024": "2308.8.1"},
    title="Least bearing of a beam or girder end, conventional construction",
    symbol="b_min",
    unit="in",
    rule="3 in on masonry or concrete.",
)
def ibc_minimum_beam_bearing_in(support: Support) -> float:
    """Least bearing of a beam or girder on masonry or concrete [in].

    Raises: OutOfScope on wood or metal, which the clause does not name. Source: IBC 2308.4.1 (2021), 2308.8.1 (2024).
    """
    if choose("support", BEARING_IN, support) < 3:
        raise OutOfScope("IBC 2308.4.1", f"It gives no bearing for a beam on {support}; bring the beam's own design.")
    return BEARING_IN[support]


@clause(
    "IRC",
    "R502.6",
    title="Bearing that is missing",
    symbol="short",
    unit="in",
    formula="max(b_min - b, 0)",
    provenance="derived",
)
def bearing_shortfall_in(b_min_in: float, b_in: float) -> float:
    """How much bearing a seat lacks. Args: b_min_in: required [in]. b_in: there is [in]. Returns: length [in]."""
    return max(b_min_in - b_in, 0)


@clause(
    "IRC",
    "R502.6",
    title="Plate length for 48 sq in of nominal bearing",
    symbol="l_min",
    unit="in",
    formula="48 / b_nom",
    note="48 sq in of nominal area; a continuous plate always has it.",
)
def minimum_plate_length_in(b_nom_in: float) -> float:
    """Length of a sill plate between a member and concrete. Args: b_nom_in: nominal width [in]. Returns: length [in].

    Raises: BadInput if the width is not above zero. Source: IRC R502.6.
    """
    above_zero(b_nom_in=b_nom_in)
    return PLATE_AREA_IN2 / b_nom_in


@clause(
    "IRC",
    "R502.6",
    title="Sill plate enough to bear on concrete as on wood",
    rule="At least 2 in nominal thick, and 48 sq in of nominal area.",
)
def plate_area_ok(b_nom_in: float, t_nom_in: float, l_in: float) -> bool:
    """Whether a plate turns bearing on concrete into bearing on wood.

    Args: b_nom_in, t_nom_in: nominal width and thickness [in]. l_in: length of the piece [in]. Source: IRC R502.6.
    """
    return t_nom_in >= PLATE_THICKNESS_IN and b_nom_in * l_in >= PLATE_AREA_IN2 - SLACK


@clause(
    "IRC",
    "R502.11",
    moved={"US 2024": "R502.12"},
    title="Least bearing of a truss or engineered member",
    symbol="b_min",
    unit="in",
    rule="What the member's own drawing requires, and never less than R502.6.",
)
def drawn_bearing_in(b_drawing_in: float, support: Support) -> float:
    """Least bearing of a member that comes with a drawing [in]. Args: b_drawing_in: the drawing's bearing width [in].

    Raises: BadInput for another support. Source: IRC R502.11 (2024: R502.12), R502.6.
    """
    return max(b_drawing_in, minimum_bearing_in(support))


@clause(
    "IRC",
    "R502.6.1",
    title="Least lap of joists over a support",
    symbol="lap",
    unit="in",
    rule="Joists from opposite sides lap 3 in with three 10d face nails, or are spliced as strongly.",
)
def minimum_joist_lap_in() -> float:
    """Least lap of joists that meet over a support [in]. Source: IRC R502.6.1."""
    return 3.0


@clause(
    "IRC",
    "R502.6.1",
    title="10d face nails in lapped joists",
    symbol="n",
    rule="Three 10d face nails through the lap.",
)
def minimum_lap_nails() -> int:
    """Least number of 10d face nails in a lap of joists. Source: IRC R502.6.1."""
    return 3


@clause(
    "IRC",
    "R502.7",
    title="Joist end held against rotation",
    rule="Full-depth blocking at least 2 in nominal, a full-depth header, band or rim, a stud, or other approved means; in "
    "SDC D0 to D2 at intermediate supports too. Engineered members: as their maker says.",
)
def rotation_held(restraint: Restraint, sdc: Category = "B", *, intermediate: bool = False) -> bool:
    """Whether a joist is held at a support. Args: restraint: what holds it. intermediate: a support within its length.

    Source: IRC R502.7.
    """
    needed = not intermediate or sdc.startswith("D")
    return restraint != "none" or not needed


@clause(
    "IRC",
    "R502.7.1",
    title="Bridging interval",
    symbol="s_max",
    unit="in",
    rule="Joists deeper than a nominal 2x12: bridging at 8 ft at most. Others: none asked.",
)
def bridging_interval_in(depth_nom_in: float) -> float | None:
    """Largest distance between rows of bridging [in], None where none is asked. Args: depth_nom_in: nominal depth [in].

    Source: IRC R502.7.1.
    """
    return 96.0 if depth_nom_in > 12 else None


def nominal_depth_in(joist: str) -> float:
    """Depth of a sawn joist by its trade name: "2x12" -> 12; "deeper than nominal 2x12" -> 14, the next size.

    Raises: BadInput for a text without a size.
    """
    size = re.search(r"\d+\s*x\s*(\d+)", joist)
    if size is None:
        raise BadInput("joist", 'Enter a size like "2x12".')
    return float(size[1]) + (2 if "deeper" in joist else 0)


@clause(
    "IRC",
    "R502.8.1",
    title="Deepest notch at the end of a sawn joist",
    symbol="n_end",
    unit="in",
    formula="d / 4",
)
def end_notch_limit_in(d_in: float) -> float:
    """Deepest end notch; a joist let down onto a ledge is held to it. Args: d_in: depth [in]. Source: IRC R502.8.1."""
    return d_in / 4


@clause(
    "IRC",
    "R502.8.1",
    title="Deepest notch in the span of a sawn joist",
    symbol="n_max",
    unit="in",
    formula="d / 6",
    note="None in the middle third of the span.",
)
def span_notch_limit_in(d_in: float) -> float:
    """Deepest notch away from the ends and the middle third [in]. Args: d_in: depth [in]. Source: IRC R502.8.1."""
    return d_in / 6


@clause(
    "IRC",
    "R502.8.1",
    title="Longest notch in a sawn joist",
    symbol="l_n",
    unit="in",
    formula="d / 3",
)
def notch_length_limit_in(d_in: float) -> float:
    """Longest notch away from the ends [in]. Args: d_in: depth [in]. Source: IRC R502.8.1."""
    return d_in / 3


@clause(
    "IRC",
    "R502.8.1",
    title="Largest hole in a sawn joist",
    symbol="D_hole",
    unit="in",
    formula="d / 3",
)
def hole_limit_in(d_in: float) -> float:
    """Largest hole [in]. Args: d_in: depth [in]. Source: IRC R502.8.1."""
    return d_in / 3


@clause(
    "IRC",
    "R502.8.1",
    title="Hole to edge, to another hole or notch",
    symbol="c_hole",
    unit="in",
    rule="At least 2 in from the top and bottom edges and from any other hole or notch.",
)
def hole_edge_distance_in() -> float:
    """Least wood between a hole and an edge, hole or notch [in]. Source: IRC R502.8.1."""
    return 2.0


@clause(
    "IRC",
    "R502.8.1",
    title="Notch on the tension face",
    rule="Members 4 in nominal or thicker: the tension face is notched only at the ends; none in the middle third of any span.",
)
def tension_notch_allowed(t_nom_in: float, *, at_end: bool, middle_third: bool) -> bool:
    """Whether the tension face may be notched there. Args: t_nom_in: nominal thickness [in]. Source: IRC R502.8.1."""
    return at_end or (t_nom_in < 4 and not middle_third)


@clause(
    "IRC",
    "R502.8.2",
    title="Cutting engineered wood",
    rule="Trusses, I-joists, structural composite and glued laminated members: no cut, notch or hole but as their maker or a "
    "registered design professional allows.",
)
def engineered_cut_allowed(*, allowed_by_maker_or_designer: bool) -> bool:
    """Whether an engineered member may be cut, notched or bored. Source: IRC R502.8.2."""
    return allowed_by_maker_or_designer
