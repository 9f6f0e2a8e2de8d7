"""Where things are on a gable end. x runs from the left eave along the base, y up from it [in]."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import ceil
from typing import Any, NamedTuple

from engine.attachments.gable_end.inputs import Inputs, plate_thickness_in
from engine.attachments.gable_end.rakes import RakePiece, rake_pieces
from engine.clauses.us import gables
from engine.errors import BadInput
from engine.units import show
from engine.worksheet import Step, Worksheet

YD3_FT3 = 27


class Lift(NamedTuple):
    """Concrete placed at once: from and to above the eaves [in], and how much without what an opening takes [yd³]."""

    low_in: float
    high_in: float
    volume_yd3: float


class Opening(NamedTuple):
    """Its sides, sill and head [in]."""

    left_in: float
    right_in: float
    sill_in: float
    head_in: float


@dataclass(frozen=True, slots=True)
class Gable:
    """A gable end [in], with lengths along a rake from its eave.

    W: base. x_r, H: ridge. rake_L, rake_R: length of each rake. theta_L, theta_R: their slopes [°]. c_L, c_R: setback of a course
    at each rake. h: course. N: courses. s: web spacing. form: length of a form. area_ft2: of the triangle. cut_ft: cut edges of
    both faces. lifts: bottom up. plate: thickness of the rake plate, 0 without one. pieces: of it. opening: None without one.
    """

    W: float
    x_r: float
    H: float
    rake_L: float
    rake_R: float
    theta_L: float
    theta_R: float
    c_L: float
    c_R: float
    h: float
    N: int
    s: float
    form: float
    area_ft2: float
    cut_ft: float
    lifts: tuple[Lift, ...]
    plate: float
    pieces: tuple[RakePiece, ...]
    opening: Opening | None

    @property
    def volume_yd3(self) -> float:
        """All the concrete [yd³]."""
        return sum(lift.volume_yd3 for lift in self.lifts)

    @property
    def bolts(self) -> int:
        """Bolts of the rake plate."""
        return sum(len(piece.bolts_in) for piece in self.pieces)

    def edges_at(self, y_in: float) -> tuple[float, float]:
        """Left and right rake at a height [in]."""
        return self.x_r * y_in / self.H, self.W - (self.W - self.x_r) * y_in / self.H


def pitches(i: Inputs) -> tuple[float, float]:
    """Rise in 12 of the left and of the right rake."""
    return i.pitch, i.pitch_right if i.two_pitches else i.pitch


def geometry(inputs: Inputs, sheet: Worksheet | None = None) -> Gable:
    """The gable as drawn. Args: sheet keeps the steps where given. Raises: BadInput for an opening that does not fit."""
    sheet, i = sheet or Worksheet(recording=False), inputs
    left, right = pitches(i)
    x_r = sheet.use(gables.ridge_ft, W_ft=i.base_ft, p_L_in=left, p_R_in=right)
    H = sheet.use(gables.rise_to_ridge_ft, x_r_ft=x_r, p_in=left)
    rake_L = sheet.use(gables.rake_of_run_ft, x_ft=x_r, H_ft=H)
    rake_R = sheet.use(gables.rake_of_run_ft, x_ft=i.base_ft - x_r, H_ft=H)
    cut = sheet.use(gables.cut_length_ft, l_L_ft=rake_L, l_R_ft=rake_R)
    opening = _opening(i, x_r * 12, H * 12)
    return Gable(
        W=i.base_ft * 12,
        x_r=x_r * 12,
        H=H * 12,
        rake_L=rake_L * 12,
        rake_R=rake_R * 12,
        theta_L=gables.slope_deg(left),
        theta_R=gables.slope_deg(right),
        c_L=sheet.use(gables.setback_in, h_c_in=i.course_in, p_in=left),
        c_R=sheet.use(gables.setback_in, h_c_in=i.course_in, p_in=right),
        h=i.course_in,
        N=sheet.use(gables.courses, H_ft=H, h_c_in=i.course_in),
        s=i.web_spacing_in,
        form=i.form_spaces * i.web_spacing_in,
        area_ft2=sheet.use(gables.gable_area_ft2, W_ft=i.base_ft, H_ft=H),
        cut_ft=cut,
        lifts=tuple(_lifts(sheet, i, H, opening)),
        plate=plate_thickness_in(i.plate),
        pieces=_plate(sheet, i, rake_L * 12, rake_R * 12),
        opening=opening,
    )


def kept(placed: tuple[Step, ...], *functions: Callable[..., Any]) -> tuple[Step, ...]:
    """The steps of these clauses out of those that placed everything."""
    return tuple(step for step in placed if step.function in functions)


def _lifts(sheet: Worksheet, i: Inputs, H: float, opening: Opening | None) -> Iterator[Lift]:
    """Lifts of one height from the eaves up, the last one what is left."""
    for n in range(ceil(H / i.lift_ft - 1e-9)):
        low, high = n * i.lift_ft, min((n + 1) * i.lift_ft, H)
        V = sheet.use(gables.lift_volume_yd3, W_ft=i.base_ft, H_ft=H, t_in=i.core_in, z_1_ft=low, z_2_ft=high)
        yield Lift(low * 12, high * 12, V - _open_yd3(i, opening, low * 12, high * 12))


def _open_yd3(i: Inputs, opening: Opening | None, low: float, high: float) -> float:
    """What an opening takes from the core between two heights [yd³]."""
    if opening is None:
        return 0.0
    tall = max(min(opening.head_in, high) - max(opening.sill_in, low), 0.0)
    return tall * (opening.right_in - opening.left_in) * i.core_in / 12**3 / YD3_FT3


def _plate(sheet: Worksheet, i: Inputs, rake_L: float, rake_R: float) -> tuple[RakePiece, ...]:
    if i.plate == "none":
        return ()
    both = (("left", rake_L), ("right", rake_R))
    return tuple(
        piece
        for rake, length in both
        for piece in rake_pieces(sheet, rake, length, i.piece_ft * 12, i.bolt_spacing_in, i.bolt_end_in)
    )


def _opening(i: Inputs, x_r: float, H: float) -> Opening | None:
    """Raises: BadInput for an opening upside down, past the base, or through a rake, by how much."""
    if not i.opening:
        return None
    found = Opening(i.opening_from_ft * 12, (i.opening_from_ft + i.opening_ft) * 12, i.sill_ft * 12, i.head_ft * 12)
    if found.head_in <= found.sill_in:
        raise BadInput("head_ft", "The head lies at or below the sill. Enter it above.")
    share = min(found.head_in / H, 1.0)
    over_left = x_r * share - found.left_in
    over_right = found.right_in - (i.base_ft * 12 - (i.base_ft * 12 - x_r) * share)
    if found.head_in >= H or max(over_left, over_right) > 1e-9:
        over = show(max(over_left, over_right, found.head_in - H), "in")
        raise BadInput("head_ft", f"The opening runs {over} through the rake. Lower its head, narrow it or move it.")
    return found
