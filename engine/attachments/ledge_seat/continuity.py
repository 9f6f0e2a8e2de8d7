"""Lines about how the thicker wall goes over into the thinner: the lap of the bars, and the shelf rules of a foundation wall."""

from engine.attachments.ledge_seat.geometry import Seat
from engine.attachments.ledge_seat.inputs import Inputs
from engine.clauses.us.bars import bar
from engine.clauses.us.development import lap_b_in, tension_development_in
from engine.clauses.us.irc_scope import bars_by_thick_part, shelf_thickness_ok
from engine.clauses.us.noncontact_laps import noncontact_lap_offset_in
from engine.result import LimitState
from engine.worksheet import Worksheet, cite


def lines(sheet: Worksheet, i: Inputs, seat: Seat) -> tuple[LimitState, ...]:
    """Lap and sideways offset of the vertical bars; in a foundation wall also the shelf."""
    states: list[LimitState] = []
    if i.curtains != "none":
        states += _lap(sheet, i, seat)
    if i.foundation:
        states += _shelf(sheet, i)
    return tuple(states)


def offset_in(i: Inputs, seat: Seat) -> float:
    """How far the lower bars stand from the middle of the upper core, where its own bars are [in]."""
    d_b = bar(int(i.vertical_bar)).d_b_in
    middle = seat.x_U + seat.t_U / 2
    lower = (seat.t_L / 2,) if i.curtains == "centre" else (i.cover_in + d_b / 2, seat.t_L - i.cover_in - d_b / 2)
    return min(abs(middle - x) for x in lower)


def _lap(sheet: Worksheet, i: Inputs, seat: Seat) -> list[LimitState]:
    number = int(i.vertical_bar)
    l_d = sheet.use(tension_development_in, f_y_psi=i.f_y_ksi * 1000, f_c_psi=i.f_c_psi, d_b_in=bar(number).d_b_in)
    need = sheet.use(lap_b_in, l_d_in=l_d)
    lap = LimitState(
        "lap", "Lap into the thinner wall", cite(lap_b_in), need, i.lap_in, "in",
        say="The vertical bars lap {capacity}; a Class B lap is {demand}.", spot="bars", steps=sheet.take(),
    )  # fmt: skip
    apart = offset_in(i, seat)
    most = sheet.use(noncontact_lap_offset_in, l_st_in=need)
    reach = apart <= most + 1e-9
    offset = LimitState(
        "lap-offset", "Bars that lap across the step", cite(noncontact_lap_offset_in), apart, most, "in",
        say="Lower and upper bars stand {demand} apart across the wall; {capacity} is the most for a lap.",
        refer="" if reach else "The step is larger than the vertical bars can lap across: bring the bars' layout and the wall's "
        "moments to a licensed engineer.",
        spot="bars", steps=sheet.take(),
    )  # fmt: skip
    return [lap, offset]


def _shelf(sheet: Worksheet, i: Inputs) -> list[LimitState]:
    step = i.lower_core_in - i.upper_core_in
    thin = sheet.use(shelf_thickness_ok, t_thin_in=i.upper_core_in, t_above_in=i.wall_above_in)
    thickness = LimitState(
        "shelf-thickness", "Thin part of the foundation wall", cite(shelf_thickness_ok), holds=thin,
        say="The thin part is {thin}; the wall above is {above} and may be no thicker.",
        facts={"thin": (i.upper_core_in, "in"), "above": (i.wall_above_in, "in")},
        spot="wall", steps=sheet.take(),
    )  # fmt: skip
    by_thick = sheet.use(bars_by_thick_part, h_thin_in=i.shelf_height_ft * 12, step_in=step)
    part = "thick" if by_thick else "thin"
    bars = LimitState(
        "shelf-bars", "Bars chosen by the right part", cite(bars_by_thick_part), holds=i.bars_by in (part, "thin"),
        say=f"With a thin part {{high}} high and a step of {{step}}, the bars are chosen by the {part} part.",
        facts={"high": (i.shelf_height_ft, "ft"), "step": (step, "in")}, spot="wall", steps=sheet.take(),
    )  # fmt: skip
    return [thickness, bars]
