"""The attachment page put together: the form beside the result of its check."""

from collections.abc import Mapping
from typing import Any

from fastapi import Request
from starlette.responses import Response

from engine.job import Checked
from engine.solve import Remedy
from webapp.forms import attachment as forms
from webapp.forms.draft import Draft
from webapp.forms.quantities import shown
from webapp.pages import results
from webapp.pages.view import page, wants_part, with_query
from webapp.services import attachments
from webapp.services.standing import Standing

Texts = Mapping[str, str]
SECTION = "Section across"
VIEWS = {"gable_end": "Gable over"}  # what a kind's drawing is, where it is no section


def answer(
    request: Request,
    standing: Standing,
    draft: Draft,
    errors: Texts | None = None,
    status: int = 200,
    version: int | None = None,
    heading: str = "",
    open_key: str = "",
    set_out: Mapping[str, Any] | None = None,
) -> Response:
    """The page, or for a script the result alone. Args: set_out: see `partials/set_out_line.html`."""
    checked = attachments.check(standing, draft.typed(), draft.tag)
    refused = forms.place_errors(checked.refused)
    said = forms.place_errors(errors or {}) or (refused if draft.raw else {})
    sheet = _sheet(standing, draft, checked, said, draft.version if version is None else version)
    return page(
        request,
        "pages/attachment.html",
        part=results.part(request),
        status=status,
        job=standing.job,
        form=sheet,
        labels=sheet.labels,
        fields=None if wants_part(request) else results.fields(request, sheet, draft.units),
        draft=draft,
        wall=standing.walls.get(draft.wall_id),
        heading=heading,
        set_out=set_out,
        **_result(request, standing, draft, checked, open_key) | {"refused": refused, "units": draft.units},
    )


def _result(request: Request, standing: Standing, draft: Draft, checked: Checked, open_key: str) -> dict[str, Any]:
    wall = standing.walls.get(draft.wall_id)
    return results.context(
        request,
        draft.kind.key,
        checked,
        draft.units,
        lambda remedy: _use(standing, draft, remedy),
        open_key=open_key,
        tag=draft.tag or results.NO_TAG,
        title=f"{VIEWS.get(draft.kind.key, SECTION)} wall {wall.name}, floor level {draft.place['level']}"
        if wall
        else "",
        csv=f"{_address(standing, draft)}/cut-list.csv" if draft.tag else "",
    )


def _address(standing: Standing, draft: Draft) -> str:
    return f"/jobs/{standing.job.id}/attachments/{draft.tag or 'new'}"


def _sheet(standing: Standing, draft: Draft, checked: Checked, errors: Texts, version: int) -> forms.Sheet:
    known = draft.specs(standing)
    address = _address(standing, draft)
    return forms.Sheet(
        "attachment",
        address,
        "post",
        known,
        draft.shown(standing, checked.inherited),
        address,
        {"kind": draft.kind.key, "units": draft.units, "version": str(version)},
        errors,
        {s.name: _source(standing, draft, s.wall) for s in known if s.name in checked.inherited},
        forms.summaries(known, {**draft.kept, **checked.inherited}, draft.units),
    )


def _source(standing: Standing, draft: Draft, fact: str) -> str:
    """Where a number comes from that the attachment does not own."""
    if fact == "job.today":
        return "today"
    wall = standing.walls.get(draft.wall_id)
    return "from the job" if fact.startswith("job.") or wall is None else f"from wall {wall.name}"


def _use(standing: Standing, draft: Draft, remedy: Remedy) -> str:
    """Where a remedy is filled in: in this form, or in the form of the wall type it belongs to; "" for neither."""
    if remedy.wall:
        return _use_in_type(standing, draft, remedy)
    changes = {s.name: shown(s, remedy.changes[s.name], draft.units) for s in remedy.specs}
    texts = forms.overridden(draft.shown(standing, {}), changes)
    return with_query(_address(standing, draft), {"kind": draft.kind.key, "units": draft.units, **texts})


def _use_in_type(standing: Standing, draft: Draft, remedy: Remedy) -> str:
    row = standing.walls.get(draft.wall_id)
    wall = standing.plan.walls.get(row.name) if row else None
    side, _, name = remedy.specs[0].wall.partition(".")
    if len(remedy.specs) != 1 or wall is None or side not in ("lower", "upper"):
        return ""
    storey = int(draft.place["level"]) - (1 if side == "lower" else 0)
    used = wall.storeys[min(storey, len(wall.storeys) - 1)].type
    type_id = next(row.id for row in standing.types if row.name == used)
    text = next(iter(remedy.changes.values()))
    return with_query(f"/jobs/{standing.job.id}/types/{type_id}", {name: text, "units": "ft in"})
