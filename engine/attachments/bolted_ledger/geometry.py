"""Where things are at a bolted ledger, in inches.

In section x runs from the inner face of the core toward the room and y down from the ledger's top edge; in elevation u runs
along one piece of the ledger from its left end.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import ceil
from typing import Any

from engine.attachments.bolted_ledger.inputs import DIAMETERS, Inputs
from engine.basis import Piece, assemble
from engine.clauses.us import anchors_materials as anchors
from engine.clauses.us.timber_materials import lumber
from engine.errors import BadInput
from engine.units import show
from engine.worksheet import Worksheet, clause

LEVER_SHARE = 0.75


@dataclass(frozen=True, slots=True)
class Ledger:
    """The ledger, its bolts and what stands about them [in].

    t: core. foam: panel of the room side. pad: concrete cast out through the foam at a bolt. gap: foam left behind the ledger.
    separator: sheet between wood and concrete. x_back, x_face: back and room face of the ledger. b, d: its thickness (all plies)
    and depth. x_R: line of the reaction. first_joist: from a piece's
    left end, None until set out. piece: length of a piece. bolts: (u, y) of each bolt of a piece. places: their stations along it;
    at_a_place: how many share the load of one. rows: y of each row.
    hole: diameter of the cut-out, 0 without one. y_contact: lower edge of the contact with concrete. lever: from the bolts that
    pull to the pressure below them; both None where a gap is left. head_width, head_thickness: of the embedded end. hook: its
    outside length, 0 for a head. top, below: from the upper bolts up and the lower bolts down to an edge of the concrete; left,
    right: from the ledger's ends; None where the concrete goes on.
    """

    t: float
    foam: float
    pad: float
    gap: float
    separator: float
    x_back: float
    x_face: float
    b: float
    d: float
    x_R: float
    joist_depth: float
    joist_spacing: float | None
    first_joist: float | None
    piece: float
    end: float
    spacing: float
    bolts: tuple[tuple[float, float], ...]
    places: tuple[float, ...]
    at_a_place: int
    rows: tuple[float, ...]
    staggered: bool
    D: float
    h_ef: float
    head_width: float
    head_thickness: float
    hook: float
    hole: float
    y_contact: float | None
    lever: float | None
    top: float | None
    below: float | None
    left: float | None
    right: float | None

    @property
    def x_foot(self) -> float:
        """Far end of the bolt's steel in the core, below zero; the outer face of the core is at -t."""
        return -self.h_ef - self.head_thickness


@clause(
    "geometry", "", title="Reaction from the face of the core", symbol="e", unit="in", formula="p + g + t_s + b + s_h",
    provenance="geometry", note="p: concrete cast out through the foam; g: foam left; t_s: sheet; s_h: the whole hanger seat.",
)  # fmt: skip
def reaction_offset_in(p_in: float, g_in: float, t_s_in: float, b_in: float, s_h_in: float) -> float:
    """Lever of the joist's reaction about the face of the core. Args: all [in]. Returns: [in]."""
    return p_in + g_in + t_s_in + b_in + s_h_in


@clause(
    "geometry", "", title="Reaction from the face of the core", symbol="e", unit="in", formula="p + e_c",
    provenance="geometry", note="p: concrete cast out through the foam; e_c: as typed, from the concrete the ledger touches.",
)  # fmt: skip
def typed_offset_in(p_in: float, e_c_in: float) -> float:
    """Lever about the face of the core where the offset is typed. Args: both [in]. Returns: [in]."""
    return p_in + e_c_in


@clause(
    "geometry", "", title="Lower edge of the contact", symbol="y_c", unit="in", formula="min(y_b + r, d, y_b + c_b)",
    provenance="geometry", note="The cut-out's edge, the ledger's edge or the soffit below, whichever is highest.",
)  # fmt: skip
def contact_edge_in(y_b_in: float, r_in: float, d_in: float, c_b_in: float) -> float:
    """Lower edge of what bears on concrete, from the ledger's top edge.

    Args: y_b_in: bolt. r_in: half the cut-out (d_in where the foam is away altogether). d_in: ledger depth. c_b_in: bolt to
    the edge of the concrete below [in]. Returns: [in].
    """
    return min(y_b_in + r_in, d_in, y_b_in + c_b_in)


@clause(
    "geometry", "", title="Lever of the couple", symbol="z", unit="in", formula="0.75 * (y_c - y_b)",
    provenance="common practice", note="From the bolt that pulls to the centre of a pressure rising toward the lower edge.",
)  # fmt: skip
def couple_lever_in(y_c_in: float, y_b_in: float) -> float:
    """Three quarters of the way from the pulling bolt down to the lower edge of the contact. Args: both [in]."""
    return LEVER_SHARE * (y_c_in - y_b_in)


def _thick_and_deep(i: Inputs) -> tuple[float, float]:
    size = lumber(i.size)
    return size.b_in * i.plies, size.d_in


def _across(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """Rows over the ledger's depth."""
    _, d = _thick_and_deep(i)
    rows, staggered = _rows(i, d), _staggered(i)
    return {"d": d, "rows": rows, "staggered": staggered, "at_a_place": 1 if staggered else len(rows)}


def _foot(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    foot = foot_of(i)
    return {
        "D": DIAMETERS[i.bolt],
        "h_ef": i.embedment_in,
        "head_width": foot.width_in,
        "head_thickness": foot.thickness_in,
        "hook": i.hook_in if i.head == "hook" else 0.0,
    }


def _contact(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """What presses on the concrete."""
    _, d = _thick_and_deep(i)
    y_contact, lever = _couple(sheet, i, _rows(i, d), d, _staggered(i))
    return {"hole": i.hole_in if i.contact == "pads" else 0.0, "y_contact": y_contact, "lever": lever}


def _along(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    return {"piece": i.piece_ft * 12, "end": i.end_in, "spacing": i.spacing_in, "places": stations(i)}


def _each(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    _, d = _thick_and_deep(i)
    return {"bolts": _bolts(stations(i), _rows(i, d), _staggered(i))}


def _section(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    b, _ = _thick_and_deep(i)
    pad = i.foam_in if i.contact == "pads" else 0.0
    gap = i.foam_in if i.contact == "gap" else 0.0
    back = pad + gap + i.separator_in
    return {
        "t": i.core_in,
        "foam": i.foam_in,
        "pad": pad,
        "gap": gap,
        "separator": i.separator_in,
        "x_back": back,
        "x_face": back + b,
        "b": b,
        "x_R": _offset(sheet, i, pad, gap, b),
    }


def _joists(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    into = i.direction == "perpendicular"
    return {
        "joist_depth": i.joist_depth_in,
        "joist_spacing": i.joist_spacing_in if into else None,
        "first_joist": i.first_joist_in if into else None,
    }


def _edges(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    return {
        "top": i.top_in if i.top_of_wall else None,
        "below": i.below_in if i.over_opening else None,
        "left": i.left_in,
        "right": i.right_in,
    }


PIECES: tuple[Piece, ...] = (_across, _foot, _contact, _along, _each, _section, _joists, _edges)


def geometry(inputs: Inputs, sheet: Worksheet | None = None) -> Ledger:
    """The ledger as drawn. Args: sheet keeps the steps where given.

    Raises: BadInput where bolts lie off the ledger, or a piece is too short for two.
    """
    return assemble(Ledger, PIECES, inputs, sheet or Worksheet(recording=False))


def _staggered(i: Inputs) -> bool:
    return i.staggered and i.rows == 2


def _rows(i: Inputs, d: float) -> tuple[float, ...]:
    upper = i.top_edge_in
    rows = (upper,) if i.rows == 1 else (upper, upper + i.gauge_in)
    if rows[-1] >= d:
        name = "top_edge_in" if i.rows == 1 else "gauge_in"
        raise BadInput(
            name,
            f"The lower bolts lie {show(rows[-1] - d, 'in')} past the lower edge of a ledger {show(d, 'in')} deep.",
        )
    return rows


def foot_of(i: Inputs) -> anchors.Head:
    """Embedded end. Raises: BadInput for a hook with nothing past the shank."""
    D = DIAMETERS[i.bolt]
    if i.head == "hook":
        if i.hook_in <= D:
            raise BadInput("hook_in", f"Enter an outside length above the bolt's {show(D, 'in')}.")
        return anchors.hook(i.hook_in - D, D)
    return anchors.head("hex" if i.head == "hex" else "heavy hex", D)


def stations(i: Inputs) -> tuple[float, ...]:
    """Places of bolts along a piece: one at each end's distance, the others at the spacing, the last two spaces evened [in].

    Raises: BadInput for a piece too short for two.
    """
    length = i.piece_ft * 12 - 2 * i.end_in
    if length <= 0:
        raise BadInput("end_in", f"End distances of {show(i.end_in, 'in')} leave no piece of {show(i.piece_ft, 'ft')}.")
    return _evened(i.end_in, length, i.spacing_in)


@lru_cache(maxsize=256)
def _evened(end: float, length: float, spacing: float) -> tuple[float, ...]:
    spaces = max(ceil(length / spacing - 1e-9), 1)
    inner = [n * spacing for n in range(1, spaces - 1)]
    if spaces > 1:
        inner.append((length + (spaces - 2) * spacing) / 2)
    return (end, *(end + place for place in inner), end + length)


@lru_cache(maxsize=256)
def _bolts(places: tuple[float, ...], rows: tuple[float, ...], staggered: bool) -> tuple[tuple[float, float], ...]:
    if staggered:
        return tuple((u, rows[n % 2]) for n, u in enumerate(places))
    return tuple((u, y) for u in places for y in rows)


def _couple(
    sheet: Worksheet, i: Inputs, rows: tuple[float, ...], d: float, staggered: bool
) -> tuple[float | None, float | None]:
    """Lower edge of the contact and lever. Staggered bolts stand alone: the one with the shorter lever counts."""
    if i.contact == "gap":
        return None, None
    radius = i.hole_in / 2 if i.contact == "pads" else d
    found = []
    for y in rows if staggered else rows[-1:]:
        below = i.below_in + rows[-1] - y if i.over_opening and i.below_in is not None else d
        edge = sheet.use(contact_edge_in, y_b_in=y, r_in=radius, d_in=d, c_b_in=below)
        found.append((sheet.use(couple_lever_in, y_c_in=edge, y_b_in=y if staggered else rows[0]), edge))
    lever, edge = min(found)
    return edge, lever


def _offset(sheet: Worksheet, i: Inputs, pad: float, gap: float, b: float) -> float:
    if i.offset_in is not None:
        return sheet.use(typed_offset_in, p_in=pad, e_c_in=i.offset_in)
    seat = i.hanger_seat_in if i.direction == "perpendicular" else 0.0
    return sheet.use(reaction_offset_in, p_in=pad, g_in=gap, t_s_in=i.separator_in, b_in=b, s_h_in=seat)
