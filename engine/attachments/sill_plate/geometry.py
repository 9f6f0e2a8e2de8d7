"""Where plate, bolts and core are. Datum: the outer core face; x runs toward the room, y up from the concrete [in]."""

from dataclasses import dataclass
from math import ceil

from engine.attachments.sill_plate.inputs import PLATES, Inputs
from engine.clauses.us import anchors_materials as anchors
from engine.clauses.us.sill_lines import CUT_WASHERS
from engine.clauses.us.timber_materials import bolt
from engine.errors import BadInput
from engine.units import show
from engine.worksheet import Worksheet, clause


@dataclass(frozen=True, slots=True)
class Sill:
    """The plate on its wall, in section and along a piece [in].

    t: core below. foam_inner, foam_outer: its panels. x_U, t_U: outer face and thickness of the core above a ledge, None at a
    wall's top. x_B: back of what the plate may stand on (0 at a wall's top; on a ledge the room-side foam face above).
    x_0, x_1: outer and room-side edge of the plate. thickness, width, plies: of the plate. layer: what lies under it.
    x_from, x_to: what of the concrete the plate covers. x_bolt: bolt. third: middle third of the plate. D, h_ef: bolt and
    embedment. head_width, head_thickness: steel at its foot. hook: outside length, 0 for a head. washer, washer_thickness: side
    or diameter, 0 for none. piece: length of a piece. places: bolts along it. tie: spacing of ties, None without.
    """

    t: float
    foam_inner: float
    foam_outer: float
    x_U: float | None
    t_U: float | None
    x_B: float
    x_0: float
    x_1: float
    thickness: float
    width: float
    plies: int
    layer: float
    x_from: float
    x_to: float
    x_bolt: float
    third: tuple[float, float]
    D: float
    h_ef: float
    head_width: float
    head_thickness: float
    hook: float
    washer: float
    washer_thickness: float
    piece: float
    places: tuple[float, ...]
    tie: float | None

    @property
    def on_concrete(self) -> float:
        """Width of the plate that stands on concrete; 0 where it misses."""
        return max(self.x_to - self.x_from, 0.0)

    @property
    def spacing(self) -> float:
        """Bolts as they stand in a piece, spread evenly [in]."""
        return self.places[1] - self.places[0]

    @property
    def nearest_face(self) -> float:
        """From the bolt's centre to the nearer face of the core; below zero where it misses the core."""
        return min(self.x_bolt, self.t - self.x_bolt)


@clause(
    "geometry",
    "",
    title="Bolt from the outer core face",
    symbol="x_b",
    unit="in",
    formula="x_0 + a",
    provenance="geometry",
)
def bolt_place_in(x_0_in: float, a_in: float) -> float:
    """Args: x_0_in: plate's outer edge from the outer core face. a_in: bolt from that edge. Returns: [in]."""
    return x_0_in + a_in


@clause(
    "geometry", "", title="Back of the ledge", symbol="x_B", unit="in", formula="f_oU - f_o + t_U + f_iU",
    provenance="geometry", note="Outer foam faces are flush.",
)  # fmt: skip
def back_of_ledge_in(f_oU_in: float, f_o_in: float, t_U_in: float, f_iU_in: float) -> float:
    """Room-side foam face of the wall above, from the lower outer core face [in]. Args: outer foam above and below, core and
    room-side foam above."""
    return f_oU_in - f_o_in + t_U_in + f_iU_in


@clause(
    "geometry", "", title="Plate on concrete", symbol="b_c", unit="in",
    formula="max(min(x_0 + b, t) - max(x_0, x_B), 0)", provenance="geometry",
)  # fmt: skip
def on_concrete_in(x_0_in: float, b_in: float, t_in: float, x_B_in: float) -> float:
    """Width of a plate that stands on concrete between the back of a ledge (0 at a wall's top) and the core's room-side face.

    Args: x_0_in: plate's outer edge. b_in: its width. t_in: core. x_B_in: back [in]. Returns: [in].
    """
    return max(min(x_0_in + b_in, t_in) - max(x_0_in, x_B_in), 0.0)


def geometry(inputs: Inputs, sheet: Worksheet | None = None) -> Sill:
    """The plate as drawn. Args: sheet keeps the steps where given.

    Raises: BadInput where the bolt lies off the plate, a hook has no leg, or a piece is too short for two bolts.
    """
    sheet = sheet or Worksheet(recording=False)
    i, size, D = inputs, PLATES[inputs.plate], bolt(inputs.bolt).D_in
    if i.across_in + D / 2 > size.b_in:
        raise BadInput(
            "across_in",
            f"The bolt runs {show(i.across_in + D / 2 - size.b_in, 'in')} out of a plate {show(size.b_in, 'in')} wide.",
        )
    foot, x_B, x_0 = foot_of(i), _back(sheet, i), i.plate_edge_in
    x_1, third = x_0 + size.b_in, (x_0 + size.b_in / 3, x_0 + 2 * size.b_in / 3)
    on_concrete = sheet.use(on_concrete_in, x_0_in=x_0, b_in=size.b_in, t_in=i.core_in, x_B_in=x_B)
    x_from = max(x_0, x_B)
    ledge = i.stands_on == "ledge"
    washer, thickness = washer_of(i, D)
    return Sill(
        t=i.core_in, foam_inner=i.foam_inner_in, foam_outer=i.foam_outer_in,
        x_U=i.upper_foam_outer_in - i.foam_outer_in if ledge else None, t_U=i.upper_core_in if ledge else None,
        x_B=x_B, x_0=x_0, x_1=x_1, thickness=size.t_in, width=size.b_in, plies=size.plies,
        layer=i.barrier_in if i.barrier else 0.0, x_from=x_from, x_to=x_from + on_concrete,
        x_bolt=sheet.use(bolt_place_in, x_0_in=x_0, a_in=i.across_in), third=third, D=D, h_ef=i.embedment_in,
        head_width=foot.width_in, head_thickness=foot.thickness_in, hook=i.hook_in if i.head == "hook" else 0.0,
        washer=washer, washer_thickness=thickness, piece=i.piece_ft * 12, places=stations(i),
        tie=i.tie_spacing_in if i.carries != "wall" else None,
    )  # fmt: skip


def _back(sheet: Worksheet, i: Inputs) -> float:
    if i.stands_on == "top":
        return 0.0
    return sheet.use(
        back_of_ledge_in, f_oU_in=i.upper_foam_outer_in, f_o_in=i.foam_outer_in, t_U_in=i.upper_core_in,
        f_iU_in=i.upper_foam_inner_in,
    )  # fmt: skip


def foot_of(i: Inputs) -> anchors.Head:
    """Embedded end. Raises: BadInput for a hook with nothing past the shank."""
    D = bolt(i.bolt).D_in
    if i.head != "hook":
        return anchors.head("hex" if i.head == "hex" else "heavy hex", D)
    if i.hook_in <= D:
        raise BadInput("hook_in", f"Enter an outside length above the bolt's {show(D, 'in')}.")
    return anchors.hook(i.hook_in - D, D)


def washer_of(i: Inputs, D: float) -> tuple[float, float]:
    """Side or diameter of the washer and its thickness [in]; 0, 0 without one."""
    if i.washer == "plate":
        return i.washer_in, i.washer_thickness_in
    return CUT_WASHERS[D] if i.washer == "cut" else (0.0, 0.0)


def stations(i: Inputs) -> tuple[float, ...]:
    """Bolts along a piece: one at each end's distance, the others spread evenly no farther apart than the spacing [in].

    Raises: BadInput for a piece too short for two.
    """
    between = i.piece_ft * 12 - 2 * i.end_in
    if between <= 0:
        raise BadInput("end_in", f"End distances of {show(i.end_in, 'in')} leave no piece of {show(i.piece_ft, 'ft')}.")
    spaces = max(ceil(between / i.spacing_in - 1e-9), 1)
    return tuple(i.end_in + between * n / spaces for n in range(spaces + 1))
