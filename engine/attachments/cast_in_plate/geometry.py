"""Where things are at a cast-in plate, in inches.

x runs from the room-side face of the core toward the room, y down from the joist's top edge. The part stands upright beside the
joist; its screws go through it into the joist's side, so rows run along the grain and columns across it.
"""

from dataclasses import dataclass
from math import ceil
from typing import Any

from engine.attachments.cast_in_plate.inputs import Inputs
from engine.basis import Piece, assemble
from engine.clauses.us.timber_materials import wood_screw
from engine.worksheet import Worksheet, clause

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Plate:
    """The part, the joist's end and the screws [in].

    core: its thickness. embedment: part in the core. foam: room-side panel. x_joist: end of the joist. depth: of the joist.
    wood: thickness the screws may bite. wood_top, wood_bottom: y between which they may bite (of an I-joist: its filler).
    x_right: room-side end of the part. y_top, y_bottom, thickness: of the part. screws: (x, y) as drawn; rows, columns: how
    many there are. D: screw diameter. head: the screw's head, None where not known. gap, gap_built: between part and joist's
    side, drawn and after the pour. reach: of the screw past part and gap, as drawn. penetration: of its point into wood after the
    pour, cut off where the wood ends. end, top, bottom: wood beside the screws, toward the
    joist's end and the edges of what they bite. beyond, above, below: steel beside them, toward the part's end, top and bottom.
    lever: core face to the middle of the screws. behind: concrete behind the part. shift_along, shift_up: surveyed place from
    the drawn one. spacing: between joists. spacing_built: to the next part, this one shifted toward it. tributary: width of
    floor on the most loaded joist, one joist moved over with its part.
    """

    core: float
    embedment: float
    foam: float
    x_joist: float
    depth: float
    wood: float
    wood_top: float
    wood_bottom: float
    x_right: float
    y_top: float
    y_bottom: float
    thickness: float
    screws: tuple[Point, ...]
    rows: int
    columns: int
    D: float
    head: float | None
    gap: float
    gap_built: float
    reach: float
    penetration: float
    end: float
    top: float
    bottom: float
    beyond: float
    above: float
    below: float
    lever: float
    behind: float
    shift_along: float
    shift_up: float
    spacing: float
    spacing_built: float
    tributary: float

    @property
    def screws_built(self) -> tuple[Point, ...]:
        """The screws where the survey found the part; up is toward the joist's top."""
        return tuple((x, y - self.shift_up) for x, y in self.screws)


@clause(
    "geometry", "", title="Screw in the wood", symbol="p", unit="in", formula="l - t - g", provenance="geometry",
    note="Under the head: the part's base metal, and the gap where there is one.",
)  # fmt: skip
def penetration_in(l_in: float, t_in: float, g_in: float) -> float:
    """What a screw of length l reaches into the joist, tip counted, through a part t thick and a gap g [in]."""
    return l_in - t_in - g_in


@clause(
    "geometry", "", title="Lower edge to the lowest row", symbol="a_b", unit="in", formula="d - a_t - (n_r - 1) * s_r",
    provenance="geometry",
)  # fmt: skip
def bottom_edge_in(d_in: float, a_t_in: float, n_r: int, s_r_in: float) -> float:
    """Wood left below n_r rows that start a_t from the top of a depth d [in]; below zero where they do not fit."""
    return d_in - a_t_in - (n_r - 1) * s_r_in


@clause(
    "geometry", "", title="Concrete behind the part", symbol="t_b", unit="in", formula="t - h", provenance="geometry"
)
def behind_in(t_in: float, h_in: float) -> float:
    """Core left behind a part embedded h in a core t thick [in]; below zero where it would stick out."""
    return t_in - h_in


@clause(
    "geometry", "", title="Core face to the middle of the screws", symbol="a", unit="in", formula="f + e + a_e + c",
    provenance="geometry",
)  # fmt: skip
def lever_in(f_in: float, e_in: float, a_e_in: float, c_in: float) -> float:
    """Lever of the reaction [in]: foam f, foam to joist end e, joist end to first column a_e, first column to the middle c."""
    return f_in + e_in + a_e_in + c_in


@clause(
    "geometry", "", title="Floor on the joist beside one that moved", symbol="w", unit="in", formula="s + m / 2",
    provenance="geometry",
)  # fmt: skip
def tributary_in(s_in: float, m_in: float) -> float:
    """Width of floor on the neighbour of a joist that moved away by m from a spacing s [in]."""
    return s_in + m_in / 2


def layout(i: Inputs) -> tuple[Point, ...]:
    """Screws row by row from the top: (from the joist's end, from the joist's top) [in]. A short last row starts at the end."""
    across = [divmod(k, i.columns) for k in range(i.screws)]
    step = i.along_in / 2 if i.staggered else 0.0
    return tuple((i.end_in + c * i.along_in + r % 2 * step, i.top_in + r * i.across_in) for r, c in across)


def _wood_edges(i: Inputs) -> Point:
    """Upper and lower edge of what the screws bite, from the joist's top."""
    if i.joist != "i_joist":
        return 0.0, i.depth_in
    return i.flange_in + i.filler_gap_in, i.depth_in - i.flange_in


def _rows(i: Inputs) -> int:
    return ceil(i.screws / i.columns)


def _wall(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    behind = sheet.use(behind_in, t_in=i.core_in, h_in=i.embedment_in)
    return {"core": i.core_in, "embedment": i.embedment_in, "foam": i.foam_in, "behind": behind}


def _joist(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    top, bottom = _wood_edges(i)
    x = i.foam_in + i.end_gap_in
    return {"x_joist": x, "depth": i.depth_in, "wood": i.wood_in, "wood_top": top, "wood_bottom": bottom}


def _layout(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """Screws and the wood beside them."""
    placed, rows = layout(i), _rows(i)
    along = [x for x, _ in placed]
    wood_top, wood_bottom = _wood_edges(i)
    middle = sum(along) / len(along)
    return {
        "screws": tuple((i.foam_in + i.end_gap_in + x, y) for x, y in placed),
        "rows": rows,
        "columns": min(i.columns, i.screws),
        "end": min(along),
        "top": i.top_in - wood_top,
        "bottom": sheet.use(bottom_edge_in, d_in=wood_bottom, a_t_in=i.top_in, n_r=rows, s_r_in=i.across_in),
        "lever": sheet.use(lever_in, f_in=i.foam_in, e_in=i.end_gap_in, a_e_in=i.end_in, c_in=middle - i.end_in),
    }


def _outline(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """The part and the steel beside its screws."""
    low = i.top_in + (_rows(i) - 1) * i.across_in
    y_middle = (i.top_in + low) / 2
    beside = i.plate_height_in / 2 - (low - i.top_in) / 2
    return {
        "x_right": i.foam_in + i.leg_in,
        "y_top": y_middle - i.plate_height_in / 2,
        "y_bottom": y_middle + i.plate_height_in / 2,
        "beyond": i.leg_in - i.end_gap_in - max(x for x, _ in layout(i)),
        "above": beside,
        "below": beside,
    }


def _sheet(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    return {"thickness": i.t_in}


def _screw(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    screw = wood_screw(i.gauge)
    return {"D": screw.D_in, "head": screw.head_in}


def _reach(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    """How far the screws go, as drawn and after the pour."""
    drawn = built = sheet.use(penetration_in, l_in=i.length_in, t_in=i.t_in, g_in=i.gap_in)
    gap = i.gap_in + max(_moved(i)[0], 0.0)
    if gap > i.gap_in:
        built = sheet.use(penetration_in, l_in=i.length_in, t_in=i.t_in, g_in=gap)
    return {"gap": i.gap_in, "gap_built": gap, "reach": drawn, "penetration": min(built, i.wood_in)}


def _moved(i: Inputs) -> Point:
    """How far the survey found the part along the wall and up."""
    return (i.shift_along_in, i.shift_up_in) if i.surveyed else (0.0, 0.0)


def _built(i: Inputs, sheet: Worksheet) -> dict[str, Any]:
    out, up = _moved(i)
    return {
        "shift_along": out,
        "shift_up": up,
        "spacing": i.spacing_in,
        "spacing_built": i.spacing_in - abs(out),
        "tributary": sheet.use(tributary_in, s_in=i.spacing_in, m_in=-out) if out < 0 else i.spacing_in,
    }


PIECES: tuple[Piece, ...] = (_layout, _wall, _joist, _outline, _sheet, _screw, _reach, _built)


def geometry(inputs: Inputs, sheet: Worksheet | None = None) -> Plate:
    """The part as drawn and as surveyed. Args: sheet keeps the steps where given."""
    return assemble(Plate, PIECES, inputs, sheet or Worksheet(recording=False))
