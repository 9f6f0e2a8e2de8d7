"""The takeoff of a job: what to buy, cut and place, counted from its setting out by the office's own values."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from sqlalchemy.orm import Session

from engine.set_job import asked
from engine.takeoff import (
    CUT_PIECES,
    GROUPS,
    ITEMS,
    WORK,
    BarLine,
    BarWeight,
    LeftOut,
    Row,
    Takeoff,
    Total,
    Waste,
    bar_list,
    bar_weights,
    takeoff,
    totals,
)
from engine.takeoff import Office as Values
from webapp.models import Job, Office
from webapp.services import offices
from webapp.services.kept import Kept, resting_on
from webapp.services.standing import stand, whole

MOST_PERCENT = 100.0
WASTED = tuple(item for item in ITEMS if item not in (*CUT_PIECES, *WORK))  # what an office may type a waste for
WALL_ITSELF = "wall"
_WHOLE = Kept[Takeoff](8)  # a megabyte each, and more of a large job


@dataclass(frozen=True, slots=True)
class Of:
    """A part of a job; "" leaves that open. Args: wall: a name. kind: of attachment, or "wall" for the walls. tag: "A3"."""

    wall: str = ""
    kind: str = ""
    tag: str = ""

    def __bool__(self) -> bool:
        return bool(self.wall or self.kind or self.tag)


@dataclass(frozen=True)
class JobTakeoff:
    """A job's takeoff, or a part of it.

    Args: walls: every wall's name and id. tags: every attachment and its kind. moved: how many had stations moved by hand.
    """

    job: Job
    of: Of
    whole: Takeoff
    walls: Mapping[str, int]
    tags: Mapping[str, str]
    moved: int
    values: Values
    waste: Waste

    @cached_property
    def rows(self) -> tuple[Row, ...]:
        """Rows of the part."""
        return self.whole.of(self.of.wall, self.of.kind, self.of.tag)

    @cached_property
    def totals(self) -> tuple[Total, ...]:
        """What to buy for the part."""
        return totals(self.rows, self.waste, self.values)

    @cached_property
    def bars(self) -> tuple[BarLine, ...]:
        """The bar list of the part."""
        return bar_list(self.rows)

    @cached_property
    def weights(self) -> tuple[BarWeight, ...]:
        """Bars of the part by size, with waste."""
        return bar_weights(self.rows, self.waste)

    def behind(self, total: Total) -> tuple[Row, ...]:
        """Rows that make up a total: where it goes."""
        own = (total.item, total.size, total.each_in)
        return tuple(row for row in self.rows if (row.item, row.size, row.each_in) == own)

    def grouped(self) -> dict[str, tuple[Total, ...]]:
        """Totals by what a buyer orders together; groups with nothing in them stay out."""
        found = {name: tuple(t for t in self.totals if t.item in items) for name, items in GROUPS.items()}
        return {name: own for name, own in found.items() if own}

    @property
    def left_out(self) -> tuple[LeftOut, ...]:
        """What of the part could not be counted."""
        return tuple(
            left for left in self.whole.left_out
            if (not self.of.wall or left.wall == self.of.wall) and (not self.of.tag or left.tag == self.of.tag)
            and (not self.of.kind or self.tags.get(left.tag, WALL_ITSELF) == self.of.kind)
        )  # fmt: skip


def own_values(row: Office) -> tuple[Values, Waste]:
    """An office's own values and wastes; a text that can no longer be used counts as never typed."""
    return offices.usable(Values, row.takeoff), {item: percent for item in WASTED if (percent := _percent(row, item))}


def _percent(row: Office, item: str) -> float:
    try:
        percent = float(row.waste.get(item, "0"))
    except ValueError:
        return 0.0
    return percent if 0 <= percent <= MOST_PERCENT else 0.0


def of_job(session: Session, job_id: int, of: Of | None = None) -> JobTakeoff:
    """The takeoff of a job, six queries whatever its size. Raises: Missing."""
    standing = stand(session, job_id)
    job = whole(session, standing)
    office = offices.office(session, standing.job.office_id)
    values, waste = own_values(office)
    setting_out = asked(job, standing.plan, offices.habits(office))
    key = resting_on(job, standing.plan, setting_out, values)
    return JobTakeoff(
        standing.job,
        of or Of(),
        _WHOLE.of(key, lambda: takeoff(job, setting_out, values)),
        {wall.name: wall.id for wall in standing.walls.values()},
        {entry.tag: entry.kind for entry in job.attachments},
        len(setting_out.moved) + len(setting_out.brackets),
        values,
        waste,
    )
