"""A job's plan on its page: the drawing for each width of sheet, and links to its other floor levels."""

import logging
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from engine.result import ratio_words
from engine.units import System
from webapp.drawings.plan import plan_svg
from webapp.drawings.plan_words import Carried
from webapp.services.plans import Hung, JobPlan

log = logging.getLogger("wallseat")


def carried(hung: Hung) -> Carried:
    """An attachment as the plan draws it."""
    row, place = hung.row, hung.place
    says = ", ".join(filter(None, (row.verdict, row.governs, f"ratio {ratio_words(row.ratio)}" if row.ratio else "")))
    return Carried(
        row.tag, row.kind, row.kind_name, row.wall, place.level, place.start_ft, hung.end_ft, row.verdict, says, hung.joists
    )  # fmt: skip


def hrefs(job_id: int, plan: JobPlan) -> dict[str, str]:
    """Where every tag leads."""
    return {hung.row.tag: f"/jobs/{job_id}/attachments/{hung.row.tag}" for hung in plan.hung}


@dataclass(frozen=True, slots=True)
class Drawn:
    """A plan drawn for each width of sheet. Args: levels: how many the job has; 0 where it has no walls."""

    drawing: dict[str, Markup]
    levels: int
    unfit: tuple[str, ...]


def draw(job_id: int, plan: JobPlan, level: int, system: System) -> Drawn:
    """A floor level, drawn; the nearest one the job has."""
    if not plan.walls:
        return Drawn({}, 0, plan.unfit)
    return Drawn(_drawings(job_id, plan, max(1, min(level, plan.levels)), system), plan.levels, plan.unfit)


def context(job_id: int, drawn: Drawn, level: int, link: Callable[[int], str]) -> dict[str, Any] | None:
    """Context of `partials/plan.html`; None for a job without walls. Args: link: the page's address at a floor level."""
    if not drawn.levels:
        return None
    level = max(1, min(level, drawn.levels))
    return {
        "level": level,
        "drawing": drawn.drawing,
        "levels": [{"label": f"Level {n}", "href": link(n), "current": n == level} for n in range(1, drawn.levels + 1)],
        "unfit": drawn.unfit,
        "files": f"/jobs/{job_id}/plan",
        "files_query": f"?level={level}",
    }


def _drawings(job_id: int, plan: JobPlan, level: int, system: System) -> dict[str, Markup]:
    rows, links = [carried(hung) for hung in plan.hung], hrefs(job_id, plan)
    try:
        return {
            width: Markup(plan_svg(plan.walls, rows, links, system, width_class, level))
            for width, width_class in (("wide", "desk"), ("tablet", "tablet"), ("phone", "phone"))
        }
    except Exception:  # the list is worth more than neither
        log.exception("no plan of job %s", job_id)
        return {"wide": Markup("<p>The plan could not be drawn. The list holds without it.</p>")}
