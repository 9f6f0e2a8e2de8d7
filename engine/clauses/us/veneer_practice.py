"""What the brick industry's technical note on steel-stud backing says of height and ties, beside the codes' own limits."""

from typing import NamedTuple

from engine.worksheet import clause

NOTE = "BIA Technical Note 28B (2005)"


class Heights(NamedTuple):
    """Veneer on a foundation: to the plate, and at a gable [ft]."""

    plate_ft: float
    gable_ft: float


class Ties(NamedTuple):
    """Area a tie serves [ft²], largest spacings, air space least and advised, backing to back of brick [in]."""

    area_ft2: float
    horizontal_in: float
    vertical_in: float
    air_in: float
    air_advised_in: float
    backing_in: float


@clause(
    NOTE, "", title="Height of veneer on a foundation", rule="30 ft to the plate and 38 ft at a gable, unless designed."
)
def height_limits() -> Heights:
    """Source: BIA Technical Note 28B, December 2005, read in a published summary."""
    return Heights(30.0, 38.0)


@clause(
    NOTE,
    "",
    title="Ties and air space",
    rule="One tie for 2 2/3 sq ft, 32 in across and 18 in up at most; air space 1 in, 2 in advised; 4 1/2 in to the backing.",
    note="Later masonry codes allow 25 in up; the spacing maxima do not combine, their area does.",
)
def ties() -> Ties:
    """Source: BIA Technical Note 28B, December 2005, read in a published summary."""
    return Ties(8 / 3, 32.0, 18.0, 1.0, 2.0, 4.5)
