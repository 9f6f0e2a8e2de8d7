"""What is asked of an anchored steel plate or angle that carries a joist, a beam or a ledger off the wall's face."""

from dataclasses import dataclass
from fractions import Fraction

from engine import common_fields as common
from engine.clauses.us.anchors_materials import steels
from engine.clauses.us.anchors_seismic import WORDS
from engine.clauses.us.timber_materials import species_choices, wood_screw, wood_screw_choices
from engine.fields import choice, count, number, yes

CARRIES = (
    ("joist", "a joist"),
    ("beam", "a beam"),
    ("ledger", "a ledger that runs over several plates"),
)
WOODS = (
    ("sawn", "sawn or built-up lumber"),
    ("glulam", "glued laminated timber"),
    ("scl", "laminated veneer or other composite lumber"),
)
LEGS = (
    ("two", "two legs on a plate, one each side of the member"),
    ("one", "one leg on a plate, beside the member"),
    ("slot", "one leg on a plate, in a slot of the member"),
    ("angle", "an angle, its leg beside the member"),
)
DIAMETERS = {key: float(Fraction(key)) for key in ("1/2", "5/8", "3/4", "7/8", "1")}
BOLTS = tuple((key, f"{key} in") for key in DIAMETERS)
STEELS = tuple((s.key, s.label) for s in steels().values() if s.threaded)
HEADS = (
    ("hex", "hex head"),
    ("heavy hex", "heavy hex head or nut"),
    ("washer", "heavy hex nut on a square plate washer"),
    ("hook", "hook, 90 degrees"),
)
# From 1/4 in up wood screws fall under the distances of bolts (NDS 12.5.1).
GAUGES = tuple((key, words) for key, words in wood_screw_choices() if wood_screw(key).D_in < 0.25)
CONTACTS = (
    ("tight", "cut away, plate tight on the core"),
    ("grout", "cut away, plate on a pad of grout"),
    ("gap", "left behind the plate, nuts on both sides of it"),
)
EXPOSURES = (("not exposed", "covered by foam or inside"), ("weather or ground", "weather or ground"))
EDGE_BARS = (
    ("none", "none, or smaller than No. 4"),
    ("bar", "a No. 4 bar or larger between anchors and edge"),
    ("bar and stirrups", "the same in stirrups at most 4 in apart"),
)
ROUTES = (("none", "nothing chosen yet"), *WORDS.items())
RUNS = (
    ("continuous", "runs on over its plates"),
    ("single", "has a joint at every plate"),
)

CARRIED, PLATE, ANCHORS, FASTENERS = "Carried", "Plate", "Anchors", "Fasteners to the member"
BEHIND, PLACE = "Behind the plate", "Place"
MEMBER, LEDGER = ("carried", ("joist", "beam")), ("carried", ("ledger",))
SPECIES_ASKED, COMPOSITE = ("wood", ("sawn", "glulam")), ("wood", ("scl",))
BOLTED, SCREWED = ("fastener", ("bolt",)), ("fastener", ("screw",))
SEVERAL = (2, 3, 4)
HIGH_CATEGORIES = ("C", "C-town", "D0", "D1", "D2")


@dataclass(frozen=True, slots=True)
class Inputs:
    """An anchored plate: see each field's label, unit and range."""

    carried: str = choice("What", CARRIES, "beam", group=CARRIED)
    wood: str = choice("Wood", WOODS, "sawn", group=CARRIED)
    species: str = choice("Species or class", species_choices(), "DF-L", group=CARRIED, when=SPECIES_ASKED)
    G: float | None = number(
        "Equivalent specific gravity", "", 0.3, 0.8, group=CARRIED, optional=True, when=COMPOSITE,
        hint="For these fasteners in this face, from the evaluation report.",
    )  # fmt: skip
    F_v_psi: float | None = number(
        "Shear value", "psi", 50, 600, group=CARRIED, optional=True, when=COMPOSITE, hint="From the evaluation report."
    )
    F_c_perp_psi: float | None = number(
        "Bearing value across the grain", "psi", 200, 2000, group=CARRIED, optional=True, when=COMPOSITE,
        hint="From the evaluation report.",
    )  # fmt: skip
    E_psi: float = number(
        "Modulus of elasticity", "psi", 500000, 2500000, 1600000.0, group=CARRIED,
        hint="Only asked where bolts stand in a row.",
    )  # fmt: skip
    b_in: float = number("Thickness of the member", "in", 0.75, 16, 3.5, group=CARRIED)
    d_in: float = number("Depth of the member", "in", 3, 60, 9.25, group=CARRIED)
    moisture: str = choice(
        "Wood when fastened and after",
        (("dry", "dry and stays dry"), ("green", "fastened green, dries in service"), ("wet", "wet in service")),
        "dry",
        group=CARRIED,
    )
    incised: bool = yes("Incised for treatment", group=CARRIED, when=("wood", ("sawn",)))
    offset_in: float = number(
        "Reaction from the concrete", "in", 1, 36, 6.0, group=CARRIED, step=0.25,
        hint="Of a joist or beam: the middle of its fasteners.",
    )  # fmt: skip
    face_in: float = number(
        "Back of the ledger from the concrete", "in", 0.5, 24, 3.5, group=CARRIED, when=LEDGER, step=0.25
    )
    spacing_in: float = number("Spacing of the plates", "in", 6, 240, 32.0, group=CARRIED, when=LEDGER, step=8)
    runs: str = choice("The ledger", RUNS, "continuous", group=CARRIED, when=LEDGER)
    F_b_psi: float | None = number(
        "Bending value with its size factor", "psi", 200, 4000, group=CARRIED, optional=True, when=LEDGER,
        hint="From the grade; blank leaves bending between plates unchecked.",
    )  # fmt: skip

    dead_lb: float = common.point_load("Dead, at the member's end", 500.0, when=MEMBER)
    live_lb: float = common.point_load("Live, at the member's end", 1300.0, when=MEMBER)
    roof_lb: float = common.point_load("Roof live, at the member's end", when=MEMBER)
    snow_lb: float = common.point_load("Snow, at the member's end", when=MEMBER)
    wind_lb: float = common.point_load("Wind, down, at the member's end", when=MEMBER)
    uplift_lb: float = common.point_load("Wind uplift at the member's end", when=MEMBER)
    dead_plf: float = common.line_load("Dead, along the ledger", 50.0, when=LEDGER)
    live_plf: float = common.line_load("Live, along the ledger", 200.0, when=LEDGER)
    roof_plf: float = common.line_load("Roof live, along the ledger", when=LEDGER)
    snow_plf: float = common.line_load("Snow, along the ledger", when=LEDGER)
    wind_plf: float = common.line_load("Wind, down, along the ledger", when=LEDGER)
    uplift_plf: float = common.line_load("Wind uplift along the ledger", when=LEDGER)
    along_wind_lb: float = common.point_load("Wind along the wall, at the plate")
    pull_wind_lb: float = common.point_load("Wind pull off the wall, at the plate")
    vertical_seismic_lb: float = common.point_load("Earthquake, up or down, at the plate")
    along_seismic_lb: float = common.point_load("Earthquake along the wall, at the plate")
    pull_seismic_lb: float = common.point_load("Earthquake pull off the wall, at the plate")
    seismic: str = common.seismic()
    anchor_route: str = choice(
        "Earthquake on the anchors is taken by", ROUTES, "none", group=common.LOADS, when=("seismic", HIGH_CATEGORIES),
        hint="Above a fifth of the anchors' tension or shear the anchor chapter asks for one.",
    )  # fmt: skip
    stretch_in: float = number(
        "Free length of an anchor that can stretch", "in", 0, 24, 0.0, group=common.LOADS,
        when=("anchor_route", ("ductile anchor",)),
    )  # fmt: skip

    legs: str = choice("Steel", LEGS, "two", group=PLATE, when=MEMBER, step=1)
    width_in: float = number("Width, along the wall", "in", 2, 48, 10.0, group=PLATE, step=0.5)
    height_in: float = number("Height", "in", 2, 48, 10.0, group=PLATE, step=0.5)
    thickness_in: float = number("Thickness on the wall", "in", 0.1875, 3, 0.5, group=PLATE, step=0.125)
    leg_thickness_in: float = number("Thickness of a leg", "in", 0.1875, 2, 0.25, group=PLATE, step=0.0625)
    leg_height_in: float = number("Height of a leg", "in", 2, 48, 8.0, group=PLATE, step=0.5)
    leg_edge_in: float = number(
        "Leg's end past the outer fasteners", "in", 0.25, 12, 1.25, group=PLATE, when=MEMBER, step=0.125
    )
    legs_apart_in: float = number(
        "Clear between the legs", "in", 0.5, 40, 4.0, group=PLATE, when=LEDGER, step=0.5,
        hint="Two legs hold a front plate as thick as they are; the ledger is fastened to its face.",
    )  # fmt: skip
    off_in: float = number(
        "Member beside the plate's middle", "in", -12, 12, 0.0, group=PLATE, when=MEMBER,
        hint="To the right; with a minus, to the left. As set out or as surveyed.",
    )  # fmt: skip
    f_y_ksi: float = number("Yield strength", "ksi", 30, 65, 36.0, group=PLATE)
    f_u_ksi: float = number("Tensile strength", "ksi", 45, 100, 58.0, group=PLATE)

    columns: int = count("Columns", 1, 4, 2, group=ANCHORS, step=1)
    rows: int = count("Rows", 1, 4, 2, group=ANCHORS, step=1, hint="Two to eight anchors in all.")
    column_spacing_in: float = number(
        "Between columns", "in", 1, 40, 7.0, group=ANCHORS, when=("columns", SEVERAL), step=0.5
    )
    row_spacing_in: float = number("Between rows", "in", 1, 40, 7.0, group=ANCHORS, when=("rows", SEVERAL), step=0.5)
    row_top_in: float = number("Plate's top to the upper row", "in", 0.25, 40, 1.5, group=ANCHORS, step=0.25)
    anchor: str = choice("Anchor diameter", BOLTS, "5/8", group=ANCHORS, step=1)
    steel: str = choice("Anchor steel", STEELS, "F1554-36", group=ANCHORS, step=1)
    head: str = choice("Embedded end", HEADS, "hex", group=ANCHORS, step=1)
    hook_in: float = number("Hook, outside length", "in", 1, 8, 2.5, group=ANCHORS, when=("head", ("hook",)), step=0.25)
    washer_in: float = number(
        "Plate washer, side", "in", 1, 6, 2.0, group=ANCHORS, when=("head", ("washer",)), step=0.5
    )
    washer_thickness_in: float = number(
        "Plate washer, thickness", "in", 0.125, 2, 0.5, group=ANCHORS, when=("head", ("washer",)), step=0.125
    )
    embedment_in: float = number(
        "Embedment in the core", "in", 1, 24, 4.0, group=ANCHORS, step=0.25,
        hint="Core face to the bearing face of the head.",
    )  # fmt: skip
    torqued: bool = yes("Nuts are torqued, not just snug", group=ANCHORS)

    contact: str = choice("Foam", CONTACTS, "tight", group=BEHIND, step=1)
    pad_in: float = number("Grout under the plate", "in", 0.25, 4, 1.0, group=BEHIND, when=("contact", ("grout",)))

    fastener: str = choice(
        "Fasteners",
        (("bolt", "bolts"), ("screw", "wood screws")),
        "bolt",
        group=FASTENERS,
    )
    bolt: str = choice("Bolt diameter", BOLTS, "5/8", group=FASTENERS, when=BOLTED, step=1)
    threads: str = choice(
        "In the wood",
        (("body", "full body, thread in a quarter at most"), ("thread", "thread through the wood")),
        "body",
        group=FASTENERS,
        when=BOLTED,
    )
    bolt_washer_in: float = number("Washer on the wood, side", "in", 0.5, 6, 2.0, group=FASTENERS, when=BOLTED)
    gauge: str = choice("Screw gauge", GAUGES, "10", group=FASTENERS, when=SCREWED, step=1)
    screw_length_in: float = number("Screw length", "in", 0.5, 6, 2.0, group=FASTENERS, when=SCREWED, step=0.25)
    lead_holes: bool = yes("Lead holes drilled", group=FASTENERS, when=SCREWED)
    f_rows: int = count("Fasteners, one above the other", 1, 8, 2, group=FASTENERS, step=1)
    f_columns: int = count("Fasteners, side by side", 1, 8, 1, group=FASTENERS, step=1, hint="Screws: into each leg.")
    f_row_spacing_in: float = number("Between fasteners, up", "in", 0.25, 24, 4.0, group=FASTENERS, step=0.25)
    f_column_spacing_in: float = number(
        "Between fasteners, along the grain", "in", 0.25, 24, 3.0, group=FASTENERS, step=0.25
    )
    f_top_in: float = number("Member's top to the upper fasteners", "in", 0.25, 48, 3.75, group=FASTENERS, step=0.125)
    f_end_in: float = number("Member's end to the first fasteners", "in", 0.25, 48, 4.5, group=FASTENERS, step=0.25)

    core_in: float = common.core("Core", "lower")
    foam_in: float = common.foam("Foam, room side", "lower", "inner")
    top_of_wall: bool = yes("The concrete ends above", group=PLACE, wall="place.top_of_wall")
    top_edge_in: float | None = number(
        "Upper anchors up to the top of the concrete", "in", 0.5, 480, group=PLACE, optional=True,
        when=("top_of_wall", (True,)), step=0.25,
    )  # fmt: skip
    over_opening: bool = yes("An opening lies below", group=PLACE, wall="place.over_opening")
    bottom_edge_in: float | None = number(
        "Lower anchors down to the opening's head", "in", 0.5, 480, group=PLACE, optional=True,
        when=("over_opening", (True,)), step=0.25,
    )  # fmt: skip
    left_in: float | None = number(
        "Concrete left of the plate", "in", 0, 5000, group=PLACE, optional=True, wall="place.left_in",
        hint="To an end or opening; blank where it goes on.",
    )  # fmt: skip
    right_in: float | None = number(
        "Concrete right of the plate", "in", 0, 5000, group=PLACE, optional=True, wall="place.right_in"
    )
    next_in: float | None = number(
        "Next plate, middle to middle", "in", 4, 5000, group=PLACE, optional=True, when=MEMBER,
        hint="Blank where there is none near.",
    )  # fmt: skip

    f_c_psi: float = common.f_c()
    cracked: bool = yes("The concrete may crack at the anchors", True, group=common.CONCRETE)
    exposure: str = choice("Concrete is exposed to", EXPOSURES, "not exposed", group=common.CONCRETE)
    supplementary_tension: bool = yes("Bars detailed across the cone of a pulled anchor", group=common.CONCRETE)
    supplementary_shear: bool = yes("Bars detailed across the breakout toward an edge", group=common.CONCRETE)
    edge_bars: str = choice("Bars along the edge", EDGE_BARS, "none", group=common.CONCRETE)

    @property
    def form(self) -> str:
        """How the steel takes the member: a ledger always by two legs and a front plate."""
        return "front" if self.carried == "ledger" else self.legs
