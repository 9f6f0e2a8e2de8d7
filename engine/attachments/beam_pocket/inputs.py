"""What is asked of a beam end in a pocket of the wall."""

from dataclasses import dataclass

from engine import common_fields as common
from engine.clauses.us.timber_materials import species_choices
from engine.fields import choice, count, number, text, yes

BEAMS = (
    ("sawn", "sawn or built-up lumber"),
    ("glulam", "glued laminated timber"),
    ("scl", "laminated veneer or other composite lumber"),
    ("steel", "steel beam"),
)
SEATS = (
    ("concrete", "straight on concrete"),
    ("loose_plate", "loose steel plate"),
    ("anchored_plate", "anchored steel seat"),
    ("wood_plate", "wood plate, 2 in nominal"),
)
WOOD = ("sawn", "glulam", "scl")
STEEL_SEATS = ("loose_plate", "anchored_plate")
ON_PLATE = ("seat", ("loose_plate", "anchored_plate", "wood_plate"))
CARRIED, POCKET, SEAT, PLACE, BARS = "Carried", "Pocket", "Seat", "Place", "Bars beside"


@dataclass(frozen=True, slots=True)
class Inputs:
    """A beam pocket: see each field's label, unit and range."""

    beam: str = choice("Beam", BEAMS, "sawn", group=CARRIED)
    species: str = choice(
        "Species or class", species_choices(), "DF-L", group=CARRIED, when=("beam", ("sawn", "glulam"))
    )
    F_c_perp_psi: float | None = number(
        "Bearing value across the grain", "psi", 200, 2000, group=CARRIED, optional=True, when=("beam", ("scl",)),
        hint="From the member's evaluation report.",
    )  # fmt: skip
    width_in: float = number("Beam width", "in", 1, 24, 4.5, group=CARRIED)
    depth_in: float = number("Beam depth", "in", 3, 60, 9.25, group=CARRIED)
    required_bearing_in: float | None = number(
        "Bearing the member drawing asks for", "in", 0.5, 24, group=CARRIED, optional=True
    )
    wet: bool = yes("The beam's end may stay wet in service", group=CARRIED, when=("beam", WOOD))
    treated: bool = yes("The beam's end is treated or naturally durable", group=CARRIED, when=("beam", WOOD))
    reaction_dead_lb: float = common.point_load("Dead, at the beam's end", 1500.0)
    reaction_live_lb: float = common.point_load("Live, at the beam's end", 4000.0)
    reaction_roof_lb: float = common.point_load("Roof live, at the beam's end")
    reaction_snow_lb: float = common.point_load("Snow, at the beam's end")
    uplift_lb: float = common.point_load("Wind uplift at the beam's end")
    lateral_lb: float = common.point_load("Lateral load at the beam's end")
    held_by: str = text("Held down and sideways by", group=common.LOADS, hint="Name the strap, bolt or angle.")
    wall_dead_plf: float = common.line_load("Dead, wall and floors above", 800.0)
    wall_live_plf: float = common.line_load("Live, floors above")
    wall_snow_plf: float = common.line_load("Snow, from above")
    seismic: str = common.seismic()
    pocket_width_in: float = number("Pocket width", "in", 2, 48, 5.5, group=POCKET, step=0.5)
    pocket_height_in: float = number("Pocket height", "in", 4, 72, 9.75, group=POCKET, step=0.25)
    pocket_length_in: float = number("Pocket length into the core", "in", 1, 24, 4.0, group=POCKET, step=0.25)
    end_gap_in: float = number("Gap at the beam's end", "in", 0, 12, 0.5, group=POCKET, step=0.125)
    filled: bool = yes("Gaps are filled with foam", group=POCKET)
    seat: str = choice("Beam bears", SEATS, "concrete", group=SEAT, step=1, change="Set the beam on: {value}")
    plate_width_in: float = number("Plate, along the wall", "in", 1, 36, 6.0, group=SEAT, when=ON_PLATE, step=0.5)
    plate_length_in: float = number("Plate, into the wall", "in", 1, 24, 3.5, group=SEAT, when=ON_PLATE, step=0.5)
    plate_thickness_in: float = number("Plate thickness", "in", 0.125, 3, 0.5, group=SEAT, when=ON_PLATE, step=0.125)
    plate_f_y_ksi: float = number("Plate yield strength", "ksi", 30, 65, 36.0, group=SEAT, when=("seat", STEEL_SEATS))
    setback_in: float = number("Seat held back from the core's face", "in", 0, 6, 0.0, group=SEAT, step=0.25)
    dam_thickness_in: float | None = number(
        "Thickness of the pocket's dam", "in", 0.01, 2, group=SEAT, optional=True, hint="Base metal, without zinc."
    )
    screed_access: bool = yes("The seat can be reached to strike it level", True, group=SEAT)
    core_in: float = common.core("Core", "lower", 8.0)
    foam_inner_in: float = common.foam("Foam, room side", "lower", "inner")
    foam_outer_in: float = common.foam("Foam, outer side", "lower", "outer")
    seat_height_ft: float = number(
        "Seat above the floor below", "ft", 1, 40, 8.0, group=common.WALL, wall="storey.height_ft"
    )
    foundation: bool = common.foundation()
    left_in: float = number(
        "Wall to the left, to an end or opening", "in", 0, 5000, 120.0, group=PLACE, wall="place.left_in"
    )
    right_in: float = number(
        "Wall to the right, to an end or opening", "in", 0, 5000, 120.0, group=PLACE, wall="place.right_in"
    )
    next_pocket_in: float = number("Nearest other pocket, centre to centre", "in", 6, 5000, 192.0, group=PLACE)
    over_opening: bool = yes("Stands over an opening", group=PLACE, wall="place.over_opening")
    lintel_designed: bool = yes(
        "The lintel under it is designed for this load", group=PLACE, when=("over_opening", (True,))
    )
    shear_segment: bool = yes("Stands in a solid wall segment the wind design counts", group=PLACE)
    f_c_psi: float = common.f_c()
    f_y_ksi: float = common.f_y()
    curtains: str = common.curtains()
    vertical_bar: str = common.bars()
    vertical_spacing_in: float = common.bar_spacing()
    cover_in: float = common.cover()
    behind_min_in: float = number(
        "Least core left behind the pocket", "in", 1, 8, 2.0, group=common.CONCRETE, hint="Cover, bar and cover."
    )
    bars_cut: int = count("Vertical bars the pocket cuts", 0, 12, 0, group=BARS)
    bars_added: int = count("Vertical bars added beside it, in all", 0, 12, 0, group=BARS, step=1)
