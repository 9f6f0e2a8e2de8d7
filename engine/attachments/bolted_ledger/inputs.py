"""What is asked of a wood ledger bolted to the side of the wall."""

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from engine import common_fields as common
from engine.clauses.us.anchors_materials import steels
from engine.clauses.us.anchors_seismic import WORDS
from engine.clauses.us.timber_materials import species, species_choices
from engine.fields import choice, count, date, number, text, yes

# Sizes of a ledger piece; dressed sizes are those of the sawn lumber table.
SIZES = tuple((f"{t}x{d}", f"{t}x{d}") for t in (2, 3, 4) for d in (8, 10, 12))
SPECIES = tuple((key, words) for key, words in species_choices() if species(key).material == "sawn")
BOLTS = tuple((key, f"{key} in") for key in ("1/2", "5/8", "3/4", "7/8", "1"))
DIAMETERS = {key: float(Fraction(key)) for key, _ in BOLTS}
STEELS = tuple((s.key, s.label) for s in steels().values() if s.threaded)
HEADS = (
    ("hex", "hex head"),
    ("heavy hex", "heavy hex head"),
    ("nut", "threaded rod, embedded heavy hex nut"),
    ("hook", "hook, 90 degrees"),
)
CONTACT = (
    ("pads", "cut out at each bolt, concrete cast out to the ledger"),
    ("strip", "cut away along the ledger, ledger tight to the core"),
    ("gap", "left behind the ledger"),
)
ROUTES = (("none", "nothing chosen yet"), *WORDS.items())
COATINGS = (
    ("hot-dip galvanized", "hot-dip galvanized"),
    ("mechanically galvanized", "mechanically galvanized"),
    ("stainless", "stainless steel"),
    ("silicon bronze", "silicon bronze"),
    ("plain", "plain steel"),
    ("electroplated", "electroplated"),
)

CARRIED, LEDGER, BOLT, FOAM = "Carried", "Ledger", "Bolts", "Foam at the bolts"
HANGER, TIES, SITE = "Hangers", "Ties across the wall", "Site"
ACROSS, ALONG = ("direction", ("perpendicular",)), ("direction", ("parallel",))
COMPUTED, TYPED = ("reaction", ("computed", "continuous")), ("reaction", ("typed",))
RUN_ON = ("reaction", ("continuous",))
TIED, TWO_ROWS = ("ties", ("listed",)), ("rows", (2,))


EXAMPLE = "Example, type your own"  # what a report's number says until one is typed
EXAMPLE_END = "2099-12-31"


def _starting(value: str, declared: Any) -> Any:
    """A text or date that is not blank at first."""
    return field(default=value, metadata=declared.metadata)


@dataclass(frozen=True, slots=True)
class Inputs:
    """A bolted ledger: see each field's label, unit and range."""

    direction: str = choice(
        "Joists run",
        (("perpendicular", "into the ledger, on hangers"), ("parallel", "along the ledger")),
        "perpendicular",
        group=CARRIED,
    )
    joist_depth_in: float = number("Joist depth", "in", 3, 60, 9.25, group=CARRIED)
    joist_spacing_in: float = number("Joist spacing", "in", 6, 96, 16.0, group=CARRIED, when=ACROSS, step=4)
    span_ft: float = number("Joist span", "ft", 1, 60, 14.0, group=CARRIED, when=ACROSS, step=1 / 3)
    first_joist_in: float | None = number(
        "Left end of a piece to its first joist", "in", 0, 96, group=CARRIED, optional=True, when=ACROSS,
        hint="Blank until set out: the worst position is taken.",
    )  # fmt: skip
    strip_ft: float = number("Width of floor carried", "ft", 0.1, 30, 0.75, group=CARRIED, when=ALONG, step=0.25)
    offset_in: float | None = number(
        "Reaction from the concrete", "in", 0.5, 36, group=CARRIED, optional=True,
        hint="Blank: the ledger and the whole hanger seat.",
    )  # fmt: skip
    reaction: str = choice(
        "Joist reaction",
        (
            ("computed", "computed, simple span"),
            ("continuous", "computed, joists run on over supports"),
            ("typed", "typed from the member drawing"),
        ),
        "computed",
        group=common.LOADS,
        when=ACROSS,
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
    line_dead_plf: float = common.line_load("Dead, along the ledger besides")
    line_live_plf: float = common.line_load("Live, along the ledger besides")
    line_snow_plf: float = common.line_load("Snow, along the ledger besides")
    shear_wind_plf: float = common.line_load("Wind shear along the wall")
    shear_seismic_plf: float = common.line_load("Earthquake shear along the wall")
    out_wind_plf: float = common.line_load("Wind across the wall, to the floor", 150.0)
    out_seismic_plf: float = common.line_load("Earthquake across the wall, to the floor")
    seismic: str = common.seismic()
    anchor_route: str = choice(
        "Earthquake on the bolts is taken by",
        ROUTES,
        "none",
        group=common.LOADS,
        when=("seismic", ("C", "C-town", "D0", "D1", "D2")),
        hint="Above a fifth of a bolt's tension or shear the anchor chapter asks for one.",
    )
    size: str = choice("Ledger size", SIZES, "2x10", group=LEDGER, step=1)
    plies: int = count("Plies", 1, 2, 1, group=LEDGER, step=1)
    species: str = choice("Species", SPECIES, "DF-L", group=LEDGER)
    E_psi: float = number(
        "Modulus of elasticity",
        "psi",
        500000,
        2500000,
        1200000.0,
        group=LEDGER,
        hint="Only asked where two bolts share a place.",
    )
    F_b_psi: float | None = number(
        # Douglas fir-larch No. 2: NDS Supplement Table 4A, provenance: memory; its size factor left out, on the safe side
        "Bending value with its size factor", "psi", 200, 4000, 900.0, group=LEDGER, optional=True,
        hint="From the grade's stamp; 900 is Douglas fir-larch No. 2. Blank leaves bending between bolts unchecked.",
    )  # fmt: skip
    moisture: str = choice(
        "Wood when bolted and after",
        (("dry", "dry and stays dry"), ("green", "bolted green, dries in service"), ("wet", "wet in service")),
        "dry",
        group=LEDGER,
    )
    incised: bool = yes("Incised for treatment", group=LEDGER)
    piece_ft: float = number("Length of a piece", "ft", 2, 24, 12.0, group=LEDGER)
    bolt: str = choice("Bolt diameter", BOLTS, "5/8", group=BOLT, step=1)
    steel: str = choice("Bolt steel", STEELS, "F1554-36", group=BOLT, step=1)
    head: str = choice("Embedded end", HEADS, "hex", group=BOLT, step=1)
    hook_in: float = number("Hook, outside length", "in", 1, 8, 2.5, group=BOLT, when=("head", ("hook",)), step=0.25)
    embedment_in: float = number(
        "Embedment in the core",
        "in",
        1,
        24,
        4.0,
        group=BOLT,
        step=0.25,
        hint="Core face to the bearing face of the head.",
    )
    threads: str = choice(
        "In the wood",
        (("body", "full body, thread in a quarter at most"), ("thread", "thread through the wood")),
        "body",
        group=BOLT,
    )
    rows: int = count("Rows", 1, 2, 1, group=BOLT, step=1)
    spacing_in: float = number("Bolt spacing", "in", 6, 96, 16.0, group=BOLT, step=1)
    staggered: bool = yes("Rows staggered, one bolt a place", group=BOLT, when=TWO_ROWS)
    top_edge_in: float = number("Top edge to the upper row", "in", 0.5, 11, 6.5, group=BOLT, step=0.25)
    gauge_in: float = number("Between the rows", "in", 1, 10, 3.0, group=BOLT, when=TWO_ROWS, step=0.25)
    end_in: float = number("End of a piece to its first bolt", "in", 0.5, 48, 8.0, group=BOLT, step=0.5)
    washer_in: float = number("Plate washer, side", "in", 1, 6, 3.0, group=BOLT, step=0.5)
    torqued: bool = yes("Nuts are torqued, not just snug", group=BOLT)
    coating: str = choice("Bolt coating", COATINGS, "hot-dip galvanized", group=BOLT)
    contact: str = choice("Foam", CONTACT, "pads", group=FOAM, step=1)
    hole_in: float = number(
        "Diameter of the cut-out", "in", 1, 16, 7.0, group=FOAM, when=("contact", ("pads",)), step=0.5
    )
    separator_in: float = number("Sheet between wood and concrete", "in", 0, 1, 0.0, group=FOAM, step=1 / 32)
    hanger_seat_in: float = number("Hanger seat", "in", 0.5, 6, 2.0, group=HANGER, when=ACROSS)
    hanger_capacity_lb: float | None = number(
        "Listed capacity on this ledger", "lb", 50, 20000, 900.0, group=HANGER, optional=True, when=ACROSS,
        hint="An example; type your hanger's own.",
    )  # fmt: skip
    hanger_report: str = _starting(EXAMPLE, text("Hanger report", group=HANGER, when=ACROSS))
    hanger_expires: str = _starting(EXAMPLE_END, date("Hanger report runs until", group=HANGER, when=ACROSS))
    hanger_fasteners: int = count("Fasteners into the ledger", 0, 60, 8, group=HANGER, when=ACROSS, step=1)
    hanger_listed: int | None = count(
        "Fasteners the listing asks for", 0, 60, 8, group=HANGER, optional=True, when=ACROSS
    )
    ties: str = choice(
        "Floor tied to the wall by",
        (("listed", "listed ties, joists or blocking to concrete"), ("none", "nothing but the ledger")),
        "listed",
        group=TIES,
    )
    tie_spacing_in: float = number("Tie spacing", "in", 6, 144, 48.0, group=TIES, when=TIED, step=4)
    tie_capacity_lb: float | None = number(
        "Listed capacity of a tie", "lb", 50, 20000, 700.0, group=TIES, optional=True, when=TIED,
        hint="Allowable; an example, type your tie's own.",
    )  # fmt: skip
    tie_report: str = _starting(EXAMPLE, text("Tie report", group=TIES, when=TIED))
    tie_expires: str = _starting(EXAMPLE_END, date("Tie report runs until", group=TIES, when=TIED))
    tie_anchor: str = choice(
        "Ties are held in the concrete by",
        (("ledger bolt", "a ledger bolt at each tie"), ("own", "anchors of their own, checked elsewhere")),
        "ledger bolt",
        group=TIES,
        when=TIED,
    )
    wall_height_ft: float = number(
        "Height of wall tied here", "ft", 1, 40, 9.0, group=TIES, hint="Half of each storey."
    )
    today: str = date("Judged on", group=SITE, wall="job.today")
    treatment: str = choice(
        "Ledger wood is",
        (("treated", "preservative treated"), ("durable", "naturally durable"), ("plain", "neither")),
        "treated",
        group=SITE,
    )
    below_grade: bool = yes("Ledger is below grade", group=SITE)
    retarder: bool = yes("Approved vapor retarder behind it", group=SITE, when=("below_grade", (True,)))
    ground_in: float = number(
        "Height above exposed ground", "in", 0, 480, 24.0, group=SITE, when=("below_grade", (False,))
    )
    borate_dry: bool = yes("Treated with borate, dry inside", group=SITE, when=("treatment", ("treated",)))
    wind_mph: float | None = number(
        "Basic wind speed, mph", "", 80, 250, 115.0, group=SITE, optional=True, wall="job.wind_mph",
        hint="For the prescriptive tie table beside.",
    )  # fmt: skip
    exposure: str = choice("Wind exposure", (("B", "B"), ("C", "C"), ("D", "D")), "B", group=SITE, wall="job.exposure")
    stories: int = count("Stories above grade", 1, 4, 1, group=SITE, wall="job.stories")
    plan_ft: float = number("Longer side of the plan", "ft", 8, 400, 40.0, group=SITE, wall="job.plan_ft")
    roof_ft: float = number("Mean roof height", "ft", 8, 120, 25.0, group=SITE, wall="job.roof_ft")
    core_in: float = common.core("Core", "lower")
    foam_in: float = common.foam("Foam, room side", "lower", "inner")
    top_of_wall: bool = yes("The concrete ends above", group=common.WALL, wall="place.top_of_wall")
    top_in: float | None = number(
        "Upper bolts up to the top of the concrete", "in", 1, 480, group=common.WALL, optional=True,
        when=("top_of_wall", (True,)),
    )  # fmt: skip
    over_opening: bool = yes("An opening lies below", group=common.WALL, wall="place.over_opening")
    below_in: float | None = number(
        "Lower bolts down to the opening's head", "in", 1, 480, group=common.WALL, optional=True,
        when=("over_opening", (True,)),
    )  # fmt: skip
    left_in: float | None = number(
        "Concrete past the left end", "in", 0, 5000, group=common.WALL, optional=True, wall="place.left_in",
        hint="To an end or opening; blank where it goes on.",
    )  # fmt: skip
    right_in: float | None = number(
        "Concrete past the right end", "in", 0, 5000, group=common.WALL, optional=True, wall="place.right_in"
    )
    f_c_psi: float = common.f_c()
