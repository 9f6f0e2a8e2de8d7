"""The office's hold points: what is looked at before, while and after concrete is placed, and in which order."""

from collections.abc import Mapping

from fastapi import APIRouter, Request
from starlette.responses import Response

from engine.placing import HOLD_POINTS
from webapp.forms import hold_points as forms
from webapp.pages.ask import Db, Form, SeenHere
from webapp.pages.saving import save_or_show
from webapp.pages.view import lead_on, page
from webapp.services import placing
from webapp.store import Database, reading

router = APIRouter(prefix="/office/hold-points", include_in_schema=False)
ADDRESS = "/office/hold-points"


def _kept(db: Database, office_id: int) -> tuple[int, forms.Rows, bool]:
    with reading(db) as session:
        version, points, own = placing.kept_points(session, office_id)
    return version, forms.rows_of(points), own


@router.get("")
def hold_points_page(request: Request, db: Db, seen: SeenHere) -> Response:
    """The list in its form."""
    version, rows, own = _kept(db, seen.office_id)
    said = "The office's own list." if own else "The published list, until the office changes it."
    return _form(request, rows, version, note=said)


@router.post("")
def keep_hold_points(request: Request, db: Db, seen: SeenHere, form: Form) -> Response:
    """Keep the list, or show it with a row added, moved or taken away."""
    rows = forms.typed(form)
    if form.get("do") == "published":
        return _form(request, forms.rows_of(HOLD_POINTS), form.version(), note="The published list. Save keeps it.")
    changed = forms.changed(rows, form.get("do", ""))
    if changed is not None:
        return _form(request, changed, form.version())

    def save() -> Response:
        placing.save_points(db, seen.office_id, rows, form.version())
        return lead_on(ADDRESS, "The hold points are kept.")

    def kept_now() -> tuple[int, dict[str, str]]:
        version, now, _ = _kept(db, seen.office_id)
        return version, {} if now == rows else {"": f"Kept now: {'; '.join(row['words'] for row in now)}."}

    def again(errors: Mapping[str, str], **more: object) -> Response:
        version = more.get("version")
        return _form(
            request, rows, version if isinstance(version, int) else form.version(), forms.named(errors),
            status=more["status"] if isinstance(more["status"], int) else 422, heading=str(more.get("heading", "")),
        )  # fmt: skip

    return save_or_show(save, again, kept_now)


def _form(
    request: Request,
    rows: forms.Rows,
    version: int,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
    heading: str = "",
    note: str = "Filled in, not kept yet: Save keeps it.",
) -> Response:
    specs = [forms.fields_of(number) for number in range(len(rows))]
    labels = {s.name: f"Point {number}, {s.label.lower()}" for number, row in enumerate(specs, 1) for s in row}
    return page(
        request,
        "pages/hold_points.html",
        status=status,
        rows=list(zip(specs, rows, strict=True)),
        version=version,
        errors=dict(errors or {}),
        labels=labels,
        heading=heading,
        note=note,
    )
