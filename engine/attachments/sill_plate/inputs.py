"""What is asked of a sill plate bolted to a wall top or a ledge."""

from dataclasses import dataclass
from typing import get_args

from engine import common_fields as common
from engine.clauses.us.anchors_materials import steels
from engine.clauses.us.anchors_seismic import SHEAR_ROUTES, WORDS
from engine.clauses.us.irc_moisture import Coating
from engine.clauses.us.timber_materials import lumber, species, species_choices
from engine.fields import choice, count, number, yes


@dataclass(frozen=True, slots=True)
class Size:
    """A plate: plies, nominal thickness of one and nominal width, dressed thickness of all and width [in]."""

    plies: int
    t_nom_in: float
    b_nom_in: float
    t_in: float
    b_in: float


def _size(key: str) -> Size:
    plies = 2 if key.startswith("2-") else 1
    nominal = key.removeprefix("2-")
    t_nom, b_nom = (float(n) for n in nominal.split("x"))
    # A dressed 2x3 is 1 1/2 by 2 1/2 in: American Softwood Lumber Standard, DOC PS 20, Table 3. provenance: memory.
    t, b = (1.5, 2.5) if nominal == "2x3" else (lumber(nominal).b_in, lumber(nominal).d_in)
    return Size(plies, t_nom, b_nom, plies * t, b)


SINGLE = ("2x3", "2x4", "2x6", "2x8", "2x10", "2x12", "3x4", "3x6")
DOUBLE = ("2-2x4", "2-2x6", "2-2x8", "2-2x10", "2-2x12")
PLATES = {key: _size(key) for key in (*SINGLE, *DOUBLE)}
PLATE_OPTIONS = (*((k, k) for k in SINGLE), *((k, f"two {k[2:]}, one on the other") for k in DOUBLE))
SPECIES = tuple((key, words) for key, words in species_choices() if species(key).material == "sawn")
BOLTS = tuple((key, f"{key} in") for key in ("1/2", "5/8", "3/4"))
STEELS = tuple((s.key, s.label) for s in steels().values() if s.threaded)
HEADS = (
    ("hex", "hex head"),
    ("heavy hex", "heavy hex head"),
    ("nut", "threaded rod, embedded heavy hex nut"),
    ("hook", "hook, 90 degrees"),
)
ROUTES = (("none", "nothing chosen yet"), *((way, WORDS[way]) for way in SHEAR_ROUTES))
COATINGS = tuple((coating, coating) for coating in get_args(Coating))
SEISMIC = (*common.SEISMIC, ("E", "E"))

CARRIED, PLATE, BOLT, WASHER, TIES, SITE = (
    "Carried",
    "Sill plate",
    "Anchor bolts",
    "Washers",
    "Ties to the wall",
    "Site",
)
ON_LEDGE, FRAMED, TIED = ("stands_on", ("ledge",)), ("carries", ("wall",)), ("carries", ("floor", "roof"))
QUAKE = ("seismic", ("C", "C-town", "D0", "D1", "D2", "E"))
DESIGNED = ("connection", ("designed",))
PLATE_WASHER, SLOT = ("washer", ("plate",)), ("slotted", (True,))


@dataclass(frozen=True, slots=True)
class Inputs:
    """A sill plate: see each field's label, unit and range."""

    code: str = choice(
        "Judged by", (("IRC", "residential code (IRC)"), ("IBC", "building code (IBC)")), "IRC", group=CARRIED
    )
    carries: str = choice(
        "Plate carries",
        (("floor", "floor joists"), ("roof", "rafters or trusses"), ("wall", "a light-frame wall")),
        "floor",
        group=CARRIED,
    )
    direction: str = choice(
        "Joists or rafters run",
        (("perpendicular", "across the wall"), ("parallel", "along the wall")),
        "perpendicular",
        group=CARRIED,
        when=TIED,
    )
    stud_in: float = number("Stud width", "in", 2, 12, 5.5, group=CARRIED, when=FRAMED)
    braced_line: bool = yes("On a required braced wall line", True, group=CARRIED)
    stories: int = count("Stories above grade", 1, 4, 2, group=CARRIED, wall="job.stories")
    dead_plf: float = common.line_load("Dead on the plate", 150.0)
    uplift_plf: float = common.line_load("Wind uplift on the plate", 200.0)
    shear_wind_plf: float = common.line_load("Wind shear along the wall", 120.0)
    shear_seismic_plf: float = common.line_load("Earthquake shear along the wall")
    across_plf: float = common.line_load("Wind across the wall, on the plate", 120.0)
    seismic: str = choice("Seismic design category", SEISMIC, "B", group=common.LOADS, wall="job.seismic")
    exception: bool = yes(
        "Earthquake shear by the sill plate exception",
        group=common.LOADS,
        when=QUAKE,
        hint="IBC 1905.1.8: wood values govern; its conditions are checked.",
    )
    shear_route: str = choice(
        "Earthquake shear on the bolts is taken by",
        ROUTES,
        "none",
        group=common.LOADS,
        when=QUAKE,
        hint="Above a fifth of a bolt's shear the anchor chapter asks for one.",
    )
    stands_on: str = choice(
        "Plate stands on",
        (("top", "the top of the wall"), ("ledge", "a square ledge of a stepped wall")),
        "top",
        group=PLATE,
    )
    plate: str = choice("Size", PLATE_OPTIONS, "2x6", group=PLATE, step=1, change="Use {value} for the plate")
    plate_edge_in: float = number(
        "Outer edge from the outer core face", "in", -8, 20, 0.25, group=PLATE, step=0.25,
        hint="Below zero where the plate lies over the outer foam.",
        change="Set the plate's outer edge {value} from the outer core face",
    )  # fmt: skip
    species: str = choice("Plate species", SPECIES, "DF-L", group=PLATE, step=1)
    treatment: str = choice(
        "Plate wood is",
        (("treated", "preservative treated"), ("durable", "naturally durable"), ("plain", "neither")),
        "treated",
        group=PLATE,
    )
    wet: bool = yes("Plate may stay wet in service", group=PLATE)
    barrier: bool = yes("Capillary break or gasket under the plate", True, group=PLATE)
    barrier_in: float = number(
        "Thickness of that layer once pressed", "in", 0, 0.5, 0.0625, group=PLATE, when=("barrier", (True,)),
        step=1 / 32, hint="The bolts bridge it.",
    )  # fmt: skip
    piece_ft: float = number("Length of the pieces", "ft", 1, 24, 12.0, group=PLATE)
    bolt: str = choice("Bolt diameter", BOLTS, "1/2", group=BOLT, step=1, change="Use {value} anchor bolts")
    steel: str = choice("Bolt steel", STEELS, "F1554-36", group=BOLT, step=1)
    head: str = choice("Embedded end", HEADS, "hex", group=BOLT, step=1)
    hook_in: float = number("Hook, outside length", "in", 0.5, 8, 2.5, group=BOLT, when=("head", ("hook",)), step=0.25)
    embedment_in: float = number("Embedment", "in", 2, 24, 7.0, group=BOLT, step=0.5)
    spacing_in: float = number("Bolt spacing", "in", 4, 144, 24.0, group=BOLT, step=4)
    end_in: float = number(
        "From the ends of a piece",
        "in",
        1,
        48,
        8.0,
        group=BOLT,
        step=0.5,
        change="Set the end bolts {value} from the ends of a piece",
    )
    across_in: float = number(
        "From the plate's outer edge",
        "in",
        0.5,
        11,
        2.75,
        group=BOLT,
        step=0.125,
        change="Set the bolts {value} from the plate's outer edge",
    )
    exposure: str = choice(
        "Concrete at the bolts is",
        (("not exposed", "behind foam, not exposed"), ("weather or ground", "exposed to weather or ground")),
        "not exposed",
        group=BOLT,
    )
    torqued: bool = yes("Nuts are torqued, not just snug", group=BOLT)
    coating: str = choice("Bolt coating", COATINGS, "hot-dip galvanized", group=BOLT)
    borate_dry: bool = yes("Treated with borate, dry inside", group=BOLT, when=("treatment", ("treated",)))
    washer: str = choice(
        "Washer",
        (("none", "none"), ("cut", "round cut washer"), ("plate", "square plate washer")),
        "cut",
        group=WASHER,
        step=1,
        change="Use this washer: {value}",
    )
    washer_in: float = number("Plate washer, side", "in", 1, 6, 3.0, group=WASHER, when=PLATE_WASHER, step=0.5)
    washer_thickness_in: float = number(
        "Plate washer, thickness", "in", 0.0625, 1, 0.229, group=WASHER, when=PLATE_WASHER
    )
    slotted: bool = yes("Plate washer is slotted", group=WASHER, when=PLATE_WASHER)
    slot_over_in: float = number("Slot wider than the bolt by", "in", 0, 1, 0.1875, group=WASHER, when=SLOT)
    slot_length_in: float = number("Slot length", "in", 0.5, 4, 1.75, group=WASHER, when=SLOT)
    cut_on_slot: bool = yes("Cut washer between slot and nut", True, group=WASHER, when=SLOT)
    connection: str = choice(
        "Floor or roof is tied to the wall by",
        (("table", "the prescriptive details (R608.9)"), ("designed", "a design, loads typed here")),
        "table",
        group=TIES,
        when=TIED,
    )
    tie_spacing_in: float = number("Tension tie spacing", "in", 6, 96, 24.0, group=TIES, when=TIED, step=4)
    wind_mph: float | None = number(
        "Basic wind speed, mph", "", 80, 250, 115.0, group=TIES, optional=True, when=TIED, wall="job.wind_mph"
    )
    wind_exposure: str = choice(
        "Wind exposure", (("B", "B"), ("C", "C"), ("D", "D")), "B", group=TIES, when=TIED, wall="job.exposure"
    )
    wall_height_ft: float = number(
        "Height of wall tied here", "ft", 1, 40, 9.0, group=TIES, when=DESIGNED, hint="Half of each storey."
    )
    diaphragm_ft: float = number(
        "Span of the floor or roof that holds the wall",
        "ft",
        0,
        400,
        40.0,
        group=TIES,
        when=DESIGNED,
        hint="0 if rigid.",
    )
    inside_r608: bool = yes(
        "The rest of the building is within R608.2",
        True,
        group=SITE,
        when=("foundation", (False,)),
        hint="Plan 60 ft, floor span 32 ft, roof span 40 ft, mean roof height 35 ft, and its loads.",
    )
    ground_in: float = number("Plate above exposed ground", "in", 0, 480, 24.0, group=SITE)
    core_in: float = common.core("Core", "lower")
    foam_inner_in: float = common.foam("Foam, room side", "lower", "inner")
    foam_outer_in: float = common.foam("Foam, outer side", "lower", "outer")
    upper_core_in: float = number(
        "Upper core", "in", 4, 24, 6.0, group=common.WALL, when=ON_LEDGE, step=2, wall="upper.core_in"
    )
    upper_foam_inner_in: float = number(
        "Foam above, room side", "in", 0.5, 8, 2.5, group=common.WALL, when=ON_LEDGE, wall="upper.foam_inner_in"
    )
    upper_foam_outer_in: float = number(
        "Foam above, outer side", "in", 0.5, 8, 2.5, group=common.WALL, when=ON_LEDGE, wall="upper.foam_outer_in"
    )
    left_in: float | None = number(
        "Concrete past the plate's left end", "in", 0, 5000, group=common.WALL, optional=True, wall="place.left_in",
        hint="To an end or opening; blank where it goes on.",
    )  # fmt: skip
    right_in: float | None = number(
        "Concrete past the plate's right end", "in", 0, 5000, group=common.WALL, optional=True, wall="place.right_in"
    )
    foundation: bool = common.foundation()
    f_c_psi: float = common.f_c()
