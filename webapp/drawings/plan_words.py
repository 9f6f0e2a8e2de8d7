"""What a plan is told and what it says: attachments with their verdicts, the finding, the plan in words."""

from collections.abc import Sequence
from dataclasses import dataclass

from engine.result import Verdict
from engine.units import System, show
from webapp.drawings.plan_layout import Layout
from webapp.drawings.words import VERDICT_WORDS

OUTSIDE = ("veneer_ledge", "gable_end")


@dataclass(frozen=True, slots=True)
class Carried:
    """An attachment as the plan shows it.

    Args: kind: its key; name: what the trade calls it. end_ft: None at a point. verdict: of its kept summary. joists: stations of
    what it carries [in].
    """

    tag: str
    kind: str
    name: str
    wall: str
    level: int
    start_ft: float
    end_ft: float | None
    verdict: str
    says: str = ""
    joists: tuple[float, ...] = ()

    @property
    def outside(self) -> bool:
        """Whether it stands on the outer face."""
        return self.kind in OUTSIDE

    @property
    def far_ft(self) -> float:
        """Where it ends, or stands."""
        return self.start_ft if self.end_ft is None else self.end_ft


def says(row: Carried) -> str:
    """What an attachment is, where, and how it stands."""
    return f"{row.name} on {row.wall}: {row.says or VERDICT_WORDS[Verdict(row.verdict)]}"


def said(found: Layout, system: System) -> list[str]:
    """What a reader must know of the outline."""
    parts = [
        f"The outline is open by {show(inches, 'in', system)} between the end of {a} and the start of {b}."
        for a, b, inches in found.open_by
    ]
    if not found.placed:
        parts.append("Walls drawn one under another, at one scale: no corners are entered.")
    elif found.placed < len(found.walls):
        parts.append("Walls without a direction are drawn one under another below the others.")
    return parts


def finding(title: str, found: Layout, rows: Sequence[Carried]) -> str:
    """The drawing's title: what it shows and what does not pass."""
    parts = [f"{title}. {len(rows)} {'attachment' if len(rows) == 1 else 'attachments'} on {len(found.walls)} walls."]
    for verdict in (Verdict.FLAG, Verdict.REFER, Verdict.UNCHECKED):
        tags = [row.tag for row in rows if row.verdict == verdict]
        if tags:
            parts.append(f"{VERDICT_WORDS[verdict]}: {', '.join(tags)}.")
    if rows and len(parts) == 1:
        parts.append("All pass.")
    return " ".join(parts)


def description(found: Layout, rows: Sequence[Carried], system: System) -> str:
    """Walls with their lengths and what each carries, in words."""
    parts = []
    for one in found.walls:
        carried = "; ".join(f"{row.tag}, {says(row)}" for row in rows if row.wall == one.wall.name)
        parts.append(f"{one.wall.name}, {show(one.length / 12, 'ft', system)}: {carried or 'carries nothing here'}.")
    return " ".join([*parts, *said(found, system)])
