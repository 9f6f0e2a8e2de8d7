"""Where things are at an anchored plate, in inches.

x runs from the room-side face of the core toward the room. y runs up and z along the wall from the plate's middle, which is also
the middle of its legs and of the fasteners' height; left is toward the wall's named end, as the wall says it.
"""

from dataclasses import dataclass
from typing import Any

from engine import units
from engine.attachments.anchored_plate.inputs import DIAMETERS, Inputs
from engine.basis import Piece, assemble
from engine.clauses.us.anchors_materials import Head, head, hook, washer
from engine.clauses.us.timber_materials import species, wood_screw
from engine.errors import BadInput
from engine.worksheet import Worksheet, clause

Point = tuple[float, float]
LEAST_ANCHORS, MOST_ANCHORS = 2, 8


@dataclass(frozen=True, slots=True)
class Bracket:
    """The plate, what holds it and what it holds [in].

    core, foam: of the wall. gap: clear between core and plate, grout or foam; x_front: the plate's room side. width, height,
    thickness: of the plate, its middle at y = z = 0. reaction: from the concrete. z_reaction: where the member pulls down.

    anchors: (z, y) of each. rows: their y, upper first. columns: their z, left first. d_a, h_ef: diameter and embedment.
    foot, foot_width: thickness and width of what holds an anchor at its foot. side, above, below: steel past the anchors, to
    the plate's sides, top and bottom. left, right, up, down: concrete past the anchors to an edge, None where it goes on.
    beside: to the next plate's anchors, None where there are none near.

    legs: (z from, z to) of each, standing from y = -leg_height / 2 to + leg_height / 2, from x_front to x_leg. leg_thickness.
    front_plate: (x from, x to) of a ledger's front plate, None elsewhere; it runs from the one leg's outer face to the other's.

    member_z: (from, to) of a joist or beam; a ledger runs on. member_x: (from, to) of a ledger; a joist or beam starts at the
    first and runs on. member_y: (bottom, top). slot: taken out of the member's thickness. fasteners: (along the grain, y) of
    each: along x for a joist or beam, along z for a ledger. D: their diameter. end, top, bottom: wood past them, to the
    member's end and edges. leg_beyond: steel past them at the leg's end, leg_above: above and below them.
    """

    core: float
    foam: float
    gap: float
    x_front: float
    width: float
    height: float
    thickness: float
    reaction: float
    z_reaction: float
    anchors: tuple[Point, ...]
    rows: tuple[float, ...]
    columns: tuple[float, ...]
    d_a: float
    h_ef: float
    foot: float
    foot_width: float
    side: float
    above: float
    below: float
    left: float | None
    right: float | None
    up: float | None
    down: float | None
    beside: float | None
    legs: tuple[Point, ...]
    leg_height: float
    leg_thickness: float
    x_leg: float
    front_plate: Point | None
    member_z: Point | None
    member_x: tuple[float, float | None]
    member_y: Point
    slot: float
    fasteners: tuple[Point, ...]
    D: float
    end: float
    top: float
    bottom: float
    leg_beyond: float
    leg_above: float

    @property
    def from_leg(self) -> tuple[Point, ...]:
        """Of each anchor, how far it stands beside and how far above or below the nearest leg [in]; 0 where it does not."""
        half = self.leg_height / 2
        return tuple(
            (min(max(a - z, z - b, 0.0) for a, b in self.legs), max(abs(y) - half, 0.0)) for z, y in self.anchors
        )


@clause(
    "geometry", "", title="Plate past its outer column", symbol="a_s", unit="in", formula="(w - (n - 1) * s) / 2",
    provenance="geometry",
)  # fmt: skip
def side_in(w_in: float, n: int, s_in: float) -> float:
    """Steel to the plate's side of n columns in its middle [in]; below zero where they do not fit."""
    return (w_in - (n - 1) * s_in) / 2


@clause(
    "geometry", "", title="Lowest of several rows to the edge below", symbol="a_b", unit="in",
    formula="h - a_t - (n - 1) * s", provenance="geometry",
)  # fmt: skip
def below_in(h_in: float, a_t_in: float, n: int, s_in: float) -> float:
    """What is left of a depth h below n rows that start a_t from its top [in]; below zero where they do not fit."""
    return h_in - a_t_in - (n - 1) * s_in


@clause(
    "geometry", "", title="Member's end from the concrete", symbol="x_m", unit="in",
    formula="e - (n - 1) * s / 2 - a_e", provenance="geometry",
)  # fmt: skip
def member_end_in(e_in: float, n: int, s_in: float, a_e_in: float) -> float:
    """Of a joist or beam: reaction e in the middle of n columns of fasteners, the first a_e from its end [in]."""
    return e_in - (n - 1) * s_in / 2 - a_e_in


@clause(
    "geometry",
    "",
    title="Concrete past the outer anchors",
    symbol="c_a",
    unit="in",
    formula="c + a_s",
    provenance="geometry",
)
def edge_in(c_in: float, a_s_in: float) -> float:
    """From an anchor to the end of the wall or an opening [in]: c past the plate, a_s within it."""
    return c_in + a_s_in


@clause(
    "geometry", "", title="Next plate's nearest anchors", symbol="s_n", unit="in", formula="s_p - (n - 1) * s",
    provenance="geometry",
)  # fmt: skip
def beside_in(s_p_in: float, n: int, s_in: float) -> float:
    """Between the outer columns of two like plates s_p apart, middle to middle [in]."""
    return s_p_in - (n - 1) * s_in


def foot_of(i: Inputs) -> Head:
    """What holds the anchor at its foot. Raises: BadInput for a washer too thin for its size, or a hook shorter than the rod."""
    D = DIAMETERS[i.anchor]
    if i.head == "hook":
        return hook(i.hook_in - D, D)
    if i.head == "washer":
        return washer(i.washer_in, i.washer_thickness_in, D)
    return head(i.head, D)


def _consistent(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """Nothing where inputs agree. Raises: BadInput where they contradict each other, saying by how much."""
    if not LEAST_ANCHORS <= i.columns * i.rows <= MOST_ANCHORS:
        raise BadInput(
            "rows", f"Give the plate two to eight anchors; {i.columns} by {i.rows} are {i.columns * i.rows}."
        )
    if i.f_u_ksi < i.f_y_ksi:
        raise BadInput("f_y_ksi", "Enter a yield strength that is not above the tensile strength.")
    if i.leg_height_in > i.height_in:
        over = units.show(i.leg_height_in - i.height_in, "in")
        raise BadInput("leg_height_in", f"The legs stand {over} past the plate: make them no higher than the plate.")
    if i.wood != "scl" and species(i.species).material != i.wood:
        raise BadInput("species", "Choose a glulam class for glued laminated timber, and a lumber species for lumber.")
    apart = i.spacing_in if i.form == "front" else i.next_in
    if apart is not None and apart < i.width_in:
        over = units.show(i.width_in - apart, "in")
        raise BadInput("width_in", f"Plates {units.show(apart, 'in')} apart overlap by {over}: set them farther apart.")
    if i.form == "angle" and i.off_in:
        raise BadInput("off_in", "Enter 0: an angle's member stands beside its leg.")
    if i.form == "slot" and i.fastener == "screw":
        raise BadInput("fastener", "Use bolts where the leg stands in a slot of the member.")
    return {}


def _fit(name: str, what: str, past: float) -> None:
    if past <= 0:
        raise BadInput(name, f"{what} by {units.show(-past, 'in')}: they must stand within the plate.")


def _legs(i: Inputs) -> tuple[Point, ...]:
    """Places of the legs along the wall."""
    t, z = i.leg_thickness_in, i.off_in
    if i.form == "angle":
        return ((-i.width_in / 2, -i.width_in / 2 + t),)
    if i.form in ("two", "front"):
        apart, middle = (i.b_in, z) if i.form == "two" else (i.legs_apart_in, 0.0)
        return (middle - apart / 2 - t, middle - apart / 2), (middle + apart / 2, middle + apart / 2 + t)
    return ((z - t / 2, z + t / 2),)


def _on_plate(i: Inputs, legs: tuple[Point, ...]) -> None:
    past = max(-i.width_in / 2 - legs[0][0], legs[-1][1] - i.width_in / 2)
    if past > 1e-9:
        raise BadInput("width_in", f"A leg stands {units.show(past, 'in')} past the plate's side: widen the plate.")


def _member_z(i: Inputs, legs: tuple[Point, ...]) -> Point | None:
    """Where a joist or beam stands along the wall: beside an angle on the side away from its plate."""
    if i.form == "front":
        return None
    if i.form == "angle":
        return legs[0][0] - i.b_in, legs[0][0]
    if i.form == "one":
        return legs[0][1], legs[0][1] + i.b_in
    return i.off_in - i.b_in / 2, i.off_in + i.b_in / 2


def _fasteners(i: Inputs) -> tuple[Point, ...]:
    middle = 0.0 if i.form == "front" else i.offset_in
    first, top = middle - (i.f_columns - 1) * i.f_column_spacing_in / 2, (i.f_rows - 1) * i.f_row_spacing_in / 2
    return tuple(
        (first + c * i.f_column_spacing_in, top - r * i.f_row_spacing_in)
        for r in range(i.f_rows)
        for c in range(i.f_columns)
    )


def _past(sheet: Worksheet, c: float | None, side: float) -> float | None:
    return None if c is None else sheet.use(edge_in, c_in=c, a_s_in=side)


def _plate(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    gap = {"tight": 0.0, "grout": i.pad_in, "gap": i.foam_in}[i.contact]
    return {
        "core": i.core_in, "foam": i.foam_in, "gap": gap, "x_front": gap + i.thickness_in, "width": i.width_in,
        "height": i.height_in, "thickness": i.thickness_in,
    }  # fmt: skip


def _anchors(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """Where they stand in the plate."""
    side = sheet.use(side_in, w_in=i.width_in, n=i.columns, s_in=i.column_spacing_in)
    below = sheet.use(below_in, h_in=i.height_in, a_t_in=i.row_top_in, n=i.rows, s_in=i.row_spacing_in)
    _fit("column_spacing_in", "The outer columns miss the plate", side)
    _fit("row_spacing_in", "The lowest anchors miss the plate", below)
    columns = tuple(-i.width_in / 2 + side + c * i.column_spacing_in for c in range(i.columns))
    rows = tuple(i.height_in / 2 - i.row_top_in - r * i.row_spacing_in for r in range(i.rows))
    return {
        "anchors": tuple((z, y) for y in rows for z in columns), "rows": rows, "columns": columns, "side": side,
        "above": i.row_top_in, "below": below,
    }  # fmt: skip


def _anchor(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    foot = foot_of(i)
    return {
        "d_a": DIAMETERS[i.anchor],
        "h_ef": i.embedment_in,
        "foot": foot.thickness_in,
        "foot_width": foot.width_in,
    }


def _steel(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """The legs, and along the wall what they hold."""
    legs = _legs(i)
    _on_plate(i, legs)
    member_z = _member_z(i, legs)
    return {
        "legs": legs, "leg_height": i.leg_height_in, "leg_thickness": i.leg_thickness_in, "member_z": member_z,
        "z_reaction": 0.0 if member_z is None else sum(member_z) / 2,
        "slot": i.leg_thickness_in if i.form == "slot" else 0.0, "leg_beyond": _beyond(i, legs),
        "leg_above": i.leg_height_in / 2 - (i.f_rows - 1) * i.f_row_spacing_in / 2,
    }  # fmt: skip


def _member(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """The member's end and the fasteners in it."""
    upper = (i.f_rows - 1) * i.f_row_spacing_in / 2
    bottom = sheet.use(below_in, h_in=i.d_in, a_t_in=i.f_top_in, n=i.f_rows, s_in=i.f_row_spacing_in)
    start, x_leg, front = _reach(sheet, i)
    return {
        "reaction": i.offset_in, "x_leg": x_leg, "front_plate": front, "member_x": start,
        "member_y": (upper + i.f_top_in - i.d_in, upper + i.f_top_in), "fasteners": _fasteners(i), "end": i.f_end_in,
        "top": i.f_top_in, "bottom": bottom,
    }  # fmt: skip


def _around(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """Edges of the concrete and the next plate, from the anchors."""
    side = side_in(i.width_in, i.columns, i.column_spacing_in)
    apart = i.spacing_in if i.form == "front" else i.next_in
    return {
        "left": _past(sheet, i.left_in, side), "right": _past(sheet, i.right_in, side),
        "up": i.top_edge_in if i.top_of_wall else None, "down": i.bottom_edge_in if i.over_opening else None,
        "beside": None if apart is None else sheet.use(beside_in, s_p_in=apart, n=i.columns, s_in=i.column_spacing_in),
    }  # fmt: skip


def _fastener(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    return {"D": DIAMETERS[i.bolt] if i.fastener == "bolt" else wood_screw(i.gauge).D_in}


PIECES: tuple[Piece, ...] = (_consistent, _plate, _anchors, _anchor, _steel, _member, _around, _fastener)


def geometry(inputs: Inputs, sheet: Worksheet | None = None) -> Bracket:
    """The plate as drawn. Args: sheet keeps the steps where given. Raises: BadInput where inputs contradict each other."""
    return assemble(Bracket, PIECES, inputs, sheet or Worksheet(recording=False))


def _reach(sheet: Worksheet, i: Inputs) -> tuple[tuple[float, float | None], float, Point | None]:
    """Where the member starts (and a ledger ends), where the legs end, and the front plate, along x."""
    if i.form == "front":
        back = i.face_in - i.leg_thickness_in
        return (i.face_in, i.face_in + i.b_in), back, (back, i.face_in)
    start = sheet.use(member_end_in, e_in=i.offset_in, n=i.f_columns, s_in=i.f_column_spacing_in, a_e_in=i.f_end_in)
    return (start, None), i.offset_in + (i.f_columns - 1) * i.f_column_spacing_in / 2 + i.leg_edge_in, None


def _beyond(i: Inputs, legs: tuple[Point, ...]) -> float:
    """Steel past the outer fasteners: at the leg's end, or to the front plate's sides."""
    if i.form != "front":
        return i.leg_edge_in
    return (legs[-1][1] - legs[0][0] - (i.f_columns - 1) * i.f_column_spacing_in) / 2
