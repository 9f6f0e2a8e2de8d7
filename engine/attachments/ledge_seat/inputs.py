"""What is asked of joists on the ledge of a stepped wall."""

from dataclasses import dataclass

from engine import common_fields as common
from engine.clauses.us.anchors_materials import steels
from engine.clauses.us.timber_materials import species_choices
from engine.fields import choice, number, yes

MEMBERS = (
    ("sawn", "sawn joists"),
    ("i_joist", "I-joists, on their bottom flange"),
    ("truss", "floor trusses, on their bottom chord"),
    ("top_chord", "trusses bearing on their top chord"),
)
# Dressed sizes of sawn plates, thickness and width [in]: American Softwood Lumber Standard, DOC PS 20, Table 3. provenance: memory.
PLATES = {
    "2x4": (1.5, 3.5),
    "2x6": (1.5, 5.5),
    "2x8": (1.5, 7.25),
    "2x10": (1.5, 9.25),
    "3x4": (2.5, 3.5),
    "3x6": (2.5, 5.5),
}
NOMINAL = {key: tuple(float(n) for n in key.split("x")) for key in PLATES}
PLATE_OPTIONS = (("none", "no plate, joist straight on concrete"), *((k, k) for k in PLATES))
BOLTS = (("0.5", "1/2 in"), ("0.625", "5/8 in"), ("0.75", "3/4 in"))
STEELS = tuple((s.key, s.label) for s in steels().values() if s.threaded)
FROM_DRAWING = ("i_joist", "truss", "top_chord")
WITH_PLATE = ("plate", tuple(PLATES))

COMPUTED, TYPED = ("reaction", ("computed", "continuous")), ("reaction", ("typed",))
RUN_ON = ("reaction", ("continuous",))

CARRIED, LEDGE, PLATE, BOLT, STRIP = "Carried", "Ledge", "Sill plate", "Anchor bolts", "Wall below"


@dataclass(frozen=True, slots=True)
class Inputs:
    """Joists on a ledge: see each field's label, unit and range."""

    member: str = choice("What", MEMBERS, "sawn", group=CARRIED)
    joist_species: str = choice("Joist species", species_choices(), "SPF", group=CARRIED, when=("member", ("sawn",)))
    joist_depth_in: float = number("Joist depth", "in", 3, 60, 9.25, group=CARRIED)
    joist_width_in: float = number("Width that bears", "in", 1, 12, 1.5, group=CARRIED)
    joist_spacing_in: float = number("Spacing", "in", 6, 96, 16.0, group=CARRIED, step=4)
    span_ft: float = number("Span", "ft", 1, 60, 14.0, group=CARRIED, step=1 / 3)
    required_bearing_in: float | None = number(
        "Bearing the member drawing asks for", "in", 0.5, 24, group=CARRIED, optional=True
    )
    seat_depth_in: float | None = number(
        "Depth of the bearing seat", "in", 1, 24, group=CARRIED, optional=True, when=("member", ("top_chord",)),
        hint="From the member drawing.",
    )  # fmt: skip
    clearance_in: float | None = number(
        "Member below clears the foam by", "in", 0, 24, group=CARRIED, optional=True, when=("member", ("top_chord",))
    )
    notch_in: float = number(
        "Cut up at the end",
        "in",
        0,
        24,
        0.0,
        group=CARRIED,
        when=("member", ("sawn",)),
        hint="0 where the joist is whole.",
    )
    end_held: str = choice(
        "Ends held against rotation by",
        (
            ("blocking", "full-depth blocking"),
            ("rim", "full-depth rim or band"),
            ("other", "other approved means"),
            ("none", "nothing yet"),
        ),
        "blocking",
        group=CARRIED,
    )
    reaction: str = choice(
        "End reaction",
        (
            ("computed", "computed, simple span"),
            ("continuous", "computed, joists run on over supports"),
            ("typed", "typed from the member drawing"),
        ),
        "computed",
        group=common.LOADS,
    )
    second_span_ft: float = number("Second span", "ft", 1, 60, 14.0, group=common.LOADS, when=RUN_ON)
    third_span_ft: float = number(
        "Third span", "ft", 0, 60, 0.0, group=common.LOADS, when=RUN_ON, hint="0 where there are two."
    )
    dead_psf: float = common.area_load("Dead, floor", 10.0, when=COMPUTED)
    live_psf: float = common.area_load("Live, floor", 40.0, when=COMPUTED)
    snow_psf: float = common.area_load("Snow, where a roof", when=COMPUTED)
    own_weight_plf: float = number("Joist's own weight", "plf", 0, 200, 0.0, group=common.LOADS, when=COMPUTED)
    reaction_dead_lb: float = common.point_load("Dead, at the joist's end", 100.0, when=TYPED)
    reaction_live_lb: float = common.point_load("Live, at the joist's end", 400.0, when=TYPED)
    reaction_snow_lb: float = common.point_load("Snow, at the joist's end", when=TYPED)
    wall_dead_plf: float = common.line_load("Dead, wall and floors above", 1000.0)
    wall_live_plf: float = common.line_load("Live, floors above")
    wall_snow_plf: float = common.line_load("Snow, from above")
    uplift_plf: float = common.line_load("Wind uplift on the plate")
    lateral_plf: float = common.line_load("Wind on the plate, across the wall")
    seismic: str = common.seismic()
    lower_core_in: float = common.core("Lower core", "lower", 10.0)
    upper_core_in: float = common.core("Upper core", "upper", 6.0)
    foam_lower_in: float = common.foam("Foam below, room side", "lower", "inner")
    foam_upper_in: float = common.foam("Foam above, room side", "upper", "inner")
    foam_outer_lower_in: float = common.foam("Foam below, outer side", "lower", "outer")
    foam_outer_upper_in: float = common.foam("Foam above, outer side", "upper", "outer")
    course_in: float = number("Course height", "in", 6, 48, 16.0, group=common.WALL, wall="lower.course_in")
    storey_height_ft: float = common.storey_height()
    foundation: bool = common.foundation()
    shelf_height_ft: float = number(
        "Height of the thin part", "ft", 0.5, 40, 9.0, group=common.WALL, when=("foundation", (True,))
    )
    wall_above_in: float = number(
        "Thickness of the wall above", "in", 3, 24, 6.0, group=common.WALL, when=("foundation", (True,)),
        hint="The core or framing that stands on the thin part.",
    )  # fmt: skip
    bars_by: str = choice(
        "Vertical bars chosen by",
        (("thin", "the thin part"), ("thick", "the thick part")),
        "thin",
        group=common.WALL,
        when=("foundation", (True,)),
    )
    top: str = choice(
        "Ledge",
        (("square", "square, to the core"), ("taper", "tapered out under the panel")),
        "taper",
        group=LEDGE,
        step=1,
        change="Make the ledge {value}",
    )
    lip_in: float = number("Foam left at the lip", "in", 0, 8, 0.5, group=LEDGE, when=("top", ("taper",)), step=0.25)
    taper_depth_in: float = number(
        "Depth of the taper", "in", 1, 48, 16.0, group=LEDGE, when=("top", ("taper",)), step=1
    )
    upper_foam: str = choice(
        "Upper foam",
        (("whole", "left whole"), ("cut_joist", "cut away at each joist"), ("cut_line", "cut away along the line")),
        "whole",
        group=LEDGE,
        step=1,
        change="Have the upper foam {value}",
    )
    end_gap_in: float = number("End gap of the joist", "in", 0, 6, 0.5, group=LEDGE, step=0.125)
    core_tolerance: str = choice(
        "Core tolerance",
        (("r608", "-1/2, +1/4 in (IRC R608)"), ("aci117", "-1/4, +3/8 in (ACI 117)")),
        "r608",
        group=LEDGE,
    )
    place_tolerance_in: float = number("Tolerance of form, plate and joist", "in", 0, 2, 0.25, group=LEDGE, step=0.0625)
    plate: str = choice("Size", PLATE_OPTIONS, "2x4", group=PLATE, step=1, change="Use {value} for the plate")
    plate_species: str = choice("Plate species", species_choices(), "SPF", group=PLATE, when=WITH_PLATE)
    plate_wet: bool = yes("Plate may stay wet in service", group=PLATE, when=WITH_PLATE)
    plate_gap_in: float = number("Gap behind the plate", "in", 0, 12, 0.0, group=PLATE, when=WITH_PLATE, step=0.125)
    plate_piece_ft: float = number("Length of the pieces", "ft", 1, 24, 12.0, group=PLATE, when=WITH_PLATE)
    joint_clear_in: float = number(
        "Nearest plate joint to a joist", "in", 0, 48, 0.0, group=PLATE, when=WITH_PLATE,
        hint="3 in or more lets the plate use its bearing area factor.",
    )  # fmt: skip
    bolt: str = choice("Diameter", BOLTS, "0.5", group=BOLT, step=1, when=WITH_PLATE, change="Use {value} anchor bolts")
    bolt_head: str = choice(
        "Embedded end", (("hex", "hex head"), ("heavy_hex", "heavy hex head or nut"), ("hook", "hook, 90 degrees")), "hex",
        group=BOLT, when=WITH_PLATE,
    )  # fmt: skip
    hook_in: float = number("Hook, outside length", "in", 1, 6, 2.5, group=BOLT, when=("bolt_head", ("hook",)))
    steel: str = choice("Bolt steel", STEELS, "F1554-36", group=BOLT, when=WITH_PLATE, step=1)
    bolt_embedment_in: float = number("Embedment", "in", 2, 24, 7.0, group=BOLT, when=WITH_PLATE, step=0.5)
    bolt_spacing_in: float = number("Spacing", "in", 4, 144, 48.0, group=BOLT, when=WITH_PLATE, step=8)
    bolt_end_in: float = number("From the ends of a piece", "in", 1, 48, 8.0, group=BOLT, when=WITH_PLATE, step=1)
    bolt_from_back_in: float = number(
        "From the back of the plate", "in", 0.5, 10, 1.25, group=BOLT, when=WITH_PLATE, step=0.125
    )
    f_c_psi: float = common.f_c()
    f_y_ksi: float = common.f_y()
    curtains: str = common.curtains()
    vertical_bar: str = common.bars()
    vertical_spacing_in: float = common.bar_spacing()
    cover_in: float = common.cover()
    lap_in: float = number("Lap into the wall above", "in", 6, 120, 30.0, group=common.CONCRETE, step=1)
