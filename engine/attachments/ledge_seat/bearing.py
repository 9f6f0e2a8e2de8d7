"""Lines about what the joist end bears on: lengths, plate, rotation. Wood strength is in `wood`."""

from engine.attachments.ledge_seat.geometry import CORE_TOLERANCES, Seat, with_tolerances
from engine.attachments.ledge_seat.inputs import FROM_DRAWING, NOMINAL, Inputs
from engine.clauses.us.irc_bearing import minimum_bearing_in, plate_area_ok, rotation_held
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite

DRAWING = Citation("member drawing")
GEOMETRY = Citation("geometry")
TOLERANCE = Citation("IRC", "R608.3")
TOLERANCE_117 = Citation("ACI 117-10", "4.5")
NAILED = {"blocking": "full-depth blocking", "rim": "full-depth rim", "other": "other approved", "none": "none"}
PLATE_AREA_IN2 = 48.0


def code_minimum_in(sheet: Worksheet, i: Inputs) -> float:
    """Bearing the code asks for by what is beneath: a plate of enough area counts as wood, anything else as concrete."""
    if i.plate == "none":
        return sheet.use(minimum_bearing_in, support="concrete")
    thickness, width = NOMINAL[i.plate]
    enough = sheet.use(plate_area_ok, b_nom_in=width, t_nom_in=thickness, l_in=i.plate_piece_ft * 12)
    return sheet.use(minimum_bearing_in, support="wood" if enough else "concrete")


def required_in(sheet: Worksheet, i: Inputs) -> float:
    """The larger of the code's minimum and the member drawing's own."""
    return max(code_minimum_in(sheet, i), i.required_bearing_in or 0.0)


def lines(sheet: Worksheet, i: Inputs, seat: Seat, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Ledge, bearing lengths, plate, tolerances, rotation. Args: placed: the steps that placed everything."""
    states = [_ledge(i, seat, placed), _code(sheet, i, seat, placed)]
    if i.required_bearing_in is not None or i.member in FROM_DRAWING:
        states.append(_drawing(i, seat, placed))
    if i.plate != "none":
        states.append(_plate_area(sheet, i))
    states += [_tolerances(sheet, i, seat), _rotation(sheet, i)]
    if i.member == "top_chord":
        states += _top_chord(i)
    return tuple(states)


def _ledge(i: Inputs, seat: Seat, placed: tuple[Step, ...]) -> LimitState:
    facts = {"seat": (seat.seat, "in"), "over": (max(-seat.seat, 0.0), "in")}
    if seat.seat <= 0:
        say = "There is no ledge: the back of the seat stands {over} past its edge."
    elif i.plate == "none":
        say = "The ledge is {capacity} wide; the joist's end gap alone takes {demand}."
    else:
        say = "The ledge is {capacity} wide; the plate and the gap behind it take {demand}."
    needs = seat.x_J - seat.x_B if i.plate == "none" else seat.plate_edge - seat.x_B
    return LimitState(
        "ledge",
        "Room on the ledge",
        GEOMETRY,
        max(needs, 0.01),
        seat.seat,
        "in",
        say=say,
        facts=facts,
        spot="ledge",
        steps=placed,
    )


def _code(sheet: Worksheet, i: Inputs, seat: Seat, placed: tuple[Step, ...]) -> LimitState:
    least = code_minimum_in(sheet, i)
    on = "the plate" if i.plate != "none" else "the concrete"
    say = f"The joist bears {{capacity}} on {on}; the code asks for {{demand}}."
    if seat.bearing <= 0:
        say = f"The joist misses {on} by {{miss}}; the code asks for {{demand}} of bearing."
    return LimitState(
        "bearing-code",
        "Bearing, code minimum",
        cite(minimum_bearing_in),
        least,
        seat.bearing,
        "in",
        say=say,
        facts={"miss": (max(-seat.bearing, 0.0), "in")},
        spot="bearing",
        steps=placed + sheet.take(),
    )


def _drawing(i: Inputs, seat: Seat, placed: tuple[Step, ...]) -> LimitState:
    title = "Bearing the joist asks for"
    if i.required_bearing_in is None:
        return LimitState(
            "bearing-drawing", title, DRAWING, holds=False, spot="bearing",
            say="Enter the bearing that the member drawing asks for; engineered members have no other source.",
        )  # fmt: skip
    on = "the plate" if i.plate != "none" else "the concrete"
    return LimitState(
        "bearing-drawing",
        title,
        DRAWING,
        i.required_bearing_in,
        seat.bearing,
        "in",
        say=f"The joist bears {{capacity}} on {on}; its drawing asks for {{demand}}.",
        spot="bearing",
        steps=placed,
    )


def _plate_area(sheet: Worksheet, i: Inputs) -> LimitState:
    thickness, width = NOMINAL[i.plate]
    sheet.use(plate_area_ok, b_nom_in=width, t_nom_in=thickness, l_in=i.plate_piece_ft * 12)
    return LimitState(
        "plate-area",
        "Plate between joist and concrete",
        cite(plate_area_ok),
        PLATE_AREA_IN2,
        width * i.plate_piece_ft * 12,
        "in²",
        say="The plate gives {capacity} of nominal area; {demand} let it count as wood.",
        spot="plate",
        steps=sheet.take(),
    )


def _tolerances(sheet: Worksheet, i: Inputs, seat: Seat) -> LimitState:
    required = required_in(sheet, i)
    sheet.take()
    likely, worst = with_tolerances(seat, CORE_TOLERANCES[i.core_tolerance], i.place_tolerance_in)
    ratios = tuple(required / left if left > 0 else float("inf") for left in (likely, worst))
    return LimitState(
        "tolerances",
        "Bearing, tolerances against you",
        TOLERANCE if i.core_tolerance == "r608" else TOLERANCE_117,
        required,
        worst,
        "in",
        say="With every tolerance against you {worst} bears, by root-sum-square {likely}; {demand} is needed. "
        "Measure the ledge: {measure} or wider from its back to its edge.",
        facts={
            "likely": (likely, "in"),
            "worst": (worst, "in"),
            "measure": (seat.bears_from - seat.x_B + required, "in"),
        },
        advisory=True,
        spot="bearing",
        spread=(ratios[0], ratios[1]),
    )


def _rotation(sheet: Worksheet, i: Inputs) -> LimitState:
    category = i.seismic.split("-")[0]
    held = sheet.use(rotation_held, restraint=NAILED[i.end_held], sdc=category)
    return LimitState(
        "rotation",
        "Ends held against rotation",
        cite(rotation_held),
        holds=held,
        say="The joist ends are held against rotation." if held else "Say what holds the joist ends against rotation.",
        spot="joist",
        steps=sheet.take(),
    )


def _top_chord(i: Inputs) -> list[LimitState]:
    states = []
    if i.seat_depth_in is None:
        states.append(
            LimitState(
                "seat-depth",
                "Depth of the bearing seat",
                DRAWING,
                holds=False,
                spot="joist",
                say="Enter the depth of the bearing seat from the member drawing.",
            )
        )
    clear = i.clearance_in
    states.append(
        LimitState(
            "clearance",
            "Member below clears the foam",
            DRAWING,
            holds=clear is not None and clear > 0,
            say="Enter how far the member below its seat clears the foam face; it may not be cut."
            if not clear
            else "The member below its seat clears the foam by {clear}; it may not be cut.",
            facts={"clear": (clear or 0.0, "in")},
            spot="joist",
        )
    )
    return states
