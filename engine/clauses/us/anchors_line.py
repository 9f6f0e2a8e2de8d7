"""How a mode of an anchor group becomes a line of a check."""

from collections.abc import Callable, Iterable
from math import inf
from typing import Any, NamedTuple

from engine.clauses.us.anchors_materials import effective_area_in2, shank_area_in2, tensile_strength_used_psi
from engine.clauses.us.anchors_model import AnchorGroup
from engine.clauses.us.anchors_phi import design_strength_lb, seismic_tension_strength_lb
from engine.editions import Citation
from engine.result import LimitState
from engine.worksheet import CLAUSES, Worksheet


class Where(NamedTuple):
    """Which anchors the lines are about: start of their keys, words for titles, load combination, spot in the drawing."""

    key: str = "anchor"
    words: str = ""
    combination: str = ""
    spot: str = ""

    def line(
        self,
        sheet: Worksheet,
        key: str,
        title: str,
        source: Citation,
        demand: float | None = None,
        capacity: float | None = None,
        unit: str = "lb",
        **rest: Any,
    ) -> LimitState:
        """One line with the steps the sheet holds."""
        return LimitState(
            key=f"{self.key}-{key}",
            title=f"{title}, {self.words}" if self.words else title,
            source=source,
            demand=demand,
            capacity=capacity,
            unit=unit,
            combination=self.combination,
            spot=self.spot,
            steps=sheet.take(),
            **rest,
        )


PREFIX = Where()


def cite(function: Callable[..., Any]) -> Citation:
    """Where a clause function is published."""
    return CLAUSES[function].citation


def several(count: int, one: str = "anchor") -> str:
    """Counts in words: "no edge", "1 anchor", "4 anchors"."""
    return f"no {one}" if not count else f"1 {one}" if count == 1 else f"{count} {one}s"


def worst(lines: Iterable[LimitState]) -> LimitState:
    """The line with the largest ratio."""
    return max(lines, key=lambda line: inf if line.ratio is None else line.ratio)


def steel_area_in2(sheet: Worksheet, group: AnchorGroup) -> float:
    """Effective area of one anchor: of its thread, or of a stud's whole shank [in²]."""
    if group.steel.threaded:
        return sheet.use(effective_area_in2, d_a_in=group.d_a_in, n_t_per_in=group.n_t_per_in)
    return sheet.use(shank_area_in2, d_a_in=group.d_a_in)


def steel_strength_psi(sheet: Worksheet, group: AnchorGroup) -> float:
    """Tensile strength used [psi]."""
    return sheet.use(tensile_strength_used_psi, f_uta_psi=group.steel.f_uta_psi, f_ya_psi=group.steel.f_ya_psi)


def concrete_tension_lb(sheet: Worksheet, group: AnchorGroup, phi: float, N_n_lb: float) -> float:
    """Design strength of a concrete mode in tension, reduced under earthquake [lb]."""
    if group.seismic:
        return sheet.use(seismic_tension_strength_lb, phi=phi, N_n_lb=N_n_lb)
    return sheet.use(design_strength_lb, phi=phi, R_n_lb=N_n_lb)
