"""Spreadsheets into a job: pasted or chosen, shown as they would be kept, and kept whole or not at all.

Nothing is stored between preview and import: the sheet's text and its matching travel in the form, and are read again.
"""

from dataclasses import dataclass
from itertools import islice
from typing import Annotated

from fastapi import APIRouter, Depends, Request
from starlette.datastructures import UploadFile
from starlette.responses import Response

from engine.fields import Spec
from webapp.documents import csv_text
from webapp.filters import in_groups
from webapp.forms.quantities import default, reader_unit, shown
from webapp.imports.columns import Match, matched
from webapp.imports.examples import example
from webapp.imports.read import Review, review
from webapp.imports.sheets import Row, Table, Unreadable, read_text
from webapp.imports.subjects import Subject, subjects
from webapp.imports.workbook import read_file
from webapp.models import Job
from webapp.pages.ask import MOST_FIELDS, Asked, Db, JobHere, Posted, gathered
from webapp.pages.view import lead_on, page, system
from webapp.services import imports
from webapp.services.refusals import Missing, Refused
from webapp.store import Database

router = APIRouter(prefix="/jobs/{job_id}/import", include_in_schema=False)
BAD_SHOWN, GOOD_SHOWN, PROBLEMS_SHOWN, LONGEST_WHERE = 50, 10, 12, 300
LISTS = {"walls": "/walls", "openings": "/walls", "floor_lines": "/floor-lines"}


@dataclass(frozen=True, slots=True)
class Upload:
    """A form with a file, which may be empty."""

    form: Posted
    file: bytes


async def uploaded(request: Request) -> Upload:
    """The form of a POST with at most one file."""
    async with request.form(max_files=1, max_fields=MOST_FIELDS) as form:
        file = form.get("file")
        return Upload(gathered(list(form.multi_items())), await file.read() if isinstance(file, UploadFile) else b"")


Uploaded = Annotated[Upload, Depends(uploaded)]


@router.get("")
def import_form(request: Request, job: JobHere, asked: Asked) -> Response:
    """Where a sheet is pasted or chosen."""
    return _form(request, job, asked)


def _form(request: Request, job: Job, form: Posted, errors: dict[str, str] | None = None) -> Response:
    return page(
        request,
        "pages/import.html",
        status=422 if errors else 200,
        job=job,
        subjects=subjects().values(),
        what=form.get("what", ""),
        text=form.get("text", ""),
        sheet=form.get("sheet", ""),
        errors=errors or {},
    )


@router.get("/template.csv")
def template(request: Request, db: Db, job: JobHere, what: str = "walls") -> Response:
    """A sheet to fill in. Raises: Missing."""
    subject = subjects().get(what)
    if subject is None:
        raise Missing
    headings, row = example(subject, imports.state(db, job.id), system(request))
    name = subject.key.replace("_", "-")
    return Response(
        csv_text.write(headings, [row]),
        media_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}.csv"'},
    )


@router.post("")
def take(request: Request, db: Db, job: JobHere, upload: Uploaded) -> Response:
    """Show what a sheet would make, or give its rows back to be changed; or make it, when that was shown and every row holds."""
    form, subject = upload.form, subjects().get(upload.form.get("what", ""))
    if subject is None:
        return _form(request, job, form, {"what": "Choose what the rows are."})
    if form.get("do") == "change":
        return _form(request, job, form)
    try:
        table = _table(upload)
    except Unreadable as unreadable:
        return _form(request, job, form, {"file" if upload.file else "text": str(unreadable)})
    chosen = None
    if "matched" in form:
        chosen = [form.get(f"column-{number}", "") for number in range(len(table.headings))]
    matches = matched(table, subject, form.system(), chosen)
    refusal = ""
    if form.get("do") == "import" and form.get("matched") == _keys(matches):
        try:
            return _kept(db, job, subject, table, matches)
        except Refused as refused:
            refusal = str(refused)
    return _preview(request, job, review(subject, table, matches, imports.state(db, job.id)), form, refusal)


def _table(upload: Upload) -> Table:
    text = upload.form.get("text", "")
    if upload.file:
        if text.strip():
            raise Unreadable("Choose a file or paste rows, not both.")
        return read_file(upload.file, upload.form.get("sheet", "").strip())
    if not text.strip():
        raise Unreadable("Paste the rows with the headings above them, or choose a file.")
    return read_text(text, upload.form.get("parted", ""))


def _keys(matches: tuple[Match, ...]) -> str:
    return " ".join(match.key or "-" for match in matches)


def _kept(db: Database, job: Job, subject: Subject, table: Table, matches: tuple[Match, ...]) -> Response:
    count, change = imports.keep(
        db, job.id, lambda now: review(subject, table, matches, now).batch_or_refusal()
    )  # fmt: skip
    what = "attachments" if subject.kind else subject.key
    undo = f"/jobs/{job.id}/import/{what}/{change}/undo" if what in imports.MODELS else ""
    said = f"{subject.counted(count)} {'is' if count == 1 else 'are'} imported."
    return lead_on(f"/jobs/{job.id}{LISTS.get(what, '')}", said, undo)


def _preview(request: Request, job: Job, found: Review, form: Posted, refusal: str) -> Response:
    units = form.system()
    problems = list(found.problems())
    return page(
        request,
        "pages/import_preview.html",
        status=422 if refusal else 200,
        job=job,
        units=units,
        review=found,
        refusal=refusal,
        where=(found.table.where or form.get("where", "pasted"))[:LONGEST_WHERE],
        keys=_keys(found.matches),
        options=in_groups(target.spec for target in found.subject.targets),
        problems=problems[:PROBLEMS_SHOWN],
        more=len(problems) - PROBLEMS_SHOWN,
        rows=_rows(found),
        usual=[(found.subject.label(target.spec), _usual(target.spec, form)) for target in found.usual],
    )


def _usual(spec: Spec, form: Posted) -> str:
    text = shown(spec, default(spec), form.system())
    if spec.kind == "choice":
        return dict(spec.options).get(text, text)
    return f"{text} {reader_unit(spec.unit, form.system())}" if spec.kind == "number" else text


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of the preview."""

    text: str
    error: str = ""


@dataclass(frozen=True, slots=True)
class Shown:
    """A row of the preview. Args: errors: about inputs the sheet has no column for."""

    number: int
    cells: tuple[Cell, ...]
    errors: tuple[str, ...] = ()


def _rows(found: Review) -> list[Shown]:
    """The first rows that do not hold, then the first that do."""
    first = [*islice(found.rows(good=False), BAD_SHOWN), *islice(found.rows(good=True), GOOD_SHOWN)]
    return [_row(found, row) for row in first]


def _row(found: Review, row: Row) -> Shown:
    wrong = found.wrong.get(row.number, {})
    cells = tuple(Cell(row.cells[match.column], wrong.get(match.key, "")) for match in found.taken)
    keys = {match.key for match in found.taken}
    labels = {target.key: found.subject.label(target.spec) for target in found.subject.targets}
    others = tuple(f"{labels.get(key, '')}: {text}".lstrip(": ") for key, text in wrong.items() if key not in keys)
    return Shown(row.number, cells, others)


@router.post("/{what}/{change}/undo")
def take_back(db: Db, job: JobHere, what: str, change: int) -> Response:
    """Put away what an import made."""
    there = f"/jobs/{job.id}{LISTS.get(what, '')}"
    try:
        count, marked = imports.put_away(db, job.id, what, change)
    except Refused as refused:
        return lead_on(there, str(refused))
    said = "1 row of the import is put away." if count == 1 else f"{count:,} rows of the import are put away."
    return lead_on(there, said, f"/jobs/{job.id}/import/{what}/{marked}/redo")


@router.post("/{what}/{change}/redo")
def bring_back(db: Db, job: JobHere, what: str, change: int) -> Response:
    """Bring them back."""
    there = f"/jobs/{job.id}{LISTS.get(what, '')}"
    try:
        count = imports.bring_back(db, job.id, what, change)
    except Refused as refused:
        return lead_on(there, str(refused))
    return lead_on(there, f"{count:,} of them {'is' if count == 1 else 'are'} back.")
