"""Where things are on the ledge of a stepped wall. Datum: the outer core face of the lower wall; x runs toward the room [in]."""

from dataclasses import dataclass
from itertools import product
from math import sqrt

from engine.attachments.ledge_seat.inputs import PLATES, Inputs
from engine.worksheet import Worksheet, clause

# Tolerances of a cast wall: R608 flat walls, IRC 2021 R608.3 (read); ACI 117-10 section 4.5 thickness of 12 in or less (read in a
# guide specification). Reading 1 of the design record: place of the upper form, the plate and the joist's length are 1/4 in each.
CORE_TOLERANCES = {"r608": (-0.5, 0.25), "aci117": (-0.25, 0.375)}


@dataclass(frozen=True, slots=True)
class Seat:
    """The ledge and what stands on it, in section [in].

    x_U: outer face of the upper core. x_B: back of the seat. x_E: room-side edge of the ledge. x_P: back of the plate (of the seat
    where there is none). plate_edge: room-side edge of the plate. x_J: end of the joist. bears_from, bears_to: what really bears.
    """

    t_L: float
    t_U: float
    x_U: float
    x_B: float
    x_E: float
    x_P: float
    plate_edge: float
    x_J: float
    bears_from: float
    bears_to: float
    plate_thickness: float
    plate_width: float
    lip_projection: float
    lip_depth: float
    x_bolt: float

    @property
    def seat(self) -> float:
        """Ledge width from back to edge; nothing or less where the walls leave none."""
        return self.x_E - self.x_B

    @property
    def bearing(self) -> float:
        """Length that bears; nothing or less where the joist misses the seat."""
        return self.bears_to - self.bears_from


@clause(
    "geometry", "", title="Back of the seat", symbol="x_B", unit="in", formula="x_U + t_U + f_U if whole else x_U + t_U",
    provenance="geometry", note="Outer foam faces are flush, so the outer face of the upper core stands at x_U.",
)  # fmt: skip
def back_of_seat_in(x_U_in: float, t_U_in: float, f_U_in: float, whole: bool) -> float:
    """Back of the seat from the lower wall's outer core face [in]; `whole`: the upper foam panel is left whole."""
    return x_U_in + t_U_in + f_U_in if whole else x_U_in + t_U_in


@clause(
    "geometry", "", title="Edge of a tapered ledge", symbol="x_E", unit="in", formula="t_L + f_L - lip", provenance="geometry"
)  # fmt: skip
def tapered_edge_in(t_L_in: float, f_L_in: float, lip_in: float) -> float:
    """Room-side edge where concrete runs out under the inner panel [in]; lip: foam left at the upper edge."""
    return t_L_in + f_L_in - lip_in


@clause("geometry", "", title="Edge of a square ledge", symbol="x_E", unit="in", formula="t_L", provenance="geometry")
def square_edge_in(t_L_in: float) -> float:
    """Room-side edge of a ledge without taper [in]."""
    return t_L_in


@clause("geometry", "", title="Joist end", symbol="x_J", unit="in", formula="x_B + g_end", provenance="geometry")
def joist_end_in(x_B_in: float, g_end_in: float) -> float:
    """End of the joist [in]."""
    return x_B_in + g_end_in


@clause(
    "geometry", "", title="Bearing length on the plate", symbol="l_b", unit="in",
    formula="min(x_P + b_p, x_E) - max(x_P, x_J)", provenance="geometry",
)  # fmt: skip
def bearing_on_plate_in(x_P_in: float, b_p_in: float, x_E_in: float, x_J_in: float) -> float:
    """What the joist bears on a plate b_p wide that starts at x_P [in]; below zero where it misses."""
    return min(x_P_in + b_p_in, x_E_in) - max(x_P_in, x_J_in)


@clause(
    "geometry", "", title="Bearing length on the ledge", symbol="l_b", unit="in", formula="x_E - x_J", provenance="geometry"
)  # fmt: skip
def bearing_on_ledge_in(x_E_in: float, x_J_in: float) -> float:
    """What the joist bears straight on concrete [in]."""
    return x_E_in - x_J_in


def geometry(inputs: Inputs, sheet: Worksheet | None = None) -> Seat:
    """The seat as drawn. Args: sheet keeps the steps where given."""
    sheet = sheet or Worksheet(recording=False)
    i = inputs
    x_U = i.foam_outer_upper_in - i.foam_outer_lower_in
    whole = i.upper_foam == "whole"
    x_B = sheet.use(back_of_seat_in, x_U_in=x_U, t_U_in=i.upper_core_in, f_U_in=i.foam_upper_in, whole=whole)
    if i.top == "taper":
        x_E = sheet.use(tapered_edge_in, t_L_in=i.lower_core_in, f_L_in=i.foam_lower_in, lip_in=i.lip_in)
    else:
        x_E = sheet.use(square_edge_in, t_L_in=i.lower_core_in)
    x_J = sheet.use(joist_end_in, x_B_in=x_B, g_end_in=i.end_gap_in)
    if i.plate == "none":
        thickness, width, x_P, plate_edge = 0.0, 0.0, x_B, x_E
        sheet.use(bearing_on_ledge_in, x_E_in=x_E, x_J_in=x_J)
    else:
        thickness, width = PLATES[i.plate]
        # a continuous plate starts at the whole panel unless the foam is cut along the line
        behind = x_B if whole or i.upper_foam == "cut_line" else x_U + i.upper_core_in + i.foam_upper_in
        x_P = behind + i.plate_gap_in
        plate_edge = x_P + width
        sheet.use(bearing_on_plate_in, x_P_in=x_P, b_p_in=width, x_E_in=x_E, x_J_in=x_J)
    return Seat(
        t_L=i.lower_core_in,
        t_U=i.upper_core_in,
        x_U=x_U,
        x_B=x_B,
        x_E=x_E,
        x_P=x_P,
        plate_edge=plate_edge,
        x_J=x_J,
        bears_from=max(x_P, x_J),
        bears_to=min(plate_edge, x_E),
        plate_thickness=thickness,
        plate_width=width,
        lip_projection=max(x_E - i.lower_core_in, 0.0),
        lip_depth=i.taper_depth_in if i.top == "taper" else 0.0,
        x_bolt=x_P + i.bolt_from_back_in,
    )


def bearing_with(seat: Seat, lower: float, upper: float, form: float, plate: float, joist: float) -> float:
    """Bearing length with every deviation at the given amount [in].

    lower, upper: core thickness deviations. form: the upper form stands this much toward the room. plate, joist: place of the plate
    and end of the joist, toward the room; both follow the as-built back of the seat.
    """
    shift = form + upper
    x_E = seat.x_E + lower
    x_J = seat.x_J + shift + joist
    if not seat.plate_width:
        return bearing_on_ledge_in(x_E, x_J)
    return bearing_on_plate_in(seat.x_P + shift + plate, seat.plate_width, x_E, x_J)


def with_tolerances(seat: Seat, core: tuple[float, float], place_in: float) -> tuple[float, float]:
    """Bearing left by root-sum-square and in the worst corner of all tolerances [in] (reading 1).

    Args: core: lower and upper deviation of a core's thickness. place_in: of the upper form, the plate and the joist's length.
    """
    ends = (core, core, (-place_in, place_in), (-place_in, place_in), (-place_in, place_in))
    nominal = bearing_with(seat, 0, 0, 0, 0, 0)
    worst = min(bearing_with(seat, *corner) for corner in product(*ends))
    squares = 0.0
    for number, pair in enumerate(ends):
        alone = [[value if n == number else 0.0 for n in range(len(ends))] for value in pair]
        squares += max(nominal - min(bearing_with(seat, *deviations) for deviations in alone), 0.0) ** 2
    return nominal - sqrt(squares), worst


def face_at_depth_in(seat: Seat, depth_in: float) -> float:
    """Room-side concrete face of the lower wall at a depth below the ledge [in]; straight between lip and core."""
    if seat.lip_depth <= 0 or depth_in >= seat.lip_depth:
        return seat.t_L
    return seat.x_E - (seat.x_E - seat.t_L) * depth_in / seat.lip_depth
