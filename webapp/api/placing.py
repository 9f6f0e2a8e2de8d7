"""The placing plan of a job over JSON."""

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import BaseModel, Field

from engine.placing import PlacingPlan
from webapp.api.answers import READ, Answer, refusals
from webapp.api.ask import SIGNED, Db, JobHere
from webapp.api.results import Checked, checked
from webapp.services import placing
from webapp.services.refusals import Refused

router = APIRouter(prefix="/api/jobs/{job_id}", tags=["placing"], dependencies=SIGNED)


class Lift(BaseModel):
    """One lift round the circuit."""

    number: int = Field(description="From the floor up.")
    from_ft: float = Field(description="Its foot above the floor, ft.")
    to_ft: float = Field(description="Its top above the floor, ft.")
    volume_yd3: float = Field(description="Concrete in it, yd³, less openings.")
    starts_min: float = Field(description="When it starts, minutes since the first.")
    minutes: float = Field(description="How long its circuit takes.")
    rise_ft_per_h: float = Field(description="Rise over all concrete not yet set, ft/h.")
    wall: str = Field(description="Wall whose forms are asked most.")
    aci_psf: float = Field(description="Design pressure there by ACI 347R, psf.")
    ciria_psf: float | None = Field(
        description="Second opinion by CIRIA 108, psf; null where the concrete counts as liquid."
    )
    lift_psf: float = Field(description="The lift alone as a liquid, psf.")
    ratio: float | None = Field(description="Of what the forms may carry; null where that is not known.")


class HoldPoint(BaseModel):
    """What is looked at, and when."""

    stage: str = Field(description='"before placing", "while placing" or "after placing".')
    words: str = Field(description="What is looked at.")
    stop: bool = Field(description="Whether work waits for it.")


class Plan(Answer):
    """How fast one storey may be placed, and why."""

    level: int = Field(description="Storey, from 1.")
    walls: list[str] = Field(description="Walls of the circuit.")
    largest_yd3_per_h: float | None = Field(
        description="Fastest pump rate the forms carry, yd³/h; null where that is not known."
    )
    lifts: list[Lift] = Field(description="From the floor up, of one circuit.")
    circuits: int = Field(description="Circuits filled one after another.")
    hours: float = Field(description="Pumping and waits, all circuits, h.")
    volume_yd3: float = Field(description="In these walls, yd³.")
    order_yd3: float = Field(description="To order, yd³.")
    trucks: int = Field(description="How many.")
    truck_every_min: float = Field(description="Minutes between trucks.")
    hold_points: list[HoldPoint] = Field(description="The office's, else the published ones.")
    result: Checked = Field(description="Lines with their working and cautions.")


def _plan(level: int, found: PlacingPlan) -> Plan:
    lifts = [
        Lift(
            number=row.filling.number, from_ft=row.filling.from_ft, to_ft=row.filling.to_ft, ratio=row.ratio,
            volume_yd3=row.filling.volume_yd3, starts_min=row.filling.starts_min, minutes=row.filling.minutes,
            rise_ft_per_h=row.filling.average_ft_per_h, wall=row.wall, aci_psf=row.aci_psf, ciria_psf=row.ciria_psf,
            lift_psf=row.lift_psf,
        )
        for row in found.lifts
    ]  # fmt: skip
    return Plan(
        level=level, walls=[run.name for run in found.runs], lifts=lifts, circuits=found.circuits, hours=found.hours,
        largest_yd3_per_h=found.largest.yd3_per_h if found.largest else None, volume_yd3=found.volume_yd3,
        order_yd3=found.order_yd3, trucks=found.trucks, truck_every_min=found.truck_every_min,
        hold_points=[HoldPoint(stage=p.stage, words=p.words, stop=p.stop) for p in found.hold_points],
        result=checked(found.result),
    )  # fmt: skip


@router.get("/placing", summary="Placing plan", responses=refusals(*READ))
def placing_plan(
    db: Db,
    job: JobHere,
    level: Annotated[int, Query(ge=1, le=20, description="Storey, from 1.")] = 1,
    wall: Annotated[list[int], Query(description="Numbers of the walls placed in one circuit; all without.")] = [],  # noqa: B006
) -> Plan:
    """The plan of one storey by the job's kept answers; of one wall alone by that wall's own over them."""
    site = placing.site(db, job.id)
    own = site.standing.walls[wall[0]].placing if len(wall) == 1 and wall[0] in site.standing.walls else {}
    found = placing.plan(site, {**job.placing, **own}, level, wall or list(site.at(level)))
    if found.plan is None:
        raise Refused(found.refused)
    return _plan(level, found.plan)
