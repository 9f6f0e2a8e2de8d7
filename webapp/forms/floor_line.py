"""The form of a floor line: its name, its place on a wall, its joists and loads."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from engine import fields
from engine.fields import Spec, specs
from engine.floor import Floor
from engine.placed import Place
from engine.units import System
from webapp.forms.attachment import PLACE
from webapp.forms.quantities import default, keep_all, shown_all
from webapp.models import FloorLine
from webapp.services.floor_lines import Typed

Texts = Mapping[str, str]
OWN = specs(Floor)


def place_specs(walls: Iterable[tuple[int, str]]) -> tuple[Spec, ...]:
    """The fields of the place: the wall, the floor level, the stations."""
    options = tuple((str(wall_id), name) for wall_id, name in walls)
    wall = Spec(name=f"{PLACE}wall", label="Wall", group="Place", kind="choice", options=options)
    end = "Empty: on to the wall's far end."
    return wall, *(replace(s, name=PLACE + s.name, hint=end if s.name == "end_ft" else s.hint) for s in specs(Place))


@dataclass(frozen=True, slots=True)
class Draft:
    """What the form holds. Args: texts: under the form's names, with their units. raw: what was typed, shown again as typed."""

    name: str
    texts: Texts
    raw: Texts
    version: int = 0

    def typed(self) -> Typed:
        """For the service."""
        place = {name: self.texts.get(PLACE + name, "") for name in ("wall", "level", "start_ft", "end_ft")}
        wall = place["wall"]
        wall_id = int(wall) if wall.isdecimal() and len(wall) < 10 else 0
        return Typed(self.name, wall_id, place["level"], place["start_ft"], place["end_ft"], self.own())

    def own(self) -> dict[str, str]:
        """The floor's own texts that apply: an answer to what is no longer asked is not kept."""
        texts = {s.name: self.texts.get(s.name, "") for s in OWN}
        return {s.name: texts[s.name] for s in OWN if fields.applies(s, texts)}

    def shown(self, known: tuple[Spec, ...], system: System) -> dict[str, str]:
        """All texts as the form shows them."""
        values = shown_all(known, self.texts, system)
        return values | {name: text for name, text in self.raw.items() if name in values}


def new_draft(name: str, wall_id: int) -> Draft:
    """A new line: ordinary joists along the whole of a wall."""
    place = {"wall": str(wall_id), "level": "1", "start_ft": "0 ft", "end_ft": ""}
    return Draft(name, {s.name: default(s) for s in OWN} | _named(place), {})


def draft_of(row: FloorLine) -> Draft:
    """A kept line."""
    place = {"wall": str(row.wall_id), "level": str(row.level), "start_ft": row.start, "end_ft": row.end}
    return Draft(row.name, {s.name: default(s) for s in OWN} | row.inputs | _named(place), {}, row.version)


def _named(place: Texts) -> dict[str, str]:
    return {PLACE + name: text for name, text in place.items()}


def overlaid(draft: Draft, form: Texts, known: tuple[Spec, ...], system: System) -> Draft:
    """A draft with what came back typed over it."""
    raw = {s.name: form[s.name] for s in known if s.name in form}
    kept = keep_all(known, raw, system, draft.texts)
    return replace(draft, name=form.get("name", draft.name), texts={**draft.texts, **kept}, raw=raw)


def errors(found: Texts) -> dict[str, str]:
    """Messages under the form's names."""
    at = {s.name for s in specs(Place)} | {"wall"}
    return {(PLACE + name if name in at else name or "name"): message for name, message in found.items()}
