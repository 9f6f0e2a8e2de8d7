"""Walls of a job over JSON."""

from typing import Annotated

from fastapi import APIRouter
from fastapi import Body as Sent
from pydantic import BaseModel, Field
from starlette.responses import Response

from engine.job import WallEntry
from webapp.api.answers import READ, WRITE, Answer, Body, Gone, Texts, Words, refusals
from webapp.api.ask import SIGNED, Db, Id, JobHere, Version
from webapp.forms.wall import LINE, MOST_ROWS
from webapp.models import Wall
from webapp.services import walls
from webapp.services.refusals import Refused
from webapp.store import reading

router = APIRouter(prefix="/api/jobs/{job_id}/walls", tags=["walls"], dependencies=SIGNED)
LINE_NAMES = {spec.name for spec in LINE}
Rows = Annotated[list[Texts], Field(max_length=MOST_ROWS)]


class WallRow(BaseModel):
    """A wall."""

    id: int = Field(description="Its number.")
    name: str = Field(description="Its name, by which attachments and floor lines name it.")
    line: dict[str, str] = Field(description="Its length and how it is turned in plan: texts with their units.")
    storeys: list[dict[str, str]] = Field(description="Bottom up: the name of a wall type and a height.")
    openings: list[dict[str, str]] = Field(
        description="Its openings: place, width, sill and head, texts with their units."
    )
    brackets: dict[str, list[str]] = Field(description="Stations of brackets moved by hand, by floor level.")
    placing: dict[str, str] = Field(description="Its own answers for the placing plan, over the job's.")
    version: int = Field(description="State it is in.")
    links: dict[str, str] = Field(description="Its elevation and its setting out.")


class WallKept(WallRow, Answer):
    """A wall as it is kept."""


class Walls(Answer):
    """The walls of a job."""

    walls: list[WallRow] = Field(description="In the job's order.")


class NewWall(Body):
    """A wall to make; it is kept only where its storeys and openings fit together."""

    name: Words = Field(description="A name no other wall of the job has.", examples=["W1"])
    line: Texts = Field(max_length=20, description="Texts by field.", examples=[{"length_ft": "40 ft"}])
    storeys: Rows = Field(description="Bottom up.", examples=[[{"type": "Ten", "height_ft": "9 ft"}]])
    openings: Rows = Field(default_factory=list, description="In any order.")


class ChangedWall(NewWall):
    """A wall to keep in place of what is kept."""

    version: int = Field(description="The version you read.")


def _row(row: Wall) -> WallKept:
    own = f"/jobs/{row.job_id}"
    links = {
        "elevation": f"{own}/walls/{row.id}/elevation.svg",
        "elevation_dxf": f"{own}/walls/{row.id}/elevation.dxf",
        "setting_out": f"/api{own}/setting-out?wall={row.id}",
    }
    return WallKept(
        id=row.id, name=row.name, line=dict(row.line), storeys=list(row.storeys), openings=list(row.openings),
        brackets=dict(row.brackets), placing=dict(row.placing), version=row.version, links=links,
    )  # fmt: skip


def _kept(db: Db, job_id: int, wall_id: int) -> WallKept:
    with reading(db) as session:
        return _row(walls.find(session, job_id, wall_id))


def _save(db: Db, job_id: int, body: NewWall, wall_id: int = 0, version: int = 0) -> int:
    """Keep it. Raises: Refused, its fields as paths of the body."""
    entry = WallEntry(body.name, body.line, tuple(body.storeys), tuple(body.openings))
    try:
        return walls.save(db, job_id, entry, wall_id, version)
    except Refused as refused:
        raise Refused({_path(name): said for name, said in refused.errors.items()}) from None


def _path(field: str) -> str:
    """Where in the body a form's field stands: "openings-0-start_ft" as "openings.0.start_ft"."""
    return f"line.{field}" if field in LINE_NAMES else field.replace("-", ".")


@router.get("", summary="Walls", responses=refusals(*READ))
def wall_list(db: Db, job: JobHere) -> Walls:
    """Every wall of the job."""
    with reading(db) as session:
        return Walls(walls=[_row(row.wall) for row in walls.page(session, job.id)])


@router.post("", status_code=201, summary="Make a wall", responses=refusals(401, 403, 404, 422))
def make_wall(db: Db, job: JobHere, body: Annotated[NewWall, Sent()], answer: Response) -> WallKept:
    """Keep a new wall."""
    wall_id = _save(db, job.id, body)
    answer.headers["Location"] = f"/api/jobs/{job.id}/walls/{wall_id}"
    return _kept(db, job.id, wall_id)


@router.get("/{wall_id}", summary="A wall", responses=refusals(*READ))
def one_wall(db: Db, job: JobHere, wall_id: Id) -> WallKept:
    """One wall."""
    return _kept(db, job.id, wall_id)


@router.put("/{wall_id}", summary="Change a wall", responses=refusals(*WRITE))
def change_wall(db: Db, job: JobHere, wall_id: Id, body: Annotated[ChangedWall, Sent()]) -> WallKept:
    """Keep it as sent; what it carries is checked again. Brackets moved by hand and placing answers stay."""
    _save(db, job.id, body, wall_id, body.version)
    return _kept(db, job.id, wall_id)


@router.delete("/{wall_id}", summary="Delete a wall", responses=refusals(*WRITE))
def delete_wall(db: Db, job: JobHere, wall_id: Id, version: Version) -> Gone:
    """Put it away; refused while it carries something or a floor line lies along it."""
    name = walls.put_away(db, job.id, wall_id, version)
    return Gone(deleted=name, restore=f"/api/jobs/{job.id}/walls/{wall_id}/restore")


@router.post("/{wall_id}/restore", summary="Bring a wall back", responses=refusals(*WRITE))
def restore_wall(db: Db, job: JobHere, wall_id: Id) -> WallKept:
    """Undo its deletion; refused where its name is taken or it no longer fits."""
    walls.bring_back(db, job.id, wall_id)
    return _kept(db, job.id, wall_id)
