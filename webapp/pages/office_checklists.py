"""The office's checklists by kind and stage; a change is a new version, reviews keep the one of their day."""

import re
from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.review import STAGES
from webapp.pages.ask import Db, Form, Posted, SeenHere
from webapp.pages.saving import save_or_show
from webapp.pages.view import lead_on, page, with_query
from webapp.permissions import ANYONE, allowed
from webapp.services import checklists
from webapp.services.refusals import Missing
from webapp.services.sign_in import Seen
from webapp.store import reading

router = APIRouter(prefix="/office/checklists", include_in_schema=False)
ADDRESS = "/office/checklists"
ROW = re.compile(r"line-(\d{1,3})-(key|words|stop)")
BUTTON = re.compile(r"(up|down|drop)-(\d{1,3})|add")
MOST_ROWS = 60
Rows = list[dict[str, str]]


@router.get("")
def lists(request: Request, db: Db, seen: SeenHere, kind: str = "", stage: str = "") -> Response:
    """All lists; one of them in its form where kind and stage name it."""
    with reading(db) as session:
        found = checklists.kept_all(session, seen.office_id)
    if not kind:
        table = [(one, checklists.words_of(one), [found[one, stage] for stage in STAGES]) for one in checklists.KINDS]
        return page(request, "pages/office_checklists.html", table=table, stages=STAGES, with_query=with_query)
    if (kind, stage) not in found:
        raise Missing
    kept = found[kind, stage]
    return _form(request, seen, kind, stage, [dict(row) for row in kept.rows], kept.version, note=_note(kept))


def _note(kept: checklists.Kept) -> str:
    if not kept.version:
        return "The published list, until the office changes it."
    which = "The office's own list" if kept.own else "The published list again"
    return f"{which}, version {kept.version}, by {kept.by_name}."


@router.post("")
def keep(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep a list as its next version, or show it with a line added, moved or taken away."""
    kind, stage, rows = form.get("kind", ""), form.get("stage", ""), _typed(form)
    if kind not in checklists.KINDS or stage not in STAGES:
        raise Missing
    if form.get("do") == "published":
        published = [dict(row) for row in checklists.published(kind, stage)]
        return _form(request, seen, kind, stage, published, form.version(), note="The published list. Save keeps it.")
    if (changed := _changed(rows, form.get("do", ""))) is not None:
        return _form(
            request, seen, kind, stage, changed, form.version(), note="Filled in, not kept yet: Save keeps it."
        )

    def save() -> Response:
        checklists.save(db, seen, kind, stage, rows, form.version())
        return lead_on(ADDRESS, f"{checklists.words_of(kind)}, {stage}: kept. Revisions submitted from now on use it.")

    def kept_now() -> tuple[int, dict[str, str]]:
        with reading(db) as session:
            now = checklists.kept(session, seen.office_id, kind, stage)
        said = "; ".join(row["words"] for row in now.rows)
        return now.version, {"lines": f"Kept now: {said or 'nothing'}."}

    def again(errors: Mapping[str, str], **more: object) -> Response:
        version = more.get("version")
        return _form(
            request, seen, kind, stage, rows, version if isinstance(version, int) else form.version(), errors,
            status=more["status"] if isinstance(more["status"], int) else 422, heading=str(more.get("heading", "")),
        )  # fmt: skip

    return save_or_show(save, again, kept_now)


def _typed(form: Posted) -> Rows:
    """Lines as the form came back, those left empty dropped."""
    found: dict[int, dict[str, str]] = {}
    for name, text in form.items():
        if match := ROW.fullmatch(name):
            found.setdefault(int(match[1]), {})[match[2]] = text.strip()[:400]
    rows = [{"key": "", "words": "", "stop": "no"} | row for _, row in sorted(found.items())]
    return [row for row in rows if row["words"] or row["key"]][:MOST_ROWS]


def _changed(rows: Rows, do: str) -> Rows | None:
    """The lines with one added, moved or taken away, as a button asks; None for other buttons."""
    button = BUTTON.fullmatch(do)
    if not button:
        return None
    if do == "add":
        return [*rows, {"key": "", "words": "", "stop": "no"}]
    number = int(button[2])
    if number >= len(rows):
        return rows
    others = rows[:number] + rows[number + 1 :]
    if button[1] == "drop":
        return others
    to = max(number - 1, 0) if button[1] == "up" else number + 1
    return [*others[:to], rows[number], *others[to:]]


def _form(
    request: Request, seen: Seen, kind: str, stage: str, rows: Rows, version: int, errors: Mapping[str, str] | None = None,
    status: int = 200, heading: str = "", note: str = "",
) -> Response:  # fmt: skip
    return page(
        request, "pages/office_checklist.html", status=status, kind=kind, stage=stage, words=checklists.words_of(kind), rows=rows,
        version=version, errors=dict(errors or {}), heading=heading, note=note,
        may=seen.role in (allowed("POST", ADDRESS) or ANYONE),
    )  # fmt: skip
