"""Orders of this program's pages: a revision, a job as it stands, rows of the log; told apart without reading what they hold."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from engine import VERSION, fields, job_file
from engine.placing import write_hold_points
from engine.review import STAGES
from webapp.models import Job, LogEntry, Revision
from webapp.package.order import Order
from webapp.services import checklists, designs, log, offices, placing, revisions
from webapp.services.clock import today
from webapp.services.standing import stand, whole
from webapp.store import Database, reading

MOST_ROWS = 3000  # of the log on paper; the table has all
Made = tuple[Order, Callable[[], Order]]


def of_revision(db: Database, job: Job, row: Revision, origin: str) -> Made:
    """A revision's package: its order without the document, and how the document is added."""
    with reading(db) as session:
        entry = next(
            (e for e in reversed(log.of_job(session, job.id)) if e.revision_id == row.id and e.what == "submitted"),
            None,
        )
    cover = [
        ["Revision", f"{row.letter}, submitted {day(row.made_at)} by {row.by_name}"],
        *([["Note", row.note]] if row.note else []),
        *([["Logged as", f"row {entry.seq}, {entry.hash}"]] if entry else []),
    ]
    stamp = {
        "job": job.name, "revision": f"{row.letter}, submitted {day(row.made_at)}", "fingerprint": row.fingerprint,
        "edition": row.edition, "made_at": row.made_at.isoformat(), "cover": cover, "origin": origin,
    }  # fmt: skip
    order = Order("revision", stamp)

    def load() -> Order:
        with reading(db) as session:
            document = revisions.document(revisions.find(session, job.id, row.number))
            kept = checklists.kept_all(session, job.office_id, row.made_at)
        return replace(order, content=document, lists=_lists(kept))

    return order, load


def of_draft(db: Database, job: Job, origin: str) -> Made:
    """A job as it stands, marked a draft."""
    with reading(db) as session:
        office = offices.office(session, job.office_id)
        habits, points = fields.write(offices.habits(office)), write_hold_points(placing.points_of(office))
    covers = designs.as_frozen(db, job.id)
    stamp = {
        "job": job.name, "revision": f"draft of {day(job.updated_at)}", "fingerprint": "", "edition": job.edition,
        "made_at": job.updated_at.isoformat(), "cover": [["Revision", "none until submitted"]], "origin": origin,
        "state": [job.id, job.changes, today(), habits, covers, points],
    }  # fmt: skip
    order = Order("draft", stamp)

    def load() -> Order:
        with reading(db) as session:
            text = job_file.write(whole(session, stand(session, job.id)))
            kept = checklists.kept_all(session, job.office_id)
        content = {"job": text, "today": today(), "habits": habits, "designs": covers, "points": points}
        return replace(order, content=content, lists=_lists(kept))

    return order, load


def of_file(text: str, habits: Mapping[str, str], origin: str = "") -> Order:
    """A job file's package, a draft. Args: habits: of setting out. Raises: BadJobFile."""
    job = job_file.read(text)
    stamp = {
        "job": job.name, "revision": "draft of a job file", "fingerprint": "", "edition": job.edition, "made_at": "1970-01-01",
        "cover": [["Revision", "none until submitted"]], "origin": origin,
    }  # fmt: skip
    content = {"job": text, "today": today(), "habits": dict(habits), "designs": []}
    return Order("draft", stamp, content, published())


def published() -> tuple[Mapping[str, Any], ...]:
    """The checklists as the program brings them."""
    return tuple(
        {"kind": kind, "stage": stage, "rows": list(checklists.published(kind, stage))}
        for kind in checklists.KINDS for stage in STAGES
    )  # fmt: skip


def _lists(kept: Mapping[tuple[str, str], checklists.Kept]) -> tuple[Mapping[str, Any], ...]:
    return tuple({"kind": one.kind, "stage": one.stage, "rows": list(one.rows)} for one in kept.values())


def of_log(entries: Sequence[LogEntry], title: str, said: str, head: tuple[int, str], edition: str = "") -> Order:
    """Rows of the log. Args: said: which rows these are. head: the last row's number and hash."""
    rows = [_row(entry) for entry in entries[:MOST_ROWS]]
    more = f" Only the latest {MOST_ROWS:,} are printed; the table has all." if len(entries) > MOST_ROWS else ""
    content = {"title": title, "said": f"{said}{more}", "rows": rows, "rows_in_all": head[0], "head": head[1]}
    last = max((entry.at for entry in entries), default=None)
    stamp = {
        "job": title, "revision": f"log at row {head[0]}", "fingerprint": "", "edition": edition or "none",
        "made_at": last.isoformat() if last else "1970-01-01", "origin": "", "head": head[1],
        "state": [said, [row["hash"] for row in rows], VERSION],
    }  # fmt: skip
    return Order("log", stamp, content)


def _row(entry: LogEntry) -> dict[str, Any]:
    facts = (
        ("Job", f"{entry.job_name}{', revision ' + entry.revision if entry.revision else ''}"), ("Words", entry.words),
        ("Authority", entry.authority), ("Permit", entry.permit), ("Conditions", entry.conditions),
        ("Places", ", ".join(entry.places)), ("Fingerprint", entry.fingerprint), ("Device time", entry.device_at),
        ("Files", "; ".join(f"{file['name']}, SHA-256 {file['sha256']}" for file in entry.files)),
        ("Corrects", f"row {entry.corrects}" if entry.corrects else ""),
    )  # fmt: skip
    return {
        "seq": str(entry.seq), "at": log.utc(entry.at), "what": log.KINDS.get(entry.what, entry.what),
        "who": f"{entry.who}, {entry.role}", "facts": [[name, value] for name, value in facts if value], "hash": entry.hash,
    }  # fmt: skip


def day(moment: Any) -> str:
    """A day in words: "27 May 2026"."""
    return f"{moment.day} {moment:%B %Y}"
