"""The attachment page put together: what was typed or kept, its check, the form beside the result."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from fastapi import Request
from starlette.responses import Response

from engine.attachments import Kind, kind
from engine.errors import BadInput
from engine.fields import specs
from engine.job import Checked
from engine.solve import Remedy
from engine.units import System
from webapp.forms import attachment as forms
from webapp.models import Attachment
from webapp.pages import results
from webapp.pages.saving import differing
from webapp.pages.view import page, system, with_query
from webapp.services import attachments
from webapp.services.refusals import Missing
from webapp.services.standing import Standing

Texts = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Draft:
    """An attachment as it stands in its form.

    Args: inputs, place: texts with their units. units: the system they are shown in. raw: what was typed, shown again as
    typed. tag: "" for a new one. filled_in: something typed is not kept yet.
    """

    kind: Kind
    inputs: Texts
    place: Texts
    units: System
    raw: Texts
    tag: str = ""
    version: int = 0
    filled_in: bool = False

    def typed(self) -> attachments.Typed:
        """For the service."""
        wall = self.place.get("wall", "")
        return attachments.Typed(
            self.kind.key,
            int(wall) if wall.isdecimal() and len(wall) < 10 else 0,
            self.place.get("level", "1"),
            self.place.get("start_ft", ""),
            self.place.get("end_ft", ""),
            self.inputs,
        )

    def shown(self, standing: Standing, inherited: Texts | None = None) -> dict[str, str]:
        """All texts as the form shows them; what was typed stays as typed."""
        known = (*forms.place_specs(self.kind, _walls(standing)), *specs(self.kind.inputs))
        kept = {**self.inputs, **{forms.PLACE + name: text for name, text in self.place.items()}}
        values = forms.as_shown(known, kept, inherited or {}, self.units)
        return values | {n: t for n, t in self.raw.items() if n in values and n not in (inherited or {})}

    def differing(self, current: "Draft") -> dict[str, str]:
        """By field, what is kept now where something else was typed."""
        now = {**current.inputs, **{forms.PLACE + n: t for n, t in current.place.items()}}
        shown = forms.as_shown(specs(self.kind.inputs), now, {}, self.units) | {
            n: t for n, t in now.items() if n.startswith(forms.PLACE)
        }
        return differing(self.raw, {n: t for n, t in shown.items() if n in self.raw})


def known_kind(key: str) -> Kind:
    """The kind of that key. Raises: Missing for one this program has not."""
    try:
        return kind(key)
    except BadInput:
        raise Missing from None


def _walls(standing: Standing) -> list[tuple[int, str]]:
    return [(row.id, row.name) for row in standing.walls.values()]


def new_draft(standing: Standing, chosen: Kind, texts: Texts) -> Draft:
    """A new attachment: the kind's defaults, on the wall chosen or the first and its whole length, overlaid with what was typed."""
    chosen_id = texts.get(f"{forms.PLACE}wall", "")
    first = next(
        (w for w in standing.walls.values() if str(w.id) == chosen_id), next(iter(standing.walls.values()), None)
    )
    place = {
        "wall": str(first.id) if first else "",
        "level": "1",
        "start_ft": "0 ft",
        "end_ft": "" if chosen.point or first is None else first.line.get("length_ft", ""),
    }
    return _overlaid(Draft(chosen, forms.defaults(chosen), place, _units(texts), {}), texts)


def draft_of(standing: Standing, row: Attachment, texts: Texts) -> Draft:
    """A kept attachment, overlaid with what was typed."""
    chosen = known_kind(row.kind)
    inputs = forms.defaults(chosen) | row.inputs
    place = {"wall": str(row.wall_id), "level": str(row.level), "start_ft": row.start, "end_ft": row.end}
    draft = Draft(chosen, inputs, place, _units(texts), {}, row.tag, row.version)
    return _overlaid(draft, texts)


def _units(texts: Texts) -> System:
    return "mm" if texts.get("units") == "mm" else "ft in"


def _overlaid(draft: Draft, texts: Texts) -> Draft:
    known = {s.name for s in specs(draft.kind.inputs)}
    raw = {n: t for n, t in texts.items() if n in known or n.startswith(forms.PLACE)}
    if not raw:
        return draft
    return replace(
        draft,
        inputs=forms.kept_inputs(draft.kind.key, raw, draft.units, draft.inputs),
        place=forms.kept_place(draft.kind, raw, draft.units, draft.place),
        raw=raw,
        filled_in=True,
    )


def answer(
    request: Request,
    standing: Standing,
    draft: Draft,
    errors: Texts | None = None,
    status: int = 200,
    version: int | None = None,
    heading: str = "",
    open_key: str = "",
) -> Response:
    """The page, or for a script the result alone."""
    if request.method == "GET" and not draft.raw:
        draft = replace(draft, units=system(request))
    checked = attachments.check(standing, draft.typed(), draft.tag)
    refused = forms.place_errors(checked.refused)
    sheet = _sheet(
        standing, draft, checked, forms.place_errors(errors or {}) or (refused if draft.raw else {}), version
    )
    wall = standing.walls.get(draft.typed().wall_id)
    shown = results.context(
        request,
        draft.kind.key,
        checked,
        draft.units,
        lambda remedy: _use(standing, draft, remedy),
        open_key=open_key,
        tag=draft.tag or results.NO_TAG,
        title=f"Section across wall {wall.name}, floor level {draft.place['level']}" if wall else "",
    )
    return page(
        request,
        "pages/attachment.html",
        part=results.part(request),
        status=status,
        job=standing.job,
        form=sheet,
        labels=sheet.labels,
        draft=draft,
        wall=wall,
        heading=heading,
        **shown | {"refused": refused, "units": draft.units},
    )


def _address(standing: Standing, draft: Draft) -> str:
    return f"/jobs/{standing.job.id}/attachments/{draft.tag or 'new'}"


def _sheet(standing: Standing, draft: Draft, checked: Checked, errors: Texts, version: int | None) -> forms.Sheet:
    place = forms.place_specs(draft.kind, _walls(standing))
    known = (*place, *specs(draft.kind.inputs))
    wall = standing.walls.get(draft.typed().wall_id)
    values = draft.shown(standing, checked.inherited)
    source = {
        s.name: "from the job" if s.wall.startswith("job.") else f"from wall {wall.name if wall else ''}" for s in known
    }
    hidden = {
        "kind": draft.kind.key,
        "units": draft.units,
        "version": str(draft.version if version is None else version),
    }
    kept = {**draft.inputs, **checked.inherited, **{forms.PLACE + n: t for n, t in draft.place.items()}}
    return forms.Sheet(
        "attachment",
        _address(standing, draft),
        "post",
        known,
        values,
        _address(standing, draft),
        hidden,
        errors,
        {name: source[name] for name in checked.inherited},
        forms.summaries(known, kept, draft.units),
    )


def _use(standing: Standing, draft: Draft, remedy: Remedy) -> str:
    """Where a remedy is filled in: in this form, or in the form of the wall type it belongs to."""
    if not remedy.wall:
        changed = forms.overridden(draft.shown(standing), _in_units(remedy, draft.units))
        return with_query(_address(standing, draft), {"kind": draft.kind.key, "units": draft.units, **changed})
    side, _, name = remedy.specs[0].wall.partition(".")
    wall = standing.plan.walls.get(_wall_name(standing, draft))
    if len(remedy.specs) != 1 or wall is None or side not in ("lower", "upper"):
        return ""
    at = min(int(draft.place["level"]), len(wall.storeys)) - (1 if side == "lower" else 0)
    storey = wall.storeys[min(at, len(wall.storeys) - 1)]
    row = next(row for row in standing.types if row.name == storey.type)
    return with_query(
        f"/jobs/{standing.job.id}/types/{row.id}", {name: next(iter(remedy.changes.values())), "units": "ft in"}
    )


def _wall_name(standing: Standing, draft: Draft) -> str:
    row = standing.walls.get(draft.typed().wall_id)
    return row.name if row else ""


def _in_units(remedy: Remedy, units: System) -> dict[str, str]:
    from webapp.forms.quantities import shown

    return {s.name: shown(s, remedy.changes[s.name], units) for s in remedy.specs}
