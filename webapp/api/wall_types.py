"""Wall types of a job over JSON."""

from typing import Annotated

from fastapi import APIRouter
from fastapi import Body as Sent
from pydantic import BaseModel, Field
from starlette.responses import Response

from webapp.api.answers import READ, WRITE, Answer, Body, Gone, Texts, Words, refusals
from webapp.api.ask import SIGNED, Db, Id, JobHere, Version
from webapp.models import WallType
from webapp.services import wall_types
from webapp.services.standing import stand
from webapp.store import reading

router = APIRouter(prefix="/api/jobs/{job_id}/wall-types", tags=["wall types"], dependencies=SIGNED)


class TypeRow(BaseModel):
    """A wall build-up."""

    id: int = Field(description="Its number.")
    name: str = Field(description="Its name, by which storeys name it.")
    inputs: dict[str, str] = Field(
        description="Texts by field, each with its unit; a field that is absent has its usual value."
    )
    version: int = Field(description="State it is in.")


class TypeKept(TypeRow, Answer):
    """A wall type as it is kept."""


class Types(Answer):
    """The wall types of a job."""

    wall_types: list[TypeRow] = Field(description="In the order they were made.")


class NewType(Body):
    """A wall type to make."""

    name: Words = Field(description="A name no other type of the job has.", examples=["Ten"])
    inputs: Texts = Field(
        max_length=50,
        description="Texts by field, each with its unit.",
        examples=[{"core_in": "10 in", "f_c_psi": "3000 psi"}],
    )


class ChangedType(NewType):
    """A wall type to keep in place of what is kept."""

    version: int = Field(description="The version you read.")


def _row(row: WallType) -> TypeKept:
    return TypeKept(id=row.id, name=row.name, inputs=dict(row.inputs), version=row.version)


def _kept(db: Db, job_id: int, type_id: int) -> TypeKept:
    with reading(db) as session:
        return _row(wall_types.find(session, job_id, type_id))


@router.get("", summary="Wall types", responses=refusals(*READ))
def type_list(db: Db, job: JobHere) -> Types:
    """Every wall type of the job."""
    with reading(db) as session:
        return Types(wall_types=[_row(row) for row in stand(session, job.id).types])


@router.post("", status_code=201, summary="Make a wall type", responses=refusals(401, 403, 404, 422))
def make_type(db: Db, job: JobHere, body: Annotated[NewType, Sent()], answer: Response) -> TypeKept:
    """Keep a new wall type."""
    type_id = wall_types.save(db, job.id, body.name, body.inputs)
    answer.headers["Location"] = f"/api/jobs/{job.id}/wall-types/{type_id}"
    return _kept(db, job.id, type_id)


@router.get("/{type_id}", summary="A wall type", responses=refusals(*READ))
def one_type(db: Db, job: JobHere, type_id: Id) -> TypeKept:
    """One wall type."""
    return _kept(db, job.id, type_id)


@router.put("/{type_id}", summary="Change a wall type", responses=refusals(*WRITE))
def change_type(db: Db, job: JobHere, type_id: Id, body: Annotated[ChangedType, Sent()]) -> TypeKept:
    """Keep it as sent. Walls of this type follow, and what stands on them is checked again."""
    wall_types.save(db, job.id, body.name, body.inputs, type_id, body.version)
    return _kept(db, job.id, type_id)


@router.delete("/{type_id}", summary="Delete a wall type", responses=refusals(*WRITE))
def delete_type(db: Db, job: JobHere, type_id: Id, version: Version) -> Gone:
    """Put it away; refused while a wall is made of it."""
    name = wall_types.put_away(db, job.id, type_id, version)
    return Gone(deleted=name, restore=f"/api/jobs/{job.id}/wall-types/{type_id}/restore")


@router.post("/{type_id}/restore", summary="Bring a wall type back", responses=refusals(*WRITE))
def restore_type(db: Db, job: JobHere, type_id: Id) -> TypeKept:
    """Undo its deletion; refused where its name has been taken since."""
    wall_types.bring_back(db, job.id, type_id)
    return _kept(db, job.id, type_id)
