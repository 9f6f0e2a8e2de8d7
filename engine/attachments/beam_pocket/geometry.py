"""Where things are in the pocket. Datum: the room-side face of the core; x runs into the wall [in]."""

from dataclasses import dataclass

from engine.attachments.beam_pocket.inputs import Inputs
from engine.worksheet import Worksheet, clause


@dataclass(frozen=True, slots=True)
class Pocket:
    """The pocket, the beam in it and what is left of the core [in].

    seat_from: room-side edge of the seat. beam_end: end of the beam. bearing: length of beam on the seat. top_gap, side_gap,
    end_gap: clear space about the beam. behind: core left behind the pocket. loaded_length, loaded_width: the area pressed on
    the concrete. plate_thickness: of whatever lies under the beam.
    """

    seat_from: float
    beam_end: float
    bearing: float
    top_gap: float
    side_gap: float
    end_gap: float
    behind: float
    loaded_length: float
    loaded_width: float
    plate_thickness: float


@clause(
    "geometry", "", title="Bearing length in the pocket", symbol="l_b", unit="in", formula="l_p - g_end - c",
    provenance="geometry",
)  # fmt: skip
def bearing_in(l_p_in: float, g_end_in: float, c_in: float) -> float:
    """Beam on its seat [in]: pocket length less the end gap and the seat's setback; below zero where it misses."""
    return l_p_in - g_end_in - c_in


@clause(
    "geometry", "", title="Gap at each side", symbol="g_side", unit="in", formula="(w_p - b) / 2", provenance="geometry"
)
def side_gap_in(w_p_in: float, b_in: float) -> float:
    """Clear space on each side of a centred beam [in]."""
    return (w_p_in - b_in) / 2


@clause(
    "geometry",
    "",
    title="Gap above the beam",
    symbol="g_top",
    unit="in",
    formula="h_p - t_p - d",
    provenance="geometry",
)
def top_gap_in(h_p_in: float, t_p_in: float, d_in: float) -> float:
    """Clear space above the beam [in]; t_p: plate under it."""
    return h_p_in - t_p_in - d_in


@clause("geometry", "", title="Core left behind", symbol="t_b", unit="in", formula="t - l_p", provenance="geometry")
def core_behind_in(t_in: float, l_p_in: float) -> float:
    """Concrete between the pocket's end and the outer face of the core [in]."""
    return t_in - l_p_in


def geometry(inputs: Inputs, sheet: Worksheet | None = None) -> Pocket:
    """The pocket as drawn. Args: sheet keeps the steps where given."""
    sheet = sheet or Worksheet(recording=False)
    i = inputs
    on_plate = i.seat != "concrete"
    thickness = i.plate_thickness_in if on_plate else 0.0
    bearing = sheet.use(bearing_in, l_p_in=i.pocket_length_in, g_end_in=i.end_gap_in, c_in=i.setback_in)
    return Pocket(
        seat_from=i.setback_in,
        beam_end=i.pocket_length_in - i.end_gap_in,
        bearing=min(bearing, i.plate_length_in) if on_plate else bearing,
        top_gap=sheet.use(top_gap_in, h_p_in=i.pocket_height_in, t_p_in=thickness, d_in=i.depth_in),
        side_gap=sheet.use(side_gap_in, w_p_in=i.pocket_width_in, b_in=i.width_in),
        end_gap=i.end_gap_in,
        behind=sheet.use(core_behind_in, t_in=i.core_in, l_p_in=i.pocket_length_in),
        loaded_length=i.plate_length_in if on_plate else bearing,
        loaded_width=i.plate_width_in if on_plate else i.width_in,
        plate_thickness=thickness,
    )
