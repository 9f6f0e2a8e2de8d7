"""Engineers' designs of a job: added with their document, read, taken out of use."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.models import Job
from webapp.pages.ask import Db, Id, JobHere, SeenHere, Uploaded
from webapp.pages.view import lead_on, page
from webapp.permissions import ANYONE, allowed
from webapp.services import checks, designs
from webapp.services.refusals import Refused
from webapp.services.sign_in import Seen
from webapp.store import Database, reading

router = APIRouter(prefix="/jobs/{job_id}/designs", include_in_schema=False)


@router.get("")
def design_list(request: Request, db: Db, job: JobHere, seen: SeenHere) -> Response:
    """The designs in use and what each still covers, and a form for one more."""
    return _list(request, db, job, seen)


def _list(
    request: Request, db: Database, job: Job, seen: Seen, values: Mapping[str, str] | None = None, tags: list[str] | None = None,
    errors: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    checks.refresh(db, job.id)
    with reading(db) as session:
        found, hashes = designs.of_job(session, job.id), designs.hashes(session, job.id)
        open_ones = designs.coverable(session, job.id)
        covered = designs.covering(session, job.id, hashes)
    return page(
        request, "pages/designs.html", status=422 if errors else 200, job=job, found=found, open_ones=open_ones, covered=covered,
        stale={d.id: designs.stale(d, hashes) for d in found}, values=values or {}, tags=tags or [], errors=errors or {},
        may=seen.role in (allowed("POST", "/jobs/{job_id}/designs") or ANYONE),
    )  # fmt: skip


@router.post("")
def add(request: Request, db: Db, job: JobHere, seen: SeenHere, form: Uploaded) -> Response:
    """Keep one more."""
    tags = form.every.get("tags", [])
    file = designs.Document(form.files[0].name, form.files[0].data) if form.files else None
    try:
        designs.add(db, seen, job.id, form, tags, file)
    except Refused as refused:
        return _list(request, db, job, seen, form, tags, refused.errors)
    return lead_on(
        f"/jobs/{job.id}/designs", "The design is kept and logged. It covers what it names until that changes."
    )


@router.get("/{design_id}/file")
def document(db: Db, job: JobHere, design_id: Id) -> Response:
    """The document itself, as a download."""
    with reading(db) as session:
        row = designs.find(session, job.id, design_id)
        data, kind = row.data, row.media
    name = f"design-{design_id}.{kind.rpartition('/')[2].replace('jpeg', 'jpg')}"
    return Response(data, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{name}"'})


@router.post("/{design_id}/delete")
def put_away(db: Db, job: JobHere, seen: SeenHere, design_id: Id) -> Response:
    """Take one out of use."""
    who = designs.put_away(db, seen, job.id, design_id)
    undo = f"/jobs/{job.id}/designs/{design_id}/restore"
    return lead_on(f"/jobs/{job.id}/designs", f"{who}'s design no longer covers anything.", undo)


@router.post("/{design_id}/restore")
def bring_back(db: Db, job: JobHere, seen: SeenHere, design_id: Id) -> Response:
    """Bring it back."""
    who = designs.put_away(db, seen, job.id, design_id, away=False)
    return lead_on(f"/jobs/{job.id}/designs", f"{who}'s design covers again what it names.")
