"""Attachments: chosen, typed with their verdict beside, kept, deleted and brought back.

One address serves the page, the live check of a script (the result alone), the check without script, and the saving: what is
posted says which.
"""

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.units import System
from webapp.forms.draft import Draft, draft_of, known_kind, new_draft
from webapp.pages.ask import Asked, Db, Form, JobHere, Posted
from webapp.pages.attachment_sheet import answer
from webapp.pages.saving import differing, save_or_show
from webapp.pages.setting_out_sheet import line_of
from webapp.pages.view import lead_on, page, system
from webapp.services import attachments, checks, setting_out
from webapp.services.refusals import Refused
from webapp.services.standing import Standing, stand
from webapp.store import reading

router = APIRouter(prefix="/jobs/{job_id}/attachments", include_in_schema=False)


def _standing(db: Db, job_id: int) -> Standing:
    with reading(db) as session:
        return stand(session, job_id)


@router.get("/new")
def new_attachment(request: Request, db: Db, job: JobHere, asked: Asked) -> Response:
    """Choose a kind; with one chosen, its form at the usual values and the verdict on them."""
    standing = _standing(db, job.id)
    if "kind" not in asked or not standing.walls:
        return page(
            request, "pages/attachment_new.html", job=job, kinds=checks.offered(), walls=standing.walls.values()
        )
    return answer(
        request,
        standing,
        new_draft(standing, known_kind(asked["kind"]), asked, _units(request, asked)),
        open_key=asked.get("open", ""),
    )


@router.post("/new")
def make_attachment(request: Request, db: Db, job: JobHere, form: Form) -> Response:
    """Check what was typed, or keep it as a new attachment."""
    standing = _standing(db, job.id)
    return _posted(
        request, db, standing, new_draft(standing, known_kind(form.get("kind", "")), form, form.system()), form
    )


@router.get("/{tag}")
def show_attachment(request: Request, db: Db, job: JobHere, tag: str, asked: Asked) -> Response:
    """An attachment with its verdict, drawing and working; values in the address are filled in, not kept."""
    with reading(db) as session:
        standing, row = stand(session, job.id), attachments.find(session, job.id, tag)
        set_out = setting_out.of_attachment(session, standing, row)
    draft = draft_of(row, asked, _units(request, asked))
    line = line_of(job.id, row.wall_id, set_out, draft.units)
    return answer(request, standing, draft, open_key=asked.get("open", ""), set_out=line)


@router.post("/{tag}")
def change_attachment(request: Request, db: Db, job: JobHere, tag: str, form: Form) -> Response:
    """Check what was typed, or keep it."""
    with reading(db) as session:
        standing, row = stand(session, job.id), attachments.find(session, job.id, tag)
    return _posted(request, db, standing, draft_of(row, form, form.system()), form)


def _units(request: Request, asked: Posted) -> System:
    """The reader's units; those an address was written in while it fills a form in."""
    return asked.system() if asked else system(request)


def _posted(request: Request, db: Db, standing: Standing, draft: Draft, form: Form) -> Response:
    if form.get("do") != "save":
        return answer(request, standing, draft)
    job_id = standing.job.id

    def save() -> Response:
        tag = attachments.save(db, job_id, draft.typed(), draft.tag, form.version())
        return lead_on(f"/jobs/{job_id}/attachments/{tag}", f"{tag} is kept.")

    def kept_now() -> tuple[int, dict[str, str]]:
        with reading(db) as session:
            current = attachments.find(session, job_id, draft.tag)
        shown = draft_of(current, {}, draft.units).shown(standing, {})
        return current.version, differing(draft.raw, {n: t for n, t in shown.items() if n in draft.raw})

    return save_or_show(save, lambda **again: answer(request, standing, draft, **again), kept_now)


@router.post("/{tag}/delete")
def delete_attachment(db: Db, job: JobHere, tag: str) -> Response:
    """Put an attachment away."""
    attachments.put_away(db, job.id, tag)
    return lead_on(f"/jobs/{job.id}", f"{tag} is deleted.", f"/jobs/{job.id}/attachments/{tag}/restore")


@router.post("/{tag}/restore")
def restore_attachment(db: Db, job: JobHere, tag: str) -> Response:
    """Bring it back."""
    try:
        attachments.bring_back(db, job.id, tag)
    except Refused as refused:
        return lead_on(f"/jobs/{job.id}", str(refused))
    return lead_on(f"/jobs/{job.id}", f"{tag} is back.")
