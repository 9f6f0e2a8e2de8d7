"""The cut list of an attachment as a file."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.documents import csv_text
from webapp.pages.ask import Db, JobHere
from webapp.pages.drafted import checked_by, drafted
from webapp.pages.view import system
from webapp.services import attachments, cut_lists
from webapp.services.refusals import Missing
from webapp.services.standing import stand
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}/attachments", include_in_schema=False)


@router.get("/{tag}/cut-list.csv")
def cut_list_csv(request: Request, db: Db, job: JobHere, tag: str) -> Response:
    """Every piece, whole forms too, in the reader's units."""
    with reading(db) as session:
        standing, row = stand(session, job.id), attachments.find(session, job.id, tag)
    found = cut_lists.table(row.kind, standing.plan.inputs(standing.entry(row)).inputs, system(request))
    if found is None:
        raise Missing
    forms = f"{found.list.with_reuse} forms with offcuts used again, {found.list.without} without"
    text = csv_text.write(
        cut_lists.HEADINGS,
        (r.texts for r in found.rows),
        forms,
        f"{job.name}, {tag}, {checked_by(job)}; {drafted(db, job)}",
    )
    headers = {"Content-Disposition": f'attachment; filename="{tag}-cut-list.csv"'}
    return Response(text, media_type="text/csv; charset=utf-8", headers=headers)
