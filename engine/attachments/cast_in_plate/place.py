"""Lines about where the part really stands: concrete behind it, and the survey after the pour against the place drawn."""

from engine.attachments.cast_in_plate.geometry import Plate
from engine.attachments.cast_in_plate.inputs import Inputs
from engine.attachments.cast_in_plate.screws import edge_least_in
from engine.clauses.us.concrete_wall_steel import clear_cover_in
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite

SURVEY = Citation("survey")


def behind(sheet: Worksheet, p: Plate, placed: tuple[Step, ...]) -> LimitState:
    """Cover behind the part. Args: placed: the steps that placed everything."""
    need = sheet.use(clear_cover_in, exposure="not exposed", d_b_in=p.thickness)
    say = "The part leaves {capacity} of concrete behind it; {demand} of cover is needed. Foam is not cover."
    return LimitState(
        "behind", "Concrete behind the part", cite(clear_cover_in), need, p.behind, "in",
        say=say if p.behind > 0 else "The part is as deep in the wall as the core, or deeper.",
        spot="concrete", steps=placed + sheet.take(),
    )  # fmt: skip


def upright(i: Inputs, p: Plate) -> LimitState:
    """How far the part may stand up or down and still have every screw in wood with its edge distance."""
    least = edge_least_in(i, p)
    up, down = max(p.top - least, 0.0), max(p.bottom - least, 0.0)
    if not i.surveyed:
        return LimitState(
            "place-upright", "Place up and down", SURVEY, i.place_tolerance_in, min(up, down), "in", advisory=True,
            say="The part may stand {up} high or {down} low and every screw still has its edge distance; "
            "the tolerance is {demand}. Measure it after the pour.",
            facts={"up": (up, "in"), "down": (down, "in")}, spot="plate",
        )  # fmt: skip
    way, room = ("high", up) if p.shift_up > 0 else ("low", down)
    say = f"The part stands {{demand}} {way}; {{capacity}} leaves every screw its edge distance."
    return LimitState(
        "place-upright", "Place up and down", SURVEY, abs(p.shift_up), room, "in",
        say=say if p.shift_up else "The part stands at the height drawn.", spot="plate",
    )  # fmt: skip


def along(i: Inputs, p: Plate) -> LimitState:
    """Away from the joist the screws cross a gap; into the joist's place, the joist moves over."""
    room = max(p.reach - 6 * p.D, 0.0)
    if not i.surveyed:
        return LimitState(
            "place-along", "Place along the wall", SURVEY, i.place_tolerance_in, room, "in", advisory=True,
            say="The part may stand {capacity} off the joist's side before its screws reach too little wood; "
            "the tolerance is {demand}. Measure it after the pour.", spot="plate",
        )  # fmt: skip
    if p.shift_along < 0:
        return LimitState(
            "place-along", "Place along the wall", SURVEY, -p.shift_along, max(p.spacing - p.wood, 0.0), "in",
            say="The part stands {demand} in the joist's place: the joist moves over by as much, "
            "and its neighbour carries {floor} of floor.",
            facts={"floor": (p.tributary, "in")}, spot="plate",
        )  # fmt: skip
    say = "The part stands {demand} off the joist's side; {capacity} is what its screws can cross."
    return LimitState(
        "place-along", "Place along the wall", SURVEY, p.shift_along, room, "in",
        say=say if p.shift_along else "The part stands at the joist's side as drawn.", spot="plate",
    )  # fmt: skip
