"""Floor lines of a job over JSON."""

from typing import Annotated

from fastapi import APIRouter
from fastapi import Body as Sent
from pydantic import BaseModel, Field
from starlette.responses import Response

from webapp.api.answers import READ, WRITE, Answer, Body, Gone, Texts, Words, refusals
from webapp.api.ask import SIGNED, Db, Id, JobHere, Version
from webapp.services import floor_lines
from webapp.services.floor_lines import Line, Typed
from webapp.services.standing import stand
from webapp.store import reading

router = APIRouter(prefix="/api/jobs/{job_id}/floor-lines", tags=["floor lines"], dependencies=SIGNED)


class Bare(BaseModel):
    """Joists beside each other that nothing carries."""

    start_in: float = Field(description="Middle of the first, from the wall's named end, in.")
    end_in: float = Field(description="Middle of the last, in.")
    joists: int = Field(description="How many.")


class LineRow(BaseModel):
    """Joists that meet a wall at one level."""

    id: int = Field(description="Its number.")
    name: str = Field(description="Its name.")
    wall: str = Field(description="Name of the wall it lies along.")
    level: int = Field(description="Floor level: 1 at the top of the first storey.")
    start: str = Field(description="Where it begins, from the wall's named end.")
    end: str = Field(description='Where it ends; "" for the wall\'s end.')
    inputs: dict[str, str] = Field(description="Texts by field, each with its unit.")
    version: int = Field(description="State it is in.")
    joists: int = Field(description="Joists that bear on the wall.")
    carried_by: list[str] = Field(description="Tags of the attachments beside it.")
    bare: list[Bare] = Field(description="What of it nothing carries.")
    unusable: dict[str, str] = Field(description="By field why it can't be used as it is; empty where it can.")


class LineKept(LineRow, Answer):
    """A floor line as it is kept, and what carries it."""


class Lines(Answer):
    """The floor lines of a job."""

    floor_lines: list[LineRow] = Field(description="Wall by wall, level by level.")


class NewLine(Body):
    """A floor line to make."""

    name: Words = Field(description="A name no other line of the job has.", examples=["F1"])
    wall: Words = Field(description="Name of the wall.", examples=["W1"])
    level: int = Field(default=1, description="Floor level: 1 at the top of the first storey.")
    start: Words = Field(default="0 ft", description="Where it begins.")
    end: Words = Field(default="", description='Where it ends; "" for the wall\'s end.')
    inputs: Texts = Field(default_factory=dict, max_length=100, description="Texts by field, each with its unit.")


class ChangedLine(NewLine):
    """A floor line to keep in place of what is kept."""

    version: int = Field(description="The version you read.")


def _row(line: Line) -> LineKept:
    row = line.row
    return LineKept(
        id=row.id, name=row.name, wall=line.wall, level=row.level, start=row.start, end=row.end, inputs=dict(row.inputs),
        version=row.version, joists=line.count, carried_by=[found.tag for found in line.carriers],
        bare=[Bare(start_in=s.start_in, end_in=s.end_in, joists=s.joists) for s in line.bare],
        unusable=dict(line.laid.refused),
    )  # fmt: skip


def _kept(db: Db, job_id: int, line_id: int) -> LineKept:
    with reading(db) as session:
        row, standing = floor_lines.find(session, job_id, line_id), stand(session, job_id)
        return _row(floor_lines.in_place(standing, row, floor_lines.carriers(session, job_id)))


def _save(db: Db, job_id: int, body: NewLine, line_id: int = 0, version: int = 0) -> int:
    with reading(db) as session:
        walls = {row.name: wall_id for wall_id, row in stand(session, job_id).walls.items()}
    typed = Typed(body.name, walls.get(body.wall, 0), str(body.level), body.start, body.end, body.inputs)
    return floor_lines.save(db, job_id, typed, line_id, version)


@router.get("", summary="Floor lines", responses=refusals(*READ))
def line_list(db: Db, job: JobHere) -> Lines:
    """Every floor line of the job, and what carries it."""
    with reading(db) as session:
        return Lines(floor_lines=[_row(line) for line in floor_lines.page(session, stand(session, job.id))])


@router.post("", status_code=201, summary="Make a floor line", responses=refusals(401, 403, 404, 422))
def make_line(db: Db, job: JobHere, body: Annotated[NewLine, Sent()], answer: Response) -> LineKept:
    """Keep a new floor line."""
    line_id = _save(db, job.id, body)
    answer.headers["Location"] = f"/api/jobs/{job.id}/floor-lines/{line_id}"
    return _kept(db, job.id, line_id)


@router.get("/{line_id}", summary="A floor line", responses=refusals(*READ))
def one_line(db: Db, job: JobHere, line_id: Id) -> LineKept:
    """One floor line, and what carries it."""
    return _kept(db, job.id, line_id)


@router.put("/{line_id}", summary="Change a floor line", responses=refusals(*WRITE))
def change_line(db: Db, job: JobHere, line_id: Id, body: Annotated[ChangedLine, Sent()]) -> LineKept:
    """Keep it as sent."""
    _save(db, job.id, body, line_id, body.version)
    return _kept(db, job.id, line_id)


@router.delete("/{line_id}", summary="Delete a floor line", responses=refusals(*WRITE))
def delete_line(db: Db, job: JobHere, line_id: Id, version: Version) -> Gone:
    """Put it away; what carries it stays."""
    name = floor_lines.put_away(db, job.id, line_id, version)
    return Gone(deleted=name, restore=f"/api/jobs/{job.id}/floor-lines/{line_id}/restore")


@router.post("/{line_id}/restore", summary="Bring a floor line back", responses=refusals(*WRITE))
def restore_line(db: Db, job: JobHere, line_id: Id) -> LineKept:
    """Undo its deletion; refused where its wall is deleted or its name is taken."""
    floor_lines.bring_back(db, job.id, line_id)
    return _kept(db, job.id, line_id)
