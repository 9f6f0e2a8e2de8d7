"""Lines about the concrete itself: slump, consolidation, temperature, joints between lifts."""

from collections.abc import Sequence
from typing import cast

from engine.clauses.us.form_pressure import DEEPEST_VIBRATION_FT, HIGHEST_SLUMP_IN, Binder, chemistry_factor
from engine.clauses.us.irc_walls import slump_ok, vibration_required
from engine.clauses.us.placing_practice import (
    CODE_SLUMP_IN,
    least_concrete_temperature_F,
    vibrator,
)
from engine.editions import Citation
from engine.placing.filling import Filling, parted
from engine.placing.inputs import Inputs
from engine.placing.rules import cold_weather, hottest_F, slump_on_arrival_in
from engine.placing.runs import Run
from engine.result import Caution, LimitState
from engine.worksheet import Worksheet, cite

THIN_IN = 12.0
SLOW_SET_F, WARM_F = 55.0, 85.0  # common practice: where the cautions about cold and about warm concrete begin


def slump(sheet: Worksheet, i: Inputs, liquid_psf: float) -> tuple[LimitState, ...]:
    """The code's slump, and what may arrive. Args: liquid_psf: head of all soft concrete, the back-up case."""
    held = sheet.use(slump_ok, slump_in=i.slump_in, form="stay-in-place")
    code = LimitState(
        "slump-code", "Slump", cite(slump_ok), holds=held,
        say="Ordered at {slump}; stay-in-place forms ask for more than {least}.",
        facts={"slump": (i.slump_in, "in"), "least": (CODE_SLUMP_IN, "in")}, spot="form", steps=sheet.take(),
    )  # fmt: skip
    if i.self_consolidating:
        return (code,)  # counts as liquid at any slump
    arrives = sheet.use(slump_on_arrival_in, S_o_in=i.slump_in, dS_in=i.slump_tolerance_in)
    then = _above_the_window(i)
    window = LimitState(
        "slump-window", "Between the code's slump and the formula's", cite(slump_on_arrival_in), arrives, HIGHEST_SLUMP_IN,
        "in", advisory=True, spot="form", steps=sheet.take(),
        say=f"The code asks for more than {{least}}, the pressure equations for at most {{capacity}}. A load may arrive at "
        f"{{demand}}; above {{capacity}} it presses {{liquid}} as a liquid: {then}.",
        facts={"least": (CODE_SLUMP_IN, "in"), "liquid": (liquid_psf, "psf")},
    )  # fmt: skip
    return code, window


def _above_the_window(i: Inputs) -> str:
    if i.slump_in > HIGHEST_SLUMP_IN:
        return "ordered like this, every load is taken so"
    return "turn those loads away" if i.slump_gate else "nothing turns those loads away, so all are taken so"


def consolidation(sheet: Worksheet, i: Inputs) -> tuple[LimitState, ...]:
    """Whether it is vibrated from inside, and how far down."""
    required = sheet.use(vibration_required, slump_in=i.slump_in, self_consolidating=i.self_consolidating)
    inside = i.vibration == "internal"
    say = (
        "Stay-in-place forms ask for internal vibration; a poker is meant."
        if inside
        else "Stay-in-place forms ask for internal vibration, save for an approved self-consolidating mix of 8 in or more."
    )
    code = LimitState(
        "vibration", "Internal vibration", cite(vibration_required), holds=inside or not required, say=say, spot="lift",
        steps=sheet.take(),
    )  # fmt: skip
    if not inside:
        return (code,)
    knit = (
        "it reaches the layer below and knits the two"
        if i.vibration_ft > i.lift_ft
        else "it leaves the layer below alone"
    )
    return code, LimitState(
        "vibration-reach", "How far the poker goes down", cite(vibrator), i.lift_ft, i.vibration_ft, "ft", advisory=True,
        say=f"In lifts of {{demand}} the poker goes down {{capacity}}: {knit}. Beyond {{deepest}} everything counts as liquid.",
        facts={"deepest": (DEEPEST_VIBRATION_FT, "ft")}, spot="lift",
    )  # fmt: skip


def temperature(sheet: Worksheet, i: Inputs, runs: Sequence[Run]) -> tuple[LimitState, LimitState]:
    """The concrete's temperature in cold weather, and at any time."""
    thinnest = min(r.core_in for r in runs)
    say = "No cold weather is expected, so no least temperature is asked."
    least = None
    if sheet.use(cold_weather, air_F=i.air_F):
        section = "under 12 in" if thinnest < THIN_IN else "12 to 36 in"
        least = sheet.use(least_concrete_temperature_F, section=section)
        say = "In cold weather a wall {core} thick asks for {demand} as placed and kept; the concrete has {capacity}."
    cold = LimitState(
        "cold", "Coldest concrete", cite(least_concrete_temperature_F), least,
        None if least is None else i.temperature_F, "°F", say=say, facts={"core": (thinnest, "in")}, spot="lift",
        steps=sheet.take(),
    )  # fmt: skip
    hot = LimitState(
        "hot", "Hottest concrete", cite(hottest_F), i.temperature_F, sheet.use(hottest_F), "°F",
        say="The concrete is {demand} when placed; {capacity} is the most.", spot="lift", steps=sheet.take(),
    )  # fmt: skip
    return cold, hot


def cold_joint(i: Inputs, fillings: Sequence[Filling]) -> LimitState | None:
    """Time between two visits of the hose against the set; None where no time was typed or one lift fills the wall."""
    if i.set_h is None or len(fillings) < 2:
        return None
    between = max(f.minutes for f in fillings[1:]) / 60 + i.wait_h
    say = "The hose comes back after {demand} h at most; after {capacity} h the lift below has set and a cold joint forms."
    if parted(i.wait_h, i.set_h):
        say = "Each lift sets in {capacity} h and the next comes after {demand} h: every one of them ends in a construction joint."
    return LimitState(
        "cold-joint", "Time between lifts", Citation("common practice"), between, i.set_h, "", say=say, advisory=True, spot="lift"
    )  # fmt: skip


def cautions(i: Inputs) -> tuple[Caution, ...]:
    """What no number settles."""
    found = [
        Caution("Fill below sills and round corners first; vibrate beside and under bucks.", practice=True),
        Caution("Top lifts of gables are narrow and fill at once: plan them apart, always as a liquid.", practice=True),
    ]
    if i.retarder:
        factor = chemistry_factor(cast(Binder, i.binder), retarder=True)
        found.append(Caution(f"What delays set has the equations multiplied by {factor:g}.", cite(chemistry_factor)))
    if cold_weather(i.air_F):
        found.append(
            Caution(
                "Insulating forms keep the sides warm; cover the top, and keep snow and ice out of the forms.",
                practice=True,
            )
        )
    if i.temperature_F <= SLOW_SET_F:
        found.append(
            Caution(
                "Concrete 20 °F colder takes about twice as long to set: it stays soft deeper, and braces stay longer.",
                practice=True,
            )
        )
    if i.temperature_F >= WARM_F:
        found.append(
            Caution(
                "Warm concrete loses slump and sets sooner: no water added, lifts close upon each other.", practice=True
            )
        )
    return tuple(found)
