"""What the ledger carries, by type and never pre-combined, and what of it reaches one bolt."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

from engine.attachments.bolted_ledger.geometry import Ledger
from engine.attachments.bolted_ledger.inputs import Inputs
from engine.attachments.bolted_ledger.joists import joist_reaction
from engine.clauses.us.irc_loads import load_per_bolt_lb
from engine.clauses.us.irc_walls import wall_weight_psf
from engine.clauses.us.ledger_beam import Shares, under_joists, under_uniform
from engine.clauses.us.loads import (
    Combination,
    Loads,
    allowable_combinations,
    strength_combinations,
)
from engine.clauses.us.wall_anchorage import anchorage_lb, diaphragm_amplification, integrity_tie_lb, required_tie_lb
from engine.editions import Edition
from engine.worksheet import Worksheet

CONCRETE_PCF = 150.0  # ASCE 7-16 Table C3.1-1, reinforced stone concrete; IRC Table R608.3 rests on it
SILENT = Worksheet(recording=False)
NONE = Shares((), (), 0.0)


class Share(NamedTuple):
    """Load of the heaviest of some bolt places under one combination [lb], and the k_R, k_w it was worked with."""

    V: float
    k: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Carried:
    """Loads of the ledger, unfactored.

    Args: joist: reaction of one joist [lb]. line: spread along the ledger [plf]. spread: both as a line load
    [plf]. along: shear along the wall [plf]. across: force
    across the wall, W typed, E the larger of typed and the least tie [plf]. joist_spacing: [in], 0 without joists. by_joist,
    by_line: shares of each bolt place of the continuous ledger, per joist reaction and per load of 1 an inch.
    """

    joist: Loads
    line: Loads
    spread: Loads
    along: Loads
    across: Loads
    joist_spacing: float
    by_joist: Shares
    by_line: Shares

    def load(self, place: int) -> tuple[float, float]:
        """k_R and k_w of a bolt place's load."""
        return (self.by_joist.load[place] if self.joist_spacing else 0.0), self.by_line.load[place]

    def shear(self, place: int) -> tuple[float, float]:
        """k_R and k_w of the larger shear beside a bolt place."""
        return (self.by_joist.shear[place] if self.joist_spacing else 0.0), self.by_line.shear[place]

    def candidates(self, places: Iterable[int]) -> list[tuple[float, float]]:
        """k_R, k_w of those bolt places that no other one exceeds in both."""
        kept: list[tuple[float, float]] = []
        for k in sorted((self.load(n) for n in places), reverse=True):
            if not kept or k[1] > kept[-1][1]:
                kept.append(k)
        return kept

    def heaviest(self, c: Combination, i: Inputs, candidates: Iterable[tuple[float, float]]) -> Share:
        """Load of the heaviest of these bolt places, not below what yielding bolts share evenly."""
        R, w = c.total(self.joist), c.total(self.line)
        k = max(candidates, key=lambda k: k[0] * R + k[1] * w / 12)
        return Share(max(k[0] * R + k[1] * w / 12, c.total(self.spread) * i.spacing_in / 12, 0.0), k)

    def share(self, k: tuple[float, float]) -> Loads:
        """Load by type of one bolt place [lb]. Args: k: k_R, k_w."""
        return self.joist.times(k[0]).plus(self.line.times(k[1] / 12))


def carried(sheet: Worksheet, i: Inputs, place: Ledger) -> Carried:
    """Everything the ledger carries. Steps: the joist's reaction."""
    across = i.direction == "perpendicular"
    joist = joist_reaction(sheet, i) if across else Loads()
    line = Loads(D=i.line_dead_plf, L=i.line_live_plf, S=i.line_snow_plf)
    if not across:
        line = line.plus(_floor(i))
    places = place.places
    return Carried(
        joist=joist,
        line=line,
        spread=joist.times(12 / i.joist_spacing_in).plus(line),
        along=Loads(W=i.shear_wind_plf, E=i.shear_seismic_plf),
        across=Loads(W=i.out_wind_plf, E=max(i.out_seismic_plf, least_tie_plf(SILENT, i))),
        joist_spacing=i.joist_spacing_in if across else 0.0,
        by_joist=under_joists(places, place.piece, i.joist_spacing_in, i.first_joist_in) if across else NONE,
        by_line=under_uniform(places, place.piece),
    )


def _floor(i: Inputs) -> Loads:
    return Loads(D=i.dead_psf, L=i.live_psf, S=i.snow_psf).times(i.strip_ft)


def least_tie_plf(sheet: Worksheet, i: Inputs) -> float:
    """Least force between wall and floor per foot, at strength level; it stands in the place of E.

    ASCE 7 1.4.4 in category A, beyond it the floor of 12.11.2.1 too, the plan's longer side taken for the flexible floor's span.
    """
    W_p = sheet.use(wall_weight_psf, w_c_pcf=CONCRETE_PCF, t_in=i.core_in) * i.wall_height_ft
    least = sheet.use(integrity_tie_lb, W_p_lb=W_p, A_t_ft2=i.wall_height_ft)
    if i.seismic == "A":
        return least
    k_a = sheet.use(diaphragm_amplification, L_f_ft=i.plan_ft)
    floor = sheet.use(anchorage_lb, S_DS=0.0, k_a=k_a, I_e=1.0, W_p_lb=W_p)
    return sheet.use(required_tie_lb, category=i.seismic, integrity_lb=least, seismic_lb=floor)


def tie_feet(i: Inputs) -> float:
    """Length of wall whose tie hangs on one ledger bolt [ft]; 0 where ties have anchors of their own."""
    return i.tie_spacing_in / 12 if i.ties == "listed" and i.tie_anchor == "ledger bolt" else 0.0


def combination(edition: Edition, label: str) -> Combination:
    """The combination of that label, allowable or strength."""
    every = (*allowable_combinations(edition), *strength_combinations(edition))
    return next(c for c in every if c.label == label)


def evenly(sheet: Worksheet, w_plf: float, i: Inputs) -> float:
    """Load of one bolt place where yielding bolts share [lb]."""
    return sheet.use(load_per_bolt_lb, w_plf=w_plf, s_in=i.spacing_in)
