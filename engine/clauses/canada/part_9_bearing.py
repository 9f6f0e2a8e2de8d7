"""Part 9: least bearing of wood members, wood in concrete, decay and termites, in millimetres."""

from typing import Literal, NamedTuple

from engine.clauses.canada import ALBERTA, ONTARIO, obc
from engine.errors import OutOfScope
from engine.tables.reading import choose
from engine.worksheet import clause

# As in Ontario's text of 2012, and roofs.
ON_WOOD_OR_CONCRETE_MM = {**obc.BEARING_MM, "rafter": 38.0, "ridge beam": 89.0}
ON_MASONRY_MM = {"joist": 40.0, "rafter": 40.0, "beam": 90.0, "ridge beam": 90.0}
Member = Literal["joist", "rafter", "beam", "ridge beam"]


class Separator(NamedTuple):
    """Thickness of the polyethylene under untreated wood [mm], and the height above ground from which none is needed [mm]."""

    polyethylene_mm: float
    exempt_mm: float


@clause(
    ONTARIO,
    "9.23.9.1",
    title="Least end bearing of a wood member",
    unit="mm",
    rule="Floor joists 38 mm (9.23.9.1), rafters 38 mm (9.23.14.3), beams 89 mm (9.23.8.1), ridge beams 89 mm (9.23.14.8). "
    "Joists on a ribbon board of 19 by 89 mm let into the studs are excepted.",
)
def end_bearing_mm(member: Member, *, on_ribbon_board: bool = False) -> float:
    """Least end bearing [mm].

    Raises: BadInput for another member, OutOfScope on a ribbon board, for which no length is given.
    Source: OBC 9.23.9.1, 9.23.14.3, 9.23.8.1, 9.23.14.8.
    """
    if on_ribbon_board:
        raise OutOfScope(
            "9.23.9.1", "It gives joists on a ribbon board no least bearing; check the board of 19 by 89 mm."
        )
    return choose("member", ON_WOOD_OR_CONCRETE_MM, member)


@clause(
    ALBERTA,
    "9.20.8.3",
    title="Least end bearing on masonry",
    unit="mm",
    rule="Beams 90 mm, floor, roof and ceiling joists 40 mm; masonry only.",
)
def bearing_on_masonry_mm(member: Member) -> float:
    """Least end bearing on masonry [mm]. Raises: BadInput for another member. Source: NBC(AE) 9.20.8.3."""
    return choose("member", ON_MASONRY_MM, member)


@clause(
    ALBERTA,
    "9.23.2.2",
    title="Air around a wood end in concrete",
    unit="mm",
    rule="12 mm at end and sides of an untreated end whose bottom is at or below ground; foam in the gap fills it.",
)
def air_space_mm(*, at_or_below_ground: bool, treated: bool) -> float:
    """Least air space at end and sides [mm]. Source: NBC(AE) 9.23.2.2."""
    return obc.beam_air_space_mm(at_or_below_ground=at_or_below_ground and not treated)


@clause(
    ONTARIO,
    "9.23.2.3",
    title="Separation of untreated wood from concrete that touches the ground",
    rule="0.05 mm polyethylene or Type S roll roofing, but not from 150 mm above ground.",
)
def separator() -> Separator:
    """Least separator. Source: OBC 9.23.2.3."""
    return Separator(0.05, obc.CAPILLARY_CLEAR_MM)


@clause(
    ONTARIO,
    "9.3.2.9",
    title="Least clearance of untreated wood to the ground",
    unit="mm",
    rule="150 mm (9.3.2.9.(3)); 450 mm where termites are known, with supports in view (9.3.2.9.(1)). Treated wood: none.",
)
def clearance_to_ground_mm(*, termites: bool, treated: bool = False) -> float:
    """Least clearance of wood [mm], 0 where it is treated. Source: OBC and NBC(AE) 9.3.2.9."""
    if treated:
        return 0.0
    return 450.0 if termites else 150.0
