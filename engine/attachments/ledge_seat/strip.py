"""The wall below the ledge: its own strip under the wall above and the joists, one foot long."""

from engine.attachments.ledge_seat.geometry import Seat
from engine.attachments.ledge_seat.inputs import Inputs
from engine.clauses.us.bars import bar, bars_on_width_in2
from engine.clauses.us.concrete_lip import triangle_centroid_in
from engine.clauses.us.concrete_strip_check import WallStrip
from engine.clauses.us.concrete_walls import offset_from_middle_in
from engine.clauses.us.eccentric_strip import eccentric_strip
from engine.clauses.us.loads import Loads
from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import Worksheet

FOOT_IN = 12.0


def lines(sheet: Worksheet, i: Inputs, seat: Seat, reaction: Loads, edition: Edition) -> tuple[LimitState, ...]:
    """The strip in the combination that asks most. Args: reaction: of one joist [lb]."""
    if seat.bearing <= 0:
        return ()
    above = Loads(D=i.wall_dead_plf, L=i.wall_live_plf, S=i.wall_snow_plf)
    x_R = seat.bears_from + sheet.use(triangle_centroid_in, L_b_in=seat.bearing)
    e_joists = sheet.use(offset_from_middle_in, x_in=x_R, t_in=seat.t_L)
    e_above = sheet.use(offset_from_middle_in, x_in=seat.x_U + seat.t_U / 2, t_in=seat.t_L)
    joists = reaction.times(FOOT_IN / i.joist_spacing_in)
    return eccentric_strip(sheet, _strip(i), edition, above, e_above, joists, e_joists)


def _strip(i: Inputs) -> WallStrip:
    bars: tuple[tuple[float, float], ...] = ()
    if i.curtains != "none":
        one = bar(i.vertical_bar)
        A_s = bars_on_width_in2(one.A_b_in2, i.vertical_spacing_in, FOOT_IN)
        edge = i.cover_in + one.d_b_in / 2
        bars = ((A_s, i.lower_core_in / 2),) if i.curtains == "centre" else ((A_s, edge), (A_s, i.lower_core_in - edge))
    return WallStrip(
        b_in=FOOT_IN,
        h_in=i.lower_core_in,
        f_c_psi=i.f_c_psi,
        f_y_psi=i.f_y_ksi * 1000,
        l_c_in=i.storey_height_ft * 12,
        bars=bars,
        foundation=i.foundation,
    )
