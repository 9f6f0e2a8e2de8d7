"""The approvals log: of the office, found by words and days; of a job, with what each approval still covers."""

from collections.abc import Iterable, Iterator, Mapping
from tempfile import SpooledTemporaryFile
from typing import Annotated, TextIO, cast

from fastapi import APIRouter, Depends, Request
from starlette.responses import Response, StreamingResponse

from webapp.documents import csv_text
from webapp.models import Job, LogEntry
from webapp.pages.ask import Db, Id, JobHere, SeenHere, Uploaded
from webapp.pages.view import lead_on, page, with_query
from webapp.permissions import ANYONE, allowed
from webapp.services import approvals, log, log_search, revisions
from webapp.services.log_search import Sought
from webapp.services.refusals import Refused
from webapp.services.sign_in import Seen
from webapp.store import Database, reading
from webapp.submission.document import short

router = APIRouter(include_in_schema=False)
COLUMNS = (
    "row", "at (UTC)", "device time", "what", "who", "role", "authority", "permit", "words", "conditions", "job", "revision",
    "fingerprint", "places", "files", "corrects", "row before", "hash",
)  # fmt: skip
MOST_IN_MEMORY, PART = 1 << 20, 1 << 16  # signs
SAFE_MEDIA = ("application/pdf", "image/jpeg", "image/png", "text/plain")


def sought(
    q: str = "",
    what: str = "",
    since: str = "",
    until: str = "",
    authority: str = "",
    permit: str = "",
    before: str = "",
) -> Sought:
    """What the log is asked for."""
    q, what, since, until, authority, permit = (
        text.replace("\x00", "")[:120] for text in (q, what, since, until, authority, permit)
    )
    number = int(before) if before.isdecimal() and len(before) < 12 else 0
    return Sought(q, what, since, until, authority, permit, before=number)


Asked = Annotated[Sought, Depends(sought)]


@router.get("/log")
def office_log(request: Request, db: Db, seen: SeenHere, asked: Asked) -> Response:
    """Rows of the whole office."""
    errors = log_search.wrong(asked)
    with reading(db) as session:
        found = log_search.Found(()) if errors else log_search.search(session, seen.office_id, asked)
        rows, head = log.head(session, seen.office_id)
    asks = _asks(asked)
    return page(
        request, "pages/log.html", part="pages/parts/log_rows.html", status=422 if errors else 200, found=found, asked=asked,
        errors=errors, kinds=log.KINDS, rows=rows, head=head, short=short, jobs=True, covers={},
        more=with_query("/log", asks | {"before": found.before}) if found.before else "", csv=with_query("/log.csv", asks),
    )  # fmt: skip


def _asks(asked: Sought) -> dict[str, str]:
    return {name: getattr(asked, name) for name in ("q", "what", "since", "until", "authority", "permit")}


@router.get("/log.csv")
def office_csv(db: Db, seen: SeenHere, asked: Asked) -> Response:
    """All that is found, as a table."""
    with reading(db) as session:
        rows = () if log_search.wrong(asked) else log_search.everything(session, seen.office_id, asked)
        count, head = log.head(session, seen.office_id)
        return _csv(rows, "log.csv", f"{seen.office}: {count} rows, head {head}")


def _csv(rows: Iterable[LogEntry], name: str, *notes: str) -> Response:
    """Written whole before it is sent, so that no slow reader holds the database; a long one on the disk, not in memory."""
    records = (
        (
            e.seq, log.utc(e.at), e.device_at, log.KINDS.get(e.what, e.what), e.who, e.role, e.authority, e.permit, e.words,
            e.conditions, e.job_name, e.revision, e.fingerprint, ", ".join(e.places), ", ".join(f["name"] for f in e.files),
            e.corrects or "", e.before, e.hash,
        )
        for e in rows
    )  # fmt: skip
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    file = SpooledTemporaryFile(MOST_IN_MEMORY, "w+", encoding="utf-8", newline="")  # noqa: SIM115  closed when it is sent
    csv_text.write_into(cast(TextIO, file), COLUMNS, records, *notes)
    file.seek(0)
    return StreamingResponse(_parts(file), media_type="text/csv; charset=utf-8", headers=headers)


def _parts(file: "SpooledTemporaryFile[str]") -> Iterator[str]:
    with file:
        while part := file.read(PART):
            yield part


@router.get("/jobs/{job_id}/log")
def job_log(request: Request, db: Db, job: JobHere, seen: SeenHere) -> Response:
    """A job's rows, what its approvals still cover, and a form for what the office logs."""
    return _job_log(request, db, job, seen)


def _job_log(
    request: Request, db: Database, job: Job, seen: Seen, values: Mapping[str, str] | None = None,
    errors: Mapping[str, str] | None = None,
) -> Response:  # fmt: skip
    with reading(db) as session:
        entries = log.of_job(session, job.id)
        covers = approvals.covers(session, job.id, entries)
        submitted = revisions.of_job(session, job.id)
    return page(
        request, "pages/job_log.html", status=422 if errors else 200, job=job, found=log_search.Found(tuple(entries)),
        covers=covers, revisions=submitted, values=values or {}, errors=errors or {}, kinds=log.KINDS, short=short, jobs=False,
        may=seen.role in (allowed("POST", "/jobs/{job_id}/log") or ANYONE), more="",
    )  # fmt: skip


@router.get("/jobs/{job_id}/log.csv")
def job_csv(db: Db, job: JobHere) -> Response:
    """The same as a table."""
    with reading(db) as session:
        return _csv(log.of_job(session, job.id), "job-log.csv", job.name)


@router.post("/jobs/{job_id}/log")
def add(request: Request, db: Db, job: JobHere, seen: SeenHere, form: Uploaded) -> Response:
    """Log an approval, a permit or a note."""
    uploads = [approvals.Upload(f.name, f.media, f.data) for f in form.files]
    try:
        number = approvals.record(db, seen, job.id, form, uploads)
    except Refused as refused:
        errors = {name or "what": message for name, message in refused.errors.items()}
        return _job_log(request, db, job, seen, form, errors)
    return lead_on(
        f"/jobs/{job.id}/log",
        f"Logged as row {number}. Rows are never changed; a mistake is put right by a row of its own.",
    )


@router.post("/jobs/{job_id}/log/{seq}/correct")
def correct(request: Request, db: Db, job: JobHere, seen: SeenHere, seq: Id, form: Uploaded) -> Response:
    """Put an earlier row right by a new one."""
    try:
        number = approvals.record(db, seen, job.id, form, corrects=seq)
    except Refused as refused:
        return _job_log(request, db, job, seen, form, refused.errors)
    return lead_on(f"/jobs/{job.id}/log", f"Row {number} corrects row {seq}.")


@router.get("/log/files/{sha256}")
def kept_file(db: Db, seen: SeenHere, sha256: str) -> Response:
    """A file the log names, as a download; never shown as a page of this program."""
    with reading(db) as session:
        row = approvals.kept_file(session, seen.office_id, sha256)
        data, name = row.data, row.name
    plain = (
        "".join(sign if sign.isascii() and (sign.isalnum() or sign in "-_.") else "-" for sign in name)[:80] or "file"
    )
    media = row.media if row.media in SAFE_MEDIA else "application/octet-stream"
    return Response(data, media_type=media, headers={"Content-Disposition": f'attachment; filename="{plain}"'})
