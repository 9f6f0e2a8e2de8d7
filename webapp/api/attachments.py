"""Attachments of a job over JSON: found, kept, checked, drawn."""

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query
from fastapi import Body as Sent
from pydantic import BaseModel, Field
from starlette.responses import Response

from engine import VERSION, fields
from engine import attachments as kinds
from engine.job_file import with_unit
from engine.result import LOCAL_CODE
from engine.units import System
from webapp.api.answers import READ, WRITE, Answer, Body, Gone, Number, Texts, Words, refusals
from webapp.api.ask import SIGNED, Db, JobHere, PartHere, Tag, Version, next_part
from webapp.api.results import Checked, checked
from webapp.documents.result_json import number
from webapp.drawings import section_svg
from webapp.drawings.svg_alone import alone
from webapp.models import Attachment
from webapp.services import attachments, checks
from webapp.services.attachments import AttachmentRow, Typed
from webapp.services.listing import Wanted
from webapp.services.refusals import Refused
from webapp.services.standing import Standing, stand
from webapp.store import reading

router = APIRouter(prefix="/api/jobs/{job_id}/attachments", tags=["attachments"], dependencies=SIGNED)
Width = Annotated[Literal["desk", "tablet", "phone", "letter"], Query(description="Sheet to draw on.")]
Units = Annotated[System, Query(description="Units of the dimensions.")]
SVG = "image/svg+xml"
PLACE = ("start_ft", "end_ft")  # a form's names of start and end
DRAWN: dict[int | str, dict[str, Any]] = {
    200: {"content": {SVG: {"schema": {"type": "string"}}}, "description": "The drawing, to scale, with its cautions."}
}


class Summary(BaseModel):
    """An attachment in the list, as it was last checked."""

    tag: str = Field(description='Its tag: "A1".')
    kind: str = Field(description="Key of its kind.")
    name: str = Field(description="What the trade calls the kind.")
    wall: str = Field(description="Name of the wall it is on.")
    level: int = Field(description="Floor level: 1 at the top of the first storey.")
    start: str = Field(description="Where it begins, from the wall's named end.")
    end: str = Field(description='Where it ends; "" at a point or at the wall\'s end.')
    verdict: str = Field(description='"pass", "flag", "refer" or "not checked".')
    ratio: Number = Field(description="Demand over capacity of the line that governs.")
    governs: str = Field(description="Title of that line, or why it could not be checked.")
    to_measure: int = Field(description="How many lines are to be measured on site.")
    designed_by: str = Field(description='The engineer whose design covers it; "" for none.')
    href: str = Field(description="Where to read it whole.")


class Attachments(Answer):
    """A part of a job's attachments."""

    attachments: list[Summary] = Field(description="In the order that was asked for.")
    total: int = Field(description="How many were found in all parts.")
    counts: dict[str, int] = Field(description='How many were found by verdict; "" for all.')
    page: int = Field(description="Which part this is, from 1.")
    size: int = Field(description="Rows in a part.")
    next: str | None = Field(description="Address of the next part; null after the last one.")


class Kept(Answer):
    """An attachment as it is kept."""

    tag: str = Field(description='Its tag: "A1".')
    kind: str = Field(description="Key of its kind.")
    wall: str = Field(description="Name of the wall it is on.")
    level: int = Field(description="Floor level: 1 at the top of the first storey.")
    start: str = Field(description="Where it begins, from the wall's named end.")
    end: str = Field(description='Where it ends; "" at a point or at the wall\'s end.')
    inputs: dict[str, str] = Field(description="Its own inputs, texts with their units; the others follow the wall.")
    moved: dict[str, list[str]] = Field(description="Stations moved by hand, by what they are.")
    version: int = Field(description="State it is in.")
    links: dict[str, str] = Field(description="Its check, its drawing and its files.")


class Judged(Answer):
    """An attachment's check where it stands."""

    tag: str = Field(description='Its tag: "A1".')
    version: int = Field(description="State it was checked in.")
    follows: dict[str, str] = Field(description="Inputs it takes from its wall and its job, as texts.")
    result: Checked | None = Field(description="The result with its working; null where its numbers can't be used.")
    refused: dict[str, str] = Field(description="By input, what to enter instead, where there is no result.")


class Placed(Body):
    """Where an attachment sits and what it is made of."""

    wall: Words = Field(description="Name of the wall.", examples=["W1"])
    level: int = Field(default=1, description="Floor level: 1 at the top of the first storey.")
    start: Words = Field(default="0 ft", description="Where it begins, from the wall's named end.")
    end: Words = Field(default="", description='Where it ends; "" at a point or at the wall\'s end.')
    inputs: Texts = Field(
        default_factory=dict, max_length=200, description="Texts by input; what is absent has its usual value."
    )


class New(Placed):
    """An attachment to make."""

    kind: Words = Field(description="Key of a kind; see /api/kinds.", examples=["ledge_seat"])


class Changed(Placed):
    """An attachment to keep in place of what is kept; its kind stays."""

    version: int = Field(description="The version you read.")


def _asked(
    wanted: PartHere,
    verdict: Annotated[
        Literal["", "pass", "flag", "refer", "not checked", "to measure"], Query(description="Only these.")
    ] = "",
    sort: Annotated[Literal["worst", "tag", "wall", "kind"], Query(description="Order.")] = "tag",
) -> Wanted:
    return Wanted(wanted.q, verdict, sort, wanted.page, wanted.size)


def _summary(job_id: int, row: AttachmentRow) -> Summary:
    return Summary(
        tag=row.tag, kind=row.kind, name=row.kind_name, wall=row.wall, level=row.level, start=row.start, end=row.end,
        verdict=row.verdict, ratio=number(row.ratio), governs=row.governs, to_measure=row.to_measure,
        designed_by=row.designed, href=f"/api/jobs/{job_id}/attachments/{row.tag}",
    )  # fmt: skip


def _kept(db: Db, job_id: int, tag: str) -> Kept:
    standing, row = _found(db, job_id, tag)
    own, pages = f"/api/jobs/{job_id}/attachments/{tag}", f"/jobs/{job_id}/attachments/{tag}"
    links = {"check": f"{own}/check", "drawing": f"{own}/drawing", "dxf": f"{pages}/drawing.dxf", "page": pages}
    return Kept(
        tag=row.tag, kind=row.kind, wall=standing.walls[row.wall_id].name, level=row.level, start=row.start, end=row.end,
        inputs=dict(row.inputs), moved=dict(row.moved), version=row.version, links=links,
    )  # fmt: skip


def _found(db: Db, job_id: int, tag: str) -> tuple[Standing, Attachment]:
    with reading(db) as session:
        return stand(session, job_id), attachments.find(session, job_id, tag)


def _save(db: Db, job_id: int, kind: str, body: Placed, tag: str = "", version: int = 0) -> str:
    with reading(db) as session:
        walls = {row.name: wall_id for wall_id, row in stand(session, job_id).walls.items()}
    typed = Typed(kind, walls.get(body.wall, 0), str(body.level), body.start, body.end, body.inputs)
    try:
        return attachments.save(db, job_id, typed, tag, version)
    except Refused as refused:
        said = {name.removesuffix("_ft") if name in PLACE else name: text for name, text in refused.errors.items()}
        raise Refused(said) from None


@router.get("", summary="Attachments", responses=refusals(*READ))
def attachment_list(db: Db, job: JobHere, wanted: Annotated[Wanted, Depends(_asked)]) -> Attachments:
    """One part of a job's attachments with their verdicts, found by wall, kind, tag or what governs."""
    checks.refresh(db, job.id)
    with reading(db) as session:
        found = attachments.page(session, job.id, wanted)
    path = f"/api/jobs/{job.id}/attachments"
    asked = {
        "q": wanted.q,
        "verdict": wanted.verdict,
        "sort": wanted.sort,
        "size": wanted.size,
        "page": wanted.page + 1,
    }
    return Attachments(
        attachments=[_summary(job.id, row) for row in found.rows], total=found.total, counts=found.counts,
        page=wanted.page, size=wanted.size, next=next_part(path, **asked) if found.more else None,
    )  # fmt: skip


@router.post("", status_code=201, summary="Make an attachment", responses=refusals(401, 403, 404, 422))
def make_attachment(db: Db, job: JobHere, body: Annotated[New, Sent()], answer: Response) -> Kept:
    """Keep a new attachment. It may flag; its numbers must be usable where it is."""
    tag = _save(db, job.id, body.kind, body)
    answer.headers["Location"] = f"/api/jobs/{job.id}/attachments/{tag}"
    return _kept(db, job.id, tag)


@router.get("/{tag}", summary="An attachment", responses=refusals(*READ))
def one_attachment(db: Db, job: JobHere, tag: Tag) -> Kept:
    """One attachment as it is kept."""
    return _kept(db, job.id, tag)


@router.put("/{tag}", summary="Change an attachment", responses=refusals(*WRITE))
def change_attachment(db: Db, job: JobHere, tag: Tag, body: Annotated[Changed, Sent()]) -> Kept:
    """Keep it as sent; stations moved by hand stay."""
    _, row = _found(db, job.id, tag)
    _save(db, job.id, row.kind, body, tag, body.version)
    return _kept(db, job.id, tag)


@router.delete("/{tag}", summary="Delete an attachment", responses=refusals(*WRITE))
def delete_attachment(db: Db, job: JobHere, tag: Tag, version: Version) -> Gone:
    """Put it away; its tag is given to nothing else."""
    attachments.put_away(db, job.id, tag, version)
    return Gone(deleted=tag, restore=f"/api/jobs/{job.id}/attachments/{tag}/restore")


@router.post("/{tag}/restore", summary="Bring an attachment back", responses=refusals(*WRITE))
def restore_attachment(db: Db, job: JobHere, tag: Tag) -> Kept:
    """Undo its deletion; refused while its wall is deleted."""
    attachments.bring_back(db, job.id, tag)
    return _kept(db, job.id, tag)


@router.get("/{tag}/check", summary="An attachment's check", responses=refusals(*READ), tags=["checks"])
def attachment_check(db: Db, job: JobHere, tag: Tag) -> Judged:
    """The check of an attachment where it stands, with its working and its cautions."""
    standing, row = _found(db, job.id, tag)
    found = standing.check(row)
    return Judged(
        tag=tag, version=row.version, follows=_follows(row.kind, found.inherited), refused=dict(found.refused),
        result=checked(found.result) if found.result else None,
    )  # fmt: skip


def _follows(kind: str, inherited: Mapping[str, str]) -> dict[str, str]:
    """What follows the wall, each text with its unit."""
    inputs = kinds.kind(kind).inputs
    return {name: with_unit(fields.spec(inputs, name), text) for name, text in inherited.items()}


@router.get(
    "/{tag}/drawing", summary="An attachment's drawing", responses=DRAWN | refusals(*READ), tags=["drawings"],
    response_class=Response,
)  # fmt: skip
def attachment_drawing(db: Db, job: JobHere, tag: Tag, width: Width = "desk", units: Units = "ft in") -> Response:
    """The section as its page shows it, as SVG; the verdict's mark stands where the limit that governs occurs."""
    standing, row = _found(db, job.id, tag)
    found = standing.check(row)
    if found.inputs is None:
        raise Refused(found.refused)
    title = f"Section across wall {standing.walls[row.wall_id].name}, floor level {row.level}"
    markup = alone(section_svg(row.kind, found.inputs, found.result, units, width, tag, title))
    return Response(markup, media_type=SVG, headers={"X-Wallseat-Engine": VERSION, "X-Wallseat-Caution": LOCAL_CODE})
