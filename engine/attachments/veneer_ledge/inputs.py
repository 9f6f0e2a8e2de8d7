"""What is asked of a veneer ledge: concrete run out through the outer foam that carries masonry veneer."""

from dataclasses import dataclass

from engine import common_fields as common
from engine.fields import choice, count, number, text, yes

STIRRUPS = tuple((str(n), f"No. {n}") for n in (3, 4, 5, 6))
TIES = (("none", "none"), ("3", "No. 3"), ("4", "No. 4"), ("5", "No. 5"))
TIPS = (
    ("bar", "bent down round a bar in the outer corner"),
    ("welded", "welded to a cross bar"),
    ("loop", "bent back as a level loop"),
    ("bend", "bent down, no bar in the corner"),
)
HOOKS = (("90", "90 degree hook"), ("180", "180 degree hook"), ("closed", "closed loop round the far bars"))
JOINTS = (
    ("monolithic", "in one with the wall"),
    ("roughened", "later, on concrete roughened to 1/4 in"),
    ("not roughened", "later, on concrete not roughened"),
)
VENEER_TIES = (
    ("W1.7", "wire, W1.7"),
    ("W2.8", "wire, W2.8"),
    ("corrugated", "corrugated sheet"),
    ("engineered", "by their own design or report"),
)
WEATHERING = (("negligible", "negligible"), ("moderate", "moderate"), ("severe", "severe"))

BENT_DOWN = ("bar", "bend")
CROSS_BARRED = ("tip", ("bar", "welded"))
TIED = ("tie_bar", ("3", "4", "5"))
OPENED = ("openings", (True,))
CORNERED = ("corner", ("outside", "inside"))
OUTSIDE_CORNER = ("corner", ("outside",))

CARRIED, LEDGE, BARS = "Carried", "Ledge", "Bars of the ledge"
HELD, CORNER = "Veneer ties and water", "Corner"


@dataclass(frozen=True, slots=True)
class Inputs:
    """A veneer ledge: see each field's label, unit and range."""

    weight_by: str = choice(
        "Weight of the veneer", (("typed", "typed by area"), ("density", "from thickness and density")), "typed",
        group=CARRIED,
    )  # fmt: skip
    veneer_psf: float = number("Veneer with mortar", "psf", 2, 200, 40.0, group=CARRIED, when=("weight_by", ("typed",)))
    density_pcf: float = number(
        "Density of the veneer", "pcf", 50, 200, 120.0, group=CARRIED, when=("weight_by", ("density",))
    )
    wythe_in: float = number("Thickness of the wythe", "in", 1, 12, 3.625, group=CARRIED)
    height_ft: float = number("Height of the veneer", "ft", 1, 60, 20.0, group=CARRIED, step=1)
    gable_ft: float = number(
        "Gable above that height", "ft", 0, 40, 0.0, group=CARRIED, step=1, hint="At its peak; 0 where there is none."
    )
    openings: bool = yes("Openings in the veneer", group=CARRIED)
    opening_ft: float = number("Width of the opening", "ft", 0.5, 40, 6.0, group=CARRIED, when=OPENED)
    pier_ft: float = number(
        "Width of the piers beside it, together", "ft", 0.5, 80, 6.0, group=CARRIED, when=OPENED,
        hint="Each pier to half way toward the next opening.",
    )  # fmt: skip
    over_opening_ft: float | None = number(
        "Veneer above the head", "ft", 0, 100, group=CARRIED, optional=True, when=OPENED,
        hint="The whole height where left open.",
    )  # fmt: skip
    stories: int = count("Storeys of the house", 1, 4, 2, group=CARRIED)
    backed: bool = yes("Concrete behind the lower 10 ft of veneer", True, group=CARRIED)
    restraint: str = choice(
        "Pull of the veneer on the ledge",
        (("code", "by the code, a fifth of its weight"), ("typed", "typed"), ("slip", "none: it sits on a slip sheet")),
        "code", group=common.LOADS, step=1, change="Have the pull of the veneer on the ledge {value}",
    )  # fmt: skip
    N_uc_plf: float = number(
        "Factored pull", "plf", 0, 20000, 256.0, group=common.LOADS, when=("restraint", ("typed",))
    )
    wall_dead_plf: float = common.line_load("Dead, wall and floors above", 1000.0)
    wall_live_plf: float = common.line_load("Live, floors above")
    wall_snow_plf: float = common.line_load("Snow, from above")
    wind_psf: float = number("Design wind pressure", "psf", 0, 200, 20.0, group=common.LOADS)
    seismic: str = common.seismic()
    projection_in: float = number("Ledge beyond the core", "in", 2, 30, 7.125, group=LEDGE, step=0.125)
    depth_in: float = number("Depth at the core", "in", 3, 48, 12.0, group=LEDGE, step=0.5)
    lip_depth_in: float = number("Depth at the lip", "in", 1, 48, 6.0, group=LEDGE, step=0.5)
    air_in: float = number("Air space", "in", 0, 8, 1.0, group=LEDGE, step=0.125)
    lip_foam_in: float = number("Foam before the lip", "in", 0, 8, 2.5, group=LEDGE)
    joint: str = choice("Ledge is cast", JOINTS, "monolithic", group=LEDGE, step=1, change="Cast the ledge {value}")
    sloped: bool = yes("The ledge runs on a slope", group=LEDGE)
    exposed: bool = yes("Weather or ground reaches the ledge's concrete", True, group=LEDGE)
    weathering: str = choice("Weathering of the region", WEATHERING, "moderate", group=LEDGE)
    forms: str = choice("Ledge's forms", (("stay", "stay in place"), ("strip", "are stripped")), "stay", group=LEDGE)
    stirrup: str = choice("Stirrup size", STIRRUPS, "4", group=BARS, step=1, change="Use {value} stirrups")
    web_spaces: int = count("Web spaces to each stirrup", 1, 6, 1, group=BARS, step=1)
    top_cover_in: float = number("Cover above the stirrup", "in", 0.5, 6, 1.5, group=BARS, step=0.25)
    lip_cover_in: float = number("Cover at the lip", "in", 0.5, 6, 1.5, group=BARS, step=0.25)
    soffit_cover_in: float = number("Cover at the soffit", "in", 0.5, 6, 1.5, group=BARS, step=0.25)
    tip: str = choice(
        "Stirrup at the lip is", TIPS, "bar", group=BARS, step=1, change="Have the stirrup at the lip {value}"
    )
    tip_bar: str = choice("Bar along the lip", STIRRUPS, "4", group=BARS, when=CROSS_BARRED, step=1)
    bend_in: float | None = number(
        "Inside diameter of the bend at the lip", "in", 0.75, 12, group=BARS, optional=True,
        hint="The standard bend where left open.",
    )  # fmt: skip
    hook: str = choice(
        "Stirrup in the core ends in", HOOKS, "90", group=BARS, step=1, change="End the stirrup in a {value}"
    )
    hook_cover_in: float = number("Cover behind the hook, room side", "in", 0.5, 6, 1.5, group=BARS, step=0.25)
    beside_end: bool = yes("A stirrup stands next to a wall end or an opening", group=BARS)
    side_cover_in: float = number(
        "Side cover of that stirrup", "in", 0.5, 48, 2.0, group=BARS, when=("beside_end", (True,)), step=0.5
    )
    tie_bar: str = choice("Closed ties", TIES, "3", group=BARS, step=1, change="Use {value} closed ties")
    tie_layers: int = count("Layers of closed ties", 1, 4, 1, group=BARS, when=TIED, step=1)
    tie_drop_in: float = number(
        "Lowest closed tie below the stirrup's top leg", "in", 1, 36, 3.5, group=BARS, when=TIED, step=0.5
    )
    holder: str = choice("Bars that hold the stirrups in the core", (("none", "none"), *STIRRUPS), "none", group=BARS)
    coated: bool = yes("Bars are epoxy coated", group=BARS)
    core_in: float = common.core("Core thickness", "lower", 8.0)
    foam_outer_in: float = common.foam("Foam, outer side", "lower", "outer")
    foam_inner_in: float = common.foam("Foam, room side", "lower", "inner")
    web_spacing_in: float = number("Web spacing", "in", 4, 24, 8.0, group=common.WALL, wall="lower.web_spacing_in")
    storey_height_ft: float = number(
        "Height between the floors below and above", "ft", 1, 40, 9.0, group=common.WALL, wall="storey.height_ft"
    )
    ledge_height_ft: float = number("Ledge above the floor below", "ft", 0, 40, 8.0, group=common.WALL)
    free_top: bool = yes("No floor holds the wall above the ledge", group=common.WALL)
    foundation: bool = common.foundation()
    backfill: bool = yes("Soil stands against the wall below", group=common.WALL)
    f_c_psi: float = common.f_c()
    f_y_ksi: float = common.f_y()
    curtains: str = common.curtains()
    vertical_bar: str = common.bars()
    vertical_spacing_in: float = common.bar_spacing()
    cover_in: float = common.cover()
    veneer_tie: str = choice(
        "Veneer ties", VENEER_TIES, "W1.7", group=HELD, step=1, change="Use these veneer ties: {value}"
    )
    veneer_tie_report: str = text(
        "Their report or design", group=HELD, when=("veneer_tie", ("engineered",)), hint="Number or author and date."
    )
    veneer_tie_h_in: float = number("Veneer ties apart, level", "in", 4, 96, 16.0, group=HELD, step=8)
    veneer_tie_v_in: float = number("Veneer ties apart, upright", "in", 4, 96, 16.0, group=HELD, step=8)
    flashing: bool = yes("Flashing under the first course", True, group=HELD)
    weeps_in: float = number("Weeps apart", "in", 4, 96, 24.0, group=HELD, step=8)
    corner: str = choice(
        "Corner", (("none", "none"), ("outside", "outside corner"), ("inside", "inside corner")), "none", group=CORNER
    )
    corner_way: str = choice(
        "Ledge forms at the corner", (("mitre", "mitred"), ("pieces", "closed with extension pieces")), "mitre",
        group=CORNER, when=OUTSIDE_CORNER,
    )  # fmt: skip
    corner_stirrups: int = count(
        "Extra stirrups at the first web, each side", 0, 4, 1, group=CORNER, when=OUTSIDE_CORNER, step=1
    )
    corner_leg_in: float = number(
        "Legs of the L bars past the corner", "in", 0, 96, 42.0, group=CORNER, when=OUTSIDE_CORNER, step=1
    )
    rib_fasteners: int = count("Fasteners to each rib", 0, 8, 2, group=CORNER, when=CORNERED, step=1)
