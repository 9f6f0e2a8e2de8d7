"""Anchored masonry veneer: how high, how thick, how heavy, how it bears and how it is tied. IRC R703.8; IBC 1404."""

from typing import Literal, NamedTuple

from engine import tables
from engine.clauses.us.irc import Category
from engine.errors import OutOfScope
from engine.tables.reading import SLACK
from engine.worksheet import clause

TieWire = Literal["W1.7", "W2.8"]

TIE_AREA_FT2 = 2.67  # R703.8.4.1 prints 2.67 for 2 2/3
TIE_AREA_CLOSE_FT2 = 2.0
TIE_HORIZONTAL_IN = 32.0
TIE_VERTICAL_IN = 24.0
WIND_CLOSE_PSF = 30.0
OPENING_SIDE_IN = 16.0


class VeneerLimits(NamedTuple):
    """Height above the noncombustible foundation, more at a gable [ft], nominal thickness [in] and weight with mortar [psf]."""

    height_ft: float
    gable_extra_ft: float
    thickness_in: float
    weight_psf: float


class Tie(NamedTuple):
    """Veneer tie: embedment in mortar, cover outside, and air space behind the veneer, each the least [in]."""

    embedment_in: float
    outside_cover_in: float
    air_space_in: float


class Weep(NamedTuple):
    """Weep holes above flashing: largest spacing and least diameter [in]."""

    spacing_in: float
    diameter_in: float


@clause(
    "IRC",
    "Table R703.8",
    title="Limits of anchored veneer",
    rule="Table (1), SDC A to C: 30 ft and 8 ft more at gables, 5 in, 50 psf. Table (2), detached: D0 to two storeys and D1 20 ft, "
    "4 in, 40 psf; D2 20 ft, 3 in, 30 psf; 30 ft where the lower 10 ft is backed by concrete or masonry.",
    note="Written for wood and steel backing.",
)
def veneer_limits(sdc: Category, stories: int = 2, *, lower_10_ft_backed: bool = False) -> VeneerLimits:
    """Largest height, thickness and weight. Args: lower_10_ft_backed: concrete or masonry behind the lower 10 ft (note c).

    Raises: OutOfScope for SDC E and for more storeys in D0. Source: IRC Tables R703.8(1), R703.8(2).
    """
    for row in tables.load("irc_r703_8").rows:
        if row["sdc"] == sdc and not (row["stories"] and stories > int(row["stories"])):
            backed = row["height_backed_ft"] if lower_10_ft_backed else ""
            height = float(backed or row["height_ft"])
            return VeneerLimits(
                height, float(row["gable_extra_ft"]), float(row["thickness_in"]), float(row["weight_psf"])
            )
    raise OutOfScope(
        "IRC Table R703.8", f"It has no row for {stories} storeys in SDC {sdc}; bring a design to TMS 402."
    )


@clause(
    "IRC",
    "R703.8.2",
    title="Least bearing of veneer",
    symbol="b_v",
    unit="in",
    formula="2 / 3 * t_v",
    note="Written for steel angles and ledger supports; used for a concrete ledge.",
)
def veneer_bearing_in(t_v_in: float) -> float:
    """Two thirds of the wythe on its support. Args: t_v_in: veneer thickness [in]. Source: IRC R703.8.2.1, R703.8.2.2."""
    return 2 / 3 * t_v_in


@clause(
    "IRC",
    "R703.8.2",
    title="Largest overhang of veneer",
    symbol="o_v",
    unit="in",
    formula="t_v / 3",
)
def veneer_overhang_in(t_v_in: float) -> float:
    """A third of the wythe beyond its support. Args: t_v_in: veneer thickness [in]. Source: IRC R703.8.2.1, R703.8.2.2."""
    return t_v_in / 3


@clause(
    "statics",
    "",
    title="Line load of veneer",
    symbol="w_v",
    unit="plf",
    formula="h * q",
    provenance="derived",
)
def veneer_line_load_plf(h_ft: float, q_psf: float) -> float:
    """Weight of veneer on a ledge. Args: h_ft: height [ft]. q_psf: weight by area [psf]. Returns: [plf]."""
    return h_ft * q_psf


@clause(
    "IRC",
    "R703.8.4.1",
    title="Wall held by one tie",
    symbol="A_t",
    unit="ft²",
    formula="s_h * s_v / 144",
    provenance="derived",
)
def tie_area_ft2(s_h_in: float, s_v_in: float) -> float:
    """Area of wall to each tie. Args: horizontal and vertical spacing [in]. Returns: [sq ft]. Source: IRC R703.8.4.1."""
    return s_h_in * s_v_in / 144


@clause(
    "IRC",
    "R703.8.4.1",
    title="Largest area to a tie",
    symbol="A_max",
    unit="ft²",
    rule="2.67 sq ft; 2.0 sq ft in SDC D0 to D2, for townhouses in SDC C, and where wind exceeds 30 psf.",
)
def tie_area_limit_ft2(sdc: Category = "B", wind_psf: float = 0, *, townhouse: bool = False) -> float:
    """Largest area of wall to each tie [sq ft]. Args: wind_psf: design pressure. Source: IRC R703.8.4.1."""
    close = sdc.startswith(("D", "E")) or (townhouse and sdc == "C") or wind_psf > WIND_CLOSE_PSF
    return TIE_AREA_CLOSE_FT2 if close else TIE_AREA_FT2


@clause(
    "IRC",
    "R703.8.4.1",
    title="Spacing of veneer ties",
    rule="Within the area to a tie, 32 in horizontally and 24 in vertically.",
)
def tie_spacing_ok(s_h_in: float, s_v_in: float, A_max_ft2: float) -> bool:
    """Whether ties are close enough. Args: spacings [in]. A_max_ft2: of `tie_area_limit_ft2`. Source: IRC R703.8.4.1."""
    near = s_h_in <= TIE_HORIZONTAL_IN + SLACK and s_v_in <= TIE_VERTICAL_IN + SLACK
    return near and tie_area_ft2(s_h_in, s_v_in) <= A_max_ft2 + SLACK


@clause(
    "IRC",
    "R703.8.4.1.1",
    title="Ties about an opening",
    rule="Openings over 16 in either way: further ties within 12 in of the opening, 3 ft apart at most.",
)
def opening_ties_required(width_in: float, height_in: float) -> bool:
    """Whether an opening needs ties about it. Args: its sides [in]. Source: IRC R703.8.4.1.1."""
    return max(width_in, height_in) > OPENING_SIDE_IN + SLACK


@clause(
    "IRC",
    "R703.8.4",
    title="Veneer tie in mortar",
    rule="Embedded 1 1/2 in with 5/8 in of mortar outside it; 1 in nominal air space behind the veneer.",
)
def veneer_tie() -> Tie:
    """Least embedment, outside cover and air space. Source: IRC R703.8.4."""
    return Tie(1.5, 0.625, 1.0)


@clause(
    "IRC",
    "R703.8.4",
    title="Largest distance from backing to veneer",
    symbol="g_max",
    unit="in",
    rule="4 1/2 in in IRC 2018; from 2021 4 5/8 in with W1.7 wire and 6 5/8 in with W2.8. Rows exist for stud backing only.",
    note="Taken from the concrete face; through foam the tie itself needs approval or TMS 402.",
)
def largest_backing_distance_in(wire: TieWire = "W1.7", year: int = 2021) -> float:
    """Largest distance from the backing's face to the back of the veneer [in]. Args: year: of the IRC (`irc.irc_year`).

    Source: IRC Table R703.8.4(1).
    """
    if year < 2021:
        return 4.5
    return 4.625 if wire == "W1.7" else 6.625


@clause(
    "IRC",
    "R703.8.6",
    title="Weep holes",
    rule="3/16 in or larger, at 33 in or closer, just above the flashing.",
)
def weeps() -> Weep:
    """Largest spacing and least diameter. Source: IRC R703.8.5, R703.8.6."""
    return Weep(33.0, 0.1875)


@clause(
    "IRC",
    "R703.8.3",
    title="Bearing of a veneer lintel",
    symbol="b_l",
    unit="in",
    rule="4 in at each end.",
)
def lintel_bearing_in() -> float:
    """Least bearing of a steel lintel that carries veneer [in]. Source: IRC R703.8.3."""
    return 4.0
