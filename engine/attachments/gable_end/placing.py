"""Lines of the concrete: lifts, form pressure always as a liquid, slump. A gable fills faster than it stiffens."""

from engine.attachments.gable_end.geometry import Gable
from engine.attachments.gable_end.inputs import Inputs
from engine.clauses.us.form_pressure import liquid_head_psf
from engine.clauses.us.gables import gable_rate_ft_per_h, lift_volume_yd3
from engine.clauses.us.irc_walls import slump_ok
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import Step, Worksheet, cite

PRACTICE = Citation("common practice")
USUAL_LIFT_FT = 2.0  # common practice: lifts of 1 1/2 to 2 ft in gables
USUAL_SLUMP_IN = (3.0, 5.0)  # common practice: slump in the top of gables
CODE_SLUMP_IN = 6.0  # IRC R608.5.1.4: stay-in-place forms ask for more


def soft_ft(i: Inputs, g: Gable) -> float:
    """Depth of concrete that has not stiffened: a lift, or the whole gable where the next lift does not wait [ft]."""
    return min(i.lift_ft, g.H / 12) if i.waits else g.H / 12


def lines(sheet: Worksheet, i: Inputs, g: Gable, placed: tuple[Step, ...]) -> tuple[LimitState, ...]:
    """Pressure, lift, rate, slumps. Args: placed: the steps of geometry."""
    return (
        _pressure(sheet, i, g),
        _lift(i, g, placed),
        _rate(sheet, i, g),
        _slump(sheet, i),
        _usual_slump(i),
        _below(sheet, i),
    )


def _pressure(sheet: Worksheet, i: Inputs, g: Gable) -> LimitState:
    depth = soft_ft(i, g)
    head = sheet.use(liquid_head_psf, w_pcf=i.w_pcf, h_ft=depth)
    what = "A lift of {depth}" if i.waits else "No lift waits for the one below, so all {depth} of the gable"
    known = i.form_pressure_psf is not None
    held = "the forms may carry {capacity}" if known else "enter what the forms may carry, from their own data"
    return LimitState(
        "lift-pressure", "Pressure of a lift as a liquid", cite(liquid_head_psf), head, i.form_pressure_psf, "psf",
        holds=None if known else False, say=f"{what} presses {{demand}}; {held}.", facts={"depth": (depth, "ft")},
        spot="lift", steps=sheet.take(),
    )  # fmt: skip


def _lift(i: Inputs, g: Gable, placed: tuple[Step, ...]) -> LimitState:
    return LimitState(
        "lift-height", "Height of a lift", PRACTICE, i.lift_ft, USUAL_LIFT_FT, "ft", advisory=True, spot="lift",
        say=f"{len(g.lifts)} lifts of {{demand}} take {{volume}} in all; 1 1/2 to 2 ft is usual in a gable.",
        facts={"volume": (g.volume_yd3, "yd³")},
        steps=tuple(step for step in placed if step.function is lift_volume_yd3),
    )  # fmt: skip


def _rate(sheet: Worksheet, i: Inputs, g: Gable) -> LimitState:
    R = sheet.use(gable_rate_ft_per_h, Q=i.pump_yd3_per_h, W_ft=g.W / 12, z_ft=0.0, H_ft=g.H / 12, t_in=i.core_in)
    return LimitState(
        "rate", "Rate of rise", cite(gable_rate_ft_per_h), holds=True, advisory=True, spot="lift", steps=sheet.take(),
        facts={"rate": (R, "ft/h")},
        say=f"At the pump's {i.pump_yd3_per_h:g} yd³/h the concrete rises {{rate}} at the eaves, twice that at half height "
        "and ever faster: no pressure equation covers it, and it counts as a liquid.",
    )  # fmt: skip


def _slump(sheet: Worksheet, i: Inputs) -> LimitState:
    """Stiffer than the code's own limit is for the building official, not for these lines."""
    enough = sheet.use(slump_ok, slump_in=i.slump_in, form="stay-in-place")
    say = "The gable's concrete is ordered at {slump}; stay-in-place forms ask for more than {least}."
    if not enough and i.slump_approval:
        say = "The gable's concrete is ordered at {slump}, not above {least} as the code asks, on the approval entered."
    return LimitState(
        "slump-code", "Slump by the code", cite(slump_ok), holds=True, say=say, spot="lift", steps=sheet.take(),
        facts={"slump": (i.slump_in, "in"), "least": (CODE_SLUMP_IN, "in")},
        refer="" if enough or i.slump_approval else
        "IRC R608.5.1.4 asks for a slump of more than 6 in in stay-in-place forms. Bring the stiffer mix, the lifts and how it is "
        "consolidated to the building official, and enter the approval, or order more than 6 in.",
    )  # fmt: skip


def _usual_slump(i: Inputs) -> LimitState:
    low, high = USUAL_SLUMP_IN
    usual = low <= i.slump_in <= high
    tail = (
        ""
        if usual
        else ": stiffer concrete hides voids"
        if i.slump_in < low
        else ": wetter concrete slides down the rake"
    )
    return LimitState(
        "slump-practice", "Slump that stays on a slope", PRACTICE, i.slump_in, high, "in", advisory=True, spot="lift",
        say=f"The gable's concrete is ordered at {{demand}}; {{low}} to {{capacity}} is usual there{tail}.",
        facts={"low": (low, "in")},
    )  # fmt: skip


def _below(sheet: Worksheet, i: Inputs) -> LimitState:
    held = sheet.use(slump_ok, slump_in=i.slump_below_in, form="stay-in-place")
    return LimitState(
        "slump-below", "Slump in the wall below", cite(slump_ok), holds=held, spot="wall", steps=sheet.take(),
        say="The wall below is ordered at {slump}; stay-in-place forms ask for more than {least}.",
        facts={"slump": (i.slump_below_in, "in"), "least": (CODE_SLUMP_IN, "in")},
    )  # fmt: skip
