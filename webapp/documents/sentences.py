"""Sentences of a result outside templates."""

import re

from engine import units
from engine.result import LimitState
from engine.units import System


def sentence(state: LimitState, system: System) -> str:
    """What a line says, its figures in the reader's units; why not, where it is unchecked or referred."""
    if state.unchecked or state.refer:
        return state.unchecked or state.refer
    known = {name: units.show(value, unit, system) for name, (value, unit) in state.facts.items()}
    for name, value in (("demand", state.demand), ("capacity", state.capacity)):
        if value is not None:
            known[name] = units.show(value, state.unit, system)
    return re.sub(r"\{(\w+)\}", lambda match: known[match[1]], state.say) or f"{state.title}."
