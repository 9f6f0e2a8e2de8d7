"""The line about the ledger under the washers of bolts that pull: allowable stress, no load duration."""

from collections.abc import Sequence
from math import pi

from engine.attachments.bolted_ledger.demand import Carried, Share, tie_feet
from engine.attachments.bolted_ledger.geometry import Ledger
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.clauses.us.ledger_rules import couple_pull_lb, tie_pull_lb
from engine.clauses.us.loads import Combination, allowable_combinations
from engine.clauses.us.timber_bearing import C_b, washer_bearing_lb
from engine.clauses.us.timber_factors import C_M_stress
from engine.clauses.us.timber_materials import species
from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import Worksheet, cite

HOLE_OVER_IN = 1 / 16  # NDS 2018 12.1.3.2: holes at most 1/16 in over the bolt


def shares(i: Inputs, place: Ledger, load: Carried, edition: Edition) -> tuple[tuple[Share, Combination], ...]:
    """Of the heaviest bolt place under every allowable combination."""
    every = load.candidates(range(len(place.places)))
    return tuple((load.heaviest(c, i, every), c) for c in allowable_combinations(edition))


def lines(
    sheet: Worksheet, i: Inputs, place: Ledger, load: Carried, found: Sequence[tuple[Share, Combination]]
) -> tuple[LimitState, ...]:
    """One line; none where a gap leaves the couple to the engineer. Args: found: by `shares`."""
    if place.lever is None:
        return ()
    lever, feet = place.x_R / place.lever, tie_feet(i)
    share, c = max(found, key=lambda one: one[0].V * lever + one[1].total(load.across) * feet)
    demand = sheet.use(couple_pull_lb, V_lb=share.V, e_in=place.x_R, z_in=place.lever)
    if feet:
        demand += sheet.use(tie_pull_lb, w_plf=c.total(load.across), s_in=i.tie_spacing_in)
    return (
        LimitState(
            "washer", "Ledger under the washers", cite(washer_bearing_lb), demand, _capacity(sheet, i, place), "lb",
            say="A bolt pulls its washer on the wood with {demand}; under the washer it bears {capacity}.",
            combination=c.label, spot="bolt", steps=sheet.take(),
        ),
    )  # fmt: skip


def _capacity(sheet: Worksheet, i: Inputs, place: Ledger) -> float:
    """What the wood bears under one washer [lb]; nothing where the washer falls through its hole."""
    hole = place.D + HOLE_OVER_IN
    if i.washer_in**2 <= pi * hole**2 / 4:
        return 0.0
    wet = sheet.use(C_M_stress, stress="F_c_perp", material="sawn", wet=i.moisture == "wet")
    factor = sheet.use(C_b, l_b_in=i.washer_in, a_end_in=max(place.end - i.washer_in / 2, 0.0))
    return sheet.use(
        washer_bearing_lb,
        F_c_perp_psi=species(i.species).F_c_perp_psi,
        C_M=wet,
        C_t=1.0,
        C_b=factor,
        A_w_in2=i.washer_in**2,
        d_h_in=hole,
    )
