"""What acts on the plate by combination, and what of it reaches one bolt."""

from collections.abc import Iterable
from typing import NamedTuple

from engine.attachments.sill_plate.bolts import category
from engine.attachments.sill_plate.inputs import Inputs
from engine.clauses.us.irc_walls import wall_weight_psf
from engine.clauses.us.loads import (
    Combination,
    Loads,
    allowable_combinations,
    load_duration_factor,
    strength_combinations,
)
from engine.clauses.us.wall_anchorage import tie_force_lb
from engine.editions import Edition
from engine.result import LimitState, Verdict
from engine.worksheet import Worksheet

CONCRETE_PCF = 150.0  # ASCE 7-16 Table C3.1-1, reinforced stone concrete
# Dead load only holds a plate down, so the combinations with the least of it ask the most of its bolts (ASCE 7 2.3, 2.4).
STRENGTH = ("0.9D + W", "0.9D + E")
ALLOWABLE = ("0.6D + 0.6W", "0.6D + 0.7E")
ORDER = {Verdict.REFER: 2, Verdict.FLAG: 1}


class Plate(NamedTuple):
    """Unfactored loads of the plate by type [plf]: up less down on one axis, along and across the wall."""

    down: Loads
    up: Loads
    along: Loads
    across: Loads

    @property
    def every(self) -> Loads:
        """All types that act at all."""
        return self.up.plus(self.along).plus(self.across)


class Acting(NamedTuple):
    """One combination that acts: itself, its C_D, and the loads it factors."""

    c: Combination
    C_D: float
    plate: Plate

    @property
    def along_plf(self) -> float:
        """Factored shear along the wall [plf]."""
        return self.c.total(self.plate.along)

    @property
    def across_plf(self) -> float:
        """Factored push across the wall [plf]."""
        return self.c.total(self.plate.across)


def loads(sheet: Worksheet, i: Inputs) -> Plate:
    """The plate's loads; under a design the least tie between wall and floor stands in the place of E across the wall."""
    return Plate(
        down=Loads(D=i.dead_plf),
        up=Loads(W=i.uplift_plf),
        along=Loads(W=i.shear_wind_plf, E=i.shear_seismic_plf),
        across=Loads(W=i.across_plf, E=_least_tie_plf(sheet, i) if tied_by_design(i) else 0.0),
    )


def tied_by_design(i: Inputs) -> bool:
    """Whether the floor or roof is tied to a wall above ground by loads typed here."""
    return i.carries != "wall" and not i.foundation and i.connection == "designed"


def _least_tie_plf(sheet: Worksheet, i: Inputs) -> float:
    """ASCE 7 1.4.4 in category A; beyond it the floor of 12.11.2.1 too, which governs while S_DS is below 0.5."""
    w = sheet.use(wall_weight_psf, w_c_pcf=CONCRETE_PCF, t_in=i.core_in)
    return tie_force_lb(sheet, category(i), w, i.wall_height_ft, S_DS=0.0, I_e=1.0, L_f_ft=i.diaphragm_ft)


def acting(edition: Edition, plate: Plate, strength: bool) -> tuple[Acting, ...]:
    """The combinations that ask most of the bolts, those without a load left out."""
    labels, every = (STRENGTH, strength_combinations) if strength else (ALLOWABLE, allowable_combinations)
    found = (c for c in every(edition) if c.label in labels)
    return tuple(Acting(c, load_duration_factor(c, plate.every), plate) for c in found if c.total(plate.every) > 0)


def gravest(lines: Iterable[LimitState]) -> tuple[LimitState, ...]:
    """Of several lines of one key the one to read: referring, then flagging, then the largest ratio."""
    kept: dict[str, LimitState] = {}
    for line in lines:
        if line.key not in kept or _weight(line) > _weight(kept[line.key]):
            kept[line.key] = line
    return tuple(kept.values())


def _weight(line: LimitState) -> tuple[int, float]:
    return ORDER.get(line.verdict, 0), line.ratio or 0.0
