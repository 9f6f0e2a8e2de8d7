"""The setting out of a job over JSON."""

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import BaseModel, Field

from engine.setting_out import Mark as Set
from engine.setting_out import SettingOut
from webapp.api.answers import READ, Answer, refusals
from webapp.api.ask import LARGEST, SIGNED, Db, JobHere
from webapp.services import setting_out
from webapp.services.setting_out import WallOut, mark_of
from webapp.store import reading

router = APIRouter(prefix="/api/jobs/{job_id}", tags=["setting out"], dependencies=SIGNED)


class Mark(BaseModel):
    """One place where something is set."""

    what: str = Field(description='What: "anchor", "joist", "plate" and so on.')
    number: int = Field(description="Its place in the row of its kind, from 1.")
    at_in: float = Field(description="Station of its middle, from the wall's named end, in.")
    at: str = Field(description="The same in feet and inches, to the nearest sixteenth.")
    mm: int = Field(description="The same in whole millimetres.")
    count: int = Field(description="How many at this place.")
    note: str = Field(description="What the crew must know of it.")


class Entry(BaseModel):
    """An attachment set out, or what the wall itself needs at a floor level."""

    mark: str = Field(description='Tag of the attachment, or "L1" for the wall\'s own at floor level 1.')
    kind: str = Field(description='Key of the kind; "wall" for the wall itself.')
    level: int = Field(description="Floor level.")
    start_in: float = Field(description="Where it begins, in.")
    end_in: float = Field(description="Where it ends, in.")
    marks: list[Mark] = Field(description="Everything to set, along the wall.")
    against: list[str] = Field(description="What stands against it, in sentences.")
    notes: list[str] = Field(description="What is to be known, nothing to mend.")


class WallSetOut(BaseModel):
    """A wall with everything set out on it."""

    id: int = Field(description="Number of the wall.")
    wall: str = Field(description="Its name.")
    why: str = Field(description='Why it can\'t be set out; "" where it can.')
    entries: list[Entry] = Field(description="What is set out on it.")


class JobSetOut(Answer):
    """A job set out."""

    walls: list[WallSetOut] = Field(description="In the job's order.")


def _mark(mark: Set) -> Mark:
    return Mark(
        what=mark.what, number=mark.number, at_in=mark.at_in, at=mark.text, mm=mark.mm, count=mark.count, note=mark.note
    )


def _entry(found: SettingOut) -> Entry:
    return Entry(
        mark=mark_of(found), kind=found.kind, level=found.level, start_in=found.start_in, end_in=found.end_in,
        marks=[_mark(mark) for mark in found.marks], against=[f.text() for f in found.findings if not f.note],
        notes=[f.text() for f in found.findings if f.note],
    )  # fmt: skip


def _wall(out: WallOut) -> WallSetOut:
    return WallSetOut(id=out.row.id, wall=out.row.name, why=out.why, entries=[_entry(found) for found in out.entries])


@router.get("/setting-out", summary="Setting out", responses=refusals(*READ))
def job_set_out(
    db: Db,
    job: JobHere,
    wall: Annotated[int, Query(ge=0, le=LARGEST, description="Number of a wall; 0 for every wall.")] = 0,
) -> JobSetOut:
    """Stations of everything set along the walls, calculated or moved by hand, and what stands against them."""
    with reading(db) as session:
        laid = setting_out.of_job(session, job.id)
    return JobSetOut(walls=[_wall(out) for out in ((laid.wall(wall),) if wall else laid.walls())])
