"""What is asked of a cast-in plate, bracket or hanger that takes a joist by screws."""

from dataclasses import dataclass, field
from typing import Any

from engine import common_fields as common
from engine.clauses.us.sheet_steel import gauges
from engine.clauses.us.timber_materials import species, species_choices, wood_screw, wood_screw_choices
from engine.fields import choice, count, date, number, text, yes

JOISTS = (
    ("sawn", "sawn joists"),
    ("i_joist", "I-joists"),
    ("scl", "laminated veneer or other composite lumber"),
)
KINDS = (
    ("plate", "plate cast in through a slit in the foam"),
    ("bracket", "bracket on the wall"),
    ("hanger", "hanger on the wall"),
)
SPECIES = tuple((key, words) for key, words in species_choices() if species(key).material == "sawn")
# From 1/4 in up the distances of NDS 12.5.1 and its geometry factor would bind; cast-in plates take smaller screws.
GAUGES = tuple((key, words) for key, words in wood_screw_choices() if wood_screw(key).D_in < 0.25)
# Bare steel, thinnest first: gauges by their base metal, then plates.
SHEETS = (
    *(
        (f"{s.uncoated_in:g}", f"{gauge} gauge sheet, {s.uncoated_in:.4f} in")
        for gauge, s in reversed(gauges().items())
    ),
    ("0.1875", "3/16 in plate"),
    ("0.25", "1/4 in plate"),
    ("0.375", "3/8 in plate"),
    ("typed", "typed below"),
)
BASES = (
    ("0.9", "permanent, 0.9"),
    ("1.0", "floor live, 1.0"),
    ("1.15", "snow, 1.15"),
    ("1.25", "1.25"),
    ("1.6", "wind, 1.6"),
)
PART_COATINGS = (
    ("plain", "plain steel"),
    ("G60", "galvanized sheet, G60"),
    ("G90", "galvanized sheet, G90"),
    ("G185", "galvanized sheet, G185"),
    ("hot-dip galvanized", "hot-dip galvanized after it was made"),
    ("stainless", "stainless steel"),
)
SCREW_COATINGS = (
    ("plain", "plain steel"),
    ("electroplated", "electroplated"),
    ("mechanically galvanized", "mechanically galvanized"),
    ("hot-dip galvanized", "hot-dip galvanized"),
    ("stainless", "stainless steel"),
    ("silicon bronze", "silicon bronze"),
)
WEBS = (("none", "none, the bare web"), ("one", "on the plate's side"), ("both", "on both sides"))

CARRIED, PART, STEEL, SCREWS = "Carried", "Plate, bracket or hanger", "Steel", "Screws"
BUILT, SITE = "After the pour", "Site"
I_JOIST = ("joist", ("i_joist",))
COMPUTED, TYPED = ("reaction", ("computed",)), ("reaction", ("typed",))
PLATE = ("kind", ("plate",))
SURVEYED = ("surveyed", (True,))
EXAMPLE = "Example, type your own"  # what the report's number says until one is typed


def _starting(value: str, declared: Any) -> Any:
    """A text or date that is not blank at first."""
    return field(default=value, metadata=declared.metadata)


@dataclass(frozen=True, slots=True)
class Inputs:
    """A cast-in plate and its screws: see each field's label, unit and range."""

    joist: str = choice("What", JOISTS, "sawn", group=CARRIED)
    species: str = choice(
        "Species the screws bite", SPECIES, "SPF", group=CARRIED, when=("joist", ("sawn", "i_joist")),
        hint="Of an I-joist: its filler.",
    )  # fmt: skip
    G: float | None = number(
        "Equivalent specific gravity", "", 0.3, 0.8, group=CARRIED, optional=True, when=("joist", ("scl",)),
        hint="For screws in the face, from the evaluation report.",
    )  # fmt: skip
    depth_in: float = number("Joist depth", "in", 3, 60, 9.25, group=CARRIED)
    wood_in: float = number(
        "Thickness of wood the screws bite", "in", 0.25, 12, 1.5, group=CARRIED, step=0.25,
        hint="Of an I-joist: filler and web together.",
    )  # fmt: skip
    flange_in: float = number("Flange depth", "in", 0.5, 6, 1.5, group=CARRIED, when=I_JOIST)
    filler: str = choice("Filler at the web", WEBS, "both", group=CARRIED, when=I_JOIST, step=1)
    filler_gap_in: float = number(
        "Web's height the filler leaves open", "in", 0, 24, 0.125, group=CARRIED, when=I_JOIST, step=0.125,
        hint="Below the top flange.",
    )  # fmt: skip
    member_capacity_lb: float | None = number(
        "End reaction the member drawing allows", "lb", 50, 60000, group=CARRIED, optional=True,
        when=("joist", ("i_joist", "scl")),
    )  # fmt: skip
    spacing_in: float = number("Spacing", "in", 6, 96, 16.0, group=CARRIED, step=4)
    span_ft: float = number("Span", "ft", 1, 60, 14.0, group=CARRIED, step=1 / 3)
    moisture: str = choice(
        "Wood when screwed and after",
        (("dry", "dry and stays dry"), ("green", "screwed green, dries in service"), ("wet", "wet in service")),
        "dry",
        group=CARRIED,
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
        (("computed", "computed, simple span"), ("typed", "typed from the member drawing")),
        "computed",
        group=common.LOADS,
    )
    dead_psf: float = common.area_load("Dead, floor", 10.0, when=COMPUTED)
    live_psf: float = common.area_load("Live, floor", 40.0, when=COMPUTED)
    snow_psf: float = common.area_load("Snow, where a roof", when=COMPUTED)
    own_weight_plf: float = number("Joist's own weight", "plf", 0, 200, 0.0, group=common.LOADS, when=COMPUTED)
    reaction_dead_lb: float = common.point_load("Dead, at the joist's end", 100.0, when=TYPED)
    reaction_live_lb: float = common.point_load("Live, at the joist's end", 400.0, when=TYPED)
    reaction_snow_lb: float = common.point_load("Snow, at the joist's end", when=TYPED)
    seismic: str = common.seismic()
    kind: str = choice("Part", KINDS, "plate", group=PART)
    listed_lb: float | None = number(
        "Listed capacity, allowable", "lb", 50, 20000, 800.0, group=PART, optional=True,
        hint="An example; type your part's own.",
    )  # fmt: skip
    basis: str = choice("Listed for load duration", BASES, "1.0", group=PART, hint="Never raised beyond its listing.")
    report: str = _starting(EXAMPLE, text("Report number", group=PART))
    issued: str = date("Report dated", group=PART)
    expires: str = _starting("2099-12-31", date("Report runs until", group=PART))
    today: str = date("Judged on", group=PART, wall="job.today")
    listed_f_c_psi: float | None = number(
        "Listing: least concrete strength", "psi", 0, 10000, 2500.0, group=PART, optional=True,
        hint="0 where the listing has no such limit; so below.",
    )  # fmt: skip
    listed_foam_least_in: float | None = number("Listing: least foam", "in", 0, 12, 0.0, group=PART, optional=True)
    listed_foam_most_in: float | None = number("Listing: most foam", "in", 0, 12, 2.75, group=PART, optional=True)
    listed_embedment_in: float | None = number("Listing: least embedment", "in", 0, 24, 3.5, group=PART, optional=True)
    listed_spacing_in: float | None = number(
        "Listing: least spacing along the wall", "in", 0, 96, 12.0, group=PART, optional=True
    )
    listed_screws: int | None = count("Listing: screws", 0, 60, 6, group=PART, optional=True)
    listed_gauge: str = choice("Listing: screw gauge, at least", (("", "not given"), *GAUGES), "10", group=PART)
    embedment_in: float = number("Embedment in the core", "in", 0.5, 24, 4.0, group=PART, step=0.25)
    end_gap_in: float = number("Foam face to the joist's end", "in", 0, 12, 0.25, group=PART, step=0.125)
    gap_in: float = number(
        "Gap between part and joist's side", "in", 0, 3, 0.0, group=PART, step=1 / 16, hint="0 where they are tight."
    )
    sheet: str = choice("Base metal", SHEETS, "0.0747", group=STEEL, step=1, hint="Without zinc or paint.")
    thickness_in: float = number(
        "Base metal thickness", "in", 0.02, 1, 0.0747, group=STEEL, when=("sheet", ("typed",)), hint="Type it in decimals."
    )  # fmt: skip
    F_u_ksi: float = number("Tensile strength", "ksi", 40, 120, 45.0, group=STEEL)
    F_y_ksi: float = number("Yield strength", "ksi", 24, 100, 33.0, group=STEEL, when=PLATE)
    plate_height_in: float = number("Height", "in", 1, 60, 7.0, group=STEEL, step=0.25)
    leg_in: float = number("Stands out past the foam", "in", 1, 24, 5.25, group=STEEL, step=0.25)
    gauge: str = choice("Gauge", GAUGES, "10", group=SCREWS, step=1)
    screws: int = count("Screws at a joist's end", 1, 40, 6, group=SCREWS, step=1)
    columns: int = count("Columns, along the joist", 1, 8, 2, group=SCREWS, step=1)
    length_in: float = number("Length", "in", 0.5, 6, 1.5, group=SCREWS, step=0.25)
    lead_holes: bool = yes("Lead holes drilled", group=SCREWS)
    staggered: bool = yes("Rows staggered", group=SCREWS)
    along_in: float = number("Spacing along the joist", "in", 0.25, 12, 2.0, group=SCREWS, step=0.25)
    across_in: float = number("Spacing across the joist", "in", 0.25, 24, 2.5, group=SCREWS, step=0.25)
    end_in: float = number("Joist's end to the first column", "in", 0.25, 24, 2.0, group=SCREWS, step=0.25)
    top_in: float = number("Joist's top to the upper row", "in", 0.25, 48, 2.125, group=SCREWS, step=0.125)
    surveyed: bool = yes("Surveyed after the pour", group=BUILT)
    shift_along_in: float = number(
        "Stands off its place along the wall", "in", -12, 12, 0.0, group=BUILT, when=SURVEYED,
        hint="Away from the joist's side; with a minus, into the joist's place.",
    )  # fmt: skip
    shift_up_in: float = number(
        "Stands above its place", "in", -12, 12, 0.0, group=BUILT, when=SURVEYED, hint="With a minus, below it."
    )
    place_tolerance_in: float = number("Tolerance of the part's place", "in", 0, 2, 0.25, group=BUILT, step=0.0625)
    treatment: str = choice(
        "Joist wood is",
        (("plain", "untreated"), ("treated", "preservative treated"), ("borate", "treated with borate")),
        "plain",
        group=SITE,
    )
    interior_dry: bool = yes("Inside and dry", True, group=SITE)
    coating: str = choice("The part is", PART_COATINGS, "G90", group=SITE)
    screw_coating: str = choice("The screws are", SCREW_COATINGS, "hot-dip galvanized", group=SITE)
    barrier: bool = yes("Thermal barrier over the foam", True, group=SITE)
    core_in: float = common.core("Core", "lower")
    foam_in: float = common.foam("Foam, room side", "lower", "inner")
    f_c_psi: float = common.f_c()

    @property
    def t_in(self) -> float:
        """Base metal thickness of the part [in]."""
        return self.thickness_in if self.sheet == "typed" else float(self.sheet)
