"""The wall below the pocket: a strip of the effective length under the beam and the wall above."""

from engine.attachments.beam_pocket.geometry import Pocket
from engine.attachments.beam_pocket.inputs import Inputs
from engine.clauses.us.bars import bar
from engine.clauses.us.concrete_lip import triangle_centroid_in
from engine.clauses.us.concrete_strip_check import WallStrip
from engine.clauses.us.concrete_walls import effective_length_in
from engine.clauses.us.eccentric_strip import eccentric_strip
from engine.clauses.us.loads import Loads
from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import Worksheet


def lines(sheet: Worksheet, i: Inputs, p: Pocket, reaction: Loads, edition: Edition) -> tuple[LimitState, ...]:
    """The strip in the combination that asks most. Args: reaction: of the beam [lb]."""
    if p.bearing <= 0:
        return ()
    L_e = sheet.use(
        effective_length_in,
        bearing_in=p.loaded_width,
        h_in=i.core_in,
        s_in=i.next_pocket_in,
        left_in=i.left_in + i.pocket_width_in / 2,
        right_in=i.right_in + i.pocket_width_in / 2,
    )
    above = Loads(D=i.wall_dead_plf, L=i.wall_live_plf, S=i.wall_snow_plf).times(L_e / 12)
    # the beam turns at its end, so its pressure rises toward the room: one third of the bearing from the room-side edge
    e_beam = i.core_in / 2 - p.seat_from - (p.bearing - sheet.use(triangle_centroid_in, L_b_in=p.bearing))
    return eccentric_strip(sheet, _strip(i, L_e), edition, above, 0.0, reaction, e_beam)


def _strip(i: Inputs, L_e: float) -> WallStrip:
    """Bars by spacing over the effective length, less those cut, with those added beside the pocket."""
    bars: tuple[tuple[float, float], ...] = ()
    if i.curtains != "none":
        one = bar(i.vertical_bar)
        area = one.A_b_in2 * max(L_e / i.vertical_spacing_in - i.bars_cut + i.bars_added, 0.0)
        edge = i.cover_in + one.d_b_in / 2
        if area > 0:
            bars = ((area, i.core_in / 2),) if i.curtains == "centre" else ((area, edge), (area, i.core_in - edge))
    return WallStrip(
        b_in=L_e,
        h_in=i.core_in,
        f_c_psi=i.f_c_psi,
        f_y_psi=i.f_y_ksi * 1000,
        l_c_in=i.seat_height_ft * 12,
        bars=bars,
        foundation=i.foundation,
    )
