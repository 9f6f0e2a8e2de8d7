"""The takeoff of a job over JSON."""

from typing import Annotated

from fastapi import APIRouter, Depends, Query
from pydantic import BaseModel, Field

from engine.takeoff import ITEMS, OUTSIDE
from webapp.api.answers import READ, Answer, refusals
from webapp.api.ask import SIGNED, Db, JobHere
from webapp.services import takeoff
from webapp.services.takeoff import JobTakeoff, Of
from webapp.store import reading

router = APIRouter(prefix="/api/jobs/{job_id}", tags=["takeoff"], dependencies=SIGNED)


class Row(BaseModel):
    """One line of a takeoff: what, how much, where to, where from."""

    item: str = Field(description="Key of what it is.")
    words: str = Field(description="What it is.")
    size: str = Field(description="Which of its kind.")
    net: float = Field(description="How much, in `unit`, without waste.")
    unit: str = Field(description='"each", "ft", "yd³" and so on.')
    each_in: float = Field(description="Cut length of one, in; 0 where it has none.")
    pounds: float | None = Field(description="Weight of the net amount, lb; null where not known.")
    wall: str = Field(description="Wall it goes to.")
    level: int = Field(description="Storey of a wall, floor level of an attachment.")
    tag: str = Field(description='Attachment it belongs to; "" for the wall itself.')
    source: str = Field(description="Where the figure comes from.")


class Total(BaseModel):
    """All of one item, size and cut length."""

    item: str = Field(description="Key of what it is.")
    words: str = Field(description="What it is.")
    size: str = Field(description="Which of its kind.")
    each_in: float = Field(description="Cut length of one, in; 0 where it has none.")
    net: float = Field(description="How much, in `unit`, without waste.")
    waste_percent: float = Field(description="The office's waste for it.")
    total: float = Field(description="With waste, in `unit`; whole for what is counted.")
    unit: str = Field(description="Unit of net and total.")
    pounds: float | None = Field(description="Weight, lb; null where not known.")
    boxes: int | None = Field(description="Full boxes to buy, for what comes in boxes.")


class Bar(BaseModel):
    """A line of the bar list."""

    mark: str = Field(description='Its mark: "B1".')
    each_in: float = Field(description="Cut length, in.")
    count: int = Field(description="How many.")
    pounds: float = Field(description="Weight of all, lb.")
    hooks: str = Field(description='Its hooks in words; "" for a straight bar.')


class Left(BaseModel):
    """What could not be counted."""

    wall: str = Field(description="Name of the wall.")
    tag: str = Field(description='Tag of the attachment; "" for the wall itself.')
    why: str = Field(description="Why.")


class TakenOff(Answer):
    """What to buy, cut and place."""

    rows: list[Row] = Field(description="Every row.")
    totals: list[Total] = Field(description="What to buy.")
    bars: list[Bar] = Field(description="The bar list.")
    left_out: list[Left] = Field(description="What could not be counted.")
    not_counted: list[str] = Field(description="What is not counted at all.")


def _of(
    wall: Annotated[str, Query(max_length=100, description="Name of a wall; every wall without.")] = "",
    kind: Annotated[str, Query(max_length=100, description='Key of a kind, or "wall" for the walls themselves.')] = "",
    attachment: Annotated[str, Query(max_length=100, description='Tag of an attachment: "A1".')] = "",
) -> Of:
    """Which part of the job."""
    return Of(wall, kind, attachment)


def _taken_off(found: JobTakeoff) -> TakenOff:
    rows = [
        Row(
            item=r.item, words=ITEMS[r.item][0], size=r.size, net=r.net, unit=r.unit, each_in=r.each_in, pounds=r.pounds,
            wall=r.wall, level=r.level, tag=r.tag, source=r.source,
        )
        for r in found.rows
    ]  # fmt: skip
    totals = [
        Total(
            item=t.item, words=ITEMS[t.item][0], size=t.size, each_in=t.each_in, net=t.net, unit=t.unit, total=t.total,
            waste_percent=t.waste_percent, pounds=t.pounds, boxes=t.boxes,
        )
        for t in found.totals
    ]  # fmt: skip
    bars = [Bar(mark=b.mark, each_in=b.each_in, count=b.count, pounds=b.pounds, hooks=b.hooks) for b in found.bars]
    left = [Left(wall=one.wall, tag=one.tag, why=one.why) for one in found.left_out]
    return TakenOff(rows=rows, totals=totals, bars=bars, left_out=left, not_counted=list(OUTSIDE))


@router.get("/takeoff", summary="Takeoff", responses=refusals(*READ))
def job_takeoff(db: Db, job: JobHere, of: Annotated[Of, Depends(_of)]) -> TakenOff:
    """Counts and quantities of the job or of a part of it, by the office's own values."""
    with reading(db) as session:
        return _taken_off(takeoff.of_job(session, job.id, of))
