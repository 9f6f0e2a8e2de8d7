"""Ontario's prescriptive rules for flat ICF walls, their floors, sills and veneer. O. Reg. 332/12, Part 9, in millimetres."""

from typing import Literal, NamedTuple

from engine import tables
from engine.errors import OutOfScope
from engine.tables.reading import choose, not_less
from engine.worksheet import clause

CODE = "Ontario Building Code, O. Reg. 332/12"

AIR_SPACE_MM = 12.0  # 9.23.2.2
AIR_FACES = "end and sides"
BEARING_MM = {"joist": 38.0, "beam": 89.0}  # 9.23.9.1, 9.23.8.1
CAPILLARY_CLEAR_MM = 150.0  # 9.23.2.3


class WallScope(NamedTuple):
    """Flat ICF wall: least concrete, most storeys, largest floor-to-floor height, largest spectral acceleration at 0.2 s."""

    concrete_mm: float
    storeys: int
    floor_to_floor_m: float
    Sa_02: float


class Ledger(NamedTuple):
    """Least ledger thickness and depth, and bolt embedment [mm]."""

    thickness_mm: float
    depth_mm: float
    embedment_mm: float


class PlateAnchor(NamedTuple):
    """Least bolt diameter and embedment [mm], largest spacing [m], and where across the wall it stands."""

    diameter_mm: float
    spacing_m: float
    embedment_mm: float
    position: str


@clause(
    CODE,
    "9.23.2.2",
    title="Air space at a beam end",
    unit="mm",
    rule="12 mm at end and sides where the member's bottom is at or below ground and it is not treated; never filled.",
)
def beam_air_space_mm(*, at_or_below_ground: bool) -> float:
    """Least air space at the end and sides of a wood member in a pocket [mm]; none above ground. Source: OBC 9.23.2.2."""
    return AIR_SPACE_MM if at_or_below_ground else 0.0


@clause(
    CODE,
    "9.23.2.3",
    title="Break between wood and concrete that touches the ground",
    rule="0.05 mm polyethylene or Type S roofing, unless the wood is treated or 150 mm or more above ground.",
)
def capillary_break_required(above_ground_mm: float, *, treated: bool = False) -> bool:
    """Whether framing on concrete in ground contact needs a sheet beneath. Source: OBC 9.23.2.3."""
    return not treated and above_ground_mm < CAPILLARY_CLEAR_MM


@clause(
    CODE,
    "9.23.9.1",
    title="Least bearing of a joist or beam",
    unit="mm",
    rule="Joists 38 mm (9.23.9.1), beams 89 mm (9.23.8.1).",
)
def minimum_bearing_mm(member: Literal["joist", "beam"]) -> float:
    """Least bearing [mm]. Raises: BadInput for another member. Source: OBC 9.23.9.1, 9.23.8.1."""
    return choose("member", BEARING_MM, member)


@clause(
    CODE,
    "9.20.17.1",
    title="Flat ICF wall above grade, its limits",
    rule="At least 140 mm of concrete, of one thickness over the height; two storeys, 3 m floor to floor, Sa(0.2) to 0.4.",
)
def above_grade_wall() -> WallScope:
    """Limits of the prescriptive wall. Source: OBC 9.20.17.1, 9.20.1.1."""
    return WallScope(140.0, 2, 3.0, 0.4)


@clause(
    CODE,
    "9.20.17.5",
    title="Ledger of a floor on a flat ICF wall",
    rule="38 mm thick or more, as deep as the joists, bolts embedded 100 mm and staggered.",
)
def ledger(joist_depth_mm: float) -> Ledger:
    """Least ledger and embedment. Args: joist_depth_mm: depth of the joists [mm]. Source: OBC 9.20.17.5."""
    return Ledger(38.0, joist_depth_mm, 100.0)


@clause(
    CODE,
    "Table 9.20.17.5",
    title="Spacing of ledger bolts",
    unit="mm",
    rule="By clear floor span, the next longer row, for staggered 12.7 mm and 16 mm bolts.",
)
def ledger_bolt_spacing_mm(span_m: float, bolt_mm: float) -> float:
    """Largest spacing of staggered ledger bolts [mm]. Args: span_m: clear floor span [m]. bolt_mm: 12.7 or 16, 15.9 being
        the same 5/8 in bolt.

    Raises: BadInput for another bolt, OutOfScope beyond 5 m. Source: OBC Table 9.20.17.5.
    """
    column = choose("bolt_mm", {12.7: "bolt_12.7", 16: "bolt_16", 15.9: "bolt_16"}, bolt_mm)
    rows = {float(row["clear_span_m"]): row for row in tables.load("obc_9_20_17_5").rows}
    printed = not_less(rows, span_m)
    if printed is None:
        raise OutOfScope("OBC Table 9.20.17.5", f"It ends at {max(rows):g} m of clear span; bring a design.")
    return float(rows[printed][column])


@clause(
    CODE,
    "9.23.6.1",
    title="Sill anchorage",
    rule="12.7 mm bolts at 2.4 m, embedded 100 mm.",
)
def sill_anchor() -> PlateAnchor:
    """Least sill anchors. Source: OBC 9.23.6.1."""
    return PlateAnchor(12.7, 2.4, 100.0, "")


@clause(
    CODE,
    "9.20.17.6",
    title="Anchorage of a roof plate on an ICF wall",
    rule="12.7 mm bolts at 1.2 m, embedded 100 mm, at the centre of the wall.",
)
def roof_plate_anchor() -> PlateAnchor:
    """Least anchors of the roof's top plate. Source: OBC 9.20.17.6."""
    return PlateAnchor(12.7, 1.2, 100.0, "centre of wall")


@clause(
    CODE,
    "9.20.8.5",
    title="Largest projection of veneer beyond its support",
    unit="mm",
    rule="A third of its thickness, and 25 mm for units 90 mm and thicker or 12 mm for thinner ones (9.20.12.3).",
)
def veneer_projection_mm(thickness_mm: float) -> float:
    """Largest projection [mm]. Args: thickness_mm: of the veneer. Source: OBC 9.20.8.5, 9.20.12.3."""
    return min(veneer_projection_fraction() * thickness_mm, 25.0 if thickness_mm >= 90 else 12.0)


@clause(
    CODE,
    "9.20.8.5",
    title="Largest projection of veneer as a share of its thickness",
    rule="One third.",
)
def veneer_projection_fraction() -> float:
    """Share of the veneer's thickness that may project. Source: OBC 9.20.8.5."""
    return 1 / 3
