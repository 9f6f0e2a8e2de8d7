"""Tables of a job as files for a spreadsheet: those whose pages have no module of their own to write them."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from fastapi import APIRouter
from starlette.responses import Response

from engine import VERSION, fields
from engine.setting_out import millimetres
from engine.wall import Wall as Built
from engine.wall import WallType as Shape
from webapp.documents import csv_text
from webapp.models import Job
from webapp.pages import review_view
from webapp.pages.ask import Db, Id, JobHere, SeenHere
from webapp.pages.floor_line_sheet import csv_file
from webapp.services import checks, designs, log, reviews, revisions, walls
from webapp.services.standing import Standing, stand
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}", include_in_schema=False)
WALLS = (
    "wall", "length as typed", "length, ft", "length, mm", "named end", "far end", "storeys, bottom up", "height, ft", "openings",
    "attachments",
)  # fmt: skip
REVISIONS = ("revision", "state", "submitted", "by", "fingerprint", "editions", "engine", "note")
DESIGNS = ("engineer", "licence", "date", "scope", "covers", "changed since", "document", "SHA-256", "kept by", "kept")
FOUND = ("place", "what", "stage", "state")
PLACES = ("attachment", "kind", "wall", "level", "from", "to", "verdict", "governs", "ratio")
TYPES = fields.specs(Shape)


def _file(columns: Sequence[str], rows: Iterable[Sequence[object]], name: str, job: Job) -> Response:
    text = csv_text.write(columns, rows, f"{job.name}, {job.edition}, engine {VERSION}")
    return csv_file(text, f"{job.name} {name}")


@router.get("/walls.csv")
def walls_csv(db: Db, job: JobHere) -> Response:
    """The walls of a job."""
    with reading(db) as session:
        found, standing = walls.page(session, job.id), stand(session, job.id)
    return _file(WALLS, (_wall(row, standing.plan.walls.get(row.wall.name)) for row in found), "walls", job)


def _wall(row: walls.WallRow, built: Built | None) -> tuple[object, ...]:
    """A wall's row; a wall that can't be built has no figures."""
    line, kept = row.wall.line, row.wall
    length = (f"{built.line.length_ft:.6g}", millimetres(built.line.length_ft * 12)) if built else ("", "")
    ends = (built.line.near_end, built.line.far_end) if built else ("", "")
    height = f"{sum(storey.height_ft for storey in built.storeys):.6g}" if built else ""
    storeys = ", ".join(storey.get("type", "") for storey in kept.storeys)
    return (kept.name, line.get("length_ft", ""), *length, *ends, storeys, height, len(kept.openings), row.attachments)


@router.get("/types.csv")
def types_csv(db: Db, job: JobHere) -> Response:
    """The wall types of a job: every field, in the unit its heading names."""
    columns = ("wall type", *(f"{s.label}, {s.unit}" if s.unit else s.label for s in TYPES), "walls")
    with reading(db) as session:
        standing = stand(session, job.id)
    rows = [(row.name, *_type(row.inputs), _users(standing, row.name)) for row in standing.types]
    return _file(columns, rows, "wall types", job)


def _type(texts: Mapping[str, str]) -> list[str]:
    """A type's texts in the engine's units; as typed where they can't be read."""
    shape, _ = fields.read(Shape, texts)
    shown = fields.write(shape) if shape is not None else dict(texts)
    return [shown.get(spec.name, "") for spec in TYPES]


def _users(standing: Standing, name: str) -> str:
    found = standing.walls.values()
    return ", ".join(wall.name for wall in found if any(s.get("type") == name for s in wall.storeys))


@router.get("/revisions.csv")
def revisions_csv(db: Db, job: JobHere) -> Response:
    """What was submitted of a job."""
    with reading(db) as session:
        found = revisions.of_job(session, job.id)
    rows = [
        (r.letter, r.state, log.utc(r.made_at), r.by_name, r.fingerprint, r.edition, r.engine, r.note) for r in found
    ]
    return _file(REVISIONS, rows, "revisions", job)


@router.get("/revisions/{number}/places.csv")
def places_csv(db: Db, job: JobHere, number: Id) -> Response:
    """The verdicts of a revision, as they were frozen."""
    with reading(db) as session:
        row = revisions.find(session, job.id, number)
    rows = [_place(one) for one in revisions.document(row)["attachments"]]
    text = csv_text.write(PLACES, rows, f"{job.name}, revision {row.letter}, {row.fingerprint}; engine {row.engine}")
    return csv_file(text, f"{job.name} revision {row.letter}")


def _place(one: Mapping[str, Any]) -> tuple[object, ...]:
    result = one["result"]
    governs = next((line["title"] for line in result.get("lines", ()) if line["key"] == result["governing"]), "")
    return (
        one["tag"], one["name"], one["wall"], one["level"], one["start"], one["end"], result["verdict"], governs,
        result.get("ratio"),
    )  # fmt: skip


@router.get("/designs.csv")
def designs_csv(db: Db, job: JobHere) -> Response:
    """The engineers' designs in use, and what each still covers."""
    checks.refresh(db, job.id)
    with reading(db) as session:
        found, hashes = designs.of_job(session, job.id), designs.hashes(session, job.id)
    gone = {one.id: designs.stale(one, hashes) for one in found}
    rows = [
        (
            one.who, one.licence, one.dated, one.scope, ", ".join(t for t in one.covers if t not in gone[one.id]),
            ", ".join(gone[one.id]), one.file_name, one.sha256, one.by_name, log.utc(one.at),
        )
        for one in found
    ]  # fmt: skip
    return _file(DESIGNS, rows, "designs", job)


@router.get("/review/{number}/places.csv")
def review_csv(db: Db, job: JobHere, seen: SeenHere, number: Id) -> Response:
    """Every place of a review with its stages."""
    with reading(db) as session:
        review = reviews.look(session, seen, job.id, number)
    rows = [
        (line.place.title, line.place.sub, cell.stage, cell.word)
        for line in review_view.lines(review)
        for cell in line.cells
    ]
    letter, mark = review.revision.letter, review.revision.fingerprint
    text = csv_text.write(FOUND, rows, f"{job.name}, revision {letter}, {mark}; engine {review.revision.engine}")
    return csv_file(text, f"{job.name} review {letter}")
