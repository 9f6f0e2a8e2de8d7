"""An attachment as it stands in its form: kept, or typed over what is kept."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from engine.attachments import Kind, kind
from engine.errors import BadInput
from engine.fields import Spec, specs
from engine.units import System
from webapp.forms import attachment as forms
from webapp.models import Attachment
from webapp.services.attachments import Typed
from webapp.services.refusals import Missing
from webapp.services.standing import Standing

Texts = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Draft:
    """What the form holds.

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

    @property
    def wall_id(self) -> int:
        """The wall chosen; 0 for none."""
        wall = self.place.get("wall", "")
        return int(wall) if wall.isdecimal() and len(wall) < 10 else 0

    @property
    def kept(self) -> dict[str, str]:
        """All texts under the form's names."""
        return {**self.inputs, **{forms.PLACE + name: text for name, text in self.place.items()}}

    def typed(self) -> Typed:
        """For the service."""
        place = self.place
        return Typed(self.kind.key, self.wall_id, place["level"], place["start_ft"], place["end_ft"], self.inputs)

    def specs(self, standing: Standing) -> tuple[Spec, ...]:
        """The form's fields: the place, then the kind's own."""
        walls = [(row.id, row.name) for row in standing.walls.values()]
        return (*forms.place_specs(self.kind, walls), *specs(self.kind.inputs))

    def shown(self, standing: Standing, inherited: Texts) -> dict[str, str]:
        """All texts as the form shows them; what was typed stays as typed, what follows the wall is the wall's."""
        values = forms.as_shown(self.specs(standing), self.kept, inherited, self.units)
        return values | {n: t for n, t in self.raw.items() if n in values and n not in inherited}


def known_kind(key: str) -> Kind:
    """The kind of that key. Raises: Missing for one this program has not."""
    try:
        return kind(key)
    except BadInput:
        raise Missing from None


def new_draft(standing: Standing, chosen: Kind, texts: Texts, units: System) -> Draft:
    """A new attachment: the kind's defaults, on the wall chosen or the first and its whole length, overlaid with `texts`."""
    walls = list(standing.walls.values())
    wall = next((w for w in walls if str(w.id) == texts.get(f"{forms.PLACE}wall")), walls[0] if walls else None)
    length = "" if chosen.point or wall is None else wall.line.get("length_ft", "")
    place = {"wall": str(wall.id) if wall else "", "level": "1", "start_ft": "0 ft", "end_ft": length}
    return _overlaid(Draft(chosen, forms.defaults(chosen), place, units, {}), texts)


def draft_of(row: Attachment, texts: Texts, units: System) -> Draft:
    """A kept attachment, overlaid with what was typed. Raises: Missing for a kind this program has not."""
    chosen = known_kind(row.kind)
    place = {"wall": str(row.wall_id), "level": str(row.level), "start_ft": row.start, "end_ft": row.end}
    draft = Draft(chosen, forms.defaults(chosen) | row.inputs, place, units, {}, row.tag, row.version)
    return _overlaid(draft, texts)


def _overlaid(draft: Draft, texts: Texts) -> Draft:
    known = {s.name for s in specs(draft.kind.inputs)}
    raw = {n: t for n, t in texts.items() if n in known or n.startswith(forms.PLACE)}
    if not raw:
        return draft
    inputs = forms.kept_inputs(draft.kind.key, raw, draft.units, draft.inputs)
    place = forms.kept_place(draft.kind, raw, draft.units, draft.place)
    return replace(draft, inputs=inputs, place=place, raw=raw, filled_in=True)
