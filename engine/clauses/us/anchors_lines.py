"""Chapter 17 as lines of a check: every mode in tension, shear and both, each with demand, capacity, clause and working.

An attachment builds an `AnchorGroup`, shares its loads among the anchors (`anchors_group`), and takes these lines as they are.
Modes of the single anchor are held against the most loaded one; modes of the concrete against the group they break out with.
"""

from collections.abc import Sequence

from engine.clauses.us import anchors_shear as v
from engine.clauses.us.anchors_line import PREFIX, Where
from engine.clauses.us.anchors_lines_geometry import geometry_lines
from engine.clauses.us.anchors_lines_shear import shear_lines
from engine.clauses.us.anchors_lines_tension import tension_lines
from engine.clauses.us.anchors_materials import refuse_unread_edition
from engine.clauses.us.anchors_model import AnchorGroup
from engine.editions import Edition
from engine.result import LimitState
from engine.worksheet import CLAUSES, Worksheet

__all__ = ["anchor_lines", "geometry_lines", "interaction_line", "shear_lines", "tension_lines", "together_line"]


def interaction_line(
    sheet: Worksheet, tension: Sequence[LimitState], shear: Sequence[LimitState], where: Where = PREFIX
) -> LimitState | None:
    """Tension with shear from the worst line of each (17.8); None where only one of them acts."""
    r_N = max((line.ratio for line in tension if line.ratio is not None), default=0.0)
    r_V = max((line.ratio for line in shear if line.ratio is not None), default=0.0)
    return together_line(sheet, r_N, r_V, where) if r_N and r_V else None


def together_line(sheet: Worksheet, r_N: float, r_V: float, where: Where = PREFIX) -> LimitState:
    """Tension with shear (17.8). Args: r_N, r_V: above zero, the worst ratios of each alone."""
    total = sheet.use(v.interaction, r_N=r_N, r_V=r_V)
    limit = sheet.use(v.interaction_limit, r_N=r_N, r_V=r_V)
    return where.line(
        sheet,
        "interaction",
        "Anchors in tension and shear together",
        CLAUSES[v.interaction].citation,
        total,
        limit,
        unit="",
        say="Tension takes {r_N} and shear {r_V} of what the anchors can do alone; together {demand}, against {capacity}.",
        facts={"r_N": (r_N, ""), "r_V": (r_V, "")},
    )


def anchor_lines(
    sheet: Worksheet,
    edition: Edition,
    group: AnchorGroup,
    N_u_lb: Sequence[float],
    V_u_lb: Sequence[tuple[float, float]],
    where: Where = PREFIX,
) -> tuple[LimitState, ...]:
    """Every line there is for factored tension and shear on each anchor, in the order of `group.positions_in`.

    Args: N_u_lb: tension, 0 or less where pressed [lb]. V_u_lb: (x, y) of the shear [lb].
    Raises: BadInput when the counts differ, OutOfScope for an edition this engine does not hold.
    """
    refuse_unread_edition(edition)
    tension = tension_lines(sheet, group, N_u_lb, where)
    shear = shear_lines(sheet, group, V_u_lb, where)
    both = interaction_line(sheet, tension, shear, where)
    return (*tension, *shear, *((both,) if both else ()), *geometry_lines(sheet, group, where))
