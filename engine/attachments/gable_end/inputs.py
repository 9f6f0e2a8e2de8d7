"""What is asked of a gable end: courses of forms cut to the rake, filled in lifts, capped by a plate."""

from dataclasses import dataclass

from engine import common_fields as common
from engine.clauses.us.timber_materials import lumber
from engine.fields import choice, count, number, text, yes

GABLE, FORMS, EDGES, PLACING, PLATE, OPENING = (
    "Gable",
    "Forms",
    "Cut edges",
    "Placing",
    "Rake plate",
    "Opening",
)
PLATES = ("2x4", "2x6", "2x8", "2x10", "2x12")
BOLTS = tuple((key, f"{key} in") for key in ("1/2", "5/8", "3/4"))
EXPOSURES = (("not exposed", "behind foam, not exposed"), ("weather or ground", "exposed to weather or ground"))
TWO, PLATED, OPENED = ("two_pitches", (True,)), ("plate", PLATES), ("opening", (True,))


def plate_thickness_in(plate: str) -> float:
    """Dressed thickness of the rake plate, 0 without one [in]."""
    return 0.0 if plate == "none" else lumber(plate).b_in


@dataclass(frozen=True, slots=True)
class Inputs:
    """A gable end: see each field's label, unit and range."""

    base_ft: float = number("Width at the eaves", "ft", 4, 60, 28.0, group=GABLE)
    pitch: float = number("Rise in 12", "", 1, 24, 6.0, group=GABLE, hint="Of the left rake where there are two.")
    two_pitches: bool = yes("The right rake has another pitch", group=GABLE)
    pitch_right: float = number("Rise in 12 of the right rake", "", 1, 24, 8.0, group=GABLE, when=TWO)
    seismic: str = common.seismic()
    course_in: float = number("Course height", "in", 6, 48, 16.0, group=FORMS, wall="lower.course_in")
    web_spacing_in: float = number("Web spacing", "in", 4, 24, 8.0, group=FORMS, wall="lower.web_spacing_in")
    form_spaces: int = count("Web spaces to a form", 1, 30, 6, group=FORMS, hint="6 of 8 in make a form of 48 in.")
    first_web_in: float = number(
        "First web from the gable's left end", "in", 0, 24, 4.0, group=FORMS, hint="So that webs stand over webs."
    )
    reversible: bool = yes(
        "Forms may be turned upside down", True, group=FORMS, hint="Their upper and lower edges are alike."
    )
    kerf_in: float = number("Lost at a cut", "in", 0, 1, 0.125, group=FORMS)
    least_offcut_in: float = number("Shortest offcut worth using", "in", 0, 60, 8.0, group=FORMS)
    tie_spacing_in: float = number(
        "Ties through the boards along a cut edge, apart", "in", 4, 96, 24.0, group=EDGES, step=4,
        change="Tie the boards along the cut edges every {value}",
    )  # fmt: skip
    tie_lb: float | None = number(
        "What one tie may carry", "lb", 20, 20000, 300.0, group=EDGES, optional=True, hint="From its own data."
    )
    strongback_ft: float = number("Strongbacks apart", "ft", 1, 20, 4.0, group=EDGES, step=1)
    lift_ft: float = number("Lift", "ft", 0.5, 20, 2.0, group=PLACING, step=0.5, change="Place lifts of {value}")
    waits: bool = yes("Each lift stiffens before the next goes in", True, group=PLACING)
    w_pcf: float = number("Unit weight", "pcf", 90, 200, 150.0, group=PLACING)
    pump_yd3_per_h: float = number("Pump rate, yd³/h", "", 1, 150, 12.0, group=PLACING, step=1)
    form_pressure_psf: float | None = number(
        "Pressure the forms may carry", "psf", 100, 3000, 600.0, group=PLACING, optional=True,
        wall="lower.form_pressure_psf", hint="From the forms' own data.",
    )  # fmt: skip
    slump_in: float = number("Slump in the gable", "in", 0, 12, 4.0, group=PLACING, step=0.5)
    slump_below_in: float = number("Slump in the wall below", "in", 0, 12, 6.5, group=PLACING, step=0.5)
    slump_approval: str = text(
        "Approval of the stiffer concrete", group=PLACING, hint="Who allowed it and when; blank while nobody has."
    )
    plate: str = choice(
        "Rake plate", (("none", "none"), *((k, k) for k in PLATES)), "2x6", group=PLATE, step=1,
        change="Use {value} for the rake plate",
    )  # fmt: skip
    piece_ft: float = number("Length of the pieces", "ft", 2, 24, 16.0, group=PLATE, when=PLATED)
    bolt: str = choice("Bolt diameter", BOLTS, "1/2", group=PLATE, when=PLATED, step=1)
    embedment_in: float = number("Embedment", "in", 2, 24, 7.0, group=PLATE, when=PLATED, step=0.5)
    bolt_spacing_in: float = number(
        "Bolts along the rake, at most apart", "in", 6, 144, 48.0, group=PLATE, when=PLATED, step=4
    )
    bolt_end_in: float = number(
        "End bolts from the ends of a piece", "in", 1, 48, 8.0, group=PLATE, when=PLATED, step=0.5
    )
    bolts_stand: str = choice(
        "Bolts stand", (("square", "square to the slope"), ("plumb", "plumb")), "square", group=PLATE, when=PLATED
    )
    exposure: str = choice("Concrete at the bolts is", EXPOSURES, "not exposed", group=PLATE, when=PLATED)
    opening: bool = yes("An opening in the gable", group=OPENING)
    opening_from_ft: float = number("Starts at, from the left eave", "ft", 0, 60, 12.5, group=OPENING, when=OPENED)
    opening_ft: float = number("Width", "ft", 0.5, 40, 3.0, group=OPENING, when=OPENED)
    sill_ft: float = number("Sill above the eaves", "ft", 0, 40, 1.0, group=OPENING, when=OPENED)
    head_ft: float = number("Head above the eaves", "ft", 0.5, 40, 4.0, group=OPENING, when=OPENED)
    core_in: float = common.core("Core thickness", "lower")
    foam_inner_in: float = common.foam("Foam, room side", "lower", "inner")
    foam_outer_in: float = common.foam("Foam, outer side", "lower", "outer")
