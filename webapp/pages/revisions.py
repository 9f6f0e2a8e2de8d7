"""Revisions of a job: submitting, what was frozen, what changed since the one before, links for reviewers outside."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.placing import write_hold_points
from webapp.documents.marked import marked
from webapp.models import Job
from webapp.pages.ask import Db, Form, Id, JobHere, SeenHere
from webapp.pages.view import lead_on, page
from webapp.permissions import ANYONE, allowed
from webapp.services import designs, offices, placing, revisions
from webapp.services.refusals import Refused, Stale
from webapp.services.sign_in import Seen
from webapp.services.standing import stand, whole
from webapp.store import Database, reading
from webapp.submission import document
from webapp.submission.difference import differences

router = APIRouter(prefix="/jobs/{job_id}", include_in_schema=False)
TRIES = 3


@router.get("/revisions")
def revision_list(request: Request, db: Db, job: JobHere, seen: SeenHere) -> Response:
    """Every revision with its state, and the way to submit the next."""
    return _list(request, db, job, seen)


def _list(
    request: Request, db: Database, job: Job, seen: Seen, errors: Mapping[str, str] | None = None, note: str = ""
) -> Response:
    with reading(db) as session:
        found = revisions.of_job(session, job.id)
    may = seen.role in (allowed("POST", "/jobs/{job_id}/revisions") or ANYONE)
    return page(
        request, "pages/revisions.html", status=422 if errors else 200, job=job, found=found, may_submit=may,
        errors=errors or {}, note=note, short=document.short,
    )  # fmt: skip


@router.post("/revisions")
def submit(request: Request, db: Db, job: JobHere, seen: SeenHere, form: Form) -> Response:
    """Freeze the job as it stands and submit it."""
    note = form.get("note", "")
    try:
        number = _frozen(db, seen, job.id, note)
    except Refused as refused:
        errors = {name or "note": message for name, message in refused.errors.items()}
        return _list(request, db, job, seen, errors, note)
    except Stale:
        return _list(
            request,
            db,
            job,
            seen,
            {"note": "The job keeps changing meanwhile. Wait until it is done, then submit."},
            note,
        )
    return lead_on(
        f"/jobs/{job.id}/revisions/{number}", "Submitted. It can no longer be edited; changes make the next revision."
    )


def _frozen(db: Database, seen: Seen, job_id: int, note: str) -> int:
    """Freeze outside any transaction; done over where the job changed meanwhile."""
    for left in reversed(range(TRIES)):
        with reading(db) as session:
            standing = stand(session, job_id)
            job = whole(session, standing)
            office = offices.office(session, standing.job.office_id)
            habits, points = offices.habits(office), write_hold_points(placing.points_of(office))
        text = document.write(job, standing.plan, habits, designs.as_frozen(db, job_id), points)
        mark = document.fingerprint(text)
        try:
            return revisions.submit(db, seen, job_id, standing.job.changes, text, mark, job.edition, note)
        except Stale:
            if not left:
                raise
    raise AssertionError("unreachable")


@router.get("/revisions/{number}")
def revision(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id) -> Response:
    """What was frozen: verdicts by place, what changed since the revision before, links."""
    return _revision(request, db, job, number)


def _revision(
    request: Request, db: Database, job: Job, number: int, errors: Mapping[str, str] | None = None, made: str = "",
    values: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    with reading(db) as session:
        row = revisions.find(session, job.id, number)
        before = revisions.find(session, job.id, number - 1) if number > 1 else None
        found = revisions.links(session, [row.id])
        current = revisions.currency(session, row.fingerprint)
    frozen = revisions.document(row)
    return page(
        request, "pages/revision.html", status=422 if errors else 200, job=job, row=row, frozen=frozen,
        changed=differences(revisions.document(before), frozen) if before else None, before=before, links=found, current=current,
        short=document.short(row.fingerprint), errors=errors or {}, made=made, values=values or {"days": "14"},
    )  # fmt: skip


@router.get("/revisions/{number}/revision.json")
def revision_json(request: Request, db: Db, job: JobHere, number: Id) -> Response:
    """The frozen document itself; its SHA-256 is the fingerprint."""
    with reading(db) as session:
        row = revisions.find(session, job.id, number, whole=False)
        headers = {"Content-Disposition": f'attachment; filename="revision-{row.letter}.json"'}
        return marked(request, row.fingerprint, lambda: row.document, headers)


@router.post("/revisions/{number}/links")
def make_link(request: Request, db: Db, job: JobHere, seen: SeenHere, number: Id, form: Form) -> Response:
    """A link for somebody outside the office, shown once."""
    asked = {name: form.get(name, "") for name in ("name", "authority", "days")}
    with reading(db) as session:
        row = revisions.find(session, job.id, number)
    try:
        token = revisions.make_link(db, seen, row.id, **asked)
    except Refused as refused:
        errors = {name or "name": message for name, message in refused.errors.items()}
        return _revision(request, db, job, number, errors, values=asked)
    origin = request.app.state.public_origin or str(request.base_url).rstrip("/")
    return _revision(request, db, job, number, made=f"{origin}/r/{token}")


@router.post("/revisions/{number}/links/{link_id}/revoke")
def revoke_link(db: Db, job: JobHere, number: Id, link_id: Id) -> Response:
    """Take a link back."""
    name = revisions.revoke_link(db, job.id, link_id)
    return lead_on(f"/jobs/{job.id}/revisions/{number}", f"The link for {name} no longer opens anything.")
